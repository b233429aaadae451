"""What is told beside the roof while the customer looks on: large type, no costs unless wanted."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QPushButton, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.desktop.price.compare_page import ComparePage

_TITLE_PT, _WORDS_PT = 22.0, 13.0


class CustomerPanel(QWidget):
    """Names the job and its roof; three prices where somebody asks for them."""

    wanted = Signal()
    """The picture is to be shown alone."""

    def __init__(self, open_job: OpenJob, compare: ComparePage) -> None:
        """Build the panel, then listen; prices are those of the comparison."""
        super().__init__()
        self._open_job, self._compare = open_job, compare
        self.title, self.words, self.prices = theme.Wrapped(), theme.Wrapped(), theme.Wrapped()
        self.with_prices = QCheckBox("With the three prices")
        self.alone = QPushButton("Show the picture alone")
        self.alone.setToolTip("Hide menus, path and inspector; Esc brings them back (F12)")
        self.title.setFont(theme.font(_TITLE_PT, bold=True))
        for label in (self.words, self.prices):
            label.setFont(theme.font(_WORDS_PT))
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 18)
        column.setSpacing(14)
        for widget in (self.title, self.words, self.with_prices, self.prices):
            column.addWidget(widget)
        column.addStretch(1)
        column.addWidget(
            theme.faint("Drag the line in the picture: before at its left, after at its right.")
        )
        column.addWidget(self.alone)
        self.alone.clicked.connect(self.wanted)
        self.with_prices.toggled.connect(lambda _on: self.show_job())
        open_job.reckoned.connect(self.show_job)
        self.show_job()

    def show_job(self) -> None:
        """Show the job as it is."""
        job, drawn = self._open_job.job, self._open_job.drawn
        self.title.setText(job.title or job.code)
        lines = [line for line in job.customer.splitlines()[:1] if line]
        if drawn is not None:
            lines.append(f"{drawn.option.method.printed}, {drawn.roof.area_m2:.1f} m² of roof")
        self.words.setText("\n".join(lines))
        self.prices.setVisible(self.with_prices.isChecked())
        self.prices.setText(self._compare.prices or _NOT_YET)


_NOT_YET = "The prices are not worked out yet: open the comparison once."
