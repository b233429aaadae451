"""What every paper carries, and every line of a list that can be sorted and copied."""

import csv
import io
from datetime import date

from roofmodel.drawings.lists import actuals_list, cut_list, cut_order_list
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Release
from roofmodel.drawings.sheets import cut_on_facet
from roofmodel.drawings.sheets.cut_on_facet import Owner
from tests.drawings import drawn

HELD = Heading(
    job_code="J04",
    revision="B",
    issued=date(2026, 11, 30),
    stamp=Release(reasons=("The survey is open.",)).stamp,
    set_id="NABCD",
)


def test_every_line_of_every_list_says_job_set_revision_status_and_day():
    roof = drawn.roof_of()
    made = drawn.plan_of(roof, "BRD-OSB18")
    plans = (cut_on_facet.of_plan(made, Owner(heading=HELD, surface=roof), rack_prefix="J04-B"),)
    lists = (
        cut_list.text(plans),
        cut_order_list.text(plans, HELD),
        actuals_list.text(HELD, "New roof", [("T1", "strip", "4", "5", "h", "1.25")]),
    )

    for text in lists:
        rows = list(csv.DictReader(io.StringIO(text)))
        assert rows or text.startswith("Material,Sheet,Step")
        for row in rows:
            assert (row["Job"], row["Set"], row["Revision"]) == ("J04", "NABCD", "B")
            assert (row["Status"], row["Issued"]) == ("NOT FOR CUTTING", "2026-11-30")


def test_what_has_no_stamp_only_indicates():
    assert Heading(job_code="J04", revision="A").list_ending[3].startswith("INDICATIVE")
