"""All papers a workshop needs to cut a job, written together or not at all."""

import json
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from roofmodel.cutting.plan import Plan
from roofmodel.drawings import cut_list, cutting_sheet, folder_swap, key_plan, page, proof
from roofmodel.drawings.cutting_sheet import CuttingSheet
from roofmodel.drawings.dxf_pen import DxfDrawing
from roofmodel.drawings.heading import Heading
from roofmodel.drawings.key_plan import KeyPlan
from roofmodel.drawings.page import TitleBlock
from roofmodel.drawings.release import Stamp
from roofmodel.drawings.strokes import DrawnOnce
from roofmodel.foundation.errors import DrawingError
from roofmodel.shapes.roof import DATUM, Roof

Progress = Callable[[int, int], None]
"""Told how many papers are done, of how many."""

BENCH_RULES = (
    "Offer up the first piece of each hand before cutting the rest. "
    "Never turn a bevelled or one-faced piece over. Lines on layer BVL are notes, not cuts."
)


def write_cutting_papers(  # noqa: PLR0913 - what a set of papers says, each part on its own
    roof: Roof,
    plans: Sequence[Plan],
    *,
    job_code: str,
    revision: str,
    folder: Path,
    stamp: Stamp,
    issued: date | None = None,
    progress: Progress | None = None,
) -> tuple[Path, ...]:
    """Write sheets, key plan, cut list and figures into a folder; return the files.

    Every drawing is read back and compared with the plan before the folder takes the place of
    the last one; a run that fails leaves that one as it was. The same job, cut the same way,
    gives the same drawings byte for byte.

    Parameters
    ----------
    roof, plans
        The roof, and the cutting plan of each of its sheet materials.
    job_code, revision
        Stand on every paper and begin every file name.
    folder
        A new or empty folder, or one that holds an earlier set.
    stamp
        Whether it may be cut from; stands on every drawing and on every piece.
    issued
        Day of issue for the title blocks; left out of them when not given.
    progress
        Told after every paper.

    Raises
    ------
    DrawingError
        If the folder holds anything else, cannot be written, or a drawing read back is not what
        was drawn.
    """
    if not plans:
        raise DrawingError("There is no cutting plan to draw. Choose at least one sheet material.")
    refuse_twins([plan.good.short for plan in plans])
    heading = Heading(job_code=job_code, revision=revision, issued=issued, stamp=stamp)
    job = _Papers(heading, roof, tuple(plans))
    with folder_swap.new_folder(folder) as beside:
        names = job.write(beside, progress or _nobody)
    return tuple(folder / name for name in names)


@dataclass(frozen=True, slots=True)
class _Papers:
    """One set of papers."""

    heading: Heading
    roof: Roof
    plans: tuple[Plan, ...]

    def write(self, folder: Path, progress: Progress) -> list[str]:
        """Write all papers and the manifest; return their names."""
        drawings = dict(self._drawings())
        names = [*drawings, f"{self.heading.file_stem}-cut-list.csv", folder_swap.MANIFEST]
        for done, (name, write_to) in enumerate(drawings.items(), start=1):
            write_to(folder / name)
            progress(done, len(names))
        laid_out = [(plan.good, plan.layout.placed) for plan in self.plans]
        _write_text(folder / names[-2], cut_list.text(self.roof, laid_out), cut_list.ENCODING)
        progress(len(names) - 1, len(names))
        _write_text(folder / names[-1], self._manifest(names[:-1]), "utf-8")
        progress(len(names), len(names))
        return names

    def _drawings(self) -> Iterator[tuple[str, Callable[[Path], None]]]:
        """Give the name of every drawing and what writes it."""
        for plan in self.plans:
            short = re.sub(r"[^A-Za-z0-9]+", "-", plan.good.short)
            for number in sorted({placed.sheet_no for placed in plan.layout.placed}):
                name = f"{self.heading.file_stem}-{short}-sheet-{number:02d}.dxf"
                yield name, partial(write_sheet, self._sheet(plan, number), plan.sentence)
        yield f"{self.heading.file_stem}-key-plan.dxf", partial(write_key_plan, self._key_plan())

    def _sheet(self, plan: Plan, number: int) -> CuttingSheet:
        return CuttingSheet(
            heading=self.heading,
            good=plan.good,
            roof=self.roof,
            placed=plan.layout.on_sheet(number),
            number=number,
            count=plan.sheets,
        )

    def _key_plan(self) -> KeyPlan:
        boards = tuple((plan.good, plan.problem.parts) for plan in self.plans)
        return KeyPlan(heading=self.heading, roof=self.roof, boards=boards)

    def _manifest(self, names: Sequence[str]) -> str:
        """Return the figures of the plans and the list by which the folder is known again."""
        content = {
            "made_by": folder_swap.MADE_BY,
            "job_code": self.heading.job_code,
            "revision": self.heading.revision,
            "status": self.heading.stamp.status if self.heading.stamp else "",
            "datum": DATUM,
            "plans": [plan_figures(plan) for plan in self.plans],
            "files": list(names),
        }
        return json.dumps(content, indent=2, ensure_ascii=False) + "\n"


