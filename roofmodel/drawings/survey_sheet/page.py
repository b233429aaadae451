"""An empty survey sheet on A4 for one shape: what to read on site, in the order of taping."""

from collections.abc import Sequence

from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf import pdf_pen
from roofmodel.drawings.pdf.pdf_pen import Letters, PdfPen
from roofmodel.drawings.survey_sheet import small_plans
from roofmodel.drawings.survey_sheet import words as survey_sheet_words
from roofmodel.foundation.entered import EnteredField
from roofmodel.survey.readings.network import Network, SheetLine
from roofmodel.survey.readings.reading import Unit

LEFT_MM, RIGHT_MM, BOTTOM_MM, TOP_MM = 12.0, 198.0, 10.0, 287.0
"""The margins of the page; nothing stands outside them."""

_TITLE, _HEAD, _WORDS, _SMALL = (
    Letters(points=13.0, bold=True),
    Letters(points=8.0, bold=True),
    Letters(points=7.5),
    Letters(points=6.5),
)
ROW_MM = 5.1
"""How high a row of boxes is: every line of a gable on one page, with room to write."""
_STEP_MM, _ITEM_MM = 3.6, 4.5
_PLAN_MM = 100.0

_COLUMNS = (
    ("No", 8.0),
    ("Line", 25.0),
    ("Line", 62.0),
    ("With", 27.0),
    ("Read", 8.0),
    ("First", 18.0),
    ("Second", 18.0),
    ("Unit", 8.0),
    ("M", 4.0),
    ("A", 4.0),
    ("D", 4.0),
)
_SECOND, _BASIS = 6, 8
_TICK_MM = 2.8
_READ = {0: "–", 1: "1×", 2: "2×"}
_BARS, _BAR_MM, _FACET_MM = 15, 10.5, 28.5
_LABEL_MM, _WHERE_MM, _ANSWER_MM = 28.0, 104.0, 24.0


class _Sheet:
    """The pages as they fill from the top down; ``y`` is how far up they are still empty."""

    def __init__(self, network: Network, title: str, job_code: str, pages: int) -> None:
        self.network, self.title, self.job_code, self.pages = network, title, job_code, pages
        self.pen = PdfPen(title=f"Survey sheet, {network.shape}")
        self.y = TOP_MM

    def next_page(self) -> None:
        """Start a page that says which sheet it belongs to, should it come loose."""
        self.pen.next_page()
        self.y = TOP_MM
        self.foot()
        job = f"job {self.job_code}" if self.job_code else "job ........................"
        words = f"Survey sheet: {self.network.shape}, {job}"
        self.line_of(pdf_pen.fitted(words, _HEAD, RIGHT_MM - LEFT_MM), _HEAD, 6.0)

    def foot(self) -> None:
        """Write the number of the page."""
        words = f"Page {self.pen.page} of {self.pages}"
        at = (RIGHT_MM - _SMALL.length_mm(words), BOTTOM_MM + 1.0)
        self.pen.text(words, at, _SMALL)

    def line_of(self, words: str, letters: Letters, step_mm: float) -> None:
        """Write a line of words and go down."""
        self.pen.text(words, (LEFT_MM, self.y - letters.height_mm - 0.5), letters)
        self.y -= step_mm

    def paragraph(self, words: str, letters: Letters) -> None:
        """Write words over the whole width, in as many lines as they need."""
        for line in pdf_pen.wrapped(words, letters, RIGHT_MM - LEFT_MM):
            self.line_of(line, letters, _STEP_MM)

    def keep(self, height_mm: float) -> bool:
        """Go to the next page where less room is left; return whether that was needed."""
        if self.y - height_mm >= BOTTOM_MM + 5.0:
            return False
        self.next_page()
        return True


def content(network: Network, *, title: str, job_code: str = "") -> bytes:
    """Return the survey sheet of a shape as a PDF file, the same for the same shape and words.

    Parameters
    ----------
    title
        What the job is called; letters beyond those of Western Europe lose their accents.
    job_code
        Printed where it is known, else its box stays empty.
    """
    return pen_of(network, title=title, job_code=job_code).content()


def pen_of(network: Network, *, title: str, job_code: str = "") -> PdfPen:
    """Return the drawn sheet before it is a file, with where everything stands."""
    pages = _drawn(network, title, job_code, 9).page
    return _drawn(network, title, job_code, pages)


