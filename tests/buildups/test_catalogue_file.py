"""A catalogue file is read with every fault named, and written so that it reads back equal."""

import dataclasses
import string
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.buildups import catalogue, catalogue_file, catalogue_rows
from roofmodel.buildups.catalogue_words import CatalogueFileError
from roofmodel.foundation.errors import ResourceError

HEAD = 'schema = 1\nname = "Own"\nversion = 3\nvalid_from = 2026-11-25\n'
TILE = """
[[material]]
code = "OWN-TILE"
short = "OT"
name = "A tile"
category = "tile"
unit = "each"
pack = { name = "box", holds = 20 }
charge = "whole packs"
waste = "percent"
waste_percent = 5.0
cover_mm = 330.0
price = { amount = 62.50, dated = 2026-11-01, source = "invented" }
source = { document = "a test", place = "", verified = false }
"""
BOARD = """
[[material]]
code = "OWN-BOARD"
short = "OB"
name = "A board"
category = "deck"
unit = "m2"
pack = { name = "sheet", holds = 2.88 }
charge = "whole packs"
waste = "by plan"
mass_kg = 11.5
thickness_mm = 18.0
source = { document = "a test", place = "", verified = false }
[material.sheet]
layer = "deck"
sizes = [{ length_mm = 2400.0, width_mm = 1200.0 }]
strength_axis = "long"
faces = "alike"
hip_edges = "square"
kerf_mm = 3.0
trim_mm = 0.0
board_gap_mm = 3.0
minimum_piece_mm = 200.0
stagger_mm = 300.0
drawing_code = "27OSB"
"""


def read(text):
    return catalogue_file.loads(text, name="own.toml")


def faults(text):
    with pytest.raises(CatalogueFileError) as error:
        read(text)
    return error.value.faults


def test_a_row_of_the_firm_is_read_with_its_head():
    own = read(HEAD + TILE + BOARD)

    assert (own.name, own.version, own.valid_from) == ("Own", 3, date(2026, 11, 25))
    assert own.material("OWN-TILE").price.amount == Decimal("62.50")
    assert own.sheet_goods()["OWN-BOARD"].length_mm == 2400.0


@pytest.mark.parametrize(
    ("old", "new", "column", "words"),
    [
        ("cover_mm = 330.0", "cover = 330.0", "cover", "Did you mean “cover_mm”?"),
        ("cover_mm = 330.0", 'cover_mm = "3,5"', "cover_mm", "Did you mean 3.5?"),
        ("cover_mm = 330.0", 'cover_mm = "330"', "cover_mm", "Did you mean 330?"),
        ("cover_mm = 330.0", 'cover_mm = "wide"', "cover_mm", "“wide” is not a number."),
        ("cover_mm = 330.0", "cover_mm = true", "cover_mm", "true is not a number."),
        ("cover_mm = 330.0", "cover_mm = nan", "cover_mm", "is not possible"),
        ("cover_mm = 330.0", "cover_mm = -330.0", "cover_mm", "Enter more than 0"),
        ("holds = 20", 'holds = "20"', "pack.holds", "Did you mean 20?"),
        ("holds = 20", "holds = 0", "pack.holds", "Enter more than 0."),
        ("amount = 62.50", "amount = -62.50", "price.amount", "A price of -62.50 is not possible."),
        ("amount = 62.50", 'amount = "£62,50"', "price.amount", "Did you mean 62.50?"),
        ("2026-11-01", '"01/11/2026"', "price.dated", "year-month-day"),
        ('unit = "each"\n', "", "unit", "Add “unit”."),
        ('unit = "each"', "unit = 1", "unit", "Put the value in quotes."),
        ('charge = "whole packs"', 'charge = "whole pack"', "charge", "Did you mean “whole packs”"),
        ('waste = "percent"', 'waste = "percents"', "waste", "Did you mean “percent”?"),
        ('waste = "percent"', 'waste = "none"', "waste_percent", "Allow for waste only once"),
        ('waste = "percent"\nwaste_percent = 5.0', 'waste = "by plan"', "waste", "stock lengths"),
        ("waste_percent = 5.0\n", "", "waste_percent", "no percentage is given"),
        ("waste_percent = 5.0", "waste_percent = 500.0", "waste_percent", "Enter 0 to 100."),
        ('category = "tile"', 'category = "tiles"', "category", "Did you mean “tile”?"),
        ('code = "OWN-TILE"', 'code = "own tile"', "code", "capital letters"),
        ('"a test"', '""', "source.document", "has no source"),
        ("kerf_mm = 3.0", "kerf_mm = 40.0", "sheet.kerf_mm", "Saw cut below 20 mm"),
        ("kerf_mm = 3.0", 'kerf_mm = "3,2"', "sheet.kerf_mm", "Did you mean 3.2?"),
        ('faces = "alike"', 'faces = "alikes"', "sheet.faces", "Did you mean “alike”?"),
        ("thickness_mm = 18.0\n", "", "thickness_mm", "without a thickness"),
        ("mass_kg = 11.5\n", "", "mass_kg", "without a mass"),
        ("[{ length_mm = 2400.0, width_mm = 1200.0 }]", "[]", "sheet.sizes", "without a size"),
        (
            "length_mm = 2400.0",
            "length_mm = 0.0",
            "sheet.sizes.1.length_mm",
            "not possible for a sheet",
        ),
        ("length_mm = 2400.0, ", "", "sheet.sizes.1.length_mm", "Add “length_mm”."),
        ("cover_mm = 330.0", "bright_face = true", "bright_face", "has no face of bare foil"),
        ("cover_mm = 330.0", 'bright_face = "yes, both"', "bright_face", "true or false"),
    ],
)
def test_a_fault_is_told_with_row_code_column_and_remedy(old, new, column, words):
    text = TILE + BOARD
    assert old in text
    (fault,) = faults(HEAD + text.replace(old, new, 1))

    assert fault.column == column
    assert fault.row == (1 if old in TILE else 2)
    assert fault.code in {"OWN-TILE", "OWN-BOARD", "own tile"}
    assert words in f"{fault.text} {fault.remedy}"
    assert str(fault).startswith(f"Row {fault.row} ({fault.code}), {column}: ")


