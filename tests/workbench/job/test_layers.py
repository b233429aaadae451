"""The layers of every sample as bodies, measured by trimesh."""

import io
from pathlib import Path

import pytest
import trimesh

from roofmodel.geometry import trimesh_of
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import layers, model_export, reckoning
from roofmodel.workbench.job.reckoning import MethodRefusedError
from tests import acceptance_jobs

SAMPLES = sorted(Path("sample_roofs").glob("*.roofjob.json"))


def drawn(path):
    return reckoning.reckon(job_file.read(path))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_every_layer_of_a_sample_is_a_watertight_body(path):
    found = layers.of_option(drawn(path).option)

    assert [layer.placed.number for layer in found] == list(range(1, 10))
    for layer in found:
        assert trimesh_of.body(layer.body).is_watertight


def test_layers_are_exported_as_named_bodies(tmp_path):
    path = tmp_path / "layers.glb"
    model_export.write(
        drawn(Path("sample_roofs/three-facet-end.roofjob.json")), path, with_layers=True
    )
    found = trimesh.load(io.BytesIO(path.read_bytes()), file_type="glb")

    assert len(found.geometry) == 9
    assert {"2 PB12", "6 PIR75", "7 OSB18"} <= set(found.geometry)


def test_a_method_without_a_build_up_has_no_layers_to_export():
    job = acceptance_jobs.drawn("J04", refit={"kept_glazed": ["F1", "F2", "F3", "F4", "F5"]})

    with pytest.raises(MethodRefusedError, match="nothing to do"):
        layers.of_option(job.option_of(Method.NEW_ROOF))
