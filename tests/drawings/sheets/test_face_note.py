"""Which face lies up is said as the bench sees it: a lining is drawn from its back."""

import pytest

from roofmodel.drawings.sheets import face_note
from tests.drawings import drawn


@pytest.mark.parametrize(
    ("code", "over", "up", "label"),
    [
        ("BRD-OSB18", False, "OUTSIDE FACE UP", "LABEL IS ON THE OUTSIDE FACE"),
        ("BRD-OSB18", True, "OUTSIDE FACE DOWN", "LABEL IS ON THE INSIDE FACE"),
        ("BRD-PB12", False, "BACK UP, ROOM FACE DOWN", "LABEL IS ON THE BACK"),
        ("BRD-PB12", True, "ROOM FACE UP", "LABEL IS ON THE ROOM FACE"),
    ],
)
def test_a_face_is_named_as_it_lies_on_the_saw(code, over, up, label):
    good = drawn.good(code)

    assert face_note.up(good, turned_over=over) == up
    assert face_note.label_on(good, turned_over=over) == label


def test_a_lining_is_said_to_be_mirrored_as_seen_from_the_room():
    assert "mirrored" in face_note.line(drawn.good("BRD-PB12"))
    assert "mirrored" not in face_note.line(drawn.good("BRD-OSB18"))
