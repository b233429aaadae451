"""Everything of a firm in one file: taken again equal, or refused and nothing changed."""

import base64
import hashlib
import json
from datetime import date
from decimal import Decimal

import pytest

from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import (
    firm,
    firm_catalogue,
    job_template,
    rows,
    shared_file,
    tables,
    van_stock,
)
from roofmodel.workbench.firm.table import NORMS, RECIPES, SUPPLIERS
from tests import acceptance_jobs

DAY = date(2026, 11, 30)


def a_firm(folder):
    """Return folder and catalogue of a firm with something of everything."""
    there = folder / "firm"
    rows.copied(RECIPES, "FOM-750", there)
    rows.withdrawn(NORMS, "verges", there)
    firm.save(firm.load(None), there)
    (there / van_stock.FILE).write_text(
        '[[stock]]\nmaterial = "MEM-BR"\npacks = "0.6"\n', encoding="utf-8"
    )
    job_template.save(acceptance_jobs.drawn("J04").job, "three-facet, our usual", there)
    catalogue = folder / "catalogue.toml"
    own_rows = firm_catalogue.own_rows(catalogue, day=DAY)
    firm_catalogue.save(firm_catalogue.with_price_days(own_rows, 30), catalogue, day=DAY)
    return there, catalogue


def exported(folder):
    there, catalogue = a_firm(folder)
    path = folder / f"ours{shared_file.SUFFIX}"
    path.write_text(shared_file.dumps(there, catalogue, made_on=DAY), encoding="utf-8")
    return path


def everything(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_what_one_firm_exports_another_has_after_taking_it(tmp_path):
    (tmp_path / "a").mkdir()
    shared = shared_file.read(exported(tmp_path / "a"))
    there, catalogue = tmp_path / "b" / "firm", tmp_path / "b" / "catalogue.toml"

    found = shared_file.changes(shared, there, catalogue)
    assert ("Labour norms", "verges", "withdrawn or gone") in [
        (x.part, x.code, x.what) for x in found
    ]
    assert ("On the van", "MEM-BR", "new") in [(x.part, x.code, x.what) for x in found]
    assert not there.exists()
    shared_file.take(shared, there, catalogue, day=DAY)

    assert tables.load(there) == tables.load(tmp_path / "a" / "firm")
    assert van_stock.read(there / van_stock.FILE) == {"MEM-BR": Decimal("0.6")}
    assert job_template.names(there) == ("three-facet, our usual",)
    assert firm_catalogue.load_file(catalogue).stale_days == 30
    assert shared_file.changes(shared, there, catalogue) == ()


def test_what_a_file_does_not_hold_stays_and_what_was_there_stays_beside(tmp_path):
    (tmp_path / "a").mkdir()
    shared = shared_file.read(exported(tmp_path / "a"))
    there, catalogue = tmp_path / "b" / "firm", tmp_path / "b" / "catalogue.toml"
    rows.copied(SUPPLIERS, "group.sheets", there)
    rows.withdrawn(RECIPES, "FOM-750", there)
    shared_file.take(shared, there, catalogue, day=DAY)

    assert "group.sheets" in SUPPLIERS.own(there).rows
    assert "FOM-750" in RECIPES.own(there).rows
    assert "FOM-750" in (there / "recipes.before.toml").read_text(encoding="utf-8")


def test_a_file_that_cannot_be_written_leaves_everything_as_it_was(tmp_path, monkeypatch):
    (tmp_path / "a").mkdir()
    shared = shared_file.read(exported(tmp_path / "a"))
    there, catalogue = tmp_path / "b" / "firm", tmp_path / "b" / "catalogue.toml"
    rows.withdrawn(RECIPES, "FOM-750", there)
    before = everything(there)
    (there / "templates").write_text("in the way", encoding="utf-8")

    with pytest.raises(ResourceError, match="Everything is as before"):
        shared_file.take(shared, there, catalogue, day=DAY)
    (there / "templates").unlink()
    after = {k: v for k, v in everything(there).items() if ".before." not in k}

    assert after == before
    assert not catalogue.exists()


def test_a_firm_with_nothing_of_its_own_has_nothing_to_export(tmp_path):
    with pytest.raises(ResourceError, match="nothing of its own yet"):
        shared_file.dumps(tmp_path, tmp_path / "catalogue.toml", made_on=DAY)


def file_of(**files):
    packed = {
        name: {"sha256": hashlib.sha256(text.encode()).hexdigest(), "text": text}
        for name, text in files.items()
    }
    return {"format": shared_file.FORMAT, "version": 1, "files": packed}


@pytest.mark.parametrize(
    "inner",
    [
        "../rates.toml",
        "/etc/passwd",
        "templates/../../x.roofjob.json",
        "rates.toml\\..\\x",
        "a/b.png",
        "templates/.roofjob.json",
        "catalogue.prices.csv",
        "new.toml",
    ],
)
def test_a_name_that_is_not_the_programs_own_is_refused(inner, tmp_path):
    path = tmp_path / "x.rooffirm.json"
    path.write_text(json.dumps(file_of(**{inner: "x = 1"})), encoding="utf-8")

    with pytest.raises(ResourceError, match="is not a firm's file"):
        shared_file.read(path)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("", "is empty"),
        ("{", "is cut short or damaged"),
        ("[" * 1000, "nested too deep"),
        ("[]", "is not a firm's file"),
        ('{"format": "another"}', "is not a firm's file"),
        (json.dumps({**file_of(), "version": 2}), "has version 2; this program reads version 1"),
        (json.dumps(file_of()), "holds no files"),
        (json.dumps({**file_of(), "files": {"rates.toml": 3}}), "rates.toml is damaged"),
        (
            json.dumps({**file_of(), "files": {"rates.toml": {"text": "x", "sha256": "y"}}}),
            "has been changed since",
        ),
    ],
    ids=["empty", "broken", "deep", "list", "other", "newer", "bare", "damaged", "changed"],
)
def test_what_is_no_file_of_a_firm_is_refused_in_a_sentence(content, said, tmp_path):
    path = tmp_path / "x.rooffirm.json"
    path.write_text(content, encoding="utf-8")

    with pytest.raises(ResourceError, match=said):
        shared_file.read(path)


