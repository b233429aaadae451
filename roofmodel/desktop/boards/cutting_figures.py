"""The figures of every material's cutting plan, and under which rules they hold."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QScrollArea, QTableWidget, QVBoxLayout, QWidget

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.plan import Plan
from roofmodel.desktop.job.cutting_run import Failed, Planned, Searching, State, Stopped, Waiting
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.workbench.job.sheet_layers import SheetLayer

_HEADS = ("Material", "Sheets", "At least", "Proof", "Used", "Pieces")


class CuttingFigures(QWidget):
    """One row for each material; below it the rules and notes of the one that is chosen."""

    chosen = Signal(int)
    """A row was chosen; the number of its layer."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._numbers: list[int] = []
        self.table: QTableWidget = quiet_table.make(_HEADS, words=(0, 3))
        self.table.setMinimumHeight(112)
        self.table.setMaximumHeight(140)
        self.words = theme.faint()
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.words.setAlignment(Qt.AlignmentFlag.AlignTop)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setWidget(self.words)
        scroll.setMinimumHeight(40)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.table, 2)
        column.addWidget(scroll, 3)
        self.table.currentCellChanged.connect(self._choose)

    def show_states(
        self,
        layers: Sequence[SheetLayer],
        states: Mapping[int, State],
        chosen: int | None,
        *,
        why_none: str,
    ) -> None:
        """Show how far every sheet layer has come, or why there is none."""
        self._numbers = [layer.number for layer in layers]
        in_order = [states.get(layer.number, Waiting()) for layer in layers]
        quiet_table.fill(
            self.table, [_row(one.good, state) for one, state in zip(layers, in_order, strict=True)]
        )
        place = self._numbers.index(chosen) if chosen in self._numbers else None
        quiet_table.set_current(self.table, place)
        self.words.setText(
            why_none if place is None else _words(layers[place].good, in_order[place])
        )

    def _choose(self, row: int, *_: int) -> None:
        if 0 <= row < len(self._numbers):
            self.chosen.emit(self._numbers[row])


def said_shortly(state: State) -> str:
    """Return what to say of a plan that is not there."""
    match state:
        case Searching(sheets=0):
            return "looking for a first plan"
        case Searching():
            return f"{state.sheets} sheets so far; at least {state.bound} needed"
        case Failed():
            return "no plan"
        case Stopped(offered=plan):
            words = f"with {plan.sheets} sheets found" if plan else "before there was a plan"
            return f"cancelled {words}"
        case _:
            return "starting shortly"


def _row(good: SheetGood, state: State) -> Sequence[str]:
    if isinstance(state, Planned):
        plan = state.plan
        return (
            good.short,
            f"{plan.sheets}",
            "" if plan.least is None else f"{plan.least}",
            _proof(state),
            f"{plan.utilisation:.0%}",
            f"{plan.pieces}",
        )
    if isinstance(state, Searching) and state.sheets:
        return (
            good.short,
            f"{state.sheets} so far",
            f"{state.bound}",
            "searching",
            "",
            "",
        )
    word = {Searching: "searching", Failed: "no plan", Stopped: "cancelled"}
    return (good.short, "", "", word.get(type(state), "waiting"), "", "")


def _proof(state: Planned) -> str:
    if state.taken and not state.plan.proved:
        return "taken early"
    if state.plan.least is None:
        return ""
    return "proved" if state.plan.proved else "not proved"


def _words(good: SheetGood, state: State) -> str:
    if isinstance(state, Planned):
        return "\n".join(_said_of(state.plan, good))
    if isinstance(state, Failed):
        return state.text
    said = said_shortly(state)
    return f"{good.name}: {said}."


def _said_of(plan: Plan, good: SheetGood) -> list[str]:
    return [
        plan.sentence,
        f"Net {plan.net_area_m2:.3f} m² of roof, saw cut {good.kerf_mm:g} mm.",
        *plan.notes,
        *(f"Near miss: {miss}" for miss in plan.near_misses),
    ]
