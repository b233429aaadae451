"""What is cut from lengths: battens, rafters, plates, fascia, soffit and gutter."""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material
from roofmodel.cutting.lengths import plan as length_plan
from roofmodel.cutting.lengths import verify as length_verify
from roofmodel.cutting.lengths.bound import least_cost
from roofmodel.cutting.lengths.joining import Joinable, Joined, Saw, joinings
from roofmodel.cutting.lengths.plan import LengthOptions, LengthPlan
from roofmodel.cutting.lengths.problem import LengthPart, LengthPiece, RackLength, StockLength
from roofmodel.cutting.lengths.splice import SpliceRule, parts_of
from roofmodel.cutting.parts.tenths import cut_tenths, stock_tenths
from roofmodel.foundation.errors import CuttingError
from roofmodel.quantities import batten_rows, runs
from roofmodel.quantities.driver import Place
from roofmodel.quantities.runs import Run
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit

KEEP_MM = 600.0
"""The shortest offcut worth keeping (common practice, no source)."""
LEAST_MM = 300.0
"""Shortest part of a run that is joined (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRuns:
    """What one kind of run comes to: the plan it is cut by, None where there is none to cut.

    ``metres`` is the length bought; ``least`` is what no cutting that keeps the rules of joining
    can be below, in lengths of one size or in tenths of a millimetre of several. ``near_miss`` says
    what looser rules would save; ``fault`` why runs cannot be cut at all.
    """

    metres: float
    runs: tuple[Run, ...]
    plan: LengthPlan | None
    joints: int
    place: Place
    least: int | None = None
    rules: str = ""
    near_miss: str = ""
    fault: str = ""

    @property
    def words(self) -> str:
        """The cut as a formula shows it."""
        if self.plan is None:
            return "none on this roof"
        net_m = sum(run.length_mm for run in self.runs) / 1e3
        bought = " + ".join(f"{count} × {length / 1e4:g} m" for length, count in self.plan.bought)
        return (
            f"{len(self.runs)} runs of {net_m:.2f} m from {bought or 'the rack alone'} "
            f"({self.least_words}), {self.joints} joints; {self.rules}"
        )

    @property
    def least_words(self) -> str:
        """Whether less can do under the rules of joining, as it stands in brackets."""
        if self.plan is None or self.least is None:
            return ""
        several = len(self.plan.problem.stock) > 1
        if self.plan.cost == self.least:
            return f"no {'less' if several else 'fewer'} under the rules"
        least = f"{self.least / 1e4:g} m" if several else f"{self.least}"
        return f"at least {least} under the rules"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """One kind of run: the material it is cut from, where the runs come from, and its joints.

    Structural timber is never joined; what is seen, and battens, only where a run is longer than
    the stock. Runs that say so themselves may be joined freely. ``eased`` says that a joiner might
    join all of them, if that saves.
    """

    material: str
    runs: Callable[[Refit], Iterable[Run]]
    joined: Joined
    eased: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class _Supply:
    """What a material is cut from: the lengths sold, offcuts of the rack, and the firm's saw."""

    code: str
    stock: tuple[StockLength, ...]
    rack: tuple[RackLength, ...]
    kerf_mm: float


def _rows(refit: Refit) -> Iterator[Run]:
    for layer in refit.layers:
        if layer.layer.lie is Lie.ACROSS:
            yield from batten_rows.across(refit, layer)


_KINDS: Mapping[str, _Kind] = {
    "battens along the bars": _Kind(
        material="TIM-B25", runs=batten_rows.along, joined="when too long", eased=True
    ),
    "rows across the bars": _Kind(
        material="TIM-CB38", runs=_rows, joined="when too long", eased=True
    ),
    "bearers": _Kind(material="TIM-WP100", runs=runs.bearers, joined="never"),
    "plates": _Kind(material="TIM-WP100", runs=runs.plates, joined="when too long"),
    "rafters": _Kind(material="TIM-C24-150", runs=runs.rafters, joined="never"),
    "hips and ridge": _Kind(material="TIM-C24-200", runs=runs.hips_and_ridge, joined="never"),
    "fascia and barge boards": _Kind(material="FAS-225", runs=runs.fascia, joined="when too long"),
    "soffit": _Kind(material="SOF-175", runs=runs.soffit, joined="when too long"),
    "gutter": _Kind(material="GUT-112", runs=runs.gutter, joined="when too long"),
}


