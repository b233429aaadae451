"""Measured speeds and sheets: `./run benchmarks` prints them and writes docs/measured.md.

./run benchmarks                speeds; sheets on samples and 24 random roofs; published sets
./run benchmarks --start        only how long commands take to start
./run benchmarks --computing    only from an entry to its figures, and the fit of surveys
./run benchmarks --sheets       only the sheets and the published sets
./run benchmarks --offers       only offers, first prices and the batch
./run benchmarks --papers       only the workshop's papers
./run benchmarks --all          200 random roofs, and the published sets whole; hours
./run benchmarks --json FILE    also writes every figure of the sheets
"""

import argparse
import json
import os
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import cycle, islice
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.sets import cutting_papers as dxf
from roofmodel.drawings.sets import pdf_set
from roofmodel.drawings.sheets import cutting_sheet
from roofmodel.foundation import plans_folder, resources
from roofmodel.geometry import skeleton
from roofmodel.geometry.footing import FootprintEdge
from roofmodel.shapes import solid
from roofmodel.storage import job_file
from roofmodel.survey.fit import adjustment
from roofmodel.workbench.facts import facts
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import paper_set

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests import acceptance_jobs
from tests.benchmarks import page, published, sheets
from tests.benchmarks.page import Section
from tests.geometry import footprints
from tests.survey import random_surveys


def timed_ms(work: Callable[[], object], *, times: int) -> tuple[float, float]:
    """Return the middle and the worst of several runs [ms]."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(1000 * (time.perf_counter() - start))
    return statistics.median(taken), max(taken)


def peak_mb() -> float:
    """Return the most memory this process has held [MB]."""
    held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return held / 1024 if sys.platform != "darwin" else held / 1024**2


def samples() -> list[tuple[str, Drawn]]:
    """Return every sample roof, reckoned."""
    found = []
    for path in sorted(resources.sample_roofs().glob(f"*{job_file.SUFFIX}")):
        drawn = reckoning.reckon(job_file.read(path))
        if isinstance(drawn, Drawn):
            found.append((path.name.removesuffix(job_file.SUFFIX), drawn))
    return found


STARTED = {
    "--help": (["--help"], 0.3),
    "check, lean-to": (["check", "lean-to"], 0.8),
    "check, surveyed lean-to": (["check", "surveyed-lean-to"], 0.8),
    "facts, lean-to": (["facts", "lean-to"], 1.2),
    "facts, surveyed lean-to": (["facts", "surveyed-lean-to"], 1.2),
}
"""Commands a designer waits for, with the processor time aimed at [s]."""


def started_s(words: list[str]) -> float:
    """Return the processor time of a command in a process of its own [s]."""
    roofs = {path.name.partition(".")[0]: str(path) for path in resources.sample_roofs().iterdir()}
    typed = [roofs.get(word, word) for word in words]
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-m", "roofmodel", *typed], check=True, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def starting(section: Section) -> None:
    """Measure commands from the first line of Python to the last; the least is the machine's own.

    The first run of each is not counted: it writes the compiled files.
    """
    section.table("command", "least s", "middle s", "aim s")
    for name, (words, aim_s) in STARTED.items():
        took = [started_s(words) for _ in range(6)][1:]
        section.say(name, f"{min(took):.2f}", f"{statistics.median(took):.2f}", aim_s)


def computing(section: Section) -> None:
    """Measure a shape from entry to figures, and the general kernel by number of edges."""
    section.table("computing", "middle ms", "worst ms")
    for name, drawn in samples():
        job = drawn.job

        def figures(job: object = job) -> object:
            again = reckoning.reckon(job)  # type: ignore[arg-type]
            return facts.of_roof(again.roof) if isinstance(again, Drawn) else None

        section.say(
            f"{name}: entry to figures", *(f"{ms:.2f}" for ms in timed_ms(figures, times=30))
        )
    for edges in (10, 20, 40):
        corners, _ = next(
            case
            for case in footprints.valid(footprints.star, seed=edges, most=edges)
            if len(case[0]) == edges
        )
        planes = [FootprintEdge(name=str(i), pitch_deg=25.0) for i in range(edges)]
        took = timed_ms(lambda c=corners, p=planes: skeleton.faces(c, p), times=10)
        section.say(f"any footprint, {edges} edges", *(f"{ms:.2f}" for ms in took))
    for name, drawn in samples():
        took = timed_ms(lambda roof=drawn.roof: solid.closed(roof), times=10)
        section.say(f"{name}: closed mesh", *(f"{ms:.2f}" for ms in took))


def surveys(section: Section) -> None:
    """Measure how long the readings of a whole survey take to fit; 10 and 60 ms are aimed at."""
    section.table("surveys", "readings", "middle ms", "worst ms")
    for name in ("lean-to", "five-facet end, box gutter", "T wing", "P plan"):
        network = {**random_surveys.SHAPES, **random_surveys.PLANS}[name]
        rng = np.random.default_rng(2)
        points = random_surveys.true_points(network, rng)
        readings = random_surveys.survey(network, points, rng)
        took = timed_ms(lambda n=network, r=readings: adjustment.adjust(n, r), times=25)
        section.say(f"{name}: fitted", len(readings), *(f"{ms:.1f}" for ms in took))


def cutting(section: Section) -> None:
    """Measure the cutting plans of every sample."""
    section.table("cutting", "effort", "sheets (bound) by material", "first plan s", "all s")
    for name, drawn in samples():
        for effort in ("quick", "usual"):
            first: list[float] = []
            start = time.perf_counter()
            plans = reckoning.cut(
                drawn,
                effort=effort,  # type: ignore[arg-type]
                progress=lambda *_, at=first, since=start: at.append(time.perf_counter() - since),
            )
            whole = time.perf_counter() - start
            made = plans.values()
            counts = ", ".join(f"{p.good.short} {p.sheets} ({p.bound.sheets})" for p in made)
            section.say(name, effort, counts, f"{first[0] if first else whole:.2f}", f"{whole:.2f}")


def papers(section: Section) -> None:
    """Measure the workshop's papers: DXF of 100 sheets, and the whole set of job J05."""
    section.table("papers", "s")
    job = acceptance_jobs.drawn("J05")
    gathered = paper_set.gather(job, job.option, reckoning.cut(job, effort=Effort.QUICK))
    sheets_found = [
        sheet for plan in gathered.plans for sheet in cutting_sheet.sheets(plan, gathered.heading)
    ]
    hundred = list(islice(cycle(sheets_found), 100))
    with TemporaryDirectory() as folder:
        start = time.perf_counter()
        for number, sheet in enumerate(hundred):
            dxf.write_sheet(sheet, Path(folder) / f"{number}.dxf")
        section.say(
            "DXF of 100 sheets, read back and checked", f"{time.perf_counter() - start:.1f}"
        )
    with TemporaryDirectory() as folder:
        start = time.perf_counter()
        files = paper_set.write(gathered, Path(folder) / "J05")
        section.say(f"whole set of J05, {len(files)} files", f"{time.perf_counter() - start:.1f}")
    start = time.perf_counter()
    pdf_set.content(gathered)
    section.say("its drawings as PDF alone", f"{time.perf_counter() - start:.1f}")


