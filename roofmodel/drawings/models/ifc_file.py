"""The roof as IFC4: a roof of slabs, one for each facet, with quantities and pitch.

Needs the optional extra “ifc”; whoever offers this format imports the module only then.
"""

import uuid
from typing import Any

import ifcopenshell.guid
import numpy as np
from ifcopenshell.api import aggregate, context, geometry, project, pset, root, spatial, unit

from roofmodel.shapes.roof import DATUM, Facet, Roof

ENDING = ".ifc"

_NAMESPACE = uuid.UUID("7a0c1f5e-3d1b-5c6e-9a4f-52f1e6b0c9d1")
"""Ids of roof and slabs follow from job and name: whoever links to a part finds it again."""


def content(roof: Roof, *, job_code: str, title: str, thickness_mm: float) -> bytes:
    """Return an IFC4 file; each slab lies under its facet's datum surface.

    Parameters
    ----------
    roof
        The roof.
    job_code, title
        Name of the project and its building.
    thickness_mm
        Thickness of the slabs, measured square to the slope.
    """
    return _Model(job_code, title or job_code).with_roof(roof, thickness_mm)


class _Model:
    """One IFC file while it is put together."""

    def __init__(self, job_code: str, title: str) -> None:
        self._job_code = job_code
        self._file: Any = project.create_file(version="IFC4")
        self._project = self._made("IfcProject", title)
        unit.assign_unit(
            self._file,
            length={"is_metric": True, "raw": "MILLIMETERS"},
            area={"is_metric": True, "raw": "METERS"},
            volume={"is_metric": True, "raw": "METERS"},
        )
        whole = context.add_context(self._file, context_type="Model")
        self._body = context.add_context(
            self._file,
            context_type="Model",
            context_identifier="Body",
            target_view="MODEL_VIEW",
            parent=whole,
        )
        above = self._project
        for kind in ("IfcSite", "IfcBuilding", "IfcBuildingStorey"):
            below = self._made(kind, title)
            aggregate.assign_object(self._file, products=[below], relating_object=above)
            above = below
        self._storey = above

    def with_roof(self, roof: Roof, thickness_mm: float) -> bytes:
        """Return the file's content with the roof in it."""
        whole = self._made("IfcRoof", f"{self._job_code} roof")
        spatial.assign_container(self._file, products=[whole], relating_structure=self._storey)
        self._quantities(
            whole,
            "Qto_RoofBaseQuantities",
            {"GrossArea": roof.area_m2, "ProjectedArea": roof.plan_area_m2},
        )
        slabs = [self._slab(facet, thickness_mm) for facet in roof.facets]
        aggregate.assign_object(self._file, products=slabs, relating_object=whole)
        self._file.header.file_name.name = f"{self._job_code}{ENDING}"
        return str(self._file.to_string()).encode()

    def _slab(self, facet: Facet, thickness_mm: float) -> Any:
        slab = self._made("IfcSlab", facet.name)
        slab.PredefinedType = "ROOF"
        points, faces = _prism(facet, thickness_mm)
        shape = geometry.add_mesh_representation(
            self._file, context=self._body, vertices=[points], faces=[faces], unit_scale=1.0
        )
        geometry.assign_representation(self._file, product=slab, representation=shape)
        geometry.edit_object_placement(self._file, product=slab)
        self._quantities(
            slab,
            "Qto_SlabBaseQuantities",
            {
                "GrossArea": facet.area_m2,
                "Width": thickness_mm,
                "GrossVolume": facet.area_m2 * thickness_mm / 1000.0,
            },
        )
        common = pset.add_pset(self._file, product=slab, name="Pset_SlabCommon")
        pset.edit_pset(
            self._file,
            pset=common,
            properties={"PitchAngle": float(np.radians(facet.pitch_deg)), "Reference": DATUM},
        )
        return slab

    def _quantities(self, product: Any, name: str, values: dict[str, Any]) -> None:
        qto = pset.add_qto(self._file, product=product, name=name)
        pset.edit_qto(self._file, qto=qto, properties=values)

    def _made(self, kind: str, name: str) -> Any:
        made = root.create_entity(self._file, ifc_class=kind, name=name)
        made.GlobalId = ifcopenshell.guid.compress(
            uuid.uuid5(_NAMESPACE, f"{self._job_code}/{kind}/{name}").hex
        )
        return made


def _prism(facet: Facet, thickness_mm: float) -> tuple[list[list[float]], list[list[int]]]:
    """Return corners [mm] and outward faces of the body under a facet."""
    top = np.array(facet.corners)
    under = top - thickness_mm * np.array(facet.plane.normal)
    count = len(top)
    faces: list[list[int]] = [list(range(count)), list(range(2 * count - 1, count - 1, -1))]
    faces += [[(i + 1) % count, i, count + i, count + (i + 1) % count] for i in range(count)]
    points: list[list[float]] = np.vstack([top, under]).tolist()
    return points, faces
