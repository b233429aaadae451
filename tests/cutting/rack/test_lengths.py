"""Offcuts of lengths go from the rack into the plan, and what is left back to it."""

from datetime import date

from roofmodel.cutting.lengths.plan import LengthOptions, plan
from roofmodel.cutting.lengths.problem import LengthPiece, StockLength
from roofmodel.cutting.rack import lengths as rack_lengths
from roofmodel.cutting.rack.offcut import RackPiece, rectangle

DAY = date(2026, 11, 2)


def test_an_offcut_of_a_batten_saves_a_length_and_what_is_left_goes_back():
    rack = [
        RackPiece.of_length_mm("B1", "TIM-B25", 2000, since=DAY),
        RackPiece.of_length_mm("G1", "GUT-112", 4000, since=DAY),
        RackPiece.of_mm("R1", "TIM-B25", rectangle(600, 400), since=DAY),
    ]
    offered = rack_lengths.offered(rack, "TIM-B25")
    assert [(one.label, one.length) for one in offered] == [("B1", 20000)]
    made = plan(
        [LengthPiece.of_mm("A", 1500, count=3)],
        [StockLength(length=36000)],
        material="TIM-B25",
        kerf_mm=3.0,
        keep_mm=400.0,
        options=LengthOptions(rack=offered),
    )
    assert (made.lengths, made.from_rack) == (1, ("B1",))
    kept = rack_lengths.to_rack(made, "J1-A", since=DAY, place="bay 1")
    # By hand: 2000 - 1500 - 3 of the offcut; 3600 - 2 × 1500 - 2 × 3 of the new one.
    assert sorted(piece.length for piece in kept) == [4970, 5940]
    assert {piece.label for piece in kept} == {"J1-A-TIM-B25-1", "J1-A-TIM-B25-2"}
    assert [one.length for one in made.to_rack] == [piece.length for piece in kept]
