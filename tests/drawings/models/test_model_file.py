"""Model files, read back by the libraries of their formats."""

import io

import ifcopenshell
import ifcopenshell.util.element
import ifcopenshell.util.unit
import ifcopenshell.validate
import numpy as np
import pytest
import trimesh

from roofmodel.drawings.models import ifc_file, model_file
from roofmodel.foundation.errors import DrawingError
from roofmodel.shapes.polygonal_end import PolygonalEnd


@pytest.fixture(scope="module")
def roof():
    return PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3).roof(
        eaves_height_mm=2100
    )


def read(roof, ending):
    one = ending == ".stl"
    parts = [model_file.closed_part(roof)] if one else model_file.skin_parts(roof)
    return trimesh.load(io.BytesIO(model_file.content(parts, ending)), file_type=ending[1:])


def test_gltf_holds_named_facets_in_metres_with_y_up(roof):
    found = read(roof, ".glb")

    assert set(found.geometry) == {"F1", "F2", "F3", "F4", "F5", "walls"}
    assert found.geometry["F1"].area == pytest.approx(roof.facet("F1").area_m2, abs=1e-5)
    low, high = found.bounds
    assert high - low == pytest.approx([3.5, 2.1 + roof.rise_mm / 1000, 3.6], abs=1e-4)


def test_stl_is_the_closed_body_in_millimetres(roof):
    found = read(roof, ".stl")

    assert found.is_watertight
    assert found.bounds[1] == pytest.approx([3500, 3600, roof.rise_mm], abs=0.01)


def test_obj_holds_the_skin_in_millimetres(roof):
    found = read(roof, ".obj")

    assert np.ptp(found.vertices[:, 0]) == pytest.approx(3500, abs=0.01)


def test_an_unknown_format_is_named_with_the_ones_there_are(roof):
    with pytest.raises(DrawingError, match=r"\.glb, \.stl, \.obj"):
        model_file.content(model_file.skin_parts(roof), ".xyz")


@pytest.fixture(scope="module")
def ifc(roof):
    text = ifc_file.content(roof, job_code="J04", title="Three-facet end", thickness_mm=18.0)
    return ifcopenshell.file.from_string(text.decode())


# The library leaves its own file of rules open.
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")
@pytest.mark.filterwarnings("ignore:unclosed file:ResourceWarning")
def test_ifc_is_valid_against_its_schema_and_rules(ifc):
    logger = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(ifc, logger, express_rules=True)

    assert ifc.schema == "IFC4"
    assert logger.statements == []


def test_ifc_holds_a_roof_of_slabs_with_quantities(ifc, roof):
    (whole,) = ifc.by_type("IfcRoof")
    slabs = sorted(ifcopenshell.util.element.get_parts(whole), key=lambda slab: slab.Name)

    assert [slab.Name for slab in slabs] == [facet.name for facet in roof.facets]
    for slab, facet in zip(slabs, roof.facets, strict=True):
        sets = ifcopenshell.util.element.get_psets(slab)
        assert sets["Qto_SlabBaseQuantities"]["GrossArea"] == pytest.approx(facet.area_m2)
        assert np.degrees(sets["Pset_SlabCommon"]["PitchAngle"]) == pytest.approx(25.0)
    assert ifcopenshell.util.unit.calculate_unit_scale(ifc) == pytest.approx(0.001)
    assert ifcopenshell.util.unit.calculate_unit_scale(ifc, "AREAUNIT") == pytest.approx(1.0)


def test_ifc_bodies_are_as_large_as_their_quantities_say(ifc):
    geom = pytest.importorskip("ifcopenshell.geom")
    for slab in ifc.by_type("IfcSlab"):
        shape = geom.create_shape(geom.settings(), slab).geometry
        body = trimesh.Trimesh(
            np.array(shape.verts).reshape(-1, 3), np.array(shape.faces).reshape(-1, 3)
        )
        sets = ifcopenshell.util.element.get_psets(slab)
        assert body.is_watertight
        assert body.volume == pytest.approx(sets["Qto_SlabBaseQuantities"]["GrossVolume"], rel=1e-6)


def test_roof_and_slabs_keep_their_ids_from_file_to_file(ifc, roof):
    text = ifc_file.content(roof, job_code="J04", title="Again", thickness_mm=25.0)
    again = ifcopenshell.file.from_string(text.decode())

    for kind in ("IfcRoof", "IfcSlab"):
        assert {p.GlobalId for p in again.by_type(kind)} == {p.GlobalId for p in ifc.by_type(kind)}
