"""Pieces put back on the roof as solids, by code that shares nothing with what wrote the papers.

All that is known of the roof is what the command `facts` prints: corners, sides, lines, bars and
layers; planes, bevels and outlines of layers are computed from it anew. Key plan and cut list say
what each piece is and where it lies. Each function returns faults as sentences; no fault is an
empty list.
"""

import math
import re
from dataclasses import dataclass
from itertools import combinations

import ezdxf
import numpy as np
import shapely
from scipy.optimize import linprog

HAIR_MM = 0.35
"""Rounding of corners to tenths and of bevels to hundredths of a degree, on 150 mm of depth."""
_SLICES = 8
_LEAST_SIDE_MM = 3.0
SHARED = ("hip", "ridge", "valley", "change of pitch")


@dataclass
class Face:
    """A facet: its axes in space, its own outline (u, v), and what each side of it is."""

    name: str
    origin: np.ndarray
    across: np.ndarray
    up: np.ndarray
    normal: np.ndarray
    corners: np.ndarray
    sides: list

    @property
    def pitch(self):
        return math.acos(self.normal[2])

    def flat(self, points):
        away = np.asarray(points) - self.origin
        return np.column_stack([away @ self.across, away @ self.up])

    def raised(self, flat, out_mm):
        flat = np.asarray(flat)
        plane = flat[:, :1] * self.across + flat[:, 1:] * self.up
        return self.origin + plane + out_mm * self.normal


@dataclass
class Laid:
    """A sheet layer: its figures, what it lies on, and the rules it is laid by."""

    layer: dict
    between: bool
    mitred: bool
    gap_mm: float
    wall_gap_mm: float

    @property
    def measured_mm(self):
        """Where its pieces are measured: linings on the room face, all else outside."""
        return self.layer[
            "inside_mm" if self.layer["outside_mm"] < 0.0 and not self.between else "outside_mm"
        ]

    @property
    def lifted_mm(self):
        return 0.0 if self.between else self.measured_mm

    @property
    def reach_in_mm(self):
        return self.measured_mm - self.layer["inside_mm"]


@dataclass
class Solid:
    """A piece on its facet: its outline (u, v) on the face it is measured on, and its leans."""

    row: object
    face: Face
    laid: Laid
    spots: np.ndarray
    leans: list

    @property
    def points(self):
        """Corners of both faces in space."""
        return np.vstack([self.face.raised(self.at(out), out) for out in self.outs])

    @property
    def outs(self):
        return (self.laid.layer["inside_mm"], self.laid.layer["outside_mm"])

    def at(self, out_mm):
        """Return the outline of the piece so far out."""
        deep = self.laid.measured_mm - out_mm
        return _moved(self.spots, [deep * math.tan(math.radians(lean)) for lean in self.leans])


@dataclass
class House:
    """What is known of a roof and one method on it."""

    faces: dict
    facts: dict
    width_mm: float
    level: bool
    seats: bool


def house(facts, *, width_mm, level=False, seats=False):
    """Return the roof of facts, its bars so wide.

    ``level``: bars along lines are measured from above; ``seats``: pieces lie on the bars, as
    panels do.
    """
    faces = {}
    for one in facts["facets"]:
        corners = np.array(one["corners_mm"])
        normal = sum(
            np.cross(a, b) for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True)
        )
        normal = normal / np.linalg.norm(normal)
        across = np.cross([0.0, 0.0, 1.0], normal)
        across = across / np.linalg.norm(across)
        faces[one["name"]] = Face(
            one["name"], corners[0], across, np.cross(normal, across), normal, corners, one["sides"]
        )
    return House(faces, facts, width_mm, level, seats)


def neighbour(home, face, number):
    """Return the facet on the other side of a side; None at an open one."""
    a, b = face.corners[number], face.corners[(number + 1) % len(face.corners)]
    for other in home.faces.values():
        if other is face:
            continue
        for c, d in zip(other.corners, np.roll(other.corners, -1, axis=0), strict=True):
            if max(np.linalg.norm(a - d), np.linalg.norm(b - c)) < 0.1:
                return other
    return None


