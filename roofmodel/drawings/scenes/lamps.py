"""Downlights that are lit, and how their light falls on what is below them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.geometry.plane import Vector
from roofmodel.refit.layer import Zone
from roofmodel.refit.refit import Refit

_FULL_MM, _STRENGTH = 1_500.0, 0.35
"""So far straight below a lamp gives this part of what an open sky does (by eye, no source)."""
_NARROW = 3.0
_GLARE_MM = 45.0
_GLARE = 30.0


@dataclass(frozen=True, slots=True, eq=False)
class Lamps:
    """Lamps in a ceiling: their places (n, 3) [mm] and which way they shine, (n, 3)."""

    places: Vector
    ahead: Vector

    def on(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return what lamps add at points (n, 3) [mm], (n,), in parts of the sky's light.

        A beam fades with its angle and the square of the distance (common practice, no source).
        """
        total = np.zeros(len(points))
        for place, ahead in zip(self.places, self.ahead, strict=True):
            away = points - place
            distance = np.maximum(np.linalg.norm(away, axis=1), 1.0)
            beam = np.clip(away @ ahead / distance, 0.0, 1.0) ** _NARROW
            total += _STRENGTH * beam * np.minimum(1.0, (_FULL_MM / distance) ** 2)
            total += np.where(distance < _GLARE_MM, _GLARE, 0.0)
        return total


def in_ceiling(refit: Refit, spots: Mapping[str, Sequence[tuple[float, float]]]) -> Lamps:
    """Return lamps where lights are laid out.

    Parameters
    ----------
    refit
        The roof as a method makes it; without a new ceiling there are no lamps.
    spots
        Middles of the lights by facet, in the frame of the ceiling's facet [mm].
    """
    inner = [layer for layer in refit.layers if layer.layer.zone is Zone.ROOM]
    known = [layer for layer in inner if layer.number in refit.surfaces]
    places: list[Vector] = []
    ahead: list[Vector] = []
    if known:
        surface = refit.surfaces[min(known, key=lambda one: one.inside_mm).number]
        for facet in surface.facets(refit.facets):
            for spot in spots.get(facet.name, ()):
                places.append(facet.frame.raise_up(np.array([spot]))[0])
                ahead.append(-np.asarray(facet.plane.normal, dtype=float))
    if not places:
        return NONE
    return Lamps(np.array(places), np.array(ahead))


NONE = Lamps(np.zeros((0, 3)), np.zeros((0, 3)))
"""No lamp at all."""