def refuse_unclear(plans: Sequence[tuple[Plan, Roof]]) -> None:
    """Raise a `DrawingError` where there is nothing to draw, or marks would be the same."""
    if not plans:
        raise DrawingError("There is no cutting plan to draw. Choose at least one sheet material.")
    refuse_twins([plan.good.short for plan, _ in plans])


def refuse_twins(shorts: Sequence[str]) -> None:
    """Raise a `DrawingError` where two sheet materials have one short name."""
    twice = [short for short in shorts if shorts.count(short) > 1]
    if twice:
        raise DrawingError(
            f"Two sheet materials are both called {twice[0]} for short, so their marks and files "
            "would be the same. Give each its own short name."
        )


def plan_figures(plan: Plan) -> dict[str, object]:
    """Return the figures of a plan under the names that reports and files use."""
    return {
        "material": plan.material,
        "name": plan.good.name,
        "sheet_mm": list(plan.sheet_mm),
        "sheets": plan.sheets,
        "bound": plan.bound.sheets,
        "bound_reason": plan.bound.reason,
        "area_bound": plan.area_bound,
        "proved": plan.proved,
        "utilisation": round(plan.utilisation, 4),
        "pieces": plan.pieces,
        "net_area_m2": round(plan.net_area_m2, 4),
        "kerf_mm": plan.good.kerf_mm,
        "rules": plan.claim,
        "notes": list(plan.notes),
        "seconds": round(plan.seconds, 2),
    }


def write_sheet(
    sheet: CuttingSheet, sentence: str, path: Path, *, drawn: DrawnOnce | None = None
) -> None:
    """Write a cutting sheet, and compare what was written with it.

    ``drawn`` is the sheet already laid out, where other formats are written of it as well.
    """
    drawing = DxfDrawing()
    (drawn or DrawnOnce(partial(cutting_sheet.draw, sheet))).onto(drawing.model)
    size = (sheet.good.length_mm, sheet.good.width_mm)
    scale = page.scale_for(size)
    rows = (
        ("Title", f"{sheet.good.short} cutting sheet"),
        ("Job", sheet.heading.words),
        ("Sheet", f"{sheet.number} of {sheet.count}"),
        ("Material", sheet.good.name),
        ("Stock", " x ".join(f"{extent:.1f}" for extent in size)),
        ("Saw cut", f"{sheet.good.kerf_mm:.1f}, outside the line"),
        *sheet.heading.status_rows,
        ("Scale, unit", f"1 : {scale:g}, mm"),
    )
    notes = (*sheet.heading.status_notes, sentence, *sheet.key, BENCH_RULES)
    page.draw(TitleBlock(rows, notes), drawing.page)
    drawing.look_at((0.0, 0.0), size)
    drawing.show_on_page((0.0, 0.0), size, scale=scale)
    drawing.save(path)
    proof.check_sheet(path, sheet)


def write_key_plan(plan: KeyPlan, path: Path) -> None:
    """Write the key plan, and compare what was written with it."""
    drawing = DxfDrawing()
    key_plan.draw(plan, drawing.model)
    low, high = plan.extents_mm
    scale = page.scale_for((high[0] - low[0], high[1] - low[1]))
    rows = (
        ("Title", "Key plan, seen from above"),
        ("Job", plan.heading.words),
        ("Facets", f"{len(plan.roof.facets)}"),
        ("Area on slope", f"{plan.roof.area_m2:.3f} m2"),
        ("Area in plan", f"{plan.roof.plan_area_m2:.3f} m2"),
        *plan.heading.status_rows,
        ("Scale, unit", f"1 : {scale:g}, mm"),
    )
    page.draw(TitleBlock(rows, (*plan.heading.status_notes, f"Datum: {DATUM}.")), drawing.page)
    drawing.look_at(low, high)
    drawing.show_on_page(low, high, scale=scale)
    drawing.save(path)
    proof.check_key_plan(path, plan)


def _write_text(path: Path, text: str, encoding: str) -> None:
    path.write_text(text, encoding=encoding, newline="")


def _nobody(done: int, of: int) -> None:
    """Be told and tell nobody."""
