"""The desk: lists come in here by path, each with the rule book that holds for it. What goes wrong stops it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import NoReturn

from kitproof import kept
from kitproof.answers import keep_answer
from kitproof.books import Asked, Books, shipped_rules
from kitproof.facts.promises import beside
from kitproof.files import NoSuchPathError, Source, fetcher, from_top, lists_in, source, typed
from kitproof.history import NoHistoryError
from kitproof.library import list_of
from kitproof.looks import Looks
from kitproof.model.kitlist import KitList
from kitproof.model.promises import Promised
from kitproof.proofing.findings import Proof
from kitproof.reading.document import Where
from kitproof.recalling import keep_memory, memory_of
from kitproof.revisions import Changes, NotThereError, files_of, list_at, place_of
from kitproof.rulebook.errors import BadRules, RuleError
from kitproof.rulebook.rules import RuleBook
from kitproof.rulebook.settings import Settings
from kitproof.showing.output import encoded
from kitproof.showing.shown import Shown
from kitproof.showing.text import Said

LONGEST_SHOWN = 60
Watched = Callable[[Sequence[Source]], Iterable[Source]]


class Desk:
    """Lists and rule books for one run of the command, with what its options set over the house's file."""

    def __init__(
        self,
        house: str,
        folders: Sequence[str],
        limits: Mapping[str, str],
        grades: Mapping[str, str],
        retired: Sequence[str],
    ) -> None:
        settings = Settings(limits, grades, tuple(retired))
        self.kept, self.looks = kept.here(), Looks()
        self.books = Books(Asked(settings, tuple(folders), house), shipped_rules(), self.kept, self.looks)
        self.real: dict[str, Path] = {}

    def stop(self, says: str) -> NoReturn:
        """It could not run: says why on standard error, and exits 2."""
        print(says, file=sys.stderr)
        raise SystemExit(2)

    def lists(self, paths: Sequence[str], called: str | None, watched: Watched = iter) -> list[KitList]:
        """The lists that paths name; rule books first, so that nothing is proofed by half of one.

        `watched` goes through them one by one, and may show how far it is.
        """
        found = self.sources(paths, called)
        self.real.update({each.path: each.real for each in found})
        self._all_books([each.real for each in found])
        return [self._list_of(each) for each in watched(found)]

    def list_named(self, path: str) -> KitList:
        """One list by its path."""
        return self.lists((path,), None)[0]

    def list_typed(self, name: str, data: bytes) -> KitList:
        """A list that comes as text, as if it lay in the current folder."""
        found = typed(name, data, self.looks)
        self.real[found.path] = found.real
        self._book(found.real)
        return self._list_of(found)

    def list_at(self, path: str, revision: str) -> KitList:
        """One list as it was at a revision; its rule book is the one in force now."""
        self.real[path] = place_of(Path(path))
        self._book(self.real[path])
        try:
            return list_at(path, revision)
        except NoHistoryError as problem:
            self.stop(f"{problem} Give two files to compare." if problem.none else str(problem))
        except NotThereError as problem:
            self.stop(str(problem))

    @staticmethod
    def beside(lists: Sequence[KitList], *, changing: bool = False) -> list[tuple[KitList, tuple[Promised, ...]]]:
        """Each list with what the others promise of the stock that it wants too, or may want where it is changed."""
        return list(zip(lists, beside(lists, changing=changing), strict=True))

    def proofed(self, kitlist: KitList, others: tuple[Promised, ...], day: date) -> Proof:
        """The proof of a list; what is known of its rigs from the last one is not worked out again."""
        from kitproof.proofing.proof import proof

        book, identity = self.book(kitlist), str(self.real[kitlist.path])
        if not self.kept.where:
            return proof(kitlist, book, day, others)
        memory = memory_of(self.kept, identity)
        found = proof(kitlist, book, day, others, memory=memory)
        keep_memory(self.kept, identity, memory)
        return found

    def book(self, kitlist: KitList) -> RuleBook:
        return self._book(self.real[kitlist.path])

    def book_here(self, path: str = "") -> RuleBook:
        """The rule book that holds for a list, by its path; with no path, for one in the current folder."""
        return self._book((Path.cwd() / (path or "list")).resolve())

    def warn(self, book: RuleBook) -> None:
        """Says on standard error what to look at in the rule files, though they can be used."""
        for warning in book.warnings:
            print(warning, file=sys.stderr)

    def _book(self, real: Path) -> RuleBook:
        return self._all_books([real])[0]

    def _all_books(self, lists: Sequence[Path]) -> list[RuleBook]:
        """The rule book of each list; the mistakes of all stop the command, each said once."""
        books: list[RuleBook] = []
        errors: dict[RuleError, None] = {}
        for real in lists:
            try:
                books.append(self.books.for_list(real))
            except BadRules as bad:
                errors.update(dict.fromkeys(bad.errors))
        for error in errors:
            print(error, file=sys.stderr)
        if errors:
            self.stop("Nothing was proofed: the rule book is used whole or not at all.")
        return books

    def sources(self, paths: Sequence[str], called: str | None, command: str = "proof") -> list[Source]:
        """The lists asked for; with no path there is nothing to do, and it says what could be typed."""
        if not paths:
            self.stop(f"Which list? Name a file, a folder, or - for standard input: kitproof {command} order.kitlist")
        if called and "-" not in paths:
            self.stop("--called names what comes on standard input; give - as the path with it.")
        found: list[Source] = []
        try:
            for path in paths:
                if path == "-":
                    name = called or "standard input"
                    found.append(typed(name, sys.stdin.buffer.read(), self.looks))
                else:
                    found += [source(each, self.looks) for each in lists_in((path,), self.looks)]
        except NoSuchPathError as problem:
            self.stop(str(problem))
        return list({each.real: each for each in found}.values())

    def _list_of(self, found: Source) -> KitList:
        return list_of(found, self.kept, fetcher(found.real.parent, self.looks))

    def against_known(self, whole: Proof, path: str, lists: Sequence[KitList]) -> Proof:
        """A proof held against a record of known findings; a record that cannot be used stops the command."""
        from kitproof.proofing.known import BadRecordError, against, read_record

        try:
            known = read_record(self.looks.bytes(path).decode("utf-8"))
            return against(whole, known, {each.key for each in lists})
        except OSError as error:
            self.stop(f'"{path}" cannot be read: {(error.strerror or "no reason given").lower()}.')
        except (BadRecordError, UnicodeDecodeError) as error:
            says = error if isinstance(error, BadRecordError) else "it is not UTF-8 text"
            self.stop(f'"{path}" is no record of known findings: {says}.')

    def shown(self, whole: Proof, lists: Sequence[KitList], send_back_at: str) -> Shown:
        """A proof of these lists with all that its showing needs."""
        rules = {name: rule for each in lists for name, rule in self.book(each).rules.items()}
        paths = from_top((document.path for each in lists for document in each.documents), self.looks)
        return Shown(whole, lists, rules, send_back_at, paths)

    def keep_answer(self, words: list[str], printed: str, status: int) -> None:
        """Keeps what was printed for the words of a command, with every look that was taken."""
        keep_answer(self.kept, words, self.looks.seen, encoded(printed), status)

    def changed_after(
        self, revision: str, lists: Sequence[tuple[KitList, tuple[Promised, ...]]]
    ) -> list[tuple[KitList, tuple[Promised, ...]]]:
        """Those lists that have changed after a revision, or that use a file, a setting or a rule which has."""
        changes = Changes(revision)
        found = []
        try:
            for each, others in lists:
                real = self.real[each.path]
                if changes.touch(real.parent, [*files_of(each, real), *self.books.files_for(real)]):
                    found.append((each, others))
        except NoHistoryError as problem:
            self.stop(f"{problem} Name the lists to proof, without --changed-after." if problem.none else str(problem))
        if not found:
            print(f'No list here has changed after "{revision}", nor anything that one uses.', file=sys.stderr)
        return found

    def said_in(self, lists: Sequence[KitList]) -> Said:
        """The text at a place of these lists or what they use; "" where there is none."""
        texts = {document.path: document.lines for each in lists for document in each.documents}

        def said(where: Where) -> str:
            lines = texts.get(where.path, ())
            if where.line != where.to_line or not 0 < where.line <= len(lines):
                return ""
            text = " ".join(lines[where.line - 1][where.column - 1 : where.to_column - 1].split())
            return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 2]} …"

        return said
