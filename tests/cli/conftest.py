"""Commands are run without the catalogue of whoever runs the tests."""

import pytest

from roofmodel.cli import firm_folder, named_catalogue
from roofmodel.foundation import user_folder


@pytest.fixture(autouse=True)
def data_folder(tmp_path, monkeypatch):
    """Give every command an empty data folder."""
    folder = tmp_path / "data"
    monkeypatch.delenv(named_catalogue.VARIABLE, raising=False)
    named_catalogue.choose(file=None)  # what another test's command named is forgotten
    monkeypatch.delenv(firm_folder.VARIABLE, raising=False)
    monkeypatch.setattr(user_folder, "data", lambda: folder)
    return folder
