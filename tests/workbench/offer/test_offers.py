"""The offer of the acceptance jobs: three methods on one geometry, and its papers."""

import io
import json
from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import combinations

import openpyxl
import pypdfium2
import pytest
from PIL import Image
from shapely import Polygon

from roofmodel.buildups import catalogue_file
from roofmodel.comparison import compare
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import day_plan
from roofmodel.drawings.offer import offer_pdf, offer_text
from roofmodel.drawings.pictures import scene_picture
from roofmodel.foundation.errors import DimensionError, DrawingError, ResourceError
from roofmodel.pricing import rates
from roofmodel.pricing.price import Incomplete, Price
from roofmodel.pricing.rates import Rounding
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.offer import bills, offer_set, offers
from tests import acceptance_jobs, formulas

DAY = date(2026, 11, 25)


def offer(code, *, installers=None, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    return offers.offer(
        drawn,
        lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0],
        installers=installers,
    )


@pytest.fixture(scope="module")
def j01():
    return offer("J01")


def test_all_three_methods_stand_side_by_side(j01):
    assert [column.method for column in j01.columns] == list(Method)
    assert all(isinstance(column.price, Price) for column in j01.columns)
    for row in compare.rows(j01.columns):
        assert len(row.entries) == 3


def test_j01_offers_three_days_for_building_round_and_more_for_a_new_roof(j01):
    assert j01.of(Method.BUILD_ROUND).column.programme.days == 3
    assert j01.of(Method.NEW_ROOF).column.programme.days == 5  # 67 man-hours, two men
    assert j01.of(Method.PANEL_SWAP).column.programme.days <= 2


def test_a_refused_method_keeps_its_column_with_the_reason():
    found = offer("J02")

    for method in (Method.NEW_ROOF, Method.BUILD_ROUND):
        column = found.of(method).column
        assert "10.94°" in column.refused
        assert column.price_words == "not on this roof"
        assert column.kept != "-"
    swap = found.of(Method.PANEL_SWAP).column
    assert swap.price == Incomplete(text="incomplete: 1 item (PNL-ALU32)")


def test_the_firm_s_hours_a_day_reach_the_programme():
    drawn = acceptance_jobs.drawn("J01")
    short = replace(rates.shipped(), hours_a_day=Decimal(4), productive_hours_a_day=Decimal(3))

    def days(known):
        found = offers.offer(drawn, lambda _: {}, rates=known, installers=2)
        return {one.option.method: one.column.programme for one in found.methods}

    usual, long = days(rates.shipped()), days(short)
    for method in Method:
        assert long[method].days > usual[method].days
        assert "÷ 4 h" in long[method].explained


def test_a_price_per_square_metre_stands_beside_the_price(j01):
    price = j01.of(Method.BUILD_ROUND).price

    assert price.per_m2 == pytest.approx(Decimal("427.6"), abs=Decimal("0.2"))


@pytest.fixture(scope="module")
def written(j01, tmp_path_factory):
    """The folder of the whole offer and its files, written once for all who only read."""
    folder = tmp_path_factory.mktemp("written") / "offer"
    return folder, offer_set.write(j01, folder, text=offer_text.read(), made_on=DAY)


@pytest.fixture
def small_pictures(monkeypatch):
    """What a picture shows is looked at where pictures are tested."""

    def draw(_roof, _bodies, path, **_):
        Image.new("RGB", (12, 8), "grey").save(path)

    monkeypatch.setattr(scene_picture, "draw", draw)


@pytest.fixture(scope="module")
def book(written):
    return openpyxl.load_workbook(written[0] / "J01-A-offer.xlsx")


def amount(book, sheet, label):
    """Return what the row of a label comes to."""
    row = next(r for r in book[sheet].iter_rows() if r[0].value == label)
    return formulas.value(book, sheet, row[3].coordinate)


def test_the_workbook_worked_out_comes_to_every_price_to_the_penny(j01, book):
    """By a reader of formulas of our own tests, which knows nothing of pricing."""
    for one in j01.methods:
        name = one.option.method.printed
        for label, expected in (
            ("Materials", one.price.materials),
            ("Preliminaries: plant, waste, delivery", one.price.preliminaries),
            ("Cost: the floor of the price", one.price.cost),
            ("Price without VAT", one.price.ex_vat),
            ("Price with VAT", one.price.total),
            ("Shown separately", one.price.shown_apart),
            (compare.ALL_IN, one.price.all_in),
        ):
            assert amount(book, name, label) == expected, (name, label)
    labels = [row[0].value for row in book["Comparison"].iter_rows()]
    row = labels.index("Price with VAT") + 1
    totals = [formulas.value(book, "Comparison", f"{letter}{row}") for letter in "BCD"]
    assert totals == [one.price.total for one in j01.methods]


