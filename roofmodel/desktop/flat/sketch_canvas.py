"""A sheet to draw a plan on: corners by click, lengths typed on the way, sides to take hold of."""

from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from roofmodel.desktop.flat import plan_picture, sketch_paint
from roofmodel.desktop.flat.underlay import Under
from roofmodel.desktop.kit import flat_picture, number_text
from roofmodel.desktop.kit.flat_canvas import Flat, Place
from roofmodel.survey.taped import plan_changes, plan_sketch
from roofmodel.survey.taped.free_plan import PlanSide
from roofmodel.survey.taped.plan_sketch import Next, Spot

_REACH_PX, _GRIP_PX, _SLACK_PX = 10.0, 9.0, 4.0
_SHEET_MM = ((-1500.0, -700.0), (6500.0, 5000.0))
"""What of the plan an empty sheet shows: least and greatest (x, y)."""
_NUMBER = set("0123456789.,mc ")
_NEARER = 1.2


class Held(NamedTuple):
    """What is held: a corner, or a side; and where on plan it was taken hold of."""

    place: int
    is_corner: bool
    start: Spot


class SketchCanvas(QWidget):
    """Draws a plan, or shows the one there is with its sides to name and to drag."""

    closed = Signal(tuple)
    """The corners of a plan that was drawn round, (x, y) [mm]."""

    picked = Signal()
    """Another side is picked, or none."""

    moved = Signal(tuple)
    """The sides while one of their corners or sides is dragged."""

    let_go = Signal()
    """What was dragged is let go, and stays."""

    taken_back = Signal()
    """What was dragged is to be as it was."""

    said = Signal(str)
    """What is done now, or why it cannot be."""

    known = Signal(tuple)
    """Two spots on paper were clicked whose distance is known [mm]."""

    def __init__(self) -> None:
        """Begin with an empty sheet."""
        super().__init__()
        self.corners: tuple[Spot, ...] = ()
        self.sides: tuple[PlanSide, ...] = ()
        self.inner: tuple[tuple[Spot, Spot], ...] = ()
        self.drawing = False
        self.side: int | None = None
        self.under: Under | None = None
        self.scaling: list[Flat] | None = None
        self.typed = ""
        self.greyed = False
        self._pointer: Spot | None = None
        self._free = False
        self._held: Held | None = None
        self._pressed: QPointF | None = None
        self._panned: QPointF | None = None
        self._place: Place | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(220, 180)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Plan sketch")

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return a size at which a plan reads well."""
        return QSize(520, 420)

    @property
    def place(self) -> Place:
        """Where the sheet lies in the widget."""
        if self._place is None:
            self._place = flat_picture.placed(
                self._bounds(), QRectF(self.rect()).adjusted(50, 40, -50, -40)
            )
        return self._place

    @property
    def suggested(self) -> Next | None:
        """Where a click would put the next corner."""
        if not self.drawing or self._pointer is None:
            return None
        length = number_text.length_mm(self.typed)
        return plan_sketch.next_corner(
            self.corners,
            self._pointer,
            reach_mm=_REACH_PX / self.place.scale,
            length_mm=length or None,
            free=self._free,
        )

    def begin(self) -> None:
        """Start with an empty sheet."""
        self.corners, self.side, self.drawing, self.typed = (), None, True, ""
        self.fit()
        self.setFocus()
        self.said.emit(sketch_paint.BEGIN)

    def show_sides(
        self,
        sides: Sequence[PlanSide],
        inner: Sequence[tuple[Spot, Spot]],
        *,
        greyed: bool,
    ) -> None:
        """Show the sides of a plan, and the lines of the roof inside it; greyed as out of date."""
        fits = len(sides) != len(self.sides)
        self.sides, self.inner, self.greyed = tuple(sides), tuple(inner), greyed
        if self.side is not None and self.side >= len(sides):
            self.pick(None)
        if fits and not self.drawing:
            self.fit()
        self.update()

    def stop_drawing(self) -> None:
        """Go back to the plan there is."""
        self.drawing, self.corners, self.typed = False, (), ""
        self.fit()

    def pick(self, side: int | None) -> None:
        """Pick a side, or none."""
        if side != self.side:
            self.side = side
            self.picked.emit()
        self.update()

    def fit(self) -> None:
        """Bring all that is drawn into the widget."""
        self._place = None
        self.update()

    def place_corner(self) -> None:
        """Put the next corner where it is suggested, or close the plan there."""
        suggested = self.suggested
        if suggested is None:
            return
        why_not = plan_sketch.refusal(self.corners, suggested.at)
        if why_not:
            self.said.emit(why_not)
            return
        self.typed = ""
        if suggested.closes:
            corners, self.drawing, self.corners = self.corners, False, ()
            self.closed.emit(corners)
            self.fit()
        else:
            self.corners = (*self.corners, suggested.at)
            self.said.emit(sketch_paint.on_the_way(len(self.corners)))
        self.update()

    def take_back(self) -> None:
        """Take the last corner back."""
        self.corners, self.typed = self.corners[:-1], ""
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take hold of a corner or a side; the middle button moves the sheet."""
        at = event.position()
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panned = at
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._pressed = at
        if not self.drawing and self.scaling is None:
            self._held = self._at(at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Let the next corner, or what is held, follow the pointer."""
        at = event.position()
        self._free = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        self._pointer = self._on_plan(at)
        if self._panned is not None:
            place, step = self.place, at - self._panned
            self._place = Place(
                left_px=place.left_px + step.x(),
                bottom_px=place.bottom_px + step.y(),
                scale=place.scale,
            )
            self._panned = at
        elif self._held is not None and self._dragged(at):
            self._drag(self._held, self._pointer)
        self.setCursor(self._cursor(at))
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Place a corner, pick a side, or let go of what was dragged."""
        at = event.position()
        self._panned = None
        if event.button() != Qt.MouseButton.LeftButton or self._pressed is None:
            return
        was_dragged, self._pressed = self._dragged(at), None
        held, self._held = self._held, None
        if self.scaling is not None:
            self._take_known(at)
        elif self.drawing:
            self._pointer = self._on_plan(at)
            self.place_corner()
        elif held is not None and was_dragged:
            self.let_go.emit()
        elif not was_dragged:
            self.pick(None if held is None or held.is_corner else held.place)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """Come nearer to the spot under the pointer, or go away."""
        factor = _NEARER if event.angleDelta().y() > 0 else 1.0 / _NEARER
        at, place = event.position(), self.place
        self._place = Place(
            left_px=at.x() - (at.x() - place.left_px) * factor,
            bottom_px=at.y() - (at.y() - place.bottom_px) * factor,
            scale=place.scale * factor,
        )
        self.update()
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Take a length that is typed; Enter places the corner, Backspace takes one back."""
        key, text = event.key(), event.text()
        if key == Qt.Key.Key_Escape:
            self._escape()
        elif self.drawing and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.place_corner()
        elif self.drawing and key == Qt.Key.Key_Backspace:
            self.typed = self.typed[:-1] if self.typed else ""
            if not self.typed and not text.strip():
                self.take_back()
        elif self.drawing and text and text in _NUMBER and len(self.typed) < 10:
            self.typed += text
            self.said.emit(sketch_paint.typing(self.typed))
        else:
            super().keyPressEvent(event)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint sheet, plan and what is suggested."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            sketch_paint.sheet(painter, self.place, QRectF(self.rect()), self.under)
            if self.drawing:
                sketch_paint.drawing(
                    painter, self.place, self.corners, self.suggested, typed=self.typed
                )
            else:
                sketch_paint.plan(
                    painter,
                    self.place,
                    self.sides,
                    self.inner,
                    picked=self.side,
                    greyed=self.greyed,
                )
            if self.scaling:
                sketch_paint.known(painter, self.place, self.scaling)

    def _escape(self) -> None:
        if self._held is not None:
            self._held = self._pressed = None
            self.taken_back.emit()
        elif self.scaling is not None:
            self.scaling = None
        elif self.typed:
            self.typed = ""
        elif self.corners:
            self.corners = ()
            self.said.emit(sketch_paint.BEGIN)
        elif self.drawing and self.sides:
            self.stop_drawing()
            self.said.emit("")
        else:
            self.pick(None)

    def _take_known(self, at: QPointF) -> None:
        """Take a spot of the picture below whose distance to another is known."""
        assert self.scaling is not None
        self.scaling.append(flat_picture.spot_at(self.place, (at.x(), at.y())))
        if len(self.scaling) == 2:
            ends, self.scaling = tuple(self.scaling), None
            self.known.emit(ends)
        self.update()

    def _drag(self, held: Held, to: Spot) -> None:
        """Tell the sides as they are with what is held at a spot of the plan."""
        if held.is_corner:
            step = plan_sketch.step_mm(1.0 / self.place.scale)
            at = (round(to[0] / step) * step, round(to[1] / step) * step)
            self.moved.emit(plan_changes.corner_moved(self._held_sides, held.place, at))
        else:
            self.moved.emit(
                plan_changes.side_moved(
                    self._held_sides,
                    held.place,
                    plan_changes.outwards(
                        self._held_sides,
                        held.place,
                        (to[0] - held.start[0], to[1] - held.start[1]),
                        step_mm=plan_sketch.step_mm(1.0 / self.place.scale),
                    ),
                )
            )

    def _at(self, at: QPointF) -> Held | None:
        """Return the corner or side at a spot of the widget."""
        self._held_sides = self.sides
        found = sketch_paint.found_at(self.place, self.sides, at, within_px=_GRIP_PX)
        return None if found is None else Held(*found, self._on_plan(at))

    def _cursor(self, at: QPointF) -> Qt.CursorShape:
        if self.drawing or self.scaling is not None:
            return Qt.CursorShape.CrossCursor
        found = sketch_paint.found_at(self.place, self.sides, at, within_px=_GRIP_PX)
        return Qt.CursorShape.ArrowCursor if found is None else Qt.CursorShape.PointingHandCursor

    def _dragged(self, at: QPointF) -> bool:
        return self._pressed is not None and (at - self._pressed).manhattanLength() > _SLACK_PX

    def _on_plan(self, at: QPointF) -> Spot:
        return plan_picture.on_plan(flat_picture.spot_at(self.place, (at.x(), at.y())))

    def _bounds(self) -> tuple[float, float, float, float]:
        """Return left, lower, right and upper end of what is to be seen, on paper."""
        spots = [plan_picture.on_paper(side.x_mm, side.y_mm) for side in self.sides]
        if self.drawing or not spots:
            spots = [plan_picture.on_paper(*corner) for corner in (*_SHEET_MM, *self.corners)]
        across, up = [x for x, _ in spots], [y for _, y in spots]
        return (min(across), min(up), max(across), max(up))
