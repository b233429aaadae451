"""The command that makes the offer: three prices, a programme, papers for the customer."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from roofmodel.cli import firm_choice, firm_folder, opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath
from roofmodel.cli.table import made
from roofmodel.comparison import compare
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.offer import offer_text
from roofmodel.pricing import rates as pricing_rates
from roofmodel.pricing.price import Price
from roofmodel.workbench.facts import facts
from roofmodel.workbench.firm import van_stock
from roofmodel.workbench.offer import bills, offer_set, offers, readiness
from roofmodel.workbench.offer.offers import Offer


def offer_(  # noqa: PLR0913 - every option of the command stands for itself
    job: JobPath,
    *,
    out: Annotated[
        Path | None,
        typer.Option(
            "--out",
            metavar="DIR",
            help="Folder for the papers; if left out, only the figures are printed.",
        ),
    ] = None,
    words: Annotated[
        Path | None, typer.Option("--words", metavar="FILE", help="The firm's own texts, TOML.")
    ] = None,
    rates: Annotated[
        Path | None,
        typer.Option(
            "--rates", metavar="FILE", help="Rates to use instead of the firm's own, TOML."
        ),
    ] = None,
    van: Annotated[
        Path | None,
        typer.Option(
            "--van", metavar="FILE", help="What is on the van, TOML; the firm's own if left out."
        ),
    ] = None,
    photo: Annotated[
        Path | None,
        typer.Option("--photo", metavar="FILE", help="Photograph of the roof, for the offer."),
    ] = None,
    installers: Annotated[
        int | None, typer.Option(help="Installers in the team; set by the roof if left out.")
    ] = None,
    on: Annotated[
        str | None, typer.Option(help="Date of the offer, YYYY-MM-DD; today if left out.")
    ] = None,
    start: Annotated[
        str | None,
        typer.Option(
            help="First day on site, YYYY-MM-DD; set by the longest lead time if left out."
        ),
    ] = None,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Three prices: all three methods, the days on site, and the papers of the offer."""
    chosen, made_on = opening.effort(effort), opening.day(on)
    first_day = None if start is None else opening.day(start)
    own = firm_choice.current()
    text = offer_text.read(words) if words is not None else own.text
    on_van = van_stock.read(van or firm_folder.folder() / van_stock.FILE)
    drawn = opening.drawn(job, as_json=as_json)
    if out is not None:
        offer_set.check(out, photo)
    with report.progress(quiet=as_json) as tell:
        priced = offers.offer(
            drawn,
            lambda option: bills.plans_that_can_be(drawn, option, effort=chosen, progress=tell)[0],
            rates=pricing_rates.read(rates) if rates is not None else own.rates,
            installers=installers,
        )
    lacks = readiness.lacks(priced, text, made_on, quick=chosen is Effort.QUICK)
    files: tuple[Path, ...] = ()
    if out is not None:
        files = offer_set.write(
            priced,
            out,
            text=text,
            made_on=made_on,
            first_day=first_day,
            photo_file=photo,
            lacks=lacks,
            van=on_van,
        )
    if as_json:
        opening.print_json(
            {
                "job": opening.heading(drawn),
                "effort": chosen.value,
                **offers.figures(priced),
                "draft": bool(lacks),
                "lacks": list(lacks),
                "files": [str(file) for file in files],
                "findings": facts.of_findings(drawn.findings),
            }
        )
        return
    _print(priced)
    if lacks:
        report.warn("A draft, and the offer says so on every page:")
        for lack in lacks:
            report.warn(f"  {lack}")
    if files:
        report.written(files)
    report.findings(drawn.findings, quiet_when_none=True)


def _rounding(price: Price) -> str:
    rates = price.rates
    if not rates.rounds:
        return ""
    words = f"{rates.price_rounded}, to {rates.price_step_gbp:f}"
    return f"; rounded {words}: {price.rounding:+} ex VAT"


def _print(priced: Offer) -> None:
    console = Console(highlight=False)
    table = made("Method", *(column.method.printed for column in priced.columns))
    for row in compare.rows(priced.columns):
        table.add_row(row.label, *row.entries)
    console.print(table)
    for one in priced.methods:
        programme = one.column.programme
        if programme is not None:
            console.print(f"{one.option.method.printed}: {programme.explained}")
        if isinstance(one.price, Price):
            console.print(
                f"  floor: {one.price.cost} GBP ex VAT; below this the job loses money; "
                f"contingency {one.price.contingency}; {one.price.rates.profit_words}"
                f"{_rounding(one.price)}"
            )
            if one.price.below_cost:
                report.warn("The discount takes the price below what the job costs.")
        for moved in one.sensitivities:
            console.print(f"  {moved.words}: {moved.more:+} GBP ex VAT")
        for extra in one.extras:
            vat = " inc VAT" if extra.more is not None else ""
            console.print(f"  extra, {extra.name}: {extra.words}{vat}")
    console.print(
        "The prices, norms and rates supplied with the program are placeholders: enter your own."
    )
