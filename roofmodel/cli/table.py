"""Tables of the command line: plain, figures to the right."""

from rich.table import Table

_UNITS = {"£", "°", "mm", "m²", "s", "errors"}
_COUNTS = {
    "Quantity",
    "Sheets",
    "At least",
    "Used",
    "Pieces",
    "Read",
    "Fitted",
    "Residual",
}


def made(*headings: str) -> Table:
    """Return an empty table with its headings; columns of figures are set right."""
    table = Table(box=None, pad_edge=False, header_style="bold")
    for heading in headings:
        figures = heading.split()[-1] in _UNITS or heading in _COUNTS
        table.add_column(heading, justify="right" if figures else "left")
    return table
