"""Text of an expression to its syntax, by `grammar/expression.lark`; mistakes are said in a person's words."""

from __future__ import annotations

import re
from functools import cache

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedInput, UnexpectedToken
from lark.lexer import PatternRE, TerminalDef

from kitproof.rulebook import syntax
from kitproof.rulebook.errors import did_you_mean
from kitproof.words.shipped import folder
from kitproof.words.units import UNITS

SIGNS = {"≤": "<=", "≥": ">=", "≠": "!=", "−": "-", "–": "-", "×": "*", "÷": "/"}
BORROWED = {
    "==": "=",
    "&&": "and",
    "&": "and",
    "||": "or",
    "|": "or",
    "!": "not",
    "<>": "!=",
    "=>": ">=",
    "=<": "<=",
    "^": "a product",
}


class UnreadableError(Exception):
    """An expression that cannot be read: what is wrong, and from where to where in its text."""

    def __init__(self, says: str, start: int, end: int) -> None:
        super().__init__(says)
        self.says, self.start, self.end = says, start, end


def _unit_pattern() -> str:
    names = sorted(UNITS, reverse=True)  # a name before those that it begins with
    return "(?:" + "|".join(re.escape(name) for name in names) + r")(?![\w²^])"


def fill_units(terminal: TerminalDef) -> None:
    """Gives the terminal UNIT every unit of the table of units."""
    if terminal.name == "UNIT":
        terminal.pattern = PatternRE(_unit_pattern())


@cache
def _parser() -> Lark:
    grammar = (folder("grammar") / "expression.lark").read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", propagate_positions=True, edit_terminals=fill_units)


def parse(text: str) -> syntax.Expression:
    """Reads an expression. Raises UnreadableError with the place of what cannot be read."""
    if not text.strip():
        raise UnreadableError("an expression is wanted here", 0, max(len(text), 1))
    try:
        return _built(_parser().parse(text).children[0])
    except UnexpectedInput as slip:
        raise _explained(text, slip) from None
    except RecursionError:
        raise UnreadableError("this is nested more deeply than a rule needs", 0, len(text)) from None


def _built(node: Tree[Token] | Token) -> syntax.Expression:
    """The syntax of one node of the grammar's tree."""
    assert isinstance(node, Tree), "every rule that the grammar keeps is a tree"
    start, end = node.meta.start_pos, node.meta.end_pos
    parts = [child for child in node.children if isinstance(child, Tree)]
    words = [child for child in node.children if isinstance(child, Token)]
    rule = str(node.data)
    if rule in _LEAVES:
        return _leaf(rule, words, start, end)
    of = [_built(part) for part in parts]
    if rule in ("closed_and", "open_and"):
        return syntax.Both(tuple(of), start, end)
    if rule in ("closed_or", "open_or"):
        return syntax.Either(tuple(of), start, end)
    if rule in ("closed_not", "open_not"):
        return syntax.Not(of[0], start, end)
    if rule in ("plus", "times", "comparison"):
        return _of_two(rule, SIGNS.get(words[0], str(words[0])), of, start, end)
    if rule in ("quantifier", "count", "sum"):
        return _over_set(rule, words, of, start, end)
    return _of_one(rule, words, of, start, end)


_LEAVES = ("amount", "name", "quoted")


def _leaf(rule: str, words: list[Token], start: int, end: int) -> syntax.Expression:
    if rule == "amount":
        unit = str(words[1]) if len(words) > 1 else ""
        return syntax.Number(float(words[0]), unit, start, end)
    if rule == "name":
        return _name(words[0])
    return _quoted(words[0])


def _start(word: Token) -> int:
    assert word.start_pos is not None, "the reader keeps the place of every word"
    return word.start_pos


def _name(word: Token) -> syntax.Name:
    start = _start(word)
    return syntax.Name(tuple(word.split(".")), start, start + len(word))


def _quoted(word: Token) -> syntax.Quoted:
    start = _start(word)
    return syntax.Quoted(str(word[1:-1]), start, start + len(word))


def _of_two(rule: str, sign: str, of: list[syntax.Expression], start: int, end: int) -> syntax.Expression:
    if rule == "comparison":
        return syntax.Comparison(sign, of[0], of[1], start, end)
    return syntax.Arithmetic(sign, of[0], of[1], start, end)


