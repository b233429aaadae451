"""What DEVELOPERS.md, README.md and the rooms say of themselves is true."""

import ast
import re
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
PACKAGE = CHECKOUT / "roofmodel"
ROOMS = sorted(path.parent for path in PACKAGE.glob("*/__init__.py"))
INNER_ROOMS = sorted(path.parent for path in PACKAGE.glob("*/*/__init__.py"))

NAMED = re.compile(r"`([^`\n]+)`")
PATH = re.compile(r"[\w.*-]*/[\w./*-]*|[\w.*-]+\.(?:py|toml|md|ps1|lock|json)")
READERS_OWN = re.compile(r"\b(NAME|JOB|OUT|DIR)\b")
OUTSIDE = {
    "shared/benchmarks",  # handed in beside the checkout, where there is one
}


def paths_in(document):
    """Return every back-ticked path but the reader's own: with <…>, or a word in capitals."""
    words = NAMED.findall((CHECKOUT / document).read_text(encoding="utf-8"))
    paths = {word for word in words if PATH.fullmatch(word) and not READERS_OWN.search(word)}
    return sorted(paths - OUTSIDE)


def exists(path):
    """Return whether a path, with its * if any, is found from the checkout or from the package."""
    name = path.removeprefix("./").rstrip("/")
    return any(any(folder.glob(name)) for folder in (CHECKOUT, PACKAGE))


@pytest.mark.parametrize("document", ["DEVELOPERS.md", "README.md"])
def test_every_path_named_in_a_document_exists(document):
    paths = paths_in(document)

    assert paths, f"{document} names no path: has the way it is written changed?"
    assert [path for path in paths if not exists(path)] == []


def test_a_path_that_is_not_there_would_be_seen():
    assert not exists("roofmodel/no_such_room/no_such_file.py")


@pytest.mark.parametrize(
    "room", [*ROOMS, *INNER_ROOMS], ids=lambda room: str(room.relative_to(PACKAGE))
)
def test_every_room_states_its_job_in_one_sentence_and_holds_nothing_else(room):
    tree = ast.parse((room / "__init__.py").read_text(encoding="utf-8"))
    sentence = ast.get_docstring(tree) or ""

    assert len(tree.body) == 1
    assert re.fullmatch(r"[^\n]+[.?]", sentence)


def test_every_room_stands_on_the_map():
    words = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")

    assert [room.name for room in ROOMS if f"`roofmodel/{room.name}`" not in words] == []


def test_every_inner_room_stands_in_the_row_of_its_room():
    words = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = dict(re.findall(r"^\| (\w+) \| (.*) \|$", words, flags=re.MULTILINE))

    assert INNER_ROOMS
    assert [
        str(inner.relative_to(PACKAGE))
        for inner in INNER_ROOMS
        if f"`{inner.name}`" not in rows.get(inner.parent.name, "")
    ] == []
