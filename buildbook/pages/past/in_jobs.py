"""A thing in the jobs that have it; of a jig, with those whose notes name what is written on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from buildbook.left.model import JigUse, Remark, Use, Used


class InJob(NamedTuple):
    """A thing in one job, which may use it in several sizes or ways."""

    used: Used
    uses: tuple[Use, ...]


def with_those_that_name_it(
    found: Mapping[str, Sequence[InJob]], records: Sequence[Used]
) -> Iterator[tuple[str, list[InJob]]]:
    """The jobs of each jig, in the order of the records."""
    of_label: dict[str, dict[str, list[Remark]]] = {}
    for used in records:
        for label, remark in used.labels:
            of_label.setdefault(label, {}).setdefault(used.key, []).append(remark)
    for key, jobs in found.items():
        jig = jobs[0].uses[0]
        assert isinstance(jig, JigUse)
        own = {one.used.key: one for one in jobs}
        named = of_label.get(jig.label, {})
        every = (_in_job(used, jig, own.get(used.key), named.get(used.key, ())) for used in records)
        yield key, [one for one in every if one]


def _in_job(used: Used, jig: JigUse, own: InJob | None, named: Sequence[Remark]) -> InJob | None:
    if own is None:
        use = JigUse(key=jig.key, name=jig.name, label=jig.label, said=tuple(named))
        return InJob(used, (use,)) if named else None
    told = {remark.at for use in own.uses for remark in use.said}
    more = tuple(remark for remark in named if remark.at not in told)
    first, *others = own.uses
    return InJob(used, (replace(first, said=(*first.said, *more)), *others))
