"""The faults that are planted are the ones a pen slips into, and no others."""

import ast

from tests.mutation import run
from tests.mutation.mutants import mutants


def planted(text):
    return [one.name for one in mutants(text)]


def test_comparisons_are_moved_to_their_limit_and_turned_round():
    assert planted("a < b") == ["a < b → a <= b", "a < b → a >= b"]
    assert planted("0 < a <= b")[:4] == [
        "0 < a <= b → 0 <= a <= b", "0 < a <= b → 0 >= a <= b",
        "0 < a <= b → 0 < a < b", "0 < a <= b → 0 < a > b",
    ]  # fmt: skip


def test_sums_limits_and_conditions_are_mistaken_for_one_another():
    assert planted("a + b * 2") == ["a + b * 2 → a - b * 2", "b * 2 → b / 2", "2 → 3"]
    assert planted("x = min(a, b)") == ["min(a, b) → max(a, b)"]
    assert planted("a and not b") == ["a and (not b) → a or not b", "not b → b"]
    assert planted("part = a if ready else b")[0].endswith("→ a if not ready else b")
    assert planted("found.append(1)")[0] == "found.append(1) → pass"
    assert planted("PENNY = Decimal('0.01')") == ["Decimal('0.01') → Decimal('1.01')"]


def test_words_notes_and_what_only_the_reader_sees_are_left_alone():
    text = '''
@dataclass(frozen=True)
class Roof:
    """A roof of 3 facets."""
    pitch_deg: Annotated[float, 3]
    words = f"{pitch_deg + 1} of 2"
'''
    assert planted(text) == []


def test_a_mutant_differs_from_its_module_in_one_place():
    text = "def area(a, b):\n    return a * b if a > 0 else 0\n"
    for mutant in mutants(text):
        changed = ast.unparse(mutant.tree)
        assert changed != ast.unparse(ast.parse(text))
        compile(mutant.tree, "area", "exec")


def test_a_sample_is_drawn_from_every_module_and_comes_out_the_same_by_its_seed(tmp_path):
    files = []
    for name in ("hip", "valley"):
        files.append(tmp_path / f"{name}.py")
        files[-1].write_text("\n".join(f"a{i} < b{i}" for i in range(40)), encoding="utf-8")

    def names(found):
        return [(file.stem, one.name) for file, some in found.items() for one in some]

    sample = names(run.drawn(files, 10, 1))
    assert len(set(sample)) == 10
    assert {stem for stem, _ in sample} == {"hip", "valley"}
    assert sample == names(run.drawn(files, 10, 1)) != names(run.drawn(files, 10, 2))
    assert len(names(run.drawn(files, None, 1))) == 160
