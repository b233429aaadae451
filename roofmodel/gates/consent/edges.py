"""The heat that passes at eaves and wall besides the U-value, once somebody has its figures."""

from dataclasses import replace

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.consent.asked import Question
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import LineKind

EDGES = Question(
    name="thermal, edges",
    asks="How much more heat is lost at the eaves and the house wall?",
    source=Source("ISO 14683, from memory", "linear thermal transmittance", verified=False),
)


def of_house(refit: Refit, house: HouseFacts) -> tuple[Gate, ...]:
    """Return the heat loss of the edges [W/K]: lengths times what was entered for each."""
    if house.eaves_psi_w_mk is None or house.abutment_psi_w_mk is None:
        return (
            EDGES.unknown(
                "what the eaves and the junction with the wall let through",
                "Enter both from a published calculation of the detail to be built; no figure is "
                "taken for granted.",
            ),
        )
    if not house.psi_source.strip():
        return (
            EDGES.unknown(
                "where the linear transmittances come from",
                "Enter the document they were taken from.",
            ),
        )
    roof = refit.site.roof
    lengths_m = [
        sum(line.length_mm for line in roof.lines_of(kind)) / 1000.0
        for kind in (LineKind.EAVES, LineKind.HOUSE_WALL)
    ]
    parts = [
        length * psi
        for length, psi in zip(
            lengths_m, (house.eaves_psi_w_mk, house.abutment_psi_w_mk), strict=True
        )
    ]
    answer = EDGES.answer(
        Outcome.PASS,
        f"Eaves {lengths_m[0]:.2f} m × {house.eaves_psi_w_mk:g} and wall {lengths_m[1]:.2f} m × "
        f"{house.abutment_psi_w_mk:g} W/mK let {sum(parts):.2f} W/K through; the document sets "
        "no limit for these alone.",
    )
    source = Source(house.psi_source, "entered for the job", verified=False)
    return (replace(answer, value=sum(parts), unit="W/K", source=source),)
