"""The list of what is on the van is read, or refused with row and remedy."""

from decimal import Decimal

import pytest

from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import van_stock


def written(tmp_path, text):
    path = tmp_path / van_stock.FILE
    path.write_text(text)
    return path


def test_packs_and_parts_of_packs_are_read(tmp_path):
    path = written(tmp_path, '[[stock]]\nmaterial = "MEM-BR"\npacks = "0.6"\n')

    assert van_stock.read(path) == {"MEM-BR": Decimal("0.6")}
    assert van_stock.read(tmp_path / "none.toml") == {}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[[stock]]\nmaterial = "A"\npacks = "-1"\n', "packs: .*Enter at least 0"),
        ('[[stock]]\nmaterial = "A"\npacks = 1\n[[stock]]\nmaterial = "A"\npacks = 2\n', "twice"),
    ],
)
def test_what_no_van_carries_is_refused_with_its_row(tmp_path, text, told):
    with pytest.raises(ResourceError, match=told):
        van_stock.read(written(tmp_path, text))
