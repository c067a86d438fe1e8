"""What a sound job file means: values, defaults, and what every cabinet gives to each."""

import subprocess
import sys

import pytest

from rodwork.job.reader import read_job
from rodwork.model.demand import Contents
from rodwork.model.job import CabinetEdging, InBay, Pins, Place, Recipe, Use
from rodwork.model.shop import Shop
from tests.job.job_samples import FAMILIES, SOUND, Clamps, Pegs, job_of, with_lines


def glaze(*changes):
    return job_of(*changes).cabinets[0]


def test_the_sound_file_is_the_job_it_describes():
    job = job_of()
    assert (job.name, job.letter, job.currency, job.units, job.paper) == ("Pottery studio", "A", "GBP", "mm", "A4")
    assert job.date is job.customer is job.address is job.notes is None
    assert job.shop == Shop(name=None)
    board = job.boards["birch18"]
    assert (board.thickness_mm, board.actual_mm, board.sheet_mm) == (18.0, 17.6, (2440.0, 1220.0))
    assert (board.material, board.grain, board.price, board.density_kg_m3) == ("birch plywood", True, "64.00 GBP", 680)
    assert (job.boards["birch6"].actual_mm, job.boards["birch6"].price) == (6.0, None)
    edging = job.edgings["birch"]
    assert (edging.thickness_mm, edging.adds_mm, edging.mills_mm, edging.price_per_m) == (1.0, 1.0, 0.0, "0.85 GBP")


def test_the_cabinet_is_the_one_it_describes():
    cabinet = glaze()
    assert (cabinet.name, cabinet.mark, cabinet.kind, cabinet.count) == ("glaze", "G", "wall", 2)
    assert (cabinet.width_mm, cabinet.height_mm, cabinet.depth_mm) == (600.0, 720.0, 320.0)
    assert (cabinet.board, cabinet.shelf_board, cabinet.sides) == ("birch18", "birch18", "through")
    assert cabinet.bays == ("rest",)
    assert cabinet.in_bays == (InBay(openings=(333.0, "rest"), loose_shelves=(1, 1)),)
    assert cabinet.shelf_set_back_mm == 0.0
    assert cabinet.pins == Pins()
    assert cabinet.edging == CabinetEdging(edging="birch", on=("fronts",))
    assert cabinet.contents == Contents(kg_per_m2=60.0)
    assert cabinet.place == Place(path=("cabinets", "glaze"))
    back = cabinet.back
    assert (back.board, back.style, back.void_mm, back.grain) == ("birch6", "grooved all round", 18.0, None)
    assert back.depth_mm is back.clearance_mm is back.joint is None


def test_a_recipe_carries_the_settings_of_each_family():
    path = ("joints", "corner")
    assert glaze().corner_joint == Recipe(
        name="corner",
        uses=(
            Use(family="dowel", settings=Pegs(first_mm=40.0), place=Place(path=(*path, "use", 0))),
            Use(family="loose clamp", settings=Clamps(), place=Place(path=(*path, "use", 1))),
        ),
        place=Place(path=path),
    )


def test_every_kind_of_setting_is_read():
    said = 'size = "6x40", first = "2 in", pitch = 64, positions = "evenly", glue = false, count = 3'
    settings = glaze(("first = 40 }", said + " }")).corner_joint.uses[0].settings
    assert settings == Pegs(size="6x40", first_mm=50.8, pitch_mm=64.0, positions="evenly", glue=False, count=3)


def test_a_length_keeps_its_unit_in_its_word_where_the_short_word_is_another_setting():
    settings = glaze(('"loose clamp" }', '"loose clamp", head = "round", head_mm = 8 }')).corner_joint.uses[1].settings
    assert (settings.head, settings.head_mm) == ("round", 8.0)


def test_where_no_joint_is_named_anywhere_it_is_dowels():
    text = with_lines(('joint = "corner"\n', ""))
    text = text[: text.index("[joints")] + text[text.index("[cabinets") :]
    cabinet = read_job(text, "a.toml", FAMILIES)[0].cabinets[0]
    assert cabinet.corner_joint == cabinet.shelf_joint == cabinet.divider_joint
    assert cabinet.corner_joint.name == "dowels"
    assert cabinet.corner_joint.place == Place(path=("cabinets", "glaze"))
    assert [(use.family, use.settings) for use in cabinet.corner_joint.uses] == [("dowel", Pegs())]


def test_each_place_may_have_its_own_recipe():
    more = '[joints.shelf]\nuse = [{ family = "dowel" }]\n[cabinets.glaze]\nshelf_joint = "shelf"\n'
    cabinet = glaze(("[cabinets.glaze]\n", more))
    assert (cabinet.corner_joint.name, cabinet.shelf_joint.name, cabinet.divider_joint.name) == (
        "corner",
        "shelf",
        "corner",
    )


def test_what_the_cabinet_does_not_have_needs_no_recipe():
    cabinet = glaze(('joint = "corner"', 'corner_joint = "corner"'), ('openings = [333, "rest"]', "fixed_shelves = 0"))
    assert cabinet.corner_joint.name == "corner"


