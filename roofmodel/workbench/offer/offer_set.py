"""All papers of an offer, written together or not at all."""

import hashlib
import json
import shutil
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from decimal import Decimal
from functools import partial
from pathlib import Path

from roofmodel.buildups import catalogue_file
from roofmodel.drawings.lists import day_plan, order_list, supplier_order, take_off_list
from roofmodel.drawings.lists.take_off_list import TakeOffList
from roofmodel.drawings.offer import offer_book, offer_pdf
from roofmodel.drawings.offer.offer_book import PricedMethod
from roofmodel.drawings.offer.offer_paper import ExtraRow, OfferPaper
from roofmodel.drawings.offer.offer_text import OfferText
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.pictures import photo, roof_page, scene_picture
from roofmodel.drawings.pictures.roof_page import Shown
from roofmodel.drawings.scenes import looks
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.sets import folder_swap
from roofmodel.drawings.views import stack_section
from roofmodel.drawings.views.stack_section import StackSection
from roofmodel.foundation.errors import DrawingError
from roofmodel.pricing.supplier import Suppliers
from roofmodel.programme import calendar_file, working_days
from roofmodel.storage import job_file
from roofmodel.workbench.offer import estimate, offers
from roofmodel.workbench.offer.offers import MethodOffer, Offer


def write(  # noqa: PLR0913 - each says one thing about the issue, as in the command
    offer: Offer,
    folder: Path,
    *,
    text: OfferText,
    made_on: date,
    first_day: date | None = None,
    photo_file: Path | None = None,
    drawn_in: Path | None = None,
    lacks: tuple[str, ...] = (),
    van: Mapping[str, Decimal] | None = None,
) -> tuple[Path, ...]:
    """Write offer, take-offs, orders, order lists, programmes and the page in 3D; return the files.

    Parameters
    ----------
    offer
        The three methods of a job.
    folder
        A new or empty folder, or one that holds an earlier set.
    text
        The firm's words.
    made_on
        Day of the offer.
    first_day
        First day on site for calendars and orders; as soon as the longest lead time allows when
        left out.
    photo_file
        A photograph of the roof as it is, shown beside the pictures.
    drawn_in
        Folder that `draw_pictures` filled, where they have to be drawn elsewhere; they are drawn
        here when left out.
    lacks
        What `readiness.lacks` found: with anything in it, DRAFT stands across the offer.
    van
        Packs on the firm's van, by code; the orders take them off.

    Raises
    ------
    DrawingError
        If the folder holds anything else or cannot be written.
    """
    heading = heading_of(offer, made_on)
    with folder_swap.new_folder(folder) as beside:
        drawn = (
            draw_pictures(offer, beside) if drawn_in is None else _taken(offer, drawn_in, beside)
        )
        pictures = (*_photo(offer, photo_file, beside), *drawn)
        on_site = first_day or _soonest(made_on, offer)
        paper = _paper(offer, heading, text, made_on, pictures, draft=bool(lacks))
        writers = dict(_files(offer, heading, made_on, on_site, paper))
        writers |= dict(_orders(offer, heading, text, made_on, on_site, van or {}))
        for name, content in writers.items():
            (beside / name).write_bytes(content())
        names = [*writers, *(path.name for _, path in pictures)]
        (beside / folder_swap.MANIFEST).write_text(
            _manifest(offer, heading, beside, names, lacks), encoding="utf-8", newline=""
        )
    return tuple(folder / name for name in (*names, folder_swap.MANIFEST))


def _soonest(made_on: date, offer: Offer) -> date:
    days = offer.drawn.tables.suppliers.longest_lead_days + 1
    return working_days.nth(made_on, days, offer.rates.bank_holidays_of)


def check(folder: Path, photo_file: Path | None = None) -> None:
    """Refuse, before anything is worked out, a folder or a photograph that cannot be taken.

    Raises
    ------
    DrawingError
        If the folder holds anything but an earlier set, or the file is no picture.
    """
    folder_swap.refuse_foreign(folder)
    if photo_file is not None:
        photo.check(photo_file)


def heading_of(offer: Offer, made_on: date) -> Heading:
    """Return what stands on every paper of an offer."""
    job = offer.drawn.job
    return Heading(job_code=job.code, revision=job.revision, issued=made_on)


def _title(offer: Offer) -> str:
    """Return what the customer's papers call the roof."""
    job = offer.drawn.job
    return job.title or job.survey.shape


