"""A photograph, or a page of a PDF, that lies under the plan sketch."""

from pathlib import Path
from typing import NamedTuple

from PySide6.QtGui import QImage, QImageReader

from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.foundation.errors import ResourceError

KINDS = "Pictures and PDF (*.png *.jpg *.jpeg *.bmp *.pdf)"
_MOST_PX = 2400
_POINTS = 72.0


class Under(NamedTuple):
    """A picture under the sheet: its upper left corner on paper [mm], and mm to one pixel."""

    image: QImage
    corner: Flat
    mm_per_px: float


def load(path: Path) -> QImage:
    """Return the picture in a file; of a PDF its first page.

    Raises
    ------
    ResourceError
        If there is no picture in it; the text says what to do.
    """
    image = _page(path) if path.suffix.lower() == ".pdf" else _picture(path)
    if image.isNull():
        raise ResourceError(
            f"{path.name} holds no picture that can be read. Choose a PNG, a JPEG or a PDF."
        )
    longest = max(image.width(), image.height())
    return (
        image if longest <= _MOST_PX else image.scaledToWidth(image.width() * _MOST_PX // longest)
    )


def _picture(path: Path) -> QImage:
    reader = QImageReader(str(path))
    # Photographs lie as they were held when they were taken.
    reader.setAutoTransform(True)
    return reader.read()


def _page(path: Path) -> QImage:
    # Only now: few lay a PDF below a plan, and nobody waits for its library at the start.
    import pypdfium2

    try:
        with pypdfium2.PdfDocument(path) as document:
            page = document[0]
            scale = min(150.0 / _POINTS, _MOST_PX / max(page.get_size()))
            drawn = page.render(scale=scale).to_numpy()
    except (pypdfium2.PdfiumError, OSError, IndexError):
        return QImage()
    high, wide, _ = drawn.shape
    return QImage(drawn.tobytes(), wide, high, 3 * wide, QImage.Format.Format_BGR888).copy()
