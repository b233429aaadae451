"""ISO 10211:2017, heat through a section of a building in two dimensions, steady state.

A section is made of rectangles, each of one conductivity; a later one lies over those before it.
Along a face between section and air heat passes by a surface resistance; every other side of the
section is a plane of symmetry, through which none passes.

The temperature is the one that makes the dissipation

    J(T) = ∫ ½ λ |∇T|² dA + Σ faces ∫ ½ (T - T_air)² / R ds

smallest. Bilinear elements on a grid whose lines run through all edges of the rectangles look for
it among fewer temperatures than there are, so with one warm and one cold side the heat flow found
is never below the true one, and more lines only bring it down to it. That is what makes a figure
found here good as a bound. The grid is refined until two of them differ by little, as the document
asks (its A.2 speaks of halving, and of 1 %); what is left over is estimated from the last two.

Where all lies in layers the answer is exact on any grid. A wall of 100 mm with λ 0.04, between
R 0.10 and 0.04, has R 2.64; over 20 K and half a metre 3.788 W/m pass:

>>> wall = Rectangle(left_mm=0, right_mm=500, low_mm=0, high_mm=100, conductivity_w_mk=0.04)
>>> room = Face(side=Side.LOW, resistance_m2k_w=0.10, temperature_c=20.0)
>>> outside = Face(side=Side.HIGH, resistance_m2k_w=0.04, temperature_c=0.0)
>>> round(solve(Section(rectangles=(wall,), faces=(room, outside))).flow_w_m(room), 3)
3.788
"""

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

import numpy as np
import scipy
from numpy.typing import NDArray

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "ISO 10211:2017"

METHOD = Source(
    f"{DOCUMENT}, checked against its two-dimensional cases as public programs relay them",
    "two-dimensional calculation",
    verified=False,
)

FINEST_SHARE = 0.005
"""The grid is fine enough when refining it changes the heat flow by less than this share."""

_FIRST_CELLS, _MOST_CELLS = 4, 64
_LEAST_RESISTANCE = 1e-9  # a face held at a temperature, without dividing by nothing

Array = NDArray[np.float64]


