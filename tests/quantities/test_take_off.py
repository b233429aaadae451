from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.foundation.errors import ResourceError
from roofmodel.pricing import material_cost
from roofmodel.quantities import recipe, take_off
from roofmodel.quantities.counts import COUNTS
from roofmodel.refit.method import Method
from tests import acceptance_jobs


@pytest.fixture(scope="module")
def j01():
    return acceptance_jobs.drawn("J01")


def bill(job, goods=None):
    return take_off.take_off(job.option.refit, goods or catalogue.shipped(), lights=6)


def test_every_recipe_names_a_material_and_a_count_there_is():
    known = catalogue.shipped().materials

    assert not [one.material for one in recipe.shipped() if one.material not in known]
    assert {one.count for one in recipe.shipped() if one.count} == set(COUNTS)


def test_every_material_of_a_method_is_taken_off_or_lies_in_its_layers(j01):
    for method in Method:
        lines = {line.code for line in bill(replace(j01, option=j01.option_of(method))).lines}
        listed = {
            code
            for code, material in catalogue.shipped().materials.items()
            if method.value in material.methods and material.sheet is None
        }
        assert not listed - lines


def test_a_line_that_does_not_apply_stands_at_zero(j01):
    assert bill(j01).line("BOX-LIN").quantity == 0.0
    assert not bill(j01).line("BOX-LIN").applies


def test_sheets_without_a_plan_are_unknown_and_never_guessed(j01):
    line = bill(j01).line("BRD-OSB22")

    assert line.quantity is None
    assert line.packs is None
    assert "cutting plan" in line.lacks


def test_a_missing_material_leaves_no_total(j01):
    made = bill(j01, catalogue.shipped().without("TIL-ST"))
    costed = material_cost.cost(made)

    assert "no material “TIL-ST”" in made.line("TIL-ST").lacks
    assert costed.total({"covering": True}) is None
    assert "TIL-ST" in costed.incomplete


def test_a_missing_price_leaves_no_total(j01):
    goods = catalogue.shipped()
    made = bill(j01, goods.with_material(replace(goods.material("TIL-ST"), price=None)))
    costed = material_cost.cost(made)

    assert costed.total({"covering": True}) is None
    assert any("TIL-ST has no price" in line.lacks for line in costed.lacking)


def test_an_item_that_is_not_needed_may_lack_its_price(j01):
    goods = catalogue.shipped()
    made = bill(j01, goods.with_material(replace(goods.material("BOX-LIN"), price=None)))

    assert material_cost.cost(made).total({"box gutter": True}) == Decimal(0)


def test_a_dearer_pack_moves_the_total_by_what_is_charged(j01):
    goods = catalogue.shipped()
    tiles = goods.material("TIL-LW")
    dearer = replace(tiles, price=replace(tiles.price, amount=tiles.price.amount + 10))
    covering = {"covering": True}
    before = material_cost.cost(bill(j01)).total(covering)
    after = material_cost.cost(bill(j01, goods.with_material(dearer))).total(covering)

    assert after - before == 7 * 10  # seven boxes


def test_waste_is_taken_once(j01):
    lines = bill(j01).lines

    assert {line.waste for line in lines if line.cut is not None} <= {"by plan"}
    assert bill(j01).line("TIL-VG").waste == "in the rate"
    assert bill(j01).line("TIL-ST").waste == "+ 5 %"
    assert bill(j01).line("TIL-ST").quantity == pytest.approx(4.0 * 1.05)


def test_a_line_knows_the_geometry_it_came_from(j01):
    made = bill(j01)
    roof = j01.roof

    eaves = [roof.lines[number].kind.value for number in made.line("TIL-ST").place.lines]
    assert eaves == ["eaves"]
    assert len(made.line("FOM-750").place.pieces) == 6  # bays
    assert made.line("INS-MF30").place.facets == ("F1",)


def test_a_rafter_longer_than_the_stock_is_a_finding_on_its_line():
    survey = {
        "shape": "lean-to",
        "width_mm": 4000.0,
        "projection_mm": 5200.0,
        "eaves_height_mm": 2100.0,
        "pitch_deg": 20.0,
        "left_end": "verge",
        "right_end": "verge",
    }
    job = acceptance_jobs.drawn("J01", survey=survey, refit={"method": "new-roof"})
    line = bill(job).line("TIM-C24-150")

    assert line.quantity is None
    assert "longest stock is 5400 mm" in line.lacks


def test_a_wrong_recipe_is_named_by_row_and_field(monkeypatch):
    rows = {"recipe": [{"material": "X", "methods": ["new-roof"], "group": "g", "waste": "much"}]}
    monkeypatch.setattr(recipe.resources, "read_toml", lambda _: rows)
    recipe.shipped.cache_clear()
    try:
        with pytest.raises(ResourceError, match=r"recipe 1 \(X\), waste"):
            recipe.shipped()
    finally:
        monkeypatch.undo()
        recipe.shipped.cache_clear()


@pytest.mark.parametrize("code", ["J01", "J05", "J07"])
@pytest.mark.parametrize("method", list(Method))
def test_before_anything_is_sawn_the_same_lines_apply_at_the_same_prices(code, method):
    drawn = acceptance_jobs.drawn(code)
    option = drawn.option_of(method)
    cut, uncut = (
        [
            (line.code, line.applies, line.price)
            for line in made(option.refit, drawn.catalogue, lights=option.light_count).lines
        ]
        for made in (take_off.take_off, take_off.uncut)
    )
    assert uncut == cut
