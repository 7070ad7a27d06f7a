"""The tool itself: what it changes, that it puts a change in, and that the list of survivors is in order."""

from __future__ import annotations

import ast
from collections.abc import Callable

import pytest

from kitproof.mechanics import ranges
from tests.mutants import known, trying
from tests.mutants.changes import Mutant, changed, mutants_of
from tests.mutants.live import Live, path_of

SOURCE = '''
"""Words about it."""

NEAR = 0.5


def least(one: float, other: float = 2.0) -> float:
    """The lesser."""
    assert one >= 0
    if one <= other and not one > NEAR:
        return min(one, other)
    return other


class Pair:
    most: int = 3

    def sum(self, of: object) -> float:
        total = 0.0
        for each in of[1:]:
            total += each
        return total + self.most
'''


def shown(source: str) -> set[tuple[str, str, str]]:
    return {(each.function, each.was, each.now) for each in mutants_of("a/b", source)}


def test_each_kind_of_change_is_made_where_it_can_be() -> None:
    assert shown(SOURCE) == {
        ("NEAR", "0.5", "0.75"),
        ("least", "2.0", "3.0"),
        ("least", "one <= other and (not one > NEAR)", "one <= other or not one > NEAR"),
        ("least", "one <= other and (not one > NEAR)", "one <= other"),
        ("least", "one <= other and (not one > NEAR)", "not one > NEAR"),
        ("least", "one <= other and (not one > NEAR)", "False"),
        ("least", "one <= other and (not one > NEAR)", "True"),
        ("least", "one <= other and (not one > NEAR)", "one < other and (not one > NEAR)"),
        ("least", "one <= other and (not one > NEAR)", "one > other and (not one > NEAR)"),
        ("least", "one <= other and (not one > NEAR)", "one <= other and one > NEAR"),
        ("least", "not one > NEAR", "not one >= NEAR"),
        ("least", "not one > NEAR", "not one <= NEAR"),
        ("least", "return min(one, other)", "return None"),
        ("least", "min(one, other)", "max(one, other)"),
        ("least", "return other", "return None"),
        ("Pair.sum", "0.0", "1.0"),
        ("Pair.sum", "of[1:]", "of[:]"),
        ("Pair.sum", "1:", "2:"),
        ("Pair.sum", "total += each", "pass"),
        ("Pair.sum", "return total + self.most", "return None"),
        ("Pair.sum", "total + self.most", "total - self.most"),
    }


@pytest.mark.parametrize("module", ["mechanics/regions", "rulebook/truths"])
def test_every_change_of_a_module_compiles_and_has_a_name_of_its_own(module: str) -> None:
    source = path_of(module).read_text(encoding="utf-8")
    mutants = mutants_of(module, source)
    assert len({each.name for each in mutants}) == len(mutants) > 0
    tree = ast.dump(ast.parse(source))
    for each in mutants:
        statement = changed(ast.parse(source), each)
        compile(ast.Module([statement], []), module, "exec")
        assert ast.dump(statement) not in tree, each.name


def test_a_change_is_known_by_its_text_wherever_its_lines_move_to() -> None:
    moved = "\n\n# more words\n" + SOURCE
    assert [each.name for each in mutants_of("a/b", moved)] == [each.name for each in mutants_of("a/b", SOURCE)]


def _is(mutant: Mutant, function: str, was: str, now: str) -> bool:
    return mutant.function == function and was in mutant.was and now in mutant.now


def _mutant(function: str, was: str, now: str) -> Mutant:
    source = path_of("mechanics/ranges").read_text(encoding="utf-8")
    return next(each for each in mutants_of("mechanics/ranges", source) if _is(each, function, was, now))


@pytest.mark.parametrize(
    ("function", "was", "now", "asked", "answer"),
    [
        ("add", "a[0] + b[0]", "a[0] - b[0]", lambda: ranges.add((2, 3), (1, 1)), [1, 4]),
        ("times", "return 0.0 if a == 0 or b == 0 else a * b", "return None", lambda: ranges.times(2, 3), None),
    ],
)
def test_a_change_is_put_in_for_one_process_only(
    function: str, was: str, now: str, asked: Callable[[], object], answer: object
) -> None:
    before = asked()
    mutant, live = _mutant(function, was, now), Live()

    def work() -> object:
        live.put_in(mutant)
        return asked()

    assert trying.in_a_process_of_its_own(work) == (answer, 0)
    assert asked() == before


def test_what_goes_wrong_in_a_process_of_its_own_is_said() -> None:
    answer, _ = trying.in_a_process_of_its_own(lambda: 1 / 0)
    assert answer == {"problem": "ZeroDivisionError: division by zero"}


def test_every_survivor_is_of_a_module_that_there_is_once_and_has_a_reason() -> None:
    listed = known.known()
    assert [each for each in listed if not path_of(each.module).exists() or not each.reason.strip()] == []
    assert len({each.name for each in listed}) == len(listed)


def test_a_survivor_is_read_back_as_it_is_written_down() -> None:
    for was, now in [("a < b", "a <= b"), ("'x' in y", "'x~' in y"), ("'a\\n' + \"'\"", '"\\n"')]:
        name = ("mechanics/ranges", "square", was, now, 2)
        (back,) = known.read(known.entry(name))
        assert back.name == name


def test_an_entry_whose_code_is_gone_is_stale() -> None:
    entry = known.Known("mechanics/ranges", "square", "gone", "went", 1, "it was so")
    assert known.stale([entry], set(), {"mechanics/ranges"}) == [entry]
    assert known.stale([entry], set(), {"mechanics/arcs"}) == []
    assert known.stale([entry], {entry.name}, {"mechanics/ranges"}) == []
