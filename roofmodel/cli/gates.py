"""The command that puts every gate to a method: number, limit, why, and what to do."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath, MethodName
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.result import Gate
from roofmodel.storage import safe_write
from roofmodel.workbench.facts import facts
from roofmodel.workbench.gates import gates as workbench_gates
from roofmodel.workbench.gates.gates import PRINTED

_LAMP = {
    Outcome.PASS: "green",
    Outcome.ASSUMED: "magenta",
    Outcome.NOT_CALCULABLE: "cyan",
    Outcome.MEASURE_AGAIN: "yellow",
    Outcome.FAIL: "red",
}
_INDENT = 16
"""Columns the outcome takes."""


def _print_blocks(asked: bool) -> None:  # noqa: FBT001 - typer's callback
    """Print the table of what blocks what, where it is asked for, and end."""
    if not asked:
        return
    shipped, console = blocks.shipped(), Console(highlight=False)
    for row in shipped.rows:
        console.print(Text(row.name, style="bold").append(f": {row.why}", style="not bold"))
        for binding, outcomes in row.at:
            words = f"{binding} at {' or '.join(outcomes)}"
            console.print(Padding(Text(words), (0, 0, 0, _INDENT // 2)))
    for binding, words in shipped.words:
        console.print(Text(binding.value, style="bold").append(f": {words}", style="not bold"))
    raise typer.Exit


def gates(  # noqa: PLR0913 - one argument for each option
    job: JobPath,
    *,
    method: MethodName = None,
    pack: Annotated[
        Path | None,
        typer.Option("--pack", metavar="FILE.pdf", help="Write the pack for building control."),
    ] = None,
    derivation: Annotated[
        bool, typer.Option("--derivation", help="Print how each figure was worked out.")
    ] = False,
    on: Annotated[
        str | None,
        typer.Option(help="Date on which prices are checked, YYYY-MM-DD; today if left out."),
    ] = None,
    as_json: AsJson = False,
    blocks_table: Annotated[  # noqa: ARG001 - printed by its callback, before a job is opened
        bool,
        typer.Option(
            "--blocks",
            is_eager=True,
            callback=_print_blocks,
            help="Print which gate blocks what, at which verdict, and end.",
        ),
    ] = False,
) -> None:
    """Test a method against every gate: result, source, and what to do if it fails."""
    today = opening.day(on)
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    answered = workbench_gates.gates(drawn, option, today=today)
    files = []
    if pack is not None:
        # Loaded when first wanted: the library of the pages would delay every answer.
        from roofmodel.drawings.sets import control_pack
        from roofmodel.workbench.gates import control_set

        paper = control_set.gather(drawn, answered, issued=today)
        safe_write.replace_bytes(pack, control_pack.content(paper))
        files.append(pack)
    if as_json:
        opening.print_json(
            {
                "job": opening.heading(drawn),
                **workbench_gates.figures(answered),
                "files": [str(file) for file in files],
                "findings": facts.of_findings(drawn.findings),
            }
        )
        return
    console = Console(highlight=False)
    console.print(Text(f"{option.method.printed}: {answered.words}", style="bold"))
    for check in answered.checks:
        _print(check, console, derivation=derivation)
    console.print(PRINTED)
    if files:
        report.written(files)


def _print(check: Gate, console: Console, *, derivation: bool) -> None:
    line = Text(f"{check.outcome:<{_INDENT}}", style=_LAMP[check.outcome])
    line.append(check.name, style="bold")
    console.print(line)
    said = [(check.reason, "default"), (check.remedy, "italic")]
    blocked = blocks.shipped().blocked_by(check)
    if blocked:
        said.append((f"Blocks: {', '.join(blocked)}.", "bold"))
    said.append((check.source_words, "dim"))
    if derivation:
        said += [(f"{name}: {words}", "dim") for name, words in check.details]
    for words, style in said:
        if words:
            console.print(Padding(Text(words, style=style), (0, 0, 0, _INDENT)))
