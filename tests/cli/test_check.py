import contextlib
import json
from pathlib import Path

import typer

from roofmodel.cli.check import check

STEP = {
    "schema_version": 3,
    "code": "K1",
    "survey": {
        "shape": "plan",
        "eaves_height_mm": 2100,
        "sides": [
            {"x_mm": 6000, "y_mm": 0, "kind": "house wall"},
            {"x_mm": 0, "y_mm": 0, "kind": "eaves", "pitch_deg": 25},
            {"x_mm": 0, "y_mm": 2500, "kind": "eaves", "pitch_deg": 30},
            {"x_mm": 2400, "y_mm": 2500, "kind": "eaves", "pitch_deg": 25},
            {"x_mm": 2400, "y_mm": 2540, "kind": "eaves", "pitch_deg": 20},
            {"x_mm": 6000, "y_mm": 2540, "kind": "eaves", "pitch_deg": 25},
        ],
    },
}


def checked(tmp_path, capsys, step_mm):
    for corner in STEP["survey"]["sides"][4:]:
        corner["y_mm"] = 2500 + step_mm
    path = tmp_path / "step.roofjob.json"
    path.write_text(json.dumps(STEP), encoding="utf-8")
    # The layers of a step of 1 mm stop the job; that is not asked here.
    with contextlib.suppress(typer.Exit):
        check(path, as_json=True)
    return json.loads(capsys.readouterr().out)["findings"]


def test_check_says_where_a_hair_decides_what_the_roof_is(tmp_path, capsys):
    told = [f for f in checked(tmp_path, capsys, 1) if "decides within its error" in f["text"]]

    assert {f["severity"] for f in told} == {"question"}
    assert "survey.sides.2.y_mm" in [f["field"] for f in told]


def test_check_says_nothing_of_it_where_the_eaves_are_set_back_far_enough(tmp_path, capsys):
    told = [f for f in checked(tmp_path, capsys, 1500) if "decides within its error" in f["text"]]

    assert told == []


def test_check_tells_what_a_slip_in_each_reading_would_show(capsys):
    check(Path("sample_roofs/surveyed-lean-to.roofjob.json"), as_json=True)

    found = json.loads(capsys.readouterr().out)
    assert found["findings"] == []
    assert {one["name"]: one["text"] for one in found["protection"]}["BC"] == "74 mm would show"
    assert found["next_reading"] == ""
