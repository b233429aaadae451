"""What a U-value leaves out or assumes, in sentences for its derivation."""

from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_corrections as corrections


def is_unbroken(one: Placed) -> bool:
    """Return whether a layer is insulation over the whole surface, which screws go through."""
    return one.layer.lie is Lie.OVER and one.material.category == "insulation"


def notes(
    refit: Refit, settings: HeatSettings, emissivity: float, *, ventilated: bool
) -> tuple[str, ...]:
    """Return what is left out or assumed, each a sentence."""
    between_mm = sum(one.thickness_mm for one in refit.layers if one.layer.lie is Lie.BETWEEN)
    free_mm = refit.bar_depth_mm - between_mm
    sentences = []
    if free_mm > 0.5 and refit.method is not Method.PANEL_SWAP:
        sentences.append(
            f"{free_mm:g} mm of space beside the layers between the bars is not counted: whether "
            "its air is still is not known."
        )
    if refit.method is not Method.NEW_ROOF:
        sentences.append(
            f"A bar counts as {settings.bar_m2k_w:g} m²K/W over its depth: {settings.bar_source}."
        )
    spaces = any(one.layer.lie in (Lie.ACROSS, Lie.ALONG) for one in refit.layers)
    if spaces and any(one.material.bright_face for one in refit.layers):
        known = emissivity == settings.emissivity
        source = settings.emissivity_source if known else settings.aged_source
        sentences.append(f"Foil beside air: emissivity {emissivity:g}, {source}.")
    sentences += [
        f"Screws through unbroken insulation on the {side}: {screws.per_m2:g} per m², "
        f"{screws.area_mm2:g} mm² each, {screws.source}."
        for side, zone, screws in (
            ("room side", Zone.ROOM, settings.room_screws),
            ("outside", Zone.OUTSIDE, settings.outside_screws),
        )
        if any(one.layer.zone is zone and is_unbroken(one) for one in refit.layers)
    ]
    if any(is_unbroken(one) for one in refit.layers):
        pitches = [facet.pitch_deg for facet in refit.covered_facets]
        sentences.append(_recessed(min(pitches)))
    if refit.entry.roof_windows:
        sentences.append("Roof windows are not included.")
    if ventilated:
        sentences.append(
            f"From the ventilated battens outwards nothing counts: {iso_6946.VENTILATED}."
        )
    sentences.append(
        "Hips, valleys, ridge, plates and the edges at wall and eaves are not included."
    )
    return tuple(sentences)


def sheets_joined(refit: Refit) -> bool:
    """Return whether screws join two metal sheets through insulation, which no method here takes.

    A metal-faced panel over unbroken insulation, held down to bars of metal, is such a case.
    """
    if refit.default.new_bars is not None:
        return False
    outside = [one for one in refit.layers if one.layer.zone is Zone.OUTSIDE]
    unbroken = [i for i, one in enumerate(outside) if is_unbroken(one)]
    return bool(unbroken) and any(
        one.material.category == "panel" for one in outside[unbroken[0] + 1 :]
    )


def _recessed(pitch_deg: float) -> str:
    """Return why screws count although their heads may be recessed."""
    if pitch_deg > corrections.FLAT_MOST_DEG:
        return "Recessed fixings are left out on flat roofs only; this one slopes, so screws count."
    return (
        f"Fixings recessed by half the depth, {corrections.RECESSED_MOST_PER_M2:g} per m² at "
        "most, may be left out on a flat roof; nobody has said that these are, so they count: "
        f"{corrections.RECESSED}."
    )
