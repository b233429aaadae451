"""The three methods side by side with their prices, worked out beside the window."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QRect, Qt, QTimer
from PySide6.QtGui import QBrush, QColor, QHideEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHeaderView, QLabel, QTableWidget, QVBoxLayout, QWidget

from roofmodel.comparison import compare
from roofmodel.comparison.compare import Column, Row
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.kit.stack_thumb import HIGH_PX, StackThumb
from roofmodel.drawings.views import stack_section
from roofmodel.foundation.errors import RoofModelError
from roofmodel.refit.method import Method
from roofmodel.workbench.firm import firm
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.offer import bills, offers
from roofmodel.workbench.offer.offers import Offer

PAUSE_MS = 600
"""Prices are worked out anew when nothing changed for so long."""

HEADS = ("", *(method.printed for method in Method))
_LABEL_PX, _LABEL_SHARE, _PAD_PX = 190, 0.23, 6
_WAITS = "…"
"""Stands in place of what is being worked out."""

_STACK = "Build-up, to one scale"
_OWN_FAULT = "The comparison failed because of a program error."
_READY = (
    "For methods you have not selected, sheet counts come from a quick search and may be too high."
)


class ComparePage(QWidget):
    """One column for each method, the same rows for all; the chosen one stands out."""

    def __init__(self, open_job: OpenJob, run: CuttingRun, *, firm_in: Path | None = None) -> None:
        """Build the table, then listen; nothing is worked out while nobody looks.

        ``firm_in`` is the folder of the firm's own rates.
        """
        super().__init__()
        self._firm_in = firm_in
        self._open_job, self._run = open_job, run
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self._asked_for: object = None
        self._made_for: object = None
        self.offer: Offer | None = None
        self._painted: Offer | None = None
        self._painted_for = 0
        self.fault = ""
        self.table = _table()
        self.said = QLabel()
        self.said.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 8, 2)
        column.setSpacing(4)
        column.addWidget(self.said)
        column.addWidget(self.table, 1)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._begin)
        open_job.beginning.connect(self._forget)
        open_job.reckoned.connect(self._follow)
        run.changed.connect(self._follow)

    @property
    def up_to_date(self) -> bool:
        """Whether the comparison is that of the job as it is."""
        return self._made_for is not None and self._made_for == self._key()

    @property
    def prices(self) -> str:
        """A line for each method with its price; empty while they are not those of the job."""
        if self.offer is None or not self.up_to_date:
            return ""
        return "\n".join(f"{one.method.printed}: {one.price_words}" for one in self.offer.columns)

    def price_anew(self) -> None:
        """Work it out again: rates are others now."""
        self._made_for = self._asked_for = None
        if self._ticket is not None:
            self._ticket.cancel()
            self._ticket = None
        if self.isVisible():
            self._begin()
            self._show()

    def close_down(self) -> None:
        """Stop for good."""
        self._pause.stop()
        self._open_job.reckoned.disconnect(self._follow)
        self._run.changed.disconnect(self._follow)
        if self._ticket is not None:
            self._ticket.cancel()
        self._background.close()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Work it out now that somebody looks."""
        super().showEvent(event)
        if not self.up_to_date:
            self._begin()
        self._show()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802 - Qt's name
        """Leave it alone."""
        super().hideEvent(event)
        self._pause.stop()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Wrap the words anew."""
        super().resizeEvent(event)
        self._fit_rows()

    def _fit_rows(self) -> None:
        """Give every row the height of its words, and pictures a scale that all have room at."""
        table = self.table
        table.setColumnWidth(0, min(_LABEL_PX, int(table.viewport().width() * _LABEL_SHARE)))
        for row in range(table.rowCount()):
            table.setRowHeight(row, self._high(row) + _PAD_PX if row else HIGH_PX)
        thumbs = [self._thumb(place) for place in range(1, len(HEADS))]
        known = [(place, thumb) for place, thumb in enumerate(thumbs, start=1) if thumb is not None]
        scale = min((one.px_a_mm_in(table.columnWidth(n)) for n, one in known), default=1.0)
        for _, thumb in known:
            thumb.use_scale(scale)

    def _high(self, row: int) -> int:
        """Return the height the words of a row take, wrapped to their columns [px]."""
        table, highest = self.table, 0
        for column in range(len(HEADS)):
            item = table.item(row, column)
            room = QRect(0, 0, table.columnWidth(column) - 2 * _PAD_PX, 10_000)
            flags = int(Qt.TextFlag.TextWordWrap)
            words = item.text() if item is not None else ""
            highest = max(highest, table.fontMetrics().boundingRect(room, flags, words).height())
        return highest

    def _thumb(self, place: int) -> StackThumb | None:
        widget = self.table.cellWidget(0, place)
        return widget if isinstance(widget, StackThumb) else None

    def _head(self) -> None:
        """Write price and days above each column, where they stay in sight."""
        columns = self.offer.columns if self.offer and self.up_to_date else ()
        heads = [f"{one.method.printed}\n{one.price_words}{_days(one)}" for one in columns]
        waiting = f"\n{_WAITS}" if self.offer else ""
        for place, words in enumerate(heads or [f"{one}{waiting}" for one in HEADS[1:]], start=1):
            item = self.table.horizontalHeaderItem(place)
            if item is not None:
                item.setText(words)
                item.setToolTip(words)

    def _stacks(self, chosen: int) -> None:
        """Paint the layers of every method that can be built into the first row."""
        if self.offer is None or not self.up_to_date:
            self._painted = None
            for place in range(1, len(HEADS)):
                self.table.removeCellWidget(0, place)
            return
        if self._painted is self.offer and self._painted_for == chosen:
            return
        self._painted, self._painted_for = self.offer, chosen
        for place, one in enumerate(self.offer.methods, start=1):
            self.table.removeCellWidget(0, place)
            refit = one.option.refit
            if refit is not None and one.column.offered:
                ground = ON_PAPER.accent_pale if place == chosen else ON_PAPER.card
                thumb = StackThumb(stack_section.of_refit(refit), ground)
                self.table.setCellWidget(0, place, thumb)

    def _key(self) -> object:
        drawn = self._open_job.drawn
        if drawn is None or self._open_job.stale:
            return None
        plans = tuple((number, id(plan)) for number, plan in sorted(self._run.by_layer.items()))
        return (id(drawn), plans)

    def _forget(self) -> None:
        """Show nothing of the job before."""
        if self._ticket is not None:
            self._ticket.cancel()
            self._ticket = None
        self.offer, self.fault = None, ""
        self._made_for = self._asked_for = None
        self._show()

    def _follow(self) -> None:
        if self.isVisible() and self._key() != self._asked_for:
            if self._ticket is not None:
                self._ticket.cancel()
                self._ticket = None
            self._pause.start()
            self._show()

    def _begin(self) -> None:
        self._pause.stop()
        drawn, key = self._open_job.drawn, self._key()
        if drawn is None or key is None or (self._ticket is not None and key == self._asked_for):
            return
        if self._ticket is not None:
            self._ticket.cancel()
        self._asked_for = key
        known, search = dict(self._run.by_layer), self._run.planner.cut

        def work(ticket: Ticket, tell: Callable[[object], None]) -> None:
            def cut(option: Option) -> offers.Plans:
                if option.method is drawn.option.method and len(known) == len(option.sheets):
                    return known
                return bills.plans_that_can_be(
                    drawn,
                    option,
                    effort=Effort.QUICK,
                    cancelled=lambda: ticket.cancelled,
                    cut=search,
                )[0]

            try:
                rates = firm.load(self._firm_in).rates
                tell((offers.offer(drawn, cut, rates=rates), "", key))
            except RoofModelError as error:
                tell((None, str(error), key))
            except Exception:  # noqa: BLE001 - a thread's fault must reach the screen as words
                tell((None, _OWN_FAULT, key))

        self._ticket = self._background.start(work)
        self._show()

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket or ticket.cancelled or not isinstance(news, tuple):
            return
        self._ticket = None
        self.offer, self.fault, self._made_for = news
        self._show()
        if self.isVisible() and not self.up_to_date:
            self._pause.start()

    def _show(self) -> None:
        rows = compare.rows(self.offer.columns) if self.offer else ()
        current = self.up_to_date
        if not current:
            # What stood there is of another roof: it is not to be read off.
            rows = tuple(Row(label=row.label, entries=(_WAITS,) * len(Method)) for row in rows)
        if rows:
            rows = (Row(label=_STACK, entries=("" if current else _WAITS,) * len(Method)), *rows)
        quiet_table.fill(self.table, [(row.label, *row.entries) for row in rows])
        chosen = list(Method).index(self._open_job.job.refit.method) + 1
        for row in range(len(rows)):
            for column in range(len(HEADS)):
                cell = quiet_table.item(self.table, row, column)
                pale = theme.ACCENT_PALE if column == chosen else theme.CARD
                cell.setBackground(QBrush(QColor(pale)))
                cell.setForeground(QBrush(QColor(theme.FAINT if column == 0 else theme.INK)))
                cell.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self._head()
        self._stacks(chosen)
        self._fit_rows()
        self.table.setEnabled(current)
        if self._open_job.drawn is None:
            words, colour = theme.NO_ROOF, theme.STOP
        elif not current:
            words, colour = "Planning and pricing three methods.", theme.FAINT
        elif self.fault:
            words, colour = self.fault, theme.STOP
        else:
            words, colour = (
                (f"{_READY} The supplied prices are placeholders: enter your own."),
                theme.FAINT,
            )
        self.said.setText(words)
        self.said.setStyleSheet(f"color: {colour};")


def _days(column: Column) -> str:
    programme = column.programme
    if programme is None:
        return ""
    return f" · {programme.days} day{'' if programme.days == 1 else 's'}"


def _table() -> QTableWidget:
    table = quiet_table.make(HEADS, words=range(len(HEADS)))
    table.setWordWrap(True)
    header = table.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
    header.setSectionResizeMode(0, QHeaderView.ResizeMode.Fixed)
    table.setColumnWidth(0, _LABEL_PX)
    return table
