"""The faults that are planted are the ones a pen slips into, and no others."""

import ast

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
