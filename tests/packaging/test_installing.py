"""Installed from a wheel, a source archive, a git repository or in place, Kitproof says the same about a list.

The samples are proofed from a folder that holds nothing else, so that rules and grammar come from what was installed.
"""

from __future__ import annotations

import re
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

import kitproof
from tests.house.repository import ROOT, written_files
from tests.packaging.installing import Environment, build, copy_list, copy_of_repository, done, new_environment, run

# One worker for all of these: they share the archives and one environment.
pytestmark = pytest.mark.xdist_group("packaging")


@pytest.fixture(scope="module")
def archives(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    folder = tmp_path_factory.mktemp("archives")
    (folder / "dist").mkdir()
    return build(copy_of_repository(folder / "source"), folder / "dist")


@pytest.fixture(scope="module")
def environment(archives: tuple[Path, Path], tmp_path_factory: pytest.TempPathFactory) -> Environment:
    """An environment with the wheel and what the wheel asks for, and nothing else."""
    made = new_environment(tmp_path_factory.mktemp("environment") / "env")
    made.pip("install", "--quiet", archives[1])
    return made


@pytest.fixture
def elsewhere(tmp_path: Path) -> Path:
    """The folder to proof from, with one list and the parts books it uses."""
    folder = tmp_path / "elsewhere"
    folder.mkdir()
    copy_list(sample_of_readme(), folder)
    return folder


def sample_of_readme() -> str:
    """The sample that README.md tells a newcomer to proof."""
    match = re.search(r"kitproof proof samples/(\S+)", (ROOT / "README.md").read_text("utf-8"))
    assert match
    return match[1]


def git_repository(folder: Path) -> str:
    """A git repository of the files as they are now, as pip asks for it."""
    copy = copy_of_repository(folder)
    done("git", "init", "--quiet", cwd=copy)
    done("git", "add", ".", cwd=copy)
    author = ("-c", "user.name=tests", "-c", "user.email=tests@localhost", "-c", "commit.gpgsign=false")
    done("git", *author, "commit", "--quiet", "--no-verify", "-m", "as it stands", cwd=copy)
    return f"git+{copy.as_uri()}"


def proofed(environment: Environment, folder: Path) -> tuple[int, str, str]:
    result = run(environment.kitproof, "proof", sample_of_readme(), "--on", "2027-03-01", cwd=folder)
    return result.returncode, result.stdout, result.stderr


def proofed_here(folder: Path) -> tuple[int, str, str]:
    """What the package that the tests run on says."""
    words = ("-m", "kitproof", "proof", sample_of_readme(), "--on", "2027-03-01")
    result = run(sys.executable, *words, cwd=folder)
    return result.returncode, result.stdout, result.stderr


def install(environment: Environment, *words: str | Path) -> None:
    """Takes what is installed out and puts this in its place; what it asks for is there already."""
    environment.pip("uninstall", "--quiet", "--yes", "kitproof")
    environment.pip("install", "--quiet", "--no-deps", *words)


def test_the_wheel_holds_every_rule_and_the_grammar(archives: tuple[Path, Path]) -> None:
    with zipfile.ZipFile(archives[1]) as wheel:
        held = set(wheel.namelist())
    wanted = {f"kitproof/data/{path.relative_to(ROOT).as_posix()}" for path in written_files("rules", "grammar")}
    wanted |= {path.relative_to(ROOT / "lint").as_posix() for path in written_files("lint")}
    assert wanted - held == set()
    assert {name for name in held - wanted if ".dist-info/" not in name} == set()


def test_the_source_archive_holds_all_that_people_write(archives: tuple[Path, Path]) -> None:
    with tarfile.open(archives[0]) as archive:
        held = {name.split("/", 1)[1] for name in archive.getnames() if "/" in name}
    assert {path.relative_to(ROOT).as_posix() for path in written_files()} - held == set()
    assert {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"} - held == set()


def test_the_sample_has_findings_to_compare(elsewhere: Path) -> None:
    status, printed, complaint = proofed_here(elsewhere)
    assert (status, complaint) == (1, "")
    assert "Rule   " in printed


def test_the_wheel_alone_is_enough(environment: Environment, archives: tuple[Path, Path], elsewhere: Path) -> None:
    install(environment, archives[1])
    assert proofed(environment, elsewhere) == proofed_here(elsewhere)


def test_the_source_archive_installs(environment: Environment, archives: tuple[Path, Path], elsewhere: Path) -> None:
    install(environment, archives[0])
    assert proofed(environment, elsewhere) == proofed_here(elsewhere)


def test_a_git_repository_installs(environment: Environment, tmp_path: Path, elsewhere: Path) -> None:
    install(environment, git_repository(tmp_path / "repository"))
    assert proofed(environment, elsewhere) == proofed_here(elsewhere)


def test_an_editable_install_reads_the_files_beside_the_source(
    environment: Environment, tmp_path: Path, elsewhere: Path
) -> None:
    source = copy_of_repository(tmp_path / "source")
    install(environment, "--editable", source)
    assert proofed(environment, elsewhere) == proofed_here(elsewhere)
    for rule in (source / "rules").glob("*/*.rule"):
        rule.unlink()
    assert proofed(environment, elsewhere) != proofed_here(elsewhere)


def test_nothing_is_written_where_it_is_run(
    environment: Environment, archives: tuple[Path, Path], elsewhere: Path
) -> None:
    install(environment, archives[1])
    before = sorted(elsewhere.rglob("*"))
    proofed(environment, elsewhere)
    assert sorted(elsewhere.rglob("*")) == before


def test_what_is_installed_agrees_with_itself(environment: Environment, archives: tuple[Path, Path]) -> None:
    install(environment, archives[1])
    assert "No broken requirements" in environment.pip("check")
    assert kitproof.__version__ in done(environment.kitproof, "--version", cwd=environment.folder)