def cuts(
    refit: Refit, catalogue: Catalogue, *, rack: Mapping[str, Sequence[RackLength]] | None = None
) -> dict[str, CutRuns]:
    """Return every kind of run on a roof as it is cut from the lengths of the catalogue.

    Parameters
    ----------
    refit
        The method on its roof.
    catalogue
        The firm's materials.
    rack
        Offcuts that may be taken, by the code of their material; each is taken once, and only
        where that saves a length.
    """
    # Kinds that share a material share its offcuts: what one takes is gone for the next.
    left = {material: tuple(offered) for material, offered in (rack or {}).items()}
    by_name: dict[str, CutRuns] = {}
    for name, kind in _KINDS.items():
        runs_found, material = tuple(kind.runs(refit)), catalogue.materials.get(kind.material)
        offered = left.get(kind.material, ())
        cut = _cut(kind, runs_found, material, offered, catalogue.kerf_mm)
        taken = () if cut.plan is None else cut.plan.from_rack
        left[kind.material] = tuple(one for one in offered if one.label not in taken)
        by_name[name] = cut
    return by_name


def uncut(refit: Refit, catalogue: Catalogue) -> dict[str, CutRuns]:
    """Return every kind of run on a roof before a saw is set to it: what there is, not what to buy.

    Metres and joints are the least there can be, so they are 0 only where the cut ones are. Enough
    to ask which materials a roof takes, and free.
    """
    by_name: dict[str, CutRuns] = {}
    for name, kind in _KINDS.items():
        runs_found, material = tuple(kind.runs(refit)), catalogue.materials.get(kind.material)
        stock = (0.0,) if material is None else _stock_mm(material)
        joints = 0
        if kind.joined != "never" and material is not None:
            joints = sum(math.ceil(run.length_mm / max(stock)) - 1 for run in runs_found)
        by_name[name] = CutRuns(
            metres=sum(run.length_mm for run in runs_found) / 1e3,
            runs=runs_found,
            plan=None,
            joints=joints,
            place=_place(runs_found),
        )
    return by_name


def materials() -> tuple[str, ...]:
    """Return the codes of everything that is cut from lengths."""
    return tuple(dict.fromkeys(kind.material for kind in _KINDS.values()))


@lru_cache(maxsize=64)
def _cut(
    kind: _Kind,
    uncut: tuple[Run, ...],
    material: Material | None,
    rack: tuple[RackLength, ...],
    kerf_mm: float,
) -> CutRuns:
    place = _place(uncut)
    bare = CutRuns(metres=0.0, runs=uncut, plan=None, joints=0, place=place)
    if not uncut or material is None:
        return bare
    runs_known = [
        Joinable(piece=_piece(run), joined="freely" if run.joined_freely else kind.joined)
        for run in uncut
    ]
    supply = _Supply(code=material.code, stock=_stock(material), rack=rack, kerf_mm=kerf_mm)
    try:
        best, least = _best(runs_known, supply)
    except CuttingError as error:
        return replace(bare, fault=str(error))
    return CutRuns(
        metres=sum(length * count for length, count in best.bought) / 1e4,
        runs=uncut,
        plan=best,
        joints=len(best.parts) - len(uncut),
        place=place,
        least=least,
        rules=_rules_words(runs_known),
        near_miss=_near_miss(runs_known, best, supply) if kind.eased and best.cost else "",
    )


def _near_miss(runs_known: Sequence[Joinable], made: LengthPlan, supply: _Supply) -> str:
    """Return what joining battens that fit the stock would save; empty if nothing."""
    eased = [replace(one, joined="freely") for one in runs_known]
    other, _ = _best(eased, supply)
    if other.cost >= made.cost:
        return ""
    fewer = made.lengths - other.lengths
    saved = f"{fewer} length{'s' if fewer > 1 else ''} less"
    if len(made.problem.stock) > 1:
        saved = f"{(made.cost - other.cost) / 1e4:g} m less"
    joints = len(other.parts) - len(made.parts)
    return (
        f"{saved} if battens shorter than the stock are joined as well, with {joints} more joints"
    )


def _stock(material: Material) -> tuple[StockLength, ...]:
    """Return every length a material is sold in; the one that makes a pack where none is listed.

    All cost the same by the metre, so the least length bought is the least money.
    """
    lengths_mm = sorted(set(_stock_mm(material)))
    return tuple(StockLength(length=stock_tenths(length)) for length in lengths_mm)


def _stock_mm(material: Material) -> tuple[float, ...]:
    return material.stock_lengths_mm or (float(material.pack.holds) * 1e3,)


def _place(of_runs: Sequence[Run]) -> Place:
    place = Place()
    for run in of_runs:
        place += run.place
    return place


