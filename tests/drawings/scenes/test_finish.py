"""Every part has its look in the table that ships, and a table with one missing is refused."""

import pytest

from roofmodel.drawings.scenes import finish
from roofmodel.drawings.scenes.finish import Part, finishes
from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError


@pytest.fixture(autouse=True)
def _forget():
    yield
    finishes.cache_clear()


def test_every_part_has_a_colour_between_black_and_white():
    for part, look in finishes().items():
        assert all(0.0 <= share <= 1.0 for share in (*look.colour, look.scatter, look.clear)), part


def test_only_glass_is_clear():
    clear = {part for part, look in finishes().items() if look.clear}

    assert clear == {Part.WALL_GLASS, Part.ROOF_GLASS, Part.WINDOW_GLASS}


def test_a_part_without_a_finish_is_refused_in_words(tmp_path, monkeypatch):
    finishes.cache_clear()
    (tmp_path / finish._FILE).write_text('[finish]\nlawn = { colour = "#93a874", scatter = 0.0 }\n')
    monkeypatch.setattr(resources, "folder", lambda: tmp_path)

    with pytest.raises(ResourceError, match="Install the program again"):
        finishes()
