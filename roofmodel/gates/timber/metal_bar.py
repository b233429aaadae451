"""Do the metal bars that stay pass a screen in bending and sag? Only where their section was read.

A bar is taken as a hollow box or as one web between two flanges, by its outside sizes and the
thickness of its walls. What is slotted or clipped to it carries nothing.
"""

from dataclasses import dataclass, replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import answer
from roofmodel.gates.timber import loads as members_loads
from roofmodel.gates.timber.screen import Actions
from roofmodel.gates.weight import path as loads_path
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars.bar import Bar
from roofmodel.standards import en_1999_1_1_2007 as en_1999_1_1
from roofmodel.survey.taped.standing import BarShape, Standing

SAG_SHARE = 200.0
"""A bar sags at most this part of its span (common practice, no source)."""

QUESTION = "Do the bars that stay pass in bending and sag?"
NOT_IN_IT = (
    "A screen only: holes, joints, corrosion, buckling sideways and everything that "
    "carries the bar are for the engineer."
)
ENGINEER = (
    "Have the structural engineer confirm the bars, or add bearers, posts or new rafters to them."
)
_PROOF = "standing.bar_proof_n_mm2"


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalBar:
    """A bar between two supports: outside sizes, wall and span [mm], proof strength [N/mm²]."""

    shape: BarShape
    width_mm: float
    depth_mm: float
    wall_mm: float
    span_mm: float
    proof_n_mm2: float

    @property
    def second_moment_mm4(self) -> float:
        """Second moment of area about the level axis."""
        webs = 2.0 if self.shape is BarShape.BOX else 1.0
        clear = self.width_mm - webs * self.wall_mm
        inside_mm = self.depth_mm - 2.0 * self.wall_mm
        return (self.width_mm * self.depth_mm**3 - clear * inside_mm**3) / 12.0

    def bending(self, actions: Actions) -> float:
        """Return the bending stress over what the section may be taken to."""
        line = actions.dead_factor * actions.dead_n_mm + actions.live_factor * actions.live_n_mm
        moment = line * self.span_mm**2 / 8.0
        moment += actions.live_factor * actions.point_n * self.span_mm / 4.0
        stress = moment * self.depth_mm / 2.0 / self.second_moment_mm4
        return stress / en_1999_1_1.most_bending_n_mm2(self.proof_n_mm2)

    def sag(self, actions: Actions) -> float:
        """Return the sag over what it may be; an accident may bend the bar for good."""
        if not actions.counts_for_sag:
            return 0.0
        stiffness = en_1999_1_1.STIFFNESS_N_MM2 * self.second_moment_mm4
        line = actions.dead_n_mm + actions.live_n_mm
        sag_mm = 5.0 * line * self.span_mm**4 / (384.0 * stiffness)
        sag_mm += actions.point_n * self.span_mm**3 / (48.0 * stiffness)
        return sag_mm / (self.span_mm / SAG_SHARE)


def of_refit(refit: Refit, facts: SiteFacts, ledger: Ledger) -> list[Gate]:
    """Return the screen of the bar with most to carry; none while its section is not read."""
    if not is_read(refit.site.standing) or ledger.after_kn_m2 is None:
        return []
    worst = loads_path.worst_bar(
        refit, before_kn_m2=None, after_kn_m2=ledger.after_kn_m2, live_kn_m2=0.0
    )
    if worst is None:
        return []
    found = next(bar for bar in refit.members.bars if bar.mark == worst.mark)
    bar = _bar(refit, found)
    loads = members_loads.of_slope(refit, facts, ledger, found.pitch_deg)
    check = _check(worst.mark, bar, loads.combinations(worst.tributary_mm))
    if check.outcome is Outcome.PASS and not answer.snow_known(loads):
        remedy = "Enter snow zone, altitude and the height of the wall above: snow is not included."
        return [replace(check, outcome=Outcome.MEASURE_AGAIN, remedy=remedy)]
    return [_unless_entered(check, refit.site.standing)]


