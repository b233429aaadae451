"""What the offer for the customer is set from."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from roofmodel.comparison.compare import Column
from roofmodel.drawings.offer.offer_look import words
from roofmodel.drawings.offer.offer_text import OfferText
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.views.stack_section import StackSection
from roofmodel.refit.method import Method


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraRow:
    """Something that may be added: what it is, what it changes, its price in each column."""

    name: str
    changes: str
    entries: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferPaper:
    """Everything the offer is set from; ``pictures`` are (caption, picture file), before and after.

    ``stacks`` are the build-ups of the columns, None for a method that is refused. ``customer``
    are the lines of name and address. ``draft`` is printed across every page.
    """

    heading: Heading
    title: str
    columns: tuple[Column, ...]
    chosen: Method
    text: OfferText
    made_on: date
    customer: tuple[str, ...] = ()
    pictures: tuple[tuple[str, Path], ...] = ()
    stacks: tuple[StackSection | None, ...] = ()
    extras: tuple[ExtraRow, ...] = ()
    draft: bool = False

    def said(self, text: str) -> str:
        """Return a template of the firm filled in, fit to be set."""
        return words(self.text.filled(text, code=self.heading.job_code, title=self.title))
