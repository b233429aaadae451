"""The loads a member of a slope meets: dead, imposed, a man, snow even and drifted."""

import math
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber.screen import Actions
from roofmodel.gates.weight import snow as loads_snow
from roofmodel.gates.weight.ledger import Ledger
from roofmodel.refit.refit import Refit
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards.en_1995_1_1_2004 import Duration


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanLoads:
    """Loads of one slope: dead per m² of slope, the others per m² on plan [kN/m²]."""

    pitch_deg: float
    dead_kn_m2: float
    imposed_kn_m2: float
    snow_kn_m2: float | None
    drift_kn_m2: float | None
    exceptional_kn_m2: float | None

    def dead_across(self, width_mm: float) -> float:
        """Return the dead load square to a member up the slope [kN/m of it]."""
        return self.dead_kn_m2 * math.cos(math.radians(self.pitch_deg)) * width_mm / 1e3

    def live_across(self, load_kn_m2: float, width_mm: float) -> float:
        """Return a load on plan as it acts square to the member [kN/m of it]."""
        return load_kn_m2 * math.cos(math.radians(self.pitch_deg)) ** 2 * width_mm / 1e3

    def combinations(self, width_mm: float) -> tuple[Actions, ...]:
        """Return everything a member that carries such a width meets, one thing at a time."""
        dead = self.dead_across(width_mm)
        man_n = en_1991_1_1.POINT_UK_KN * 1e3 * math.cos(math.radians(self.pitch_deg))
        actions = [
            Actions(name="dead load alone", dead_n_mm=dead, duration=Duration.PERMANENT),
            Actions(
                name="imposed load",
                dead_n_mm=dead,
                live_n_mm=self.live_across(self.imposed_kn_m2, width_mm),
            ),
            Actions(name="one person", dead_n_mm=dead, point_n=man_n),
        ]
        for name, load in (("snow", self.snow_kn_m2), ("snow drift, 5.3", self.drift_kn_m2)):
            if load is not None:
                live = self.live_across(load, width_mm)
                actions.append(Actions(name=name, dead_n_mm=dead, live_n_mm=live))
        if self.exceptional_kn_m2 is not None:
            actions.append(
                Actions(
                    name="snow drift, Annex B, accidental",
                    dead_n_mm=dead,
                    live_n_mm=self.live_across(self.exceptional_kn_m2, width_mm),
                    duration=Duration.INSTANT,
                    dead_factor=1.0,
                    live_factor=1.0,
                    counts_for_sag=False,
                )
            )
        return tuple(actions)


def of_slope(refit: Refit, facts: SiteFacts, ledger: Ledger, pitch_deg: float) -> PlanLoads:
    """Return the loads of a slope; snow at the wall is taken over the whole of it.

    Raises
    ------
    DimensionError
        If a mass is missing, so that there is no dead load.
    """
    if ledger.after_kn_m2 is None:
        text = "A mass is missing, so there is no dead load to screen a member with."
        raise DimensionError([Fault("mass_kg", text, "Enter every mass in the catalogue.")])
    snow = loads_snow.snow_of(refit, facts)
    return PlanLoads(
        pitch_deg=pitch_deg,
        dead_kn_m2=ledger.after_kn_m2 + en_1991_1_1.weight_kn(ledger.left_out_kg_m2),
        imposed_kn_m2=en_1991_1_1.imposed_uk_kn_m2(pitch_deg),
        snow_kn_m2=None
        if snow is None
        else max(snow.even_kn_m2, snow.uneven_kn_m2, snow.valley_kn_m2),
        drift_kn_m2=None if snow is None or not snow.complete else snow.lasting_kn_m2,
        exceptional_kn_m2=None if snow is None else snow.accidental_kn_m2 or None,
    )
