"""Plants small faults in a room, one at a time, and says which of them its tests let pass.

./run mutants pricing                  every module of a room
./run mutants cutting/nesting/verify   one module
./run mutants survey/fit --sample 40   forty faults, drawn from all of the room by a seed

A fault a test sees is killed; one that makes the tests run on and on counts as killed too. One that
no test can see, because the program does the same with it, stands with its reason in
tests/mutation/explained.toml. What passed is listed again at the end. Ends with 1 where fewer than
nine in ten are killed or explained, or where the tests of a module fail as it is.
"""

import argparse
import importlib.abc
import importlib.util
import io
import os
import signal
import sys
import tempfile
import tomllib
from collections.abc import Sequence
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import numpy
import pydantic
import pytest
import scipy.optimize
import shapely

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.mutation.mutants import Mutant, mutants

CHECKOUT = Path(__file__).resolve().parents[2]

LOADED_ONCE = (numpy, pydantic, scipy, shapely)
"""Large libraries are loaded before the first fault, so that each has only ours to load."""

ENOUGH = 0.9
KILLED, SURVIVED = 1, 0
_TRIES = 3
ALSO = {
    # The laws of the kernel that hold on whole roofs stand in the room above it.
    "geometry": [
        "tests/shapes/test_roof.py",
        "tests/shapes/test_plan.py",
        "tests/worked_examples/test_corner_angles.py",
    ],
    "cutting/nesting": ["tests/cutting/test_plan.py"],
    "cutting/parts": ["tests/cutting/nesting/test_verify.py"],
    "gates": ["tests/worked_examples"],
    "standards": ["tests/worked_examples"],
    "quantities": ["tests/worked_examples/test_acceptance_take_off.py"],
}
"""Tests of a room that stand elsewhere."""

ABOVE_CUTTING = {"workbench", "drawings", "storage", "comparison", "pricing", "programme", "cli"}
"""Rooms whose faults do not change a cutting plan, so that plans made once serve all of them."""


