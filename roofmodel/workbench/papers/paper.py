"""Papers of a job that are not cutting drawings."""

from pathlib import Path

from roofmodel.drawings.survey_sheet import page as survey_sheet
from roofmodel.foundation.errors import DrawingError
from roofmodel.storage import safe_write
from roofmodel.storage.job import Job
from roofmodel.survey.sheets import networks


def write_survey_sheet(job: Job, path: Path) -> None:
    """Write the empty survey sheet of a job's shape as PDF.

    Raises
    ------
    DrawingError
        If what was entered makes no roof, so that there are no letters for its sheet.
    JobFileError
        If the file cannot be written.
    """
    network = networks.of_survey(job.survey)
    if network is None:
        raise DrawingError(
            "This survey sheet takes its letters from the roof, and the sizes entered "
            f"for the shape “{job.survey.shape}” do not make one. Correct the sizes "
            "first."
        )
    title = job.title or job.survey.shape
    safe_write.replace_bytes(path, survey_sheet.content(network, title=title, job_code=job.code))