def window(section: Section) -> None:
    """Measure an edit until its picture stands, where a screen is there."""
    try:
        from tests.benchmarks import edit_to_frame
    except ImportError as error:
        section.say("window", f"not measured: {error}")
        return
    section.table("window", "middle ms", "worst ms")
    for name, middle, worst in edit_to_frame.measured():
        section.say(name, f"{middle:.1f}", f"{worst:.1f}")


OFFERED = ("lean-to", "three-facet-end", "hipped")
"""Sample roofs whose offers are measured."""

BATCHED = 60


def offering(section: Section) -> None:
    """Measure offers of three methods in processes of their own, with and without kept plans."""
    section.table("offer of three methods", "quick s", "from nothing s", "a second time s")
    quick = ("--effort", "quick")
    for name in OFFERED:
        took = []
        for words in (quick, (), ()):
            # The last one finds the plans of the one before; a quick one has others.
            with TemporaryDirectory() as fresh, named_plans(fresh if words else KEPT.name):
                took.append(started_s(["offer", name, *words]))
        section.say(name, *(f"{s:.1f}" for s in took))
    section.table("command", "processor time s")
    with TemporaryDirectory() as fresh, named_plans(fresh):
        section.say(
            "first price: takeoff, three-facet end, quick",
            f"{started_s(['takeoff', 'three-facet-end', *quick]):.1f}",
        )
    section.table("`batch` of lean-tos, quick, one worker", "processor time s", "peak MB")
    for count in (BATCHED // 3, BATCHED):
        with TemporaryDirectory() as fresh, named_plans(fresh), TemporaryDirectory() as jobs:
            lean_tos(Path(jobs), count)
            took_s = started_s(["batch", jobs, "--workers", "1", *quick])
            section.say(count, f"{took_s:.1f}", f"{children_mb():.0f}")


KEPT = TemporaryDirectory()
"""Where the plans of one run of the benchmarks are kept; empty as it begins."""


@contextmanager
def named_plans(folder: str) -> Iterator[None]:
    """Let commands keep their plans in a folder."""
    before = os.environ.get(plans_folder.VARIABLE)
    os.environ[plans_folder.VARIABLE] = folder
    try:
        yield
    finally:
        os.environ[plans_folder.VARIABLE] = before or ""


def lean_tos(folder: Path, count: int) -> None:
    """Write so many lean-tos, each a little wider than the one before."""
    whole = json.loads(
        (resources.sample_roofs() / f"lean-to{job_file.SUFFIX}").read_text(encoding="utf-8")
    )
    for number in range(count):
        whole["code"] = f"B{number:02d}"
        whole["survey"]["width_mm"] = 3200.0 + 41.0 * number
        whole["bars"] = []
        file = folder / f"B{number:02d}{job_file.SUFFIX}"
        file.write_text(json.dumps(whole), encoding="utf-8")


def children_mb() -> float:
    """Return the most memory that any process started so far has held [MB]."""
    held = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    return held / 1024 if sys.platform != "darwin" else held / 1024**2


SECTIONS = {
    "start": ("Starting", "Processor time of a whole command, in a process of its own.", starting),
    "computing": (
        "Computing",
        "From an entry to all its figures but the plans; the kernel of facets over any footprint.",
        computing,
    ),
    "surveys": (
        "Surveys",
        "The readings of a whole survey fitted; 10 and 60 ms are aimed at.",
        surveys,
    ),
    "cutting": ("Cutting plans", "By the clock, one after another.", cutting),
    "offers": (
        "Offers",
        "Processor time of whole commands. Aimed at: 40 s from nothing, 3 s a second time and for "
        "a first price; a batch that grows with its jobs, in 0.2 GB.",
        offering,
    ),
    "papers": ("Papers", "Written, read back and checked, by the clock.", papers),
    "window": (
        "Window",
        "An edit until its picture stands. 50 ms are aimed at; without a graphics card drawing is "
        "most of it.",
        window,
    ),
}
"""By the word that asks for it alone: title, what is measured, and the measurement."""


def measure(word: str) -> None:
    """Measure one section and write it into the page."""
    title, words, work = SECTIONS[word]
    section = Section(title, words)
    work(section)
    page.put(section)


def measure_sheets(asked: argparse.Namespace) -> None:
    """Measure sheets against bounds and plain ways, and published sets."""
    count = asked.roofs if asked.roofs is not None else 200 if asked.all else 24
    some = Section(f"Sheets, samples and {count} random roofs", sheets.WORDS)
    sheets.run(roofs=count, workers=asked.workers, json_file=asked.json, say=some.say)
    page.put(some)
    sets = Section(f"Published packing sets{', whole' if asked.all else ''}", published.WORDS)
    published.run(whole=asked.all, say=sets.say)
    page.put(sets)


def arguments() -> argparse.Namespace:
    """Return what was asked for on the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for word, (title, _, _) in SECTIONS.items():
        parser.add_argument(f"--{word}", action="store_true", help=f"only this: {title.lower()}")
    parser.add_argument("--sheets", action="store_true", help="only sheets and published sets")
    parser.add_argument("--all", action="store_true", help="200 random roofs, whole sets")
    parser.add_argument("--roofs", type=int, help="so many random roofs")
    parser.add_argument("--workers", type=int, default=1, help="so many roofs at once")
    parser.add_argument("--json", type=Path, help="write every figure of the sheets here")
    return parser.parse_args()


def main() -> int:
    """Run all measurements."""
    asked = arguments()
    wanted = [word for word in SECTIONS if getattr(asked, word)]
    for word in wanted if asked.sheets or wanted else SECTIONS:
        measure(word)
    if asked.sheets or not wanted:
        measure_sheets(asked)
    sys.stdout.write(f"Peak memory {peak_mb():.0f} MB. The page: {page.FILE}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