class _Planted(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads one module from a changed tree, and leaves all others alone."""

    def __init__(self, module: str, file: Path, mutant: Mutant) -> None:
        self.module, self.file, self.mutant = module, file, mutant

    def find_spec(self, name: str, path: object = None, target: object = None) -> object:
        """Answer for the planted module only."""
        if name != self.module:
            return None
        return importlib.util.spec_from_file_location(name, self.file, loader=self)

    def create_module(self, spec: object) -> None:
        """Leave the making of the module to Python."""

    def exec_module(self, module: object) -> None:
        """Carry out the changed text."""
        exec(compile(self.mutant.tree, str(self.file), "exec"), vars(module))


def tests_of(file: Path) -> list[list[str]]:
    """Return the tests of a module: those of its name, then those of its room."""
    place = file.relative_to(CHECKOUT / "roofmodel")
    own = sorted((CHECKOUT / "tests" / place.parent).glob(f"test_{file.stem}*.py"))
    room = (
        [CHECKOUT / "tests" / place.parent] if (CHECKOUT / "tests" / place.parent).is_dir() else []
    )
    more = [one for key, found in ALSO.items() if place.as_posix().startswith(key) for one in found]
    rounds = [[str(one) for one in own], [*(str(one) for one in room), *more]]
    return [one for one in rounds if one]


def outcome(rounds: Sequence[Sequence[str]], planted: _Planted | None, *, seconds: int) -> int:
    """Return 1 when a test in a process of its own sees the fault, 0 when none does.

    Raises
    ------
    ChildProcessError
        If the process is ended from outside, again and again.
    """
    for _ in range(_TRIES):
        child = os.fork()
        if child == 0:
            signal.alarm(seconds)  # ends this process: a fault that never ends has been seen
            os._exit(_seen(rounds, planted))
        _, status = os.waitpid(child, 0)
        if not os.WIFSIGNALED(status):
            return os.WEXITSTATUS(status)
        if os.WTERMSIG(status) == signal.SIGALRM:
            return KILLED
    raise ChildProcessError(f"{rounds[0][0]} is ended by signal {os.WTERMSIG(status)}.")


@cache
def sound(chosen: tuple[str, ...], seconds: int) -> bool:
    """Return whether tests pass as it is; those of a room are asked once for all its modules."""
    return outcome([chosen], None, seconds=seconds) == SURVIVED


def _seen(rounds: Sequence[Sequence[str]], planted: _Planted | None) -> int:
    if planted is not None:
        sys.meta_path.insert(0, planted)
    silence = io.StringIO()
    for chosen in rounds:
        with redirect_stdout(silence), redirect_stderr(silence):
            how = ["-x", "-q", "-p", "no:randomly", "-p", "no:cacheprovider", "-p", "no:xdist"]
            code = pytest.main([*how, *chosen])
        if code != 0:
            return KILLED
    return SURVIVED


def explained() -> dict[tuple[str, str], str]:
    """Return the reasons of faults no test can see, by module and name."""
    told = tomllib.loads((Path(__file__).parent / "explained.toml").read_text(encoding="utf-8"))
    return {(one["module"], one["fault"]): one["reason"] for one in told.get("fault", [])}


def modules(asked: str) -> list[Path]:
    """Return the files of a room, or of one module."""
    place = CHECKOUT / "roofmodel" / asked
    if place.is_dir():
        return [one for one in sorted(place.rglob("*.py")) if one.name != "__init__.py"]
    return [place.with_suffix(".py")]


def say(words: str) -> None:
    """Print one line at once."""
    print(words, flush=True)  # noqa: T201 - this is its output


def drawn(files: Sequence[Path], sample: int | None, seed: int) -> dict[Path, list[Mutant]]:
    """Return the faults to plant in each file: all of them, or so many drawn from all files."""
    every = ((file, one) for file in files for one in mutants(file.read_text(encoding="utf-8")))
    chance = numpy.random.default_rng(seed)
    kept: list[tuple[Path, Mutant]] = []
    # Each fault is a whole module, so a few are held while thousands go by (Waterman's reservoir).
    for count, one in enumerate(every):
        if sample is None or count < sample:
            kept.append(one)
        elif (place := int(chance.integers(count + 1))) < sample:
            kept[place] = one
    found: dict[Path, list[Mutant]] = {}
    for file, mutant in sorted(kept, key=lambda pair: (pair[0], pair[1].line)):
        found.setdefault(file, []).append(mutant)
    return found


@dataclass
class Count:
    """Faults planted, killed, explained; those no test saw; modules whose tests fail as it is."""

    planted: int = 0
    killed: int = 0
    known: int = 0
    unseen: list[str] = field(default_factory=list)
    broken: list[str] = field(default_factory=list)

    def of_module(self, file: Path, planted: Sequence[Mutant], *, seconds: int) -> None:
        """Plant the faults of one module and add up."""
        place = file.relative_to(CHECKOUT).with_suffix("")
        dotted, name = ".".join(place.parts), Path(*place.parts[1:]).as_posix()
        rounds = tests_of(file)
        failing = [one for one in rounds if not sound(tuple(one), 10 * seconds)]
        if failing or not rounds:
            why = f"{' '.join(failing[0])} fails as it is" if failing else "no tests"
            say(f"{name}: {why}; left out")
            self.broken.append(name)
            return
        reasons = explained()
        unseen = []
        for mutant in planted:
            self.planted += 1
            if (name, mutant.name) in reasons:
                self.known += 1
            elif outcome(rounds, _Planted(dotted, file, mutant), seconds=seconds) == KILLED:
                self.killed += 1
            else:
                unseen.append(f"{name}:{mutant.line}: {mutant.name}")
                say(f"  passed unseen: {unseen[-1]}")
        self.unseen += unseen
        say(f"{name}: {len(planted)} faults, {len(unseen)} passed unseen")


def main() -> int:
    """Plant faults in what was asked for, and add up."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("places", nargs="+", help="rooms or modules, such as cutting/nesting")
    parser.add_argument("--sample", type=int, help="plant only so many of all faults")
    parser.add_argument("--seed", type=int, default=1, help="which are drawn; the same every time")
    parser.add_argument("--seconds", type=int, default=300, help="tests may take so long")
    asked = parser.parse_args()
    os.environ["CI"] = "1"  # random input comes out the same every time
    files = [file for place in asked.places for file in modules(place)]
    count = Count()
    with tempfile.TemporaryDirectory() as kept:
        for file, planted in drawn(files, asked.sample, asked.seed).items():
            if file.relative_to(CHECKOUT / "roofmodel").parts[0] in ABOVE_CUTTING:
                os.environ["ROOFMODEL_KEPT_PLANS"] = kept
            else:
                # A plan made by a planted fault, or before it was planted, proves nothing.
                os.environ.pop("ROOFMODEL_KEPT_PLANS", None)
            count.of_module(file, planted, seconds=asked.seconds)
    for one in count.unseen:
        say(f"passed unseen: {one}")
    share = (count.killed + count.known) / count.planted if count.planted else 1.0
    say(
        f"{count.planted} faults: {count.killed} killed, {count.known} explained, "
        f"{100 * share:.1f} %"
    )
    return 0 if share >= ENOUGH and not count.broken else 1


if __name__ == "__main__":
    sys.exit(main())
