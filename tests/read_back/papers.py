"""Papers read back by code that shares nothing with what wrote them: files in, faults out.

Only ezdxf, shapely, csv and json look at the folder. Each function returns faults as sentences that
name sheet, piece and millimetres; no fault is an empty list.
"""

import csv
import json
import math
import re
from dataclasses import dataclass, field
from itertools import combinations
from pathlib import Path

import ezdxf
import shapely
from shapely import affinity

HAIR_MM = 0.08
"""Rounding of lists to tenths, and of drawings, together."""


@dataclass
class Row:
    """One piece of the cut list."""

    mark: str
    hand: str
    sheet: tuple
    outline: shapely.Polygon
    corners: list
    bevels: dict
    status: str
    set_id: str
    facet: str


@dataclass
class Sheet:
    """One sheet or offcut: its board, loops, cuts, jigsaw pieces and what is kept."""

    board: shapely.Polygon
    loops: list
    cuts: list = field(default_factory=list)
    jigsaw: list = field(default_factory=list)
    kept: dict = field(default_factory=dict)


@dataclass
class Papers:
    """One folder."""

    rows: list
    sheets: dict
    manifest: dict
    kerf: dict


def read(folder):
    """Return the papers of a folder."""
    folder = Path(folder)
    manifest = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    (cut_list,) = folder.rglob("*-cut-list.csv")
    (order,) = folder.rglob("*-cut-order.csv")
    shorts = {}
    rows = []
    for line in _csv(cut_list):
        short = _short(line["Mark"])
        shorts[line["Material"]] = short
        rows.append(_row(line, short))
    sheets = {}
    for path in folder.rglob("*.dxf"):
        named = re.search(r"-([^-]+(?:-[^-]+)*?)-(sheet-(\d+)|rack-(.+))\.dxf$", path.name)
        if named is None or path.name.endswith("-r12.dxf"):
            continue
        short = next(s for s in shorts.values() if f"-{_in_files(s)}-{named.group(2)}" in path.name)
        key = (short, str(int(named.group(3))) if named.group(3) else named.group(4))
        sheets[key] = _sheet(path)
    for line in _csv(order):
        sheet = sheets[line["Material"], _in_key(line["Sheet"])]
        if line["What"] == "cut":
            sheet.cuts.append(line)
        elif line["What"] == "jigsaw":
            sheet.jigsaw.append(line["Mark"])
        else:
            spots = line["Corners of what is kept [right up mm]"].split("; ")
            sheet.kept[line["Mark"]] = shapely.Polygon(
                [tuple(map(float, spot.split())) for spot in spots]
            )
    kerf = {shorts[plan["name"]]: plan["kerf_mm"] for plan in manifest["plans"]}
    return Papers(rows, sheets, manifest, kerf)


def faults(papers):
    """Return every fault of a set that its files show by themselves."""
    return [
        *_outlines(papers),
        *_apart(papers),
        *_hands(papers),
        *(fault for key in papers.sheets for fault in _cut_up(papers, key)),
    ]


def _csv(path):
    return list(csv.DictReader(path.read_text(encoding="utf-8-sig").splitlines()))


def _short(mark):
    return mark.rsplit("-", 3)[1]


def _in_files(short):
    return re.sub(r"[^A-Za-z0-9]+", "-", short)


def _in_key(name):
    return name if name.isdigit() else re.sub(r"[^A-Za-z0-9.+]+", "-", name)


def _row(line, short):
    corners = [
        tuple(map(float, spot.split(": ")[1].split()))
        for spot in line["Corners, outside face up, eaves at the bottom [no: right up mm]"].split(
            "; "
        )
    ]
    shape = shapely.Polygon(corners)
    if line["Turned over"] == "yes":
        shape = affinity.scale(shape, -1.0, 1.0, origin=(0.0, 0.0))
    shape = affinity.rotate(shape, float(line["Turned on sheet [deg]"]), origin=(0.0, 0.0))
    left, low, _, _ = shape.bounds
    x, y = float(line["From left of sheet [mm]"]), float(line["From bottom of sheet [mm]"])
    bevels = {}
    for one in filter(None, line["Bevels [side from corner no: deg off square]"].split("; ")):
        number, degrees, way = re.match(r"(\d+): ([\d.]+) (\w+)", one).groups()
        bevels[int(number) - 1] = float(degrees) * (1 if way == "undercut" else -1)
    return Row(
        mark=line["Mark"],
        hand=line["Hand"],
        sheet=(short, _in_key(line["Sheet"])),
        outline=affinity.translate(shape, x - left, y - low),
        corners=corners,
        bevels=bevels,
        status=line["Status"],
        set_id=line["Set"],
        facet=line["Facet"],
    )


