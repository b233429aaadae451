"""The firm's own words and rates: kept, read back equal, refused where they cannot stand."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.pricing import rates
from roofmodel.workbench.firm import firm


def test_without_a_folder_of_its_own_the_shipped_words_and_rates_are_used(tmp_path):
    found = firm.load(tmp_path / "nothing")

    assert not found.own
    assert found.rates == rates.shipped()
    assert found.text == firm.load(None).text


def test_what_is_kept_reads_back_equal_and_the_version_before_stays(tmp_path):
    shipped = firm.load(None)
    dearer = replace(shipped.rates, installer_gbp_h=Decimal("33.25"), source="the firm")
    named = replace(shipped.text, firm=replace(shipped.text.firm, name='A "B" \\ Roofs'))
    firm.save(replace(shipped, rates=dearer, text=named), tmp_path)
    found = firm.load(tmp_path)

    assert found.own
    assert (found.rates, found.text) == (dearer, named)
    firm.save(shipped, tmp_path)
    assert "33.25" in (tmp_path / "rates.before.toml").read_text(encoding="utf-8")


def test_a_file_that_is_wrong_is_named_with_its_field(tmp_path):
    shipped = (resources.folder() / "rates.toml").read_text(encoding="utf-8")
    (tmp_path / firm.RATES.file).write_text(shipped.replace("vat_percent", "vat"), encoding="utf-8")

    with pytest.raises(ResourceError, match=r"rates\.toml"):
        firm.load(tmp_path)


def test_a_folder_that_cannot_be_written_is_refused(tmp_path):
    (tmp_path / "file").write_text("in the way")

    with pytest.raises(ResourceError, match="could not be saved"):
        firm.save(firm.load(None), tmp_path / "file")
