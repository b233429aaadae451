"""A U-value somebody else calculated in two dimensions, for bars this program does not model."""

from dataclasses import dataclass
from typing import Annotated

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.refit.method import Method


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelledU:
    """The result of a calculation to EN ISO 10211: the whole roof's U, and who answers for it.

    It is good for the method it was calculated for and no other.
    """

    u_w_m2k: Annotated[
        float,
        Entered(
            label="Calculated U-value",
            where="U-value of the whole roof including the bars, from a calculation to EN "
            "ISO 10211",
            unit="W/m²K",
            low=0.05,
            high=7.0,
            empty="none",
        ),
    ]
    by: Annotated[
        str,
        Entered(
            label="Calculated by",
            where="Who calculated it, and the report number",
            longest=200,
            empty="name, report number",
        ),
    ]
    method: Annotated[
        Method,
        Entered(
            label="Method",
            where="Method whose layers were calculated; the figure is valid for no other",
            choices=tuple(
                (one, one.printed)
                for one in (Method.BUILD_ROUND, Method.NEW_ROOF, Method.PANEL_SWAP)
            ),
        ),
    ] = Method.BUILD_ROUND

    def __post_init__(self) -> None:
        """Refuse a result no roof has, or one nobody answers for."""
        faults = entered.faults(self)
        if not self.by.strip():
            text = "Nobody is named for the calculated U-value."
            faults.append(Fault("by", text, "Enter who calculated it, and the report's number."))
        if faults:
            raise DimensionError(faults)

    @property
    def source(self) -> Source:
        """What is printed; nobody but who entered it has read the report."""
        return Source("calculation to EN ISO 10211, entered for the job", self.by, verified=False)
