"""A rule in full, as data: what `why` prints and the reference pages are made of."""

from __future__ import annotations

from dataclasses import dataclass

from kitproof.rulebook.actions import condition_words
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.rules import Rule
from kitproof.words.dimensions import in_words


@dataclass(frozen=True, slots=True)
class ExplainedLimit:
    """One value of a limit: as written, what kind of quantity it is, since when it holds, where it was read."""

    name: str
    full_name: str
    value: str
    kind: str
    since: str = ""
    seen: str = ""
    source: str = ""
    set_by_house: bool = False


@dataclass(frozen=True, slots=True)
class Explained:
    """A rule for people. Texts keep their holes, `{carried}`; `terms` says what each fact in it means.

    `given` and `fails` are as written, `fails_in_words` the condition spelled out.
    """

    name: str
    group: str
    path: str
    title: str
    grade: str
    about: str
    given: tuple[str, ...]
    fails: str
    fails_in_words: str
    says: str
    doubt: str
    because: str
    each: str
    fixes: tuple[str, ...]
    limits: tuple[ExplainedLimit, ...]
    terms: tuple[tuple[str, str], ...]
    covers: tuple[str, ...]
    quiet: tuple[str, ...]
    caution: tuple[str, ...]
    source: tuple[str, ...]
    once: tuple[str, ...]


def explained(rule: Rule) -> Explained:
    """Everything about a rule that a reader may ask."""
    return Explained(
        name=rule.name,
        group=rule.group,
        path=rule.path,
        title=rule.title.text,
        grade=rule.grade,
        about=rule.about,
        given=tuple(test.text for test in rule.given),
        fails=rule.fails.text,
        fails_in_words=condition_words(rule.fails.text),
        says=rule.says.text,
        doubt=rule.doubt.text if rule.doubt is not None else "",
        because=rule.because.text,
        each=f"{rule.each.name} in {rule.each.text}" if rule.each is not None else "",
        fixes=tuple(_fix(action.word, action.text) for action in rule.fixes),
        limits=tuple(each for limit in rule.limits for each in _limits(limit)),
        terms=rule.terms,
        covers=rule.covers,
        quiet=tuple(quiet.outcome + (f" where {quiet.where.text}" if quiet.where else "") for quiet in rule.quiet),
        caution=tuple(each.text for each in rule.caution),
        source=rule.source,
        once=rule.once,
    )


def _fix(word: str, text: str) -> str:
    """A fix as it is written, in words: for `why`, where there is no list to name parts from."""
    rest = text.partition(" ")[2].strip()
    if word == "advise":
        return rest.strip("\"“”'")
    slot, _, where = rest.partition(" where ")
    such = f", one for which {condition_words(where.strip())}" if where else ""
    name = slot.strip().replace("_", " ")
    sentences = {
        "choose": f"Choose another {name}{such}.",
        "add": f"Add a {name}{such}.",
        "pack": f"Pack the {name} in another case{such}.",
        "order": f"Order {name}.",
        "set": f"Set {name}.",
        "remove": f"Take out the {name}.",
    }
    return sentences[word]


def _limits(limit: Limit) -> tuple[ExplainedLimit, ...]:
    return tuple(
        ExplainedLimit(
            limit.name,
            limit.full_name,
            dated.written,
            in_words(limit.dimension),
            dated.since.isoformat() if dated.since else "",
            dated.seen.isoformat() if dated.seen else "",
            dated.source,
            limit.set_by_house,
        )
        for dated in limit.values
    )
