"""`fix` lines: read and checked."""

from __future__ import annotations

import re

from kitproof.rulebook.errors import did_you_mean
from kitproof.rulebook.messages import Hole, Template
from kitproof.rulebook.pieces import Pieces
from kitproof.rulebook.rulefile import Value
from kitproof.rulebook.rules import Action
from kitproof.rulebook.scope import described
from kitproof.rulebook.typed import Typed, Word
from kitproof.words.kinds import KINDS

ACTIONS = ("choose", "add", "pack", "order", "set", "remove", "advise")
SLOTS = frozenset(kind.name for kind in KINDS.values())
SHAPES = {
    "choose": "choose SLOT where …",
    "add": "add SLOT where …",
    "pack": "pack PART where …",
    "order": "order N of PART",
    "set": "set FIELD to VALUE",
    "remove": "remove PLACE",
    "advise": 'advise "…"',
}


def read(pieces: Pieces, line: Value) -> Action | None:
    """One `fix` line. Its mistakes are noted with the rule's."""
    if not line.text:
        return None
    word, _, rest = line.text.partition(" ")
    if word not in ACTIONS:
        says = f"a fix has no action {word}.{did_you_mean(word, ACTIONS)}"
        pieces.errors.append(line.error(says, 0, len(word)))
        return None
    if not rest.strip():
        pieces.errors.append(line.error(f"write {SHAPES[word]}"))
        return None
    value = line.cut(len(word), len(line.text)).stripped()
    if word == "advise":
        return Action(word, line.text, advice=pieces.template(value))
    if word == "order":
        return _order(pieces, line, value)
    if word == "set":
        return _set(pieces, line, value)
    if word == "remove":
        path = _place(pieces, value)
        return Action(word, line.text, path, pieces.read_of(path))
    return _choice(pieces, word, line, value)


def _choice(pieces: Pieces, word: str, line: Value, value: Value) -> Action:
    """choose, add, pack: a slot or part, and perhaps `where` and a condition on the mended list."""
    found = re.search(r"\s+where\s+", value.text)
    slot = value.cut(0, found.start()) if found else value
    test = pieces.test(value.cut(found.end(), len(value.text))) if found else None
    path = _slot(pieces, word, slot)
    return Action(word, line.text, path, pieces.read_of(path), where=test)


def _slot(pieces: Pieces, word: str, slot: Value) -> tuple[str, ...]:
    """A slot may be one that nothing fills yet, for `add`; else it is a part that facts lead to."""
    if word == "add" and slot.text in SLOTS:
        return (slot.text,)
    return _place(pieces, slot, must_be_thing=True)


def _place(pieces: Pieces, value: Value, *, must_be_thing: bool = False) -> tuple[str, ...]:
    if value.text == "entry":
        return ()
    before = len(pieces.errors)
    path = pieces.place(value)
    if must_be_thing and len(pieces.errors) == before and path:
        of = pieces.read_of(path)
        if of is None or of.type.sort not in ("thing", "set"):
            said = described(of.type) if of is not None else "a field"
            pieces.errors.append(value.error(f"a part is wanted here, and {value.text} is {said}"))
    return path


def _order(pieces: Pieces, line: Value, value: Value) -> Action | None:
    found = re.search(r"\s+of\s+(?=\S+$)", value.text)
    if not found:
        pieces.errors.append(value.error(f"write {SHAPES['order']}"))
        return None
    count = pieces.number(value.cut(0, found.start()))
    part = value.cut(found.end(), len(value.text))
    path = _place(pieces, part, must_be_thing=True)
    return Action("order", line.text, path, pieces.read_of(path), count=count)


def _set(pieces: Pieces, line: Value, value: Value) -> Action | None:
    found = re.search(r"\s+to\s+", value.text)
    if not found:
        pieces.errors.append(value.error(f"write {SHAPES['set']}"))
        return None
    place = value.cut(0, found.start())
    path = _place(pieces, place)
    wanted = value.cut(found.end(), len(value.text))
    typed = pieces.expression(wanted, "")
    if typed is None:
        return None
    says = _unfit(pieces, place.text, path, typed)
    if says:
        pieces.errors.append(wanted.error(says))
    hole = Hole(wanted.text, typed)
    return Action("set", line.text, path, pieces.read_of(path), value=Template(wanted.text, (hole,)))


def _unfit(pieces: Pieces, name: str, path: tuple[str, ...], typed: Typed) -> str:
    """What is wrong with setting a field to a value; "" where its type is not one that facts tell."""
    read = pieces.read_of(path)
    if read is None or not path:
        return ""
    of = read.type
    if of.dimension != typed.type.dimension:
        return f"{name} is {described(of)}, and this is {described(typed.type)}"
    if isinstance(typed, Word) and of.words and typed.text not in of.words:
        return f'"{typed.text}" is not a word that {name} can have.{did_you_mean(typed.text, of.words)}'
    return ""
