"""What was tried on purpose: each is told at its place and keeps the job out, or is bound and every file can be opened."""

import io
import json
from datetime import date

import pytest
from PIL import Image

from buildbook.book.estimate import estimate
from buildbook.book.past.search import find_in
from buildbook.problems import Problems, any_error
from tests.hostile import NOTES, PARTS, WHOLE, bound

FINISH = '\n[[finish]]\nkey = "body"\nfamily = "hardwax-oil"\ncoats = [2026-03-20]\n'
HEAD = "part,qty,material,length,width,thickness,stock,mass,price,per,opening,finish\n"
FAR = "9" * 49


def job(after="", **keys):
    """job.toml with some keys written otherwise."""
    lines = [line for line in WHOLE.strip().split("\n") if line.split(" = ")[0] not in keys]
    return "\n".join([*lines, *(f"{name} = {value}" for name, value in keys.items())]) + "\n" + FINISH + after


def worked(kind, **keys):
    return "\n[[worked]]\n" + "\n".join(
        f"{name} = {value}" for name, value in {"kind": f'"{kind}"', **keys}.items()
    )


def part(row):
    return {"job/parts.csv": f"{HEAD}{row}\n"}


def quoted(**facts):
    return {"job/estimate.json": json.dumps({"schema": 1, **facts})}


BREAKS = {
    "line feed": "\n", "both": "\r\n", "return": "\r", "tab": "\t", "next line": "\x85", "line separator": "\u2028",
    "paragraph separator": "\u2029", "an event": "\r\nEND:VEVENT\r\nBEGIN:VEVENT", "list marks": "a;b,c:d", "stroke": "\\n\\\\",
    "markup": "</script><script>alert(1)</script>", "end of data": "]]>", "turned round": "\u202e", "no width": "\u200b\ufeff",
    "beyond the plane": "😀", "joined": "e\u0301\u0301\u0301",
}  # fmt: skip
NO_SIGNS = {"nothing": "\0", "vertical tab": "\x0b", "form feed": "\x0c", "escape": "\x1b", "delete": "\x7f", "c1": "\x9f", "no character": "\uffff"}  # fmt: skip


def everywhere(sign):
    """A job that says a sign in all its words, and a shop too."""
    said = json.dumps(f"a{sign}b", ensure_ascii=True)
    for plane in ("\\ud83d\\ude00",):
        said = said.replace(plane, "\\U0001f600")
    one = ("title", "number", "piece", "client", "marks", "use", "description", "fitting", "adjusting")
    many = ("tags", "joinery", "features", "limits", "includes", "excludes", "stages")
    words = dict.fromkeys(one, said) | dict.fromkeys(many, f"[{said}]")
    return {
        "job/job.toml": job(**words).replace("coats", f"product = {said}\ncoats"),
        "shop.toml": "".join(f"{name} = {said}\n" for name in ("name", "maker", "address", "phone")),
    }


BOUND = {
    **{f"{name} in all words": everywhere(sign) for name, sign in BREAKS.items()},
    "the earliest days": {"job/job.toml": job(begun="1600-01-01", delivered="1600-01-01")},
    "the latest day": {"job/job.toml": job(delivered="2199-12-31")},
    "the longest times": {"job/job.toml": job('refresh_months = 1200\nfull_cure_days = 3650\nlight_use_days = "3650 days"', delivered="2199-12-31")},
    "a field of a hundred million holes": {"job/job.toml": job(worked("holes", rows=10000, columns=10000, spacing='"20 m"'))},
    "a hair of a strip": {"job/job.toml": job(worked("strips", width='"20 m"', strip='"0.1 mm"', kerf="0"))},
    "a million coats of a million": {"job/job.toml": job(worked("coat count", pieces=1000000, coats=1000, sides=6))},
    "the largest price": {"job/job.toml": job(price="10000000000")},
    "the largest part": part("Side,1000000,European oak,20 m,20 m,2 m,,5 t,10000000000,m3,20 m,body"),
    "the least part": part("Side,1,European oak,0.5 mm,0.5 mm,0.05 mm,,0.01 g,0,m3,0.5 mm,body"),
    "a note of all hours": {"job/notes.md": NOTES.replace("joinery 2", "joinery 20000")},
    "an estimate of surrogates": quoted(materials={"amount": 1, "currency": "\ud800\n\0"}),
    "a stage of surrogates": quoted(hours={"low_h": 1, "median_h": 2, "high_h": 3, "by_stage": [{"stage": "\ud800\0\u2028", "low_h": 0, "median_h": 0, "high_h": 0}]}),
    "an estimate of nothing much": quoted(price={"low": 1e-300, "median": 1, "high": 2, "currency": "EUR"}),
    "an estimate of 4,000 figures": {"job/estimate.json": '{"schema": 1, "hours": {"low_h": ' + "9" * 4000 + "}}"},
    "an estimate of 5,000 figures": {"job/estimate.json": '{"schema": ' + "9" * 5000 + "}"},
}  # fmt: skip

