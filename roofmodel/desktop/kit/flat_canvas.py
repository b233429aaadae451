"""Drawing flat shapes in a widget: from millimetres, y up, to pixels, and words that fit."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPolygonF

Flat = tuple[float, float]

_ASIDE = 0.28
"""How far from the middle towards a corner words are tried when the middle is too narrow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where the drawing's origin lies in the widget, and pixels per mm."""

    left_px: float
    bottom_px: float
    scale: float

    def at(self, point: Flat) -> QPointF:
        """Return where a point of the drawing lies in the widget."""
        return QPointF(self.left_px + point[0] * self.scale, self.bottom_px - point[1] * self.scale)

    def polygon(self, corners: Sequence[Flat]) -> QPolygonF:
        """Return a shape of the drawing in the widget."""
        return QPolygonF([self.at(corner) for corner in corners])


def fitted(size_mm: Flat, room: QRectF) -> Place:
    """Return the place that centres a drawing of this size in a rectangle of the widget."""
    scale = max(min(room.width() / size_mm[0], room.height() / size_mm[1]), 1e-6)
    return Place(
        left_px=room.center().x() - size_mm[0] * scale / 2.0,
        bottom_px=room.center().y() + size_mm[1] * scale / 2.0,
        scale=scale,
    )


def write_in(painter: QPainter, words: Sequence[str], shape: QPolygonF) -> bool:
    """Write as many of the lines, from the first on, as fit into a shape, level or upright.

    Returns whether at least the first line was written.
    """
    metrics = QFontMetricsF(painter.font())
    centre = _middle(shape)
    corners = [shape.at(i) for i in range(shape.count())]
    tried = [centre, *(centre + (corner - centre) * _ASIDE for corner in corners)]
    for count in range(len(words), 0, -1):
        text = "\n".join(words[:count])
        wide = max(metrics.horizontalAdvance(line) for line in words[:count]) + 4.0
        high = metrics.lineSpacing() * count
        for turn_deg in (0.0, -90.0):
            extent = (high, wide) if turn_deg else (wide, high)
            spot = next((spot for spot in tried if _fits(extent, spot, shape)), None)
            if spot is not None:
                _write_at(painter, text, spot, QRectF(-wide / 2, -high / 2, wide, high), turn_deg)
                return True
    return False


def _fits(extent: Flat, spot: QPointF, shape: QPolygonF) -> bool:
    box = QRectF(0.0, 0.0, *extent)
    box.moveCenter(spot)
    return all(
        shape.containsPoint(corner, Qt.FillRule.WindingFill)
        for corner in (box.topLeft(), box.topRight(), box.bottomLeft(), box.bottomRight())
    )


def _write_at(painter: QPainter, text: str, spot: QPointF, box: QRectF, turn_deg: float) -> None:
    painter.save()
    painter.translate(spot)
    painter.rotate(turn_deg)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
    painter.restore()


def write_along(
    painter: QPainter,
    words: Sequence[str],
    start: QPointF,
    end: QPointF,
    *,
    off_px: float,
) -> None:
    """Write the first of the texts that is short enough beside a line, to its right.

    Parameters
    ----------
    painter
        Where to write.
    words
        Texts from the fullest to the shortest.
    start, end
        The line; the text stands on its right-hand side as seen from the start.
    off_px
        From the line to the middle of the text.
    """
    metrics = QFontMetricsF(painter.font())
    length = math.hypot(end.x() - start.x(), end.y() - start.y())
    text = next((text for text in words if metrics.horizontalAdvance(text) <= length), None)
    if text is None or length == 0.0:
        return
    turn = math.degrees(math.atan2(end.y() - start.y(), end.x() - start.x()))
    across = (-(end.y() - start.y()) / length, (end.x() - start.x()) / length)
    middle = (start + end) / 2.0
    wide, high = metrics.horizontalAdvance(text) + 4.0, metrics.height()
    painter.save()
    painter.translate(middle.x() + across[0] * off_px, middle.y() + across[1] * off_px)
    painter.rotate(turn if -90.0 < turn <= 90.0 else turn + 180.0)
    painter.drawText(
        QRectF(-wide / 2.0, -high / 2.0, wide, high), Qt.AlignmentFlag.AlignCenter, text
    )
    painter.restore()


def _middle(shape: QPolygonF) -> QPointF:
    """Return the centre of area of a shape."""
    points = [shape.at(i) for i in range(shape.count())]
    area = x = y = 0.0
    for a, b in zip(points, points[1:] + points[:1], strict=True):
        cross = a.x() * b.y() - b.x() * a.y()
        area, x, y = (
            area + cross,
            x + (a.x() + b.x()) * cross,
            y + (a.y() + b.y()) * cross,
        )
    if area == 0.0:
        return points[0]
    return QPointF(x / (3.0 * area), y / (3.0 * area))
