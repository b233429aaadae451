"""The roof of a job in one of its photographs."""

from pathlib import Path

from roofmodel.drawings.pictures import in_photo
from roofmodel.drawings.pictures.in_photo import InPhoto
from roofmodel.drawings.scenes import looks
from roofmodel.photographs import corners, photo_file, placing, vision
from roofmodel.photographs.corners import Corner
from roofmodel.photographs.entry import PhotoEntry
from roofmodel.photographs.placing import Placed
from roofmodel.photographs.vision import Pixels
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn, MethodRefusedError
from roofmodel.workbench.photos import album

LONGEST_PX = 1600
"""Longer side of a picture where none is asked for."""

_SNAP_SHARE = 0.006
"""How far a corner may lie from a click on it, in parts of the longer side."""


def corners_of(drawn: Drawn) -> tuple[Corner, ...]:
    """Return the corners of a job's roof that can be clicked."""
    return corners.of_footprint(drawn.footprint, eaves_height_mm=drawn.roof.eaves_height_mm)


def placed(drawn: Drawn, photo: PhotoEntry) -> Placed:
    """Return the camera of a photograph; errors as `placing.place`."""
    return placing.place(photo, corners_of(drawn))


def picture(photo: PhotoEntry, job_path: Path, *, longest_px: int | None = LONGEST_PX) -> Pixels:
    """Return a photograph as it is, upright; errors as `photo_file.pixels`."""
    return photo_file.pixels(album.path_of(photo, job_path), longest_px=longest_px)


def snapped(pixels: Pixels, spot: tuple[float, float]) -> tuple[float, float]:
    """Return the corner of edges beside a click, or the click where there is none [pixels]."""
    reach_px = max(4, round(max(pixels.shape[:2]) * _SNAP_SHARE))
    return vision.corner_near(pixels, spot, reach_px)


def draw(
    drawn: Drawn, option: Option, photo: PhotoEntry, pixels: Pixels, *, finer: int = 1
) -> InPhoto:
    """Return a photograph with the roof as one method makes it.

    Parameters
    ----------
    drawn, option
        The job and the method.
    photo, pixels
        The photograph's entry, and its upright picture of any size.
    finer
        As `in_photo.draw`.

    Raises
    ------
    ClicksError
        If the clicks settle no camera.
    MethodRefusedError
        If the method cannot be built on this roof.
    DrawingError
        If pictures cannot be made on this computer.
    """
    if option.refit is None:
        raise MethodRefusedError(option.refusal)
    return in_photo.draw(
        pixels,
        photo,
        placed(drawn, photo).camera,
        old=looks.as_it_stands(drawn.site),
        new=looks.finished(option.refit),
        finer=finer,
    )
