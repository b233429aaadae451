"""From the clicks on a photograph to its camera: refused, doubted or taken."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from roofmodel.foundation.errors import RoofModelError
from roofmodel.geometry.plane import Vector
from roofmodel.photographs import fitting
from roofmodel.photographs.camera import Camera, focal_px
from roofmodel.photographs.corners import Corner
from roofmodel.photographs.entry import PhotoEntry, Sun
from roofmodel.photographs.fitting import Fit
from roofmodel.photographs.model import FREE, HELD, Errors, Known, Sight

LEAST_CLICKS = 4

_ON_LINE, _ON_PLANE = 0.02, 0.03
"""Clicked corners this near to one line or plane, in parts of their spread, lie on it."""
_FOCAL_ERROR = 0.05
"""Share by which a file's focal length may be out: cut edges, steadied pictures (no source)."""
_ALARM = 0.01
_DOUBTED = 3.29
"""Chance of a sound set of clicks to be doubted 1 %, of a sound click 0.1 % (W. Baarda, 1968)."""
_WEAK = 0.10
"""A camera whose distance is this uncertain is a rough one."""
_KNOWN_ERROR = 0.003
_KEPT = 16


class ClicksError(RoofModelError):
    """The clicks do not settle a camera; the text names the click that would."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """The click that does not agree with the others.

    ``off_px`` is from where it is to where the others see the corner, ``at_px``.
    """

    corner: str
    off_px: float
    at_px: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placed:
    """A photograph with its camera.

    ``weak_by`` is the share by which the distance is uncertain, where that is much; ``more`` the
    corner whose click would help most.
    """

    entry: PhotoEntry
    names: tuple[str, ...]
    fit: Fit
    doubt: Doubt | None
    weak_by: float | None
    more: str | None

    @property
    def camera(self) -> Camera:
        """The camera."""
        return self.fit.camera

    @property
    def words(self) -> tuple[str, ...]:
        """What is to be said of the fit, the most important first."""
        return tuple(_words(self))


def sight_of(
    entry: PhotoEntry,
    corners: Mapping[str, Corner],
    stretch_errors: Errors = (HELD, HELD, HELD, HELD),
) -> Sight:
    """Return what a fit is asked, with the stretches loose by so much.

    Raises
    ------
    ClicksError
        If the clicks are too few, lie outside the picture or on corners the roof does not have, or
        lie so that many cameras agree with them.
    """
    clicks = entry.clicks
    for click in clicks:
        if click.corner not in corners:
            raise ClicksError(
                f"The roof has no corner {click.corner}. Its corners are {', '.join(corners)}."
            )
        if not (0.0 <= click.x_px <= entry.width_px and 0.0 <= click.y_px <= entry.height_px):
            raise ClicksError(
                f"The click on {click.corner} lies outside the picture of "
                f"{entry.width_px} × {entry.height_px} pixels. Click it again, or take it away."
            )
    if len({click.corner for click in clicks}) < len(clicks):
        raise ClicksError("A corner is clicked twice. Keep one click for each corner.")
    points = np.array([corners[click.corner].at_mm for click in clicks], dtype=float)
    focal = 0.0 if entry.film_focal_mm is None else focal_px(entry.film_focal_mm, entry.size)
    _refuse_open(points, entry, list(corners.values()), focal_known=focal > 0.0)
    known = entry.known
    return Sight(
        points=points,
        spots=np.array([(click.x_px, click.y_px) for click in clicks]),
        errors_px=np.array([click.error_px for click in clicks]),
        size=entry.size,
        focal_px=focal,
        focal_error=_FOCAL_ERROR if focal else FREE,
        bends=entry.bends,
        stretch_errors=stretch_errors,
        known=None if known is None else _known(entry, corners),
    )


def place(entry: PhotoEntry, corners: Sequence[Corner], *, before: Placed | None = None) -> Placed:
    """Return the camera of a photograph.

    Parameters
    ----------
    entry
        The photograph and its clicks.
    corners
        The corners of the roof.
    before
        What was found for nearly the same clicks; saves time while one is dragged.

    Raises
    ------
    ClicksError
        As `sight_of`, and where no camera sees the corners so.
    """
    known = tuple(corners)
    if before is None or before.doubt is not None or len(before.names) != len(entry.clicks):
        return replace(_place(bare(entry), known), entry=entry)
    return _placed(entry, known, before.fit.unknowns)


def bare(entry: PhotoEntry) -> PhotoEntry:
    """Return an entry with nothing but what its camera follows from."""
    return replace(entry, caption="", strokes=(), sun=Sun())


@lru_cache(maxsize=_KEPT)
def _place(entry: PhotoEntry, corners: tuple[Corner, ...]) -> Placed:
    """Return the camera of a photograph; kept, since window and findings ask for it."""
    return _placed(entry, corners, None)


def _placed(entry: PhotoEntry, corners: tuple[Corner, ...], start: Vector | None) -> Placed:
    found = fitting.fit(sight_of(entry, {corner.name: corner for corner in corners}), start=start)
    if found is None:
        raise ClicksError(
            "No camera can have seen these corners so: the clicks are mixed up, or the photograph "
            "is of something else. Check which corner each click is on."
        )
    names = tuple(click.corner for click in entry.clicks)
    weak = _distance_error(found)
    poor = weak > _WEAK
    return Placed(
        entry=entry,
        names=names,
        fit=found,
        doubt=_doubt(found, names),
        weak_by=weak if poor else None,
        more=_most_telling(found, names, corners) if poor or found.freedom < 2 else None,
    )


def _words(placed: Placed) -> Iterator[str]:
    doubt, fit = placed.doubt, placed.fit
    if doubt is not None:
        x, y = doubt.at_px
        yield (
            f"The click on {doubt.corner} does not agree with the others: it is "
            f"{doubt.off_px:.0f} pixels off where they see it, ({x:.0f}, {y:.0f}). Look whether it "
            "is on that corner."
        )
    elif fit.chance < _ALARM:
        yield (
            f"The clicks do not agree with the roof as entered, by {fit.root_mean_square_px:.0f} "
            "pixels on average, and no single one explains it. Check that this is the roof, and "
            "which corner each click is on."
        )
    if placed.weak_by is not None:
        more = f" A click on {placed.more} would help most." if placed.more else ""
        yield f"The distance is known to {placed.weak_by:.0%} only.{more}"
    elif fit.freedom < 2:
        more = f", best on {placed.more}" if placed.more else ""
        yield f"Nothing checks these clicks: a wrong one would not show. Click one more{more}."


def _known(entry: PhotoEntry, corners: Mapping[str, Corner]) -> Known:
    known = entry.known
    assert known is not None
    for name in (known.start, known.end):
        if name not in corners:
            raise ClicksError(
                f"The known length names the corner {name}, which the roof does not have. Its "
                f"corners are {', '.join(corners)}."
            )
    return Known(
        ends=(corners[known.start].at_mm, corners[known.end].at_mm),
        length_mm=known.length_mm,
        error_mm=_KNOWN_ERROR * known.length_mm,
    )


def _refuse_open(
    points: Vector, entry: PhotoEntry, corners: Sequence[Corner], *, focal_known: bool
) -> None:
    clicked = {click.corner for click in entry.clicks}
    others = [corner for corner in corners if corner.name not in clicked]
    if len(points) < LEAST_CLICKS:
        missing = LEAST_CLICKS - len(points)
        raise ClicksError(
            f"{len(points)} of at least {LEAST_CLICKS} corners are clicked: click {missing} more, "
            "not all of them on one line or in one plane."
        )
    middle = points.mean(axis=0)
    spread, axes = np.linalg.svd(points - middle)[1:]
    flat, away = "", axes
    if spread[1] < _ON_LINE * spread[0]:
        flat, away = "line", axes[1:]
    elif spread[2] < _ON_PLANE * spread[0] and not focal_known:
        flat, away = "plane", axes[2:]
    if not flat:
        return
    off = [
        float(np.linalg.norm(away @ (np.array(one.at_mm) - middle))) * one.in_sight
        for one in others
    ]
    best = others[int(np.argmax(off))] if others else None
    settles = (
        f"Click {best.name} as well ({best.words})."
        if best is not None
        else "Enter the focal length the camera tells for film 36 × 24 mm."
    )
    raise ClicksError(
        f"All corners clicked lie on one {flat}, so a camera nearby and one far away would see "
        f"them alike. {settles}"
    )


def _distance_error(fit: Fit) -> float:
    """Return the share by which the camera's distance from the clicked corners is uncertain."""
    middle = fit.sight.points.mean(axis=0) / 1000.0
    away = fit.unknowns[3:6] - middle
    distance = float(np.linalg.norm(away))
    along = away / distance
    variance = float(along @ fit.covariance[3:6, 3:6] @ along)
    return float(np.sqrt(max(0.0, variance))) * fit.widened / distance


