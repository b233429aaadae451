"""Water within the roof, vapour rules, dew point and mould on the acceptance jobs."""

from dataclasses import replace

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.damp import condensation
from roofmodel.gates.damp import dew_point as condensation_dew_point
from roofmodel.gates.damp import layers as condensation_layers
from roofmodel.gates.damp import mould as condensation_mould
from roofmodel.gates.damp import rules as condensation_rules
from roofmodel.gates.damp import settings as condensation_settings
from roofmodel.gates.damp.rules import Ventilation
from roofmodel.gates.damp.settings import Climate
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.refit.method import Method
from tests import acceptance_jobs

MEASURED = Source("made up for the test", "", verified=True)
MILD = Climate(
    name="mild",
    temperature_c=(4.0, 4.0, 6.0, 8.0, 11.0, 14.0, 16.0, 16.0, 14.0, 11.0, 7.0, 5.0),
    humidity_percent=(85.0,) * 12,
    source=MEASURED,
)
COLD = Climate(
    name="cold",
    temperature_c=(-8.0, -8.0, -4.0, 2.0, 8.0, 14.0, 16.0, 16.0, 12.0, 4.0, -2.0, -6.0),
    humidity_percent=(85.0,) * 12,
    source=MEASURED,
)
SETTINGS = condensation_settings.shipped()
DAMP = replace(SETTINGS, humidity_class=4)
LINING = {"material": "BRD-PB12", "zone": "room", "lie": "over"}
FOIL = {"material": "INS-MF30", "zone": "room", "lie": "over"}
DECK = {"material": "BRD-OSB22", "zone": "outside", "lie": "over"}
MEMBRANE = {"material": "MEM-BR15", "zone": "outside", "lie": "over"}
TRAP = [LINING, FOIL, DECK, DECK, MEMBRANE]
"""A thin foil under two decks: dry only as long as the foil is whole."""


def refit(method=Method.BUILD_ROUND, *, layers=None, code="J01", **changes):
    stacks = [] if layers is None else [{"method": method.value, "layers": layers}]
    job = acceptance_jobs.drawn(code, refit={"stacks": stacks}, **changes)
    return job.option_of(method).refit


def test_an_invented_climate_never_holds():
    found = condensation.check(refit())

    assert condensation_settings.climates()[0].invented
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "weather station" in found.remedy
    assert "invented" in found.reason


def test_a_roof_built_round_its_bars_stays_dry_in_a_mild_climate():
    found = condensation.check(refit(), MILD)

    assert found.outcome is Outcome.PASS
    assert found.value == 0.0
    assert "Nothing condenses" in found.reason


def test_a_deck_outside_a_thin_foil_is_dry_only_while_the_foil_is_whole():
    found = condensation.check(refit(layers=TRAP), COLD, DAMP)

    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "only while the foil is unbroken" in found.remedy
    assert "foil with holes" in found.reason
    assert found.value is not None
    assert found.value > 0.0
    assert "OSB" in found.reason


def test_a_foil_that_never_held_vapour_back_does_not_hold():
    thin = replace(DAMP, whole_sd_m=2.0)
    found = condensation.check(refit(layers=TRAP), COLD, thin)

    assert found.outcome is Outcome.FAIL
    assert found.value is not None
    assert found.limit is not None
    assert found.value > found.limit


def test_the_worse_of_both_values_of_the_deck_is_shown():
    found = condensation.runs(refit(layers=TRAP), COLD, DAMP)
    shown = condensation.check(refit(layers=TRAP), COLD, DAMP).value

    assert {(run.case.high, run.case.foil_whole) for run in found} == {
        (high, whole) for high in (True, False) for whole in (True, False)
    }
    assert len({round(run.peak_g_m2, 3) for run in found if not run.case.foil_whole}) == 2
    assert shown == max(run.peak_g_m2 for run in found)


def test_water_that_gathered_in_winter_is_followed_month_by_month():
    rows = dict(condensation.check(refit(layers=TRAP), COLD, DAMP).details)

    assert sum(name.startswith("held at the end of") for name in rows) == 12
    assert "leaves these out" in rows["left out"]


def test_vapour_values_stand_beside_meganewtons():
    rows = dict(condensation.check(refit(), MILD).details)

    assert rows["OSB/3 18 mm, square edge"] == "R 0.138 m²K/W, sd 0.54 m, 2.70 MN s/g"


def test_a_layer_outside_without_a_vapour_value_is_asked_for():
    layers = [LINING, FOIL, {"material": "BRD-PLY18", "zone": "outside", "lie": "over"}, MEMBRANE]
    found = condensation.check(refit(layers=layers), MILD)

    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "sd or mu" in found.remedy


def test_a_panel_between_bars_has_no_level_for_water():
    found = condensation.check(refit(Method.PANEL_SWAP), MILD)

    assert found.outcome is Outcome.NOT_CALCULABLE
    assert "dew point" in found.remedy


def test_cold_air_makes_more_water_than_mild_air():
    worst = [
        max(run.peak_g_m2 for run in condensation.runs(refit(layers=TRAP), climate, DAMP))
        for climate in (MILD, COLD)
    ]

    assert worst[0] < worst[1]


@pytest.mark.parametrize(
    "changes", [{"temperature_c": (4.0,) * 11}, {"humidity_percent": (120.0,) * 12}]
)
def test_a_climate_no_place_has_is_refused(changes):
    with pytest.raises(DimensionError):
        replace(MILD, **changes)


