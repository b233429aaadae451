"""Everything the papers of one method of a job, or of several jobs cut together, are drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from roofmodel.cutting.lengths.plan import LengthPlan
from roofmodel.cutting.lengths.problem import RackLength
from roofmodel.drawings.details.detail import Detail
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Release
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.views.stack_section import StackSection
from roofmodel.quantities.runs import Run
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLengths:
    """One kind of run as it is cut; ``kept`` is what goes on the rack, by the number of its bar.

    ``runs`` are what it is cut for: where each lies, and how its ends are cut.
    """

    name: str
    plan: LengthPlan
    runs: tuple[Run, ...] = ()
    kept: Mapping[int, RackLength] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperJob:
    """A job as its papers need it.

    ``plans`` hold the job's own parts, from the room outwards; ``stack`` is the section through its
    layers; ``details`` are drawn 1 : 5; ``lengths`` what is cut from lengths; ``rolls`` the name
    and number of every roll that is delivered; ``kind`` is what sort of document its pages are.
    """

    heading: Heading
    title: str
    method: str
    roof: Roof
    members: Members
    plans: tuple[CutPlan, ...]
    release: Release
    stack: StackSection | None = None
    details: tuple[Detail, ...] = ()
    lengths: tuple[CutLengths, ...] = ()
    rolls: tuple[tuple[str, int], ...] = ()
    notes: tuple[str, ...] = field(default_factory=tuple)
    kind: str = "workshop drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingSet:
    """What is cut in one go: the sheets of one job, or of several, and every job that has a part.

    ``plans`` are the sheets with the parts of all jobs on them, ``heading`` names all jobs.
    """

    heading: Heading
    title: str
    plans: tuple[CutPlan, ...]
    jobs: tuple[PaperJob, ...]
    release: Release

    @property
    def method(self) -> str:
        """How the jobs are done, in the trade's words."""
        return ", ".join(dict.fromkeys(job.method for job in self.jobs))
