"""The files of the repository itself, for the tests that read them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "lint" / "kitproof"
RULES = ROOT / "rules"

FOLDERS = (".ci", "grammar", "lint", "rules", "samples", "tests")
DOCUMENTS = ("README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", ".gitignore", ".pre-commit-hooks.yaml")


def is_made_by_tools(path: Path) -> bool:
    """True for what tools leave beside the files that people write: caches and byte code."""
    return any(part == "__pycache__" or part.endswith((".egg-info", "_cache")) for part in path.parts)


def written_files(*folders: str) -> Iterator[Path]:
    """Every file that people write, in the folders named or in all of them; documents at the top are in `DOCUMENTS`."""
    for folder in folders or FOLDERS:
        for path in sorted((ROOT / folder).rglob("*")):
            if path.is_file() and not is_made_by_tools(path.relative_to(ROOT)):
                yield path


def modules() -> list[Path]:
    """The modules of the package."""
    return [path for path in written_files("lint") if path.suffix == ".py"]


def short(path: Path) -> str:
    """A path as people say it, from the top of the repository."""
    return path.relative_to(ROOT).as_posix()
