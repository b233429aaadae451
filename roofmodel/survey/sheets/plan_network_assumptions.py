"""What any plan takes for granted of itself until somebody measures it."""

from collections.abc import Iterator

from roofmodel.shapes.footprint import SideKind
from roofmodel.shapes.roof import LineKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption
from roofmodel.survey.readings.plan_topology import PlanFacet, PlanShape
from roofmodel.survey.sheets.plan_lines import LEVEL_MM, SQUARE_DEG, TURNED_DEG
from roofmodel.survey.sheets.plan_network_lines import angles_deg
from roofmodel.survey.sheets.plan_network_slopes import level_ridges, spots
from roofmodel.survey.sheets.ridge_lines import EQUAL_PITCH_DEG

UPRIGHT_MM = 5.0
"""How far the top of a verge or of a house wall may lean off its side of the plan (common
practice, no source)."""

FLAT_MM = 10.0
"""How far a point of a facet nobody measured may lie off the plane of the others.

Glass and polycarbonate lie on one plane of bars: a facet farther out of it would not have been
glazed. 10 mm is also where a twist is packed out (`twist.SHIM_MM`). As every assumption it joins in
only where the readings know less, so that a twist somebody measured is told and not smoothed away.
"""

ENTERED_MM = 50.0
"""How far a side nobody taped may differ from what was typed for it (common practice, no
source)."""


def of_shape(shape: PlanShape) -> tuple[Assumption, ...]:
    """Return every assumption, the ones most to be relied on first."""
    return (
        *_angles(shape),
        *_levels(shape),
        *_upright(shape),
        *(one for facet in shape.facets for one in _flat(shape, facet)),
        *_ridges(shape),
        *_sides(shape),
        *_pitch_differences(shape),
        *_pitches(shape),
    )


def _angles(shape: PlanShape) -> Iterator[Assumption]:
    corners = shape.corners
    for i, angle in enumerate(angles_deg(shape)):
        square = abs(angle / 90.0 - round(angle / 90.0)) < 1e-6
        yield Assumption(
            name=line_name.angle(corners[i]),
            label=f"angle at {corners[i]} assumed to be {round(angle, 2):g}°",
            measure=Measure.CORNER_ANGLE,
            points=(corners[i - 1], corners[i], corners[(i + 1) % len(corners)]),
            value=angle,
            standard_error=SQUARE_DEG if square else TURNED_DEG,
        )


def _levels(shape: PlanShape) -> Iterator[Assumption]:
    """Yield the level of each eaves against the first."""
    eaves = [p for facet in shape.facets for pair in (facet.eaves, *facet.more_eaves) for p in pair]
    first, *others = sorted(set(eaves), key=[*shape.corners, *shape.tops].index)
    for point in others:
        above = shape.at_mm[point][2] - shape.at_mm[first][2]
        how = f"{above:g} mm above" if above else "level with"
        yield Assumption(
            name=line_name.level(point, first),
            label=f"eaves at {point} assumed to be {how} {first}",
            measure=Measure.ABOVE,
            points=(point, first),
            value=above,
            standard_error=LEVEL_MM,
        )


def _upright(shape: PlanShape) -> Iterator[Assumption]:
    """Yield that an upper point over a side of the plan stands upright on it."""
    for top in shape.tops:
        for i in shape.on_sides(top):
            if i == 0 and shape.footprint.sides[0].kind is not SideKind.VERGE:
                continue  # that point is held on the wall or the gutter along it
            side = shape.side_pairs[i]
            yield Assumption(
                name=f"{top} upright",
                label=f"{top} assumed to be vertically above {''.join(side)}",
                measure=Measure.SQUARE_OFF,
                points=(top, *side),
                value=0.0,
                standard_error=UPRIGHT_MM,
            )


def _flat(shape: PlanShape, facet: PlanFacet) -> Iterator[Assumption]:
    """Yield that all points of a facet lie in the plane of its eaves and its highest point."""
    highest = max(facet.top, key=lambda point: shape.foot(point, facet.eaves[::-1])[1])
    for point in facet.top:
        if point != highest:
            yield Assumption(
                name=f"{facet.name} flat at {point}",
                label=f"{point} assumed to lie in the plane of {facet.name}",
                measure=Measure.OFF_PLANE,
                points=(point, *facet.eaves, highest),
                value=0.0,
                standard_error=FLAT_MM,
            )


def _ridges(shape: PlanShape) -> Iterator[Assumption]:
    for line in level_ridges(shape):
        yield Assumption(
            name=line_name.level(line.end, line.start),
            label=f"ridge {line.start} to {line.end} assumed to be level",
            measure=Measure.ABOVE,
            points=(line.end, line.start),
            value=0.0,
            standard_error=LEVEL_MM,
        )


def _sides(shape: PlanShape) -> Iterator[Assumption]:
    for p, q in shape.side_pairs:
        length = shape.length_mm(p, q)
        yield Assumption(
            name=line_name.length(p, q),
            label=f"{p}{q} assumed to be as entered, {length:.0f} mm",
            measure=Measure.PLAN_LENGTH,
            points=(p, q),
            value=length,
            standard_error=ENTERED_MM,
        )


def _pitch_differences(shape: PlanShape) -> Iterator[Assumption]:
    """Yield that two facets differ in pitch as they were entered, where they meet."""
    facets = {facet.name: facet for facet in shape.facets}
    for line in shape.lines:
        if line.kind not in (LineKind.HIP, LineKind.RIDGE, LineKind.VALLEY):
            continue
        one, other = (facets[name] for name in line.facets)
        runs = [shape.foot(line.end, facet.eaves[::-1])[1] for facet in (one, other)]
        if min(runs) < 1.0:
            continue
        difference = one.pitch_deg - other.pitch_deg
        how = f"{difference:+.2f}° from" if abs(difference) > 0.005 else "the pitch of"
        yield Assumption(
            name=f"pitch {one.name} {other.name}",
            label=f"{one.name} assumed to have {how} {other.name}",
            measure=Measure.PITCH_DIFFERENCE,
            points=(line.end, *one.eaves[::-1], *other.eaves[::-1]),
            value=difference,
            standard_error=EQUAL_PITCH_DEG,
        )


def _pitches(shape: PlanShape) -> Iterator[Assumption]:
    for facet in shape.facets:
        spot = spots(shape, facet)[0]
        yield Assumption(
            name=f"pitch {facet.name}",
            label=f"{facet.name} assumed to have the pitch entered, {facet.pitch_deg:.2f}°",
            measure=Measure.PITCH,
            points=(spot.top, *spot.side),
            value=facet.pitch_deg,
            standard_error=EQUAL_PITCH_DEG,
        )