def boundary(home, face, number, out_mm, layer):
    """Return the plane (normal, offset) a layer ends on along a side of a facet."""
    a, b = face.corners[number], face.corners[(number + 1) % len(face.corners)]
    other = neighbour(home, face, number)
    if other is not None:
        return other.normal, float(other.normal @ other.origin) + out_mm
    along = (b - a) / np.linalg.norm(b - a)
    away = np.cross(along, [0.0, 0.0, 1.0])
    away = away / np.linalg.norm(away)
    words, kind = layer["measured_on"], face.sides[number]
    shift = 0.0
    if kind in ("eaves", "box gutter"):
        shift += math.cos(face.pitch) * _figure(r"eaves overhang ([\d.]+)", words)
    if kind in ("eaves", "box gutter", "verge"):
        shift -= _figure(r"([\d.]+) inside eaves", words)
    return away, float(away @ a) + shift


def outline(home, face, out_mm, layer):
    """Return the outline (u, v) of a layer's surface on a facet, from planes only."""
    whole = sides_of(home, face, out_mm, layer)
    return None if whole is None else _clipped(home, face, whole, out_mm, layer)


def sides_of(home, face, out_mm, layer):
    """Return that outline side for side, as if facets met at every corner of the eaves."""
    count = len(face.corners)
    planes = [boundary(home, face, i, out_mm, layer) for i in range(count)]
    own = (face.normal, float(face.normal @ face.origin) + out_mm)
    corners = []
    for i in range(count):
        three = [own, planes[i - 1], planes[i]]
        rows, ends = np.array([p[0] for p in three]), np.array([p[1] for p in three])
        if abs(np.linalg.det(rows)) < 1e-6:
            return None
        corners.append(np.linalg.solve(rows, ends))
    return face.flat(np.array(corners))


def _clipped(home, face, flat, out_mm, layer):
    """Return an outline less what runs past the open side of a neighbour at a corner they share.

    Plumb cuts raise facets of unequal pitch by unequal amounts: a hip then leaves the corner.
    """
    shape = shapely.Polygon(flat)
    count = len(face.corners)
    for number in range(count):
        other = neighbour(home, face, number)
        if other is None:
            continue
        ends = (face.corners[number], face.corners[(number + 1) % count])
        for i in range(len(other.corners)):
            touches = min(
                np.linalg.norm(other.corners[j % len(other.corners)] - end)
                for j in (i, i + 1)
                for end in ends
            )
            if touches > 0.1 or neighbour(home, other, i) is not None:
                continue
            away, end = boundary(home, other, i, 0.0, layer)
            corner_pair = (other.corners[i], other.corners[(i + 1) % len(other.corners)])
            side = np.array(corner_pair)
            side = side + (end - side @ away)[:, None] * away
            if face.sides[number] == "hip":
                # At an outer corner the hip may leave past the end of that side, too.
                past = side - side[::-1]
                past = 300.0 * past / np.linalg.norm(past, axis=1)[:, None]
                near = [min(np.linalg.norm(spot - one) for one in ends) for spot in corner_pair]
                side = side + past * (np.array(near) < 0.1)[:, None]
            field = np.vstack([side, side[::-1] + 300.0 * away])
            level = face.normal @ face.origin + out_mm - field[:, :2] @ face.normal[:2]
            field[:, 2] = level / face.normal[2]
            shape = shape.difference(shapely.Polygon(face.flat(field)).buffer(0.0))
    shape = max(shapely.get_parts(shape), key=lambda one: one.area)
    return np.array(shapely.orient_polygons(shape).exterior.coords)[:-1]


def solids(home, papers, key_plan, laid):
    """Return every piece as a solid where the key plan has it, and faults of pieces not found."""
    found, faults = [], []
    shorts = [short for short in papers.kerf if any(r.sheet[0] == short for r in papers.rows)]
    for (across, boards), short in zip(_views(key_plan), shorts, strict=True):
        on = laid[short]
        edge = max(
            float(face.raised(shape, on.lifted_mm)[:, 0].max())
            for face in home.faces.values()
            if (shape := outline(home, face, on.lifted_mm, on.layer)) is not None
        )
        for row in (row for row in papers.rows if row.sheet[0] == short):
            face = home.faces[row.facet]
            spots, leans = _measured(row, on.layer["thickness_mm"])
            field = outline(home, face, on.lifted_mm, on.layer)
            placed = _place(face, spots, boards, edge + across, on.lifted_mm, field)
            if placed is None:
                faults.append(f"{row.mark} lies nowhere on the key plan")
                continue
            found.append(Solid(row, face, on, placed, leans))
    return found, faults


