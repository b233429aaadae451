"""Photographs as they leave the house: small enough, captioned, without place, day and camera."""

import re
from pathlib import Path

from roofmodel.drawings.sets.photo_pages import PhotoPrint
from roofmodel.photographs import photo_file
from roofmodel.photographs.entry import PhotoEntry, Stage
from roofmodel.storage import safe_write
from roofmodel.storage.job import Job
from roofmodel.workbench.photos import drawn_in

_PRINTED_PX, _SENT_PX = 1_000, 2_400


def of_job(job: Job, job_path: Path) -> tuple[PhotoPrint, ...]:
    """Return all photographs of a job for its handover pack, survey first, finish last.

    Raises
    ------
    DrawingError
        If one is missing or damaged; the text names it.
    """
    prints = []
    for photo in _in_order(job):
        pixels = drawn_in.picture(photo, job_path, longest_px=_PRINTED_PX)
        prints.append(
            PhotoPrint(
                stage=photo.stage.printed,
                caption=photo.caption,
                jpeg=photo_file.jpeg(pixels),
                size=(pixels.shape[1], pixels.shape[0]),
            )
        )
    return tuple(prints)


def copies(job: Job, job_path: Path, folder: Path) -> list[Path]:
    """Write copies of all photographs that tell nothing but what is seen; errors as `of_job`.

    The files are numbered and named after stage and caption. All are made before any is written.
    """
    made = [
        (f"{job.code}-{number:02}-{_name(photo)}.jpg", photo_file.jpeg(pixels))
        for number, photo in enumerate(_in_order(job), start=1)
        for pixels in (drawn_in.picture(photo, job_path, longest_px=_SENT_PX),)
    ]
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in made:
        safe_write.replace_bytes(folder / name, content)
    return [folder / name for name, _ in made]


def _in_order(job: Job) -> list[PhotoEntry]:
    return sorted(job.photos, key=lambda photo: list(Stage).index(photo.stage))


def _name(photo: PhotoEntry) -> str:
    words = re.sub(r"[^a-z0-9]+", "-", photo.caption.lower()).strip("-")[:40]
    return "-".join(filter(None, (photo.stage.value, words)))
