import sys

import numpy as np
import pytest

from roofmodel.drawings.pictures import picture
from roofmodel.drawings.views import facet_style
from roofmodel.foundation.errors import DrawingError
from tests.drawings import drawn

pyvista = pytest.importorskip("pyvista")


def test_the_picture_has_the_size_asked_for_and_shows_every_facet(tmp_path, capfd):
    roof = drawn.roof_of()
    picture.draw(roof, tmp_path / "roof.png", title="J04", size=(800, 500))

    seen = np.asarray(pyvista.read(tmp_path / "roof.png").point_data["PNGImage"])[:, :3]
    assert (tmp_path / "roof.png").read_bytes().startswith(b"\x89PNG\r\n\x1a\n")
    assert len(seen) == 800 * 500
    for place in range(len(roof.facets)):
        colour = facet_style.facet_colour(place)
        rgb = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
        near = np.abs(seen.astype(int) - rgb).max(axis=1) <= 3
        assert near.sum() > 1000, f"{roof.facets[place].name} is not seen"
    assert [entry.name for entry in tmp_path.iterdir()] == ["roof.png"]
    assert capfd.readouterr() == ("", "")


def test_without_the_drawing_library_the_person_is_told_what_to_install(tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "pyvista", None)
    (tmp_path / "roof.png").write_bytes(b"the last one")

    with pytest.raises(DrawingError, match="the extra “desktop”"):
        picture.draw(drawn.roof_of(), tmp_path / "roof.png", title="J04")
    assert (tmp_path / "roof.png").read_bytes() == b"the last one"
    assert [entry.name for entry in tmp_path.iterdir()] == ["roof.png"]


def test_without_opengl_the_person_is_told_what_to_install(tmp_path, monkeypatch):
    def no_plotter(**_):
        raise RuntimeError("no EGL")

    monkeypatch.setattr(pyvista, "Plotter", no_plotter)

    with pytest.raises(DrawingError, match="Install its OpenGL libraries"):
        picture.draw(drawn.roof_of(), tmp_path / "roof.png", title="J04")


def test_a_folder_that_is_not_there_is_named(tmp_path):
    with pytest.raises(DrawingError, match=r"roof\.png cannot be written in .*nowhere"):
        picture.draw(drawn.roof_of(), tmp_path / "nowhere" / "roof.png", title="J04")


@pytest.mark.parametrize("size", [(0, 0), (399, 300), (1600, 100_000)])
def test_a_picture_of_no_use_is_not_made(tmp_path, size):
    with pytest.raises(DrawingError, match="pixels cannot be made"):
        picture.draw(drawn.roof_of(), tmp_path / "roof.png", title="J04", size=size)
