"""One offcut on the rack: what it is, its exact shape, how long it has lain there, and where."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Self

import numpy as np
import shapely

from roofmodel.cutting.lengths.problem import LONGEST, RackLength
from roofmodel.cutting.parts.part import TenthCorners
from roofmodel.cutting.parts.tenths import Tenths, stock_tenths
from roofmodel.foundation.errors import CuttingError

LONGEST_LABEL = 60

_INWARD_MM = 0.1
"""An offcut with raked sides is drawn in by this before its corners are rounded to tenths: each
corner moves by less, so the rounded shape lies within the true one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackPiece:
    """An offcut: ``corners`` of a sheet material, or ``length`` of one bought by the length.

    ``corners`` are what can be used of it, damaged edges off, counter-clockwise from the lower
    left of the bounding box, x along the long edge of the sheet it came from, seen from the
    outside face. ``may_turn_over`` says whether either face may be the outside one.
    ``since`` is the day it was put there; ``place`` says in words where it stands.
    """

    label: str
    material: str
    since: date
    corners: TenthCorners = ()
    length: Tenths | None = None
    place: str = ""
    may_turn_over: bool = True

    def __post_init__(self) -> None:
        """Refuse what nobody could find or cut."""
        if not (self.label.strip() and self.label.isprintable()):
            raise CuttingError("An offcut needs a label, written on it. Enter one.")
        if len(self.label) > LONGEST_LABEL:
            raise CuttingError(f"{self.label}: a label has {LONGEST_LABEL} characters at most.")
        if not self.material.strip():
            raise CuttingError(f"{self.label}: enter the code of its material.")
        if bool(self.corners) == (self.length is not None):
            raise CuttingError(f"{self.label}: enter either its outline or its length.")
        if self.length is not None and not 0 < self.length <= LONGEST:
            raise CuttingError(
                f"{self.label}: an offcut of {self.length / 10:g} mm cannot be used. Enter a "
                f"length above 0, up to {LONGEST / 10:g} mm."
            )
        if self.corners:
            self._refuse_no_shape()

    def _refuse_no_shape(self) -> None:
        shape = self.shape if len(self.corners) > 2 else shapely.Polygon()
        if not shape.is_valid or shape.area == 0 or not shapely.is_ccw(shape.exterior):
            raise CuttingError(
                f"{self.label}: the outline crosses itself, is empty or runs clockwise. Enter its "
                "corners counter-clockwise."
            )
        if shape.bounds[:2] != (0.0, 0.0) or max(shape.bounds) > LONGEST:
            raise CuttingError(
                f"{self.label}: the outline must start at 0 in both directions and be no "
                f"longer than {LONGEST / 10:g} mm."
            )

    @classmethod
    def of_mm(
        cls,
        label: str,
        material: str,
        corners_mm: Sequence[tuple[float, float]],
        *,
        since: date,
        place: str = "",
        may_turn_over: bool = True,
    ) -> Self:
        """Return an offcut of a sheet from its corners [mm], rounded inwards.

        Raises
        ------
        CuttingError
            If the corners make no shape.
        """
        return cls(
            label=label,
            material=material,
            since=since,
            corners=_inward(label, corners_mm),
            place=place,
            may_turn_over=may_turn_over,
        )

    @classmethod
    def of_length_mm(
        cls, label: str, material: str, length_mm: float, *, since: date, place: str = ""
    ) -> Self:
        """Return an offcut of a length from millimetres, rounded down.

        Raises
        ------
        CuttingError
            If the length is no number above 0.
        """
        if not math.isfinite(length_mm):
            raise CuttingError(f"{label}: enter its length in millimetres.")
        return cls(
            label=label,
            material=material,
            since=since,
            length=stock_tenths(length_mm),
            place=place,
        )

    @property
    def shape(self) -> shapely.Polygon:
        """The outline [tenths of mm]."""
        return shapely.Polygon(self.corners)

    @property
    def area_mm2(self) -> float:
        """Area of an offcut of a sheet [mm²]; 0 for a length."""
        return float(self.shape.area) / 100.0 if self.corners else 0.0

    @property
    def size(self) -> str:
        """Its size in words."""
        if self.length is not None:
            return f"{self.length / 10:g} mm long"
        _, _, long, wide = self.shape.bounds
        box = f"{long / 10:g} × {wide / 10:g} mm"
        return box if self.shape.area == long * wide else f"{box}, {len(self.corners)} sides"

    def as_length(self) -> RackLength:
        """Return the offcut as the plan of lengths takes it.

        Raises
        ------
        CuttingError
            If it is an offcut of a sheet.
        """
        if self.length is None:
            raise CuttingError(f"{self.label} is an offcut of a sheet, not of a length.")
        return RackLength(label=self.label, length=self.length)


def rectangle(length_mm: float, width_mm: float) -> tuple[tuple[float, float], ...]:
    """Return the corners of a rectangle [mm]."""
    return ((0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm))


def _inward(label: str, corners_mm: Sequence[tuple[float, float]]) -> TenthCorners:
    """Return corners in whole tenths that lie within the shape, the lower left one first."""
    points = np.asarray(corners_mm, dtype=float)
    if len(points) < 3 or not np.isfinite(points).all():
        raise CuttingError(f"{label}: enter at least three corners, each as two lengths in mm.")
    points = points - points.min(axis=0)
    shape = shapely.Polygon(points)
    if not shape.is_valid or not shapely.is_ccw(shape.exterior):
        raise CuttingError(
            f"{label}: the outline crosses itself, is empty or runs clockwise. Enter its corners "
            "counter-clockwise."
        )
    upright = ((points == points.min(axis=0)) | (points == points.max(axis=0))).all()
    if upright and len(points) == 4:
        tenths = [(stock_tenths(float(x)), stock_tenths(float(y))) for x, y in points]
    else:
        drawn = shapely.buffer(shape, -_INWARD_MM, join_style="mitre", mitre_limit=50)
        if drawn.is_empty or len(shapely.get_parts(drawn)) != 1:
            raise CuttingError(f"{label}: the outline is too thin to be used. Leave it out.")
        ring = np.asarray(shapely.orient_polygons(drawn).exterior.coords)[:-1]
        tenths = [(round(float(x) * 10), round(float(y) * 10)) for x, y in ring]
    left, low = min(x for x, _ in tenths), min(y for _, y in tenths)
    moved = [(x - left, y - low) for x, y in dict.fromkeys(tenths)]
    first = min(range(len(moved)), key=lambda i: (moved[i][1], moved[i][0]))
    return (*moved[first:], *moved[:first])
