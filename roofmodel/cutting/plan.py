"""The cutting plan of one material: laid, nested, verified, and said with its bounds and rules."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying import from_facets, from_pieces, rule_check
from roofmodel.cutting.laying.rule import LayingRules, rules_for
from roofmodel.cutting.nesting import verify
from roofmodel.cutting.nesting.cut import Saw, SawCut, SheetCuts
from roofmodel.cutting.nesting.final_check import refuse_faulty
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.nesting.repair import repaired
from roofmodel.cutting.nesting.straight import cut_up
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.proof.floor import least_for_any
from roofmodel.cutting.proof.proof_words import least_words, proof
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.cutting.search.partings import PartingSearch
from roofmodel.cutting.search.search import Search
from roofmodel.foundation.cancellation import Watch

EffortName = Literal["quick", "usual", "long"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A verified plan; a sheet count is shown with its ``claim``, never without.

    ``bound`` holds for these pieces, ``floor`` for any laying that keeps the rules; None where it
    was not worked out. ``cuts`` says how each sheet is cut up. ``net_area_m2`` is the area of the
    facets; ``notes`` name the rules that could not be kept, ``near_misses`` what a small change
    would save.
    """

    good: SheetGood
    problem: Problem
    layout: Layout
    bound: Bound
    claim: str
    notes: tuple[str, ...]
    net_area_m2: float
    floor: Bound | None = None
    cuts: tuple[SheetCuts, ...] = ()
    near_misses: tuple[str, ...] = ()

    @property
    def material(self) -> str:
        """Code of the sheet material."""
        return self.good.code

    @property
    def sheet_mm(self) -> tuple[float, float]:
        """Length and width of the stock sheet [mm]."""
        return (self.good.length_mm, self.good.width_mm)

    @property
    def sheets(self) -> int:
        """Sheets used."""
        return self.layout.sheets

    @property
    def least(self) -> int | None:
        """Sheets below which nothing can go that keeps the rules; None where not worked out."""
        return None if self.floor is None else self.floor.sheets

    @property
    def proved(self) -> bool:
        """Whether nothing that keeps the rules takes fewer sheets; never of these pieces alone."""
        return self.sheets == self.least

    @property
    def least_words(self) -> str:
        """What is known of fewer sheets, as it stands in brackets after a count."""
        return least_words(self.sheets, self.bound, self.floor)

    @property
    def pieces(self) -> int:
        """Number of pieces cut."""
        return len(self.problem.parts)

    @property
    def pieces_area_m2(self) -> float:
        """Area of all pieces [m²]."""
        return sum(part.area_mm2 for part in self.problem.parts) / 1e6

    @property
    def utilisation(self) -> float:
        """Share of the sheets' area that becomes pieces, 0 to 1."""
        return self.pieces_area_m2 / (self.sheets * self.good.sheet_area_m2)

    def cuts_of(self, sheet_no: int) -> tuple[SawCut, ...]:
        """Return the straight cuts of a sheet in their order; pieces may be stuck after them."""
        for sheet in self.cuts:
            if sheet.sheet_no == sheet_no:
                return sheet.cuts
        return ()

    def for_saw(self, saw: Saw) -> "Plan":
        """Return the same plan with its cuts in the order another saw makes them."""
        least_mm = self.good.minimum_piece_mm
        cuts = cut_up(self.problem, self.layout, least_side_mm=least_mm, saw=saw)
        return replace(self, cuts=cuts)

    @property
    def cut_count(self) -> int:
        """Number of straight cuts from edge to edge."""
        return sum(len(sheet.cuts) for sheet in self.cuts)

    @property
    def cut_length_m(self) -> float:
        """Length of all straight cuts [m]."""
        return sum(sheet.length_mm for sheet in self.cuts) / 1000.0

    @property
    def stuck_sheets(self) -> tuple[int, ...]:
        """Sheets that straight cuts from edge to edge alone do not part."""
        return tuple(sheet.sheet_no for sheet in self.cuts if not sheet.certified)

    @property
    def sentence(self) -> str:
        """The count in words: sheets, whether fewer can do, and the rules of laying."""
        length, width = self.sheet_mm
        proved = proof(self.sheets, self.pieces, self.bound, self.floor)
        return (
            f"{self.good.name}: {self.sheets} sheets of {length:g} × {width:g} mm{proved}. "
            f"Rules: {self.claim}."
        )


