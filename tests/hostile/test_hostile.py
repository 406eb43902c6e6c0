"""No job of anyone's takes longer than 30 s or more than 1 GB, none brings a fault, and what is cut or refused is told.

The jobs are made by rule (`attacks`, `pictures`) and tried by a program of its own (`trial`), each in its own process.
"""

import json
import subprocess
import sys

import pytest

from tests.conftest import ROOT
from tests.hostile.trial import ATTACKS, DAILY


@pytest.fixture(scope="module")
def trials():
    command = [sys.executable, "-m", "tests.hostile.trial", "--json"]
    made = subprocess.run(command, cwd=ROOT, capture_output=True, check=True)
    return {trial["name"]: trial for trial in json.loads(made.stdout)}


@pytest.mark.parametrize("name", [attack.name for attack in DAILY])
def test_a_hostile_job_stays_within_its_budget(trials, name):
    assert trials[name]["fault"] == ""


def test_there_are_hundreds_of_them_and_no_two_are_one():
    assert len({attack.name for attack in ATTACKS}) == len(ATTACKS) >= 400
    assert len(DAILY) >= 200
