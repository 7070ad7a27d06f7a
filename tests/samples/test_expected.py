"""The samples give the proofs and numbers that are committed: `python -m tests.samples.expected` writes them anew."""

from __future__ import annotations

import pytest

from tests.house.repository import ROOT
from tests.samples.expected import FOLDER, FORMS, PATHS, endings, printed


@pytest.mark.parametrize(("name", "ending"), [(name, ending) for name in PATHS for ending in endings(name)])
def test_a_sample_gives_what_is_committed_of_it(name: str, ending: str) -> None:
    assert printed(PATHS[name], *FORMS[ending]) == (FOLDER / f"{name}.{ending}").read_bytes().decode()


def test_everything_committed_is_of_a_sample() -> None:
    written = {f"{name}.{ending}" for name in PATHS for ending in endings(name)}
    assert {path.name for path in FOLDER.iterdir()} == written


def test_every_sample_has_its_proof_committed() -> None:
    covered = [ROOT / path for path in PATHS.values()]
    lists = (ROOT / "samples").rglob("*.kitlist")
    assert [path for path in lists if path not in covered and not {*path.parents} & {*covered}] == []
