"""How firm the counts of sheets are: tried when somebody asks, beside the window."""

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.background import Background, Ticket
from roofmodel.foundation.errors import RoofModelError
from roofmodel.workbench.facts import firm_sheets

TRY, STOP = "Try each size ± its error", "Stop trying"
_OWN_FAULT = "The sheets could not be tried because of a program error."


class FirmCount(QWidget):
    """A button, and for each material what one standard error of a value does to its sheets."""

    def __init__(self, open_job: OpenJob, run: CuttingRun) -> None:
        """Try nothing yet."""
        super().__init__()
        self._open_job, self._run = open_job, run
        self._background = Background(self)
        self._background.told.connect(self._hear)
        self._ticket: Ticket | None = None
        self.button, self.words = QPushButton(TRY), theme.Wrapped("")
        self.button.setToolTip(
            "Plan the boards again with each size and pitch off by its standard error, quickly, "
            "and say where the number of sheets changes"
        )
        self.button.clicked.connect(self._press)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.button)
        column.addWidget(self.words)
        open_job.reckoned.connect(self._forget)

    @property
    def trying(self) -> bool:
        """Whether roofs are being tried."""
        return self._ticket is not None

    def close_down(self) -> None:
        """Stop for good."""
        self._forget()
        self._background.close()

    def _press(self) -> None:
        if self.trying:
            self._forget()
            return
        drawn, search = self._open_job.drawn, self._run.planner.cut
        if drawn is None or drawn.option.refused:
            return

        def work(ticket: Ticket, tell: Callable[[object], None]) -> None:
            try:
                found = firm_sheets.of_method(
                    drawn,
                    drawn.option.method,
                    progress=lambda label: tell(f"Trying {label} …"),
                    cancelled=lambda: ticket.cancelled,
                    cut=search,
                )
                tell([firm_sheets.text(found, code) for code in found.here])
            except RoofModelError as error:
                tell([str(error)])
            except Exception:  # noqa: BLE001 - a thread's fault must reach the screen as words
                tell([_OWN_FAULT])

        self._ticket = self._background.start(work)
        self.button.setText(STOP)

    def _hear(self, ticket: Ticket, news: object) -> None:
        if ticket is not self._ticket or ticket.cancelled:
            return
        if isinstance(news, list):
            self._ticket = None
            self.button.setText(TRY)
            self.words.setText("\n".join(news))
        else:
            self.words.setText(str(news))

    def _forget(self) -> None:
        """Show nothing of the roof before."""
        if self._ticket is not None:
            self._ticket.cancel()
            self._ticket = None
        self.button.setText(TRY)
        self.words.clear()
