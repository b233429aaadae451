"""What every paper of a job carries so that nobody cuts from the wrong one."""

from dataclasses import dataclass
from datetime import date

from roofmodel.drawings.paper.release import INDICATIVE, Stamp

LIST_ENDING = ("Job", "Set", "Revision", "Status", "Issued")
"""Headings of the last columns of every list for a spreadsheet: lines are sorted and copied."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Job code, revision letter, and the day of issue where it is known.

    ``stamp`` says whether what is drawn may be cut from, on papers for the workshop; ``owner`` is
    the firm whose drawings they are; ``set_id`` names the method and everything that is cut;
    ``warnings`` are what the survey found that whoever cuts and fixes must know.
    """

    job_code: str
    revision: str
    issued: date | None = None
    stamp: Stamp | None = None
    owner: str = ""
    set_id: str = ""
    warnings: tuple[str, ...] = ()

    @property
    def may_be_cut(self) -> bool:
        """Whether nothing says that what is drawn must not be cut."""
        return self.stamp is None or not self.stamp.watermark

    @property
    def words(self) -> str:
        """The heading in one line."""
        issued = f", issued {self.issued.isoformat()}" if self.issued else ""
        of_set = f", set {self.set_id}" if self.set_id else ""
        return f"Job {self.job_code}, rev {self.revision}{of_set}{issued}"

    @property
    def list_ending(self) -> tuple[str, ...]:
        """What every line of a list ends with, under `LIST_ENDING`."""
        status = self.stamp.status if self.stamp else INDICATIVE
        issued = self.issued.isoformat() if self.issued else ""
        return (self.job_code, self.set_id, self.revision, status, issued)

    @property
    def revision_words(self) -> str:
        """What stands on every piece: the revision, and that it must not be cut where it must not.

        Title blocks are left behind when pieces are sent to a saw; this is not.
        """
        mark = self.stamp.watermark if self.stamp else ""
        revision = f"REV {self.revision}{f' SET {self.set_id}' if self.set_id else ''}"
        return f"{revision}, {mark}" if mark else revision

    @property
    def status_notes(self) -> tuple[str, ...]:
        """Why it may not be cut from, and what to look out for."""
        reasons = (self.stamp.reason,) if self.stamp and self.stamp.reason else ()
        return (*reasons, *self.warnings)

    @property
    def file_stem(self) -> str:
        """Beginning of every file name; of several jobs the first, and how many more."""
        jobs, revisions = self.job_code.split("+"), self.revision.split("+")
        more = f"+{len(jobs) - 1}" if jobs[1:] else ""
        of_set = f"-{self.set_id}" if self.set_id else ""
        return f"{jobs[0]}{more}-{revisions[0]}{of_set}"
