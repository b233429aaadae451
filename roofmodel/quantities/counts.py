"""Counts that are more than a sum of drivers, by the names the recipes call them."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from roofmodel.buildups.material import Material
from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import CuttingError
from roofmodel.quantities import screws, tile_courses
from roofmodel.quantities.driver import Driver, Place
from roofmodel.quantities.gutter_run import GutterRun
from roofmodel.quantities.lengths import CutRuns
from roofmodel.quantities.tile_courses import TileCourses
from roofmodel.refit.refit import Refit

BRACKET_MM = 800.0
"""Farthest apart gutter brackets stand (common practice, no source)."""
CAP_COVER_M = 0.375
ROOF_WINDOWS = "roof windows"
"""The count of a job's windows of one material; every material of them gets a line of its own."""
MEMBRANE_UP_M = 0.15
"""Membrane up a wall, and over each side of a hip or ridge [m] (from memory of BS 5534)."""


VALLEY_STRIP_M = 1.0
"""Width of the strip of membrane under a valley [m] (common practice, no source)."""
FOLLOW_THE_BARS = frozenset(
    {
        "battens along the bars",
        "rows across the bars",
        "bar screws",
        "counter-batten screws",
        "lining screws",
    }
)
"""Counts that are not known while the bars of a facet are not entered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A count in the material's unit, the words of its formula, and where it comes from.

    ``cut`` is the plan it was cut from, where lengths are cut.
    """

    value: float
    words: str
    place: Place = field(default_factory=Place)
    cut: CutRuns | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Roofing:
    """What a count may look at."""

    refit: Refit
    drivers: Mapping[str, Driver]
    gutters: tuple[GutterRun, ...]
    cuts: Mapping[str, CutRuns]

    def value(self, name: str) -> float:
        """Return the value of a driver."""
        return self.drivers[name].value

    @property
    def tiles(self) -> tuple[TileCourses, ...]:
        """The courses of every covered facet; none without a covering of tiles."""
        layer = self.refit.layer("tile")
        if layer is None:
            return ()
        material = layer.material
        return tuple(
            tile_courses.of_facet(
                facet,
                cover_mm=material.cover_mm or 1.0,
                gauge_most_mm=material.gauge_most_mm or 1.0,
            )
            for facet in self.refit.cut_facets(layer)
        )


def lap_m(pitch_deg: float) -> float:
    """Return the lap of an underlay on open rafters or a deck [m], from memory of BS 5534."""
    if pitch_deg < 15.0 - tolerance.ANGLE_DEG:
        return 0.225
    return 0.150 if pitch_deg < 35.0 - tolerance.ANGLE_DEG else 0.100


def _tiles(roof: Roofing, _: Material) -> Counted:
    courses = roof.tiles
    return Counted(
        value=sum(one.count for one in courses),
        words=" + ".join(one.words for one in courses) or "no tiles in these layers",
        place=Place(facets=tuple(one.facet for one in courses)),
    )


def caps(roof: Roofing) -> int:
    """Return how many ridge and hip caps cover hips and ridge, before waste."""
    # Caps of hips and ridge are one purchase: the offcut of one line starts the next.
    return math.ceil((roof.value("hip_m") + roof.value("ridge_m")) / CAP_COVER_M - 1e-9)


def _caps(roof: Roofing, _: Material) -> Counted:
    hips, ridge = roof.drivers["hip_m"], roof.drivers["ridge_m"]
    words = f"({hips.printed} + {ridge.printed}) ÷ {CAP_COVER_M:g} m, whole"
    return Counted(value=caps(roof), words=words, place=hips.place + ridge.place)


def _membrane(roof: Roofing, material: Material) -> Counted:
    wide_m = (material.roll_width_mm or 1_500.0) / 1e3
    layer = roof.refit.layer("membrane")
    if layer is None:
        return Counted(value=0.0, words="no membrane in these layers")
    facets = roof.refit.cut_facets(layer)
    # A roll covers its width less the lap, and the lap depends on the pitch of each facet.
    laps = {lap_m(facet.pitch_deg) for facet in facets}
    area_m2 = sum(f.area_m2 * wide_m / (wide_m - lap_m(f.pitch_deg)) for f in facets)
    hips, ridge, wall = (roof.drivers[n] for n in ("hip_m", "ridge_m", "abutment_m"))
    valleys = roof.drivers["valley_m"]
    # Both sides lap over a hip or ridge, only one goes up a wall.
    over_m2 = MEMBRANE_UP_M * (2.0 * (hips.value + ridge.value) + wall.value)
    over_m2 += VALLEY_STRIP_M * valleys.value
    lap = " and ".join(f"{one * 1e3:g}" for one in sorted(laps))
    words = (
        f"outer surface × {wide_m:g} ÷ ({wide_m:g} − lap {lap} mm) + {MEMBRANE_UP_M:g} m each side "
        f"of {hips.printed} and {ridge.printed}, and up {wall.printed}"
    )
    if valleys.value:
        words += f", and a strip {VALLEY_STRIP_M:g} m wide down {valleys.printed}"
    place = Place(facets=tuple(f.name for f in facets)) + hips.place + ridge.place + wall.place
    return Counted(value=area_m2 + over_m2, words=words, place=place)


