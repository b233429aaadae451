"""Names of readings in files of version 2, against every line of that version's survey sheets.

`names_of_version_2.json` was written by the program of version 2 and put beside today's sheets by
where the points of each line lie, not by the names: for each shape every old name with the line
that ties the same points today, a minus where a level is read the other way round.
"""

import json
from pathlib import Path

import pytest

from roofmodel.storage import job_file, reading_names_2
from roofmodel.workbench.job.reckoning import reckon

HERE = Path(__file__).parent
SHEETS = json.loads((HERE / "names_of_version_2.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("shape", SHEETS)
def test_every_line_of_an_old_sheet_is_the_same_tape_under_its_new_name(shape):
    sheet = SHEETS[shape]
    wanted = {**sheet["lines"], **{name: name for name in sheet["same"]}}
    readings = [{"name": name, "value": 7.0} for name in wanted]

    found = reading_names_2.renamed({"survey": sheet["survey"], "readings": readings})

    new = [("-" if one["value"] < 0 else "") + one["name"] for one in found["readings"]]
    assert new == list(wanted.values())


def test_a_surveyed_job_of_version_2_opens_and_means_the_same():
    """The area is the one the program of version 2 printed for it."""
    job = job_file.loads((HERE / "surveyed_version_2.roofjob.json").read_text(encoding="utf-8"))

    names = {one.name: one.value for one in job.readings}
    assert names["pitch CD to A"] == 15.1
    assert names["pitch CD to B"] == 14.6
    assert [answer.query for answer in job.answers] == ["pitch CD to A"]
    assert round(reckon(job).roof.area_m2, 4) == 12.3491


def test_an_answer_about_the_way_round_the_eaves_keeps_its_question():
    survey = SHEETS["poly3"]["survey"]
    query = "walk round the eaves, along the house wall"

    found = reading_names_2.renamed(
        {"survey": survey, "answers": [{"query": query, "choice": "bevel read again"}]}
    )

    assert found["answers"][0]["query"] == "round the eaves, along the house wall"


def test_a_name_nobody_knows_and_a_survey_that_makes_no_roof_stay_as_they_are():
    lean_to = {**SHEETS["lean-to"]["survey"]}
    stray = [{"name": "chimney", "value": 1.0}, {"name": "pitch F7", "value": 9.0}, 5]
    assert reading_names_2.renamed({"survey": lean_to, "readings": stray})["readings"] == stray

    broken = {"survey": {"shape": "lean-to"}, "readings": [{"name": "pitch left"}]}
    assert reading_names_2.renamed(broken) == broken
