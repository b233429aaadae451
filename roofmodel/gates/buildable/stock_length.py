"""Is there stock large enough: panels for every bay, boards for every bay, lengths for rafters?"""

import math

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.outcome import Outcome, against_most
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.shapes.bars import timber
from roofmodel.shapes.bars.bar import BarKind


def of_refit(refit: Refit, catalogue: Catalogue) -> tuple[Gate, ...]:
    """Return the checks of every sheet between the bars, and of a new roof's rafters."""
    between = [
        layer
        for layer in refit.layers
        if layer.layer.lie is Lie.BETWEEN and layer.material.sheet is not None and refit.bays
    ]
    checks = []
    for layer in between:
        checks.append(_width(refit, layer))
        if layer.material.category == "panel":
            checks.append(_length(refit, layer))
    return (*checks, *_rafters(refit, catalogue))


def _length(refit: Refit, layer: Placed) -> Gate:
    """Return whether every panel is one piece: a glazed bay takes no cross joint."""
    bay = max(refit.bays, key=lambda one: one.height_mm)
    sizes = layer.material.sheet.sizes if layer.material.sheet is not None else ()
    longest_mm = max(size.length_mm for size in sizes)
    outcome = against_most(bay.height_mm, longest_mm)
    return Gate(
        name=f"stock: length of {layer.material.name}",
        question="Is there stock long enough for every bay in one piece?",
        outcome=outcome,
        value=bay.height_mm,
        unit="mm",
        limit=longest_mm,
        sense=Sense.AT_MOST,
        reason=f"Bay {bay.mark} is {bay.height_mm:.1f} mm long and the longest stock "
        f"{longest_mm:g} mm; a glazed bay cannot have a cross joint.",
        remedy=""
        if outcome is Outcome.PASS
        else "Order a special length and add a stock length of at least "
        f"{math.ceil(bay.height_mm)} mm to the catalogue; until then the price is "
        "incomplete.",
        source=layer.material.source,
    )


def _width(refit: Refit, layer: Placed) -> Gate:
    sizes = layer.material.sheet.sizes if layer.material.sheet is not None else ()
    widest_mm = max(size.width_mm for size in sizes)
    bay = max(refit.bays, key=lambda one: min(one.width_mm, one.height_mm))
    across_mm = min(bay.width_mm, bay.height_mm)
    outcome = against_most(across_mm, widest_mm)
    return Gate(
        name=f"stock: width of {layer.material.name}",
        question="Is there stock wide enough for every bay?",
        outcome=outcome,
        value=across_mm,
        unit="mm",
        limit=widest_mm,
        sense=Sense.AT_MOST,
        reason=f"Bay {bay.mark} is {across_mm:.1f} mm across and the widest stock {widest_mm:g} "
        "mm.",
        remedy="" if outcome is Outcome.PASS else "Add a bearer up the bay, or wider stock.",
        source=layer.material.source,
    )


def _rafters(refit: Refit, catalogue: Catalogue) -> list[Gate]:
    new = refit.default.new_bars
    material = catalogue.materials.get(new.material) if new is not None else None
    if material is None or not material.stock_lengths_mm or not refit.members.sloping_mm:
        return []
    assert new is not None, "a material of new bars is known only where there are some"
    cut = [timber.of_bar(bar, depth_mm=new.depth_mm) for bar in refit.members.bars]
    cut += [
        timber.of_line(bar, refit.site.roof, depth_mm=new.depth_mm)
        for bar in refit.members.roof_bars
        if bar.kind is BarKind.STARTER
    ]
    longest = max(cut, key=lambda one: one.over_all_mm)
    mark, length_mm = longest.mark, longest.over_all_mm
    longest_mm = max(material.stock_lengths_mm)
    outcome = against_most(length_mm, longest_mm)
    return [
        Gate(
            name=f"stock: length of {material.name}",
            question="Is there stock long enough for every rafter in one piece?",
            outcome=outcome,
            value=length_mm,
            unit="mm",
            limit=longest_mm,
            sense=Sense.AT_MOST,
            reason=f"{mark} is {length_mm:.1f} mm over all, the longest stock {longest_mm:g} mm.",
            remedy=""
            if outcome is Outcome.PASS
            else "Add a longer stock length to the catalogue; rafters are not spliced.",
            source=material.source,
        )
    ]