def plan(  # noqa: PLR0913 - the one door to this room; every argument stands for itself
    facets: Sequence[BoardedFacet],
    good: SheetGood,
    *,
    job_code: str,
    rules: LayingRules | None = None,
    supports_mm: Mapping[str, Sequence[float]] | None = None,
    effort: Effort | EffortName = Effort.USUAL,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    settled: Callable[[], bool] | None = None,
) -> Plan:
    """Return the verified cutting plan of facets boarded with one sheet material.

    Parameters
    ----------
    facets : sequence of BoardedFacet
        All of them are boarded.
    good : SheetGood
        Sheet size and saw.
    job_code : str
        First part of every mark.
    rules : LayingRules, optional
        How boards are laid. When left out, as the material asks, with joints on the supports
        where any are given, else free.
    supports_mm : mapping, optional
        Facet name to centre-lines of its bars or bearers, u in the facet's frame [mm]. A facet
        with none has its joints free.
    effort : "quick", "usual" or "long"
        How many ways of laying are tried; the same effort gives the same plan.
    progress : callable, optional
        Told (sheets of the best plan so far, sheets below which no laying can go).
    cancelled : callable, optional
        Asked now and then whether to stop without a plan.
    settled : callable, optional
        Asked now and then whether to go on with the best plan so far.

    Raises
    ------
    CuttingError
        If a part fits no sheet, no whole plan was found, or the plan found has a fault.
    Cancelled
        If stopped.
    """
    on_bars = any(supports_mm.values()) if supports_mm else False
    rules = rules or rules_for(good, joints="supports" if on_bars else "free")
    ways = from_facets.boardings(facets, good, rules, job_code=job_code, supports_mm=supports_mm)
    floor = least_for_any(ways, good)
    watch = Watch(progress=progress, cancelled=cancelled, settled=settled)
    best = Search(ways, facets, good, floor=floor.sheets, watch=watch).run(Effort(effort))
    problem, layout = best.problem, best.layout
    notes = [note for way, rows in zip(ways, best.state, strict=True) for note in way.notes(rows)]
    bound = sharpest(problem, most=layout.sheets, known=floor)
    boarded = [facet for way in ways for facet in way.facets]
    faults = verify.faults_on_roof(boarded, problem.parts, gap_mm=rules.gap_mm)
    seen = rule_check.broken(boarded, problem.parts, rules, supports_mm or {})
    faults += rule_check.unsaid(seen, notes)
    refuse_faulty(problem, layout, least=bound.sheets, more_faults=faults, code=good.code)
    return Plan(
        good=good,
        problem=problem,
        layout=layout,
        bound=bound,
        claim=rules.claim,
        notes=tuple(notes),
        net_area_m2=sum(shapely.Polygon(facet.outline_mm).area for facet in facets) / 1e6,
        floor=floor,
        cuts=cut_up(problem, layout, least_side_mm=good.minimum_piece_mm),
    )


def plan_pieces(  # noqa: PLR0913 - every argument stands for itself
    pieces: Sequence[Piece],
    good: SheetGood,
    *,
    job_code: str,
    effort: Effort | EffortName = Effort.USUAL,
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    settled: Callable[[], bool] | None = None,
) -> Plan:
    """Return the verified cutting plan of pieces whose shapes are given.

    Parameters
    ----------
    pieces : sequence of Piece
        Such as what fits between the bars; each is cut whole, or split as it may be.
    good, job_code, effort, progress, cancelled, settled
        As for `plan`.

    Raises
    ------
    CuttingError
        If a piece fits no sheet, no whole plan was found, or the plan found has a fault.
    Cancelled
        If stopped.
    """
    watch = Watch(progress=progress, cancelled=cancelled, settled=settled)
    best = PartingSearch(pieces, good, job_code=job_code, watch=watch).run(Effort(effort))
    problem, floor = best.problem, best.floor
    layout = repaired(problem, best.layout, Effort(effort))
    least = sharpest(problem, most=layout.sheets, known=floor)
    refuse_faulty(
        problem,
        layout,
        least=least.sheets,
        more_faults=verify.faults_in_pieces(best.made, least_mm=good.minimum_piece_mm),
        code=good.code,
    )
    return Plan(
        good=good,
        problem=problem,
        layout=layout,
        bound=least,
        claim=from_pieces.claim(pieces, good),
        notes=(),
        net_area_m2=sum(piece.shape.area for piece in pieces) / 1e6,
        floor=floor,
        cuts=cut_up(problem, layout, least_side_mm=good.minimum_piece_mm),
    )
