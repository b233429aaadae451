"""A folder of papers as a stranger reads it: drawings against lists, with code of its own.

It shares nothing with what writes them, so that it may be asked about files changed by hand. Each
fault is a sentence that names sheet, piece and millimetres.
"""

import csv
import json
import math
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path

import ezdxf.filemanagement
import shapely
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.lldxf.const import DXFError
from shapely import affinity

from roofmodel.foundation.errors import DrawingError

_HAIR_MM = 0.16
"""Rounding of lists to tenths and of drawings, together, at both ends."""

_CORNERS = "Corners, outside face up, eaves at the bottom [no: right up mm]"
_BEVELS = "Bevels [side from corner no: deg off square]"


@dataclass(frozen=True, slots=True)
class ListedPiece:
    """A piece as the cut list has it; ``outline`` lies where the list puts it on its sheet."""

    mark: str
    hand: str
    sheet: str
    outline: shapely.Polygon
    corners: tuple[tuple[float, float], ...]
    bevels_deg: Mapping[int, float]


@dataclass(frozen=True, slots=True)
class DrawnSheet:
    """A sheet as its drawing has it: the board, and the outlines on a layer for cutting."""

    board: shapely.Polygon
    loops: tuple[shapely.Polygon, ...]
    kerf_mm: float
    trim_mm: float


@dataclass(frozen=True, slots=True)
class Folder:
    """What was read of a folder: pieces of its list, sheets by their names."""

    pieces: tuple[ListedPiece, ...]
    sheets: Mapping[str, DrawnSheet]


def read(folder: Path, saws: Mapping[str, tuple[float, float]]) -> Folder:
    """Read the cut list and the drawings of all sheets.

    Parameters
    ----------
    folder
        The papers.
    saws
        Saw cut and trimmed edge of every material by the short name in its files [mm].

    Raises
    ------
    DrawingError
        If a list or a drawing cannot be read, naming it.
    """
    lists = sorted(folder.rglob("*-cut-list.csv"))
    if len(lists) != 1:
        raise DrawingError(
            f"{folder} holds {len(lists)} cut lists, not one. Name the folder of one set of papers."
        )
    try:
        lines = csv.DictReader(lists[0].read_text(encoding="utf-8-sig").splitlines())
        pieces = tuple(_piece(line) for line in lines)
    except (OSError, ValueError, KeyError, AttributeError) as error:
        raise DrawingError(
            f"{lists[0].name} is not a cut list as it was written: {error}. Restore it."
        ) from error
    sheets = {}
    for path in sorted(folder.rglob("*.dxf")):
        found = re.search(r"-((?:sheet-\d+)|(?:rack-.+))\.dxf$", path.name)
        short = next((s for s in saws if found and f"-{s}-{found.group(1)}" in path.name), None)
        if found is not None and short is not None:
            sheets[f"{short} {found.group(1)}"] = _sheet(path, saws[short])
    return Folder(pieces, sheets)


def faults(folder: Folder) -> list[str]:
    """Return what is wrong between the list and the drawings, and on the sheets themselves."""
    twice = [mark for mark, n in Counter(one.mark for one in folder.pieces).items() if n > 1]
    return [
        *(f"{mark} stands in the list more than once." for mark in twice),
        *(fault for name in _names(folder) for fault in _on_sheet(folder, name)),
        *(fault for name, sheet in folder.sheets.items() for fault in _apart(name, sheet)),
        *(fault for piece in folder.pieces for fault in _hand(piece)),
    ]


def missing(
    folder: Folder,
    wanted: Mapping[str, tuple[Sequence[tuple[float, float]], Mapping[int, float]]],
) -> list[str]:
    """Return what differs between the list and the pieces a roof needs.

    ``wanted`` has corners [mm] and bevels [°] of every piece by its mark.
    """
    listed = {piece.mark: piece for piece in folder.pieces}
    sentences = [f"{mark} is missing." for mark in sorted(wanted.keys() - listed.keys())]
    sentences += [
        f"{listed[mark].sheet}: {mark} is not a piece of this roof and revision."
        for mark in sorted(listed.keys() - wanted.keys())
    ]
    for mark in sorted(wanted.keys() & listed.keys()):
        piece, (corners, bevels) = listed[mark], wanted[mark]
        off = _apart_mm(piece.corners, corners)
        if off > _HAIR_MM:
            sentences.append(f"{piece.sheet}: {mark} is {off:.1f} mm off its size.")
        turned = [
            abs(piece.bevels_deg.get(side, 0.0) - bevels.get(side, 0.0))
            for side in piece.bevels_deg.keys() | bevels.keys()
        ]
        if max(turned, default=0.0) > 0.011:
            sentences.append(f"{piece.sheet}: {mark} has a bevel {max(turned):.2f}° off.")
    return sentences


def _apart_mm(one: Sequence[tuple[float, float]], other: Sequence[tuple[float, float]]) -> float:
    if len(one) != len(other):
        return float(shapely.Polygon(one).hausdorff_distance(shapely.Polygon(other)))
    return max(math.dist(a, b) for a, b in zip(one, other, strict=True))


