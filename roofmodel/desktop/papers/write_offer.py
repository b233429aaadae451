"""Offer papers and handover pack, written from the window while it stays alive."""

import tempfile
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.desktop.asking.offer_dialog import OfferWanted
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.desktop.kit.progress import Progress
from roofmodel.desktop.papers.paper_desk import Desk
from roofmodel.drawings.offer.offer_text import OfferText
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import safe_write
from roofmodel.workbench.firm import firm
from roofmodel.workbench.firm.firm import Firm
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills, offers
from roofmodel.workbench.offer.offers import Offer

NO_OFFER, NO_PACK = "No offer was written.", "No handover pack was written."
_OWN_FAULT = "It failed because of a program error. Existing files are unchanged."
_BUSY = "Other papers are still being written. Wait for them to finish, or cancel them."


@dataclass(frozen=True, slots=True)
class _Priced:
    """The prices are there; the pictures come next."""

    offer: Offer
    text: OfferText
    wanted: OfferWanted


@dataclass(frozen=True, slots=True)
class _Done:
    """Written: what is said of it, and the folder it lies in."""

    words: str
    folder: Path


class OfferOut(QObject):
    """Asks, works beside the window, draws the pictures in it, and says where the papers lie."""

    said = Signal(str)
    """What was written."""

    def __init__(self, desk: Desk) -> None:
        """Serve one open job."""
        super().__init__()
        self._desk = desk
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self._what = NO_OFFER
        self.progress = Progress(desk.dialogs.parent_window)
        self.progress.cancelled.connect(self.cancel)

    @property
    def busy(self) -> bool:
        """Whether papers are being written."""
        return self._ticket is not None

    def write_offer(self) -> None:
        """Ask for folder and days, then price the three methods and write all papers."""
        drawn = self._ready(NO_OFFER)
        asked = None if drawn is None else self._asked(drawn)
        if drawn is None or asked is None:
            return
        wanted, own = asked
        run = self._desk.run
        known, search, effort = dict(run.by_layer), run.planner.cut, run.effort

        def work(ticket: Ticket, tell: Callable[[object], None]) -> None:
            def cut(option: Option) -> offers.Plans:
                if option.method is drawn.option.method and len(known) == len(option.sheets):
                    return known

                def say(good: SheetGood, sheets: int, _bound: int) -> None:
                    tell(f"{option.method.printed}: {good.name}, {sheets} sheets so far")

                return bills.plans_that_can_be(
                    drawn,
                    option,
                    effort=effort,
                    progress=say,
                    cancelled=lambda: ticket.cancelled,
                    cut=search,
                )[0]

            tell("Planning and pricing three methods")
            found = offers.offer(drawn, cut, rates=own.rates, installers=wanted.installers)
            tell(_Priced(found, own.text, wanted))

        self._start(work, NO_OFFER, "Pricing the offer")

    def _asked(self, drawn: Drawn) -> tuple[OfferWanted, Firm] | None:
        """Return what is wanted and the firm's own; None after a refusal, or to write none."""
        # Loaded when first wanted: these libraries would delay every start.
        from roofmodel.workbench.offer import offer_set

        name = f"{drawn.job.code}-{drawn.job.revision}-offer"
        try:
            own = firm.load(self._desk.firm_in)
            suggested = self._desk.preferences.export_folder / name
            wanted = self._desk.dialogs.offer_wanted(suggested, self._desk.today())
            if wanted is None:
                return None
            offer_set.check(wanted.folder, wanted.photo)
        except RoofModelError as error:
            self._desk.dialogs.refusal(NO_OFFER, str(error))
            return None
        return wanted, own

    def write_handover(self) -> None:
        """Ask for a file, then write the handover pack of the chosen method."""
        drawn = self._ready(NO_PACK)
        if drawn is None:
            return
        # Loaded when first wanted: the libraries of the pages would delay every start.
        from roofmodel.drawings.sets import handover_pack
        from roofmodel.workbench.gates import control_set
        from roofmodel.workbench.photos import prints

        try:
            paper = control_set.handover(drawn, drawn.option, issued=self._desk.today())
        except RoofModelError as error:
            self._desk.dialogs.refusal(NO_PACK, str(error))
            return
        name = f"{paper.heading.file_stem}-handover.pdf"
        path = self._desk.dialogs.handover_to_save(self._desk.preferences.export_folder / name)
        if path is None:
            return
        path = path if path.suffix.lower() == ".pdf" else path.with_name(f"{path.name}.pdf")

        job_path = self._desk.open_job.path

        def work(ticket: Ticket, tell: Callable[[object], None]) -> None:
            photos = () if job_path is None else prints.of_job(drawn.job, job_path)
            content = handover_pack.content(replace(paper, photos=photos))
            if not ticket.cancelled:
                safe_write.replace_bytes(path, content)
                tell(_Done(f"Handover pack written to {path}.", path.parent))

        self._start(work, NO_PACK, "Writing the handover pack")

    def cancel(self) -> None:
        """Give up what is under way; nothing is half-written."""
        if self._ticket is not None:
            self._ticket.cancel()
            self._ticket = None
            self.progress.close_down()
            self.said.emit(f"{self._what} It was cancelled.")

    def close(self) -> None:
        """Stop for good."""
        if self._ticket is not None:
            self._ticket.cancel()
        self._background.close()

    def _ready(self, what: str) -> Drawn | None:
        drawn = None if self._desk.open_job.stale else self._desk.open_job.drawn
        if drawn is None:
            self._desk.dialogs.refusal(what, theme.NO_ROOF)
        elif self.busy:
            self._desk.dialogs.refusal(what, _BUSY)
            return None
        return drawn

    def _start(
        self, work: Callable[[Ticket, Callable[[object], None]], None], what: str, words: str
    ) -> None:
        self._what = what
        self.progress.begin(words)
        self._ticket = self._background.start(work)

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket or ticket.cancelled:
            return
        match news:
            case str():
                self.progress.say(news)
            case _Priced():
                self._write(news)
            case _Done():
                self._finish()
                self._desk.preferences.remember_export_folder(news.folder)
                self.said.emit(news.words)
                self._desk.dialogs.written(news.words, news.folder)
            case RoofModelError():
                self._finish()
                self._desk.dialogs.refusal(self._what, str(news))
            case Exception():
                self._finish()
                self._desk.dialogs.refusal(self._what, _OWN_FAULT)
                raise news

    def _finish(self) -> None:
        self._ticket = None
        self.progress.close_down()

    def _write(self, priced: _Priced) -> None:
        """Draw the pictures, which only the window's own thread can, and write beside it."""
        # Loaded when first wanted: these libraries would delay every start.
        from roofmodel.workbench.firm import van_stock
        from roofmodel.workbench.offer import offer_set, readiness

        wanted, firm_in = priced.wanted, self._desk.firm_in
        self.progress.say("Drawing the roof before and after")
        holder = tempfile.TemporaryDirectory(prefix="roofmodel-")
        QGuiApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
        try:
            offer_set.draw_pictures(priced.offer, Path(holder.name))
        finally:
            QGuiApplication.restoreOverrideCursor()

        def work(ticket: Ticket, tell: Callable[[object], None]) -> None:
            with holder:
                if ticket.cancelled:
                    return
                tell("Writing the papers")
                lacks = readiness.lacks(priced.offer, priced.text, wanted.made_on)
                files = offer_set.write(
                    priced.offer,
                    wanted.folder,
                    text=priced.text,
                    made_on=wanted.made_on,
                    first_day=wanted.first_day,
                    photo_file=wanted.photo,
                    drawn_in=Path(holder.name),
                    lacks=lacks,
                    van=van_stock.read(firm_in / van_stock.FILE if firm_in else None),
                )
                words = f"{len(files)} papers of the offer written to {wanted.folder}."
                if lacks:
                    words += f" It is a draft, and says so on every page. {' '.join(lacks)}"
                tell(_Done(words, wanted.folder))

        self._ticket = self._background.start(work)
