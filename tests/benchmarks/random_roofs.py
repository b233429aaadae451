"""Random roofs of every shape there is, the same every time: sizes a conservatory has."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from roofmodel.foundation.errors import DimensionError, GeometryError
from roofmodel.shapes import plan
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import Roof
from tests.shapes import notched

_SEED = 20261125
_TRIES = 200
_EAVES_MM = 2100.0

Shape = LeanTo | Gable | Hipped | PolygonalEnd | Footprint
Draw = np.random.Generator


@dataclass(frozen=True)
class RandomRoof:
    """One roof with the name of its shape; ``R017-hipped`` is always the same roof."""

    name: str
    shape: str
    roof: Roof


def roofs(count: int) -> Iterator[RandomRoof]:
    """Yield so many roofs, every shape in turn; a longer list begins like a shorter one."""
    kinds = list(_KINDS.items())
    for number in range(count):
        name, make = kinds[number % len(kinds)]
        draw = np.random.default_rng([_SEED, number])
        yield RandomRoof(f"R{number:03d}-{name}", name, _buildable(make, draw))


def _buildable(make: Callable[[Draw], Shape], draw: Draw) -> Roof:
    for _ in range(_TRIES):
        try:
            return make(draw).roof(eaves_height_mm=_EAVES_MM)
        except (DimensionError, GeometryError):
            continue  # sizes that make no roof together are drawn again
    raise AssertionError(f"no roof in {_TRIES} tries")


def _mm(draw: Draw, least: int, most: int) -> float:
    return float(draw.integers(least, most + 1))


def _deg(draw: Draw, least: int = 12, most: int = 35) -> float:
    """Return a pitch in half degrees."""
    return float(draw.integers(2 * least, 2 * most + 1)) / 2


def _sides(draw: Draw) -> tuple[float, float]:
    return _mm(draw, 2500, 5500), _mm(draw, 2200, 4800)


def _lean_to(draw: Draw) -> Shape:
    width, projection = _sides(draw)
    return LeanTo(width_mm=width, projection_mm=projection, pitch_deg=_deg(draw, 5, 25))


def _hipped_lean_to(draw: Draw) -> Shape:
    ends = [plan.eaves(_deg(draw)), plan.eaves(_deg(draw))]
    if draw.integers(3) == 0:
        ends[0] = plan.VERGE
    return plan.rectangle(
        _mm(draw, 3500, 6500),
        _mm(draw, 2200, 3600),
        rear=plan.WALL,
        right=ends[0],
        front=plan.eaves(_deg(draw, 8, 25)),
        left=ends[1],
    )


def _gable(draw: Draw) -> Shape:
    width, projection = _sides(draw)
    pitches = [_deg(draw, 15, 40)] * 2
    if draw.integers(3) == 0:
        pitches[1] = _deg(draw, 15, 40)
    return Gable(
        width_mm=width,
        projection_mm=projection,
        left_pitch_deg=pitches[0],
        right_pitch_deg=pitches[1],
    )


def _hipped(draw: Draw) -> Shape:
    width, projection = _sides(draw)
    side = _deg(draw)
    other = _deg(draw) if draw.integers(3) == 0 else side
    return Hipped(
        width_mm=width,
        projection_mm=projection,
        left_pitch_deg=side,
        front_pitch_deg=_deg(draw),
        right_pitch_deg=other,
    )


def _end_of(facets: int) -> Callable[[Draw], Shape]:
    def make(draw: Draw) -> Shape:
        width, projection = _sides(draw)
        return PolygonalEnd(
            width_mm=width, projection_mm=projection, pitch_deg=_deg(draw), end_facets=facets
        )

    return make


def _end_on_box_gutter(draw: Draw) -> Shape:
    return plan.polygonal_end(
        _mm(draw, 2500, 4500),
        _mm(draw, 3200, 5500),
        end_facets=3,
        pitch_deg=_deg(draw),
        rear=plan.box_gutter(_deg(draw)),
    )


def _hipped_all_round(draw: Draw) -> Shape:
    width, projection = _sides(draw)
    pitch = _deg(draw)
    rear = plan.box_gutter(pitch) if draw.integers(2) else plan.eaves(pitch)
    around = plan.eaves(pitch)
    return plan.rectangle(width, projection, rear=rear, right=around, front=around, left=around)


def _wing(draw: Draw) -> Shape:
    width, wing = _mm(draw, 4500, 7000), _mm(draw, 2200, 3200)
    start = (0.0, width - wing, _mm(draw, 600, 1500))[int(draw.integers(3))]
    return plan.with_wing(
        width,
        _mm(draw, 1800, 2800),
        wing_width_mm=wing,
        wing_projection_mm=_mm(draw, 1000, 2400),
        from_right_mm=start,
        pitch_deg=_deg(draw),
    )


def _with_lean_to(draw: Draw) -> Shape:
    return plan.polygonal_end_with_lean_to(
        _mm(draw, 2600, 4000),
        _mm(draw, 3500, 5000),
        end_facets=3,
        lean_to_width_mm=_mm(draw, 1500, 3000),
        lean_to_projection_mm=_mm(draw, 1200, 2200),
        pitch_deg=_deg(draw),
    )


def _notch(draw: Draw) -> Shape:
    width, projection = _mm(draw, 3500, 5500), _mm(draw, 2800, 4500)
    wide = _mm(draw, 800, 1500)
    start = (0.0, width - wide, _mm(draw, 700, 1500))[int(draw.integers(3))]
    pitch = _deg(draw)
    return notched.with_notch(
        width,
        projection,
        notch=notched.Notch(from_right_mm=start, width_mm=wide, depth_mm=_mm(draw, 300, 800)),
        sides=(plan.eaves(pitch), plan.eaves(pitch), plan.eaves(pitch)),
        gutter_pitch_deg=pitch,
    )


_KINDS: dict[str, Callable[[Draw], Shape]] = {
    "lean-to": _lean_to,
    "hipped lean-to": _hipped_lean_to,
    "gable": _gable,
    "hipped": _hipped,
    "three-facet end": _end_of(3),
    "five-facet end": _end_of(5),
    "end on box gutter": _end_on_box_gutter,
    "hipped all round": _hipped_all_round,
    "wing": _wing,
    "end with lean-to": _with_lean_to,
    "notch": _notch,
    "four-facet end": _end_of(4),
}
