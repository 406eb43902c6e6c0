"""Themes: a folder of templates and style sheets that turns a page model into a page.

`plain` is whole: `theme.toml` (name, the colours of its paper by day and by night, sizes of pictures, tokens of print),
a template for each page that lists its sections, a folder of that name with the sections, `tokens.css` and the style
sheets of the pages, and for print `card.typ`, `booklet.typ`, `letter.typ`, `wall.typ`, `templates.typ`. Another
theme names the one it comes `after` and holds what differs: each file of it takes the place of the one with the same
path, and its `style.css` comes after all style sheets of the others. `{% extends "plain/client.html" %}` names a file
of a theme that it comes after.
Templates loop and choose; they do no sums and hold no words: words come from `t`. A client's template is given a
`ClientPiece`, that of a letter a `ClientLetter`, and what is needed to show one, nothing else.
"""

from __future__ import annotations

import tomllib
import traceback
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from jinja2 import TemplateError
from markupsafe import Markup

from buildbook.pages.client.piece import ClientPiece, Picture
from buildbook.pages.letter.letter import ClientLetter
from buildbook.pages.log.build_log import BuildLog
from buildbook.pages.past.across import AcrossPage
from buildbook.pages.past.list import PastWork
from buildbook.pages.past.years import YearsPage
from buildbook.pages.sheet.sheet import ContactSheet
from buildbook.pages.worksheet.sheet import Worksheet
from buildbook.problems import listed
from buildbook.render.colour import Accent, accent
from buildbook.render.copies import Copy, copies_of, small_copies_of
from buildbook.render.drawing import drawing
from buildbook.render.html.prose import prose
from buildbook.render.html.templates import forget_templates, templates_in
from buildbook.render.look import Look, look_of
from buildbook.words import Words

_PACKAGE = Path(__file__).resolve().parents[2]
_THEME_FILES = (
    "theme.toml", "page.html", "client.html", "log.html", "shelf.html", "across.html", "years.html", "letter.html",
    "worksheet.html", "sheet.html", "tokens.css", "base.css", "client.css", "letter.css", "ledger.css", "sheet.css",
    "card.typ", "booklet.typ", "letter.typ", "wall.typ", "templates.typ",
)  # fmt: skip
_CLIENT, _LEDGER, _LETTER = ("client.css",), ("ledger.css",), ("letter.css",)
_EVERY_PAGE = ("tokens.css", "base.css")
_OWN_STYLE = "style.css"  # of each theme, the nearest last
_LONGEST_NAME = 80  # of a folder that is a theme
_MOST_SAID = 300  # characters of an error
_LONGEST_CHAIN = 5  # themes that come after one another; more is a circle


class ThemeError(Exception):
    """A theme that cannot be used: the message says which file is at fault and why."""


