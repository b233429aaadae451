"""A cutting plan that takes from the rack where that saves sheets, and gives back to it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.cut import Saw, SheetCuts
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.nesting.straight import cut_up
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.proof.bound import Bound, grown_area, kerf_of, sheet_area, up
from roofmodel.cutting.rack import fill as rack_fill
from roofmodel.cutting.rack import press as rack_press
from roofmodel.cutting.rack import verify as rack_verify
from roofmodel.cutting.rack import what_is_left
from roofmodel.cutting.rack.layout import RackLayout
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.cutting.rack.what_is_left import KeptOffcut
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError

_SLACK_TENTHS = 1.0
"""By so much more than the verifier lets pass an offcut counts as larger, in the bound."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackPlan:
    """A verified plan on new sheets and offcuts.

    ``least`` is the number of new sheets below which these pieces cannot go even with all that
    was offered; ``without_rack`` what they take without it. ``kept`` is what is worth keeping.
    """

    good: SheetGood
    problem: Problem
    layout: RackLayout
    least: Bound
    without_rack: int
    claim: str
    kept: tuple[KeptOffcut, ...]
    cuts: tuple[SheetCuts, ...]
    rack_cuts: tuple[SheetCuts, ...] = ()

    @property
    def sheets(self) -> int:
        """New sheets bought."""
        return self.layout.sheets

    @property
    def from_rack(self) -> tuple[str, ...]:
        """Labels of the offcuts cut up."""
        return self.layout.labels

    @property
    def saved(self) -> int:
        """Sheets the rack saves."""
        return self.without_rack - self.sheets

    @property
    def sentence(self) -> str:
        """The count in words: what is bought, what comes from the rack, whether fewer can do."""
        bought = f"{self.sheets} new sheet{'' if self.sheets == 1 else 's'}" if self.sheets else ""
        size = f" of {self.good.length_mm:g} × {self.good.width_mm:g} mm" if bought else ""
        rack = f"{', '.join(self.from_rack)} from the rack" if self.from_rack else ""
        count = len(self.problem.parts)
        pieces = f", in {count} pieces"
        if self.sheets == self.least.sheets:
            pieces = f"; these {count} pieces need {self.sheets} new ({self.least.reason})"
        return (
            f"{self.good.name}: {' and '.join(filter(None, (bought + size, rack)))}{pieces}. "
            f"Rules: {self.claim}."
        )

    def for_saw(self, saw: Saw) -> "RackPlan":
        """Return the same plan as another saw cuts it, with what that leaves for the rack.

        Raises
        ------
        CuttingError
            If an offcut fails its check.
        """
        sawn = _sawn(self.good, self.problem, self.layout, saw)
        if sawn.faults:
            raise _refusal(self.good, sawn.faults)
        return replace(self, kept=sawn.kept, cuts=sawn.cuts, rack_cuts=sawn.rack_cuts)

    def to_rack(self, prefix: str, *, since: date, place: str = "") -> tuple[RackPiece, ...]:
        """Return what is worth keeping as offcuts, labelled.

        Parameters
        ----------
        prefix : str
            Begins every label: job and revision.
        since : date
            The day of cutting.
        place : str
            Where they will stand.
        """
        return tuple(
            RackPiece.of_mm(
                f"{prefix}-{self.good.short}-{self.origin(offcut)}-{offcut.number}",
                self.good.code,
                what_is_left.moved_to_zero(offcut),
                since=since,
                place=place,
                may_turn_over=self.may_turn_over(offcut),
            )
            for offcut in self.kept
        )

    def origin(self, offcut: KeptOffcut) -> str:
        """Return what an offcut is cut from, as its label says it."""
        if offcut.label is None:
            return f"S{offcut.sheet_no}"
        return f"R{self.from_rack.index(offcut.label) + 1}"

    def may_turn_over(self, offcut: KeptOffcut) -> bool:
        """Return whether either face of an offcut may be the outside one."""
        cut = [cut.piece for cut in self.layout.cuts if cut.piece.label == offcut.label]
        return self.good.faces == "alike" and all(piece.may_turn_over for piece in cut)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sawn:
    """A layout as one saw cuts it: the cuts, what they leave, and what is wrong with that."""

    cuts: tuple[SheetCuts, ...]
    rack_cuts: tuple[SheetCuts, ...]
    kept: tuple[KeptOffcut, ...]
    faults: tuple[str, ...]


def _sawn(good: SheetGood, problem: Problem, layout: RackLayout, saw: Saw) -> _Sawn:
    least_mm = good.minimum_piece_mm
    cuts = cut_up(problem, layout.new, least_side_mm=least_mm, saw=saw)
    rack_cuts = what_is_left.cut_offcuts(problem, layout, least_side_mm=least_mm, saw=saw)
    kept = what_is_left.kept(layout, cuts, rack_cuts)
    faults = rack_verify.faults_in_kept(problem, layout, kept, least_side_mm=least_mm)
    faults += rack_verify.sawn_through(problem, kept, layout, cuts, rack_cuts)
    return _Sawn(cuts=cuts, rack_cuts=rack_cuts, kept=kept, faults=tuple(faults))


