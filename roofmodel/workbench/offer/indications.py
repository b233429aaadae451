"""What the comparison says of heat, weight, noise and light: indications, no promises."""

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.comparison import compare
from roofmodel.gates import comfort
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.buildable import deck
from roofmodel.gates.heat import u_value as thermal
from roofmodel.gates.heat.heat_loss import band, band_w_m2k
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.method import Method
from roofmodel.refit.refit import Refit

NOT_KNOWN = compare.NOT_KNOWN
WALKABLE = {True: "one person, for maintenance", False: "no", None: NOT_KNOWN}
"""What is said of stepping on the finished deck."""


def of_refit(
    refit: Refit, catalogue: Catalogue, *, wall_glazing_m2: float | None = None
) -> tuple[tuple[str, str], ...]:
    """Return label and words of every indication; what is not known is said.

    Parameters
    ----------
    refit
        The method on its roof.
    catalogue
        Where masses stand.
    wall_glazing_m2
        Glass that stays in the walls; without it nothing is said of daylight.
    """
    ledger = loads_ledger.of_refit(refit, catalogue)
    return (
        ("U-value", _u_value(refit)),
        ("Weight on the frame", _weight(ledger)),
        ("Peak summer heat through the roof", _said(comfort.summer(refit))),
        ("Rain noise", _said(comfort.rain(ledger.before_kg_m2, ledger.after_kg_m2))),
        ("Daylight", _said(comfort.daylight(refit, wall_glazing_m2))),
        ("Can be walked on", WALKABLE[deck.walkable(refit)]),
    )


def _weight(ledger: Ledger) -> str:
    before, after = (
        NOT_KNOWN if mass is None else f"{mass:.0f}"
        for mass in (ledger.before_kg_m2, ledger.after_kg_m2)
    )
    return f"{before} kg/m² now, {after} kg/m² after"


def _u_value(refit: Refit) -> str:
    heat = thermal.heat(refit)
    if heat is None:
        return NOT_KNOWN
    words = f"{band(*band_w_m2k(refit, heat), 2)} W/m²K"
    if refit.method is Method.PANEL_SWAP:
        return (
            f"{words} in the panels; the bars stay cold, so this will not cure a room that is "
            "too hot or too cold"
        )
    return words


def _said(check: Gate) -> str:
    """Return the answer of a check that has a figure."""
    return NOT_KNOWN if check.value is None else check.reason
