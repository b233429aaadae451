"""The command that enters who released a job for cutting."""

from dataclasses import replace
from typing import Annotated

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath, MethodName
from roofmodel.cli.refusal import BAD_INPUT
from roofmodel.foundation import clock
from roofmodel.storage import job_file
from roofmodel.workbench.job import named_release, releasing


def release(
    job: JobPath,
    *,
    by: Annotated[
        str, typer.Option("--by", metavar="NAME", help="Who measured again and releases the job.")
    ],
    on: Annotated[
        str | None, typer.Option("--on", help="Day of the release, YYYY-MM-DD; today if left out.")
    ] = None,
    method: MethodName = None,
    as_json: AsJson = False,
) -> None:
    """Release a job for cutting, exactly as it is entered now, by name and day."""
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    given = named_release.released(drawn.job, option, by=by, on=opening.day(on))
    changed = replace(drawn.job, released=given)
    today = clock.today()
    wrong = named_release.reasons(changed, option, today=today)
    if not wrong:
        job_file.write(changed, job, over=drawn.job)
    permission = releasing.release(replace(drawn, job=changed), option, today=today)
    if as_json:
        opening.print_json(
            {
                "job": opening.heading(drawn),
                "method": option.method.value,
                "content": permission.content,
                "status": permission.status,
                "reasons": list(permission.reasons),
            }
        )
    else:
        if not wrong:
            report.say(
                f"{given.by} released revision {given.revision}, {option.method.printed}, "
                f"content {given.content}, on {given.on.isoformat()}."
            )
        report.status(permission.status, permission.reasons)
    if wrong:
        raise typer.Exit(BAD_INPUT)
