"""Photographs kept in a folder beside the job file: taken in, looked up, captioned, left out."""

import shutil
from dataclasses import replace
from pathlib import Path

from roofmodel.foundation.errors import JobFileError
from roofmodel.photographs import photo_file
from roofmodel.photographs.entry import PhotoEntry, Stage
from roofmodel.storage import job_file
from roofmodel.storage.job import Job


class PhotoError(JobFileError):
    """A photograph cannot be taken into the job, or is not there; the text says what to do."""


def folder(job_path: Path) -> Path:
    """Return the folder of a job's photographs, which need not exist."""
    return job_path.with_name(job_path.name.removesuffix(job_file.SUFFIX) + ".photos")


def path_of(photo: PhotoEntry, job_path: Path) -> Path:
    """Return where the file of a photograph lies.

    Raises
    ------
    PhotoError
        If its name leads out of the job's folder.
    """
    if Path(photo.file).name != photo.file:
        raise PhotoError(
            f"The photograph “{photo.file}” is named with a folder. Photographs lie in "
            f"{folder(job_path).name}; take it out of the job and add it again."
        )
    return folder(job_path) / photo.file


def with_photo(job: Job, job_path: Path, file: Path, *, caption: str, stage: Stage) -> Job:
    """Return the job with a photograph more, its file copied beside the job's as it is.

    Raises
    ------
    DrawingError
        If the file is no photograph that can be taken.
    PhotoError
        If it cannot be copied.
    """
    entry = photo_file.entry_of(file, caption=caption, stage=stage)
    place = folder(job_path)
    taken = {photo.file.lower() for photo in job.photos}
    name, count = file.name, 2
    while name.lower() in taken or (place / name).exists():
        name = f"{file.stem}-{count}{file.suffix}"
        count += 1
    try:
        place.mkdir(exist_ok=True)
        part = place / f".{name}.part"
        shutil.copyfile(file, part)
        part.replace(place / name)
    except OSError as error:
        raise PhotoError(
            f"The photograph {file.name} cannot be copied into {place}: {error.strerror}. "
            "The job was not changed."
        ) from error
    return replace(job, photos=(*job.photos, replace(entry, file=name)))


def changed(job: Job, place: int, photo: PhotoEntry) -> Job:
    """Return the job with one of its photographs entered otherwise."""
    photos = list(job.photos)
    photos[place] = photo
    return replace(job, photos=tuple(photos))


def without(job: Job, place: int) -> Job:
    """Return the job without a photograph; its file stays where it is."""
    return replace(job, photos=(*job.photos[:place], *job.photos[place + 1 :]))
