"""What a customer may add to a method: the job priced with it and without it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal

from roofmodel.pricing.offered_extra import OfferedExtra, WindowWanted
from roofmodel.pricing.price import Incomplete, Price, pence
from roofmodel.pricing.rates import HUNDRED
from roofmodel.refit import window_place
from roofmodel.workbench.job.reckoning import Drawn

Priced = Callable[[Drawn, int], Price | Incomplete]
"""The price of the chosen method of a job with so many lights more than it has."""

NOT_PRICED = "a price is missing"


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedExtra:
    """An extra on one method: what it adds to the price [GBP], or why it cannot be had.

    ``more`` is with VAT, ``more_ex_vat`` without; both are None where ``refused`` says why.
    """

    id: str
    name: str
    changes: str
    source: str
    more: Decimal | None = None
    more_ex_vat: Decimal | None = None
    refused: str = ""

    @property
    def words(self) -> str:
        """The price as it is printed, or why there is none."""
        return self.refused or (f"{signed(self.more)}" if self.more is not None else NOT_PRICED)


NO_ROOM_FOR_LIGHTS = "not without a deeper ceiling"
"""What a customer reads where lights would pierce the foil; the gate says by how much."""


def signed(amount: Decimal) -> str:
    """Return money that is added or taken off, with its sign."""
    return f"{'−' if amount < 0 else '+'}£{abs(amount):,.2f}"


def of_method(drawn: Drawn, price: Price, priced: Priced) -> tuple[PricedExtra, ...]:
    """Return every extra on the chosen method of a job; none of them is in the price.

    Parameters
    ----------
    drawn
        The job with the method as the chosen one.
    price
        What it costs without any extra.
    priced
        Prices the job changed by an extra.
    """
    offered = [
        _without_room(one, drawn) or _extra(one, drawn, price, priced)
        for one in drawn.tables.extras
        if drawn.option.method in one.methods
    ]
    return tuple(one for one in offered if one is not None)


def _without_room(one: OfferedExtra, drawn: Drawn) -> PricedExtra | None:
    """Return an extra refused because its lights have no room behind the ceiling, if that is so."""
    clash = next((report.depth for report in drawn.option.lights if report.depth), None)
    if not one.lights or clash is None:
        return None
    return PricedExtra(
        id=one.id, name=one.name, changes=one.changes, source=one.source, refused=NO_ROOM_FOR_LIGHTS
    )


def _extra(one: OfferedExtra, drawn: Drawn, price: Price, priced: Priced) -> PricedExtra | None:
    """Return an extra; None where the method has nothing it could change."""
    bare = PricedExtra(id=one.id, name=one.name, changes=one.changes, source=one.source)
    changed = drawn
    if one.window is not None:
        placed = _with_window(drawn, one.window)
        if isinstance(placed, str):
            return replace(bare, refused=placed)
        changed, facet = placed
        bare = replace(bare, changes=f"{one.changes}; in facet {facet}")
    if one.dearer:
        changed = changed.changed(
            drawn.option.method,
            refit=changed.job.refit,
            catalogue=one.catalogue(drawn.catalogue),
        )
    if changed.option.refused:
        return replace(bare, refused=changed.option.refused)
    dearer = priced(changed, one.lights)
    if isinstance(dearer, Incomplete):
        return replace(bare, refused=dearer.text)
    more, more_ex_vat = _more(price, dearer)
    return None if more == 0 else replace(bare, more=more, more_ex_vat=more_ex_vat)


def _more(price: Price, dearer: Price) -> tuple[Decimal, Decimal]:
    """Return what an extra adds with VAT and without, in the firm's steps where that leaves any.

    The difference is rounded, not taken between rounded prices: those of two methods would differ
    by a step for the same extra.
    """
    rates = price.rates
    more = dearer.worked_total - price.worked_total
    rounded = rates.rounded(more)
    if rounded in (more, 0):
        return more, dearer.worked_ex_vat - price.worked_ex_vat
    return rounded, pence(rounded * HUNDRED / (HUNDRED + rates.vat_percent))


def _with_window(drawn: Drawn, wanted: WindowWanted) -> tuple[Drawn, str] | str:
    """Return the job with one more window and the facet it is in, or why it has no place."""
    refit = drawn.option.refit
    if refit is None:
        return drawn.option.refused
    lights = [
        (report.facet, light.spot) for report in drawn.option.lights for light in report.wanted
    ]
    window = window_place.place(
        refit,
        material=wanted.material,
        size_mm=(wanted.width_mm, wanted.height_mm),
        lights=lights,
    )
    if isinstance(window, str):
        return window
    entry = drawn.job.refit
    more = replace(entry, roof_windows=(*entry.roof_windows, window))
    return drawn.changed(drawn.option.method, refit=more), window.facet
