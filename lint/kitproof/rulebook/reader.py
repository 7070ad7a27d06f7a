"""One rule file to a rule: its words read and checked, every mistake noted at its place."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from kitproof.facts.values import Type, thing
from kitproof.rulebook import actions
from kitproof.rulebook.errors import RuleError, did_you_mean
from kitproof.rulebook.expressions import UnreadableError, parse
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.pieces import Pieces
from kitproof.rulebook.rulefile import Line, Value
from kitproof.rulebook.rules import Each, Quiet, Rule, Test
from kitproof.rulebook.scope import Knows, Scope, Vocabulary, a
from kitproof.rulebook.settings import GRADES
from kitproof.rulebook.syntax import names_in
from kitproof.rulebook.typed import LimitRead, Read, Typed, all_in, can_doubt

ONCE_ONLY = ("title", "grade", "about", "each", "fails", "worst", "at", "gather", "says", "doubt", "because")
REPEATED = ("given", "limit", "call", "see", "fix", "covers", "quiet", "caution", "source", "once")
WORDS = (*ONCE_ONLY, *REPEATED)
WANTED = {
    "title": "the headline",
    "about": "what it is about",
    "fails": "the condition",
    "says": "the message",
    "because": "why it matters",
}
"""What every rule must have."""


class Reader(Struct):
    """Reads the words of one rule. `limits` are those it may use: its own and its group's."""

    path: str
    name: str
    group: str
    lines: list[Line]
    vocabulary: Vocabulary
    knows: Knows
    limits: Mapping[str, Limit | None]
    errors: list[RuleError] = field(default_factory=list)
    calls: dict[str, Typed | None] = field(default_factory=dict)
    each: Each | None = None
    expressions: list[Typed] = field(default_factory=list)  # everything that the rule asks of its facts

    # Words

    def of(self, word: str) -> list[Value]:
        """The values of a word, in the order written."""
        return [line.value for line in self.lines if line.word.text == word]

    def one(self, word: str) -> Value | None:
        values = self.of(word)
        return values[0] if values else None

    def check_words(self) -> None:
        """Words that no rule has, words that stand twice, words that say nothing, and words that are wanted."""
        met: dict[str, Line] = {}
        for line in self.lines:
            word = line.word.text
            if word not in WORDS:
                self.errors.append(line.word.error(f"a rule has no word {word}.{did_you_mean(word, WORDS)}"))
            elif not line.value.text:
                self.errors.append(line.word.error(f"nothing stands after {word}"))
            elif word in met and word in ONCE_ONLY:
                first = met[word].word.pieces[0].line
                self.errors.append(line.word.error(f"{word} stands on line {first} already"))
            met.setdefault(word, line)
        for word, what in WANTED.items():
            if word not in met:
                self.errors.append(RuleError(self.path, 1, 1, 2, f"a rule needs {word}: {what}"))

    def about(self) -> str:
        value = self.one("about")
        if value is None or not value.text:
            return ""
        if value.text not in self.subjects():
            says = f"nothing is known about {a(value.text)}.{did_you_mean(value.text, self.subjects())}"
            self.errors.append(value.error(says))
            return ""
        return value.text

    def subjects(self) -> list[str]:
        return [subject for subject in self.vocabulary if " " not in subject]

    def grade(self) -> str:
        value = self.one("grade")
        if value is None or not value.text:
            return "wrong"
        if value.text not in GRADES:
            self.errors.append(value.error(f"a grade is one of {', '.join(GRADES)}"))
        return value.text

    def names(self, word: str) -> list[tuple[str, Value]]:
        """Names between commas, with their places."""
        found = []
        for value in self.of(word):
            at = 0
            for part in value.text.split(","):
                name = value.cut(at, at + len(part)).stripped()
                at += len(part) + 1
                if name.text:
                    found.append((name.text, name))
                else:
                    self.errors.append(value.error("a name is wanted on each side of a comma"))
        return found

    # Names of the rule's own

    def read_each(self, pieces: Pieces) -> None:
        value = self.one("each")
        if value is None or not value.text:
            return
        words = value.text.split()
        if len(words) != 3 or words[1] != "in":
            self.errors.append(value.error("each says a name and a set: each point in chart"))
            return
        name, within = words[0], value.text.rindex(words[2])
        if name in pieces.scope.names():
            self.errors.append(value.error(f"{name} is a name already: call each one something else", 0, len(name)))
            return
        typed = pieces.expression(value.cut(within, len(value.text)), "set")
        if typed is not None:
            of = Type("thing", subject=typed.type.subject, kind=typed.type.kind)
            self.each = Each(name, words[2], typed, of)
            pieces.scope = pieces.scope.having(name, of)

    def read_calls(self, pieces: Pieces) -> None:
        """`call NAME EXPR`, each after those that it uses itself; a loop of calls is a mistake."""
        waiting: dict[str, Value] = {}
        for value in self.of("call"):
            name, _, rest = value.text.partition(" ")
            if not rest.strip() or not name.isidentifier() or not name.islower():
                self.errors.append(value.error("call says a name and an expression: call spare limit - mass"))
            elif name in pieces.scope.names() or name in waiting:
                self.errors.append(value.error(f"{name} is a name already: call it something else", 0, len(name)))
            else:
                waiting[name] = value.cut(len(name), len(value.text)).stripped()
        uses = {name: _names(value) & waiting.keys() for name, value in waiting.items()}
        while waiting:
            ready = [name for name in waiting if not uses[name] & waiting.keys()]
            for name in ready or list(waiting):
                value = waiting.pop(name)
                if ready:
                    self.calls[name] = pieces.expression(value, "")
                else:
                    self.errors.append(value.error(f"{name} needs itself to be worked out"))
                    self.calls[name] = None

    # The whole rule

    def read(self) -> Rule | None:
        """The rule, or None where something is wrong with it."""
        self.check_words()
        about = self.about()
        if not about:
            return None
        scope = Scope(about, self.vocabulary, self.knows, self.calls, self.limits)
        pieces = Pieces(scope, self.errors, self.expressions)
        self._limits_are_new(about)
        self.read_each(pieces)
        self.read_calls(pieces)
        given = [pieces.test(value) for value in self.of("given")]
        fails = pieces.test(self.one("fails"))
        pieces.tests = tuple(test.typed for test in (*given, fails) if test is not None)
        self._doubt_is_said(pieces.tests)
        rule = self._built(pieces, tuple(test for test in given if test is not None), fails)
        return None if self.errors else rule

    def _limits_are_new(self, about: str) -> None:
        for value in self.of("limit"):
            name = value.text.split(" ")[0]
            if name in self.vocabulary[about]:
                says = f"{name} is a fact about {a(about)} already: call the limit something else"
                self.errors.append(value.error(says, 0, len(name)))

    def _built(self, pieces: Pieces, given: tuple[Test, ...], fails: Test | None) -> Rule | None:
        """All the rest of the rule. It is read to its end though there are mistakes, so that all are found."""
        title, says, because = (pieces.template(self.one(word)) for word in ("title", "says", "because"))
        doubt, caution = pieces.template(self.one("doubt")), [pieces.template(each) for each in self.of("caution")]
        worst, at = pieces.number(self.one("worst")), pieces.place(self.one("at"))
        see = tuple(pieces.place(value) for value in self.of("see"))
        fixes = tuple(actions.read(pieces, value) for value in self.of("fix"))
        quiet, grade, gather = self._quiet(pieces), self.grade(), self._gather(pieces.scope)
        covers, once = self.names("covers"), self.names("once")
        source = pieces.texts(self.of("source"))
        if self.errors or fails is None or title is None or says is None or because is None:
            return None
        return Rule(
            name=self.name,
            group=self.group,
            path=self.path,
            about=pieces.scope.subject,
            grade=grade,
            title=title,
            says=says,
            because=because,
            doubt=doubt,
            given=given,
            fails=fails,
            each=self.each,
            worst=worst,
            at=at,
            see=see,
            fixes=tuple(each for each in fixes if each is not None),
            covers=tuple(name for name, _ in covers),
            gather=gather,
            quiet=quiet,
            caution=tuple(each for each in caution if each is not None),
            source=source,
            once=tuple(name for name, _ in once),
            limits=_limits_of(pieces),
            terms=_terms(pieces),
        )

    def _doubt_is_said(self, tests: tuple[Typed, ...]) -> None:
        fails = self.one("fails")
        if fails is not None and not self.of("doubt") and any(can_doubt(test) for test in tests):
            self.errors.append(fails.error('this can be in doubt, so the rule needs a line: doubt "whether …"'))

    def _quiet(self, pieces: Pieces) -> tuple[Quiet, ...]:
        found = []
        for value in self.of("quiet"):
            outcome, where, _ = value.text.partition(" where ")
            if outcome.strip() not in ("fails", "may fail", "cannot tell"):
                says = "quiet says fails, may fail or cannot tell, then perhaps where and a condition"
                self.errors.append(value.error(says, 0, len(outcome)))
                continue
            rest = value.cut(len(outcome) + len(where), len(value.text)) if where else None
            found.append(Quiet(outcome.strip(), pieces.test(rest)))
        return tuple(found)

    def _gather(self, scope: Scope) -> str:
        """A subject, or a fact of the rule's own subject by which findings are put together."""
        value = self.one("gather")
        if value is None or not value.text:
            return ""
        known = {*self.subjects(), "list", *scope.facts_of(thing(scope.subject))}
        if value.text not in known:
            self.errors.append(value.error(f"{value.text} is nothing to gather by.{did_you_mean(value.text, known)}"))
        return value.text


def _names(value: Value) -> set[str]:
    try:
        return {name.words[0] for name in names_in(parse(value.text))}
    except UnreadableError:
        return set()


def _limits_of(pieces: Pieces) -> tuple[Limit, ...]:
    """The limits that the rule uses, its group's among them."""
    used = (node.limit for typed in pieces.expressions for node in all_in(typed) if isinstance(node, LimitRead))
    return tuple(dict.fromkeys(used))


def _terms(pieces: Pieces) -> tuple[tuple[str, str], ...]:
    """Each fact that the rule names, with its meaning."""
    terms: dict[str, str] = {}
    for typed in pieces.expressions:
        for node in all_in(typed):
            if isinstance(node, Read) and node.steps:
                terms.setdefault(".".join(node.steps), _meaning(node, pieces.scope))
    return tuple((name, says) for name, says in terms.items() if says)


def _meaning(read: Read, scope: Scope) -> str:
    of, says = scope.variables.get(read.variable, thing(scope.subject)), ""
    for step in read.steps:
        fact = scope.facts_of(of).get(step)
        if fact is None:
            return ""
        says, of = fact.says, fact.type
    return says
