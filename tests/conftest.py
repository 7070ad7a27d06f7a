"""One hypothesis profile for every run: the same examples each time, so that a failure can be met again.

`pytest --hypothesis-profile wide` looks further, with new examples each time. What the command keeps from run to run is
kept in a folder of these tests' own, and thrown away with it.
"""

import os
import shutil
import tempfile

import pytest
from hypothesis import settings

from kitproof import kept

# No deadline: no test here asserts how long something takes, and a busy machine is not a fault of the code.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None, max_examples=100)
settings.register_profile("wide", derandomize=False, deadline=None, max_examples=2000)
settings.load_profile("fixed")


def pytest_configure(config: pytest.Config) -> None:
    os.environ[kept.FOLDER] = tempfile.mkdtemp(prefix="kitproof-")
    # The many processes that tests start take each module as compiled by the first of them, as users' do.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ["PYTHONPYCACHEPREFIX"] = os.path.join(os.environ[kept.FOLDER], "compiled")


def pytest_unconfigure(config: pytest.Config) -> None:
    shutil.rmtree(os.environ.pop(kept.FOLDER), ignore_errors=True)
