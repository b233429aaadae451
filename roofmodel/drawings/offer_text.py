"""The words of the customer's offer: the firm's templates, read from a file and filled in."""

from dataclasses import dataclass
from pathlib import Path

from pydantic import ConfigDict, TypeAdapter, with_config

from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True, kw_only=True)
class Firm:
    """Who makes the offer."""

    name: str
    address: str
    contact: str
    note: str = ""


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

    def __post_init__(self) -> None:
        """Refuse payments that are not the whole price."""
        whole = sum(stage.percent for stage in self.stages)
        if abs(whole - 100.0) > 1e-6:
            text = f"The payment stages come to {whole:g} %."
            raise DimensionError([Fault("stages", text, "Make them 100 % together.")])


_TEXT: TypeAdapter[OfferText] = TypeAdapter(OfferText)


def read(path: Path | None = None) -> OfferText:
    """Return the words of a file, the shipped templates when none is given.

    Raises
    ------
    ResourceError
        If the file cannot be read, or a field of it is missing or wrong.
    """
    return toml_rows.one(path or resources.folder() / "offer_texts.toml", _TEXT)
