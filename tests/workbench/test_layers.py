"""The sheet layers of every sample as bodies, measured by trimesh."""

import io
from pathlib import Path

import pytest
import trimesh

from roofmodel.storage import job_file
from roofmodel.workbench import layers, model_export, reckoning

SAMPLES = sorted(Path("sample_roofs").glob("*.roofjob.json"))


def drawn(path):
    return reckoning.reckon(job_file.read(path))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_every_layer_is_a_watertight_body_of_its_thickness(path):
    job = drawn(path)
    found = layers.of_job(job)

    assert [layer.good.layer for layer in found] == ["deck", "insulation", "lining"]
    for layer in found:
        body = layer.body.as_trimesh()
        assert body.is_watertight
        mean_area_m2 = body.volume / 1e6 / layer.good.thickness_mm
        # A layer is larger than the datum outside it and smaller inside, by its own depth.
        assert mean_area_m2 == pytest.approx(job.roof.area_m2, rel=0.12)


def test_layers_lie_one_on_the_other_from_the_deck_to_the_room():
    found = layers.of_job(drawn(Path("sample_roofs/lean-to.roofjob.json")))

    assert [(layer.inside_mm, layer.outside_mm) for layer in found] == [
        (0.0, 18.0),
        (-75.0, 0.0),
        (-87.5, -75.0),
    ]


def test_layers_are_exported_as_named_bodies(tmp_path):
    path = tmp_path / "layers.glb"
    model_export.write(
        drawn(Path("sample_roofs/three-facet-end.roofjob.json")), path, with_layers=True
    )
    found = trimesh.load(io.BytesIO(path.read_bytes()), file_type="glb")

    assert set(found.geometry) == {"OSB18", "PIR75", "PB12"}
