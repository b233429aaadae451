"""Writes drawings as DXF and reads them back; the only module that knows the format."""

import logging
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from ezdxf import units

# The package re-exports these names without saying so, which mypy strict does not accept.
from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.polyline import Polyline
from ezdxf.filemanagement import new, readfile
from ezdxf.layouts.base import BaseLayout
from ezdxf.lldxf.const import DXFError

from roofmodel.drawings.paper import page
from roofmodel.drawings.paper.layer import FRAME, DrawingLayer
from roofmodel.drawings.paper.lettering import WIDTH_FACTOR
from roofmodel.drawings.paper.pen import Spot
from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry.polygon import Outline

_LOG = logging.getLogger("ezdxf")

_RELEASE = "R2010"
"""Old enough for every program in use, new enough to hold units."""

_BELOW_MM = 400.0
"""The page lies so far below its origin: readers that show page and model at once see it beside
the board, not on it."""

STYLE = "SINGLE-STROKE"
_FONT = "txt.shx"
"""A font of single strokes, so that words can also be engraved or plotted."""

PLAIN = str.maketrans({"×": "x", "°": " deg", "²": "2", "–": "-"})
"""Signs that single-stroke fonts often lack, and what is written instead."""

_DECIMALS = 4

_DASH_SCALE = 10.0
"""Drawings at full size are mostly looked at as on paper, 1 : 10."""


