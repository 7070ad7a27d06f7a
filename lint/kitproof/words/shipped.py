"""Where the data that ships with the package lies: in the package itself once installed, else beside `lint/`."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def folder(name: str) -> Path:
    """The folder `grammar` or `rules`, from the installed package or from a source checkout.

    Raises FileNotFoundError when neither has it, which means that the installation is not whole.
    """
    for place in (_PACKAGE / "data" / name, _PACKAGE.parent.parent / name):
        if place.is_dir():
            return place
    raise FileNotFoundError(f"Kitproof is not installed whole: its folder {name!r} is missing. Install it again.")
