"""What is the firm's own, on the command line."""

import json
from pathlib import Path

import pytest

from roofmodel.cli import main

SAMPLE = Path("sample_roofs/lean-to.roofjob.json")


def run(*arguments):
    return main.run([str(one) for one in arguments], open_window=lambda path: 0)


def printed(capsys):
    return json.loads(capsys.readouterr().out)


def lean(text):
    return " ".join(text.split())


def test_a_row_is_copied_listed_kept_and_restored(data_folder, capsys):
    assert run("firm", "list") == 0
    assert "0 rows are the firm's" in lean(capsys.readouterr().out)
    assert run("firm", "copy", "recipes", "FOM-750") == 0
    assert "recipes.toml" in lean(capsys.readouterr().out).replace(" ", "")
    assert run("firm", "withdraw", "norms", "verges") == 0
    capsys.readouterr()

    assert run("firm", "list", "--json") == 0
    found = {one["code"]: (one["table"], one["row"]) for one in printed(capsys)["rows"]}
    assert found == {"FOM-750": ("recipes", "own"), "verges": ("norms", "withdrawn")}

    path = data_folder / "firm" / "recipes.toml"
    text = path.read_text(encoding="utf-8")
    mark = text.split("FOM-750 = ")[1].split("\n")[0]
    path.write_text(text.replace(mark, '"OLDMARK"'), encoding="utf-8")
    assert run("firm", "list", "recipes") == 0
    assert "the supplied row has changed" in lean(capsys.readouterr().out)
    assert run("firm", "keep", "recipes", "FOM-750") == 0
    assert run("firm", "list", "recipes", "--json") == 0
    assert '"ships_otherwise": false' in capsys.readouterr().out

    assert run("firm", "restore", "recipes", "FOM-750") == 0
    assert run("firm", "restore", "norms", "verges") == 0
    capsys.readouterr()
    assert run("firm", "list", "--json") == 0
    assert printed(capsys)["rows"] == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("list", "wages"), "There is no table “wages”. Choose one of recipes, norms"),
        (("copy", "recipes", "X"), "“Recipes” has no row X."),
        (("withdraw", "presets", "new-roof"), "cannot do without new-roof"),
        (("restore", "recipes", "FOM-750"), "is as supplied"),
        (("keep", "recipes", "FOM-750"), "is as supplied"),
        (("import", "gone.rooffirm.json"), "cannot be opened"),
        (("export", "x.rooffirm.json"), "nothing of its own yet"),
    ],
)
def test_what_cannot_be_done_is_told_in_a_sentence(words, said, capsys):
    assert run("firm", *words) == 2
    assert said in lean(capsys.readouterr().err)


def test_what_is_the_firms_goes_out_in_one_file_and_is_shown_before_it_is_taken(
    tmp_path, data_folder, capsys
):
    assert run("firm", "withdraw", "norms", "verges") == 0
    file = tmp_path / "ours.rooffirm.json"
    assert run("firm", "export", file) == 0
    assert run("firm", "restore", "norms", "verges") == 0
    capsys.readouterr()

    assert run("firm", "import", file) == 0
    said = capsys.readouterr()
    assert "withdrawn or gone" in lean(said.out)
    assert "add --take" in lean(said.out + said.err)
    assert run("firm", "import", file, "--take", "--json") == 0
    assert printed(capsys)["taken"]
    assert run("firm", "list", "norms", "--json") == 0
    assert [one["code"] for one in printed(capsys)["rows"]] == ["verges"]


def test_a_withdrawn_task_takes_no_hours_on_any_command_line(data_folder, capsys):
    assert run("firm", "withdraw", "recipes", "FOM-750") == 0
    capsys.readouterr()
    assert run("takeoff", SAMPLE, "--effort", "quick", "--json") == 0

    assert "FOM-750" not in [line["code"] for line in printed(capsys)["lines"]]


def test_a_job_is_kept_as_a_template_and_a_new_one_begun_from_it(tmp_path, capsys):
    new = tmp_path / "new.roofjob.json"
    assert run("template", "list") == 0
    assert "none yet" in capsys.readouterr().out
    assert run("template", "save", SAMPLE, "lean-to, our usual") == 0
    assert run("template", "start", "lean-to, our usual", new, "--code", "J77") == 0
    assert run("check", new) == 0
    capsys.readouterr()

    assert run("template", "list", "--json") == 0
    assert printed(capsys) == {"templates": ["lean-to, our usual"]}
    assert json.loads(new.read_text(encoding="utf-8"))["code"] == "J77"
    assert run("template", "start", "lean-to, our usual", new) == 2
    assert "is there already" in lean(capsys.readouterr().err)
    assert run("template", "remove", "lean-to, our usual") == 0
