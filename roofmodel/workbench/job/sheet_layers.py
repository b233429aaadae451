"""The sheet layers of a refitted roof, ready to be cut: boards on facets, or pieces in bays."""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from string import ascii_lowercase
from typing import NamedTuple

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.buildups.material import Material, StockSize
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import near_miss
from roofmodel.cutting.laying import rule_set
from roofmodel.cutting.laying.rule import LayingRules, rules_for
from roofmodel.cutting.laying.rule_set import RuleSet
from roofmodel.cutting.near_miss import Trial
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import CuttingError, DimensionError, Fault
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit, bays_at
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars.bay import Bay
from roofmodel.shapes.roof import Facet
from roofmodel.workbench.job import kept_plans

_WIDER_GAPS_MM = (3.0, 5.0)
"""By so much wider fitting gaps are tried, to tell what they would save; foam fills up to 10 mm."""


STEEPEST_TILT_DEG = 45.0
"""A saw's blade tilts no further (common practice, no source)."""


class _Stops(NamedTuple):
    """Who may stop a search without a plan, and who may take the best so far."""

    cancelled: Callable[[], bool] | None
    settled: Callable[[], bool] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeOffered:
    """A material in one size it is sold in, as it is cut on this job, and the price of a sheet."""

    good: SheetGood
    price: Decimal | None

    def cost(self, sheets: int, *, priced: bool) -> float:
        """Return what so many sheets cost [GBP]; their area [m²] where prices are missing."""
        if priced and self.price is not None:
            return float(self.price * sheets)
        return self.good.sheet_area_m2 * sheets


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLayer:
    """One layer of sheets: its material as cut on this job, and what is cut.

    ``bays`` are the pieces of a layer between the bars; without any, boards are laid on
    ``facets``, their joints on the supports, where there are some. ``sizes`` are all tried, and the
    cheapest is cut; ``good`` is the usual one, which comes first. ``not_tried`` are sizes the job
    rules out by giving one of its own. ``depths_mm`` are how deep outside and inside face lie under
    the outside of the bars. ``way`` is the way of laying chosen, None for the usual.
    """

    number: int
    good: SheetGood
    sizes: tuple[SizeOffered, ...]
    facets: tuple[Facet, ...]
    supports_mm: Mapping[str, tuple[float, ...]]
    bays: tuple[Bay, ...]
    refit: Refit = field(compare=False, repr=False)
    not_tried: tuple[StockSize, ...] = ()
    way: RuleSet | None = None
    depths_mm: tuple[float, float] = (0.0, 0.0)

    @property
    def code(self) -> str:
        """Code of the material."""
        return self.good.code

    @property
    def made_of(self) -> object:
        """What its plan follows from, and nothing else: pieces, rules and stock."""
        laid = (self.facets, self.supports_mm, self.way)
        return (self.number, self.sizes, self.not_tried, self.bays, *laid)

    def made_of_facets(self) -> dict[str, object]:
        """Return what the boards of each facet follow from: the same gives the same."""
        if self.bays:
            pieces = self._pieces(self.bays)
            names = dict.fromkeys(piece.facet for piece in pieces)
            return {
                name: (self.good, tuple(piece for piece in pieces if piece.facet == name))
                for name in names
            }
        return {
            facet.name: (self.good, _flat(facet), self.supports_mm.get(facet.name), self.way)
            for facet in self.facets
        }

    @property
    def laying_rules(self) -> LayingRules:
        """The rules boards are laid by until there is a plan."""
        return self._rules(self.good) or rules_for(self.good)

    def cut(
        self,
        *,
        job_code: str,
        effort: Effort,
        progress: Callable[[int, int], None] | None = None,
        cancelled: Callable[[], bool] | None = None,
        settled: Callable[[], bool] | None = None,
    ) -> Plan:
        """Return the verified cutting plan of the layer, in the size that costs least.

        As soon as ``settled`` says so, the best so far is taken. What a small change would save is
        tried as well, but not at quick effort, which is for a first price.

        Raises
        ------
        CuttingError
            If no complete plan is found; `Cancelled` if ``cancelled`` said so.
        """
        priced = all(size.price is not None for size in self.sizes)
        plans: list[tuple[float, Plan]] = []
        refusals: list[CuttingError] = []
        for size in self.sizes:
            try:
                made = self._cut(size.good, job_code, effort, progress, cancelled, settled)
            except CuttingError as error:
                refusals.append(error)
            else:
                plans.append((size.cost(made.sheets, priced=priced), made))
        if not plans:
            raise refusals[0]
        cheapest = min(plans, key=lambda found: found[0])[1]
        if effort is Effort.QUICK or (settled is not None and settled()):
            return cheapest
        return self._with_near_misses(cheapest, _Stops(cancelled, settled), job_code)

    def _with_near_misses(self, made: Plan, stops: "_Stops", job_code: str) -> Plan:
        """Return a plan with what a small change would save, tried quickly."""
        if made.sheets <= math.ceil(made.net_area_m2 / made.good.sheet_area_m2 - 1e-9):
            return made
        price = next((one.price for one in self.sizes if one.good == made.good), None)
        missed = near_miss.near_misses(made, self._trials(made, stops, job_code), sheet_price=price)
        # Parts of a bay that is longer than the sheet are cut where the search wants them.
        whole = len(self.bays) == made.pieces
        hints = near_miss.too_wide(made.problem) if whole else ()
        return replace(made, near_misses=(*(miss.sentence for miss in missed), *hints))

    def _trials(self, made: Plan, stops: "_Stops", job_code: str) -> Iterator[Trial]:
        """Yield what to try, until the plan as it stands will do."""
        for trial in self._all_trials(made.good, stops, job_code):
            if stops.settled is not None and stops.settled():
                return
            yield trial

    def _all_trials(self, good: SheetGood, stops: "_Stops", job_code: str) -> Iterator[Trial]:
        def of_stock(other: SheetGood) -> Plan:
            return self._cut(other, job_code, Effort.QUICK, None, *stops)

        def of_pieces(pieces: Sequence[Piece]) -> Plan:
            return kept_plans.plan_pieces(
                pieces, good, job_code=job_code, effort=Effort.QUICK, **stops._asdict()
            )

        def of_rules(rules: LayingRules) -> Plan:
            return kept_plans.plan(
                self.facets,
                good,
                job_code=job_code,
                rules=rules,
                supports_mm=self.supports_mm,
                effort=Effort.QUICK,
                **stops._asdict(),
            )

        if self.not_tried:
            sizes = {
                (one.length_mm, one.width_mm): None if one.price is None else one.price.amount
                for one in self.not_tried
            }
            yield from near_miss.other_stock(of_stock, good, sizes)
        if self.bays and good.layer != "panel":
            now_mm = self.refit.entry.fitting_gap_mm
            yield from near_miss.other_gaps(
                lambda gap_mm: of_pieces(self._pieces(bays_at(self.refit, gap_mm))),
                now_mm=now_mm,
                gaps_mm=[now_mm + more for more in _WIDER_GAPS_MM],
            )
        if not self.bays and self.supports_mm:
            rules = self._rules(good) or rules_for(good, joints="supports")
            yield from near_miss.more_cuts(of_rules, rules)

    def _cut(
        self,
        good: SheetGood,
        job_code: str,
        effort: Effort,
        progress: Callable[[int, int], None] | None = None,
        cancelled: Callable[[], bool] | None = None,
        settled: Callable[[], bool] | None = None,
    ) -> Plan:
        if self.bays:
            return kept_plans.plan_pieces(
                self._pieces(self.bays),
                good,
                job_code=job_code,
                effort=effort,
                progress=progress,
                cancelled=cancelled,
                settled=settled,
            )
        return kept_plans.plan(
            self.facets,
            good,
            job_code=job_code,
            rules=self._rules(good),
            supports_mm=self.supports_mm,
            effort=effort,
            progress=progress,
            cancelled=cancelled,
            settled=settled,
        )

    def _rules(self, good: SheetGood) -> LayingRules | None:
        return None if self.way is None else self.way.rules(good)

    def _pieces(self, bays: Sequence[Bay]) -> list[Piece]:
        """Return what is cut for bays; one that is closed further in takes none."""
        return [piece for bay in bays if (piece := self._piece(bay)) is not None]

    def _piece(self, bay: Bay) -> Piece | None:
        """Return what is cut for a bay, so that it goes in between upright bars and walls.

        Insulation is bevelled along them, as far as a saw tilts; a panel is cut square to what is
        left at its inside face, where it sits on the bars.
        """
        outer_mm, inner_mm = self.depths_mm
        corners, leans = bay.at_depth(outer_mm, beside_mm=inner_mm)
        if self.good.layer == "panel" or max(leans, default=0.0) > STEEPEST_TILT_DEG:
            corners, leans = bay.at_depth(inner_mm)[0], ()
        if not corners:
            return None
        # A panel is weather skin: a joint across it would leak. Insulation may be joined.
        return Piece(
            mark=bay.mark,
            facet=bay.facet,
            corners_mm=corners,
            bevels_deg=leans if any(leans) else (),
            may_split=self.good.layer != "panel",
        )