def clashes(home, pieces):
    """Return every place where a piece runs into another one, a bar, or a wall."""
    faults = []
    for piece in pieces:
        faults += _into_walls(piece)
        if piece.laid.between and not home.seats:
            faults += _into_bars(home, piece)
    boxes = [(piece.points.min(axis=0), piece.points.max(axis=0)) for piece in pieces]
    halves = [None] * len(pieces)
    for i, j in combinations(range(len(pieces)), 2):
        one, other = pieces[i], pieces[j]
        if one.face is other.face and one.laid is not other.laid:
            continue
        if (boxes[i][0] > boxes[j][1]).any() or (boxes[j][0] > boxes[i][1]).any():
            continue
        for k in (i, j):
            halves[k] = halves[k] or _convex(pieces[k])
        deep = max(_common_mm(p, q) for p in halves[i] for q in halves[j])
        if deep > HAIR_MM:
            faults.append(f"{one.row.mark} and {other.row.mark} are {deep:.2f} mm in one another")
    return faults


def wrong_bevels(home, pieces):
    """Return every bevel that is not what the planes say, and every side that lacks one."""
    faults = []
    for piece in pieces:
        for number, (a, b) in enumerate(_sides(piece.spots)):
            lean = piece.leans[number]
            if np.linalg.norm(b - a) < _LEAST_SIDE_MM:
                continue
            wanted = [0.0]
            if piece.laid.between:
                wanted = [0.0, _upright_deg(piece.face, a, b)] if lean else [lean]
            elif piece.laid.mitred:
                wanted = _mitre_deg(home, piece, a, b)
            # Corners are rounded to tenths: that turns a short side.
            hair = 0.02 + math.degrees(0.1 / np.linalg.norm(b - a))
            if min(abs(lean - one) for one in wanted) > hair or (lean and wanted == [0.0]):
                faults.append(
                    f"{piece.row.mark}: side {number + 1} is cut to {lean:.2f} degrees, planes say "
                    f"{', '.join(f'{one:.2f}' for one in wanted)}"
                )
    return faults


def bare(home, pieces):
    """Return every spot that a layer over the whole facet leaves uncovered, or sticks out of it."""
    for on in {id(piece.laid): piece.laid for piece in pieces if not piece.laid.between}.values():
        for face in home.faces.values():
            own = [piece for piece in pieces if piece.laid is on and piece.face is face]
            shape = outline(home, face, on.measured_mm, on.layer)
            if shape is None or not own or not shapely.Polygon(shape).is_valid:
                continue
            whole = shapely.Polygon(shape)
            lines = _sides(sides_of(home, face, on.measured_mm, on.layer))
            for a, b in _sides(shape):
                off = _left_clear_mm(home, face, _on_line(a, b, lines), (a, b), on)
                if off > 0.01:
                    whole = whole.difference(
                        shapely.LineString([a, b]).buffer(off, cap_style="square")
                    )
            boards = [shapely.Polygon(piece.spots) for piece in own]
            dilated = [b.buffer(on.gap_mm / 2 + 0.2, join_style="mitre") for b in boards]
            rest = whole.difference(shapely.union_all(dilated)).area
            over = shapely.union_all(boards).difference(whole.buffer(0.3, join_style="mitre")).area
            name = f"{own[0].row.sheet[0]} on {face.name}"
            if rest > 50.0:
                yield f"{name}: {rest:.0f} mm2 lie bare"
            if over > 50.0:
                yield f"{name}: {over:.0f} mm2 stick out"


def unfilled(home, pieces):
    """Return every spot between the bars wider than a hand that insulation leaves open."""
    for on in {id(piece.laid): piece.laid for piece in pieces if piece.laid.between}.values():
        for face in home.faces.values():
            own = [piece for piece in pieces if piece.laid is on and piece.face is face]
            if not own:
                continue
            whole = shapely.Polygon(face.flat(face.corners))
            strips = [_bar_strip(home, face, bar) for bar in _bars_on(home, face)]
            for number, (a, b) in enumerate(_sides(face.flat(face.corners))):
                strips.append(shapely.LineString([a, b]).buffer(_half_mm(home, face, number) + 6.0))
            boards = [shapely.Polygon(piece.spots).buffer(2.0) for piece in own]
            rest = whole.difference(shapely.union_all([*strips, *boards])).buffer(-30.0)
            if not rest.is_empty:
                yield f"{own[0].row.sheet[0]} on {face.name}: {rest.area:.0f} mm2 are not filled"


