"""The stages side by side with their pages: a picture or drawing large, one inspector beside it."""

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QFrame, QSplitter, QTabWidget, QToolButton, QVBoxLayout, QWidget

from roofmodel.desktop.path.path_bar import PathBar
from roofmodel.desktop.path.stage import Stage

_PICTURE_SHARE, _HANDLE_PX, _LEAST_PX = 0.66, 8, 330
_FORMS, _FORMS_PX = (True, False, True), 770
"""The picture beside forms that need half the room and more: a row of readings is wide."""


@dataclass(frozen=True, slots=True)
class _Page:
    """A page with its title, the stages that show it, and whether the picture stands beside it."""

    widget: QWidget
    stages: tuple[Stage, ...]
    with_picture: bool = False


class Stages(QWidget):
    """Shows one stage at a time."""

    changed = Signal(Stage)
    """Another stage is open."""

    def __init__(self, picture: QWidget, below: QWidget) -> None:
        """Begin with no pages.

        Parameters
        ----------
        picture
            The roof, which several stages share.
        below
            What stands under the inspector at every stage.
        """
        super().__init__()
        self.bar = PathBar()
        self.stage = Stage.ROOF
        self.main, self.side = _tabs(), _tabs()
        self.picture = _card(picture)
        self.main_card = _card(self.main)
        self.inspector = QSplitter(Qt.Orientation.Vertical)
        self.splitter = QSplitter(Qt.Orientation.Horizontal)
        self._below = below
        self._pages: list[_Page] = []
        self._split: tuple[bool, ...] = (True, False)
        self._sizes: dict[tuple[bool, ...], list[int]] = {}
        self._folded = False
        self._alone = False
        self._front: dict[tuple[Stage, bool], QWidget] = {}
        self.fold = QToolButton()
        self._lay_out()
        self.bar.chosen.connect(self.go)
        self.main.currentChanged.connect(self._turned)
        self.side.currentChanged.connect(self._turned)
        self.fold.toggled.connect(self._fold)
        self.splitter.splitterMoved.connect(lambda *_: self._remember())

    def _lay_out(self) -> None:
        self.fold.setText("Inspector")
        self.fold.setObjectName("compact")
        self.fold.setCheckable(True)
        self.fold.setToolTip("Fold the inspector away, or bring it back (F9)")
        self.inspector.addWidget(self.side)
        self.inspector.addWidget(self._below)
        self.inspector.setStretchFactor(0, 1)
        self.inspector.setChildrenCollapsible(False)
        self.inspector.setSizes([640, 110])
        column = _card(self.inspector)
        column.setMinimumWidth(_LEAST_PX)
        self.column = column
        for widget in (self.picture, self.main_card, column):
            self.splitter.addWidget(widget)
        self.splitter.setHandleWidth(_HANDLE_PX)
        self.splitter.setChildrenCollapsible(False)
        for place, share in enumerate((2, 2, 0)):
            self.splitter.setStretchFactor(place, share)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(4)
        whole.addWidget(self.bar)
        whole.addWidget(self.splitter, 1)

    def add_main(
        self, page: QWidget, title: str, *stages: Stage, with_picture: bool = False
    ) -> None:
        """Add a page that takes the large part, at one stage or several."""
        self._pages.append(_Page(page, stages, with_picture))
        self.main.addTab(page, title)

    def add_side(self, page: QWidget, title: str, *stages: Stage) -> None:
        """Add a page of the inspector, at one stage or several."""
        self._pages.append(_Page(page, stages))
        self.side.addTab(page, title)

    def go(self, stage: Stage) -> None:
        """Open a stage."""
        changed, self.stage = stage is not self.stage, stage
        for tabs in (self.main, self.side):
            self._show_tabs(tabs)
        self._arrange()
        self.bar.show_stage(stage)
        if changed:
            self.changed.emit(stage)

    def bring(self, page: QWidget) -> None:
        """Bring a page to the front, at the stage that is open if it is shown there."""
        known = self.stages_of(page)
        if not known:
            return
        if self.stage not in known:
            self.go(known[0])
        tabs = self.side if self.side.indexOf(page) >= 0 else self.main
        tabs.setCurrentWidget(page)
        self.fold.setChecked(False)

    def bring_around(self, widget: QWidget) -> None:
        """Bring the page to the front that a widget is on."""
        for page in self._pages:
            if page.widget is widget or page.widget.isAncestorOf(widget):
                self.bring(page.widget)
                return

    def picture_alone(self, alone: bool) -> None:  # noqa: FBT001 - Qt's signal
        """Show the picture and nothing beside it, or all of the stage again."""
        self._alone = alone
        self.bar.setVisible(not alone)
        self._arrange()

    def stages_of(self, page: QWidget) -> Sequence[Stage]:
        """Return the stages at which a page is shown, the first its own."""
        return next((one.stages for one in self._pages if one.widget is page), ())

    def _show_tabs(self, tabs: QTabWidget) -> None:
        shown = [page for page in self._pages if self.stage in page.stages]
        widgets = [page.widget for page in shown if tabs.indexOf(page.widget) >= 0]
        # Kept aside: a tab that is hidden brings another to the front.
        front = self._front.get((self.stage, tabs is self.side))
        with QSignalBlocker(tabs):
            for place in range(tabs.count()):
                tabs.setTabVisible(place, tabs.widget(place) in widgets)
            if widgets:
                tabs.setCurrentWidget(front if front in widgets else widgets[0])
        tabs.tabBar().setVisible(len(widgets) > 1)

    def _turned(self) -> None:
        for tabs in (self.main, self.side):
            front = tabs.currentWidget()
            if tabs.count() and tabs.isTabVisible(tabs.currentIndex()):
                self._front[self.stage, tabs is self.side] = front
        self._arrange()

    def _arrange(self) -> None:
        """Show what belongs to the stage, the picture or drawing in two thirds."""
        shown = [page for page in self._pages if self.stage in page.stages]
        in_main = [page for page in shown if self.main.indexOf(page.widget) >= 0]
        in_side = len(shown) > len(in_main)
        front = next((p for p in in_main if p.widget is self.main.currentWidget()), None)
        picture = self._alone or not in_main or (front is not None and front.with_picture)
        self.picture.setVisible(picture)
        self.main_card.setVisible(bool(in_main) and not self._alone)
        self.column.setVisible(in_side and not self._folded and not self._alone)
        self.fold.setVisible(in_side)
        self._split = _FORMS if self.stage is Stage.MEASURE else (picture, bool(in_main))
        share = 0.5 if self._split in (_FORMS, (True, True)) else _PICTURE_SHARE
        wide = max(self.splitter.width(), 900)
        rest = round(wide * (1.0 - share))
        if self._split is _FORMS:
            rest = max(rest, min(_FORMS_PX, round(wide * _PICTURE_SHARE)))
        large = wide - rest
        usual = [large, rest, 0] if picture and in_main else [large, large, rest]
        self.splitter.setSizes(self._sizes.get(self._split, usual))

    def _remember(self) -> None:
        self._sizes[self._split] = self.splitter.sizes()

    def _fold(self, folded: bool) -> None:  # noqa: FBT001 - Qt's signal
        self._folded = folded
        self._arrange()


def _tabs() -> QTabWidget:
    tabs = QTabWidget()
    tabs.setDocumentMode(True)
    tabs.setUsesScrollButtons(True)
    return tabs


def _card(widget: QWidget) -> QFrame:
    card = QFrame()
    card.setObjectName("card")
    column = QVBoxLayout(card)
    column.setContentsMargins(1, 1, 1, 1)
    column.addWidget(widget)
    return card
