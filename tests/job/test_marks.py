"""The marks of cabinets: unique, one to three capitals, the same every time."""

import re

from hypothesis import given
from hypothesis import strategies as st

from rodwork.job.marks import marks


def test_marks_are_made_from_names():
    names = ["glaze", "green", "glass", "tall bookcase", "Étagère", "碗柜", "1"]
    assert list(marks(names, {}).values()) == ["G", "GR", "GL", "TB", "E", "A", "B"]


def test_a_mark_given_is_never_made_for_another():
    assert marks(["glaze", "other"], {"other": "G"}) == {"glaze": "GL", "other": "G"}


def test_a_later_cabinet_does_not_change_the_marks_before_it():
    names = [f"glaze {i}" for i in range(60)]
    assert list(marks(names, {}).values())[:30] == list(marks(names[:30], {}).values())


@given(st.lists(st.text(max_size=8), max_size=60, unique=True), st.data())
def test_marks_are_unique_and_can_be_read(names, data):
    some = data.draw(st.lists(st.sampled_from(names), unique=True)) if names else []
    given_marks = dict(zip(some, ("A", "B", "GL", "ZZZ"), strict=False))
    found = marks(names, given_marks)
    assert list(found) == names
    assert len(set(found.values())) == len(names)
    assert all(re.fullmatch("[A-Z]{1,3}", mark) for mark in found.values())
    assert given_marks.items() <= found.items()


def test_two_thousand_cabinets_of_one_name_have_marks():
    assert len(set(marks([f"case {i}" for i in range(2000)], {}).values())) == 2000
