"""One order for each supplier, with all he needs to fill it: as PDF, CSV and workbook.

Order lists (`order_list`) say what a job takes of whom; an order is what goes out: who orders,
reference, where and when to deliver, whom to ring, colours, and of each line size or length, pack,
what is taken off the van first, and what is left to order at which price.
"""

import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from openpyxl import Workbook
from openpyxl.styles import Font
from openpyxl.worksheet.properties import PageSetupProperties

from roofmodel.drawings.lists import order_list
from roofmodel.drawings.lists.take_off_list import ENCODING
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Stamp
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import PdfPages
from roofmodel.drawings.pdf.pdf_table import Column, Listing
from roofmodel.foundation import csv_text
from roofmodel.pricing.material_cost import Costed
from roofmodel.pricing.supplier import Suppliers
from roofmodel.programme.working_days import Nation

__all__ = ["ASK", "ENCODING", "Head", "Order", "OrderLine", "orders", "pages", "text", "workbook"]

ASK = "not entered: ask before this goes out"
"""Stands where the job does not say what a supplier has to know."""

HEADINGS = (
    "Code",
    "Material",
    "Size or length",
    "Needed",
    "From the van",
    "Order",
    "Pack",
    "Price each [GBP ex VAT]",
    "Amount [GBP ex VAT]",
)
_STAMP = Stamp(status="ORDER: check every size on site before it goes out")
_PENNY = Decimal("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """What stands above every order of a job.

    ``firm`` and ``deliver_to`` are lines; ``first_day`` is the day goods are needed on site.
    """

    heading: Heading
    method: str
    firm: tuple[str, ...]
    deliver_to: tuple[str, ...]
    colours: str
    ordered_on: date
    first_day: date
    nation: Nation


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """A line of an order: whole packs needed, taken off the van, and left to order.

    ``each`` is the price of one of what is ordered [GBP ex VAT], None where it is not known.
    """

    code: str
    name: str
    size: str
    pack: str
    needed: int
    from_van: int
    each: Decimal | None

    @property
    def ordered(self) -> int:
        """How many are ordered."""
        return self.needed - self.from_van

    @property
    def amount(self) -> Decimal | None:
        """What they cost, to the penny."""
        if self.each is None:
            return None
        return (self.each * self.ordered).quantize(_PENNY, rounding=ROUND_HALF_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What one supplier delivers to a job."""

    supplier: str
    lead: str
    lines: tuple[OrderLine, ...]
    head: Head

    @property
    def reference(self) -> str:
        """What the supplier quotes: job, revision and his own short name."""
        heading = self.head.heading
        return f"{heading.job_code}-{heading.revision}-{self.file_word}"

    @property
    def file_word(self) -> str:
        """The supplier as part of a file name."""
        words = self.supplier.partition(",")[0].lower()
        return "-".join("".join(x if x.isalnum() else " " for x in words).split())

    @property
    def order_by(self) -> str:
        """Latest working day the order goes out; empty where the lead time is not known."""
        return order_list.order_by(self.lead, self.head.first_day, self.head.nation)

    @property
    def total(self) -> Decimal | None:
        """What the order comes to [GBP ex VAT]; None where a price is missing."""
        amounts = [line.amount for line in self.lines]
        known = [amount for amount in amounts if amount is not None]
        return sum(known, Decimal(0)) if len(known) == len(amounts) else None

    @property
    def facts(self) -> tuple[tuple[str, str], ...]:
        """Head of the order, label by label."""
        head = self.head
        return (
            ("Order to", self.supplier),
            ("From", ", ".join(head.firm) or ASK),
            ("Reference", self.reference),
            ("Ordered on", head.ordered_on.isoformat()),
            ("Order by", self.order_by or "lead time not known"),
            ("Needed on site", head.first_day.isoformat()),
            ("Deliver to, contact", ", ".join(head.deliver_to) or ASK),
            ("Colours", head.colours or ASK),
        )


def orders(
    costed: Costed,
    head: Head,
    van: Mapping[str, Decimal],
    suppliers: Suppliers | None = None,
) -> tuple[Order, ...]:
    """Return the orders of a take-off, one for each supplier, in the order of their names.

    Parameters
    ----------
    costed
        The take-off with prices.
    head
        What stands above each of them.
    van
        Code to packs that are on the van; no more is taken off than the job needs. Sheets and
        lengths are ordered by size and never taken off.
    suppliers
        The firm's; the shipped, invented ones when left out.
    """
    found: dict[tuple[str, str], list[OrderLine]] = {}
    for bought in order_list.bought(costed, suppliers):
        found.setdefault((bought.supplier, bought.lead), [])
        left = van.get(bought.code, Decimal(0)) if not bought.size else Decimal(0)
        short = max(Decimal(0), bought.packs - left)
        ordered = int(short.to_integral_value(rounding=ROUND_CEILING))
        found[bought.supplier, bought.lead].append(
            OrderLine(
                code=bought.code,
                name=bought.name,
                size=bought.size,
                pack=bought.pack,
                needed=bought.count,
                from_van=bought.count - min(bought.count, ordered),
                each=bought.each,
            )
        )
    by_name: dict[str, list[OrderLine]] = {}
    leads: dict[str, str] = {}
    for (supplier, lead), lines in found.items():
        by_name.setdefault(supplier, []).extend(lines)
        # The longest lead time of what he delivers is that of his order.
        leads[supplier] = max(leads.get(supplier, ""), lead, key=_days)
    return tuple(
        Order(supplier=name, lead=leads[name], lines=tuple(by_name[name]), head=head)
        for name in sorted(by_name)
    )


def _days(lead: str) -> int:
    days = lead.rpartition("-")[2]
    return int(days) if days.isdigit() else 0


def _cells(line: OrderLine) -> tuple[str | int | Decimal, ...]:
    return (
        line.code,
        line.name,
        line.size,
        line.needed,
        line.from_van,
        line.ordered,
        line.pack,
        "?" if line.each is None else line.each,
        "?" if line.amount is None else line.amount,
    )


def _rows(order: Order) -> Iterator[tuple[str | int | Decimal, ...]]:
    yield from order.facts
    yield ()
    yield HEADINGS
    for line in order.lines:
        yield _cells(line)
    total = "a price is missing" if order.total is None else order.total
    yield ("Total", *[""] * 7, total)


def text(order: Order) -> str:
    """Return an order as comma-separated text."""
    return csv_text.text([[f"{cell}" for cell in row] for row in _rows(order)])


def workbook(order: Order) -> bytes:
    """Return an order as a workbook whose amounts and total follow from what is ordered."""
    book = Workbook()
    # Nothing in the file depends on when it was made.
    book.properties.created = book.properties.modified = datetime(2000, 1, 1)  # noqa: DTZ001
    sheet = book.worksheets[0]
    sheet.title = "order"
    for row in _rows(order):
        cells = [float(x) if isinstance(x, Decimal) else csv_text.harmless(x) for x in row]
        sheet.append(cells)
    first = len(order.facts) + 3
    for number, line in enumerate(order.lines, start=first):
        sheet.cell(number, 6).value = f"=D{number}-E{number}"
        if line.each is not None:
            sheet.cell(number, 9).value = f"=ROUND(F{number}*H{number},2)"
    last = first + len(order.lines) - 1
    if order.total is not None:
        sheet.cell(last + 1, 9).value = f"=SUM(I{first}:I{last})"
    for column in range(1, len(HEADINGS) + 1):
        sheet.cell(first - 1, column).font = Font(bold=True)
    for letter, width in zip("ABCDEFGHI", (20, 44, 22, 9, 13, 8, 16, 14, 14), strict=True):
        sheet.column_dimensions[letter].width = width
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def pages(order: Order) -> bytes:
    """Return an order as a PDF file."""
    heading = order.head.heading
    made = PdfPages(title=f"{heading.words}: order", size_mm=pdf_table.SIZE_MM)
    rows = [tuple(f"{cell}" for cell in _cells(line)) for line in order.lines]
    total = "a price is missing" if order.total is None else f"{order.total} GBP ex VAT"
    listing = Listing(
        title=f"order to {order.supplier}, {order.head.method}",
        columns=(
            Column(heading="Code", share=1.1),
            Column(heading="Material", share=3.4, wraps=True),
            Column(heading="Size or length", share=1.5),
            Column(heading="Needed", share=0.7, figures=True),
            Column(heading="From van", share=0.8, figures=True),
            Column(heading="Order", share=0.6, figures=True),
            Column(heading="Pack", share=1.1),
            Column(heading="Each", share=0.8, figures=True),
            Column(heading="Amount", share=0.9, figures=True),
        ),
        rows=(
            *((f"{label}: {value}",) for label, value in order.facts),
            *rows,
            (f"Total: {total}",),
        ),
        notes=("Lead times and prices that ship are invented: ask.",),
    )
    pdf_table.draw(listing, heading, _STAMP, made)
    return made.content()
