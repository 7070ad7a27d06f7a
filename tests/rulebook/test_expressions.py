"""Text to syntax: every form with its places, and what is said of a text that cannot be read, with its columns."""

from __future__ import annotations

import pytest

from kitproof.rulebook import syntax
from kitproof.rulebook.expressions import UnreadableError, parse
from kitproof.rulebook.syntax import Arithmetic, Comparison, Name, Number, Quoted
from kitproof.words.units import UNITS

A, B = Name(("a",), 0, 1), Name(("b",), 4, 5)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("3", Number(3.0, "", 0, 1)),
        ("2.5 kg", Number(2.5, "kg", 0, 6)),
        ("5kg", Number(5.0, "kg", 0, 3)),
        ("5 m²", Number(5.0, "m²", 0, 4)),
        ("-5 °C", Number(-5.0, "°C", 0, 5)),
        ("-(5 kg)", Number(-5.0, "kg", 0, 7)),
        ('"x y"', Quoted("x y", 0, 5)),
        ("'x'", Quoted("x", 0, 3)),
        ("“x”", Quoted("x", 0, 3)),
        ("a.b.c", Name(("a", "b", "c"), 0, 5)),
        ("  a  ", Name(("a",), 2, 3)),
        ("(a)", Name(("a",), 1, 2)),
        ("-a", syntax.Negative(Name(("a",), 1, 2), 0, 2)),
        ("a + b", Arithmetic("+", A, B, 0, 5)),
        ("a * b", Arithmetic("*", A, B, 0, 5)),
        ("a < b", Comparison("<", A, B, 0, 5)),
        ("abs(a)", syntax.Function("abs", (Name(("a",), 4, 5),), 0, 6)),
        ("min(a, b)", syntax.Function("min", (Name(("a",), 4, 5), Name(("b",), 7, 8)), 0, 9)),
        ("a within b", syntax.Within(A, Name(("b",), 9, 10), 0, 10)),
        ('a is one of "x", "y"', syntax.OneOf(A, (Quoted("x", 12, 15), Quoted("y", 17, 20)), 0, 20)),
        ("a is known", syntax.IsKnown(A, 0, 10)),
        ("a is there", syntax.IsThere(A, 0, 10)),
        ("not a", syntax.Not(Name(("a",), 4, 5), 0, 5)),
        ("a and b", syntax.Both((A, Name(("b",), 6, 7)), 0, 7)),
        ("a or b", syntax.Either((A, Name(("b",), 5, 6)), 0, 6)),
        ("count(a)", syntax.CountOf(Name(("a",), 6, 7), "", None, 0, 8)),
        ("count(a in b where c)", syntax.CountOf(Name(("b",), 11, 12), "a", Name(("c",), 19, 20), 0, 21)),
        ("any a in b where c", syntax.Quantifier(False, "a", Name(("b",), 9, 10), Name(("c",), 17, 18), 0, 18)),
        ("no a in b where c", syntax.Quantifier(True, "a", Name(("b",), 8, 9), Name(("c",), 16, 17), 0, 17)),
        ("sum(a for b in c)", syntax.SumOf(Name(("c",), 15, 16), "b", Name(("a",), 4, 5), None, 0, 17)),
        (
            "sum(a for b in c where d)",
            syntax.SumOf(Name(("c",), 15, 16), "b", Name(("a",), 4, 5), Name(("d",), 23, 24), 0, 25),
        ),
    ],
)
def test_every_form_is_read_with_its_places(text: str, read: syntax.Expression) -> None:
    assert parse(text) == read


def test_every_unit_is_read_whole_though_it_begin_with_another() -> None:
    for unit in UNITS:
        assert parse(f"3 {unit}") == Number(3.0, unit, 0, 2 + len(unit))
        assert parse(f"3{unit}") == Number(3.0, unit, 0, 1 + len(unit))


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("a ≤ b", "a <= b"),
        ("a ≥ b", "a >= b"),
        ("a ≠ b", "a != b"),
        ("a − b", "a - b"),
        ("a – b", "a - b"),
        ("a × b", "a * b"),
        ("a ÷ b", "a / b"),
    ],
)
def test_a_sign_that_is_set_properly_is_the_one_of_the_keyboard(text: str, plain: str) -> None:
    one, other = parse(text), parse(plain)
    assert isinstance(one, Arithmetic | Comparison)
    assert isinstance(other, Arithmetic | Comparison)
    assert one.sign == other.sign


