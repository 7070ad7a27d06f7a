"""Git repositories for tests: made in a folder of the test's own, with nobody's settings."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

ALONE = {
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_AUTHOR_NAME": "tests",
    "GIT_AUTHOR_EMAIL": "tests@localhost",
    "GIT_COMMITTER_NAME": "tests",
    "GIT_COMMITTER_EMAIL": "tests@localhost",
}


def git(folder: Path, *words: str | Path) -> str:
    """Runs git in a folder; it must end with status 0."""
    command = ["git", *map(str, words)]
    ended = subprocess.run(command, cwd=folder, env={**os.environ, **ALONE}, capture_output=True, check=False)
    assert ended.returncode == 0, ended.stderr.decode("utf-8", "replace")
    return ended.stdout.decode("utf-8", "replace").strip()


def repository(folder: Path, **files: str) -> Path:
    """A repository with these files in its first revision, which has the tag `first`."""
    folder.mkdir(parents=True, exist_ok=True)
    git(folder, "init", "--quiet", "--initial-branch", "main")
    commit(folder, "first", **files)
    return folder


def commit(folder: Path, tag: str, **files: str) -> None:
    """One more revision with these files changed, under a tag.

    A name is a path with `__` for `/`, without its ending.
    """
    for name, text in files.items():
        write(folder, f"{name.replace('__', '/')}.kitlist", text)
    git(folder, "add", "--all")
    git(folder, "commit", "--quiet", "--allow-empty", "-m", tag)
    git(folder, "tag", tag)


def write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode())
    return path
