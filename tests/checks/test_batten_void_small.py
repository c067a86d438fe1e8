"""A split batten behind the back. Batten and 3 to 5: common practice, no source."""

import pytest

from rodwork.model.demand import Hanging
from tests.building import back, rod
from tests.checks.shop import told

CODE = "batten-void-small"
HUNG = Hanging(style="split batten", wall=None, fixings=None, from_top_mm=None, batten_mm=90.0, batten_board="birch18")


@pytest.mark.parametrize(("void", "severities"), [(17.6, ["warning"]), (20.5, ["warning"]), (20.6, []), (25.0, [])])
def test_the_batten_wants_three_over_its_own_thickness(void, severities):
    made = rod(hanging=HUNG, back=back("grooved all round", void_mm=void))
    assert [f.severity for f in told(CODE, made)] == severities


def test_it_says_what_to_write():
    (found,) = told(CODE, rod(hanging=HUNG, back=back("grooved all round", void_mm=18.0)))
    assert found.where == ("cabinet batten",)
    assert "Leave 20.6 to 22.6 behind the back" in found.mend
    assert told(CODE, rod(back=back("grooved all round", void_mm=18.0))) == []
