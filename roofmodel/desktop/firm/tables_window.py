"""The firm's recipes, norms, suppliers, extras, presets and ways of laying, row by row."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.firm.row_form import RowForm
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.desktop.kit.typed_field import CalmComboBox
from roofmodel.foundation.errors import RoofModelError
from roofmodel.foundation.layered import Standing
from roofmodel.workbench.firm import row_text, rows
from roofmodel.workbench.firm.rows import Act, RowState
from roofmodel.workbench.firm.table import Table

_HEADS = ("Code", "What", "Row", "Remark")
_SIZE = (1120, 660)


class TablesWindow(QDialog):
    """A list of rows with the fields of the selected one beside it; each row is saved by itself."""

    saved = Signal()
    """A row was saved, withdrawn or restored: what is reckoned with is another."""

    def __init__(self, parent: QWidget | None, folder: Path) -> None:
        """Show the first table as a firm's folder has it."""
        super().__init__(parent)
        self.setWindowTitle("The firm's tables – roofmodel")
        self._folder = folder
        self._shown: tuple[RowState, ...] = ()
        self.table = CalmComboBox()
        for one in row_text.TYPED:
            self.table.addItem(one.title, one)
        self.search = QLineEdit()
        self.search.setPlaceholderText("Search code or words")
        self.search.setClearButtonEnabled(True)
        self.only_own = QCheckBox("Only the &firm's own")
        self.list = quiet_table.make(_HEADS, words=(0, 1, 2, 3))
        self.form = RowForm()
        self.new_code = QLineEdit()
        self.new_code.setPlaceholderText("New code")
        self.copy = QPushButton("&Copy row")
        self.withdraw = QPushButton("&Withdraw")
        self.restore = QPushButton("&Restore")
        self.noted = QPushButton("&Keep ours")
        self.noted.setToolTip("Keep the firm's row although the supplied one has changed since")
        self.save = QPushButton("&Save row")
        self.counts, self.said = theme.faint(), theme.faint()
        self.trouble = theme.Wrapped()
        self.trouble.setObjectName("stop")
        self._lay_out()
        self._connect()
        self.refresh()

    @property
    def one(self) -> Table:
        """The table that is shown."""
        found = self.table.currentData()
        assert isinstance(found, Table)
        return found

    @property
    def current(self) -> RowState | None:
        """The row that is selected."""
        row = self.list.currentRow()
        return self._shown[row] if 0 <= row < len(self._shown) else None

    def choose(self, code: str) -> None:
        """Select a row."""
        place = [state.code for state in self._shown].index(code)
        quiet_table.set_current(self.list, place)
        self._show_row()

    def refresh(self) -> None:
        """Show the table as it is kept now; the selected row stays selected."""
        chosen = self.current.code if self.current is not None else ""
        self._say("")
        try:
            states = rows.of(self.one, self._folder)
        except RoofModelError as error:
            self._fill(())
            self.trouble.setText(f"{error} Correct the file, or put the one from before back.")
            return
        own = sum(state.standing is not Standing.SHIPPED for state in states)
        outdated = sum(state.outdated for state in states)
        changed = f" For {outdated} the supplied row has changed since." if outdated else ""
        self.counts.setText(f"Rows: {len(states)}, of which the firm's own: {own}.{changed}")
        self._fill(tuple(state for state in states if self._is_wanted(state)))
        codes = [state.code for state in self._shown]
        quiet_table.set_current(self.list, codes.index(chosen) if chosen in codes else None)
        self._show_row()

    def _fill(self, shown: tuple[RowState, ...]) -> None:
        self._shown = shown
        texts = [(x.code, x.title, x.standing.value, x.remark) for x in shown]
        quiet_table.fill(self.list, texts)

    def _is_wanted(self, state: RowState) -> bool:
        if self.only_own.isChecked() and state.standing is Standing.SHIPPED:
            return False
        words = f"{state.code} {state.title}".casefold()
        return self.search.text().strip().casefold() in words

    def _lay_out(self) -> None:
        top, bottom = QHBoxLayout(), QHBoxLayout()
        top.addWidget(self.table)
        top.addWidget(self.search, 1)
        top.addWidget(self.only_own)
        self.new_code.setMaximumWidth(170)
        for widget in (self.new_code, self.copy, self.withdraw, self.restore, self.noted):
            bottom.addWidget(widget)
        bottom.addStretch(1)
        bottom.addWidget(self.save)
        for button in (self.copy, self.withdraw, self.restore, self.noted, self.save):
            button.setAutoDefault(False)
        splitter = QSplitter(Qt.Orientation.Horizontal)
        splitter.addWidget(self.list)
        splitter.addWidget(self.form)
        splitter.setSizes([640, 460])
        splitter.setChildrenCollapsible(False)
        column = QVBoxLayout(self)
        column.addLayout(top)
        column.addWidget(self.counts)
        column.addWidget(splitter, 1)
        column.addWidget(self.trouble)
        column.addWidget(self.said)
        column.addLayout(bottom)
        self.resize(*_SIZE)

    def _connect(self) -> None:
        self.table.currentIndexChanged.connect(lambda _row: self._other_table())
        self.search.textChanged.connect(self.refresh)
        self.only_own.toggled.connect(self.refresh)
        self.list.currentCellChanged.connect(lambda *_: self._show_row())
        self.new_code.textChanged.connect(self._enable)
        self.copy.clicked.connect(self._copy)
        self.withdraw.clicked.connect(lambda: self._do(rows.withdrawn, "is withdrawn"))
        self.restore.clicked.connect(lambda: self._do(rows.restored, "is as supplied"))
        self.noted.clicked.connect(lambda: self._do(rows.looked_at, "stays as the firm has it"))
        self.save.clicked.connect(self._save)

    def _other_table(self) -> None:
        quiet_table.set_current(self.list, None)
        self.search.clear()
        self.refresh()

    def _show_row(self) -> None:
        state = self.current
        if state is None:
            self.form.show_row((), {})
        else:
            self.form.show_row(row_text.fields(self.one, state.code), self._row(state.code))
        self._enable()

    def _row(self, code: str) -> object:
        laid = self.one.laid(self._folder)
        return laid.rows.get(code, self.one.layers.shipped.get(code))

    def _enable(self) -> None:
        state, one = self.current, self.one
        standing = None if state is None else state.standing
        own = standing in (Standing.OWN, Standing.NEW)
        self.save.setEnabled(standing not in (None, Standing.WITHDRAWN))
        self.withdraw.setEnabled(
            standing in (Standing.SHIPPED, Standing.OWN) and not (one.fixed or one.whole)
        )
        self.restore.setEnabled(own or standing is Standing.WITHDRAWN)
        self.restore.setText("&Remove" if standing is Standing.NEW else "&Restore")
        self.noted.setEnabled(state is not None and state.outdated)
        may_add = not one.fixed and standing not in (None, Standing.WITHDRAWN)
        self.copy.setEnabled(may_add and bool(self.new_code.text().strip()))

    def _save(self) -> None:
        state = self.current
        if state is not None:
            self._keep(state.code, state.code)

    def _copy(self) -> None:
        state, code = self.current, self.new_code.text().strip()
        if state is None or not code:
            return
        if code in (one.code for one in rows.of(self.one, self._folder)):
            self._say("", f"There is a row {code} already. Enter another code.")
            return
        if self._keep(state.code, code):
            self.new_code.clear()
            self.search.clear()
            self.choose(code)

    def _keep(self, code: str, new_code: str) -> bool:
        """Save what is typed as the row of a code; say what cannot stand, and keep it typed."""
        one = self.one
        try:
            own = one.own(self._folder)
            row = row_text.entered(one, code, self.form.typed, self._row(code))
            if new_code != code:
                row = row_text.named(one, new_code, row)
            rows.save(one, one.layers.with_row(own, new_code, row), self._folder)
        except RoofModelError as error:
            self._say("", str(error))
            return False
        self.refresh()
        self._say(f"{new_code} is saved.")
        self.saved.emit()
        return True

    def _do(self, act: Act, said: str) -> None:
        state = self.current
        if state is None:
            return
        try:
            act(self.one, state.code, self._folder)
        except RoofModelError as error:
            self._say("", str(error))
            return
        self.refresh()
        self._say(f"{state.code} {said}.")
        self.saved.emit()

    def _say(self, words: str, trouble: str = "") -> None:
        self.said.setText(words)
        self.trouble.setText(trouble)
        self.trouble.setVisible(bool(trouble))
