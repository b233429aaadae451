import pytest

from roofmodel.buildups import catalogue, material_error
from roofmodel.buildups.material_error import MaterialError
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.source import Source
from roofmodel.refit import stack


def test_every_material_a_method_lays_has_an_error_with_a_source():
    materials = catalogue.shipped().materials
    laid = {layer.material for one in stack.shipped().values() for layer in one.layers}
    for code in sorted(laid):
        found = material_error.of(materials[code])
        assert found is not None, code
        assert found.source.document
        assert found.mass_share > 0.0
        assert found.thickness_mm > 0.0
    assert material_error.old_glazing().mass_share == pytest.approx(0.05)


@pytest.mark.parametrize("change", [{"thickness_mm": 11.0}, {"mass_share": -0.1}])
def test_an_error_that_leaves_a_figure_without_meaning_is_refused(change):
    with pytest.raises(ResourceError, match="is not possible"):
        MaterialError(**change, source=Source("a test", "", verified=False))


def test_a_category_that_stands_twice_is_refused(monkeypatch):
    row = {"categories": ["tile", "tile"], "source": {"document": "", "place": "", "verified": 0}}
    monkeypatch.setattr(material_error, "_table", lambda: {"material": [row]})
    with pytest.raises(ResourceError, match="tile"):
        material_error.shipped.__wrapped__()
