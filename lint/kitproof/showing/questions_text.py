"""Questions as a short list to send, in plain words, grouped by who has the part."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from kitproof.proofing.questions import Question, Verdict, over
from kitproof.showing.text import Line, Piece, paragraph, wrapped
from kitproof.words.phrases import verdicts, with_article

QUESTIONS = "kitproof/questions/1"
MOST_NAMED = 12
"""So many verdicts are named that one answer settles; of more it is said how many."""

ASKED = {
    "mass": "What does {it} weigh, as it is used?",
    "weighed": "What does {it} weigh, as it is used?",
    "cog": "Where is the centre of gravity of {it}, forward of and above the face by which it is mounted?",
    "height": "How high is {it}, from the face by which it is mounted to its top face?",
    "size": "How large is {it}: along the lens x across x high?",
    "chart": "What load does the maker give for {it}, and at which heights of the centre of gravity?",
    "rated": "What load is {it} rated for?",
    "tilt_axis": "How far below its plate does the tilt axis of {it} lie?",
    "counterbalance": "What counterbalance has {it}, from least to most, and in how many steps?",
    "drag": "What tilt drag has {it}, from least to most?",
    "tilt": "How far does {it} tilt, down and up?",
    "sits_on": "By what is {it} mounted: which bowl, screw, plate or mount?",
    "takes": "What does {it} offer to be mounted on: which bowl, screw, plate or mount?",
    "travel": "How far does {it} slide back and forward of its mark?",
    "legs": "How low and how high does the bowl of {it} stand?",
    "feet": "How wide do the feet of {it} stand, at which leg height?",
    "length": "How long is {it}?",
    "front": "What is the outer diameter of the front of {it}?",
    "lens_moment": "How much torque should the lens mount of {it} bear?",
    "quick_release": "How does the quick release of {it} lock: by itself, or by a lock or a safety set by hand?",
    "slides_itself": "Does {it} itself move with the camera when it is slid?",
    "sensor": "How wide and how high is the sensor of {it}?",
    "power": "On what voltages does {it} run, from least to most?",
    "draws": "What power does {it} draw, as a rule and at most?",
    "image_circle": "What is the diameter of the image that {it} throws?",
    "needs_support": "Does its maker ask for a support under {it}?",
    "diameter": "What is the outer diameter of {it}?",
    "wall": "How thick is the wall of {it}?",
    "made_of": "What is {it} made of?",
    "energy": "How much energy does {it} hold, in Wh?",
    "voltage": "What is the nominal voltage of {it}?",
    "delivers": "What power does {it} give at most?",
    "chemistry": "Of which chemistry is {it}, such as lithium-ion?",
    "inside": "How large is {it} inside: long x wide x high?",
    "outside": "How large is {it} outside: long x wide x high?",
    "have": "How many of {it} are there?",
    "its_place_on_the_rig": "Where on the camera does {it} sit: how far forward, up and to the side?",
    "its_place_on_its_travel": "How far from the mark of its travel does {it} stand, forward or back?",
    "in_no_parts_book": "What is {it}? It is in no parts book: its mass, its size and by what it is mounted.",
}

CONDITIONS = {
    "ground slope": "how far does the ground slope where it is steepest?",
    "wind": "how strong a wind is to be reckoned with?",
    "site temperature": "how cold and how warm is it on site?",
    "day": "how long is the working day?",
    "tilts": "how far is it tilted, down and up?",
    "push": "how hard may it be pushed at the pan bar?",
    "drag": "what drag does the operator ask for?",
}
"""Questions about what a list says of a rig, or of all its rigs."""


def questions_lines(headings: Sequence[str], found: Sequence[Question]) -> list[Line]:
    """The questions of one list or of several, ready to send."""
    lines: list[Line] = [(Piece(each),) for heading in headings for each in wrapped(heading)]
    if not found:
        return [*lines, (), (Piece("Nothing to ask: every verdict is decided."),)]
    number = 0
    for whom, questions in _groups(found, several=len(headings) > 1).items():
        lines += [(), (Piece(f"To {whom}:", "title"),)]
        for each in questions:
            number += 1
            lines += paragraph(f"{number}.", asked(each))
            lines += paragraph("", _settles(each, several=len(headings) > 1), "place")
    return lines


def _groups(found: Sequence[Question], several: bool) -> dict[str, list[Question]]:
    """Questions by whom to ask, in words, in the order ranked; of several lists it is said who made which."""
    groups: dict[str, list[Question]] = {}
    for each in found:
        maker = f"whoever made {each.path}" if several else "whoever made the list"
        groups.setdefault(each.to or maker, []).append(each)
    return groups


def asked(question: Question) -> str:
    """The question in a sentence."""
    if question.part is None:
        subject, _, rest = question.asks.rpartition(": ")
        if subject and rest in CONDITIONS:
            return f"For {'all rigs' if subject == 'the list' else subject}: {CONDITIONS[rest]}"
        return f"{subject}: please say {rest}." if subject else f"Please say {question.asks}."
    it = f'the {question.part.kind} "{question.part.name}"' if question.part.name else with_article(question.part.kind)
    words = ASKED.get(question.field)
    if words is None:
        return f"What is the {question.field.replace('_', ' ')} of {it}?"
    known = " It is known only roughly." if question.loose else ""
    return words.format(it=it) + known


def _settles(question: Question, several: bool) -> str:
    """What the answer is good for; of several lists, in which."""
    if not question.settles:
        return f"{question.waits} {'verdict waits' if question.waits == 1 else 'verdicts wait'} for this and for more."
    grave = sum(each.grade == "stop" for each in question.settles)
    several = several and {each.path for each in question.settles} != {question.path if not question.to else ""}
    named = (f"{each.rule} in {each.subject}{f' of {each.path}' if several else ''}" for each in question.settles)
    rules = list(dict.fromkeys(named))
    more = f" and {len(rules) - MOST_NAMED} more" if len(rules) > MOST_NAMED + 1 else ""
    shown = ", ".join(rules[:MOST_NAMED] if more else rules)
    return f"Settles {verdicts(len(question.settles), grave)}: {shown}{more}."


def questions_json(lists: Sequence[tuple[str, Sequence[Question]]]) -> str:
    """The questions of several lists as JSON: list by list, and all of them as one list to send."""
    data: dict[str, Any] = {
        "schema": QUESTIONS,
        "lists": [{"list": path, "questions": [_question(each) for each in found]} for path, found in lists],
        "together": [_question(each) for each in over([found for _, found in lists])],
    }
    return json.dumps(data, ensure_ascii=False, indent=2) + "\n"


def _question(question: Question) -> dict[str, Any]:
    return {
        "asks": question.asks,
        "question": asked(question),
        "to": question.to or None,
        "settles": [_verdict(each) for each in question.settles],
        "waits": question.waits,
        "known_roughly": question.loose,
    }


def _verdict(verdict: Verdict) -> dict[str, str]:
    return {"rule": verdict.rule, "grade": verdict.grade, "subject": verdict.subject, "list": verdict.path}
