"""The offcut rack, several jobs together, and a batch, on the command line."""

import csv
import json
import re

import pytest

from roofmodel.cli.main import run as run_cli
from roofmodel.drawings.paper.release import Release
from roofmodel.foundation import user_folder
from roofmodel.storage.rack import FILE
from roofmodel.workbench.job import releasing
from tests.acceptance_jobs import JOBS

_LEAN_TO = {
    "survey": {
        "shape": "lean-to",
        "eaves_height_mm": 2100.0,
        "left_end": "verge",
        "right_end": "verge",
        "width_mm": 2400.0,
        "projection_mm": 1710.0,
        "pitch_deg": 20.0,
    },
    "bars": [{"facet": "F1", "width_mm": 60.0, "bays": 4}],
    "standing": {"glazing": "polycarbonate", "glazing_mm": 25.0, "bar_depth_mm": 75.0},
}


def run(*arguments):
    return run_cli([str(argument) for argument in arguments], open_window=lambda _: 0)


@pytest.fixture(autouse=True)
def rack_folder(tmp_path, monkeypatch):
    """Give every command an empty rack."""
    folder = tmp_path / "rack"
    monkeypatch.delenv("ROOFMODEL_RACK", raising=False)
    monkeypatch.setattr(user_folder, "data", lambda: folder)
    return folder


@pytest.fixture
def three(tmp_path):
    """Three equal lean-tos, as files."""
    paths = []
    for letter in "ABC":
        path = tmp_path / f"J11{letter}.roofjob.json"
        fields = {"schema_version": 2, "code": f"J11{letter}", **_LEAN_TO}
        path.write_text(json.dumps(fields), encoding="utf-8")
        paths.append(path)
    return paths


@pytest.fixture
def released(monkeypatch):
    """Let every gate pass and somebody have released every job: only then is anything booked."""
    told = Release(approved="invented surveyor, 2026-11-02")
    monkeypatch.setattr(releasing, "release", lambda *_, **__: told)


def listed(capsys, *more):
    capsys.readouterr()
    assert run("rack", "list", "--json", *more) == 0
    return json.loads(capsys.readouterr().out)["rack"]


def together(capsys, *arguments):
    capsys.readouterr()
    code = run("together", "--effort", "quick", "--json", *arguments)
    return code, json.loads(capsys.readouterr().out)


def add_strip():
    size = ("--size", "2440x610", "--place", "bay 2", "--since", "2026-11-02")
    return run("rack", "add", "R1", "BRD-OSB18", *size)


def test_an_empty_rack_is_listed_without_making_one(capsys, rack_folder):
    assert listed(capsys) == []
    assert run("rack", "list") == 0
    assert "nothing like that on the rack" in capsys.readouterr().out
    assert not (rack_folder / FILE).exists()


def test_offcuts_of_any_kind_go_on_the_rack_and_off_it(capsys):
    assert add_strip() == 0
    assert run("rack", "add", "R2", "BRD-PB12", "--corners", "0,0 1200,0 0,900") == 0
    assert run("rack", "add", "B1", "TIM-B25", "--length", "3100", "--since", "2026-01-05") == 0
    found = listed(capsys)
    assert [one["label"] for one in found] == ["B1", "R1", "R2"]
    assert (found[1]["size"], found[1]["place"]) == ("2440 × 610 mm", "bay 2")
    assert found[1]["since"] == "2026-11-02"
    # Plasterboard has one good face; that an offcut of it lies either way is never assumed.
    assert (found[1]["may_turn_over"], found[2]["may_turn_over"]) == (True, False)
    assert [one["label"] for one in listed(capsys, "BRD-PB12")] == ["R2"]
    assert run("rack", "remove", "R1", "B1") == 0
    assert [one["label"] for one in listed(capsys)] == ["R2"]


def test_offcuts_are_kept_used_and_returned(capsys):
    add_strip()
    job = ("--job", "J1", "--revision", "B")
    for command, state in (
        ("reserve", "reserved"),
        ("release", "free"),
        ("use", "used"),
        ("return", "free"),
    ):
        assert run("rack", command, "R1", *job) == 0
        assert listed(capsys)[0]["state"] == state
    run("rack", "reserve", "R1", *job)
    assert run("rack", "reserve", "R1", "--job", "J2") == 2
    assert "R1 is reserved by J1 revision B" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("BRD-OSB18",), "one of --size"),
        (("BRD-OSB18", "--size", "2440x610", "--length", "3100"), "one of --size"),
        (("BRD-OSB18", "--size", "big"), "is not a size"),
        (("BRD-OSB18", "--size", "1.2.3x4"), "is not a size"),
        (("BRD-OSB18", "--corners", "0,0 5"), "is not a list of corners"),
        (("NOTHING", "--size", "2440x610"), "no material NOTHING"),
        (("BRD-OSB18", "--corners", "0,0 0,900 1200,0"), "clockwise"),
    ],
)
def test_what_is_no_offcut_is_refused_in_words(capsys, arguments, words):
    assert run("rack", "add", "R1", *arguments) == 2
    assert words in " ".join(capsys.readouterr().err.replace("│", " ").split())


