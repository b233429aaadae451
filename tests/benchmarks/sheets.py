"""Sheets as ratios: the cutting plan against its bounds and against plain ways to plan.

On the sample roofs and on seeded random roofs of all shapes, boarded with joints free, and with
pieces between the bars. Sums over many roofs are compared, since one roof differs by whole sheets.
"""

import json
import resource
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import asdict, dataclass, fields
from functools import partial
from multiprocessing import get_context
from pathlib import Path

from roofmodel.buildups import catalogue
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import Plan, plan, plan_pieces
from roofmodel.foundation import resources
from roofmodel.foundation.errors import RoofModelError
from roofmodel.shapes.bars import bar_layout, members
from roofmodel.shapes.bars.bar_layout import FacetCorner
from roofmodel.shapes.bars.bay import Bay, Fit
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.bars.members import FacetBars
from roofmodel.shapes.roof import Roof
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from tests.benchmarks import joiner, plain_ways, random_roofs

BOARDS = ("BRD-OSB18", "INS-PIR75")
BAYS = ("INS-PIR75", "PNL-ALU32")

_BAR_SPACING_MM = 650.0
_BAR_MM = 60.0
_FITTING_GAP_MM = 5.0

WORDS = """The plan at usual effort, joints free, against its bounds and against plain ways to plan:
whole rows with every other moved on by half a board, nested by packingsolver; the same cut as the
rectangles round the pieces; a simulated careful joiner, kinder than most sites; area and ten per
cent. Below 1 the plan takes fewer sheets. One roof differs by whole sheets: sums are compared."""

Say = Callable[..., None]


@dataclass(frozen=True, kw_only=True)
class Figures:
    """What one roof takes of one material: sheets by every way, and what the plan cost to make.

    ``coupled`` is the program's own plan at usual effort, ``bound`` holds for its pieces and
    ``floor`` for any laying; zero where a way does not apply, as boardings do not for bays.
    """

    roof: str
    shape: str
    material: str
    way: str
    coupled: int
    bound: int
    floor: int
    half_stagger: int
    rectangles: int
    joiner: int
    by_area: int
    pieces: int
    plain_pieces: int
    cuts: int
    cut_length_m: float
    first_s: float
    whole_s: float
    cpu_s: float
    memory_mb: float


def samples() -> list[tuple[str, Roof]]:
    """Return the sample roofs by name."""
    found = []
    for path in sorted(resources.sample_roofs().glob(f"*{job_file.SUFFIX}")):
        drawn = reckoning.reckon(job_file.read(path))
        if isinstance(drawn, Drawn):
            found.append((path.name.removesuffix(job_file.SUFFIX), drawn.roof))
    return found


def of_boards(roof: Roof, good: SheetGood, *, name: str, shape: str) -> Figures:
    """Return the figures of a roof boarded with one material."""
    rules = rules_for(good)
    found, took = _timed(
        lambda tell: plan(roof.facets, good, job_code="R", rules=rules, progress=tell)
    )
    plain = plain_ways.half_stagger(roof.facets, good, rules, job_code="R")
    return Figures(
        roof=name,
        shape=shape,
        way="boards",
        half_stagger=plain_ways.nested(plain),
        rectangles=plain_ways.bounding_rectangles(plain),
        joiner=joiner.sheets(roof.facets, good, rules),
        plain_pieces=len(plain.parts),
        **took,
        **_of_plan(found),
    )


def of_bays(roof: Roof, good: SheetGood, *, name: str, shape: str) -> Figures | None:
    """Return the figures of the pieces between the bars; None where the bars leave none."""
    pieces = [_piece(bay, good) for bay in _bays(roof)]
    if not pieces:
        return None
    found, took = _timed(lambda tell: plan_pieces(pieces, good, job_code="R", progress=tell))
    return Figures(
        roof=name,
        shape=shape,
        way="bays",
        half_stagger=0,
        rectangles=plain_ways.bounding_rectangles(found.problem),
        joiner=0,
        plain_pieces=found.pieces,
        **took,
        **_of_plan(found),
    )


