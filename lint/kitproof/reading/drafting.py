"""Lark, and the inline transformer that makes drafts of what it reads. Imported when the first value is read that is
like none before.

Parsing stays linear: LALR, a lexer that knows what may stand at each place, and no trees.
"""

from __future__ import annotations

import pickle
from functools import lru_cache
from typing import Any

from lark import Lark, TextSlice, Token, Transformer, v_args
from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken
from lark.grammar import Rule
from lark.lexer import TerminalDef
from msgspec.structs import replace

from kitproof import kept
from kitproof.reading import drafts
from kitproof.reading.drafts import Amount, Clause, Counted, Doubt, PlaceDraft, PointDraft, UnreadableError, Word
from kitproof.words.shapes import Shape
from kitproof.words.shipped import folder

FIRST_LINES = ("name_line", "rig_line", "weights_line", "waive_line")


def draft_anew(start: str, text: str, begin: int, end: int) -> Any:
    """The draft of the value in columns `begin` to `end` of a plain line, read as the grammar's `start`.

    Raises UnreadableError with the first column that cannot be read.
    """
    try:
        return _parser().parse(TextSlice(text, begin, end), start=start)
    except UnexpectedToken as trouble:
        raise UnreadableError(None if trouble.token.type == "$END" else trouble.token.start_pos) from None
    except UnexpectedCharacters as trouble:
        raise UnreadableError(trouble.pos_in_stream) from None
    except UnexpectedInput as trouble:
        raise UnreadableError(trouble.pos_in_stream) from None


@lru_cache(maxsize=1)
def _parser() -> Lark:
    """The parser of all shapes. To make its tables takes ten times as long as to take them as they were kept."""
    keep = kept.here()
    known = keep.get("tables", keep.stamp)
    if known is not None:
        # As lark's own stand-alone parsers are made; its public `load` takes no transformer.
        parser: Lark = Lark._load_from_dict(*pickle.loads(known), transformer=_Drafter())  # type: ignore[no-untyped-call]  # lark's
        return parser
    parser = Lark(
        (folder("grammar") / "kitlist.lark").read_text(encoding="utf-8"),
        start=[*(shape.value for shape in Shape), *FIRST_LINES],
        parser="lalr",
        lexer="contextual",
        transformer=_Drafter(),
        maybe_placeholders=False,
    )
    keep.put("tables", keep.stamp, pickle.dumps(parser.memo_serialize([TerminalDef, Rule])))
    return parser


def _word(token: Token) -> Word:
    start = token.start_pos or 0
    return Word(str(token), start, start + len(token))


class _Run(list[Any]):
    """What a rule of the form `run: item | run item` has gathered. Extended in place, so a long run stays linear."""


class _WordRun(list[Word]):
    """The same for words, so that a run of runs of words is told from a run."""


def _words(*tokens: Any) -> list[Word]:
    if isinstance(tokens[0], _WordRun):
        tokens[0].extend(_word(token) for token in tokens[1:])
        return tokens[0]
    return _WordRun(_word(token) for token in tokens)


def _many(*items: Any) -> list[Any]:
    if isinstance(items[0], _Run):
        items[0].extend(items[1:])
        return items[0]
    return _Run(items)


def _same(item: Any) -> Any:
    return item


