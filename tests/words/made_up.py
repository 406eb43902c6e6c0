"""A language made by rule out of English: every text in brackets, long words longer by half, plurals of three forms.

Nothing but its words file is written: what a page lacks then, a third language would lack.
"""

import json
import re
import tomllib
from importlib import resources

from buildbook import words
from buildbook.words import NAMES, Words

LANGUAGE = "qps"  # ISO 639 keeps qaa to qtz for private use
PLURAL = {
    "one": "n % 10 = 1 and n % 100 != 11",
    "few": "n % 10 = 2..4 and n % 100 != 12..14",
}  # as in Slavic languages
OPEN, CLOSE = "⟦", "⟧"

READ_BY_CODE = re.compile(
    r"figures\.(decimal|timber_by|currency_code|group|names_lower|currency_sign|quotes|between_long|money_grouped_from)|dates\.(day|day_only|month|short)"
    r"|drawing\.initials\..*|columns\.verdict|gloss\..*\.words|letter\.voice\..*"
)
"""Keys whose texts are no words: marks, and patterns."""


def longer(text):
    """A text in brackets, each of its long words longer by half; `{names}` as they are."""
    parts = re.split(r"(\{[^}]*\})", text)
    stretched = [
        part if part.startswith("{") else re.sub(r"[^\W\d_]{5,}", _half_more, part) for part in parts
    ]
    return f"{OPEN}{''.join(stretched)}{CLOSE}"


def _half_more(match):
    word = match[0]
    return word + word[: len(word) // 2].lower()


def made_up():
    """The tables of the language's file."""
    english = _tables("en")
    names = {name: table for name, table in _tables("de").items() if name in NAMES}
    made = _stretched(english, "") | _stretched(names, "")
    return {"language": {"plural": PLURAL}} | {name: made[name] for name in made if name != "language"}


def _tables(language):
    return tomllib.loads(resources.files(words).joinpath(f"{language}.toml").read_text("utf-8"))


def _stretched(table, above):
    out = {}
    for name, value in table.items():
        key = f"{above}{name}"
        if isinstance(value, dict):
            out[name] = _stretched(value, f"{key}.")
            if {"one", "more"} <= set(value) and key != "language":
                out[name]["few"] = out[name]["more"]
        else:
            out[name] = value if READ_BY_CODE.fullmatch(key) else longer(value)
    return out


def as_toml(table, above=""):
    """TOML of nested tables of texts."""
    own = [f"{json.dumps(k)} = {json.dumps(v)}" for k, v in table.items() if not isinstance(v, dict)]
    head = [f"[{above}]"] if own and above else []
    inner = [
        as_toml(v, f"{above}.{json.dumps(k)}".lstrip(".")) for k, v in table.items() if isinstance(v, dict)
    ]
    return "\n".join([*head, *own, *inner])


def put_in(folder, monkeypatch):
    """Write its file into a folder, and let the words of that folder be known."""
    folder.joinpath(f"{LANGUAGE}.toml").write_text(as_toml(made_up()), encoding="utf-8")
    before = words.folders()
    monkeypatch.setattr(words, "folders", lambda: (*before, folder))
    forget()
    return Words(LANGUAGE)


def forget():
    """Read the files of words anew."""
    for cached in (words.languages, words._read, words._about, words._table, words._found):
        cached.cache_clear()
