"""Readings as people write them, on any spreadsheet's terms, and as nobody should: read aright or refused with their place."""

import pytest

from rodwork.fit.readings import read_csv, read_numbers, readings_in
from rodwork.model.own_accuracy import AccuracyFault, Readings

ROUTER = (Readings(method="router", kind="across", settings=((0.1, 0.05), (-0.1,))),)
HEAD = "method,kind,setting,reading\n"
SCHEMA = 'schema = "rodwork/accuracy/1"\n'
ACROSS = f"{SCHEMA}[readings.router.across]\n"


@pytest.mark.parametrize(
    "text",
    ["0.1 -0.05", "0.1, -0.05", "0.1;-0.05", "0.1,-0.05", "0,1 -0,05", "0,1; -0,05", "0,1, -0,05", "+.1 \u22120.05",
     "1e-1 -5e-2"],
)  # fmt: skip
def test_readings_are_read_with_any_point_and_anything_between_them(text):
    assert read_numbers(text, "setting 1") == (0.1, -0.05)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("x 0.1", '"x" is not a number'), ("nan", '"nan" is not a number'), ("inf", '"inf" is not a number'),
        ("1_0", '"1_0" is not a number'), ("0.1mm", '"0.1mm" is not a number'), ("0,1,0,2", '"0,1,0,2" is not a number'),
        ("0.1 -", '"-" is not a number'), ("9", "9 is over 5 mm"), ("1e9", "1e9 is over 5 mm"),
        ("0.1 20", "20 is over 5 mm. Is it the right piece?"), (" ", "no reading"), ("", "no reading"), (",", "no reading"),
    ],
)  # fmt: skip
def test_what_is_no_reading_is_refused(text, said):
    with pytest.raises(AccuracyFault) as problem:
        read_numbers(text, "setting 1")
    assert str(problem.value).startswith("setting 1: ")
    assert said in str(problem.value)


@pytest.mark.parametrize(
    "table",
    [
        HEAD + "router,across,a,0.1\nrouter,across,a,0.05\nrouter,across,b,-0.1\n",
        "\ufeff" + HEAD + "router,across,a,0.1\r\nrouter,across,a,0.05\r\n\r\nrouter,across,b,-0.1\r\n",
        "method;kind;setting;reading\nrouter;across;a;0,1\nrouter;across;a;0,05\n;;;\nrouter;across;b;-0,1\n",
        HEAD + 'router,across,a,"0,1"\nrouter,across,a,"0,05"\nrouter,across,b,"-0,1"',
        "method\tkind\tsetting\treading\nrouter\tacross\ta\t0.1\nrouter\tacross\ta\t0.05\nrouter\tacross\tb\t-0.1\n",
        "Date, Reading, Setting, Kind, Method\n1 May, 0.1, a, across, router\n, 0.05, a, across, router\n, -0.1, b, across, router\n",
        "method;kind;setting;reading;\nrouter;across;a;0,1;;\nrouter;across;a;0,05\nrouter;across;b;-0,1;\n",
    ],
    ids=["plain", "byte order mark", "semicolons", "quoted commas", "tabs", "other order", "empty cells at the end"],
)  # fmt: skip
def test_a_table_is_read_as_any_spreadsheet_saves_it(table):
    assert read_csv(table, "t.csv") == ROUTER


@pytest.mark.parametrize(
    ("table", "said"),
    [
        ("", "t.csv: there is nothing in it"),
        ("\ufeff\n\n", "t.csv: there is nothing in it"),
        (HEAD, "t.csv: there is no reading in it"),
        ("method,setting,reading\n", "t.csv:1: it has no column kind"),
        ("router,across,a,0.1\n", "t.csv:1: it has no column method"),
        ("method,kind,setting,reading,reading\n", "t.csv:1: two columns are headed reading"),
        (HEAD + "router,across,a,0,1\n", "t.csv:2: 5 cells stand under 4 headings. With a comma as the point"),
        (HEAD + "router,across,a,0.1\n\nrouter,across,a\n", "t.csv:4: there is no reading"),
        (HEAD + "router,across,,0.1\n", "t.csv:2: there is no setting"),
        (HEAD + "router,across,a,nan\n", 't.csv:2: "nan" is not a number'),
        (HEAD + "router,across,a,20\n", "t.csv:2: 20 is over 5 mm. Is it the right piece?"),
        (HEAD + "router,across,a,1e9\n", "t.csv:2: 1e9 is over 5 mm"),
        (HEAD + 'router,across,a,"0.1\n', "t.csv:2: it is no table"),
        (HEAD + f"router,across,a,{'9' * 200_000}\n", "t.csv:2: it is no table"),
    ],
)
def test_a_table_that_cannot_be_readings_is_refused_with_its_line(table, said):
    with pytest.raises(AccuracyFault) as problem:
        read_csv(table, "t.csv")
    assert str(problem.value).startswith(said)


def test_a_file_of_readings_may_begin_with_a_byte_order_mark_and_hold_none():
    assert readings_in("\ufeff" + ACROSS + "settings = [[0.1, 0.05], [-0.1]]", "ours.toml") == ROUTER
    assert readings_in(SCHEMA, "ours.toml") == ()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("x =", "it is not TOML"),
        ("", "it is not a file of accuracies"),
        ("a = 1", "it is not a file of accuracies"),
        (f"{SCHEMA}x = {'[' * 5000}{']' * 5000}", "it is not TOML: a number or a list in it has no end"),
        (f"{ACROSS}settings = [[{'1' * 5000}]]", "it is not TOML: a number or a list in it has no end"),
        (f"{SCHEMA}[reading.router.across]\nsettings = [[0.1]]", 'no word "reading". Did you mean "readings"?'),
        (f"{ACROSS}setings = [[0.1]]", 'router, across: it has no word "setings". Did you mean "settings"?'),
        (f"{SCHEMA}readings = 3", "the readings are not a table"),
        (f"{SCHEMA}[readings]\nrouter = 3", "router: the readings are not a table"),
        (f"{SCHEMA}[readings.router]\nacross = 3", "router, across: it has no readings"),
        (f"{ACROSS}settings = []", "it has no readings"),
        (f"{ACROSS}settings = [[0.1], []]", "it has no readings"),
        (f"{ACROSS}settings = [[0.1, nan]]", '"nan" is not a number'),
        (f"{ACROSS}settings = [[0.1, inf]]", "inf is over 5 mm"),
        (f"{ACROSS}settings = [[0.1, {'1' * 400}]]", "is over 5 mm"),
        (f"{ACROSS}settings = [[0.1, true]]", '"True" is not a number'),
        (f'{ACROSS}settings = [[0.1, "0,1"]]', '"0,1" is not a number'),
        (f"{ACROSS}settings = [[0.1, 20]]", "router, across: 20 is over 5 mm. Is it the right piece?"),
    ],
)
def test_a_file_that_is_none_is_refused(text, said):
    with pytest.raises(AccuracyFault) as problem:
        readings_in(text, "ours.toml")
    assert str(problem.value).startswith("ours.toml: ")
    assert said in str(problem.value)
