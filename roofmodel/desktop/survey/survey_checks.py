"""What the readings are worth: reasons, choices, candidates, the next reading, closures, twist."""

from dataclasses import replace
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.typed_field import MarkedField
from roofmodel.desktop.survey import survey_lamp
from roofmodel.foundation.outcome import Outcome
from roofmodel.shapes.bars.members import Members
from roofmodel.storage.job import Answer
from roofmodel.survey.fit.closure import Closure, Verdict
from roofmodel.survey.fit.twist import Grade
from roofmodel.survey.verdict import candidate_area, protection, sensitivity
from roofmodel.survey.verdict.examination import Examination
from roofmodel.workbench.facts import firmness_facts, survey_facts

_WORST = 6
"""So many lines are listed, those a slip hides in best."""

FORM = "answers"
"""Name of this form for what it rejects."""

_COLOUR = {Verdict.HOLDS: theme.GOOD, Verdict.QUERY: theme.QUESTION, Verdict.BLOCKS: theme.STOP}
_TILES = {
    Outcome.PASS: theme.INK,
    Outcome.ASSUMED: theme.QUESTION,
    Outcome.NOT_CALCULABLE: theme.QUESTION,
    Outcome.MEASURE_AGAIN: theme.QUESTION,
    Outcome.FAIL: theme.STOP,
}
_NONE = (
    "No readings yet. Tape the lines above in order; the roof is fitted to them, "
    "and contradictions are shown here."
)
_NOT_KNOWN = "The readings cannot be worked out yet; see the findings."