def _paper(
    offer: Offer,
    heading: Heading,
    text: OfferText,
    made_on: date,
    pictures: tuple[tuple[str, Path], ...],
    *,
    draft: bool,
) -> OfferPaper:
    job = offer.drawn.job
    return OfferPaper(
        heading=heading,
        title=_title(offer),
        columns=tuple(column.for_customer for column in offer.columns),
        chosen=job.refit.method,
        text=text,
        made_on=made_on,
        customer=tuple(line for line in job.customer.splitlines() if line.strip()),
        pictures=pictures,
        stacks=tuple(_stack(one) for one in offer.methods),
        extras=_extras(offer),
        draft=draft,
    )


def _files(
    offer: Offer, heading: Heading, made_on: date, first_day: date, paper: OfferPaper
) -> Iterator[tuple[str, Callable[[], bytes]]]:
    job, stem = offer.drawn.job, heading.file_stem
    yield f"{stem}-offer.pdf", lambda: offer_pdf.content(paper)
    yield f"{stem}-offer.xlsx", lambda: _book(offer, heading)
    yield f"{stem}-roof.html", lambda: _page(offer, heading).encode()
    # The sums come out of this one alone, whatever catalogue and norms say by then.
    yield f"{stem}{estimate.SUFFIX}", lambda: estimate.dumps(offer, made_on=made_on).encode()
    # With these two the whole job can be worked out again.
    yield f"{stem}{job_file.SUFFIX}", lambda: job_file.dumps(job).encode()
    yield (
        f"{stem}-catalogue.toml",
        lambda: catalogue_file.dumps(offer.drawn.catalogue).encode(),
    )
    for one in offer.methods:
        if one.bill is not None:
            yield from _of_method(one, heading, first_day, job.title, offer.drawn.tables.suppliers)


def _orders(
    offer: Offer,
    heading: Heading,
    text: OfferText,
    made_on: date,
    first_day: date,
    van: Mapping[str, Decimal],
) -> Iterator[tuple[str, Callable[[], bytes]]]:
    """Yield the orders of the method the job has chosen, three files for each supplier."""
    job = offer.drawn.job
    one = offer.of(job.refit.method)
    if one.bill is None:
        return
    head = supplier_order.Head(
        heading=heading,
        method=one.option.method.printed,
        firm=tuple(filter(None, (text.firm.name, text.firm.address, text.firm.contact))),
        deliver_to=tuple(filter(None, (job.delivery or job.customer).splitlines())),
        colours=job.colours,
        ordered_on=made_on,
        first_day=first_day,
        nation=offer.rates.bank_holidays_of,
    )
    for order in supplier_order.orders(one.bill.costed, head, van, offer.drawn.tables.suppliers):
        stem = f"{heading.file_stem}-order-{order.file_word}"
        yield f"{stem}.pdf", partial(supplier_order.pages, order)
        yield f"{stem}.csv", partial(_order_text, order)
        yield f"{stem}.xlsx", partial(supplier_order.workbook, order)


def _order_text(order: supplier_order.Order) -> bytes:
    return supplier_order.text(order).encode(supplier_order.ENCODING)


def _book(offer: Offer, heading: Heading) -> bytes:
    methods = [
        PricedMethod(
            column=one.column,
            take_off=(
                TakeOffList(heading=heading, method=one.option.method, costed=one.bill.costed)
                if one.bill is not None
                else None
            ),
            hours=one.hours,
        )
        for one in offer.methods
    ]
    return offer_book.content(methods, heading.words)


def _stack(one: MethodOffer) -> StackSection | None:
    refit = one.option.refit
    return stack_section.of_refit(refit) if refit is not None and one.column.offered else None


def _extras(offer: Offer) -> tuple[ExtraRow, ...]:
    """Return every extra with its price in each method's column; "-" where it has no meaning."""
    known = {extra.id: extra for one in offer.methods for extra in one.extras}
    rows = []
    for extra in offer.drawn.tables.extras:
        if extra.id not in known:
            continue
        columns = [{x.id: x for x in one.extras}.get(extra.id) for one in offer.methods]
        rows.append(
            ExtraRow(
                name=extra.name,
                changes=extra.changes,
                entries=tuple("-" if one is None else one.words for one in columns),
            )
        )
    return tuple(rows)


