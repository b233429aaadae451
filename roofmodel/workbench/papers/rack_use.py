"""The rack and the cutting plans of a job: what it offers, what is kept, what comes back."""

from collections.abc import Iterable, Sequence
from datetime import date

from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.cutting.rack.plan import RackPlan
from roofmodel.storage.job import Job
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import Cutting, Holder


def holder(jobs: Sequence[Job]) -> Holder:
    """Return for whom offcuts are kept: one job, or several cut together, by their codes."""
    jobs = sorted(jobs, key=lambda job: job.code)
    return Holder(
        job="+".join(job.code for job in jobs),
        revision="+".join(job.revision for job in jobs),
    )


def offered(rack: Rack | None, material: str, by: Holder) -> tuple[RackPiece, ...]:
    """Return the offcuts of a sheet material that a job may take, the oldest first.

    Raises
    ------
    RackError
        If the rack cannot be read.
    """
    on_rack = () if rack is None else rack.for_job(material, by)
    return tuple(piece for piece in on_rack if piece.corners)


def reserve(rack: Rack, by: Holder, plans: Iterable[RackPlan]) -> tuple[str, ...]:
    """Keep for a job what its plans take from the rack, all or none; return the labels.

    Raises
    ------
    RackError
        If something was taken by someone else meanwhile, or the rack cannot be changed.
    """
    labels = tuple(label for plan in plans for label in plan.from_rack)
    if labels:
        rack.reserve(labels, by)
    return labels


def write_back(
    rack: Rack, by: Holder, plans: Sequence[RackPlan], *, since: date, place: str = ""
) -> tuple[RackPiece, ...]:
    """Note that plans were cut: what they took is used, what they leave is put on the rack.

    All of it in one step; return what was put on the rack.

    Parameters
    ----------
    rack : Rack
        The rack.
    by : Holder
        The job that was cut.
    plans : sequence of RackPlan
        One for each material, as they were cut.
    since : date
        The day of cutting.
    place : str
        Where the offcuts stand.

    Raises
    ------
    RackError
        If one of the materials was written back before, something was taken by someone else, or
        the rack cannot be changed.
    """
    begin = prefix(by, rack)
    cuttings = tuple(
        Cutting(
            material=plan.good.code,
            used=plan.from_rack,
            kept=plan.to_rack(begin, since=since, place=place),
        )
        for plan in plans
    )
    rack.write_back(by, cuttings)
    return tuple(piece for cutting in cuttings for piece in cutting.kept)


def prefix(by: Holder, rack: Rack | None) -> str:
    """Return what labels begin with: the first job, how many more, revision; new on the rack.

    Raises
    ------
    RackError
        If the rack cannot be read.
    """
    taken = set() if rack is None else {entry.piece.label for entry in rack.entries()}
    jobs, revisions = by.job.split("+"), by.revision.split("+")
    more = f"+{len(jobs) - 1}" if jobs[1:] else ""
    whole = f"{jobs[0]}{more}-{revisions[0]}"
    free, number = whole, 1
    while any(label.startswith(f"{free}-") for label in taken):
        number += 1
        free = f"{whole}.{number}"
    return free
