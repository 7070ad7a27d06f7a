"""The forms in which a proof is shown, by the names that `--as` takes. Each is imported when it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kitproof.showing.shown import Shown

FOR_MACHINES = ("json", "sarif", "junit", "github", "gitlab")
"""`text` is for people, and made of lines with styles: see `text.proof_lines`."""


def proof_text(form: str, shown: Shown) -> str:
    """A proof in one of the forms for machines: all of what is printed, with its last newline."""
    match form:
        case "sarif":
            from kitproof.showing.sarif import sarif

            return sarif(shown)
        case "junit":
            from kitproof.showing.junit import junit

            return junit(shown)
        case "github":
            from kitproof.showing.github import workflow_commands

            return workflow_commands(shown)
        case "gitlab":
            from kitproof.showing.gitlab import code_quality

            return code_quality(shown)
    from kitproof.showing.json_output import findings_json

    return findings_json(shown.proof)
