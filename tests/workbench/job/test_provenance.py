import pytest

from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import COMPUTED, Source
from roofmodel.workbench.job import provenance
from roofmodel.workbench.job.measured import TYPED, Measured
from roofmodel.workbench.job.provenance import Moves

ROOF = {"area_m2": 2.0, "facets": [{"name": "F1", "pitch_deg": 15.0, "flat": False}]}


def reading(label, error=3.0):
    return Measured(
        path=("survey", label),
        label=label,
        value=1_000.0,
        unit="mm",
        tool="tape",
        standard_error=error,
        source=TYPED,
    )


def test_what_moves_a_number_is_its_input_and_by_how_much_its_error():
    moves = Moves(checked=False)
    moves.add(reading("width"), ROOF, lambda: {**ROOF, "area_m2": 2.3})
    moves.add(reading("depth"), ROOF, lambda: {**ROOF, "area_m2": 1.6})
    found = moves.figure("area_m2", 2.0, COMPUTED)
    assert found.error == pytest.approx(0.5)  # 0.3 and 0.4
    assert [one.name for one in found.inputs] == ["depth", "width"]
    assert not found.verified
    assert moves.figure("facets[0].pitch_deg", 15.0, COMPUTED).error is None


def test_another_facet_in_the_same_place_is_not_compared():
    other = {**ROOF, "facets": [{"name": "F2", "pitch_deg": 20.0, "flat": True}]}
    assert dict(provenance.moved(ROOF, other)) == {}
    longer = {**ROOF, "facets": [*ROOF["facets"], *other["facets"]]}
    assert dict(provenance.moved(ROOF, longer)) == {}


def test_a_table_names_each_input_once():
    width = reading("width").figure(checked=True)
    row = Source("a row", "", verified=False)
    made = {
        name: Figure(name=name, value=1.0, source=COMPUTED, inputs=(width, row))
        for name in ("area_m2", "rise_mm")
    }
    found = provenance.table(made)
    assert len(found["inputs"]) == 2
    assert found["figures"]["area_m2"]["from"] == found["figures"]["rise_mm"]["from"] == [0, 1]
