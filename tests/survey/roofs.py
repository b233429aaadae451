"""Readings of the acceptance jobs, and a short way to write readings down."""

from roofmodel.survey.readings.network import reading
from roofmodel.survey.sheets import networks

LEAN_TO = networks.lean_to()


def readings(network, **values):
    """Return readings by the names of their lines, `_` for a space."""
    return tuple(
        reading(network.line(name.replace("_", " ")), value) for name, value in values.items()
    )


def out_of_square(**changed):
    """Return the lean-to of J08; None leaves a reading out."""
    plan = {"AB": 4200, "BC": 2865, "CD": 4230, "DA": 2800, "AC": 5080, "BD": 5176}
    heights = {"height_A": 2850, "height_B": 2850, "height_C": 2100, "height_D": 2100}
    values = {**plan, **heights, **changed}
    return readings(LEAN_TO, **{name: v for name, v in values.items() if v is not None})
