"""The 3D view of the roof: shows it, lets it be looked at from all sides, and picks facets."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QObject, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QWidget
from pyvistaqt import QtInteractor
from vtkmodules.vtkRenderingCore import vtkCellPicker

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.roof3d import camera as eyes
from roofmodel.desktop.roof3d.camera import Eye, Stand
from roofmodel.desktop.roof3d.dots import Dots
from roofmodel.desktop.roof3d.facet_labels import FacetLabels
from roofmodel.desktop.roof3d.measure_mark import MeasureMark
from roofmodel.desktop.roof3d.peel_scene import Peeled, PeelScene
from roofmodel.desktop.roof3d.pointer import Pointer
from roofmodel.desktop.roof3d.scene import Scene
from roofmodel.desktop.roof3d.solids import SolidRoof
from roofmodel.drawings.scenes.body import Body
from roofmodel.geometry.plane import Point, Vector
from roofmodel.shapes.roof import Roof

_REST_MS = 150
"""A smoothed frame is drawn when nothing moved for so long."""

_TURN_DEG_PER_PX = 0.35
_KEY_DEG = 7.5

_SKY = ("#f3f7f9", "#b9d5e9")
"""At the horizon and at the top, behind a roof that is shown as a solid thing."""

_EDGE_ON = 0.02
"""A facet seen so nearly edge on has no point that could be told under the pointer."""

_EYE_MM = 150.0
"""So far above the floor the eye stays, where there is a ground to look at."""


class Shaping(Protocol):
    """Takes hold of the roof, lets it follow the pointer, and lets go."""

    def take(self, spot: QPointF) -> bool:
        """Take hold of what is at a spot; return whether there was anything."""

    def drag(self, spot: QPointF) -> None:
        """Follow the pointer."""

    def let_go(self) -> None:
        """Keep what was made."""

    def take_back(self) -> None:
        """Leave all as it was."""


class Viewport(QObject):
    """Owns the 3D widget; everything that looks at the roof from outside goes through here."""

    clicked = Signal(str)
    """A facet was clicked; its name."""

    moved = Signal()
    """The roof is looked at in another way."""

    takes_click: Callable[[QPointF], bool] | None = None
    """What gets a click before a facet is picked; it returns whether it took it."""

    shaping: Shaping | None = None
    """What lets the roof be taken hold of, while it is switched on."""

    _carry: Callable[[QPointF], None] | None = None

    _pivot: Point | None = None
    """What the roof is turned about; the middle of the view when None."""

    def __init__(self, parent: QWidget) -> None:
        """Make an empty view."""
        super().__init__(parent)
        # Off-screen must be refused in words: with it on, the window's 3D area stays blank.
        self._view = QtInteractor(parent, auto_update=False, multi_samples=0, off_screen=False)
        self._view.setAcceptDrops(False)
        self._view.setMinimumSize(220, 180)
        self._view.renderer.SetBackground(*theme.rgb_share(ON_PAPER.paper))
        self._scene = Scene(self._view)
        self.peeled = PeelScene(self._view)
        self._peels = False
        self.solid = SolidRoof(self._view)
        over = self._view.renderer, self._view.devicePixelRatioF()
        self.dots, self._labels, self.mark = Dots(*over), FacetLabels(*over), MeasureMark(*over)
        self._picker = vtkCellPicker()
        self._picker.PickFromListOn()
        self._picker.AddPickList(self._scene.facets.actor)
        self._picker.SetTolerance(0.0)
        self._roof: Roof | None = None
        self._showing: tuple[str, int | None, bool] = ("", None, False)
        self._eye: Eye | None = None
        self._stand: Stand | None = Stand.FREE
        self._size = (0, 0)
        self._closed = False
        self._frames = 0
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        self._rest.timeout.connect(self._smooth)
        self._pointer = Pointer(self._view)
        self._connect()
        self._watching = self._view.renderer.AddObserver("StartEvent", self._before_frame)

    def _connect(self) -> None:
        self._pointer.turned.connect(self._turn)
        self._pointer.shifted.connect(self._shift)
        self._pointer.neared.connect(self._come_nearer)
        self._pointer.clicked.connect(self._click)
        self._pointer.stepped.connect(lambda x, y: self.turn_by(_KEY_DEG * x, _KEY_DEG * y))
        self._pointer.zoomed.connect(self.come_nearer)
        self._pointer.hovered.connect(self._point_at)
        self._pointer.takes_hold = self._take_hold
        self._pointer.carried.connect(self._carried)
        self._pointer.let_go.connect(self._let_go)
        self._pointer.taken_back.connect(self._take_back)

    @property
    def widget(self) -> QWidget:
        """The widget to lay out."""
        return self._view

    @property
    def stand(self) -> Stand | None:
        """The named view the roof is seen in; None after the user turned it."""
        return self._stand

    @property
    def eye(self) -> Eye | None:
        """Where the roof is looked at from."""
        return self._eye

    @property
    def labels(self) -> FacetLabels:
        """The labels on the facets."""
        return self._labels

    @property
    def scene(self) -> Scene:
        """What stands in the view."""
        return self._scene

    def show(self, roof: Roof, *, selected: str, line: int | None, stale: bool) -> None:
        """Show a roof; the view stays as it is unless the roof would leave it."""
        place = [facet.name for facet in roof.facets].index(selected)
        self._scene.show(roof, stale=stale, selected=place, line=line)
        self._labels.show(roof, selected=selected, stale=stale)
        if self._peels:
            self._hide_skin()
        elif self.solid.on:
            self._scene.hide_under_solids()
            self._labels.clear()
        self._roof, self._showing = roof, (selected, line, stale)
        self._keep_in_window()
        self.ask_for_frame()

    def preview(self, roof: Roof) -> None:
        """Show the facets of a roof that is being shaped; the view stays as it is."""
        names = [facet.name for facet in roof.facets]
        selected, line, stale = self._showing
        selected = selected if selected in names else names[0]
        self._scene.show(roof, stale=stale, selected=names.index(selected), line=None)
        self._labels.show(roof, selected=selected, stale=stale)
        self._roof, self._showing = roof, (selected, line, stale)
        self.ask_for_frame()

    def peel(self, bodies: Sequence[Peeled] | None) -> None:
        """Show bodies in the place of the facets, innermost first; None shows the facets again."""
        self._peels = bodies is not None
        self.peeled.put(bodies or ())
        if self._peels:
            self._hide_skin()
        elif self._roof is not None:
            selected, line, stale = self._showing
            self.show(self._roof, selected=selected, line=line, stale=stale)
        self.ask_for_frame()

    def dress(self, bodies: Sequence[Body] | None, after: Sequence[Body] | None = None) -> None:
        """Show the roof as a solid thing; None shows its facets again.

        Parameters
        ----------
        bodies
            What is seen, or what is seen left of the divider.
        after
            What is seen right of the divider; there is none when left out.
        """
        refits = self.solid.on is not (bodies is not None)
        self.solid.put(bodies, after)
        self._show_sky()
        if self._roof is not None:
            selected, line, stale = self._showing
            self.show(self._roof, selected=selected, line=line, stale=stale)
            if refits:
                self.fit()
        self.ask_for_frame()

    def _show_sky(self) -> None:
        renderer = self._view.renderer
        renderer.SetGradientBackground(self.solid.on)
        low, high = _SKY if self.solid.on else (ON_PAPER.paper, ON_PAPER.paper)
        renderer.SetBackground(*theme.rgb_share(low))
        renderer.SetBackground2(*theme.rgb_share(high))

    def _take_hold(self, spot: QPointF) -> bool:
        self._carry, self._pivot = None, self._point_under(spot)
        if self._on_divider(spot):
            self._carry = self._carry_divider
        elif self.shaping is not None and self.shaping.take(spot):
            self._carry = self.shaping.drag
        return self._carry is not None

    def _carried(self, spot: QPointF) -> None:
        if self._carry is not None:
            self._carry(spot)

    def _let_go(self) -> None:
        if self.shaping is not None:
            self.shaping.let_go()

    def _take_back(self) -> None:
        if self.shaping is not None:
            self.shaping.take_back()

    def _on_divider(self, spot: QPointF) -> bool:
        return self.solid.divider.is_at(spot.x(), self._view.width())

    def _carry_divider(self, spot: QPointF) -> None:
        self.solid.divider.move_to(spot.x() / max(self._view.width(), 1))
        self.ask_for_frame()

    def peel_to(self, count: int) -> None:
        """Show only the innermost bodies."""
        self.peeled.show(count)
        self.ask_for_frame()

    def light(self, ends: Sequence[tuple[Point, Point]]) -> None:
        """Light lines in space; none puts them out."""
        self._scene.light(ends)
        self.ask_for_frame()

    def _hide_skin(self) -> None:
        self._scene.hide_roof()
        self._labels.clear()

    def clear(self) -> None:
        """Show no roof."""
        self._roof, self._eye = None, None
        self._scene.hide()
        self.solid.put(())
        self._labels.clear()
        self.ask_for_frame()

    def stand_at(self, stand: Stand) -> None:
        """Look at the whole roof in a named view."""
        self._stand = stand
        if self._roof is not None and min(self._pixels()) > 1:
            self._look(eyes.at_stand(stand, self._roof, self._shown(stand), self._pixels()))
        self.moved.emit()

    def fit(self) -> None:
        """Bring the whole roof into the window, looking the same way."""
        if self._eye is not None:
            self._look(eyes.fitted(self._eye, self._shown(self._stand), self._pixels()))

    def forget_view(self) -> None:
        """Look at the next roof as at a new one."""
        self._eye, self._stand, self._roof = None, Stand.FREE, None
        self._labels.clear()
        self.moved.emit()

    def ask_for_frame(self) -> None:
        """Ask for a repaint; several asked for in a row become one.

        While things move, edges are drawn plainly, which is faster without a graphics card; once
        they rest, a smoothed frame follows.
        """
        if not self._closed:
            self._view.renderer.UseFXAAOff()
            self._rest.start()
            self._view.update()

    @property
    def frames(self) -> int:
        """Number of frames drawn so far."""
        return self._frames

    def image(self) -> NDArray[np.uint8]:
        """Return the view as it is painted, (rows, columns, 3)."""
        return np.asarray(self._view.screenshot(return_img=True), dtype=np.uint8)

    def save_picture(self, path: Path) -> None:
        """Write the view as it is painted into a PNG file."""
        self._view.screenshot(str(path))

    def copy_picture(self) -> None:
        """Put the view as it is painted on the clipboard."""
        shown = np.ascontiguousarray(self.image())
        high, wide, _ = shown.shape
        picture = QImage(shown.data, wide, high, 3 * wide, QImage.Format.Format_RGB888)
        QGuiApplication.clipboard().setImage(picture.copy())

    def facet_at(self, spot: QPointF) -> str | None:
        """Return the name of the facet under a spot of the widget, if there is one."""
        if self._roof is None:
            return None
        ratio, height = self._view.devicePixelRatioF(), self._view.height()
        x, y = spot.x() * ratio, (height - 1 - spot.y()) * ratio
        if not self._picker.Pick(x, y, 0.0, self._view.renderer):
            return None
        return self._roof.facets[self._picker.GetCellId()].name

    def spot_of(self, facet_name: str) -> QPointF:
        """Return where the middle of a facet is seen in the widget."""
        assert self._roof is not None
        assert self._eye is not None
        centre = np.array([self._roof.facet(facet_name).centre])
        x, y = self._eye.spots(centre, self._pixels())[0]
        ratio = self._view.devicePixelRatioF()
        return QPointF(float(x) / ratio, self._view.height() - 1 - float(y) / ratio)

    def spots(self, points: Sequence[Point]) -> list[QPointF]:
        """Return where points are seen in the widget; none while there is no roof."""
        if self._eye is None or not points:
            return []
        ratio, height = self._view.devicePixelRatioF(), self._view.height()
        found = self._eye.spots(np.array(points), self._pixels()).tolist()
        return [QPointF(x / ratio, height - 1 - y / ratio) for x, y in found]

    def close(self) -> None:
        """Let the graphics go; must come before the window closes, while they can be freed."""
        if not self._closed:
            self._closed = True
            self._rest.stop()
            self._pointer.close()
            self._view.renderer.RemoveObserver(self._watching)
            self._view.close()

    def turn_by(self, right_deg: float, up_deg: float) -> None:
        """Walk round the roof; what was pointed at last stays where it is seen."""
        if self._eye is None or self._roof is None:
            return
        self._stand = None
        pivot = self._pivot or self._eye.focus
        eye = self._eye.turned_about(pivot, right_deg, up_deg)
        if self.solid.on and eye.position[2] < _EYE_MM - self._roof.eaves_height_mm:
            eye = self._eye.turned_about(pivot, right_deg, 0.0)
        self._look(eye)
        self.moved.emit()

    def come_nearer(self, factor: float) -> None:
        """Come nearer to the middle of the view, or go away."""
        self._come_nearer(factor, QPointF(self._view.width() / 2.0, self._view.height() / 2.0))

    def _turn(self, step: QPointF) -> None:
        turn = step * _TURN_DEG_PER_PX
        self.turn_by(-turn.x(), turn.y())

    def _point_under(self, spot: QPointF) -> Point | None:
        """Return the point of the roof under a spot; None beside it."""
        name = self.facet_at(spot)
        if name is None or self._eye is None or self._roof is None:
            return None
        ratio = self._view.devicePixelRatioF()
        at = (spot.x() * ratio, (self._view.height() - 1 - spot.y()) * ratio)
        start, way = self._eye.ray(at, self._pixels())
        plane = self._roof.facet(name).plane
        normal = np.array(plane.normal)
        falls = float(way @ normal)
        if abs(falls) < _EDGE_ON:
            return None
        x, y, z = start + way * ((plane.offset_mm - float(start @ normal)) / falls)
        return (float(x), float(y), float(z))

    def _shift(self, step: QPointF) -> None:
        if self._eye is not None:
            self._look(self._eye.shifted((step.x(), -step.y()), self._view.height()))

    def _come_nearer(self, factor: float, at: QPointF) -> None:
        if self._eye is not None:
            size = (self._view.width(), self._view.height())
            self._look(self._eye.nearer(factor, (at.x(), size[1] - at.y()), size))

    def _click(self, at: QPointF) -> None:
        if self.takes_click is not None and self.takes_click(at):
            return
        name = self.facet_at(at)
        if name is not None:
            self.clicked.emit(name)

    def _point_at(self, spot: QPointF) -> None:
        shape = Qt.CursorShape.ArrowCursor
        if self._on_divider(spot):
            shape = Qt.CursorShape.SplitHCursor
        elif self.facet_at(spot) is not None:
            shape = Qt.CursorShape.PointingHandCursor
        self._view.setCursor(shape)

    def _shown(self, stand: Stand | None) -> Vector:
        """Return the corners that have to be in the window."""
        if self.solid.on:
            return self._scene.with_walls
        return self._scene.whole if stand in eyes.PARALLEL else self._scene.upper

    def _pixels(self) -> tuple[int, int]:
        ratio = self._view.devicePixelRatioF()
        return (round(self._view.width() * ratio), round(self._view.height() * ratio))

    def _keep_in_window(self) -> None:
        """Move the view only when there is none yet, or the roof outgrew it."""
        if min(self._pixels()) <= 1:
            return
        if self._eye is None:
            self.stand_at(self._stand or Stand.FREE)
            return
        if not eyes.sits_well(self._eye, self._shown(self._stand), self._pixels()):
            self.fit()

    def _look(self, eye: Eye) -> None:
        self._eye = eye
        self.ask_for_frame()

    def _smooth(self) -> None:
        self._view.renderer.UseFXAAOn()
        self._view.update()

    def _before_frame(self, *_: object) -> None:
        """Set the camera and place the labels for the window as it is now."""
        self._frames += 1
        size = self._pixels()
        if self._roof is None or min(size) <= 1:
            return
        if size != self._size:
            self._size = size
            if self._stand is not None:
                shown = self._shown(self._stand)
                self._eye = eyes.at_stand(self._stand, self._roof, shown, size)
        eye = self._eye
        if eye is None:
            return
        camera = self._view.renderer.GetActiveCamera()
        camera.SetFocalPoint(*eye.focus)
        camera.SetPosition(*eye.position)
        camera.SetViewUp(*eye.up)
        camera.SetParallelProjection(eye.parallel)
        camera.SetParallelScale(eye.half_height_mm)
        camera.SetViewAngle(eyes.ANGLE_DEG)
        self._view.renderer.ResetCameraClippingRange()
        self._labels.place(eye, size)
        self.mark.place(eye, size)
        self.solid.divider.place(eye, size)
        self.dots.place(eye, size)
