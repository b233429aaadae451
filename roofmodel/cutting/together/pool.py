"""Facets of several jobs as one roof, and the parts of that roof given back to their jobs."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from roofmodel.cutting import plan as cutting_plan
from roofmodel.cutting.laying import from_facets
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.proof.floor import least_for_any
from roofmodel.cutting.together.plan import JobLayer
from roofmodel.foundation.cancellation import Watch
from roofmodel.geometry.polygon import Outline
from roofmodel.shapes.roof import FacetEdge

_POOL = "POOL"
"""Stands before every mark while the facets of all jobs are laid as those of one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PooledFacet:
    """A facet under the name of its job and its own, such as ``J04-F1``."""

    name: str
    outline_mm: Outline
    pitch_deg: float
    edges: Sequence[FacetEdge]
    job_code: str
    own_name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Pool:
    """All facets of all jobs, and where their joints may lie."""

    facets: tuple[PooledFacet, ...]
    supports_mm: Mapping[str, Sequence[float]]


def pooled(layers: Sequence[JobLayer]) -> Pool | None:
    """Return the facets of all jobs as one roof; None where they cannot be laid so.

    They can where boards are laid on facets in every job, on sheets that are alike in all, and no
    facet is boarded twice.
    """
    if not all(layer.facets and layer.plan.good == layers[0].plan.good for layer in layers):
        return None
    facets = tuple(
        PooledFacet(
            name=f"{layer.job_code}-{facet.name}",
            outline_mm=facet.outline_mm,
            pitch_deg=facet.pitch_deg,
            edges=facet.edges,
            job_code=layer.job_code,
            own_name=facet.name,
        )
        for layer in layers
        for facet in layer.facets
    )
    if len({facet.name for facet in facets}) < len(facets):
        return None
    supports = {
        f"{layer.job_code}-{name}": places
        for layer in layers
        for name, places in layer.supports_mm.items()
    }
    return Pool(facets=facets, supports_mm=supports)


def floor(pool: Pool, layers: Sequence[JobLayer]) -> Bound:
    """Return how many sheets any laying of all facets takes at least."""
    good = layers[0].plan.good
    rules = rules_for(good, joints="supports" if any(pool.supports_mm.values()) else "free")
    ways = from_facets.boardings(
        pool.facets, good, rules, job_code=_POOL, supports_mm=pool.supports_mm
    )
    return least_for_any(ways, good)


def laid(
    pool: Pool, layers: Sequence[JobLayer], *, effort: Effort, watch: Watch
) -> tuple[Plan, dict[str, str]]:
    """Return the plan of all facets laid together, marked for their jobs, and whose each mark is.

    Raises
    ------
    CuttingError
        If no faultless plan is found.
    Cancelled
        If stopped.
    """
    made = cutting_plan.plan(
        pool.facets,
        layers[0].plan.good,
        job_code=_POOL,
        supports_mm=pool.supports_mm,
        effort=effort,
        progress=watch.progress,
        cancelled=watch.cancelled,
    )
    own = {facet.name: facet for facet in pool.facets}
    parts = {part: _given_back(part, own[part.facet]) for part in made.problem.parts}
    job_of = {parts[part].mark: own[part.facet].job_code for part in made.problem.parts}
    back = replace(made, problem=_with(made.problem, parts), layout=_placed(made.layout, parts))
    return back, job_of


def _given_back(part: Part, facet: PooledFacet) -> Part:
    return replace(part, mark=part.mark.removeprefix(f"{_POOL}-"), facet=facet.own_name)


def _with(problem: Problem, parts: Mapping[Part, Part]) -> Problem:
    return replace(problem, parts=tuple(parts[part] for part in problem.parts))


def _placed(layout: Layout, parts: Mapping[Part, Part]) -> Layout:
    return Layout(placed=tuple(replace(one, part=parts[one.part]) for one in layout.placed))
