"""The take-off of one method: every line with its formula and the geometry it came from."""

from dataclasses import dataclass
from decimal import Decimal

from roofmodel.buildups.material import Charge, Material, Price
from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import COMPUTED, UNKNOWN, Source
from roofmodel.quantities.driver import Place
from roofmodel.quantities.lengths import CutRuns
from roofmodel.refit.method import Method

CUT = Source("computed by the cutting plan of the boards", "", verified=True)
"""The source of what is cut from sheets: a plan is verified by counting, not by reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BillLine:
    """One material of a take-off; ``material`` is None where the catalogue has none of its code.

    ``counted`` is what the geometry asks for, in the material's unit, and ``quantity`` with its
    waste; both are None while something they need is missing, which ``lacks`` then names.
    ``waste`` says how waste was taken, once: by a plan, by a percentage, or in the rate;
    ``waste_percent`` and ``step`` how the quantity follows. ``sheets`` of ``sheet_mm`` is what is
    bought where a plan cuts sheets, ``near_miss`` what would save some. ``source`` says by what
    rule it was counted, ``rests`` what moves the count, whose standard error is ``error``.
    """

    code: str
    material: Material | None
    price: Price | None
    group: str
    counted: float | None
    quantity: float | None
    formula: str
    waste: str
    place: Place
    note: str = ""
    lacks: str = ""
    cut: CutRuns | None = None
    sheets: int | None = None
    sheet_mm: tuple[float, float] | None = None
    source: Source = CUT
    rests: tuple[Figure | Source, ...] = ()
    error: float | None = None
    waste_percent: float = 0.0
    step: float | None = None
    near_miss: str = ""

    @property
    def name(self) -> str:
        """Name of the material; of one nobody knows, its code."""
        return self.material.name if self.material else self.code

    @property
    def unit(self) -> str:
        """What the line is counted in."""
        return self.material.unit if self.material else ""

    @property
    def charge(self) -> Charge:
        """How the line is charged."""
        return self.material.charge if self.material else Charge.WHOLE

    @property
    def packs(self) -> Decimal | None:
        """What is charged, in packs: whole ones, or the share that is used."""
        if self.quantity is None or self.material is None:
            return None
        if self.sheets is not None:
            return Decimal(self.sheets)
        if self.cut is not None:
            # Whole lengths of several sizes, each charged by its own length.
            return Decimal(f"{self.quantity:.4f}") / self.material.pack.holds
        return self.material.packs(self.quantity)

    @property
    def figures(self) -> dict[str, Figure]:
        """What is counted, what is bought and in how many packs, each made from the one before."""
        row = self.material.source if self.material is not None else UNKNOWN
        packs = None if self.packs is None else float(self.packs)
        counted = Figure(
            name=f"{self.code} counted",
            value=self.counted,
            unit=self.unit,
            error=self.error,
            source=self.source,
            inputs=self.rests,
        )
        quantity = Figure(
            name=f"{self.code} with waste",
            value=self.quantity,
            unit=self.unit,
            source=COMPUTED,
            inputs=(counted, row),
        )
        bought = Figure(
            name=f"{self.code} packs", value=packs, source=COMPUTED, inputs=(quantity, row)
        )
        return {"counted": counted, "quantity": quantity, "packs": bought}

    @property
    def applies(self) -> bool:
        """Whether this roof takes any of it, as far as is known."""
        return self.quantity is None or self.quantity > 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """All lines of one method on one roof; those that do not apply stand at zero."""

    method: Method
    lines: tuple[BillLine, ...]

    def line(self, code: str) -> BillLine:
        """Return the line of a material.

        Raises
        ------
        KeyError
            If the method has none.
        """
        for line in self.lines:
            if line.code == code:
                return line
        raise KeyError(code)

    @property
    def lacking(self) -> tuple[BillLine, ...]:
        """Lines whose quantity is not known yet."""
        return tuple(line for line in self.lines if line.lacks)

    @property
    def groups(self) -> tuple[str, ...]:
        """Groups in the order of the lines."""
        return tuple(dict.fromkeys(line.group for line in self.lines))