def test_the_workbook_takes_overhead_of_contingency_as_the_price_does(j01):
    """5 % contingency and 12.5 % overhead; the workbook has formulas of its own for both."""
    put_on = {"contingency_percent": Decimal(5), "overhead_percent": Decimal("12.5")}
    other_rates = replace(j01.rates, **put_on)
    methods = tuple(
        replace(one, column=replace(one.column, price=replace(one.price, rates=other_rates)))
        for one in j01.methods
    )
    content = offer_set._book(replace(j01, methods=methods), offer_set.heading_of(j01, DAY))
    book = openpyxl.load_workbook(io.BytesIO(content))

    for one in methods:
        name = one.option.method.printed
        assert one.price.contingency > 0
        for label, expected in (
            ("Contingency", one.price.contingency),
            ("Overhead", one.price.overhead),
            ("Price with VAT", one.price.total),
        ):
            assert amount(book, name, label) == expected, (name, label)


@pytest.mark.parametrize(("step", "way"), [("1", "nearest"), ("5", "up"), ("25", "down")])
def test_the_workbook_rounds_as_the_price_does(j01, step, way):
    steps = {"price_step_gbp": Decimal(step), "price_rounded": Rounding(way)}
    other_rates = replace(j01.rates, **steps)
    methods = tuple(
        replace(one, column=replace(one.column, price=replace(one.price, rates=other_rates)))
        for one in j01.methods
    )
    content = offer_set._book(replace(j01, methods=methods), offer_set.heading_of(j01, DAY))
    book = openpyxl.load_workbook(io.BytesIO(content))

    for one in methods:
        name = one.option.method.printed
        assert one.price.total % Decimal(step) == 0
        for label, expected in (
            ("Before rounding", one.price.worked_ex_vat),
            ("Price without VAT", one.price.ex_vat),
            ("VAT", one.price.vat),
            ("Price with VAT", one.price.total),
            (compare.ALL_IN, one.price.all_in),
        ):
            assert amount(book, name, label) == expected, (name, label)


def test_a_price_changed_in_the_take_off_moves_the_comparison(j01, book):
    """Five starter strips 10 dearer: 50, 12 % overhead, 18 % profit, 20 % VAT."""
    lines = book["Build round the bars, take-off"]
    row = next(r for r in lines.iter_rows() if r[1].value == "TIL-ST")
    labels = [one[0].value for one in book["Comparison"].iter_rows()]
    cell = f"C{labels.index('Price with VAT') + 1}"
    before = formulas.value(book, "Comparison", cell)
    row[10].value += 10
    after = formulas.value(book, "Comparison", cell)
    row[10].value -= 10

    by_hand = Decimal(50) * Decimal("1.12") * Decimal("1.18") * Decimal("1.2")
    assert abs(after - before - by_hand) <= Decimal("0.03")


def test_the_papers_are_written_whole_and_say_what_they_were_made_from(written):
    folder, files = written
    manifest = json.loads((folder / "plan.json").read_text(encoding="utf-8"))

    assert {path.name for path in files} == {*manifest["files"], "plan.json"}
    assert manifest["catalogue"]["version"] >= 1
    endings = {path.suffix for path in files}
    assert {".pdf", ".xlsx", ".csv", ".ics", ".html", ".png"} <= endings


def test_the_price_comes_out_again_from_the_papers_alone(j01, written):
    job = job_file.read(written[0] / "J01-A.roofjob.json")
    goods = catalogue_file.read(written[0] / "J01-A-catalogue.toml")
    drawn = reckoning.reckon(job, catalogue=goods)
    again = offers.offer(
        drawn, lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0]
    )

    assert [one.price for one in again.methods] == [one.price for one in j01.methods]


def test_without_a_graphics_library_the_offer_has_no_pictures(j01, tmp_path, monkeypatch):
    def fail(*_, **__):
        raise DrawingError("no graphics here")

    monkeypatch.setattr(scene_picture, "draw", fail)
    files = offer_set.write(j01, tmp_path / "offer", text=offer_text.read(), made_on=DAY)

    assert not [path for path in files if path.suffix == ".png"]
    assert (tmp_path / "offer" / "J01-A-offer.pdf").is_file()


def test_the_customers_paper_names_terms_and_both_prices(written):
    document = pypdfium2.PdfDocument(written[0] / "J01-A-offer.pdf")
    words = "\n".join(document[i].get_textpage().get_text_range() for i in range(len(document)))

    assert 2 <= len(document) <= 4
    assert "Valid until 25 December 2026" in words
    for text in ("5,949.88", "Not included", "I accept", "fragile", "does not cure the cold"):
        assert text in words
    document.close()


