"""`--changed-after`: the lists that changed, and those that use what changed; and a list as it was."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitproof.command import main
from kitproof.revisions import NotThereError, list_at
from tests.repositories import commit, git, repository, write

BOOK = 'part head "Tollgate 16"\n  mass 3 kg\n'
PIER = 'list "Pier"\n\nuse "stock/house.kitlist"\n\norder "House"\n  1 x "Tollgate 16"\n'
QUAY = 'list "Quay"\n'


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    made = repository(tmp_path / "house", pier=PIER, quay=QUAY, stock__house=BOOK)
    monkeypatch.chdir(made)
    return made


def proof(*words: str) -> Result:
    return CliRunner().invoke(main, ["proof", *words, "--on", "2027-03-01"], catch_exceptions=False)


def proofed(revision: str = "HEAD", *words: str) -> set[str]:
    """The lists that are proofed: those of which a heading is printed."""
    lines = proof(*(words or (".",)), "--changed-after", revision).stdout.splitlines()
    heads = lines[: lines.index("")] if "" in lines else lines
    return {head.split(",")[0].split(":")[0] for head in heads if head}


def test_nothing_has_changed(folder: Path) -> None:
    result = proof(".", "--changed-after", "HEAD")
    assert result.exit_code == 0
    assert result.stderr == 'No list here has changed after "HEAD", nor anything that one uses.\n'
    assert "Judged 0" in result.stdout


def test_a_changed_list_alone(folder: Path) -> None:
    write(folder, "quay.kitlist", f"{QUAY}  issue 2\n")
    assert proofed() == {"quay.kitlist"}


def test_a_changed_parts_book_brings_the_lists_that_use_it(folder: Path) -> None:
    write(folder, "stock/house.kitlist", f"{BOOK}  note x\n")
    assert proofed() == {"pier.kitlist", "stock/house.kitlist"}
    assert proofed("HEAD", "pier.kitlist", "quay.kitlist") == {"pier.kitlist"}


def test_so_does_one_that_another_book_uses(folder: Path) -> None:
    write(folder, "stock/more.kitlist", BOOK)
    write(folder, "stock/house.kitlist", 'use "more.kitlist"\n')
    commit(folder, "second")
    write(folder, "stock/more.kitlist", f"{BOOK}# changed\n")
    assert proofed() == {"pier.kitlist", "stock/house.kitlist", "stock/more.kitlist"}


def test_so_does_one_that_is_gone(folder: Path) -> None:
    (folder / "stock" / "house.kitlist").unlink()
    assert proofed() == {"pier.kitlist"}
    assert "used-file-missing" in proof(".", "--changed-after", "HEAD").stdout


def test_changed_settings_bring_the_lists_below_them(folder: Path) -> None:
    write(folder, "stock/kitproof.toml", "[limits]\n")
    assert proofed() == {"stock/house.kitlist"}
    commit(folder, "second")
    (folder / "stock" / "kitproof.toml").unlink()
    assert proofed() == {"stock/house.kitlist"}


def test_a_changed_rule_of_the_house_brings_the_lists_that_it_is_in_force_for(folder: Path) -> None:
    rule = (
        'title "it"\nabout case\nfails case_mass > 1 kg\nsays "It."\ndoubt "whether"\nbecause "So."\n'
        'fix advise "Do."\nsource "us"\n'
    )
    write(folder, "rules/cover/heavy.rule", rule)
    write(folder, "kitproof.toml", 'rules = ["rules"]\n')
    commit(folder, "second")
    assert proofed() == set()
    write(folder, "rules/cover/heavy.rule", rule.replace("1 kg", "2 kg"))
    assert proofed() == {"pier.kitlist", "quay.kitlist", "stock/house.kitlist"}


def test_what_other_lists_promise_still_counts(folder: Path) -> None:
    """A list that has changed is proofed beside all that were named, changed or not."""
    order = '  dates 2027-03-01 to 2027-03-09\n\nuse "stock/house.kitlist"\n\norder "House"\n  1 x "Tollgate 16"\n'
    commit(folder, "second", pier=f'list "Pier"\n{order}', stock__house=f"{BOOK}  have 1\n")
    write(folder, "quay.kitlist", f'list "Quay"\n{order}')
    assert "promised-twice" in proof(".", "--changed-after", "HEAD").stdout
    assert proofed() == {"quay.kitlist"}


@pytest.mark.parametrize("form", ["text", "json"])
def test_a_revision_that_is_not_there_cannot_run(folder: Path, form: str) -> None:
    result = proof(".", "--changed-after", "frist", "--as", form)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == 'There is no revision "frist" here. The nearest: first.\n'


def test_a_folder_with_no_history_cannot_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    write(tmp_path, "quay.kitlist", QUAY)
    result = proof(".", "--changed-after", "HEAD")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == "This folder keeps no history. Name the lists to proof, without --changed-after.\n"


def test_a_shallow_clone_cannot_run(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    commit(folder, "second", quay=f"{QUAY}  issue 2\n")
    git(tmp_path, "clone", "--quiet", "--depth", "1", folder.resolve().as_uri(), "shallow")
    monkeypatch.chdir(tmp_path / "shallow")
    result = proof(".", "--changed-after", "HEAD~1")
    assert result.exit_code == 2
    assert "This clone is shallow" in result.stderr


def test_machine_output_holds_what_changed_alone(folder: Path) -> None:
    write(folder, "quay.kitlist", "wnid 3\n")
    found = json.loads(proof(".", "--changed-after", "HEAD", "--as", "json").stdout)
    assert {each["list"] for each in found["findings"]} == {"quay.kitlist"}


# A list as it was


def test_a_list_and_its_parts_book_are_read_as_they_were(folder: Path) -> None:
    commit(folder, "second", pier=QUAY, stock__house=BOOK.replace("3 kg", "4 kg"))
    was = list_at("pier.kitlist", "first")
    assert (was.title, was.path, was.key) == ("Pier", "pier.kitlist", "pier.kitlist")
    mass = was.parts["Tollgate 16"].mass
    assert mass is not None
    assert mass.range == (3.0, 3.0)
    assert list_at("pier.kitlist", "HEAD").title == "Quay"


def test_a_list_that_is_gone_is_read_as_it_was(folder: Path) -> None:
    git(folder, "rm", "--quiet", "-r", ".")
    commit(folder, "second")
    assert len(list_at("pier.kitlist", "first").parts) == 1


def test_a_list_that_was_not_there_is_said(folder: Path) -> None:
    commit(folder, "second", mole=QUAY)
    with pytest.raises(NotThereError, match=r'^"mole\.kitlist" was not there at the revision "first"\.$'):
        list_at("mole.kitlist", "first")


def test_what_it_uses_is_found_in_its_root_only(folder: Path) -> None:
    text = 'list "Mole"\nuse "../../secret.kitlist"\nuse "no.kitlist"\n'
    commit(folder, "second", orders__mole=text)
    write(folder.parent, "secret.kitlist", BOOK)
    kinds = {each.slip.kind for each in list_at("orders/mole.kitlist", "second").slips}
    assert kinds > {"used-file-outside", "used-file-missing"}
