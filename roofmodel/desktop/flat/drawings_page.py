"""The page of flat drawings: plan, four elevations, and a section along a line of the plan."""

from enum import StrEnum

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QHBoxLayout,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.flat import elevation_picture, out_of_square, plan_picture, section_picture
from roofmodel.desktop.flat.plan_canvas import PlanCanvas
from roofmodel.desktop.flat.section_fields import SectionFields
from roofmodel.desktop.flat.section_picture import SectionLine
from roofmodel.desktop.job import highlight
from roofmodel.desktop.job.corner_choice import CornerChoice
from roofmodel.desktop.job.measuring import Measuring
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.picture_view import PictureView
from roofmodel.drawings.views.elevation import Side
from roofmodel.foundation.errors import RoofModelError
from roofmodel.workbench.job.reckoning import Drawn


class Sheet(StrEnum):
    """What can be drawn."""

    PLAN = "Plan"
    FRONT = "Front"
    LEFT = "Left"
    RIGHT = "Right"
    REAR = "Rear"
    SECTION = "Section"


_SIDES = {
    Sheet.FRONT: Side.FRONT,
    Sheet.LEFT: Side.LEFT,
    Sheet.RIGHT: Side.RIGHT,
    Sheet.REAR: Side.REAR,
}


class DrawingsPage(QWidget):
    """Draws what the open job makes; decides nothing about the roof."""

    def __init__(self, open_job: OpenJob, measuring: Measuring) -> None:
        """Build the page, then listen."""
        super().__init__()
        self._open_job, self._measuring = open_job, measuring
        self._line: SectionLine | None = None
        self.sheets = {sheet: _button(sheet.value) for sheet in Sheet}
        self.measure = _button("Measure")
        self.measure.setToolTip("Click two corners to measure between them; Esc clears")
        self.askew = QCheckBox("Out of square ×10")
        self.plan, self.view = PlanCanvas(measuring), PictureView()
        self.section_fields = SectionFields()
        self.corner_choice = CornerChoice(measuring)
        self._splitter = QSplitter(Qt.Orientation.Horizontal)
        self._group = QButtonGroup(self)
        self._lay_out()
        self.sheets[Sheet.PLAN].setChecked(True)
        self._group.buttonClicked.connect(lambda _button: self._show())
        self.measure.toggled.connect(measuring.switch)
        measuring.changed.connect(self._follow_measuring)
        self.askew.toggled.connect(lambda _on: self._show())
        self.plan.section_drawn.connect(self.cut_along)
        self.section_fields.entered.connect(self.cut_along)
        open_job.begun.connect(self._begin)
        open_job.reckoned.connect(self._show)
        open_job.lit.connect(self._show_light)
        self._show_tools(open_job.drawn)

    @property
    def sheet(self) -> Sheet:
        """What is drawn now."""
        return next(sheet for sheet, button in self.sheets.items() if button.isChecked())

    @property
    def section_line(self) -> SectionLine | None:
        """The line chosen on plan; None for the one through the middle."""
        return self._line

    def cut_along(self, line: SectionLine | None) -> None:
        """Cut the section along a line of the plan; None goes through the middle again."""
        self._line = line
        self._show()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Draw what was edited while another page was in front."""
        super().showEvent(event)
        self._show()

    def _begin(self) -> None:
        self._line = None

    def _lay_out(self) -> None:
        bar = QHBoxLayout()
        bar.setSpacing(4)
        for button in self.sheets.values():
            self._group.addButton(button)
            bar.addWidget(button)
        bar.addSpacing(10)
        bar.addWidget(self.measure)
        bar.addWidget(self.askew)
        bar.addStretch(1)
        more = QHBoxLayout()
        more.addWidget(self.section_fields)
        more.addWidget(self.corner_choice)
        more.addStretch(1)
        self._splitter.setChildrenCollapsible(False)
        self._splitter.addWidget(self.plan)
        self._splitter.addWidget(self.view)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 6, 8, 2)
        column.setSpacing(4)
        column.addLayout(bar)
        column.addLayout(more)
        column.addWidget(self._splitter, 1)

    def _follow_measuring(self) -> None:
        self.measure.setChecked(self._measuring.on)
        self._show_tools(self._open_job.drawn)

    def _show(self) -> None:
        # An elevation takes longer than a frame; nobody waits for one that is not in sight.
        if not self.isVisible():
            return
        drawn, sheet, grey = self._open_job.drawn, self.sheet, self._open_job.stale
        self.plan.setVisible(sheet in (Sheet.PLAN, Sheet.SECTION))
        self.view.setVisible(sheet is not Sheet.PLAN)
        self._show_tools(drawn)
        if drawn is None:
            for view in (self.plan, self.view):
                view.show_picture(None, why_not=theme.NO_ROOF)
            return
        self.plan.show_picture(plan_picture.picture(drawn.roof), greyed=grey)
        self._show_light()
        self._show_askew(drawn)
        self.plan.show_section_line(None)
        if sheet in _SIDES:
            picture = elevation_picture.picture(drawn.roof, _SIDES[sheet])
            self.view.show_picture(picture, greyed=grey)
        elif sheet is Sheet.SECTION:
            self._show_section(drawn, greyed=grey)

    def _show_section(self, drawn: Drawn, *, greyed: bool) -> None:
        line = self._line or section_picture.default_line(drawn.roof)
        self.plan.show_section_line(line)
        self.section_fields.show_line(line)
        try:
            picture = section_picture.picture(drawn.roof, line)
        except RoofModelError as error:
            self.view.show_picture(None, why_not=str(error))
        else:
            self.view.show_picture(picture, greyed=greyed)

    def _show_light(self) -> None:
        drawn = self._open_job.drawn
        strokes = highlight.in_space(drawn, self._open_job.light_on) if drawn else ()
        on_paper = plan_picture.on_paper
        self.plan.light([(on_paper(*a[:2]), on_paper(*b[:2])) for a, b in strokes])

    def _show_tools(self, drawn: Drawn | None) -> None:
        sheet = self.sheet
        self.section_fields.setVisible(sheet is Sheet.SECTION)
        self.corner_choice.setVisible(self._measuring.on and sheet is Sheet.PLAN)
        self.measure.setEnabled(drawn is not None and sheet is Sheet.PLAN)

    def _show_askew(self, drawn: Drawn) -> None:
        corners = drawn.footprint.corners_mm
        reason = out_of_square.why_not(corners)
        self.askew.setEnabled(not reason and self.sheet is Sheet.PLAN)
        self.askew.setToolTip(
            reason
            or "Shows the corners against the nearest true rectangle, with the error exaggerated"
        )
        shown = not reason and self.askew.isChecked() and self.sheet is Sheet.PLAN
        names = _corner_names(drawn)
        self.plan.show_deviations(out_of_square.deviations(corners, names) if shown else ())


def _corner_names(drawn: Drawn) -> list[str]:
    """Return what the survey sheet calls the corners, or letters in the same order."""
    if drawn.examination is not None:
        return list(drawn.examination.adjusted.network.corners)
    return [chr(ord("A") + i) for i in range(len(drawn.footprint.corners_mm))]


def _button(words: str) -> QToolButton:
    button = QToolButton()
    button.setText(words)
    button.setCheckable(True)
    return button
