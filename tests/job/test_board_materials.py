"""The catalogue of sheet materials: a source on every row, weights that agree with what is published."""

import tomllib
from importlib.resources import files

import pytest

from rodwork.catalogue.boards import materials


def test_every_row_has_a_source():
    text = files("rodwork.catalogue").joinpath("data/boards.toml").read_text(encoding="utf-8")
    assert list(tomllib.loads(text)["materials"]) == list(materials())
    assert all(len(row.source) > 30 for row in materials().values())


def test_no_two_materials_have_a_name_in_common():
    names = [name.casefold() for row in materials().values() for name in {row.name.casefold(), *row.also}]
    assert len(names) == len(set(names))


def test_other_names_are_in_small_letters_as_they_are_compared():
    assert all(name == name.casefold() for row in materials().values() for name in row.also)


@pytest.mark.parametrize(
    ("material", "sheet_mm", "kg", "within", "source"),
    [
        # a published data sheet of sanded birch plywood: a sheet of 1220 x 2440 weighs 36.7 kg at 18 mm, 30.8 at 15
        ("birch plywood", (1220, 2440, 18), 36.7, 0.03, "vdocuments.site, birch plywood data sheet"),
        ("birch plywood", (1220, 2440, 15), 30.8, 0.03, "vdocuments.site, birch plywood data sheet"),
        ("MDF", (2440, 1220, 18), 39.7, 0.02, "common practice, no source"),
        ("melamine-faced chipboard", (2800, 2070, 18), 69.5, 0.03, "common practice, no source"),
    ],
)
def test_a_sheet_weighs_what_is_published(material, sheet_mm, kg, within, source):
    length, width, thickness = sheet_mm
    weight = length * width * thickness * 1e-9 * materials()[material].density_kg_m3
    assert weight == pytest.approx(kg, rel=within), source


def test_what_has_a_grain():
    grain = {name: row.grain for name, row in materials().items()}
    assert [name for name, has in grain.items() if not has] == [
        "MDF",
        "chipboard",
        "melamine-faced chipboard",
        "hardboard",
    ]
