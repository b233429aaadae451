"""Photographs of a job on the command line, from the first copy to the new roof in it."""

import json
import shutil

import numpy as np
import pytest
from PIL import Image

from roofmodel.cli import main
from roofmodel.storage import job_file
from tests.photographs import taken

SMALL = (640, 480)


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "hipped.roofjob.json"
    shutil.copy(taken.SAMPLES / "hipped.roofjob.json", path)
    return path


@pytest.fixture
def house(tmp_path):
    path = tmp_path / "from telephone.jpg"
    pixels = np.random.default_rng(1).integers(90, 170, (*SMALL[::-1], 3), dtype=np.uint8)
    Image.fromarray(pixels).save(path)
    return path


def run(*words):
    return main.run([str(word) for word in words], open_window=lambda path: 0)


def clicked(job, house, capsys):
    photo = taken.taken(
        taken.roof_of("hipped"), turned_deg=-25.0, away_mm=8_000.0, focal_px=500.0, size=SMALL
    )
    assert run("photo", "add", job, house, "--caption", "From the garden") == 0
    clicks = [f"{name}={x:.2f},{y:.2f}" for name, (x, y) in photo.spots.items()]
    assert run("photo", "click", job, 1, *clicks, "--error", 1) == 0
    capsys.readouterr()
    return photo


def test_a_photograph_is_copied_beside_the_job_and_listed(job, house, capsys):
    before = house.read_bytes()
    assert run("photo", "add", job, house, "--caption", "From the garden") == 0
    assert run("photo", "add", job, house, "--stage", "finish") == 0
    photos = job_file.read(job).photos
    folder = job.with_name("hipped.photos")

    assert [one.file for one in photos] == ["from telephone.jpg", "from telephone-2.jpg"]
    assert all((folder / one.file).read_bytes() == before for one in photos)
    capsys.readouterr()
    assert run("photo", "list", job, "--json") == 0
    told = json.loads(capsys.readouterr().out)["photos"]
    assert [one["stage"] for one in told] == ["survey", "finish"]
    assert run("photo", "remove", job, 1) == 0
    assert [one.file for one in job_file.read(job).photos] == ["from telephone-2.jpg"]
    assert (folder / "from telephone.jpg").exists()


def test_the_fit_names_camera_clicks_and_sizes(job, house, capsys):
    photo = clicked(job, house, capsys)
    assert run("photo", "fit", job, 1, "--json") == 0
    told = json.loads(capsys.readouterr().out)

    assert np.linalg.norm(np.array(told["camera"]["eye_mm"]) - photo.eye) < 300.0
    assert {one["corner"] for one in told["clicks"]} == set(photo.spots)
    assert any(one["size"].startswith("Pitch of") for one in told["sizes"])
    assert not any(one["doubted"] for one in told["sizes"])


@pytest.mark.image
def test_the_new_roof_is_drawn_and_the_photograph_stays_as_it_was(job, house, capsys, tmp_path):
    clicked(job, house, capsys)
    kept = job.with_name("hipped.photos") / house.name
    before = kept.read_bytes()
    out = tmp_path / "after.png"

    assert run("photo", "draw", job, 1, out, "--divider", 0.5, "--longest", 400) == 0
    with Image.open(out) as drawn:
        assert drawn.size == (400, 300)
    assert kept.read_bytes() == before
    assert run("photo", "draw", job, 1, kept) != 0
    assert kept.read_bytes() == before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["fit", "{job}", "3"], "There is no photograph 3"),
        (["add", "{job}", "{job}"], "is not a photograph this program can read"),
        (["click", "{job}", "1", "C=a,b"], "is no place in the picture"),
        (["fit", "{job}", "1"], "0 of at least 4 corners are clicked"),
        (["sun", "{job}", "1", "--at", "2026-06-21T14:00"], "has no time zone"),
        (["click", "{job}", "1", "--known", "C"], "is no known length"),
    ],
)
def test_what_cannot_be_is_told_in_words(job, house, capsys, words, said):
    run("photo", "add", job, house)
    before = job.read_bytes()
    capsys.readouterr()

    assert run("photo", *(word.format(job=job) for word in words)) != 0
    assert said in " ".join(capsys.readouterr().err.replace("│", " ").split())
    assert job.read_bytes() == before
