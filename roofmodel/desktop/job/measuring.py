"""Which two corners of the roof are measured; the 3D view and the plan share it."""

from PySide6.QtCore import QObject, Signal

from roofmodel.desktop.job import dimension
from roofmodel.desktop.job.dimension import Dimension
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.geometry.plane import Point

_ASK = "Measure: click two corners of the roof; Esc clears."


class Measuring(QObject):
    """Remembers corners by number, so that a dimension follows the roof while it is edited."""

    changed = Signal()
    """Switched, or other corners are measured."""

    said = Signal(str)
    """What was measured, or what to do next."""

    def __init__(self, open_job: OpenJob) -> None:
        """Measure nothing yet."""
        super().__init__()
        self._open_job = open_job
        self._on = False
        self._corners: tuple[Point, ...] = ()
        self._taken: tuple[int, ...] = ()
        open_job.begun.connect(self.clear)
        open_job.reckoned.connect(self._follow)
        self._follow()

    @property
    def on(self) -> bool:
        """Whether clicks take corners."""
        return self._on

    @property
    def corners(self) -> tuple[Point, ...]:
        """All corners that can be taken."""
        return self._corners

    @property
    def taken(self) -> tuple[int, ...]:
        """Places of the corners taken so far, two at most."""
        return self._taken

    @property
    def ends(self) -> tuple[Point, ...]:
        """The corners taken so far."""
        return tuple(self._corners[i] for i in self._taken)

    @property
    def dimension(self) -> Dimension | None:
        """The dimension between two corners; None until both are taken."""
        if len(self._taken) < 2:
            return None
        start, end = self.ends
        return Dimension(start=start, end=end)

    def switch(self, on: bool) -> None:  # noqa: FBT001 - a button's signal hands it over so
        """Begin or stop to take corners."""
        if on == self._on:
            return
        self._on, self._taken = on, ()
        self.said.emit(_ASK if on else "")
        self.changed.emit()

    def take(self, place: int) -> None:
        """Take a corner: the first, the second, or the first of another dimension."""
        if self._taken == (place,):
            return
        self._taken = (*self._taken, place) if len(self._taken) == 1 else (place,)
        measured = self.dimension
        self.said.emit(
            measured.text if measured else "First corner set. Click the second; Esc clears."
        )
        self.changed.emit()

    def miss(self) -> None:
        """Say that a click was near no corner."""
        self.said.emit("There is no corner there: click closer to one. Esc clears.")

    def clear(self) -> None:
        """Forget the corners taken."""
        if self._taken:
            self._taken = ()
            self.said.emit(_ASK if self._on else "")
            self.changed.emit()

    def step_back(self) -> None:
        """Forget the corners taken or, when there are none, stop measuring."""
        if self._taken:
            self.clear()
        else:
            self.switch(False)  # noqa: FBT003 - as the button does

    def _follow(self) -> None:
        drawn = self._open_job.drawn
        corners = dimension.corners(drawn.roof) if drawn else ()
        if len(corners) != len(self._corners):
            self._taken = ()
        self._corners = corners
        self.changed.emit()
