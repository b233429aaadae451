"""Random footprints in five classes, repeatable by seed; counter-clockwise, in millimetres."""

import itertools

import numpy as np
import shapely

STEP_MM = 1000.0
PITCHES_DEG = (15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0)


def convex(rng, count):
    """Points on an ellipse."""
    angles = np.sort(rng.uniform(0, 2 * np.pi, count))
    return rng.uniform(2000, 6000) * np.c_[
        np.cos(angles) * rng.uniform(0.5, 1), np.sin(angles)
    ]  # fmt: skip


def star(rng, count):
    """Points at any distance round a centre."""
    angles = np.sort(rng.uniform(0, 2 * np.pi, count))
    return rng.uniform(800, 6000, count)[:, np.newaxis] * np.c_[np.cos(angles), np.sin(angles)]


def concave(rng, count):
    """Scattered points, joined in an order that is untangled until nothing crosses."""
    points = rng.uniform(0, 10_000, (count, 2))
    for _ in range(500):
        crossed = _first_crossing(points)
        if crossed is None:
            break
        i, j = crossed
        points[i + 1 : j + 1] = points[i + 1 : j + 1][::-1]
    return points


def rectilinear(rng, count):
    """A block of equal squares: many corners meet at one level, many eaves lie in one line."""
    cells = {(0, 0)}
    while len(cells) < max(2, count // 2):
        x, y = sorted(cells)[rng.integers(len(cells))]
        dx, dy = ((1, 0), (-1, 0), (0, 1), (0, -1))[rng.integers(4)]
        cells.add((x + dx, y + dy))
    block = shapely.union_all([shapely.box(x, y, x + 1, y + 1) for x, y in cells]).simplify(0)
    if block.geom_type != "Polygon" or block.interiors:
        return None
    return STEP_MM * shapely.get_coordinates(block)[:-1]


def nearly_regular(rng, count):
    """A regular polygon whose corners are off by anything from a tenth of a nanometre to 1 mm."""
    angles = 2 * np.pi * np.arange(count) / count
    return 4000 * np.c_[np.cos(angles), np.sin(angles)] + rng.normal(
        0, 10 ** rng.uniform(-7, 0), (count, 2)
    )


CLASSES = {
    "convex": convex,
    "star": star,
    "concave": concave,
    "rectilinear": rectilinear,
    "nearly regular": nearly_regular,
}


def valid(make, *, seed, most):
    """Yield simple footprints of 3 to ``most`` corners, none of them closer than 1 mm."""
    rng = np.random.default_rng(seed)
    while True:
        points = make(rng, int(rng.integers(3, most + 1)))
        if points is None:
            continue
        outline = shapely.Polygon(points)
        edges = np.linalg.norm(np.roll(points, -1, axis=0) - points, axis=1)
        if outline.is_valid and outline.area > 1e5 and edges.min() >= 1.0:
            points = points if outline.exterior.is_ccw else points[::-1]
            yield [(float(x), float(y)) for x, y in points], rng


def some(make, *, seed, number, equal, most=16):
    """Return footprints with pitches, the pitches equal or drawn for each edge."""
    found = []
    for corners, rng in itertools.islice(valid(make, seed=seed, most=most), number):
        count = len(corners)
        pitches = [25.0] * count if equal else [float(p) for p in rng.choice(PITCHES_DEG, count)]
        found.append((corners, pitches))
    return found


def _first_crossing(points):
    count = len(points)
    for i in range(count - 1):
        one = shapely.LineString([points[i], points[i + 1]])
        for j in range(i + 2, count if i else count - 1):
            if one.intersects(shapely.LineString([points[j], points[(j + 1) % count]])):
                return i, j
    return None
