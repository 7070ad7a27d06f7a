"""The commands that change lists: what they write, what they say, and what they leave alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitproof.command import main

UNTIDY = b'rig  A\n\thead "Fenner 12"# why\n'
NEAT = b'rig A\n  head      "Fenner 12"  # why\n'


def run(*words: str | Path, typed: bytes | None = None) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words], input=typed, catch_exceptions=False)


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def order(desk: Path) -> Path:
    path = desk / "order.kitlist"
    path.write_bytes(UNTIDY)
    return path


# Neatening


def test_neaten_writes_the_layout_and_says_which_list(order: Path) -> None:
    result = run("neaten", "order.kitlist")
    assert (result.exit_code, result.stdout) == (0, "order.kitlist is neatened.\n")
    assert order.read_bytes() == NEAT
    assert run("neaten", "order.kitlist").stdout == ""


def test_only_say_changes_nothing_and_says_which_and_where(order: Path) -> None:
    (order.parent / "neat.kitlist").write_bytes(NEAT)
    result = run("neaten", ".", "--only-say")
    assert (result.exit_code, result.stdout) == (1, "order.kitlist would change, first at line 1.\n")
    assert order.read_bytes() == UNTIDY
    assert run("neaten", "--only-say", "neat.kitlist").exit_code == 0


def test_neaten_prints_what_comes_on_standard_input(desk: Path) -> None:
    result = run("neaten", "-", typed=UNTIDY)
    assert (result.exit_code, result.stdout_bytes) == (0, NEAT)
    result = run("neaten", "--only-say", "--called", "june.kitlist", "-", typed=UNTIDY)
    assert (result.exit_code, result.stdout) == (1, "june.kitlist would change, first at line 1.\n")


@pytest.mark.parametrize(
    ("was", "now"),
    [
        (b"\xef\xbb\xbf" + UNTIDY, b"\xef\xbb\xbf" + NEAT),
        (UNTIDY.replace(b"\n", b"\r\n"), NEAT.replace(b"\n", b"\r\n")),
        (b"rig  A\r\n head 'F'\nrig  B\r", b"rig A\r\n  head      'F'\n\nrig B\r"),
        (b"rig  A\n  he\xe4d   'F'\n", b"rig A\n  he\xe4d   'F'\n"),
    ],
)
def test_line_ends_marks_and_strange_bytes_are_kept(order: Path, was: bytes, now: bytes) -> None:
    order.write_bytes(was)
    assert run("neaten", order).exit_code == 0
    assert order.read_bytes() == now


def test_one_list_that_cannot_be_changed_does_not_stop_the_others(order: Path) -> None:
    wide = "rig  A\n".encode("utf-16")
    (order.parent / "wide.kitlist").write_bytes(wide)
    (order.parent / "kept.kitlist").write_bytes(UNTIDY)
    (order.parent / "kept.kitlist").chmod(0o444)
    result = run("neaten", ".")
    assert (result.exit_code, result.stdout) == (2, "order.kitlist is neatened.\n")
    assert result.stderr.splitlines() == [
        '"kept.kitlist" is read-only and was left as it is. Make it writable first.',
        '"wide.kitlist" is UTF-16 text and was left as it is. Save it as UTF-8 text first.',
    ]
    assert (order.parent / "kept.kitlist").read_bytes() == UNTIDY
    assert (order.parent / "wide.kitlist").read_bytes() == wide


def test_neaten_asks_for_a_list(desk: Path) -> None:
    result = run("neaten")
    assert result.exit_code == 2
    assert "kitproof neaten order.kitlist" in result.stderr
