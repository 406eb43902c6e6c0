"""Tries attacks: each job is bound in a process of its own that may take so much time and memory and no more.

`python -m tests.hostile.trial [WORDS]` prints what each took; only those whose name holds the words. The process that
tries them forks, so that a start costs nothing: it must hold no thread, so tests start it as a program of its own.
"""

from __future__ import annotations

import json
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.hostile.attacks import TEXTS, Attack
from tests.hostile.pictures import PICTURES

ATTACKS: tuple[Attack, ...] = (*TEXTS, *PICTURES)

_SLOW = frozenset(
    (
        "passage: links in links",
        "passage: images in images",
        "passage: comments in comments",
        "passage: 50,000 <?",
        "passage: 50,000 <!A",
        "passage: emphasis 20,000 times",
        "passage: 5,000 definitions, each used",
        "passage: markers before hours",
        "passage: a tag with 50,000 fields",
        "picture: PNG of 144 million points on its side",
        "picture: JPEG of 99 layers",
        "picture: TIFF of 59 million points",
        "picture: TIFF of 59 million points of 16 bits",
        "picture: WebP of 39 million points",
        "pictures: 1,000 tiny",
        "picture: WebP of 169 million points",
        "picture: JPEG of 144 million points, progressive",
        "picture: TIFF of 2,000 frames",
        "pictures: 2 PNG of 144 million points",
        "names: 5,000 names of no picture",
        "names: 5,000 empty pictures",
        "passage: a label of 500,000 signs",
        "passage: 3,000 signs that no font has",
        "passage: many rising runs of backticks",
        "passage: rising runs of tildes",
        "passage: 100,000 &amp;",
        "passage: 20,000 [a]( with open titles",
        "passage: 20,000 links",
        "passage: 50,000 <a",
        "passage: 50,000 -->",
        "passage: 20,000 addresses",
        "passage: 50,000 items",
        "passage: 50,000 empty items",
        "passage: 20,000 lists of one",
        "passage: strong that closes",
        "passage: 50,000 stars",
        "passage: one run of 100,000 stars",
        "passage: 50,000 underscores",
        "passage: 50,000 ~~",
        "passage: 50,000 hard breaks",
        "passage: 5,000 definitions",
        "passage: a definition with an open title",
        "passage: 2,000 tables",
        "passage: 20,000 headings",
        "passage: a heading underlined after 20,000 lines",
        "passage: 20,000 fences of growing length",
        "passage: 20,000 pictures that are nowhere",
        "passage: 20,000 pictures in one paragraph",
        "passage: 20,000 pictures with blanks",
        "passage: 20,000 lines of hours",
        "passage: a line of hours with 20,000 stages",
        "passage: 20,000 marks of settings",
        "passage: typesetter's words",
        "passage: template's words",
        "entries: 1,500 with a passage each",
        "entries: 2,000 files of notes",
        "entries: 20,000 files that are no notes",
        "entries: 20,000 headings like days",
        "entries: 1,000 comments over 1,000 days",
        "parts: 3,000 pieces of hardware",
        "parts: 3,000 unknown materials",
        "parts: 3,000 unknown countries",
        "parts: 3,000 species by turns",
        "parts: cells over lines, 2,000 times",
        "parts: cells over lines at their end, 3,000 times",
        "parts: 200 strange columns, 2,000 rows",
        "job.toml: 900,000 remarks",
        "all: right below every limit",
        "names: 5,000 pictures of one byte",
        "names: 1,000 pictures meant in other words, 1,000 photos",
        "picture: PNG of 144 million points",
        "picture: PNG of 144 million points, RGBA",
        "picture: PNG of 144 million points of 16 bits, RGBA",
        "picture: PNG of 144 million points, grey and alpha",
        "picture: PNG of 144 million points of 16 bits, grey",
        "picture: PNG of 144 million points, palette",
        "picture: PNG of 144 million points of 1 bit",
        "picture: PNG of 144 million points, interlaced",
        "picture: PNG of 144 million points, transparent by a colour",
        "picture: PNG of one line",
        "picture: PNG of one column",
        "picture: JPEG with megabytes about it",
        "picture: JPEG of nothing but marks",
        "picture: JPEG of empty segments",
        "picture: HEIC of 16 million points",
        "pictures: 12,000 of one byte",
        "pictures: 3,000 the same",
    )
)

DAILY: tuple[Attack, ...] = tuple(
    attack for attack in ATTACKS if attack.kind != "note" and attack.name not in _SLOW
)
"""What the suite tries, in under a minute of processor time: without what takes most of a second or more once it is
within bounds, and without the texts in notes that stay in, whose reader a passage for the client goes through too.
"""

SECONDS = 30
"""Of processor time for one job, all threads together; ten times as many by the clock, since the machine may be shared."""

MEGABYTES = 1000
"""Of memory held at once."""

_SPACE_MB = 6000  # addresses reserved, which is more than memory held: a last stop


@dataclass(frozen=True)
class Trial:
    """What became of an attack. `fault` is empty when all was well, else what was not."""

    name: str
    seconds: float
    megabytes: float
    bound: bool
    problems: int
    fault: str


def attempt(attack: Attack) -> Trial:
    """Bind the job of an attack and judge what came of it."""
    place = Path(tempfile.mkdtemp(prefix="hostile-"))
    try:
        _apart(lambda: lay(attack, place))
        start = time.monotonic()
        status, used, said = _apart(lambda: _bind(place), limited=True)
        seconds = used.ru_utime + used.ru_stime
        hung = time.monotonic() - start >= 10 * SECONDS
        return _judged(attack, status, seconds, hung, said)
    finally:
        shutil.rmtree(place, ignore_errors=True)


