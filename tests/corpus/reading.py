"""Faults of the group reading: slips of the pen and of the mail program, and waivers that waive nothing.

A slip is typed on any line that can have it, in the list or in its parts book.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import timedelta
from random import Random

from kitproof.model.parts import Part
from kitproof.words.kinds import ENTRIES, KINDS
from tests.corpus.draft import Draft, Entry, Line, a_rig
from tests.corpus.place import kg
from tests.house.repository import RULES
from tests.proofing.lists import DAY, book

PLAIN = re.compile(r"^  (?P<word>mass|height|length|front|diameter|wall|image circle|energy|voltage|delivers|lasts|"
                   r"folds to|day|wind|limit) +(?P<number>\d+(?:\.\d+)?) (?P<unit>\S+)$")  # fmt: skip
"""A field with one quantity and nothing else."""

OTHER_UNIT = {"kg": "mm", "mm": "kg", "Wh": "kg", "V": "mm", "W": "°", "h": "kg", "days": "mm", "m/s": "kg", "lb": "in"}


def _lines(paper: Draft) -> list[Line]:
    return [line for lines in paper.files.values() for line in lines]


def _plain(paper: Draft, *words: str) -> list[tuple[Line, re.Match[str]]]:
    """Lines with one quantity, of some field words or of any, in the list and in what it uses of its book."""
    found = ((line, PLAIN.match(line.text)) for line in _in_use(paper))
    return [(line, match) for line, match in found if match and (not words or match["word"] in words)]


def _in_use(paper: Draft) -> Iterator[Line]:
    """The lines of the list, and of the parts of its book that it names."""
    yield from paper.own
    text = "\n".join(line.text for line in paper.own)
    for part in paper.before.parts.values():
        if part.where.path != paper.name and f'"{part.name}"' in text:
            yield from paper.entry(part.where).fields


def no_unit(paper: Draft, chance: Random) -> Line | None:
    line, match = chance.choice(_plain(paper))
    line.text = f"  {match['word']} {match['number']}"
    return line


def other_unit(paper: Draft, chance: Random) -> Line | None:
    line, match = chance.choice(_plain(paper))
    line.text = f"  {match['word']} {match['number']} {OTHER_UNIT[match['unit']]}"
    return line


def comma_in_a_number(paper: Draft, chance: Random) -> Line | None:
    line, match = chance.choice(_plain(paper))
    number = match["number"]
    wrote = number.replace(".", ",") if "." in number else f"{number},{chance.choice(['0', '5', '25', '500'])}"
    line.text = f"  {match['word']} {wrote} {match['unit']}"
    return line


def fraction_in_a_number(paper: Draft, chance: Random) -> Line | None:
    line, match = chance.choice(_plain(paper, "mass", "height", "length", "front"))
    whole = match["number"].split(".")[0]
    line.text = f"  {match['word']} {whole} {chance.choice(['1/2', '3/4', '1/4'])} {match['unit']}"
    return line


def quote_left_open(paper: Draft, chance: Random) -> Line | None:
    """The second mark of a name is missing."""
    slots = [line for line in paper.own if re.match(r'^  [^"#]+"[^"]+"[^"]*$', line.text)]
    slots = [line for line in slots if not line.text.strip().startswith(("note", "because", "goes"))]
    line = chance.choice(slots)
    line.text = line.text[: line.text.rindex('"')] + line.text[line.text.rindex('"') + 1 :]
    return line


def word_where_a_number_was(paper: Draft, chance: Random) -> Line | None:
    line, match = chance.choice(_plain(paper))
    line.text = f"  {match['word']} {chance.choice(['heavy', 'as before', 'see sheet', 'tbc'])}"
    return line


def misspelt_word(paper: Draft, chance: Random) -> Line | None:
    """Two letters of a field's word exchanged, or one left out."""
    known = {word.word for fields in ENTRIES.values() for word in fields} | set(KINDS) | {"sits on", "takes", "holds"}
    lines = [line for line in _in_use(paper) if re.match(r"^  [a-z]{5,} +\S", line.text)]
    line = chance.choice(lines)
    word = line.text.split()[0]
    at = chance.randrange(1, len(word) - 1)
    swapped = word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    wrong = swapped if swapped != word and chance.random() < 0.6 else word[:at] + word[at + 1 :]
    if wrong in known or wrong == word:
        return None
    line.text = line.text.replace(word, wrong, 1)
    return line


