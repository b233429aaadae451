"""Jobs to start from: what is the same on the firm's usual job, without the house it came from."""

import re
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

from roofmodel.foundation.errors import JobFileError, ResourceError
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.storage import job_file
from roofmodel.storage.job import Actuals, Job

FOLDER = "templates"
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ,()'-]{0,48}[A-Za-z0-9)]|[A-Za-z0-9]")
"""Letters a name may have: it is a file's name on every system."""


def of_job(job: Job) -> Job:
    """Return what a job has in common with the next one.

    Shape and sizes stay as values to start from, and so do method, layers, boards, lights, lines
    and contingency. Readings, decisions, facts of the house, customer, discount, release and what
    it took belong to the one roof and stay behind.
    """
    estimate = replace(
        job.estimate,
        discount_percent=Decimal(0),
        discount_gbp=Decimal(0),
        discount_reason="",
    )
    return replace(
        job,
        revision="A",
        title="",
        customer="",
        note="",
        readings=(),
        kept_readings=(),
        answers=(),
        site=SiteFacts(),
        house=HouseFacts(),
        estimate=estimate,
        actuals=Actuals(),
        released=None,
        photos=(),
    )


def names(folder: Path | None) -> tuple[str, ...]:
    """Return the names of the firm's templates, in their order."""
    if folder is None:
        return ()
    there = (folder / FOLDER).glob(f"*{job_file.SUFFIX}")
    return tuple(sorted(path.name.removesuffix(job_file.SUFFIX) for path in there))


def save(job: Job, name: str, folder: Path) -> Path:
    """Keep a job as a template; one of that name stays beside it as the version before.

    Raises
    ------
    ResourceError
        If it cannot be the name of a file, or the file cannot be written.
    """
    path = file(name, folder)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        job_file.write(of_job(job), path)
    except OSError as error:
        told = f"The folder {path.parent} cannot be created: {error.strerror}."
        raise ResourceError(f"{told} Choose a folder you can write to.") from error
    except JobFileError as error:
        raise ResourceError(str(error)) from error
    return path


def start(name: str, folder: Path | None, code: str | None = None) -> Job:
    """Return a new job that begins as a template, with a code of its own.

    Raises
    ------
    ResourceError
        If there is no template of that name; the text lists them.
    JobFileError
        If its file cannot be read, or the code cannot be one.
    """
    if folder is None or name not in names(folder):
        known = ", ".join(names(folder)) or "none yet; save a job as one first"
        raise ResourceError(f"There is no job template “{name}”. There are: {known}.")
    job = of_job(job_file.read(file(name, folder)))
    return job if code is None else job_file.loads(job_file.dumps(replace(job, code=code)))


def remove(name: str, folder: Path) -> None:
    """Take a template away.

    Raises
    ------
    ResourceError
        If there is none of that name, or it cannot be removed.
    """
    start(name, folder)
    try:
        file(name, folder).unlink()
    except OSError as error:
        raise ResourceError(f"“{name}” cannot be removed: {error.strerror}.") from error


def file(name: str, folder: Path) -> Path:
    """Return where a template is kept.

    Raises
    ------
    ResourceError
        If it cannot be the name of one.
    """
    if not NAME.fullmatch(name):
        told = f"“{name}” cannot be the name of a template."
        raise ResourceError(
            f"{told} Use up to 50 letters, figures, spaces and hyphens, such as “three-facet, our "
            "usual”."
        )
    return folder / FOLDER / f"{name}{job_file.SUFFIX}"
