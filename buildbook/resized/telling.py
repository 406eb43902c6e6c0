"""What became of the piece, in words: lines for a terminal, and for the file in the new job.

In: `Resized`, what no longer fits, `BothFigures`, `Words`. Out: lines of plain text. The file has neither money nor
hours.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from buildbook.job.begin.sizes import figure
from buildbook.job.row_names import row_name
from buildbook.quantity import Style
from buildbook.resized.figures import BothFigures
from buildbook.resized.model import Change, Likely, Question, Resized, Shared, SizeOf, Unfit, Why
from buildbook.resized.runs import is_made
from buildbook.summary.style import style_of
from buildbook.summary.timber import sheet_count, sheet_groups
from buildbook.words import Words
from buildbook.words.told import sentence

_PLACES = 2  # of a part's mass in kilograms
_GAP = "  "


class Telling:
    """Says one piece in one language."""

    def __init__(self, resized: Resized, words: Words) -> None:
        self.resized = resized
        self.words = words
        self.style: Style = style_of(resized.new, words)

    def t(self, key: str, **values: object) -> str:
        return self.words.text(f"resized.{key}", **values)

    # -- sizes -----------------------------------------------------------------------------------

    def figure(self, m: float) -> str:
        """A size as it is written in parts.csv."""
        return figure(m, self.style.units, self.style.decimal == ",")

    def length(self, m: float) -> str:
        return f"{self.figure(m)} {self.style.units}"

    def size(self, size: SizeOf) -> str:
        return f"{size.part} {self.t(f'side.{size.side}')}"

    def title(self, past: str) -> str:
        sizes = [
            self.t(
                "size",
                axis=self.t(f"axis.{one.axis}"),
                old=self.figure(one.old_m),
                new=self.length(one.new_m),
            )
            for one in self.resized.overall
        ]
        return self.t("title", past=past, sizes=", ".join(sizes)) if sizes else self.t("same_size", past=past)

    def parts(self) -> Iterator[str]:
        """The table of what changes, then what stays."""
        rows = [
            (self.size(one.size), self.figure(one.old_m), self.figure(one.new_m), self.why(one))
            for one in self._in_order()
        ]
        if rows:
            head = (
                self.t("parts", unit=self.style.units),
                self.t("before"),
                self.t("now"),
                self.t("why_it_is"),
            )
            yield from columns((head, *rows))
        else:
            yield self.t("nothing")
        changed = {one.size.part for one in self.resized.changes}
        kept = [part.name for part in self.resized.new.parts if part.name not in changed and is_made(part)]
        if kept:
            yield self.t("stay", parts=", ".join(dict.fromkeys(kept)))
        if self.resized.restate:
            yield self.t("restate", parts=", ".join(self.resized.restate))

    def _in_order(self) -> Sequence[Change]:
        return sorted((*self.resized.changes, *self.resized.openings), key=lambda one: one.rows)

    def why(self, change: Change) -> str:
        why: Why = change.why
        kind = "half" if why.kind == "share" and why.shares == 2 else why.kind
        return self.t(
            f"why.{kind}",
            sum=why.sum,
            size=self.size(why.size) if why.size else "",
            axis=self.t(f"axis.{change.axis}") if change.axis else "",
            count=why.shares,
            less=" + ".join(f"{times} × {part} {self.t('side.thickness')}" for times, part in why.less),
        )

    # -- what is open ----------------------------------------------------------------------------

    def question(self, one: Question) -> str:
        """What is open, as a sentence."""
        if isinstance(one, Shared):
            options = [self.option(option.sizes, option.by_m) for option in one.options]
            return self.t(
                "open.sum", sum=one.sum, out=self.length(abs(one.out_by_m)), options="; ".join(options)
            )
        if one.likely_m == one.old_m:
            kind = "stays"
        elif one.beside:
            kind = "part"
        elif one.old_m > one.beside_m:
            kind = "longer"
        else:
            kind = {1: "near", 2: "half"}.get(one.shares, "share")
        return self.t(
            f"open.{kind}",
            size=self.size(one.size),
            old=self.length(one.old_m),
            new=self.length(one.likely_m),
            axis=self.t(f"axis.{one.axis}"),
            other=self.size(one.beside) if one.beside else "",
            beside=self.length(one.beside_m),
            count=one.shares,
        )

    def option(self, sizes: Iterable[SizeOf], by_m: float) -> str:
        sign = "+" if by_m > 0 else "−"
        return self.t(
            "open.option", sizes=" + ".join(map(self.size, sizes)), by=sign + self.style.length(abs(by_m))
        )

    def untold(self) -> Iterator[str]:
        """What was left as it was, each with the option that says it."""
        if self.resized.untold:
            yield self.t("untold")
        for one in self.resized.untold:
            size, m = (one.size, one.likely_m) if isinstance(one, Likely) else (one.options[0].sizes[0], None)
            if m is None:
                dim = next(part for part in self.resized.old.parts if part.name == size.part)
                m = getattr(dim, size.side).m + one.options[0].by_m  # type: ignore[union-attr]
            yield f'{_GAP}--size "{self.size(size)} {self.length(m)}"'
            yield f"{_GAP * 2}{self.question(one)}"

    # -- what no longer fits -----------------------------------------------------------------------

    def unfit(self, found: Sequence[Unfit]) -> Iterator[str]:
        if not found:
            yield self.t("fits")
            return
        yield self.t("no_longer")
        for one in found:
            said = [self.one_unfit(one)]
            if one.before:
                said.append(self.t("was_so"))
            if one.source:
                said.append(f"({sentence(one.source, self.words.language)})")
            yield f"{_GAP}{' '.join(said)}"

    def one_unfit(self, one: Unfit) -> str:
        return self.t(f"unfit.{_words_of(one)}", part=one.part, **self._shown(one.values))

    def _shown(self, values: Mapping[str, float | str]) -> dict[str, str]:
        """The figures as words, by their names without the unit."""
        shown: dict[str, str] = {}
        for name, value in values.items():
            plain, _, unit = name.rpartition("_")
            if isinstance(value, str):
                shown[name] = self.style.percent(float(value)) if name == "use" and value else value
            elif unit == "m":
                small = plain in _SMALL or (plain == "was" and "sag_m" in values)
                shown[plain] = self.style.small(value) if small else self.style.length(value)
            elif unit == "kg":
                shown[plain] = self.style.mass(value)
            elif unit == "n":
                shown[plain] = self.style.force(value)
            else:
                shown[name] = f"{value:g}"
        if "old_length" in shown:
            shown |= {
                "new": f"{shown['length']} × {shown['width']}",
                "old": f"{shown['old_length']} × {shown['old_width']}",
            }
        if "was_n" in values and "was_kg" in values:
            shown |= {
                "was": self.style.mass(float(values["was_kg"])),
                "before": self.style.force(float(values["was_n"])),
            }
        return shown

    # -- figures -----------------------------------------------------------------------------------

    def figures(self, found: BothFigures) -> Iterator[str]:
        """Mass, stock, sheets, movement, cost before and after."""
        head = (self.t("figures"), self.t("before"), self.t("now"))
        yield from columns((head, *self._rows(found)))
        unpriced = found.new.cost.unpriced
        if unpriced:
            named = (row_name(name, self.words.language) or name for name in unpriced)
            yield self.t("figure.unpriced", parts=", ".join(named))
        if found.then:
            yield self.t("figure.then", parts=", ".join(found.then))

    def _rows(self, found: BothFigures) -> Iterator[tuple[str, str, str]]:
        style, old, new = self.style, found.old, found.new
        kg, new_kg = map(style.mass, found.each_kg)
        yield self.t("figure.mass"), kg, new_kg
        for wood in new.timber.species:
            name = self.words.name("species_name", wood.key, wood.name)
            before = {
                line.stock: line for one in old.timber.species if one.key == wood.key for line in one.stock
            }
            for line in wood.stock:
                was = before.get(line.stock)
                yield (
                    self.t("figure.stock", wood=name, stock=line.stock),
                    self._timber(was.buy_m3, was.buy_bf) if was else "",
                    self._timber(line.buy_m3, line.buy_bf),
                )
        sheets = {(use.key, use.thickness_m): str(use.sheets) for use in old.panels.sheets}
        larger = self._larger_than_sheets()
        for use in new.panels.sheets:
            name = self.words.name("sheet_name", use.key, use.name)
            said = self.t("figure.sheets", sheet=name, thickness=style.length(use.thickness_m))
            now = f"{use.sheets}{' + ?' if (use.key, round(use.thickness_m, 5)) in larger else ''}"
            yield said, sheets.get((use.key, use.thickness_m), ""), now
        widths = {row for one in self.resized.changes if one.size.side == "width" for row in one.rows}
        moved = {row.row: style.small(row.grows_m + row.shrinks_m) for row in old.movement}
        for moves in new.movement:
            if moves.row in widths:
                now = style.small(moves.grows_m + moves.shrinks_m)
                yield self.t("figure.moves", part=moves.part), moved.get(moves.row, ""), now
        area, new_area = (sum(use.area_m2 for use in one.finish if not use.over) for one in (old, new))
        if new_area:
            yield self.t("figure.area"), style.area(area), style.area(new_area)
        if new.cost.materials.amount:
            cost, new_cost = (style.money(one.cost.materials.amount) for one in (old, new))
            yield self.t("figure.cost"), cost, new_cost

    def _larger_than_sheets(self) -> set[tuple[str, float]]:
        """The sheet goods of which a part is larger than a sheet: it is not counted."""
        job = self.resized.new
        return {key for key, parts in sheet_groups(job).items() if sheet_count(job, parts)[0].cannot_cut}

    def _timber(self, m3: float, bf: float) -> str:
        return self.style.volume(m3) if self.style.metric else self.style.board_feet(bf)

    def hours(self, found: BothFigures) -> Iterator[str]:
        if not found.hours:
            return
        head = (self.t("hours"), self.t("before"), self.t("now"))
        rows = [
            (
                self.t(
                    "figure.stage" if one.driver not in ("", "none") else "figure.stage_alone",
                    stage=one.stage or self.words.text("log.no_stage"),
                    driver=self.words.text(f"estimate.driver.{one.driver or 'none'}"),
                ),
                self._hours(one.old_h),
                self._hours(one.new_h),
            )
            for one in found.hours
        ]
        old, new = (sum(getattr(one, side) for one in found.hours) for side in ("old_h", "new_h"))
        yield from columns((head, *rows, (self.t("figure.total"), self._hours(old), self._hours(new))))

    def _hours(self, hours: float) -> str:
        return self.style.with_unit(hours, "h", 1)

    # -- all of it -----------------------------------------------------------------------------------

    def file(self, past: str, found: Sequence[Unfit]) -> str:
        """The text that the new job keeps: nothing of money or hours, which are of the past one."""
        blocks = (
            [self.title(past)],
            list(self.parts()),
            list(self.untold()),
            list(self.unfit(found)),
            [self.t("note")],
        )
        return "\n\n".join("\n".join(line.rstrip() for line in block) for block in blocks if block) + "\n"


_SMALL = frozenset(("sag", "seen", "off", "slot", "travel", "grows", "short"))
"""Lengths that are told to a tenth of a millimetre."""


def _words_of(one: Unfit) -> str:
    """The sentence of what no longer fits, by what is known of it."""
    if one.kind == "wall":
        return "wall_use" if one.values["use"] else "wall"
    return f"{one.kind}_{one.values['by']}" if "by" in one.values else one.kind


def columns(rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """A table as lines: the first column and the last to the left, figures between them to the right."""
    table = [tuple(row) for row in rows]
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    last = len(widths) - 1
    for row in table:
        cells = [
            cell.ljust(width) if at == 0 or (at == last and last > 2) else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        yield _GAP.join(cells).rstrip()