def misspelt_name(paper: Draft, chance: Random) -> Line | None:
    """Two characters of a part's name exchanged where it is ordered, packed or stands in a rig."""
    lines = [line for line in paper.own if re.match(r'^  (\d+ x|holds|[a-z ]+) +"[^"]+"', line.text)]
    lines = [line for line in lines if not re.match(r"^  (note|for|goes|because|by|sits) ", line.text)]
    line = chance.choice(lines)
    names = re.findall(r'"([^"]+)"', line.text)
    name = chance.choice(names)
    at = chance.randrange(len(name) - 1)
    wrong = name[:at] + name[at + 1] + name[at] + name[at + 2 :]
    if wrong in paper.before.parts or wrong == name or wrong != wrong.strip():
        return None
    line.text = line.text.replace(f'"{name}"', f'"{wrong}"')
    return line


def field_twice(paper: Draft, chance: Random) -> Line | None:
    """A field written again below, with another value or the same."""
    line, match = chance.choice(_plain(paper))
    lines = next(lines for lines in paper.files.values() if line in lines)
    value = float(match["number"]) * chance.choice([0.5, 0.9, 1, 1.1, 2])
    again = Line(f"  {match['word']} {value:g} {match['unit']}")
    lines.insert(lines.index(line) + 1, again)
    return again


def entry_twice(paper: Draft, chance: Random) -> Line | None:
    """A part, a rig, a move or a case is in the file twice."""
    firsts = [line for line in paper.own if re.match(r"^(part|case|move|rig) ", line.text)]
    if not firsts:
        return None
    first = chance.choice(firsts)
    copied = Entry(paper.own, first).fields
    return paper.end(first.text, *(line.text for line in copied))


def dates_turned(paper: Draft, chance: Random) -> Line | None:
    """The last day comes before the first."""
    lines = [line for line in paper.own if line.text.startswith("  dates")]
    if not lines:
        return None
    line = chance.choice(lines)
    line.text = re.sub(r"(\S+) to (\S+)$", r"\2 to \1", line.text)
    return line


def reach_turned(paper: Draft, chance: Random) -> Line | None:
    """The larger figure of a reach comes first."""
    lines = [line for line in _in_use(paper) if re.match(r"^  (legs|power|front) +[\d.]+\.\.[\d.]+ ", line.text)]
    if not lines:
        return None
    line = chance.choice(lines)
    line.text = re.sub(r"(\d+)\.\.(\d+)", r"\2..\1", line.text)
    return line


def height_twice(paper: Draft, chance: Random) -> Line | None:
    """A chart with two figures at one height."""
    lines = [line for line in _in_use(paper) if line.text.startswith("  chart") and "," in line.text]
    if not lines:
        return None
    line = chance.choice(lines)
    line.text += f", {kg(chance.uniform(3, 20))} at {line.text.split(' at ')[1].split(',')[0]}"
    return line


def _weighed(paper: Draft, chance: Random) -> Part:
    """A part with a mass: one of a rig as often as any of the book."""
    used = [option.part for rig in paper.before.rigs for line in rig.lines for option in line.options if option.part]
    parts = used if used and chance.random() < 0.5 else list(paper.before.parts.values())
    return chance.choice([part for part in parts if part.mass is not None])


def impossible_mass(paper: Draft, chance: Random) -> Line | None:
    """A mass of grams taken for kilograms, or one of next to nothing."""
    part = _weighed(paper, chance)
    kind = KINDS[part.kind]
    # In pounds it would still be unusual, so that it is not taken for pounds.
    most = max(kind.most, kind.usual / 0.45359237) * chance.uniform(1.05, 9)
    least = kind.least * chance.uniform(0.05, 0.9)
    mass = most if chance.random() < 0.5 else least
    return paper.entry(part.where).set("mass", f"{mass:.6f} kg")


def pounds_as_kilograms(paper: Draft, chance: Random) -> Line | None:
    """A mass in pounds with the unit of kilograms."""
    part = _weighed(paper, chance)
    kind = KINDS[part.kind]
    # Clear of both ends by more than what masses may be off in the book.
    return paper.entry(part.where).set("mass", kg(chance.uniform(1.02 * kind.usual, 0.98 * kind.usual / 0.45359237)))


