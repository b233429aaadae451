"""Every figure of the facts of a job with its error, its source, and what it was made from."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import COMPUTED, Source
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars.members import Members
from roofmodel.workbench.facts import facts, refit_facts, survey_facts
from roofmodel.workbench.job import made_of, measured, provenance
from roofmodel.workbench.job.neighbours import Neighbour
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.provenance import SHAPE, Moves
from roofmodel.workbench.job.reckoning import Drawn

FITTED = Source("computed by least squares over the readings of the survey", "", verified=True)

_SHOWN = re.compile(
    r"(plan_)?area_m2|rise_mm|eaves_height_mm"
    r"|facets\[\d+\]\.(pitch_deg|area_m2|plan_area_m2|slope_length_mm)"
    r"|lines\[\d+\]\.(length_mm|pitch_deg|dihedral_deg|bevel_deg|backings_deg\[\d\])"
    r"|bars\[\d+\]\.(length_mm|net_length_mm)|bays\[\d+\]\.(width_mm|height_mm|area_m2)"
    r"|refit\.layers\[\d+\]\.(thickness_mm|area_m2)"
    r"|refit\.depths\[\d+\]\.(plumb_mm|surface_mm|ceiling_mm)|refit\.headroom_lost_mm"
)
"""Figures the tables of the command line print."""


def of_facts(drawn: Drawn, option: Option, found: Mapping[str, Any]) -> dict[str, Figure]:
    """Return the figure of every number among the facts of a method, by its path.

    Parameters
    ----------
    drawn, option
        The job and one of its methods.
    found
        Its facts, as `roofmodel facts --json` prints them.
    """
    moves = _moves(drawn, option)
    return {
        path: replace(
            _figure(moves, drawn, option, path, value), name=provenance.label(found, path)
        )
        for path, value in provenance.numbers(found)
    }


def of_roof(drawn: Drawn) -> dict[str, Figure]:
    """Return the figures of facets and lines alone, which need no bars, by their paths."""
    here = facts.of_roof(drawn.roof)
    moves = Moves(checked=drawn.asked.checked)
    for near in drawn.asked.neighbours.of(lambda one: one.path[0] in ("survey", "readings")):
        moves.add(near.moved, here, partial(_bare, near))
    return {
        path: replace(
            _shaped(moves.figure(path, value, COMPUTED)), name=provenance.label(here, path)
        )
        for path, value in provenance.numbers(here)
    }


def printed(drawn: Drawn, option: Option, found: Mapping[str, Any]) -> tuple[Figure, ...]:
    """Return the figures that the tables of the facts print, in their order."""
    figures = of_facts(drawn, option, found)
    return tuple(one for path, one in figures.items() if _SHOWN.fullmatch(path))


def _moves(drawn: Drawn, option: Option) -> Moves:
    """Return what moves the numbers of roof, bars and layers."""
    known, refit = drawn.asked, option.refit
    roof, here = facts.of_roof(drawn.roof), _report(drawn.members, option, refit)
    moves = Moves(checked=known.checked)
    more = made_of.of_refit(refit, known.asked) if refit is not None else ()
    for near in known.neighbours.of(lambda _: True, more):

        def there(near: Neighbour = near) -> provenance.Report:
            moved = refit
            if refit is not None and near.moved.path[0] in made_of.MADE_OF:
                moved, _ = made_of.moved(refit, known.asked, near.moved, near.step)
            elif refit is not None:
                moved = known.beside(refit, near)
            return _report(near.site.members, option, moved)

        # By themselves: where bars or layers make no sense beside, the roof still does.
        moves.add(near.moved, roof, partial(_bare, near))
        moves.add(near.moved, here, there)
    return moves


def _bare(near: Neighbour) -> provenance.Report:
    return facts.of_roof(near.bare.roof)


def _report(members: Members, option: Option, refit: Refit | None) -> provenance.Report:
    return {
        **survey_facts.of_members(members),
        "refit": refit_facts.of_option(replace(option, refit=refit)),
        "new_timbers": survey_facts.of_new_timbers(refit),
    }


def _figure(moves: Moves, drawn: Drawn, option: Option, path: str, value: float) -> Figure:
    if path.startswith(("survey.", "firmness.", "firm_sheets")):
        values = tuple(
            one.figure(checked=drawn.asked.checked)
            for one in measured.of_job(drawn.job)
            if one.path[0] in ("survey", "readings")
        )
        source = FITTED if path.startswith("survey.") else COMPUTED
        return moves.figure(path, value, source, *(values or (SHAPE,)))
    rests = tuple(_rests(option, path))
    return _shaped(moves.figure(path, value, COMPUTED, *rests))


def _shaped(figure: Figure) -> Figure:
    """Return a figure that rests on the shape where nothing measured moves it."""
    return figure if figure.inputs else replace(figure, inputs=(SHAPE,))


def _rests(option: Option, path: str) -> Iterator[Source]:
    """Yield what a figure rests on besides measured values: the rows of materials."""
    layer = re.match(r"refit\.layers\[(\d+)\]", path)
    if layer and option.refit is not None:
        yield option.refit.layers[int(layer[1])].material.source
    if path.startswith("refit.lights"):
        yield SHAPE
