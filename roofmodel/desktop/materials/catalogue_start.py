"""Opens the catalogue page on the own rows of this user, and says where these are kept."""

from datetime import date
from functools import partial
from pathlib import Path

from roofmodel.buildups import catalogue, own
from roofmodel.desktop.materials.catalogue_entry import CatalogueEntry
from roofmodel.desktop.materials.catalogue_panel import CataloguePanel
from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import firm_catalogue


def page(into: Path, *, today: date) -> CataloguePanel:
    """Return the page on the own rows kept in a folder.

    Where these cannot be read, the page says so and shows what is shipped; saving is then refused,
    so that the rows somebody entered are not written over.
    """
    path = own.file(into)
    trouble = ""
    try:
        rows = firm_catalogue.own_rows(path, day=today)
    except ResourceError as error:
        rows, trouble = own.empty(today), str(error)
    save = partial(firm_catalogue.save, path=path, day=today)
    entry = CatalogueEntry(catalogue.shipped(), rows, today=today, save=save)
    entry.trouble = trouble
    return CataloguePanel(entry, past=partial(firm_catalogue.prices_before, path))
