"""Inputs that were made to stop us: each a job folder by rule, none stored.

In: nothing. Out: `ATTACKS`, each with what its files are and whether a job of them is bound or refused. Texts are
here, pictures in `pictures`. Sizes stand well beyond any shop's, or right below a limit, where a reader works hardest.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta

Files = dict[str, bytes]
"""Content by path; `shop.toml` and `prices.csv` go on the shelf, all others into the job."""

JOB = """number = "2026-001"
title = "Bench"
piece = "bench"
units = "mm"
begun = 2026-02-09
delivered = 2026-04-17
overall = { width = "1600", depth = "450", height = "780" }
description = "A plain bench."
use = "Sitting on."
made_at = { moisture = 9.5 }
climate = { rh_low = 35, rh_high = 65, temperature = "20 degC" }
"""
FINISH = '\n[[finish]]\nkey = "body"\nfamily = "hardwax-oil"\ncoats = [2026-03-26, 2026-03-28]\n'
HEADINGS = (
    "part,qty,material,length,width,thickness,stock,cut,fit,opening,finish,country,supplier,price,per,note\n"
)
ROW = "Top,1,European oak,1600,450,27,38,quarter,glued,,body,GB,Quillby Timber,12.50,each,heart up\n"
NOTES = (
    "# Log\n\n## 2026-02-10 Milling\n\nHours: milling 2.5\n\nMilled it.\n\n### For the client\n\nOne board.\n"
)
SHOP = 'name = "Tenterhook"\nmaker = "A. Maker"\naddress = "1 Lane"\nemail = "a@tenterhook.example"\n'


@dataclass(frozen=True)
class Attack:
    """One hostile job.

    made   makes its files; those of a plain job stand where it names none.
    bound  whether the job is bound all the same; None where either will do.
    tells  words that a problem must hold, for what is cut or refused.
    """

    name: str
    made: Callable[[], Files] = field(repr=False)
    bound: bool | None = None
    tells: str = ""

    @property
    def kind(self) -> str:
        return self.name.split(":")[0]

    def files(self) -> Files:
        plain = {"job.toml": JOB + FINISH, "parts.csv": HEADINGS + ROW, "notes.md": NOTES, "shop.toml": SHOP}
        return {name: text.encode() for name, text in plain.items()} | self.made()


def passage(text: str) -> Files:
    """A note whose passage for the client is this text."""
    return {"notes.md": f"## 2026-02-10 Day\n\n### For the client\n\n{text}\n".encode()}


def note(text: str) -> Files:
    """A note that stays in."""
    return {"notes.md": f"## 2026-02-10 Day\n\n{text}\n".encode()}


def parts(rows: str, headings: str = HEADINGS) -> Files:
    return {"parts.csv": (headings + rows).encode()}


def job(more: str, before: str = JOB) -> Files:
    """job.toml with keys at its top and a finish after them."""
    return {"job.toml": (before + more + FINISH).encode()}


def tables(more: str) -> Files:
    """job.toml with tables after the finish."""
    return {"job.toml": (JOB + FINISH + more).encode()}


# -- notes, and passages for the client ------------------------------------------------------------------------------


def _rising(sign: str, most: int) -> str:
    return " ".join(sign * length for length in range(1, most))


def _nested_list(depth: int, indent: int = 2) -> str:
    return "\n".join(" " * (indent * level) + "- x" for level in range(depth))


MARKDOWN: dict[str, Callable[[], str]] = {
    "a word of 60,000 letters": lambda: "a" * 60_000,
    "a word of 1,000,000 letters": lambda: "a" * 1_000_000,
    "60,000 figures without a blank": lambda: "12345" * 12_000,
    "60,000 letters joined by hyphens": lambda: "ab-" * 20_000,
    "60,000 letters joined by strokes": lambda: "a/b" * 20_000,
    "60,000 no-break spaces": lambda: "a\u00a0" * 30_000,
    "60,000 soft hyphens": lambda: "a\u00ad" * 30_000,
    "60,000 zero-width joiners": lambda: "a\u200d" * 30_000,
    "60,000 combining accents": lambda: "a" + "\u0301" * 60_000,
    "60,000 accents on as many letters": lambda: "e\u0301" * 60_000,
    "20,000 different signs": lambda: "".join(map(chr, range(0x4E00, 0x4E00 + 20_000))),
    "3,000 signs that no font has": lambda: " ".join(map(chr, range(0x13000, 0x13000 + 3_000))),
    "50,000 right-to-left marks": lambda: "\u202ea" * 50_000,
    "50,000 faces": lambda: "\U0001f469\u200d\U0001f4bb" * 20_000,
    "rising runs of backticks": lambda: _rising("`", 700),
    "many rising runs of backticks": lambda: _rising("`", 1800),
    "rising runs of tildes": lambda: _rising("~", 700),
    "100,000 backticks": lambda: "`a" * 50_000,
    "one run of 100,000 backticks": lambda: "`" * 100_000 + "a",
    "100,000 &": lambda: "&" * 100_000,
    "100,000 &amp;": lambda: "&amp;" * 100_000,
    "100,000 unclosed &": lambda: "&a" * 100_000,
    "50,000 [": lambda: "[" * 50_000,
    "50,000 ]": lambda: "]" * 50_000,
    "50,000 ![": lambda: "![" * 50_000,
    "25,000 []": lambda: "[]" * 25_000,
    "50,000 [a](": lambda: "[a](" * 50_000,
    "50,000 ![a](": lambda: "![a](" * 50_000,
    "20,000 [a](<": lambda: "[a](<b" * 20_000,
    "20,000 [a]( with open titles": lambda: '[a](b "' * 20_000,
    "20,000 links": lambda: "[a](https://example.org/) " * 20_000,
    "links in links": lambda: "[" * 3000 + "a" + "](b)" * 3000,
    "images in images": lambda: "![" * 3000 + "a" + "](b)" * 3000,
    "references that are nowhere": lambda: "[a][b] " * 20_000,
    "a label of 500,000 signs": lambda: f"[{'a ' * 250_000}]",
    "50,000 <": lambda: "<" * 50_000,
    "50,000 <a": lambda: "<a " * 50_000,
    "50,000 <!--": lambda: "<!-- " * 50_000,
    "50,000 -->": lambda: "--> " * 50_000,
    "comments that close up to others": lambda: "<!-<!-- -->" * 4_000 + "-" * 4_000,
    "comments in comments": lambda: "<!--" * 20_000 + "-->" * 20_000,
    "comments one in another": lambda: "<!" + "<!---->" * 1 + "".join("--<!---->" for _ in range(5000)) + "x",
    "comments nested to come out": lambda: "<" * 3000 + "!---->" * 3000,
    "50,000 <?": lambda: "<?" * 50_000,
    "50,000 <!A": lambda: "<!A" * 50_000,
    "50,000 <![CDATA[": lambda: "<![CDATA[" * 50_000,
    "an address of 100,000 signs": lambda: f"<https://example.org/{'a' * 100_000}>",
    "20,000 addresses": lambda: "<https://example.org/a> " * 20_000,
    "mail addresses without end": lambda: "<a@b." + "c." * 50_000 + ">",
    "lists 400 deep": lambda: _nested_list(400),
    "lists 1,000 deep": lambda: _nested_list(1000),
    "lists 1,000 deep in one line": lambda: "- " * 1000 + "x",
    "lists 20,000 deep in one line": lambda: "- " * 20_000 + "x",
    "numbered lists 1,000 deep in one line": lambda: "1. " * 1000 + "x",
    "lists and quotes 1,000 deep": lambda: "> - " * 1000 + "x",
    "quotes 1,000 deep": lambda: ">" * 1000 + " x",
    "quotes 50,000 deep": lambda: ">" * 50_000 + " x",
    "quotes 100 deep on 2,000 lines": lambda: ("> " * 100 + "x\n") * 2000,
    "50,000 items": lambda: "- x\n" * 50_000,
    "50,000 empty items": lambda: "-\n" * 50_000,
    "20,000 lists of one": lambda: "- x\n\n+ y\n\n" * 10_000,
    "emphasis 20,000 times": lambda: "*a **b " * 20_000,
    "emphasis that closes": lambda: "*a " * 10_000 + "b* " * 10_000,
    "strong that closes": lambda: "**a " * 10_000 + "b** " * 10_000,
    "emphasis 2,000 deep": lambda: "*a" * 2000 + "b*" * 2000,
    "emphasis nested both ways": lambda: "*_" * 3000 + "a" + "_*" * 3000,
    "50,000 stars": lambda: "a**" * 50_000,
    "one run of 100,000 stars": lambda: "a" + "*" * 100_000 + "b",
    "50,000 underscores": lambda: "_a _b" * 20_000,
    "50,000 ~~": lambda: "~~a " * 50_000,
    "50,000 backslashes": lambda: "\\a" * 50_000,
    "50,000 hard breaks": lambda: "a  \n" * 50_000,
    "quotation marks": lambda: "\"a' " * 30_000,
    "50,000 quotation marks alone": lambda: '"' * 50_000,
    "50,000 dots": lambda: "..... " * 20_000,
    "50,000 (c)": lambda: "(c)" * 50_000,
    "5,000 definitions": lambda: "\n".join(f"[a{n}]: /u{n}" for n in range(5000)),
    "5,000 definitions, each used": lambda: (
        "\n".join(f"[a{n}]: https://example.org/{n}" for n in range(5000))
        + "\n\n"
        + " ".join(f"[a{n}]" for n in range(5000))
    ),
    "5,000 definitions of one name": lambda: "[a]: /u\n" * 5000 + "\n[a]",
    "50,000 openings of definitions": lambda: "[a]:\n" * 50_000,
    "a definition with an open title": lambda: '[a]: b "' + "c\n" * 50_000,
    "many definitions with open titles": lambda: '[a]: b "\n' * 4_000,
    "a table of 10,000 columns": lambda: "|a" * 10_000 + "|\n" + "|-" * 10_000 + "|\n" + "|b" * 10_000 + "|",
    "a table of 1,000 columns and 1,000 short rows": lambda: (
        "|a" * 1000 + "|\n" + "|-" * 1000 + "|\n" + "|b\n" * 1000
    ),
    "a table of 20,000 rows": lambda: "|a|b|\n|-|-|\n" + "|c|d|\n" * 20_000,
    "2,000 tables": lambda: "|a|\n|-|\n|b|\n\n" * 2000,
    "a table head of 50,000 strokes": lambda: "|" * 50_000 + "\n" + "|-" * 50_000,
    "a line of 1 MB": lambda: "word " * 200_000,
    "1 MB of paragraphs": lambda: "Some words of a day.\n\n" * 45_000,
    "20,000 headings": lambda: "#### a\n" * 20_000,
    "20,000 headings underlined": lambda: "a\n---\n\n" * 20_000,
    "a heading of 100,000 signs": lambda: "#### " + "a " * 50_000,
    "a heading underlined after 20,000 lines": lambda: "a\n" * 20_000 + "---\n",
    "20,000 fences": lambda: "```\na\n```\n" * 20_000,
    "20,000 fences of growing length": lambda: "\n".join("`" * (3 + n) for n in range(1500)),
    "an open fence of 1 MB": lambda: "```\n" + "a\n" * 500_000,
    "20,000 rules": lambda: "***\n" * 20_000,
    "100,000 tabs": lambda: "\t" * 100_000 + "a",
    "tabs before 2,000 lines": lambda: ("\t" * 200 + "a\n") * 2000,
    "100,000 blank lines": lambda: "a" + "\n" * 100_000 + "b",
    "100,000 carriage returns": lambda: "a\r" * 100_000,
    "20,000 pictures that are nowhere": lambda: "![a](photos/none.jpg)\n\n" * 20_000,
    "20,000 pictures in one paragraph": lambda: "![a](photos/none.jpg) " * 20_000,
    "20,000 pictures with blanks": lambda: "![a](photos/no ne.jpg) " * 20_000,
    "blanks without end in a picture": lambda: "![a](" + " " * 20_000 + "<",
    "a picture's words of 100,000 [": lambda: "![" + "[" * 20_000 + "](a b)",
    "20,000 lines of hours": lambda: "Hours: milling 0.001\n\n" * 20_000,
    "a line of hours with 20,000 stages": lambda: (
        "Hours: " + ", ".join(f"stage{chr(97 + n % 26)} 0.0001" for n in range(20_000))
    ),
    "a line of hours of 100,000 blanks": lambda: "Hours:" + " " * 100_000 + "x",
    "a line of hours after 50,000 markers": lambda: "- " * 50_000 + "Hours: milling 1",
    "markers before hours": lambda: ("1. " * 30 + "x\n") * 3000,
    "a line like hours of 100,000 >": lambda: "> " * 100_000 + "x",
    "20,000 marks of settings": lambda: "Setting: fence 12\n\n" * 20_000,
    "raw pages": lambda: "<div><script>x</script>" * 20_000,
    "a tag with 50,000 fields": lambda: "<a " + "b='c' " * 50_000 + ">",
    "1,000 open tags": lambda: "<div\n" * 20_000,
    "typesetter's words": lambda: '#eval("1") $x^2$ #include "/etc/passwd" \\u{1F600} ' * 3000,
    "template's words": lambda: "{{ 7*7 }} {% for a in b %} " * 5000,
}
"""Texts for a note, each tried in a passage for the client and in what stays in."""


def _texts() -> Iterator[Attack]:
    for name, text in MARKDOWN.items():
        yield Attack(f"passage: {name}", lambda text=text: passage(text()))
    for name, text in MARKDOWN.items():
        yield Attack(f"note: {name}", lambda text=text: note(text()))


def _days(count: int, text: str) -> str:
    return "".join(
        f"## 20{10 + n // 336}-{n // 28 % 12 + 1:02}-{n % 28 + 1:02} Day {n}\n\n{text}\n"
        for n in range(count)
    )


def _notes() -> Iterator[Attack]:
    yield Attack(
        "entries: 5,000 dated",
        lambda: {"notes.md": _days(5000, "Planed.\n\nHours: milling 1").encode()},
        False,
        "entries",
    )
    yield Attack(
        "entries: 20,000 dated",
        lambda: {"notes.md": ("## 2026-02-10 x\n\na\n\n" * 20_000).encode()},
        False,
        "lines",
    )
    yield Attack(
        "entries: 1,500 with a passage each",
        lambda: {"notes.md": _days(1500, "Planed.\n\n### For the client\n\nA *board*.").encode()},
        True,
    )
    yield Attack(
        "entries: 2,000 files of notes",
        lambda: {
            f"notes/2026-02-{n % 28 + 1:02}-{n}.md": b"Planed.\n\nHours: milling 0.01" for n in range(2000)
        },
    )
    yield Attack(
        "entries: 20,000 files that are no notes",
        lambda: {f"notes/{n}.txt": b"" for n in range(20_000)},
        True,
    )
    yield Attack(
        "entries: 20,000 passages under one day", lambda: note("### For the client\n\na\n\n" * 20_000)
    )
    yield Attack("entries: 20,000 headings like days", lambda: note("## 1.2.26 x\n\n" * 20_000), False)
    yield Attack("entries: 20,000 undated headings", lambda: {"notes.md": b"## x\n\ny\n\n" * 20_000})
    yield Attack(
        "entries: a title of 500,000 letters",
        lambda: {"notes.md": ("## 2026-02-10 " + "a" * 500_000).encode()},
    )
    yield Attack(
        "entries: 1,000 definitions used by 1,000 days",
        lambda: {
            "notes.md": (
                "\n".join(f"[a{n}]: https://example.org/{n}" for n in range(1000))
                + "\n\n"
                + _days(1000, "See " + " ".join(f"[a{n}]" for n in range(50)))
            ).encode()
        },
    )
    yield Attack(
        "entries: 1,000 comments over 1,000 days",
        lambda: {"notes.md": _days(1000, "<!-- a\n-->\n\nb\n\n<!-- c -->").encode()},
    )
    yield Attack("note: all bytes", lambda: {"notes.md": bytes(range(256)) * 4000})
    yield Attack("note: 48 MB", lambda: note("Some words of a day. " * 2_400_000), False)
    yield Attack("note: 1.9 MB of prose", lambda: note("Some words of a day, told at length.\n\n" * 49_000))
    yield Attack("note: UTF-16", lambda: {"notes.md": NOTES.encode("utf-16") * 1000})


# -- tables ----------------------------------------------------------------------------------------------------------


def _moving(count: int) -> str:
    return "".join(
        f"Panel {n},1,European oak,{600 + n % 900},{300 + n % 200},18,24,flat,floating,{310 + n % 200},body,GB,Yard {n},{n % 90}.5,each,note {n}\n"
        for n in range(count)
    )


def _hardware(count: int) -> str:
    return "".join(
        f"Hinge {n},4,brass butt hinge no {n},63,35,2,,,,,,GB,Shop {n},9.40,each,\n" for n in range(count)
    )


PARTS: dict[str, tuple[Callable[[], Files], bool | None, str]] = {
    "20,000 rows": (lambda: parts(ROW * 20_000), False, "rows"),
    "100,000 rows": (lambda: parts("Top,1,oak,1,1,1,,,,,,,,,,\n" * 100_000), False, "rows"),
    "5,000 parts that all move": (lambda: parts(_moving(5000)), False, "rows"),
    "3,900 parts that all move": (lambda: parts(_moving(3900)), True, ""),
    "3,000 pieces of hardware": (lambda: parts(_hardware(3000)), True, ""),
    "3,000 unknown materials": (
        lambda: parts(
            "".join(f"P,1,unobtanium{n}xyzzy{n * 7919},100,50,20,,,,,,,,,,\n" for n in range(3000))
        ),
        False,
        "",
    ),
    "3,000 wrong lengths": (lambda: parts("Top,1,oak,8-Mar,x,1/0,,,,,,,,,,\n" * 3000), False, ""),
    "3,000 unknown finishes": (
        lambda: parts("".join(f"P,1,oak,9,9,9,,,,,f{n},,,,,\n" for n in range(3000))),
        False,
        "",
    ),
    "3,000 unknown countries": (
        lambda: parts("".join(f"P,1,oak,9,9,9,,,,,,Nowhere{n},,,,\n" for n in range(3000))),
        None,
        "",
    ),
    "3,000 species by turns": (
        lambda: parts(
            "".join(
                f"P{n},1,{('oak', 'ash', 'black walnut', 'beech')[n % 4]},90,90,20,,,,,,GB,,,,\n"
                for n in range(3000)
            )
        ),
        None,
        "",
    ),
    "quantities of billions": (
        lambda: parts("Top,999999999999,European oak,1600,450,27,,,,,,,,,,\n"),
        None,
        "",
    ),
    "panels by the million": (
        lambda: parts("Back,1000000,birch plywood,1500,470,9,,,,,,,,46,sheet,\n"),
        None,
        "",
    ),
    "a cell of 100,000 signs": (lambda: parts(f"{'a' * 100_000},1,oak,9,9,9,,,,,,,,,,\n"), None, ""),
    "a cell of 1,000,000 signs": (lambda: parts(f'"{"a" * 1_000_000}",1,oak,9,9,9,,,,,,,,,,\n'), False, ""),
    "a note of 100,000 signs": (
        lambda: parts(f"Top,1,European oak,9,9,9,,,,,,,,,,{'word ' * 20_000}\n"),
        None,
        "",
    ),
    "a name of 60,000 letters": (
        lambda: parts(f"{'a' * 60_000},1,European oak,1600,450,27,,,,,,,,,,\n"),
        None,
        "",
    ),
    "a supplier of 60,000 letters": (
        lambda: parts(f"Top,1,European oak,1600,450,27,,,,,,,{'a' * 60_000},,,\n"),
        None,
        "",
    ),
    "an origin of 60,000 letters": (
        lambda: parts(
            f"Top,1,European oak,1600,450,27,{'a' * 60_000}\n",
            "part,qty,material,length,width,thickness,origin\n",
        ),
        None,
        "",
    ),
    "a quotation mark never closed": (lambda: parts('"Top,1,oak,9,9,9\n' + ROW * 1500), False, ""),
    "20,000 quotation marks": (lambda: parts('"' * 20_000), None, ""),
    "cells over lines, 2,000 times": (
        lambda: parts('"a\nb",1,European oak,90,90,20,,,,,,,,,,\n' * 2000),
        None,
        "",
    ),
    "cells over lines at their end, 3,000 times": (
        lambda: parts('x,1,European oak,90,90,20,,,,,,,,,,"a\nb"\n' * 3000),
        None,
        "",
    ),
    "10,000 columns": (
        lambda: parts("", "part,material" + ",x" * 10_000 + "\n" + "a,oak" + ",b" * 10_000 + "\n"),
        False,
        "",
    ),
    "10,000 headings, all different": (
        lambda: parts("", "part,material," + ",".join(f"h{n}" for n in range(10_000)) + "\na,oak\n"),
        None,
        "",
    ),
    "200 strange columns, 2,000 rows": (
        lambda: parts(
            ("P,1,European oak,90,90,20" + ",z" * 200 + "\n") * 2000,
            "part,qty,material,length,width,thickness," + ",".join(f"h{n}" for n in range(200)) + "\n",
        ),
        None,
        "",
    ),
    "a row of 200,000 cells": (lambda: parts("Top,1,European oak,9,9,9" + "," * 200_000 + "x\n"), False, ""),
    "100,000 empty rows": (lambda: parts("\n" * 100_000 + ROW), True, ""),
    "100,000 rows of commas": (lambda: parts(",,,,\n" * 100_000 + ROW), None, ""),
    "nothing but NUL": (lambda: {"parts.csv": b"\0" * 1_000_000}, False, ""),
    "an archive": (lambda: {"parts.csv": b"PK\x03\x04" + b"\0" * 1000}, False, ""),
    "one line of 5 MB": (lambda: {"parts.csv": b"a," * 2_500_000}, False, ""),
    "a number of 100,000 figures": (lambda: parts(f"Top,{'9' * 100_000},oak,9,9,9,,,,,,,,,,\n"), False, ""),
    "3,000 totals": (lambda: parts(ROW + "Total,,,,,,,,,,,,,12,,\n" * 2990), None, ""),
    "semicolons and commas": (lambda: parts("a;b,c;d\te,f;g\n" * 3000), None, ""),
}


def _tables() -> Iterator[Attack]:
    for name, (made, bound, tells) in PARTS.items():
        yield Attack(f"parts: {name}", made, bound, tells)
    yield Attack(
        "prices: 3,000 rows",
        lambda: {
            "prices.csv": (
                "material,price,per,date\n"
                + "".join(f"oak no {n},{n}.5,each,2026-01-01\n" for n in range(3000))
            ).encode()
        },
    )
    yield Attack(
        "prices: 100,000 rows",
        lambda: {
            "prices.csv": (
                "material,price,per,date\n" + "European oak,1500,m3,2026-01-01\n" * 100_000
            ).encode()
        },
    )
    yield Attack(
        "prices: wrong 3,000 times",
        lambda: {"prices.csv": ("material,price,per\n" + "oak,x,y\n" * 3000).encode()},
    )
    yield Attack(
        "prices: a cell of 1 MB",
        lambda: {"prices.csv": ("material,price,per\n" + "a" * 1_000_000 + ",1,each\n").encode()},
    )


# -- job.toml and shop.toml --------------------------------------------------------------------------------------------


def _deliveries(count: int) -> Files:
    """A set of which each piece went on a day of its own, finished on its own days."""
    days = [date(2026, 4, 1) + timedelta(days=3 * n) for n in range(count)]
    coats = ", ".join(str(day - timedelta(days=1)) for day in days[:200])
    went = "".join(f'\n[[delivery]]\nday = {day}\npieces = "{n}"\n' for n, day in enumerate(days, 1))
    said = f'quantity = {min(count, 1000)}\nparts_for = "each"\n'
    before = JOB.replace("delivered = 2026-04-17\n", "")
    return {"job.toml": f"{before}{said}{FINISH.replace('2026-03-26, 2026-03-28', coats)}{went}".encode()}


def _finishes(count: int, coats: int) -> str:
    days = ", ".join(f"20{10 + n // 336:02}-{n // 28 % 12 + 1:02}-{n % 28 + 1:02}" for n in range(coats))
    return "".join(
        f'\n[[finish]]\nkey = "f{n}"\nfamily = "hardwax-oil"\ncoats = [{days}]\n' for n in range(count)
    )


def _worked(count: int) -> str:
    return "".join(
        f'\n[[worked]]\nkind = "holes"\ntitle = "Pins {n}"\nrows = 6\ncolumns = 8\nspacing = "32 mm"\n'
        for n in range(count)
    )


def _list_of(key: str, count: int, word: str = "word {}") -> str:
    return f"{key} = [{', '.join(chr(34) + word.format(n) + chr(34) for n in range(count))}]\n"


WITHOUT_TEXT = JOB.replace('description = "A plain bench."\n', "").replace('title = "Bench"\n', "")

TOML: dict[str, tuple[Callable[[], Files], bool | None, str]] = {
    "a dotted key of 20,000 parts": (lambda: job("a" + ".a" * 20_000 + " = 1\n"), False, ""),
    "a dotted key of 300 parts": (lambda: job("a" + ".a" * 300 + " = 1\n"), False, ""),
    "a heading of 20,000 parts": (lambda: tables("[a" + ".a" * 20_000 + "]\n"), False, ""),
    "2,000 dotted keys of 20 parts": (
        lambda: job("".join("a" + f".b{n}" * 20 + " = 1\n" for n in range(2000))),
        False,
        "",
    ),
    "2,000 headings of 100 parts": (
        lambda: tables("".join(f"[a{n}" + ".b" * 100 + "]\n" for n in range(2000))),
        False,
        "",
    ),
    "arrays 5,000 deep": (lambda: job("tags = " + "[" * 5000 + "]" * 5000 + "\n"), False, ""),
    "arrays 400 deep": (lambda: job("tags = " + "[" * 400 + "]" * 400 + "\n"), False, ""),
    "tables 5,000 deep": (lambda: job("overall = " + "{a=" * 5000 + "1" + "}" * 5000 + "\n", ""), False, ""),
    "tables 200 deep": (lambda: job("x = " + "{a=" * 200 + "1" + "}" * 200 + "\n"), False, ""),
    "20,000 keys": (lambda: job("".join(f"k{n} = 1\n" for n in range(20_000))), False, ""),
    "60,000 keys": (lambda: job("".join(f"k{n} = 1\n" for n in range(60_000))), False, ""),
    "a key twice": (lambda: job('title = "x"\n' * 20_000), False, ""),
    "20,000 tables": (lambda: tables("".join(f"[t{n}]\n" for n in range(20_000))), False, ""),
    "a key of 500,000 letters": (lambda: job("k" * 500_000 + " = 1\n"), False, ""),
    "a number of 500,000 figures": (lambda: job("price = " + "9" * 500_000 + "\n"), False, ""),
    "a number of 4,000 figures": (lambda: job("price = " + "9" * 4000 + "\n"), False, ""),
    "a price to the power of a million": (lambda: job("price = 1e999999\n"), False, ""),
    "a price to the power of minus a million": (lambda: job("price = 1e-999999\n"), None, ""),
    "a fraction of 100,000 figures": (lambda: job("price = 0." + "3" * 100_000 + "\n"), None, ""),
    "a description of 1 MB": (
        lambda: job(f'description = "{"word " * 199_000}"\n', WITHOUT_TEXT),
        False,
        "description",
    ),
    "a description of one word of 60,000 letters": (
        lambda: job(f'description = "{"a" * 60_000}"\n', WITHOUT_TEXT),
        None,
        "",
    ),
    "a title of 60,000 letters": (lambda: job(f'title = "{"a" * 60_000}"\n', WITHOUT_TEXT), None, ""),
    "a title of 10,000 words": (lambda: job(f'title = "{"word " * 10_000}"\n', WITHOUT_TEXT), None, ""),
    "a piece of 60,000 letters": (lambda: job(f'marks = "{"a" * 60_000}"\n'), None, ""),
    "5,000 tags": (lambda: job(_list_of("tags", 5000)), None, ""),
    "5,000 joints": (lambda: job(_list_of("joinery", 5000)), None, ""),
    "5,000 features": (lambda: job(_list_of("features", 5000)), None, ""),
    "50,000 limits": (lambda: job(_list_of("limits", 50_000)), None, ""),
    "3,000 photos named that are nowhere": (
        lambda: tables("\n[photos]\n" + _list_of("client", 3000, "photos/none{}.jpg")),
        None,
        "",
    ),
    "300 finishes of 500 coats": (lambda: {"job.toml": (JOB + _finishes(300, 500)).encode()}, None, ""),
    "one finish of 5,000 coats": (lambda: {"job.toml": (JOB + _finishes(1, 5000)).encode()}, None, ""),
    "5,000 finishes": (lambda: {"job.toml": (JOB + _finishes(5000, 1)).encode()}, None, ""),
    "a set of 1,000 pieces": (lambda: job('quantity = 1000\nparts_for = "each"\n'), True, ""),
    "a set of a billion pieces": (lambda: job("quantity = 1000000000\n"), False, "1,000"),
    "a card for each of 200 pieces": (
        lambda: job('quantity = 200\nparts_for = "each"\ncards = "each"\n'),
        True,
        "",
    ),
    "a card for each of 201 pieces": (
        lambda: job('quantity = 201\nparts_for = "each"\ncards = "each"\n'),
        False,
        "200",
    ),
    "200 deliveries": (lambda: _deliveries(200), True, ""),
    "5,000 deliveries": (lambda: _deliveries(5000), False, "200"),
    "pieces of 10,000 spans": (
        lambda: tables(f'\n[[delivery]]\nday = 2026-05-01\npieces = "{"1-1000, " * 2000}1"\n'),
        False,
        "pieces",
    ),
    "5,000 workings": (lambda: tables(_worked(5000)), None, ""),
    "a tally of 20,000 boards": (
        lambda: tables(
            '\n[[worked]]\nkind = "tally"\nwood = "European oak"\n'
            + _list_of("boards", 20_000, "5/4 x 7 in x 9 ft {} in")
        ),
        None,
        "",
    ),
    "holes by the billion": (
        lambda: tables('\n[[worked]]\nkind = "holes"\nrows = 100000\ncolumns = 100000\nspacing = "32 mm"\n'),
        None,
        "",
    ),
    "dowels by the million": (
        lambda: tables(
            '\n[[worked]]\nkind = "dowels"\njoint = "20 m"\nmargin = "1 mm"\nspacing = "0.001 mm"\n'
        ),
        None,
        "",
    ),
    "leaves by the million": (
        lambda: tables(
            '\n[[worked]]\nkind = "resaw"\nthickness = "20 m"\nwidth = "1 m"\nleaf = "0.001 mm"\nkerf = "0.001 mm"\n'
        ),
        None,
        "",
    ),
    "lengths by the million": (
        lambda: tables(
            '\n[[worked]]\nkind = "lengths"\nstock = "1 mm"\npiece = "1 mm"\ncount = 1000000000\n'
        ),
        None,
        "",
    ),
    "refreshed every month for ever": (
        lambda: {"job.toml": (JOB + FINISH + "refresh_months = 1\n").encode()},
        None,
        "",
    ),
    "doors by the million": (lambda: job("doors = 1000000\ndrawers = 1000000\n"), None, ""),
    "quotation marks never closed": (lambda: job('a = """' + '"' * 2 + "x" * 900_000), False, ""),
    "900,000 backslashes": (lambda: job('a = """' + "\\" * 900_000), False, ""),
    "900,000 backslashes closed": (lambda: job('a = """' + "\\\\" * 450_000 + '"""\n'), False, ""),
    "three marks by the thousand": (
        lambda: job("".join(f'a{n} = """x"""\n' for n in range(20_000))),
        False,
        "",
    ),
    "a remark of 900,000 signs": (lambda: job("# " + "x" * 900_000 + "\n"), True, ""),
    "900,000 remarks": (lambda: job("#\n" * 440_000), True, ""),
    "a list of 200,000 numbers": (lambda: job("tags = [" + "1," * 200_000 + "]\n"), False, ""),
    "a list of 50,000 tables": (lambda: job("worked = [" + "{}," * 50_000 + "]\n"), False, ""),
    "2 MB of keys": (lambda: job("".join(f"k{n} = 1\n" for n in range(200_000))), False, ""),
}

