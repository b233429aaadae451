"""Can the roof breathe out, by rule: vapour order, and a ventilated space under a tight deck.

An underlay that lies on boards counts as one of high resistance, whatever the membrane's own class.
So where insulation lies inside a boarded deck, a ventilated space is asked for between them, unless
all insulation moves outside the deck.
"""

from dataclasses import dataclass
from typing import Annotated

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.damp import layers as condensation_layers
from roofmodel.gates.damp import settings as condensation_settings
from roofmodel.gates.damp.settings import VapourSettings
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.refit.layer import Zone
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import LineKind
from roofmodel.standards import new_home_warranty_2020 as new_home_warranty

ON_BOARDS = Source(
    new_home_warranty.DOCUMENT,
    "7.2.14, underlay laid on boards counts as high resistance",
    verified=True,
)
VENTILATION = Source(
    "BS 5250, as manufacturers' summaries relay it", "ventilated roofs", verified=False
)
ORDER = Source(
    "BS 5250, as a summary relays it", "vapour resistance inside and out", verified=False
)

CLEAR_MM = 50.0
"""Clear depth of a ventilated space under a deck [mm]."""

EAVES_MM = 25.0
"""Opening all along the eaves [mm]."""

RIDGE_MM = 5.0
"""Opening all along the ridge or the wall [mm]."""

_INSULATING = ("insulation", "foil", "panel")

NAME = "vapour rules"
QUESTION = "Can vapour leave the roof, by the rules for ventilated and unventilated roofs?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ventilation:
    """The ventilated space planned below the deck, and its openings [mm]; 0 is none."""

    clear_mm: Annotated[
        float,
        Entered(
            label="Clear gap",
            where="Clear depth between insulation and deck",
            unit="mm",
            low=0.0,
            high=300.0,
            empty="none",
        ),
    ] = 0.0
    eaves_mm: Annotated[
        float,
        Entered(
            label="Open at eaves",
            where="Continuous opening along the eaves",
            unit="mm",
            low=0.0,
            high=300.0,
            empty="none",
        ),
    ] = 0.0
    ridge_mm: Annotated[
        float,
        Entered(
            label="Open at ridge",
            where="Continuous opening along the ridge or house wall",
            unit="mm",
            low=0.0,
            high=300.0,
            empty="none",
        ),
    ] = 0.0

    def __post_init__(self) -> None:
        """Refuse spaces no roof has."""
        faults = entered.faults(self)
        if faults:
            raise DimensionError(faults)

    @property
    def short(self) -> tuple[str, ...]:
        """What it lacks, in words."""
        return tuple(
            f"{name} {has:g} of {asked:g} mm"
            for name, has, asked in (
                ("clear space", self.clear_mm, CLEAR_MM),
                ("opening at the eaves", self.eaves_mm, EAVES_MM),
                ("opening at ridge or wall", self.ridge_mm, RIDGE_MM),
            )
            if has < asked
        )


def check(
    refit: Refit,
    ventilation: Ventilation | None = None,
    settings: VapourSettings | None = None,
) -> Gate:
    """Return whether the rules for vapour order and ventilation are kept."""
    order = _order(refit, settings or condensation_settings.shipped())
    planned = ventilation or Ventilation()
    rows = (("order", _order_words(order)), *_rows(planned))
    if order is not None and order.outboard_m > order.inboard_m:
        text = f"{_order_words(order)} The highest resistance belongs on the warm side."
        remedy = (
            "Lay an unbroken, taped vapour control layer on the room side of the insulation, or "
            "choose a deck and membrane that let more vapour out."
        )
        return _answer(Outcome.FAIL, text, remedy, ORDER, rows)
    if not needs_ventilation(refit):
        text = "There is no insulation inside a boarded deck, so no ventilated space is required."
        return _answer(Outcome.PASS, text, "", ON_BOARDS, rows)
    if not planned.short:
        return _ventilated(refit, rows)
    text = (
        "There is insulation inside a boarded deck, and an underlay on boards counts as one of "
        "high resistance, so a ventilated space is required. Planned: "
        f"{', '.join(planned.short)}."
    )
    remedy = (
        f"Leave {CLEAR_MM:g} mm clear between insulation and deck with {EAVES_MM:g} mm open "
        f"along the eaves and {RIDGE_MM:g} mm along ridge or wall; or move all insulation "
        "outside the deck; or agree an unventilated roof with building control, on the strength "
        "of the monthly calculation and an unbroken, taped vapour control layer."
    )
    return _answer(Outcome.MEASURE_AGAIN, text, remedy, VENTILATION, rows)


def needs_ventilation(refit: Refit) -> bool:
    """Return whether insulation lies inside a deck of boards."""
    kinds = [(one.layer.zone, one.material.category) for one in refit.layers]
    decks = [i for i, (zone, kind) in enumerate(kinds) if zone is Zone.OUTSIDE and kind == "deck"]
    return bool(decks) and any(kind == "insulation" for _, kind in kinds[: decks[-1]])


def starved_facets(refit: Refit) -> tuple[str, ...]:
    """Return the covered facets with bays that end at a hip or valley, which air cannot leave."""
    lines = [
        line for kind in (LineKind.HIP, LineKind.VALLEY) for line in refit.site.roof.lines_of(kind)
    ]
    return tuple(name for name in refit.facets if any(name in line.facets for line in lines))


def _ventilated(refit: Refit, rows: tuple[tuple[str, str], ...]) -> Gate:
    starved = starved_facets(refit)
    if not starved:
        text = "The ventilated space and its openings are as deep as required."
        return _answer(Outcome.PASS, text, "", VENTILATION, rows)
    text = f"On {', '.join(starved)} bays end at a hip or valley, where no air gets out."
    remedy = "Plan openings along those hips and valleys, or another build-up there."
    return _answer(Outcome.MEASURE_AGAIN, text, remedy, VENTILATION, rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Order:
    inboard_m: float
    outboard_m: float


def _order(refit: Refit, settings: VapourSettings) -> _Order | None:
    """Return least vapour resistance inside, with holes in the foil, and most outside."""
    if not any(one.material.category in _INSULATING for one in refit.layers):
        return None
    heat = thermal_settings.shipped()
    stacks = [
        condensation_layers.stack(refit, case, settings, heat)
        for case in condensation_layers.cases(refit)
    ]
    known = [one for one in stacks if one is not None]
    if not known:
        return None
    return _Order(
        inboard_m=min(one.sd_inboard_m for one in known),
        outboard_m=max(one.sd_outboard_m for one in known),
    )


def _order_words(order: _Order | None) -> str:
    if order is None:
        return "No layers on both sides of the insulation."
    return (
        f"Vapour resistance on the room side of the insulation is sd {order.inboard_m:.2f} m at "
        f"least, outside it {order.outboard_m:.2f} m at most."
    )


def _rows(planned: Ventilation) -> tuple[tuple[str, str], ...]:
    return (
        ("clear space under the deck", f"{planned.clear_mm:g} mm, {CLEAR_MM:g} required"),
        ("opening at the eaves", f"{planned.eaves_mm:g} mm, {EAVES_MM:g} required"),
        ("opening at ridge or wall", f"{planned.ridge_mm:g} mm, {RIDGE_MM:g} required"),
        ("underlay on boards", str(ON_BOARDS)),
        ("ventilation", str(VENTILATION)),
        ("order", str(ORDER)),
    )


def _answer(
    outcome: Outcome, text: str, remedy: str, source: Source, rows: tuple[tuple[str, str], ...]
) -> Gate:
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=text,
        remedy=remedy,
        source=source,
        inputs=(VENTILATION, ORDER),
        details=rows,
    )
