"""What an offer lacks before a customer may read it; while it lacks anything it is a draft."""

from datetime import date

from roofmodel.drawings.offer.offer_text import OfferText
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.pricing.price import Incomplete, Price
from roofmodel.workbench.offer import bills
from roofmodel.workbench.offer.offers import MethodOffer, Offer

INVENTED = "invented"
QUICK = (
    "Quick: a first price; sheets may be too many. Price the offer with usual effort before it "
    "goes out."
)
_SHOWN = 4
"""More names than this are counted instead of listed."""


def lacks(offer: Offer, text: OfferText, today: date, *, quick: bool = False) -> tuple[str, ...]:
    """Return, in whole sentences, everything that makes an offer a draft; none when it is ready.

    Parameters
    ----------
    offer
        The three methods, priced.
    text
        The words it is written with.
    today
        The day by which prices are stale.
    quick
        Whether sheets were searched for quickly only.
    """
    offered = [one for one in offer.methods if one.column.offered]
    missing = [QUICK] if quick else []
    missing += _of_the_firm(offer, text)
    if not offered:
        missing.append("No method can be offered on this roof. The gates say why.")
    for one in offered:
        missing += _of_method(offer, one, today)
    return tuple(dict.fromkeys(missing))


def _of_the_firm(offer: Offer, text: OfferText) -> list[str]:
    missing = []
    if INVENTED in " ".join((text.firm.name, text.firm.address, text.firm.note)).lower():
        missing.append("Name and address are those of the demonstration. Enter the firm's own.")
    for name, words in (("warranty", text.warranty), ("cancellation", text.cancellation)):
        if not words.strip():
            missing.append(f"The offer says nothing of {name}. Enter the firm's own words.")
    if offer.rates.source == INVENTED:
        missing.append("The rates are those supplied, which are invented. Enter the firm's own.")
    if not offer.drawn.job.customer.strip():
        missing.append("Nobody is named as the customer. Enter name and address.")
    return missing


def _of_method(offer: Offer, one: MethodOffer, today: date) -> list[str]:
    name, drawn = one.option.method.printed, offer.drawn
    missing = []
    if isinstance(one.price, Incomplete):
        missing.append(f"{name}: {one.price.text}.")
    if isinstance(one.price, Price) and one.price.below_cost:
        missing.append(f"{name}: the discount takes the price below what the job costs.")
    missing += [
        f"{name}, {check.name}: {check.reason} {check.remedy}".strip()
        for check in blocks.shipped().blocking(drawn.verdicts(one.option), Binding.PRICE)
    ]
    if one.bill is None:
        return missing
    stale = bills.stale(drawn, one.bill.bill, today)
    if stale:
        days = drawn.catalogue.stale_days
        missing.append(
            f"{name}: prices older than {days} days, {_listed(stale)}. Ask for new ones."
        )
    invented = tuple(
        line.code
        for line in one.bill.bill.lines
        if line.applies and line.price is not None and line.price.source == INVENTED
    )
    if invented:
        missing.append(f"{name}: invented prices, {_listed(invented)}. Enter the firm's own.")
    return missing


def _listed(codes: tuple[str, ...]) -> str:
    once = tuple(dict.fromkeys(codes))
    more = len(once) - _SHOWN
    return ", ".join(once[:_SHOWN]) + (f" and {more} more" if more > 0 else "")
