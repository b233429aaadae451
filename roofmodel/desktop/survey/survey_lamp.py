"""The lamp of the survey: always in sight, with one line that says why it has its colour."""

from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QToolButton

from roofmodel.desktop.job.open_job import READINGS, OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.survey.taped.findings import Severity
from roofmodel.survey.verdict.examination import Examination
from roofmodel.survey.verdict.state import Reason
from roofmodel.workbench.facts import survey_facts
from roofmodel.workbench.job.reckoning import Refused

COLOURS = {"green": theme.GOOD, "amber": theme.QUESTION, "red": theme.STOP, "grey": theme.GREYED}
_SIZE, _MOST_LETTERS = 12, 72


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What the lamp shows and why."""

    lamp: str
    words: str


def examination(open_job: OpenJob) -> Examination | None:
    """Return what the readings of the job as it is are worth; None where that is not known."""
    drawn, job = open_job.drawn, open_job.job
    if drawn is None:
        return None
    examined = (drawn.job.readings, drawn.job.survey, drawn.job.answers)
    # A job refused for something else, such as its bars, keeps what its readings are worth.
    return drawn.examination if examined == (job.readings, job.survey, job.answers) else None


def shown(open_job: OpenJob) -> Shown:
    """Return what the lamp shows for a job."""
    waits = open_job.rejected_by(READINGS)
    if waits:
        known = examination(open_job)
        stops = waits[0].severity is Severity.STOP or (known is not None and known.state.blocked)
        words = f"Not entered yet: {waits[0].text}"
        return Shown(lamp="red" if stops else "amber", words=words)
    count = len(open_job.job.readings)
    if not count:
        return Shown(lamp="grey", words="No readings yet")
    examined = examination(open_job)
    if examined is None:
        return Shown(lamp="red", words=f"Survey not worked out: {_why_not(open_job)}")
    lamp = survey_facts.lamp(examined.state)
    if not examined.state.open:
        chosen = len(examined.state.answered)
        words = f"Survey closed: {count} readings"
        if not examined.state.closed:
            words = f"Not yet checked: {count} {'reading' if count == 1 else 'readings'}"
        return Shown(lamp=lamp, words=f"{words}, {chosen} by decision" if chosen else words)
    first = max(examined.state.reasons, key=lambda reason: reason.verdict.value == "blocks cutting")
    more = len(examined.state.reasons) - 1
    also = f", and {more} more" if more else ""
    begins = "Blocks cutting" if examined.state.blocked else "Question"
    return Shown(lamp=lamp, words=f"{begins}: {_short(first, examined)}{also}")


def _short(reason: Reason, examined: Examination) -> str:
    for closure in examined.closures:
        if closure.title == reason.title:
            return f"{closure.title} out by {closure.unit.printed(abs(closure.misclosure))}"
    return reason.text.split(":")[0].rstrip(".")


def _why_not(open_job: OpenJob) -> str:
    outcome = open_job.outcome
    if isinstance(outcome, Refused):
        for finding in outcome.findings:
            if finding.severity is Severity.STOP:
                return finding.text
    return "see the findings."


class SurveyLamp(QToolButton):
    """Shows the state of the survey; a click is meant to open its page."""

    def __init__(self, open_job: OpenJob) -> None:
        """Show the job, then listen."""
        super().__init__()
        self._open_job = open_job
        self.shown = Shown(lamp="", words="")
        self.setAutoRaise(True)
        self.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.setIconSize(QSize(_SIZE, _SIZE))
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setStyleSheet("QToolButton { border: none; padding: 3px 8px; }")
        open_job.reckoned.connect(self._show)
        self._show()

    def _show(self) -> None:
        lamp_shown = shown(self._open_job)
        if lamp_shown == self.shown:
            return
        self.shown = lamp_shown
        words = lamp_shown.words
        cut = words if len(words) <= _MOST_LETTERS else f"{words[: _MOST_LETTERS - 1]}…"
        self.setText(cut)
        self.setIcon(QIcon(_lamp(lamp_shown.lamp)))
        self.setToolTip(f"{words}\nClick to see readings and closures.")
        self.setAccessibleName(f"Survey, {lamp_shown.lamp}: {words}")


def _lamp(name: str) -> QPixmap:
    """Return the lamp: a square blocks, a disc asks or is closed, a ring waits for readings."""
    picture = QPixmap(_SIZE, _SIZE)
    picture.fill(Qt.GlobalColor.transparent)
    colour = QColor(COLOURS[name])
    with QPainter(picture) as painter:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(colour if name != "grey" else QColor(theme.FAINT))
        if name != "grey":
            painter.setBrush(colour)
        if name == "red":
            painter.drawRect(1, 1, _SIZE - 3, _SIZE - 3)
        else:
            painter.drawEllipse(1, 1, _SIZE - 3, _SIZE - 3)
    return picture
