"""The commands as a user types them: exit codes, tables, the JSON keys later work relies on."""

import csv
import json
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from PIL import Image

from roofmodel import __main__
from roofmodel.cli import check, main
from tests import cases

SAMPLES = sorted(Path("sample_roofs").glob("*.roofjob.json"))


def run(*arguments, opened=None):
    def open_window(path):
        if opened is not None:
            opened.append(path)
        return 0

    return main.run([str(argument) for argument in arguments], open_window=open_window)


def printed(capsys):
    return json.loads(capsys.readouterr().out)


def edited(tmp_path, **survey):
    data = json.loads(Path("sample_roofs/lean-to.roofjob.json").read_text(encoding="utf-8"))
    data["survey"].update(survey)
    path = tmp_path / "edited.roofjob.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def called(sample):
    return sample.name.split(".")[0]


@pytest.mark.parametrize("sample", SAMPLES, ids=called)
def test_every_sample_is_checked_without_a_finding(sample, capsys):
    assert run("check", sample, "--json") == 0
    assert printed(capsys)["findings"] == []


@pytest.mark.parametrize("sample", cases.few_of(SAMPLES, {"lean-to", "wing"}, name=called))
def test_every_sample_has_its_facts(sample, capsys):
    assert run("facts", sample, "--json") == 0
    found = printed(capsys)

    assert {"facets", "lines", "area_m2", "plan_area_m2"} <= set(found)
    for facet in found["facets"]:
        assert {"name", "pitch_deg", "area_m2", "plan_area_m2", "corners_mm"} <= set(facet)
    for line in found["lines"]:
        assert {"kind", "length_mm", "pitch_deg", "facets", "bevel_deg"} <= set(line)
    assert sum(f["area_m2"] for f in found["facets"]) == pytest.approx(found["area_m2"], abs=1e-3)


@pytest.mark.parametrize(
    "sample", cases.few_of(SAMPLES, {"lean-to", "three-facet-end", "notch"}, name=called)
)
def test_every_sample_is_cut_and_drawn(sample, tmp_path, capsys):
    out = tmp_path / "out"
    assert run("cut", sample, "--out", out, "--effort", "quick", "--json") == 0
    found = printed(capsys)

    lining, insulation, deck = [plan["material"] for plan in found["plans"]]
    assert (lining, insulation) == ("BRD-PB12", "INS-PIR75")
    assert deck in ("BRD-OSB18", "BRD-OSB22")
    for plan in found["plans"]:
        assert {"sheet_mm", "sheets", "bound", "proved", "utilisation", "pieces"} <= set(plan)
        assert plan["sheets"] >= plan["bound"] >= 1
        assert plan["proved"] == (plan["sheets"] == plan["bound"])
        assert 0 < plan["utilisation"] <= 1
    files = [Path(file) for file in found["files"]]
    assert all(file.is_file() for file in files)
    drawings = [file for file in files if file.suffix == ".dxf"]
    assert len(drawings) == sum(plan["sheets"] for plan in found["plans"]) + 1
    for file in drawings:
        assert not ezdxf.readfile(file).audit().errors
    (cut_list,) = [file for file in files if file.name.endswith("-cut-list.csv")]
    with cut_list.open(encoding="utf-8-sig", newline="") as stream:
        assert len(list(csv.DictReader(stream))) == sum(p["pieces"] for p in found["plans"])


def test_facts_are_printed_as_a_table(capsys):
    assert run("facts", "sample_roofs/three-facet-end.roofjob.json") == 0
    out = capsys.readouterr().out

    assert "12.743" in out
    assert "1850.0" in out
    assert "9.31" in out
    assert "no overhang" in out


def test_cut_prints_its_rules_beside_its_numbers(capsys):
    assert run("cut", "sample_roofs/lean-to.roofjob.json", "--effort", "quick") == 0
    out = capsys.readouterr().out

    assert "Sheets" in out
    assert "joints" in out


def test_bad_input_ends_with_2_and_a_remedy(tmp_path, capsys):
    job = edited(tmp_path, width_mm=-4000)
    for command in ("check", "facts", "cut"):
        assert run(command, job) == 2
        assert "survey.width_mm" in capsys.readouterr().out
    assert run("facts", job, "--json") == 2
    (finding,) = printed(capsys)["findings"]
    assert set(finding) == {"field", "severity", "text", "remedy"}


def test_a_roof_that_cannot_be_built_is_a_finding(tmp_path, capsys):
    data = json.loads(Path("sample_roofs/hipped.roofjob.json").read_text(encoding="utf-8"))
    data["survey"]["projection_mm"] = 800
    path = tmp_path / "short.roofjob.json"
    path.write_text(json.dumps(data), encoding="utf-8")

    assert run("check", path, "--json") == 2
    assert any("behind the house wall" in f["text"] for f in printed(capsys)["findings"])


