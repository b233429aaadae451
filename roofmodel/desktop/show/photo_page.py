"""The page of photographs: click corners, see the roof fall into place, draw it, move the line."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.asking.offer_dialog import PHOTOGRAPHS
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.desktop.show.photo_canvas import PhotoCanvas, Spot, Tool
from roofmodel.desktop.show.photo_desk import PhotoDesk
from roofmodel.desktop.show.photo_tools import PhotoBar, PhotoSide
from roofmodel.drawings.pictures.in_photo import InPhoto
from roofmodel.foundation.errors import RoofModelError
from roofmodel.photographs import photo_file
from roofmodel.workbench.photos import drawn_in

_SAVE_FIRST = "Save the job first: its photographs are kept in a folder beside its file."


class PhotoPage(QWidget):
    """Shows the open job's photographs and enters what is done on them."""

    said = Signal(str)
    """What was done, for the status bar."""

    def __init__(self, open_job: OpenJob, dialogs: Dialogs) -> None:
        """Build the page, then listen."""
        super().__init__()
        self._open_job, self._dialogs = open_job, dialogs
        self.desk = PhotoDesk(open_job)
        self.canvas, self.bar, self.side = PhotoCanvas(), PhotoBar(), PhotoSide()
        self._drawn: InPhoto | None = None
        self._background = Background(self)
        self._ticket: Ticket | None = None
        self._lay_out()
        self._connect()
        self._show()

    def close_down(self) -> None:
        """Let go of what is being drawn."""
        if self._ticket is not None:
            self._ticket.cancel()
        self._background.close()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Follow what was edited while another page was in front."""
        super().showEvent(event)
        self._show()

    def lead_to(self, path: str) -> bool:
        """Show the photograph a finding is about."""
        number = path.removeprefix("photos.")
        if number.isdigit():
            self.desk.place = int(number)
            self._show()
        return True

    def _lay_out(self) -> None:
        middle = QHBoxLayout()
        middle.setSpacing(8)
        middle.addWidget(self.canvas, 1)
        middle.addWidget(self.side)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 8, 10, 8)
        column.setSpacing(6)
        column.addWidget(self.bar)
        column.addLayout(middle, 1)

    def _connect(self) -> None:
        self.bar.chosen.connect(self._choose)
        self.bar.add.clicked.connect(self._add)
        self.bar.remove.clicked.connect(self._remove)
        self.bar.tool_chosen.connect(self._take_tool)
        self.canvas.clicked.connect(self._click)
        self.canvas.moved.connect(self._move)
        self.canvas.dropped.connect(self._drop)
        self.canvas.taken_away.connect(self.desk.take_away)
        self.canvas.painted.connect(self._paint)
        self.side.draw.clicked.connect(self.draw)
        self.side.save.clicked.connect(self._save)
        self.side.unpaint.clicked.connect(self._unpaint)
        self.side.sun_moved.connect(self._move_sun)
        self.side.captioned.connect(self._caption)
        self._background.told.connect(self._hear)
        self._open_job.reckoned.connect(self._show)
        self._open_job.begun.connect(self._begin)

    def _begin(self) -> None:
        self.desk.place, self.desk.placed = 0, None
        self._show()

    def _show(self) -> None:
        """Show the photograph, its marks and what follows from them; the drawn roof is stale."""
        if not self.isVisible():
            return
        why_not = self.desk.read()
        photo = self.desk.photo
        self._drawn = None
        size = (1, 1) if photo is None else photo.size
        self.canvas.show_photo(self.desk.pixels, size, why_not)
        self.canvas.brush_px = max(size) * 0.02
        self.bar.show_photos(
            [one.file for one in self._open_job.job.photos], self.desk.place, self.desk.corners
        )
        self.side.show_photo(photo)
        if photo is None:
            self.side.say("", doubtful=False)
            self.canvas.mark({}, wrong=None, lines=(), strokes=())
            return
        self.desk.placed = None
        words = self.desk.fit()
        self._mark(words)
        self.side.show_sizes(self.desk.sizes(), first=photo.known is not None)
        self.bar.next_corner({click.corner for click in photo.clicks})

    def _mark(self, words: str) -> None:
        photo, placed = self.desk.photo, self.desk.placed
        assert photo is not None
        self.canvas.mark(
            {click.corner: (click.x_px, click.y_px) for click in photo.clicks},
            wrong=placed.doubt.corner if placed and placed.doubt else None,
            lines=self.desk.lines(),
            strokes=[(stroke.spots, stroke.width_px) for stroke in photo.strokes],
        )
        self.side.say(words or "The clicks agree with the roof.", doubtful=bool(words))
        self.side.draw.setEnabled(placed is not None and self._ticket is None)
        self.side.save.setEnabled(self._drawn is not None)

    def _choose(self, place: int) -> None:
        self.desk.place = place
        self._show()

    def _add(self) -> None:
        if self._open_job.path is None:
            self._dialogs.refusal("No photograph was added.", _SAVE_FIRST)
            return
        chosen, _ = QFileDialog.getOpenFileName(
            self, "Photograph of the house", str(Path.home()), PHOTOGRAPHS
        )
        if chosen:
            self.add(Path(chosen))

    def add(self, file: Path) -> None:
        """Copy a photograph beside the job, and show it."""
        try:
            self.desk.add(file)
        except RoofModelError as error:
            self._dialogs.refusal("No photograph was added.", str(error))

    def _remove(self) -> None:
        if self.desk.photo is not None:
            self.desk.remove()

    def _take_tool(self, tool: Tool) -> None:
        self.canvas.tool = tool
        self.side.hint(tool.hint)
        if tool is Tool.DIVIDER and self._drawn is None:
            self.draw()
        self.canvas.update()

    def _click(self, spot: Spot) -> None:
        corner = self.bar.corner
        if corner and self.desk.photo is not None:
            self.desk.change(self.desk.with_click(corner, self.desk.snapped(spot)))

    def _move(self, corner: str, spot: Spot) -> None:
        """Let the roof follow a click while it is dragged; it is entered when it is let go."""
        words = self.desk.fit(self.desk.with_click(corner, spot))
        placed = self.desk.placed
        rings = {c.corner: (c.x_px, c.y_px) for c in self.desk.with_click(corner, spot).clicks}
        self.canvas.mark(
            rings,
            wrong=placed.doubt.corner if placed and placed.doubt else None,
            lines=self.desk.lines(),
            strokes=(),
        )
        self.side.say(words, doubtful=bool(words))

    def _drop(self, corner: str, spot: Spot) -> None:
        self.desk.change(self.desk.with_click(corner, spot))

    def _paint(self, spots: tuple[Spot, ...]) -> None:
        fills = self.canvas.tool is Tool.FILL
        self.desk.paint(spots, width_px=self.canvas.brush_px, fills=fills)

    def _unpaint(self) -> None:
        photo = self.desk.photo
        if photo is not None and photo.strokes:
            self.desk.change(replace(photo, strokes=photo.strokes[:-1]))

    def _move_sun(self, right_deg: float, height_deg: float) -> None:
        photo = self.desk.photo
        if photo is not None:
            stood = replace(photo.sun, right_deg=right_deg, height_deg=height_deg)
            self.desk.change(replace(photo, sun=stood), merge=("sun", self.desk.place))

    def _caption(self, words: str) -> None:
        photo = self.desk.photo
        if photo is not None and words != photo.caption:
            self.desk.change(replace(photo, caption=words))

    def draw(self) -> None:
        """Draw the new roof into the photograph, beside the window."""
        photo, drawn, pixels = self.desk.photo, self._open_job.drawn, self.desk.pixels
        if photo is None or drawn is None or pixels is None or self._ticket is not None:
            return
        self.side.draw.setEnabled(False)
        self.side.say("The roof is being drawn into the photograph …", doubtful=False)

        def work(_ticket: Ticket, tell: Callable[[object], None]) -> None:
            tell((photo, drawn_in.draw(drawn, drawn.option, photo, pixels)))

        self._ticket = self._background.start(work)

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket:
            return
        self._ticket = None
        self.side.draw.setEnabled(self.desk.placed is not None)
        if isinstance(news, RoofModelError):
            self.side.say(str(news), doubtful=True)
        elif isinstance(news, Exception):
            raise news
        elif isinstance(news, tuple) and news[0] == self.desk.photo:
            self._drawn = news[1]
            self.canvas.show_after(news[1].after)
            self.bar.take(Tool.DIVIDER)
            self.side.save.setEnabled(True)
            self.side.say("Drag the line between before and after.", doubtful=False)
        elif self.canvas.tool is Tool.DIVIDER:
            self.draw()  # the photograph was edited meanwhile

    def _save(self) -> None:
        if self._drawn is None:
            return
        job = self._open_job.job
        start = self._open_job.path.parent if self._open_job.path else Path.home()
        path = self._dialogs.picture_to_save(start / f"{job.code}-in-photograph.png")
        if path is None:
            return
        if path.suffix.lower() not in (".png", ".jpg", ".jpeg"):
            path = path.with_name(f"{path.name}.png")
        divided = self.canvas.share if self.canvas.tool is Tool.DIVIDER else 0.0
        try:
            photo_file.save(self._drawn.divided(divided), path)
        except RoofModelError as error:
            self._dialogs.refusal("No picture was written.", str(error))
        else:
            self.said.emit(f"Written: {path}")
