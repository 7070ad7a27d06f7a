"""Which rigs a planted fault changes: those whose lines, conditions or parts read otherwise than before."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from msgspec import Struct

from kitproof.model.kitlist import KitList
from kitproof.reading.document import Where


def touched(before: Mapping[str, Any], after: KitList) -> frozenset[str]:
    """What the rigs that differ are called in findings; where a line stands does not count."""
    now = bare_rigs(after)
    return frozenset(label for label in {*before, *now} if before.get(label) != now.get(label))


def bare_rigs(kitlist: KitList) -> Mapping[str, Any]:
    """The rigs of a list by what findings call them, without their places in the text."""
    return {rig.label: _bare(rig) for rig in kitlist.rigs}


def _bare(value: Any) -> Any:
    """A value without the places in the text that it keeps."""
    if isinstance(value, Where):
        return None
    if isinstance(value, Struct):
        return tuple(_bare(getattr(value, name)) for name in value.__struct_fields__)
    if isinstance(value, Mapping):
        return tuple((key, _bare(each)) for key, each in value.items())
    if isinstance(value, tuple):
        return tuple(_bare(each) for each in value)
    return value
