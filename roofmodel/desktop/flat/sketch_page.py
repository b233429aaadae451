"""The plan sketch: a sheet to draw on, and what stands on each side of what was drawn."""

import math
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from roofmodel.desktop.flat import underlay
from roofmodel.desktop.flat.sketch_canvas import SketchCanvas
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.desktop.kit.flow_row import FlowRow
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import JobLineEdit
from roofmodel.foundation.errors import DimensionError, ResourceError
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.taped import plan_changes, plan_sketch
from roofmodel.survey.taped.free_plan import FreePlanSurvey, PlanSide
from roofmodel.survey.taped.plan_sketch import Spot
from roofmodel.survey.taped.rules import UNDER
from roofmodel.workbench.job import shape_change

_KEYS = {
    SideKind.EAVES: Qt.Key.Key_E,
    SideKind.HOUSE_WALL: Qt.Key.Key_W,
    SideKind.VERGE: Qt.Key.Key_V,
    SideKind.BOX_GUTTER: Qt.Key.Key_G,
}
PICK = "Click a side to say what stands there. Drag a side or a corner to move it."
_OTHER = (
    "This roof is entered by the sizes of its shape. Draw a plan anew, or change the sides of "
    "this one: it then counts as a free plan."
)
_READ = (
    "This plan was measured: its readings stand. Take them out of the fit to move it as designed; "
    "undo brings them back."
)


