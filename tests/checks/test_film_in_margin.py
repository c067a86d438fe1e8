"""What a finish leaves of a margin: under 1.5 a front may rub, under 0.5 it sticks. Common practice, no source."""

import pytest

from rodwork.model.finish import Finish
from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted

CODE = "film-in-margin"


def painted(film=0.15, **words):
    return fronted(
        doors("pair", style="inset", **words), finish=Finish(film_mm=film, when="before assembly", mask="joints")
    )


@pytest.mark.parametrize(
    ("words", "severities"),
    [
        ({}, []),  # 2.0 comes to 1.7
        ({"between": 1.7}, ["warning"]),  # 1.4
        ({"between": 0.8}, ["fault"]),  # 0.5
        ({"sides": 1.5, "ends": 1.5}, ["warning"]),  # 1.2 all round
    ],
)
def test_by_what_is_left(words, severities):
    assert [f.severity for f in told(CODE, painted(**words))] == severities


def test_it_names_the_margin_that_would_do():
    (finding,) = told(CODE, painted(film=0.3))
    assert "a margin of 2 is 1.4" in finding.message
    assert "2.1 or more" in finding.mend


def test_nothing_is_said_of_bare_wood_or_of_what_moves_past_nothing():
    assert told(CODE, fronted(doors("pair", style="inset", between=1.0))) == []
    overlay = fronted(doors("left", sides=0.5), finish=Finish(film_mm=0.15, when="before assembly", mask="joints"))
    assert told(CODE, overlay) == []
