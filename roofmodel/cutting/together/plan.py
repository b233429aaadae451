"""One cutting plan for the same material of several jobs: what it takes, and whose it is."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from roofmodel.cutting.nesting.cut import Saw
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.rack.plan import RackPlan
from roofmodel.foundation.errors import CuttingError


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLayer:
    """One layer of sheets of one job with its own verified plan.

    ``facets`` and ``supports_mm`` are what boards were laid on, as `roofmodel.cutting.plan.plan`
    takes them; empty where the pieces are given whole, as between the bars.
    """

    job_code: str
    plan: Plan
    facets: tuple[BoardedFacet, ...] = ()
    supports_mm: Mapping[str, Sequence[float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Refuse a plan that is not of this job."""
        stray = [
            part.mark
            for part in self.plan.problem.parts
            if not part.mark.startswith(f"{self.job_code}-")
        ]
        if stray:
            raise CuttingError(f"{stray[0]} is not marked for job {self.job_code}. Plan it again.")


@dataclass(frozen=True, slots=True, kw_only=True)
class JobShare:
    """What one job has of the sheets.

    ``by_area`` and ``by_pieces`` are shares of the whole, 0 to 1; ``alone`` is how many sheets it
    takes when cut by itself.
    """

    job_code: str
    pieces: int
    area_m2: float
    by_area: float
    by_pieces: float
    alone: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """What is stacked for one job: for each sheet or offcut, the marks cut from it."""

    job_code: str
    sheets: tuple[tuple[str, tuple[str, ...]], ...]

    @property
    def pieces(self) -> int:
        """Number of pieces in the bundle."""
        return sum(len(marks) for _, marks in self.sheets)


@dataclass(frozen=True, slots=True, kw_only=True)
class TogetherPlan:
    """A verified plan of one material for several jobs, with or without offcuts.

    ``bound`` holds for these pieces without the rack, ``floor`` for any laying of all facets; None
    where pieces are given whole. ``job_of`` maps every mark to its job.
    """

    made: RackPlan
    bound: Bound
    floor: Bound | None
    layers: tuple[JobLayer, ...]
    job_of: Mapping[str, str]
    notes: tuple[str, ...]

    def for_saw(self, saw: Saw) -> "TogetherPlan":
        """Return the same plan as another saw cuts it. Errors as `RackPlan.for_saw`."""
        return replace(self, made=self.made.for_saw(saw))

    @property
    def jobs(self) -> tuple[str, ...]:
        """Codes of the jobs, in the order given."""
        return tuple(dict.fromkeys(layer.job_code for layer in self.layers))

    @property
    def sheets(self) -> int:
        """New sheets for all jobs."""
        return self.made.sheets

    @property
    def separately(self) -> int:
        """Sheets bought when each job is cut by itself, without the rack."""
        return sum(layer.plan.sheets for layer in self.layers)

    @property
    def parts(self) -> tuple[Part, ...]:
        """All parts of all jobs."""
        return self.made.problem.parts

    @property
    def shares(self) -> tuple[JobShare, ...]:
        """What each job has of the whole; either kind adds up to 1."""
        pieces = Counter(self.job_of[part.mark] for part in self.parts)
        area_mm2 = dict.fromkeys(self.jobs, 0.0)
        for part in self.parts:
            area_mm2[self.job_of[part.mark]] += part.area_mm2
        whole = sum(area_mm2.values())
        return tuple(
            JobShare(
                job_code=job,
                pieces=pieces[job],
                area_m2=area_mm2[job] / 1e6,
                by_area=area_mm2[job] / whole,
                by_pieces=pieces[job] / len(self.parts),
                alone=sum(one.plan.sheets for one in self.layers if one.job_code == job),
            )
            for job in self.jobs
        )

    @property
    def bundles(self) -> tuple[Bundle, ...]:
        """Which parts of which job come from which sheet."""
        layout = self.made.layout
        cut = [
            *((f"sheet {n}", layout.new.on_sheet(n)) for n in range(1, layout.sheets + 1)),
            *((f"rack {one.piece.label}", one.placed) for one in layout.cuts),
        ]
        found = []
        for job in self.jobs:
            own = [
                (name, tuple(p.part.mark for p in placed if self.job_of[p.part.mark] == job))
                for name, placed in cut
            ]
            sheets = tuple((name, marks) for name, marks in own if marks)
            found.append(Bundle(job_code=job, sheets=sheets))
        return tuple(found)

    @property
    def sentence(self) -> str:
        """The count in words, against each job by itself."""
        least = (
            "" if self.floor is None else (f", and no laying needs fewer than {self.floor.sheets}")
        )
        return (
            f"{', '.join(self.jobs)} together, {self.separately} sheets when cut "
            f"separately{least}. {self.made.sentence}"
        )
