"""Conditions as a person is told them: spelled out, and as what a fix asks for."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date

from kitproof.facts.wordings import ASKED_TO_BE, NOUNS
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.rules import Test
from kitproof.rulebook.typed import LimitRead, all_in

SIGNS = {
    "<=": "is at most",
    ">=": "is at least",
    "!=": "is not",
    "<": "is less than",
    ">": "is more than",
    "=": "is",
    "≤": "is at most",
    "≥": "is at least",
    "≠": "is not",
}
QUOTED = re.compile(r'("[^"]*"|“[^”]*”|\'[^\']*\')')
NAME = re.compile(r"[a-z][a-z0-9_.]*")
SIGN = re.compile(r"<=|>=|!=|<|>|=|≤|≥|≠")
ASKED = re.compile(r"(?P<what>[^<>=!≤≥≠]+?)\s*(?P<how><=|>=|<|>|≤|≥|\bwithin\b)(?P<against>[^<>=!≤≥≠]+)")
LARGER = re.compile(r"max\((?P<one>[^,()]+),\s*(?P<other>[^,()]+)\)")


def condition_words(test: Test, day: date | None = None) -> str:
    """A condition in a person's words: `load_share <= 100 %` is "load share is at most 100 %".

    A limit is said by its value: the one that holds on the day, or, with no day given, the only one that it has.
    """
    values = _limits_of(test, day)
    return "".join(
        part if number % 2 else _plain_words(part, values) for number, part in enumerate(QUOTED.split(test.text))
    )


def asked_words(test: Test, day: date | None = None) -> str:
    """What a fix asks for, in a person's words: `load_share <= 100 %` is "the load is at most 100 % of what the head
    holds there". A condition of which no words are known is spelled out.
    """
    found = ASKED.fullmatch(test.text)
    clause = ASKED_TO_BE.get(found["what"].strip()) if found else None
    if found is None or clause is None:
        return condition_words(test, day)
    against = _nouns(found["against"].strip(), _limits_of(test, day))
    how = "within" if found["how"] == "within" else SIGNS[found["how"]].removeprefix("is ")
    return clause.format(f"{how} {against}")


def _nouns(text: str, values: Mapping[str, str]) -> str:
    """What something is held against: a name, a number, or the larger of two."""
    two = LARGER.fullmatch(text)
    if two:
        return f"the larger of {_nouns(two['one'], values)} and {_nouns(two['other'], values)}"
    return NOUNS.get(text) or _plain_words(text, values)


def _limits_of(test: Test, day: date | None) -> dict[str, str]:
    """The limits in a condition by their names, each as it is said."""
    return {node.limit.name: _value_of(node.limit, day) for node in all_in(test.typed) if isinstance(node, LimitRead)}


def _value_of(limit: Limit, day: date | None) -> str:
    dated = limit.on(day) if day is not None else limit.values[0] if len(limit.values) == 1 else None
    return dated.written if dated is not None and dated.written else limit.name.replace("_", " ")


def _in_words(name: str) -> str:
    """A name of the rule language as it is spoken: `lens.image_circle` is "image circle of the lens"."""
    return " of the ".join(word.replace("_", " ") for word in reversed(name.strip(".").split(".")))


def _plain_words(text: str, values: Mapping[str, str]) -> str:
    said = NAME.sub(lambda name: values.get(name.group()) or _in_words(name.group()), text)
    return SIGN.sub(lambda sign: SIGNS[sign.group()], said).replace(" within ", " is within ")
