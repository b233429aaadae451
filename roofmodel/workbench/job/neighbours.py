"""The roofs beside an open job's: each has one measured value moved by its standard error.

The figures of the gates are computed on them by the same functions as on the roof itself. What a
figure moves by is, to first order, the part of its error that this value brings.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit.refit import Refit, Site
from roofmodel.shapes.bars.members import Before
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Roof
from roofmodel.storage.job import Job
from roofmodel.survey.fit import adjustment, fitted_footprint
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.findings import Severity
from roofmodel.workbench.job import made_of, measured, members
from roofmodel.workbench.job.measured import Measured, Path


# Without slots, so that bars are only set out where a figure needs them.
@dataclass(frozen=True, kw_only=True)
class Neighbour:
    """A job with one value moved by its standard error, and the roof that makes.

    ``bare`` is its roof with the bars of the job's own roof, which only slopes may be read from;
    ``before`` is that roof with those bars.
    """

    moved: Measured
    step: float
    job: Job
    bare: Site
    before: Before

    @cached_property
    def site(self) -> Site:
        """The roof with its bars.

        Raises
        ------
        DimensionError
            If the bars cannot stand on it.
        """
        if self.moved.path[0] in _NO_BARS:
            return self.bare
        job = self.job
        made, findings = members.members(
            self.bare.roof,
            job.bars,
            job_code=job.code,
            gap_mm=job.refit.fitting_gap_mm,
            before=self.before,
        )
        stops = [one for one in findings if one.severity is Severity.STOP]
        if stops:
            raise DimensionError([Fault(one.field, one.text, one.remedy) for one in stops])
        return replace(self.bare, members=made)


_NO_BARS = ("standing", "site", *made_of.MADE_OF)
"""What moves neither roof nor bars."""


@dataclass(slots=True)
class Neighbours:
    """The neighbours of one job on its roof; each is made when first asked for, and kept."""

    job: Job
    site: Site
    _measured: tuple[Measured, ...] | None = field(default=None, repr=False)
    # The base stands beside its neighbours, so that no other can come by its identity.
    _refits: dict[int, tuple[Refit, dict[tuple[Path, str, float], Refit]]] = field(
        default_factory=dict, repr=False
    )
    _made: dict[tuple[Path, str], Neighbour | None] = field(default_factory=dict, repr=False)

    def of(
        self, matters: Callable[[Measured], bool], more: Sequence[Measured] = ()
    ) -> Iterator[Neighbour]:
        """Yield the neighbours for every measured value that matters, if they are a roof at all.

        ``more`` are figures of materials, which move neither the job nor its roof.
        """
        if self._measured is None:
            self._measured = measured.of_job(self.job)
        for one in (*self._measured, *more):
            if not (one.standard_error > 0.0 and matters(one)):
                continue
            key = (one.path, one.label)
            if key not in self._made:
                self._made[key] = self._neighbour(one)
            neighbour = self._made[key]
            if neighbour is not None:
                yield neighbour

    def refit(self, base: Refit, near: Neighbour, applied: Callable[[Neighbour], Refit]) -> Refit:
        """Return a method on a neighbour, made when first asked for and kept with the base's."""
        kept = self._refits.setdefault(id(base), (base, {}))[1]
        key = (near.moved.path, near.moved.label, near.step)
        if key not in kept:
            kept[key] = applied(near)
        return kept[key]

    def opposite(self, one: Neighbour) -> Neighbour | None:
        """Return the neighbour the other way from one; None where that is no roof."""
        return self._moved(one.moved, -one.step)

    def _neighbour(self, one: Measured) -> Neighbour | None:
        # At the edge of what can be built only one of both directions is a roof.
        up = self._moved(one, one.standard_error)
        return up if up is not None else self._moved(one, -one.standard_error)

    def _moved(self, one: Measured, step: float) -> Neighbour | None:
        try:
            changed = self.job if one.path[0] in made_of.MADE_OF else one.moved(self.job, step)
            return Neighbour(
                moved=one,
                step=step,
                job=changed,
                bare=self._bare(one, changed),
                before=Before(self.site.roof, self.site.members),
            )
        except DimensionError:
            return None

    def _bare(self, one: Measured, changed: Job) -> Site:
        """Return the roof of a changed job; what did not change is taken over."""
        if one.path[0] in made_of.MADE_OF:
            return self.site
        site = replace(self.site, standing=changed.standing)
        if one.path[0] in (*_NO_BARS, "bars"):
            return site
        footprint, roof = _built(changed)
        return replace(site, footprint=footprint, roof=roof)


def _built(job: Job) -> tuple[Footprint, Roof]:
    network = networks.of_survey(job.survey) if job.readings else None
    if network is None:
        built = to_shape.built(job.survey)
        return built.footprint(), built.roof
    typed = measured.typed(job, network)
    adjusted = adjustment.adjust(network, [*typed, *job.readings])
    fitted = fitted_footprint.footprint(adjusted)
    return fitted, fitted.roof(eaves_height_mm=fitted_footprint.eaves_height_mm(adjusted))
