"""One sheet material as it is cut: everything that goes on the saw, and whose the parts are.

Papers are drawn from this whether the plan is of one job or of several, and whether it takes
offcuts from the rack or not.
"""

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace

import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.cut import SawCut, SheetCuts
from roofmodel.cutting.parts.layout import Placed, SheetCorners
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.rack.layout import RackCut
from roofmodel.cutting.rack.offcut import rectangle
from roofmodel.cutting.rack.plan import RackPlan, left_by
from roofmodel.cutting.rack.what_is_left import KeptOffcut
from roofmodel.drawings.paper.heading import Heading
from roofmodel.shapes.roof import Facet, Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What of a sheet goes back on the rack: the label written on it, its outline, its size.

    ``may_turn_over`` says whether either face may be the outside one later.
    """

    label: str
    corners_mm: SheetCorners
    size: str
    may_turn_over: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A new sheet, or an offcut from the rack, with what is cut from it.

    ``number`` counts new sheets from 1, ``count`` is how many there are; ``outline_mm`` is
    counter-clockwise from its lower left corner; ``cuts`` are straight cuts from edge to edge in
    the order they are made, ``stuck`` the marks such cuts do not set free. ``rack_label`` is what
    is written on an offcut, empty for a new sheet; ``place`` is where the offcut stands.
    """

    number: int
    count: int
    outline_mm: SheetCorners
    placed: tuple[Placed, ...]
    cuts: tuple[SawCut, ...] = ()
    stuck: tuple[str, ...] = ()
    kept: tuple[Kept, ...] = ()
    rack_label: str = ""
    place: str = ""

    @property
    def name(self) -> str:
        """What it is called on a drawing."""
        return self._offcut if self.rack_label else f"sheet {self.number} of {self.count}"

    @property
    def _offcut(self) -> str:
        return f"rack piece {self.rack_label}"

    @property
    def short_name(self) -> str:
        """What it is called in a column of sheets."""
        return self.rack_label or f"{self.number}"

    @property
    def file_name(self) -> str:
        """What its drawing's file is called, after job and material."""
        if not self.rack_label:
            return f"sheet-{self.number:02d}"
        return f"rack-{re.sub(r'[^A-Za-z0-9.+]+', '-', self.rack_label)}"

    @property
    def used_whole(self) -> bool:
        """Whether a single part takes all of it."""
        whole_mm2 = shapely.Polygon(self.outline_mm).area
        return len(self.placed) == 1 and self.placed[0].part.area_mm2 >= 0.9999 * whole_mm2

    @property
    def size_mm(self) -> tuple[float, float]:
        """Length and width of the rectangle round it [mm]."""
        across, up = zip(*self.outline_mm, strict=True)
        return (max(across), max(up))


@dataclass(frozen=True, slots=True, kw_only=True)
class Owner:
    """A job that has parts on the sheets, and the surface they lie on as a roof."""

    heading: Heading
    surface: Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """A verified plan of one material as the bench needs it.

    ``stocks`` are new sheets in their order, then offcuts; ``owners`` the jobs by their codes;
    ``sentence`` says how many sheets are bought and whether fewer can do; ``figures`` are those of
    the plan for the manifest.
    """

    good: SheetGood
    stocks: tuple[Stock, ...]
    owners: Mapping[str, Owner]
    sentence: str
    figures: Mapping[str, object] = field(default_factory=dict)

    @property
    def sheets(self) -> int:
        """New sheets bought."""
        return sum(not stock.rack_label for stock in self.stocks)

    @property
    def placed(self) -> tuple[Placed, ...]:
        """All parts where they are cut."""
        return tuple(placed for stock in self.stocks for placed in stock.placed)

    @property
    def parts(self) -> tuple[Part, ...]:
        """All parts."""
        return tuple(placed.part for placed in self.placed)

    @property
    def short_in_files(self) -> str:
        """The material's short name as it stands in the names of files."""
        return re.sub(r"[^A-Za-z0-9]+", "-", self.good.short)

    def owner_of(self, part: Part) -> Owner:
        """Return the job a part is cut for."""
        return self.owners[job_of(part, self.owners)]

    def facet_of(self, part: Part) -> Facet:
        """Return the facet a part is cut for, on the surface it lies on."""
        return self.owner_of(part).surface.facet(part.facet)

    def stock_by_mark(self) -> dict[str, Stock]:
        """Return what every part is cut from, by its mark."""
        return {placed.part.mark: stock for stock in self.stocks for placed in stock.placed}

    def of_job(self, job_code: str) -> "CutPlan | None":
        """Return what a job has of it: the same stocks with its own parts; None for no part."""
        own = tuple(
            replace(stock, placed=placed)
            for stock in self.stocks
            if (placed := tuple(p for p in stock.placed if job_of(p.part, self.owners) == job_code))
        )
        return replace(self, stocks=own, owners={job_code: self.owners[job_code]}) if own else None


def job_of(part: Part, jobs: Collection[str]) -> str:
    """Return which of some jobs a part is cut for: the longest code its mark begins with.

    A mark may have more between job and facet, as the pieces between new rafters have.
    """
    begins = part.mark.split(f"-{part.facet}-", maxsplit=1)[0]
    return max((code for code in jobs if f"{begins}-".startswith(f"{code}-")), key=len)


