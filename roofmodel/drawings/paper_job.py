"""Everything the papers of one method of a job are drawn from."""

from dataclasses import dataclass, field

from roofmodel.cutting.length_plan import LengthPlan
from roofmodel.cutting.plan import Plan
from roofmodel.drawings.detail import Detail
from roofmodel.drawings.heading import Heading
from roofmodel.drawings.release import Release
from roofmodel.drawings.stack_section import StackSection
from roofmodel.shapes.members import Members
from roofmodel.shapes.roof import Roof


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperJob:
    """A job as its papers need it.

    ``plans`` are the cutting plans from the room outwards, each with the surface its parts lie on
    as a roof; ``stack`` is the section through its layers; ``details`` are drawn
    1 : 5; ``lengths`` what is cut from lengths,
    by the name of its runs; ``rolls`` the name and number of every roll that is delivered.
    """

    heading: Heading
    title: str
    method: str
    roof: Roof
    members: Members
    plans: tuple[tuple[Plan, Roof], ...]
    release: Release
    stack: StackSection | None = None
    details: tuple[Detail, ...] = ()
    lengths: tuple[tuple[str, LengthPlan], ...] = ()
    rolls: tuple[tuple[str, int], ...] = ()
    owner: str = ""
    notes: tuple[str, ...] = field(default_factory=tuple)
