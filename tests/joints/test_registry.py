"""The folder kinds/ is the list of the families: each has its test and its page, and a new one is only a file there."""

import shutil
import sys
from pathlib import Path

import pytest

from rodwork.joints import kinds, registry
from rodwork.joints.registry import back_recipe, families, joint_kinds
from tests.building import PLACE, back

ROOT = Path(__file__).parents[2]
MODULES = sorted(p.stem for p in (ROOT / "src/rodwork/joints/kinds").glob("*.py") if p.stem != "__init__")

PEG = '''"""Square pegs: a family made up for a test."""

from dataclasses import dataclass

from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.model.feature import Bore
from rodwork.model.fixing import Item, Play
from rodwork.model.nature import Nature
from rodwork.model.settings import length
from rodwork.model.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of pegs."""

    first_mm: float = length(50.0, 5, 500, "front edge to the peg")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """One peg."""
    def bore(board, suffix, into):
        cut = Bore(id=suffix, role="seat", at=(s.first_mm, 9.0, 0.0), into=into, along=ALONG, depth=10.0, diameter=6.0)
        return Void(board=board, cut=cut, tool="drill and fence", cutter="6 mm")
    return (FixingPlan(u=s.first_mm, v=9.0, length=20.0, law="meet", duty="both", host=bore("host", "h", INTO_HOST),
                       guest=bore("guest", "g", INTO_GUEST), hardware=(Item(item="peg", count=1),),
                       play=Play(along=0.0, across=0.0, shape="round"), moves=straight_in(10.0)),)


NATURE = Nature(
    machines=("drill and fence",), registers_on="its end", support="the end", board_mm=(12.0, 30.0), glue="needed",
    clamps="needed", draws_up=False, at_once=False, apart=False, shows="", covered_by="", demands_along_mm=0.2,
    demands_across_mm=0.2,
)
KIND = JointKind(name="peg", title="Pegs", settings=Settings, plan=plan, glued=True, nature=NATURE, places=("corner",))
'''

JOB = """
[job]
name = "A box for the kiln room"

[boards.ply18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]

[joints.pegs]
use = [{ family = "peg", first = 60 }]

[cabinets.box]
width = 500
height = 500
depth = 300
board = "ply18"
joint = "pegs"
"""


@pytest.mark.parametrize("module", MODULES)
def test_every_family_has_a_test_file_and_a_page_of_its_name(module):
    assert (ROOT / f"tests/joints/test_{module}.py").exists()
    assert (ROOT / f"docs/joints/{module}.md").exists()


@pytest.mark.parametrize("module", MODULES)
def test_a_family_is_named_after_its_file(module):
    assert [k.name for k in joint_kinds().values() if k.file_name == module]


def test_there_is_no_page_of_a_family_that_is_not_there():
    assert sorted(p.stem for p in (ROOT / "docs/joints").glob("*.md") if p.stem != "index") == MODULES


def test_the_settings_of_a_family_say_what_they_are_and_agree_with_their_own_limits():
    """Every default must be something that a job file may say too."""
    from dataclasses import fields

    for name, settings in families().items():
        for f in fields(settings):
            said, default = f.metadata, f.default
            assert said["about"], (name, f.name)
            if "low" in said and default is not None:
                assert said["low"] <= default <= said["high"], (name, f.name)
            if "options" in said:
                assert default in said["options"], (name, f.name)


def test_every_style_of_back_is_served_by_a_family_that_can_stand_there():
    from typing import get_args

    from rodwork.model.job import BackStyle

    for style in get_args(BackStyle):
        (use,) = back_recipe(back(style), PLACE).uses
        assert style in joint_kinds()[use.family].backs


@pytest.fixture
def kinds_folder(tmp_path, monkeypatch):
    """A copy of the folder of kinds, which the registry looks into instead."""
    joint_kinds()  # the real ones are imported from where they are, not from the copy
    copy = tmp_path / "kinds"
    shutil.copytree(kinds.__path__[0], copy, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(kinds, "__path__", [str(copy)])
    for cached in (registry.joint_kinds, registry.families):
        cached.cache_clear()
    yield copy
    monkeypatch.undo()
    sys.modules.pop("rodwork.joints.kinds.peg", None)
    if hasattr(kinds, "peg"):
        del kinds.peg
    for cached in (registry.joint_kinds, registry.families):
        cached.cache_clear()


def test_a_file_dropped_into_the_folder_is_a_family_that_a_job_can_use(kinds_folder):
    """Found, read from a job file, set out, proven: with no other edit."""
    from rodwork.pipeline import set_out

    (kinds_folder / "peg.py").write_text(PEG, encoding="utf-8")
    assert "peg" in joint_kinds()
    rod = set_out(JOB, "box.toml")
    fixings = [f for j in rod.cabinets[0].joints for f in j.fixings]
    assert {f.family for f in fixings} == {"peg"}
    assert len(fixings) == 4
    assert not [f for f in rod.findings if f.code == "proof"]
    stops = {s.stop for s in rod.setups if s.tool == "drill and fence"}
    assert stops == {(60.0,)}


def test_without_the_file_the_same_job_is_refused_in_words():
    from rodwork.job.faults import JobFaults
    from rodwork.pipeline import set_out

    with pytest.raises(JobFaults, match="no family of joints"):
        set_out(JOB, "box.toml")
