"""Every figure that facts and take-off print says where it comes from, and no more than is true."""

import json
import re

import pytest

from roofmodel.cli.main import run as run_cli
from roofmodel.foundation import resources
from roofmodel.storage import job_file

SAMPLES = sorted(
    path.name.removesuffix(job_file.SUFFIX)
    for path in resources.sample_roofs().glob(f"*{job_file.SUFFIX}")
)
AS_TEXT = ("packs", "rate_gbp", "amount_gbp", "materials_and_preliminaries_gbp")
"""Exact decimals, which JSON carries as text."""


def run(command, name, *options):
    path = resources.sample_roofs() / f"{name}{job_file.SUFFIX}"
    return run_cli([command, str(path), *options], open_window=lambda _: 0)


def numbers(part, path=""):
    """Yield every number with its path; a walk of its own, not the program's."""
    name = path.rpartition(".")[2]
    if isinstance(part, dict):
        for key, inner in part.items():
            yield from numbers(inner, f"{path}.{key}" if path else key)
    elif isinstance(part, list):
        for i, inner in enumerate(part):
            yield from numbers(inner, f"{path}[{i}]")
    elif isinstance(part, str):
        if name in AS_TEXT:
            yield path, float(part)
    elif isinstance(part, int | float) and not isinstance(part, bool):
        yield path, float(part)


def assert_sourced(found):
    """Assert that every number has a source, and is verified where all of its inputs are."""
    told = found.pop("provenance")
    figures, inputs = told["figures"], told["inputs"]
    assert len(figures) > 20
    for path, value in numbers(found):
        assert path in figures, f"{path} has no source"
        row = figures[path]
        assert row["value"] == pytest.approx(value, rel=1e-3, abs=1e-3), path
        assert row["source"] not in ("", "not known"), path
        assert row["from"] or row["kind"] != "computed", f"{path} is made from nothing"
    for row in [*figures.values(), *inputs]:
        every_input = all(inputs[place]["verified"] for place in row["from"])
        assert row["verified"] == (row["read"] and every_input), row["name"]


@pytest.mark.parametrize("name", ["lean-to", "surveyed-lean-to"])
def test_every_figure_of_the_facts_has_a_source(name, capsys):
    assert run("facts", name, "--json") == 0
    assert_sourced(json.loads(capsys.readouterr().out))


@pytest.mark.parametrize("name", ["lean-to"])
def test_every_figure_of_the_take_off_has_a_source(name, capsys):
    assert run("takeoff", name, "--json", "--effort", "quick") == 0
    assert_sourced(json.loads(capsys.readouterr().out))


@pytest.mark.slow
@pytest.mark.parametrize("name", SAMPLES)
def test_every_figure_of_every_sample_has_a_source(name, capsys):
    assert run("facts", name, "--json") == 0
    assert_sourced(json.loads(capsys.readouterr().out))
    assert run("takeoff", name, "--json", "--effort", "quick") == 0
    assert_sourced(json.loads(capsys.readouterr().out))


def test_sources_stand_under_the_tables_where_they_are_asked_for(capsys):
    assert run("facts", "lean-to", "--sources") == 0
    told = " ".join(capsys.readouterr().out.split())
    _, _, sources = told.partition("Where does this come from?")
    assert re.search(r"F1 pitch [\d.]+ ± 0\.2°", sources)
    assert "entered for the job (not yet verified)" in sources
    assert run("facts", "lean-to") == 0
    assert "Where does this come from?" not in capsys.readouterr().out