def test_a_back_may_name_a_recipe():
    assert glaze(("void = 18", 'joint = "corner"')).back.joint.name == "corner"


@pytest.mark.parametrize(
    ("written", "openings", "loose"),
    [
        ("fixed_shelves = 2\nloose_shelves = 4", ("rest",) * 3, (2, 1, 1)),
        ("fixed_shelves = 0\nloose_shelves = 3", ("rest",), (3,)),
        ('openings = ["13 1/8 in", "rest", "rest"]\nloose_shelves = 2', (333.375, "rest", "rest"), (1, 1, 0)),
        ("openings = [200, 300]\nloose_shelves = [0, 2]", (200.0, 300.0), (0, 2)),
        ("fixed_shelves = 1", ("rest", "rest"), (0, 0)),
    ],
)
def test_openings_and_the_loose_shelves_in_them(written, openings, loose):
    cabinet = glaze(('openings = [333, "rest"]\nloose_shelves = 2', written))
    assert cabinet.in_bays == (InBay(openings=openings, loose_shelves=loose),)


@pytest.mark.parametrize(
    ("written", "bays"), [("dividers = 2", ("rest",) * 3), ('bays = [400, "rest"]', (400.0, "rest")), ("", ("rest",))]
)
def test_bays(written, bays):
    assert glaze(("count = 2", written)).bays == bays


@pytest.mark.parametrize(
    ("on", "places"), [('"shelf fronts"', ("shelf fronts",)), ('["fronts", "side tops"]', ("fronts", "side tops"))]
)
def test_edging_goes_on_one_place_or_several(on, places):
    assert glaze(('on = "fronts"', f"on = {on}")).edging.on == places


def test_pins_not_said_stay_as_they_are():
    assert glaze(("count = 2", "pins = { front = 50, holes = 3 }")).pins == Pins(front_mm=50.0, holes=3)


def test_shop_habits():
    shop = 'name = "A shop"\nstep = 0.5\npositions = "evenly"\ndepth_stops = [12, "1 in"]\nripped_together = false\n'
    job = job_of(("[shop]\nfirst = 40\n", "[shop]\n" + shop))
    assert job.shop == Shop(
        name="A shop", step_mm=0.5, positions="evenly", depth_stops_mm=(12.0, 25.4), ripped_together=False
    )


def test_a_bare_number_is_inches_in_a_job_of_inches_wherever_it_stands_and_whatever_comes_first():
    text = """
    [cabinets.a]
    width = 24
    height = "30 1/4"
    depth = "300 mm"
    board = "b"
    [boards.b]
    material = "MDF"
    thickness = 0.75
    sheet = [96, 48]
    [job]
    name = "x"
    units = "in"
    """
    job = read_job(text, "a.toml", FAMILIES)[0]
    cabinet = job.cabinets[0]
    assert (cabinet.width_mm, cabinet.height_mm, cabinet.depth_mm) == (609.6, 768.35, 300.0)
    assert (job.boards["b"].thickness_mm, job.boards["b"].sheet_mm) == (19.05, (2438.4, 1219.2))
    assert job.boards["b"].grain is False


@pytest.mark.parametrize(
    ("price", "currency", "text"),
    [
        ("64.00", "GBP", "64.00 GBP"),
        ("64", "GBP", "64.00 GBP"),
        ("64.5", "EUR", "64.50 EUR"),
        ("0.8525", "GBP", "0.8525 GBP"),
        ("1.2e1", "GBP", "12.00 GBP"),
        ("64.500", "GBP", "64.500 GBP"),
        ("6400", "JPY", "6400 JPY"),
        ("0", "GBP", "0.00 GBP"),
    ],
)
def test_a_price_is_kept_exactly_as_written(price, currency, text):
    changes = (("price = 64.00", f"price = {price}"), ("[shop]", f'currency = "{currency}"\n[shop]'))
    assert job_of(*changes).boards["birch18"].price == text


@pytest.mark.parametrize("written", ["date = 2026-03-31", 'date = "2026-03-31"'])
def test_a_date_may_be_a_date_or_text(written):
    assert job_of(("[shop]", f"{written}\n[shop]")).date == "2026-03-31"


@pytest.mark.parametrize("material", ["Birch Plywood", " birch ply ", "BIRCH PLYWOOD"])
def test_a_material_has_the_catalogues_own_word(material):
    assert job_of(('"birch plywood"', f'"{material}"')).boards["birch18"].material == "birch plywood"


def test_a_material_of_ones_own_with_its_grain_and_without_its_weight():
    board = job_of(('"birch plywood"', '"pressed reed"\ngrain = true')).boards["birch18"]
    assert (board.material, board.grain, board.density_kg_m3) == ("pressed reed", True, None)


def test_what_a_board_says_itself_goes_before_the_catalogue():
    board = job_of(('"birch plywood"', '"birch plywood"\ngrain = false\ndensity = 700.5')).boards["birch18"]
    assert (board.grain, board.density_kg_m3) == (False, 700.5)


