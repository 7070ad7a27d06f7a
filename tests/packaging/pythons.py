"""Runs every test on each Python that Kitproof is meant for and that is on this machine. Not part of the usual run.

    python tests/packaging/pythons.py

Each Python gets a copy of the repository and an environment of its own, in a folder that is removed at the end.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))  # so that the script runs from any folder

from tests.packaging.installing import Environment, copy_of_repository

VERSIONS = ("3.11", "3.12", "3.13")


def interpreter(version: str) -> Path | None:
    """The Python of a version: on the path, or among those that pyenv keeps."""
    kept = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    named = shutil.which(f"python{version}")
    for path in [*([Path(named)] if named else []), *sorted(kept.glob(f"{version}.*/bin/python"), reverse=True)]:
        # A name on the path may be a stand-in for a Python that is not switched on.
        answer = subprocess.run([path, "--version"], capture_output=True, text=True, check=False)
        if answer.returncode == 0 and answer.stdout.startswith(f"Python {version}."):
            return path
    return None


def tested(python: Path, folder: Path) -> bool:
    """Makes an environment, installs Kitproof with what its tests need, and runs them."""
    source = copy_of_repository(folder / "kitproof")
    environment = Environment(source / ".venv")
    subprocess.run([python, "-m", "venv", environment.folder], check=True)
    subprocess.run(
        [environment.python, "-m", "pip", "install", "--quiet", "--editable", ".[tests]"], cwd=source, check=True
    )
    words = ["-m", "pytest", "-q", "-n", "auto", "--dist", "loadgroup"]
    return subprocess.run([environment.python, *words], cwd=source, check=False).returncode == 0


def main() -> int:
    outcomes = {}
    for version in VERSIONS:
        python = interpreter(version)
        if python is None:
            outcomes[version] = "not on this machine"
            continue
        print(f"--- Python {version}: {python}", flush=True)
        with tempfile.TemporaryDirectory() as folder:
            outcomes[version] = "all tests hold" if tested(python, Path(folder)) else "tests fail"
    for version, outcome in outcomes.items():
        print(f"Python {version}: {outcome}")
    return int("tests fail" in outcomes.values())


if __name__ == "__main__":
    sys.exit(main())
