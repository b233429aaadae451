"""Whether somebody with a name has released just this roof for cutting, on a day that has been."""

from datetime import date

from roofmodel.storage.job import Job, Released
from roofmodel.workbench.job import content
from roofmodel.workbench.job.options import Option

_FIRST_DAY = date(2000, 1, 1)
"""No release is older: a day before it is a slip of the key."""


def reasons(job: Job, option: Option, *, today: date | None = None) -> list[str]:
    """Return why the release of a job does not hold for a method; empty when it does.

    Parameters
    ----------
    job
        The job with its release.
    option
        The method that is to be cut.
    today
        The day of issue; without one a day to come is not seen.
    """
    given = job.released
    if given is None:
        return [
            f"Revision {job.revision} has not been released: measure the roof a second time, then "
            "enter who released it and when."
        ]
    if given.revision != job.revision:
        return [f"Revision {given.revision} was released, but this is revision {job.revision}."]
    return [*_of_content(given, job, option), *_of_person(given), *_of_day(given, today)]


def approved(job: Job) -> str:
    """Return who released this revision, and when; empty while nobody has."""
    if job.released is None or job.released.revision != job.revision or _of_person(job.released):
        return ""
    return f"{job.released.by.strip()}, {job.released.on.isoformat()}"


def released(job: Job, option: Option, *, by: str, on: date) -> Released:
    """Return the release of a method of a job as it stands now."""
    return Released(revision=job.revision, by=by, on=on, content=content.name(job, option))


def _of_content(given: Released, job: Job, option: Option) -> list[str]:
    now = content.name(job, option)
    if given.content == now:
        return []
    what = f"content {given.content}" if given.content else "no content by name"
    return [
        f"The release of revision {given.revision} is of {what}; “{option.method.printed}” as it "
        f"is entered now is {now}. Check what was changed, then release it again."
    ]


def _of_person(given: Released) -> list[str]:
    if sum(letter.isalpha() for letter in given.by) >= 2:
        return []
    return [f"“{given.by}” is nobody's name. Enter who released revision {given.revision}."]


def _of_day(given: Released, today: date | None) -> list[str]:
    if given.on < _FIRST_DAY or (today is not None and given.on > today):
        return [
            f"Revision {given.revision} cannot have been released on {given.on.isoformat()}. "
            "Enter the day it was."
        ]
    return []
