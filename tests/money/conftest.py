"""The comparison is tried on five families that stay the same, so that a new family changes no figure here."""

import pytest

from rodwork.joints.registry import joint_kinds

FIVE = ("dowel", "groove", "housing", "rebate", "screw")


@pytest.fixture(autouse=True)
def five_families(monkeypatch):
    monkeypatch.setattr("rodwork.comparing.joint_kinds", lambda: {name: joint_kinds()[name] for name in FIVE})