def of_plan(plan: Plan, owner: Owner, *, rack_prefix: str) -> CutPlan:
    """Return a job's own plan, with what it leaves worth keeping.

    Parameters
    ----------
    plan
        The plan on new sheets.
    owner
        The job, and the surface its parts lie on.
    rack_prefix
        Begins the label of everything that goes on the rack: job and revision.

    Raises
    ------
    CuttingError
        If what is left over fails its check.
    """
    kept = left_by(plan)
    cuts = {sheet.sheet_no: sheet for sheet in plan.cuts}
    stocks = [
        _sheet(
            plan.good,
            number,
            plan.sheets,
            plan.layout.on_sheet(number),
            cuts.get(number),
            tuple(
                _kept(
                    one,
                    f"{rack_prefix}-{plan.good.short}-S{number}",
                    may_turn_over=plan.good.faces == "alike",
                )
                for one in kept
                if one.sheet_no == number
            ),
        )
        for number in sorted({placed.sheet_no for placed in plan.layout.placed})
    ]
    return CutPlan(
        good=plan.good,
        stocks=tuple(stocks),
        owners={owner.heading.job_code: owner},
        sentence=plan.sentence,
        figures=plan_figures(plan),
    )


def of_rack_plan(
    made: RackPlan, owners: Mapping[str, Owner], *, rack_prefix: str, sentence: str = ""
) -> CutPlan:
    """Return a plan on new sheets and offcuts, of one job or of several.

    Parameters
    ----------
    made
        The plan.
    owners
        The jobs by their codes.
    rack_prefix
        Begins the label of everything that goes on the rack: jobs and revision.
    sentence
        The count in words; the plan's own when left out.
    """
    cuts = {sheet.sheet_no: sheet for sheet in made.cuts}
    kept: dict[tuple[int, str | None], list[Kept]] = {}
    for offcut in made.kept:
        label = f"{rack_prefix}-{made.good.short}-{made.origin(offcut)}"
        turns = made.may_turn_over(offcut)
        kept.setdefault(offcut.source, []).append(_kept(offcut, label, may_turn_over=turns))
    new = [
        _sheet(
            made.good,
            number,
            made.sheets,
            made.layout.new.on_sheet(number),
            cuts.get(number),
            tuple(kept.get((number, None), ())),
        )
        for number in sorted({placed.sheet_no for placed in made.layout.new.placed})
    ]
    offcuts = [
        _offcut(made, number, cut, tuple(kept.get((0, cut.piece.label), ())))
        for number, cut in enumerate(made.layout.cuts, start=1)
    ]
    return CutPlan(
        good=made.good,
        stocks=(*new, *offcuts),
        owners=owners,
        sentence=sentence or made.sentence,
        figures=rack_plan_figures(made),
    )


def plan_figures(plan: Plan) -> dict[str, object]:
    """Return the figures of a plan under the names that reports and files use."""
    return {
        "material": plan.material,
        "name": plan.good.name,
        "sheet_mm": list(plan.sheet_mm),
        "sheets": plan.sheets,
        "bound": plan.least,
        "bound_reason": "" if plan.floor is None else plan.floor.reason,
        "these_pieces_need": plan.bound.sheets,
        "proved": plan.proved,
        "utilisation": round(plan.utilisation, 4),
        "pieces": plan.pieces,
        "net_area_m2": round(plan.net_area_m2, 4),
        "kerf_mm": plan.good.kerf_mm,
        "rules": plan.claim,
        "notes": list(plan.notes),
        "near_misses": list(plan.near_misses),
    }


def rack_plan_figures(made: RackPlan) -> dict[str, object]:
    """Return the figures of a plan with the rack under the names that reports and files use."""
    return {
        "material": made.good.code,
        "name": made.good.name,
        "sheet_mm": [made.good.length_mm, made.good.width_mm],
        "sheets": made.sheets,
        "without_rack": made.without_rack,
        "these_pieces_need": made.least.sheets,
        "these_pieces_need_because": made.least.reason,
        "from_rack": list(made.from_rack),
        "pieces": len(made.problem.parts),
        "kerf_mm": made.good.kerf_mm,
        "rules": made.claim,
    }


def _sheet(
    good: SheetGood,
    number: int,
    count: int,
    placed: tuple[Placed, ...],
    cut_up: SheetCuts | None,
    kept: tuple[Kept, ...],
) -> Stock:
    return Stock(
        number=number,
        count=count,
        outline_mm=rectangle(good.length_mm, good.width_mm),
        placed=placed,
        cuts=cut_up.cuts if cut_up is not None else (),
        stuck=cut_up.stuck if cut_up is not None else (),
        kept=kept,
    )


def _offcut(made: RackPlan, number: int, cut: RackCut, kept: tuple[Kept, ...]) -> Stock:
    outline = tuple((x / 10, y / 10) for x, y in cut.piece.corners)
    sawn = made.rack_cuts[number - 1]
    return Stock(
        number=number,
        count=len(made.layout.cuts),
        outline_mm=outline,
        placed=cut.placed,
        cuts=sawn.cuts,
        stuck=sawn.stuck,
        kept=kept,
        rack_label=cut.piece.label,
        place=cut.piece.place,
    )


def _kept(offcut: KeptOffcut, prefix: str, *, may_turn_over: bool) -> Kept:
    return Kept(
        label=f"{prefix}-{offcut.number}",
        corners_mm=offcut.corners_mm,
        size=offcut.size,
        may_turn_over=may_turn_over,
    )