def _flat(facet: Facet) -> object:
    """Return what boards see of a facet, wherever it lies: outline, pitch and sides."""
    outline = tuple((round(float(u), 3), round(float(v), 3)) for u, v in facet.outline_mm)
    sides = tuple((edge.kind.value, round(edge.lean_deg, 4)) for edge in facet.edges)
    return outline, round(facet.pitch_deg, 4), sides


def of_refit(
    refit: Refit,
    choices: Mapping[str, BoardChoice],
    *,
    saw_kerf_mm: float,
    ways: Mapping[str, RuleSet] | None = None,
) -> tuple[SheetLayer, ...]:
    """Return the sheet layers of a refit from the room outwards.

    Parameters
    ----------
    refit
        The method on its roof.
    choices
        What this job's sheets differ in from the catalogue, by material.
    saw_kerf_mm
        What the firm's saw takes [mm].
    ways
        The firm's ways of laying by code; the shipped ones when left out.

    Raises
    ------
    DimensionError
        If such a difference leaves no usable sheet.
    """
    layers: list[SheetLayer] = []
    for layer in refit.layers:
        if layer.material.sheet is None:
            continue
        material = layer.material
        choice = choices.get(material.code)
        sizes, not_tried = _sizes(material, choice, saw_kerf_mm)
        again = sum(other.code == material.code for other in layers)
        if again:
            # The same board in two layers: marks and files must tell the two apart.
            short = f"{material.short}{ascii_lowercase[again]}"
            sizes = tuple(replace(x, good=replace(x.good, short=short)) for x in sizes)
        layers.append(_layer(layer, refit, sizes, not_tried, way_of(choice, sizes[0].good, ways)))
    return tuple(layers)


