"""No gate passes on a default nobody entered: its verdict is assumed then, and names the field."""

from dataclasses import replace

from roofmodel.foundation import entered
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts


def unless_entered(check: Gate, facts: SiteFacts, *names: str) -> Gate:
    """Return a check that passes only where every fact it rests on was entered.

    A check that does not pass stays as it is: the default is the usual thing, and what is too much
    for that is too much until something else is entered.
    """
    missing = facts.missing(*names)
    if not missing or check.outcome is not Outcome.PASS:
        return check
    words = ", ".join(
        f"{entered.label(SiteFacts, name)} {facts.or_assumed(name):g}" for name in missing
    )
    asked = " and ".join(f"“{entered.label(SiteFacts, name)}”" for name in missing)
    return replace(
        check,
        outcome=Outcome.ASSUMED,
        field=f"site.{missing[0]}",
        reason=f"{check.reason} Assumed, because nobody entered it: {words}.",
        remedy=f"Check on site and enter {asked}.",
    )
