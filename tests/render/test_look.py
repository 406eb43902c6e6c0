"""The contract between pages and themes: tokens are there, are used, and what a theme says wrongly is said."""

import re

import pypdf
import pytest

from buildbook.render.html.theme import ThemeError, load_theme, theme_names, themes_folder
from buildbook.render.print.typeset import TypesetError, typeset

PLAIN = themes_folder() / "plain"
OF_THE_PAGE = {"--paper", "--accent", "--rule", "--wood"}  # set by _head.html
OF_AN_ELEMENT = {"--w", "--h", "--at", "--jobs"}  # set by mark-up, of this picture or that year
DECLARED = re.compile(r"(?<![\w-])(--[\w-]+)\s*:")
USED = re.compile(r"var\((--[\w-]+)")


def text_of(*files):
    return "\n".join(re.sub(r"/\*.*?\*/", "", file.read_text("utf-8"), flags=re.S) for file in files)


def test_every_token_is_in_the_contract_and_every_one_there_has_an_effect():
    sheets = text_of(*PLAIN.glob("*.css"))
    declared = set(DECLARED.findall(sheets)) | OF_THE_PAGE | OF_AN_ELEMENT
    used = set(USED.findall(sheets))
    assert used - declared == set()
    contract = set(DECLARED.findall(text_of(PLAIN / "tokens.css")))
    assert contract - used == set()
    assert len(contract) > 25


@pytest.mark.parametrize("name", sorted(set(theme_names()) - {"plain"}))
def test_a_theme_sets_no_token_that_nothing_uses(name):
    own = text_of(themes_folder() / name / "style.css")
    used = set(USED.findall(own + text_of(*PLAIN.glob("*.css"))))
    assert set(DECLARED.findall(own)) - used == set()


@pytest.mark.parametrize("name", theme_names())
def test_every_rule_of_a_style_sheet_is_in_a_layer(name):
    """What is in none would beat the print: a page read in the evening would be printed in its colours."""
    for file in (themes_folder() / name).glob("*.css"):
        depth, outside = 0, []
        for sign in re.sub(r"@layer [\w, ]+;", "", text_of(file)):
            outside.append(sign if depth == 0 else "")
            depth += (sign == "{") - (sign == "}")
        assert set("".join(outside).split()) <= {
            "@layer",
            "sections",
            "base",
            "tokens",
            "theme",
            "print",
            "{",
        }, file


def own_theme(tmp_path, toml="", **files):
    folder = tmp_path / "ours"
    folder.mkdir(exist_ok=True)
    paper = '[paper]\nday = "#ffffff"\nnight = "#101010"\n'
    (folder / "theme.toml").write_text(f'after = "plain"\n{toml}{paper}')
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)
    return load_theme("ours", [tmp_path])


@pytest.mark.parametrize(
    ("toml", "said"),
    [
        ('[print]\nface = "X"\n', "[print] has no “face”; it has "),
        ('[print]\nink = "black"\n', "print.ink: “black” is no colour"),
        ('[print]\nfigures = "small"\n', "print.figures: “small” is none of old-style"),
        ('[print]\nline_pt = "thin"\n', "print.line_pt: “thin” is not of the kind of “0.5”"),
        ("[print.booklet]\ntext_pt = -3\n", "print.booklet.text_pt: “-3.0” is no size"),
        ("[print]\nlabel_caps = 1\n", "print.label_caps: “1” is not of the kind of “False”"),
        ("[sizes]\nlarge = 3\n", "[sizes] has no “large”"),
        ('print = "no"\n', "[print] has to be a table"),
    ],
)
def test_a_token_that_would_have_no_effect_is_said(tmp_path, toml, said):
    with pytest.raises(ThemeError, match=re.escape(said)):
        own_theme(tmp_path, toml)


def test_what_a_theme_does_not_say_of_print_it_takes_from_the_one_before(tmp_path):
    look = own_theme(tmp_path, "[print]\nrule_pt = 2\n[print.card]\ntitle_pt = [20, 10]\n").look
    plain = load_theme("plain").look
    assert (look.tokens["rule_pt"], look.tokens["card"]["title_pt"]) == (2.0, [20.0, 10.0])
    assert look.tokens["card"]["alone_pt"] == plain.tokens["card"]["alone_pt"]
    assert look.tokens["booklet"] == plain.tokens["booklet"]


def test_prints_are_set_in_the_faces_of_their_theme(tmp_path):
    """Each theme's own card, booklet and letter: no face of another theme is in them."""
    template = tmp_path / "t.typ"
    template.write_text(
        '#let d = json("data.json")\n#set document(title: "t", date: datetime(year: 2026, month: 1, day: 1))\n'
        "#set text(font: d.look.reading, lang: d.language)\n#text(d.words)\n"
    )
    fonts = {}
    for name in theme_names():
        look = load_theme(name).look
        made = typeset(template, {"language": "en", "words": "Oak"}, {}, None, look)
        (tmp_path / f"{name}.pdf").write_bytes(made.pdf)
        (page,) = pypdf.PdfReader(tmp_path / f"{name}.pdf").pages
        fonts[name] = {str(font["/BaseFont"]) for font in page["/Resources"]["/Font"].values()}
    assert all("Libertinus" in font for name in ("plain", "oilstone") for font in fonts[name])
    assert all("Barlow" in font for font in fonts["sawbench"])


def test_a_face_that_is_not_there_is_said(tmp_path):
    look = own_theme(tmp_path, '[print]\nreading = "No Such Face"\n').look
    with pytest.raises(TypesetError, match=r"there is no face “No Such Face”; there are .*Libertinus"):
        typeset(PLAIN / "card.typ", {}, {}, None, look)


def test_one_section_is_replaced_by_its_file_and_a_page_by_a_block(tmp_path, make_job):
    from buildbook.book.bind_job import pages_of
    from buildbook.job import read_job

    job = make_job("box", **{"job.toml": 'title = "A box"\nnumber = "7"\n'})
    piece = pages_of(read_job(job))[0]
    theme = own_theme(
        tmp_path,
        **{
            "client.html": '{% extends "plain/client.html" %}\n{% block foot %}<p>ours</p>{% endblock %}\n',
            "client/more.html": '<section id="more">Ours: {{ piece.number }}</section>\n',
        },
    )
    page = theme.client_page(piece)
    assert "Ours: 7" in page
    assert "<p>ours</p>" in page
    assert 'class="colophon"' not in page
    assert "<h1" in page
