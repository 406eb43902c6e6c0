"""A new job folder in the language of its shop."""

import re
from datetime import date

from buildbook.job import read_job
from buildbook.job.begin import begin


def test_a_german_shop_begins_in_german_and_what_is_laid_out_is_read(tmp_path):
    (tmp_path / "shop.toml").write_text('name = "W"\nlanguage = "de-AT"\ncountry = "AT"\n', "utf-8")
    folder = tmp_path / "2026-014-esstisch"
    begin(folder, date(2026, 3, 2))
    assert "Angaben zum Auftrag" in (folder / "job.toml").read_text("utf-8")
    with_row = (folder / "parts.csv").read_text("utf-8") + "Platte;1;;Eiche;900;80;20;;;;;;;;;;;;;;\n"
    (folder / "parts.csv").write_text(with_row, "utf-8")
    uncommented = re.sub(r"(?m)^# (?!quantity)(?=\w+ +=|\[)", "", (folder / "job.toml").read_text("utf-8"))
    (folder / "job.toml").write_text(re.sub(r"(?s)\[photos\].*?(?=\[\[)", "", uncommented), "utf-8")
    job = read_job(folder)
    assert [str(p) for p in job.problems if p.severity == "error"] == []
    assert (job.stands, job.parts[0].name) == ("floor", "Platte")
