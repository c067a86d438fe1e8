"""Wrong job files: each gives its line, what is wrong and how to mend it, and never anything but that."""

import pytest

from rodwork.job.faults import SHOWN_AT_MOST, JobFaults
from rodwork.job.reader import read_job
from rodwork.pipeline import set_out
from tests.job.job_samples import FAMILIES, SOUND, faults_of, with_lines
from tests.texts import HEAD


def line_of(text: str, of: str) -> int:
    return text[: text.index(of)].count("\n") + 1


# what of the sound file is replaced by what; words the message must have. The fault is on the new text's line.
WRONG = [
    # lengths
    ("width = 600", 'width = "abc"', 'width is "abc"', "not a length", "such as 600"),
    ("width = 600", "width = -5", "width is -5", "under 100 mm", "from 100 mm to 6000 mm"),
    ("width = 600", "width = 0", "width is 0", "under 100 mm"),
    ("width = 600", "width = nan", "nan", "not a length"),
    ("width = 600", "width = inf", "inf", "not a length"),
    ("width = 600", "width = 1e9", "not a length for a shop"),
    ("width = 600", "width = 1e999999999999999999999", "not a length for a shop"),
    ("width = 600", "width = 6_100", "over 6000 mm"),
    ("width = 600", "width = 60", "under 100 mm", '"60 cm" or "60 in"'),
    ("width = 600", "width = true", "width is true", "not a length"),
    ("width = 600", "width = [600]", "width is a list", "not a length"),
    ("width = 600", "width = { mm = 600 }", "width is a table", "not a length"),
    ("width = 600", "width = 07:32:00", "width is 07:32:00", "not a length"),
    ("width = 600", 'width = "17,6"', "a comma", '"17.6"'),
    ("width = 600", 'width = "5 yd"', 'not in "yd"'),
    ("width = 600", 'width = "23 5/8"', '"23 5/8 in"'),
    ("width = 600", 'width = "1/0 in"', "divided by nought"),
    ("width = 600", f'width = "{"9" * 5000}"', "too long for a length"),
    # words
    ("width = 600", "widht = 600", "widht is not a word", "Did you mean width?"),
    ("width = 600", "width = 600\nWidth = 600", "Width is not a word", "Did you mean width?"),
    ("count = 2", "wheels = { count = 2 }", "wheels is not a word", "the words here are", "fixed_shelves"),
    ("count = 2", f'"{"x" * 5000}" = 2', "is not a word"),
    ("void = 18", 'void = 18, colour = "red"', "colour is not a word", "clearance"),
    ("first = 40 }", "frist = 40 }", "frist is not a word", "Did you mean first?"),
    ("[shop]", "[shp]", "shp is not a part of a job file", "Did you mean shop?"),
    ("[cabinets.glaze]", "[cabinet.glaze]", "cabinet is not a part", "Did you mean cabinets?"),
    ("[cabinets.glaze]", '[measured]\n"G1-LS" = 5\n[cabinets.glaze]', "G1-LS stands straight under [measured]", "[measured."),
    ("[cabinets.glaze]", "[xyz]\nsum = 5\n[cabinets.glaze]", "xyz is not a part", "every_cabinet"),
    # choices, counts, switches, texts
    ('kind = "wall"', 'kind = "wal"', 'kind is "wal"', 'Did you mean "wall"?'),
    ('kind = "wall"', 'kind = "Wall"', 'Did you mean "wall"?'),
    ('kind = "wall"', "kind = 3", "kind is 3", '"open box"'),
    ("all round", "all around", "back.style is", 'Did you mean "grooved all round"?'),
    ("first = 40 }", 'positions = "even" }', "positions is", 'Did you mean "evenly"?'),
    ("first = 40 }", 'glue = "yes" }', "neither true nor false", "Write true or false"),
    ("first = 40 }", "first = 2000 }", "over 1000 mm", "from 5 mm to 1000 mm"),
    ("first = 40 }", 'size = "8 x 30" }', 'not written like "8x30"'),
    ("first = 40 }", "count = 1 }", "under 2", "from 2 to 60"),
    ("count = 2", "count = 0", "under 1", "from 1 to 999"),
    ("count = 2", "count = 1.5", "not a whole number"),
    ("count = 2", 'count = "2"', "not a whole number"),
    ("count = 2", "count = true", "not a whole number"),
    ("count = 2", f"count = {'9' * 3000}", "over 999"),
    ("count = 2", 'mark = "g"', "one to three capitals", '"G"'),
    ("count = 2", 'notes = "a\\u0007b"', "an invisible letter"),
    ("count = 2", f'notes = "{"x" * 2001}"', "2001 letters long", "at most 2000"),
    ("count = 2", "notes = 5", "not text"),
    ('"Pottery studio"', '""', "blank"),
    ('"Pottery studio"', '"two\\nlines"', "an invisible letter"),
    ("[shop]", 'letter = "a"\n[shop]', "one or two capitals"),
    ("[shop]", 'date = "31/3/2026"\n[shop]', "not a day", "date = 2026-03-31"),
    ("[shop]", 'date = "2026-02-30"\n[shop]', "not a day"),
    ("[shop]", "date = 2026-03-31T10:00:00\n[shop]", "not a day"),
    ("[shop]", 'currency = "pounds"\n[shop]', "three capitals", '"GBP"'),
    ("[shop]", 'units = "cm"\n[shop]', 'Write one of "mm", "in"'),
    ("first = 40\n", "ripped_together = 1\n", "neither true nor false"),
    ("first = 40\n", "depth_stops = [12, 12]\n", "depth_stops entry 2 is 12", "twice"),
    ("first = 40\n", "depth_stops = 12\n", "not a list", "[12, 15, 20, 25]"),
    # boards and edgings
    ("actual = 17.6", "actual = 12", "sold as 18 mm and measured as 12 mm", "6 mm off", "thickness = 12"),
    ("thickness = 18", "thickness = 180", "over 60 mm"),
    ("thickness = 18", "thickness = 1", "under 2 mm"),
    ("thickness = 18", "thicknes = 18", "thicknes is not a word", "Did you mean thickness?"),
    ("price = 64.00", "price = 0e-999999999", "more than 4 figures"),
    ("price = 64.00", "price = 1e-999999999", "more than 4 figures"),
    ("width = 600", "width = 1e-999999999", "under 100 mm"),
    ("sheet = [2440, 1220]", "sheet = 2440", "not a list", "[2440, 1220]"),
    ("sheet = [2440, 1220]", "sheet = [2440]", "has 1 entry", "Write 2"),
    ("sheet = [2440, 1220]", "sheet = [2440, -1]", "sheet entry 2 is -1", "under 100 mm"),
    ('"birch plywood"', '"birch plywod"', "not in the catalogue", 'Did you mean "birch plywood"?'),
    ('"birch plywood"', '"granite"', "not in the catalogue", "grain = true or false"),
    ('"birch plywood"', '"birch plywod"\ngrain = true', "not in the catalogue", 'Did you mean "birch plywood"?'),
    ("price = 64.00", 'price = "64.00"', "not a price", "the number alone"),
    ("price = 64.00", "price = -1", "not from 0"),
    ("price = 64.00", "price = 64.12345", "more than 4 figures"),
    ("price = 64.00", "price = nan", "not from 0"),
    ("price = 64.00", "density = 5", "not from 50 to 2000", "kg per m3"),
    ("price = 64.00", 'grain = "yes"', "neither true nor false"),
    ("thickness = 1.0", "thickness = 100", "over 40 mm"),
    # what is named and is not there
    ('board = "birch18"', 'board = "brich18"', "there is no [boards.brich18]", 'Did you mean "birch18"?'),
    ('board = "birch18"', "board = 18", "not a name"),
    ('joint = "corner"', 'joint = "cornr"', "there is no [joints.cornr]", 'Did you mean "corner"?'),
    ('with = "birch"', 'with = "brich"', "there is no [edgings.brich]", 'Did you mean "birch"?'),
    ('back = { board = "birch6"', 'back = { board = "birch7"', "there is no [boards.birch7]", '"birch6"'),
    ("void = 18", 'joint = "nails"', "there is no [joints.nails]"),
    ("count = 2", 'shelf_board = "oak"', "there is no [boards.oak]"),
    ('family = "dowel"', 'family = "dowl"', "no family of joints", 'Did you mean "dowel"?'),
    ('family = "dowel"', "family = 8", "no family of joints", '"loose clamp"'),
    ('{ family = "dowel", first', "{ first", "has no family"),
    ('"loose clamp" }', '"loose clamp", least = 30 }', "least is over most"),
    # openings, bays, loose shelves
    ('openings = [333, "rest"]', 'openings = [333, "rset"]', "openings entry 2", 'Did you mean "rest"?'),
    ('openings = [333, "rest"]', "openings = []", "has 0 entries", '[333, "rest"]'),
    ('openings = [333, "rest"]', "openings = 333", "not a list"),
    ('openings = [333, "rest"]', 'openings = [5, "rest"]', "openings entry 1 is 5", "under 10 mm"),
    ("loose_shelves = 2", "loose_shelves = [1, 2, 3]", "3 numbers", "2 openings", "Write 2 numbers"),
    ("loose_shelves = 2", "loose_shelves = -1", "under 0"),
    ("loose_shelves = 2", "loose_shelves = [1, 0.5]", "loose_shelves entry 2 is 0.5"),
    ("count = 2", "dividers = 21", "over 20"),
    # tables inside a cabinet
    ("back = {", 'back = "no" # {', 'neither a table nor "open"'),
    ("back = {", "back = true # {", 'neither a table nor "open"'),
    ('board = "birch6", style', "style", "back has no board", 'board = "birch6"'),
    ('on = "fronts"', 'on = "front"', "edging.on is", 'Did you mean "fronts"?'),
    ('on = "fronts"', 'on = ["fronts", "fronts"]', "twice"),
    ("contents = { kg_per_m2 = 60 }", "contents = 60", "contents is 60", "not a table"),
    ("contents = { kg_per_m2 = 60 }", "contents = {}", "contents has no kg_per_m2"),
    ("kg_per_m2 = 60", "kg_per_m2 = -1", "contents.kg_per_m2 is -1", "from 0 to 2000"),
    ("count = 2", "pins = 5", "not a table"),
    ("count = 2", "pins = { holes = 0 }", "pins.holes is 0", "under 1"),
    # names
    ("[cabinets.glaze]", '[cabinets."../glaze"]', "has / or \\ in it"),
    ("[cabinets.glaze]", "[cabinets.'a\\b']", "has / or \\ in it"),
    ("[cabinets.glaze]", '[cabinets.".."]', "points only"),
    ("[cabinets.glaze]", '[cabinets." "]', "blank"),
    ("[cabinets.glaze]", '[cabinets."glaze "]', "a space at its end"),
    ("[cabinets.glaze]", f"[cabinets.{'x' * 61}]", "over 60 letters"),
    ("[cabinets.glaze]", '[cabinets."a\\u0000b"]', "an invisible letter"),
    ("[cabinets.glaze]", '[cabinets."a\\u202Eb"]', "an invisible letter"),  # turns the writing round
    ("[boards.birch6]", '[boards."b/6"]\nmaterial = "MDF"\nthickness = 6\nsheet = [2440, 1220]\n[boards.birch6]', "has /"),
    # tables where values belong and the other way round
    ("[cabinets.glaze]\nkind", "[cabinets]\nkind", "kind stands straight under [cabinets]", "[cabinets.glaze]"),
    ("[cabinets.glaze]", "[[cabinets]]", "cabinets is a list", "[cabinets.glaze]"),
    ("[boards.birch6]", "[[boards.birch6]]", 'the board "birch6" is a list', "[boards.birch6]"),
    # what is not TOML
    ("width = 600", "width = 600 mm", "text stands in quotes", '"600 mm"'),
    ("width = 600", "width = 23 5/8", "in quotes", '"23 5/8 in"'),
    ("width = 600", 'width = 23 5/8"', "in quotes", '"23 5/8 in"'),
    ("width = 600", "width = 600,5", "a comma", "17.6"),
    ("width = 600", "width = “600 mm”", "curly", "straight quotes"),
    ("width = 600", "width =", "nothing stands after the ="),
    ("width = 600", "width: 600", "a colon", "width = 600"),
    ("width = 600", "width 600", "no ="),
    ("width = 600", "width = .5", "not written in full", "0.5"),
    ("width = 600", f"width = {'9' * 5000}", "far too long"),
    ("width = 600", "cabinet width = 600", "has no space in it"),
    ("width = 600", 'width = "600', "quote at the end", "Close the text"),
    ("width = 600", 'width = "\\q"', "begins a special letter"),
    ("width = 600", "width = 600\nwidth = 500", "cabinets.glaze.width stands here again", "on line"),
    ("count = 2", "ripped = yes", "yes is written true"),
    ("kind = ", "kind = wall #", "text stands in quotes"),
    ("price = 64.00", "price = £64", "a number alone", "price = 64.00"),
    ("contents = { kg_per_m2 = 60 }", "contents = {\nkg_per_m2 = 60 }", "not closed", "on the line it began on"),
    ("[cabinets.glaze]", "[cabinets.tall case]", "a name with a space", '"tall bookcase"'),
    ("[cabinets.glaze]", "[cabinets.glaze", "] at the end of the heading"),
    ("[cabinets.glaze]", "[cabinets.glaze]\n[cabinets.glaze]", "cabinets.glaze stands here again"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "words"), [(old, new, words) for old, new, *words in WRONG])
