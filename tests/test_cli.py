"""The command line as a person uses it: words, exit codes, streams."""

import json
import re
import subprocess
import sys
import tomllib
from datetime import date

import pytest

from buildbook.cli import main
from buildbook.job.begin import begin
from tests.conftest import every_file, noise

GOOD = 'title = "A box"\nunits = "mm"\n'
NOTES = "## 2026-01-05 Begun\n\nHours: design 1\n"


def run(*arguments, cwd=None):
    """The program as a process of its own: exit code, standard output, standard error."""
    done = subprocess.run(
        [sys.executable, "-m", "buildbook", *map(str, arguments)],
        cwd=cwd,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    return done.returncode, done.stdout, done.stderr


def test_a_good_job_binds_with_code_0(make_job, tmp_path, capsys):
    folder = make_job("2026-001-box", **{"job.toml": GOOD, "notes.md": NOTES})
    assert main(["bind", str(folder), "--to", str(tmp_path / "book")]) == 0
    out, _ = capsys.readouterr()
    assert "2026-001-box: bound" in out
    assert (tmp_path / "book" / "handover" / "2026-001-box" / "index.html").is_file()


def test_a_job_that_is_passed_over_says_so_and_one_that_is_not_says_why(make_job, tmp_path, capsys):
    folder = make_job("one", **{"job.toml": GOOD, "notes.md": NOTES})
    make_job("two", **{"job.toml": GOOD, "notes.md": NOTES})
    arguments = ["bind", str(folder.parent), "--to", str(tmp_path / "book"), "--why"]
    assert main(arguments) == 0
    warnings = capsys.readouterr().err
    (folder / "notes.md").write_text(NOTES + "More.\n")
    assert main(arguments) == 0
    out, err = capsys.readouterr()
    lines = out.splitlines()
    assert lines[0].startswith("one: bound, ")
    assert lines[1] == "  because: notes.md changed"
    assert lines[-1].startswith("two: unchanged, ")
    assert err == warnings
    assert main([*arguments, "--json"]) == 0
    jobs = json.loads(capsys.readouterr().out)["jobs"]
    assert [(job["redone"], job["why"]) for job in jobs] == [(False, []), (False, [])]
    assert main([*arguments, "--json", "--again"]) == 0
    jobs = json.loads(capsys.readouterr().out)["jobs"]
    assert [(job["redone"], job["why"]) for job in jobs] == [(True, ["asked to"]), (True, ["asked to"])]


def test_quiet_says_only_what_is_wrong(make_job, tmp_path, capsys):
    folder = make_job("one", **{"job.toml": GOOD, "notes.md": NOTES})
    assert main(["bind", str(folder), "--to", str(tmp_path / "book"), "--quiet"]) == 0
    out, err = capsys.readouterr()
    assert out == ""
    heading, *lines = err.splitlines()
    assert heading.startswith("one: ")
    assert lines
    assert all(line.startswith("  warning: ") for line in lines)


def test_a_bad_job_says_where_and_what_and_gives_code_1(make_job, tmp_path, capsys):
    folder = make_job(
        **{
            "job.toml": GOOD,
            "notes.md": NOTES,
            "parts.csv": "part,material,length,width,thickness\nTop,oak,600,300,8-Mar\n",
        }
    )
    assert main(["bind", str(folder), "--to", str(tmp_path / "book")]) == 1
    out, err = capsys.readouterr()
    assert (
        "error: parts.csv, row 2, thickness: “8-Mar” is a date. A spreadsheet probably turned 3/8 into it:"
        " write 3/8 in, or format the column as text." in err
    )
    assert out == ""
    assert not (tmp_path / "book" / "jobs").exists() or not any((tmp_path / "book" / "jobs").iterdir())


@pytest.mark.parametrize(
    "arguments", [["bind"], ["frame", "x"], ["bind", "x", "--sideways"], ["bench", "x", "--port", "y"]]
)
def test_a_wrong_command_line_gives_code_2(arguments, capsys):
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert "usage: buildbook" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["bind", "proof", "bench"])
def test_a_folder_that_is_not_there_gives_code_1_and_no_traceback(command, tmp_path):
    code, _, err = run(command, tmp_path / "nowhere", cwd=tmp_path)
    assert code == 1
    assert "nowhere" in err
    assert "Traceback" not in err


