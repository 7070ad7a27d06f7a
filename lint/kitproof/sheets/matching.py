"""Which part of the parts books a name in a sheet means: for sure, or with the nearest ones to choose from.

Numbers and sizes are compared exactly and only the words by their letters. A close second is never passed over.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct
from rapidfuzz import fuzz, process

from kitproof.sheets.kind_words import KIND_WORDS, SMALL_WORDS
from kitproof.sheets.names import Name, taken_apart

SURE = 90
"""Words that are at least so alike, of 100, can be a name misspelt; below, they are never taken for it."""
EACH_WORD = 80
"""Each single word must be at least so alike."""
APART = 10
"""How far behind the second nearest must be."""
NUMBERS_DIFFER = 20
"""What other numbers take off the score that is shown: such a part is never taken, but may be what was meant."""
NEAREST_FROM = 60
MOST_NEAREST = 3
_LOOKED_AT = 12
_LONGEST = 300


class Candidate(Struct, frozen=True):
    """A part that may be meant, and how alike the names are, of 100."""

    part: str
    score: int


class Match(Struct, frozen=True):
    """What a name was matched to: the part meant for sure ("" where none is), its score, and the nearest ones."""

    part: str
    score: int
    nearest: tuple[Candidate, ...]

    @property
    def sure(self) -> bool:
        return bool(self.part)


NO_MATCH = Match("", 0, ())


class Shelf:
    """The names of all parts, taken apart once. What a name was matched to is remembered for as long as it lives."""

    def __init__(self, kinds: Mapping[str, str]) -> None:
        """`kinds` gives each part's kind by its name."""
        self.kinds = dict(kinds)
        self.parts = {part: taken_apart(part) for part in kinds}
        self._extra = _kind_words()
        self._kinds_by_word: dict[str, set[str]] = {}
        for kind, extras in self._extra.items():
            for extra in extras:
                self._kinds_by_word.setdefault(extra[0], set()).add(kind)
        self._spelt: dict[str, list[str]] = {}
        in_order: dict[str, list[str]] = {}
        by_letter: dict[str, list[str]] = {}
        for part, name in self.parts.items():
            self._spelt.setdefault(_folded(part), []).append(part)
            in_order.setdefault(name.joined, []).append(part)
            by_letter.setdefault(name.sorted_words, []).append(part)
        self._letters = ((in_order, tuple(in_order)), (by_letter, tuple(by_letter)))
        self._order = {part: number for number, part in enumerate(self.parts)}
        self._known: dict[str, Match] = {}

    def match(self, text: str) -> Match:
        """What a name in a sheet means."""
        folded = _folded(text)
        if folded not in self._known:
            self._known[folded] = self._match(folded)
        return self._known[folded]

    def _match(self, folded: str) -> Match:
        spelt = self._spelt.get(folded, [])
        if len(spelt) == 1:
            return Match(spelt[0], 100, (Candidate(spelt[0], 100),))
        name = taken_apart(folded[:_LONGEST])
        if not name.words and not name.numbers:
            return NO_MATCH
        small = _without_small_words(name)
        found = [self._scored(name, small, part) for part in self._near(name, small)]
        found.sort(key=lambda each: (-each[0], self._order[each[1]]))
        nearest = tuple(Candidate(part, score) for score, part, _ in found[:MOST_NEAREST] if score >= NEAREST_FROM)
        if not found or len(folded) > _LONGEST:
            return Match("", 0, nearest)
        best, part, can_be = found[0]
        second = found[1][0] if len(found) > 1 else 0
        sure = can_be and best >= SURE and (second < 100 if best == 100 else second <= best - APART)
        return Match(part if sure else "", best, nearest)

    def _near(self, name: Name, small: Name) -> list[str]:
        """The parts worth comparing closely: those nearest by their letters, whatever words of a kind are added.

        Where many parts differ by their numbers alone, all with the same numbers are among them and a few others.
        """
        found: dict[str, None] = {}
        for bare in self._bare(name, small):
            for (index, known), asked in zip(self._letters, (bare.joined, bare.sorted_words), strict=True):
                near = process.extract(asked, known, scorer=fuzz.ratio, limit=_LOOKED_AT, score_cutoff=NEAREST_FROM)
                for letters, _, _ in near:
                    parts = index[letters]
                    same = [part for part in parts if name.same_numbers(self.parts[part])]
                    found.update(dict.fromkeys([*same, *parts[:MOST_NEAREST]]))
        return list(found)

    def _bare(self, name: Name, small: Name) -> list[Name]:
        """The name as it is, without small words and, for each kind whose words stand in it, without them."""
        kinds = {kind for word in name.words for kind in self._kinds_by_word.get(word, ())}
        names = {name.words: name}
        for bare in (small, *(self._without(small, kind) for kind in sorted(kinds))):
            names.setdefault(bare.words, bare)
        return list(names.values())

    def _without(self, name: Name, kind: str) -> Name:
        """The name without what people call that kind of part."""
        words = list(name.words)
        for extra in self._extra.get(kind, ()):
            at = next((at for at in range(len(words)) if tuple(words[at : at + len(extra)]) == extra), None)
            if at is not None and len(words) > len(extra):
                del words[at : at + len(extra)]
        return Name(tuple(words), name.numbers)

    def _scored(self, name: Name, small: Name, part: str) -> tuple[int, str, bool]:
        """How alike a name and a part's are, the part, and whether the name can be that part's misspelt."""
        other = self.parts[part]
        asked, score = name, alike(name, other)
        if score < 100:
            for each in (small, self._without(small, self.kinds[part])):
                if each.words != name.words and (again := alike(each, other)) > score:
                    asked, score = each, again
        if not name.same_numbers(other):
            return max(0, score - NUMBERS_DIFFER), part, False
        return score, part, word_by_word(asked, other)


def _without_small_words(name: Name) -> Name:
    return Name(tuple(word for word in name.words if word not in SMALL_WORDS) or name.words, name.numbers)


def _kind_words() -> dict[str, tuple[tuple[str, ...], ...]]:
    """For each kind of part what people call it, word by word, the longest first."""
    return {
        kind: tuple(sorted((_without_small_words(taken_apart(each)).words for each in words), key=len, reverse=True))
        for kind, words in KIND_WORDS.items()
    }


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()


def alike(one: Name, other: Name) -> int:
    """How alike the words of two names are, of 100: in their order or sorted, whichever is nearer. 100 is the same."""
    if one.joined == other.joined or one.sorted_words == other.sorted_words:
        return 100
    score = max(fuzz.ratio(one.joined, other.joined), fuzz.ratio(one.sorted_words, other.sorted_words))
    return min(99, int(score))


def word_by_word(one: Name, other: Name) -> bool:
    """Whether each word of one name has a word of the other that it can be a misspelling of, and none is left over."""
    if one.joined == other.joined:
        return True
    left = list(other.words)
    if len(one.words) != len(left):
        return False
    for word in one.words:
        best = max(left, key=lambda each: fuzz.ratio(word, each))
        if word != best and (min(len(word), len(best)) < 3 or fuzz.ratio(word, best) < EACH_WORD):
            return False
        left.remove(best)
    return True
