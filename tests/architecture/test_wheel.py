"""What is built can be installed, and does the main job where nothing else of ours is."""

import json
import os
import subprocess
import sys
import zipfile
from email import message_from_string
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
PROMISED = ("3.12", "3.13", "3.14", "3.15")
"""The Pythons `run` takes and the metadata name."""

MAIN_JOB = """
import json, sys
from pathlib import Path
from roofmodel import __main__, __file__ as where
from roofmodel.foundation import resources

job = resources.sample_roofs() / "lean-to.roofjob.json"
sys.argv = ["roofmodel", "cut", str(job), "--out", "papers", "--effort", "quick", "--json"]
code = __main__.main()
window = [name for name in ("PySide6", "pyvista", "vtkmodules") if name in sys.modules]
Path("told.json").write_text(json.dumps({"code": code, "where": where, "window": window}))
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Build the wheel with the tool and the settings that pyproject.toml names."""
    folder = tmp_path_factory.mktemp("dist")
    built = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=CHECKOUT,
        capture_output=True,
        text=True,
    )
    assert built.returncode == 0, built.stderr
    (found,) = folder.glob("*.whl")
    return found


def clean(**more):
    """Return an environment that leads to no checkout."""
    ours = {"PYTHONPATH", "PYTHONSAFEPATH", "ROOFMODEL_CATALOGUE", "ROOFMODEL_FIRM"}
    return {name: value for name, value in os.environ.items() if name not in ours} | more


def check_main_job(python, folder, **variables):
    """Lay, nest and draw a sample in a folder of its own, and look at what came out."""
    ended = subprocess.run(
        [str(python), "-c", MAIN_JOB],
        cwd=folder,
        env=clean(**variables),
        capture_output=True,
        text=True,
    )
    assert ended.returncode == 0, ended.stderr
    told = json.loads((folder / "told.json").read_text(encoding="utf-8"))
    plans = json.loads(ended.stdout)["plans"]
    assert told["code"] == 0
    assert told["window"] == []
    assert CHECKOUT not in Path(told["where"]).parents
    assert (
        sum(plan["sheets"] for plan in plans) == len(list((folder / "papers").rglob("*.dxf"))) - 1
    )


def test_an_unpacked_wheel_does_the_main_job_away_from_the_checkout(wheel, tmp_path):
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(tmp_path / "site")

    (tmp_path / "work").mkdir()
    check_main_job(sys.executable, tmp_path / "work", PYTHONPATH=str(tmp_path / "site"))


def test_the_wheel_says_whose_it_is_and_carries_its_types(wheel):
    with zipfile.ZipFile(wheel) as packed:
        names = packed.namelist()
        (place,) = [name for name in names if name.endswith(".dist-info/METADATA")]
        told = message_from_string(packed.read(place).decode())

    assert told["License-Expression"] == "MIT"
    assert told["Author"] == "The roofmodel contributors"
    assert "roofmodel/py.typed" in names
    assert any(name.endswith("licenses/LICENSE") for name in names)
    pythons = [one.rpartition(" ")[2] for one in told.get_all("Classifier") if ":: 3." in one]
    assert tuple(pythons) == PROMISED
    needed = [one for one in told.get_all("Requires-Dist") if "extra ==" not in one]
    assert [one for one in needed if "pyside" in one.lower() or "vista" in one.lower()] == []


def interpreter(version):
    """Return the Python of a version that is installed here, if any, as `run` looks for it."""
    own = Path(os.environ.get("PYENV_ROOT") or Path.home() / ".pyenv") / "versions"
    candidates = [f"python{version}", *map(str, own.glob(f"{version}*/bin/python3"))]
    for candidate in candidates:
        try:
            asked = [candidate, "-I", "-c", "import sys; print('%d.%d' % sys.version_info[:2])"]
            told = subprocess.run(asked, capture_output=True, text=True).stdout.strip()
        except OSError:
            continue
        if told == version:
            return candidate
    return None


@pytest.mark.slow
@pytest.mark.parametrize("version", PROMISED)
def test_the_wheel_does_the_main_job_in_an_empty_environment(version, wheel, tmp_path):
    """Installed with what the metadata ask for and nothing else; needs a package registry."""
    base = interpreter(version)
    if base is None:
        pytest.skip(f"there is no Python {version} here")
    python = tmp_path / "env" / "bin" / "python"
    subprocess.run([base, "-I", "-m", "venv", str(tmp_path / "env")], check=True, env=clean())
    # The versions of the lock, without its hashes: the wheel itself has none.
    pinned = [
        line.split(" ", 1)[0]
        for line in (CHECKOUT / "requirements.lock").read_text(encoding="utf-8").splitlines()
        if line[:1].isalnum()
    ]
    (tmp_path / "pinned.txt").write_text("\n".join(pinned), encoding="utf-8")
    install = ["-m", "pip", "install", "--quiet", "--only-binary", ":all:", "--constraint"]
    subprocess.run(
        [str(python), "-I", *install, str(tmp_path / "pinned.txt"), str(wheel)],
        check=True,
        env=clean(),
    )

    (tmp_path / "work").mkdir()
    check_main_job(python, tmp_path / "work")
    command = tmp_path / "env" / "bin" / "roofmodel"
    told = subprocess.run([str(command), "--help"], capture_output=True, text=True, env=clean())
    assert "facts" in told.stdout
