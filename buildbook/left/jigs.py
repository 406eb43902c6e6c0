"""The jigs of a job, and the words in capitals by which a jig of another is known (`marked PINS`)."""

from __future__ import annotations

from collections.abc import Iterator

from buildbook.job.model import Job
from buildbook.job.notes.jigs import Jig, jigs_of, labels_in, same_jig
from buildbook.left.mentions import Spoken, shortened
from buildbook.left.model import JigUse, Labelled, Remark

MOST = 60  # words in capitals that are kept of a job


def jig_uses(job: Job) -> Iterator[JigUse]:
    """Each jig that the notes mark as one, with the lines that tell of it."""
    found: dict[str, list[tuple[Jig, Remark]]] = {}
    for place, mark, jig in jigs_of(job.entries):
        day = place.removeprefix("day-")[:10]
        found.setdefault(jig.key, []).append((jig, Remark(day, "", shortened(mark.text), place)))
    for key, several in found.items():
        jig = same_jig(jig for jig, _ in several)
        yield JigUse(
            key=key,
            name=jig.name,
            label=jig.label,
            first=jig.first,
            pitch=jig.pitch,
            hangs=jig.hangs,
            said=tuple(said for _, said in several),
        )


def labels_of(spoken: Spoken) -> tuple[Labelled, ...]:
    """Each word in capitals on each day, with the sentence that has it first."""
    found: dict[tuple[str, str], Labelled] = {}
    for sentence in spoken.sentences:
        for label in labels_in(sentence.text):
            said = Remark(sentence.day, "", shortened(sentence.text), sentence.at)
            found.setdefault((label, sentence.day), Labelled(label, said))
    return tuple(found.values())[:MOST]
