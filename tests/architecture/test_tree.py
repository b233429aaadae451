"""Tests stand in the same tree and under the same names as what they test."""

from pathlib import Path

import roofmodel

PACKAGE, TESTS = Path(roofmodel.__path__[0]), Path(__file__).resolve().parents[1]
ROOMS = sorted(path.parent.name for path in PACKAGE.glob("*/__init__.py"))
FILES = sorted(
    path.relative_to(TESTS) for room in ROOMS for path in (TESTS / room).rglob("test_*.py")
)


def names_something(file, package=PACKAGE):
    """Return whether a test file names a module or an inner room of its place.

    More than one file may test a module: its name goes first, what else there is after it. What is
    said of everything in a room begins with “every”.
    """
    words = file.stem.removeprefix("test_").split("_")
    if words[0] == "every":
        return True
    starts = ("_".join(words[:count]) for count in range(1, len(words) + 1))
    place = package / file.parent
    return any((place / f"{name}.py").is_file() or (place / name).is_dir() for name in starts)


def test_every_test_file_names_what_it_tests():
    assert len(FILES) > 100
    assert [str(file) for file in FILES if not names_something(file)] == []


def test_a_file_that_names_nothing_would_be_seen():
    assert names_something(Path("cutting/test_plan_pieces.py"))
    assert not names_something(Path("cutting/test_pieces.py"))
    assert not names_something(Path("desktop/test_viewport.py"))  # it stands one room further in