def test_a_question_does_not_stop_the_job(tmp_path, capsys):
    assert run("check", edited(tmp_path, width_mm=950), "--json") == 0
    found = printed(capsys)["findings"]
    assert "survey.width_mm" in [finding["field"] for finding in found]
    assert {finding["severity"] for finding in found} == {"question"}


def test_an_unknown_material_is_named_with_the_ones_there_are(tmp_path, capsys):
    data = json.loads(Path("sample_roofs/lean-to.roofjob.json").read_text(encoding="utf-8"))
    data["boards"] = [{"material": "BRD-OSB18", "kerf_mm": 4.0}, {"material": "INS-PIR57"}]
    path = tmp_path / "a.roofjob.json"
    path.write_text(json.dumps(data), encoding="utf-8")

    assert run("check", path, "--json") == 2
    (finding,) = printed(capsys)["findings"]
    assert finding["field"] == "boards.1.material"
    assert "INS-PIR75" in finding["remedy"]


def test_a_missing_file_ends_with_2_and_no_traceback(capsys):
    assert run("facts", "gone.roofjob.json") == 2
    assert "There is no file" in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [["facts"], ["nonsense"], ["cut", "a", "--effort", "heroic"], ["facts", "--jsno", "a"]],
)
def test_a_wrong_command_line_ends_with_2(arguments, capsys):
    assert run(*arguments) == 2
    assert capsys.readouterr().err


def test_a_fault_of_the_program_itself_ends_with_1_and_no_traceback(monkeypatch, capsys):
    def broken(_path):
        raise RuntimeError("wheel off")

    monkeypatch.setattr(check.job_file, "read", broken)
    monkeypatch.delenv("ROOFMODEL_TRACEBACK", raising=False)

    assert run("check", "a.roofjob.json") == 1
    err = " ".join(capsys.readouterr().err.split())
    assert "wheel off" in err
    assert "has not been changed" in err


def test_the_schema_is_printed(capsys):
    assert run("schema") == 0
    assert "survey" in printed(capsys)["properties"]


def test_the_window_opens_the_job_it_is_given():
    opened = []
    assert run("window", SAMPLES[0], opened=opened) == 0
    assert run("window", opened=opened) == 0
    assert opened == [SAMPLES[0], None]


def test_the_window_refuses_a_broken_job_before_it_opens(tmp_path, capsys):
    opened = []
    assert run("window", edited(tmp_path, width_mm=-1), opened=opened) == 2
    assert opened == []
    assert "survey.width_mm" in capsys.readouterr().err


