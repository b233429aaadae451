"""Every quantity of a refitted roof that a recipe may be driven by."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.rain import box_gutter, rainwater
from roofmodel.gates.rain.area import box_gutters, eaves_gutters
from roofmodel.quantities import gutter_run
from roofmodel.quantities.driver import Driver, Place, Unit
from roofmodel.quantities.gutter_run import GutterRun
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.roof import Line, LineKind
from roofmodel.survey.taped.standing import Glazing


def of_refit(refit: Refit, *, lights: int = 0, facts: SiteFacts | None = None) -> dict[str, Driver]:
    """Return the drivers of a method on a roof by their names.

    Parameters
    ----------
    refit
        The method on its roof.
    lights
        Downlights of the ceiling.
    facts
        What is known of the place; outlets are those the gate of the gutters asks for.
    """
    eaves = gutter_run.runs(refit.site.roof, refit.facets)
    all_drivers = [
        *_areas(refit),
        *_lines(refit),
        *_bars(refit),
        *_corners(refit, eaves),
        *_gutters(refit, eaves, facts or SiteFacts()),
        *_jobs(refit, lights),
    ]
    return {driver.name: driver for driver in all_drivers}


def _areas(refit: Refit) -> list[Driver]:
    outer = _outermost(refit)
    inner = next((x for x in refit.layers if x.layer.zone is Zone.ROOM), None)
    everywhere = Place(facets=refit.facets)
    datum_m2 = sum(facet.area_m2 for facet in refit.covered_facets)
    plan_m2 = sum(facet.plan_area_m2 for facet in refit.covered_facets)
    across = any(layer.layer.lie is Lie.ACROSS for layer in refit.layers)
    return [
        _area("outer_m2", refit.area_m2(outer) if outer else 0.0, "outer surface", everywhere),
        _area("inner_m2", refit.area_m2(inner) if inner else 0.0, "inner surface", everywhere),
        _area("datum_m2", datum_m2, "surface on the datum", everywhere),
        _area("plan_m2", plan_m2, "area on plan", everywhere),
        _area("crossed_m2", datum_m2 * across, "surface with counter-battens", everywhere),
    ]


_LEVEL_DEG = 0.1
"""A line that rises less is level: tapes are not read finer."""

LARGE_M2 = 20.0
"""A roof beyond this takes a second week of tower (common practice, no source)."""


def _jobs(refit: Refit, lights: int) -> list[Driver]:
    """Return what there is once a job, and what there is only on some jobs."""
    large = sum(facet.area_m2 for facet in refit.covered_facets) > LARGE_M2
    glass = refit.site.standing.glazing is Glazing.GLASS
    windows = sum(w.facet in refit.facets for w in refit.entry.roof_windows)
    return [
        _count("lights", lights, "lights"),
        _count("lit_job", int(lights > 0), "job with lights"),
        _count("job", 1, "job"),
        _count("large_job", int(large), f"roof over {LARGE_M2:g} m²"),
        _count("glass_job", int(glass), "glass roof"),
        _count("light_job", int(not glass), "roof not known to carry glass"),
        _count("roof_windows", windows, "roof windows"),
        _count("hipped_job", int(bool(refit.site.roof.lines_of(LineKind.HIP))), "hipped roof"),
    ]


def _outermost(refit: Refit) -> Placed | None:
    outside = [x for x in refit.layers if x.layer.zone is Zone.OUTSIDE]
    return outside[-1] if outside else None


def _area(name: str, value: float, words: str, place: Place) -> Driver:
    return Driver(name=name, value=value, unit=Unit.M2, words=words, place=place)


_KINDS = {
    "eaves_m": (LineKind.EAVES, "eaves"),
    "verge_m": (LineKind.VERGE, "verges"),
    "abutment_m": (LineKind.HOUSE_WALL, "abutment"),
    "hip_m": (LineKind.HIP, "hips"),
    "valley_m": (LineKind.VALLEY, "valleys"),
    "ridge_m": (LineKind.RIDGE, "ridge"),
    "box_gutter_m": (LineKind.BOX_GUTTER, "box gutter"),
}


def _lines(refit: Refit) -> list[Driver]:
    roof = refit.site.roof
    numbered = [
        (i, line)
        for i, line in enumerate(roof.lines)
        if any(name in refit.facets for name in line.facets)
    ]
    all_drivers = [
        _length(name, words, [one for one in numbered if one[1].kind is kind])
        for name, (kind, words) in _KINDS.items()
    ]
    # Lines between two facets have a joint; the rest is the edge of the roof.
    rim = [one for one in numbered if one[1].joint is None]
    level = [one for one in rim if one[1].kind in (LineKind.EAVES, LineKind.BOX_GUTTER)]
    walls = [one for one in rim if one[1].kind is LineKind.HOUSE_WALL]
    # A wall plate runs level; the raking side of a wall carries no batten ends.
    level += [one for one in walls if one[1].pitch_deg <= _LEVEL_DEG]
    return [
        *all_drivers,
        *_abutments([one for one in numbered if one[1].kind is LineKind.HOUSE_WALL]),
        _barge_boards([one for one in numbered if one[1].kind is LineKind.VERGE]),
        _length("perimeter_m", "perimeter", rim),
        _length("level_rim_m", "eaves and wall plate", sorted(level)),
    ]


def _length(name: str, words: str, numbered: Sequence[tuple[int, Line]]) -> Driver:
    return Driver(
        name=name,
        value=sum(line.length_mm for _, line in numbered) / 1e3,
        unit=Unit.M,
        words=words,
        place=Place(lines=tuple(number for number, _ in numbered)),
    )


def _abutments(walls: Sequence[tuple[int, Line]]) -> tuple[Driver, Driver]:
    """Return the level and the raking abutments: a raking one takes stepped flashing."""
    level = [one for one in walls if one[1].pitch_deg <= _LEVEL_DEG]
    raking = [one for one in walls if one[1].pitch_deg > _LEVEL_DEG]
    return (
        _length("level_abutment_m", "level abutment", level),
        _length("raking_abutment_m", "raking abutment", raking),
    )


def _barge_boards(verges: Sequence[tuple[int, Line]]) -> Driver:
    """Return the boards of the verges, each up to the next whole centimetre, as they are cut."""
    cm = sum(math.ceil(line.length_mm / 10.0 - 1e-6) for _, line in verges)
    return Driver(
        name="barge_m",
        value=cm / 100.0,
        unit=Unit.M,
        words="barge boards to the centimetre",
        place=Place(lines=tuple(number for number, _ in verges)),
    )


def _bars(refit: Refit) -> list[Driver]:
    sloping = refit.members.sloping_mm
    on_lines = [b for b in refit.members.roof_bars if b.kind.value in ("hip", "valley")]
    length_mm = sum(length for _, length in sloping) + sum(b.line_length_mm for b in on_lines)
    marks = (*(mark for mark, _ in sloping), *(b.mark for b in on_lines))
    rim_mm = sum(_around_mm(bay.corners_mm) for bay in refit.bays)
    bays = Place(pieces=tuple(bay.mark for bay in refit.bays))
    between = sum(1 for layer in refit.layers if layer.layer.lie is Lie.BETWEEN)
    lacks = without_bars(refit)
    all_drivers = [
        Driver(
            name="bar_m",
            value=length_mm / 1e3,
            unit=Unit.M,
            words="bars",
            place=Place(pieces=marks),
        ),
        Driver(
            name="bars", value=len(marks), unit=Unit.EACH, words="bars", place=Place(pieces=marks)
        ),
        Driver(name="bays", value=len(refit.bays), unit=Unit.EACH, words="bays", place=bays),
        Driver(
            name="bay_rim_m",
            value=rim_mm / 1e3 * min(between, 1),
            unit=Unit.M,
            words="round every bay",
            place=bays,
        ),
        Driver(
            name="bay_foot_m",
            value=sum(bay.width_mm for bay in refit.bays if bay.ordinates_mm[0][1] == 0.0) / 1e3,
            unit=Unit.M,
            words="foot of every bay",
            place=bays,
        ),
    ]
    return [replace(driver, lacks=lacks) for driver in all_drivers]


def without_bars(refit: Refit) -> str:
    """Return what is missing where a method follows the bars and some are not entered."""
    if refit.default.new_bars is not None:
        return ""
    missing = [name for name in refit.facets if refit.members.of_facet(name) is None]
    return f"the bars of {', '.join(missing)} are not entered" if missing else ""


def _around_mm(corners: Sequence[tuple[float, float]]) -> float:
    ends = (*corners[1:], corners[0])
    return sum(math.dist(corner, end) for corner, end in zip(corners, ends, strict=True))


def _corners(refit: Refit, eaves: Sequence[GutterRun]) -> list[Driver]:
    """Return corners of fascia and gutter, feet of hips, and where hips and ridges meet."""
    turns = sum(len(run.corner_turns_deg) for run in eaves)
    roof = refit.site.roof
    hips = [line for line in roof.lines if line.kind is LineKind.HIP]
    tops = [line for line in roof.lines if line.kind in (LineKind.HIP, LineKind.RIDGE)]
    junctions = {
        tuple(round(c) for c in hip.end)
        for hip in hips
        if sum(_near(hip.end, line) for line in tops) > 1
    }
    return [
        _count("gutter_corners", turns, f"corners of the gutter{_angles(eaves)}"),
        _count("fascia_corners", turns + _verge_feet(refit), "corners of the fascia"),
        _count("hip_feet", len(hips), "feet of hips"),
        _count("junctions", len(junctions), "junctions of hips and ridge"),
    ]


def _angles(eaves: Sequence[GutterRun]) -> str:
    """Return which angles and hands the gutter's corners have, as they are ordered."""
    found = Counter(
        f"{180.0 - turn:.0f}° {'internal' if inside else 'external'}"
        for run in eaves
        for turn, inside in zip(run.corner_turns_deg, run.corners_inside, strict=True)
    )
    words = ", ".join(f"{count} × {angle}" for angle, count in sorted(found.items()))
    return f" ({words})" if words else ""


