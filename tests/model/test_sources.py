"""The files that a list is made of."""

from __future__ import annotations

from kitproof.model.sources import Fetched, gather
from tests.model.texts import made, slips


def test_a_used_file_is_read_once_and_what_it_uses_too() -> None:
    files = {"one": 'use "two"\npart lens "O"\n', "two": 'part lens "T"\n'}
    kitlist = made('use "one"\nuse "two"\n', **files)
    assert [document.path for document in kitlist.documents] == ["list.kitlist", "one", "two"]
    assert slips(kitlist) == []
    assert {"O", "T"} <= set(kitlist.parts)


def test_a_circle_is_said_where_it_closes() -> None:
    kitlist = made('use "one"\n', one='use "two"\n', two='use "one"\n')
    assert slips(kitlist) == [("circular-use", "one")]
    assert kitlist.slips[0].where.path == "two"


def test_files_that_are_missing_or_outside_are_said() -> None:
    def fetch(using: str, wanted: str) -> Fetched:
        return Fetched(wanted, wanted, problem="outside" if wanted.startswith("..") else "missing")

    found = gather("a", "a", b'use "../b"\nuse "c"\n', fetch)
    assert [each.slip.kind for each in found.slips] == ["used-file-outside", "used-file-missing"]


def test_bytes_that_are_not_utf_8_are_said_and_read_all_the_same() -> None:
    found = gather("a", "a", b'part lens "P\xe9ll"\n', lambda using, wanted: Fetched(wanted, wanted))
    assert [each.slip.kind for each in found.slips] == ["not-utf-8"]
    assert found.documents[0].entries[0].name == "Péll"
