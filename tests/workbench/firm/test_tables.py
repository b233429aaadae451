"""The firm's tables as a job uses them: what changes in a price, and what cannot stand."""

from dataclasses import replace

import pytest

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.foundation.errors import ResourceError
from roofmodel.quantities import driver, drivers
from roofmodel.refit.method import Method
from roofmodel.workbench.firm import tables
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.offer import bills, work
from tests import acceptance_jobs


def keep(folder, file, text):
    (folder / file).write_text(text, encoding="utf-8")
    return tables.load(folder)


def test_without_a_folder_or_rows_of_its_own_the_shipped_tables_are_used(tmp_path):
    assert tables.load(None) is tables.shipped()
    assert tables.load(tmp_path) == tables.shipped()


def test_recipes_norms_and_presets_of_the_firm_reach_the_take_off_and_the_hours(tmp_path):
    (tmp_path / "recipes.toml").write_text(
        'withdrawn = ["FOM-750"]\n[[recipe]]\nmaterial = "PRE-TWR"\nmethods = ["build-round"]\n'
        'group = "preliminaries"\nterms = [{ driver = "job", rate = 3.0 }]\n',
        encoding="utf-8",
    )
    (tmp_path / "labour_norms.toml").write_text(
        '[[task]]\nid = "battens"\nname = "Battens"\ntrade = "installer"\nstage = "inside"\n'
        'methods = ["build-round"]\nterms = [{ driver = "job", rate = 5.0 }]\n',
        encoding="utf-8",
    )
    found = tables.load(tmp_path)
    plain = acceptance_jobs.drawn("J01")
    drawn = reckoning.reckon(plain.job, tables=found)
    option = drawn.option_of(Method.BUILD_ROUND)
    bill = bills.priced(drawn, option, {}).bill
    hours = {one.task.id: one.hours for one in work.hours(drawn, option, {})}

    assert bill.line("PRE-TWR").quantity == 3.0
    assert "FOM-750" not in [line.code for line in bill.lines]
    assert hours["battens"] == 5.0
    assert "FOM-750" in [
        line.code for line in bills.priced(plain, plain.option_of(option.method), {}).bill.lines
    ]


def test_a_preset_of_the_firm_is_what_a_job_lays_that_says_nothing_else(tmp_path):
    found = keep(
        tmp_path,
        "methods.toml",
        '[[method]]\nid = "panel-swap"\nkept = "bars"\nreplaced = "panels"\nbars = "kept"\n'
        'layers = [{ material = "INS-PIR75", zone = "bars", lie = "between" }]\n',
    )
    drawn = reckoning.reckon(acceptance_jobs.drawn("J01").job, tables=found)
    refit = drawn.option_of(Method.PANEL_SWAP).refit

    assert [layer.material.code for layer in refit.layers] == ["INS-PIR75"]
    assert refit.default.replaced == "panels"


def test_a_way_of_laying_of_the_firm_can_be_chosen_by_a_job(tmp_path):
    found = keep(
        tmp_path,
        "laying_rules.toml",
        '[[rule_set]]\ncode = "OURS"\nname = "Ours"\nlayers = ["deck"]\njoints = "free"\n'
        'bays_spanned_least = 1\nrows = "whole"\nrows_from = "ridge"\nabutment_gap_mm = 0.0\n'
        'source = { document = "the firm", place = "", verified = false }\n',
    )
    choice = BoardChoice(material="BRD-OSB18", laying="OURS")
    ours = replace(acceptance_jobs.drawn("J01").job, boards=(choice,))

    assert isinstance(reckoning.reckon(ours, tables=found), reckoning.Drawn)
    assert not isinstance(reckoning.reckon(ours), reckoning.Drawn)


@pytest.mark.parametrize(
    ("file", "text", "said"),
    [
        (
            "recipes.toml",
            '[[recipe]]\nmaterial = "X"\nmethods = ["new-roof"]\ngroup = "g"\n'
            'terms = [{ driver = "eave_m", rate = 1 }]\n',
            r"\(X\), terms.1.*“eave_m”.*Did you mean eaves_m",
        ),
        (
            "recipes.toml",
            '[[recipe]]\nmaterial = "X"\nmethods = ["new-roof"]\ngroup = "g"\ncount = "tile"\n',
            "X: there is no count called “tile”. Choose one of tiles",
        ),
        (
            "labour_norms.toml",
            '[[task]]\nid = "x"\nname = "x"\ntrade = "roofer"\nstage = "inside"\n'
            'methods = ["new-roof"]\nterms = []\n',
            r"\(x\), trade: “roofer” is not known. Choose one of installer",
        ),
        (
            "labour_norms.toml",
            '[[task]]\nid = "x"\nname = "x"\ntrade = "installer"\nstage = "inside"\n'
            'methods = ["new-roof"]\nterms = []\nafter = ["nothing"]\n',
            "after “nothing”, which is not a task",
        ),
        (
            "suppliers.toml",
            '[group]\nsheets = { supplier = "x", lead = "soon" }\n',
            r"group.sheets.lead: “soon” is not a lead time. Enter working days",
        ),
        (
            "offered_extras.toml",
            '[[extra]]\nid = "x"\nname = "x"\nchanges = "x"\nmethods = ["new-roof"]\n'
            'source = "x"\nlights = 50\n',
            "lights: “50” is out of range. Enter at most 40",
        ),
        (
            "methods.toml",
            '[[method]]\nid = "new-roof"\nlayers = []\n',
            "bars: this field is missing",
        ),
    ],
)
def test_a_row_that_cannot_stand_is_refused_with_row_field_and_remedy(tmp_path, file, text, said):
    with pytest.raises(ResourceError, match=said):
        keep(tmp_path, file, text)


def test_the_drivers_of_every_roof_and_method_are_the_ones_a_recipe_may_name():
    drawn = acceptance_jobs.drawn("J01")
    for method in Method:
        found = drivers.of_refit(drawn.option_of(method).refit)
        assert {*found, *driver.PIECES} == driver.NAMES
