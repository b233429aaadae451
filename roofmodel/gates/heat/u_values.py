"""The U-values of a build-up: through a clear bay, along a bar, and by both limits.

Where metal passes through the insulation the combined method says nothing; `bar_section` does.
"""

from collections.abc import Callable
from dataclasses import dataclass

from roofmodel.gates.heat.layers import BARS, HeatStack
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.standards import iso_6946_2017_corrections as corrections
from roofmodel.standards.iso_6946_2017_combined import (
    MOST_RATIO,
    Combined,
    combined,
)
from roofmodel.standards.iso_6946_2017_corrections import Corrected, GapLevel

STEP_MM = 5.0
"""Steps a remedy's thickness is tried in."""

MOST_EXTRA_MM = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class UValues:
    """U-values of one build-up [W/m²K].

    ``best`` comes from the upper limit of the resistance, ``worst`` from the lower, ``mean`` from
    the mean of both, ``final`` is that with corrections; where ``metal`` they are an indication.
    """

    clear: float
    bar_line: float
    best: float
    worst: float
    mean: float
    final: float
    limits: Combined
    more: Corrected

    @property
    def metal(self) -> bool:
        """Whether metal passes through the insulation."""
        return bool(self.limits.metal_in)

    @property
    def rows(self) -> tuple[tuple[str, str], ...]:
        """The figures as a derivation prints them."""
        limits = self.limits
        mark = " (indication only: metal passes through the insulation)" if self.metal else ""
        shown = (
            ("U through a clear bay", _w(self.clear)),
            ("U along a bar", _w(self.bar_line)),
            ("upper limit", f"R′ {limits.upper_m2k_w:.3f} m²K/W, U {_w(self.best)}{mark}"),
            ("lower limit", f"R″ {limits.lower_m2k_w:.3f} m²K/W, U {_w(self.worst)}{mark}"),
            ("upper over lower limit", f"{limits.ratio:.2f}, at most {MOST_RATIO:g}"),
            ("U by the mean of both limits", f"{_w(self.mean)}{mark}"),
        )
        if self.metal:
            return shown
        gaps = "counted" if self.more.counted else "under 3 % of U, left out"
        return (
            *shown,
            ("correction for gaps", f"{self.more.gaps_w_m2k:.4f} W/m²K"),
            ("correction for screws through insulation", f"{self.more.fixings_w_m2k:.4f} W/m²K"),
            ("both together", gaps),
            ("U with corrections", _w(self.final)),
        )


def u_values(stack: HeatStack) -> UValues:
    """Return the U-values of a build-up."""
    limits = combined(stack.layers, stack.edges)
    total = limits.total_m2k_w
    # Unbroken insulation covers the joints of what lies between the bars; alone, those go through.
    level = GapLevel.NONE if stack.crossed else GapLevel.THROUGH
    # Gaps cost most where most of the resistance is.
    insulation = max(
        (layer.paths[0].resistance_m2k_w for layer in stack.layers if layer.insulation),
        default=0.0,
    )
    more = corrections.corrected(
        1.0 / total,
        gaps_w_m2k=corrections.gaps_w_m2k(level, insulation, total),
        fixings_w_m2k=_screws_w_m2k(stack, total),
    )
    return UValues(
        clear=_through(stack, on_bar=False),
        bar_line=_through(stack, on_bar=True),
        best=1.0 / limits.upper_m2k_w,
        worst=1.0 / limits.lower_m2k_w,
        mean=1.0 / total,
        final=more.u_w_m2k,
        limits=limits,
        more=more,
    )


def extra_mm(
    stack: HeatStack,
    settings: HeatSettings,
    u_of: Callable[[HeatStack], float],
    limit_w_m2k: float,
) -> float | None:
    """Return the thickness of an unbroken board that brings U to a limit [mm]; None if none does.

    ``u_of`` is the U-value that counts.
    """
    steps = range(1, int(MOST_EXTRA_MM / STEP_MM) + 1)
    return next(
        (
            step * STEP_MM
            for step in steps
            if u_of(stack.with_board(step * STEP_MM, settings)) <= limit_w_m2k
        ),
        None,
    )


def _screws_w_m2k(stack: HeatStack, total_m2k_w: float) -> float:
    return sum(one.correction_w_m2k(total_m2k_w) for one in stack.screwed)


def _through(stack: HeatStack, *, on_bar: bool) -> float:
    inside = sum(
        layer.paths[-1 if on_bar and layer.pattern == BARS else 0].resistance_m2k_w
        for layer in stack.layers
    )
    return 1.0 / (stack.edges.inside_m2k_w + inside + stack.edges.outside_m2k_w)


def _w(u_w_m2k: float) -> str:
    return f"{u_w_m2k:.3f} W/m²K"