class SketchPage(QWidget):
    """Draws plans and hands them to the job."""

    said = Signal(str)
    """What could not be done."""

    def __init__(self, open_job: OpenJob, ask_for_picture: Callable[[str], Path | None]) -> None:
        """Build the page, then listen.

        ``ask_for_picture`` asks for a file of the kinds named; None when nobody wants one.
        """
        super().__init__()
        self._open_job, self._ask_for_picture = open_job, ask_for_picture
        self._dragging = False
        self._known: tuple[Flat, Flat] | None = None
        self.canvas = SketchCanvas()
        self.anew = _button("Draw anew", "Start with an empty sheet")
        self.whole = _button("Whole plan", "Fit the whole plan on the sheet")
        self.picture = _button("Picture below…", "Lay a photograph or a PDF under the sheet")
        self.designed = QPushButton("Move as designed")
        self.designed.setToolTip("Keep the readings apart, so that the plan can be moved")
        self.length, self.pitch = _number("Length of the side"), _number("Pitch of the side")
        self.every_pitch, self.real = _number("Pitch of all slopes"), _number("Known length")
        self.kinds = {kind: _button(kind.value, _hint(kind)) for kind in SideKind}
        self.hint = theme.faint()
        self._tools, self._side, self._scale = FlowRow(), FlowRow(), FlowRow()
        self._title = QLabel()
        self._lay_out()
        self._connect()
        self._show()

    def _lay_out(self) -> None:
        self._tools.hold([self.anew, self.whole, self.picture, self.designed])
        units = [_row("Length", self.length, "mm"), _row("Pitch", self.pitch, "°")]
        self._side.hold([self._title, *self.kinds.values(), *units])
        self._all = _row("Pitch of all slopes", self.every_pitch, "°")
        self._scale.hold([_row("This length is", self.real, "mm")])
        column = QVBoxLayout(self)
        column.setContentsMargins(1, 1, 1, 4)
        column.setSpacing(3)
        column.addWidget(self._tools)
        column.addWidget(self.canvas, 1)
        for row in (self._side, self._all, self._scale):
            column.addWidget(row)
        self.hint.setContentsMargins(8, 0, 8, 2)
        column.addWidget(self.hint)

    def _connect(self) -> None:
        canvas = self.canvas
        self.anew.clicked.connect(canvas.begin)
        self.whole.clicked.connect(canvas.fit)
        self.picture.clicked.connect(self._lay_under)
        self.designed.clicked.connect(self._as_designed)
        canvas.closed.connect(self._close)
        canvas.picked.connect(self._show)
        canvas.moved.connect(self._move)
        canvas.let_go.connect(self._let_go)
        canvas.taken_back.connect(self._take_back)
        canvas.said.connect(self._say)
        canvas.known.connect(self._ask_length)
        for kind, button in self.kinds.items():
            button.setShortcut(_KEYS[kind])
            button.clicked.connect(lambda _on, kind=kind: self._name(kind))
        self.length.finished.connect(self._lengthen)
        self.pitch.finished.connect(lambda: self._pitch(self.pitch, self.canvas.side))
        self.every_pitch.finished.connect(lambda: self._pitch(self.every_pitch, None))
        self.real.finished.connect(self._scale_picture)
        self._open_job.reckoned.connect(self._show)
        self._open_job.begun.connect(self._begin)

    @property
    def sides(self) -> tuple[PlanSide, ...]:
        """The sides of the plan there is; of any other shape those that make the same plan."""
        survey, drawn = self._open_job.job.survey, self._open_job.drawn
        if isinstance(survey, FreePlanSurvey):
            return survey.sides
        return () if drawn is None else shape_change.plan_sides(drawn.footprint)

    def _begin(self) -> None:
        self.canvas.drawing, self.canvas.corners, self.canvas.under = False, (), None
        self.canvas.pick(None)
        self._known = None
        self._show()
        self.canvas.fit()

    def _show(self) -> None:
        job, drawn = self._open_job.job, self._open_job.drawn
        inner = [
            ((line.start[0], line.start[1]), (line.end[0], line.end[1]))
            for line in (drawn.roof.lines if drawn else ())
            if line.kind.shared
        ]
        sides, side = self.sides, self.canvas.side
        self.canvas.show_sides(sides, inner, greyed=self._open_job.stale)
        drawing = self.canvas.drawing
        self.designed.setVisible(bool(job.readings) and not drawing)
        self._side.setVisible(side is not None and not drawing)
        self._all.setVisible(side is None and bool(sides) and not drawing)
        self._scale.setVisible(self._known is not None)
        if side is not None and side < len(sides):
            self._show_side(side, sides[side])
        elif sides:
            pitches = {one.pitch_deg for one in sides if one.pitch_deg is not None}
            self.every_pitch.show_text(number_text.shown(min(pitches)) if len(pitches) == 1 else "")
            self.every_pitch.setPlaceholderText("differ")
        if not drawing:
            free = isinstance(job.survey, FreePlanSurvey)
            self._say(_READ if job.readings else PICK if free else _OTHER)

    def _show_side(self, i: int, side: PlanSide) -> None:
        start, end = (plan_changes.corner(self.sides, k) for k in (i, i + 1))
        self._title.setText(f"Side {i + 1}")
        self.length.show_text(number_text.shown(round(math.dist(start, end), 1)))
        self.pitch.show_text(number_text.shown(side.pitch_deg))
        self.pitch.setEnabled(side.pitch_deg is not None)
        for kind, button in self.kinds.items():
            button.setChecked(kind.value == side.kind)

    def _close(self, corners: tuple[Spot, ...]) -> None:
        drawn = self._open_job.drawn
        pitches = [facet.pitch_deg for facet in drawn.roof.facets] if drawn else []
        pitch_deg = round(pitches[0], 1) if pitches else plan_sketch.USUAL_PITCH_DEG
        self._enter(plan_sketch.closed(corners, pitch_deg=pitch_deg))
        self.canvas.fit()

    def _name(self, kind: SideKind) -> None:
        if self.canvas.side is not None:
            self._enter(plan_changes.named(self.sides, self.canvas.side, kind))

    def _lengthen(self) -> None:
        side, value = self.canvas.side, number_text.length_mm(self.length.text())
        if side is not None and value is not None and value > 0.0:
            ends = (plan_changes.corner(self.sides, k) for k in (side, side + 1))
            if abs(math.dist(*ends) - value) > 0.05 and self._may_move():
                self._enter(plan_changes.lengthened(self.sides, side, value))

    def _pitch(self, field: JobLineEdit, side: int | None) -> None:
        value = number_text.read(field.text(), unit="°")
        if not isinstance(value, Unreadable):
            self._enter(plan_changes.pitched(self.sides, side, value))

    def _move(self, sides: tuple[PlanSide, ...]) -> None:
        if self._may_move():
            self._enter(sides, merge="drag")
            self._dragging = True

    def _let_go(self) -> None:
        self._dragging = False
        self._open_job.history.end_merge()

    def _take_back(self) -> None:
        """Undo what was dragged so far."""
        if self._dragging:
            self._let_go()
            self._open_job.undo()

    def _may_move(self) -> bool:
        """Return whether sizes may change; what was measured stays until somebody says so."""
        if self._open_job.job.readings:
            self._say(_READ)
            return False
        return True

    def _as_designed(self) -> None:
        job = self._open_job.job
        names = [one.name for one in job.readings]
        self._open_job.enter(shape_change.set_aside(job, names), form=UNDER)

    def _enter(self, sides: tuple[PlanSide, ...], *, merge: object = None) -> None:
        job, drawn = self._open_job.job, self._open_job.drawn
        if sides == self.sides:
            return
        try:
            survey = FreePlanSurvey(eaves_height_mm=job.survey.eaves_height_mm, sides=sides)
        except DimensionError as error:
            self._say(str(error))
            return
        last_good = drawn.job.survey if drawn else None
        changed = shape_change.with_survey(job, survey, last_good=last_good)
        self._open_job.enter(changed, form=UNDER, merge=merge)

    def _lay_under(self) -> None:
        path = self._ask_for_picture(underlay.KINDS)
        if path is None:
            return
        try:
            image = underlay.load(path)
        except ResourceError as error:
            self._say(str(error))
            return
        place, canvas = self.canvas.place, self.canvas
        share = 0.8 * min(canvas.width() / image.width(), canvas.height() / image.height())
        left = (canvas.width() - image.width() * share) / 2.0
        top = (canvas.height() - image.height() * share) / 2.0
        corner = ((left - place.left_px) / place.scale, (place.bottom_px - top) / place.scale)
        canvas.under, canvas.scaling = underlay.Under(image, corner, share / place.scale), []
        canvas.update()
        self._say("Click both ends of a length you know in the picture.")

    def _ask_length(self, ends: tuple[Flat, Flat]) -> None:
        self._known = ends
        self._show()
        self.real.setFocus()
        self._say("Type how long that is, and press Enter.")

    def _scale_picture(self) -> None:
        """Bring the picture to scale; the first of the two spots stays where it is."""
        value, known, under = (
            number_text.length_mm(self.real.text()),
            self._known,
            self.canvas.under,
        )
        if value is None or value <= 0.0 or known is None or under is None:
            return
        self._known = None
        share = value / max(math.dist(*known), 1e-6)
        (x, y), (left, top) = known[0], under.corner
        corner = (x + (left - x) * share, y + (top - y) * share)
        self.canvas.under = underlay.Under(under.image, corner, under.mm_per_px * share)
        self.real.show_text("")
        self._show()
        self.canvas.setFocus()
        self.canvas.update()
        self._say("The picture is to scale. Draw over it.")

    def _say(self, words: str) -> None:
        self.hint.setText(words)


def _hint(kind: SideKind) -> str:
    return f"{kind.value.capitalize()} on this side ({chr(_KEYS[kind])})"


def _button(words: str, hint: str) -> QToolButton:
    button = QToolButton()
    button.setObjectName("compact")
    button.setText(words)
    button.setToolTip(hint)
    return button


def _number(name: str) -> JobLineEdit:
    edit = JobLineEdit()
    edit.setAccessibleName(name)
    edit.setFixedWidth(72)
    return edit


def _row(words: str, edit: QWidget, unit: str) -> QWidget:
    box = QWidget()
    row = QHBoxLayout(box)
    row.setContentsMargins(8, 0, 0, 0)
    for widget in (QLabel(words), edit, QLabel(unit)):
        row.addWidget(widget)
    row.addStretch(1)
    return box
