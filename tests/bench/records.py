"""Reading the records of 2,000 jobs: two libraries on the same frozen dataclasses, and what the words would add.

Run as `python -m tests.bench.records [COUNT]`. Each figure is processor time, the best of three; memory is what the
decoded records hold (tracemalloc). `canonical`: with the check that a file is what would be written of it. Import is
the best of seven fresh interpreters, over one that has loaded what the package loads anyway. cattrs is no dependency
of the package: `pip install cattrs` first, or its lines are left out.
"""

import gc
import json
import subprocess
import sys
import time
import tracemalloc
from collections.abc import Callable
from decimal import Decimal
from typing import Any, get_type_hints

import msgspec

from buildbook.find.excerpt import Excerpt
from buildbook.find.record import passages_of
from buildbook.left import model
from buildbook.left.codec import decoded, encoded
from buildbook.left.model import Cover, JobRecord
from buildbook.left.record import job_record
from buildbook.summary import summarise
from buildbook.words import Words
from tests.make_shelf import job_of, made_jobs

JOBS = 2000
TIMES = 3
STARTS = 7
LOADED = "import dataclasses, datetime, decimal, enum, json, typing, uuid"


def best(what: Callable[[], Any]) -> tuple[float, Any]:
    """The least processor time of a few, in seconds, and what came of it."""
    times, out = [], None
    for _ in range(TIMES):
        out = None
        gc.collect()
        start = time.process_time()
        out = what()
        times.append(time.process_time() - start)
    return min(times), out


def held_mb(what: Callable[[], Any]) -> float:
    gc.collect()
    tracemalloc.start()
    kept = what()
    size = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    del kept
    return size / 1e6


def tell(name: str, files: list[bytes], write: Callable[[], Any], read: Callable[[], Any]) -> None:
    (wrote, _), (took, _) = best(write), best(read)
    size = sum(map(len, files)) / 1e6
    print(f"{name:34} {size:6.1f} MB  write {wrote:.2f} s  read {took:.2f} s  holds {held_mb(read):.0f} MB")


def import_ms(module: str) -> float:
    code = f"{LOADED}; import time; t = time.perf_counter(); import {module}; print(time.perf_counter() - t)"
    runs = [
        subprocess.run([sys.executable, "-c", code], capture_output=True, check=True) for _ in range(STARTS)
    ]
    return min(float(run.stdout) for run in runs) * 1000


def by_cattrs() -> Any:
    """A converter as strict as msgspec is by itself: cattrs calls `str` and `int` on whatever it is given, and does not
    read the annotations of named tuples as text.
    """
    from cattrs.preconf.json import make_converter

    for kind in (Excerpt, model.UnitPrice, model.Seller, model.Remark):
        kind.__annotations__ = get_type_hints(kind)
    converter = make_converter(forbid_extra_keys=True, detailed_validation=False)

    def only(*kinds: type) -> Callable[[Any, Any], Any]:
        def checked(value: Any, _: Any) -> Any:
            if type(value) not in kinds:
                raise TypeError(f"{value!r} is none of {kinds}")
            return kinds[0](value)

        return checked

    for kind in (str, int, bool):
        converter.register_structure_hook(kind, only(kind))
    converter.register_structure_hook(float, only(float, int))
    converter.register_structure_hook(Decimal, lambda value, _: Decimal(value))
    converter.register_unstructure_hook(Decimal, str)
    return converter


def main(count: int) -> None:
    records, words = [], []
    for made in made_jobs(count):
        job = job_of(made)
        summary, language = summarise(job), Words(job.shop.language)
        words.append(passages_of(job, summary, language))
        cover = Cover(digest="0" * 64, width=1200, height=900, alt=job.title)
        records.append(job_record(job, summary, language, words[-1], cover))
    files = [encoded(record) for record in records]
    print(f"{count} records, {sum(map(len, files)) / count / 1000:.1f} kB each")
    reader = msgspec.json.Decoder(JobRecord)
    write = msgspec.json.Encoder().encode
    tell("msgspec", files, lambda: list(map(write, records)), lambda: list(map(reader.decode, files)))
    tell(
        "msgspec, rounded and canonical",
        files,
        lambda: list(map(encoded, records)),
        lambda: list(map(decoded, files)),
    )
    said = [msgspec.json.encode(some) for some in words]
    of_words = msgspec.json.Decoder(tuple[Excerpt, ...])
    tell(
        "the words of the jobs, msgspec",
        said,
        lambda: list(map(write, words)),
        lambda: list(map(of_words.decode, said)),
    )
    tell("json, nothing checked", files, lambda: None, lambda: list(map(json.loads, files)))
    print(f"import msgspec {import_ms('msgspec'):.0f} ms")
    try:
        converter = by_cattrs()
    except ImportError:
        print("cattrs is not installed")
        return
    tell(
        "cattrs on json",
        files,
        lambda: [json.dumps(converter.unstructure(record)) for record in records],
        lambda: [converter.structure(json.loads(file), JobRecord) for file in files],
    )
    assert [converter.structure(json.loads(file), JobRecord) for file in files] == list(map(decoded, files))
    print(f"import cattrs {import_ms('cattrs.preconf.json'):.0f} ms")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else JOBS)