@dataclass(frozen=True)
class Spent:
    """What binding a job took; `wrong` says what kept it from being bound, empty when nothing did."""

    seconds: float
    megabytes: float
    wrong: str


def spent(place: Path) -> Spent:
    """Bind the job that `lay` wrote into a folder, in a process of its own."""
    status, used, said = _apart(lambda: _bind(place))
    facts = (
        json.loads(said)
        if said
        else {"mb": 0.0, "bound": False, "problems": [f"died ({status})"], "fault": ""}
    )
    wrong = "" if facts["bound"] else facts["fault"] or facts["problems"][0]
    return Spent(used.ru_utime + used.ru_stime, facts["mb"], wrong)


def _judged(attack: Attack, status: int, seconds: float, hung: bool, said: bytes) -> Trial:
    facts = json.loads(said) if said else {"mb": 0.0, "bound": False, "problems": [], "fault": ""}
    problems: list[str] = facts["problems"]
    if hung or status in (signal.SIGXCPU, signal.SIGKILL):
        fault = "over time"
    elif status or not said:
        fault = f"died ({status})"
    elif facts["fault"]:
        fault = f"fault: {facts['fault'].strip().splitlines()[-1][:100]}"
    elif seconds > SECONDS:
        fault = "over time"
    elif facts["mb"] > MEGABYTES:
        fault = "over memory"
    elif not facts["bound"] and not facts["errors"]:
        fault = "refused without a word"
    elif attack.bound is not None and facts["bound"] != attack.bound:
        fault = "bound" if facts["bound"] else f"refused: {problems[0][:120]}"
    elif attack.tells and not any(attack.tells in problem for problem in problems):
        fault = f"not told: {attack.tells}"
    else:
        fault = ""
    return Trial(attack.name, seconds, facts["mb"], facts["bound"], len(problems), fault)


def lay(attack: Attack, place: Path) -> bytes:
    """Write the job of an attack, and its shelf, into a folder."""
    for name, content in attack.files().items():
        shelf = name in ("shop.toml", "prices.csv")
        path = place / "shelf" / name if shelf else place / "shelf" / "job" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    return b""


def _bind(place: Path) -> bytes:
    from buildbook.book.bind import bind

    bound = bind(place / "shelf" / "job", place / "book")
    told = [*bound.problems, *(problem for job in bound.jobs for problem in job.problems)]
    facts = {
        "mb": _peak_mb(),
        "bound": bound.ok,
        "errors": sum(problem.severity == "error" for problem in told),
        "problems": [str(problem)[:400] for problem in told],
        "fault": "".join(job.fault for job in bound.jobs),
    }
    return json.dumps(facts).encode()


def _peak_mb() -> float:
    status = Path("/proc/self/status").read_text().split("VmHWM:")[1]
    return int(status.split()[0]) / 1024


def _apart(work: Callable[[], bytes], *, limited: bool = False) -> tuple[int, resource.struct_rusage, bytes]:
    """Do work in a process of its own: how it ended, what it used, what it said."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        code = 1
        try:
            os.close(reading)
            if limited:
                resource.setrlimit(resource.RLIMIT_CPU, (SECONDS + 2, SECONDS + 3))
                resource.setrlimit(resource.RLIMIT_AS, (_SPACE_MB * 1_000_000,) * 2)
                signal.alarm(10 * SECONDS)
            said = work()
            with open(writing, "wb") as pipe:
                pipe.write(said)
            code = 0
        except BaseException as fault:
            sys.stderr.write(f"{type(fault).__name__}: {str(fault)[:200]}\n")
        finally:
            os._exit(code)
    os.close(writing)
    with open(reading, "rb") as pipe:
        said = pipe.read()
    _, status, used = os.wait4(child, 0)
    return os.waitstatus_to_exitcode(status) if os.WIFEXITED(status) else os.WTERMSIG(status), used, said


def _warm() -> None:
    """What every job needs, read once before any is tried: tables, templates. Nothing of it starts a thread."""
    from buildbook.book import bind_job
    from buildbook.book.handover import BESIDE
    from buildbook.book.past.records import job_files
    from buildbook.job import read_job
    from buildbook.render.html.theme import load_theme
    from buildbook.summary import summarise

    theme = load_theme("oilstone")
    bind_job.theme_of = lambda *shop_and_folders: theme  # so that its templates are compiled once
    with tempfile.TemporaryDirectory() as place:
        lay(Attack("plain", dict), Path(place))
        job = read_job(Path(place) / "shelf" / "job")
        piece, log, cover, _ = bind_job.pages_of(job)
        theme.client_page(piece, fingerprint="", files=BESIDE)
        theme.log_page(log, "")
        job_files(job, summarise(job), cover)


def attempt_all(attacks: Iterable[Attack]) -> list[Trial]:
    _warm()
    return [attempt(attack) for attack in attacks]


def main(words: list[str]) -> None:
    as_json = words == ["--json"]
    wanted = " ".join(words)
    chosen = [attack for attack in ATTACKS if wanted in attack.name]
    if as_json:
        print(json.dumps([asdict(trial) for trial in attempt_all(DAILY)]))
        return
    _warm()
    for attack in chosen:
        trial = attempt(attack)
        came = "bound  " if trial.bound else "refused"
        print(
            f"{trial.seconds:6.2f} s {trial.megabytes:6.0f} MB {came} {trial.problems:6} told  {trial.name}  {trial.fault}",
            flush=True,
        )


if __name__ == "__main__":
    main(sys.argv[1:])