def _drawn(network: Network, title: str, job_code: str, pages: int) -> PdfPen:
    sheet = _Sheet(network, title, job_code, pages)
    sheet.foot()
    _draw_heading(sheet)
    low = (LEFT_MM, sheet.y - _PLAN_MM)
    small_plans.draw(network, low, (RIGHT_MM, sheet.y), sheet.pen)
    sheet.y -= _PLAN_MM + 2.0
    _draw_items(sheet)
    sheet.y -= 2.0
    sheet.paragraph(survey_sheet_words.first_lines(network), _WORDS)
    sheet.next_page()
    _draw_table(sheet)
    _draw_bars(sheet)
    _draw_entries(sheet)
    return sheet.pen


def _draw_heading(sheet: _Sheet) -> None:
    words = pdf_pen.fitted(f"Survey sheet: {sheet.network.shape}", _TITLE, RIGHT_MM - LEFT_MM)
    sheet.line_of(words, _TITLE, 7.0)
    rows = (
        (("Job", sheet.title, 126.0), ("Job code", sheet.job_code, 60.0)),
        (("Date", "", 40.0), ("Surveyor", "", 73.0), ("Weather", "", 73.0)),
    )
    for row in rows:
        x = LEFT_MM
        for label, value, wide in row:
            sheet.pen.box((x, sheet.y - 9.0), (x + wide, sheet.y))
            sheet.pen.text(label, (x + 1.0, sheet.y - 2.8), _SMALL)
            if value:
                words = pdf_pen.fitted(value, _HEAD, wide - 3.0)
                sheet.pen.text(words, (x + 1.5, sheet.y - 7.3), _HEAD)
            x += wide
        sheet.y -= 9.0
    lines = pdf_pen.wrapped(survey_sheet_words.CAUTION, _WORDS, RIGHT_MM - LEFT_MM - 4.0)
    sheet.y -= 2.0
    low = sheet.y - _STEP_MM * len(lines) - 1.6
    sheet.pen.box((LEFT_MM, low), (RIGHT_MM, sheet.y), grey=0.92, line_mm=0.5)
    for number, line in enumerate(lines, 1):
        sheet.pen.text(line, (LEFT_MM + 2.0, sheet.y - _STEP_MM * number), _WORDS)
    sheet.y = low - 2.0


def _draw_items(sheet: _Sheet) -> None:
    """Draw the items to tick in two columns as even as whole groups allow."""
    rows = [
        (words, bold)
        for group in survey_sheet_words.groups(sheet.network)
        for words, bold in ((group.heading, True), *((item, False) for item in group.items))
    ]
    starts = [number for number, (_, bold) in enumerate(rows) if bold]
    half = min(starts, key=lambda start: abs(len(rows) - 2 * start))
    middle = (LEFT_MM + RIGHT_MM) / 2.0
    columns = (
        (rows[:half], LEFT_MM, middle - 2.0),
        (rows[half:], middle + 2.0, RIGHT_MM),
    )
    for column, left, right in columns:
        for number, (words, bold) in enumerate(column):
            y = sheet.y - _ITEM_MM * number - 3.4
            if bold:
                sheet.pen.text(words, (left, y), _HEAD)
                continue
            sheet.pen.box((left, y - 0.4), (left + _TICK_MM, y - 0.4 + _TICK_MM))
            sheet.pen.text(words, (left + 4.0, y), _WORDS)
            after = left + 5.0 + _WORDS.length_mm(words)
            sheet.pen.line((after, y - 0.6), (right, y - 0.6), line_mm=0.1)
    sheet.y -= _ITEM_MM * max(half, len(rows) - half)


def _draw_table(sheet: _Sheet) -> None:
    sheet.paragraph(survey_sheet_words.READING, _WORDS)
    sheet.y -= 1.0
    _draw_head(sheet)
    for number, line in enumerate(sheet.network.lines, 1):
        if sheet.keep(ROW_MM):
            _draw_head(sheet)
        _draw_row(sheet, number, line)


def _draw_head(sheet: _Sheet) -> None:
    for (words, _), (left, right) in zip(_COLUMNS, _places(), strict=True):
        sheet.pen.box((left, sheet.y - 5.0), (right, sheet.y), grey=0.88)
        sheet.pen.text(words, (left + 1.0, sheet.y - 3.4), _SMALL)
    sheet.y -= 5.0


