"""The handover lists what was built and what is to be signed."""

import json

import pypdfium2
import pytest

from roofmodel.cli.main import run as run_cli
from tests.acceptance_jobs import JOBS


@pytest.fixture
def j01(tmp_path):
    path = tmp_path / "J01.roofjob.json"
    path.write_text(json.dumps({"schema_version": 2, "code": "J01", **JOBS["J01"]}))
    return path


def run(*arguments):
    return run_cli([str(one) for one in arguments], open_window=lambda _: 0)


def test_the_handover_lists_what_was_built_and_what_is_to_be_signed(j01, tmp_path, capsys):
    out = tmp_path / "handover.pdf"
    assert run("handover", j01, out, "--on", "2026-11-25", "--json") == 0

    document = pypdfium2.PdfDocument(out)
    whole = "\n".join(page.get_textpage().get_text_range() for page in document)
    for words in ("completion", "as built", "photographs", "care", "snags", "OSB", "Signed by"):
        assert words in whole
    capsys.readouterr()
    j02 = tmp_path / "J02.roofjob.json"
    j02.write_text(json.dumps({"schema_version": 2, "code": "J02", **JOBS["J02"]}))
    assert run("handover", j02, out, "--method", "build-round") == 2
    assert "cannot be used on this roof" in " ".join(capsys.readouterr().err.split())
