"""What a part of the house looks like: its colour, how it scatters, how far it is clear."""

import tomllib
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError

_FILE = "finishes.toml"


class Part(StrEnum):
    """The parts of a scene; each has its finish in ``finishes.toml``."""

    LAWN = "lawn"
    PAVING = "paving"
    BRICK = "brick"
    MORTAR = "mortar"
    HOUSE = "house"
    FLOOR = "floor"
    PLASTER = "plaster"
    FRAME = "frame"
    DOOR = "door"
    WALL_GLASS = "wall-glass"
    HOUSE_GLASS = "house-glass"
    ROOF_GLASS = "roof-glass"
    GLAZING_BAR = "glazing-bar"
    TILE = "tile"
    CAPPING = "capping"
    PANEL = "panel"
    PANEL_CAP = "panel-cap"
    FASCIA = "fascia"
    SOFFIT = "soffit"
    GUTTER = "gutter"
    BOX_GUTTER = "box-gutter"
    LEAD = "lead"
    WINDOW_FRAME = "window-frame"
    WINDOW_GLASS = "window-glass"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """A colour, red, green and blue from 0 to 1.

    ``scatter`` is how far single pieces differ from it, ``clear`` how much of what lies behind
    shines through; both from 0 to 1.
    """

    colour: tuple[float, float, float]
    scatter: float
    clear: float


@cache
def finishes() -> dict[Part, Finish]:
    """Return the finish of every part.

    Raises
    ------
    ResourceError
        If the table that ships with the program is missing, or a part has no finish in it.
    """
    path = resources.folder() / _FILE
    try:
        rows = tomllib.loads(path.read_text(encoding="utf-8"))["finish"]
        return {part: _finish(rows[part]) for part in Part}
    except (OSError, KeyError, ValueError) as error:
        raise ResourceError(
            f"The file {_FILE} is missing or incomplete. Install the program again."
        ) from error


def _finish(row: dict[str, str | float]) -> Finish:
    colour = str(row["colour"]).removeprefix("#")
    red, green, blue = (int(colour[i : i + 2], 16) / 255.0 for i in (0, 2, 4))
    return Finish(
        colour=(red, green, blue),
        scatter=float(row["scatter"]),
        clear=float(row.get("clear", 0.0)),
    )
