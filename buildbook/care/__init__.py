"""Care: which instructions a piece calls for, and why this piece gets each.

`care`     chooses them: job and summary in, `CareItem`s out
`facts`    what is true of a piece, found by `surfaces` (finishes), `woods` (wood, sheets, air),
           `fittings` (the other parts), `setting` (the piece as a whole) and `told` (what only words tell)
`happens`  what to do when something happens to it, by the same facts, from data/happens.toml
`duties`   what the maker has to do before a sale, for `proof`
`figures`  dates, sizes and masses as phrases
`quantities`  what instructions name as figures, in the units of the shop, from data/quantities.toml
`rules`    which facts call for which instruction, from data/rules.toml

Pure but for reading its own data files.
"""

from buildbook.care.care import CareItem, choose
from buildbook.care.facts import Facts, facts_of
from buildbook.care.happens import FirstAid, Happening, if_something_happens
from buildbook.care.rules import Rule, rules, vocabulary

__all__ = [
    "CareItem",
    "Facts",
    "FirstAid",
    "Happening",
    "Rule",
    "choose",
    "facts_of",
    "if_something_happens",
    "rules",
    "vocabulary",
]
