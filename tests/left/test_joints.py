"""What is kept of a joint: how it was cut and what was learnt with it, and no line that merely shares a word."""

from datetime import date

from buildbook.job.log_model import Hours, LogEntry
from buildbook.job.model import Job
from buildbook.left.uses import used_of
from buildbook.summary import summarise

DAY = date(2026, 3, 2)
JOINERY = (Hours("joinery", 4.0),)


def said(joinery, *entries):
    """The lines of each joint, by its name."""
    job = Job(folder="a-job", joinery=joinery, entries=entries)
    return {use.name: [remark.text for remark in use.said] for use in used_of(job, summarise(job)).joinery}


def entry(body, title="", hours=JOINERY, day=DAY):
    return LogEntry(day, title, body, hours=hours)


def test_marks_go_with_the_joint_that_is_told_before_them():
    body = """Sliding dovetails for the divisions.

Setting: 14 mm cutter, one pass.

Mistake: cut from the wrong face.
Fix: let in a strip.

Joint: haunched tenon 30 x 8, haunch 12, Rail > Stile.

Setting: mortiser 8, chisel 34.5.
"""
    found = said(("sliding dovetail", "haunched mortise and tenon"), entry(body))
    assert found["sliding dovetail"] == [
        "Setting: 14 mm cutter, one pass.",
        "Mistake: cut from the wrong face.",
        "Fix: let in a strip.",
    ]
    assert found["haunched mortise and tenon"] == [
        "Joint: haunched tenon 30 x 8, haunch 12, Rail > Stile.",
        "Setting: mortiser 8, chisel 34.5.",
    ]


def test_a_sentence_that_shares_a_word_is_not_kept():
    glued = entry(
        "No glue in the last 100 of the dovetails. Setting: 18 °C.", hours=(Hours("assembly", 3.0),)
    )
    told = entry("Dovetails always take me a day. Four dovetails, 12 mm at the line.")
    assert said(("dovetail",), glued, told) == {"dovetail": ["Four dovetails, 12 mm at the line."]}


def test_what_is_told_to_the_client_is_not_how_it_was_cut():
    body = "Tenons 34 long.\n\n### For the client\n\nA tenon 34 mm long holds for a century.\n"
    assert said(("mortise and tenon",), entry(body)) == {"mortise and tenon": ["Tenons 34 long."]}


def test_a_joint_of_which_only_the_kind_is_told_is_that_which_the_job_states():
    found = said(("half-blind dovetail", "loose tenon"), entry("Four tails, 1 in 7. Tenons 9 x 40."))
    assert found == {"half-blind dovetail": ["Four tails, 1 in 7."], "loose tenon": ["Tenons 9 x 40."]}


def test_a_joint_that_no_table_knows_is_found_by_all_of_its_words():
    found = said(("frame and panel",), entry("The panel has 4 mm of room in its frame. Panel 9 mm thick."))
    assert found == {"frame and panel": ["The panel has 4 mm of room in its frame."]}


def test_german_notes_are_told_alike():
    body = (
        "Verbindung: Schlitz und Zapfen, 8 dick, Rahmen quer > Rahmen längs.\n\nEinstellung: Anschlag 16,2.\n"
    )
    found = said(("Schlitz und Zapfen", "Gratleiste"), entry(body, hours=()))
    assert found["Gratleiste"] == []
    assert [line.split(":")[0] for line in found["Schlitz und Zapfen"]] == ["Verbindung", "Einstellung"]


def test_each_line_leads_to_where_it_stands():
    second = entry("Joint: tenon 9 x 40.", hours=())
    job = Job(folder="a-job", joinery=("mortise and tenon",), entries=(entry("Tenons 34 long."), second))
    (use,) = used_of(job, summarise(job)).joinery
    assert [remark.at for remark in use.said] == ["day-2026-03-02-p1", "day-2026-03-02-2-joint-1"]