def _doubt(fit: Fit, names: Sequence[str]) -> Doubt | None:
    """Return the click without which the others agree best, where they do not agree with it."""
    worst = float(fit.normalised.max(initial=0.0))
    if fit.freedom < 3 or (fit.chance >= _ALARM and worst <= _DOUBTED):
        return None
    left = []
    for i in range(len(names)):
        again = fitting.fit(fit.sight.without(i), start=fit.unknowns)
        if again is not None:
            left.append((again.misfit, i, again))
    if not left:
        return None
    misfit, place_, again = min(left, key=lambda one: one[0])
    if fit.misfit - misfit < _DOUBTED**2:
        return None
    at = again.camera.spots(fit.sight.points[[place_]])[0]
    off = float(np.linalg.norm(at - fit.sight.spots[place_]))
    return Doubt(corner=names[place_], off_px=off, at_px=(float(at[0]), float(at[1])))


def _most_telling(fit: Fit, names: Sequence[str], corners: Sequence[Corner]) -> str | None:
    """Return the corner in the picture whose click would make the camera's distance surest."""
    size = np.array(fit.sight.size)
    error = float(fit.sight.errors_px.mean())
    best: tuple[float, str] | None = None
    for corner in corners:
        point = np.array([corner.at_mm])
        spot = fit.camera.spots(point)[0]
        if (
            corner.name in names
            or corner.in_sight < 0.5
            or not ((spot > 0.0) & (spot < size)).all()
        ):
            continue
        more = Sight(
            points=np.vstack([fit.sight.points, point]),
            spots=np.vstack([fit.sight.spots, spot]),
            errors_px=np.append(fit.sight.errors_px, error),
            size=fit.sight.size,
            focal_px=fit.sight.focal_px,
            focal_error=fit.sight.focal_error,
            bends=fit.sight.bends,
        )
        left = _distance_error(fitting.judged(fit.unknowns, more))
        if best is None or left < best[0]:
            best = left, corner.name
    return None if best is None else best[1]