def test_products_bind_closer_than_sums_and_and_than_or() -> None:
    sums = parse("a + b * c - d")
    assert isinstance(sums, Arithmetic)
    assert (sums.sign, sums.end) == ("-", 13)
    assert isinstance(sums.left, Arithmetic)
    assert sums.left.sign == "+"
    assert isinstance(parse("a and b or c"), syntax.Either)
    assert isinstance(parse("(a or b) and c"), syntax.Both)
    last = parse("a and not any b in c where d")
    assert isinstance(last, syntax.Both)
    assert isinstance(last.parts[1], syntax.Not)
    assert isinstance(last.parts[1].of, syntax.Quantifier)
    last = parse("a or b and any c in d where e")
    assert isinstance(last, syntax.Either)
    assert isinstance(last.parts[1], syntax.Both)
    assert isinstance(last.parts[1].parts[1], syntax.Quantifier)
    inside = parse("any a in b where c and d or e")
    assert isinstance(inside, syntax.Quantifier)
    assert isinstance(inside.where, syntax.Either)


# The stretch that is marked stands between « and ».
UNREADABLE = [
    ("«»", "an expression is wanted here"),
    ("«   »", "an expression is wanted here"),
    ("a «==» b", "write = in place of =="),
    ("a «&» b", "write and in place of &"),
    ("a «&&» b", "write and in place of &&"),
    ("a «|» b", "write or in place of |"),
    ("a «||» b", "write or in place of ||"),
    ("«!» a", "write not in place of !"),
    ("a «<>» 3", "write != in place of <>"),
    ("a «=>» 3", "write >= in place of =>"),
    ("a «=<» 3", "write <= in place of =<"),
    ("a «^» 2", "write a product in place of ^"),
    ("a = 3 «=» b", "one comparison at a time: join two with `and`"),
    ("a > 3 «<=» b", "one comparison at a time: join two with `and`"),
    ("a > 3 «>=» b", "one comparison at a time: join two with `and`"),
    ("a > 3 «!=» b", "one comparison at a time: join two with `and`"),
    ("a > 3 «≤» b", "one comparison at a time: join two with `and`"),
    ("a = «=» 3", "one comparison at a time: join two with `and`"),
    ("a > 10 «50»", "no comma inside a number: write 1050 or 6.4"),
    ("a > 6«,»4 kg", "no comma inside a number: write 1050 or 6.4"),
    ("a«,» b", ', cannot stand here after "a"'),
    ("a > 3.5 «klio»", "klio is not a unit known here. The nearest is kilo."),
    ("a > 3 «km/h²x»", "km/h²x is not a unit known here. The nearest is km/h."),
    ("x3 «klio» > 2", 'klio cannot stand here after "x3"'),
    ("a «b»", 'b cannot stand here after "a"'),
    ("a «;» b", '; cannot stand here after "a"'),
    ("head.ratd«.» > 3", '. cannot stand here after "head.ratd"'),
    ("«>» 3", "one comparison at a time: join two with `and`"),
    ("«(»a > 3", "the parenthesis that opens here is not closed"),
    ("(b or «(»a", "the parenthesis that opens here is not closed"),
    ("a > 3«)»", "this parenthesis closes nothing, or something is wanted before it"),
    ("«)» a", "this parenthesis closes nothing, or something is wanted before it"),
    ("a = «'»x", "the quote that opens here is not closed"),
    ("a = «“»x", "the quote that opens here is not closed"),
    ("a = «”»", "the quote that opens here is not closed"),
    ("a «+» ", 'the expression stops too early: something is wanted after "+"'),
    ("(a) «+»  ", 'the expression stops too early: something is wanted after "+"'),
    ("«;» b", "; cannot stand here"),
    ("«>» a =", "one comparison at a time: join two with `and`"),
    ("a «\n» b", '\n cannot stand here after "a"'),
    ("«not»", 'the expression stops too early: something is wanted after "not"'),
    ("any p in parts «where»", 'the expression stops too early: something is wanted after "where"'),
    ("any p in «held.parts»  ", 'after "held.parts" a `where` and a condition are wanted'),
    ("«A.b» > 3", "A.b cannot stand here: names are written in small letters"),
    ("a «is» 3", 'after `is` write `known`, `there` or `one of "…"`; `not` stands first'),
    ("any «p.q» in b where c", "the name before `in` stands for each one in turn: write one word"),
    ("count(«p.q» in b where c)", "the name before `in` stands for each one in turn: write one word"),
    ("sum(a for «p.q» in b)", "the name before `in` stands for each one in turn: write one word"),
]


@pytest.mark.parametrize(("marked", "says"), UNREADABLE, ids=[each[0] for each in UNREADABLE])
def test_what_cannot_be_read_is_said_at_its_place(marked: str, says: str) -> None:
    start, end = marked.index("«"), marked.index("»") - 1
    with pytest.raises(UnreadableError) as found:
        parse(marked.replace("«", "").replace("»", ""))
    assert found.value.says == str(found.value) == says
    assert found.value.start == start
    assert found.value.end == max(end, start + 1)  # at least one place, though there be nothing