REFUSED = {
    **{f"{name} in a title": ({"job/job.toml": job(title=json.dumps(f"a{sign}b"))}, "title") for name, sign in NO_SIGNS.items()},
    "delivered in 9999": ({"job/job.toml": job(delivered="9999-12-31")}, "delivered"),
    "begun in the year 1": ({"job/job.toml": job(begun="0001-01-01")}, "begun"),
    "a coat in 9999": ({"job/job.toml": job().replace("[2026-03-20]", "[9999-12-31]")}, "finish[1].coats"),
    "a day with a time of day": ({"job/job.toml": job(begun="0001-01-01T00:00:00+23:59")}, "begun"),
    "a time for a day": ({"job/job.toml": job(begun="12:00:00")}, "begun"),
    "renewed beyond the calendar": ({"job/job.toml": job("refresh_months = 1000000")}, "finish[1].refresh_months"),
    "renewed beyond a C integer": ({"job/job.toml": job("refresh_months = 999999999999")}, "finish[1].refresh_months"),
    "cured beyond the calendar": ({"job/job.toml": job('full_cure_days = "900000 weeks"')}, "finish[1].full_cure_days"),
    "used beyond the calendar": ({"job/job.toml": job("light_use_days = 1e10")}, "finish[1].light_use_days"),
    "a spread of no area": ({"job/job.toml": job('spread = "0.0000000001 m2/l"')}, "finish[1].spread"),
    "a price of forty nines": ({"job/job.toml": job(price="9" * 40)}, "price"),
    "a price of 9,000 figures": ({"job/job.toml": job(price="0x" + "f" * 9000)}, "price"),
    "a number of 10,000 figures": ({"job/job.toml": job(price="9" * 10_000)}, ""),
    "a price below everything": ({"job/job.toml": job(price="-1e400")}, "price"),
    "doors below everything": ({"job/job.toml": job(doors="-1e400")}, "doors"),
    "joints that are no number": ({"job/job.toml": job(joints="nan")}, "joints"),
    "wider than the world": ({"job/job.toml": job(overall='{ width = "1000000000 m" }')}, "overall.width"),
    "colder than cold": ({"job/job.toml": job(climate='{ rh_low = 0, rh_high = 100, temperature = "-9999 C" }')}, "climate.temperature"),
    "holes without end": ({"job/job.toml": job(worked("holes", rows=10**12, columns=2, spacing='"1 mm"'))}, "worked[1].rows"),
    "a leaf of no thickness": ({"job/job.toml": job(worked("resaw", thickness='"8/4"', width="180", leaf='"0.0000001 mm"'))}, "worked[1].leaf"),
    "10^22 of a part": (part("Side," + "1" + "0" * 22 + ",European oak,700,400,19,,,,,,body"), "qty"),
    "a part of no thickness": (part("Side,1,European oak,700,400,0,,,,,,body"), "thickness"),
    "a part of forty-nine nines": (part(f"Side,1,European oak,700,400,19,,,{FAR},each,,body"), "price"),
    "less than nothing, none, and all": (part("Side,-1,European oak,-700,nan,inf,,-1 kg,-5,each,,body"), "width"),
    "a note in 9999": ({"job/notes.md": NOTES.replace("2026-03-02", "9999-12-31")}, ""),
    "a note in the year 1": ({"job/notes.md": NOTES.replace("2026-03-02", "0001-01-01")}, ""),
    "hours of an age": ({"job/notes.md": NOTES.replace("joinery 2", "joinery 1000000000")}, ""),
    "a bench that is never free": ({"shop.toml": "[estimate]\nbooked_until = 9999-12-31\nweek_hours = 1\n"}, "estimate.booked_until"),
    "an offer for ever": ({"shop.toml": "[estimate]\nvalid = 1e11\n"}, "estimate.valid"),
    "a step of nothing": ({"shop.toml": "[estimate]\nround_to = 1e-300\n"}, "estimate.round_to"),
    "a price list of forty-nine nines": ({"prices.csv": f"material,price,per,date\nEuropean oak,{FAR},m3,9999-12-31\n"}, "price"),
}  # fmt: skip


