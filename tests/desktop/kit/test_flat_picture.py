"""A flat picture is centred to scale and can be read back."""

import pytest

pytest.importorskip("PySide6", reason="the window's modules need Qt")
from PySide6.QtCore import QRectF

from roofmodel.desktop.kit import flat_picture


def test_a_drawing_is_centred_to_scale_and_can_be_read_back():
    place = flat_picture.placed((-1000.0, 0.0, 3000.0, 1000.0), QRectF(0, 0, 400, 300))

    assert place.scale == pytest.approx(0.1)
    middle = place.at((1000.0, 500.0))
    assert (middle.x(), middle.y()) == pytest.approx((200.0, 150.0))
    low = place.at((-1000.0, 0.0))
    assert (low.x(), low.y()) == pytest.approx((0.0, 200.0))
    assert flat_picture.spot_at(place, (0.0, 200.0)) == pytest.approx((-1000.0, 0.0))
