"""A rule in words: in full, as data for `why` and the reference pages, and its fixes as a person is told them."""

from __future__ import annotations

from msgspec import Struct

from kitproof.facts.values import Thing, Words
from kitproof.rulebook.compile import Env
from kitproof.rulebook.conditions import asked_words, condition_words
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.messages import DEFAULT_UNITS, Units, complete, message
from kitproof.rulebook.rules import Action, Rule
from kitproof.rulebook.scope import a
from kitproof.words.dimensions import in_words
from kitproof.words.phrases import another


class ExplainedLimit(Struct, frozen=True):
    """One value of a limit: as written, what kind of quantity it is, since when it holds, where it was read."""

    name: str
    full_name: str
    value: str
    kind: str
    since: str = ""
    seen: str = ""
    source: str = ""
    set_by_house: bool = False


class Explained(Struct, frozen=True):
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
        fails_in_words=condition_words(rule.fails),
        says=rule.says.text,
        doubt=rule.doubt.text if rule.doubt is not None else "",
        because=rule.because.text,
        each=f"{rule.each.name} in {rule.each.text}" if rule.each is not None else "",
        fixes=tuple(_fix(action) for action in rule.fixes),
        limits=tuple(each for limit in rule.limits for each in _limits(limit)),
        terms=rule.terms,
        covers=rule.covers,
        quiet=tuple(quiet.outcome + (f" where {quiet.where.text}" if quiet.where else "") for quiet in rule.quiet),
        caution=tuple(each.text for each in rule.caution),
        source=rule.source,
        once=rule.once,
    )


def _fix(action: Action) -> str:
    """A fix as it is written, in words: for `why`, where there is no list to name parts from."""
    if action.advice is not None:
        return action.advice.text
    slot = action.text.partition(" ")[2].partition(" where ")[0]
    such = f", so that {asked_words(action.where)}" if action.where is not None else ""
    name = slot.strip().replace("_", " ")
    sentences = {
        "choose": f"Choose {another(name)}{such}.",
        "add": f"Add {a(name)}{such}.",
        "pack": f"Pack the {name} in another case{such}.",
        "order": f"Order {name}.",
        "set": f"Set {name}.",
        "remove": "Take it out." if name == "entry" else f"Take out the {name}.",
    }
    return sentences[action.word]


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


# Fixes


def fix_words(action: Action, thing: Thing, env: Env, units: Units = DEFAULT_UNITS) -> str | None:
    """What a fix tells a person to do; None where it would have to name something that is not there or not known."""
    if action.word == "advise":
        if action.advice is None or not complete(action.advice, thing, env):
            return None
        return message(action.advice, thing, env, units)
    name = _called(action, thing, env)
    such = f", so that {asked_words(action.where, env.day)}" if action.where is not None else ""
    if action.word in ("choose", "add"):
        slot = action.path[-1].replace("_", " ") if action.path else name
        return f"Choose {another(slot)}{such}." if action.word == "choose" else f"Add {a(slot)}{such}."
    if action.word == "pack":
        return f"Pack {name} in another case{such}."
    if action.word == "order":
        return _order_words(action, name, thing, env)
    if action.word == "set" and action.value is not None:
        if not complete(action.value, thing, env):
            return None
        return f"Set {_field_called(action.path)} to {message(action.value, thing, env, units)}."
    return f"Take out {_with_article(action, name, thing, env)}."


def _with_article(action: Action, name: str, thing: Thing, env: Env) -> str:
    """What is taken out: what has no name of its own, such as a waiver, gets an article."""
    held = action.what(thing, env) if action.what is not None else thing
    return f"the {name}" if isinstance(held, Thing) and held.about in ("line", "waiver") else name


def _order_words(action: Action, name: str, thing: Thing, env: Env) -> str | None:
    count = action.count.read(thing, env) if action.count is not None else None
    if count is None or count.high == float("inf"):
        return None
    many = f"{count.low:g}" if count.sharp else f"{count.low:g} to {count.high:g}"
    return f"Order {many} x {name}."


def _field_called(path: tuple[str, ...]) -> str:
    return " of the ".join(word.replace("_", " ") for word in reversed(path)) or "it"


def _called(action: Action, thing: Thing, env: Env) -> str:
    """What a place is called: the label of the thing there, the word there, or the place's own words."""
    held = action.what(thing, env) if action.what is not None else None
    if isinstance(held, Thing):
        return held.label
    return held.text if isinstance(held, Words) and held.text else _field_called(action.path)