def test_a_bright_face_needs_the_thickness_of_its_layer():
    """It counts beside an air space, which only a layer has."""
    blanket = TILE.replace('"tile"', '"foil"').replace("cover_mm = 330.0", "bright_face = true")
    (fault,) = faults(HEAD + blanket)
    assert (fault.column, "with a thickness" in fault.text) == ("bright_face", True)

    own = read(HEAD + blanket.replace("bright_face", "thickness_mm = 30.0\nbright_face"))
    assert own.material("OWN-TILE").bright_face
    again = catalogue_file.loads(catalogue_file.dumps(own), name="own.toml")
    assert again.material("OWN-TILE").bright_face


def test_all_faults_of_all_rows_are_told_at_once():
    bad_tile = TILE.replace("cover_mm = 330.0", 'cover_mm = "3,5"').replace("62.50", "-1")
    bad_board = BOARD.replace('"by plan"', '"by plans"').replace("trim_mm = 0.0\n", "")
    found = faults(HEAD.replace("version = 3", "version = 0") + bad_tile + bad_board + TILE)

    assert [(fault.row, fault.column) for fault in found] == [
        (0, "version"),
        (1, "cover_mm"),
        (1, "price.amount"),
        (2, "waste"),
        (2, "sheet.trim_mm"),
        (3, "code"),
    ]


def test_two_rows_with_one_code_are_refused_by_both_numbers():
    (fault,) = faults(HEAD + TILE + BOARD + TILE)

    assert "OWN-TILE is in rows 1 and 3." in fault.text


def test_two_materials_whose_pieces_would_be_marked_alike_are_refused():
    (fault,) = faults(HEAD + TILE + BOARD.replace('short = "OB"', 'short = "OT"'))

    assert (fault.row, fault.column) == (2, "short")
    assert "already marks the pieces of OWN-TILE" in fault.text


def test_two_parts_of_a_catalogue_may_not_share_a_code():
    rows = list(read(HEAD + TILE).materials.values()) * 2
    with pytest.raises(ResourceError, match="rows 1 and 2"):
        catalogue_rows.each_once(rows, where="the catalogue")


@pytest.mark.parametrize(
    ("head", "column", "words"),
    [
        (HEAD.replace("schema = 1\n", ""), "schema", "schema = 1"),
        (HEAD.replace("2026-11-25", '"today"'), "valid_from", "2026-11-25"),
        (HEAD.replace("version = 3", "version = true"), "version", "version = 1"),
        (HEAD + "versoin = 4\n", "versoin", "Did you mean “version”?"),
    ],
)
def test_a_fault_in_the_head_is_told(head, column, words):
    (fault,) = faults(head + TILE)

    assert (fault.row, fault.column) == (0, column)
    assert words in str(fault)
    assert str(fault).startswith("Head of the file")


