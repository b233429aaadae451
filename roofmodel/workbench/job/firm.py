"""The firm's own words, logo and rates: kept in a folder, in the place of the shipped ones."""

import shutil
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from roofmodel.drawings.offer import offer_text
from roofmodel.drawings.offer.offer_text import OfferText
from roofmodel.foundation import toml_text
from roofmodel.foundation.errors import JobFileError, ResourceError
from roofmodel.pricing import rates as pricing_rates
from roofmodel.pricing.rates import Rates
from roofmodel.storage import safe_write

WORDS, RATES = "offer_texts.toml", "rates.toml"
FOLDER = "firm"
"""Name of the folder within the user's own data."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Firm:
    """What an offer is written and priced with; ``own`` says whether any of it is the firm's."""

    text: OfferText
    rates: Rates
    own: bool = False


def load(folder: Path | None) -> Firm:
    """Return words and rates of a folder, the shipped, invented ones where it has none.

    Raises
    ------
    ResourceError
        If a file of it is wrong; the text names file and field.
    """
    words, rates = (_own(folder, name) for name in (WORDS, RATES))
    return Firm(
        text=offer_text.read(words),
        rates=pricing_rates.read(rates),
        own=words is not None or rates is not None,
    )


def save(firm: Firm, folder: Path) -> None:
    """Keep words, logo and rates in a folder; each file that was there stays beside it.

    Raises
    ------
    ResourceError
        If something cannot be written; the file concerned is then the one from before.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        text = replace(firm.text, firm=replace(firm.text.firm, logo=_logo(firm.text, folder)))
        head = "The firm's own texts; {firm}, {code}, {title} and {valid_days} are filled in."
        for name, words in (
            (WORDS, toml_text.dumps(asdict(text), head=head)),
            (RATES, toml_text.dumps(asdict(firm.rates), head="The firm's own rates [GBP ex VAT].")),
        ):
            path = folder / name
            before = path.with_name(f"{path.stem}.before{path.suffix}")
            safe_write.replace_text(path, words, keep=before)
    except OSError as error:
        reason = error.strerror or str(error)
        raise ResourceError(
            f"The firm's settings could not be saved in {folder}: {reason}. Choose a "
            "folder you can write to, or another picture."
        ) from error
    except JobFileError as error:
        raise ResourceError(str(error)) from error


def _own(folder: Path | None, name: str) -> Path | None:
    return folder / name if folder is not None and (folder / name).exists() else None


def _logo(text: OfferText, folder: Path) -> str:
    """Return the name of the logo, which is copied into the folder."""
    if not text.firm.logo:
        return ""
    source = Path(text.firm.logo)
    if source.parent.resolve() != folder.resolve():
        target = folder / f"logo{source.suffix.lower()}"
        shutil.copyfile(source, target)
        return target.name
    return source.name