def shelf(tmp_path, files):
    whole = {
        "job/job.toml": job(), "job/parts.csv": PARTS, "job/notes.md": NOTES, "shop.toml": 'name = "Shop"\n',
        **files,
    }  # fmt: skip
    (tmp_path / "shelf" / "job").mkdir(parents=True)
    for name, text in whole.items():
        (tmp_path / "shelf" / name).write_bytes(text.encode("utf-8"))
    return tmp_path / "shelf"


def goes_on(folder, place):
    """The shelf answers and quotes, whatever its job is; on any day that there is."""
    problems = Problems()
    find_in(folder, "oak", None, problems)
    enquiry = place / "asked"
    enquiry.mkdir()
    (enquiry / "job.toml").write_text('title = "Shelf"\npiece = "shelf"\n')
    (enquiry / "parts.csv").write_text(PARTS.replace(",body", ",").replace(",finish", ",note"))
    for day in (date.min, date(2026, 5, 1), date.max):
        made = estimate(enquiry, folder, place / "estimate", day)
        assert not made.fault, made.fault
        problems.extend(made.problems)
    assert not [p for p in problems if "itself failed" in p.message]


@pytest.mark.parametrize("name", BOUND)
def test_it_is_bound_and_can_be_opened(name, tmp_path):
    folder = shelf(tmp_path, BOUND[name])
    result = bound(folder, tmp_path / "book")
    assert result.ok, [str(p) for j in result.jobs for p in j.problems]
    goes_on(folder, tmp_path)


@pytest.mark.parametrize("name", REFUSED)
def test_it_is_told_at_its_place(name, tmp_path):
    files, field = REFUSED[name]
    folder = shelf(tmp_path, files)
    result = bound(folder, tmp_path / "book")
    assert any_error(result.jobs[0].problems)
    assert [p for p in result.jobs[0].problems if p.severity == "error" and p.field == field and p.hint]
    goes_on(folder, tmp_path)


@pytest.mark.parametrize("taken", ["9999:12:31 23:59:59", "0001:01:01 00:00:00", "0000:00:00 00:00:00", "2026:13:45 99:99:99", "\0" * 19, "9" * 300])  # fmt: skip
def test_a_picture_of_no_day_is_shown_without_one(taken, tmp_path):
    folder = shelf(tmp_path, {})
    exif = Image.Exif()
    exif[0x0132], exif[0x0112], exif[0x010E] = taken, 99, "a\0b\r\n" + "c" * 1000
    out = io.BytesIO()
    Image.new("RGB", (300, 200), "#a07040").save(out, "JPEG", exif=exif)
    (folder / "job" / "photos").mkdir()
    (folder / "job" / "photos" / "a.jpg").write_bytes(out.getvalue())
    assert bound(folder, tmp_path / "book").ok


def test_the_titles_of_events_come_back_as_they_were_written(tmp_path):
    """Escaped once by the library: each reader gives back the maker's own words, on one line."""
    title = 'a;b,c:d\\e "f" \\n g'
    folder = shelf(tmp_path, {"job/job.toml": job(title=json.dumps(title + "\u2028h"))})
    assert bound(folder, tmp_path / "book").ok
    from tests.hostile import calendar

    content = next((tmp_path / "book").rglob("care.ics")).read_bytes()
    events = calendar(content)
    assert events
    assert all(str(event["summary"]).startswith(f"{title} h: ") for event in events)
