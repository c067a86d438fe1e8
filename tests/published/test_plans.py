"""Published plans, read from a job file and set out, must come to their own printed sizes.

Sources: the address in each entry of data/plans.toml. Only sizes that follow wholly from stated inputs are asked.
"""

import tomllib
from pathlib import Path

import pytest

from rodwork.job.reader import read_job
from rodwork.joints.registry import families
from tests.building import rod_of

PLANS = tomllib.loads((Path(__file__).parent / "data" / "plans.toml").read_text(encoding="utf-8"))["plan"]


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan["id"])
def test_plan_comes_to_its_printed_sizes(plan):
    text = f'[job]\nname = "{plan["id"]}"\nunits = "{plan["units"]}"\n{plan["job"]}'
    job, _ = read_job(text, plan["id"], families())
    cabinet = rod_of(job).cabinets[0]
    unit = 25.4 if plan["units"] == "in" else 1.0
    for wanted in plan["expect"]:
        if "opening" in wanted:
            opening = cabinet.asked.openings[wanted["opening"] - 1]
            assert opening.comes_to == pytest.approx(wanted["height"] * unit, abs=1e-3)
            assert opening.width == pytest.approx(wanted["width"] * unit, abs=1e-3)
            continue
        length, width, _ = cabinet.part[wanted["part"]].size
        if "length" in wanted:
            assert length == pytest.approx(wanted["length"] * unit, abs=1e-3)
        if "width" in wanted:
            assert width == pytest.approx(wanted["width"] * unit, abs=1e-3)
