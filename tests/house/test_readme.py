"""What README.md and DEVELOPERS.md tell people is so."""

from __future__ import annotations

import re
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from kitproof.command import main
from kitproof.showing.forms import FOR_MACHINES
from tests.house import readme_parts
from tests.house.repository import ROOT

README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
SHELL = re.findall(r"^```sh\n(.*?)^```", README, re.MULTILINE | re.DOTALL)
WINDOWS = re.findall(r"^```bat\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize("name", readme_parts.PARTS)
def test_a_part_made_from_files_is_up_to_date(name: str) -> None:
    assert readme_parts.written(name, README) == readme_parts.PARTS[name](), (
        "run: python -m tests.house.readme_parts --write"
    )


def test_both_shell_blocks_are_one_command_line() -> None:
    assert [len(block.splitlines()) for block in SHELL] == [1, 1]


def test_windows_is_told_the_same_commands() -> None:
    (lines,) = WINDOWS
    told = [
        line.replace("py -m venv", "python3 -m venv").replace(r".venv\Scripts", ".venv/bin").replace("\\", "/")
        for line in lines.splitlines()
    ]
    assert told == ["".join(block.splitlines()).replace("'", "") for block in SHELL]


def test_the_script_of_all_checks_runs_the_second_block() -> None:
    script = (ROOT / ".ci" / "run").read_text("utf-8")
    assert "block == 2" in script
    assert "pytest" not in script, "the test command stands in README.md only"


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README.md", "DEVELOPERS.md"])
def test_every_file_that_is_named_is_there(text: str) -> None:
    named = re.findall(r"`((?:lint|tests|rules|grammar|samples|\.ci)/[\w./-]*)`", text)
    named += re.findall(r"\]\((?!https?:)([^)#]+)\)", text)
    assert named
    # A word in capitals stands for a name that the reader chooses.
    assert [name for name in named if not (ROOT / name).exists() and "NAME" not in name] == []


def test_every_room_is_explained_to_those_who_work_here() -> None:
    rooms = [path.name for path in (ROOT / "lint" / "kitproof").iterdir() if (path / "__init__.py").exists()]
    assert [room for room in rooms if f"`{room}/`" not in DEVELOPERS] == []


CAUTIONS = (
    "check on paper",
    "hand on the camera",
    "local codes",
    "licensed work",
    "tilt lock",
    "hands clear",
    "carrier",
)


@pytest.mark.parametrize("caution", CAUTIONS)
def test_the_cautions_are_given(caution: str) -> None:
    assert caution in " ".join(README.split())


RECIPES = re.findall(r"^```yaml\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


def strings(part: Any) -> list[str]:
    """Every text in a recipe."""
    if isinstance(part, str):
        return part.splitlines()
    inside = part.values() if isinstance(part, dict) else part if isinstance(part, list) else []
    return [text for each in inside for text in strings(each)]


def test_recipes_name_hooks_and_commands_that_there_are() -> None:
    texts = [text for recipe in RECIPES for text in strings(yaml.safe_load(recipe))]
    commands = [text.split() for text in texts if text.startswith("kitproof ")]
    assert len(commands) == 3
    for _, command, *words in commands:
        shown = CliRunner().invoke(main, [command, "--help"]).output
        assert [word for word in words if word.startswith("--") and word not in shown] == []
        assert words[words.index("--as") + 1] in FOR_MACHINES
    hooks = {each["id"] for each in yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))}
    named = {each["id"] for each in yaml.safe_load(RECIPES[0])["repos"][0]["hooks"]}
    assert named
    assert named <= hooks
