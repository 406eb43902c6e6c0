"""When a save is taken for whole: by times that are given, so that a slow machine changes nothing."""

import pytest

from buildbook.bench.saves import CLOSED_S, FEW, LONGEST_WAIT_S, QUICK_S, QUIET_S, Saved

LONG_AGO = -100.0
NOW = 1_000.0


def begins(events, told=LONG_AGO):
    """When bindings begin, for saves at these times: (seconds, path, whether who wrote it is done)."""
    begun, saved = [], None
    for at, path, is_done in events:
        if saved and (ripe := saved.is_ripe_at(told)) <= at:
            begun.append(ripe)
            saved, told = None, ripe
        saved = saved or Saved(at, at)
        saved.add(at, [path], is_done=is_done)
    return [*begun, saved.is_ripe_at(told)]


@pytest.fixture
def path(tmp_path):
    """Makes a file of a job."""

    def made(name, text="words"):
        (tmp_path / name).write_text(text)
        return str(tmp_path / name)

    return made


def test_a_note_is_bound_as_soon_as_its_writer_is_done(path):
    note = path("notes.md")
    assert begins([(NOW, note, False), (NOW + 0.002, note, True)]) == [NOW + 0.002 + CLOSED_S]


def test_one_that_nobody_says_is_done_is_waited_for_longer(path):
    assert begins([(NOW, path("notes.md"), False)]) == [NOW + QUICK_S]


def test_what_a_burst_goes_on_with_is_bound_once(path):
    """Ten saves of a program that writes again and again: the first is shown, then all that came of it."""
    note, apart = path("notes.md"), CLOSED_S * 2
    times = [NOW + apart * number for number in range(10)]
    assert begins([(at, note, True) for at in times]) == [NOW + CLOSED_S, pytest.approx(times[-1] + QUIET_S)]


def test_steps_of_one_save_are_one(path):
    """Several files saved together, an editor's copy that goes again."""
    names = [path("notes.md"), path("job.toml"), path("parts.csv")]
    steps = [(NOW + 0.003 * number, name, True) for number, name in enumerate(names)]
    assert begins(steps) == [steps[-1][0] + CLOSED_S]


@pytest.mark.parametrize("name", ["IMG_1.jpg", "notes.md~"])
def test_a_picture_or_a_copy_that_still_lies_there_is_waited_for(path, name):
    assert begins([(NOW, path("notes.md"), True), (NOW, path(name), True)]) == [NOW + QUIET_S]


def test_an_empty_text_is_being_written_still(path):
    assert begins([(NOW, path("notes.md", ""), True)]) == [NOW + QUIET_S]


def test_many_files_are_a_flood(path):
    names = [path(f"note {number}.md") for number in range(FEW + 1)]
    assert begins([(NOW, name, True) for name in names]) == [NOW + QUIET_S]


def test_a_flood_without_end_is_bound_now_and_then(path):
    name, apart = path("IMG_1.jpg"), QUIET_S / 2
    saves = [(NOW + apart * number, name, True) for number in range(20)]
    first, *_ = begins(saves)
    assert first == NOW + LONGEST_WAIT_S