def _cut(name: str) -> Callable[[Roofing, Material], Counted]:
    def count(roof: Roofing, _: Material) -> Counted:
        cut = roof.cuts[name]
        if cut.fault:
            raise CuttingError(cut.fault)
        return Counted(value=cut.metres, words=cut.words, place=cut.place, cut=cut)

    return count


def _fascia_corners(roof: Roofing, _: Material) -> Counted:
    corners = roof.drivers["fascia_corners"]
    joints = roof.cuts["fascia and barge boards"].joints
    words = f"{corners.printed} + joints {joints}"
    return Counted(value=corners.value + joints, words=words, place=corners.place)


def _unions(roof: Roofing, _: Material) -> Counted:
    cut = roof.cuts["gutter"]
    return Counted(value=cut.joints, words=f"joints of the gutter {cut.joints}", place=cut.place)


def _brackets(roof: Roofing, _: Material) -> Counted:
    lengths = [length for run in roof.gutters for length in run.lengths_mm]
    joints = roof.cuts["gutter"].joints
    # A bracket at both ends of every straight length, and one on each side of a joint.
    posts = [math.ceil((length - 0.01) / BRACKET_MM) + 1 for length in lengths]
    words = f"{'+'.join(map(str, posts)) or '0'} at {BRACKET_MM:g} mm or less + 2 × joints {joints}"
    return Counted(
        value=sum(posts) + 2 * joints,
        words=words,
        place=roof.drivers["eaves_m"].place,
    )


def _downpipes(roof: Roofing, material: Material) -> Counted:
    high_m = roof.refit.site.roof.eaves_height_mm / 1e3
    stock_m = max(material.stock_lengths_mm, default=2_500.0) / 1e3
    outlets = int(roof.value("outlets") + roof.value("box_outlets"))
    # A downpipe is not pieced together from what another leaves: whole lengths for each.
    each = math.ceil(high_m / stock_m - 1e-9)
    words = f"{outlets} downpipes of {high_m:.2f} m, {each} × {stock_m:g} m each"
    return Counted(value=outlets * each * stock_m, words=words)


def _roof_windows(roof: Roofing, material: Material) -> Counted:
    refit = roof.refit
    windows = [
        one
        for one in refit.entry.roof_windows
        if one.facet in refit.facets and one.material == material.code
    ]
    place = Place(facets=tuple(dict.fromkeys(one.facet for one in windows)))
    return Counted(value=len(windows), words=f"roof windows {len(windows)}", place=place)


def _screwed(rule: screws.Rule) -> Callable[[Roofing, Material], Counted]:
    def count(roof: Roofing, _: Material) -> Counted:
        value, words, place = rule(
            screws.Job(
                refit=roof.refit,
                drivers=roof.drivers,
                tiles=sum(one.count for one in roof.tiles),
                caps=caps(roof),
            )
        )
        return Counted(value=value, words=words, place=place)

    return count


COUNTS: Mapping[str, Callable[[Roofing, Material], Counted]] = {
    "tiles": _tiles,
    "caps": _caps,
    "membrane": _membrane,
    **{
        name: _cut(name)
        for name in (
            "battens along the bars",
            "rows across the bars",
            "bearers",
            "plates",
            "rafters",
            "hips and ridge",
            "fascia and barge boards",
            "soffit",
            "gutter",
        )
    },
    "fascia corners and joints": _fascia_corners,
    "gutter unions": _unions,
    "gutter brackets": _brackets,
    "downpipes": _downpipes,
    ROOF_WINDOWS: _roof_windows,
    **{name: _screwed(rule) for name, rule in screws.RULES.items()},
}
