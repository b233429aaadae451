"""The colours of the window by day and by night; letters keep 4.5 to 1 on every ground."""

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Grounds from the window to the field, letters, and what is marked; each ``#rrggbb``."""

    paper: str
    card: str
    well: str
    hairline: str
    ink: str
    faint: str
    accent: str
    accent_pale: str
    on_accent: str
    question: str
    question_pale: str
    stop: str
    stop_pale: str
    note: str
    good: str
    lit: str


LIGHT = Palette(
    paper="#f4f3ef",
    card="#ffffff",
    well="#ebe9e3",
    hairline="#d9d6cd",
    ink="#26313b",
    faint="#56606a",
    accent="#1d6a72",
    accent_pale="#dcebec",
    on_accent="#ffffff",
    question="#8a520a",
    question_pale="#fbf1df",
    stop="#a32f24",
    stop_pale="#f9e6e3",
    note="#4f6070",
    good="#2b6b40",
    lit="#d9480f",
)
DARK = Palette(
    paper="#1c2125",
    card="#242a2f",
    well="#2e353b",
    hairline="#48525a",
    ink="#e7ebee",
    faint="#b0bac2",
    accent="#74c7cf",
    accent_pale="#2b4247",
    on_accent="#0e1f22",
    question="#e9b765",
    question_pale="#3d3323",
    stop="#f5a196",
    stop_pale="#452b2b",
    note="#b1bfcd",
    good="#86cc9e",
    lit="#ff8f52",
)
ON_PAPER = LIGHT
"""Drawings and the roof are shown on light ground by night too, as they are printed."""


def of_the_system() -> Palette:
    """Return the palette the system asks for; the light one where it says nothing.

    The application must have been made by then.
    """
    if QGuiApplication.instance() is None:
        return LIGHT
    return of(QGuiApplication.styleHints().colorScheme())


def of(scheme: Qt.ColorScheme) -> Palette:
    """Return the palette of a colour scheme."""
    return DARK if scheme is Qt.ColorScheme.Dark else LIGHT
