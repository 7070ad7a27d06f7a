"""A described list typed out as a person would: the list itself and the parts book that it uses."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from tests.second.described import Case, Kit, Line, Move, Ordered, Part, Rig, Without

BOOK = "book.kitlist"


def typed(kit: Kit) -> dict[str, str]:
    """Texts by file name; the list's own is "list.kitlist"."""
    head = ['list "Random"']
    if kit.list_within:
        head.append(f"  weights within {kit.list_within.text}")
    if kit.dates:
        head.append(f"  dates {_days(kit.dates)}")
    head += [f"  {line}" for line in _site(kit)]
    head += ["", f'use "{BOOK}"']
    own = [line for part in kit.parts if part.name not in kit.in_book for line in _part(part)]
    rest = [line for rig in kit.rigs for line in _rig(rig)]
    rest += [line for order in kit.orders for line in ["", 'order "Harl"', *_order(order)]]
    rest += [line for move in kit.moves for line in _move(move)]
    rest += [line for case in kit.cases for line in _case(case)]
    book = [f"weights within {kit.book_within.text}"] if kit.book_within else []
    book += [line for part in kit.parts if part.name in kit.in_book for line in _part(part)]
    return {"list.kitlist": "\n".join([*head, *own, *rest]) + "\n", BOOK: "\n".join(book) + "\n"}


def _days(days: tuple[date, date]) -> str:
    return f"{days[0].isoformat()} to {days[1].isoformat()}"


def _site(said: Kit | Rig) -> Iterator[str]:
    for word, value in (("ground slope", said.slope), ("wind", said.wind)):
        if value:
            yield f"{word} {value.text}"


def _part(part: Part) -> Iterator[str]:
    yield ""
    yield f'part {part.kind} "{part.name}"'
    if part.mass:
        yield f"  mass {part.mass.text}"
    if part.weighed:
        one = part.weighed
        front, rear = f"front {one.front.text} at {one.front_at.text}", f"rear {one.rear.text} at {one.rear_at.text}"
        yield f"  weighed {front}, {rear}"
    if part.cog:
        yield f"  cog {part.cog.text}"
    for word, value in (("height", part.height), ("length", part.length), ("legs", part.legs)):
        if value:
            yield f"  {word} {value.text}"
    if part.size:
        yield "  size " + " x ".join(each.text for each in part.size)
    for port in part.sits_on:
        yield f"  sits on {port.text}"
    for port in part.takes:
        yield f"  takes {port.text}" + (f" at {port.at.text}" if port.at else "")
    yield from _figures(part)
    yield from _mechanics(part)
    if part.slides_itself:
        yield "  slides itself"
    if part.have is not None:
        yield f"  have {part.have}"
    for count, name in part.includes:
        yield f'  includes {count} x "{name}"'


def _figures(part: Part) -> Iterator[str]:
    if part.rated:
        yield f"  rated {part.rated.text}"
    for word, figures in (("chart", part.chart), ("tried", part.tried)):
        if figures:
            yield f"  {word} " + ", ".join(each.text for each in figures)
    if part.axis:
        yield f"  tilt axis {part.axis.text}"
    if part.travel:
        yield f"  travel {part.travel.text}"


def _mechanics(part: Part) -> Iterator[str]:
    """What says how it tilts, stands, bears and bends."""
    if part.feet:
        yield "  feet " + ", ".join(f"{radius.text} at {height.text}" for radius, height in part.feet)
    if part.spring:
        yield f"  counterbalance {part.spring.text}"
    for word in ("tilt", "drag", "lens_moment", "diameter", "wall", "sail_area"):
        value = getattr(part, word)
        if value:
            yield f"  {word.replace('_', ' ')} {value.text}"
    if part.made_of:
        yield f"  made of {part.made_of}"


def _rig(rig: Rig) -> Iterator[str]:
    yield ""
    yield f"rig {rig.name}" + (f" like {rig.like}" if rig.like else "")
    for word, said in (("underslung", rig.underslung), ("left standing", rig.left_standing)):
        if said:
            yield f"  {word}"
    for name, value in (("tilts", rig.tilts), ("push", rig.push)):
        if value:
            yield f"  {name} {value.text}"
    yield from (f"  {line}" for line in _site(rig))
    if rig.dates:
        yield f"  dates {_days(rig.dates)}"
    for name in rig.instead_of:
        yield f"  instead of {name}"
    for line in rig.lines:
        if isinstance(line, Without):
            yield f"  without {line.slot}" + (f' "{line.name}"' if line.name else "")
        else:
            yield "  " + _line(line)


def _line(line: Line) -> str:
    begin = {"": line.slot, "also": f"also {line.slot}", "or": "or"}[line.word]
    names = " or ".join("none" if each is None else f'"{each}"' for each in line.options if each != "")
    if line.mass and not names:
        names = line.mass.text
        clauses = []
    else:
        clauses = [line.mass.text] if line.mass else []
    if line.at:
        clauses.append(f"at {line.at.text}")
    if line.on:
        clauses.append(f'on "{line.on}"' if line.on_is_name else f"on {line.on}")
    if line.legs:
        clauses.append(f"legs at {line.legs.text}")
    if line.hung:
        clauses.append(f"hung at {line.hung.text}")
    if line.spare:
        clauses.append(f"spare {line.spare}")
    if line.only_with:
        clauses.append("only with " + " or ".join(f'"{each}"' for each in line.only_with))
    return ", ".join([f"{begin} {names}", *clauses])


def _order(lines: tuple[Ordered, ...]) -> Iterator[str]:
    for each in lines:
        yield f'  {each.count} x "{each.name}"' + (f", spare {each.spare}" if each.spare else "")


def _move(move: Move) -> Iterator[str]:
    yield ""
    yield f'move "{move.name}"'
    yield "  stored" if move.stored else "  by road"
    if move.lasts:
        yield f"  lasts {move.lasts.text}"


def _case(case: Case) -> Iterator[str]:
    yield ""
    yield f'case "{case.name}"'
    for name in case.goes:
        yield f'  goes "{name}"'
    for each in case.holds:
        states = [each.tilted.text] if each.tilted else []
        if each.step is not None:
            states.append(f"counterbalance {each.step or 'off'}")
        count = f"{each.count} x " if each.count > 1 else ""
        yield ", ".join([f'  holds {count}"{each.name}"', *states, *each.words])
