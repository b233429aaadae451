"""A photograph with what is clicked, fitted and painted on it; tells what the pointer does."""

from collections.abc import Mapping, Sequence
from enum import StrEnum

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QImage, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from roofmodel.desktop.kit import theme
from roofmodel.photographs.vision import Pixels

Spot = tuple[float, float]

_GRAB_PX = 12.0
_RING_PX = 6.0


class Tool(StrEnum):
    """What the pointer does on a photograph."""

    CORNERS = "Corners"
    FRONT = "Keep in front"
    FILL = "Fill"
    DIVIDER = "Before and after"

    @property
    def hint(self) -> str:
        """What to do with it."""
        return {
            Tool.CORNERS: "Click the corner named above; drag a ring to move it, right-click "
            "takes it away",
            Tool.FRONT: "Paint over what stands before the roof: it stays as photographed",
            Tool.FILL: "Paint over what is to vanish: it is filled from around",
            Tool.DIVIDER: "Drag the line: the house as it is on its left, the new roof on its "
            "right",
        }[self]

    @property
    def paints(self) -> bool:
        """Whether it is a brush."""
        return self in (Tool.FRONT, Tool.FILL)


class PhotoCanvas(QWidget):
    """Shows one photograph, as large as there is room; knows nothing of roofs.

    Spots are in pixels of the photograph's file, upright.
    """

    clicked = Signal(tuple)
    """Where somebody clicked beside every ring."""

    moved = Signal(str, tuple)
    """The ring that is dragged, and where it is."""

    dropped = Signal(str, tuple)
    """The ring that was dragged, and where it was let go."""

    taken_away = Signal(str)
    """The ring that was clicked with the other button."""

    painted = Signal(tuple)
    """Where the brush went."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self.tool = Tool.CORNERS
        self.brush_px = 40.0
        self._before: QPixmap | None = None
        self._after: QPixmap | None = None
        self._size = (1, 1)
        self._why_not = ""
        self._rings: dict[str, Spot] = {}
        self._wrong: str | None = None
        self._lines: tuple[tuple[Spot, Spot], ...] = ()
        self._strokes: tuple[tuple[tuple[Spot, ...], float], ...] = ()
        self._dragged: str | None = None
        self._stroke: list[Spot] = []
        self._share = 0.5
        self.setMinimumSize(260, 160)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setCursor(Qt.CursorShape.CrossCursor)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return a size at which corners can be hit."""
        return QSize(720, 480)

    @property
    def share(self) -> float:
        """Share of the left side that is shown as it is now."""
        return self._share

    def show_photo(self, picture: Pixels | None, size: tuple[int, int], why_not: str) -> None:
        """Show a photograph of a file of some size, or the words why there is none."""
        self._before = None if picture is None else _pixmap(picture)
        self._size, self._why_not = size, why_not
        self.show_after(None)

    def show_after(self, picture: Pixels | None) -> None:
        """Show the new roof on the right of the divider; None shows the photograph alone."""
        self._after = None if picture is None else _pixmap(picture)
        self.update()

    def mark(
        self,
        rings: Mapping[str, Spot],
        *,
        wrong: str | None,
        lines: Sequence[tuple[Spot, Spot]],
        strokes: Sequence[tuple[tuple[Spot, ...], float]],
    ) -> None:
        """Show clicks, the doubtful one, the roof's lines as the camera sees them, and strokes."""
        self._rings, self._wrong = dict(rings), wrong
        self._lines, self._strokes = tuple(lines), tuple(strokes)
        self.update()

    def at(self, spot: Spot) -> QPointF:
        """Return where a spot of the photograph lies in the widget."""
        room, scale = self._room()
        return QPointF(room.left() + spot[0] * scale, room.top() + spot[1] * scale)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Grip a ring, begin a stroke, or move the divider."""
        if self._before is None:
            return
        near = self._ring_near(event.position())
        if event.button() is Qt.MouseButton.RightButton:
            if near is not None and self.tool is Tool.CORNERS:
                self.taken_away.emit(near)
        elif self.tool is Tool.DIVIDER:
            self._divide(event.position())
        elif self.tool.paints:
            self._stroke = [self._spot(event.position())]
        elif near is not None:
            self._dragged = near
        else:
            self._click(self._spot(event.position()))
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Drag what was gripped."""
        spot = self._spot(event.position())
        if self._dragged is not None:
            self._rings[self._dragged] = spot
            self.moved.emit(self._dragged, spot)
        elif self._stroke:
            self._stroke.append(spot)
        elif self.tool is Tool.DIVIDER and event.buttons() & Qt.MouseButton.LeftButton:
            self._divide(event.position())
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Let go."""
        if self._dragged is not None:
            name, self._dragged = self._dragged, None
            self.dropped.emit(name, self._spot(event.position()))
        elif self._stroke:
            stroke, self._stroke = tuple(self._stroke), []
            self.painted.emit(stroke)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint all of it."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.fillRect(self.rect(), QColor(theme.WELL))
            if self._before is None:
                painter.setPen(QColor(theme.FAINT))
                flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                painter.drawText(self.rect().adjusted(24, 24, -24, -24), flags, self._why_not)
                return
            room, _ = self._room()
            painter.drawPixmap(room, self._before, QRectF(self._before.rect()))
            if self._after is not None and self.tool is Tool.DIVIDER:
                self._paint_after(painter, room)
                return
            self._paint_strokes(painter)
            self._paint_lines(painter)
            self._paint_rings(painter)

    def _paint_after(self, painter: QPainter, room: QRectF) -> None:
        assert self._after is not None
        at = room.left() + self._share * room.width()
        right = QRectF(at, room.top(), room.right() - at, room.height())
        source = QRectF(self._after.rect())
        source.setLeft(self._share * source.width())
        painter.drawPixmap(right, self._after, source)
        painter.setPen(QPen(QColor("white"), 2.0))
        painter.drawLine(QPointF(at, room.top()), QPointF(at, room.bottom()))

    def _paint_strokes(self, painter: QPainter) -> None:
        _, scale = self._room()
        strokes = [*self._strokes]
        if self._stroke:
            strokes.append((tuple(self._stroke), self.brush_px))
        colour = QColor(theme.ACCENT)
        colour.setAlphaF(0.35)
        for spots, width in strokes:
            pen = QPen(colour, max(1.0, width * scale))
            pen.setCapStyle(Qt.PenCapStyle.RoundCap)
            pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
            painter.setPen(pen)
            points = [self.at(spot) for spot in spots]
            painter.drawPolyline(points if len(points) > 1 else [*points, *points])

    def _paint_lines(self, painter: QPainter) -> None:
        for colour, width in (("white", 3.5), (theme.LIT, 1.6)):
            painter.setPen(QPen(QColor(colour), width))
            for start, end in self._lines:
                painter.drawLine(self.at(start), self.at(end))

    def _paint_rings(self, painter: QPainter) -> None:
        for name, spot in self._rings.items():
            at = self.at(spot)
            colour = theme.STOP if name == self._wrong else theme.ACCENT
            for pen_colour, width in (("white", 4.0), (colour, 2.0)):
                painter.setPen(QPen(QColor(pen_colour), width))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawEllipse(at, _RING_PX, _RING_PX)
            box = painter.fontMetrics().boundingRect(name).adjusted(-3, -1, 3, 1)
            box.moveTo(round(at.x() + _RING_PX + 3), round(at.y() - _RING_PX - box.height()))
            painter.fillRect(box, QColor("white"))
            painter.setPen(QColor(colour))
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, name)

    def _click(self, spot: Spot) -> None:
        wide, high = self._size
        if 0.0 <= spot[0] <= wide and 0.0 <= spot[1] <= high:
            self.clicked.emit(spot)

    def _divide(self, at: QPointF) -> None:
        room, _ = self._room()
        self._share = min(max((at.x() - room.left()) / max(room.width(), 1.0), 0.0), 1.0)

    def _ring_near(self, at: QPointF) -> str | None:
        near = {name: (self.at(spot) - at).manhattanLength() for name, spot in self._rings.items()}
        name = min(near, key=lambda one: near[one], default=None)
        return name if name is not None and near[name] <= _GRAB_PX else None

    def _spot(self, at: QPointF) -> Spot:
        room, scale = self._room()
        return (at.x() - room.left()) / scale, (at.y() - room.top()) / scale

    def _room(self) -> tuple[QRectF, float]:
        """Return where the photograph lies in the widget, and widget pixels per pixel of it."""
        wide, high = self._size
        scale = max(min(self.width() / wide, self.height() / high), 1e-6)
        room = QRectF(0.0, 0.0, wide * scale, high * scale)
        room.moveCenter(QRectF(self.rect()).center())
        return room, scale


def _pixmap(picture: Pixels) -> QPixmap:
    high, wide = picture.shape[:2]
    image = QImage(picture.tobytes(), wide, high, 3 * wide, QImage.Format.Format_RGB888)
    return QPixmap.fromImage(image.copy())