def _piece(line: Mapping[str, str]) -> ListedPiece:
    corners = []
    for spot in line[_CORNERS].split("; "):
        x, y = spot.split(": ")[1].split()
        corners.append((float(x), float(y)))
    shape = shapely.Polygon(corners)
    if line["Turned over"] == "yes":
        shape = affinity.scale(shape, -1.0, 1.0, origin=(0.0, 0.0))
    shape = affinity.rotate(shape, float(line["Turned on sheet [deg]"]), origin=(0.0, 0.0))
    least_x, least_y, _, _ = shape.bounds
    right, up = (float(line[f"From {side} of sheet [mm]"]) for side in ("left", "bottom"))
    short = line["Mark"].rsplit("-", 3)[1]
    sheet = line["Sheet"]
    on = f"sheet-{int(sheet):02d}" if sheet.isdigit() else f"rack-{_in_files(sheet)}"
    bevels = {}
    for one in filter(None, line[_BEVELS].split("; ")):
        found = re.match(r"(\d+): ([\d.]+) (\w+)", one)
        if found is None:
            raise ValueError(f"bevel “{one}”")
        degrees = float(found.group(2)) * (1 if found.group(3) == "undercut" else -1)
        bevels[int(found.group(1)) - 1] = degrees
    return ListedPiece(
        mark=line["Mark"],
        hand=line["Hand"],
        sheet=f"{re.sub(r'[^A-Za-z0-9]+', '-', short)} {on}",
        outline=affinity.translate(shape, right - least_x, up - least_y),
        corners=tuple(corners),
        bevels_deg=bevels,
    )


def _in_files(label: str) -> str:
    return re.sub(r"[^A-Za-z0-9.+]+", "-", label)


def _sheet(path: Path, saw: tuple[float, float]) -> DrawnSheet:
    boards, loops = [], []
    try:
        for entity in ezdxf.filemanagement.readfile(path).modelspace().query("LWPOLYLINE"):
            assert isinstance(entity, LWPolyline), "the query asks for nothing else"
            spots = [(float(x), float(y)) for x, y in entity.get_points("xy")]
            if entity.closed and entity.dxf.layer.endswith("-E-BRD"):
                boards.append(shapely.Polygon(spots))
            if entity.closed and entity.dxf.layer.endswith(("-E-CUT", "-E-DRF")):
                loops.append(shapely.Polygon(spots))
    except (OSError, DXFError, ValueError) as error:
        raise DrawingError(f"{path.name} cannot be read: {error}. Restore it.") from error
    if len(boards) != 1:
        raise DrawingError(f"{path.name} has {len(boards)} outlines of its board, not one.")
    return DrawnSheet(boards[0], tuple(loops), *saw)


def _names(folder: Folder) -> list[str]:
    return sorted({piece.sheet for piece in folder.pieces} | folder.sheets.keys())


def _on_sheet(folder: Folder, name: str) -> Iterator[str]:
    """Yield pieces that are not drawn where the list has them, and outlines no piece has."""
    pieces = [piece for piece in folder.pieces if piece.sheet == name]
    if name not in folder.sheets:
        yield f"{name}: there is no drawing, {len(pieces)} pieces are cut from it."
        return
    left = list(folder.sheets[name].loops)
    for piece in pieces:
        found = min(left, key=piece.outline.hausdorff_distance, default=None)
        off = math.inf if found is None else float(piece.outline.hausdorff_distance(found))
        if found is None or off > piece.outline.length / 4.0:
            yield f"{name}: {piece.mark} is not drawn."
            continue
        left.remove(found)
        if off > _HAIR_MM:
            yield f"{name}: {piece.mark} is drawn {off:.1f} mm off what the list says."
    if left:
        yield f"{name}: {len(left)} outlines are drawn that no piece of the list has."


def _apart(name: str, sheet: DrawnSheet) -> Iterator[str]:
    """Yield pairs closer than the saw cut, and outlines on the trimmed edge or off the board."""
    for one, other in combinations(sheet.loops, 2):
        apart = float(one.distance(other))
        if apart < sheet.kerf_mm - _HAIR_MM:
            x, y = one.intersection(other.buffer(sheet.kerf_mm)).representative_point().coords[0]
            yield (
                f"{name}: two pieces are {apart:.1f} mm apart near {x:.0f} right, {y:.0f} up; "
                f"the saw takes {sheet.kerf_mm:g} mm."
            )
    usable = sheet.board.buffer(_HAIR_MM - sheet.trim_mm, join_style="mitre")
    for loop in sheet.loops:
        if not usable.covers(loop):
            off = float(max(shapely.Point(spot).distance(usable) for spot in loop.exterior.coords))
            yield f"{name}: a piece runs {off:.1f} mm into the edge that is trimmed, or beyond it."


def _hand(piece: ListedPiece) -> Iterator[str]:
    """Yield a piece whose hand is not what its outline says: cut-away left is L, right is R."""
    marked = piece.mark.rsplit("-", 3)[2]
    if piece.hand != marked:
        yield f"{piece.sheet}: {piece.mark} is listed as {piece.hand} and marked {marked}."
        return
    shape = shapely.Polygon(piece.corners)
    left, _, right, _ = shape.bounds
    aside = shape.centroid.x - (left + right) / 2.0
    # Bevels decide between halves that are alike; a slight lean may be either.
    if abs(aside) > 0.02 * (right - left) and piece.hand in "LR" and piece.hand != (
        "L" if aside > 0 else "R"
    ):  # fmt: skip
        yield f"{piece.sheet}: {piece.mark} is called {piece.hand} and lies the other way round."


def manifest(folder: Path) -> Mapping[str, object]:
    """Return the manifest of a folder, from which the materials' saw cuts are read.

    Raises
    ------
    DrawingError
        If there is none that can be read.
    """
    path = folder / "plan.json"
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise DrawingError(
            f"{folder} holds no {path.name} that can be read. Name a folder of papers."
        ) from error
    return dict(found)