def test_proof_writes_nothing_and_tells_what_the_record_lacks(make_job, capsys):
    folder = make_job(**{"job.toml": GOOD, "notes.md": NOTES})
    before = every_file(folder)
    assert main(["proof", str(folder)]) == 0
    out, err = capsys.readouterr()
    assert every_file(folder) == before
    assert "parts.csv" in err
    first, *lines = out.splitlines()
    assert re.fullmatch(r"a-job: \d+ of \d+ things that a handover needs are there. Still missing:", first)
    assert lines[0].startswith("  no material that the client may see: the page will not say what")
    for wanted in ("Object ID", "product safety law", "the furniture standards’ information for use"):
        assert any(wanted in line for line in lines)
    assert "Object ID" not in err


def test_proof_finds_a_truncated_picture(make_job, capsys):
    photo = noise(1)
    folder = make_job(**{"job.toml": GOOD, "notes.md": NOTES, "photos/half.jpg": photo[: len(photo) // 2]})
    assert main(["proof", str(folder)]) == 0
    assert "photos/half.jpg" in capsys.readouterr().err


def test_json_is_json_and_nothing_else_on_standard_output(make_job, tmp_path):
    folder = make_job(**{"job.toml": GOOD + "colour = 1\n", "notes.md": NOTES})
    code, out, err = run("proof", folder, "--json")
    assert code == 1
    job = json.loads(out)[0]
    assert job["job"] == "a-job"
    assert job["there"] + len(job["missing"]) == job["of"]
    assert {"key", "file", "field", "missing", "without", "asked_by", "text"} == set(job["missing"][0])
    assert {"severity", "file", "row", "line", "field", "message", "hint", "text"} <= set(job["problems"][0])
    assert "colour" in err
    code, out, _ = run("bind", folder, "--to", tmp_path / "book", "--json")
    assert (code, json.loads(out)["jobs"][0]["bound"]) == (1, False)


def test_begin_lays_out_a_job_that_proofs_without_errors(tmp_path, capsys):
    folder = tmp_path / "2026-014-record-cabinet"
    assert main(["begin", str(folder)]) == 0
    facts = tomllib.loads((folder / "job.toml").read_text("utf-8"))
    assert (facts["number"], facts["title"], facts["begun"]) == ("2026-014", "Record cabinet", date.today())
    assert main(["proof", str(folder)]) == 0
    assert "error" not in capsys.readouterr().err.replace("0 error", "")


@pytest.mark.parametrize("name", ['a"b', "a\\b", "jalapeño Ünder", "2026-1-x$y", "☃"])
def test_begin_takes_any_name(tmp_path, name):
    begin(tmp_path / name)
    assert tomllib.loads((tmp_path / name / "job.toml").read_text("utf-8"))["title"]


def test_begin_never_touches_what_is_there(make_job, capsys):
    folder = make_job(**{"job.toml": GOOD})
    before = every_file(folder)
    assert main(["begin", str(folder)]) == 1
    assert "there already" in capsys.readouterr().err
    assert every_file(folder) == before


def test_the_version_is_told(capsys):
    with pytest.raises(SystemExit) as ended:
        main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out.startswith("buildbook ")


def test_keys_loads_nothing_that_binds_or_prints():
    """It is asked in the middle of writing: half a second of typesetting and pictures is not its business."""
    code = "import sys; from buildbook.cli import main; main(['keys', 'oak']); print(*sys.modules, file=sys.stderr)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, encoding="utf-8", check=True)
    loaded = set(done.stderr.split())
    assert "White oak" in done.stdout
    assert not loaded & {
        "typst",
        "jinja2",
        "h11",
        "watchdog",
        "rich",
        "icalendar",
        "buildbook.book.bind",
        "buildbook.care",
    }


def test_keys_as_json(capsys):
    assert main(["keys", "hardwax", "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert "Hartwachsöl" in facts["found"][0]["also"]
    assert main(["keys", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)[0]["heading"] == "job.toml"


def test_a_reader_that_has_seen_enough_is_no_fault():
    with subprocess.Popen(
        [sys.executable, "-m", "buildbook", "keys"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as program:
        program.stdout.read(1)
        program.stdout.close()
        assert b"Traceback" not in program.stderr.read()
