"""An estimate that was kept gives its prices again, whatever has become of catalogue and norms."""

import json
from datetime import date
from decimal import Decimal

import pytest

from roofmodel.cli.main import run as run_cli
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import ResourceError
from roofmodel.pricing.price import Price
from roofmodel.refit.method import Method
from roofmodel.workbench.offer import bills, estimate, offers
from tests import acceptance_jobs

DAY = date(2026, 11, 20)


@pytest.fixture(scope="module")
def j01():
    drawn = acceptance_jobs.drawn("J01")
    return offers.offer(
        drawn, lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0]
    )


@pytest.fixture(scope="module")
def kept(j01):
    return estimate.dumps(j01, made_on=DAY)


def test_every_price_comes_out_of_the_file_alone_to_the_penny(j01, kept):
    found = estimate.loads(kept)
    totals = {one.method: one.price(found.rates).total for one in found.methods}

    assert totals == {one.option.method: one.price.total for one in j01.methods}
    assert all(one.same for one in estimate.again(found))
    assert (found.job_code, found.revision, found.made_on) == ("J01", "A", DAY)
    assert found.catalogue_from == j01.drawn.catalogue.valid_from


def test_j01_out_of_its_file_is_the_worked_estimate(kept):
    found = estimate.loads(kept)
    one = next(x for x in found.methods if x.method is Method.BUILD_ROUND)

    assert one.price(found.rates).materials == Decimal("1595.10")
    assert one.price(found.rates).total == Decimal("5949.88")


def test_a_figure_changed_by_hand_is_noticed(kept, tmp_path, capsys):
    table = json.loads(kept)
    table["methods"][0]["lines"][0]["rate"] = "1.00"
    path = tmp_path / "J01-A-estimate.json"
    path.write_text(json.dumps(table), encoding="utf-8")

    assert run_cli(["estimate", str(path), "--json"], open_window=lambda _: 0) == 2
    assert json.loads(capsys.readouterr().out)["same"] is False
    path.write_text(kept, encoding="utf-8")
    assert run_cli(["estimate", str(path)], open_window=lambda _: 0) == 0
    assert "agree to the penny" in capsys.readouterr().out


@pytest.mark.parametrize("text", ["", "{}", "[1]", '{"schema_version": 1, "more": 2}'])
def test_what_is_no_estimate_is_refused(text):
    with pytest.raises(ResourceError, match="not an estimate"):
        estimate.loads(text)


def test_an_estimate_of_another_schema_is_refused(kept):
    newer = kept.replace('"schema_version": 1', '"schema_version": 9', 1)

    with pytest.raises(ResourceError, match="format 9"):
        estimate.loads(newer)


def test_a_method_without_a_price_is_left_out():
    drawn = acceptance_jobs.drawn("J02")
    found = offers.offer(
        drawn, lambda option: bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)[0]
    )
    assert not any(isinstance(one.price, Price) for one in found.methods)

    assert estimate.loads(estimate.dumps(found, made_on=DAY)).methods == ()
