"""The samples give the proofs that are committed: `python -m tests.samples.expected` writes them anew."""

from __future__ import annotations

import pytest

from tests.house.repository import ROOT
from tests.samples.expected import FOLDER, FORMS, PATHS, printed


@pytest.mark.parametrize("ending", FORMS)
@pytest.mark.parametrize("name", PATHS)
def test_a_sample_gives_its_committed_proof(name: str, ending: str) -> None:
    assert printed(PATHS[name], FORMS[ending]) == (FOLDER / f"{name}.{ending}").read_bytes().decode()


def test_every_committed_proof_is_of_a_sample() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {f"{name}.{ending}" for name in PATHS for ending in FORMS}


def test_every_sample_has_its_proof_committed() -> None:
    covered = [ROOT / path for path in PATHS.values()]
    lists = (ROOT / "samples").rglob("*.kitlist")
    assert [path for path in lists if path not in covered and not {*path.parents} & {*covered}] == []
