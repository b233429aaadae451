"""The words of the customer's offer: the firm's templates, read from a file and filled in."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from pydantic import ConfigDict, TypeAdapter, with_config

from roofmodel.drawings.pictures import photo
from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault, ResourceError


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True, kw_only=True)
class Firm:
    """Who makes the offer; ``logo`` is a picture file, by its name beside the words or whole."""

    name: str
    address: str
    contact: str
    note: str = ""
    logo: str = ""


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A payment: when, and what share of the price [%]."""

    what: str
    percent: float


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True, kw_only=True)
class OfferText:
    """All words of an offer that do not follow from the job."""

    valid_days: int
    intro: tuple[str, ...]
    panel_note: str
    included: tuple[str, ...]
    not_included: tuple[str, ...]
    assumptions: tuple[str, ...]
    stages: tuple[Stage, ...]
    cautions: tuple[str, ...]
    cancellation: str
    consent: str
    firm: Firm
    warranty: str = ""
    options_note: str = ""

    def __post_init__(self) -> None:
        """Refuse payments that are not the whole price, and gaps nobody can fill."""
        faults = []
        whole = sum(stage.percent for stage in self.stages)
        if abs(whole - 100.0) > 1e-6:
            text = f"The payment stages add up to {whole:g} %."
            faults.append(Fault("stages", text, "Make them add up to 100 %."))
        if not 1 <= self.valid_days <= 365:
            text = f"An offer cannot be valid for {self.valid_days} days."
            faults.append(Fault("valid_days", text, "Enter 1 to 365 days."))
        known = ", ".join(f"{{{name}}}" for name in GAPS)
        for name, texts in self._by_field:
            for gap in sorted({gap for one in texts for gap in _GAP.findall(one)} - set(GAPS)):
                text = f"{{{gap}}} is not a known gap to fill in."
                faults.append(Fault(name, text, f"Use {known}, or remove the brackets."))
        if faults:
            raise DimensionError(faults)

    @property
    def _by_field(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Return the texts in which gaps are filled, each field by its name in the file."""
        return (
            *((name, getattr(self, name)) for name in _LISTS),
            *((name, (getattr(self, name),)) for name in _SINGLE),
            ("stages", tuple(stage.what for stage in self.stages)),
        )

    def filled(self, text: str, *, code: str, title: str) -> str:
        """Return one of the texts with its gaps filled in from firm and job."""
        values = {
            "firm": self.firm.name,
            "code": code,
            "title": title,
            "valid_days": f"{self.valid_days}",
        }
        return _GAP.sub(lambda gap: values.get(gap[1], gap[0]), text)


GAPS = ("firm", "code", "title", "valid_days")
"""What may stand in curly brackets in a text."""
_GAP = re.compile(r"\{(\w+)\}")
_LISTS = ("intro", "included", "not_included", "assumptions", "cautions")
_SINGLE = ("panel_note", "cancellation", "consent", "warranty", "options_note")

_TEXT: TypeAdapter[OfferText] = TypeAdapter(OfferText)


def read(path: Path | None = None) -> OfferText:
    """Return the words of a file, the shipped templates when none is given.

    Raises
    ------
    ResourceError
        If the file cannot be read, a field of it is missing or wrong, or the logo is not there.
    DrawingError
        If the logo is no picture.
    """
    file = path or resources.folder() / "offer_texts.toml"
    return of_table(resources.read_toml(file), file=file)


def of_table(table: Mapping[str, Any], *, file: Path) -> OfferText:
    """Return the words of a table; a logo stands beside its file. Errors as `read`."""
    text = toml_rows.of_table(table, _TEXT, name=file.name)
    if not text.firm.logo:
        return text
    logo = file.parent / text.firm.logo
    if not logo.is_file():
        raise ResourceError(
            f"{file.name}, firm.logo: there is no file {logo}. Put the picture there, or leave "
            "the logo out."
        )
    photo.check(logo)
    return replace(text, firm=replace(text.firm, logo=str(logo)))