def _figure(pattern, words):
    found = re.search(pattern, words)
    return float(found.group(1)) if found else 0.0


def _sides(spots):
    return list(zip(spots, np.roll(spots, -1, axis=0), strict=True))


def _views(path):
    """Yield the left edge on paper and the outlines of boards, view by view, as they were drawn."""
    found = []
    last = None
    for entity in ezdxf.readfile(path).modelspace().query("LWPOLYLINE"):
        if not entity.closed:
            continue
        spots = np.array([(x, y) for x, y in entity.get_points("xy")])
        facet = entity.dxf.layer == "W-27ROF-E-LIN"
        if facet and last is not True:
            found.append([math.inf, []])
        if facet:
            found[-1][0] = min(found[-1][0], float(spots[:, 0].min()))
        elif entity.dxf.layer.endswith("-E-KEY"):
            found[-1][1].append(spots)
        else:
            continue
        last = facet
    return [tuple(view) for view in found]


def _measured(row, thickness_mm):
    """Return the face a piece is measured on, and the lean of each side, from its larger face."""
    leans = [row.bevels.get(number, 0.0) for number in range(len(row.corners))]
    steps = [max(0.0, thickness_mm * math.tan(math.radians(-lean))) for lean in leans]
    return _moved(np.array(row.corners), steps, side_for_side=True), leans


def _moved(spots, by_mm, *, side_for_side=False):
    """Return an outline whose sides are moved in by so much each."""
    if not any(by_mm):
        return spots
    sides = _sides(spots)
    lines = []
    for (a, b), by in zip(sides, by_mm, strict=True):
        along = (b - a) / np.linalg.norm(b - a)
        lines.append((a + by * np.array([-along[1], along[0]]), along))
    whole = shapely.Polygon(spots)
    if not side_for_side and whole.convex_hull.area - whole.area < 1e-3:
        big = max(map(abs, by_mm)) + 1.0
        shape = shapely.Polygon(spots).buffer(10.0 * big, join_style="mitre")
        for at, along in lines:
            far, inward = along * 1e5, np.array([-along[1], along[0]]) * 1e5
            shape = shape.intersection(
                shapely.Polygon([at - far, at + far, at + far + inward, at - far + inward])
            )
        return np.array(shapely.orient_polygons(shape).exterior.coords)[:-1]
    found = []
    for (at, along), (before, way) in zip(lines, [lines[-1], *lines[:-1]], strict=True):
        sine = way[0] * along[1] - way[1] * along[0]
        if abs(sine) < 0.02:
            found.append(at)
            continue
        off = at - before
        found.append(before + way * (off[0] * along[1] - off[1] * along[0]) / sine)
    return np.array(found)


def _place(face, spots, boards, zero, lifted_mm, field):
    """Take the board of that shape on a facet off the boards; return its outline there."""
    shape = spots - spots.min(axis=0)
    known = field is not None and shapely.Polygon(field).is_valid
    whole = shapely.Polygon(field if known else face.flat(face.corners)).buffer(1.0)
    for number, board in enumerate(boards):
        x, y = zero - board[:, 0], -board[:, 1]
        rise = face.normal @ face.origin + lifted_mm - face.normal[0] * x - face.normal[1] * y
        flat = face.flat(np.column_stack([x, y, rise / face.normal[2]]))
        there = flat - flat.min(axis=0)
        if np.abs(there.max(axis=0) - shape.max(axis=0)).max() > HAIR_MM:
            continue
        if shapely.Polygon(there).hausdorff_distance(shapely.Polygon(shape)) > HAIR_MM:
            continue
        if whole.contains(shapely.Point(flat.mean(axis=0))):
            del boards[number]
            return shape + flat.min(axis=0)
    return None