def _sheet(path):
    """Return board and contours of a drawing; contours lie on a cut layer, or on its draft."""
    boards, loops = [], []
    for entity in ezdxf.readfile(path).modelspace().query("LWPOLYLINE"):
        spots = [(x, y) for x, y in entity.get_points("xy")]
        if entity.closed and entity.dxf.layer.endswith("-E-BRD"):
            boards.append(shapely.Polygon(spots))
        if entity.closed and entity.dxf.layer.endswith(("-E-CUT", "-E-DRF")):
            loops.append(shapely.Polygon(spots))
    (board,) = boards
    return Sheet(board, loops)


def _outlines(papers):  # noqa: C901 - one sentence after another
    """Every piece of the list is one loop of its sheet, turned and mirrored as the list says."""
    for key, sheet in papers.sheets.items():
        rows = [row for row in papers.rows if row.sheet == key]
        if len(rows) != len(sheet.loops):
            yield f"{key}: {len(sheet.loops)} loops for {len(rows)} pieces"
        left = list(sheet.loops)
        for row in rows:
            found = min(left, key=row.outline.hausdorff_distance, default=None)
            off = math.inf if found is None else row.outline.hausdorff_distance(found)
            if off > 2 * HAIR_MM:
                yield f"{key}: {row.mark} is drawn {off:.2f} mm from where the list has it"
            elif not found.exterior.is_ccw:
                yield f"{key}: {row.mark} runs clockwise"
            if found is not None:
                left.remove(found)
        live = any(row.status != "FOR CUTTING" for row in rows)
        if live and papers.manifest["status"] == "FOR CUTTING":
            yield f"{key}: the list and the manifest differ in status"
    marks = [row.mark for row in papers.rows]
    if len(set(marks)) < len(marks):
        yield "a mark stands twice in the list"


def _apart(papers):
    """A saw cut between all pieces, larger faces taken, and all of them on the board."""
    for (short, name), sheet in papers.sheets.items():
        kerf = papers.kerf[short]
        for a, b in combinations(sheet.loops, 2):
            if a.distance(b) < kerf - HAIR_MM:
                yield f"{short} {name}: two pieces are {a.distance(b):.2f} mm apart"
        for loop in sheet.loops:
            if not sheet.board.buffer(HAIR_MM).covers(loop):
                yield f"{short} {name}: a piece leaves the board"


def _hands(papers):
    """L has its cut-away at the left looking up the slope: its centre of area lies to the right."""
    for row in papers.rows:
        shape = shapely.Polygon(row.corners)
        left, _, right, _ = shape.bounds
        aside = shape.centroid.x - (left + right) / 2.0
        own_image = row.hand == "N" and _is_own_image(row.corners)
        if abs(aside) > 1.0 and row.hand != ("L" if aside > 0 else "R") and not own_image:
            yield f"{row.mark} lies {aside:.1f} mm to one side and is called {row.hand}"


def _is_own_image(corners):
    """Return whether a shape, read backwards from some corner, has the same sides and diagonals."""
    count = len(corners)
    apart = [[math.dist(a, b) for b in corners] for a in corners]
    return any(
        all(
            abs(apart[i][j] - apart[(shift - i) % count][(shift - j) % count]) < 0.5
            for i in range(count)
            for j in range(count)
        )
        for shift in range(count)
    )