def _of_method(
    one: MethodOffer, heading: Heading, first_day: date, title: str, suppliers: Suppliers
) -> Iterator[tuple[str, Callable[[], bytes]]]:
    bill, programme = one.bill, one.column.programme
    if bill is None or programme is None:
        return
    stem = f"{heading.file_stem}-{one.option.method.value}"
    shown = TakeOffList(heading=heading, method=one.option.method, costed=bill.costed)
    yield f"{stem}-take-off.xlsx", lambda: take_off_list.workbook(shown)
    yield (
        f"{stem}-take-off.csv",
        lambda: take_off_list.text(shown).encode(take_off_list.ENCODING),
    )
    yield (
        f"{stem}-orders.csv",
        lambda: order_list.text(bill.costed, heading, suppliers).encode(take_off_list.ENCODING),
    )
    yield (
        f"{stem}-orders.pdf",
        lambda: order_list.pages(
            bill.costed,
            heading,
            one.option.method.printed,
            first_day=first_day,
            nation=programme.crew.nation,
            suppliers=suppliers,
        ),
    )
    yield (
        f"{stem}-programme.pdf",
        lambda: day_plan.content(
            programme, heading, one.option.method.printed, first_day=first_day
        ),
    )
    yield (
        f"{stem}-programme.ics",
        lambda: calendar_file.text(
            programme,
            first_day=first_day,
            job_code=heading.job_code,
            title=title,
            plan=one.option.method.value,
        ).encode(),
    )


def _photo(offer: Offer, file: Path | None, folder: Path) -> tuple[tuple[str, Path], ...]:
    if file is None:
        return ()
    path = folder / f"{offer.drawn.job.code}-{offer.drawn.job.revision}-photo.jpg"
    photo.copy(file, path)
    return (("Your roof today", path),)


def _wanted(offer: Offer) -> tuple[tuple[str, str], ...]:
    """Return caption and file name of the pictures before and after."""
    job = offer.drawn.job
    stem = f"{job.code}-{job.revision}"
    return (
        ("Before: as it is now", f"{stem}-before.png"),
        (f"After: {_shown(offer).option.method.printed}", f"{stem}-after.png"),
    )


def _shown(offer: Offer) -> MethodOffer:
    """Return the method that is pictured: the chosen one, or else the first that is offered."""
    chosen = offer.of(offer.drawn.job.refit.method)
    if chosen.column.offered:
        return chosen
    return next((one for one in offer.methods if one.column.offered), chosen)


def _taken(offer: Offer, source: Path, folder: Path) -> tuple[tuple[str, Path], ...]:
    """Return pictures that were drawn before, copied; none where there are none."""
    pictures = []
    for caption, name in _wanted(offer):
        if (source / name).is_file():
            shutil.copyfile(source / name, folder / name)
            pictures.append((caption, folder / name))
    return tuple(pictures)


def draw_pictures(offer: Offer, folder: Path) -> tuple[tuple[str, Path], ...]:
    """Return pictures before and after, drawn into a folder; none where nothing can be drawn."""
    site = offer.drawn.site
    refit = _shown(offer).option.refit
    scenes: list[tuple[Body, ...]] = [looks.as_it_stands(site)]
    if refit is not None:
        scenes.append(looks.finished(refit))
    pictures = []
    for (caption, name), bodies in zip(_wanted(offer), scenes, strict=False):
        path = folder / name
        try:
            scene_picture.draw(site.roof, bodies, path)
        except DrawingError:
            # Everything but the pictures can be made without a graphics library.
            return ()
        pictures.append((caption, path))
    return tuple(pictures)


def _manifest(
    offer: Offer, heading: Heading, folder: Path, names: list[str], lacks: tuple[str, ...]
) -> str:
    content = {
        "made_by": folder_swap.MADE_BY,
        "job_code": heading.job_code,
        "revision": heading.revision,
        "draft": bool(lacks),
        "lacks": list(lacks),
        "catalogue": {
            "name": offer.drawn.catalogue.name,
            "version": offer.drawn.catalogue.version,
            "valid_from": offer.drawn.catalogue.valid_from.isoformat(),
        },
        **offers.figures(offer),
        "files": names,
        "sha256": {
            name: hashlib.sha256((folder / name).read_bytes()).hexdigest() for name in names
        },
    }
    return json.dumps(content, indent=2, ensure_ascii=False) + "\n"


def _page(offer: Offer, heading: Heading) -> str:
    drawn = offer.drawn
    return roof_page.content(
        drawn.roof, f"Your roof: {_title(offer)} ({heading.words})", _ways(offer)
    )


def _ways(offer: Offer) -> list[Shown]:
    """Return the roof as it stands, then every method that is offered on it."""
    found = [Shown(name="As it is now", bodies=looks.as_it_stands(offer.drawn.site))]
    for one in offer.methods:
        refit = one.option.refit
        if one.column.offered and refit is not None:
            found.append(Shown(name=one.option.method.printed, bodies=looks.finished(refit)))
    return found