def test_three_jobs_together_take_a_board_less_and_the_rack_saves_another(capsys, three):
    code, plain = together(capsys, *three)
    osb = next(plan for plan in plain["plans"] if plan["material"] == "BRD-OSB18")
    assert code == 0
    assert (osb["separately"], osb["sheets"], osb["bound"]) == (6, 5, 5)
    assert [one["of"] for one in osb["offcuts"]] == ["sheet 5"]
    add_strip()
    _, found = together(capsys, *three, "--rack")
    osb = next(plan for plan in found["plans"] if plan["material"] == "BRD-OSB18")
    assert (osb["sheets"], osb["from_rack"], osb["bound_new"]) == (4, ["R1"], 4)
    assert [share["job"] for share in osb["shares"]] == ["J11A", "J11B", "J11C"]
    assert sum(share["by_area"] for share in osb["shares"]) == pytest.approx(1.0, abs=1e-5)
    assert listed(capsys)[0]["state"] == "free"


def test_what_the_plan_takes_is_kept_and_after_cutting_the_rest_is_racked_once(
    capsys, three, released
):
    add_strip()
    _, planned = together(capsys, *three, "--rack", "--reserve")
    assert planned["reserved"] == ["R1"]
    assert listed(capsys)[0]["job"] == "J11A+J11B+J11C"
    _, cut = together(capsys, *three, "--rack", "--cut", "--place", "bay 3")
    offcuts = sum(len(plan["offcuts"]) for plan in planned["plans"])
    assert len(cut["to_rack"]) == offcuts > 0
    assert cut["plans"] == planned["plans"]
    after = listed(capsys)
    assert {one["label"]: one["state"] for one in after}["R1"] == "used"
    assert {one["place"] for one in after} == {"bay 2", "bay 3"}
    assert len(after) == 1 + offcuts
    assert run("together", *three, "--effort", "quick", "--rack", "--cut") == 2
    assert "has already been cut" in " ".join(capsys.readouterr().err.split())
    assert listed(capsys) == after


def test_jobs_together_are_printed_with_shares_and_bundles(capsys, three):
    assert run("together", *three, "--effort", "quick") == 0
    printed = capsys.readouterr().out
    for words in ("J11A + J11B + J11C", "By area", "33.3%", "Offcut 1 of sheet 5", "Rules:"):
        assert words in printed


def test_jobs_that_cannot_be_cut_together_are_refused_by_name(capsys, three):
    assert run("together", three[0], three[0]) == 2
    assert "Two jobs have the code J11A" in " ".join(capsys.readouterr().err.split())
    assert run("together", three[0], "--reserve") == 2
    assert run("together", three[0], "--rack", "--reserve", "--cut") == 2
    assert run("together", three[0], "--method", "paint") == 2
    capsys.readouterr()
    fields = json.loads(three[1].read_text(encoding="utf-8"))
    bare = {**fields, "bars": [], "refit": {"method": "panel-swap"}}
    three[1].write_text(json.dumps(bare), encoding="utf-8")
    assert run("together", *three[:2]) == 2
    assert "J11B: Panel swap cannot be used on this roof" in " ".join(
        capsys.readouterr().err.split()
    )


@pytest.fixture
def folder(tmp_path):
    """A folder with a good job and a bad one."""
    there = tmp_path / "jobs"
    there.mkdir()
    fields = {"schema_version": 2, "code": "J10", **JOBS["J10"]}
    (there / "good.roofjob.json").write_text(json.dumps(fields), encoding="utf-8")
    (there / "bad.roofjob.json").write_text("{", encoding="utf-8")
    return there


def test_a_batch_lists_every_job_and_the_reason_of_a_bad_one(capsys, folder, tmp_path):
    out = tmp_path / "list.csv"
    assert run("batch", folder, "--workers", "1", "--effort", "quick", "--out", out, "--json") == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["done"], found["refused"], found["not_done"]) == (1, 1, 0)
    bad, good = found["jobs"]
    assert bad["file"] == "bad.roofjob.json"
    assert "cut short or damaged" in bad["reason"]
    assert good["code"] == "J10"
    with out.open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert [row["File"] for row in rows] == ["bad.roofjob.json", "good.roofjob.json"]
    assert rows[1]["Sheets"] == str(sum(one["sheets"] for one in good["sheets"]))
    assert rows[0]["Reason"] == bad["reason"]


def test_a_batch_of_nothing_or_of_nobody_is_refused(capsys, folder, tmp_path):
    assert run("batch", tmp_path / "nowhere") == 2
    assert run("batch", folder, "--workers", "0") == 2
    assert run("batch", folder, "--method", "paint") == 2
    assert "is not a method" in capsys.readouterr().err