def test_insulation_under_a_boarded_deck_asks_for_a_ventilated_space():
    """R-06, published new-home warranty standards 7.2.14, read: on boards it counts as tight."""
    found = condensation_rules.check(refit())

    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "clear space 0 of 50 mm" in found.reason
    assert "outside the deck" in found.remedy


def test_a_ventilated_space_with_its_openings_holds_on_a_lean_to():
    good = Ventilation(clear_mm=50.0, eaves_mm=25.0, ridge_mm=5.0)

    assert condensation_rules.check(refit(), good).outcome is Outcome.PASS
    shallow = replace(good, clear_mm=40.0)
    assert "40 of 50 mm" in condensation_rules.check(refit(), shallow).reason


def test_bays_that_end_at_a_hip_get_no_air():
    good = Ventilation(clear_mm=50.0, eaves_mm=25.0, ridge_mm=5.0)
    found = condensation_rules.check(refit(code="J04"), good)

    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "F1, F2, F3, F4, F5" in found.reason


def test_all_insulation_outside_the_deck_asks_for_no_ventilation():
    layers = [
        LINING,
        DECK,
        {"material": "INS-PIR100", "zone": "outside", "lie": "over"},
        MEMBRANE,
    ]
    found = condensation_rules.check(refit(layers=layers))

    assert not condensation_rules.needs_ventilation(refit(layers=layers))
    assert found.outcome is Outcome.PASS


def test_more_vapour_resistance_outside_than_inside_does_not_hold():
    layers = [
        LINING,
        {"material": "INS-PIR75", "zone": "bars", "lie": "between"},
        DECK,
        MEMBRANE,
    ]
    found = condensation_rules.check(refit(layers=layers))

    assert found.outcome is Outcome.FAIL
    assert "warm side" in found.reason


@pytest.mark.parametrize("clear", [-1.0, 301.0, float("nan")])
def test_a_ventilated_space_no_roof_has_is_refused(clear):
    with pytest.raises(DimensionError, match="out of range"):
        Ventilation(clear_mm=clear)


def test_the_bar_lies_at_2_degrees_under_a_dew_point_of_12():
    """Acceptance job J01, reckoned by hand: 20 °C and 60 % inside, 0 °C outside."""
    found = condensation_dew_point.check(refit(), lights=6)

    assert found.value == pytest.approx(2.0, abs=0.2)
    assert found.limit == pytest.approx(12.0, abs=0.05)
    assert "underside of the bars" in found.reason
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "6 lights" in found.reason
    assert "Tape every lap" in found.remedy


def test_levels_get_colder_outwards_and_the_foil_keeps_the_rooms_air_off():
    found = condensation_dew_point.levels(refit(), 0.0, 20.0)

    assert [level.bay_c for level in found] == sorted((v.bay_c for v in found), reverse=True)
    assert [level.bar_c for level in found] == sorted((v.bar_c for v in found), reverse=True)
    assert [level.reached for level in found] == [True, True, True, False, False, False]
    assert all(0.0 < level.bar_c < 20.0 for level in found)


def test_a_bare_bar_in_the_room_is_below_the_dew_point():
    found = condensation_dew_point.check(refit(Method.PANEL_SWAP))

    assert found.outcome is Outcome.FAIL
    assert found.value is not None
    assert found.value < 12.0


def test_without_insulation_between_bars_the_coldest_hidden_face_is_named():
    found = condensation_dew_point.check(refit(layers=TRAP))

    assert found.outcome is Outcome.MEASURE_AGAIN
    assert "deck, underside" in found.reason


def test_a_warm_evening_wets_nothing():
    warm = replace(SETTINGS, dew_outside_c=18.0, dew_humidity=0.4)

    assert condensation_dew_point.check(refit(), warm).outcome is Outcome.PASS


def test_without_bars_their_temperature_is_asked_for():
    bare = refit(bars=[])

    assert condensation_dew_point.levels(bare, 0.0, 20.0) == ()
    assert condensation_dew_point.check(bare).outcome is Outcome.MEASURE_AGAIN
    assert condensation_mould.check(bare).outcome is Outcome.MEASURE_AGAIN


def test_mould_is_not_calculable_along_a_metal_bar_on_a_path_of_one_dimension():
    found = condensation_mould.check(refit(), MILD)

    assert found.value > found.limit
    assert found.outcome is Outcome.NOT_CALCULABLE
    assert "two dimensions" in found.remedy
    # 2.020 m²K/W along the bar, 0.10 of it the inside surface: 1.920 / (1.920 + 0.25).
    assert found.value == pytest.approx(0.885, abs=0.001)


def test_a_ceiling_under_timber_rafters_is_warm_enough_for_no_mould():
    assert condensation_mould.check(refit(Method.NEW_ROOF), MILD).outcome is Outcome.PASS


def test_a_bare_bar_is_cold_enough_for_mould():
    assert condensation_mould.check(refit(Method.PANEL_SWAP), MILD).outcome is Outcome.FAIL


def test_the_clear_bay_of_both_checks_has_the_same_layers():
    found = condensation_layers.stack(
        refit(),
        condensation_layers.VapourCase(high=True, foil_whole=True),
        SETTINGS,
        thermal_settings.shipped(),
    )

    names = [layer.name for layer in found.component.layers]
    assert names[0].startswith("Breather membrane")
    assert names[-1] == "Board-finish plaster"
    assert not any("tile" in name for name in names)
