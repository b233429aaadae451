"""The path along the top of the window: one word for each stage, and how it stands."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPoint, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QToolButton, QWidget

from roofmodel.desktop.kit import theme
from roofmodel.desktop.path.stage import Stage, Standing
from roofmodel.survey.taped.findings import Severity

_HIGH_PX, _WIDE_PX, _GAP_PX = 14, 26, 6


class PathBar(QWidget):
    """A thin row of stages, the one that is open underlined."""

    chosen = Signal(Stage)
    """A stage was clicked."""

    def __init__(self) -> None:
        """Build a button for each stage."""
        super().__init__()
        self.buttons = {stage: _button(stage) for stage in Stage}
        self._shown: dict[Stage, Standing] = {}
        group = QButtonGroup(self)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(2, 0, 2, 0)
        self._row.setSpacing(0)
        for stage, button in self.buttons.items():
            group.addButton(button)
            self._row.addWidget(button)
            button.clicked.connect(lambda _on, stage=stage: self.chosen.emit(stage))
        self._row.addStretch(1)

    def add_beside(self, widgets: Sequence[QWidget]) -> None:
        """Put widgets at the right-hand end."""
        for widget in widgets:
            self._row.addSpacing(_GAP_PX)
            self._row.addWidget(widget)

    def show_stage(self, stage: Stage) -> None:
        """Show which stage is open."""
        self.buttons[stage].setChecked(True)

    def show_standings(self, standings: Mapping[Stage, Standing]) -> None:
        """Show how the stages stand."""
        for stage, button in self.buttons.items():
            standing = standings.get(stage, Standing())
            if self._shown.get(stage) == standing:
                continue
            self._shown[stage] = standing
            button.setIcon(_icon(standing, self.devicePixelRatioF()))
            shown = standing.mark is not None or standing.done
            button.setIconSize(
                QSize(_WIDE_PX if standing.mark else _HIGH_PX, _HIGH_PX) if shown else QSize(0, 0)
            )
            button.setToolTip("\n".join(filter(None, (stage.hint, standing.words))))
            told = (
                f", {standing.count} open" if standing.mark else ", done" if standing.done else ""
            )
            button.setAccessibleName(f"{stage.value}{told}")


def _button(stage: Stage) -> QToolButton:
    button = QToolButton()
    button.setObjectName("stage")
    button.setText(stage.value)
    button.setToolTip(stage.hint)
    button.setAccessibleName(stage.value)
    button.setCheckable(True)
    button.setLayoutDirection(Qt.LayoutDirection.RightToLeft)
    button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
    button.setIconSize(QSize(0, 0))
    return button


def _icon(standing: Standing, ratio: float) -> QIcon:
    """Return a square with the count of stops, a round with that of questions, or a tick."""
    if standing.mark is None and not standing.done:
        return QIcon()
    wide = _WIDE_PX if standing.mark else _HIGH_PX
    picture = QPixmap(round(wide * ratio), round(_HIGH_PX * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    stop = standing.mark is Severity.STOP
    colour = QColor(theme.GOOD if standing.mark is None else theme.STOP if stop else theme.QUESTION)
    with QPainter(picture) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(colour)
        if standing.mark is None:
            painter.drawPolyline([QPoint(2, 7), QPoint(5, 11), QPoint(11, 3)])
            return QIcon(picture)
        painter.setBrush(colour)
        if stop:
            painter.drawRect(2, 3, 8, 8)
        else:
            painter.drawEllipse(2, 3, 8, 8)
        letters = QFont(theme.font(8.0, bold=True))
        painter.setFont(letters)
        painter.drawText(
            13,
            0,
            _WIDE_PX - 13,
            _HIGH_PX,
            Qt.AlignmentFlag.AlignVCenter,
            str(min(standing.count, 99)),
        )
    return QIcon(picture)
