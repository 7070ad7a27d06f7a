"""The reference pages that are made from the registries: grammar/facts.md and grammar/parts.md.

python -m tests.house.reference            says which are out of date
python -m tests.house.reference --write    writes them anew
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from pathlib import Path

from kitproof.facts.fact import Fact
from kitproof.facts.registry import FACTS, HOUSE_NUMBERS
from kitproof.facts.values import Type
from kitproof.words.dimensions import LENGTH, NUMBER, Dimension, in_words
from kitproof.words.kinds import COMMON, KINDS, FieldWord, Kind
from kitproof.words.phrases import with_article
from kitproof.words.shapes import Shape
from kitproof.words.units import SHOWN, UNITS
from tests.house.repository import ROOT

FOLDER = ROOT / "grammar"
MADE = "<!-- Made by python -m tests.house.reference --write. Change the registries, not this page. -->"

SUBJECTS = {
    "rig": "A rig in one combination of its alternatives.",
    "stage": "A rig while it is built up.",
    "part": "A part as its parts book describes it.",
    "part lens": "What is another kind of figure for a lens than for parts at large.",
    "point": "One point of a head's chart, or of figures like it.",
    "joint": "One part of a rig on what it stands on.",
    "packed": "One thing held in a case.",
    "case": "A packed case.",
    "move": "A journey, or storage.",
    "line": "One line of an order.",
    "item": "One part over a whole list.",
    "booking": "One promise of a part, by this list or another that is proofed with it.",
    "companion": "What should go out with something ordered, and how many of it all orders want.",
    "slip": "Something that could not be read, or not taken as it stands.",
    "figure": "One mass as written.",
    "waiver": "One finding accepted.",
}


def facts_page() -> str:
    """Every fact, by subject."""
    sections = [
        "# Facts",
        MADE,
        "What Kitproof works out, and the words that rules are written in. Numbers are SI inside: kg, m, N·m, s, W,\n"
        "and radians for angles. Each is anywhere between two ends, and knows what is missing of its inputs. A fact\n"
        "marked *certain* is always known. [rules.md](rules.md) says how rules use them.",
    ]
    for about, facts in FACTS.items():
        rows = [_fact_row(fact) for fact in facts.values()]
        head = "| fact | what it is | meaning | formula | source |\n| --- | --- | --- | --- | --- |"
        sections.append(f"## {about}\n\n{SUBJECTS.get(about, '')}\n\n{head}\n" + "\n".join(rows))
    numbers = [
        f"| `{each.name}` | {_value(each.value, each.dimension)} | {each.says} |" for each in HOUSE_NUMBERS.values()
    ]
    head = "| number | shipped value | meaning |\n| --- | --- | --- |"
    says = "Common practice with no source: a house may set them."
    sections.append(f"## A house's numbers\n\n{says}\n\n{head}\n" + "\n".join(numbers))
    return "\n\n".join(sections) + "\n"


def _fact_row(fact: Fact) -> str:
    kind = type_in_words(fact.type) + (", certain" if fact.certain else "")
    cells = (f"`{fact.name}`", kind, fact.says, fact.formula, fact.source)
    return _row(cells)


def _row(cells: Iterable[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |"


def type_in_words(of: Type) -> str:
    """What a fact is, in a person's words."""
    match of.sort:
        case "number":
            return in_words(of.dimension or NUMBER)
        case "reach":
            return _reach(of.dimension)
        case "text":
            return " or ".join(f"`{word}`" for word in of.words) if 0 < len(of.words) < 6 else "words"
        case "truth":
            return "yes or no"
        case "thing":
            return f"a {of.subject} ({of.kind})" if of.kind else with_article(of.subject)
        case _:
            return f"{of.subject}s"


def _reach(dimension: Dimension | None) -> str:
    return f"a reach of {in_words(dimension or NUMBER).split(' ', 1)[1]}"


def _value(value: float, dimension: Dimension) -> str:
    name = SHOWN.get(dimension)
    return f"{value:g}" if name is None else f"{round(UNITS[name].from_si(value), 9):g} {name}"


def parts_page() -> str:
    """Every kind of part with its fields."""
    sections = [
        "# Kinds of part",
        MADE,
        "Every kind of part that a parts book may describe, from the ground up and then what hangs on the camera.\n"
        "[format.md](format.md) says how the values are written. The masses are the least and the most that are\n"
        "possible for a kind, and the most that is usual: common practice, no source.",
        _fields_section("Fields of every kind", COMMON),
    ]
    sections += [_kind_section(kind) for kind in KINDS.values()]
    return "\n\n".join(sections) + "\n"


def _kind_section(kind: Kind) -> str:
    masses = f"From {kind.least:g} to {kind.most:g} kg, usually up to {kind.usual:g} kg."
    where = "" if kind.in_rigs else " It never stands in a rig."
    says = f"{kind.says[0].upper()}{kind.says[1:]}. {masses}{where}"
    table = f"\n\n{_table(kind.fields)}" if kind.fields else "\n\nNo fields of its own."
    return f"## {kind.word}\n\n{says}{table}"


def _fields_section(title: str, fields: Iterable[FieldWord]) -> str:
    return f"## {title}\n\n{_table(fields)}"


def _table(fields: Iterable[FieldWord]) -> str:
    rows = [_row((f"`{field.word}`", field_in_words(field), field.says)) for field in fields]
    return "| field | value | meaning |\n| --- | --- | --- |\n" + "\n".join(rows)


def field_in_words(field: FieldWord) -> str:
    """What a field's value is, in a person's words."""
    dimension = in_words(field.dimension or NUMBER)
    if field.or_dimension is not None:
        dimension += f" or {in_words(field.or_dimension)}"
    if field.phrases:
        said = " or ".join(f"`{phrase}`" for phrase in field.phrases)
    elif field.at is not None:
        said = f"{dimension}, at {in_words(field.at)}"
    elif field.shape is Shape.REACH:
        said = _reach(field.dimension)
    else:
        said = _SHAPES.get(field.shape, dimension)
    return f"{said}; may be repeated" if field.repeats else said


_SHAPES = {
    Shape.PLACE: "a place",
    Shape.SIZE: "lengths",
    Shape.INTERFACE: "an interface",
    Shape.PORT: "an interface, and where",
    Shape.AXIS: f"{in_words(LENGTH)} below or above the plate",
    Shape.STEPS: "a reach of torque, and its steps",
    Shape.TRAVEL: "a reach of length, back and forward",
    Shape.WEIGHED: "two masses, each at a place",
    Shape.FLAG: "nothing more",
    Shape.NAME: "a name",
    Shape.COUNTED: "names, with how many of each",
    Shape.TEXT: "some words",
    Shape.COUNT: "a whole number",
    Shape.TAG: "a word, and words or a number",
    Shape.DRAW: "a power, and the most",
}

PAGES: dict[str, Callable[[], str]] = {"facts.md": facts_page, "parts.md": parts_page}


def stale() -> list[str]:
    """The pages that are not what the registries say."""
    return [name for name, page in PAGES.items() if _written(FOLDER / name) != page()]


def _written(path: Path) -> str:
    return path.read_text("utf-8") if path.exists() else ""


def main(words: list[str]) -> int:
    if "--write" in words:
        for name, page in PAGES.items():
            (FOLDER / name).write_text(page(), "utf-8")
        return 0
    for name in stale():
        print(f"grammar/{name} is out of date; write it with python -m tests.house.reference --write")
    return int(bool(stale()))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
