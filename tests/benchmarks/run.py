"""Measured speeds and sheets, printed as tables: `./run benchmarks`. No test looks at them.

./run benchmarks                speeds; sheets on samples and 24 random roofs; published sets
./run benchmarks --sheets       only the sheets and the published sets
./run benchmarks --papers       only the workshop's papers
./run benchmarks --all          200 random roofs, and the published sets whole; hours
./run benchmarks --json FILE    also writes every figure of the sheets
"""

import argparse
import os
import platform
import resource
import statistics
import sys
import time
from collections.abc import Callable
from itertools import cycle, islice
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.sets import cutting_papers as dxf
from roofmodel.drawings.sets import pdf_set
from roofmodel.drawings.sheets import cutting_sheet
from roofmodel.foundation import resources
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
from tests.benchmarks import published, sheets
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


def machine() -> str:
    """Return what the figures were measured on."""
    system = f"{platform.system()} {platform.machine()}"
    return f"{system}, {os.cpu_count()} cores, Python {platform.python_version()}"


def row(*cells: object) -> None:
    """Print one row of a table."""
    print("| " + " | ".join(str(cell) for cell in cells) + " |")  # noqa: T201 - this is its output


def table(*headings: str) -> None:
    """Print the head of a table."""
    row()
    row(*headings)
    row(*("---" for _ in headings))


def samples() -> list[tuple[str, Drawn]]:
    """Return every sample roof, reckoned."""
    found = []
    for path in sorted(resources.sample_roofs().glob(f"*{job_file.SUFFIX}")):
        drawn = reckoning.reckon(job_file.read(path))
        if isinstance(drawn, Drawn):
            found.append((path.name.removesuffix(job_file.SUFFIX), drawn))
    return found


def computing() -> None:
    """Measure a shape from entry to figures, and the general kernel by number of edges."""
    table("computing", "middle ms", "worst ms")
    for name, drawn in samples():
        job = drawn.job

        def figures(job: object = job) -> object:
            again = reckoning.reckon(job)  # type: ignore[arg-type]
            return facts.of_roof(again.roof) if isinstance(again, Drawn) else None

        row(f"{name}: entry to figures", *(f"{ms:.2f}" for ms in timed_ms(figures, times=30)))
    for edges in (10, 20, 40):
        corners, _ = next(
            case
            for case in footprints.valid(footprints.star, seed=edges, most=edges)
            if len(case[0]) == edges
        )
        planes = [FootprintEdge(name=str(i), pitch_deg=25.0) for i in range(edges)]
        took = timed_ms(lambda c=corners, p=planes: skeleton.faces(c, p), times=10)
        row(f"any footprint, {edges} edges", *(f"{ms:.2f}" for ms in took))
    for name, drawn in samples():
        took = timed_ms(lambda roof=drawn.roof: solid.closed(roof), times=10)
        row(f"{name}: closed mesh", *(f"{ms:.2f}" for ms in took))


def surveys() -> None:
    """Measure how long the readings of a whole survey take to fit; 10 and 60 ms are aimed at."""
    table("surveys", "readings", "middle ms", "worst ms")
    for name in ("lean-to", "five-facet end, box gutter", "T wing", "P plan"):
        network = {**random_surveys.SHAPES, **random_surveys.PLANS}[name]
        rng = np.random.default_rng(2)
        points = random_surveys.true_points(network, rng)
        readings = random_surveys.survey(network, points, rng)
        took = timed_ms(lambda n=network, r=readings: adjustment.adjust(n, r), times=25)
        row(f"{name}: fitted", len(readings), *(f"{ms:.1f}" for ms in took))


def cutting() -> None:
    """Measure the cutting plans of every sample."""
    table("cutting", "effort", "sheets (bound) by material", "first plan s", "all s")
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
            row(name, effort, counts, f"{first[0] if first else whole:.2f}", f"{whole:.2f}")


def papers() -> None:
    """Measure the workshop's papers: DXF of 100 sheets, and the whole set of job J05."""
    table("papers", "s")
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
        row("DXF of 100 sheets, read back and checked", f"{time.perf_counter() - start:.1f}")
    with TemporaryDirectory() as folder:
        start = time.perf_counter()
        files = paper_set.write(gathered, Path(folder) / "J05")
        row(f"whole set of J05, {len(files)} files", f"{time.perf_counter() - start:.1f}")
    start = time.perf_counter()
    pdf_set.content(gathered)
    row("its drawings as PDF alone", f"{time.perf_counter() - start:.1f}")


def window() -> None:
    """Measure an edit until its picture stands, where a screen is there."""
    try:
        from tests.benchmarks import edit_to_frame
    except ImportError as error:
        row("window", f"not measured: {error}")
        return
    table("window", "middle ms", "worst ms")
    for name, middle, worst in edit_to_frame.measured():
        row(name, f"{middle:.1f}", f"{worst:.1f}")


def arguments() -> argparse.Namespace:
    """Return what was asked for on the command line."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sheets", action="store_true", help="only sheets and published sets")
    parser.add_argument("--papers", action="store_true", help="only the workshop's papers")
    parser.add_argument("--all", action="store_true", help="200 random roofs, whole sets")
    parser.add_argument("--roofs", type=int, help="so many random roofs")
    parser.add_argument("--workers", type=int, default=1, help="so many roofs at once")
    parser.add_argument("--json", type=Path, help="write every figure of the sheets here")
    return parser.parse_args()


def main() -> int:
    """Run all measurements."""
    asked = arguments()
    row(machine())
    if asked.papers:
        papers()
        return 0
    if not asked.sheets:
        computing()
        surveys()
        cutting()
        papers()
        window()
        row(f"peak memory {peak_mb():.0f} MB")
    count = asked.roofs if asked.roofs is not None else 200 if asked.all else 24
    sheets.run(roofs=count, workers=asked.workers, json_file=asked.json, say=row)
    published.run(whole=asked.all, say=row)
    return 0


if __name__ == "__main__":
    sys.exit(main())
