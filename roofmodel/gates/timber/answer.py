"""What a screened member answers with: its worst ratio, every combination, what to do."""

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.timber import screen as members_screen
from roofmodel.gates.timber.loads import PlanLoads
from roofmodel.gates.timber.screen import Actions, Beam, Stresses
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.standards import en_338_2016 as en_338
from roofmodel.standards import en_1995_1_1_2004 as en_1995_1_1

ENGINEER = (
    "Choose a deeper or stronger section or a closer spacing, and have the engineer design it."
)
SCREEN_ONLY = "A screen only: the engineer designs supports, ties, straps and everything below."


def check(beam: Beam, combinations: tuple[Actions, ...], *, snow_known: bool = True) -> Gate:
    """Return whether a member passes in every combination; never yes while snow is not known."""
    governing = members_screen.worst(beam, combinations)
    what, ratio = governing.worst
    outcome = Outcome.FAIL if ratio > 1.0 else Outcome.PASS
    if outcome is Outcome.PASS and not snow_known:
        outcome = Outcome.MEASURE_AGAIN
    words = {
        Outcome.PASS: "",
        Outcome.MEASURE_AGAIN: (
            "Enter snow zone, altitude and the height of the wall above: snow is not included."
        ),
        Outcome.FAIL: ENGINEER,
    }
    return Gate(
        name=f"member: {beam.name}",
        question="Does it pass in bending, shear, bearing and sag?",
        outcome=outcome,
        value=ratio,
        unit="of the limit",
        limit=1.0,
        sense=Sense.AT_MOST,
        reason=f"{ratio:.0%} of the limit in {what} under {governing.actions.name}. {SCREEN_ONLY}",
        remedy=words[outcome],
        source=en_1995_1_1.STRENGTH,
        details=_details(beam, combinations),
    )


def no_mass(name: str, ledger: Ledger) -> Gate:
    """Return that there is no dead load to screen with, and whose mass is missing."""
    missing = "; ".join(f"{row.name}: {row.words}" for row in ledger.unknown)
    return Gate(
        name=f"member: {name}",
        question="Does it pass in bending, shear, bearing and sag?",
        outcome=Outcome.MEASURE_AGAIN,
        reason=f"There is no dead load to screen with: {missing}.",
        remedy="Enter every mass in the catalogue.",
        source=en_1995_1_1.STRENGTH,
    )


def snow_known(loads: PlanLoads) -> bool:
    """Return whether even snow and the drift against the house are in the loads."""
    return loads.snow_kn_m2 is not None and loads.drift_kn_m2 is not None


def _details(beam: Beam, combinations: tuple[Actions, ...]) -> tuple[tuple[str, str], ...]:
    rows = [
        ("span", f"{beam.span_mm:.0f} mm between supports, as a simple beam"),
        (
            "strength",
            f"{beam.strength.name} ({en_338.SOURCE}), service class {beam.service_class}, "
            f"kh {en_1995_1_1.depth_factor(beam.depth_mm):.3f}, ksys "
            f"{en_1995_1_1.K_SYSTEM if beam.shares else 1.0:g}, kcr {en_1995_1_1.K_CR:g}",
        ),
    ]
    for actions in combinations:
        one = members_screen.screen(beam, actions)
        rows.append((actions.name, _line(one)))
    return tuple(rows)


def _line(one: Stresses) -> str:
    ratios = ", ".join(f"{name} {ratio:.0%}" for name, ratio in one.ratios if ratio)
    return (
        f"M {one.moment_nmm / 1e6:.3f} kN m, V {one.shear_n / 1e3:.2f} kN; kmod "
        f"{one.actions.duration}; {ratios}"
    )
