"""Shaping the roof by hand: dots to take hold of, the value they move, one step to undo."""

from dataclasses import dataclass, field

import numpy as np
from PySide6.QtCore import QObject, QPointF

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.roof3d.viewport import Viewport
from roofmodel.foundation.errors import DimensionError
from roofmodel.geometry.plane import Point
from roofmodel.storage.job import Job
from roofmodel.survey.taped.rules import UNDER
from roofmodel.workbench.job import shaping
from roofmodel.workbench.job.shaping import Grip, Way

_GRAB_PX = 11.0
"""A dot is taken hold of within so many pixels."""

MEASURED = (
    "This roof was measured: its readings stand.",
    "Change a reading on the survey page,",
    "or take the readings out to shape it by hand.",
)


@dataclass
class _Hold:
    """What is held while the button is down."""

    grip: Grip
    start: QPointF
    job: Job
    at: Point
    ways: tuple[Way, ...]
    made: Job | None = None
    said: tuple[str, ...] = field(default_factory=tuple)


class ShapeTool(QObject):
    """Joins the dots in the 3D view with the open job."""

    def __init__(self, open_job: OpenJob, viewport: Viewport) -> None:
        """Begin switched off."""
        super().__init__(viewport)
        self._open_job, self._viewport = open_job, viewport
        self._on = False
        self._hold: _Hold | None = None
        self._places: tuple[tuple[Grip, Point], ...] = ()
        open_job.reckoned.connect(self._follow)

    @property
    def on(self) -> bool:
        """Whether the roof can be taken hold of."""
        return self._on

    @property
    def said(self) -> tuple[str, ...]:
        """What is written beside the place that is held."""
        return self._hold.said if self._hold else ()

    def turn_on(self, on: bool) -> None:  # noqa: FBT001 - Qt's signal
        """Let the roof be taken hold of, or no longer."""
        self._on = on
        self._follow()

    def take(self, spot: QPointF) -> bool:
        """Take hold of the dot at a spot of the view; return whether there was one."""
        if not self._on or self._open_job.stale:
            return False
        spots = self._viewport.spots([point for _, point in self._places])
        near = [
            (abs(at.x() - spot.x()) + abs(at.y() - spot.y()), place)
            for place, at in enumerate(spots)
        ]
        if not near or min(near)[0] > _GRAB_PX:
            return False
        grip, at = self._places[min(near)[1]]
        job = self._open_job.job
        self._hold = _Hold(grip, spot, job, at, shaping.ways(job, grip))
        self._say(MEASURED if job.readings else ("Drag to shape the roof",))
        return True

    def drag(self, spot: QPointF) -> None:
        """Let the roof follow the pointer; what cannot be is said, and the last good one stays."""
        hold = self._hold
        if hold is None or not hold.ways:
            return
        step = spot - hold.start
        seen = [self._seen(way, hold.at) for way in hold.ways]
        meant = shaping.follow(hold.ways, seen, np.array([step.x(), step.y()]))
        if meant is None:
            return
        way, change = meant
        pixel = 1.0 / max(float(np.linalg.norm(seen[hold.ways.index(way)])), 1e-9)
        value = shaping.snapped(way.value.value + change, way.value.unit, finest=pixel)
        try:
            job, roof = shaping.shaped(hold.job, way, value)
        except DimensionError as error:
            self._say(tuple(str(error).split(". ", 1)))
            return
        hold.made = job
        at = hold.grip.on(roof)
        point = hold.at if at is None else (float(at[0]), float(at[1]), float(at[2]))
        self._viewport.dots.show(tuple(place for _, place in shaping.grips(roof)))
        self._viewport.preview(roof)
        self._say(_words(way, value), point)

    def let_go(self) -> None:
        """Enter what was shaped, as one step."""
        hold, self._hold = self._hold, None
        self._viewport.mark.show((), ())
        if hold is not None and hold.made is not None and hold.made != hold.job:
            self._open_job.enter(hold.made, form=UNDER)
        else:
            self._viewport.ask_for_frame()

    def take_back(self) -> None:
        """Let go and leave the roof as it was."""
        if self._hold is not None:
            self._hold = None
            self._viewport.mark.show((), ())
            drawn = self._open_job.drawn
            if drawn is not None:
                self._viewport.preview(drawn.roof)
                self._follow()

    def _seen(self, way: Way, at: Point) -> np.ndarray:
        """Return how far a place is seen to move for one unit of a value [pixels of the widget]."""
        moved = np.array(at) + way.per_unit
        here, there = self._viewport.spots([at, (moved[0], moved[1], moved[2])])
        return np.array([there.x() - here.x(), there.y() - here.y()])

    def _say(self, lines: tuple[str, ...], at: Point | None = None) -> None:
        assert self._hold is not None
        self._hold.said = lines
        self._viewport.mark.show((at or self._hold.at,), lines)
        self._viewport.ask_for_frame()

    def _follow(self) -> None:
        drawn = self._open_job.drawn
        self._places = shaping.grips(drawn.roof) if drawn is not None and self._on else ()
        self._viewport.dots.show(tuple(point for _, point in self._places))
        self._viewport.ask_for_frame()


def _words(way: Way, value: float) -> tuple[str, ...]:
    unit, was = way.value.unit, way.value.value
    shown = f"{value:.0f} mm" if unit == "mm" else f"{value:.1f}°"
    by = f"{value - was:+.0f}" if unit == "mm" else f"{value - was:+.1f}"
    label = way.value.label[:1].upper() + way.value.label[1:]
    return (f"{label} {shown}", f"{by} · Esc takes it back")