class SurveyChecks(QScrollArea):
    """Shows the examination, and takes the choices somebody makes about a query."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the page, then listen."""
        super().__init__()
        self._open_job = open_job
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        page = QWidget()
        page.setObjectName("page")
        self._column = QVBoxLayout(page)
        self._column.setContentsMargins(10, 4, 10, 8)
        self._column.setSpacing(4)
        self._above, self._choices, self._below = (QVBoxLayout() for _ in range(3))
        for part in (self._above, self._choices, self._below):
            part.setSpacing(4)
            self._column.addLayout(part)
        self._column.addStretch(1)
        self.setWidget(page)
        self.try_shape = QPushButton("Try every corner and pitch")
        self.try_shape.setToolTip(
            "Build the roof again with each value off by its error, and say what hangs on it"
        )
        self.try_shape.clicked.connect(self._show_firmness)
        self.firmness = theme.Wrapped("")
        for widget in (self.try_shape, self.firmness):
            self._column.insertWidget(self._column.count() - 1, widget)
        open_job.reckoned.connect(self.firmness.clear)
        self.answers: dict[str, MarkedField] = {}
        self._labels: list[QLabel] = []
        self._asked: dict[str, QLabel] = {}
        self._shown: tuple[object, ...] = ()
        self.setMinimumWidth(230)
        open_job.reckoned.connect(self._show)
        self._show()

    @property
    def texts(self) -> list[str]:
        """What is said, line by line."""
        return [label.text() for label in self._labels]

    def _show(self) -> None:
        examination = survey_lamp.examination(self._open_job)
        drawn = self._open_job.drawn
        members = drawn.members if drawn else Members()
        shown = (examination, bool(self._open_job.job.readings), members)
        if shown == self._shown:
            return
        self._shown = shown
        for label in self._labels:
            label.hide()
            label.deleteLater()
        self._labels = []
        if examination is None:
            has_readings = bool(self._open_job.job.readings)
            self._add(self._above, theme.heading("Checks"))
            self._add(self._above, theme.faint(_NOT_KNOWN if has_readings else _NONE))
            self._show_choices({})
            return
        self._show_reasons(examination)
        queries = {
            r.title: r.text for r in examination.state.reasons if r.verdict is Verdict.QUERY
        } | {title: f"{title}: a decision was made." for title, _ in examination.state.answered}
        self._show_choices(queries)
        self._show_candidates(examination)
        self._show_closures(examination)
        self._show_protection(examination)
        self._show_roof(examination, members)

    def _show_firmness(self) -> None:
        """Say how firm rise and area are, and where a hair decides what the roof is."""
        drawn = self._open_job.drawn
        if drawn is None:
            return
        firmness = sensitivity.of(drawn.footprint)
        self.firmness.setText(
            "\n\n".join([firmness_facts.text(drawn, firmness), *firmness.knife_edges])
        )

    def _show_reasons(self, examination: Examination) -> None:
        head = "Closed" if examination.state.closed else "Not yet checked"
        self._add(
            self._above,
            theme.heading("Why the survey is open" if examination.state.open else head),
        )
        for reason in examination.state.reasons:
            self._say(self._above, reason.text, _COLOUR[reason.verdict])
            if reason.verdict is Verdict.BLOCKS:
                self._faint(self._above, "Only another reading can close it; a decision cannot.")
        if examination.state.closed:
            text = f"The readings agree as well as they are sharp, and {protection.STATED} shows."
            self._say(self._above, text, theme.GOOD)
        elif not examination.state.open:
            text = f"What was read agrees; {protection.STATED} could still hide in it."
            self._say(self._above, text, theme.INK)

    def _show_choices(self, queries: dict[str, str]) -> None:
        """Show a field for each query; one that is being typed in stays as it is."""
        given = {answer.query: answer.choice for answer in self._open_job.job.answers}
        for title in [title for title in self.answers if title not in queries]:
            for widget in (self._asked.pop(title), self.answers.pop(title)):
                self._choices.removeWidget(widget)
                widget.hide()
                widget.deleteLater()
        for title in queries:
            if title not in self.answers:
                self._ask(title)
            edit, choice = self.answers[title].edit, given.get(title, "")
            if edit.text().strip() != choice:
                edit.show_text(choice)

    def _ask(self, title: str) -> None:
        """Add a field for the choice about a query."""
        label, field = theme.Wrapped(f"Decision on “{title}”:"), MarkedField()
        field.edit.setPlaceholderText("What was decided, and why")
        field.edit.setAccessibleName(f"Decision on {title}")
        field.edit.typed.connect(partial(self._answer, title))
        field.edit.finished.connect(self._open_job.history.end_merge)
        self._choices.addWidget(label)
        self._choices.addWidget(field)
        self._asked[title], self.answers[title] = label, field

    def _show_candidates(self, examination: Examination) -> None:
        titles = {reason.title for reason in examination.state.reasons}
        for closure in examination.closures:
            if closure.title in titles and closure.explanations:
                head = f"If only one reading is wrong ({closure.title}), it is"
                self._add(self._below, theme.heading(head))
                for way in closure.explanations:
                    effect = candidate_area.of_way(examination.adjusted, way)
                    area = f": {effect.text}" if effect else ""
                    self._say(self._below, f"•  {way.text}{area}", theme.INK)
        if not titles:
            return
        for suspicion in examination.suspicions:
            if suspicion.located is not None:
                first = suspicion.suspects[0]
                effect = candidate_area.of_suspect(examination.adjusted, first)
                area = f" That makes the {effect.text}." if effect else ""
                text = f"{first.text}{area} Measure {suspicion.located} again."
                self._say(self._below, text, theme.STOP)
        if examination.extra is not None:
            self._add(self._below, theme.heading("What to read next"))
            self._say(self._below, examination.extra.text, theme.INK)

    def _show_closures(self, examination: Examination) -> None:
        self._add(self._below, theme.heading("Closures"))
        for closure in examination.closures:
            self._say(self._below, _closure(closure), _COLOUR[closure.verdict])
        if not examination.closures:
            self._faint(self._below, "Not enough readings yet for a closure.")
        for title, missing in examination.unchecked:
            self._faint(self._below, f"{title}: not checked, for want of {', '.join(missing)}.")

    def _show_protection(self, examination: Examination) -> None:
        """Show the lines a slip hides in best, and what to read next."""
        self._add(self._below, theme.heading("What a slip would show"))
        worst = sorted(examination.protection.lines, key=lambda one: -one.share_of_stated)
        for one in worst[:_WORST]:
            colour = theme.INK if one.protected else theme.QUESTION
            self._say(self._below, f"{one.line.name}: {one.text}; {one.chances}.", colour)
        line = examination.protection.next_line
        if line is not None:
            self._say(self._below, f"Read next: {line.name}, {line.label}.", theme.INK)

    def _show_roof(self, examination: Examination, members: Members) -> None:
        self._add(self._below, theme.heading("Pitch measured two ways"))
        for pitch in examination.pitches:
            drawn = self._open_job.drawn
            covering = drawn.covering if drawn is not None else None
            least_deg = covering.deg if covering is not None else None
            colour = theme.INK if least_deg is None else _TILES[pitch.against(least_deg)]
            self._say(self._below, pitch.text(least_deg), colour)
        self._add(self._below, theme.heading("Twist and level"))
        for one in examination.twists:
            shim = one.grade is Grade.SHIM
            self._say(self._below, one.text, theme.QUESTION if shim else theme.INK)
            packed = survey_facts.shims(one, examination.adjusted, members)
            if packed:
                text = f"Pack up at the eaves, from the left: {survey_facts.shims_text(packed)}."
                self._say(self._below, text, theme.INK)
        told = {one.text for one in examination.twists}
        for remark in examination.remarks:
            if remark not in told:
                self._say(self._below, remark, theme.INK)
        for note in examination.state.notes:
            self._faint(self._below, note)

    def _answer(self, title: str, text: str) -> None:
        """Record a choice; an empty field takes it back."""
        job = self._open_job.job
        kept = tuple(answer for answer in job.answers if answer.query != title)
        if text.strip():
            kept = (*kept, Answer(query=title, choice=text.strip()))
        self._open_job.enter(replace(job, answers=kept), form=FORM, merge=(FORM, title))

    def _say(self, part: QVBoxLayout, text: str, colour: str) -> None:
        label = theme.Wrapped(text)
        label.setStyleSheet(f"color: {colour};")
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._add(part, label)

    def _faint(self, part: QVBoxLayout, text: str) -> None:
        self._add(part, theme.faint(text))

    def _add(self, part: QVBoxLayout, label: QLabel) -> None:
        label.setWordWrap(True)
        part.addWidget(label)
        self._labels.append(label)


def _closure(closure: Closure) -> str:
    printed = closure.unit.printed
    return (
        f"{closure.title}: out by {printed(abs(closure.misclosure))}, "
        f"limit {printed(closure.limit)}: {closure.verdict.value}."
    )