def _over_set(
    rule: str, words: list[Token], of: list[syntax.Expression], start: int, end: int
) -> syntax.Quantifier | syntax.CountOf | syntax.SumOf:
    names = [_name(word) for word in words if word.type == "NAME"]
    if rule == "sum":
        _one_word(names[0])
        where = of[1] if len(of) > 1 else None
        return syntax.SumOf(names[1], names[0].words[0], of[0], where, start, end)
    if rule == "quantifier":
        _one_word(names[0])
        return syntax.Quantifier(words[0].type == "NO", names[0].words[0], names[1], of[0], start, end)
    if len(names) == 1:
        return syntax.CountOf(names[0], "", None, start, end)
    _one_word(names[0])
    return syntax.CountOf(names[1], names[0].words[0], of[0], start, end)


def _one_word(name: syntax.Name) -> None:
    if len(name.words) > 1:
        raise UnreadableError("the name before `in` stands for each one in turn: write one word", name.start, name.end)


def _of_one(rule: str, words: list[Token], of: list[syntax.Expression], start: int, end: int) -> syntax.Expression:
    if rule == "negative":
        return _negative(of[0], start, end)
    if rule == "within":
        return syntax.Within(of[0], of[1], start, end)
    if rule == "one_of":
        quoted = tuple(_quoted(word) for word in words if word.type == "QUOTED")
        return syntax.OneOf(of[0], quoted, start, end)
    if rule == "known":
        return syntax.IsKnown(of[0], start, end)
    if rule == "there":
        return syntax.IsThere(of[0], start, end)
    if rule == "function":
        return syntax.Function(str(words[0]), tuple(of), start, end)
    return of[0]  # parentheses


def _negative(of: syntax.Expression, start: int, end: int) -> syntax.Expression:
    """A minus belongs to the number as written: -5 °C is five degrees below freezing, not less than nothing."""
    if isinstance(of, syntax.Number):
        return syntax.Number(-of.written, of.unit, start, end)
    return syntax.Negative(of, start, end)


def _explained(text: str, slip: UnexpectedInput) -> UnreadableError:
    if isinstance(slip, UnexpectedToken) and slip.token.type == "$END":
        return _too_short(text)
    return _odd(text, getattr(slip, "pos_in_stream", None) or 0)


def _too_short(text: str) -> UnreadableError:
    if text.count("(") > text.count(")"):
        opens = text.rindex("(")
        return UnreadableError("the parenthesis that opens here is not closed", opens, opens + 1)
    said = text.split()[-1]
    stop = len(text.rstrip())
    start = stop - len(said)
    if re.search(r"\bin\s+[a-z_.]+$", text[:stop]):
        return UnreadableError(f'after "{said}" a `where` and a condition are wanted', start, stop)
    return UnreadableError(f'the expression stops too early: something is wanted after "{said}"', start, stop)


def _odd(text: str, at: int) -> UnreadableError:
    """What to say of the first thing that cannot stand where it stands."""
    before = text[:at].rstrip()
    found = re.match(r"&&|\|\||==|<=|>=|!=|\w+(?:\.\w+)*|.", text[at:], re.DOTALL)
    assert found is not None, "there is something where the reader stopped"
    said = found.group()
    end = at + len(said)
    if at and text[at - 1] + said in BORROWED:  # the first half was read as a sign by itself
        at, said = at - 1, text[at - 1] + said
    if said in BORROWED:
        return UnreadableError(f"write {BORROWED[said]} in place of {said}", at, end)
    if said in QUOTE_MARKS:
        return UnreadableError("the quote that opens here is not closed", at, end)
    if re.search(r"\d$", before) and re.match(r"[,\d]", said):
        return UnreadableError("no comma inside a number: write 1050 or 6.4", at, end)
    if re.search(r"(?<![\w.])\d+(?:\.\d+)?$", before) and re.match(r"[A-Za-zµ]", said):
        unit = text[at:].split()[0]
        return UnreadableError(f"{unit} is not a unit known here.{did_you_mean(unit, UNITS)}", at, at + len(unit))
    if re.fullmatch(r"[<>=≤≥≠]=?|!=", said):
        return UnreadableError("one comparison at a time: join two with `and`", at, end)
    if said == ")":
        return UnreadableError("this parenthesis closes nothing, or something is wanted before it", at, end)
    if said.lower() != said:
        return UnreadableError(f"{said} cannot stand here: names are written in small letters", at, end)
    if said == "is":
        return UnreadableError('after `is` write `known`, `there` or `one of "…"`; `not` stands first', at, end)
    return UnreadableError(f"{said} cannot stand here{_after(before)}", at, end)


QUOTE_MARKS = ('"', "“", "”", "'")


def _after(before: str) -> str:
    last = re.search(r"\S+$", before)
    return f' after "{last.group()}"' if last else ""