SHOPS: dict[str, Callable[[], str]] = {
    "a name of 60,000 letters": lambda: SHOP.replace("Tenterhook", "a" * 60_000),
    "an address of 20,000 lines": lambda: SHOP.replace('"1 Lane"', '"""\n' + "a\n" * 20_000 + '"""'),
    "an e-mail address of 60,000 letters": lambda: SHOP.replace("a@", "a" * 60_000 + "@"),
    "a site of 60,000 letters": lambda: SHOP + f'web = "https://example.org/{"a" * 60_000}"\n',
    "pages at 60,000 letters": lambda: SHOP + f'pages_at = "https://example.org/{"a" * 60_000}/"\n',
    "20,000 stages": lambda: SHOP + _list_of("stages", 20_000, "stage {}"),
    "5,000 payments": lambda: SHOP + '\n[[estimate.payment]]\nwhen = "x"\nshare = 0.01\n' * 5000,
    "a dotted key of 20,000 parts": lambda: SHOP + "a" + ".a" * 20_000 + " = 1\n",
    "arrays 5,000 deep": lambda: SHOP + "a = " + "[" * 5000 + "]" * 5000 + "\n",
}


def _toml() -> Iterator[Attack]:
    for name, (made, bound, tells) in TOML.items():
        yield Attack(f"job.toml: {name}", made, bound, tells)
    for name, text in SHOPS.items():
        yield Attack(f"shop.toml: {name}", lambda text=text: {"shop.toml": text().encode()})
    yield Attack(
        "estimate.json: lists 100,000 deep", lambda: {"estimate.json": b"[" * 100_000 + b"]" * 100_000}, True
    )
    yield Attack(
        "estimate.json: 7 MB", lambda: {"estimate.json": b'{"a":[' + b"1," * 3_500_000 + b"1]}"}, True
    )
    yield Attack(
        "estimate.json: 20,000 stages",
        lambda: {
            "estimate.json": b'{"schema":1,"hours":{"stages":['
            + b",".join(b'{"stage":"s%d","low_h":1,"median_h":2,"high_h":3}' % n for n in range(20_000))
            + b"]}}"
        },
        True,
    )


