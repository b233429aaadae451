"""Boards on the selected facet, the nested sheets, and what each material comes to."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QSplitter,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.desktop.boards import boards_shown
from roofmodel.desktop.boards.board_choices_dialog import BoardChoicesDialog
from roofmodel.desktop.boards.cutting_figures import CuttingFigures, said_shortly
from roofmodel.desktop.boards.facet_drawing import FacetDrawing
from roofmodel.desktop.boards.firm_count import FirmCount
from roofmodel.desktop.boards.sheets_drawing import SheetsDrawing
from roofmodel.desktop.job import highlight
from roofmodel.desktop.job.cutting_run import CuttingRun, Failed, Planned, Searching, Waiting
from roofmodel.desktop.job.method_switch import MethodSwitch
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.drawings.views import facet_style
from roofmodel.foundation.errors import RoofModelError
from roofmodel.shapes.roof import Facet, Roof
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.job.sheet_layers import SheetLayer


class CuttingPanel(QWidget):
    """Shows boards at once and plans as they come; decides nothing."""

    def __init__(self, open_job: OpenJob, run: CuttingRun) -> None:
        """Build the pages, then listen."""
        super().__init__()
        self._open_job, self._run = open_job, run
        self._shown_short = ""
        self.material = QComboBox()
        self.material.setToolTip("Material whose boards and sheets are shown")
        self.facet_drawing, self.sheets_drawing = FacetDrawing(), SheetsDrawing()
        self.figures, self.firm = CuttingFigures(), FirmCount(open_job, run)
        self.methods = MethodSwitch(open_job)
        self.working = theme.faint()
        self.working.setWordWrap(False)
        self.working.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.cancel, self.again = QPushButton("Cancel"), QPushButton("Plan cutting")
        self.take = QPushButton("Take this one")
        self.boards = QPushButton("&Boards…")
        self.boards.setToolTip("Sizes, saw cut, gaps and the way of laying, on this job only")
        self.effort = _effort_choice(run)
        self.pages = QTabWidget()
        self._lay_out()
        self.material.activated.connect(lambda _row: self._show_all())
        self.figures.chosen.connect(self._choose)
        self.cancel.clicked.connect(run.cancel)
        self.again.clicked.connect(run.begin)
        self.take.clicked.connect(run.take)
        self.boards.clicked.connect(self._ask_boards)
        open_job.reckoned.connect(self._show_all)
        open_job.selected.connect(self._show_facet)
        open_job.lit.connect(self._show_light)
        run.changed.connect(self._show_plan)
        self._show_all()

    @property
    def layer(self) -> SheetLayer | None:
        """The sheet layer that is shown."""
        drawn = self._open_job.drawn
        if drawn is None:
            return None
        number = self.material.currentData()
        return next((one for one in drawn.option.sheets if one.number == number), None)

    def board_choices(self) -> BoardChoicesDialog:
        """Return the dialog for what this job's sheets differ in, those of the method first."""
        drawn = self._open_job.drawn
        every = self._open_job.catalogue.sheet_goods()
        first = [one.good.code for one in drawn.option.sheets] if drawn is not None else []
        codes = dict.fromkeys((*(code for code in first if code in every), *every))
        return BoardChoicesDialog(
            self,
            self._open_job.job.boards,
            {code: every[code] for code in codes},
            self._open_job.tables.ways,
        )

    def take_boards(self, boards: tuple[BoardChoice, ...]) -> None:
        """Board the job with other choices."""
        self._open_job.enter(replace(self._open_job.job, boards=boards), form="boards")

    def _ask_boards(self) -> None:
        box = self.board_choices()
        if box.exec() == QDialog.DialogCode.Accepted:
            self.take_boards(box.boards)

    def _lay_out(self) -> None:
        self.splitter = QSplitter(Qt.Orientation.Vertical)
        self.splitter.setChildrenCollapsible(False)
        self.splitter.addWidget(self._drawings())
        self.splitter.addWidget(self._plans())
        self.splitter.setStretchFactor(0, 3)
        self.splitter.setStretchFactor(1, 1)
        self.splitter.setSizes([560, 230])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 4, 1, 1)
        whole.setSpacing(4)
        top = QHBoxLayout()
        top.addWidget(self.methods, 1)
        top.addWidget(self.effort)
        top.addSpacing(8)
        whole.addLayout(top)
        whole.addWidget(self.splitter, 1)

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
        self.material.setMinimumContentsLength(11)
        corner = QWidget()
        row = QHBoxLayout(corner)
        row.setContentsMargins(0, 0, 8, 0)
        row.addWidget(self.material)
        row.addWidget(self.boards)
        self.pages.setCornerWidget(corner, Qt.Corner.TopRightCorner)
        return self.pages

    def _plans(self) -> QWidget:
        """Return the figures under a line that tells what is being worked on."""
        head = QHBoxLayout()
        head.addWidget(theme.heading("Cutting"))
        head.addWidget(self.working, 1)
        head.addWidget(self.take)
        head.addWidget(self.cancel)
        head.addWidget(self.again)
        plans = QWidget()
        plans.setMinimumWidth(260)
        column = QVBoxLayout(plans)
        column.setContentsMargins(10, 8, 12, 8)
        column.addLayout(head)
        column.addWidget(self.figures, 1)
        column.addWidget(self.firm)
        return plans

    def _show_all(self) -> None:
        self._show_materials()
        self._show_plan()

    def _show_materials(self) -> None:
        drawn = self._open_job.drawn
        layers = drawn.option.sheets if drawn else ()
        entries = [(layer.number, _name(layer, layers)) for layer in layers]
        shown = range(self.material.count())
        if [(self.material.itemData(i), self.material.itemText(i)) for i in shown] != entries:
            before = self._shown_short
            self.material.clear()
            for number, name in entries:
                self.material.addItem(name, number)
            shorts = [layer.good.short for layer in layers]
            deck = next((i for i, one in enumerate(layers) if one.good.layer == "deck"), 0)
            self.material.setCurrentIndex(shorts.index(before) if before in shorts else deck)
        layer = self.layer
        self._shown_short = layer.good.short if layer else ""

    def _choose(self, number: int) -> None:
        self.material.setCurrentIndex(self.material.findData(number))
        self._show_all()

    def _why_none(self, drawn: Drawn | None) -> str:
        """Return why there is no sheet to show."""
        if drawn is None:
            return theme.NO_ROOF
        if drawn.option.refused:
            return drawn.option.refusal
        return "This method has no layer cut from sheets. Add one on the “Layers” page."

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Lay what was edited while another page was in front."""
        super().showEvent(event)
        self._show_facet()

    def _show_facet(self) -> None:
        if not self.isVisible():
            return
        drawn, facet, layer = self._open_job.drawn, self._open_job.facet, self.layer
        if drawn is None or facet is None or layer is None or drawn.option.refused:
            self.facet_drawing.show_facet(None, why_not=self._why_none(drawn))
            return
        colour = facet_style.facet_colour(drawn.roof.facets.index(facet))
        if self._open_job.stale:
            colour = theme.greyed(colour)
        self._show_pieces(drawn, facet, layer, colour)

    def _show_pieces(self, drawn: Drawn, facet: Facet, layer: SheetLayer, colour: str) -> None:
        plan = self._run.by_layer.get(layer.number)
        try:
            found = boards_shown.on_facet(layer, drawn.option, facet, plan, colour=colour)
        except RoofModelError as error:
            self.facet_drawing.show_facet(None, why_not=str(error))
            return
        why_not = f"{facet.name} is left as it is: no {layer.good.name} is laid there."
        self.facet_drawing.show_facet(found, why_not=why_not)
        self._show_light()

    def _show_light(self) -> None:
        drawn, facet = self._open_job.drawn, self._open_job.facet
        if drawn is not None and facet is not None:
            place = self._open_job.light_on
            self.facet_drawing.light(highlight.on_facet(drawn, place, facet))

    def _show_plan(self) -> None:
        drawn, layer = self._open_job.drawn, self.layer
        refused = drawn is None or bool(drawn.option.refused)
        layers = drawn.option.sheets if drawn else ()
        self.figures.show_states(
            layers,
            self._run.states,
            layer.number if layer else None,
            why_none=self._why_none(drawn),
        )
        self.figures.setEnabled(not self._open_job.stale)
        running = self._run.running
        self.cancel.setVisible(running)
        self.again.setVisible(not running and self._run.gave_up and not refused)
        self.take.setVisible(bool(self._run.offered) and not refused)
        said = _working(layers, self._run.states) if running else ""
        self.working.setText(said or _offered(layers, self._run.offered))
        self._show_facet()
        if drawn is None or layer is None or refused:
            self.sheets_drawing.show_none(self._why_none(drawn))
        else:
            self._show_sheets(drawn.roof, layer)

    def _show_sheets(self, roof: Roof, layer: SheetLayer) -> None:
        good = layer.good
        state = self._run.states.get(layer.number, Waiting())
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


def _effort_choice(run: CuttingRun) -> QComboBox:
    """Return the choice of how long to search."""
    found = QComboBox()
    found.setToolTip(
        "How long to look for fewer sheets. A long search takes several times as long as the "
        "usual one; every plan is checked in the same way."
    )
    for effort in Effort:
        found.addItem(f"{effort.value.capitalize()} search", effort.value)
    found.setCurrentIndex(found.findData(run.effort.value))
    found.activated.connect(lambda _row: run.search_for(Effort(found.currentData())))
    return found


def _name(layer: SheetLayer, layers: Sequence[SheetLayer]) -> str:
    """Return a layer's material, told apart where another layer has the same."""
    twice = sum(other.good.code == layer.good.code for other in layers) > 1
    return f"{layer.good.name}, layer {layer.number}" if twice else layer.good.name


def _offered(layers: Sequence[SheetLayer], offered: Mapping[int, Plan]) -> str:
    """Return what was found before the search was cancelled."""
    counts = [
        f"{layer.good.short}: {offered[layer.number].sheets} sheets"
        for layer in layers
        if layer.number in offered
    ]
    return f"Found by then: {', '.join(counts)}" if counts else ""


def _working(layers: Sequence[SheetLayer], states: Mapping[int, object]) -> str:
    """Return what is being worked on."""
    for layer in layers:
        state = states.get(layer.number)
        if isinstance(state, Searching):
            if not state.sheets:
                return f"{layer.good.short}: looking for a first plan"
            return (
                f"{layer.good.short}: {state.sheets} sheets so far; at least {state.bound} needed"
            )
    return "Planning starts shortly"
