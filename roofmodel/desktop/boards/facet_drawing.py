"""The selected facet unfolded: true shape from outside, its edges by name, the boards on it."""

from collections.abc import Sequence

import shapely
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from roofmodel.desktop.boards.boards_shown import BoardedFacet
from roofmodel.desktop.kit import flat_canvas, number_text, theme
from roofmodel.desktop.kit.flat_canvas import Flat, Place
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.refit.light import lines_up
from roofmodel.shapes.roof import Facet, LineKind

_EDGE_WORDS, _DIMENSION = 40.0, 34.0
"""Room beside the facet for the names of its edges and for the slope length [pixels]."""

_NOTES = 22.0
_OFF_EDGE = 13.0

_NOTE_TEXTS = (
    "OUTSIDE FACE UP   ↑ up-slope   true shape, mm",
    "OUTSIDE FACE UP   ↑ up-slope",
    "OUTSIDE FACE UP",
)
"""From the fullest to the one that must not be missing."""


class FacetDrawing(QWidget):
    """Paints one facet with its boards."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._shown: BoardedFacet | None = None
        self._why_not = ""
        self._lit: tuple[tuple[Flat, Flat], ...] = ()
        self.setMinimumSize(260, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    @property
    def shown(self) -> BoardedFacet | None:
        """What is shown."""
        return self._shown

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return a size at which most facets read well."""
        return QSize(560, 280)

    def show_facet(self, boarded: BoardedFacet | None, *, why_not: str = "") -> None:
        """Show a facet, or the reason why there is none."""
        self._shown, self._why_not = boarded, why_not
        self.update()

    @property
    def lit(self) -> tuple[tuple[Flat, Flat], ...]:
        """The strokes that are lit, in the facet's frame [mm]."""
        return self._lit

    def light(self, strokes: Sequence[tuple[Flat, Flat]]) -> None:
        """Light the geometry of a take-off line; none puts it out."""
        self._lit = tuple(strokes)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint all of it."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), QColor(ON_PAPER.card))
            if self._shown is None:
                painter.setPen(QColor(ON_PAPER.faint))
                flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                painter.drawText(
                    QRectF(self.rect()).adjusted(20, 20, -20, -20), flags, self._why_not
                )
                return
            self._paint(painter, self._shown)

    def _paint(self, painter: QPainter, shown: BoardedFacet) -> None:
        outline = [(float(u), float(v)) for u, v in shown.facet.outline_mm]
        size = (max(u for u, _ in outline), max(v for _, v in outline))
        room = QRectF(self.rect()).adjusted(
            _EDGE_WORDS, _NOTES + 28.0, -_EDGE_WORDS - _DIMENSION, -_EDGE_WORDS
        )
        place = flat_canvas.fitted(size, room)
        shape = place.polygon(outline)
        _paint_pieces(painter, shown, place)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(ON_PAPER.ink), 2.0))
        painter.drawPolygon(shape)
        _name_edges(painter, shown.facet, shape)
        _slope_dimension(painter, place, size, shown.facet.slope_length_mm)
        if self._lit:
            painter.setPen(QPen(QColor(theme.LIT), 3.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            for start, end in self._lit:
                painter.drawLine(place.at(start), place.at(end))
        self._write_notes(painter, shown)

    def _write_notes(self, painter: QPainter, shown: BoardedFacet) -> None:
        bar = QRectF(10.0, 4.0, self.width() - 20.0, _NOTES)
        middle = Qt.AlignmentFlag.AlignVCenter
        painter.setFont(theme.font(9.0, bold=True))
        painter.setPen(QColor(ON_PAPER.ink))
        facet = shown.facet
        head = f"{facet.name} · {facet.pitch_deg:.2f}° · {shown.material}"
        taken = painter.boundingRect(bar, Qt.AlignmentFlag.AlignLeft | middle, head)
        painter.drawText(bar, Qt.AlignmentFlag.AlignLeft | middle, head)
        painter.setFont(theme.font(8.5))
        painter.setPen(QColor(ON_PAPER.accent))
        for note in _NOTE_TEXTS:
            right = Qt.AlignmentFlag.AlignRight | middle
            if painter.boundingRect(bar, right, note).left() > taken.right() + 12.0:
                painter.drawText(bar, right, note)
                return


def _paint_pieces(painter: QPainter, shown: BoardedFacet, place: Place) -> None:
    light = QColor(theme.blended(shown.colour, "#ffffff", 0.35))
    dark = QColor(theme.blended(shown.colour, "#ffffff", 0.10))
    shapes = [place.polygon(piece.corners_mm) for piece in shown.pieces]
    for number, shape in enumerate(shapes):
        # Neighbouring pieces differ in shade, so that joints show at any size.
        painter.setBrush(light if number % 2 else dark)
        painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0))
        painter.drawPolygon(shape)
    _paint_bars(painter, shown, place)
    painter.setPen(QColor(ON_PAPER.ink))
    painter.setFont(theme.font(8.5))
    for piece, shape in zip(shown.pieces, shapes, strict=True):
        flat_canvas.write_in(painter, (piece.mark, piece.size), shape)


def _paint_bars(painter: QPainter, shown: BoardedFacet, place: Place) -> None:
    """Dot the centre-line of every bar, as far as the facet goes."""
    outline = shapely.Polygon([(float(u), float(v)) for u, v in shown.facet.outline_mm])
    painter.setPen(QPen(QColor(ON_PAPER.note), 1.2, Qt.PenStyle.DotLine))
    for at_mm in shown.bars_mm:
        for foot, head in lines_up(outline, at_mm):
            painter.drawLine(place.at((at_mm, foot)), place.at((at_mm, head)))


def _name_edges(painter: QPainter, facet: Facet, shape: QPolygonF) -> None:
    painter.setFont(theme.font(8.5))
    corners = [shape.at(i) for i in range(len(facet.edges))]
    lengths = _side_lengths([(float(u), float(v)) for u, v in facet.outline_mm])
    for i, edge in enumerate(facet.edges):
        start, end = corners[i], corners[(i + 1) % len(corners)]
        length = number_text.spaced(lengths[i])
        bevel = f" · bevel {edge.bevel_deg:.2f}°" if edge.bevel_deg else ""
        words = (
            f"{edge.kind.value} {length}{bevel}",
            f"{edge.kind.value} {length}",
            length,
        )
        painter.setPen(QColor(ON_PAPER.accent if edge.kind is LineKind.EAVES else ON_PAPER.ink))
        # Corners run counter-clockwise, so outside is to the right; y down keeps it there.
        flat_canvas.write_along(painter, words, start, end, off_px=_OFF_EDGE)


def _slope_dimension(painter: QPainter, place: Place, size: Flat, slope_mm: float) -> None:
    """Draw the length up the slope at the right, clear of the names of the edges."""
    x = place.at((size[0], 0.0)).x() + _EDGE_WORDS - 8.0
    low, high = (
        QPointF(x, place.at((0.0, 0.0)).y()),
        QPointF(x, place.at((0.0, size[1])).y()),
    )
    painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0))
    painter.drawLine(low, high)
    for end in (low, high):
        painter.drawLine(end + QPointF(-4.0, 4.0), end + QPointF(4.0, -4.0))
    painter.setFont(theme.font(8.5))
    length = number_text.spaced(slope_mm)
    words = (f"up the slope {length}", length)
    flat_canvas.write_along(painter, words, low, high, off_px=10.0)


def _side_lengths(outline: Sequence[Flat]) -> list[float]:
    ends = (*outline[1:], outline[0])
    return [
        ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5 for a, b in zip(outline, ends, strict=True)
    ]
