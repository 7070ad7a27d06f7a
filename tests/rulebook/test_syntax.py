"""What an expression names, through every form that it can take."""

from __future__ import annotations

import pytest

from kitproof.rulebook.expressions import parse
from kitproof.rulebook.syntax import names_in


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("a", ["a"]),
        ("head.rated", ["head.rated"]),
        ("12 kg", []),
        ("-a + b * c", ["a", "b", "c"]),
        ("max(a, b, abs(c))", ["a", "b", "c"]),
        ("a > b", ["a", "b"]),
        ("a within b", ["a", "b"]),
        ('a is one of "x", "y"', ["a"]),
        ("a is known", ["a"]),
        ("a is there", ["a"]),
        ("not a", ["a"]),
        ("a and b or c", ["a", "b", "c"]),
        ("any p in parts where p.mass > a", ["parts", "p.mass", "a"]),
        ("no p in parts where p.upright", ["parts", "p.upright"]),
        ("count(parts)", ["parts"]),
        ("count(p in parts where p.upright)", ["parts", "p.upright"]),
        ("sum(p.mass for p in parts)", ["parts", "p.mass"]),
        ("sum(p.mass for p in parts where p.upright)", ["parts", "p.mass", "p.upright"]),
    ],
)
def test_every_name_in_an_expression_is_found(text: str, names: list[str]) -> None:
    assert [".".join(name.words) for name in names_in(parse(text))] == names