def uses_itself(paper: Draft, chance: Random) -> Line | None:
    """The list uses itself, or its book uses the list."""
    if chance.random() < 0.5:
        line = Line(f'use "{paper.name}"')
        paper.own.append(line)
    else:
        line = Line(f'use "../{paper.name}"')
        lines = paper.files["stock/thrapley.kitlist"]
        lines.insert(chance.choice([0, len(lines)]), line)
    return line


def other_letter(paper: Draft, chance: Random) -> Line | None:
    """A comment with a letter as old programs write it, in the list or in its book."""
    lines = chance.choice(list(paper.files.values()))
    # "\udce9" is the byte E9, an é of such a program and no UTF-8.
    line = Line("# checked by Ren\udce9")
    lines.insert(chance.randrange(len(lines)), line)
    return line


def other_letters(paper: Draft, chance: Random) -> Line | None:
    """The list or its book saved by such a program, from its first letter to its last."""
    lines = chance.choice(list(paper.files.values()))
    plain = [line.text.isascii() for line in lines]
    if all(plain):
        return None
    for line in lines:
        line.text = line.text.encode("cp1252").decode("utf-8", "surrogateescape")
    return lines[plain.index(False)]


def nothing_listed(paper: Draft, chance: Random) -> Line | None:
    """Everything but the list's own entry and a comment or two is gone."""
    first = next(line for line in paper.own if line.text.startswith("list "))
    kept = [first, *Entry(paper.own, first).fields[: chance.randrange(4)]]
    paper.own[:] = [*(Line(f"# remark {n}") for n in range(chance.randrange(3))), *kept]
    return paper.own[0]


def _use(paper: Draft, path: str) -> Line:
    line = next(line for line in paper.own if line.text.startswith("use "))
    line.text = f'use "{path}"'
    return line


def book_missing(paper: Draft, chance: Random) -> Line | None:
    return _use(paper, chance.choice(["stock/thrapely.kitlist", "thrapley.kitlist", "stock/thrapley", "stock"]))


def book_outside(paper: Draft, chance: Random) -> Line | None:
    return _use(paper, chance.choice(["../stock/thrapley.kitlist", "../../thrapley.kitlist", "/thrapley.kitlist"]))


# ---- waivers -------------------------------------------------------------------------------------------------------


def _waiver(paper: Draft, rule: str, subject: str, days: int) -> Entry:
    """A waiver that ends so many days after the day of the proof; 0 is that day."""
    until = DAY + timedelta(days=days)
    first = paper.end(
        f"waive {rule} in {subject}", f"  until {until}", '  because "tried on the bench"', '  by "first assistant"'
    )
    return Entry(paper.own, first)


def _rule(chance: Random) -> str:
    """A rule that finds nothing in a mended sample."""
    return chance.choice(sorted(set(book().rules) - {"quick-release-two-step"}))


def _subject(paper: Draft, chance: Random) -> str:
    rig = a_rig(paper, chance)
    return chance.choice([f"rig {rig.name}" if rig else "list", "list"])


def waiver_of_an_unknown_rule(paper: Draft, chance: Random) -> Line | None:
    rule = _rule(chance)
    at = chance.randrange(1, len(rule) - 1)
    wrong = rule[:at] + rule[at + 1 :]
    return _waiver(paper, wrong, _subject(paper, chance), 9).first if wrong not in book().rules else None


def waiver_in_an_unknown_subject(paper: Draft, chance: Random) -> Line | None:
    subject = chance.choice(["rig Nowhere", 'case "Nowhere"', 'move "Nowhere"', 'part "Nowhere 3"'])
    return _waiver(paper, _rule(chance), subject, 9).first


def waiver_of_nothing(paper: Draft, chance: Random) -> Line | None:
    return _waiver(paper, _rule(chance), _subject(paper, chance), chance.randrange(0, 60)).first


def waiver_run_out(paper: Draft, chance: Random) -> Line | None:
    entry = _waiver(paper, _rule(chance), _subject(paper, chance), -chance.randint(1, 400))
    return entry.field("until")


def waiver_not_taken(paper: Draft, chance: Random) -> Line | None:
    """The house takes no waiver of this rule."""
    paper.settings = RULES / "reading" / "waiver-not-allowed.toml"
    return _waiver(paper, "off-the-chart", _subject(paper, chance), chance.randint(-30, 30)).first
