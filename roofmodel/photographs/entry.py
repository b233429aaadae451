"""What is entered of a photograph: its file and caption, the corners clicked, what was painted."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

Spot = tuple[float, float]

CLICK_ERROR_PX = 3.0
"""Standard error of a click by eye (common practice, no source)."""


class Stage(StrEnum):
    """What a photograph of the job is of."""

    SURVEY = "survey"
    COVERED = "covered-up"
    FINISH = "finish"

    @property
    def printed(self) -> str:
        """What is printed."""
        return {"survey": "Survey", "covered-up": "Covered-up work", "finish": "Finished"}[self]


@dataclass(frozen=True, slots=True, kw_only=True)
class Click:
    """A corner of the roof and where it was clicked [pixels of the upright picture]."""

    corner: Annotated[str, Field(description="Corner, by its letter on the survey sheet")]
    x_px: Annotated[float, Field(description="From the left edge of the upright picture [pixels]")]
    y_px: Annotated[float, Field(description="From its upper edge [pixels]")]
    error_px: Annotated[
        float, Field(description="Standard error of the click [pixels]", ge=0.2, le=200.0)
    ] = CLICK_ERROR_PX


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A stroke of the brush: what stands before the roof, or what is to be filled."""

    spots: Annotated[
        tuple[Spot, ...], Field(description="Where the brush went [pixels]", min_length=1)
    ]
    width_px: Annotated[float, Field(description="Width of the brush [pixels]", gt=0.0, le=4000.0)]
    fills: Annotated[
        bool, Field(description="Whether it is filled; else the photograph stays as it is there")
    ] = False


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownLength:
    """The one length in the picture that is known, between two corners."""

    start: Annotated[str, Field(description="One corner, by its letter")]
    end: Annotated[str, Field(description="The other corner")]
    length_mm: Annotated[float, Field(description="Its length [mm]", gt=10.0, le=100_000.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sun:
    """Where the sun stood, as somebody sees it who looks at the house from the garden."""

    right_deg: Annotated[
        float,
        Field(
            description="Turned to the right of straight behind the house [°]; 180 is behind the "
            "onlooker, 270 his left",
            ge=0.0,
            le=360.0,
        ),
    ] = 132.0
    height_deg: Annotated[
        float, Field(description="Height above the horizon [°]", ge=1.0, le=90.0)
    ] = 46.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoEntry:
    """One photograph of the job; the file lies beside the job file and is never changed."""

    file: Annotated[
        str,
        Field(description="Name of the file in the job's folder of photographs", min_length=1),
    ]
    caption: Annotated[str, Field(description="What it shows", max_length=200)] = ""
    stage: Annotated[Stage, Field(description="Survey, covered-up work or finish")] = Stage.SURVEY
    width_px: Annotated[int, Field(description="Width, upright [pixels]", ge=1)]
    height_px: Annotated[int, Field(description="Height, upright [pixels]", ge=1)]
    film_focal_mm: Annotated[
        float | None,
        Field(description="Focal length for film 36 × 24 mm, as the file says [mm]", gt=0.0),
    ] = None
    bends: Annotated[
        bool, Field(description="Whether the lens bends straight lines enough to be fitted")
    ] = False
    clicks: Annotated[tuple[Click, ...], Field(description="Corners clicked")] = ()
    strokes: Annotated[tuple[Stroke, ...], Field(description="Strokes of the brush")] = ()
    known: Annotated[
        KnownLength | None, Field(description="The length known, before anybody has measured")
    ] = None
    sun: Annotated[Sun, Field(description="Where the sun stood")] = Sun()

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the upright picture [pixels]."""
        return self.width_px, self.height_px

    def without(self, corner: str) -> tuple[Click, ...]:
        """Return the clicks on all other corners."""
        return tuple(click for click in self.clicks if click.corner != corner)
