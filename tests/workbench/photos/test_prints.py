"""Photographs that leave the house tell nothing but what is seen, and stand in the pack."""

from dataclasses import replace
from datetime import date

import pypdfium2
from PIL import Image

from roofmodel.drawings.sets import handover_pack
from roofmodel.photographs.entry import Stage
from roofmodel.workbench.gates import control_set
from roofmodel.workbench.photos import album, prints
from tests.photographs import taken

GPS, LATITUDE = 0x8825, 2


def with_place(path):
    tags = Image.Exif()
    tags.get_ifd(GPS)[LATITUDE] = (51.0, 12.0, 30.0)
    tags[0x0110] = "Secret camera"
    Image.new("RGB", (800, 600), "sienna").save(path, exif=tags)
    return path


def album_of_two(tmp_path):
    drawn = taken.roof_of("lean-to")
    path = tmp_path / "one.roofjob.json"
    job = drawn.job
    for stage, caption in ((Stage.FINISH, "Gutter & verge"), (Stage.SURVEY, "As found")):
        file = with_place(tmp_path / f"{stage.value}.jpg")
        job = album.with_photo(job, path, file, caption=caption, stage=stage)
    return drawn, job, path


def test_copies_have_no_place_and_stand_in_the_order_of_the_work(tmp_path):
    _, job, path = album_of_two(tmp_path)
    files = prints.copies(job, path, tmp_path / "out")

    assert [file.name for file in files] == [
        f"{job.code}-01-survey-as-found.jpg",
        f"{job.code}-02-finish-gutter-verge.jpg",
    ]
    for file in files:
        with Image.open(file) as opened:
            assert not opened.getexif()
        assert b"Secret camera" not in file.read_bytes()
    with Image.open(album.folder(path) / "finish.jpg") as kept:
        assert kept.getexif()  # the photograph itself is as it came


def test_the_handover_pack_shows_them_with_their_captions(tmp_path):
    drawn, job, path = album_of_two(tmp_path)
    paper = control_set.handover(drawn, drawn.option, issued=date(2026, 11, 30))
    content = handover_pack.content(replace(paper, photos=prints.of_job(job, path)))
    document = pypdfium2.PdfDocument(content)
    pages = [page.get_textpage().get_text_range() for page in document]
    (place,) = [n for n, words in enumerate(pages) if "photographs of the work" in words]

    assert pages[place].index("As found") < pages[place].index("Gutter & verge")
    assert sum(one.type == 3 for one in document[place].get_objects()) == 2  # images
    assert b"Secret camera" not in content
