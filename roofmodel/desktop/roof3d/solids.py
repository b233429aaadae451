"""A roof as a solid thing in the 3D view, and the divider between before and after."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import pyvista
from numpy.typing import NDArray
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPlane, vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkPolyDataMapper2D

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d.camera import ANGLE_DEG, Eye
from roofmodel.drawings.scenes import light
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import finishes

_GRAB_PX = 9.0
"""The divider is taken hold of within so many pixels."""

_COLOUR = "colour"


class Solids:
    """The actors of one look in a plotter: what cannot be seen through, then each kind of glass."""

    def __init__(self, plotter: Any) -> None:  # noqa: ANN401 - pyvista's plotters are untyped
        """Show nothing yet."""
        self._plotter = plotter
        self._actors: list[Any] = []
        self._plane: vtkPlane | None = None

    @property
    def shown(self) -> bool:
        """Whether there is anything to see."""
        return bool(self._actors)

    def put(self, bodies: Sequence[Body]) -> None:
        """Show these bodies in place of those before; none shows nothing."""
        for actor in self._actors:
            self._plotter.remove_actor(actor, render=False)
        by_clear: dict[float, list[Body]] = {}
        for body in bodies:
            if len(body.triangles):
                by_clear.setdefault(finishes()[body.part].clear, []).append(body)
        self._actors = [self._added(by_clear[clear], clear) for clear in sorted(by_clear)]
        self.cut_by(self._plane)

    def cut_by(self, plane: vtkPlane | None) -> None:
        """Show only what lies on the side a plane's normal points to; None shows all."""
        self._plane = plane
        for actor in self._actors:
            actor.mapper.RemoveAllClippingPlanes()
            if plane is not None:
                actor.mapper.AddClippingPlane(plane)

    def _added(self, bodies: Sequence[Body], clear: float) -> Any:  # noqa: ANN401 - as above
        corners = np.concatenate([body.triangles for body in bodies]).reshape(-1, 3)
        count = len(corners) // 3
        faces = np.column_stack((np.full(count, 3), np.arange(3 * count).reshape(-1, 3)))
        mesh = pyvista.PolyData(corners, faces.ravel())
        mesh.cell_data[_COLOUR] = np.concatenate([light.colours(body) for body in bodies])
        return self._plotter.add_mesh(
            mesh,
            scalars=_COLOUR,
            rgb=True,
            lighting=False,  # the light is in the colours: the same on paper and in every window
            opacity=1.0 - clear,
            pickable=False,
            reset_camera=False,
            render=False,
        )


class Divider:
    """An upright line over the view: before on its left, after on its right."""

    def __init__(self, renderer: Any, pixel_ratio: float) -> None:  # noqa: ANN401 - untyped
        """Stand in the middle, not seen yet."""
        self.share = 0.5
        self._ratio = pixel_ratio
        self._data = vtkPolyData()
        mapper = vtkPolyDataMapper2D()
        mapper.SetInputData(self._data)
        self._actor = vtkActor2D()
        self._actor.SetMapper(mapper)
        self._actor.GetProperty().SetColor(*theme.rgb_share(ON_PAPER.card))
        self._actor.GetProperty().SetLineWidth(3.0 * pixel_ratio)
        self._actor.GetProperty().SetPointSize(13.0 * pixel_ratio)
        self._actor.VisibilityOff()
        renderer.AddViewProp(self._actor)
        self.left_of, self.right_of = vtkPlane(), vtkPlane()

    @property
    def on(self) -> bool:
        """Whether the divider is seen."""
        return bool(self._actor.GetVisibility())

    def turn_on(self, on: bool) -> None:  # noqa: FBT001 - a switch
        """Show or hide it."""
        self._actor.SetVisibility(on)

    def is_at(self, x: float, width: float) -> bool:
        """Return whether the line is near enough to a place of the window to be taken hold of."""
        return self.on and abs(x - self.share * width) <= _GRAB_PX

    def move_to(self, share: float) -> None:
        """Stand at a part of the window's width, kept clear of its edges."""
        self.share = min(max(share, 0.02), 0.98)

    def place(self, eye: Eye, window: tuple[int, int]) -> None:
        """Draw the line, and stand the planes where the eye sees it."""
        if not self.on:
            return
        x, high = self.share * window[0], float(window[1])
        points, dots, lines = vtkPoints(), vtkCellArray(), vtkCellArray()
        for y in (0.0, high, high / 2.0):
            points.InsertNextPoint(x, y, 0.0)
        lines.InsertNextCell(2)
        lines.InsertCellPoint(0)
        lines.InsertCellPoint(1)
        dots.InsertNextCell(1)
        dots.InsertCellPoint(2)
        self._data.SetPoints(points)
        self._data.SetLines(lines)
        self._data.SetVerts(dots)
        origin, normal = seen_edge_on(eye, x, window)
        for plane, way in ((self.right_of, normal), (self.left_of, -normal)):
            plane.SetOrigin(*origin)
            plane.SetNormal(*way)


class SolidRoof:
    """The roof as it stands, or finished, or one on each side of the divider."""

    def __init__(self, plotter: Any) -> None:  # noqa: ANN401 - pyvista's plotters are untyped
        """Show nothing yet."""
        self.before, self.after = Solids(plotter), Solids(plotter)
        self.divider = Divider(plotter.renderer, plotter.devicePixelRatioF())
        self.on = False

    def put(self, bodies: Sequence[Body] | None, after: Sequence[Body] | None = None) -> None:
        """Show bodies, left of the divider where there are others right of it; None hides all."""
        self.on = bodies is not None
        self.before.put(bodies or ())
        self.after.put(after or ())
        both = after is not None
        self.divider.turn_on(both)
        self.before.cut_by(self.divider.left_of if both else None)
        self.after.cut_by(self.divider.right_of if both else None)


def seen_edge_on(
    eye: Eye, x_px: float, window: tuple[int, int]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the plane that the eye sees as one upright line, and which way is right of it.

    Parameters
    ----------
    eye
        Where the roof is looked at from.
    x_px
        The line, from the window's left edge.
    window
        Width and height [pixels].

    Returns
    -------
    origin, normal : (3,) arrays
        A point of the plane [mm], and its unit normal to the right.
    """
    off = (x_px - window[0] / 2.0) / (window[1] / 2.0)
    if eye.parallel:
        return np.array(eye.focus) + eye.right * off * eye.half_height_mm, eye.right
    slope = off * math.tan(math.radians(ANGLE_DEG / 2.0))
    normal = eye.right + eye.towards * slope
    return np.array(eye.position), normal / float(np.linalg.norm(normal))
