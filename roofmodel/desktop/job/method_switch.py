"""The choice between the three methods, and why the chosen one is refused."""

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QButtonGroup, QToolButton, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.flow_row import FlowRow
from roofmodel.refit.method import Method
from roofmodel.refit.stack import shipped

FORM = "refit"
"""Where the refit stands in the job file, and the name of its forms for what they reject."""


class MethodSwitch(QWidget):
    """Three buttons; a refused method stays selectable."""

    def __init__(self, open_job: OpenJob, *, says_why: bool = True) -> None:
        """Build the buttons, then listen; ``says_why`` shows a refusal below them."""
        super().__init__()
        self._open_job, self._says_why = open_job, says_why
        self.buttons: dict[Method, QToolButton] = {}
        self.reason = theme.Wrapped()
        self.reason.setObjectName("stop")
        self.reason.hide()
        column, row = QVBoxLayout(self), FlowRow(margin_px=0, top_px=0)
        column.setContentsMargins(0, 0, 0, 0)
        group = QButtonGroup(self)
        for method in Method:
            button = QToolButton()
            button.setObjectName("compact")
            button.setText(method.printed)
            button.setCheckable(True)
            button.setToolTip(_tip(method))
            button.clicked.connect(partial(self._choose, method))
            group.addButton(button)
            self.buttons[method] = button
        row.hold(tuple(self.buttons.values()))
        column.addWidget(row)
        column.addWidget(self.reason)
        open_job.reckoned.connect(self._show)
        self._show()

    def _show(self) -> None:
        chosen = self._open_job.job.refit.method
        with QSignalBlocker(self):
            self.buttons[chosen].setChecked(True)
        drawn = self._open_job.drawn
        why = drawn.option.refused if drawn is not None else ""
        if why:
            why = f"{chosen.printed} cannot be used on this roof. {why}"
        if self.reason.text() != why:
            self.reason.setText(why)
        self.reason.setVisible(self._says_why and bool(why))

    def _choose(self, method: Method) -> None:
        job = self._open_job.job
        self._open_job.enter(
            replace(job, refit=replace(job.refit, method=method)), form=f"{FORM}.method"
        )


def _tip(method: Method) -> str:
    stack = shipped()[method]
    return f"Kept: {stack.kept}.\nReplaced: {stack.replaced}."