@v_args(inline=True)
class _Drafter(Transformer[Token, Any]):
    """One method for each rule or alias of the grammar."""

    # Quantities

    def amount(self, number: Token, unit: Token | None = None) -> Amount:
        return Amount(_word(number), _word(unit) if unit is not None else None)

    def exact(self, amount: Amount) -> Doubt:
        return Doubt("exact", amount, None, amount.start, amount.end)

    def give(self, amount: Amount, _: Token, give: Amount) -> Doubt:
        return Doubt("give", amount, give, amount.start, give.end)

    def about(self, sign: Token, amount: Amount) -> Doubt:
        return Doubt("about", amount, None, _word(sign).start, amount.end)

    def between(self, low: Amount, high: Amount) -> Doubt:
        return Doubt("between", low, high, low.start, high.end)

    def up_to(self, sign: Token, amount: Amount) -> Doubt:
        return Doubt("up_to", amount, None, _word(sign).start, amount.end)

    def around(self, sign: Token, amount: Amount) -> Doubt:
        return Doubt("around", amount, None, _word(sign).start, amount.end)

    def unknown(self, sign: Token) -> Doubt:
        return Doubt("unknown", None, None, _word(sign).start, _word(sign).end)

    reach = staticmethod(_same)

    def travel_end(self, amount: Amount, direction: Token | None = None) -> drafts.TravelEnd:
        return drafts.TravelEnd(amount, _word(direction) if direction is not None else None)

    def travel(self, back: drafts.TravelEnd, front: drafts.TravelEnd) -> drafts.Travel:
        return drafts.Travel(back, front)

    def travel_up_to(self, _: Token, front: drafts.TravelEnd) -> drafts.Travel:
        return drafts.Travel(None, front)

    # Places, sizes, points

    def place_part(self, far: Doubt, direction: Token) -> drafts.Part:
        return drafts.Part(far, _word(direction))

    places = staticmethod(_many)

    def place(self, parts: list[drafts.Part]) -> PlaceDraft:
        return PlaceDraft(tuple(parts), parts[0].far.start, parts[-1].direction.end)

    def place_unknown(self, sign: Token) -> PlaceDraft:
        return PlaceDraft((), _word(sign).start, _word(sign).end)

    sides = staticmethod(_many)
    size = staticmethod(_same)
    point_list = staticmethod(_many)
    points = staticmethod(_same)

    def point(self, value: Doubt, at: Doubt | None = None) -> PointDraft:
        return PointDraft(value, at)

    def axis(self, depth: Doubt, side: Token) -> drafts.AxisDraft:
        return drafts.AxisDraft(depth, _word(side))

    def axis_unknown(self, sign: Token) -> drafts.AxisDraft:
        return drafts.AxisDraft(self.unknown(sign), None)

    steps_span = point

    def step_number(self, number: Token) -> Word:
        return _word(number)

    def stepless(self, _: Token) -> None:
        return None

    def steps(self, span: PointDraft, *number: Word | None) -> drafts.StepsDraft:
        return drafts.StepsDraft(span, number[0] if number else None, bool(number) and number[0] is None)

    most = staticmethod(_same)

    def draw_usual(self, usual: Doubt) -> drafts.DrawDraft:
        return drafts.DrawDraft(usual, None)

    def draw_both(self, usual: Doubt, most: Doubt) -> drafts.DrawDraft:
        return drafts.DrawDraft(usual, most)

    def draw_most(self, most: Doubt) -> drafts.DrawDraft:
        return drafts.DrawDraft(None, most)

    def weighed(
        self, front: Doubt, front_at: list[drafts.Part], rear: Doubt, rear_at: list[drafts.Part]
    ) -> drafts.WeighedDraft:
        return drafts.WeighedDraft(front, self.place(front_at), rear, self.place(rear_at))

    # Interfaces and words

    interface_words = staticmethod(_words)

    def interface(self, words: list[Word]) -> drafts.InterfaceDraft:
        return drafts.InterfaceDraft(tuple(words))

    def interface_unknown(self, _: Token) -> drafts.InterfaceDraft:
        return drafts.InterfaceDraft(())

    def port(self, interface: drafts.InterfaceDraft, at: PlaceDraft | None = None) -> drafts.InterfaceDraft:
        return replace(interface, at=at)

    words = staticmethod(_words)
    phrase_list = staticmethod(_many)
    phrases = staticmethod(_same)

    def flag(self) -> None:
        return None

    name = staticmethod(_word)
    text = staticmethod(_word)
    count = staticmethod(_word)
    date = staticmethod(_word)
    counted_list = staticmethod(_many)
    counted = staticmethod(_same)

    def counted_name(self, *parts: Token) -> Counted:
        return Counted(_word(parts[0]) if len(parts) > 1 else None, _word(parts[-1]))

    dates = staticmethod(_words)
    unit_list = staticmethod(_words)
    unit_names = staticmethod(_same)

    def tag(self, word: Token, value: Any) -> drafts.TagDraft:
        return drafts.TagDraft(_word(word), _word(value) if isinstance(value, Token) else value)

    rig_bare = staticmethod(_words)

    def rig_words(self, name: Any) -> tuple[Word, ...]:
        return tuple(name) if isinstance(name, _WordRun) else (_word(name),)

    rig_name = staticmethod(_same)

    # Rigs

    def option(self, token: Token) -> Word:
        return _word(token)

    options = staticmethod(_many)
    clauses = staticmethod(_many)

    def slot(self, options: list[Word], clauses: list[Clause] | None = None) -> drafts.SlotDraft:
        return drafts.SlotDraft(tuple(options), None, tuple(clauses or ()))

    def slot_of_mass(self, mass: Doubt, clauses: list[Clause] | None = None) -> drafts.SlotDraft:
        return drafts.SlotDraft((), mass, tuple(clauses or ()))

    or_slot = staticmethod(_same)

    def clause_mass(self, mass: Doubt) -> Clause:
        return Clause("mass", mass, mass.start, mass.end)

    def clause_at(self, part: drafts.Part) -> Clause:
        return Clause("at", part, part.far.start, part.direction.end)

    def clause_at_unknown(self, sign: Token) -> Clause:
        return Clause("at", None, _word(sign).start, _word(sign).end)

    def clause_at_more(self, part: drafts.Part) -> Clause:
        return Clause("more", part, part.far.start, part.direction.end)

    def clause_on(self, words: list[Word]) -> Clause:
        return Clause("on", tuple(words), words[0].start, words[-1].end)

    def clause_on_name(self, name: Token) -> Clause:
        return Clause("on", _word(name), _word(name).start, _word(name).end)

    def clause_legs(self, reach: Doubt) -> Clause:
        return Clause("legs", reach, reach.start, reach.end)

    def clause_hung(self, height: Doubt) -> Clause:
        return Clause("hung", height, height.start, height.end)

    def clause_spare(self, word: Token, number: Token) -> Clause:
        return Clause("spare", _word(number), _word(word).start, _word(number).end)

    name_choice = staticmethod(_words)

    def clause_only_with(self, names: list[Word]) -> Clause:
        return Clause("only with", tuple(names), names[0].start, names[-1].end)

    def also(self, words: list[Word], slot: drafts.SlotDraft) -> drafts.AlsoDraft:
        return drafts.AlsoDraft(tuple(words), slot)

    def without(self, words: list[Word], name: Token | None = None) -> drafts.WithoutDraft:
        return drafts.WithoutDraft(tuple(words), _word(name) if name is not None else None)

    # Orders, cases, lifts

    def ordered(self, thing: Counted, clauses: list[Clause] | None = None) -> drafts.OrderedDraft:
        return drafts.OrderedDraft(thing, tuple(clauses or ()))

    order_clauses = staticmethod(_many)

    def order_for(self, words: tuple[Word, ...]) -> Clause:
        return Clause("for", words, words[0].start, words[-1].end)

    order_spare = clause_spare

    def held_part(self, thing: Counted) -> tuple[Counted, bool]:
        return thing, False

    def held_case(self, name: Token) -> tuple[Counted, bool]:
        return Counted(None, _word(name)), True

    def held(self, thing: tuple[Counted, bool], states: list[drafts.StateDraft] | None = None) -> drafts.HeldDraft:
        return drafts.HeldDraft(thing[0], thing[1], tuple(states or ()))

    states = staticmethod(_many)

    def state_mass(self, mass: Doubt) -> drafts.StateDraft:
        return drafts.StateDraft((), mass, mass.start, mass.end)

    def state_words(self, words: list[Word], value: Any = None) -> drafts.StateDraft:
        if isinstance(value, Token):
            value = _word(value)
        return drafts.StateDraft(tuple(words), value, words[0].start, value.end if value is not None else words[-1].end)

    lift_list = staticmethod(_many)
    lift = staticmethod(_same)

    def lift_by(self, number: Token) -> Clause:
        return Clause("by", _word(number), _word(number).start, _word(number).end)

    def lift_from(self, low: Amount, high: Amount) -> Clause:
        return Clause("from", (low, high), low.start, high.end)

    def lift_out(self, out: Doubt) -> Clause:
        return Clause("out", out, out.start, out.end)

    def lift_rate(self, rate: Doubt) -> Clause:
        return Clause("rate", rate, rate.start, rate.end)

    # First lines

    name_line = staticmethod(_word)
    weights_line = staticmethod(_same)

    def rig_line(self, name: tuple[Word, ...], like: tuple[Word, ...] = ()) -> drafts.RigLine:
        return drafts.RigLine(name, like)

    def subject(self, word: Token, rest: tuple[Word, ...] = ()) -> tuple[Word, tuple[Word, ...]]:
        return _word(word), rest

    def waive_line(self, rule: Token, subject: tuple[Word, tuple[Word, ...]]) -> drafts.WaiveLine:
        return drafts.WaiveLine(_word(rule), subject[0], subject[1])
