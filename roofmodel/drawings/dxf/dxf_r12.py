"""The same drawings in the oldest form of DXF still asked for: R12, model space only.

R12 knows no unit and no light polyline: millimetres are a promise, loops are plain polylines.
"""

from collections.abc import Sequence
from pathlib import Path

# The package re-exports these names without saying so, which mypy strict does not accept.
from ezdxf.filemanagement import new

from roofmodel.drawings.dxf.dxf_pen import STYLE, DxfPen, line_type, quietly, tidy, write_document
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Spot

_RELEASE = "R12"


class R12Drawing(DxfPen):
    """One R12 file; it is its own pen."""

    def __init__(self) -> None:
        """Begin an empty drawing."""
        with quietly():
            document = new(_RELEASE, setup=False, units=0)
        document.styles.add(STYLE, font="txt.shx")
        super().__init__(document, document.modelspace())

    def outline(self, corners: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw a closed outline."""
        self._space.add_polyline2d(tidy(self._at(corners)), close=True, dxfattribs=self._on(layer))

    def line(self, spots: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw an open line."""
        self._space.add_polyline2d(tidy(self._at(spots)), dxfattribs=self._on(layer))

    def save(self, path: Path) -> None:
        """Write the file; the same drawing gives the same bytes.

        Raises
        ------
        DrawingError
            If it cannot be written.
        """
        low, high = self.extents_mm
        header = self._document.header
        header["$EXTMIN"], header["$EXTMAX"] = (*low, 0.0), (*high, 0.0)
        write_document(self._document, path)

    def _on(self, layer: DrawingLayer) -> dict[str, object]:
        """Return the attributes that put something on a layer; R12 layers have no line weight."""
        if layer.name not in self._document.layers:
            self._document.layers.add(
                layer.name, color=layer.colour, linetype=line_type(self._document, layer)
            )
        return {"layer": layer.name}
