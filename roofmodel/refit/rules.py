"""What is doubtful about the bars a method stands on: one rule, one question.

What a roof must pass to take a method, such as its minimum pitch, are gates.
"""

from collections.abc import Callable

from roofmodel.refit.layer import Lie
from roofmodel.refit.method import Method
from roofmodel.refit.refit import ASSUMED_BAR_DEPTH_MM, Refit
from roofmodel.survey.taped.findings import Finding, Severity


def findings(refit: Refit) -> list[Finding]:
    """Return every remark about a method on this roof; a stop means that it is refused."""
    return [finding for rule in RULES for finding in rule(refit)]


def _bars(refit: Refit) -> list[Finding]:
    """Ask for the bars a method depends on."""
    between = [layer for layer in refit.layers if layer.layer.lie is Lie.BETWEEN]
    missing = [name for name in refit.facets if refit.members.of_facet(name) is None]
    if not (between and missing):
        return []
    names = ", ".join(missing)
    if refit.method is Method.PANEL_SWAP:
        text = f"No bars have been entered on {names}, so panels cannot be sized."
        return [_stop("bars", text, "Enter the bars of every facet, or keep that facet glazed.")]
    text = (
        f"No bars have been entered on {names}: {between[0].material.name} is counted "
        "there as whole boards instead of being cut to each bay, and items that run "
        "along the bars are not counted."
    )
    return [_question("bars", text, "Enter the bars of every facet before ordering boards.")]


def _bar_depth(refit: Refit) -> list[Finding]:
    """Say that the bars' depth is assumed, and when the layer between them is thicker."""
    if refit.default.new_bars is not None or refit.method is Method.PANEL_SWAP:
        return []
    depth_mm = refit.site.standing.bar_depth_mm
    if depth_mm is None:
        text = (
            f"The depth of the bars has not been entered; {ASSUMED_BAR_DEPTH_MM:g} mm is assumed."
        )
        return [_question("standing.bar_depth_mm", text, "Measure a bar from top to underside.")]
    between_mm = sum(x.thickness_mm for x in refit.layers if x.layer.lie is Lie.BETWEEN)
    if between_mm <= depth_mm:
        return []
    text = (
        f"{between_mm:g} mm between bars {depth_mm:g} mm deep projects "
        f"{between_mm - depth_mm:g} mm below them."
    )
    return [
        _question(
            "refit.layers",
            text,
            "Choose a thinner board, or pack out the battens by the same amount.",
        )
    ]


RULES: tuple[Callable[[Refit], list[Finding]], ...] = (
    _bars,
    _bar_depth,
)


def _stop(path: str, text: str, remedy: str) -> Finding:
    return Finding(path, Severity.STOP, text, remedy)


def _question(path: str, text: str, remedy: str) -> Finding:
    return Finding(path, Severity.QUESTION, text, remedy)