@dataclass(frozen=True)
class Theme:
    """A theme that was found whole. `paper` is the ground by day and by night, as hex; `folders` are its own and
    those of the themes it comes after, the nearest first. `sizes` are how wide pictures stand on the client's page,
    `look` is that of the prints; `chain` are the names by which it and those it comes after were looked for.
    """

    name: str
    folders: tuple[Path, ...]
    paper: tuple[str, str]
    sizes: Mapping[str, str]
    look: Look
    chain: tuple[str, ...]

    def file(self, name: str) -> Path:
        """Where a file of the theme is; in its own folder, else in that of the theme it comes after."""
        found = next((folder / name for folder in self.folders if (folder / name).is_file()), None)
        if found is None:
            raise ThemeError(f"theme {self.name}: it lacks {name}")
        return found

    def _text(self, file: Path) -> str:
        """What a file of the theme holds. Raises `ThemeError`."""
        try:
            return file.read_text("utf-8")
        except (OSError, UnicodeDecodeError) as error:
            raise ThemeError(f"theme {self.name}, {file.name}: cannot be read ({_said(error)})") from error

    def client_page(
        self,
        piece: ClientPiece,
        *,
        fingerprint: str = "",
        files: tuple[tuple[str, str], ...] = (),
        largest: int = 0,
    ) -> str:
        """The care-and-provenance page.

        fingerprint  shown in the record. files: name and kind of those that lie beside the page. largest: show one
        copy of each picture, with a long edge of at most so many pixels; 0 offers every copy.
        """
        return self._page(
            "client.html",
            piece.language,
            piece.wood_colours,
            largest,
            piece=piece,
            fingerprint=fingerprint,
            files=files,
        )

    def log_page(self, log: BuildLog, client_page: str) -> str:
        """The build log; `client_page` is the address of the client's page as seen from it, empty for none."""
        model = {"log": log, "client_page": client_page}
        return self._page("log.html", log.language, log.wood_colours, 0, _LEDGER, **model)

    def shelf_page(self, work: PastWork) -> str:
        """The list of past work."""
        return self._page("shelf.html", work.language, work.wood_colours, 0, _LEDGER, work=work)

    def worksheet_page(self, sheet: Worksheet) -> str:
        """The private worksheet of an estimate."""
        return self._page("worksheet.html", sheet.language, sheet.wood_colours, 0, _LEDGER, sheet=sheet)

    def across_page(self, across: AcrossPage) -> str:
        """What was used where: by wood, finish, joinery, hardware or supplier."""
        return self._page("across.html", across.language, across.wood_colours, 0, _LEDGER, across=across)

    def years_page(self, years: YearsPage) -> str:
        """The figures of the shop by year."""
        return self._page("years.html", years.language, years.wood_colours, 0, _LEDGER, years=years)

    def sheet_page(self, sheet: ContactSheet) -> str:
        """The contact sheet, a page of the bench."""
        styles = (*_LEDGER, "sheet.css")
        return self._page("sheet.html", sheet.language, sheet.wood_colours, 0, styles, sheet=sheet)

    def letter_page(self, letter: ClientLetter) -> str:
        """The letter of an estimate."""
        return self._page(
            "letter.html", letter.language, letter.wood_colours, 0, _LETTER, letter=letter, voice=letter.voice
        )

    def _css(self, styles: tuple[str, ...]) -> Markup:
        """The style of a page: what every page has, its own, then what each theme sets against it."""
        own = [folder / _OWN_STYLE for folder in reversed(self.folders)]
        files = [*(self.file(style) for style in (*_EVERY_PAGE, *styles)), *(f for f in own if f.is_file())]
        return Markup("\n".join(self._text(file).strip() for file in files))

    def _page(
        self,
        template: str,
        language: str,
        wood: tuple[str, str],
        largest: int = 0,
        styles: tuple[str, ...] = _CLIENT,
        /,
        **model: object,
    ) -> str:
        words = Words(language, str(model.pop("voice", "I")))
        fresh, aged = wood
        try:
            return (
                templates_in(self.folders)
                .get_template(template)
                .render(
                    t=words.text,
                    has_words=words.has,
                    language=language,
                    css=self._css(styles),
                    sizes=self.sizes,
                    day=accent(aged, self.paper[0]),
                    night=accent(fresh, self.paper[1]),
                    paper=self.paper,
                    copies=partial(_copies, largest=largest),
                    small_copies=_small_copies,
                    prose=partial(_prose, quotes=words.text("figures.quotes")),
                    drawing=drawing,
                    css_text=_css_text,
                    **model,
                )
            )
        except ThemeError:
            raise
        except Exception as error:  # a template can raise whatever Python can
            if self.is_the_projects and not isinstance(error, TemplateError | KeyError):
                raise  # ours to mend, with its traceback
            raise ThemeError(f"theme {self.name}, {self._place(error, template)}: {_said(error)}") from error

    @property
    def is_the_projects(self) -> bool:
        """Whether no shop's own has a part in it."""
        return all(folder.parent == themes_folder().resolve() for folder in self.folders)

    def _place(self, error: Exception, template: str) -> str:
        """The file of the theme and the line in it where an error arose."""
        place, line = template, getattr(error, "lineno", None)
        if line is not None:
            place = getattr(error, "name", None) or template
        else:
            for frame in traceback.extract_tb(error.__traceback__):
                if any(Path(frame.filename).is_relative_to(folder) for folder in self.folders):
                    place, line = Path(frame.filename).name, frame.lineno
        return f"{place}, line {line}" if line else place


def _css_text(text: str) -> Markup:
    """A text in a string of a style sheet, what is no letter or figure as an escape (CSS Syntax, section 4.3.7)."""
    return Markup("".join(sign if sign.isalnum() or sign == " " else f"\\{ord(sign):x} " for sign in text))


def _copies(picture: Picture, *, largest: int) -> tuple[Copy, ...]:
    copies = copies_of(picture.digest, picture.width, picture.height)
    if not largest:
        return copies
    small = [copy for copy in copies if max(copy.width, copy.height) <= largest]
    return tuple(small[:1] or copies[-1:])


