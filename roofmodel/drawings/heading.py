"""What every paper of a job carries so that nobody cuts from the wrong one."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Job code, revision letter, and the day of issue where it is known."""

    job_code: str
    revision: str
    issued: date | None = None

    @property
    def words(self) -> str:
        """The heading in one line."""
        issued = f", issued {self.issued.isoformat()}" if self.issued else ""
        return f"Job {self.job_code}, rev {self.revision}{issued}"

    @property
    def file_stem(self) -> str:
        """Beginning of every file name of the job's papers."""
        return f"{self.job_code}-{self.revision}"