def test_the_page_in_3d_asks_for_nothing_from_anywhere(written):
    page = (written[0] / "J01-A-roof.html").read_text(encoding="utf-8")

    # The policy that forbids it is a tag called http-equiv, so an address is looked for.
    assert "://" not in page
    assert "src=" not in page
    assert "__" not in page.split("<script>")[1].split("</script>")[0]


def test_payment_stages_that_are_not_the_whole_price_are_refused(tmp_path):
    shipped = (offer_text.resources.folder() / "offer_texts.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(shipped.replace("percent = 40", "percent = 30", 1), encoding="utf-8")

    with pytest.raises((DimensionError, ResourceError), match="90 %"):
        offer_text.read(path)


def test_more_lights_are_an_extra_with_its_own_price(j01):
    found = j01.of(Method.BUILD_ROUND)
    one, four = found.extras[:2]

    assert Decimal(0) < one.more < four.more < 5 * one.more
    printed = offers.figures(j01)["methods"][1]["extras"]
    assert printed[0]["id"] == "one-light"
    assert printed[0]["more"] == str(one.more)
    assert [x.id for x in j01.of(Method.PANEL_SWAP).extras] == ["panel-colour"]


@pytest.mark.usefixtures("small_pictures")
def test_a_photograph_stands_beside_the_pictures_without_what_the_camera_noted(j01, tmp_path):
    taken = Image.new("RGB", (400, 300), "green")
    noted = Image.Exif()
    noted[0x0110] = "a camera"
    noted[0x0112] = 6  # lies on its side
    file = tmp_path / "roof.jpg"
    taken.save(file, exif=noted)
    folder = tmp_path / "offer"
    offer_set.write(j01, folder, text=offer_text.read(None), made_on=DAY, photo_file=file)

    with Image.open(folder / "J01-A-photo.jpg") as kept:
        assert kept.size == (300, 400)
        assert not kept.getexif()
    whole = pypdfium2.PdfDocument(folder / "J01-A-offer.pdf")[0].get_textpage().get_text_range()
    assert "Your roof today" in whole


@pytest.mark.usefixtures("small_pictures")
def test_a_file_that_is_no_picture_leaves_the_old_offer(j01, tmp_path):
    folder, file = tmp_path / "offer", tmp_path / "notes.jpg"
    file.write_text("no picture")
    with pytest.raises(DrawingError, match="is not a picture"):
        offer_set.write(j01, folder, text=offer_text.read(None), made_on=DAY, photo_file=file)

    assert not folder.exists()


def test_the_day_plan_shows_every_task_on_its_days_and_no_words_overlap(j01):
    programme = j01.of(Method.BUILD_ROUND).column.programme
    heading = offer_set.heading_of(j01, DAY)
    # The day after a Friday on site is a Monday.
    first_day = date(2026, 11, 27)
    content = day_plan.content(programme, heading, "Build round the bars", first_day=first_day)

    document = pypdfium2.PdfDocument(content)
    bars, *lists = [page.get_textpage().get_text_range() for page in document]
    assert "day 3" in bars
    assert "day 4" not in bars
    for slot in programme.slots:
        assert slot.words in bars
    listed = "".join(lists)
    assert programme.days == 3
    assert "bank holidays of England are left out" in listed
    first = programme.slots[0]
    assert day_plan.hours_minutes(first.end_h) in listed
    for day in ("Friday 27 November 2026", "Monday 30 November 2026", "Tuesday 1 December 2026"):
        assert day in bars
        assert day in listed
    assert_no_words_overlap(
        day_plan.pages(programme, heading, "Build round the bars", first_day=first_day)
    )


def test_a_programme_of_many_days_has_room_for_every_date():
    # Sheets have a price but take no time, so none is planned.
    found = offers.offer(acceptance_jobs.drawn("J05"), lambda _: {}, installers=1)
    programme = found.of(Method.NEW_ROOF).column.programme
    heading = offer_set.heading_of(found, DAY)
    drawn = day_plan.pages(programme, heading, "New roof", first_day=date(2026, 12, 18))

    assert programme.days >= 8
    assert "÷ 1 installer ÷" in programme.explained
    words = [box.words for box in drawn.texts if box.page == 1]
    assert "18 Dec" in words
    assert "21 Dec" in words
    assert_no_words_overlap(drawn)


def assert_no_words_overlap(pages):
    for one, other in combinations([box for box in pages.texts if box.page == 1], 2):
        a, b = Polygon(one.corners), Polygon(other.corners)
        assert a.intersection(b).area < 0.05, (one.words, other.words)


@pytest.mark.parametrize("total", ["7049.29", "0.05", "9313.06", "100.00"])
def test_the_payments_come_to_the_price_to_the_penny(total):
    due = offer_pdf.stage_amounts(Decimal(total), (10.0, 40.0, 40.0, 10.0))

    assert sum(due) == Decimal(total)
    assert all(amount >= 0 for amount in due)


def test_extras_stand_in_the_paper_column_by_column(j01, written):
    document = pypdfium2.PdfDocument(written[0] / "J01-A-offer.pdf")
    words = "\n".join(document[i].get_textpage().get_text_range() for i in range(len(document)))
    document.close()

    assert "Extras, in none of the prices above" in words
    for one in j01.methods:
        for extra in one.extras:
            assert extra.name in words
            if extra.more is not None:
                assert f"+£{extra.more:,.2f}" in words


def test_a_gap_nobody_can_fill_is_refused_and_known_ones_are_filled(tmp_path):
    shipped = (offer_text.resources.folder() / "offer_texts.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(shipped.replace("{firm}", "{colour}", 2), encoding="utf-8")
    with pytest.raises((DimensionError, ResourceError), match="colour"):
        offer_text.read(path)

    text = offer_text.read()
    filled = text.filled("{firm}: {code}, {title}", code="J01", title="a roof")
    assert filled == f"{text.firm.name}: J01, a roof"


@pytest.mark.parametrize("field", ["cancellation", "consent", "panel_note", "warranty"])
def test_a_gap_nobody_can_fill_is_named_with_its_text(field):
    with pytest.raises(DimensionError) as refused:
        replace(offer_text.read(), **{field: "Ask {nobody}.", "not_included": ("{either}",)})

    assert [fault.field for fault in refused.value.faults] == ["not_included", field]


@pytest.mark.usefixtures("small_pictures")
def test_a_logo_that_is_not_there_is_said_and_one_that_is_stands_on_the_offer(j01, tmp_path):
    shipped = (offer_text.resources.folder() / "offer_texts.toml").read_text(encoding="utf-8")
    path = tmp_path / "own.toml"
    path.write_text(f'{shipped}logo = "logo.png"\n', encoding="utf-8")
    with pytest.raises(ResourceError, match=r"logo\.png"):
        offer_text.read(path)

    Image.new("RGB", (300, 120), "navy").save(tmp_path / "logo.png")
    offer_set.write(j01, tmp_path / "offer", text=offer_text.read(path), made_on=DAY)
    page = pypdfium2.PdfDocument(tmp_path / "offer" / "J01-A-offer.pdf")[0]
    images = [one for one in page.get_objects() if one.type == pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]
    assert len(images) == 3  # logo, before, after


@pytest.mark.usefixtures("small_pictures")
def test_lines_of_the_job_reach_the_price_the_comparison_and_the_workbook(tmp_path):
    """By hand: 100 for the aerial and 2 h at 30, then 12 %, 18 % and the discount of 5 %."""
    extra = {
        "kind": "extra",
        "text": "Move the aerial",
        "quantity": 1.0,
        "rate_gbp": "100.00",
        "hours": 2.0,
        "methods": ["build-round"],
    }
    plain = offer("J01").of(Method.BUILD_ROUND).price
    found = offer(
        "J01",
        estimate={"lines": [extra], "discount_percent": "5", "discount_reason": "spring"},
    )
    price = found.of(Method.BUILD_ROUND).price
    whole = (plain.direct + 160) * Decimal("1.12") * Decimal("1.18")

    assert price.direct == plain.direct + 160
    assert abs(price.ex_vat - whole * Decimal("0.95")) <= Decimal("0.03")
    rows = {row.label: row.entries for row in compare.rows(found.columns)}
    assert rows["Also included"][1] == "Move the aerial; discount: spring"
    assert rows[compare.DISCOUNT][1] == f"£{price.discount:,.2f}"
    files = offer_set.write(found, tmp_path / "offer", text=offer_text.read(), made_on=DAY)
    book = openpyxl.load_workbook(next(p for p in files if p.name == "J01-A-offer.xlsx"))
    assert amount(book, "Build round the bars", "Price with VAT") == price.total


def test_counted_moves_quantity_packs_and_price_in_the_workbook(j01, book):
    """Starter strip, 4.20 with waste, 5 packs at 4.60; 2 m more counted make 6.30, so 7."""
    lines = book["Build round the bars, take-off"]
    row = next(r for r in lines.iter_rows() if r[1].value == "TIL-ST")
    number = row[0].row
    sheet = "Build round the bars, take-off"

    assert formulas.value(book, sheet, f"H{number}") == 5
    before = row[3].value
    row[3].value = before + 2
    assert formulas.value(book, sheet, f"H{number}") == 7
    assert formulas.value(book, sheet, f"L{number}") == Decimal("32.20")
    row[3].value = before
