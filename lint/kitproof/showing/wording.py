"""A finding in sentences, the same wherever it is shown."""

from __future__ import annotations

from kitproof.proofing.findings import Cleared, Finding, Waived


def headline(finding: Finding) -> str:
    """What it is about and what is wrong: `rig A: the head cannot hold this build`."""
    subject = "" if finding.subject == "list" else f"{finding.subject}: "
    return f"{subject}{finding.title}"


def sentence(finding: Finding) -> str:
    """What it says, as a sentence: a doubt is worded "whether …"."""
    if finding.outcome == "fails":
        return finding.says
    doubt = finding.says.rstrip(".")
    return f"It is in doubt {doubt}." if finding.outcome == "may fail" else f"It cannot be told {doubt}."


def found(finding: Finding) -> str:
    """What it says, and in how many of a rig's combinations it is so."""
    return f"{sentence(finding)}{_combinations(finding)}"


def _combinations(finding: Finding) -> str:
    found = finding.combinations
    if found is None or found.of < 2:
        return ""
    worst = " and ".join(f'{slot} "{name}"' if name != "none" else f"no {slot}" for slot, name in found.worst.items())
    which = (
        f"in all {found.of} combinations"
        if found.failing == found.of
        else f"in {found.failing} of {found.of} combinations"
    )
    shown = f" So {which}; shown with {worst}." if worst else f" So {which}."
    return f"{shown}{_cleared(found.cleared)}" if found.failing > 1 else shown


def _cleared(found: Cleared | None) -> str:
    """What to leave out so that it is so in none."""
    if found is None:
        return ""
    left_out = [f'{each.slot} "{each.name}"' for each in found.without if each.name != "none"]
    always = [each.slot for each in found.without if each.name == "none"]
    parts = [f"{_listed(left_out)} {'is' if len(left_out) == 1 else 'are'} left out"] if left_out else []
    parts += [f"{_listed([f'a {slot}' for slot in always])} {'is' if len(always) == 1 else 'are'} always there"] * bool(
        always
    )
    fewer = "" if found.smallest else " Fewer may be enough."
    return f" It is so in none once {' and '.join(parts)}.{fewer}"


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def also(finding: Finding) -> list[str]:
    """What it keeps under `also`, each in a sentence with its rule; quiet ones are left out."""
    return [f"{sentence(each)} ({each.rule})" for each in finding.also if not each.quiet]


def to_do(finding: Finding) -> list[str]:
    """The fixes in words, each with whether it is proved."""
    return [f"{each.says} {'Proved.' if each.proved else 'Not proved.'}" for each in finding.fixes]


def waiver_words(waived: Waived) -> str:
    """By whom a finding is accepted, until when, and why: ` by the first assistant, until 2027-03-12: the reason`."""
    by = f" by the {waived.by}" if waived.by else ""
    until = f", until {waived.until.isoformat()}" if waived.until else ""
    why = f": {waived.because}" if waived.because else ""
    return f"{by}{until}{why}"


def judged_words(judged: int, not_judged: int, not_read: int) -> str:
    """What a proof rests on."""
    return f"Judged {judged}, could not judge {not_judged}, not read {not_read}."


ON_PAPER = "Worked out on paper; nothing was load-tested."
