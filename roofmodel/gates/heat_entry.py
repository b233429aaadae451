"""What is entered about the rules, the climate and the air below a roof, for heat and damp."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from pydantic import Field

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.gates.damp import settings as condensation_settings
from roofmodel.gates.damp.rules import Ventilation
from roofmodel.gates.damp.settings import Climate
from roofmodel.gates.heat import limits as thermal_limits
from roofmodel.gates.heat.limits import Case, Nation, UValueLimit
from roofmodel.gates.heat.modelled import ModelledU
from roofmodel.gates.heat_facts import HeatFacts

_Months = Annotated[tuple[float, ...], Field(min_length=12, max_length=12)]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateEntry:
    """A year outside, from the nearest weather station."""

    name: Annotated[
        str,
        Field(min_length=1),
        Entered(label="Station", where="Name and location of the weather station", longest=80),
    ]
    source: Annotated[
        str,
        Field(min_length=1),
        Entered(
            label="Source",
            where="Where the figures come from, and the years they are averaged over",
        ),
    ]
    temperature_c: Annotated[
        _Months, Entered(label="°C", where="Monthly means, January first", unit="°C")
    ]
    humidity_percent: Annotated[
        _Months,
        Entered(label="% RH", where="Monthly mean relative humidity, January first", unit="%"),
    ]

    def __post_init__(self) -> None:
        """Refuse weather no place has, and figures nobody can look up."""
        faults = entered.faults(self)
        faults += [
            Fault(field, f"The climate has no {what}.", f"Enter {remedy}.")
            for field, what, remedy in (
                ("name", "name", "place and station"),
                ("source", "source", "source for its figures"),
            )
            if not getattr(self, field).strip()
        ]
        if faults:
            raise DimensionError(faults)
        self.climate()

    def climate(self) -> Climate:
        """Return the year for the checks; nobody but who entered it has read its source."""
        return Climate(
            name=self.name,
            temperature_c=self.temperature_c,
            humidity_percent=self.humidity_percent,
            source=Source(self.source, "entered for the job", verified=False),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatEntry:
    """Whose limits apply since when, the climate, the ventilated space and the glazing that stays.

    Which case the roof counts as is for building control to say; where nobody has said it, the
    stricter limit is taken. An own limit goes before those that ship.
    """

    nation: Annotated[
        Nation | None,
        Entered(label="Nation", where="Nation whose U-value limits apply", empty="not chosen"),
    ] = None
    case: Annotated[
        Case | None,
        Entered(
            label="Treated as",
            where="What building control treats the work as; the stricter limit applies until "
            "this is known",
            choices=tuple((one, one.value) for one in (Case.NEW, Case.RENOVATED)),
            empty="not entered",
        ),
    ] = None
    on: Annotated[
        date | None,
        Entered(
            label="Rules in force on",
            where="Date whose rules apply, such as 2026-03-31",
            empty="latest known",
        ),
    ] = None
    u_limit_w_m2k: Annotated[
        float | None,
        Entered(
            label="Own limit",
            where="U-value limit in the document that applies; used instead of the nation's",
            unit="W/m²K",
            low=0.01,
            high=6.0,
            empty="the nation's",
        ),
    ] = None
    u_limit_source: Annotated[
        str,
        Entered(
            label="Limit source",
            where="Document and page that give your own limit",
            longest=200,
            empty="document and page",
        ),
    ] = ""
    climate: Annotated[
        ClimateEntry | None,
        Field(description="The climate outside, month by month; an invented one if left out"),
    ] = None
    ventilation: Annotated[
        Ventilation | None, Field(description="Ventilation gap below the deck")
    ] = None
    modelled: Annotated[
        ModelledU | None, Field(description="U-value calculated in two dimensions by somebody else")
    ] = None
    wall_glazing_m2: Annotated[
        float | None,
        Entered(
            label="Wall glazing",
            where="Glass area that stays in the walls, for the remaining daylight",
            unit="m²",
            low=0.0,
            high=500.0,
            empty="not entered",
        ),
    ] = None

    def __post_init__(self) -> None:
        """Refuse limits no roof has, and one nobody can look up."""
        faults = entered.faults(self)
        if self.u_limit_w_m2k is not None and not self.u_limit_source:
            text = "Your own limit needs the document it comes from."
            faults.append(Fault("u_limit_source", text, "Enter document and page."))
        if faults:
            raise DimensionError(faults)

    def facts(self) -> HeatFacts:
        """Return what the checks are held against."""
        return HeatFacts(
            limit=self._limit(),
            point_limit=self._known(Case.ANY_POINT),
            climate=self.climate.climate() if self.climate else condensation_settings.climates()[0],
            ventilation=self.ventilation,
            modelled=self.modelled,
            wall_glazing_m2=self.wall_glazing_m2,
        )

    def _limit(self) -> UValueLimit | None:
        if self.u_limit_w_m2k is not None:
            return UValueLimit(
                nation=self.nation or Nation.ENGLAND,
                case=self.case or Case.NEW,
                since=self.on or date.min,
                source=Source(self.u_limit_source, "entered for the job", verified=False),
                u_w_m2k=self.u_limit_w_m2k,
                own=True,
            )
        if self.case is not None:
            return self._known(self.case)
        cases = [limit for case in (Case.NEW, Case.RENOVATED) if (limit := self._known(case))]
        return min(cases, key=lambda one: one.u_w_m2k or 0.0, default=None)

    def _known(self, case: Case) -> UValueLimit | None:
        if self.nation is None:
            return None
        return thermal_limits.limit(self.nation, case, self.on or date.max)
