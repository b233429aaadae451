"""What the window remembers between two starts; nothing of a job."""

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings
from PySide6.QtWidgets import QMainWindow, QSplitter

from roofmodel.cutting.nesting.nest import Effort

_MOST_RECENT = 8
_EFFORT = "cutting/effort"


class Preferences:
    """Window place, splitters, recent files and the last folder, in a settings store."""

    def __init__(self, store: QSettings) -> None:
        """Use a store; tests bring their own."""
        self._store = store

    def remember_window(self, window: QMainWindow, splitters: Mapping[str, QSplitter]) -> None:
        """Remember where the window is and how it is divided."""
        self._store.setValue("window/geometry", window.saveGeometry())
        for name, splitter in splitters.items():
            self._store.setValue(f"window/{name}", splitter.saveState())
        self._store.sync()

    def restore_window(self, window: QMainWindow, splitters: Mapping[str, QSplitter]) -> None:
        """Put the window back, where there is something to put back."""
        geometry = self._store.value("window/geometry")
        if isinstance(geometry, QByteArray):
            window.restoreGeometry(geometry)
        for name, splitter in splitters.items():
            state = self._store.value(f"window/{name}")
            if isinstance(state, QByteArray):
                splitter.restoreState(state)

    def choice(self, name: str, *, default: bool) -> bool:
        """Return a choice that was made earlier, by its name in the store."""
        found = self._store.value(name, default)
        return found if isinstance(found, bool) else str(found).lower() == "true"

    def remember_choice(self, name: str, *, chosen: bool) -> None:
        """Remember a choice under a name of its own."""
        self._store.setValue(name, chosen)
        self._store.sync()

    def page(self, name: str) -> str:
        """Return which page was in front, by its title; empty before there was one."""
        return str(self._store.value(f"window/{name}", ""))

    def remember_page(self, name: str, title: str) -> None:
        """Remember which page is in front."""
        self._store.setValue(f"window/{name}", title)

    @property
    def effort(self) -> Effort:
        """How long cutting plans are searched for; the usual time before anything was chosen."""
        found = str(self._store.value(_EFFORT, ""))
        return Effort(found) if found in list(Effort) else Effort.USUAL

    def remember_effort(self, effort: Effort) -> None:
        """Remember how long cutting plans are searched for."""
        self._store.setValue(_EFFORT, effort.value)

    @property
    def recent(self) -> list[Path]:
        """Files opened or saved lately, the last one first."""
        found = self._store.value("files/recent", [])
        texts = [found] if isinstance(found, str) else found if isinstance(found, list) else []
        return [Path(str(text)) for text in texts]

    @property
    def folder(self) -> Path:
        """Where to look for job files first."""
        return next((path.parent for path in self.recent if path.parent.is_dir()), Path.home())

    @property
    def export_folder(self) -> Path:
        """Where the last model or survey sheet was written; where jobs are, before the first."""
        found = Path(str(self._store.value("files/export_folder", "")))
        return found if found.is_absolute() and found.is_dir() else self.folder

    def remember_export_folder(self, folder: Path) -> None:
        """Suggest a folder for the next model or survey sheet."""
        self._store.setValue("files/export_folder", str(folder))
        self._store.sync()

    def remember_file(self, path: Path) -> None:
        """Put a file at the head of the recent ones."""
        paths = [path, *(other for other in self.recent if other != path)][:_MOST_RECENT]
        self._store.setValue("files/recent", [str(path) for path in paths])
        self._store.sync()

    def forget_file(self, path: Path) -> None:
        """Drop a file that is gone."""
        kept = [str(other) for other in self.recent if other != path]
        self._store.setValue("files/recent", kept)
        self._store.sync()
