"""Rule files to checked, compiled rules: the expression language, its three outcomes, and what a house sets."""

from kitproof.rulebook.compile import Env
from kitproof.rulebook.errors import BadRules, RuleError
from kitproof.rulebook.explain import Explained, explained, fix_words
from kitproof.rulebook.limits import Limit
from kitproof.rulebook.loading import load
from kitproof.rulebook.messages import DEFAULT_UNITS, Template, Units, message
from kitproof.rulebook.rules import Action, Judgement, Rule, RuleBook
from kitproof.rulebook.settings import GRADES, Settings

__all__ = [
    "DEFAULT_UNITS",
    "GRADES",
    "Action",
    "BadRules",
    "Env",
    "Explained",
    "Judgement",
    "Limit",
    "Rule",
    "RuleBook",
    "RuleError",
    "Settings",
    "Template",
    "Units",
    "explained",
    "fix_words",
    "load",
    "message",
]
