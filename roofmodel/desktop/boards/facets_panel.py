"""Figures of the facets, and of the lines round the one that is selected."""

from collections import Counter
from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QIcon, QPixmap
from PySide6.QtWidgets import QVBoxLayout, QWidget

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, quiet_table, theme
from roofmodel.desktop.kit.where_from import WhereFrom
from roofmodel.drawings.views import facet_style
from roofmodel.foundation.figure import Figure
from roofmodel.shapes.roof import DATUM, Facet, Line, Roof
from roofmodel.workbench.facts import fact_figures
from roofmodel.workbench.job.reckoning import Drawn

_FACET_HEADS = ("Facet", "Pitch °", "Area m²", "Plan m²", "Slope mm", "Sides")
_LINE_HEADS = ("Line", "Length mm", "Pitch °", "Bevel °", "Dihedral °")

_FACET_FIGURES = {1: "pitch_deg", 2: "area_m2", 3: "plan_area_m2", 4: "slope_length_mm"}
_LINE_FIGURES = {1: "length_mm", 2: "pitch_deg", 3: "bevel_deg", 4: "dihedral_deg"}
"""Columns that hold a figure, by its name among the facts."""


class FacetsPanel(QWidget):
    """Two tables in step with the 3D view."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the tables, then listen."""
        super().__init__()
        self._open_job = open_job
        self._line_places: list[int] = []
        self._figures: tuple[Drawn, dict[str, Figure]] | None = None
        self.facets = quiet_table.make(_FACET_HEADS, words=(0, 5))
        self.lines = quiet_table.make(_LINE_HEADS, words=(0,))
        WhereFrom(self.facets, self._of_facet)
        WhereFrom(self.lines, self._of_line)
        self.lines_heading = theme.heading("")
        self.setMinimumWidth(300)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 10, 12, 10)
        column.addWidget(theme.heading("Facets"))
        column.addWidget(self.facets, 5)
        column.addWidget(self.lines_heading)
        column.addWidget(self.lines, 4)
        column.addWidget(theme.faint(f"Datum: {DATUM}."))
        self.facets.currentCellChanged.connect(self._choose_facet)
        self.lines.currentCellChanged.connect(self._choose_line)
        open_job.reckoned.connect(self._show)
        open_job.selected.connect(self._show_selected)
        self._show()

    def _show(self) -> None:
        drawn = self._open_job.drawn
        quiet_table.fill(self.facets, _facet_rows(drawn.roof) if drawn else [])
        if drawn:
            self._dress_rows(len(drawn.roof.facets))
        for table in (self.facets, self.lines):
            table.setEnabled(not self._open_job.stale)
        self._show_selected()

    def _show_selected(self) -> None:
        drawn, facet = self._open_job.drawn, self._open_job.facet
        if drawn is None or facet is None:
            self.lines_heading.setText("Lines")
            quiet_table.fill(self.lines, [])
            return
        self.lines_heading.setText(f"Lines of {facet.name}")
        lines = [(i, line) for i, line in enumerate(drawn.roof.lines) if facet.name in line.facets]
        self._line_places = [place for place, _ in lines]
        quiet_table.fill(self.lines, [_line_row(line, facet) for _, line in lines])
        quiet_table.set_current(self.facets, drawn.roof.facets.index(facet))
        chosen = self._open_job.line
        quiet_table.set_current(
            self.lines,
            self._line_places.index(chosen) if chosen in self._line_places else None,
        )

    def _dress_rows(self, count: int) -> None:
        """Give new rows their swatches, and show the last one as what it is: sums, not a facet."""
        if not quiet_table.item(self.facets, 0, 0).icon().isNull():
            return
        for place in range(count):
            swatch = _swatch(facet_style.facet_colour(place))
            quiet_table.item(self.facets, place, 0).setIcon(swatch)
        for column in range(len(_FACET_HEADS)):
            item = quiet_table.item(self.facets, count, column)
            item.setFlags(Qt.ItemFlag.ItemIsEnabled)
            item.setFont(theme.font(self.font().pointSizeF(), bold=True))
            item.setBackground(QBrush(QColor(theme.PAPER)))

    def _of_facet(self, row: int, column: int) -> str:
        """Return where a figure of the facets comes from; of the last row, those of the roof."""
        drawn = self._open_job.drawn
        if drawn is None or column not in _FACET_FIGURES:
            return ""
        whole = row >= len(drawn.roof.facets)
        name = _FACET_FIGURES[column]
        return self._from(drawn, name if whole else f"facets[{row}].{name}")

    def _of_line(self, row: int, column: int) -> str:
        """Return where a figure of the lines comes from."""
        drawn = self._open_job.drawn
        if drawn is None or row >= len(self._line_places) or column not in _LINE_FIGURES:
            return ""
        return self._from(drawn, f"lines[{self._line_places[row]}].{_LINE_FIGURES[column]}")

    def _from(self, drawn: Drawn, path: str) -> str:
        """Return what is known of a figure, worked out when somebody asks, once for a roof."""
        if self._figures is None or self._figures[0] is not drawn:
            self._figures = (drawn, fact_figures.of_roof(drawn))
        figure = self._figures[1].get(path)
        return "" if figure is None else figure.tip

    def _choose_facet(self, row: int, *_: int) -> None:
        drawn = self._open_job.drawn
        if drawn is not None and 0 <= row < len(drawn.roof.facets):
            self._open_job.select(drawn.roof.facets[row].name)

    def _choose_line(self, row: int, *_: int) -> None:
        if 0 <= row < len(self._line_places):
            self._open_job.select_line(self._line_places[row])


def _facet_rows(roof: Roof) -> list[Sequence[str]]:
    rows: list[Sequence[str]] = [
        (
            facet.name,
            f"{facet.pitch_deg:.2f}",
            f"{facet.area_m2:.3f}",
            f"{facet.plan_area_m2:.3f}",
            number_text.spaced(facet.slope_length_mm, decimals=1),
            _sides(facet),
        )
        for facet in roof.facets
    ]
    return [
        *rows,
        ("Total", "", f"{roof.area_m2:.3f}", f"{roof.plan_area_m2:.3f}", "", ""),
    ]


def _sides(facet: Facet) -> str:
    counts = Counter(edge.kind.value for edge in facet.edges)
    return ", ".join(f"{count} × {kind}" if count > 1 else kind for kind, count in counts.items())


def _line_row(line: Line, facet: Facet) -> Sequence[str]:
    others = [name for name in line.facets if name != facet.name]
    return (
        f"{line.kind.value} to {others[0]}" if others else line.kind.value,
        number_text.spaced(line.length_mm, decimals=1),
        f"{line.pitch_deg:.2f}",
        f"{line.bevel_deg:.2f}" if line.joint else "square",
        f"{line.dihedral_deg:.2f}" if line.joint else "–",
    )


def _swatch(colour: str) -> QIcon:
    """Return a patch of the facet's colour, the same whether its row is selected or not."""
    square = QPixmap(12, 12)
    square.fill(QColor(colour))
    icon = QIcon()
    for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected, QIcon.Mode.Active):
        icon.addPixmap(square, mode)
    return icon
