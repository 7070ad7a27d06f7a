"""Proofs a camera-support gear list: reads it, works out the numbers behind it and says what would not hold.

For programs: `from kitproof import read, proof, numbers, pair`. They are loaded when they are first asked for.
"""

from typing import TYPE_CHECKING

__version__ = "0.1.0"

__all__ = [
    "HouseError",
    "KitproofError",
    "ListNumbers",
    "NoSuchListError",
    "NoSuchRigError",
    "ReadList",
    "__version__",
    "numbers",
    "pair",
    "proof",
    "read",
]

if TYPE_CHECKING:
    from kitproof.library import (
        HouseError,
        KitproofError,
        ListNumbers,
        NoSuchListError,
        NoSuchRigError,
        ReadList,
        numbers,
        pair,
        proof,
        read,
    )
else:

    def __getattr__(name: str) -> object:
        """What programs use, loaded now: the command asks for none of it and starts at once."""
        if name not in __all__:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from kitproof import library

        return getattr(library, name)
