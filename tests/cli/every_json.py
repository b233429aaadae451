"""Runs every command with `--json`, on small jobs, and returns what each of them printed."""

import contextlib
import io
import json
from pathlib import Path

from roofmodel.cli.main import run as run_cli
from roofmodel.foundation import resources
from tests.acceptance_jobs import JOBS

QUICK = ("--effort", "quick")


def printed(*words):
    """Return the JSON that a command prints."""
    told = io.StringIO()
    with contextlib.redirect_stdout(told):
        run_cli([*map(str, words), "--json"], open_window=lambda _: 0)
    return json.loads(told.getvalue())


def _job(folder: Path, code: str, **changes) -> Path:
    folder.mkdir(exist_ok=True)
    path = folder / f"{code}.roofjob.json"
    fields = {"schema_version": 2, "code": code, **JOBS[code], **changes}
    path.write_text(json.dumps(fields))
    return path


def quick_outputs(folder: Path):
    """Yield (name of the schema, what was printed) for commands that take little time."""
    job, refused = _job(folder, "J01"), _job(folder, "J02")
    for path in (job, refused, resources.sample_roofs() / "surveyed-lean-to.roofjob.json"):
        yield "check", printed("check", path)
        yield "facts", printed("facts", path)
        yield "gates", printed("gates", path)
    yield "cut", printed("cut", job, *QUICK)
    yield "takeoff", printed("takeoff", job, *QUICK)
    yield "takeoff", printed("takeoff", refused, *QUICK)
    yield "lines", printed("lines", "list", job)
    yield "rack-list", printed("rack", "list")
    yield "catalogue", printed("catalogue")
    broken = folder / "broken.roofjob.json"
    broken.write_text("{}")
    yield "refusal", printed("facts", broken)


def other_outputs(folder: Path):
    """Yield the same for the commands that price, write papers or plan several jobs."""
    job, refused, other = (_job(folder, code) for code in ("J01", "J02", "J07"))
    many = folder / "many"
    wider = {**JOBS["J01"], "survey": {**JOBS["J01"]["survey"], "width_mm": 4100.0}}
    newer = _job(many, "J01", **wider, revision="B")
    (many / "broken.roofjob.json").write_text("{}")
    yield "offer", printed("offer", job, *QUICK, "--out", folder / "offer")
    yield "offer", printed("offer", refused, *QUICK)
    (estimate,) = (folder / "offer").glob("*-estimate.json")
    yield "estimate", printed("estimate", estimate)
    yield "release", printed("release", job, "--by", "N. N.")
    yield "papers", printed("papers", job, "--out", folder / "papers", *QUICK)
    yield "verify", printed("verify", folder / "papers", job, *QUICK)
    yield "revisions", printed("revisions", job, newer, *QUICK)
    yield "together", printed("together", job, other, *QUICK)
    yield "batch", printed("batch", many, *QUICK, "--workers", 1)
    yield "handover", printed("handover", job, folder / "handover.pdf")
    entered = ("--hours", "tiles=9", "--sheets", "BRD-OSB22=5")
    yield "actuals", printed("actuals", job, *QUICK, *entered)
    yield "picture", printed("export", job, folder / "roof.glb")
    yield "sheet", printed("sheet", job, folder / "sheet.pdf")
