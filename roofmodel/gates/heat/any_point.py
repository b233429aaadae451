"""Is any one point of the roof worse than is allowed, which is where water would stand on it?

The point is the line of a bar, straight through. Metal draws heat from beside it as well, which
this figure leaves out.
"""

from roofmodel.foundation.outcome import Outcome, against_most
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.heat import u_value as thermal
from roofmodel.gates.heat.limits import UValueLimit
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.refit.refit import Refit
from roofmodel.standards import iso_6946_2017_combined as iso_combined

NAME = "thermal, any one point"
QUESTION = "Is any one point of the roof worse than allowed?"


def check(refit: Refit, limit: UValueLimit | None, settings: HeatSettings | None = None) -> Gate:
    """Return how the line of a bar stands to the limit for one point."""
    heat = thermal.heat(refit, settings)
    if heat is None:
        return _unknown("The share of the bars is not known.", thermal.NO_BARS)
    value = heat.values.bar_line
    if limit is None or limit.u_w_m2k is None:
        text = f"Along a bar U is {value:.3f} {thermal.UNIT}; no limit for one point is held here."
        return _unknown(text, "Enter the figure printed in the document that applies.")
    outcome = against_most(value, limit.u_w_m2k)
    text = f"Along a bar U is {value:.3f} {thermal.UNIT} against {limit.u_w_m2k:g} ({limit.words})."
    remedy = ""
    if outcome is Outcome.PASS and heat.values.metal:
        outcome = Outcome.MEASURE_AGAIN
        text += " Heat that the metal draws from either side is not included."
        remedy = f"{thermal.TWO_D_FIRST}."
    elif outcome is Outcome.FAIL:
        remedy = "Lay unbroken insulation over the bars or under them."
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=text,
        remedy=remedy,
        value=value,
        unit=thermal.UNIT,
        limit=limit.u_w_m2k,
        sense=Sense.AT_MOST,
        source=limit.source,
        details=heat.stack.rows,
    )


def _unknown(reason: str, remedy: str) -> Gate:
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=Outcome.MEASURE_AGAIN,
        reason=reason,
        remedy=remedy,
        source=iso_combined.COMBINED,
    )
