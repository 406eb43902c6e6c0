"""The sample job, bound as a stranger would: its figures, its pages, and the same bytes every time."""

import hashlib
import json
import locale
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from buildbook.book.bind import bind
from buildbook.care.happens import table
from buildbook.job import read_job
from tests.conftest import SAMPLE, every_file

CONTRACT = {
    "timber": {"species", "net_m3", "rough_bf", "buy_bf", "allowances"},
    "mass": {"wood_kg", "panels_kg", "glass_kg", "hardware_kg", "total_kg", "loaded_kg", "parts"},
    "carbon": {"stored_kg_co2", "species"},
    "hours": {"by_stage", "total_h"},
    "cost": {"by_kind", "materials", "labour", "total", "margin_pct"},
}
ROWS = {
    "movement": {"part", "species", "cut", "width_m", "made_mc_pct", "low_mc_pct", "high_mc_pct", "grows_m", "shrinks_m", "opening_m", "spare_m", "ok"},
    "finish": {"key", "family", "area_m2", "coats", "per_coat_l", "volume_l", "voc_kg", "last_coat", "light_use_from", "full_cure_from", "full_cure_to", "refresh"},
    "hardware": {"part", "qty", "spec", "kg"},
    "care": {"key", "text", "why", "audience", "severity", "source"},
    "worked": {"kind", "title", "inputs", "results"},
}  # fmt: skip


@pytest.fixture(scope="module")
def facts(bound_sample):
    return json.loads((bound_sample / "jobs" / "sample_job" / "summary.json").read_text("utf-8"))


def test_summary_json_keeps_its_contract(facts):
    assert list(facts)[:2] == ["schema", "job"]
    assert (facts["schema"], facts["job"]) == (1, "sample_job")
    for section, keys in CONTRACT.items():
        assert keys <= set(facts[section]), section
    for section, keys in ROWS.items():
        assert facts[section], section
        for row in facts[section]:
            assert keys <= set(row), section
    species = {"key", "name", "botanical", "parts", "net_m3", "rough_m3", "rough_bf", "buy_bf", "cost"}
    assert all(species <= set(row) for row in facts["timber"]["species"])
    assert {"part", "area_m2", "thickness_m", "kg", "kind"} <= set(facts["glass"]["panes"][0])
    assert set(facts["cost"]["materials"]) == {"amount", "currency"}


def test_the_sample_is_a_job_of_some_depth():
    job = read_job(SAMPLE)
    assert job.problems == ()
    assert len({p.key for p in job.parts if p.kind == "wood"}) >= 3
    assert len(job.parts) >= 24
    assert len(job.entries) >= 12
    assert {"panel", "glass", "stone", "hardware", "supply"} <= {p.kind for p in job.parts}
    assert sum(len(f.coats) for f in job.finishes) >= 4
    assert len(job.photos) >= 8
    assert any(photo.name.endswith(".heic") for photo in job.photos)
    assert all(photo.taken for photo in job.photos)
    assert sum(photo.path.stat().st_size for photo in job.photos) < 6_000_000


def test_figures_of_the_sample_by_hand(facts):
    """Sums done on paper from parts.csv."""
    walnut = next(w for w in facts["timber"]["species"] if w["key"] == "black-walnut")
    assert walnut["net_m3"] == pytest.approx(2 * 0.366 * 0.404 * 0.008 + 3 * 0.478 * 0.152 * 0.020)
    assert facts["glass"]["panes"][0]["kg"] == pytest.approx(0.500 * 0.350 * 6 * 2.5)
    assert facts["hours"]["total_h"] == pytest.approx(sum(s["hours_h"] for s in facts["hours"]["by_stage"]))
    assert facts["mass"]["total_kg"] == pytest.approx(sum(p["kg"] for p in facts["mass"]["parts"]))
    top = next(m for m in facts["movement"] if m["part"] == "Top")
    # European oak quarter-sawn, 0.0016 to 0.0018 per 1 % (two tables), the larger: 450 mm x 0.0018 x (12.0 - 9.5) %
    assert top["grows_m"] * 1000 == pytest.approx(450 * 0.0018 * (top["high_mc_pct"] - 9.5), rel=1e-5)
    assert top["ok"] is True


def test_the_page_says_what_to_do_whatever_happens(bound_sample):
    page = (bound_sample / "handover" / "sample_job" / "index.html").read_text("utf-8")
    section = re.search(r'<section id="happens".*?</section>', page, re.DOTALL)[0]
    events = re.findall(
        r'<details class="event" id="happens-(\w+)">\s*<summary><h3>([^<]+)</h3></summary>(.*?)</details>',
        section,
        re.DOTALL,
    )
    assert [event for event, _, _ in events] == list(table().events)
    assert len(events) == 10
    phone = '<a href="tel:01632960143">'
    for event, title, told in events:
        assert len(title.split()) <= 10
        assert told.count('class="first"') == told.count('class="never"') == told.count('class="call"') > 0
        assert (phone in told) is (event != "smoke")  # the insurer, the fire brigade
    assert "<details open" not in section


def test_every_file_of_the_handover_is_in_its_seal(bound_sample):
    folder = bound_sample / "handover" / "sample_job"
    seal = json.loads((folder / "seal.json").read_text("utf-8"))
    files = {name: hashlib.sha256(content).hexdigest() for name, content in every_file(folder).items()}
    files.pop("seal.json")
    assert seal["files"] == files


def test_binding_again_changes_no_byte(sample, tmp_path):
    book = tmp_path / "book"
    bind(sample, book)
    before = every_file(book)
    result = bind(sample, book)
    assert every_file(book) == before
    assert result.jobs[0].photos_made == 0


def test_two_folders_and_two_locales_give_the_same_bytes(sample, tmp_path, bound_sample):
    """Bound by a program of its own, under another locale, time zone and hash seed, from another place."""
    there = tmp_path / "elsewhere" / "book"
    there.parent.mkdir()
    env = {
        **os.environ,
        "LC_ALL": "de_DE.UTF-8",
        "LANG": "tr_TR.UTF-8",
        "TZ": "Pacific/Kiritimati",
        "PYTHONHASHSEED": "4711",
    }
    done = subprocess.run(
        [sys.executable, "-m", "buildbook", "bind", "sample_job", "--to", str(there)],
        cwd=sample.parent, env=env, capture_output=True, text=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert every_file(there) == every_file(bound_sample)
    assert locale.getlocale() is not None


def test_no_name_of_the_machine_gets_in(bound_sample, sample):
    names = {str(Path.home()), os.uname().nodename, str(bound_sample.parent), str(sample.parent)}
    needles = {name for name in names if len(name) > 5}  # two letters would be found in any compressed stream
    for name, content in every_file(bound_sample).items():
        for needle in needles:
            assert needle.encode() not in content, (name, needle)
