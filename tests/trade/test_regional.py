"""What differs between the EU and the US: each rule names what it is of, and its limit."""

from __future__ import annotations

import csv
from importlib import resources

import pytest

from buildbook.trade import tables
from buildbook.trade.regional import rule_said


def test_every_rule_is_of_sheets_or_kinds_of_coating_that_there_are() -> None:
    text = resources.files("buildbook.trade").joinpath("data/regional.csv").read_text("utf-8")
    known = {"formaldehyde": {sheet.key for sheet in tables.sheets()}, "voc": {"water-borne", "solvent"}}
    for row in csv.DictReader(line for line in text.splitlines() if not line.startswith("# ")):
        assert set(row["of"].split("; ")) <= known[row["subject"]]


@pytest.mark.parametrize(
    ("subject", "of", "region", "limit"),
    [  # Regulation (EU) 2023/1464; 40 CFR 770.10; Directive 2004/42/EC annex II, second stage
        ("formaldehyde", "mdf", "eu", "0.062 mg/m³"),
        ("formaldehyde", "birch-plywood", "us", "0.05 ppm"),
        ("formaldehyde", "particleboard", "us", "0.09 ppm"),
        ("formaldehyde", "mdf", "us", "0.11 ppm"),
        ("voc", "water-borne", "eu", "130 g/l"),
        ("voc", "solvent", "eu", "300 to 500 g/l"),
    ],
)
def test_the_limits_are_those_of_the_rules(subject: str, of: str, region: str, limit: str) -> None:
    assert limit in rule_said(subject, of, region)
