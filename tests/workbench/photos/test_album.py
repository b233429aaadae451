"""Photographs lie beside the job file; none is overwritten, none leads out of the folder."""

from dataclasses import replace

import pytest
from PIL import Image

from roofmodel.photographs.entry import Stage
from roofmodel.workbench.photos import album
from roofmodel.workbench.photos.album import PhotoError
from tests.photographs import taken


def test_a_second_file_of_one_name_gets_another(tmp_path):
    job, path = taken.roof_of("lean-to").job, tmp_path / "one.roofjob.json"
    file = tmp_path / "house.png"
    for colour in ("red", "blue"):
        Image.new("RGB", (300, 300), colour).save(file)
        job = album.with_photo(job, path, file, caption="", stage=Stage.SURVEY)

    assert [one.file for one in job.photos] == ["house.png", "house-2.png"]
    with Image.open(album.path_of(job.photos[0], path)) as first:
        assert first.getpixel((5, 5)) == (255, 0, 0)
    left = album.without(job, 0)
    assert [one.file for one in left.photos] == ["house-2.png"]
    assert album.path_of(job.photos[0], path).exists()


def test_a_name_that_leads_out_of_the_folder_is_refused(tmp_path):
    job, path = taken.roof_of("lean-to").job, tmp_path / "one.roofjob.json"
    file = tmp_path / "house.png"
    Image.new("RGB", (300, 300)).save(file)
    photo = album.with_photo(job, path, file, caption="", stage=Stage.SURVEY).photos[0]

    with pytest.raises(PhotoError, match="named with a folder"):
        album.path_of(replace(photo, file="../house.png"), path)
