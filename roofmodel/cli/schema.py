"""The command that prints the JSON Schema of a job file."""

from roofmodel.cli import opening
from roofmodel.storage import job_file


def schema() -> None:
    """Print the JSON Schema of a job file."""
    opening.print_json(job_file.schema())