def test_a_file_of_a_newer_version_is_refused_before_its_rows_are_looked_at():
    with pytest.raises(ResourceError, match=r"newer version .* Update the program") as error:
        read(HEAD.replace("schema = 1", "schema = 2") + "[[material]]\nnew_column = 1\n")

    assert not isinstance(error.value, CatalogueFileError)


def test_an_older_file_is_brought_up_to_date_step_by_step(monkeypatch):
    def renamed(table):
        return {**table, "material": table["row"]} | {"row": None}

    def without_row(table):
        return {name: value for name, value in renamed(table).items() if name != "row"}

    monkeypatch.setattr(catalogue_rows, "STEPS", {0: without_row})
    old = HEAD.replace("schema = 1", "schema = 0") + TILE.replace("[[material]]", "[[row]]")

    assert list(read(old).materials) == ["OWN-TILE"]


def test_a_schema_there_never_was_is_refused():
    with pytest.raises(ResourceError, match="Write schema = 1"):
        read(HEAD.replace("schema = 1", "schema = 0"))


@pytest.mark.parametrize("part", [0.3, 0.5, 0.77, 0.99])
def test_a_file_that_breaks_off_is_never_taken_for_whole(part):
    text = HEAD + TILE + BOARD
    with pytest.raises(ResourceError):
        read(text[: int(len(text) * part)])


def test_a_file_that_breaks_off_names_its_line():
    text = HEAD + TILE
    with pytest.raises(ResourceError, match="breaks off in line 12"):
        read(text[: text.index("20 }")])


def test_a_wrong_line_is_named():
    with pytest.raises(ResourceError, match="line 2"):
        read(HEAD.replace('name = "Own"', "name = Own"))


def test_files_that_are_missing_or_no_text_are_refused(tmp_path):
    with pytest.raises(ResourceError, match=r"gone\.toml is missing"):
        catalogue_file.read(tmp_path / "gone.toml")
    scrambled = tmp_path / "own.toml"
    scrambled.write_bytes(b"\xff\xfe\x00name")
    with pytest.raises(ResourceError, match="not a text file"):
        catalogue_file.read(scrambled)
    with pytest.raises(ResourceError, match="cannot be opened"):
        catalogue_file.read(tmp_path)


def test_the_shipped_catalogue_reads_back_equal():
    assert read(catalogue_file.dumps(catalogue.shipped())) == catalogue.shipped()


_LETTERS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=30).filter(
    lambda text: text.strip()
)
_LENGTHS = st.floats(0.001, 1e6, allow_nan=False)


@given(
    code=st.sampled_from(sorted(catalogue.shipped().materials)),
    name=_LETTERS,
    note=st.text(string.printable, max_size=40),
    amount=st.decimals(0, 10**5, allow_nan=False, places=4),
    mass_kg=_LENGTHS,
    mu_low=st.none() | _LENGTHS,
    lengths=st.lists(_LENGTHS, min_size=1, max_size=3),
    dated=st.dates(date(1990, 1, 1)),
)
def test_any_row_reads_back_equal(  # noqa: PLR0913 - one for each kind of value
    *, code, name, note, amount, mass_kg, mu_low, lengths, dated
):
    row = catalogue.shipped().materials[code]
    row = dataclasses.replace(
        row,
        name=name,
        note=note,
        mass_kg=mass_kg,
        mu_low=mu_low,
        mu_high=None,
        stock_lengths_mm=tuple(lengths),
        price=dataclasses.replace(row.price, amount=amount, dated=dated, source=name),
    )
    own = catalogue.Catalogue(name=name, version=1, valid_from=dated, materials={code: row})

    assert read(catalogue_file.dumps(own)) == own


_ODD = ["[]", "{}", "[1]", '"x"', "-1", "nan", "inf", "true", "2026-11-25", "0", "1e400", "[[{}]]"]
_FIELDS = [line for line in (HEAD + TILE + BOARD).splitlines() if " = " in line]


@pytest.mark.parametrize("line", _FIELDS, ids=lambda line: line.split(" = ")[0])
@pytest.mark.parametrize("odd", _ODD)
def test_whatever_stands_in_a_field_is_read_or_refused_in_words(line, odd):
    name = line.split(" = ")[0]
    text = (HEAD + TILE + BOARD).replace(line, f"{name} = {odd}", 1)
    told = told_of(text)

    assert name == "schema" or all(fault.text and fault.remedy for fault in told)


def told_of(text):
    """Return the faults of a text; any error that is none of ours is let through."""
    try:
        read(text)
    except CatalogueFileError as error:
        return error.faults
    except ResourceError as error:
        return [str(error)]
    return []