def is_read(standing: Standing) -> bool:
    """Return whether enough of the bars' section was read to screen them."""
    return None not in (standing.bar_shape, standing.bar_depth_mm, standing.bar_wall_mm)


def _bar(refit: Refit, bar: Bar) -> MetalBar:
    standing = refit.site.standing
    known = refit.members.of_facet(bar.facet)
    assert standing.bar_shape is not None
    assert standing.bar_depth_mm is not None
    assert standing.bar_wall_mm is not None
    assert known is not None
    return MetalBar(
        shape=standing.bar_shape,
        width_mm=known.widths.rafter_mm,
        depth_mm=standing.bar_depth_mm,
        wall_mm=standing.bar_wall_mm,
        span_mm=bar.line_length_mm,
        proof_n_mm2=standing.bar_proof_n_mm2 or en_1999_1_1.WEAKEST_PROOF_N_MM2,
    )


def _check(mark: str, bar: MetalBar, combinations: tuple[Actions, ...]) -> Gate:
    ratios = [
        (ratio, what, one)
        for one in combinations
        for what, ratio in (("bending", bar.bending(one)), ("sag", bar.sag(one)))
    ]
    ratio, what, actions = max(ratios, key=lambda one: one[0])
    name = f"member: bar {mark}"
    section = (
        f"{bar.width_mm:g} × {bar.depth_mm:g} × {bar.wall_mm:g} mm, {bar.shape.value}, "
        f"{bar.span_mm:.0f} mm long"
    )
    details = (
        ("section", f"{section}; I = {bar.second_moment_mm4 / 1e4:.1f} cm⁴"),
        ("proof strength", f"{bar.proof_n_mm2:g} N/mm²"),
        *((f"{word}, {one.name}", f"{value:.0%}") for value, word, one in ratios if value),
    )
    clear_mm = bar.width_mm - 2.0 * bar.wall_mm
    if clear_mm <= 0.0:
        return Gate(
            name=name,
            question=QUESTION,
            outcome=Outcome.MEASURE_AGAIN,
            reason=f"Two walls of {bar.wall_mm:g} mm do not go into {bar.width_mm:g} mm of bar.",
            remedy="Measure the width of the bars and the thickness of their metal again.",
            field="standing.bar_wall_mm",
            source=en_1999_1_1.SOURCE,
        )
    if bar.shape is BarShape.BOX and not en_1999_1_1.stands_flat(
        clear_mm, bar.wall_mm, bar.proof_n_mm2
    ):
        return Gate(
            name=name,
            question=QUESTION,
            outcome=Outcome.NOT_CALCULABLE,
            value=ratio,
            unit="of the limit",
            limit=1.0,
            reason=f"Walls {bar.wall_mm:g} mm thick over {clear_mm:.0f} mm may buckle before they "
            "reach their strength; that is not calculated here.",
            remedy=ENGINEER,
            source=en_1999_1_1.SOURCE,
            details=details,
        )
    return Gate(
        name=name,
        question=QUESTION,
        outcome=Outcome.PASS if ratio <= 1.0 else Outcome.FAIL,
        value=ratio,
        unit="of the limit",
        limit=1.0,
        sense=Sense.AT_MOST,
        reason=f"{ratio:.0%} of the limit in {what} under {actions.name}. {NOT_IN_IT}",
        remedy="" if ratio <= 1.0 else ENGINEER,
        source=en_1999_1_1.SOURCE,
        details=details,
    )


def _unless_entered(check: Gate, standing: Standing) -> Gate:
    """Return a pass only where the strength of the metal was entered."""
    if check.outcome is not Outcome.PASS or standing.bar_proof_n_mm2 is not None:
        return check
    weakest = en_1999_1_1.WEAKEST_PROOF_N_MM2
    return replace(
        check,
        outcome=Outcome.ASSUMED,
        field=_PROOF,
        reason=f"{check.reason} Assumed, because nobody entered it: proof strength {weakest:g}.",
        remedy="Ask the bar's manufacturer for its proof strength, and enter “Bar strength”.",
    )
