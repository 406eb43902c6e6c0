"""The six pieces are jobs as makers keep them: with pictures for the client, and a telephone to call."""

import pytest
from PIL import Image

from buildbook.book.bind_job import pages_of
from buildbook.job import read_job
from tests.conftest import ROOT
from tests.owner.questions import pieces

LARGEST_BYTES = 40_000
DRAWN = sorted((ROOT / "tests" / "jobs").glob("*/*/photos/*.jpg"))


@pytest.mark.parametrize("piece", pieces(), ids=lambda piece: piece.key)
def test_each_has_a_lead_captioned_pictures_and_a_telephone(piece):
    page, *_ = pages_of(read_job(ROOT / piece.folder))
    shown = page.pictures()
    assert page.lead
    assert len(shown) >= 3
    assert len([picture for picture in shown if picture.caption]) >= 2
    assert page.contact.phone


def test_drawn_pictures_are_small_and_no_two_alike():
    assert len(DRAWN) >= 15
    assert [path.name for path in DRAWN if path.stat().st_size > LARGEST_BYTES] == []
    assert len({Image.open(path).tobytes() for path in DRAWN}) == len(DRAWN)
