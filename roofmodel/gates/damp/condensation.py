"""Does water gather within the roof, and does it dry again? Month by month through a clear bay."""

from dataclasses import dataclass

from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.damp import layers as condensation_layers
from roofmodel.gates.damp import settings as condensation_settings
from roofmodel.gates.damp.layers import VapourCase, VapourStack
from roofmodel.gates.damp.settings import Climate, VapourSettings
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat.settings import HeatSettings
from roofmodel.refit.refit import Refit
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards import iso_13788_2012_year as iso_year
from roofmodel.standards.iso_13788_2012_year import DRY_G_M2, YearWater

NAME = "condensation"
QUESTION = "Does water collect in the roof, and does it dry out again?"
UNIT = "g/m²"
OWN_CLIMATE = (
    "Enter the monthly means of the nearest weather station, temperature and relative humidity, "
    "with their source."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One case carried through the year."""

    case: VapourCase
    stack: VapourStack
    water: YearWater

    @property
    def peak_g_m2(self) -> float:
        """Most water held at the end of any month [g/m²]."""
        return self.water.peak.total_g_m2 if self.water.peak else 0.0

    def holds(self, most_g_m2: float) -> bool:
        """Whether what gathers dries within the year and never passes a limit."""
        return self.water.left_g_m2 <= DRY_G_M2 and self.peak_g_m2 <= most_g_m2


def runs(
    refit: Refit,
    climate: Climate,
    settings: VapourSettings | None = None,
    heat: HeatSettings | None = None,
) -> tuple[Run, ...]:
    """Return every case carried through the year; none where there is nothing to lie between."""
    known, warm = settings or condensation_settings.shipped(), heat or thermal_settings.shipped()
    airs = climate.airs(known.inside_c, known.humidity_class)
    cases = []
    for case in condensation_layers.cases(refit):
        stack = condensation_layers.stack(refit, case, known, warm)
        if stack is not None:
            water = iso_year.year(stack.component.divided(), airs)
            cases.append(Run(case=case, stack=stack, water=water))
    return tuple(cases)


def check(
    refit: Refit, climate: Climate | None = None, settings: VapourSettings | None = None
) -> Gate:
    """Return whether a refit stays dry; without a climate an invented one is tried and said."""
    known = settings or condensation_settings.shipped()
    tried = climate or condensation_settings.climates()[0]
    all_runs = runs(refit, tried, known)
    if not all_runs:
        text = "There are no layers for water to collect between; vapour passes at seals and edges."
        return _answer(
            Outcome.NOT_CALCULABLE, (text, "See the dew point at the bars."), None, known
        )
    worst = max(all_runs, key=lambda run: (run.water.left_g_m2, run.peak_g_m2))
    outcome, remedy = _outcome(all_runs, worst, known)
    remedies = [remedy] if remedy else []
    if tried.invented:
        remedies.append(OWN_CLIMATE)
    if worst.stack.asked:
        names = ", ".join(worst.stack.asked)
        remedies.append(f"Get the vapour value (sd or mu) of {names}.")
    if remedies and outcome is Outcome.PASS:
        outcome = Outcome.MEASURE_AGAIN
    text = _gathered(worst)
    if worst.water.months:
        text += f" Worst case: {worst.case.words}."
    if tried.invented:
        text += " The climate figures are invented."
    details = _details(all_runs, worst, tried, known)
    return _answer(outcome, (text, " ".join(remedies)), worst, known, details)


def _outcome(all_runs: tuple[Run, ...], worst: Run, known: VapourSettings) -> tuple[Outcome, str]:
    if all(run.holds(known.most_g_m2) for run in all_runs):
        return Outcome.PASS, ""
    if all(run.holds(known.most_g_m2) for run in all_runs if run.case.foil_whole):
        text = (
            "It stays dry only while the foil is unbroken: tape every lap and edge, seal every "
            "light, and get the foil's declared vapour value."
        )
        return Outcome.MEASURE_AGAIN, text
    if worst.stack.sd_outboard_m > worst.stack.sd_inboard_m:
        text = (
            "Give the roof more vapour resistance on the room side of the insulation than "
            "outside it."
        )
    else:
        text = (
            "Add insulation outside the cold level, or choose a deck and membrane that let more "
            "vapour out."
        )
    return Outcome.FAIL, text


def _gathered(run: Run) -> str:
    peak = run.water.peak
    if peak is None:
        return "Nothing condenses in any month."
    where = " and ".join(_level(run, level) for level in sorted(peak.held_g_m2))
    text = f"Up to {peak.total_g_m2:.1f} g/m² collects by the end of {peak.name} {where}."
    if run.water.left_g_m2 > DRY_G_M2:
        return f"{text} After a year {run.water.left_g_m2:.1f} g/m² is left and keeps building up."
    return f"{text} All of it has dried out by the end of {run.water.dry_again}."


def _level(run: Run, level: int) -> str:
    layers = run.stack.component.divided().layers
    outer, inner = layers[level - 1].name, layers[level].name
    return f"within {outer}" if outer == inner else f"between {inner} and {outer}"


def _details(
    all_runs: tuple[Run, ...], worst: Run, climate: Climate, known: VapourSettings
) -> tuple[tuple[str, str], ...]:
    component = worst.stack.component
    return (
        ("climate outside", f"{climate.name}, {climate.source}"),
        (
            "room",
            f"{known.inside_c:g} °C, humidity class {known.humidity_class}, {known.room_source}",
        ),
        ("most water", f"{known.most_g_m2:g} g/m², {known.most_source}"),
        (
            "foil without a declared value",
            f"sd {known.holed_sd_m:g} m holed, {known.whole_sd_m:g} m whole, {known.foil_source}",
        ),
        *(
            (
                layer.name,
                f"R {layer.resistance_m2k_w:.3f} m²K/W, sd {layer.sd_m:.2f} m, "
                f"{iso_13788.vapour_resistance_mns_g(layer.sd_m):.2f} MN s/g",
            )
            for layer in component.layers
        ),
        *((run.case.words, _gathered(run)) for run in all_runs),
        *(
            (f"held at the end of {month.name}", f"{month.total_g_m2:.1f} g/m²")
            for month in worst.water.months
        ),
        ("left out", iso_13788.SCOPE_WORDS),
    )


def _answer(
    outcome: Outcome,
    words: tuple[str, str],
    run: Run | None,
    known: VapourSettings,
    details: tuple[tuple[str, str], ...] = (),
) -> Gate:
    return Gate(
        name=NAME,
        question=QUESTION,
        outcome=outcome,
        reason=words[0],
        remedy=words[1],
        value=None if run is None else run.peak_g_m2,
        unit=UNIT,
        limit=None if run is None else known.most_g_m2,
        # What stays in the layers for good is no comparison with what they may hold.
        sense=Sense.AT_MOST if run is not None and run.water.left_g_m2 <= DRY_G_M2 else None,
        source=iso_year.YEAR,
        details=details,
    )
