"""Arrows made of plain lines."""

import math

from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Pen, Spot

_HEAD = 0.22
"""Length of an arrow's head, in lengths of the arrow."""

_SPREAD_DEG = 22.0


def single(
    centre: Spot, length_mm: float, turn_deg: float, *, layer: DrawingLayer, pen: Pen
) -> None:
    """Draw an arrow about its centre; turn 0 points right, 90 up."""
    tail, tip = _ends(centre, length_mm, turn_deg)
    pen.line([tail, tip], layer=layer)
    pen.line(_head(tip, length_mm, turn_deg), layer=layer)


def double(
    centre: Spot, length_mm: float, turn_deg: float, *, layer: DrawingLayer, pen: Pen
) -> None:
    """Draw an arrow with a head at either end."""
    tail, tip = _ends(centre, length_mm, turn_deg)
    pen.line([tail, tip], layer=layer)
    pen.line(_head(tip, length_mm, turn_deg), layer=layer)
    pen.line(_head(tail, length_mm, turn_deg + 180.0), layer=layer)


def _ends(centre: Spot, length_mm: float, turn_deg: float) -> tuple[Spot, Spot]:
    half = length_mm / 2.0
    return _from(centre, -half, turn_deg), _from(centre, half, turn_deg)


def _head(tip: Spot, length_mm: float, turn_deg: float) -> list[Spot]:
    back = -_HEAD * length_mm
    return [
        _from(tip, back, turn_deg + _SPREAD_DEG),
        tip,
        _from(tip, back, turn_deg - _SPREAD_DEG),
    ]


def _from(spot: Spot, away_mm: float, turn_deg: float) -> Spot:
    turn = math.radians(turn_deg)
    return (spot[0] + away_mm * math.cos(turn), spot[1] + away_mm * math.sin(turn))