def test_a_file_larger_than_any_firms_is_not_read(tmp_path):
    path = tmp_path / "x.rooffirm.json"
    path.write_bytes(b" " * (shared_file.MOST_BYTES + 1))

    with pytest.raises(ResourceError, match="more than 25 MB"):
        shared_file.read(path)


@pytest.mark.parametrize(
    ("files", "said"),
    [
        ({"rates.toml": 'installer_gbp_h = "-3"\n'}, "rates.toml, installer_gbp_h"),
        ({"recipes.toml": "[[recipe]]\nmaterial = 'X'\n"}, r"recipes.toml, recipe \d+ \(X\)"),
        ({"catalogue.toml": "schema = 1\n"}, "catalogue.toml cannot be used yet"),
        ({"templates/x.roofjob.json": "{}"}, "schema_version"),
        ({"offer_texts.toml": '[firm]\nlogo = "logo.png"\n'}, "there is no file"),
    ],
    ids=["rates", "recipe", "catalogue", "template", "logo"],
)
def test_one_part_that_could_not_be_used_keeps_the_whole_file_out(files, said, tmp_path):
    path, there = tmp_path / "x.rooffirm.json", tmp_path / "firm"
    path.write_text(json.dumps(file_of(**files)), encoding="utf-8")
    shared = shared_file.read(path)

    with pytest.raises(ResourceError, match=said):
        shared_file.changes(shared, there, tmp_path / "catalogue.toml")
    with pytest.raises(ResourceError, match="Nothing was changed"):
        shared_file.take(shared, there, tmp_path / "catalogue.toml", day=DAY)
    assert not there.exists()


def test_a_logo_travels_with_the_words(tmp_path):
    from dataclasses import replace

    from PIL import Image

    Image.new("RGB", (40, 20), "red").save(tmp_path / "mark.png")
    shipped = firm.load(None)
    text = replace(shipped.text, firm=replace(shipped.text.firm, logo=str(tmp_path / "mark.png")))
    firm.save(replace(shipped, text=text), tmp_path / "firm")
    content = shared_file.dumps(tmp_path / "firm", tmp_path / "none.toml", made_on=DAY)
    assert base64.b64decode(json.loads(content)["files"]["logo.png"]["base64"])
    path = tmp_path / "x.rooffirm.json"
    path.write_text(content, encoding="utf-8")
    shared_file.take(shared_file.read(path), tmp_path / "b", tmp_path / "none.toml", day=DAY)

    assert firm.load(tmp_path / "b").text.firm.logo.endswith("logo.png")
