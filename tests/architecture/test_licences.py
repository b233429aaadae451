"""The program may be passed on under its own licence, with everything it runs on."""

import re
from importlib import metadata
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]

SHARED_ALIKE = {
    # Used as they come and loaded as libraries, which whoever runs the program may replace.
    "pyside6-essentials": "LGPL-3.0-only OR GPL-2.0-only OR GPL-3.0-only",
    "shiboken6": "LGPL-3.0-only OR GPL-2.0-only OR GPL-3.0-only",
    "ifcopenshell": "LGPL-3.0-or-later",
    "pi-heif": "License :: OSI Approved :: GNU Lesser General Public License v3 (LGPLv3)",
}
"""Run-time libraries under a licence that asks for more than to be named, and which one."""


def locked():
    """Return the names of all run-time packages that are installed here."""
    text = (CHECKOUT / "requirements.lock").read_text(encoding="utf-8")
    names = re.findall(r"^([a-z0-9-]+)==", text, re.MULTILINE)
    installed = {one.name.lower().replace("_", "-") for one in metadata.distributions() if one.name}
    return [name for name in names if name in installed]


def licence(name):
    """Return what a package says its licence is."""
    told = metadata.metadata(name)
    classified = [one for one in told.get_all("Classifier") or [] if one.startswith("License")]
    # The free text comes last: some packages put the notices of all they are built from there.
    return told.get("License-Expression") or " ".join(classified) or told.get("License") or ""


@pytest.mark.parametrize("name", locked())
def test_no_library_at_run_time_asks_for_the_programs_own_source(name):
    found = licence(name)

    assert found.strip(), f"{name} names no licence: look it up"
    if re.search(r"GPL|General Public", found):
        assert SHARED_ALIKE.get(name) == found


def test_the_licence_stands_in_the_checkout_and_in_the_metadata():
    text = (CHECKOUT / "LICENSE").read_text(encoding="utf-8")

    assert text.startswith("MIT License")
    assert 'license = "MIT"' in (CHECKOUT / "pyproject.toml").read_text(encoding="utf-8")
