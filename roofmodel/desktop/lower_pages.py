"""The lower area: everything about the job as pages, with the survey's lamp always in sight."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QTabWidget, QVBoxLayout, QWidget

from roofmodel.desktop.boards.cutting_panel import CuttingPanel
from roofmodel.desktop.job.open_job import READINGS, OpenJob
from roofmodel.desktop.layers.layers_page import LayersPage
from roofmodel.desktop.survey.bars_panel import FORM as BARS
from roofmodel.desktop.survey.bars_panel import BarsPanel
from roofmodel.desktop.survey.readings_panel import ReadingsPanel
from roofmodel.desktop.survey.survey_checks import SurveyChecks
from roofmodel.desktop.survey.survey_lamp import SurveyLamp


class LowerPages(QTabWidget):
    """Shows one page at a time."""

    def __init__(self, open_job: OpenJob, cutting: CuttingPanel) -> None:
        """Build survey, bars and layers beside the cutting page."""
        super().__init__()
        self.readings, self.checks = ReadingsPanel(open_job), SurveyChecks(open_job)
        self.bars, self.lamp = BarsPanel(open_job), SurveyLamp(open_job)
        self.layers = LayersPage(open_job)
        self.survey = QWidget()
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self.splitter.setChildrenCollapsible(False)
        self.splitter.addWidget(self.readings)
        self.splitter.addWidget(self.checks)
        self.splitter.setStretchFactor(0, 3)
        self.splitter.setStretchFactor(1, 1)
        self.splitter.setSizes([740, 320])
        column = QVBoxLayout(self.survey)
        column.setContentsMargins(0, 2, 0, 0)
        column.addWidget(self.splitter)
        self.setDocumentMode(True)
        for page, title in (
            (cutting, "Cutting"),
            (self.survey, "Survey"),
            (self.bars, "Bars"),
            (self.layers, "Layers"),
        ):
            self.addTab(page, title)
        self.setUsesScrollButtons(True)
        self.setCornerWidget(self.lamp, Qt.Corner.TopRightCorner)
        self.lamp.clicked.connect(self.open_survey)

    def open_survey(self) -> None:
        """Bring the survey page to the front."""
        self.setCurrentWidget(self.survey)

    def lead_to(self, path: str) -> bool:
        """Open the page a finding is about, at its field; False when it is on none of them."""
        room, _, name = path.partition(".")
        if room == READINGS:
            self.open_survey()
            self.readings.focus_line(name)
            return True
        if room == BARS:
            self.setCurrentWidget(self.bars)
            return self.bars.focus_field(path)
        if self.layers.has(path):
            # Shown first: what is on a page behind another takes no cursor.
            self.setCurrentWidget(self.layers)
            return self.layers.lead_to(path)
        return False