def _best(runs_known: Sequence[Joinable], supply: _Supply) -> tuple[LengthPlan, int]:
    """Return the plan that buys least among the ways to join, and what none can be below."""
    rule = SpliceRule(least=cut_tenths(LEAST_MM))
    longest = max(one.length for one in supply.stock)
    best: LengthPlan | None = None
    least = 0
    for parts in _ways(runs_known, supply, rule):
        tried = _planned(parts, supply)
        faults = _faults(runs_known, parts, rule, longest)
        if faults:
            raise CuttingError(f"{supply.code}: {' '.join(faults)} Report this job.")
        if best is None or (tried.cost, len(tried.parts)) < (best.cost, len(best.parts)):
            best = tried
        least = least or _least(runs_known, tried, longest)
        # Nothing can be cheaper, so the ways still untried need not be.
        if best.cost <= least:
            break
    if best is None:
        raise CuttingError(f"{supply.code}: there is nothing to cut. Leave the line out.")
    return best, min(least, best.cost)


def _least(runs_known: Sequence[Joinable], made: LengthPlan, longest: int) -> int:
    """Return the cost no cutting can be below, wherever the runs that may be joined are joined.

    By length alone all runs count, each with one saw cut; by patterns those that stay whole.
    """
    problem = made.problem
    whole = [
        LengthPart(mark=one.piece.mark, length=one.piece.cut_length)
        for one in runs_known
        if not one.may_be_joined(longest)
    ]
    if len(whole) == len(runs_known):
        return made.bound.cost
    # Each piece is followed by a saw cut, the last of a length perhaps not: a length holds at most
    # its own length and one saw cut of that. So both sides are counted with the cut.
    needed = sum(one.piece.cut_length + problem.kerf for one in runs_known)
    needed -= sum(one.length + problem.kerf for one in problem.rack)
    # Whatever lengths are bought, every millimetre costs at least what the cheapest one asks.
    dear = min(problem.cost_of(s) / (s.length + problem.kerf) for s in problem.stock)
    # Any purchase is a sum of stock costs, so the bound may be rounded up to their common step.
    step = math.gcd(*(problem.cost_of(one) for one in problem.stock))
    bounds = [math.ceil(max(0.0, needed * dear) / step - 1e-9) * step]
    if whole:
        bounds.append(least_cost(replace(problem, parts=tuple(whole))).cost)
    return max(bounds)


def _faults(
    runs_known: Sequence[Joinable], parts: Sequence[LengthPart], rule: SpliceRule, longest: int
) -> list[str]:
    """Return why parts do not make up the runs, each by the rule of its own kind."""
    faults: list[str] = []
    for joined in (True, False):
        some = [one.piece for one in runs_known if one.may_be_joined(longest) is joined]
        marks = {piece.mark for piece in some}
        # The parts of a joined run carry its mark with a letter after it.
        own = [p for p in parts if p.mark in marks or (p.mark[:-1] in marks)]
        faults += length_verify.faults_in_runs(some, own, rule if joined else None)
    return faults


def _rules_words(runs_known: Sequence[Joinable]) -> str:
    """Return the rules of joining in words."""
    kinds = {one.joined for one in runs_known}
    words = {
        "never": "never joined",
        "when too long": "joined only where longer than the stock",
        "freely": "level battens joined on the bars",
    }
    return ", ".join(words[kind] for kind in ("never", "when too long", "freely") if kind in kinds)


def _piece(run: Run) -> LengthPiece:
    joints = tuple(cut_tenths(at) for at in run.joints_mm) or None
    return LengthPiece(
        mark=run.mark,
        length=cut_tenths(run.length_mm),
        left_mitre=cut_tenths(run.mitres_mm[0]),
        right_mitre=cut_tenths(run.mitres_mm[1]),
        joint_places=joints,
    )


def _ways(
    runs_known: Sequence[Joinable], supply: _Supply, rule: SpliceRule
) -> Iterator[tuple[LengthPart, ...]]:
    """Yield the runs joined only where they must be, then so that they take few lengths."""
    stock = [one.length for one in supply.stock]
    longest = max(stock)
    yield tuple(
        part
        for one in runs_known
        for part in parts_of(
            [one.piece], longest=longest, splice=None if one.joined == "never" else rule
        )
    )
    if not any(one.may_be_joined(longest) for one in runs_known):
        return
    for length in sorted(stock, reverse=True):
        saw = Saw(stock=length, longest=longest, kerf=cut_tenths(supply.kerf_mm), least=rule.least)
        parts = joinings(runs_known, saw)
        if parts is not None:
            yield parts


def _planned(parts: Sequence[LengthPart], supply: _Supply) -> LengthPlan:
    return length_plan.plan(
        [LengthPiece(mark=part.mark, length=part.length) for part in parts],
        supply.stock,
        material=supply.code,
        kerf_mm=supply.kerf_mm,
        keep_mm=KEEP_MM,
        options=LengthOptions(rack=supply.rack),
    )
