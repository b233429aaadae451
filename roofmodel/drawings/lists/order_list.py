"""What is ordered: packs by supplier's kind, with lead times, from a take-off."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_CEILING, Decimal

from roofmodel.drawings.lists.take_off_list import ENCODING
from roofmodel.drawings.paper.heading import LIST_ENDING, Heading
from roofmodel.drawings.paper.release import Stamp
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import PdfPages
from roofmodel.drawings.pdf.pdf_table import Column, Listing
from roofmodel.foundation import csv_text
from roofmodel.pricing import supplier
from roofmodel.pricing.material_cost import Costed
from roofmodel.pricing.supplier import Suppliers
from roofmodel.programme import working_days
from roofmodel.programme.working_days import Nation
from roofmodel.quantities import job_lines, recipe
from roofmodel.quantities.bill import BillLine

__all__ = ["ENCODING", "HEADINGS", "loading", "order_by", "pages", "rows", "text"]

_STAMP = Stamp(status="ORDER LIST: for the offer, not yet ordered")

HEADINGS = ("Kind of supplier", "Code", "Material", "Order", "Pack", "Lead time [working days]")


def rows(costed: Costed, suppliers: Suppliers | None = None) -> Iterator[tuple[str, ...]]:
    """Yield what to order, supplier by supplier; materials used by the metre in whole packs.

    ``suppliers`` are the firm's; the shipped, invented ones when left out.
    """
    yield from sorted(
        (one.supplier, one.code, one.name, f"{one.count}", one.words, one.lead)
        for one in bought(costed, suppliers)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """So many of one thing from one supplier; ``size`` is that of sheets and lengths, else empty.

    ``packs`` is what the job takes, before it is rounded up to ``count`` whole ones. ``each`` is
    the price of one [GBP ex VAT], None where it is not known.
    """

    supplier: str
    lead: str
    code: str
    name: str
    size: str
    pack: str
    count: int
    packs: Decimal
    each: Decimal | None

    @property
    def words(self) -> str:
        """The pack with its size."""
        return _sized(self.pack, self.size)


def bought(costed: Costed, suppliers: Suppliers | None = None) -> Iterator[Bought]:
    """Yield what to order; materials used by the metre in whole packs.

    ``suppliers`` are the firm's; the shipped, invented ones when left out.
    """
    suppliers = suppliers or supplier.shipped()
    groups = _groups(costed)
    for priced in costed.lines:
        line = priced.line
        packs = line.packs
        if line.material is None or not packs or packs <= 0 or _is_work(line, suppliers):
            continue
        who = suppliers.of(groups.get(line.code, line.group), line.material.category)
        for count, size, holds in _bought(line, packs):
            # The price stands for one pack of the catalogue; of a length for its share of that.
            each = priced.rate
            if each is not None and holds is not None:
                each = (each * holds / line.material.pack.holds).quantize(Decimal("0.01"))
            yield Bought(
                supplier=who.supplier,
                lead=who.lead,
                code=line.code,
                name=_name(line),
                size=size,
                pack=line.material.pack.name,
                count=count,
                packs=Decimal(count) if size else packs,
                each=each,
            )


def _is_work(line: BillLine, suppliers: Suppliers) -> bool:
    """Return whether a line is hired, applied for or worked, so that nobody delivers it."""
    entered = line.material is not None and line.material.source.document == job_lines.ENTERED
    return line.group in suppliers.not_ordered or entered


def _groups(costed: Costed) -> dict[str, str]:
    """Return the group of every material a recipe names: a line of the job is ordered with it."""
    shipped = {one.material: one.group for one in recipe.shipped()}
    lines = [one.line for one in costed.lines if one.line.group != job_lines.GROUP]
    return {**shipped, **{line.code: line.group for line in lines}}


def _bought(line: BillLine, packs: Decimal) -> list[tuple[int, str, Decimal | None]]:
    """Return how many of which size, and what one holds: sheets, lengths, else whole packs."""
    assert line.material is not None
    if line.cut is not None and line.cut.plan is not None:
        return [
            (count, f"{mm / 1e4:g} m", Decimal(mm) / 10_000) for mm, count in line.cut.plan.bought
        ]
    if line.sheets is not None and line.sheet_mm is not None:
        long_mm, wide_mm = line.sheet_mm
        return [(line.sheets, f"{long_mm:g} × {wide_mm:g} mm", None)]
    return [(int(packs.to_integral_value(rounding=ROUND_CEILING)), "", None)]


def _name(line: BillLine) -> str:
    """Return what is ordered, with the angles of gutter corners, which a supplier asks for."""
    return f"{line.name}: {line.formula}" if "°" in line.formula else line.name


def order_by(lead: str, first_day: date, nation: Nation) -> str:
    """Return the working day an order has to go out at the latest; empty for an unknown lead time.

    ``lead`` is in working days, the longer one of a range counts.
    """
    days = lead.rpartition("-")[2]
    if not days.isdigit():
        return ""
    return working_days.before(first_day, int(days), nation).isoformat()


def pages(
    costed: Costed,
    heading: Heading,
    method: str,
    *,
    first_day: date,
    nation: Nation,
    suppliers: Suppliers | None = None,
) -> bytes:
    """Return order lists, one for each supplier, and the loading list as a PDF file."""
    made = PdfPages(title=f"{heading.words}: order lists", size_mm=pdf_table.SIZE_MM)
    by_supplier: dict[str, list[tuple[str, ...]]] = {}
    known = suppliers or supplier.shipped()
    for who, *rest in rows(costed, known):
        by_supplier.setdefault(who, []).append(tuple(rest))
    for who, lines in by_supplier.items():
        pdf_table.draw(_order(who, method, lines, (first_day, nation)), heading, _STAMP, made)
    pdf_table.draw(loading(costed, method, known), heading, _STAMP, made)
    return made.content()


def _order(
    who: str, method: str, lines: list[tuple[str, ...]], on_site: tuple[date, Nation]
) -> Listing:
    return Listing(
        title=f"order to {who}, {method}",
        columns=(
            Column(heading="Code", share=1.0),
            Column(heading="Material", share=3.4, wraps=True),
            Column(heading="Order", share=0.7, figures=True),
            Column(heading="Pack", share=1.6, wraps=True),
            Column(heading="Lead days", share=1.0),
            Column(heading="Order by", share=1.0),
            Column(heading="Ordered, due on", share=1.6),
        ),
        rows=tuple((*row, order_by(row[-1], *on_site), "." * 24) for row in lines),
        notes=(
            f"On site from {on_site[0].isoformat()}. Lead times are in working days; those "
            "supplied are invented: ask. Check every size on site before ordering it.",
        ),
    )


def loading(costed: Costed, method: str, suppliers: Suppliers) -> Listing:
    """Return what goes to the site, group by group, with its mass where that is known."""
    lines, whole_kg = [], 0.0
    for priced in costed.lines:
        line = priced.line
        skipped = line.group in suppliers.not_ordered
        if skipped or line.material is None or not line.packs or line.quantity is None:
            continue
        mass_kg = line.material.mass_kg
        kg = None if mass_kg is None else mass_kg * line.quantity
        whole_kg += kg or 0.0
        lines.append(
            (
                line.group,
                line.code,
                line.name,
                _packs_words(line, line.packs),
                "?" if kg is None else f"{kg:.0f}",
                "[   ]",
            )
        )
    return Listing(
        title=f"loading list, {method}",
        columns=(
            Column(heading="Group", share=1.2),
            Column(heading="Code", share=1.0),
            Column(heading="Material", share=4.0, wraps=True),
            Column(heading="Packs", share=1.2),
            Column(heading="Mass kg", share=0.8, figures=True),
            Column(heading="On the van", share=0.8),
        ),
        rows=tuple(lines),
        notes=(
            f"Known masses come to {whole_kg:.0f} kg; “?” means not known. Check what the van "
            "and its roof rack may carry. Cut boards have their own bundle list in the "
            "workshop's papers.",
        ),
    )


def _packs_words(line: BillLine, packs: Decimal) -> str:
    assert line.material is not None
    name = line.material.pack.name
    return ", ".join(f"{count} {_sized(name, size)}" for count, size, _ in _bought(line, packs))


def _sized(pack: str, size: str) -> str:
    return f"{pack} {f'of {size}' if size.endswith(' m') else size}".strip()


def text(costed: Costed, heading: Heading, suppliers: Suppliers | None = None) -> str:
    """Return the order lists as comma-separated text."""
    lines = ((*row, *heading.list_ending) for row in rows(costed, suppliers))
    first = [f"{heading.words}: order lists"]
    return csv_text.text([first, (*HEADINGS, *LIST_ENDING), *lines])
