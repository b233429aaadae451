"""Every gate about the whole house and its neighbours, in the order an applicant is asked."""

from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.consent import edges, fire, holding_down, openings, permission, water_away
from roofmodel.refit.refit import Refit


def of_refit(refit: Refit, house: HouseFacts, facts: SiteFacts) -> tuple[Gate, ...]:
    """Return every answer; what is not known leaves its gate open, with the fact to enter."""
    return (
        *permission.of_house(refit, house),
        *fire.of_house(house),
        *openings.of_house(refit, house),
        *edges.of_house(refit, house),
        *holding_down.of_roof(refit),
        *water_away.of_house(refit, house, facts),
    )