def _upright_deg(face, a, b):
    """Return how far an upright plane along a side leans off square, above 0 under the piece."""
    along = face.raised(np.array([b]), 0.0)[0] - face.raised(np.array([a]), 0.0)[0]
    along = along / np.linalg.norm(along)
    inward = np.cross(face.normal, along)
    level = np.cross([0.0, 0.0, 1.0], along)
    level = level / np.linalg.norm(level)
    # Points straight down from the side, seen in the plane square to it.
    return math.degrees(math.atan2(float(level @ face.normal), float(level @ inward)))


def _half_deg(home, face, number):
    """Return half the angle to the facet beyond a side, above 0 where they fall away."""
    other = neighbour(home, face, number)
    if other is None:
        return 0.0
    turn = math.degrees(math.acos(np.clip(face.normal @ other.normal, -1.0, 1.0)))
    # Into the other facet, square to the line they share: it runs there from end to start.
    back = face.corners[number] - face.corners[(number + 1) % len(face.corners)]
    return math.copysign(turn / 2.0, -float(face.normal @ np.cross(other.normal, back)))


def _mitre_deg(home, piece, a, b):
    """Return what a side of a mitred board is cut to: half the angle, on a line facets share."""
    on = piece.laid
    shape = sides_of(home, piece.face, on.measured_mm, on.layer)
    if shape is None:
        return [piece.leans[[tuple(x) for x, _ in _sides(piece.spots)].index(tuple(a))]]
    number = _on_line(a, b, _sides(shape))
    shared = number is not None and piece.face.sides[number] in SHARED
    return [_half_deg(home, piece.face, number) if shared else 0.0]


def _on_line(a, b, lines):
    """Return the number of the line that a side lies on; None for none."""
    for number, (c, d) in enumerate(lines):
        along = (d - c) / np.linalg.norm(d - c)
        off = [abs(along[0] * (e - c)[1] - along[1] * (e - c)[0]) for e in (a, b)]
        if max(off) < 0.3 and abs(along @ (b - a)) > 0.3:
            return number
    return None


def _left_clear_mm(home, face, number, side, on):
    if number is None:
        return 0.0
    if face.sides[number] == "house wall":
        lean = math.radians(_upright_deg(face, *side))
        return on.wall_gap_mm + max(0.0, on.reach_in_mm * math.tan(lean))
    if on.mitred or face.sides[number] not in SHARED:
        return 0.0
    slant = math.tan(math.radians(_half_deg(home, face, number)))
    return max(on.reach_in_mm * slant, (on.layer["thickness_mm"] - on.reach_in_mm) * -slant)


def _into_walls(piece):
    for number, kind in enumerate(piece.face.sides):
        if kind != "house wall":
            continue
        a, b = (piece.face.corners[n % len(piece.face.corners)] for n in (number, number + 1))
        along = (b - a) / np.linalg.norm(b - a)
        away = np.cross(along, [0.0, 0.0, 1.0])
        away = away / np.linalg.norm(away)
        by = (piece.points - a) @ along
        near = piece.points[(by > -1.0) & (by < np.linalg.norm(b - a) + 1.0)]
        deep = float(((near - a) @ away).max(initial=-math.inf))
        if deep > HAIR_MM:
            yield f"{piece.row.mark} runs {deep:.2f} mm into the house wall"


def _bars_on(home, face):
    listed = home.facts["new_timbers"] or home.facts
    kinds = ("rafter", "jack", "starter")
    return [
        b for b in listed["bars"] if b["facet"] == face.name and b["kind"] in kinds and "at_mm" in b
    ]


def _bar_strip(home, face, bar, extra_mm=6.0):
    at = bar["at_mm"] + _origin_u(home, face)
    shape = shapely.Polygon(face.flat(face.corners))
    low, high = shape.bounds[1] - 1.0, shape.bounds[3] + 1.0
    half = home.width_mm / 2.0 + extra_mm
    strip = shapely.box(at - half, low, at + half, high).intersection(shape.buffer(1.0))
    # A bar of that place stands on one stretch of the facet only.
    wanted = bar["length_mm"]
    parts = [p for p in shapely.get_parts(strip) if p.area > 1.0]
    return min(parts, key=lambda p: abs(p.bounds[3] - p.bounds[1] - wanted), default=strip)


def _origin_u(home, face):
    """Return where the zero of the facet's printed outline lies along its own axis."""
    printed = next(f for f in home.facts["facets"] if f["name"] == face.name)["outline_mm"]
    return float(face.flat(face.corners)[0][0] - printed[0][0])


