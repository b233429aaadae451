"""The members of a whole roof: bars up the slopes, bars along its lines, and the bays between."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.shapes.bars import bar, bay, roof_bar
from roofmodel.shapes.bars.bar import Bar, BarKind
from roofmodel.shapes.bars.bar_layout import BarLayout
from roofmodel.shapes.bars.bay import Bay, Fit
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.bars.roof_bar import RoofBar
from roofmodel.shapes.roof import Facet, Roof


@dataclass(frozen=True, slots=True)
class FacetBars:
    """Where the bars of one facet stand and how wide they are."""

    layout: BarLayout
    widths: BarWidths

    @property
    def facet(self) -> str:
        """Name of the facet."""
        return self.layout.facet


@dataclass(frozen=True, slots=True, kw_only=True)
class FacetMembers:
    """What stands on one facet: its bars and the bays between them."""

    facet_bars: FacetBars
    bars: tuple[Bar, ...]
    bays: tuple[Bay, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Members:
    """Bars up the slopes, bars along the roof's lines, and every bay, with their marks.

    ``fit`` is what the bays are cut to; None where there are none.
    """

    bars: tuple[Bar, ...] = ()
    roof_bars: tuple[RoofBar, ...] = ()
    bays: tuple[Bay, ...] = ()
    facet_bars: tuple[FacetBars, ...] = ()
    fit: Fit | None = None

    @property
    def sloping_mm(self) -> tuple[tuple[str, float], ...]:
        """Mark and length of every bar up a slope, starters among them [mm]."""
        return (
            *((one.mark, one.line_length_mm) for one in self.bars),
            *(
                (one.mark, one.line_length_mm)
                for one in self.roof_bars
                if one.kind is BarKind.STARTER
            ),
        )

    def of_facet(self, name: str) -> FacetBars | None:
        """Return the bars of a facet, None where none were given."""
        return next((one for one in self.facet_bars if one.facet == name), None)

    def on(self, name: str) -> FacetMembers | None:
        """Return what stands on a facet, None where no bars were given."""
        row = self.of_facet(name)
        if row is None:
            return None
        return FacetMembers(
            facet_bars=row,
            bars=tuple(one for one in self.bars if one.facet == name),
            bays=tuple(one for one in self.bays if one.facet == name),
        )

    def spacing_mm(self, facet: Facet) -> float | None:
        """Return the widest distance between neighbouring bars of a facet [mm]; None without."""
        known = self.of_facet(facet.name)
        if known is None:
            return None
        ends = facet.outline_mm[:, 0]
        places = [float(ends.min()), *known.layout.centres_mm, float(ends.max())]
        return max(b - a for a, b in pairwise(places))


@dataclass(frozen=True, slots=True)
class Before:
    """Members already made on a roof: a facet that is the same still has the same."""

    roof: Roof
    members: Members

    def on(self, facet: Facet, row: FacetBars, fit: Fit) -> FacetMembers | None:
        """Return what stands on a facet with such bars; None where it has to be made."""
        if self.members.fit != fit or self.members.of_facet(facet.name) != row:
            return None
        if all(facet != other for other in self.roof.facets):
            return None
        return self.members.on(facet.name)


def of_layouts(
    roof: Roof,
    facet_bars: Sequence[FacetBars],
    fit: Fit,
    *,
    job_code: str,
    before: Before | None = None,
) -> Members:
    """Return bars, roof bars and bays of a roof.

    Parameters
    ----------
    roof
        The roof whose facets the bars stand on.
    facet_bars
        Layout and widths, one for each facet that has bars.
    fit
        What is left free round every piece cut to a bay.
    job_code
        First part of every mark.
    before
        Members of the same job on this or another roof, taken over where nothing differs.

    Raises
    ------
    DimensionError
        If bars overlap or leave no bay.
    """
    facets = [of_facet(roof, one, fit, job_code=job_code, before=before) for one in facet_bars]
    return of_facets(roof, facets, fit, job_code=job_code)


def of_facet(
    roof: Roof, facet_bars: FacetBars, fit: Fit, *, job_code: str, before: Before | None = None
) -> FacetMembers:
    """Return bars and bays of one facet; arguments and errors as `of_layouts`."""
    facet = roof.facet(facet_bars.facet)
    kept = None if before is None else before.on(facet, facet_bars, fit)
    if kept is not None:
        return kept
    layout, widths = facet_bars.layout, facet_bars.widths
    return FacetMembers(
        facet_bars=facet_bars,
        bars=bar.facet_bars(facet, layout, widths, job_code=job_code),
        bays=bay.facet_bays(facet, layout, widths, fit, job_code=job_code),
    )


def of_facets(roof: Roof, facets: Sequence[FacetMembers], fit: Fit, *, job_code: str) -> Members:
    """Return the members of a roof whose facets have theirs; what is added stands on its lines."""
    if not facets:
        return Members()
    rows = tuple(one.facet_bars for one in facets)
    along = roof_bar.roof_bars(
        roof, [row.layout for row in rows], rows[0].widths, job_code=job_code
    )
    return Members(
        bars=tuple(one for facet in facets for one in facet.bars),
        roof_bars=along,
        bays=tuple(one for facet in facets for one in facet.bays),
        facet_bars=rows,
        fit=fit,
    )
