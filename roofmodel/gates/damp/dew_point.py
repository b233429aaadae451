"""Is bar, deck or light colder than the dew point of the room's air, and what keeps that air off?

Temperatures are those of two straight paths, through a clear bay and along a bar; heat that runs
sideways makes the bar warmer and what is beside it colder.
"""

from dataclasses import dataclass

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.damp import settings as condensation_settings
from roofmodel.gates.damp.settings import VapourSettings
from roofmodel.gates.heat import layers as thermal_layers
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat.layers import BARS
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards.iso_6946_2017_combined import ThermalLayer

NAME = "dew point"
QUESTION = "Is anything the room's air can reach colder than its dew point?"
CAUTION = Source("common practice, no source", "", verified=False)

_STOPS_AIR = ("foil", "insulation")


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """The room's face of one layer: how warm it is in a clear bay and at a bar [°C].

    ``reached`` says that the room's air gets there while foil and boards are taped; ``at_bars``
    that this is the underside of the bars themselves.
    """

    name: str
    bay_c: float
    bar_c: float
    reached: bool
    at_bars: bool = False

    @property
    def coldest_c(self) -> float:
        """The colder of both [°C]."""
        return min(self.bay_c, self.bar_c)


def levels(
    refit: Refit, outside_c: float, inside_c: float, heat: HeatSettings | None = None
) -> tuple[Level, ...]:
    """Return the room's face of every layer from the room outwards; none while bars are unknown."""
    known = heat or thermal_settings.shipped()
    share = thermal_layers.bar_share(refit)
    if share is None:
        return ()
    pairs = [
        (one, layer)
        for one, layer in thermal_layers.counted(
            refit, known, share=share, emissivity=known.emissivity
        )
        if layer is not None
    ]
    stack = thermal_layers.stack(refit, known, share=share, emissivity=known.emissivity)
    edges = (stack.edges.inside_m2k_w, stack.edges.outside_m2k_w)
    bay = _temperatures_c([_path(layer, on_bar=False) for _, layer in pairs], edges)
    bar = _temperatures_c([_path(layer, on_bar=True) for _, layer in pairs], edges)
    reached = True
    made = []
    for i, (one, _) in enumerate(pairs):
        made.append(
            Level(
                name=_face(refit, one),
                bay_c=inside_c + (outside_c - inside_c) * bay[i],
                bar_c=inside_c + (outside_c - inside_c) * bar[i],
                reached=reached,
                at_bars=one.layer.lie is Lie.BETWEEN,
            )
        )
        reached = reached and not _stops_air(one)
    return tuple(made)


def check(refit: Refit, settings: VapourSettings | None = None, *, lights: int = 0) -> Gate:
    """Return whether anything the room's air reaches is colder than its dew point.

    ``lights`` is how many fittings pierce the ceiling.
    """
    known = settings or condensation_settings.shipped()
    dew_c = iso_13788.dew_point_c(known.dew_humidity * iso_13788.saturation_pa(known.dew_inside_c))
    all_levels = levels(refit, known.dew_outside_c, known.dew_inside_c)
    if not all_levels:
        text = "The temperature of the bars is not known."
        return _answer(Outcome.MEASURE_AGAIN, (text, "Enter the bars of every facet."), None, dew_c)
    rows = _rows(all_levels, known, dew_c, lights)
    # Behind an open panel the bar itself is what the room's air meets.
    open_c = min(level.coldest_c for level in all_levels if level.reached)
    if open_c < dew_c:
        text = (
            f"The room's air reaches surfaces at {open_c:.1f} °C, below its dew point of "
            f"{dew_c:.1f} °C: condensation will form on them."
        )
        remedy = "Cover the bars on the room side with insulation or foil, with all joints taped."
        return _answer(Outcome.FAIL, (text, remedy), open_c, dew_c, rows)
    behind = min(
        (level for level in all_levels if not level.reached),
        key=lambda level: level.coldest_c,
        default=None,
    )
    if behind is None or behind.coldest_c >= dew_c:
        text = f"Every surface stays above the dew point of {dew_c:.1f} °C."
        return _answer(Outcome.PASS, (text, ""), open_c, dew_c, rows)
    return _behind(all_levels, dew_c, lights, rows)


def _behind(
    all_levels: tuple[Level, ...], dew_c: float, lights: int, rows: tuple[tuple[str, str], ...]
) -> Gate:
    hidden = [level for level in all_levels if not level.reached]
    bars = [level for level in hidden if level.at_bars]
    coldest = min(bars or hidden, key=lambda level: level.coldest_c)
    text = (
        f"“{coldest.name}” is at about {coldest.coldest_c:.0f} °C, below the room's dew point of "
        f"{dew_c:.1f} °C. Only the taped layers on the room side keep the room's air away from "
        "it."
    )
    if lights:
        text += f" {lights} lights are planned; each hole through the tape leaks."
    remedy = (
        "Tape every lap, edge and hole, photograph it before it is covered, and keep light "
        "fittings within their void."
    )
    return _answer(Outcome.MEASURE_AGAIN, (text, remedy), coldest.coldest_c, dew_c, rows)


def _path(layer: ThermalLayer, *, on_bar: bool) -> float:
    part = -1 if on_bar and layer.pattern == BARS else 0
    return layer.paths[part].resistance_m2k_w


def _temperatures_c(resistances: list[float], edges: tuple[float, float]) -> list[float]:
    """Return the share of the whole fall of temperature before every layer's inner face."""
    total = edges[0] + sum(resistances) + edges[1]
    shares, before = [], edges[0]
    for one in resistances:
        shares.append(before / total)
        before += one
    return shares


def _face(refit: Refit, one: Placed) -> str:
    if one.layer.lie is Lie.BETWEEN:
        kind = "bars" if refit.default.new_bars is None else "rafters"
        return f"underside of the {kind} and of what lies between them"
    if one.layer.lie is Lie.ACROSS:
        return "void of the counter-battens, where lights sit"
    if one.material.category == "deck":
        return f"deck, underside ({one.material.name})"
    return one.material.name


def _stops_air(one: Placed) -> bool:
    return one.layer.lie is Lie.OVER and one.material.category in _STOPS_AIR


def _rows(
    all_levels: tuple[Level, ...], known: VapourSettings, dew_c: float, lights: int
) -> tuple[tuple[str, str], ...]:
    return (
        ("outside", f"{known.dew_outside_c:g} °C"),
        (
            "room",
            f"{known.dew_inside_c:g} °C, {100.0 * known.dew_humidity:g} %, {known.dew_source}",
        ),
        ("dew point of the room's air", f"{dew_c:.1f} °C"),
        *(
            (
                level.name,
                f"{level.bay_c:.1f} °C in a bay, {level.bar_c:.1f} °C at a bar; "
                + (
                    "the room's air reaches it"
                    if level.reached
                    else "reached only where tape or foil is open"
                ),
            )
            for level in all_levels
        ),
        ("lights", f"{lights} through the ceiling"),
    )


def _answer(
    outcome: Outcome,
    words: tuple[str, str],
    value: float | None,
    dew_c: float,
    rows: tuple[tuple[str, str], ...] = (),
) -> Gate:
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=words[0],
        remedy=words[1],
        value=value,
        unit="°C",
        limit=dew_c,
        sense=None if value is None else Sense.AT_LEAST,
        source=CAUTION,
        details=rows,
    )
