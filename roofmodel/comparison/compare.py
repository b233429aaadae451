"""What the customer chooses between: one column for each method, the same rows for all."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from roofmodel.pricing.price import Incomplete, Price
from roofmodel.programme.schedule import Schedule
from roofmodel.refit.method import Method

Entry = Callable[["Column"], str]
"""What a row says of a column."""

EX_VAT, VAT, TOTAL = "Price without VAT", "VAT", "Price with VAT"
DISCOUNT = "Discount, taken off already"
FEES = "Fees on top, without VAT"
FIRM = "Is the price firm?"
ALL_IN = "All in, fees and VAT"
"""Labels of the rows of money; what shows them live finds them by these."""
DAYS_WHY = "How the days are worked out"
"""For the firm, and not for the customer's paper."""
NOT_HERE = "not on this roof"
NOT_KNOWN = "not known yet"
TO_FOLLOW = "to follow, once all is measured"
"""What a customer reads where the firm still has something to enter."""
INDICATIVE = "indicative"


_PLAIN = (
    ("load: snow", "the load of snow"),
    ("load", "whether the frame carries the weight"),
    ("member", "the strength of the timbers"),
    ("frame", "the straps that hold the roof down"),
    ("thermal", "the insulation building control asks for"),
    ("mould", "damp on the inside of the bars"),
    ("dew point", "damp on the inside of the bars"),
    ("condensation", "damp inside the roof"),
    ("vapour", "the ventilation of the roof"),
    ("rainwater", "gutters and downpipes"),
    ("pitch", "the pitch of the roof"),
    ("headroom", "the height of ceiling and doors"),
    ("deck", "supports for the boards"),
    ("fixings", "supports for the boards"),
    ("stock", "boards that are sold so large"),
    ("lights", "where the lights go"),
    ("bars", "the bars as they stand"),
    ("survey", "a second measurement"),
    ("fire", "fire safety"),
    ("openings", "doors and windows of the room"),
    ("planning", "planning permission"),
    ("party wall", "the neighbour's wall"),
    ("access", "safe access to the roof"),
    ("safety", "who answers for safety"),
)
"""What gates are about, as a customer would say it, by how their names begin; the first counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One method on the roof.

    ``price`` and ``programme`` are None where the method is refused. ``indications`` are
    (label, words) of what is no promise: heat, noise, light. ``gangs`` are (men, days on site)
    for gangs of other sizes; ``refused_because`` says why a refused method is, without
    what the firm is to do; ``failing`` are the gates that fail, ``also`` what this job has beside
    the usual; ``not_firm`` what must be settled before the price binds.
    """

    method: Method
    refused: str
    kept: str
    replaced: str
    layers: tuple[str, ...]
    depth_mm: float | None
    headroom_lost_mm: float | None
    price: Price | Incomplete | None
    programme: Schedule | None
    approvals: tuple[str, ...]
    indications: tuple[tuple[str, str], ...] = ()
    gangs: tuple[tuple[int, int], ...] = ()
    also: tuple[str, ...] = ()
    refused_because: str = ""
    failing: tuple[str, ...] = ()
    internal: bool = True
    not_firm: tuple[str, ...] = ()

    @property
    def for_customer(self) -> "Column":
        """The column as a customer reads it: none of what the firm still has to enter."""
        known = tuple(one for one in self.indications if NOT_KNOWN not in one[1])
        shown = self.refused_because or TO_FOLLOW if self.refused else ""
        return replace(self, internal=False, indications=known, refused=shown)

    @property
    def buildable(self) -> str:
        """Whether the method can be built here, by its gates."""
        if self.refused:
            return self.refused
        if self.failing:
            named = self.failing if self.internal else tuple(map(_plainly, self.failing))
            return f"yes, once this is settled: {', '.join(dict.fromkeys(named))}"
        return "yes"

    @property
    def offered(self) -> bool:
        """Whether the method can be built here."""
        return not self.refused

    @property
    def price_words(self) -> str:
        """The price including VAT, what is missing, or that there is none."""
        match self.price:
            case Price():
                return f"£{self.price.total:,.2f}"
            case Incomplete():
                return self.price.text if self.internal else TO_FOLLOW
            case _:
                return NOT_HERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the comparison: its label and one entry for each column."""

    label: str
    entries: tuple[str, ...]


def rows(columns: Sequence[Column]) -> tuple[Row, ...]:
    """Return the rows of the comparison, in the order a customer reads."""
    shown = [
        _row("Can it be built here?", columns, lambda c: c.buildable),
        _row("What stays", columns, lambda c: c.kept),
        _row("What is new or replaced", columns, lambda c: c.replaced),
        _row("Thickness", columns, _depth),
        _row("Ceiling comes down by", columns, _headroom),
    ]
    labels = dict.fromkeys(label for column in columns for label, _ in column.indications)
    shown += [_row(f"{label} ({INDICATIVE})", columns, _said(label)) for label in labels]
    if any(column.also for column in columns):
        shown.append(_row("Also included", columns, lambda c: "; ".join(c.also) or "-"))
    discounted = any(isinstance(c.price, Price) and c.price.discount for c in columns)
    return (
        *shown,
        _row("Days on site", columns, _days),
        _row(DAYS_WHY, columns, _explained),
        _row("Approvals", columns, lambda c: "; ".join(c.approvals) or "-"),
        *([_row(DISCOUNT, columns, _discount)] if discounted else []),
        _row(EX_VAT, columns, _ex_vat),
        _row(VAT, columns, _vat),
        _row(TOTAL, columns, lambda c: c.price_words),
        _row(FIRM, columns, _firm),
        _row(FEES, columns, _apart),
        _row(ALL_IN, columns, _all_in),
    )


def _plainly(gate: str) -> str:
    """Return a gate as a customer calls what it is about."""
    found = (words for begins, words in _PLAIN if gate.startswith(begins))
    return next(found, "what building control asks for")


def _row(label: str, columns: Sequence[Column], entry: Entry) -> Row:
    return Row(label=label, entries=tuple(entry(column) for column in columns))


def _depth(column: Column) -> str:
    return "-" if column.depth_mm is None else f"{column.depth_mm:.0f} mm"


def _headroom(column: Column) -> str:
    lost = column.headroom_lost_mm
    return "-" if lost is None else (f"{lost:.0f} mm" if lost else "nothing")


def _days(column: Column) -> str:
    programme = column.programme
    if programme is None:
        return "-"
    days = "1 day" if programme.days == 1 else f"{programme.days} days"
    return f"{days}, {programme.crew.words}"


def _explained(column: Column) -> str:
    if column.programme is None:
        return "-"
    others = ", ".join(
        (
            f"{men} {'installer' if men == 1 else 'installers'} {days} "
            f"{'day' if days == 1 else 'days'}"
        )
        for men, days in column.gangs
        if men != column.programme.crew.installers
    )
    return f"{column.programme.explained} {f'Otherwise: {others}.' if others else ''}".strip()


def _ex_vat(column: Column) -> str:
    return f"£{column.price.ex_vat:,.2f}" if isinstance(column.price, Price) else "-"


def _discount(column: Column) -> str:
    price = column.price
    return f"£{price.discount:,.2f}" if isinstance(price, Price) and price.discount else "-"


def _vat(column: Column) -> str:
    return f"£{column.price.vat:,.2f}" if isinstance(column.price, Price) else "-"


def _firm(column: Column) -> str:
    """Return whether the price binds, or what has to be settled first."""
    if not isinstance(column.price, Price):
        return "-"
    if not column.not_firm:
        return "yes"
    if not column.internal:
        return "not yet; something has to be measured or settled first"
    return f"not yet; first settle {', '.join(column.not_firm)}"


def _apart(column: Column) -> str:
    """Return what is paid apart: building control, engineer, provisional sums."""
    if not isinstance(column.price, Price):
        return "-"
    return f"about £{column.price.shown_apart:,.2f}" if column.price.shown_apart else "none"


def _all_in(column: Column) -> str:
    """Return what all of it comes to: the price and the fees, both with VAT, to whole pounds."""
    price = column.price
    return f"about £{price.all_in:,.0f}" if isinstance(price, Price) else "-"


def _said(label: str) -> Entry:
    return lambda column: dict(column.indications).get(label, "-")