class Side(StrEnum):
    """A side of the whole section."""

    LOW = "low"
    HIGH = "high"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A part of the section: its edges [mm] and its conductivity [W/mK]."""

    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float
    conductivity_w_mk: float

    def __post_init__(self) -> None:
        """Refuse what has no area, or conducts nothing."""
        faults = []
        if not (self.left_mm < self.right_mm and self.low_mm < self.high_mm):
            text = "A part of the section has no width or no height."
            faults.append(Fault("left_mm", text, "Give its edges from the lower to the higher."))
        if not 0.0 < self.conductivity_w_mk < 1000.0:
            text = f"A conductivity of {self.conductivity_w_mk:g} W/mK is not possible."
            faults.append(Fault("conductivity_w_mk", text, "Enter more than 0 and under 1000."))
        if faults:
            raise DimensionError(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A side of the section against air; a resistance of 0 holds the side at the temperature."""

    side: Side
    resistance_m2k_w: float
    temperature_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """What heat passes through: rectangles that together fill one, and its faces to the air."""

    rectangles: tuple[Rectangle, ...]
    faces: tuple[Face, ...]

    @property
    def across_mm(self) -> tuple[float, ...]:
        """Every place from left to right where something begins or ends [mm]."""
        edges = [x for one in self.rectangles for x in (one.left_mm, one.right_mm)]
        return tuple(sorted(set(edges)))

    @property
    def up_mm(self) -> tuple[float, ...]:
        """Every level where something begins or ends [mm]."""
        edges = [y for one in self.rectangles for y in (one.low_mm, one.high_mm)]
        return tuple(sorted(set(edges)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """The temperatures of a section on a grid.

    ``x_mm`` (n), ``y_mm`` (m) are the lines, ``temperature_c`` (m, n) the nodes; ``error_share`` is
    by how much the heat flow may still be too large, for the grid not being finer.
    """

    section: Section
    x_mm: Array
    y_mm: Array
    temperature_c: Array
    error_share: float

    def at(self, x_mm: float, y_mm: float) -> float:
        """Return the temperature at a point of the section [°C]."""
        row = [np.interp(x_mm, self.x_mm, line) for line in self.temperature_c]
        return float(np.interp(y_mm, self.y_mm, row))

    def flow_w_m(self, face: Face) -> float:
        """Return the heat that enters through a face, per metre of length [W/m]."""
        along_m, line = self._along(face.side)
        apart = face.temperature_c - line
        mean = (apart[1:] + apart[:-1]) / 2.0
        resistance = max(face.resistance_m2k_w, _LEAST_RESISTANCE)
        return float(np.sum(np.diff(along_m) * mean) / resistance)

    def coldest_c(self, face: Face) -> float:
        """Return the lowest temperature along a face [°C]."""
        return float(self._along(face.side)[1].min())

    def _along(self, side: Side) -> tuple[Array, Array]:
        field = self.temperature_c
        if side in (Side.LOW, Side.HIGH):
            return self.x_mm / 1000.0, field[0 if side is Side.LOW else -1]
        return self.y_mm / 1000.0, field[:, 0 if side is Side.LEFT else -1]


def solve(section: Section, *, refined: bool = True) -> Field:
    """Return the temperatures of a section, on a grid as fine as the document asks.

    ``refined`` False stays on the first, coarse grid: good for what a small change of the section
    moves, since two sections alike are equally far off on it, and never for a figure.

    Raises
    ------
    DimensionError
        When the rectangles leave a hole, or no side of the section meets air.
    """
    if not section.faces:
        text = "No side of the section meets air."
        raise DimensionError([Fault("faces", text, "Give the surface towards the room.")])
    cells = _FIRST_CELLS
    if not refined:
        return _solved(section, cells, error_share=0.0)
    field = _solved(section, cells, error_share=1.0)
    while True:
        cells *= 2
        finer = _solved(section, cells, error_share=1.0)
        # Halving the cells of such elements takes away half the error or more, so what is left is
        # no larger than the last step.
        change = abs(_largest_flow(field) - _largest_flow(finer)) / abs(_largest_flow(finer))
        field = Field(
            section=section,
            x_mm=finer.x_mm,
            y_mm=finer.y_mm,
            temperature_c=finer.temperature_c,
            error_share=change,
        )
        if change < FINEST_SHARE or cells >= _MOST_CELLS:
            return field


def _largest_flow(field: Field) -> float:
    flows = [field.flow_w_m(face) for face in field.section.faces]
    return max(flows, key=abs) or 1.0


def _solved(section: Section, cells: int, *, error_share: float) -> Field:
    x_mm, y_mm = _lines(section.across_mm, cells), _lines(section.up_mm, cells)
    conductivity = _conductivities(section, x_mm, y_mm)
    wide, high = np.diff(x_mm) / 1000.0, np.diff(y_mm) / 1000.0
    nodes = np.arange(len(y_mm) * len(x_mm)).reshape(len(y_mm), len(x_mm))
    corners = np.stack(
        [nodes[:-1, :-1], nodes[:-1, 1:], nodes[1:, 1:], nodes[1:, :-1]], axis=-1
    ).reshape(-1, 4)
    # The stiffness of a bilinear element is λ (h/w A + w/h B), A and B the same for all.
    tall = (conductivity * high[:, None] / wide[None, :]).ravel()
    flat = (conductivity * wide[None, :] / high[:, None]).ravel()
    parts = tall[:, None, None] * _ACROSS + flat[:, None, None] * _UP
    rows, columns = np.repeat(corners, 4, axis=1).ravel(), np.tile(corners, (1, 4)).ravel()
    values, load = [parts.ravel()], np.zeros(nodes.size)
    row_list, column_list = [rows], [columns]
    for face in section.faces:
        line, length = _line_of(nodes, face.side, wide, high)
        conductance = length / max(face.resistance_m2k_w, _LEAST_RESISTANCE)
        ends = np.stack([line[:-1], line[1:]], axis=-1)
        # Lumped at the nodes: the flow is then what the mean of two nodes says, to the last digit.
        values.append(np.repeat(conductance / 2.0, 2))
        row_list.append(ends.ravel())
        column_list.append(ends.ravel())
        np.add.at(load, ends.ravel(), np.repeat(conductance / 2.0 * face.temperature_c, 2))
    matrix = scipy.sparse.coo_array(
        (np.concatenate(values), (np.concatenate(row_list), np.concatenate(column_list))),
        shape=(nodes.size, nodes.size),
    )
    temperature = scipy.sparse.linalg.splu(matrix.tocsc()).solve(load).reshape(nodes.shape)
    return Field(
        section=section, x_mm=x_mm, y_mm=y_mm, temperature_c=temperature, error_share=error_share
    )


_ACROSS = np.array([[2, -2, -1, 1], [-2, 2, 1, -1], [-1, 1, 2, -2], [1, -1, -2, 2]]) / 6.0
_UP = np.array([[2, 1, -1, -2], [1, 2, -2, -1], [-1, -2, 2, 1], [-2, -1, 1, 2]]) / 6.0


def _line_of(
    nodes: NDArray[np.intp], side: Side, wide: Array, high: Array
) -> tuple[NDArray[np.intp], Array]:
    if side in (Side.LOW, Side.HIGH):
        return nodes[0 if side is Side.LOW else -1], wide
    return nodes[:, 0 if side is Side.LEFT else -1], high


def _lines(edges_mm: tuple[float, ...], cells: int) -> Array:
    """Return the lines of the grid: close to the edges, where the temperature bends most."""
    share = (1.0 - np.cos(np.linspace(0.0, np.pi, cells + 1))) / 2.0
    between = [low + (high - low) * share[:-1] for low, high in pairwise(edges_mm)]
    return np.concatenate([*between, [edges_mm[-1]]])


def _conductivities(section: Section, x_mm: Array, y_mm: Array) -> Array:
    x, y = (x_mm[1:] + x_mm[:-1]) / 2.0, (y_mm[1:] + y_mm[:-1]) / 2.0
    found = np.zeros((len(y), len(x)))
    for one in section.rectangles:
        inside_x = (x > one.left_mm) & (x < one.right_mm)
        inside_y = (y > one.low_mm) & (y < one.high_mm)
        found[np.ix_(inside_y, inside_x)] = one.conductivity_w_mk
    if not found.all():
        text = "The parts of the section leave a hole between them."
        raise DimensionError([Fault("rectangles", text, "Fill it, as air if it is empty.")])
    return found
