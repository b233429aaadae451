"""What keeps a method from being built, and what is doubtful about it: one rule, one question."""

import math
from collections.abc import Callable, Iterable

from roofmodel.refit import deck_span, depth
from roofmodel.refit.layer import Lie
from roofmodel.refit.method import Method
from roofmodel.refit.refit import ASSUMED_BAR_DEPTH_MM, Refit
from roofmodel.survey.taped.findings import Finding, Severity
from roofmodel.survey.taped.rules import LOWEST_TILED_PITCH_DEG


def findings(refit: Refit) -> list[Finding]:
    """Return every remark about a method on this roof; a stop means that it is refused."""
    return [finding for rule in RULES for finding in rule(refit)]


def refused(found: Iterable[Finding]) -> str:
    """Return in one line why a method is refused, empty when it is not."""
    stops = [finding for finding in found if finding.severity is Severity.STOP]
    return " ".join(f"{finding.text} {finding.remedy}" for finding in stops)


def _pitch(refit: Refit) -> list[Finding]:
    """Refuse tiles on facets flatter than they are laid on."""
    if refit.layer("tile") is None:
        return []
    flat = [f for f in refit.covered_facets if f.pitch_deg < LOWEST_TILED_PITCH_DEG - 1e-9]
    return [
        _stop(
            "layers",
            f"{facet.name} has a pitch of {facet.pitch_deg:.2f}°; lightweight tiles are laid from "
            f"{LOWEST_TILED_PITCH_DEG:g}° up (common practice, no source).",
            "Change the shape, or swap the panels.",
        )
        for facet in flat[:1]
    ]


def _bars(refit: Refit) -> list[Finding]:
    """Ask for the bars a method depends on."""
    between = [layer for layer in refit.layers if layer.layer.lie is Lie.BETWEEN]
    missing = [name for name in refit.facets if refit.members.of_facet(name) is None]
    if not (between and missing):
        return []
    names = ", ".join(missing)
    if refit.method is Method.PANEL_SWAP:
        text = f"No bars are entered on {names}, so no panel can be sized."
        return [_stop("bars", text, "Enter the bars of every facet, or keep that facet glazed.")]
    text = (
        f"No bars are entered on {names}: {between[0].material.name} is laid there as whole boards "
        "instead of cut to each bay, and what follows the bars is not counted."
    )
    return [_question("bars", text, "Enter the bars of every facet before boards are ordered.")]


def _bar_depth(refit: Refit) -> list[Finding]:
    """Say that the bars' depth is assumed, and when the layer between them is thicker."""
    if refit.default.new_bars is not None or refit.method is Method.PANEL_SWAP:
        return []
    depth_mm = refit.site.standing.bar_depth_mm
    if depth_mm is None:
        text = f"The depth of the bars is not read; {ASSUMED_BAR_DEPTH_MM:g} mm is assumed."
        return [_question("standing.bar_depth_mm", text, "Measure a bar from top to underside.")]
    between_mm = sum(x.thickness_mm for x in refit.layers if x.layer.lie is Lie.BETWEEN)
    if between_mm <= depth_mm:
        return []
    text = (
        f"{between_mm:g} mm between bars {depth_mm:g} mm deep stands {between_mm - depth_mm:g} mm "
        "below them."
    )
    return [
        _question("refit.layers", text, "Choose a thinner board, or pack the battens out as much.")
    ]


def _deck(refit: Refit) -> list[Finding]:
    """Question a deck whose supports stand too far apart."""
    weak = [support for support in deck_span.of_refit(refit) if not support.holds]
    if not weak:
        return []
    worst = max(weak, key=lambda support: support.apart_mm)
    others = [
        f"{span.material} up to {span.most_mm:g} mm"
        for span in deck_span.spans().values()
        if span.most_mm >= worst.apart_mm
    ]
    text = (
        f"{worst.facet}: supports {worst.apart_mm:.1f} mm apart under {worst.span.material}, which "
        f"reaches {worst.span.most_mm:g} mm ({worst.span.source}). The deck cannot be walked on."
    )
    add = worst.bearers_needed
    instead = f", or {' or '.join(others)}" if others else ""
    remedy = f"Add {add} bearer{'s' if add > 1 else ''} up the middle of every bay{instead}."
    return [_question("refit.bearers_per_bay", text, remedy)]


def _sill(refit: Refit) -> list[Finding]:
    """Refuse a build-up whose flashing would not fit under the sill."""
    sill_mm = refit.site.standing.sill_height_mm
    short = [one for one in depth.depths(refit) if one.room_mm is not None and one.room_mm < 0.0]
    if not short or sill_mm is None:
        return []
    text = (
        f"At the wall the new surface lies {short[0].surface_mm:.0f} mm above the floor; with "
        f"{depth.UPSTAND_MM:g} mm of flashing above it that is {-(short[0].room_mm or 0.0):.0f} mm "
        f"more than the sill at {sill_mm:g} mm leaves."
    )
    remedy = (
        "Choose thinner layers outside the bars, lower the pitch where the covering allows, "
        "change the shape to one with a box gutter, or swap the panels."
    )
    return [_stop("refit.layers", text, remedy)]


def _boards(refit: Refit) -> list[Finding]:
    """Question or refuse pieces between the bars that their sheet cannot give."""
    found: list[Finding] = []
    for layer in refit.layers:
        sheet = layer.material.sheet
        if layer.layer.lie is not Lie.BETWEEN or sheet is None:
            continue
        size = sheet.sizes[0]
        wide = [b for b in refit.bays if min(b.width_mm, b.height_mm) > size.width_mm]
        if wide:
            text = (
                f"Bay {wide[0].mark} is {min(wide[0].width_mm, wide[0].height_mm):.1f} mm wide, "
                f"{layer.material.name} {size.width_mm:g} mm."
            )
            remedy = "Add a bearer up the bay, or choose a wider board."
            found.append(_stop("refit.layers", text, remedy))
        longest_mm = max(one.length_mm for one in sheet.sizes)
        long = [b for b in refit.bays if b.height_mm > longest_mm]
        if long and layer.material.category == "panel":
            text = (
                f"Bay {long[0].mark} is {long[0].height_mm:.1f} mm long, the longest "
                f"{layer.material.name} {longest_mm:g} mm; a glazed bay takes no cross joint."
            )
            remedy = (
                f"Add a stock at least {math.ceil(long[0].height_mm)} mm long to the catalogue."
            )
            found.append(_question("refit.layers", text, remedy))
    return found


RULES: tuple[Callable[[Refit], list[Finding]], ...] = (
    _pitch,
    _bars,
    _bar_depth,
    _deck,
    _sill,
    _boards,
)


def _stop(path: str, text: str, remedy: str) -> Finding:
    return Finding(path, Severity.STOP, text, remedy)


def _question(path: str, text: str, remedy: str) -> Finding:
    return Finding(path, Severity.QUESTION, text, remedy)
