"""The hooks for pre-commit: as pre-commit itself reads them, and run by it from a clone of this repository.

Pre-commit makes an environment for the hooks and installs into it what Kitproof asks for, from where pip installs here.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from kitproof.command import main
from tests.house.repository import ROOT
from tests.packaging.installing import copy_of_repository, run
from tests.repositories import ALONE, git, repository, write

HOOKS = ".pre-commit-hooks.yaml"
GOOD = 'list "Pier"\n  issue     2\n\npart head "Tollgate 16"\n  mass      3 kg\n'
WRONG = GOOD.replace("3 kg", "3")
UNTIDY = GOOD.replace("mass      3 kg", "mass 3kg")
CONFIG = """\
repos:
  - repo: {url}
    rev: {rev}
    hooks:
      - id: kitproof
        args: [--on, "2027-03-01"]
      - id: kitproof-changed
        args: [--on, "2027-03-01"]
      - id: kitproof-neaten
"""


def hooks() -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = yaml.safe_load((ROOT / HOOKS).read_text("utf-8"))
    return found


def pre_commit(*words: str | Path, cwd: Path) -> tuple[int, str]:
    result = run(sys.executable, "-m", "pre_commit", *words, cwd=cwd)
    return result.returncode, result.stdout + result.stderr


def test_pre_commit_can_read_them() -> None:
    assert pre_commit("validate-manifest", HOOKS, cwd=ROOT) == (0, "")


def test_every_hook_is_a_command_that_there_is() -> None:
    for hook in hooks():
        program, *words = hook["entry"].split()
        options = [word for word in words if word.startswith("--")]
        shown = CliRunner().invoke(main, [words[0], "--help"])
        assert (program, shown.exit_code) == ("kitproof", 0)
        assert [option for option in options if option not in shown.output] == []


def test_a_hook_is_for_lists_and_not_for_what_proves_a_rule() -> None:
    taken = [hook for hook in hooks() if hook.get("pass_filenames", True)]
    assert taken
    for hook in taken:
        files, exclude = re.compile(hook["files"]), re.compile(hook["exclude"])
        names = ["orders/pier.kitlist", "rules/cover/heavy.fails.kitlist", "pier.kitlist.txt", "kitproof.toml"]
        assert [name for name in names if files.search(name) and not exclude.search(name)] == names[:1]


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A clone's worth of this repository as it is now, in one revision."""
    return repository(copy_of_repository(tmp_path_factory.mktemp("source") / "kitproof"))


def test_pre_commit_runs_them(source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PRE_COMMIT_HOME", str(tmp_path / "kept"))
    for name, value in ALONE.items():
        monkeypatch.setenv(name, value)
    here = repository(tmp_path / "orders", pier=GOOD)
    config = CONFIG.format(url=source.resolve().as_uri(), rev=git(source, "rev-parse", "HEAD"))
    write(here, ".pre-commit-config.yaml", config)
    git(here, "add", "--all")
    git(here, "commit", "--quiet", "-m", "hooks")

    write(here, "pier.kitlist", WRONG)
    git(here, "add", "--all")
    status, said = pre_commit("run", cwd=here)
    assert status == 1, said
    assert said.count("Rule   no-unit") == 2  # the list was changed, and was given as one that was

    write(here, "pier.kitlist", UNTIDY)
    git(here, "add", "--all")
    status, said = pre_commit("run", cwd=here)
    assert status == 1, said
    assert "no-unit" not in said
    assert "pier.kitlist is neatened." in said
    assert (here / "pier.kitlist").read_text("utf-8") == GOOD

    write(here, "pier.kitlist", f"{GOOD}\n# seen\n")
    git(here, "add", "--all")
    status, said = pre_commit("run", cwd=here)
    assert status == 0, said
