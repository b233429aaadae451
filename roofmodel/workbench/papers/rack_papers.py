"""The rack and a set of papers: what the set takes, what it leaves, and noting that it was cut.

A set's manifest holds what cutting it changes on the rack, under the labels that stand on its
drawings; so the rack is never told anything but what the bench has read.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from roofmodel.cutting.rack import lengths as rack_lengths
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.drawings.paper.release import FOR_CUTTING
from roofmodel.drawings.sets import folder_swap
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import Cutting, Holder, RackError


def with_lengths(job: PaperJob, prefix: str, counted: Counter[str] | None = None) -> PaperJob:
    """Return a job whose offcuts of lengths carry labels.

    Parameters
    ----------
    job
        The job.
    prefix
        Begins every label: job and revision.
    counted
        How many bars of each material are labelled already; counted on.
    """
    counted = Counter() if counted is None else counted
    cuts = []
    for cut in job.lengths:
        first = counted[cut.plan.material] + 1
        counted[cut.plan.material] += len(cut.plan.bars)
        cuts.append(replace(cut, kept=rack_lengths.kept(cut.plan, prefix, first=first)))
    return replace(job, lengths=tuple(cuts))


def of_set(whole: CuttingSet) -> list[dict[str, Any]]:
    """Return what cutting a set changes on the rack, material by material, for its manifest."""
    used: dict[str, list[str]] = {}
    kept: dict[str, list[dict[str, Any]]] = {}
    for plan in whole.plans:
        code = plan.good.code
        for stock in plan.stocks:
            used.setdefault(code, []).extend([stock.rack_label] if stock.rack_label else [])
            kept.setdefault(code, []).extend(
                {
                    "label": one.label,
                    "corners_mm": [list(corner) for corner in one.corners_mm],
                    "may_turn_over": one.may_turn_over,
                }
                for one in stock.kept
            )
    for job in whole.jobs:
        for cut in job.lengths:
            code = cut.plan.material
            used.setdefault(code, []).extend(cut.plan.from_rack)
            kept.setdefault(code, []).extend(
                {"label": one.label, "length_mm": one.length / 10} for one in cut.kept.values()
            )
    return [
        {"material": code, "used": used[code], "kept": kept[code]}
        for code in used
        if used[code] or kept[code]
    ]


@contextmanager
def reserved(rack: Rack, whole: CuttingSet, by: Holder) -> Iterator[tuple[str, ...]]:
    """Keep for a set's jobs what it takes from the rack, all or none, while its papers are written.

    Who comes second is refused before there are papers. Where the papers fail, what was kept for
    them alone is let go again.

    Raises
    ------
    RackError
        If something was taken by someone else meanwhile, or the rack cannot be changed.
    """
    labels = tuple(label for change in of_set(whole) for label in change["used"])
    if not labels:
        yield labels
        return
    before = {one.piece.label for one in rack.entries() if one.holder == by}
    rack.reserve(labels, by)
    try:
        yield labels
    except BaseException:
        rack.release([label for label in labels if label not in before], by)
        raise


def note_cut(
    rack: Rack, folder: Path, *, since: date, place: str = ""
) -> tuple[tuple[str, ...], tuple[RackPiece, ...]]:
    """Note that a set of papers was cut: what it took is used, what it left is on the rack.

    All of it in one step; return the labels used and what was put on the rack.

    Parameters
    ----------
    rack
        The rack.
    folder
        The folder the papers were written to.
    since
        The day of cutting.
    place
        Where the offcuts stand.

    Raises
    ------
    RackError
        If the folder holds no set of papers, the set is not for cutting, a file of it is missing
        or was changed, it was noted before, something was taken by someone else, or the rack
        cannot be changed.
    """
    manifest = _manifest(folder)
    _refuse_unreleased(manifest, folder)
    _refuse_incomplete(manifest, folder)
    try:
        by = Holder(job=manifest["job_code"], revision=manifest["revision"])
        cuttings = tuple(_cutting(change, since, place) for change in manifest["rack"])
    except (KeyError, TypeError, ValueError) as error:
        raise RackError(_no_set(folder)) from error
    rack.write_back(by, cuttings)
    return (
        tuple(label for one in cuttings for label in one.used),
        tuple(piece for one in cuttings for piece in one.kept),
    )


def _refuse_unreleased(manifest: Mapping[str, Any], folder: Path) -> None:
    if manifest.get("status") != FOR_CUTTING:
        raise RackError(
            f"The papers in {folder} are {manifest.get('status')}. Nothing was changed. Release "
            "the job, write its papers again, and book those as cut."
        )


def _refuse_incomplete(manifest: Mapping[str, Any], folder: Path) -> None:
    """Refuse a set one of whose files is gone or is not what was written."""
    hashes = manifest.get("sha256")
    if not isinstance(hashes, dict) or not hashes:
        raise RackError(_no_set(folder))
    for name, wanted in hashes.items():
        try:
            digest = hashlib.sha256((folder / str(name)).read_bytes()).hexdigest()
        except OSError:
            digest = ""
        if digest != wanted:
            what = "was changed" if digest else "is missing"
            raise RackError(
                f"{name} {what} in {folder}, so it is not sure what was cut from. Nothing was "
                "changed. Write the papers again, compare them with what was cut, and book them."
            )


def _cutting(change: Mapping[str, Any], since: date, place: str) -> Cutting:
    material = str(change["material"])
    return Cutting(
        material=material,
        used=tuple(str(label) for label in change["used"]),
        kept=tuple(_piece(one, material, since, place) for one in change["kept"]),
    )


def _piece(one: Mapping[str, Any], material: str, since: date, place: str) -> RackPiece:
    label = str(one["label"])
    if "length_mm" in one:
        length_mm = float(one["length_mm"])
        return RackPiece.of_length_mm(label, material, length_mm, since=since, place=place)
    return RackPiece.of_mm(
        label,
        material,
        [(float(x), float(y)) for x, y in one["corners_mm"]],
        since=since,
        place=place,
        may_turn_over=bool(one["may_turn_over"]),
    )


def _manifest(folder: Path) -> dict[str, Any]:
    try:
        manifest = json.loads((folder / folder_swap.MANIFEST).read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise RackError(_no_set(folder)) from error
    if not isinstance(manifest, dict) or manifest.get("made_by") != folder_swap.MADE_BY:
        raise RackError(_no_set(folder))
    return manifest


def _no_set(folder: Path) -> str:
    return (
        f"{folder} does not contain a set of papers with its {folder_swap.MANIFEST}. "
        "Nothing was changed. Choose a folder written by “papers”, “together” or “cut”."
    )
