"""Small pictures of roofs, drawn from their own geometry: seen from the garden, from above."""

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.drawings.views import facet_style
from roofmodel.geometry.plane import Point
from roofmodel.shapes.roof import Roof

_TURN_DEG, _TILT_DEG = 32.0, 34.0
_WALL_MM, _EDGE_PX = 1100.0, 6.0
_WALL, _WALL_SHADE = "#efe9dd", "#ddd5c4"


def drawn(roof: Roof, size_px: tuple[int, int], ratio: float) -> QPixmap:
    """Return a picture of a roof on its walls.

    Parameters
    ----------
    roof
        What is drawn.
    size_px
        Width and height before the screen's scale.
    ratio
        The screen's scale.
    """
    picture = QPixmap(round(size_px[0] * ratio), round(size_px[1] * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(QColor(ON_PAPER.card))
    walls = [
        (line.start, line.end, _under(line.end), _under(line.start))
        for line in roof.lines
        if not line.kind.shared
    ]
    facets = [tuple(facet.corners) for facet in roof.facets]
    spots = [_seen(point) for shape in (*walls, *facets) for point in shape]
    left, right = min(x for x, _, _ in spots), max(x for x, _, _ in spots)
    low, high = min(y for _, y, _ in spots), max(y for _, y, _ in spots)
    room = QRectF(0.0, 0.0, *size_px).adjusted(_EDGE_PX, _EDGE_PX, -_EDGE_PX, -_EDGE_PX)
    scale = min(room.width() / max(right - left, 1.0), room.height() / max(high - low, 1.0))
    middle = ((left + right) / 2.0, (low + high) / 2.0)

    def shape(points: tuple[Point, ...]) -> QPolygonF:
        return QPolygonF(
            [
                QPointF(
                    room.center().x() + (x - middle[0]) * scale,
                    room.center().y() - (y - middle[1]) * scale,
                )
                for x, y, _ in map(_seen, points)
            ]
        )

    with QPainter(picture) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        for wall in sorted(walls, key=_depth, reverse=True):
            across = abs(wall[1][0] - wall[0][0]) > abs(wall[1][1] - wall[0][1])
            painter.setBrush(QColor(_WALL if across else _WALL_SHADE))
            painter.drawPolygon(shape(wall))
        painter.setPen(QPen(QColor(ON_PAPER.ink), 1.2))
        places = sorted(range(len(facets)), key=lambda i: _depth(facets[i]), reverse=True)
        for place in places:
            colour = facet_style.facet_colour(place)
            painter.setBrush(QColor(theme.blended(colour, ON_PAPER.card, 0.15)))
            painter.drawPolygon(shape(facets[place]))
    return picture


def sheet(size_px: tuple[int, int], ratio: float) -> QPixmap:
    """Return a picture of a plan half drawn, for what has no roof yet."""
    picture = QPixmap(round(size_px[0] * ratio), round(size_px[1] * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(QColor(ON_PAPER.card))
    wide, high = size_px
    corners = [(0.2, 0.22), (0.8, 0.22), (0.8, 0.55), (0.52, 0.55), (0.52, 0.82)]
    spots = [QPointF(wide * x, high * y) for x, y in corners]
    with QPainter(picture) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(QRectF(0.0, high * 0.14, wide, high * 0.08), QColor(ON_PAPER.well))
        painter.setPen(QPen(QColor(ON_PAPER.ink), 2.0))
        painter.drawPolyline(spots)
        painter.setPen(QPen(QColor(ON_PAPER.accent), 2.0, Qt.PenStyle.DashLine))
        painter.drawPolyline([spots[-1], QPointF(wide * 0.2, high * 0.82), spots[0]])
        painter.setBrush(QColor(ON_PAPER.accent))
        for spot in spots:
            painter.drawEllipse(spot, 3.0, 3.0)
    return picture


def _seen(point: Point) -> tuple[float, float, float]:
    """Return right, up and away of a point as it is seen [mm]."""
    x, y, z = point
    turn, tilt = math.radians(_TURN_DEG), math.radians(_TILT_DEG)
    right = -x * math.cos(turn) + y * math.sin(turn)
    near = y * math.cos(turn) + x * math.sin(turn)
    return (
        right,
        z * math.cos(tilt) - near * math.sin(tilt),
        -near * math.cos(tilt) - z * math.sin(tilt),
    )


def _depth(points: tuple[Point, ...]) -> float:
    return sum(_seen(point)[2] for point in points) / len(points)


def _under(point: Point) -> Point:
    return (point[0], point[1], -_WALL_MM)
