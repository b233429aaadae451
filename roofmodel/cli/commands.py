"""Which module holds which command, so that a command loads only what it needs itself.

`--help` and a mistyped command read this table and nothing else: the numeric libraries, the
drawing libraries and the rooms that stand on them are loaded when a command is carried out.
"""

import importlib
from dataclasses import dataclass
from typing import Any

import typer
from typer.core import TyperCommand, TyperGroup


@dataclass(frozen=True, slots=True)
class Entry:
    """One command: its name as typed, where it is, and the sentence the list of commands shows.

    ``place`` is a module of this room and the function or the group in it. The sentence is the
    first line of what stands there; a test compares the two.
    """

    name: str
    place: str
    sentence: str

    def load(self) -> Any:  # noqa: ANN401 - the classes typer makes its commands of are its own
        """Return the command itself; only now is its module imported."""
        module, name = self.place.split(":")
        made = getattr(importlib.import_module(f"roofmodel.cli.{module}"), name)
        if not isinstance(made, typer.Typer):
            alone = typer.Typer(add_completion=False, pretty_exceptions_enable=False)
            alone.command(self.name)(made)
            made = alone
        return typer.main.get_command(made)


ENTRIES = (
    Entry("check", "check:check", "Report errors and doubtful entries in a job file."),
    Entry(
        "facts",
        "facts:facts",
        "Print facets, lines, areas and angles of the roof, and the layers of the method.",
    ),
    Entry(
        "cut",
        "cut:cut",
        "How many deck sheets? Lay boards, nest them on sheets, write the cutting drawings.",
    ),
    Entry(
        "takeoff",
        "take_off:take_off",
        "How much of everything? Count every material of a method, with formula and geometry.",
    ),
    Entry(
        "gates",
        "gates:gates",
        "Test a method against every gate: result, source, and what to do if it fails.",
    ),
    Entry(
        "papers",
        "papers:papers",
        "Write the workshop's papers: DXF, drawings, lists and labels, all of them or none.",
    ),
    Entry(
        "release",
        "release:release",
        "Release a job for cutting, exactly as it is entered now, by name and day.",
    ),
    Entry(
        "revisions",
        "revisions:revisions_",
        "Say what changed between two revisions: parts, sheets, price, labels to bin.",
    ),
    Entry(
        "verify",
        "verify:verify",
        "Prove from drawings and lists alone that every piece of a roof is there once, cut right.",
    ),
    Entry(
        "offer",
        "offer:offer_",
        "Three prices: all three methods, the days on site, and the papers of the offer.",
    ),
    Entry(
        "lines",
        "job_lines:app",
        "Lines of one job: extras, overrides, choices, alternatives, sums, discount.",
    ),
    Entry(
        "estimate",
        "estimate:estimate",
        "Recalculate the prices of a saved estimate and compare them with those offered.",
    ),
    Entry(
        "together",
        "together:together",
        "Cut the same material for several jobs from shared sheets, and say which piece is whose.",
    ),
    Entry("rack", "rack:app", "The offcut rack."),
    Entry(
        "batch",
        "batch:batch",
        "Plan and price every job in a folder and its subfolders; a bad job does not stop "
        "the rest.",
    ),
    Entry(
        "handover",
        "handover:handover",
        "Print the handover pack: completion page, layers as built, photo list, care and "
        "snag list.",
    ),
    Entry(
        "actuals",
        "actuals:actuals",
        "Enter the actual hours and sheets of a finished job and compare them with norms "
        "and plans.",
    ),
    Entry(
        "catalogue",
        "catalogue:catalogue",
        "List the materials with their prices; say which prices are out of date or missing.",
    ),
    Entry(
        "prices",
        "prices:app",
        "Price lists in and out as CSV or XLSX, what prices were, how long they are good for.",
    ),
    Entry(
        "firm",
        "firm:app",
        "The firm's own recipes, norms, suppliers, presets and texts; the rest is as supplied.",
    ),
    Entry(
        "template",
        "template:app",
        "Jobs to start from, such as “three-facet, our usual”.",
    ),
    Entry(
        "picture",
        "picture:picture",
        "Draw the roof in 3D, in facets or as it will look; needs no display.",
    ),
    Entry(
        "photo",
        "photo:app",
        "Photographs of a job: keep them, place them by clicks, draw the new roof into them.",
    ),
    Entry(
        "backup",
        "backup:backup",
        "Save everything of the firm, the rack and the jobs in one file.",
    ),
    Entry(
        "restore",
        "backup:restore",
        "Show what a backup holds, and with --take, put it back.",
    ),
    Entry("window", "window:window", "Open the window."),
    Entry(
        "sheet",
        "survey_sheet:survey_sheet",
        "Print the empty survey sheet of the job's shape, to fill in on site.",
    ),
    Entry("export", "export:export", "Write the roof as a 3D model: glTF, STL, OBJ or IFC4."),
    Entry(
        "schema",
        "schema:schema",
        "Print the JSON Schema of a job file, or of a command's `--json`: schema takeoff.",
    ),
)


class Commands(TyperGroup):
    """The group of all commands; each stands for itself by name and sentence until it is run."""

    def __init__(self, **settings: Any) -> None:  # noqa: ANN401 - passed on as typer gave them
        super().__init__(**settings)
        self.commands = {
            entry.name: TyperCommand(name=entry.name, help=entry.sentence) for entry in ENTRIES
        }

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:  # noqa: ANN401 - typer's own
        """Return name, loaded command and what was typed after it."""
        name, command, rest = super().resolve_command(ctx, args)
        entry = next((entry for entry in ENTRIES if entry.name == name), None)
        return name, (command if entry is None else entry.load()), rest
