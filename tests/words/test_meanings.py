"""What keys, columns and tables mean, in each language that says it."""

import re

import pytest

from buildbook.cli import main
from buildbook.job.known import known_by_name, written_in_files
from buildbook.job.toml.key import READS
from buildbook.words import meanings

WRITTEN = written_in_files()
SAID = {
    *READS.values(),
    *(some.meaning for some in (*WRITTEN, *known_by_name())),
    *(one.meaning for some in WRITTEN for one in some.every),
} - {""}
ENGLISH = re.compile(r"\b(the|and|of|with|which|where|what|how|from|its|what|left out)\b", re.IGNORECASE)


@pytest.mark.parametrize("english", sorted(SAID))
def test_german_says_what_it_means(english):
    said = meanings("de")[english]
    assert not ENGLISH.search(re.sub(r"`[^`]*`|\[[^\]]*\]", "", said)), said


def test_german_says_nothing_that_is_no_longer_meant():
    assert set(meanings("de")) == SAID


def test_what_is_in_code_stays_as_it_is_written():
    """A key, or a value that is read in any language, in the same marks; words beside them may be German ones."""
    for english, said in meanings("de").items():
        keys = [
            code
            for code in re.findall(r"`([^`]+)`", english)
            if re.fullmatch(r"\[\[\w+\]\]|delivered|panel|supply|true|false|resaw|laminate|no|yes", code)
        ]
        assert [code for code in keys if f"`{code}`" not in said] == [], said


@pytest.mark.parametrize(
    "asked",
    [["keys"], ["keys", "wall"], ["keys", "Eiche"], ["keys", "resaw"], ["keys", "worked"], ["keys", "xqzx"]],
)
def test_the_command_tells_it_in_the_language_of_the_shop(tmp_path, monkeypatch, capsys, asked):
    (tmp_path / "shop.toml").write_text('language = "de"\n')
    monkeypatch.chdir(tmp_path)
    main(asked)
    said = re.sub(r"`[^`]*`|\"[^\"]*\"|\[[^\]]*\]", "", "".join(capsys.readouterr()))
    prose = [
        line for line in said.splitlines() if not re.match(r"\s+(?:auch|gilt dafür|zum Beispiel)\s", line)
    ]
    assert not re.search(r"\b(the|and|which|where|left out|believable|written|leaves)\b", "\n".join(prose))
