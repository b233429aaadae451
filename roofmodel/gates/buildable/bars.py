"""Are the bars known that boards are cut to, and how deep they are?"""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.refit import rules
from roofmodel.refit.refit import Refit
from roofmodel.survey.taped.findings import Severity

NAME = "bars"
ENTERED = Source("the bars as entered for this job", "", verified=False)
_DEPTH = "standing.bar_depth_mm"


def of_refit(refit: Refit) -> tuple[Gate, ...]:
    """Return whether every facet has its bars, and their depth where a method needs it."""
    findings = rules.findings(refit)
    missing = next((one for one in findings if one.field == "bars"), None)
    unread = next((one for one in findings if one.field == _DEPTH), None)
    outcome = Outcome.PASS
    if missing is not None:
        stops = missing.severity is Severity.STOP
        outcome = Outcome.FAIL if stops else Outcome.MEASURE_AGAIN
    checks = [
        Gate(
            name=NAME,
            question="Are the bars of every facet known?",
            outcome=outcome,
            reason="They are known, or the method needs none." if missing is None else missing.text,
            remedy="" if missing is None else missing.remedy,
            field="bars",
            source=ENTERED,
        )
    ]
    if unread is not None:
        checks.append(
            Gate(
                name=f"{NAME}: depth",
                question="Is the depth of the bars known?",
                outcome=Outcome.ASSUMED,
                value=refit.bar_depth_mm,
                unit="mm",
                reason=unread.text,
                remedy=unread.remedy,
                field=_DEPTH,
                source=Source("common practice, no source", "depth of a bar", verified=False),
            )
        )
    return tuple(checks)
