"""Takes off a refitted roof: sheets by their cutting plans, everything else by its recipe."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material, Price, WasteMode
from roofmodel.cutting.plan import Plan
from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import CuttingError
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.quantities import drivers, gutter_run, lengths, recipe, screws
from roofmodel.quantities.bill import Bill, BillLine
from roofmodel.quantities.counts import COUNTS, FOLLOW_THE_BARS, ROOF_WINDOWS, Counted, Roofing
from roofmodel.quantities.driver import Place
from roofmodel.quantities.recipe import Recipe
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed

_NOT_CUT = "the cutting plan has not been made yet"


def take_off(
    refit: Refit,
    catalogue: Catalogue,
    plans: Mapping[int, Plan] | None = None,
    *,
    lights: int = 0,
    facts: SiteFacts | None = None,
    recipes: Sequence[Recipe] | None = None,
) -> Bill:
    """Return the take-off of a method on a roof.

    Parameters
    ----------
    refit
        The method on its roof.
    catalogue
        Where the materials of the recipes are found.
    plans
        The cutting plan of each sheet layer by the layer's number; a sheet without one is left
        unknown, never guessed from its area.
    lights
        Downlights that have room behind the ceiling.
    facts
        What is known of the place, from which the gates say how many outlets there are.
    recipes
        The firm's recipes; the shipped ones when left out.

    Returns
    -------
    Bill
        Sheets in the order of the layers, then the recipes; unused lines at zero.
    """
    roofing = Roofing(
        refit=refit,
        drivers=drivers.of_refit(refit, lights=lights, facts=facts),
        gutters=gutter_run.runs(refit.site.roof, refit.facets),
        cuts=lengths.cuts(refit, catalogue),
    )
    return _bill(roofing, catalogue, plans or {}, recipes)


def uncut(
    refit: Refit,
    catalogue: Catalogue,
    *,
    lights: int = 0,
    facts: SiteFacts | None = None,
    recipes: Sequence[Recipe] | None = None,
) -> Bill:
    """Return the take-off before anything is cut: which lines apply, and what each is priced at.

    Its quantities are not what is bought; nothing is laid out or sawn for it. Parameters are those
    of `take_off`.
    """
    roofing = Roofing(
        refit=refit,
        drivers=drivers.of_refit(refit, lights=lights, facts=facts),
        gutters=gutter_run.runs(refit.site.roof, refit.facets),
        cuts=lengths.uncut(refit, catalogue),
    )
    return _bill(roofing, catalogue, {}, recipes)


def _bill(
    roofing: Roofing,
    catalogue: Catalogue,
    plans: Mapping[int, Plan],
    recipes: Sequence[Recipe] | None,
) -> Bill:
    refit = roofing.refit
    sheets = [
        _sheet_line(layer, refit, plans.get(layer.number))
        for layer in refit.layers
        if layer.material.sheet is not None
    ]
    others = [
        _line(one, catalogue.materials.get(one.material), roofing)
        for one in _with_windows(recipe.of_method(refit.method, recipes), refit)
    ]
    return Bill(method=refit.method, lines=(*sheets, *others))


def _with_windows(rows: tuple[Recipe, ...], refit: Refit) -> tuple[Recipe, ...]:
    """Return recipes with one more for every window whose material has none of its own."""
    like = next((row for row in rows if row.count == ROOF_WINDOWS), None)
    if like is None:
        return rows
    known = {row.material for row in rows}
    windows = [w.material for w in refit.entry.roof_windows if w.facet in refit.facets]
    strange = [code for code in dict.fromkeys(windows) if code not in known]
    return (*rows, *(replace(like, material=code) for code in strange))


def _sheet_line(layer: Placed, refit: Refit, plan: Plan | None) -> BillLine:
    material = layer.material
    between = layer.layer.lie is Lie.BETWEEN
    bays = tuple(bay.mark for bay in refit.bays) if between else ()
    bare = BillLine(
        code=material.code,
        material=material,
        price=material.price,
        group="sheets",
        counted=None,
        quantity=None,
        formula=f"{refit.area_m2(layer):.3f} m² {layer.layer.lie.words}",
        waste="by plan",
        place=Place(facets=refit.facets, pieces=bays),
        note=layer.layer.purpose,
        lacks=_NOT_CUT,
    )
    lacks = drivers.without_bars(refit) if between else ""
    if lacks:
        return replace(bare, lacks=lacks)
    if plan is None:
        return bare
    return replace(
        bare,
        price=_price_of_size(material, plan),
        counted=plan.pieces_area_m2,
        quantity=plan.sheets * plan.good.sheet_area_m2,
        sheets=plan.sheets,
        sheet_mm=plan.sheet_mm,
        near_miss=" ".join(plan.near_misses),
        formula=f"{plan.pieces} pieces of {plan.pieces_area_m2:.3f} m² on {plan.sheets} sheets of "
        f"{plan.good.sheet_area_m2:.3f} m² ({plan.least_words})",
        lacks="",
    )


def _price_of_size(material: Material, plan: Plan) -> Price | None:
    """Return the price of the sheet size that was cut; one size may be dearer than another."""
    sizes = material.sheet.sizes if material.sheet else ()
    for size in sizes:
        if (size.length_mm, size.width_mm) == plan.sheet_mm and size.price is not None:
            return size.price
    return material.price


def _line(one: Recipe, material: Material | None, roofing: Roofing) -> BillLine:
    bare = BillLine(
        code=one.material,
        material=material,
        price=material.price if material else None,
        group=one.group,
        counted=None,
        quantity=None,
        formula="",
        waste="",
        place=Place(),
        note=one.note,
        source=one.source,
        lacks=f"there is no material “{one.material}” in the catalogue",
    )
    if material is None:
        return bare
    lacks = _lacks(one, roofing)
    if lacks:
        return replace(bare, lacks=lacks)
    try:
        counted = _counted(one, material, roofing)
    except CuttingError as error:
        return replace(bare, lacks=str(error))
    quantity, waste = _with_waste(counted, one, material)
    return replace(
        bare,
        counted=counted.value,
        quantity=quantity,
        formula=counted.words,
        waste=waste,
        waste_percent=_percent(counted, one, material),
        # What is cut from lengths is bought in lengths already.
        step=None if counted.cut is not None else one.round_up,
        place=counted.place,
        cut=counted.cut,
        near_miss=counted.cut.near_miss if counted.cut is not None else "",
        lacks="",
    )


def _lacks(one: Recipe, roofing: Roofing) -> str:
    """Return what must be entered before a line is known: the bars, where it follows them."""
    if one.count in FOLLOW_THE_BARS:
        return drivers.without_bars(roofing.refit)
    return one.lacks(roofing.drivers)


def _counted(one: Recipe, material: Material, roofing: Roofing) -> Counted:
    if one.through_mm is not None:
        thick_mm = screws.through_mm(roofing.refit)
        low_mm, high_mm = one.through_mm
        # Each length of screw serves one range of thickness, open below, so that no screw is
        # counted twice and none is missing.
        if not low_mm < thick_mm <= high_mm + tolerance.LENGTH_MM:
            words = f"not for {thick_mm:g} mm of boards over the timber"
            return Counted(value=0.0, words=words)
    if one.count is not None:
        return COUNTS[one.count](roofing, material)
    value, words, place = one.sum(roofing.drivers)
    return Counted(value=value, words=words or "not asked for", place=place)


def _percent(counted: Counted, one: Recipe, material: Material) -> float:
    """Return the percentage that is added for waste; 0 where a plan or the rate holds it."""
    taken = counted.cut is None and one.waste != "none" and material.waste is WasteMode.PERCENT
    return material.waste_percent if taken else 0.0


def _with_waste(counted: Counted, one: Recipe, material: Material) -> tuple[float, str]:
    """Return a count with its waste, and how that was taken: once, and never twice."""
    if counted.cut is not None:
        return counted.value, "by plan"
    percent = _percent(counted, one, material)
    if one.waste == "none":
        quantity, waste = counted.value, "in the rate"
    elif percent:
        quantity, waste = counted.value * (1.0 + percent / 100.0), f"+ {percent:g} %"
    else:
        quantity, waste = counted.value, "none"
    # Rounded after the waste, since that is what is bought; the hair keeps a whole number whole.
    if one.round_up is not None:
        quantity = math.ceil(quantity / one.round_up - 1e-9) * one.round_up
    return quantity, waste
