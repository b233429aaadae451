"""The program for other programs: open a job, and ask for its roof, plans, take-off and offer.

What these five functions return is made of frozen values with units in their names; the rest of
the package may be imported as well, but its names move without notice.

>>> from roofmodel import api
>>> from roofmodel.foundation import resources
>>> job = api.open_job(resources.sample_roofs() / "lean-to.roofjob.json")
>>> [(facet.name, round(facet.pitch_deg, 1)) for facet in api.roof(job).facets]
[('F1', 15.0)]
"""

from collections.abc import Mapping
from pathlib import Path

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import RoofModelError
from roofmodel.refit.method import Method
from roofmodel.shapes.roof import Roof
from roofmodel.storage import job_file
from roofmodel.survey.taped.findings import Finding
from roofmodel.workbench.firm import tables as firm_tables
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn, Refused
from roofmodel.workbench.offer import bills, offers
from roofmodel.workbench.offer.bills import PricedBill
from roofmodel.workbench.offer.offers import Offer


class JobRefusedError(RoofModelError):
    """A job file is sound, but what it holds makes no roof.

    ``findings`` say why, each with its field and what to do about it.
    """

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        self.findings = findings
        super().__init__(" ".join(f"{one.field}: {one.text} {one.remedy}" for one in findings))


def open_job(
    path: Path, *, catalogue: Catalogue | None = None, firm_folder: Path | None = None
) -> Drawn:
    """Return a job with everything that follows from it; `Drawn.findings` are what is doubtful.

    Parameters
    ----------
    path
        The job file, NAME.roofjob.json.
    catalogue
        The firm's materials; the shipped ones, with invented prices, when left out.
    firm_folder
        Folder of the firm's own recipes, norms, presets and the like; the shipped ones without it.

    Raises
    ------
    JobFileError
        If the file cannot be read, or with every field of it that is wrong.
    JobRefusedError
        If what was entered makes no roof.

    Examples
    --------
    >>> from roofmodel.foundation import resources
    >>> job = open_job(resources.sample_roofs() / "three-facet-end.roofjob.json")
    >>> job.job.code, job.findings
    ('S04', ())
    """
    tables = firm_tables.load(firm_folder)
    found = reckoning.reckon(job_file.read(path), catalogue=catalogue, tables=tables)
    if isinstance(found, Refused):
        raise JobRefusedError(found.findings)
    return found


def roof(job: Drawn) -> Roof:
    """Return the roof: facets and lines with pitches, lengths, areas and angles, on the datum.

    Examples
    --------
    >>> from roofmodel.foundation import resources
    >>> made = roof(open_job(resources.sample_roofs() / "three-facet-end.roofjob.json"))
    >>> round(made.area_m2, 3), round(made.plan_area_m2, 3)
    (12.743, 11.549)
    """
    return job.roof


def plan(
    job: Drawn, *, method: Method | None = None, effort: Effort = Effort.USUAL
) -> Mapping[int, Plan]:
    """Return a verified cutting plan for every sheet layer of a method, by the layer's number.

    Parameters
    ----------
    job
        From `open_job`.
    method
        The method to cut; the one chosen in the job when left out.
    effort
        How long to search for sheets; the same effort gives the same plans.

    Raises
    ------
    CuttingError
        If no complete plan is found for a material.
    SurveyOpenError
        If the readings do not agree yet.
    MethodRefusedError
        If the method cannot be built on this roof.

    Examples
    --------
    >>> from roofmodel.foundation import resources
    >>> job = open_job(resources.sample_roofs() / "lean-to.roofjob.json")
    >>> [(one.material, one.sheets) for one in plan(job, effort=Effort.QUICK).values()]
    [('BRD-PB12', 5), ('INS-PIR75', 5), ('BRD-OSB18', 5)]
    """
    return reckoning.cut(job, method=method, effort=effort)


def take_off(job: Drawn, plans: Mapping[int, Plan], *, method: Method | None = None) -> PricedBill:
    """Return every material of a method with its formula, packs and price.

    Parameters
    ----------
    job
        From `open_job`.
    plans
        From `plan`, of the same method; a sheet layer without one stays unknown, and the total
        with it.
    method
        The method to take off; the one chosen in the job when left out.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.

    Examples
    --------
    >>> from roofmodel.foundation import resources
    >>> job = open_job(resources.sample_roofs() / "lean-to.roofjob.json")
    >>> take_off(job, {}).costed.total() is None  # no plans: no sheet counts, no total
    True
    """
    option = job.option if method is None else job.option_of(method)
    return bills.priced(job, option, plans)


def offer(job: Drawn, *, effort: Effort = Effort.USUAL) -> Offer:
    """Return the three methods with price, programme and what each leaves out.

    Parameters
    ----------
    job
        From `open_job`.
    effort
        How long to search for sheets.

    Examples
    --------
    >>> from roofmodel.foundation import resources
    >>> job = open_job(resources.sample_roofs() / "lean-to.roofjob.json")
    >>> [one.option.method.value for one in offer(job, effort=Effort.QUICK).methods]
    ['new-roof', 'build-round', 'panel-swap']
    """
    return offers.offer(job, lambda option: bills.plans_that_can_be(job, option, effort=effort)[0])
