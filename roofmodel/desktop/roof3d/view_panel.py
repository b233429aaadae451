"""The 3D view with its buttons, kept in step with the open job."""

from PySide6.QtWidgets import (
    QButtonGroup,
    QLabel,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.job import highlight
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit.flow_row import FlowRow
from roofmodel.desktop.roof3d.camera import Stand
from roofmodel.desktop.roof3d.look_bar import LookBar
from roofmodel.desktop.roof3d.peel_bar import PeelBar
from roofmodel.desktop.roof3d.shape_tool import ShapeTool
from roofmodel.desktop.roof3d.viewport import Viewport
from roofmodel.drawings.scenes.looks import Look

_HINTS = {
    Stand.FREE: "From the garden; drag to turn, Shift-drag to move, wheel to zoom",
    Stand.PLAN: "Straight from above, house wall at the top",
    Stand.FRONT: "From the garden, square to the house wall",
    Stand.SIDE: "From the right-hand side, along the house wall",
}


class ViewPanel(QWidget):
    """Shows the roof and hands clicks on facets to the job."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build view and buttons, then listen."""
        super().__init__()
        self._open_job = open_job
        self.viewport = Viewport(self)
        self.banner = QLabel()
        self.banner.setObjectName("banner")
        self.banner.hide()
        self.stands = {stand: _button(stand.value, _HINTS[stand]) for stand in Stand}
        self.fit = _button("Whole roof", "Fit the whole roof in the view (Ctrl+0)")
        self.fit.setCheckable(False)
        self.measure = _button("Measure", "Measure between two corners: click both; Esc clears")
        self.shape = _button("Shape", "Take hold of a dot and drag it: the roof follows (Ctrl+D)")
        self.sketch = _button("Plan sketch", "Draw the plan, or move its sides, beside the roof")
        self.peel = _button("Layers", "Peel off the layers one by one, down to the bars (Ctrl+L)")
        self.peel_bar = PeelBar(open_job, self.viewport)
        self.look_bar = LookBar(open_job, self.viewport)
        self.shape_tool = ShapeTool(open_job, self.viewport)
        self.viewport.shaping = self.shape_tool
        self._group = QButtonGroup(self)
        self._lay_out()
        self._listen()
        self._show_stand()
        self._show()

    def for_customer(self, *, on: bool) -> None:
        """Hide the tools of the trade while a customer looks on."""
        for tool in (self.measure, self.shape, self.sketch, self.peel):
            tool.setVisible(not on)

    def _listen(self) -> None:
        self.fit.clicked.connect(self.viewport.fit)
        self.viewport.moved.connect(self._show_stand)
        self.viewport.clicked.connect(self._open_job.select)
        self.peel.toggled.connect(self._peel)
        self.shape.toggled.connect(self._shape)
        self.look_bar.changed.connect(self._look)
        self._open_job.beginning.connect(self._forget)
        self._open_job.lit.connect(self._show_light)
        self._open_job.reckoned.connect(self._show)
        self._open_job.selected.connect(self._show)

    def _lay_out(self) -> None:
        for number, (stand, button) in enumerate(self.stands.items(), start=1):
            button.setToolTip(f"{_HINTS[stand]} (Ctrl+{number})")
            self._group.addButton(button)
            button.clicked.connect(lambda _checked, stand=stand: self.viewport.stand_at(stand))
        bar = FlowRow()
        tools = [self.fit, self.measure, self.shape, self.sketch, self.peel]
        bar.hold([self.look_bar, *self.stands.values(), *tools, self.banner])
        column = QVBoxLayout(self)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(2)
        column.addWidget(bar)
        column.addWidget(self.peel_bar)
        column.addWidget(self.viewport.widget, 1)

    def _show(self) -> None:
        drawn, facet = self._open_job.drawn, self._open_job.facet
        self.banner.setVisible(self._open_job.stale)
        if drawn is None or facet is None:
            self._say("No roof yet", "See the findings.")
            self.viewport.clear()
            return
        self._say("Last valid roof", "The current entry is not valid; see the findings.")
        self.viewport.show(
            drawn.roof,
            selected=facet.name,
            line=self._open_job.line,
            stale=self._open_job.stale,
        )

        self._show_light()

    def _show_light(self) -> None:
        drawn, place = self._open_job.drawn, self._open_job.light_on
        self.viewport.light(highlight.in_space(drawn, place) if drawn else ())

    def _peel(self, on: bool) -> None:  # noqa: FBT001 - Qt's signal
        """Peel the layers; the looks are for the whole roof."""
        if on:
            self.shape.setChecked(False)
            self.look_bar.choose(Look.FACETS)
        self.peel_bar.turn_on(on)

    def _shape(self, on: bool) -> None:  # noqa: FBT001 - Qt's signal
        """Shape the roof in its facets, which follow at once."""
        if on:
            self.peel.setChecked(False)
            self.look_bar.choose(Look.FACETS)
        self.shape_tool.turn_on(on)

    def _look(self) -> None:
        if self.look_bar.look is not Look.FACETS:
            self.peel.setChecked(False)
            self.shape.setChecked(False)
        if self.look_bar.fault:
            self._say("Cannot be built so", self.look_bar.fault)
            self.banner.setVisible(True)

    def _forget(self) -> None:
        """Look at the next job's roof as at a new one, whole and not peeled."""
        self.peel.setChecked(False)
        self.viewport.forget_view()

    def _say(self, words: str, more: str) -> None:
        self.banner.setText(words)
        self.banner.setToolTip(more)

    def _show_stand(self) -> None:
        self._group.setExclusive(False)
        for stand, button in self.stands.items():
            button.setChecked(stand is self.viewport.stand)
        self._group.setExclusive(True)


def _button(words: str, hint: str) -> QToolButton:
    button = QToolButton()
    button.setObjectName("compact")
    button.setText(words)
    button.setToolTip(hint)
    button.setCheckable(True)
    return button
