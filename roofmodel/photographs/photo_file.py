"""Photographs as files: upright pixels, what the camera noted of its lens, and what is refused."""

import io
import math
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from PIL import Image, ImageOps, UnidentifiedImageError

from roofmodel.foundation.errors import DrawingError
from roofmodel.photographs.entry import PhotoEntry, Stage
from roofmodel.photographs.vision import Pixels

MOST_PIXELS = 120_000_000
"""Largest photograph that is taken; more is a scan or a panorama, and takes gigabytes."""
LEAST_SIDE_PX = 200
_EXIF_SUB, _FOCAL_FILM, _ORIENTATION = 0x8769, 0xA405, 0x0112
_SIDEWAYS = (5, 6, 7, 8)
_ENDINGS = (".heic", ".heif", ".hif")


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """Size of the upright picture [pixels], and the focal length for film 36 × 24 mm if told."""

    size: tuple[int, int]
    film_focal_mm: float | None


def about(path: Path) -> About:
    """Return what is to be known of a photograph without reading all of it.

    Raises
    ------
    DrawingError
        If the file is no photograph, too large or too small; the text says what to do.
    """
    with _opened(path) as picture:
        exif = picture.getexif()
        wide, high = picture.size
        if exif.get(_ORIENTATION) in _SIDEWAYS:
            wide, high = high, wide
        told = exif.get_ifd(_EXIF_SUB).get(_FOCAL_FILM)
        focal = float(told) if told else None
    usable = focal is not None and math.isfinite(focal) and 5.0 <= focal <= 1000.0
    return About(size=(wide, high), film_focal_mm=focal if usable else None)


def pixels(path: Path, *, longest_px: int | None = None) -> Pixels:
    """Return the upright picture, (height, width, 3) red, green and blue.

    Parameters
    ----------
    path
        The file; it is only read.
    longest_px
        Length of its longer side at most; as it is when left out.

    Raises
    ------
    DrawingError
        As `about`, and if the file is cut short.
    """
    with _opened(path) as picture:
        try:
            upright = ImageOps.exif_transpose(picture)
            if longest_px is not None:
                upright.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
            return np.array(upright.convert("RGB"), dtype=np.uint8)
        except (OSError, SyntaxError, ValueError) as error:
            raise DrawingError(
                f"The photograph {path.name} is damaged or cut short. Copy it again from the "
                "camera, or choose another."
            ) from error


def jpeg(picture: Pixels) -> bytes:
    """Return pixels as a JPEG file that tells nothing but what is seen."""
    return _encoded(picture, "JPEG")


def save(picture: Pixels, path: Path) -> None:
    """Write pixels as PNG or, by its ending, JPEG.

    Raises
    ------
    DrawingError
        If the file cannot be written.
    """
    content = _encoded(picture, "JPEG" if path.suffix.lower() in (".jpg", ".jpeg") else "PNG")
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise DrawingError(
            f"The picture {path.name} cannot be written in {path.parent}: {error.strerror}. "
            "Choose a folder that exists and can be written to."
        ) from error


def _encoded(picture: Pixels, kind: str) -> bytes:
    stream = io.BytesIO()
    Image.fromarray(picture).save(stream, format=kind, quality=90)
    return stream.getvalue()


def entry_of(path: Path, *, caption: str, stage: Stage) -> PhotoEntry:
    """Return the entry of a photograph nobody has clicked in yet; errors as `about`."""
    known = about(path)
    return PhotoEntry(
        file=path.name,
        caption=caption,
        stage=stage,
        width_px=known.size[0],
        height_px=known.size[1],
        film_focal_mm=known.film_focal_mm,
    )


@contextmanager
def _opened(path: Path) -> Iterator[Image.Image]:
    _read_heif(path)
    try:
        with Image.open(path) as picture:
            wide, high = picture.size
            if wide * high > MOST_PIXELS:
                raise DrawingError(_too_large(path, wide, high))
            if min(wide, high) < LEAST_SIDE_PX:
                raise DrawingError(
                    f"The photograph {path.name} has only {wide} × {high} pixels. Take the file "
                    "from the camera, not a preview of it."
                )
            if picture.mode == "CMYK":
                raise DrawingError(
                    f"The photograph {path.name} is in the colours of a printing press (CMYK). "
                    "Save it as RGB and choose it again."
                )
            yield picture
    except FileNotFoundError as error:
        raise DrawingError(
            f"The photograph {path.name} is not in {path.parent}. Put it back, or remove it from "
            "the job."
        ) from error
    except Image.DecompressionBombError as error:
        raise DrawingError(
            f"The photograph {path.name} has far more than {MOST_PIXELS // 1_000_000} million "
            "pixels. Save a smaller copy and choose that."
        ) from error
    except UnidentifiedImageError as error:
        raise DrawingError(
            f"{path.name} is not a photograph this program can read. Save it as JPEG, PNG or HEIF."
        ) from error
    except OSError as error:
        raise DrawingError(
            f"The photograph {path.name} cannot be read: {error}. Choose another file."
        ) from error


def _too_large(path: Path, wide: int, high: int) -> str:
    return (
        f"The photograph {path.name} has {wide * high / 1e6:.0f} million pixels; up to "
        f"{MOST_PIXELS // 1_000_000} are taken. Save a smaller copy and choose that."
    )


def _read_heif(path: Path) -> None:
    """Teach the picture library the format of telephones, where its reader is installed."""
    if path.suffix.lower() not in _ENDINGS:
        return
    try:
        # Needed for these files only, and not there for every Python.
        import pi_heif
    except ImportError as error:
        raise DrawingError(
            f"{path.name} is an HEIF file, and its reader is not installed here. Save it as JPEG, "
            "or install the extra “desktop” of this program."
        ) from error
    pi_heif.register_heif_opener()
