"""What the file of a firm would change here, shown before it is taken."""

from collections.abc import Sequence

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QVBoxLayout, QWidget

from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.workbench.firm.shared_file import Change, SharedFile

_HEADS = ("Part", "Code", "Change")
_SIZE = (620, 460)


class SharedDialog(QDialog):
    """A list of changes; taking them is a button of its own."""

    def __init__(
        self, parent: QWidget | None, shared: SharedFile, changes: Sequence[Change]
    ) -> None:
        """Show what would change."""
        super().__init__(parent)
        self.setWindowTitle(f"Import {shared.name}")
        self.table = quiet_table.make(_HEADS, words=(0, 1, 2))
        quiet_table.fill(self.table, [(one.part, one.code, one.what) for one in changes])
        told = f"{shared.firm}, {shared.made_on}: {len(changes)} to change."
        if not changes:
            told = "Everything in it is as the firm has it already."
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.take = buttons.addButton("&Take it", QDialogButtonBox.ButtonRole.AcceptRole)
        self.take.setEnabled(bool(changes))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(QLabel(told))
        column.addWidget(self.table, 1)
        column.addWidget(theme.faint("Each file that is there now is kept beside its new one."))
        column.addWidget(buttons)
        self.resize(*_SIZE)

    @classmethod
    def ask(cls, parent: QWidget | None, shared: SharedFile, changes: Sequence[Change]) -> bool:
        """Return whether the changes are wanted."""
        return cls(parent, shared, changes).exec() == QDialog.DialogCode.Accepted