def _refusal(good: SheetGood, faults: Sequence[str]) -> CuttingError:
    return CuttingError(
        f"{good.code}: the plan with the rack failed its check and is not shown. "
        f"{' '.join(faults)} Plan without the rack, and report this job."
    )


def with_rack(
    made: Plan,
    rack: Sequence[RackPiece],
    *,
    effort: Effort = Effort.USUAL,
    watch: Watch | None = None,
) -> RackPlan:
    """Return the plan of one material of a job, with offcuts where they save sheets.

    Parameters
    ----------
    made : Plan
        The plan without the rack; its pieces stay as they are.
    rack : sequence of RackPiece
        Offcuts of this material that may be taken, the oldest first.
    effort : Effort
        How long the nesting may take.
    watch : Watch, optional
        Who may stop the work.

    Raises
    ------
    CuttingError
        If an offcut is of another material, or the plan found has a fault.
    Cancelled
        If stopped.
    """
    return planned(
        made.good,
        made.problem,
        made.layout,
        rack,
        bound=made.bound,
        claim=made.claim,
        effort=effort,
        watch=watch or Watch(),
    )


def left_by(made: Plan) -> tuple[KeptOffcut, ...]:
    """Return what a plan on new sheets alone leaves worth keeping.

    Raises
    ------
    CuttingError
        If an offcut fails its check.
    """
    good, layout = made.good, RackLayout(new=made.layout)
    least_mm = good.minimum_piece_mm
    offcuts = what_is_left.kept(layout, made.cuts)
    faults = rack_verify.faults_in_kept(made.problem, layout, offcuts, least_side_mm=least_mm)
    faults += rack_verify.sawn_through(made.problem, offcuts, layout, made.cuts)
    if faults:
        raise CuttingError(
            f"{good.code}: what is left over failed its check and is not shown. "
            f"{' '.join(faults)} Report this job."
        )
    return offcuts


def planned(  # noqa: PLR0913 - what a plan is made of
    good: SheetGood,
    problem: Problem,
    plain: Layout,
    rack: Sequence[RackPiece],
    *,
    bound: Bound,
    claim: str,
    effort: Effort,
    watch: Watch,
) -> RackPlan:
    """Return the verified plan of given pieces; ``plain`` is their best layout without the rack.

    Raises
    ------
    CuttingError
        If an offcut is of another material, or the plan found has a fault.
    Cancelled
        If stopped.
    """
    strange = [one.label for one in rack if one.material != good.code or not one.corners]
    if strange:
        raise CuttingError(
            f"{', '.join(strange)}: not an offcut of a {good.code} sheet. Leave it on the rack."
        )
    least = least_new(problem, rack, bound)
    layout = rack_fill.fewest(problem, plain, rack, least=least.sheets, effort=effort, watch=watch)
    least_mm = good.minimum_piece_mm
    layout = rack_press.pressed(problem, layout, least_side_mm=least_mm)
    sawn = _sawn(good, problem, layout, Saw.TRACK)
    faults = rack_verify.faults(problem, layout, rack, material=good.code)
    faults += sawn.faults
    if layout.sheets < least.sheets:
        faults.append(f"{layout.sheets} sheets are fewer than the bound of {least.sheets}.")
    if faults:
        raise _refusal(good, faults)
    return RackPlan(
        good=good,
        problem=problem,
        layout=layout,
        least=least,
        without_rack=plain.sheets,
        claim=claim,
        kept=sawn.kept,
        cuts=sawn.cuts,
        rack_cuts=sawn.rack_cuts,
    )


def least_new(problem: Problem, rack: Sequence[RackPiece], bound: Bound) -> Bound:
    """Return how many new sheets are needed even if the whole rack is cut up.

    Two arguments, and the better one: parts and offcuts by area, each grown by half a saw cut;
    and, where every offcut lies within a sheet, that a sheet each could take its place.
    """
    if not rack:
        return bound
    grown = sum(grown_area(part, problem) for part in problem.parts)
    offered = sum(_grown(piece, problem) for piece in rack)
    by_area = max(0, up((grown - offered) / sheet_area(problem)))
    least = Bound(sheets=by_area, reason="by area, if the whole rack were cut up")
    if all(_within_a_sheet(piece, problem) for piece in rack):
        fewer = bound.sheets - len(rack)
        if fewer > least.sheets:
            least = Bound(sheets=fewer, reason=f"{bound.sheets} without the rack, {bound.reason}")
    return least


def _grown(piece: RackPiece, problem: Problem) -> float:
    """Return an area that no offcut grown by half a saw cut exceeds [square tenths]."""
    radius = kerf_of(problem) / 2 + _SLACK_TENTHS
    shape = piece.shape
    return float(shape.area + shape.length * radius + 4.0 * radius * radius)


def _within_a_sheet(piece: RackPiece, problem: Problem) -> bool:
    _, _, long, wide = piece.shape.bounds
    return bool(long <= problem.usable_length and wide <= problem.usable_width)