@pytest.mark.parametrize("name", ["a <b> &amp;", "=1+1", "Töpferei", "it's \\u0022so\\u0022", "..a", "x" * 60, "碗柜"])
def test_a_name_may_have_any_letter_that_can_be_seen(name):
    job = job_of(("[cabinets.glaze]", f'[cabinets."{name}"]'), ('"Pottery studio"', f'"{name}"'))
    assert job.cabinets[0].name == job.name == name.replace("\\u0022", '"')


def test_notes_may_have_lines():
    job = job_of(("[shop]", 'notes = """\nfirst\n\tsecond"""\n[shop]'))
    assert job.notes == "first\n\tsecond"


EVERY = """\
[every_cabinet]
board = "birch18"
width = 500
joint = "corner"
back = { board = "birch6", style = "rebated", void = 10 }
edging = { with = "birch", on = "shelf fronts" }
fixed_shelves = 3
dividers = 1
pins = { front = 50, back = 60 }
"""
BARE = "[cabinets.glaze]\nheight = 720\ndepth = 320\n"


def under_every(own: str, every: str = EVERY):
    text = SOUND[: SOUND.index("[cabinets")] + every + BARE + own
    return read_job(text, "a.toml", FAMILIES)[0].cabinets[0]


def test_a_cabinet_has_what_every_cabinet_has():
    cabinet = under_every("")
    assert (cabinet.width_mm, cabinet.board, cabinet.corner_joint.name) == (500.0, "birch18", "corner")
    assert (cabinet.back.style, cabinet.back.void_mm, cabinet.edging.on) == ("rebated", 10.0, ("shelf fronts",))
    assert (cabinet.in_bays[0].openings, cabinet.bays) == (("rest",) * 4, ("rest",) * 2)


def test_a_cabinets_own_words_go_first_and_of_a_table_only_what_differs():
    cabinet = under_every('width = 600\nback = { void = 40 }\nedging = { on = "side tops" }\npins = { back = 70 }\n')
    assert cabinet.width_mm == 600.0
    assert (cabinet.back.board, cabinet.back.style, cabinet.back.void_mm) == ("birch6", "rebated", 40.0)
    assert (cabinet.edging.edging, cabinet.edging.on) == ("birch", ("side tops",))
    assert cabinet.pins == Pins(front_mm=50.0, back_mm=70.0)


def test_a_cabinet_can_do_without_what_every_cabinet_has():
    cabinet = under_every('back = "open"\nedging = "none"\nfixed_shelves = 0\ndividers = 0\n')
    assert cabinet.back is cabinet.edging is None
    assert (cabinet.in_bays[0].openings, cabinet.bays) == (("rest",), ("rest",))


def test_clear_sizes_of_a_cabinet_put_every_cabinets_number_aside():
    cabinet = under_every('openings = [200, "rest"]\nbays = [150, "rest"]\n')
    assert (cabinet.in_bays[0].openings, cabinet.bays) == ((200.0, "rest"), (150.0, "rest"))


def test_a_number_of_a_cabinet_puts_every_cabinets_clear_sizes_aside():
    every = EVERY.replace("fixed_shelves = 3", "openings = [200, 'rest']").replace(
        "dividers = 1", "bays = [150, 'rest']"
    )
    cabinet = under_every("fixed_shelves = 2\ndividers = 0\n", every)
    assert (cabinet.in_bays[0].openings, cabinet.bays) == (("rest",) * 3, ("rest",))


def test_a_cabinets_own_joint_goes_before_every_cabinets_shelf_joint():
    every = EVERY.replace('joint = "corner"', 'joint = "corner"\nshelf_joint = "corner"')
    text = '[joints.other]\nuse = [{ family = "dowel" }]\n'
    cabinet = under_every('joint = "other"\n', text + every)
    assert (cabinet.corner_joint.name, cabinet.shelf_joint.name) == ("other", "other")


def test_the_lines_come_with_the_job():
    lines = read_job(SOUND, "job.toml", FAMILIES)[1]
    assert lines[("cabinets", "glaze", "width")] == SOUND[: SOUND.index("width =")].count("\n") + 1


def test_a_mark_given_stands_and_the_others_go_round_it():
    second = (
        "\n[cabinets.green]\nmark = 'G'\nwidth = 500\nheight = 500\ndepth = 300\nboard = 'birch18'\njoint = 'corner'\n"
    )
    job = read_job(SOUND + second, "a.toml", FAMILIES)[0]
    assert [cabinet.mark for cabinet in job.cabinets] == ["GL", "G"]


def test_text_bytes_windows_lines_and_a_byte_order_mark_are_all_the_same_job():
    job = read_job(SOUND, "a", FAMILIES)[0]
    for same in (
        SOUND.encode(),
        b"\xef\xbb\xbf" + SOUND.encode(),
        "\ufeff" + SOUND,
        SOUND.replace("\n", "\r\n").encode(),
    ):
        assert read_job(same, "a", FAMILIES)[0] == job


def test_pydantic_is_imported_when_a_job_is_read_and_not_before():
    asked = "import sys, rodwork.job.reader, rodwork.job.schema, rodwork.job.starter; print('pydantic' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True).stdout == "False\n"
