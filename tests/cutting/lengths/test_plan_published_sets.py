"""One-dimensional sets with known best: pieces on bars of one length, no saw cut.

E. Falkenauer, Journal of Heuristics 2 (1996) 5-30: of “u” sets the best is published with the
file, of “t” sets (triplets) it is a third of the pieces by construction. The “hard28” sets
(J. Schoenfield; G. Belov, G. Scheithauer, European Journal of Operational Research 171 (2006)
85-106) come without a best; there only the order of bound and plan is checked.
"""

import json
from collections import Counter
from pathlib import Path

import pytest

from roofmodel.cutting.lengths.plan import plan
from roofmodel.cutting.lengths.problem import LengthPiece, StockLength

SET = Path(__file__).parents[4] / "shared" / "benchmarks" / "one_d.json"
FEW = ("falkenauer_u250_00", "falkenauer_u250_02", "falkenauer_t60_00")

pytestmark = pytest.mark.skipif(not SET.exists(), reason="the published sets are not here")


def instances():
    return json.loads(SET.read_text(encoding="utf-8"))


def planned(instance):
    kinds = sorted(Counter(instance["items"]).items(), reverse=True)
    return plan(
        [LengthPiece(mark=f"P{size}", length=size, count=count) for size, count in kinds],
        [StockLength(length=instance["capacity"])],
        material="TEST",
        kerf_mm=0.0,
        keep_mm=0.0,
    )


@pytest.mark.parametrize("name", FEW)
def test_the_best_known_plan_is_found_and_proved(name):
    instance = instances()[name]
    found = planned(instance)

    assert found.lengths == instance["best"]
    assert found.proved


@pytest.mark.slow
def test_bound_best_and_plan_are_in_order_on_the_whole_set():
    above = 0
    for name, instance in instances().items():
        found = planned(instance)
        assert found.lengths - 1 <= found.bound.cost <= found.lengths, name
        if instance["best"] is not None:
            assert found.bound.cost <= instance["best"] <= found.lengths, name
            above += found.lengths - instance["best"]

    assert above <= 4  # some of the triplets of 120 pieces, one each
