"""EN 338:2016, strength classes of softwood: the two a roof of this size is built in.

Read in public tables that agree, not in the document. Older editions differ: the edition of 2003
has a shear strength of 2.5 for C24.
"""

from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

SOURCE = Source("EN 338:2016, as public tables print it", "Table 1", verified=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthClass:
    """One class: characteristic strengths and stiffnesses [N/mm²], densities [kg/m³]."""

    name: str
    bending: float
    compression_across: float
    shear: float
    stiffness_mean: float
    density_low: float
    density_mean: float


CLASSES = {
    one.name: one
    for one in (
        StrengthClass(
            name="C16",
            bending=16.0,
            compression_across=2.2,
            shear=3.2,
            stiffness_mean=8_000.0,
            density_low=310.0,
            density_mean=370.0,
        ),
        StrengthClass(
            name="C24",
            bending=24.0,
            compression_across=2.5,
            shear=4.0,
            stiffness_mean=11_000.0,
            density_low=350.0,
            density_mean=420.0,
        ),
    )
}
"""The classes by their names."""


def strength_class(name: str) -> StrengthClass:
    """Return a class by its name.

    Raises
    ------
    DimensionError
        If it is not one of these.
    """
    if name not in CLASSES:
        text = f"There is no strength class {name} here."
        raise DimensionError([Fault("strength_class", text, f"Choose {' or '.join(CLASSES)}.")])
    return CLASSES[name]
