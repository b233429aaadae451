"""An offcut is written down so that whatever is planned on it can be cut from it."""

from datetime import date

import pytest
import shapely

from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.foundation.errors import CuttingError

DAY = date(2026, 11, 2)


def of(corners_mm, **changes):
    return RackPiece.of_mm("R1", "BRD-OSB18", corners_mm, **{"since": DAY, **changes})


def test_a_rectangle_is_rounded_down_to_tenths():
    assert of(rectangle(2440.0, 610.08)).corners == ((0, 0), (24400, 0), (24400, 6100), (0, 6100))


def test_a_raked_shape_is_rounded_so_that_it_lies_within_the_true_one():
    true = [(10.03, 5.0), (1210.07, 5.0), (733.33, 912.22), (10.03, 640.91)]
    found = of(true)
    back = shapely.Polygon([(x / 10, y / 10) for x, y in found.corners])
    moved = shapely.Polygon([(x - 10.03 - 0.1, y - 5.0 - 0.1) for x, y in true])
    assert moved.buffer(0.1, join_style="mitre").covers(back)
    assert back.area > 0.999 * moved.area
    assert found.shape.bounds[:2] == (0.0, 0.0)


def test_a_size_is_said_in_words():
    assert of(rectangle(2440, 610)).size == "2440 × 610 mm"
    assert of([(0, 0), (1200, 0), (0, 900)]).size.endswith("mm, 3 sides")
    assert RackPiece.of_length_mm("B", "TIM-B25", 3100, since=DAY).size == "3100 mm long"


def test_an_offcut_of_a_length_goes_to_the_plan_of_lengths_under_its_label():
    batten = RackPiece.of_length_mm("B7", "TIM-B25", 3100.07, since=DAY)
    assert (batten.as_length().label, batten.as_length().length) == ("B7", 31000)
    with pytest.raises(CuttingError, match="not of a length"):
        of(rectangle(2440, 610)).as_length()


@pytest.mark.parametrize(
    ("corners", "words"),
    [
        ([(0, 0), (0, 900), (1200, 0)], "clockwise"),
        ([(0, 0), (1200, 900), (1200, 0), (0, 900)], "crosses itself"),
        ([(0, 0), (1200, 0)], "three corners"),
        ([(0, 0), (1200, 0), (float("nan"), 900)], "three corners"),
        ([(0, 0), (1200, 0), (1200, 0.1), (600, 0.15)], "too thin"),
        (rectangle(25_000, 600), "no longer than"),
    ],
)
def test_what_is_no_offcut_is_refused_in_words(corners, words):
    with pytest.raises(CuttingError, match=words):
        of(corners)


@pytest.mark.parametrize(
    "changes",
    [
        {"label": " "},
        {"label": "a\nb"},
        {"label": "x" * 61},
        {"material": ""},
        {"length": 31000},
        {"corners": ()},
        {"corners": (), "length": 0},
        {"corners": ((10, 0), (500, 0), (500, 500))},
    ],
)
def test_an_offcut_nobody_could_find_or_cut_is_refused(changes):
    fields = {
        "label": "R1",
        "material": "BRD-OSB18",
        "since": DAY,
        "corners": ((0, 0), (500, 0), (500, 500)),
    }
    RackPiece(**fields)
    with pytest.raises(CuttingError):
        RackPiece(**{**fields, **changes})
