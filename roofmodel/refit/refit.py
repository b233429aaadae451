"""One method applied to one roof: its layers on their own surfaces, its bars and its bays."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit import rafters, stack, surface
from roofmodel.refit.entry import RefitEntry
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.method import Method
from roofmodel.refit.stack import MethodStack, Placed
from roofmodel.refit.surface import Surface
from roofmodel.shapes.bars import bar_layout, bay, members
from roofmodel.shapes.bars.bay import Bay, Fit
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.bars.members import Before, FacetBars, Members
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import Facet, Roof
from roofmodel.survey.taped.standing import Standing

NEW = "N"
"""Stands after the job in marks of new timbers: ``J04-N-F1-R2`` beside the old ``J04-F1-R2``."""

ASSUMED_BAR_DEPTH_MM = 75.0
"""Depth of the bars until it is read (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The roof as it stands: what a method is applied to."""

    roof: Roof
    footprint: Footprint
    members: Members
    standing: Standing
    job_code: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """A method on a roof; every figure of it is measured on the surface it really lies on.

    ``members`` are the bars the layers lie on: the kept ones, or the rafters of a new roof.
    ``bays`` are the pieces between them, net of bars and gap. ``facets`` names what is covered.
    """

    site: Site
    entry: RefitEntry
    default: MethodStack
    layers: tuple[Placed, ...]
    members: Members
    bays: tuple[Bay, ...]
    facets: tuple[str, ...]
    bar_depth_mm: float
    surfaces: Mapping[int, Surface] = field(default_factory=dict)

    @property
    def method(self) -> Method:
        """The method."""
        return self.default.method

    @property
    def depth_inside_mm(self) -> float:
        """From the datum in to the face the room sees [mm]."""
        return -min(layer.inside_mm for layer in self.layers)

    @property
    def depth_outside_mm(self) -> float:
        """From the datum out to the top of the covering [mm]."""
        return max(0.0, max(layer.outside_mm for layer in self.layers))

    @property
    def covered_facets(self) -> tuple[Facet, ...]:
        """The covered facets as they are on the datum."""
        return tuple(f for f in self.site.roof.facets if f.name in self.facets)

    def layer(self, category: str) -> Placed | None:
        """Return the outermost layer of a category of material, such as deck or tile."""
        of_category = [layer for layer in self.layers if layer.material.category == category]
        return of_category[-1] if of_category else None

    def area_m2(self, layer: Placed) -> float:
        """Return the area of a layer on its own surface; of one between bars, that of its bays."""
        if layer.layer.lie is Lie.BETWEEN and self.bays:
            return sum(one.area_m2 for one in self.bays)
        if layer.number in self.surfaces:
            return self.surfaces[layer.number].area_m2(self.facets)
        return sum(facet.area_m2 for facet in self.covered_facets)

    def cut_facets(self, layer: Placed) -> tuple[Facet, ...]:
        """Return the facets boards of a layer are laid on, as they are on its surface."""
        if layer.number in self.surfaces:
            return self.surfaces[layer.number].facets(self.facets)
        return self.covered_facets

    def supports_mm(self, layer: Placed) -> Mapping[str, tuple[float, ...]]:
        """Return where bars and bearers carry a layer, facet by facet in its own frame [mm].

        Only what lies outside the bars is carried by them.
        """
        if layer.layer.zone is not Zone.OUTSIDE:
            return {}
        by_facet = {}
        for facet in self.cut_facets(layer):
            known = self.members.of_facet(facet.name)
            if known is not None:
                own = self.site.roof.facet(facet.name)
                at = bar_layout.on_layer(known.layout, own, facet).centres_mm
                bearers = _bearers_mm(at, facet, self.entry.bearers_per_bay)
                by_facet[facet.name] = tuple(sorted([*at, *bearers]))
        return by_facet

    def bearers_mm(self, facet: Facet) -> tuple[float, ...]:
        """Return where bearers stand on a facet of the datum, along its frame [mm]."""
        known = self.members.of_facet(facet.name)
        if known is None:
            return ()
        return _bearers_mm(known.layout.centres_mm, facet, self.entry.bearers_per_bay)


def apply(
    method: Method,
    site: Site,
    entry: RefitEntry,
    catalogue: Catalogue,
    *,
    like: Refit | None = None,
    stacks: Mapping[Method, MethodStack] | None = None,
) -> Refit:
    """Return a method applied to a roof.

    ``like`` is the same method with the same entry on the same or another roof: what does not
    depend on where the two sites differ is taken over instead of computed anew. ``stacks`` is what
    each method lays by the firm's presets; by the shipped ones, or those of ``like``, without it.

    Raises
    ------
    DimensionError
        If a layer's material is unknown, the layers are out of order or lie too far from the
        datum, or a facet that is to stay glazed does not exist.
    """
    default = like.default if like is not None else (stacks or stack.shipped())[method]
    facets = _covered(site.roof, entry)
    depth_mm = _bar_depth_mm(default, site.standing)
    layers = stack.placed(
        entry.layers_of(method) or default.layers, catalogue, bar_depth_mm=depth_mm
    )
    same_plan = like is not None and like.site.footprint is site.footprint
    # New rafters stand where the roof says, whatever the old bars did.
    new = default.new_bars is not None
    same_bars = like is not None and same_plan and (new or like.site.members is site.members)
    if like is not None and same_bars:
        bars, bays = like.members, like.bays
    else:
        bars = _members(default, site, entry, like)
        bays = _bays(method, site, bars, entry, facets)
    return Refit(
        site=site,
        entry=entry,
        default=default,
        layers=layers,
        members=bars,
        bays=bays,
        facets=facets,
        bar_depth_mm=stack.zone_depth_mm(layers, depth_mm),
        surfaces=like.surfaces
        if like is not None and same_plan and like.layers == layers
        else surface.surfaces(layers, site.footprint, entry, datum=site.roof),
    )


def _covered(roof: Roof, entry: RefitEntry) -> tuple[str, ...]:
    names = [facet.name for facet in roof.facets]
    faults = [
        Fault(f"{path}", f"There is no facet {name}.", f"Choose from {', '.join(names)}.")
        for path, name in [
            *((f"kept_glazed.{i}", name) for i, name in enumerate(entry.kept_glazed)),
            *((f"roof_windows.{i}.facet", w.facet) for i, w in enumerate(entry.roof_windows)),
        ]
        if name not in names
    ]
    covered = tuple(name for name in names if name not in entry.kept_glazed)
    if not covered and not faults:
        text = "Every facet is set to stay glazed, so there is nothing to do."
        faults.append(Fault("kept_glazed", text, "Remove at least one facet from the list."))
    if faults:
        raise DimensionError(faults)
    return covered


def _bar_depth_mm(default: MethodStack, standing: Standing) -> float:
    if default.new_bars is not None:
        return default.new_bars.depth_mm
    return standing.bar_depth_mm or ASSUMED_BAR_DEPTH_MM


def _members(default: MethodStack, site: Site, entry: RefitEntry, like: Refit | None) -> Members:
    if default.new_bars is None:
        return site.members
    new = default.new_bars
    spacing_mm = entry.rafter_spacing_mm or new.spacing_mm
    widths = replace(BarWidths.alike(new.width_mm), from_above=True)
    rows = [FacetBars(rafters.layout(f, spacing_mm), widths) for f in site.roof.facets]
    fit = Fit(gap_mm=entry.fitting_gap_mm)
    # No new timber carries the mark of an old bar, which may lie beside it in the yard.
    before = None if like is None else Before(like.site.roof, like.members)
    job_code = f"{site.job_code}-{NEW}"
    return members.of_layouts(site.roof, rows, fit, job_code=job_code, before=before)


def with_material(refit: Refit, material: Material, *, thicker_mm: float = 0.0) -> Refit:
    """Return a refit whose layers of one code are of another material, each so much thicker.

    Made to see what a tolerance moves: surfaces and bars stay where they are, because a millimetre
    moves an area by less than a ten-thousandth.
    """
    layers = stack.with_material(
        refit.layers, material, thicker_mm=thicker_mm, bar_depth_mm=refit.bar_depth_mm
    )
    depth_mm = stack.zone_depth_mm(layers, refit.bar_depth_mm)
    return replace(refit, layers=layers, bar_depth_mm=depth_mm)


def bays_at(refit: Refit, gap_mm: float) -> tuple[Bay, ...]:
    """Return the bays of a refit as they would be with another fitting gap [mm]."""
    entry = replace(refit.entry, fitting_gap_mm=gap_mm)
    return _bays(refit.method, refit.site, refit.members, entry, refit.facets)


def _bays(
    method: Method, site: Site, bars: Members, entry: RefitEntry, facets: tuple[str, ...]
) -> tuple[Bay, ...]:
    fit = bay.panel_fit() if method is Method.PANEL_SWAP else Fit(gap_mm=entry.fitting_gap_mm)
    if fit == bars.fit:
        return tuple(piece for piece in bars.bays if piece.facet in facets)
    return tuple(
        piece
        for one in bars.facet_bars
        if one.facet in facets
        for piece in bay.facet_bays(
            site.roof.facet(one.facet), one.layout, one.widths, fit, job_code=site.job_code
        )
    )


def _bearers_mm(at_mm: tuple[float, ...], facet: Facet, bearers: int) -> tuple[float, ...]:
    """Return the places of bearers, equally spaced between bars and the facet's ends [mm]."""
    ends = facet.outline_mm[:, 0]
    places = sorted({float(ends.min()), *at_mm, float(ends.max())})
    return tuple(
        a + (b - a) * i / (bearers + 1) for a, b in pairwise(places) for i in range(1, bearers + 1)
    )