def test_papers_take_sheets_and_lengths_from_the_rack_and_cutting_them_is_noted(
    capsys, three, released, tmp_path
):
    add_strip()
    run("rack", "add", "G1", "GUT-112", "--length", "2600")
    out = tmp_path / "out"
    assert run("papers", three[0], "--effort", "quick", "--out", out, "--reserve") == 2
    capsys.readouterr()
    command = ("papers", three[0], "--effort", "quick", "--out", out, "--rack", "--reserve")
    assert run(*command, "--json") == 0
    found = json.loads(capsys.readouterr().out)
    assert set(found["reserved"]) == {"R1", "G1"}
    assert {one["job"] for one in listed(capsys)} == {"J11A"}
    assert run("rack", "cut", out, "--place", "bay 3", "--since", "2026-11-05", "--json") == 0
    noted = json.loads(capsys.readouterr().out)
    assert set(noted["used"]) == {"R1", "G1"}
    after = {one["label"]: one for one in listed(capsys)}
    assert {one["label"] for one in noted["to_rack"]} == set(after) - {"R1", "G1"}
    assert any(one["length_mm"] for one in noted["to_rack"])
    assert run("rack", "cut", out) == 2
    assert run("rack", "cut", tmp_path) == 2
    assert "does not contain a set of papers" in " ".join(capsys.readouterr().err.split())


def test_jobs_together_get_papers_in_one_folder(capsys, three, tmp_path):
    out = tmp_path / "out"
    assert run("together", *three, "--effort", "quick", "--out", out) == 0
    printed = " ".join(capsys.readouterr().out.split())
    assert "J11B: " in printed
    assert "Revision A has not been released" in printed
    names = {path.relative_to(out).as_posix() for path in out.rglob("*.*")}
    of_set = json.loads((out / "plan.json").read_text(encoding="utf-8"))["set"]
    first = f"J11A+2-A-{of_set}"
    assert {f"{first}-drawings.pdf", f"labels/{first}-labels.pdf"} <= names
    for letter in "ABC":
        assert any(re.fullmatch(rf"sheets/J11{letter}-A-\w+-key-plan\.dxf", n) for n in names)
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "letter.txt").write_text("mine", encoding="utf-8")
    assert run("together", *three, "--effort", "quick", "--out", tmp_path / "full") == 2


def test_jobs_together_with_papers_reserve_and_note_their_lengths_too(
    capsys, three, released, tmp_path
):
    add_strip()
    run("rack", "add", "G1", "GUT-112", "--length", "2600")
    out = ("--rack", "--out", tmp_path / "out")
    _, planned = together(capsys, *three, *out, "--reserve")
    assert set(planned["reserved"]) == {"R1", "G1"}
    _, cut = together(capsys, *three, *out, "--cut")
    assert any(one["length_mm"] for one in cut["to_rack"])
    assert {one["state"] for one in listed(capsys) if one["label"] in ("R1", "G1")} == {"used"}


def test_the_drawings_of_cut_are_those_of_the_whole_set(capsys, three, tmp_path):
    plain = ("--effort", "quick", "--out")
    assert run("cut", three[0], *plain, tmp_path / "cut") == 0
    assert run("papers", three[0], *plain, tmp_path / "papers") == 0
    files = [path for path in (tmp_path / "cut").rglob("*.*") if path.name != "plan.json"]
    names = {path.relative_to(tmp_path / "cut").as_posix() for path in files}
    assert len([name for name in names if "-sheet-" in name]) > 1
    for ending in ("key-plan.dxf", "cut-list.csv", "cut-order.csv"):
        assert any(name.endswith(ending) for name in names)
    for name in names:
        assert (tmp_path / "cut" / name).read_bytes() == (tmp_path / "papers" / name).read_bytes()


def test_papers_not_for_cutting_or_with_a_file_gone_are_not_booked_as_cut(
    capsys, three, tmp_path, monkeypatch
):
    out = tmp_path / "out"
    assert run("papers", three[0], "--effort", "quick", "--out", out) == 0
    assert run("rack", "cut", out) == 2
    assert "NOT FOR CUTTING" in " ".join(capsys.readouterr().err.split())
    told = Release(approved="invented surveyor, 2026-11-02")
    monkeypatch.setattr(releasing, "release", lambda *_, **__: told)
    assert run("papers", three[0], "--effort", "quick", "--out", out) == 0
    next(out.rglob("*-sheet-01.dxf")).unlink()
    capsys.readouterr()
    assert run("rack", "cut", out) == 2
    assert "is missing" in " ".join(capsys.readouterr().err.split())
    assert listed(capsys) == []


def test_jobs_nobody_released_are_not_booked_as_cut_without_papers_either(capsys, three):
    assert run("together", *three, "--effort", "quick", "--rack", "--cut") == 2
    assert "Nothing was booked as cut" in " ".join(capsys.readouterr().err.split())
    assert listed(capsys) == []
