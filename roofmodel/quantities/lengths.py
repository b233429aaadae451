"""What is cut from lengths: battens, rafters, plates, fascia, soffit and gutter."""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material
from roofmodel.cutting.lengths import plan as length_plan
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

KERF_MM = 3.0
KEEP_MM = 600.0
"""Saw cut, and the shortest offcut worth keeping (common practice, no source)."""
LEAST_MM = 300.0
"""Shortest part of a run that is joined (common practice, no source)."""
_TRIES = 4
"""How many ways of joining runs are tried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRuns:
    """What one kind of run comes to: the plan it is cut by, None where there is none to cut.

    ``metres`` is the length bought; ``fault`` says why runs cannot be cut at all.
    """

    metres: float
    runs: tuple[Run, ...]
    plan: LengthPlan | None
    joints: int
    place: Place
    fault: str = ""

    @property
    def words(self) -> str:
        """The cut as a formula shows it."""
        if self.plan is None:
            return "none on this roof"
        net_m = sum(run.length_mm for run in self.runs) / 1e3
        least = "no fewer" if self.plan.proved else f"at least {self.plan.bound.cost}"
        return (
            f"{len(self.runs)} runs of {net_m:.2f} m on {self.plan.lengths} lengths ({least}), "
            f"{self.joints} joints"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """One kind of run: the material it is cut from, where the runs come from, and its joints.

    Structural timber is never joined; what is seen is joined only where it is longer than the
    stock; battens are joined wherever that saves a length.
    """

    material: str
    runs: Callable[[Refit], Iterable[Run]]
    joined: Literal["never", "when too long", "freely"]


def _rows(refit: Refit) -> Iterator[Run]:
    for layer in refit.layers:
        if layer.layer.lie is Lie.ACROSS:
            yield from batten_rows.across(refit, layer)


_KINDS: Mapping[str, _Kind] = {
    "battens along the bars": _Kind(material="TIM-B25", runs=batten_rows.along, joined="freely"),
    "rows across the bars": _Kind(material="TIM-CB38", runs=_rows, joined="freely"),
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
    left = {material: tuple(offered) for material, offered in (rack or {}).items()}
    found: dict[str, CutRuns] = {}
    for name, kind in _KINDS.items():
        runs_found, material = tuple(kind.runs(refit)), catalogue.materials.get(kind.material)
        offered = left.get(kind.material, ())
        cut = _cut(kind, runs_found, material, offered)
        taken = () if cut.plan is None else cut.plan.from_rack
        left[kind.material] = tuple(one for one in offered if one.label not in taken)
        found[name] = cut
    return found


def materials() -> tuple[str, ...]:
    """Return the codes of everything that is cut from lengths."""
    return tuple(dict.fromkeys(kind.material for kind in _KINDS.values()))


@lru_cache(maxsize=64)
def _cut(
    kind: _Kind,
    found: tuple[Run, ...],
    material: Material | None,
    rack: tuple[RackLength, ...],
) -> CutRuns:
    place = Place()
    for run in found:
        place += run.place
    bare = CutRuns(metres=0.0, runs=found, plan=None, joints=0, place=place)
    if not found or material is None:
        return bare
    stock = stock_tenths(float(material.pack.holds) * 1e3)
    pieces = [_piece(run) for run in found]
    try:
        best = _best(pieces, stock, kind, material, rack)
    except CuttingError as error:
        return CutRuns(metres=0.0, runs=found, plan=None, joints=0, place=place, fault=str(error))
    return CutRuns(
        metres=best.lengths * float(material.pack.holds),
        runs=found,
        plan=best,
        joints=len(best.parts) - len(found),
        place=place,
    )


def _best(
    pieces: Sequence[LengthPiece],
    stock: int,
    kind: _Kind,
    material: Material,
    rack: tuple[RackLength, ...],
) -> LengthPlan:
    """Return the plan of the fewest lengths among the ways to join; no way needs less than all."""
    kerf = cut_tenths(KERF_MM)
    needed = sum(piece.cut_length + kerf for piece in pieces)
    needed -= sum(one.length + kerf for one in rack)
    least = math.ceil(needed / (stock + kerf) - 1e-9)
    best: LengthPlan | None = None
    for parts in _ways(pieces, stock, kind):
        found = _planned(parts, material, stock, rack)
        if best is None or (found.lengths, len(found.parts)) < (best.lengths, len(best.parts)):
            best = found
        if best.lengths <= least:
            break
    if best is None:
        raise CuttingError(f"{material.code}: there is nothing to cut. Leave the line out.")
    return best


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
    pieces: Sequence[LengthPiece], stock: int, kind: _Kind
) -> Iterator[tuple[LengthPart, ...]]:
    """Yield the runs whole, and joined so that parts fit what other runs leave of a length."""
    rule = SpliceRule(least=cut_tenths(LEAST_MM)) if kind.joined != "never" else None
    yield parts_of(pieces, longest=stock, splice=rule)
    if rule is None or kind.joined != "freely":
        return
    kerf = cut_tenths(KERF_MM)
    left = {stock - piece.cut_length - kerf for piece in pieces}
    for most in sorted((x for x in left if x >= 2 * rule.least), reverse=True)[:_TRIES]:
        shorter = [piece for piece in pieces if piece.cut_length <= stock - most]
        longer = [piece for piece in pieces if piece.cut_length > stock - most]
        if shorter and longer:
            try:
                yield (
                    *parts_of(shorter, longest=stock, splice=rule),
                    *parts_of(longer, longest=most, splice=rule),
                )
            except CuttingError:
                continue


def _planned(
    parts: Sequence[LengthPart], material: Material, stock: int, rack: tuple[RackLength, ...]
) -> LengthPlan:
    return length_plan.plan(
        [LengthPiece(mark=part.mark, length=part.length) for part in parts],
        [StockLength(length=stock)],
        material=material.code,
        kerf_mm=KERF_MM,
        keep_mm=KEEP_MM,
        options=LengthOptions(rack=rack),
    )
