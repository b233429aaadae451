"""What the gates of heat and damp are held against."""

from dataclasses import dataclass

from roofmodel.gates.damp.rules import Ventilation
from roofmodel.gates.damp.settings import Climate
from roofmodel.gates.heat.limits import UValueLimit
from roofmodel.gates.heat.modelled import ModelledU


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatFacts:
    """What the checks of heat and damp are held against; None where nobody has entered it."""

    limit: UValueLimit | None = None
    point_limit: UValueLimit | None = None
    climate: Climate | None = None
    ventilation: Ventilation | None = None
    modelled: ModelledU | None = None
    wall_glazing_m2: float | None = None
