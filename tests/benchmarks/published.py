"""Published packing sets: what this program's own nesting comes to, beside the best known.

The sets and where each is from: `SOURCES.md` beside them, in a folder `shared/benchmarks` beside
the checkout; without it nothing is measured. Strips and bins of several sizes are left out: sheets
here are all of one size and have an end.
"""

import json
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

import shapely

from roofmodel.cutting.lengths.plan import plan
from roofmodel.cutting.lengths.problem import LengthPiece, StockLength
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.verify import faults
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.foundation.cancellation import Watch

FOLDER = Path(__file__).parents[3] / "shared" / "benchmarks"

WORDS = """This program's own nesting at quick effort beside the best known, on sets published by
others."""

Say = Callable[..., None]

_FEW = {"rectangles": 20, "polygons": 8, "lengths": 12}
_MANY = {"rectangles": 100, "polygons": 54, "lengths": 28}


@dataclass(frozen=True)
class Result:
    """One instance: bins used, proved least, and best known; None where none is published."""

    used: int
    bound: int
    best: int | None
    seconds: float


def run(*, whole: bool, say: Say) -> None:
    """Measure and print the sets that are there."""
    if not FOLDER.is_dir():
        say("published sets", "not measured: the folder shared/benchmarks is not there")
        return
    counts = _MANY if whole else _FEW
    say()
    say("published set", "instances", "ours / best known", "as the best", "proved", "s, all")
    say(*("---" for _ in range(6)))
    for title, results in (
        ("rectangles, oriented", _rectangles("oriented_free", (0,), counts["rectangles"])),
        ("rectangles, turned", _rectangles("rotation_free", (0, 90), counts["rectangles"])),
        ("convex polygons, jigsaws without waste", _polygons(counts["polygons"])),
        ("lengths, triplets and uniform", _lengths("falkenauer", counts["lengths"])),
        ("lengths, hard", _lengths("hard", counts["lengths"])),
    ):
        _said(title, list(results), say)


def _said(title: str, results: list[Result], say: Say) -> None:
    known = [r for r in results if r.best is not None]
    ours, best = sum(r.used for r in known), sum(r.best or 0 for r in known)
    against = f"{ours} / {best} = {ours / best:.3f}" if best else "no best is published"
    say(
        title,
        len(results),
        against,
        f"{sum(r.used == r.best for r in known)} of {len(known)}",
        f"{sum(r.used == r.bound for r in results)} of {len(results)}",
        f"{sum(r.seconds for r in results):.0f}",
    )


def _rectangles(best: str, turns: tuple[int, ...], count: int) -> Iterator[Result]:
    rows = list(_table("rect_2bp_500.json").values())
    # Spread over all ten classes and sizes.
    for row in rows[:: max(1, len(rows) // count)][:count]:
        shapes = [((0, 0), (x, 0), (x, y), (0, y)) for x, y in row["items"]]
        yield _nested(_problem(row["bin"], shapes, turns), row["best"][best])


def _polygons(count: int) -> Iterator[Result]:
    rows = list(_table("irregular_bins_terashima1_54.json").values())
    for row in rows[:: max(1, len(rows) // count)][:count]:
        shapes = []
        for piece in row["pieces"]:
            shape = shapely.orient_polygons(shapely.Polygon(piece))
            left, low, _, _ = shape.bounds
            shapes.append(tuple((x - left, y - low) for x, y in shape.exterior.coords[:-1]))
        yield _nested(_problem(row["bin"], shapes, (0, 90, 180, 270)), row["optimum"])


def _problem(bin_size: list, shapes: list, turns: tuple[int, ...]) -> Problem:
    """Return an instance with its unit taken as a tenth of a millimetre, and no saw cut."""
    parts = tuple(
        Part(
            mark=f"P{number}",
            facet="F1",
            material="TEST",
            corners=tuple((round(x), round(y)) for x, y in corners),
            bevels_deg=(0.0,) * len(corners),
            at_mm=(0.0, 0.0),
            may_turn_deg=turns,
            may_turn_over=False,
        )
        for number, corners in enumerate(shapes, start=1)
    )
    length, width = (round(side) for side in bin_size)
    return Problem(sheet_length=length, sheet_width=width, kerf=0, trim=0, parts=parts)


def _nested(problem: Problem, best: int | None) -> Result:
    start = time.perf_counter()
    bound = sharpest(problem, most=len(problem.parts)).sheets
    found = nest(problem, effort=Effort.QUICK, bound=bound, watch=Watch())
    seconds = time.perf_counter() - start
    wrong = faults(problem, found)
    if wrong or bound > found.sheets or (best is not None and bound > best):
        raise AssertionError(wrong or f"bound {bound}, found {found.sheets}, best {best}")
    return Result(found.sheets, bound, best, seconds)


def _lengths(begins: str, count: int) -> Iterator[Result]:
    rows = _table("one_d.json")
    for name in islice((name for name in rows if name.startswith(begins)), count):
        row = rows[name]
        kinds = sorted(Counter(row["items"]).items(), reverse=True)
        start = time.perf_counter()
        found = plan(
            [LengthPiece(mark=f"P{size}", length=size, count=many) for size, many in kinds],
            [StockLength(length=row["capacity"])],
            material="TEST",
            kerf_mm=0.0,
            keep_mm=0.0,
        )
        yield Result(found.lengths, found.bound.cost, row["best"], time.perf_counter() - start)


def _table(name: str) -> dict:
    return json.loads((FOLDER / name).read_text(encoding="utf-8"))
