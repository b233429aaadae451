"""Photographs are read upright and never written to; what is none is refused in words."""

import numpy as np
import pytest
from PIL import Image

from roofmodel.foundation.errors import DrawingError
from roofmodel.photographs import photo_file

ORIENTATION, EXIF_SUB, FOCAL_FILM = 0x0112, 0x8769, 0xA405


def picture(path, size=(400, 300), mode="RGB", **exif):
    made = Image.new(mode, size)
    made.paste(Image.new(mode, (40, 40), 255 if mode == "L" else "white"), (0, 0))
    tags = Image.Exif()
    tags[ORIENTATION] = exif.get("turned", 1)
    if "focal" in exif:
        tags.get_ifd(EXIF_SUB)[FOCAL_FILM] = exif["focal"]
    made.save(path, exif=tags)
    return path


def test_a_telephones_portrait_picture_is_turned_upright(tmp_path):
    path = picture(tmp_path / "a.jpg", turned=6, focal=26)
    before = path.read_bytes()

    assert photo_file.about(path).size == (300, 400)
    upright = photo_file.pixels(path)
    assert upright.shape == (400, 300, 3)
    # Orientation 6: the upper left corner as stored is the upper right one as seen.
    assert upright[5, 295].min() > 200
    assert upright[5, 5].max() < 60
    assert path.read_bytes() == before


def test_the_focal_length_is_taken_from_the_file(tmp_path):
    assert photo_file.about(picture(tmp_path / "a.jpg", focal=26)).film_focal_mm == 26.0
    assert photo_file.about(picture(tmp_path / "b.jpg", focal=0)).film_focal_mm is None
    assert photo_file.about(picture(tmp_path / "c.jpg")).film_focal_mm is None


def test_files_of_telephones_are_read_where_their_reader_is_installed(tmp_path):
    pytest.importorskip("pi_heif", reason="the reader of HEIF files is not installed")
    path = tmp_path / "a.heic"
    path.write_bytes(b"\0\0\0\x18ftypheic\0\0\0\0heicmif1 and nothing more")

    with pytest.raises(DrawingError, match=r"a\.heic"):
        photo_file.about(path)


def test_what_cannot_be_drawn_into_is_refused_in_words(tmp_path, monkeypatch):
    broken = picture(tmp_path / "broken.png")
    whole = picture(tmp_path / "whole.jpg", size=(800, 600))
    cut = tmp_path / "cut.jpg"
    cut.write_bytes(whole.read_bytes()[:-400])
    broken.write_bytes(b"no picture at all")
    cases = {
        broken: "is not a photograph this program can read",
        picture(tmp_path / "press.jpg", mode="CMYK"): "printing press",
        picture(tmp_path / "small.jpg", size=(100, 100)): "only 100 × 100 pixels",
        tmp_path / "gone.jpg": "is not in",
        cut: "damaged or cut short",
    }
    for path, said in cases.items():
        with pytest.raises(DrawingError, match=said):
            photo_file.pixels(path)
    monkeypatch.setattr(photo_file, "MOST_PIXELS", 100_000)
    with pytest.raises(DrawingError, match=r"million pixels; up to"):
        photo_file.about(whole)


def test_a_photograph_of_200_megapixels_is_refused_before_it_is_unpacked(tmp_path):
    path = tmp_path / "huge.png"
    Image.new("1", (16_000, 12_500)).save(path)

    with pytest.raises(DrawingError, match="million"):
        photo_file.pixels(path)


def test_pixels_are_written_as_they_are(tmp_path):
    pixels = np.arange(300 * 300 * 3, dtype=np.uint8).reshape(300, 300, 3)
    photo_file.save(pixels, tmp_path / "out.png")

    assert (photo_file.pixels(tmp_path / "out.png") == pixels).all()
