"""A finding in sentences, the same wherever it is shown."""

from __future__ import annotations

from kitproof.proofing.findings import Finding, Waived


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
    return f" So {which}; shown with {worst}." if worst else f" So {which}."


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
