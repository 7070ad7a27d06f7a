"""A rule in words: in full, as data for `why` and the reference pages, and its fixes as a person is told them."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from kitproof.facts.states import STATES, state_words
from kitproof.facts.values import Thing, Words, is_thing
from kitproof.rulebook.compile import Env
from kitproof.rulebook.conditions import asked_words, condition_words
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.messages import DEFAULT_UNITS, Units, complete, message
from kitproof.rulebook.rules import Action, Rule
from kitproof.rulebook.scope import a
from kitproof.words.dimensions import in_words
from kitproof.words.kinds import KINDS
from kitproof.words.phrases import another

NONE_PROVED: Mapping[int, str] = {}
SLOTS = frozenset(kind.name for kind in KINDS.values())


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
        fixes=tuple(_fix(action, rule.about) for action in rule.fixes),
        limits=tuple(each for limit in rule.limits for each in _limits(limit)),
        terms=rule.terms,
        covers=rule.covers,
        quiet=tuple(quiet.outcome + (f" where {quiet.where.text}" if quiet.where else "") for quiet in rule.quiet),
        caution=tuple(each.text for each in rule.caution),
        source=rule.source,
        once=rule.once,
    )


def _fix(action: Action, about: str) -> str:
    """A fix as it is written, in words: for `why`, where there is no list to name parts from."""
    if action.advice is not None:
        return action.advice.text
    slot = action.text.partition(" ")[2].partition(" where ")[0]
    such = f", so that {asked_words(action.where)}" if action.where is not None else ""
    name = slot.strip().replace("_", " ")
    sentences = {
        "choose": f"Choose {another(name)}{such}.",
        "add": f"Add {a(name)}{such}.",
        "pack": f"Pack the {name} in {'another' if about == 'packed' else 'a'} case{such}.",
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


def fixes_in_words(
    rule: Rule, thing: Thing, env: Env, units: Units, proved: Mapping[int, str] = NONE_PROVED
) -> list[tuple[str, bool]]:
    """The fixes of a rule as a person is told them, in its order, and whether each is proved.

    `proved` has the words of those that are, by their place among the rule's fixes. Of those that are not, one that
    merely spells out what the rule's own advice says is left to that.
    """
    words = [proved.get(number) or fix_words(action, thing, env, units) for number, action in enumerate(rule.fixes)]
    advised = any(action.advice is not None and said for action, said in zip(rule.fixes, words, strict=True))
    found: list[tuple[str, bool]] = []
    for number, (action, said) in enumerate(zip(rule.fixes, words, strict=True)):
        if said and (number in proved or not (advised and _spells_out(action, thing))):
            found.append((said, number in proved))
    return found


def _spells_out(action: Action, thing: Thing) -> bool:
    """Whether a fix says only how a line is to read, or that any other part be tried."""
    on_a_line = thing.about == "packed" and action.word in ("set", "remove")
    return on_a_line or (action.word in ("choose", "pack") and action.where is None)


def fix_words(action: Action, thing: Thing, env: Env, units: Units = DEFAULT_UNITS) -> str | None:
    """What a fix tells a person to do; None where it would have to name something that is not there or not known."""
    if action.word == "advise":
        if action.advice is None or not complete(action.advice, thing, env):
            return None
        return message(action.advice, thing, env, units)
    words = {"choose": _choose_words, "add": _add_words, "order": _order_words, "set": _set_words}
    if action.word in words:
        return words[action.word](action, thing, env, units)
    name = _called(action, thing, env)
    if action.word == "pack":
        return f"Pack {name} in {'another' if thing.about == 'packed' else 'a'} case{_such(action, env)}."
    state = STATES.get(action.path[-1]) if action.path and thing.about == "packed" else None
    return (
        f"Pack {_packed(thing)} without: {' or '.join(state)}."
        if state
        else f"Take out {_with_article(action, name, thing, env)}."
    )


def _such(action: Action, env: Env) -> str:
    return f", so that {asked_words(action.where, env.day)}" if action.where is not None else ""


def _packed(thing: Thing) -> str:
    """What a packed thing is called by itself."""
    part = thing.value("part")
    return part.label if is_thing(part) else thing.label


def _choose_words(action: Action, thing: Thing, env: Env, units: Units) -> str:
    """Another one for a slot; where a fact leads to the part, it is named."""
    slot = action.path[-1] if action.path else ""
    if slot in SLOTS:
        return f"Choose {another(slot.replace('_', ' '))}{_such(action, env)}."
    held = action.what(thing, env) if action.what is not None else None
    kind = held.value("kind") if is_thing(held) and held.about == "part" else None
    word = kind.text if isinstance(kind, Words) and kind.text else slot.replace("_", " ")
    return f"Choose {another(word)} in the place of {_called(action, thing, env)}{_such(action, env)}."


def _add_words(action: Action, thing: Thing, env: Env, units: Units) -> str | None:
    """One more part; between two that do not mate, what the books have to join them, None where that is nothing."""
    if thing.about == "joint":
        bridge = thing.value("bridge")
        return f"Join them {bridge.text}." if isinstance(bridge, Words) and bridge.text else None
    slot = action.path[-1].replace("_", " ") if action.path else _called(action, thing, env)
    return f"Add {a(slot)}{_such(action, env)}."


def _set_words(action: Action, thing: Thing, env: Env, units: Units) -> str | None:
    """What a field is set to; of a packed thing the state, of what was misread the words to write."""
    if action.value is None or not complete(action.value, thing, env):
        return None
    said = message(action.value, thing, env, units)
    if thing.about == "slip":
        return f"Write {said}{', if that is meant' if action.value.text == 'nearest' else ''}."
    if thing.about == "packed" and action.path[-1] in STATES:
        state = state_words(action.path[-1], action.value.holes[0].read(thing, env))
        return f"Pack {_packed(thing)} so: {state}." if state else None
    return f"Set {_field_called(action.path)} to {said}."


def _with_article(action: Action, name: str, thing: Thing, env: Env) -> str:
    """What is taken out: what has no name of its own, such as a waiver, gets an article."""
    held = action.what(thing, env) if action.what is not None else thing
    return f"the {name}" if is_thing(held) and held.about in ("line", "waiver") else name


def _order_words(action: Action, thing: Thing, env: Env, units: Units) -> str | None:
    count = action.count.read(thing, env) if action.count is not None else None
    if count is None or count.high == float("inf"):
        return None
    many = f"{count.low:g}" if count.sharp else f"{count.low:g} to {count.high:g}"
    return f"Order {many} x {_called(action, thing, env)}."


def _field_called(path: tuple[str, ...]) -> str:
    return " of the ".join(word.replace("_", " ") for word in reversed(path)) or "it"


def _called(action: Action, thing: Thing, env: Env) -> str:
    """What a place is called: the label of the thing there, the word there, or the place's own words."""
    held = action.what(thing, env) if action.what is not None else None
    if is_thing(held):
        return held.label
    return held.text if isinstance(held, Words) and held.text else _field_called(action.path)
