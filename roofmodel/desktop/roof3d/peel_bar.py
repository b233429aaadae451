"""Peels the roof layer by layer, from the finished covering down to the bars."""

from collections.abc import Sequence

import numpy as np
from PySide6.QtCore import QSignalBlocker, Qt, QTimer
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QSlider, QToolButton, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit.stack_picture import BAR_COLOUR
from roofmodel.desktop.roof3d.peel_scene import Peeled
from roofmodel.desktop.roof3d.viewport import Viewport
from roofmodel.drawings.views import layer_style
from roofmodel.foundation.errors import RoofModelError
from roofmodel.geometry import prism
from roofmodel.refit.refit import Refit
from roofmodel.workbench.job import layers
from roofmodel.workbench.job.reckoning import Drawn

PAUSE_MS = 120
"""Bodies are made anew when nothing was edited for so long; never while somebody types."""

BARS = "bars"


class PeelBar(QWidget):
    """A slider under the buttons of the view, while layers are shown."""

    def __init__(self, open_job: OpenJob, viewport: Viewport) -> None:
        """Build the slider, then listen; nothing is computed before `turn_on`."""
        super().__init__()
        self._open_job, self._viewport = open_job, viewport
        self._on = False
        self._made_for: Drawn | None = None
        self._bodies: tuple[Peeled, ...] = ()
        self._stripped = 0
        self._fault = ""
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setPageStep(1)
        self.slider.setMinimumWidth(60)
        self.slider.setMaximumWidth(220)
        self.slider.setToolTip("From the finished roof down to the bars (Page Up, Page Down)")
        self.outer, self.inner = (
            _step("◂", "Show one more layer"),
            _step("▸", "Show one layer fewer"),
        )
        self.words = QLabel()
        self.words.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 0, 8, 0)
        row.setSpacing(4)
        for widget in (self.outer, self.slider, self.inner):
            row.addWidget(widget)
        row.addWidget(self.words, 1)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._pause.timeout.connect(self._make)
        self.slider.valueChanged.connect(self._peel)
        self.outer.clicked.connect(lambda: self.slider.setValue(self.slider.value() - 1))
        self.inner.clicked.connect(lambda: self.slider.setValue(self.slider.value() + 1))
        open_job.reckoned.connect(self._follow)
        self.hide()

    @property
    def on(self) -> bool:
        """Whether layers are shown."""
        return self._on

    def turn_on(self, on: bool) -> None:  # noqa: FBT001 - Qt's signal
        """Show the layers, or the roof as it was."""
        self._on = on
        self.setVisible(on)
        if on:
            self._make()
            self.slider.setFocus()
        else:
            self._pause.stop()
            self._made_for = None
            self._viewport.peel(None)

    def _follow(self) -> None:
        if self._on and self._open_job.drawn is not self._made_for:
            self._pause.start()

    def _make(self) -> None:
        drawn = self._open_job.drawn
        self._made_for, self._fault, self._bodies = drawn, "", ()
        if drawn is not None:
            try:
                self._bodies = bodies(drawn)
            except RoofModelError as error:
                self._fault = str(error)
        self._viewport.peel(self._bodies)
        with QSignalBlocker(self.slider):
            self.slider.setRange(0, max(len(self._bodies) - 1, 0))
            self.slider.setValue(min(self._stripped, self.slider.maximum()))
        self._peel(self.slider.value())

    def _peel(self, stripped: int) -> None:
        self._stripped = stripped
        left = len(self._bodies) - stripped
        self._viewport.peel_to(left)
        if not self._bodies:
            words = self._fault or "There is nothing to peel."
        else:
            words = self._bodies[left - 1].name
        self.words.setText(words)
        self.words.setToolTip(words)
        self.outer.setEnabled(stripped > 0)
        self.inner.setEnabled(stripped < self.slider.maximum())


def bodies(drawn: Drawn) -> tuple[Peeled, ...]:
    """Return the bars, then every layer from the room outwards, as bodies with their colours.

    Raises
    ------
    RoofModelError
        If the method makes no build-up on this roof, or a layer has another shape than the roof.
    """
    peeled = [
        Peeled(
            name=f"{one.placed.number} {one.placed.material.name}",
            body=one.body,
            colour=layer_style.layer_colour(one.placed.material.category),
        )
        for one in layers.of_option(drawn.option)
    ]
    refit = drawn.option.refit
    return (*(_bars(refit) if refit is not None else ()), *peeled)


def _bars(refit: Refit) -> Sequence[Peeled]:
    """Return the bars up the slopes as one body; none where none are entered."""
    boxes = []
    for bar in refit.members.bars:
        half = bar.width_mm / 2.0
        low, high = bar.foot.v_mm, bar.head.v_mm
        left, right = bar.at_mm - half, bar.at_mm + half
        outline = np.array([[left, low], [right, low], [right, high], [left, high]])
        frame = refit.site.roof.facet(bar.facet).frame
        boxes.append(prism.over(frame, outline, -refit.bar_depth_mm, -0.5))
    return [Peeled(name=BARS, body=prism.joined(boxes), colour=BAR_COLOUR)] if boxes else []


def _step(words: str, hint: str) -> QToolButton:
    button = QToolButton()
    button.setObjectName("compact")
    button.setText(words)
    button.setToolTip(hint)
    button.setAutoRepeat(True)
    return button
