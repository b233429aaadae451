"""What every command prints with `--json` keeps the schema that is published for it."""

import json

import jsonschema
import pytest

from roofmodel.cli import schema
from roofmodel.cli.main import run as run_cli
from tests.cli import every_json


def told_by_schema(capsys, *words):
    assert run_cli(["schema", *words], open_window=lambda _: 0) == 0
    return json.loads(capsys.readouterr().out)


def _keep_their_schemas(outputs):
    seen = set()
    for name, printed in outputs:
        jsonschema.validate(printed, schema.of_command(name))
        seen.add(name)
    return seen


def test_figures_counts_and_lists_keep_their_schemas(tmp_path):
    assert len(_keep_their_schemas(every_json.quick_outputs(tmp_path))) == 9


@pytest.mark.slow  # offers, papers and plans of several jobs: a minute
def test_prices_papers_and_several_jobs_keep_their_schemas(tmp_path):
    seen = _keep_their_schemas(every_json.other_outputs(tmp_path))

    quick = {"check", "facts", "gates", "cut", "takeoff", "lines", "rack-list", "catalogue"}
    assert seen | quick | {"refusal"} == set(schema.names())


def test_every_schema_is_one_and_refuses_a_field_nobody_published(capsys):
    for name in schema.names():
        found = told_by_schema(capsys, name)
        jsonschema.Draft202012Validator.check_schema(found)
        assert found["title"]
        assert found["additionalProperties"] is False


def test_without_a_name_it_is_the_job_files(capsys):
    assert told_by_schema(capsys)["title"] == "Roof job"


def test_a_name_nobody_knows_is_told_those_there_are(capsys):
    assert run_cli(["schema", "nothing"], open_window=lambda _: 0) == 2
    told = "".join(capsys.readouterr().err.split())  # the box breaks lines as it is wide
    assert "hasnoschema" in told.replace("│", "")
    assert "takeoff" in told.replace("│", "")
