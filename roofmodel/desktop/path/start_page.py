"""Where a session begins: shapes to choose from, jobs to go on with, and what to do next."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QIcon, QPixmap, QShowEvent
from PySide6.QtWidgets import QLabel, QScrollArea, QToolButton, QVBoxLayout, QWidget

from roofmodel.desktop import files
from roofmodel.desktop.files import JobFiles
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.flow_row import FlowRow
from roofmodel.desktop.path import roof_picture
from roofmodel.desktop.survey import shape_forms
from roofmodel.foundation.errors import RoofModelError
from roofmodel.shapes.roof import Roof
from roofmodel.storage import autosave, job_file
from roofmodel.storage.job import Job
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.survey import RoofSurvey

_PICTURE_PX = (150, 104)
_TILE_PX = (170, 140)
_PITCH_DEG = 25.0
_SKETCH = "plan"
"""Shape that is drawn instead of entered."""


class StartPage(QScrollArea):
    """Tiles, each a picture and a name."""

    sketch = Signal()
    """A plan is to be drawn on an empty sheet."""

    started = Signal()
    """A job is open now; go on with its roof."""

    def __init__(self, job_files: JobFiles, preferences: Preferences, kept_in: Path) -> None:
        """Build the page; jobs are read when it is shown. ``kept_in`` holds unsaved work."""
        super().__init__()
        self._files, self._preferences, self._kept_in = job_files, preferences, kept_in
        self.shapes: dict[str, QToolButton] = {}
        self.recent: dict[Path, QToolButton] = {}
        self.recovered: list[QToolButton] = []
        self._rows = {
            name: FlowRow(margin_px=0) for name in ("shapes", "recent", "recovered", "samples")
        }
        self._heads = {
            "shapes": theme.heading("Begin a roof"),
            "recovered": theme.heading("Recovered work"),
            "recent": theme.heading("Recent jobs"),
            "samples": theme.heading("Samples to try, all invented"),
        }
        self.setWidgetResizable(True)
        page = QWidget()
        page.setObjectName("page")
        column = QVBoxLayout(page)
        column.setContentsMargins(24, 18, 24, 18)
        column.setSpacing(6)
        title = QLabel("What roof is it?")
        title.setFont(theme.font(18.0, bold=True))
        column.addWidget(title)
        column.addWidget(
            theme.faint(
                "Choose the shape nearest to it, or draw its plan; open a job to go on with it. "
                "Then follow the path above, from left to right."
            )
        )
        for name, head in self._heads.items():
            column.addSpacing(8)
            column.addWidget(head)
            column.addWidget(self._rows[name])
        column.addStretch(1)
        self.setWidget(page)
        self._filled = False

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Show what there is to go on with, as it is now."""
        super().showEvent(event)
        if not self._filled:
            self._filled = True
            self._fill_shapes()
            self._fill_samples()
        self._fill_recent()
        self._fill_recovered()

    def _fill_shapes(self) -> None:
        sketch = self._tile("Draw the plan", None, self.sketch.emit)
        self.shapes[_SKETCH] = sketch
        tiles = [sketch]
        start = files.new_job().survey
        for form in shape_forms.FORMS:
            if form.shape == _SKETCH:
                continue
            survey, _ = shape_forms.switched(start, form, None, pitch_deg=_PITCH_DEG)
            tile = self._tile(form.title, _roof(survey), partial(self._begin, survey))
            tile.setToolTip(form.describes)
            self.shapes[form.shape] = tile
            tiles.append(tile)
        sketch.setToolTip("Click corners, type lengths on the way: for any plan")
        self._put("shapes", tiles)

    def _fill_samples(self) -> None:
        tiles = []
        for path in files.samples():
            job = _read(path)
            if job is not None:
                words = path.name.removesuffix(job_file.SUFFIX).replace("-", " ").capitalize()
                do = partial(self._open, partial(self._files.open_sample, path))
                tiles.append(self._tile(words, _roof(job.survey), do))
        self._put("samples", tiles)

    def _fill_recent(self) -> None:
        self._clear(list(self.recent.values()))
        self.recent = {}
        for path in self._preferences.recent:
            job = _read(path)
            if job is not None:
                words = f"{job.code}  {job.title}".strip()
                do = partial(self._open, partial(self._files.open, path))
                tile = self._tile(words, _roof(job.survey), do)
                tile.setToolTip(str(path))
                self.recent[path] = tile
        self._put("recent", list(self.recent.values()))

    def _fill_recovered(self) -> None:
        self._clear(self.recovered)
        self.recovered = []
        for left in autosave.pending(self._kept_in):
            do = partial(self._open, partial(self._files.recover, left))
            tile = self._tile(left.job.code, _roof(left.job.survey), do)
            tile.setToolTip(f"Not saved; kept on {left.saved_at:%d %B %Y at %H:%M}")
            self.recovered.append(tile)
        self._put("recovered", self.recovered)

    def _put(self, name: str, tiles: list[QToolButton]) -> None:
        self._rows[name].hold(tiles)
        for tile in tiles:
            tile.show()
        for widget in (self._rows[name], self._heads[name]):
            widget.setVisible(bool(tiles))

    @staticmethod
    def _clear(tiles: list[QToolButton]) -> None:
        for tile in tiles:
            tile.hide()
            tile.deleteLater()

    def _begin(self, survey: RoofSurvey) -> None:
        if self._files.new(survey):
            self.started.emit()

    def _open(self, do: Callable[[], bool]) -> None:
        if do():
            self.started.emit()

    def _tile(self, words: str, roof: Roof | None, do: Callable[[], object]) -> QToolButton:
        tile = QToolButton()
        tile.setObjectName("tile")
        tile.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
        tile.setIconSize(QSize(*_PICTURE_PX))
        tile.setFixedSize(*_TILE_PX)
        shown = tile.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, _TILE_PX[0] - 16)
        tile.setText(shown)
        tile.setAccessibleName(words)
        ratio = self.devicePixelRatioF()
        picture = (
            roof_picture.sheet(_PICTURE_PX, ratio)
            if roof is None
            else roof_picture.drawn(roof, _PICTURE_PX, ratio)
        )
        tile.setIcon(_icon(picture))
        tile.clicked.connect(lambda *_: do())
        return tile


def _icon(picture: QPixmap) -> QIcon:
    icon = QIcon()
    for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected, QIcon.Mode.Active):
        icon.addPixmap(picture, mode)
    return icon


def _read(path: Path) -> Job | None:
    """Return the job in a file; None where it cannot be read, which opening it would tell."""
    try:
        return job_file.read(path)
    except RoofModelError:
        return None


def _roof(survey: RoofSurvey) -> Roof | None:
    try:
        return to_shape.built(survey).roof
    except RoofModelError:
        return None
