"""A board that is slid home stands against its stop: play on one side, and a good way on the other."""

import numpy as np
import pytest

from rodwork.fit.solve import SIGNED, attainable, factored, verdict
from rodwork.model.fixing import Play
from rodwork.model.rod import Rod
from tests.building import recipe
from tests.fit.rods import box, model


def pulled(rod, joint):
    """How far the guest's front can be pulled out past the host's, and pushed in behind it, with every size true."""
    m = model(rod)
    ready = factored(m, SIGNED)
    z = np.zeros((1, len(m.sources)))
    give = verdict(ready, z).give_mm
    return [attainable(m, z, give, f"lip|{joint}|front", way)[0] for way in (1.0, -1.0)]


@pytest.mark.parametrize("joint", ["left side / top", "right side / top", "left side / bottom", "right side / bottom"])
def test_keyholes_stop_the_top_behind_and_hold_it_as_far_as_half_the_head_is_past_its_bore(joint):
    """It slides to the back: 0.25 past home (half the slack of the neck), 11 - 9 / 2 short of it; by hand."""
    out, in_ = pulled(box(corner_joint=recipe("keyhole")), joint)
    assert in_ == pytest.approx(-0.25, abs=0.01)
    assert out == pytest.approx(6.5, abs=0.01)


def test_a_longer_slide_holds_further_short_of_home():
    out, in_ = pulled(box(corner_joint=recipe(("keyhole", {"slide_mm": 15.0}))), "left side / top")
    assert in_ == pytest.approx(-0.25, abs=0.01)
    assert out == pytest.approx(10.5, abs=0.01)


def test_the_play_on_the_way_home_is_in_the_set_out_and_read_again():
    rod = box(corner_joint=recipe("keyhole"))
    play = rod.cabinets[0].joints[0].fixings[0].play
    assert play == Play(along=0.25, across=0.25, shape="box", short=6.5)
    assert Rod.from_dict(rod.to_dict()).cabinets[0].joints[0].fixings[0].play == play
    dowel = box().to_dict()["cabinets"][0]["joints"][0]["fixings"][0]["play"]
    assert "short" not in dowel


@pytest.mark.parametrize("value", [-0.1, float("nan"), float("inf"), 1e9])
@pytest.mark.parametrize("side", ["along", "across", "short"])
def test_a_play_that_is_none_is_refused(side, value):
    with pytest.raises(ValueError, match="play is from 0 to 50 mm"):
        Play(**{"along": 0.1, "across": 0.1, "shape": "box", side: value})


def test_a_set_out_with_a_negative_play_is_refused_with_its_place():
    data = box().to_dict()
    data["cabinets"][0]["joints"][0]["fixings"][0]["play"]["along"] = -0.1
    with pytest.raises(ValueError, match=r"fixings\[0\].play: a play of -0.1 mm along"):
        Rod.from_dict(data)