def _timed(work: Callable[[Callable[[int, int], None]], Plan]) -> tuple[Plan, dict[str, float]]:
    """Return a plan, and the seconds until its first whole boarding, until the end, and of work."""
    told: list[float] = []
    start, busy = time.perf_counter(), time.process_time()
    found = work(lambda *_: told.append(time.perf_counter() - start))
    whole_s = time.perf_counter() - start
    return found, {
        "first_s": told[0] if told else whole_s,
        "whole_s": whole_s,
        "cpu_s": time.process_time() - busy,
    }


def _of_plan(found: Plan) -> dict:
    return {
        "material": found.material,
        "coupled": found.sheets,
        "bound": found.bound.sheets,
        "floor": found.floor.sheets if found.floor else 0,
        "by_area": plain_ways.by_area(found.net_area_m2, found.good),
        "pieces": found.pieces,
        "cuts": found.cut_count,
        "cut_length_m": round(found.cut_length_m, 1),
        "memory_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    }


def _bays(roof: Roof) -> Sequence[Bay]:
    rows = []
    for facet in roof.facets:
        layout = bar_layout.equal_spacing(facet, _BAR_SPACING_MM, corner=FacetCorner.LEFT)
        rows.append(FacetBars(layout, BarWidths.alike(_BAR_MM)))
    fit = Fit(gap_mm=_FITTING_GAP_MM)
    return members.of_layouts(roof, rows, fit, job_code="R").bays


def _piece(bay: Bay, good: SheetGood) -> Piece:
    # Whatever is longer than the sheet is split, so that every roof gives a figure.
    too_long = bay.height_mm > good.length_mm
    return Piece(
        mark=bay.mark,
        facet=bay.facet,
        corners_mm=bay.corners_mm,
        may_split=good.layer != "panel" or too_long,
    )


def of_roof(name: str, shape: str, roof: Roof) -> tuple[list[Figures], list[str]]:
    """Return all figures of one roof, and in words what could not be planned."""
    goods = catalogue.shipped().sheet_goods()
    tries = [
        *((code, "boards", partial(of_boards, roof, goods[code])) for code in BOARDS),
        *((code, "bays", partial(of_bays, roof, goods[code])) for code in BAYS),
    ]
    found, refused = [], []
    for code, way, work in tries:
        try:
            figures = work(name=name, shape=shape)
        except RoofModelError as error:
            refused.append(f"{name}, {code} as {way}: {error}")
        else:
            found += [figures] if figures else []
    return found, refused


def measured(
    roofs: Sequence[tuple[str, str, Roof]], *, workers: int
) -> Iterator[tuple[list[Figures], list[str]]]:
    """Yield the figures roof by roof, in the order given for one worker, else as they come."""
    if workers < 2:
        yield from (of_roof(*one) for one in roofs)
        return
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        for done in as_completed([pool.submit(of_roof, *one) for one in roofs]):
            yield done.result()


def all_roofs(count: int) -> list[tuple[str, str, Roof]]:
    """Return the sample roofs and so many random ones: name, shape and roof."""
    found = [(name, "sample", roof) for name, roof in samples()]
    return found + [(one.name, one.shape, one.roof) for one in random_roofs.roofs(count)]


def report(every: Sequence[Figures], say: Say) -> None:
    """Print the sums as a table, then what the aims have come to."""
    say()
    say("sheets", *_COLUMNS)
    say("---", *("---" for _ in _COLUMNS))
    for title, some in _groups(every):
        say(title, *_sums(some))
    say()
    say("aim", "is", "met")
    say("---", "---", "---")
    for title, value, met in aims(every):
        say(title, value, "yes" if met else "no")


_COLUMNS = (
    "roofs",
    "coupled",
    "/ floor",
    "/ bound",
    "/ half-stagger",
    "/ rectangles",
    "/ joiner",
    "/ area + 10 %",
    "closed",
    "pieces / half-stagger",
    "cut m / sheet",
    "whole s, middle (worst)",
    "of work s",
)


def _groups(every: Sequence[Figures]) -> Iterator[tuple[str, list[Figures]]]:
    for way in ("boards", "bays"):
        for code in dict.fromkeys(f.material for f in every):
            for kind, wanted in (("samples", True), ("random", False)):
                some = [
                    f
                    for f in every
                    if (f.way, f.material) == (way, code) and (f.shape == "sample") == wanted
                ]
                if some:
                    yield f"{way}, {code}, {kind}", some


def _sums(some: Sequence[Figures]) -> Iterator[object]:
    coupled = sum(f.coupled for f in some)
    yield len(some)
    yield coupled
    for name in ("floor", "bound", "half_stagger", "rectangles", "joiner", "by_area"):
        other = sum(getattr(f, name) for f in some)
        yield f"{coupled / other:.3f} ({other})" if other else "-"
    yield f"{_closed(some):.0%}"
    yield f"{sum(f.pieces for f in some) / sum(f.plain_pieces for f in some):.2f}"
    yield f"{sum(f.cut_length_m for f in some) / coupled:.1f}"
    for name in ("whole_s", "cpu_s"):
        taken = sorted(getattr(f, name) for f in some)
        yield f"{taken[len(taken) // 2]:.1f} ({taken[-1]:.1f})"


def _closed(some: Sequence[Figures]) -> float:
    return sum(f.coupled == f.floor for f in some) / len(some)


def aims(every: Sequence[Figures]) -> Iterator[tuple[str, str, bool]]:
    """Yield each aim on the random roofs, boarded: what it is, what was reached, whether met."""
    some = [f for f in every if f.way == "boards" and f.shape != "sample"]
    if not some:
        return
    coupled, floor, rectangles, by_joiner = (
        sum(getattr(f, name) for f in some) for name in ("coupled", "floor", "rectangles", "joiner")
    )
    ratio, closed = coupled / floor, _closed(some)
    yield "coupled ≤ 1.06 × floor", f"{ratio:.3f}", ratio <= 1.06
    for title, other, aim in (
        ("fixed boarding as rectangles", rectangles, 0.12),
        ("careful joiner", by_joiner, 0.08),
    ):
        saved = 1 - coupled / other
        yield f"≥ {aim:.0%} fewer than {title}", f"{saved:.1%}", saved >= aim
    yield "proof closed on ≥ 80 %", f"{closed:.0%}", closed >= 0.8
    first, memory = (max(getattr(f, name) for f in some) for name in ("first_s", "memory_mb"))
    yield "first plan ≤ 2 s", f"worst {first:.2f} s", first <= 2
    for title, name in (("usual ≤ 30 s", "whole_s"), ("the same by processor time", "cpu_s")):
        slow = [getattr(f, name) for f in some]
        within = sum(s <= 30 for s in slow) / len(slow)
        yield title, f"worst {max(slow):.1f} s; {within:.1%} within", max(slow) <= 30
    yield "memory ≤ 1 GB", f"worst {memory:.0f} MB", memory <= 1000


def run(*, roofs: int, workers: int, json_file: Path | None, say: Say) -> None:
    """Measure, print the tables, and write every figure where asked, roof by roof."""
    every: list[Figures] = []
    refused: list[str] = []
    for found, words in measured(all_roofs(roofs), workers=workers):
        every += found
        refused += words
        if json_file is not None:
            _write(json_file, every, refused)
    report(every, say)
    for words in refused:
        say("not planned", words)


def _write(path: Path, every: Sequence[Figures], refused: Sequence[str]) -> None:
    rows = {"figures": [asdict(f) for f in every], "not_planned": list(refused)}
    part = path.with_name(path.name + ".part")
    part.write_text(json.dumps(rows, indent=1), encoding="utf-8")
    part.replace(path)


def read(path: Path) -> list[Figures]:
    """Return the figures of a file that `run` has written."""
    rows = json.loads(path.read_text(encoding="utf-8"))["figures"]
    names = {field.name for field in fields(Figures)}
    return [Figures(**{k: v for k, v in row.items() if k in names}) for row in rows]


if __name__ == "__main__":
    sys.exit("Start this by ./run benchmarks --sheets")
