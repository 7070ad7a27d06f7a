"""Kitproof for programs: `from kitproof import read, proof, numbers, pair`.

Each function takes all that it needs and gives frozen data; none prints, ends the program or keeps anything in memory,
so that any of them may run in any number of threads at once. What is kept on disk is kept as for the command. Amounts
are in SI: kg, m, N·m, rad, W, s, and J for an energy.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from kitproof import kept
from kitproof.books import Asked, Books, shipped_rules
from kitproof.files import NoSuchPathError, Source, fetcher, lists_in, source
from kitproof.kept import Kept
from kitproof.looks import Looks
from kitproof.model.kitlist import KitList
from kitproof.model.making import make_list
from kitproof.model.sources import Fetch, gather, once
from kitproof.recalling import Recall
from kitproof.rulebook.errors import BadRules, RuleError
from kitproof.rulebook.rules import RuleBook
from kitproof.rulebook.settings import Settings, Spot
from kitproof.tree import Tree
from kitproof.words.nearest import nearest

if TYPE_CHECKING:
    from kitproof.facts.subject import Setting
    from kitproof.mending.pairing.results import Paired
    from kitproof.model.promises import Promised
    from kitproof.model.rigs import Rig
    from kitproof.proofing.findings import Proof
    from kitproof.proofing.numbers import RigNumbers
    from kitproof.proofing.ordered import FromSupplier


CALL: Spot = ("the call of read", 0, 0, 0)
"""Where settings stand that a program gives."""


class KitproofError(Exception):
    """What cannot be done as it was asked. Its text says what is wrong and what to do, in a person's words.

    What a list says is never one of these: what cannot be read in it is a finding.
    """


class NoSuchListError(KitproofError):
    """There is no list at this path, or it cannot be opened."""


class NoSuchRigError(KitproofError):
    """The list has no rig of this name."""


class HouseError(KitproofError):
    """Settings or rule files of the house that cannot be used. A rule book is used whole or not at all.

    `mistakes` holds each with its file, line and columns, from 1.
    """

    def __init__(self, mistakes: Sequence[RuleError]) -> None:
        self.mistakes = tuple(mistakes)
        super().__init__("\n".join(map(str, self.mistakes)))


class ReadList(Struct, frozen=True):
    """A list as it was read, with the rule book that holds for it; what it uses is read too and not looked at again.

    `path` is how it is shown, `data` its bytes; `kitlist` has its rigs, orders, moves, cases, and the parts in reach.
    """

    path: str
    kitlist: KitList
    book: RuleBook
    data: bytes
    real: Path
    fetch: Fetch


class ListNumbers(Struct, frozen=True):
    """The numbers behind a list: those of each rig, and what is ordered from whom."""

    rigs: tuple[RigNumbers, ...]
    orders: tuple[FromSupplier, ...]


def read(
    path: str | os.PathLike[str],
    *,
    texts: Mapping[str, str | bytes] | None = None,
    house: str | os.PathLike[str] = "",
    rules: Sequence[str | os.PathLike[str]] = (),
    limits: Mapping[str, str] | None = None,
    grades: Mapping[str, str] | None = None,
    retired: Sequence[str] = (),
) -> ReadList:
    """One list by its path, read with all that it uses; settings and parts books are found as the command finds them.

    With `texts` nothing of the list's is taken from disk. They are a small tree of files in memory, each text by its
    path from the top: the list itself, the parts books that it uses, and `kitproof.toml` and rules if there are any.

    The rest goes over the house's settings, as the options of the command do: `house` names a settings file, `rules`
    further folders of rules, `limits` values as written ("30 h") by name, `grades` stop, wrong, watch or note by rule,
    `retired` rules to leave out.

    Raises NoSuchListError where there is no such list, HouseError for settings or rules that cannot be used.
    """
    looks, keep = (Looks(), kept.here()) if texts is None else (_tree(texts), kept.NOTHING)
    try:
        found = _source(os.fspath(path), looks)
    except NoSuchPathError as problem:
        raise NoSuchListError(str(problem)) from problem
    settings = _settings(limits or {}, grades or {}, retired)
    asked = Asked(settings, tuple(os.fspath(each) for each in rules), os.fspath(house), CALL)
    try:
        book = Books(asked, shipped_rules(), kept.here(), looks).for_list(found.real)
    except BadRules as bad:
        raise HouseError(bad.errors) from bad
    fetch = once(fetcher(found.real.parent, looks))
    return ReadList(found.path, list_of(found, keep, fetch), book, found.data, found.real, fetch)


def proof(kitlist: ReadList, *, day: date | None = None, beside: Sequence[ReadList] = ()) -> Proof:
    """What is found in a list: the findings, the gravest first, and how much could be judged and read.

    Its `tally` counts findings by grade, and `sends_back("wrong")` says whether any counts at that grade or a graver
    one. `day` decides waivers and dated limits; today unless given. `beside` are lists that want the same stock.
    """
    from kitproof.proofing.findings import together
    from kitproof.proofing.proof import proof as proofed

    found = proofed(kitlist.kitlist, kitlist.book, day or date.today(), _promised(kitlist, beside))
    return together([found])


def numbers(
    kitlist: ReadList,
    *,
    rig: str | None = None,
    worked: bool = False,
    day: date | None = None,
    beside: Sequence[ReadList] = (),
) -> ListNumbers:
    """Every fact of every rig of a list (or of one, by its name) in each of its combinations, and its orders.

    Each fact is an interval in SI with what is missing; its meaning, formula and source are those of
    `kitproof.facts.registry`. With `worked` each comes with how it came about and what widens it most: slower.
    Of a rig with more than 10,000 combinations it is the one that loads the head most; `of` is how many there are.
    Raises NoSuchRigError.
    """
    from kitproof.proofing import numbers as room
    from kitproof.proofing.ordered import ordered

    setting = _setting(kitlist, day, beside)
    rigs = tuple(room.numbers(setting, each, work=worked) for each in _rigs(kitlist, rig))
    return ListNumbers(rigs, () if rig is not None else tuple(ordered(setting)))


def pair(
    kitlist: ReadList,
    *,
    rig: str | None = None,
    most: int | None = 3,
    day: date | None = None,
    beside: Sequence[ReadList] = (),
) -> tuple[Paired, ...]:
    """Which sticks, head, slide and adapters of the parts books in use carry each rig (or one, by its name) in every
    combination: those in stock first, the smallest first; why the others do not; what is undecided.

    `most` is how many pairings to look for, from 1; None for all there are, which is slower.
    Raises NoSuchRigError, and KitproofError for a list in UTF-16, which no part can be tried in, and for a rig with
    more combinations than a pairing can be tried in.
    """
    from kitproof.mending.filetext import opened
    from kitproof.mending.ground import Given, Ground
    from kitproof.mending.pairing.search import paired, too_many

    if most is not None and most < 1:
        raise KitproofError(f"{most} pairings cannot be looked for. Ask for 1 or more, or None for all.")
    file = opened(kitlist.data)
    if file is None:
        raise KitproofError(f'"{kitlist.path}" is UTF-16 text. Save it as UTF-8 text first.')
    key, on = kitlist.kitlist.key, day or date.today()
    given = Given(kitlist.path, str(kitlist.real), key, kitlist.fetch, kitlist.book, on)
    ground = Ground(given, file).beside(_promised(kitlist, beside, changing=True))
    rigs = _rigs(kitlist, rig)
    beyond = next(filter(None, map(too_many, rigs)), "")
    if beyond:
        raise KitproofError(beyond)
    return tuple(paired(ground, each, most) for each in rigs)


def list_of(found: Source, keep: Kept, fetch: Fetch) -> KitList:
    """A list whose bytes were found, and all that it uses; what was read of them before comes from where it is kept."""
    recall = Recall(keep)
    sources = gather(found.path, str(found.real), found.data, fetch, recall.known)
    recall.keep(sources.documents)
    return make_list(sources, found.key)


def _settings(limits: Mapping[str, str], grades: Mapping[str, str], retired: Sequence[str]) -> Settings:
    names = {"limits": limits, "grades": grades, "retired": retired}
    places = {(key, name): CALL for key, each in names.items() for name in each}
    return Settings(dict(limits), dict(grades), tuple(retired), places=places)


def _tree(texts: Mapping[str, str | bytes]) -> Tree:
    try:
        return Tree(texts)
    except ValueError as problem:
        raise NoSuchListError(str(problem)) from problem


def _source(path: str, looks: Looks) -> Source:
    if looks.is_folder(path):
        raise NoSuchListError(f'"{path}" is a folder. Name one list in it.')
    return next(source(each, looks) for each in lists_in((path,), looks))


def _promised(kitlist: ReadList, beside: Sequence[ReadList], *, changing: bool = False) -> tuple[Promised, ...]:
    """What other lists promise of the stock that this one wants, or where parts are tried in it may want; the list is
    not beside itself."""
    from kitproof.facts.promises import beside as promises

    lists = [kitlist.kitlist, *(each.kitlist for each in beside if each.real != kitlist.real)]
    return promises(lists, changing=changing)[0]


def _setting(kitlist: ReadList, day: date | None, beside: Sequence[ReadList]) -> Setting:
    from kitproof.proofing.proof import setting_of

    return setting_of(kitlist.kitlist, kitlist.book, day or date.today(), _promised(kitlist, beside))


def _rigs(kitlist: ReadList, name: str | None) -> list[Rig]:
    rigs = [each for each in kitlist.kitlist.rigs if name in (None, each.name)]
    if name is not None and not rigs:
        near = nearest(name, tuple(each.name for each in kitlist.kitlist.rigs))
        hint = f' The nearest is "{near[0]}".' if near else ""
        raise NoSuchRigError(f'There is no rig "{name}" in "{kitlist.path}".{hint}')
    return rigs
