"""The locks can be trusted: exact versions, hashes, and no word on where to fetch from."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

CHECKOUT = Path(__file__).resolve().parents[2]
LOCKS = ["requirements.lock", "requirements-dev.lock"]

ENTRY = re.compile(r"^(\S.*?) \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", re.MULTILINE)


def lines(lock):
    """Return what counts in a lock: no comments, no empty lines."""
    text = (CHECKOUT / lock).read_text(encoding="utf-8")
    return [
        line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")
    ]


def locked(lock):
    """Return the requirement of every hashed entry by its name."""
    text = "\n".join(lines(lock)) + "\n"
    return {entry.name: entry for entry in (Requirement(m[1]) for m in ENTRY.finditer(text))}


def declared():
    """Return what pyproject.toml asks for: to run, and for the checks."""
    told = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    texts = told["project"]["dependencies"] + told["project"]["optional-dependencies"]["desktop"]
    run = [Requirement(text) for text in texts]
    return run, run + [Requirement(text) for text in told["dependency-groups"]["dev"]]


@pytest.mark.parametrize("lock", LOCKS)
def test_every_requirement_is_one_version_with_its_hashes(lock):
    heads = [line for line in lines(lock) if not line.startswith(" ")]
    entries = locked(lock)

    assert len(heads) == len(entries) > 30
    assert all(re.fullmatch(r"==[^,*]+", str(entry.specifier)) for entry in entries.values())


@pytest.mark.parametrize("lock", LOCKS)
def test_no_lock_says_where_to_fetch_from(lock):
    text = (CHECKOUT / lock).read_text(encoding="utf-8")

    assert not re.search(r"://|@ |--(extra-)?index|--find-links|--trusted-host|\s-[ifre] ", text)


@pytest.mark.parametrize(("lock", "wanted"), list(zip(LOCKS, declared(), strict=True)))
def test_a_lock_holds_what_pyproject_asks_for(lock, wanted):
    entries = {name.lower().replace("_", "-"): entry for name, entry in locked(lock).items()}

    for requirement in wanted:
        entry = entries[requirement.name.lower().replace("_", "-")]
        version = str(entry.specifier).removeprefix("==")
        assert requirement.specifier.contains(version), f"{lock}: {entry} against {requirement}"


def test_the_checks_run_on_the_versions_a_user_gets():
    user, checks = (locked(lock) for lock in LOCKS)

    assert {name: str(user[name]) for name in user} == {name: str(checks[name]) for name in user}


def test_what_every_command_needs_stands_before_what_the_window_needs():
    """`run` installs for most commands only what stands before this line."""
    text = (CHECKOUT / "requirements.lock").read_text(encoding="utf-8")
    commands, desktop = text.split("\n# desktop")
    names = [Requirement(found[1]).name for found in ENTRY.finditer(commands)]
    more = [Requirement(found[1]).name for found in ENTRY.finditer(desktop)]

    assert {"numpy", "ezdxf", "reportlab", "typer"} <= set(names)
    assert {"pyside6-essentials", "shiboken6", "pyvista", "pyvistaqt", "vtk"} <= set(more)
    assert set(names).isdisjoint(more)