def test_a_wrong_file_says_where_it_is_wrong_and_how_to_mend_it(old, new, words):
    text = with_lines((old, new))
    lines = {line_of(text, new) + n for n in range(new.count("\n") + 1)}
    faults = faults_of(text)
    messages = [f"{what}. {mend}" for line, what, mend in faults if line in lines]
    assert any(all(word in message for word in words) for message in messages), faults
    assert len(faults) == 1, "one slip, one message"
    assert len(messages[0]) < 700


def test_the_sound_file_that_these_are_made_from_is_sound():
    assert faults_of(SOUND) == []


# whole files, the line, words of the message
FILES = [
    ("", 1, "nothing in it", "rodwork new"),
    ("# only a note\n", 1, "nothing in it", "rodwork new"),
    (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", 3, "no text file", ".toml"),
    (b"PK\x03\x04" + bytes(200), 1, "not saved as UTF-8"),
    (SOUND.encode("utf-16"), 1, "not saved as UTF-8 text", "Save it as UTF-8"),
    (SOUND.replace("Pottery", "Töpfer").encode("latin-1"), 2, "not UTF-8", "Save the file as UTF-8"),
    ("x = 1\n" * 2_000_000, 1, "12.0 MB", "at most 1 MB"),
    (b"a" * 10_000_000, 1, "10.0 MB", "at most 1 MB"),
    ("\n\na = " + "[" * 5000, 3, "too deep", "no deeper"),
    (".".join("a" * 100_000) + " = 1", 1, "too deep", "no deeper"),
    ('a = "\ud800"', 1, "no letter", "Take it out"),
    ("[job]\nname = 'x'\n", 1, "no cabinet in it", "[cabinets.glaze]"),
    ("[job]\nname = 'x'\n[cabinets]\n", 3, "no cabinet in it", "[cabinets.glaze]"),
    (SOUND.replace("name =", "# name ="), 1, "[job] has no name", 'name = "Pottery studio"'),
    (SOUND.replace("[job]\nname", "[shop]\nname").replace("[shop]\nfirst", "first"), 1, "[job] has no name", "name ="),
    (SOUND.replace('"rest"]', '"rest"'), 38, "no comma between two values", "rest"),
    (SOUND.replace("width", "# width"), 29, 'the cabinet "glaze" has no width', "width = 600"),
    (SOUND.replace("sheet = [2440, 1220]\nprice", "price"), 7, 'the board "birch18" has no sheet', "[2440, 1220]"),
    (SOUND[: SOUND.index("use =")] + "use = 5\n" + SOUND[SOUND.index("[cab") :], 24, "use is 5", "not a list of tables"),
    (SOUND.replace("use = [", "uses = ["), 24, "uses is not a word", "Did you mean use?"),
    (SOUND.replace('joint = "corner"', ""), 23, "no cabinet names a recipe", 'joint = "corner"'),
    (SOUND.replace("joint =", "corner_joint ="), 29, "no shelf_joint", "joint = ..."),
    ("job = 5\n" + SOUND.replace('[job]\nname = "Pottery studio"', ""), 1, "[job] is 5", "heading"),
    ("boards = 5\n" + SOUND[: SOUND.index("[boards")] + SOUND[SOUND.index("[edgings") :], 1, "boards is 5", "[boards."),
    ("shop = [1, 2]\n" + SOUND.replace("[shop]\nfirst = 40\n", ""), 1, "[shop] is a list", "heading"),
    ("every_cabinet = 'x'\n" + SOUND, 1, '[every_cabinet] is "x"', "heading"),
    ('[every_cabinet]\nmark = "G"\n' + SOUND, 2, "mark is not a word", "the words here are"),
    ('[every_cabinet]\nboard = "x"\n' + SOUND.replace('board = "birch18"\n', ""), 2, "there is no [boards.x]", "birch"),
    ('[every_cabinet]\nloose_shelves = [1]\n' + SOUND.replace("loose_shelves = 2\n", ""), 2, "1 numbers", "2 openings"),
    ('[every_cabinet]\nback = { joint = "x" }\n' + SOUND, 2, "there is no [joints.x]", "corner"),
    (SOUND + "fixed_shelves = 1\n", 38, "fixed_shelves and openings say the same", "Keep"),
    (SOUND + "dividers = 1\nbays = [200, 'rest']\n", 43, "dividers and bays say the same", "Keep"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "line", "words"), [(text, line, words) for text, line, *words in FILES])
def test_a_file_that_is_wrong_as_a_whole_says_so(text, line, words):
    faults = faults_of(text)
    assert any(at == line and all(word in f"{what}. {mend}" for word in words) for at, what, mend in faults), faults


CABINET = (
    '\n[cabinets."{}"]\nmark = "{}"\nwidth = 500\nheight = 500\ndepth = 300\nboard = "birch18"\njoint = "corner"\n'
)


def test_two_cabinets_may_not_have_one_mark():
    text = SOUND + CABINET.format("one", "Q") + CABINET.format("two", "Q")
    assert faults_of(text) == [
        (
            line_of(text, '"two"') + 1,
            'the mark Q is "one"\'s already',
            "Give this cabinet another mark, or leave it out for one to be made",
        )
    ]


def test_names_that_differ_in_capitals_only_are_one_name():
    text = SOUND + CABINET.format("GLAZE", "Q")
    ((line, what, _),) = faults_of(text)
    assert line == line_of(text, '"GLAZE"')
    assert what == 'the names "glaze" and "GLAZE" differ in capitals only'


def test_more_cabinets_than_can_be_marked_are_too_many():
    text = SOUND + "".join(f"[cabinets.c{i}]\n" for i in range(2000))
    assert [what for _, what, _ in faults_of(text)] == ["there are 2001 cabinets"]


def test_all_faults_are_told_at_once_and_each_once_in_the_order_of_their_lines():
    text = with_lines(
        ("thickness = 18", "thickness = -1"),
        ('family = "dowel"', 'family = "dowl"'),
        ("width = 600", 'width = "x"'),
        ('board = "birch18"', 'board = "brich"'),
        ('"birch6", style = "grooved all round", void = 18', '"birch7", style = "x", void = "y"'),
        ("contents", "content"),
    )
    faults = faults_of(text)
    assert [line for line, _, _ in faults] == [9, 25, 32, 35, 37, 37, 37, 41]
    starts = [
        "thickness is -1",
        "family is",
        "width is",
        "there is no [boards.brich]",
        "there is no [boards.birch7]",
        "back.style",
        "back.void",
        "content is",
    ]
    assert all(any(what.startswith(start) for _, what, _ in faults) for start in starts)


def test_a_fault_of_every_cabinet_is_told_once_however_many_there_are():
    text = SOUND + "".join(f"[cabinets.c{i}]\nwidth = 200\nheight = 200\ndepth = 200\n" for i in range(30))
    faults = faults_of('[every_cabinet]\nboard = "brich18"\njoint = "corner"\n' + text)
    assert [(line, what) for line, what, _ in faults] == [(2, "there is no [boards.brich18] in this file")]


def test_boards_under_a_misspelt_heading_are_not_called_missing_too():
    faults = faults_of(SOUND.replace("[boards.", "[board."))
    assert [what for _, what, _ in faults] == ["board is not a part of a job file"]


def test_a_message_reads_file_line_what_and_how_to_mend_it():
    with pytest.raises(JobFaults) as wrong:
        read_job(with_lines(("width = 600", "width = 0")), "studio.toml", FAMILIES)
    text = "studio.toml:32: width is 0, which is under 100 mm. Write a length from 100 mm to 6000 mm"
    assert str(wrong.value) == str(wrong.value.faults[0]) == text
    assert wrong.value.faults[0].path == ("cabinets", "glaze", "width")


def test_limits_are_told_in_the_jobs_own_unit():
    text = with_lines(("[shop]", 'units = "in"\n[shop]'))
    ((*_, what, mend),) = [fault for fault in faults_of(text) if fault[1].startswith("width")]
    assert what == "width is 600, which is over 236.2 in"
    assert mend == 'Write a length from 3.937 in to 236.2 in, or say the unit: "600 mm" or "600 cm"'


def test_a_long_value_is_cut_short_and_a_strange_letter_never_reaches_the_screen():
    ((_, what, _),) = faults_of(with_lines(('kind = "wall"', f'kind = "\\u001b[31m{"x" * 5000}"')))
    assert len(what) < SHOWN_AT_MOST + 60
    assert what.isprintable()


def test_more_than_sixty_wrong_files_are_held_here():
    assert len(WRONG) + len(FILES) > 160


def test_what_every_cabinet_says_wrongly_is_told_once():
    """Three cabinets take it from one line, and one line is to be mended."""
    each = '[cabinets.%s]\nwidth = 600\nheight = 720\ndepth = 560\nboard = "birch18"\n'
    text = HEAD + '[every_cabinet]\nrails = { top_front = 80 }\nback = { board = "birch6", style = "rebated" }\n'
    with pytest.raises(JobFaults) as refused:
        set_out(text + "".join(each % name for name in "abc"), "job.toml")
    (fault,) = refused.value.faults
    assert fault.line == text[: text.index("rails = ")].count("\n") + 1