def _small_copies(picture: Picture) -> tuple[Copy, ...]:
    return small_copies_of(picture.digest, picture.width, picture.height)


def _prose(
    markdown: str,
    pictures: tuple[tuple[str, Picture], ...],
    figure: Callable[[Picture], str],
    shift: int = 1,
    *,
    quotes: str,
    ids: str = "",
) -> Markup:
    return prose(markdown, dict(pictures), figure, shift=shift, quotes=quotes, ids=ids)


def _said(error: Exception) -> str:
    """An error in one line; one that is not the template language's own with its kind, which alone may tell it."""
    text = " ".join(str(error).split())[:_MOST_SAID]
    return text if isinstance(error, TemplateError | KeyError) else f"{type(error).__name__}: {text}"


def themes_folder() -> Path:
    """Where the themes of the project are: inside an installed package, or at the top of a checkout."""
    inside = _PACKAGE / "themes"
    return inside if inside.is_dir() else _PACKAGE.parent / "themes"


def theme_names() -> list[str]:
    return sorted(folder.name for folder in themes_folder().iterdir() if (folder / "theme.toml").is_file())


def load_theme(name: str, beside: Sequence[Path] = ()) -> Theme:
    """A theme by its name, or a shop's own by its folder, looked for in each of `beside`. Raises `ThemeError`."""
    chain = [_facts(name, beside)]
    while after := chain[-1].after:
        if len(chain) > _LONGEST_CHAIN:
            raise ThemeError(f"theme {name}, theme.toml: after leads round in a circle")
        chain.append(_facts(after, beside))
    folders = tuple(facts.folder for facts in chain)
    missing = [file for file in _THEME_FILES if not any((folder / file).is_file() for folder in folders)]
    if missing:
        raise ThemeError(f"theme {name}: it lacks {listed(missing)}")
    try:
        sizes, look = look_of([facts.said for facts in chain], folders)
    except ValueError as error:
        raise ThemeError(f"theme {name}, theme.toml: {error}") from error
    names = tuple(dict.fromkeys((name, *(facts.after for facts in chain if facts.after))))
    return Theme(chain[0].name, folders, chain[0].paper, sizes, look, names)


@dataclass(frozen=True)
class _Facts:
    name: str
    folder: Path
    paper: tuple[str, str]
    after: str
    said: Mapping[str, Any]


def _facts(name: str, beside: Sequence[Path]) -> _Facts:
    """What a theme's own theme.toml says. Raises `ThemeError`."""
    if not is_plain(name):
        raise ThemeError(
            f"“{name}” is no name of a theme: it is that of a folder beside shop.toml, without a path"
        )
    places = [themes_folder() / name, *(folder / name for folder in beside)]
    folder = next((place for place in places if (place / "theme.toml").is_file()), None)
    if folder is None:
        raise ThemeError(f"there is no theme “{name}”; the project has {listed(theme_names())}")
    _stays_inside(name, folder)
    try:
        facts: Mapping[str, Any] = tomllib.loads((folder / "theme.toml").read_text("utf-8"))
        paper = (str(facts["paper"]["day"]), str(facts["paper"]["night"]))
        for ground in paper:
            accent("#808080", ground)
        after = str(facts.get("after", ""))
        return _Facts(str(facts.get("name", name)), folder.resolve(), paper, after, facts)
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError) as error:
        raise ThemeError(f"theme {name}, theme.toml: needs [paper] with day and night as #rrggbb") from error


def is_plain(name: str) -> bool:
    """Whether it is the name of one folder: no path leads elsewhere by it."""
    return (
        bool(name.strip()) and name[0] != "." and len(name) <= _LONGEST_NAME and not set(name) & set("/\\:\0")
    )


def _stays_inside(name: str, folder: Path) -> None:
    """A link in a theme's folder that leads out could bring any file of the machine into a page.

    Raises `ThemeError`.
    """
    whole = folder.resolve()
    for path in sorted(folder.rglob("*")):
        if path.is_symlink() and not path.resolve().is_relative_to(whole):
            inside = path.relative_to(folder).as_posix()
            raise ThemeError(f"theme {name}, {inside}: a link that leads out of its folder")


__all__ = [
    "Accent",
    "Theme",
    "ThemeError",
    "forget_templates",
    "is_plain",
    "load_theme",
    "theme_names",
    "themes_folder",
]