def _half_mm(home, face, number):
    """Return what of a facet the bar along one of its sides takes, at its outside [mm]."""
    kind = face.sides[number]
    half = home.width_mm / 2.0
    if kind not in ("hip", "ridge", "valley"):
        return half if kind in ("verge", "house wall") else 0.0
    if not home.level:
        return half
    a, b = face.corners[number], face.corners[(number + 1) % len(face.corners)]
    along = (b - a) / np.linalg.norm(b - a)
    inward = np.cross(face.normal, along)
    level = np.cross([0.0, 0.0, 1.0], along)
    level = level / np.linalg.norm(level)
    return half / abs(float(level @ inward))


def _into_bars(home, piece):
    """Yield the bars a piece runs into: upright along lines, square to the facet up the slope."""
    face = piece.face
    for number, kind in enumerate(face.sides):
        if kind not in ("hip", "ridge", "valley"):
            continue
        half = _half_mm(home, face, number)
        count = len(face.corners)
        a, b = face.corners[number], face.corners[(number + 1) % count]
        along = (b - a) / np.linalg.norm(b - a)
        level = np.cross([0.0, 0.0, 1.0], along)
        level = level / np.linalg.norm(level)
        inward = np.cross(face.normal, along)
        clear = half * float(level @ inward)
        points = piece.points
        by = (points - a) @ along
        near = points[(by > 1.0) & (by < np.linalg.norm(b - a) - 1.0)]
        deep = clear - float(((near - a) @ level).min(initial=math.inf))
        if deep > HAIR_MM:
            yield f"{piece.row.mark} runs {deep:.2f} mm into the bar along a {kind}"
    for bar in _bars_on(home, face):
        strip = _bar_strip(home, face, bar, extra_mm=-HAIR_MM)
        for out in piece.outs:
            common = shapely.Polygon(piece.at(out)).intersection(strip)
            if common.area > 20.0:
                yield f"{piece.row.mark} runs over the bar {bar['mark']} by {common.area:.0f} mm2"
                break


def _convex(piece):
    """Return a piece as convex bodies, each as half spaces (normals, ends).

    One with an inner corner is cut in slices, each as large as what both its faces have in common.
    """
    low, high = piece.outs
    whole = shapely.Polygon(piece.spots)
    if whole.convex_hull.area - whole.area < 1.0:
        sides = [(a, b, n) for (a, b), n in zip(_sides(piece.spots), piece.leans, strict=True)]
        return [_half_spaces(piece.face, sides, (low, high), piece.laid.measured_mm)]
    found = []
    for k in range(_SLICES):
        between = tuple(low + (high - low) * (k + one) / _SLICES for one in (0, 1))
        first, second = (shapely.Polygon(piece.at(out)).buffer(0.0) for out in between)
        for part in shapely.get_parts(shapely.constrained_delaunay_triangles(first & second)):
            ring = np.array(shapely.orient_polygons(part).exterior.coords)[:-1]
            sides = [(a, b, 0.0) for a, b in _sides(ring)]
            found.append(_half_spaces(piece.face, sides, between, between[1]))
    return found


def _half_spaces(face, sides, outs_mm, at_mm):
    """Return the half spaces between two faces and beyond no side (start, end, lean) at a level."""
    base = float(face.normal @ face.origin)
    rows, ends = [face.normal, -face.normal], [base + outs_mm[1], -base - outs_mm[0]]
    for a, b, lean in sides:
        start, end = face.raised(np.array([a, b]), at_mm)
        along = (end - start) / np.linalg.norm(end - start)
        out = -np.cross(face.normal, along) - math.tan(math.radians(lean)) * face.normal
        rows.append(out)
        ends.append(float(out @ start))
    return np.array(rows), np.array(ends)


def _common_mm(one, other):
    """Return the diameter of the largest ball in both bodies [mm]; below 0 where they are apart."""
    rows, ends = (np.concatenate(both) for both in zip(one, other, strict=True))
    sizes = np.linalg.norm(rows, axis=1)[:, None]
    found = linprog(
        [0.0, 0.0, 0.0, -1.0],
        A_ub=np.hstack([rows, sizes]),
        b_ub=ends,
        bounds=[(None, None)] * 3 + [(-1e3, 1e3)],
    )
    return 2.0 * float(found.x[3]) if found.status == 0 else -1.0
