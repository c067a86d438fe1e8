"""A finished board and the channel it goes into: a painted 18 board is 18.3, common practice at British benches, no source."""

from dataclasses import replace

from rodwork.model.finish import Finish
from tests.building import cabinet, job, recipe, rod_of
from tests.checks.shop import told

CODE = "film-in-channel"


def made(family, finish=None):
    return rod_of(job(cabinet(shelf_joint=recipe(family), finish=finish), thickness=18.0))


def finished(mask="joints", when="before assembly"):
    return Finish(film_mm=0.15, when=when, mask=mask)


def later(rod, finish):
    """The same boards, the finish thought of after they were set out."""
    return replace(rod, cabinets=(replace(rod.cabinets[0], finish=finish),))


def test_a_housing_that_was_made_for_it_takes_it():
    assert told(CODE, made("housing", finished())) == []


def test_a_housing_made_for_bare_board_does_not():
    findings = told(CODE, later(made("housing"), finished()))
    assert any("18 mm with its finish is 18.3" in f.message and "18.1 wide" in f.message for f in findings)
    assert {f.severity for f in findings} == {"fault"}
    assert any("18.4 wide" in f.mend for f in findings)


def test_ends_that_are_masked_or_finished_later_go_in():
    assert told(CODE, later(made("housing"), finished("joints and ends"))) == []
    assert told(CODE, later(made("housing"), finished(when="after assembly"))) == []


def test_a_tongue_is_bare_unless_nothing_is_masked():
    """A tongue of 9 in 9.1: with films on both it is 9.6."""
    assert told(CODE, made("tongue", finished())) == []
    (finding,) = told(CODE, made("tongue", finished("nothing")))
    assert "9 mm with its finish is 9.6" in finding.message