def _draw_row(sheet: _Sheet, number: int, line: SheetLine) -> None:
    """Draw one line with its boxes; a second one nobody need fill is grey."""
    low, high = sheet.y - ROW_MM, sheet.y
    unit = "°" if line.unit is Unit.DEG else line.unit.value
    words = (str(number), line.name, line.label, line.tool.value, _READ[line.times], "", "", unit)
    letters = (_HEAD, _HEAD, _WORDS, _SMALL, _HEAD, _WORDS, _WORDS, _WORDS)
    for column, (left, right) in enumerate(_places()):
        if column >= _BASIS:
            middle = ((left + right) / 2.0, (low + high) / 2.0)
            sheet.pen.box(*_square(middle))
            continue
        spare = column == _SECOND and line.times < 2
        sheet.pen.box((left, low), (right, high), grey=0.9 if spare else 1.0)
        if words[column]:
            fitting = _fitting(words[column], letters[column], right - left - 1.6)
            sheet.pen.text(words[column], (left + 1.0, low + 1.8), fitting)
    sheet.pen.line((LEFT_MM, low), (RIGHT_MM, low))
    sheet.y = low


def _fitting(words: str, letters: Letters, room_mm: float) -> Letters:
    """Return letters of the same weight, so small that the words fit: none is left out."""
    share = min(1.0, room_mm / letters.length_mm(words))
    return Letters(points=letters.points * share, bold=letters.bold)


def _places() -> list[Spot]:
    """Return where each column starts and ends."""
    columns, x = [], LEFT_MM
    for _, wide in _COLUMNS:
        columns.append((x, x + wide))
        x += wide
    return columns


def _square(middle: Spot) -> tuple[Spot, Spot]:
    half = _TICK_MM / 2.0
    return (middle[0] - half, middle[1] - half), (middle[0] + half, middle[1] + half)


def _draw_bars(sheet: _Sheet) -> None:
    """Draw two rows of boxes for each facet: running dimensions, and the kinds of bar."""
    sheet.y -= 4.0
    sheet.keep(5.0 * _STEP_MM + 2.0 * ROW_MM + 5.0)
    sheet.paragraph(survey_sheet_words.BARS, _WORDS)
    sheet.y -= 1.0
    for facet in sheet.network.facets:
        for left, right in (facet.eaves, *facet.more_eaves):
            sheet.keep(2.0 * ROW_MM + 1.5)
            _draw_boxes(sheet, (f"{facet.name}, {left} to {right}", "mm"), line_mm=0.35)
            _draw_boxes(sheet, ("kind", ""), line_mm=0.2)
            sheet.y -= 1.5


def _draw_boxes(sheet: _Sheet, words: Sequence[str], *, line_mm: float) -> None:
    low = sheet.y - ROW_MM
    right = LEFT_MM + _FACET_MM
    sheet.pen.text(words[0], (LEFT_MM, low + 2.0), _HEAD if words[1] else _SMALL)
    sheet.pen.text(words[1], (right - 6.0, low + 2.0), _SMALL)
    for number in range(_BARS):
        left = right + _BAR_MM * number
        sheet.pen.box((left, low), (left + _BAR_MM, sheet.y), line_mm=line_mm)
    sheet.y = low


def _draw_entries(sheet: _Sheet) -> None:
    """Draw a box for everything the job asks of the site besides the lines."""
    sheet.y -= 4.0
    sheet.keep(4.0 * _STEP_MM + 2.0 * ROW_MM)
    sheet.paragraph(survey_sheet_words.ENTRIES, _WORDS)
    for heading, asked in survey_sheet_words.entries(sheet.network):
        sheet.y -= 1.5
        sheet.keep(2.0 * ROW_MM + _ITEM_MM)
        sheet.line_of(heading, _HEAD, _ITEM_MM)
        for one in asked:
            sheet.keep(ROW_MM)
            _draw_entry(sheet, one)


def _draw_entry(sheet: _Sheet, one: EnteredField) -> None:
    """Draw the name of a field, what is measured, and its box with its unit, or its choices."""
    low, high = sheet.y - ROW_MM, sheet.y
    answers = " / ".join(words for value, words in one.choices if value is not None)
    rest_mm = RIGHT_MM - LEFT_MM - _LABEL_MM - _WHERE_MM
    answer = (
        [(answers, rest_mm)]
        if answers
        else [("", _ANSWER_MM), (one.says.unit, rest_mm - _ANSWER_MM)]
    )
    left = LEFT_MM
    for words, wide in ((one.says.label, _LABEL_MM), (one.says.where, _WHERE_MM), *answer):
        letters = _HEAD if words == one.says.label else _WORDS
        sheet.pen.box((left, low), (left + wide, high))
        if words:
            sheet.pen.text(words, (left + 1.0, low + 1.8), _fitting(words, letters, wide - 1.6))
        left += wide
    sheet.y = low
