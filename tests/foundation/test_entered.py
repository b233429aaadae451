"""What follows from a field declared once: its schema, its range and the words of its error."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, Literal

import pytest
from pydantic import TypeAdapter

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
from roofmodel.foundation.errors import DimensionError


class Colour(StrEnum):
    RED = "red"
    GREEN = "green"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    depth_mm: Annotated[
        float | None,
        Entered(label="Depth", where="Top to underside", unit="mm", low=15.0, high=400.0),
    ] = None
    bays: Annotated[int, Entered(label="Bays", where="Bays counted", low=1, high=9)] = 1
    slope_deg: Annotated[
        float,
        Entered(label="Slope", where="By eye", unit="°", low=0.0, high=75.0, between=True),
    ] = 20.0
    colour: Annotated[Colour | None, Entered(label="Colour", where="Any", empty="not said")] = None
    wet: Annotated[bool, Entered(label="Wet", where="Whether it is wet")] = False
    side: Annotated[Literal["left", "right"], Entered(label="Side", where="Which side")] = "left"
    words: Annotated[str, Entered(label="Words", where="Said", longest=5)] = ""
    plain: int = 0

    def __post_init__(self):
        faults = entered.faults(self)
        if faults:
            raise DimensionError(faults)


def test_an_error_is_made_from_label_unit_and_range():
    with pytest.raises(DimensionError) as caught:
        Entry(depth_mm=3_000_000.0, bays=0, slope_deg=75.0, words="too long")

    assert [str(fault) for fault in caught.value.faults] == [
        "Depth: 3000000 mm is out of range. Enter 15 to 400 mm.",
        "Bays: 0 is out of range. Enter 1 to 9.",
        "Slope: 75° is out of range. Enter more than 0° and less than 75°.",
        "Words: the text has 8 characters. Shorten it to 5 at most.",
    ]


def test_what_is_no_number_is_out_of_range():
    with pytest.raises(DimensionError, match="Depth: nan mm"):
        Entry(depth_mm=float("nan"))


@pytest.mark.parametrize("values", [{"depth_mm": 15.0}, {"depth_mm": 400.0}, {"depth_mm": None}])
def test_the_ends_of_a_range_are_allowed_and_so_is_nothing(values):
    assert Entry(**values)


def test_the_choices_follow_from_the_type_and_none_says_what_nothing_means():
    found = entered.fields_of(Entry)

    assert found["colour"].choices == (
        (None, "not said"),
        (Colour.RED, "red"),
        (Colour.GREEN, "green"),
    )
    assert found["wet"].choices == ((False, "no"), (True, "yes"))
    assert found["side"].choices == (("left", "left"), ("right", "right"))
    assert found["bays"].choices == ()
    assert "plain" not in found


def test_the_schema_says_the_same():
    found = TypeAdapter(Entry).json_schema()["properties"]

    depth = found["depth_mm"]
    assert (depth["title"], depth["description"]) == ("Depth", "Top to underside [mm]")
    assert (depth["minimum"], depth["maximum"]) == (15.0, 400.0)
    assert (found["slope_deg"]["exclusiveMinimum"], found["slope_deg"]["exclusiveMaximum"]) == (
        0.0,
        75.0,
    )
    assert found["words"]["maxLength"] == 5


@pytest.mark.parametrize(
    ("value", "said"),
    [(30_004_200.0, "30004200"), (0.0208, "0.0208"), (-0.0, "0"), (2_500.0, "2500")],
)
def test_a_number_is_written_without_powers_of_ten(value, said):
    assert entered.figures(value) == said


def test_a_label_goes_into_a_sentence_in_small_letters():
    assert entered.label(Entry, "depth_mm") == "depth"
