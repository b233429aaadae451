"""Deliberate errors; their text is written for the person at the screen."""

from collections.abc import Sequence
from dataclasses import dataclass


class RoofModelError(Exception):
    """Base of all deliberate errors. Its text says what is wrong, where, and what to do."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A remedy that is one value for the field it is about, and what a button says of it."""

    words: str
    value: object


@dataclass(frozen=True, slots=True)
class Fault:
    """One field that cannot stand: what is wrong with it and what to do."""

    field: str
    text: str
    remedy: str
    offer: Offer | None = None

    def __str__(self) -> str:
        """Return the fault as one line."""
        return f"{self.text} {self.remedy}"


class DimensionError(RoofModelError, ValueError):
    """Lengths, angles or counts that cannot be built; holds every `Fault` found, not the first."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        super().__init__(" ".join(str(fault) for fault in faults))
        self.faults = tuple(faults)


class GeometryError(RoofModelError, ValueError):
    """Points or planes do not define what is asked of them."""


class ResourceError(RoofModelError):
    """A shipped or user-made data file is missing or wrong."""


class JobFileError(RoofModelError):
    """A job file cannot be read or written."""


class CuttingError(RoofModelError):
    """No cutting plan can be shown for these parts on these sheets."""


class DrawingError(RoofModelError):
    """A drawing or picture could not be made."""
