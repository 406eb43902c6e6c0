"""A folder of a book is replaced whole or not at all, and files that are not ours are left alone."""

import shutil

import pytest

from buildbook.book.disk import swap, write
from tests.conftest import every_file


def lay(place, **files):
    with write.Staging(place, write.LIST) as staging:
        for name, content in files.items():
            staging.write(name, content)
        staging.finish()
        write.put_all(staging)


def test_a_folder_is_replaced_whole(tmp_path):
    place = tmp_path / "jobs" / "one"
    lay(place, a=b"1", b=b"2")
    lay(place, a=b"3")
    assert {k: v for k, v in every_file(place).items() if k != write.LIST} == {"a": b"3"}
    assert [p.name for p in (tmp_path / "jobs").iterdir()] == ["one"]


def test_what_the_list_names_is_what_is_there(tmp_path):
    lay(tmp_path / "one", a=b"1", b=b"2")
    listed = write.listed_files(tmp_path / "one", write.LIST)
    assert listed == {
        name: write.sha256(c) for name, c in every_file(tmp_path / "one").items() if name != write.LIST
    }


def test_files_that_are_not_ours_stay(tmp_path):
    place = tmp_path / "one"
    lay(place, a=b"1")
    (place / "letter.odt").write_bytes(b"theirs")
    (place / "sub").mkdir()
    (place / "sub" / "scan.png").write_bytes(b"theirs too")
    lay(place, a=b"2")
    found = every_file(place)
    assert (found["a"], found["letter.odt"], found["sub/scan.png"]) == (b"2", b"theirs", b"theirs too")


def test_nothing_of_ours_is_written_over_a_file_that_is_not(tmp_path):
    place = tmp_path / "one"
    lay(place, a=b"1")
    (place / "b").write_bytes(b"theirs")
    before = every_file(place)
    with pytest.raises(write.NotOurs) as raised:
        lay(place, a=b"2", b=b"ours")
    assert raised.value.path == place / "b"
    assert every_file(place) == before
    assert [p.name for p in tmp_path.iterdir()] == ["one"]


def test_a_folder_that_was_never_ours_is_not_taken(tmp_path):
    place = tmp_path / "one"
    place.mkdir()
    (place / "a").write_bytes(b"theirs")
    with pytest.raises(write.NotOurs):
        lay(place, a=b"ours")
    assert every_file(place) == {"a": b"theirs"}


@pytest.mark.parametrize("step", range(1, 16))
def test_whatever_step_fails_the_old_or_the_new_folder_is_there(tmp_path, monkeypatch, step):
    """The nth change of the disk fails: a reader still finds one whole edition."""
    place = tmp_path / "jobs" / "one"
    lay(place, a=b"old", b=b"old")
    old = every_file(place)
    calls = 0

    def failing(real):
        def run(*args, **kwargs):
            nonlocal calls
            calls += 1
            if calls == step:
                raise OSError(28, "No space left on device")
            return real(*args, **kwargs)

        return run

    monkeypatch.setattr(write, "_write_new", failing(write._write_new))
    monkeypatch.setattr(write.Staging, "_write_new", failing(write.Staging._write_new))
    monkeypatch.setattr(write, "sync", failing(write.sync))
    monkeypatch.setattr(swap, "put_in_place", failing(swap.put_in_place))
    monkeypatch.setattr(swap, "sync_folder", failing(swap.sync_folder))
    monkeypatch.setattr(shutil, "copyfile", failing(shutil.copyfile))
    (place / "theirs").write_bytes(b"theirs")
    fails = step <= 11
    if fails:
        with pytest.raises(OSError, match="No space"):
            lay(place, a=b"new", b=b"new")
    else:
        lay(place, a=b"new", b=b"new")
    found = every_file(place)
    assert found.pop("theirs") == b"theirs"
    if fails:
        assert found == old
    else:
        assert found["a"] == found["b"] == b"new"
    assert [p.name for p in place.parent.iterdir()] == ["one"]


def test_where_folders_cannot_be_exchanged_two_renames_do(tmp_path, monkeypatch):
    monkeypatch.setattr(swap, "_exchange", lambda one, other: False)
    place = tmp_path / "one"
    lay(place, a=b"1")
    lay(place, a=b"2")
    assert (place / "a").read_bytes() == b"2"
    assert [p.name for p in tmp_path.iterdir()] == ["one"]


def test_a_folder_set_aside_by_a_stopped_program_goes_back(tmp_path):
    lay(tmp_path / "one", a=b"1")
    (tmp_path / "one").rename(tmp_path / ".aside-one")
    swap.mend(tmp_path)
    assert (tmp_path / "one" / "a").read_bytes() == b"1"
    shutil.copytree(tmp_path / "one", tmp_path / ".aside-one")
    swap.mend(tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["one"]


def test_an_unchanged_file_is_kept_and_a_damaged_one_is_not(tmp_path):
    place = tmp_path / "one"
    lay(place, a=b"1", b=b"2")
    (place / "b").write_bytes(b"damaged")
    with write.Staging(place, write.LIST) as staging:
        assert staging.keep("a")
        assert not staging.keep("b")
        assert not staging.keep("never")
        staging.write("b", b"2")
        staging.finish()
        write.put_all(staging)
    assert (place / "a").read_bytes() == b"1"
    assert (place / "b").read_bytes() == b"2"


def test_where_the_second_list_cannot_be_written_the_old_folder_stays(tmp_path):
    place, second = tmp_path / "jobs" / "one", tmp_path / "own" / "one.json"

    def lay_twice(content):
        with write.Staging(place, write.LIST, second) as staging:
            staging.write("a", content)
            staging.finish()
            write.put_all(staging)

    lay_twice(b"1")
    assert second.read_bytes() == (place / write.LIST).read_bytes()
    before = every_file(place)
    second.unlink()
    second.mkdir()
    with pytest.raises(OSError, match="directory"):
        lay_twice(b"2")
    assert every_file(place) == before
    assert [p.name for p in place.parent.iterdir()] == ["one"]
