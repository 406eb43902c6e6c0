"""job.toml and shop.toml as makers write them: days, money and per cents without their quotes."""

from datetime import date
from decimal import Decimal

import pytest

from buildbook.job.toml.job_toml import read_job_toml
from buildbook.job.toml.shop_toml import read_shop_toml
from buildbook.problems import Problems


def read(text, **also):
    problems = Problems()
    stated = read_job_toml(text.encode(), "mm", problems, **also)
    return stated.fields, [str(problem) for problem in problems.ordered()]


@pytest.mark.parametrize(
    ("line", "key", "value", "comma"),
    [
        ("begun = 07.09.2026", "begun", date(2026, 9, 7), True),
        ("begun = 7.9.26   # Montag", "begun", date(2026, 9, 7), True),
        ("delivered = 13/10/2026", "delivered", date(2026, 10, 13), False),
        ("delivered = 10/13/2026", "delivered", date(2026, 10, 13), False),
        ("price = £1150", "price", Decimal(1150), False),
        ("price = $4,800", "price", Decimal(4800), False),
        ("price = 1.890", "price", Decimal(1890), True),
        ("price = 1.890,50 €", "price", Decimal("1890.50"), True),
    ],
)
def test_a_figure_needs_no_quotes(line, key, value, comma):
    fields, told = read(f'title = "A"\n{line}\n', decimal_comma=comma)
    assert told == []
    assert fields[key] == value


def test_figures_in_tables_and_lists_need_none_either():
    fields, told = read(
        'made_at = { moisture = 9 %}\n[[finish]]\nkey = "a"\nfamily = "hardwax oil"\ncoats = [15.9.2026, 16.9.2026]\n'
    )
    assert told == []
    assert fields["made_at"].moisture_pct == 9
    assert fields["finishes"][0].coats == (date(2026, 9, 15), date(2026, 9, 16))


def test_a_meter_reads_each_board_otherwise():
    assert read('made_at = { moisture = "7-8%" }')[0]["made_at"].moisture_pct == 7.5


def test_an_hour_of_a_german_shop_has_a_comma():
    problems = Problems()
    shop = read_shop_toml(b'language = "de"\nhour_rate = 58,50\n', problems)
    assert (shop.hour_rate, list(problems)) == (Decimal("58.50"), [])


def test_all_that_cannot_be_read_is_told_at_once():
    _, told = read("title = Bench\npiece = bench\nbegun = 2026-02-31\n")
    assert [line.split(":")[0] for line in told] == [
        "job.toml, line 1",
        "job.toml, line 2",
        "job.toml, line 3",
    ]


def test_a_day_that_may_be_two_is_still_asked_about():
    assert "which is the month" in read("begun = 03/04/2026\n")[1][0]


def test_what_stands_in_quotes_stays_as_it_is():
    fields, _ = read('title = "7.9.2026, £5"\nbegun = 7.9.2026\n')
    assert fields["title"] == "7.9.2026, £5"


def test_the_sizes_of_a_gate_have_names_of_their_own():
    size = read('overall = { length = "900", thickness = "50", height = "1780" }')[0]["overall"]
    assert (size.width.m, size.depth.m, size.height.m) == (0.9, 0.05, 1.78)
