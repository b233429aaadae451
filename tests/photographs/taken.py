"""Photographs whose camera is known: taken by VTK's camera, which knows nothing of ours."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from roofmodel.photographs import corners
from roofmodel.photographs.entry import Click, PhotoEntry
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning

SAMPLES = Path(__file__).resolve().parents[2] / "sample_roofs"
SHAPES = ("hipped", "gable", "lean-to", "five-facet-end", "three-facet-end", "double-hip")
TELEPHONE = (4000, 3000)
EYE_MM = 1_600.0


@dataclass(frozen=True)
class Taken:
    """A photograph: its roof and corners, the true eye and focal length, and perfect clicks."""

    drawn: reckoning.Drawn
    corners: tuple
    eye: np.ndarray
    focal_px: float
    spots: dict
    size: tuple

    def entry(self, names=None, rng=None, **more):
        """Return clicks on some corners or all in the picture, 3 px off where ``rng`` is given."""
        clicks = []
        for name in names or self.spots:
            x, y = self.spots[name] + (0.0 if rng is None else rng.normal(0.0, 3.0, 2))
            clicks.append(Click(corner=name, x_px=float(x), y_px=float(y)))
        wide, high = self.size
        fields = {"clicks": tuple(clicks), "width_px": wide, "height_px": high} | more
        return PhotoEntry(file="porch.jpg", **fields)


def roof_of(name):
    """Return a sample roof, reckoned."""
    return reckoning.reckon(job_file.read(SAMPLES / f"{name}.roofjob.json"))


def taken(drawn, *, turned_deg, away_mm, focal_px, size=TELEPHONE):
    """Take a photograph from the garden; feet of walls at the house are hidden."""
    known = corners.of_footprint(drawn.footprint, eaves_height_mm=drawn.roof.eaves_height_mm)
    points = np.array([one.at_mm for one in known])
    middle = points.mean(axis=0)
    turn = np.radians(turned_deg)
    eye = middle + away_mm * np.array([np.sin(turn), np.cos(turn), 0.0])
    eye[2] = -drawn.roof.eaves_height_mm + EYE_MM
    seen = by_vtk(points, eye, middle, focal_px, size)
    inside = ((seen > 0.0) & (seen < size)).all(axis=1)
    spots = {
        one.name: spot
        for one, spot, within in zip(known, seen, inside, strict=True)
        if within and not (one.name.endswith("foot") and one.at_mm[1] < 1.0)
    }
    return Taken(drawn, known, eye, focal_px, spots, size)


def by_vtk(points, eye, focus, focal_px, size):
    """Return where VTK's camera sees points [pixels from the upper left corner]."""
    from vtkmodules.vtkRenderingCore import vtkCamera

    camera = vtkCamera()
    camera.SetPosition(*eye)
    camera.SetFocalPoint(*focus)
    camera.SetViewUp(0.0, 0.0, 1.0)
    camera.SetViewAngle(float(2.0 * np.degrees(np.arctan(size[1] / 2.0 / focal_px))))
    matrix = camera.GetCompositeProjectionTransformMatrix(size[0] / size[1], -1.0, 1.0)
    whole = np.array([[matrix.GetElement(i, j) for j in range(4)] for i in range(4)])
    seen = np.column_stack((points, np.ones(len(points)))) @ whole.T
    flat = seen[:, :2] / seen[:, 3:]
    return (flat * (1.0, -1.0) + 1.0) / 2.0 * size


def at_random(drawn, rng):
    """Take a photograph as somebody would, with a lens from wide to usual."""
    return taken(
        drawn,
        turned_deg=rng.uniform(-45.0, 45.0),
        away_mm=rng.uniform(7_000.0, 12_000.0),
        focal_px=rng.uniform(2_600.0, 4_200.0),
    )