def _sizes(
    material: Material, choice: BoardChoice | None, saw_kerf_mm: float
) -> tuple[tuple[SizeOffered, ...], tuple[StockSize, ...]]:
    """Return the sizes to try, the usual one first, and those that a size of the job rules out."""
    assert material.sheet is not None
    usual = material.price.amount if material.price is not None else None
    known = material.sheet.sizes
    offered = [
        SizeOffered(
            good=material.sheet_good(number, saw_kerf_mm=saw_kerf_mm),
            price=size.price.amount if size.price is not None else usual if number == 0 else None,
        )
        for number, size in enumerate(known)
    ]
    if choice is None:
        return tuple(offered), ()
    if choice.length_mm is not None or choice.width_mm is not None:
        own = replace(offered[0], good=choice.applied_to(offered[0].good))
        same = (own.good.length_mm, own.good.width_mm)
        priced = [x for x in offered if (x.good.length_mm, x.good.width_mm) == same]
        own = replace(own, price=priced[0].price) if priced else own
        return (own,), tuple(x for x in known if (x.length_mm, x.width_mm) != same)
    return tuple(replace(x, good=choice.applied_to(x.good)) for x in offered), ()


def way_of(
    choice: BoardChoice | None, good: SheetGood, ways: Mapping[str, RuleSet] | None = None
) -> RuleSet | None:
    """Return the way of laying a job chose for a material.

    Raises
    ------
    DimensionError
        If there is none of that code, or it is not for this kind of layer.
    """
    if choice is None or choice.laying is None:
        return None
    known = rule_set.shipped() if ways is None else ways
    way = known.get(choice.laying)
    if way is None or good.layer not in way.layers:
        fitting = [code for code, one in known.items() if good.layer in one.layers]
        text = f"There is no way of laying “{choice.laying}” for the {good.layer}."
        remedy = f"Choose one of {', '.join(fitting)}, or leave it out for the usual way."
        raise DimensionError([Fault("laying", text, remedy)])
    return way


def _layer(
    layer: Placed,
    refit: Refit,
    sizes: tuple[SizeOffered, ...],
    not_tried: tuple[StockSize, ...],
    way: RuleSet | None,
) -> SheetLayer:
    between = layer.layer.lie is Lie.BETWEEN
    missing = [name for name in refit.facets if refit.members.of_facet(name) is None]
    bays = refit.bays if between and not missing else ()
    if not bays:
        # From the face it is measured on it may come nearer to walls and other facets' boards.
        reach_mm = (layer.cut_face_mm - layer.inside_mm, layer.outside_mm - layer.cut_face_mm)
        sizes = tuple(replace(x, good=replace(x.good, reach_mm=reach_mm)) for x in sizes)
    good = sizes[0].good
    return SheetLayer(
        number=layer.number,
        good=good,
        sizes=sizes,
        facets=refit.cut_facets(layer),
        supports_mm=refit.supports_mm(layer) if good.layer == "deck" else {},
        bays=bays,
        refit=refit,
        not_tried=not_tried,
        way=way,
        depths_mm=(-layer.outside_mm, -layer.inside_mm),
    )
