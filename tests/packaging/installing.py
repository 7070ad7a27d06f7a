"""Builds Kitproof and installs it in environments of their own, with the pip of the interpreter that runs the tests."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.house.repository import DOCUMENTS, FOLDERS, ROOT

_USE = re.compile(r'^use\s+["“\'](?P<path>[^"”\']+)', re.MULTILINE)
_LEFT_BEHIND = shutil.ignore_patterns("__pycache__", "*_cache", "*.egg-info", "*.pyc")


def run(*command: str | Path, cwd: Path, most: int = 300) -> subprocess.CompletedProcess[str]:
    """Runs a command from a folder, with nothing of this repository on the import path."""
    surroundings = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "VIRTUAL_ENV")}
    surroundings |= {"PYTHONUTF8": "1", "NO_COLOR": "1", "COLUMNS": "80"}
    return subprocess.run(
        [str(word) for word in command],
        cwd=cwd,
        env=surroundings,
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=most,
        check=False,
    )


def done(*command: str | Path, cwd: Path, most: int = 300) -> str:
    """Runs a command that must end with status 0, and gives what it printed."""
    result = run(*command, cwd=cwd, most=most)
    assert result.returncode == 0, f"{command} ended with {result.returncode}:\n{result.stdout}{result.stderr}"
    return result.stdout


def copy_of_repository(target: Path) -> Path:
    """The files that people write, copied to a folder; nothing that tools have left beside them."""
    target.mkdir(parents=True)
    for name in FOLDERS:
        shutil.copytree(ROOT / name, target / name, ignore=_LEFT_BEHIND)
    for name in DOCUMENTS:
        if (ROOT / name).exists():
            shutil.copy2(ROOT / name, target / name)
    return target


@dataclass(frozen=True)
class Environment:
    """A virtual environment with no pip of its own: the one that runs the tests installs into it."""

    folder: Path

    @property
    def scripts(self) -> Path:
        return self.folder / ("Scripts" if os.name == "nt" else "bin")

    @property
    def python(self) -> Path:
        return self.scripts / ("python.exe" if os.name == "nt" else "python")

    @property
    def kitproof(self) -> Path:
        return self.scripts / ("kitproof.exe" if os.name == "nt" else "kitproof")

    def pip(self, *words: str | Path) -> str:
        # Not from the repository's own folder, so that nothing there can be picked up by chance.
        return done(sys.executable, "-m", "pip", "--python", self.python, *words, cwd=self.folder)


def new_environment(folder: Path) -> Environment:
    """An empty environment of the interpreter that runs the tests."""
    done(sys.executable, "-m", "venv", "--without-pip", folder, cwd=folder.parent)
    return Environment(folder)


def build(source: Path, target: Path) -> tuple[Path, Path]:
    """The source archive, and the wheel that is built from that archive."""
    done(sys.executable, "-m", "build", "--no-isolation", "--outdir", target, source, cwd=target.parent)
    (archive,) = target.glob("*.tar.gz")
    (wheel,) = target.glob("*.whl")
    return archive, wheel


def copy_list(name: str, target: Path) -> Path:
    """Copies one sample, and the parts books that it uses, to a folder; gives the copy."""
    waiting = [ROOT / "samples" / name]
    while waiting:
        path = waiting.pop()
        copy = target / path.relative_to(ROOT / "samples")
        if copy.exists() or not path.exists():
            continue  # a sample may name a file that is missing: that is one of its faults
        copy.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy2(path, copy)
        waiting += [path.parent / match["path"] for match in _USE.finditer(path.read_text("utf-8"))]
    return target / name
