"""What an expression reads as, before names and dimensions are checked. `start` and `end` are places in its text."""

from __future__ import annotations

from msgspec import Struct


class Number(Struct, frozen=True):
    """A number as written and its unit, "" where there is none."""

    written: float
    unit: str
    start: int
    end: int


class Quoted(Struct, frozen=True):
    text: str
    start: int
    end: int


class Name(Struct, frozen=True):
    """A name, with what it leads on to: `head.rated` is two words."""

    words: tuple[str, ...]
    start: int
    end: int


class Negative(Struct, frozen=True):
    of: Expression
    start: int
    end: int


class Arithmetic(Struct, frozen=True):
    """`sign` is one of + - * /."""

    sign: str
    left: Expression
    right: Expression
    start: int
    end: int


class Function(Struct, frozen=True):
    """min, max or abs."""

    function: str
    of: tuple[Expression, ...]
    start: int
    end: int


class CountOf(Struct, frozen=True):
    """How many are in a set; with a variable, how many of them hold the condition."""

    of: Name
    variable: str
    where: Expression | None
    start: int
    end: int


class SumOf(Struct, frozen=True):
    """`what` of each in a set added up; with `where`, of those that hold the condition."""

    of: Name
    variable: str
    what: Expression
    where: Expression | None
    start: int
    end: int


class Comparison(Struct, frozen=True):
    """`sign` is one of = != < > <= >=."""

    sign: str
    left: Expression
    right: Expression
    start: int
    end: int


class Within(Struct, frozen=True):
    left: Expression
    right: Expression
    start: int
    end: int


class OneOf(Struct, frozen=True):
    left: Expression
    words: tuple[Quoted, ...]
    start: int
    end: int


class IsKnown(Struct, frozen=True):
    of: Expression
    start: int
    end: int


class IsThere(Struct, frozen=True):
    of: Expression
    start: int
    end: int


class Not(Struct, frozen=True):
    of: Expression
    start: int
    end: int


class Both(Struct, frozen=True):
    """`and` of two or more."""

    parts: tuple[Expression, ...]
    start: int
    end: int


class Either(Struct, frozen=True):
    """`or` of two or more."""

    parts: tuple[Expression, ...]
    start: int
    end: int


class Quantifier(Struct, frozen=True):
    """`any X in SET where …`; `no` is its `not`."""

    no: bool
    variable: str
    of: Name
    where: Expression
    start: int
    end: int


Expression = (
    Number
    | Quoted
    | Name
    | Negative
    | Arithmetic
    | Function
    | CountOf
    | SumOf
    | Comparison
    | Within
    | OneOf
    | IsKnown
    | IsThere
    | Not
    | Both
    | Either
    | Quantifier
)


def names_in(of: Expression) -> list[Name]:
    """Every name in an expression, those of sets included."""
    if isinstance(of, Name):
        return [of]
    return [name for part in _parts(of) for name in names_in(part)]


def _parts(of: Expression) -> tuple[Expression, ...]:
    if isinstance(of, Negative | Not | IsKnown | IsThere):
        return (of.of,)
    if isinstance(of, Arithmetic | Comparison | Within):
        return (of.left, of.right)
    if isinstance(of, Function):
        return of.of
    if isinstance(of, Both | Either):
        return of.parts
    if isinstance(of, OneOf):
        return (of.left,)
    if isinstance(of, Quantifier):
        return (of.of, of.where)
    if isinstance(of, CountOf):
        return (of.of,) if of.where is None else (of.of, of.where)
    if isinstance(of, SumOf):
        return (of.of, of.what) if of.where is None else (of.of, of.what, of.where)
    return ()
