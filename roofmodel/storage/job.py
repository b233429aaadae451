"""The job as it was entered: measured, assumed and chosen, never computed."""

from dataclasses import dataclass, field
from datetime import date
from typing import Annotated

from pydantic import ConfigDict, Field, with_config

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.heat_entry import HeatEntry
from roofmodel.photographs.entry import PhotoEntry
from roofmodel.quantities.job_lines import JobEstimate
from roofmodel.refit.entry import RefitEntry
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.taped.bars_entry import BarsEntry
from roofmodel.survey.taped.standing import Standing
from roofmodel.survey.taped.survey import RoofSurvey

SCHEMA_VERSION = 6
"""Version of the job file this program writes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The choice somebody made about a doubt the survey raised."""

    query: Annotated[str, Field(description="What is in doubt")]
    choice: Annotated[str, Field(description="What was decided, and why", min_length=1)]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptReadings:
    """Readings of another shape's survey sheet: they take no part until it is that shape again."""

    sheet: Annotated[str, Field(description="Survey sheet they were taken on, by its letters")]
    readings: Annotated[tuple[Reading, ...], Field(description="The readings, as they were taken")]


@dataclass(frozen=True, slots=True, kw_only=True)
class Released:
    """Who released which revision for cutting, after measuring the roof a second time."""

    revision: Annotated[str, Field(description="Revision released", pattern=r"^[A-Z]{1,2}$")]
    by: Annotated[str, Field(description="Who released it", min_length=1, max_length=80)]
    on: Annotated[date, Field(description="Date of release")]
    content: Annotated[
        str, Field(description="Short name of what was released, as papers print it", max_length=12)
    ] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ActualHours:
    """Man-hours a task really took."""

    task: Annotated[str, Field(description="Task in the labour norms", min_length=1)]
    hours: Annotated[float, Field(description="Actual man-hours", ge=0.0, le=2000.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class ActualSheets:
    """Sheets that were really used up."""

    material: Annotated[str, Field(description="Code of the sheet material", min_length=1)]
    sheets: Annotated[int, Field(description="Sheets started", ge=0, le=1000)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Actuals:
    """What the job took, entered when it is done, held against norms and plans."""

    hours: Annotated[tuple[ActualHours, ...], Field(description="Task by task")] = ()
    sheets: Annotated[tuple[ActualSheets, ...], Field(description="Material by material")] = ()


# Strict: a length in quotes is a slip to be asked about, not to be understood somehow.
@with_config(ConfigDict(strict=True, extra="forbid", allow_inf_nan=False, title="Roof job"))
@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One customer's roof."""

    code: Annotated[
        str,
        Field(
            description="Job code, part of every mark and file name",
            pattern=r"^[A-Za-z0-9][A-Za-z0-9-]{0,15}$",
        ),
    ]
    revision: Annotated[
        str, Field(description="Revision letter of survey and drawings", pattern=r"^[A-Z]{1,2}$")
    ] = "A"
    title: Annotated[str, Field(description="Title of the job", max_length=120)] = ""
    customer: Annotated[
        str,
        Field(description="Customer's name and address, line by line", max_length=400),
    ] = ""
    delivery: Annotated[
        str,
        Field(
            description="Delivery address and site contact with telephone, line by line; the "
            "customer's when empty",
            max_length=400,
        ),
    ] = ""
    colours: Annotated[
        str,
        Field(description="Colours agreed: covering, roofline, gutter, panels", max_length=200),
    ] = ""
    note: Annotated[str, Field(description="Free text", max_length=4000)] = ""
    survey: Annotated[RoofSurvey, Field(discriminator="shape", description="What was taped")]
    readings: Annotated[
        tuple[Reading, ...],
        Field(description="Readings taken on site, by their names on the survey sheet"),
    ] = ()
    kept_readings: Annotated[
        tuple[KeptReadings, ...],
        Field(description="Readings of other shapes this roof was entered as, kept for them"),
    ] = ()
    answers: Annotated[tuple[Answer, ...], Field(description="Decisions on doubtful readings")] = ()
    bars: Annotated[tuple[BarsEntry, ...], Field(description="Bars, facet by facet")] = ()
    standing: Annotated[
        Standing, Field(description="Existing roof: glazing, bar depth, the wall above")
    ] = field(default_factory=Standing)
    refit: Annotated[
        RefitEntry, Field(description="Work to be done: method, layers and exceptions")
    ] = field(default_factory=RefitEntry)
    lights: Annotated[
        tuple[LightsEntry, ...], Field(description="Downlights wanted, facet by facet")
    ] = ()
    site: Annotated[SiteFacts, Field(description="Site facts the gates need")] = field(
        default_factory=SiteFacts
    )
    house: Annotated[
        HouseFacts, Field(description="The house, the rooms behind and the neighbours")
    ] = field(default_factory=HouseFacts)
    heat: Annotated[
        HeatEntry, Field(description="Limits, climate and ventilation for the heat and damp gates")
    ] = field(default_factory=HeatEntry)
    estimate: Annotated[
        JobEstimate, Field(description="Lines, discount and contingency of this job")
    ] = field(default_factory=JobEstimate)
    actuals: Annotated[
        Actuals, Field(description="Actual hours and sheets of the finished job")
    ] = field(default_factory=Actuals)
    released: Annotated[
        Released | None, Field(description="Release for cutting; nothing may be cut before it")
    ] = None
    boards: Annotated[
        tuple[BoardChoice, ...],
        Field(description="Sheet materials that differ from the catalogue on this job"),
    ] = ()
    photos: Annotated[
        tuple[PhotoEntry, ...], Field(description="Photographs of the job, kept beside its file")
    ] = ()
