import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.survey.fit import bay_closure
from roofmodel.survey.taped.bars_entry import BarsEntry

ROOF = LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15).roof(eaves_height_mm=2100)
(FACET,) = ROOF.facets


def closed(**entry):
    return bay_closure.closure(BarsEntry(facet="F1", width_mm=60, **entry), FACET)


def would_be(found):
    return {way.line: round(way.would_be, 1) for way in found.explanations}


def test_bays_taped_one_by_one_that_make_the_eaves_are_not_asked_about():
    found = closed(bay_widths_mm=(667, 667, 666, 667, 667, 668))

    assert found.misclosure_mm == 2.0
    assert found.holds


def test_a_bay_misread_by_100_is_told_with_what_each_bay_would_have_to_be():
    found = closed(bay_widths_mm=(667, 667, 766, 667, 667, 667))

    assert not found.holds
    assert found.misclosure_mm == pytest.approx(101.0)
    assert would_be(found)["bay 3"] == 665.0
    assert would_be(found)["eaves of F1"] == 4101.0
    assert (
        "add up to 4101.0 mm but its eaves are 4000.0 mm long: a difference of 101.0 mm"
        in found.text
    )
    assert "bay 3 665.0 mm" in found.remedy


def test_running_dimensions_and_the_last_bay_make_the_eaves():
    running = (667, 1333, 2000, 2667, 3333)

    assert closed(running_mm=running, last_bay_mm=667).holds
    found = closed(running_mm=running, last_bay_mm=766)
    assert would_be(found) == {
        "running dimension of bar 5": 3234.0, "last bay": 667.0, "eaves of F1": 4099.0,
    }  # fmt: skip
    assert closed(running_mm=running) is None


def test_counted_bays_of_one_width_may_be_miscounted():
    assert closed(bays=6, bay_mm=666.5).holds
    found = closed(bays=5, bay_mm=667)

    assert found.other_count == 6
    assert would_be(found)["bay width"] == 800.0
    assert "it should be: 6 bays, or bay width 800.0 mm" in found.remedy


def test_bars_stand_where_the_bays_taped_put_them():
    entry = BarsEntry(facet="F1", width_mm=60, bay_widths_mm=(700, 600, 700, 600, 700, 700))

    assert entry.layout(FACET).centres_mm == pytest.approx((700, 1300, 2000, 2600, 3300))


@pytest.mark.parametrize(
    ("entry", "field"),
    [
        ({"bays": 6, "last_bay_mm": 600}, "last_bay_mm"),
        ({"running_mm": (600,), "bay_mm": 600}, "bay_mm"),
        ({"bays": 6, "bay_mm": -5}, "bay_mm"),
        ({"bay_widths_mm": (600, 0)}, "bay_widths_mm.1"),
        ({"bay_widths_mm": ()}, "bay_widths_mm"),
        ({"bays": 6, "bay_widths_mm": (600,)}, "bays"),
    ],
)
def test_bays_that_check_nothing_are_refused(entry, field):
    with pytest.raises(DimensionError) as error:
        BarsEntry(facet="F1", width_mm=60, **entry)

    assert field in [fault.field for fault in error.value.faults]
