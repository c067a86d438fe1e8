"""A shop's own readings: what they come to, how little few prove, and what is refused."""

import pytest

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.fit.measuring import file_of, joined, result_of, shop_accuracy
from rodwork.fit.readings import readings_in
from rodwork.fit.station import dry_fit_of
from rodwork.model.dry_fit import NOT_MEASURED, sentence
from rodwork.model.own_accuracy import AccuracyFault, Readings
from tests.fit.rods import box

SIX = Readings(method="dowel jig", kind="across", settings=((0.05, 0.10), (-0.10, -0.05), (0.0, 0.03)))
EIGHT = Readings(
    method="dowel jig", kind="stop", settings=tuple((0.1 * i - 0.4, 0.1 * i - 0.37, 0.1 * i - 0.43) for i in range(8))
)


def test_six_readings_come_to_something_and_prove_little():
    found = result_of(SIX, assumed_accuracy())
    assert found.each.value == pytest.approx(0.0314, abs=1e-3)  # by hand: root of (0.0025 + 0.0025 + 0.0009) / 2 / 3
    assert found.each.readings == 3
    assert found.each.high > 3 * found.each.value
    assert any("prove little" in said for said in found.proves)


def test_the_whole_test_is_said_to_be_enough():
    found = result_of(EIGHT, assumed_accuracy())
    assert found.each.value == pytest.approx(0.03, abs=1e-6)
    assert not any("prove little" in said for said in found.proves)


def test_first_offs_alone_tell_the_setting_and_not_the_pieces():
    found = result_of(Readings(method="router", kind="across", settings=((0.1,), (-0.1,), (0.05,))), assumed_accuracy())
    assert found.each.assumed
    assert not found.shared.assumed
    assert "Nothing is known of how pieces" in found.proves[0]


def test_what_is_written_is_read_again_and_goes_into_the_forecast():
    assumed = assumed_accuracy()
    text = file_of([result_of(r, assumed) for r in (SIX, EIGHT)], (SIX, EIGHT))
    assert readings_in(text, "ours.toml") == (SIX, EIGHT)
    own = shop_accuracy(assumed, text, "ours.toml")
    assert own.measured
    assert own.named("dowel jig").error("across").each.value == pytest.approx(0.0314, abs=1e-3)
    assert own.named("router") == assumed.named("router")
    fit = dry_fit_of(box(), own, samples=200)
    assert not fit.assumed
    assert NOT_MEASURED not in sentence(fit.cabinets[0], fit.assumed)


def test_without_readings_it_is_a_guess_in_words():
    fit = dry_fit_of(box(), assumed_accuracy(), samples=200)
    said = sentence(fit.cabinets[0], fit.assumed)
    assert said.startswith(NOT_MEASURED)
    assert "Measure 6 offcuts" in said


def test_readings_of_one_method_are_gathered():
    more = Readings(method="dowel jig", kind="across", settings=((0.2,),))
    assert joined((SIX, more, EIGHT))[0].settings == (*SIX.settings, (0.2,))


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        (Readings(method="dowel jig", kind="across", settings=((0.1,),)), "one reading says nothing"),
        (Readings(method="dowel jig", kind="across", settings=((0.1, 0.1), (0.1, 0.1))), "as true as that"),
        (Readings(method="chisel", kind="across", settings=((0.1, 0.2),)), "no such way of working"),
        (Readings(method="dowel jig", kind="size", settings=((0.1, 0.2),)), "no such error"),
    ],
)
def test_readings_that_say_nothing_are_refused(readings, said):
    with pytest.raises(AccuracyFault, match=said):
        result_of(readings, assumed_accuracy())


def test_pieces_that_read_all_alike_say_nothing_of_how_they_differ():
    found = result_of(
        Readings(method="dowel jig", kind="across", settings=((0.1, 0.1), (0.2, 0.2), (0.0, 0.0))), assumed_accuracy()
    )
    assert found.each == found.before.each
    assert found.shared.value == pytest.approx(0.1)
    assert "read all alike" in found.proves[0]


def test_settings_that_differ_less_than_their_pieces_say_nothing_of_the_setting():
    found = result_of(
        Readings(method="dowel jig", kind="across", settings=((0.1, 0.2), (0.1, 0.2))), assumed_accuracy()
    )
    assert found.shared == found.before.shared
    assert "The settings differ less than their pieces do" in found.proves[1]
    assert found.proves[2].startswith("2 settings prove little")