def _cut_up(papers, key):  # noqa: C901, PLR0912, PLR0915 - one sheet, sawn step by step
    """Saw the board up as the list says: nothing that is wanted is run into, all comes free."""
    sheet, kerf = papers.sheets[key], papers.kerf[key[0]]
    rows = {row.mark: row for row in papers.rows if row.sheet == key}
    left = [sheet.board]
    for line in sheet.cuts:
        ends = [
            (float(line[f"{end} right [mm]"]), float(line[f"{end} up [mm]"]))
            for end in ("From", "To")
        ]
        out = tuple(float(line[f"Blade beside the line, {way}"]) for way in ("right", "up"))
        tilt = float(line["Tilt [deg off square, above 0 in under the piece]"] or 0.0)
        own = rows.get(line["Mark"])
        blade = _strip(ends, out, kerf)
        name = f"{key}: cut {line['Step']}"
        for mark, row in rows.items():
            again = row is own and line["Second pass"] == "yes"
            # Along a side that leans out, what lies beyond the line is the inside face's.
            if not again and (row is not own or tilt >= 0.0):
                bitten = blade.intersection(row.outline).area / max(1.0, blade.length / 2)
                if bitten > HAIR_MM:
                    yield f"{name} runs {bitten:.2f} mm into {mark}"
        for label, kept in sheet.kept.items():
            bitten = blade.intersection(kept).area / max(1.0, blade.length / 2)
            if bitten > HAIR_MM:
                yield f"{name} runs {bitten:.2f} mm into the offcut {label}"
        if tilt:
            yield from _tilted(name, own, tilt)
        if line["Second pass"] != "yes":
            left = list(_parted(left, ends, out, kerf, own, tilt))
    bevelled = {(m, i) for m, row in rows.items() for i in row.bevels if m not in sheet.jigsaw}
    tilted = sum(
        bool(line["Tilt [deg off square, above 0 in under the piece]"]) for line in sheet.cuts
    )
    if tilted != len(bevelled):
        yield f"{key}: {len(bevelled)} bevelled sides, {tilted} tilted cuts"
    wanted = {**{m: row.outline for m, row in rows.items()}, **sheet.kept}
    for name, shape in wanted.items():
        home = max(left, key=lambda panel, shape=shape: panel.intersection(shape).area)
        if shape.difference(home.buffer(2 * HAIR_MM)).area > 1.0:
            yield f"{key}: {name} does not come off in one piece"
        strangers = [
            other
            for other, that in wanted.items()
            if other != name and home.buffer(-HAIR_MM).intersection(that).area > 20.0
        ]
        if strangers and not {name, *strangers} <= set(sheet.jigsaw):
            yield f"{key}: {name} is not parted from {', '.join(strangers)}"


def _tilted(name, own, tilt):
    """A tilted cut belongs to a piece that has a side of just that bevel, leaning that way."""
    if own is None:
        yield f"{name} is tilted and sets no piece free"
    elif not any(abs(bevel - tilt) < 0.011 for bevel in own.bevels.values()):
        yield f"{name} is tilted {tilt:.2f}°, which no side of {own.mark} is"


def _strip(ends, out, kerf):
    # A hair off both its sides: sides that nearly coincide upset the library's overlay.
    hair, deep = 0.02, kerf - 0.04
    (x0, y0), (x1, y1) = ((x + out[0] * hair, y + out[1] * hair) for x, y in ends)
    dx, dy = out[0] * deep, out[1] * deep
    return shapely.Polygon([(x0, y0), (x1, y1), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy)])


def _parted(panels, ends, out, kerf, own, tilt):
    """Yield the panels after a cut through the one it lies in."""
    line = shapely.LineString(ends)
    middle = line.interpolate(0.5, normalized=True)
    cut = min(panels, key=lambda panel: (round(panel.distance(middle), 3), panel.area))
    long = 1e4
    (x0, y0), (x1, y1) = ends
    size = math.dist(*ends)
    ax, ay = (x1 - x0) / size * long, (y1 - y0) / size * long
    far = [(x0 - ax, y0 - ay), (x1 + ax, y1 + ay)]
    # Where the blade leans out, the inside face still needs what lies beyond the line.
    reach = kerf
    keep = 0.0
    if own is not None and tilt < 0.0:
        inner = [(x - x0) * out[0] + (y - y0) * out[1] for x, y in own.outline.exterior.coords]
        keep = max(0.0, max(inner))
        reach += keep
    near = _half(far, (-out[0], -out[1]), -keep)
    beyond = _half(far, out, reach)
    for panel in panels:
        if panel is not cut:
            yield panel
            continue
        for half in (near, beyond):
            yield from (p for p in shapely.get_parts(panel.intersection(half)) if p.area > 1e-3)


def _half(line, way, off):
    """Return the half plane on one side of a line, so far off it."""
    (x0, y0), (x1, y1) = line
    ox, oy, dx, dy = way[0] * off, way[1] * off, way[0] * 1e5, way[1] * 1e5
    return shapely.Polygon(
        [(x0 + ox, y0 + oy), (x1 + ox, y1 + oy), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy)]
    )
