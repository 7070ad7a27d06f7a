"""The commands that change lists: what they write, what they say, and what they leave alone."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitproof.command import main
from kitproof.mending.ground import Ground
from kitproof.mending.mend import Mended, mended
from tests.mending.pairing.stocks import PLAIN, RIG, head, listed

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


# Mending

LIST = """\
part head "Small"
  mass      2 kg

rig A
  head      "Small"  # the new one

order
  1 x "Small"
  1 x "Smal"  # twice?

case "C"
  holds     "Small", tilted down 40°
"""
FIXED = LIST.replace('"Smal"', '"Small"').replace("tilted down 40°", "level")


@pytest.fixture
def faulty(desk: Path) -> Path:
    path = desk / "order.kitlist"
    path.write_text(LIST, "utf-8")
    return path


def names(folder: Path) -> list[str]:
    return sorted(each.name for each in folder.iterdir())


def test_mend_changes_what_it_can_prove_and_says_what_it_did(faulty: Path) -> None:
    result = run("mend", "order.kitlist")
    assert (result.exit_code, result.stderr) == (0, "")
    assert faulty.read_text("utf-8") == FIXED
    assert result.stdout.startswith(
        "order.kitlist: 2 fixes made, each proved by proofing the changed list again.\n"
        '  Write "Small" in the place of "Smal". (unknown-part, list)\n'
        '  Pack "Small" so: level. (head-packed-tilted, case "C")\n'
        "The list as it was is kept as order.kitlist.before-mending.\n"
    )
    assert "kitproof proof says what to do." in " ".join(result.stdout.split())


def test_mended_again_nothing_changes(faulty: Path) -> None:
    run("mend", faulty)
    before = names(faulty.parent)
    result = run("mend", "order.kitlist")
    assert result.stdout.startswith("order.kitlist: no fix can be proved, and nothing was changed.\n")
    assert faulty.read_text("utf-8") == FIXED
    assert names(faulty.parent) == before


def test_show_prints_a_diff_and_changes_nothing(faulty: Path) -> None:
    result = run("mend", "--show", "order.kitlist")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[:2] == ["--- order.kitlist", "+++ order.kitlist"]
    assert [line for line in result.stdout.splitlines()[2:] if line[0] in "-+"] == [
        '-  1 x "Smal"  # twice?',
        '+  1 x "Small"  # twice?',
        '-  holds     "Small", tilted down 40°',
        '+  holds     "Small", level',
    ]
    assert names(faulty.parent) == ["order.kitlist"]
    assert faulty.read_text("utf-8") == LIST


def git(folder: Path, *words: str) -> None:
    who = ("-c", "user.name=somebody", "-c", "user.email=somebody@example.org")
    subprocess.run(["git", *who, *words], cwd=folder, check=True, capture_output=True)


def test_no_copy_is_kept_of_what_version_control_holds_just_as_it_was(faulty: Path) -> None:
    git(faulty.parent, "init")
    git(faulty.parent, "add", ".")
    git(faulty.parent, "commit", "-m", "as it came")
    assert "is kept as" not in run("mend", faulty).stdout
    assert names(faulty.parent) == [".git", "order.kitlist"]


@pytest.mark.parametrize("held", [False, True], ids=["not added", "changed since"])
def test_a_copy_is_kept_of_what_is_not_committed(faulty: Path, held: bool) -> None:
    git(faulty.parent, "init")
    if held:
        was = faulty.read_bytes()
        faulty.write_bytes(was + b"\n")
        git(faulty.parent, "add", ".")
        git(faulty.parent, "commit", "-m", "as it came")
        faulty.write_bytes(was)
    before = faulty.read_bytes()
    assert "is kept as" in run("mend", faulty).stdout
    kept = [each for each in faulty.parent.iterdir() if "before-mending" in each.name]
    assert [each.read_bytes() for each in kept] == [before]


def test_a_list_on_standard_input_is_printed_mended_and_what_was_done_is_said_apart(desk: Path) -> None:
    result = run("mend", "-", "--called", "june.kitlist", typed=LIST.encode())
    assert (result.exit_code, result.stdout) == (0, FIXED)
    assert result.stderr.startswith("june.kitlist: 2 fixes made")
    assert names(desk) == []


def test_a_read_only_list_is_left_and_said(faulty: Path) -> None:
    faulty.chmod(0o444)
    result = run("mend", "order.kitlist")
    assert result.exit_code == 2
    assert result.stderr == '"order.kitlist" is read-only and was left as it is. Make it writable first.\n'
    assert (faulty.read_text("utf-8"), names(faulty.parent)) == (LIST, ["order.kitlist"])


def test_a_list_that_was_saved_meanwhile_is_left_and_said(faulty: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def mended_slowly(ground: Ground) -> Mended:
        faulty.write_text("rig B\n", "utf-8")
        return mended(ground)

    monkeypatch.setattr("kitproof.mending.mend.mended", mended_slowly)
    result = run("mend", "order.kitlist")
    assert result.exit_code == 2
    assert result.stderr == '"order.kitlist" has been changed meanwhile and was left as it is. Try again.\n'
    assert (faulty.read_text("utf-8"), names(faulty.parent)) == ("rig B\n", ["order.kitlist"])


@pytest.mark.parametrize(
    ("was", "now"),
    [
        (b"\xef\xbb\xbf" + LIST.encode(), b"\xef\xbb\xbf" + FIXED.encode()),
        (LIST.replace("\n", "\r\n").encode(), FIXED.replace("\n", "\r\n").encode()),
        (LIST.replace("\n", "\r\n", 4).encode(), FIXED.replace("\n", "\r\n", 4).encode()),
        (b"# caf\xe9\n" + LIST.encode(), b"# caf\xe9\n" + FIXED.encode()),
        (LIST.encode() + b"  }{ what?\n", FIXED.encode() + b"  }{ what?\n"),
    ],
    ids=["a mark", "carriage returns", "mixed line ends", "bytes that are no UTF-8", "an unreadable line"],
)
def test_nothing_else_of_the_file_changes(faulty: Path, was: bytes, now: bytes) -> None:
    faulty.write_bytes(was)
    assert run("mend", faulty).exit_code == 0
    assert faulty.read_bytes() == now


def test_a_line_with_bytes_that_are_no_utf_8_is_not_mended(faulty: Path) -> None:
    was = LIST.encode().replace(b"# twice?", b"# deux\xe9")
    faulty.write_bytes(was)
    assert run("mend", faulty).exit_code == 0
    assert faulty.read_bytes() == was.replace("tilted down 40°".encode(), b"level")


def test_utf_16_is_left_and_said(faulty: Path) -> None:
    faulty.write_bytes(LIST.encode("utf-16"))
    result = run("mend", "order.kitlist")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Save it as UTF-8 text first" in result.stderr


def test_what_is_wrong_in_a_parts_book_is_for_the_book(faulty: Path) -> None:
    (faulty.parent / "stock.kitlist").write_text('part head "Small"\n  mass      2,5 kg\n', "utf-8")
    faulty.write_text('use "stock.kitlist"\n\nrig A\n  head      "Small"\n', "utf-8")
    result = run("mend", "order.kitlist")
    assert result.exit_code == 0
    assert "lies in stock.kitlist, which other lists may use: mend that file by itself." in " ".join(
        result.stdout.split()
    )
    assert names(faulty.parent) == ["order.kitlist", "stock.kitlist"]
    assert run("mend", "stock.kitlist").exit_code == 0
    assert "2.5 kg" in (faulty.parent / "stock.kitlist").read_text("utf-8")


# Proved fixes in a proof


def test_a_proof_has_proved_fixes_where_it_is_asked_for_them(faulty: Path) -> None:
    plain = run("proof", "order.kitlist", "--as", "json")
    proved = run("proof", "order.kitlist", "--as", "json", "--prove-fixes")
    fixes = [fix for each in json.loads(proved.stdout)["findings"] for fix in each["fixes"] if fix["proved"]]
    assert not any(fix["proved"] for each in json.loads(plain.stdout)["findings"] for fix in each["fixes"])
    assert [(fix["says"], fix["changes"]) for fix in fixes] == [
        (
            'Write "Small" in the place of "Smal".',
            [
                {
                    "path": "order.kitlist",
                    "from": {"line": 9, "column": 7},
                    "to": {"line": 9, "column": 13},
                    "text": '"Small"',
                }
            ],
        ),
        (
            'Pack "Small" so: level.',
            [
                {
                    "path": "order.kitlist",
                    "from": {"line": 12, "column": 22},
                    "to": {"line": 12, "column": 37},
                    "text": "level",
                }
            ],
        ),
    ]
    assert 'Do     Pack "Small" so: level. Proved.\n' in run("proof", "order.kitlist", "--prove-fixes").stdout


# Pairing


def paired(desk: Path, *words: str, text: str | None = None) -> Result:
    (desk / "pair.kitlist").write_text(text or listed(*PLAIN, head("Small", 7)), encoding="utf-8")
    return run("pair", "pair.kitlist", *words)


def test_pair_prints_what_carries_a_rig_with_its_margins_and_why_the_rest_does_not(desk: Path) -> None:
    result = paired(desk, "--rig", "A", "--every")
    assert result.exit_code == 0
    said = " ".join(result.stdout.split())
    assert "rig A, in 2 combinations: chosen from 1 sticks, 2 heads and 1 slide" in said
    assert '1. sticks "Sticks 0", head "Head 0", slide "Slide 0" All are in stock on the dates.' in said
    assert "At worst" in said
    assert 'Turned down: The head cannot hold this build: "Small".' in said
    assert "was not looked at" not in said


def test_pair_looks_for_no_more_than_it_is_asked_for_and_says_so(desk: Path) -> None:
    text = listed(*PLAIN, head("Larger", 40))
    assert "--every looks at all" in paired(desk, "--most", "1", text=text).stdout
    data = json.loads(paired(desk, "--most", "1", "--as", "json", text=text).stdout)
    assert [len(each["carries"]) for each in data["rigs"]] == [1]
    assert not data["rigs"][0]["whole"]
    assert paired(desk, "--most", "0").exit_code == 2


def test_pair_exits_1_where_nothing_carries_a_rig_and_says_what_to_ask_for(desk: Path) -> None:
    result = paired(desk, text=listed(*PLAIN).replace("  mass 4 kg\n  size 250", "  mass ?\n  size 250"))
    assert result.exit_code == 1
    assert "Nothing in the parts books in use carries it for certain." in result.stdout
    assert "Undecided, and not counted as carrying it:" in result.stdout
    assert 'What does the camera "Camera" weigh, as it is used?' in result.stdout


def test_pair_says_so_where_no_one_answer_settles_it(desk: Path) -> None:
    text = listed(*PLAIN, rig=f"{RIG}  underslung\n")
    result = paired(desk, text=text)
    assert result.exit_code == 1
    assert "No one answer settles it" in result.stdout
    assert len(json.loads(paired(desk, "--as", "json", text=text).stdout)["rigs"][0]["asks"]) == 1


def test_pair_says_where_there_is_nothing_to_choose_from_or_to_carry(desk: Path) -> None:
    bare = 'rig A\n  camera "Camera", 4 kg\n'
    result = paired(desk, text=bare)
    assert result.exit_code == 1
    said = " ".join(result.stdout.split())
    assert "There is nothing to choose from for sticks, head, slide. Name a parts book in the list" in said
    assert "It has no camera" in paired(desk, text='rig A\n  lens "Lens", 1 kg\n').stdout


def test_pair_stops_where_there_is_no_such_rig_no_list_or_one_that_it_cannot_read(desk: Path) -> None:
    result = paired(desk, "--rig", "Z")
    assert (result.exit_code, result.stderr) == (2, 'There is no rig "Z" in it.\n')
    assert (run("pair").exit_code, "Which list?" in run("pair").stderr) == (2, True)
    (desk / "wide.kitlist").write_text("rig A\n", encoding="utf-16")
    assert run("pair", "wide.kitlist").exit_code == 2


def test_pair_counts_what_other_lists_have_on_the_dates(desk: Path) -> None:
    text = listed(head("Head 0", 30, more="  have 1\n"), *PLAIN[1:])
    assert "All are in stock" in paired(desk, text=text).stdout
    (desk / "other.kitlist").write_text(text.replace("Orrery", "Other"), encoding="utf-8")
    assert run("pair", "pair.kitlist", "other.kitlist").stdout.count("Not all are in stock on the dates.") == 2


def test_pair_changes_nothing(desk: Path) -> None:
    paired(desk)
    before = (desk / "pair.kitlist").read_bytes()
    paired(desk)
    assert (desk / "pair.kitlist").read_bytes() == before
    assert [each.name for each in desk.iterdir()] == ["pair.kitlist"]
