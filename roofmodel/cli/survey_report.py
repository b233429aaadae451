"""How the command line prints a survey's readings, its bars and its bays."""

from collections.abc import Mapping, Sequence
from typing import Any

from rich.console import Console
from rich.text import Text

from roofmodel.cli.table import made
from roofmodel.survey.readings.reading import Unit
from roofmodel.workbench.facts import survey_facts

_LAMP = {"green": "green", "grey": "cyan", "amber": "yellow", "red": "red"}


def survey(content: Mapping[str, Any], console: Console) -> None:
    """Print state, residual table, closures and what is out of square."""
    state = content["state"]
    words = {
        "green": "closed",
        "grey": "not yet checked: what was read agrees, but a slip could hide in it",
        "amber": "open: a question",
        "red": "open: blocks cutting",
    }
    console.print(Text(f"Survey {words[state]}", style=f"bold {_LAMP[state]}"))
    residuals = made("Reading", "Read", "Fitted", "Out by", "Usual")
    for line in content["residuals"]:
        residuals.add_row(
            line["name"],
            f"{line['read']:g}",
            f"{line['adjusted']:.1f}",
            f"{line['residual']:+.1f}",
            f"±{line['usual']:.1f}" if line["checked"] else "not checked",
        )
    console.print(residuals)
    protection(content["protection"], content["next_reading"], console)
    _closures(content, console)
    for pitch in content["pitches"]:
        console.print(Text(pitch["covering"]))
    angles = ", ".join(f"{c['name']} {c['angle_deg']:.2f}°" for c in content["corners"])
    console.print(
        Text(f"Corner angles {angles}; eaves {content['out_of_level_mm']:.1f} mm out of level")
    )
    for twist in content["twists"]:
        console.print(Text(twist["text"]))
        if twist["shims"]:
            packed = survey_facts.shims_text(twist["shims"])
            console.print(Text(f"  pack up at the eaves, from the left: {packed}"))
    for note in content["notes"]:
        console.print(Text(note, style="dim"))
    if content["extra_reading"]:
        console.print(Text(content["extra_reading"], style="bold"))


def protection(lines: Sequence[Mapping[str, Any]], next_reading: str, console: Console) -> None:
    """Print what a slip in each line would show, and the line to read next."""
    if not lines:
        return
    table = made("Reading", "Slip that would show", "A slip of", "Detected", "Located")
    for line in lines:
        table.add_row(
            line["name"],
            line["text"],
            Unit(line["unit"]).rough(line["stated_slip"]),
            f"{line['chance_to_detect']:.0%}",
            f"{line['chance_to_locate']:.0%}",
        )
    console.print(table)
    if next_reading:
        console.print(Text(f"Read next: {next_reading}.", style="bold"))


def _closures(content: Mapping[str, Any], console: Console) -> None:
    """Print closures and the readings that may be wrong, each with the area it leads to."""
    for closure in content["closures"]:
        style = "default" if closure["verdict"] == "holds" else "yellow"
        console.print(Text(f"{closure['verdict']}: {closure['text']}", style=style))
        for way, candidate in zip(closure["would_be"], closure["candidates"], strict=True):
            area = f": {candidate['area']}" if candidate["area"] else ""
            console.print(Text(f"  if {way}{area}"))
    for candidate in content["candidates"]:
        area = f" The {candidate['area']}." if candidate["area"] else ""
        console.print(Text(f"{candidate['text']}{area}"))
    for one in content["unchecked"]:
        text = f"not checked: {one['closure']}, for want of {', '.join(one['missing'])}"
        console.print(Text(text, style="dim"))


def members(content: Mapping[str, Any], console: Console) -> None:
    """Print bars and bays as two tables, where there are any."""
    if content["bars"]:
        bars = made("Bar", "Kind", "Length mm", "Net mm", "Plumb °", "Side cut °", "Hand")
        for bar in content["bars"]:
            bars.add_row(
                bar["mark"],
                bar["kind"],
                f"{bar['length_mm']:.1f}",
                f"{bar['net_length_mm']:.1f}",
                f"{bar['plumb_cut_deg']:.2f}",
                " / ".join(f"{angle:.2f}" for angle in bar["side_cuts_deg"]),
                bar.get("hand", ""),
            )
        console.print(bars)
    if content["bays"]:
        bays = made("Bay", "Width mm", "Height mm", "Area m²", "Hand")
        for bay in content["bays"]:
            bays.add_row(
                bay["mark"],
                f"{bay['width_mm']:.1f}",
                f"{bay['height_mm']:.1f}",
                f"{bay['area_m2']:.3f}",
                bay["hand"],
            )
        console.print(bays)