def _near(point: Sequence[float], line: Line) -> bool:
    return any(
        sum((a - b) ** 2 for a, b in zip(point, end, strict=True)) < 1.0
        for end in (line.start, line.end)
    )


def _verge_feet(refit: Refit) -> int:
    """Return at how many points an eaves and a verge meet."""
    roof = refit.site.roof
    eaves = [line for line in roof.lines if line.kind is LineKind.EAVES]
    verges = [line for line in roof.lines if line.kind is LineKind.VERGE]
    return sum(any(_near(verge.start, line) for line in eaves) for verge in verges)


def _gutters(refit: Refit, eaves: Sequence[GutterRun], facts: SiteFacts) -> list[Driver]:
    """Return ends and outlets of gutters, by the answer of the gates: one truth for both."""
    lines = Place(lines=tuple(number for run in eaves for number in run.lines))
    covered = set(refit.facets)
    drained = [one for one in eaves_gutters(refit) if covered & set(one.name.split(", "))]
    outlets = sum(rainwater.outlets_needed(one, facts) for one in drained)
    rain_m2 = sum(one.area_m2 for one in drained)
    boxes = box_gutters(refit)
    box_outlets = sum(box_gutter.outlets_needed(one, facts) for one in boxes)
    return [
        _count("gutter_runs", len(eaves), "gutters", lines),
        _count("stop_ends", 2 * sum(not run.ring for run in eaves), "ends of gutters", lines),
        _count("outlets", outlets, f"outlets for {rain_m2:.2f} m² of rain", lines),
        _count("box_outlets", box_outlets, "outlets of the box gutter"),
        _count("box_gutters", len(boxes), "box gutters"),
    ]


def _count(name: str, value: int, words: str, place: Place | None = None) -> Driver:
    return Driver(name=name, value=value, unit=Unit.EACH, words=words, place=place or Place())