# -- all at once ---------------------------------------------------------------------------------------------------------


def _right_below() -> Files:
    """A job that comes near every limit at once."""
    told = "".join(f"- *a* **board** of {n} `mm` [seen](https://example.org/{n})\n" for n in range(3000))
    days = _days(
        2900, "Planed it *flat*.\n\n- one\n- two\n- three\n\nHours: milling 1\n\n|a|b|\n|-|-|\n|c|d|"
    )
    rows = _moving(3900).replace("note ", "it was planed and left to rest for a week in the warm " * 30)
    keyed = rows.replace(",body,", ",f7,")
    more = (
        _list_of("tags", 900) + _list_of("features", 900) + _list_of("limits", 900) + _list_of("joinery", 900)
    )
    return {
        "notes.md": f"{days}\n### For the client\n\n{told}".encode(),
        "parts.csv": (HEADINGS + keyed).encode(),
        "job.toml": (JOB + more + _finishes(60, 199) + _worked(490)).encode(),
    }


# -- names -------------------------------------------------------------------------------------------------------------


def _names() -> Iterator[Attack]:
    yield Attack("all: right below every limit", _right_below, True)
    yield Attack("names: 3,000 files beside the job's", lambda: {f"x{n}.txt": b"" for n in range(3000)}, True)
    yield Attack("names: folders 100 deep in photos", lambda: {"photos/" + "d/" * 100 + "a.txt": b"x"}, True)
    yield Attack(
        "names: 5,000 names of no picture",
        lambda: {f"photos/{'n' * 200}{n}.doc": b"x" for n in range(5000)},
        True,
    )
    yield Attack(
        "names: 1,000 videos that are none",
        lambda: {f"photos/{n}.mp4": b"\0\0\0\x18ftypmp42%d" % n * 50 for n in range(1000)},
        True,
        "only listed",
    )
    yield Attack("names: 5,000 empty pictures", lambda: {f"photos/{n}.jpg": b"" for n in range(5000)}, True)
    yield Attack(
        "names: 5,000 pictures of one byte", lambda: {f"photos/{n}.jpg": b"%d" % n for n in range(5000)}, True
    )
    yield Attack(
        "names: 1,000 pictures meant in other words, 1,000 photos",
        lambda: (
            {f"photos/{n}.jpg": b"%d" % n for n in range(1000)}
            | note("".join(f"![a](photos/Ä{n}.JPG)\n\n" for n in range(1000)))
        ),
    )


TEXTS: tuple[Attack, ...] = (*_texts(), *_notes(), *_tables(), *_toml(), *_names())
