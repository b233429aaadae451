"""Boards on the selected facet, the nested sheets, and what each material comes to."""

from collections.abc import Mapping

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSplitter,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting import laying
from roofmodel.cutting.rule import rules_for
from roofmodel.desktop import look
from roofmodel.desktop.cutting_figures import CuttingFigures, said_shortly
from roofmodel.desktop.cutting_run import (
    CuttingRun,
    Failed,
    Planned,
    Searching,
    Waiting,
)
from roofmodel.desktop.facet_drawing import BoardedFacet, FacetDrawing
from roofmodel.desktop.open_job import OpenJob
from roofmodel.desktop.sheets_drawing import SheetsDrawing
from roofmodel.drawings import facet_style
from roofmodel.foundation.errors import RoofModelError
from roofmodel.shapes.roof import Facet, Roof

_NO_ROOF = "There is no roof yet. The findings at the left say what is missing."


class CuttingPanel(QWidget):
    """Shows boards at once and plans as they come; decides nothing."""

    def __init__(self, open_job: OpenJob, run: CuttingRun) -> None:
        """Build the pages, then listen."""
        super().__init__()
        self._open_job, self._run = open_job, run
        self.material = QComboBox()
        self.material.setToolTip("Which material's boards and sheets are shown")
        self.facet_drawing, self.sheets_drawing = FacetDrawing(), SheetsDrawing()
        self.figures = CuttingFigures()
        self.working = look.faint()
        self.working.setWordWrap(False)
        self.cancel, self.again = QPushButton("Cancel"), QPushButton("Work out plan")
        self.pages = QTabWidget()
        self._lay_out()
        self.material.activated.connect(lambda _row: self._show_all())
        self.figures.chosen.connect(self._choose)
        self.cancel.clicked.connect(run.cancel)
        self.again.clicked.connect(run.begin)
        open_job.reckoned.connect(self._show_all)
        open_job.selected.connect(self._show_facet)
        run.changed.connect(self._show_plan)
        self._show_all()

    @property
    def good(self) -> SheetGood | None:
        """The material that is shown."""
        drawn = self._open_job.drawn
        if drawn is None:
            return None
        code = self.material.currentData()
        return next((good for good in drawn.goods if good.code == code), None)

    def _lay_out(self) -> None:
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self.splitter.setChildrenCollapsible(False)
        self.splitter.addWidget(self._drawings())
        self.splitter.addWidget(self._plans())
        self.splitter.setStretchFactor(0, 3)
        self.splitter.setStretchFactor(1, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 4, 1, 1)
        whole.addWidget(self.splitter)

    def _drawings(self) -> QWidget:
        """Return the pages, with the choice of the material they show beside their tabs."""
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setWidget(self.sheets_drawing)
        self.pages.setDocumentMode(True)
        self.pages.addTab(self.facet_drawing, "Boards")
        self.pages.addTab(scroll, "Sheets")
        by_content = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        self.material.setSizeAdjustPolicy(by_content)
        self.material.setMinimumContentsLength(17)
        corner = QWidget()
        row = QHBoxLayout(corner)
        row.setContentsMargins(0, 0, 8, 0)
        row.addWidget(self.material)
        self.pages.setCornerWidget(corner, Qt.Corner.TopRightCorner)
        return self.pages

    def _plans(self) -> QWidget:
        """Return the figures under a line that tells what is being worked on."""
        head = QHBoxLayout()
        head.addWidget(look.heading("Cutting"))
        head.addWidget(self.working, 1)
        head.addWidget(self.cancel)
        head.addWidget(self.again)
        plans = QWidget()
        plans.setMinimumWidth(360)
        column = QVBoxLayout(plans)
        column.setContentsMargins(10, 8, 12, 8)
        column.addLayout(head)
        column.addWidget(self.figures, 1)
        return plans

    def _show_all(self) -> None:
        self._show_materials()
        self._show_facet()
        self._show_plan()

    def _show_materials(self) -> None:
        drawn = self._open_job.drawn
        goods = drawn.goods if drawn else ()
        codes = [good.code for good in goods]
        if [self.material.itemData(i) for i in range(self.material.count())] != codes:
            before = self.material.currentData()
            self.material.clear()
            for good in goods:
                self.material.addItem(good.name, good.code)
            self.material.setCurrentIndex(max(0, self.material.findData(before)))

    def _choose(self, code: str) -> None:
        self.material.setCurrentIndex(self.material.findData(code))
        self._show_all()

    def _show_facet(self) -> None:
        drawn, facet, good = self._open_job.drawn, self._open_job.facet, self.good
        if drawn is None or facet is None:
            self.facet_drawing.show_facet(None, why_not=_NO_ROOF)
        elif good is None:
            self.facet_drawing.show_facet(None, why_not="No sheet material is chosen.")
        else:
            colour = facet_style.facet_colour(drawn.roof.facets.index(facet))
            if self._open_job.stale:
                colour = look.greyed(colour)
            self._show_boards(facet, good, colour)

    def _show_boards(self, facet: Facet, good: SheetGood, colour: str) -> None:
        try:
            laid = laying.lay(facet.outline_mm, rules_for(good), facet=facet.name)
        except RoofModelError as error:
            self.facet_drawing.show_facet(None, why_not=str(error))
            return
        self.facet_drawing.show_facet(
            BoardedFacet(facet=facet, colour=colour, boards=laid.boards, material=good.short)
        )

    def _show_plan(self) -> None:
        drawn, good = self._open_job.drawn, self.good
        goods = drawn.goods if drawn else ()
        self.figures.show_states(goods, self._run.states, good.code if good else None)
        self.figures.setEnabled(not self._open_job.stale)
        running = self._run.running
        self.cancel.setVisible(running)
        self.again.setVisible(not running and self._run.gave_up)
        self.working.setText(_working(goods, self._run.states) if running else "")
        if drawn is not None and good is not None:
            self._show_sheets(drawn.roof, good)
        else:
            self.sheets_drawing.show_none(_NO_ROOF)

    def _show_sheets(self, roof: Roof, good: SheetGood) -> None:
        state = self._run.states.get(good.code, Waiting())
        if isinstance(state, Planned):
            colours = {
                facet.name: facet_style.facet_colour(place)
                for place, facet in enumerate(roof.facets)
            }
            self.sheets_drawing.show_layout(state.plan.layout, good, colours)
        elif isinstance(state, Failed):
            self.sheets_drawing.show_none(state.text)
        else:
            self.sheets_drawing.show_none(f"{good.short}: {said_shortly(state)}.")


def _working(goods: tuple[SheetGood, ...], states: Mapping[str, object]) -> str:
    """Return what is being worked on."""
    for good in goods:
        state = states.get(good.code)
        if isinstance(state, Searching):
            if not state.sheets:
                return f"{good.short}: looking for a first plan"
            return f"{good.short}: {state.sheets} sheets so far, bound {state.bound}"
    return "Plans begin in a moment"
