"""One material of the catalogue: how it is bought, charged, priced, cut and built in."""

import math
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from typing import Literal

from roofmodel.buildups import number_check
from roofmodel.buildups.sheet_good import Faces, HipEdges, SheetGood, StrengthAxis
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

SheetLayerKind = Literal["deck", "insulation", "lining", "panel"]
MethodId = Literal["new-roof", "build-round", "panel-swap"]

CATEGORIES = (
    "deck",
    "board",
    "insulation",
    "lining",
    "panel",
    "panel trim",
    "foil",
    "membrane",
    "tile",
    "tile trim",
    "timber",
    "structure",
    "flashing",
    "box gutter",
    "roofline",
    "gutter",
    "fixing",
    "finish",
    "electrical",
    "opening",
    "preliminaries",
)
"""What a catalogue is sorted by."""

MOST_GBP = 100_000
PRICE_RANGE = f"Enter 0 to {MOST_GBP}, GBP ex VAT, for one pack."

SHARE = Decimal("0.0001")
"""The least share of a pack that is charged."""
HAIR = 1e-6
"""Share of a pack that a sum of floats may be too large by."""


class Charge(StrEnum):
    """How a line of a take-off is charged."""

    WHOLE = "whole packs"
    BY_USE = "by use"
    PASS_THROUGH = "pass-through"
    PROVISIONAL = "provisional sum"


class WasteMode(StrEnum):
    """How waste is taken; never by more than one of these."""

    PLAN = "by plan"
    PERCENT = "percent"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """What is bought: its name and how many counted units are in one."""

    name: str
    holds: Decimal = Decimal(1)

    def __post_init__(self) -> None:
        """Refuse a pack that holds nothing."""
        if not (self.holds.is_finite() and self.holds > 0):
            text = f"A {self.name} that holds {self.holds} is not possible."
            raise DimensionError([Fault("pack.holds", text, "Enter more than 0.")])


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What one pack costs, GBP ex VAT, since when, and who says so."""

    amount: Decimal
    dated: date
    source: str

    def __post_init__(self) -> None:
        """Refuse a price below nothing, or one whose point is missing."""
        if not (self.amount.is_finite() and 0 <= self.amount <= MOST_GBP):
            text = f"A price of {self.amount} is not possible."
            raise DimensionError([Fault("price.amount", text, PRICE_RANGE)])


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSize:
    """A size a sheet is sold in [mm]; its own price where it is another than the material's."""

    length_mm: float
    width_mm: float
    price: Price | None = None

    def __post_init__(self) -> None:
        """Refuse a size no sheet has."""
        faults = [
            Fault(name, f"{value:g} mm is not possible for a sheet.", "Enter 1 to 20000 mm.")
            for name, value in (("length_mm", self.length_mm), ("width_mm", self.width_mm))
            if not 1.0 <= value <= 20_000.0
        ]
        if faults:
            raise DimensionError(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetForm:
    """What makes a material a sheet: the sizes it is sold in, the usual one first.

    ``kerf_mm`` is given only where the material is cut with another blade than the firm's saw has.
    """

    layer: SheetLayerKind
    sizes: tuple[StockSize, ...]
    strength_axis: StrengthAxis
    faces: Faces
    hip_edges: HipEdges
    trim_mm: float
    board_gap_mm: float
    minimum_piece_mm: float
    stagger_mm: float
    drawing_code: str
    kerf_mm: float | None = None
    gap_source: Source | None = None
    wall_gap_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a sheet without a size."""
        if not self.sizes:
            text = "A sheet without a size cannot be cut."
            raise DimensionError([Fault("sheet.sizes", text, "Give length and width in mm.")])


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One row of the catalogue.

    ``unit`` is what quantities are counted in; `pack` what is bought and priced. ``mass_kg`` is
    for one counted unit. ``sheet`` is there for what is cut from sheets only. ``bright_face`` says
    that a face of bare foil looks into the air space beside the layer. ``supplier_code`` is what it
    is called by whoever delivers it.
    """

    code: str
    short: str
    name: str
    category: str
    unit: str
    pack: Pack
    charge: Charge
    waste: WasteMode
    source: Source
    waste_percent: float = 0.0
    price: Price | None = None
    mass_kg: float | None = None
    methods: tuple[MethodId, ...] = ()
    thickness_mm: float | None = None
    sheet: SheetForm | None = None
    cover_mm: float | None = None
    gauge_least_mm: float | None = None
    gauge_most_mm: float | None = None
    minimum_pitch_deg: float | None = None
    roll_width_mm: float | None = None
    stock_lengths_mm: tuple[float, ...] = ()
    conductivity_w_mk: float | None = None
    resistance_m2k_w: float | None = None
    mu_low: float | None = None
    mu_high: float | None = None
    sd_m: float | None = None
    bright_face: bool = False
    supplier_code: str = ""
    driver: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse, all at once, numbers no material has, and a sheet that cannot exist."""
        values = {name: getattr(self, name) for name in number_check.ABOVE_NOTHING}
        values["waste_percent"] = self.waste_percent
        faults = number_check.faults(self.code, values, self.stock_lengths_mm)
        if faults:
            raise DimensionError(faults)
        if self.sheet is not None and self.thickness_mm is not None:
            for size in range(len(self.sheet.sizes)):
                try:
                    self.sheet_good(size, saw_kerf_mm=0.0)
                except DimensionError as error:
                    raise DimensionError(
                        [Fault(f"sheet.{one.field}", one.text, one.remedy) for one in error.faults]
                    ) from error

    def packs(self, quantity: float) -> Decimal:
        """Return how many packs a quantity is charged as: whole ones, or the share it uses.

        A share counts to the ten-thousandth of a pack, as it is written in lists and workbooks, so
        that all of them come to the same penny.
        """
        share = Decimal(repr(quantity)) / self.pack.holds
        if self.charge is Charge.WHOLE:
            return Decimal(math.ceil(float(share) - HAIR))
        return share.quantize(SHARE, rounding=ROUND_HALF_UP)

    def sheet_good(self, size: int = 0, *, saw_kerf_mm: float) -> SheetGood:
        """Return the material as it is cut, in one of its sizes, by a saw that takes so much.

        Raises
        ------
        DimensionError
            If it is no sheet, or is not sold in so many sizes.
        """
        if self.sheet is None or self.thickness_mm is None:
            text = f"{self.code} is not cut from sheets."
            raise DimensionError([Fault("sheet", text, "Choose a board or a panel.")])
        if not 0 <= size < len(self.sheet.sizes):
            text = f"{self.code} is sold in {len(self.sheet.sizes)} sizes."
            raise DimensionError([Fault("sheet.sizes", text, "Choose one of them.")])
        form, stock = self.sheet, self.sheet.sizes[size]
        return SheetGood(
            code=self.code,
            short=self.short,
            name=self.name,
            layer=form.layer,
            length_mm=stock.length_mm,
            width_mm=stock.width_mm,
            thickness_mm=self.thickness_mm,
            mass_kg_m2=self.mass_kg or 0.0,
            strength_axis=form.strength_axis,
            faces=form.faces,
            hip_edges=form.hip_edges,
            kerf_mm=saw_kerf_mm if form.kerf_mm is None else form.kerf_mm,
            trim_mm=form.trim_mm,
            board_gap_mm=form.board_gap_mm,
            minimum_piece_mm=form.minimum_piece_mm,
            stagger_mm=form.stagger_mm,
            drawing_code=form.drawing_code,
            source=self.source,
            gap_source=form.gap_source,
            wall_gap_mm=form.wall_gap_mm,
        )