def written(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*.*")}


def test_a_failed_cut_leaves_the_drawings_of_before(tmp_path, capsys):
    out = tmp_path / "out"
    assert run("cut", SAMPLES[0], "--out", out, "--effort", "quick") == 0
    before = written(out)
    assert any(name.startswith("sheets/") for name in before)
    assert run("cut", edited(tmp_path, width_mm=-1), "--out", out) == 2

    assert written(out) == before


def test_a_folder_that_cannot_be_made_is_refused_in_words(tmp_path, capsys):
    (tmp_path / "file").write_text("not a folder")
    assert run("cut", SAMPLES[0], "--out", tmp_path / "file" / "out", "--effort", "quick") == 2
    assert "Traceback" not in capsys.readouterr().err


def test_a_picture_needs_no_display(tmp_path, monkeypatch, capsys):
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    out = tmp_path / "roof.png"

    assert run("picture", SAMPLES[0], out) == 0
    assert out.read_bytes().startswith(b"\x89PNG")


def test_a_roof_is_pictured_before_and_after_in_one(tmp_path, capsys):
    pictures = {}
    for look in ("as-it-stands", "finished", "before-and-after"):
        out = tmp_path / f"{look}.png"
        assert run("picture", "sample_roofs/gable.roofjob.json", out, "--look", look) == 0
        with Image.open(out) as drawn:
            pictures[look] = np.asarray(drawn.convert("RGB")).astype(int)
    before, after, both = pictures.values()
    middle = both.shape[1] // 2

    assert np.abs(before - after).mean() > 1.0
    assert (both[:, : middle - 4] == before[:, : middle - 4]).all()
    assert (both[:, middle + 4 :] == after[:, middle + 4 :]).all()


def test_the_program_is_started_as_a_module(monkeypatch, capsys):
    monkeypatch.setattr("sys.argv", ["roofmodel", "check", str(SAMPLES[0])])
    assert __main__.main() == 0
    assert "No errors or doubtful entries" in capsys.readouterr().out


def taped(tmp_path, *, second_diagonal_mm):
    """J08: an out-of-square lean-to, its second diagonal as given."""
    data = json.loads(
        Path("sample_roofs/surveyed-lean-to.roofjob.json").read_text(encoding="utf-8")
    )
    for reading in data["readings"]:
        if reading["name"] == "BD":
            reading["value"] = second_diagonal_mm
    path = tmp_path / "taped.roofjob.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def test_j08_a_wrong_reading_is_found_and_nothing_is_cut(tmp_path, capsys):
    job = taped(tmp_path, second_diagonal_mm=5176.0)

    assert run("check", job, "--json") == 2
    said = " ".join(f["text"] + f["remedy"] for f in printed(capsys)["findings"])
    for candidate in ("BD 5076", "AC 4978", "AB 4321", "BC 3047", "CD 4352", "DA 2978"):
        name, value = candidate.split()
        found = [
            float(words.split()[0]) for words in said.split(f"{name} ")[1:] if words[0] in "2345"
        ]
        assert any(abs(number - float(value)) < 1.0 for number in found), candidate
    assert run("cut", job) == 2
    assert "survey is open" in " ".join(capsys.readouterr().err.split())


def test_j08_with_the_reading_put_right_is_cut_and_its_twist_is_told(tmp_path, capsys):
    job = taped(tmp_path, second_diagonal_mm=5076.0)

    assert run("facts", job, "--json") == 0
    found = printed(capsys)
    assert found["survey"]["state"] == "green"
    assert found["plan_area_m2"] == pytest.approx(11.938, abs=0.005)
    assert "boards will rock" in found["survey"]["twists"][0]["text"]
    assert len(found["bays"]) == 6
    assert run("cut", job, "--effort", "quick") == 0


@pytest.mark.parametrize("ending", [".glb", ".stl", ".obj", ".ifc"])
def test_every_model_format_is_written(ending, tmp_path, capsys):
    out = tmp_path / f"roof{ending}"
    assert run("export", SAMPLES[0], out, "--json") == 0
    assert printed(capsys) == {"files": [str(out)]}
    assert out.stat().st_size > 500


def test_a_model_format_nobody_knows_is_refused(tmp_path, capsys):
    assert run("export", SAMPLES[0], tmp_path / "roof.xyz") == 2
    assert ".glb" in capsys.readouterr().err


def edged(tmp_path, *, plate_mm):
    """J03: a lean-to whose pitch is a hair above 14°, heights and inclinometer read."""
    lines = [
        ("height C", 2150.0, "mm", 5.0),
        ("height D", 2150.0, "mm", 5.0),
        ("height A", plate_mm, "mm", 5.0),
        ("height B", plate_mm, "mm", 5.0),
    ]
    survey = {"width_mm": 3600, "projection_mm": 3000, "eaves_height_mm": 2150}
    path = edited(tmp_path, **survey, pitch_deg=None, wall_plate_height_mm=plate_mm)
    data = json.loads(path.read_text(encoding="utf-8"))
    del data["survey"]["pitch_deg"]
    data["readings"] = [
        {"name": name, "value": value, "unit": unit, "standard_error": error}
        for name, value, unit, error in lines
    ]
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def test_j03_a_pitch_on_the_edge_is_never_a_bare_pass(tmp_path, capsys):
    job = edged(tmp_path, plate_mm=2900.0)

    assert run("check", job) == 0
    assert "Not proven" in capsys.readouterr().out
    assert run("cut", job) == 2
    said = " ".join(capsys.readouterr().err.split())
    assert "14.036°" in said
    assert "not proven" in said.lower()


def test_j03_with_a_sure_pitch_is_cut(tmp_path, capsys):
    assert run("cut", edged(tmp_path, plate_mm=2960.0), "--effort", "quick") == 0


def test_bars_that_contradict_each_other_are_told_once(tmp_path, capsys):
    """J12: 7 bars but 5 bays; bar spacing 60."""
    data = json.loads(Path("sample_roofs/lean-to.roofjob.json").read_text(encoding="utf-8"))
    path = tmp_path / "bars.roofjob.json"
    for entry, words in (
        ({"bays": 5, "bars": 7}, "7 bars on F1"),
        ({"spacing_mm": 60.0}, "Did you mean 600?"),
        ({"bays": 6, "spacing_mm": 600.0}, "entered in 2 ways"),
        ({"running_mm": [500.0, 400.0]}, "400"),
    ):
        data["bars"] = [{"facet": "F1", "width_mm": 60.0, **entry}]
        path.write_text(json.dumps(data), encoding="utf-8")
        assert run("check", path, "--json") == 2
        findings = printed(capsys)["findings"]
        assert any(words in f["text"] for f in findings), words
        assert len(findings) <= 2
