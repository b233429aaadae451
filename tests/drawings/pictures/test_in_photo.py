"""The new roof stands in a photograph where a camera would have seen it, and nowhere else."""

from dataclasses import replace

import numpy as np
import pytest

from roofmodel.drawings.pictures import in_photo, through_camera
from roofmodel.drawings.scenes import looks
from roofmodel.photographs import placing, sun
from roofmodel.photographs.entry import Stroke
from tests.photographs import taken

pytestmark = pytest.mark.image
SMALL = (480, 360)
SKY = np.array([0.70, 0.82, 0.92])


def photographed(bodies, camera, entry):
    """Return a scene as a photograph of it: the truth the picture is held against."""
    seen = through_camera.draw(bodies, camera, sun=sun.towards(entry.sun), finer=1)
    whole = seen.light * seen.cover[..., None] + (1.0 - seen.cover[..., None]) * SKY
    return np.asarray(whole * 255.0, dtype=np.uint8)


def scene(shape, **camera):
    drawn = taken.roof_of(shape)
    photo = taken.taken(drawn, size=SMALL, **camera)
    entry = photo.entry()
    found = placing.place(entry, photo.corners).camera
    return entry, found, looks.as_it_stands(drawn.site), looks.finished(drawn.option.refit)


@pytest.fixture(scope="module")
def hipped():
    return scene("hipped", turned_deg=-25.0, away_mm=8_000.0, focal_px=375.0)


def agreement(entry, camera, old, new):
    """Return the drawn picture, and its differences from the truth [0 to 255]."""
    before, truth = (photographed(bodies, camera, entry) for bodies in (old, new))
    made = in_photo.draw(before, entry, camera, old=old, new=new)
    return made, np.abs(made.after.astype(int) - truth).max(axis=2)


@pytest.fixture(scope="module")
def drawn(hipped):
    return agreement(*hipped)


def test_the_picture_is_what_a_camera_would_have_seen(drawn):
    made, off = drawn
    inside = made.cover > 0.98

    assert inside.mean() > 0.03
    assert np.median(off[inside]) <= 12
    assert (off[made.cover == 0.0] <= 8).mean() > 0.97  # walls and house stay; the rest is filled


def test_what_stands_in_front_stays_as_photographed(hipped, drawn):
    entry, camera, old, new = hipped
    before = drawn[0].before
    ridge = np.argwhere(drawn[0].cover > 0.98)
    y, x = (int(value) for value in ridge[len(ridge) // 2])
    tree = Stroke(spots=((float(x), 0.0), (float(x), 359.0)), width_px=12.0)
    made = in_photo.draw(before, replace(entry, strokes=(tree,)), camera, old=old, new=new)

    assert (made.after[:, x - 2 : x + 3] == before[:, x - 2 : x + 3]).all()
    assert (made.after[y, x + 15] != before[y, x + 15]).any()


def test_a_divider_shows_both(drawn):
    made = drawn[0]
    both = made.divided(0.5)

    assert (both[:, :230] == made.before[:, :230]).all()
    assert (both[:, 250:] == made.after[:, 250:]).all()
    assert (made.divided(0.0) == made.after).all()


@pytest.mark.slow
def test_the_new_roof_takes_the_tint_of_the_photograph(hipped, drawn):
    entry, camera, old, new = hipped
    plain = drawn[0]
    warm = np.asarray(plain.before * np.array([0.95, 0.85, 0.65]), dtype=np.uint8)
    tinted = in_photo.draw(warm, entry, camera, old=old, new=new)
    on = plain.cover > 0.98
    share = tinted.after[on].mean(axis=0) / plain.after[on].mean(axis=0)

    assert share == pytest.approx([0.95, 0.85, 0.65], abs=0.08)


@pytest.mark.slow
@pytest.mark.parametrize("shape", ["gable", "lean-to", "five-facet-end", "three-facet-end", "wing"])
def test_five_pictures_are_what_a_camera_would_have_seen(shape):
    made, off = agreement(*scene(shape, turned_deg=20.0, away_mm=9_500.0, focal_px=360.0))

    inside = made.cover > 0.98
    assert np.median(off[inside]) <= 12
    assert (off[made.cover == 0.0] <= 8).mean() > 0.97
