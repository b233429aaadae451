"""A photograph for a paper: upright, small enough to be sent, and without what the camera noted."""

from pathlib import Path

from PIL import Image, ImageOps, UnidentifiedImageError

from roofmodel.foundation.errors import DrawingError

_LONGEST_PX = 1600
_QUALITY = 88


def check(picture: Path) -> None:
    """Refuse a file that is no picture.

    Raises
    ------
    DrawingError
        If the file is no picture, or cannot be read.
    """
    try:
        with Image.open(picture) as opened:
            opened.verify()
    except (UnidentifiedImageError, SyntaxError) as error:
        raise DrawingError(
            f"{picture.name} is not a picture this program can read. Save it as JPEG or PNG."
        ) from error
    except (OSError, Image.DecompressionBombError) as error:
        raise DrawingError(f"{picture.name} cannot be read: {error}. Choose another.") from error


def copy(photo: Path, to: Path) -> None:
    """Write a photograph as JPEG, turned upright, without place, day and camera.

    Raises
    ------
    DrawingError
        If the file is no picture, or cannot be read.
    """
    try:
        with Image.open(photo) as opened:
            upright = ImageOps.exif_transpose(opened).convert("RGB")
            upright.thumbnail((_LONGEST_PX, _LONGEST_PX))
            # A picture made anew carries nothing of the old file but what is seen.
            bare = Image.new("RGB", upright.size)
            bare.paste(upright)
            bare.save(to, format="JPEG", quality=_QUALITY)
    except UnidentifiedImageError as error:
        raise DrawingError(
            f"{photo.name} is not a picture this program can read. Save it as JPEG or PNG."
        ) from error
    except (OSError, Image.DecompressionBombError) as error:
        raise DrawingError(
            f"The photograph {photo.name} cannot be read: {error}. Choose another file."
        ) from error


_EDGE_PX = 4
"""Width of the white line between two halves."""


def join_halves(pictures: tuple[Path, Path], path: Path) -> None:
    """Write a PNG with the left half of one picture and the right half of another of its size."""
    with Image.open(pictures[0]) as left, Image.open(pictures[1]) as right:
        whole = right.convert("RGB")
        middle, high = whole.width // 2, whole.height
        whole.paste(left.convert("RGB").crop((0, 0, middle, high)), (0, 0))
    whole.paste((255, 255, 255), (middle - _EDGE_PX // 2, 0, middle + _EDGE_PX // 2, high))
    whole.save(path, format="PNG")
