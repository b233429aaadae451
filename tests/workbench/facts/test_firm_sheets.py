"""How firm the sheets of a method are: each size and pitch a standard error off, planned anew."""

from roofmodel.foundation.source import Source
from roofmodel.refit.method import Method
from roofmodel.workbench.facts import firm_sheets
from roofmodel.workbench.facts.firm_sheets import FirmSheets, SheetEffect
from roofmodel.workbench.job.measured import Measured
from tests import acceptance_jobs


def moved(label, unit="mm", error=3.0):
    return Measured(
        path=("survey", label),
        label=label,
        value=1.0,
        unit=unit,
        tool="tape",
        standard_error=error,
        source=Source(document="invented", place="", verified=False),
    )


FOUND = FirmSheets(
    here={"OSB22": 5, "PIR75": 6},
    effects=(
        SheetEffect(moved=moved("width"), less={"OSB22": 5, "PIR75": 6}, more=None),
        SheetEffect(
            moved=moved("pitch", "°", 0.2),
            less={"OSB22": 5, "PIR75": 6},
            more={"OSB22": 7, "PIR75": 6},
        ),
    ),
)


def test_a_count_says_what_it_ranges_over_and_what_decides():
    assert FOUND.between("OSB22") == (5, 7)
    assert [one.moved.label for one in FOUND.deciding("OSB22")] == ["pitch"]
    assert firm_sheets.text(FOUND, "OSB22") == (
        "OSB22: 5 sheets, 5 to 7 within one standard error: pitch −0.2° makes 5, +0.2° makes 7."
    )
    assert firm_sheets.text(FOUND, "PIR75").startswith("PIR75: 6 sheets, whichever value")


def test_two_panels_that_just_go_into_one_sheet_take_another_each_on_a_deeper_roof():
    """By hand: at 1435 mm and 18° a panel is 1498.5 mm long, and with the saw cut of 3 mm two go
    into 3000; 3 mm more projection is 3.2 mm more of slope."""
    survey = {**acceptance_jobs.JOBS["J10"]["survey"], "projection_mm": 1_435.0}
    drawn = acceptance_jobs.drawn("J10", survey=survey)

    found = firm_sheets.of_method(drawn, Method.PANEL_SWAP)

    (code,) = found.here
    (projection,) = (one for one in found.effects if one.moved.label == "projection")
    assert (found.here[code], projection.less[code], projection.more[code]) == (2, 2, 3)
    assert found.between(code) == (2, 3)