class DxfPen:
    """Draws into one space of a DXF drawing."""

    def __init__(
        self, document: Drawing, space: BaseLayout, *, moved_mm: Spot = (0.0, 0.0)
    ) -> None:
        self._document = document
        self._space = space
        self._moved = moved_mm
        self._made: set[str] = set()
        self._drawn: list[Spot] = []

    @property
    def extents_mm(self) -> tuple[Spot, Spot]:
        """Lower left and upper right of all that was drawn, words by where they begin [mm]."""
        across, up = zip(*self._drawn, strict=True) if self._drawn else ((0.0,), (0.0,))
        return (min(across), min(up)), (max(across), max(up))

    def outline(self, corners: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw a closed outline."""
        spots = tidy(self._at(corners))
        self._space.add_lwpolyline(spots, close=True, dxfattribs=self._on(layer))

    def line(self, spots: Sequence[Spot], *, layer: DrawingLayer) -> None:
        """Draw an open line."""
        self._space.add_lwpolyline(tidy(self._at(spots)), dxfattribs=self._on(layer))

    def text(
        self, words: str, at: Spot, *, height_mm: float, turn_deg: float, layer: DrawingLayer
    ) -> None:
        """Write one line of text from its lower left corner."""
        (spot,) = self._at([at])
        attributes = {**self._on(layer), **text_attributes(spot, height_mm, turn_deg)}
        self._space.add_text(words.translate(PLAIN), dxfattribs=attributes)

    def _at(self, spots: Sequence[Spot]) -> list[Spot]:
        moved = [(x + self._moved[0], y + self._moved[1]) for x, y in spots]
        self._drawn += moved
        return moved

    def _on(self, layer: DrawingLayer) -> dict[str, object]:
        """Return the attributes that put something on a layer, which is made when first used."""
        if layer.name in self._made:
            return {"layer": layer.name}
        self._made.add(layer.name)
        if layer.name not in self._document.layers:
            self._document.layers.add(
                layer.name,
                color=layer.colour,
                lineweight=layer.width_hundredths_mm,
                linetype=line_type(self._document, layer),
            )
        return {"layer": layer.name}


def line_type(document: Drawing, layer: DrawingLayer) -> str:
    """Return the name of a layer's line type, which is made when first used."""
    dashes = [step * _DASH_SCALE for step in layer.line.value]
    if not dashes:
        return "CONTINUOUS"
    name = f"DASHES-{layer.line.name}"
    if name not in document.linetypes:
        # The format counts strokes above zero and gaps below it, after their sum.
        steps = [step if i % 2 == 0 else -step for i, step in enumerate(dashes)]
        document.linetypes.add(name, [sum(dashes), *steps])
    return name


class DxfDrawing:
    """One DXF file: the model at full size, and an A3 page that shows it reduced."""

    def __init__(self) -> None:
        with quietly():
            self._document = new(_RELEASE, setup=False, units=units.MM)
        self._document.styles.add(STYLE, font=_FONT)
        self._page = self._document.paperspace()
        self._page.page_setup(
            size=page.SIZE_MM, margins=(0, 0, 0, 0), units="mm", offset=(0, _BELOW_MM)
        )
        self.model = DxfPen(self._document, self._document.modelspace())
        self.page = DxfPen(self._document, self._page, moved_mm=(0.0, -_BELOW_MM))
        for window in self._page.viewports():
            window.dxf.layer = FRAME.name

    def look_at(self, low: Spot, high: Spot) -> None:
        """State what the model covers, and open the file on it [mm]."""
        self._document.modelspace().reset_extents((*low, 0.0), (*high, 0.0))
        header = self._document.header
        header["$EXTMIN"], header["$EXTMAX"] = (*low, 0.0), (*high, 0.0)
        header["$LIMMIN"], header["$LIMMAX"] = low, high
        self._document.set_modelspace_vport(height=_span(low, high)[1], center=_middle(low, high))

    def show_on_page(self, low: Spot, high: Spot, *, scale: float) -> None:
        """Show a part of the model [mm] in the window of the page, 1 : ``scale``."""
        width, height = _span(low, high)
        x, y = page.window_centre()
        self._page.add_viewport(
            center=(x, y - _BELOW_MM),
            size=(width / scale, height / scale),
            view_center_point=_middle(low, high),
            view_height=height,
            dxfattribs={"layer": FRAME.name},
        )

    def save(self, path: Path) -> None:
        """Write the file; the same drawing gives the same bytes.

        Raises
        ------
        DrawingError
            If it cannot be written.
        """
        write_document(self._document, path)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadBack:
    """What another program finds in a DXF file.

    ``loops`` are the closed outlines of the model by layer name, ``layers`` the names everything
    in the file lies on, ``faults`` what the format's own audit objects to.
    """

    version: str
    unit_code: int
    loops: Mapping[str, tuple[Outline, ...]]
    open_lines: Mapping[str, int]
    layers: frozenset[str]
    texts: tuple[str, ...]
    faults: tuple[str, ...]


def read_back(path: Path) -> ReadBack:
    """Return what a DXF file holds, read as a stranger would.

    Raises
    ------
    DrawingError
        If the file is no DXF.
    """
    try:
        document = readfile(path)
    except (OSError, DXFError) as error:
        raise DrawingError(
            f"{path.name} cannot be read back as a drawing: {error}. Cut the job again."
        ) from error
    audit = document.audit()
    everything = [entity for layout in document.layouts for entity in layout]
    loops: dict[str, list[Outline]] = {}
    open_lines: dict[str, int] = {}
    for name, corners, closed in _polylines(document):
        if closed:
            loops.setdefault(name, []).append(corners)
        else:
            open_lines[name] = open_lines.get(name, 0) + 1
    return ReadBack(
        version=document.dxfversion,
        unit_code=document.units,
        loops={name: tuple(outlines) for name, outlines in loops.items()},
        open_lines=open_lines,
        layers=frozenset(entity.dxf.layer for entity in everything),
        texts=tuple(entity.dxf.text for entity in everything if entity.dxftype() == "TEXT"),
        faults=tuple(str(fault.message) for fault in [*audit.errors, *audit.fixes]),
    )


def _polylines(document: Drawing) -> Iterator[tuple[str, Outline, bool]]:
    """Give layer, corners and closedness of every polyline, light ones and those of R12."""
    for entity in document.modelspace():
        if isinstance(entity, LWPolyline):
            yield entity.dxf.layer, np.array(entity.get_points("xy"), dtype=float), entity.closed
        elif isinstance(entity, Polyline):
            corners = np.array([(spot.x, spot.y) for spot in entity.points()], dtype=float)
            yield entity.dxf.layer, corners, entity.is_closed


@contextmanager
def quietly() -> Iterator[None]:
    """Keep the time and chance numbers out of a file, which would differ at every run."""
    before, level = options.write_fixed_meta_data_for_testing, _LOG.level
    options.write_fixed_meta_data_for_testing = True
    # It warns of every R12 file that this format knows no unit.
    _LOG.setLevel(logging.ERROR)
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
        _LOG.setLevel(level)


def text_attributes(at: Spot, height_mm: float, turn_deg: float) -> dict[str, object]:
    """Return how a line of single-stroke text stands."""
    return {
        "style": STYLE,
        "width": WIDTH_FACTOR,
        "insert": tidy([at])[0],
        "height": round(height_mm, _DECIMALS),
        "rotation": round(turn_deg, _DECIMALS),
    }


def tidy(spots: Sequence[Spot]) -> list[Spot]:
    """Return spots without the dust that sums of tenths leave behind the decimal point."""
    return [(round(x, _DECIMALS), round(y, _DECIMALS)) for x, y in spots]


def _span(low: Spot, high: Spot) -> Spot:
    return (high[0] - low[0], high[1] - low[1])


def _middle(low: Spot, high: Spot) -> Spot:
    return ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0)


def write_document(document: Drawing, path: Path) -> None:
    """Write a DXF document.

    Raises
    ------
    DrawingError
        If it cannot be written.
    """
    try:
        with quietly():
            document.saveas(path)
    except OSError as error:
        raise DrawingError(
            f"{path.name} could not be written: {error.strerror}. "
            "Free some space or choose another folder."
        ) from error
