"""What the notes tell of each joint that a job states: as it was cut, and what was set, spoilt, mended and learnt.

A note tells of a joint where it cuts one (`find.joints`): its `Joint:` lines, the sentences with a figure that name it,
and the marked lines that go with it. A word that is merely shared tells nothing. Of a joint that the table does not
know, the lines that hold all of its words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from buildbook.find.joints import Joints, JointsTold, joints_in, kinds_of, told_as, told_in
from buildbook.job.model import Job
from buildbook.job.notes.measures import Kind, measures
from buildbook.job.notes.places import with_ids
from buildbook.left.mentions import sentences_in, shortened, telling, terms_of
from buildbook.left.model import Remark, Use
from buildbook.summary.things import joint_key

MOST = 12  # lines that are kept of a joint in a job
_OF_A_JOINT = frozenset(("joint", "setting", "mistake", "fix", "next-time", "taper", "jig", "changed"))
_FIGURES: tuple[Kind, ...] = ("length", "round", "radius", "slope", "angle", "number")


def joints_of(job: Job) -> Iterator[Use]:
    """A use for each joint that the job states, each once, by its first spelling."""
    told = list(told_in(with_ids(job.entries), job.joinery))
    names: dict[str, str] = {}
    for written in job.joinery:
        names.setdefault(joint_key(written), written)
    stated = frozenset[str]().union(*map(joints_in, names.values()))
    for key, name in names.items():
        yield Use(key=key, name=name, said=tuple(_said(name, stated, told, job.units))[:MOST])


def _said(name: str, stated: Joints, told: Sequence[JointsTold], unit: str) -> Iterator[Remark]:
    wanted = told_as(joints_in(name), stated)
    kinds = kinds_of(wanted)
    for one in told:
        tells = one.joints & wanted if wanted else _holds(one.block.text, name)
        if not tells:
            continue
        if one.block.mark in _OF_A_JOINT:
            yield _remark(one, one.block.text)
        elif not one.block.mark and (one.cuts or not wanted):
            for sentence in sentences_in(" ".join(one.block.text.split())):
                names_it = joints_in(sentence) & kinds if wanted else _holds(sentence, name)
                if names_it and _has_figure(sentence, unit):
                    yield _remark(one, sentence)


def _holds(text: str, name: str) -> bool:
    wanted = set(telling(name.split(",")[0]))
    return bool(wanted) and wanted <= set(terms_of(text))


def _has_figure(text: str, unit: str) -> bool:
    return any(figure.kind in _FIGURES for figure in measures(text, "", unit))


def _remark(told: JointsTold, text: str) -> Remark:
    return Remark(told.day, "", shortened(text), told.at)
