"""Sound jobs which together say every word of the job file; names and sizes are invented.

A new word of words.py has its place in one of them: a test looks for each. They are kept small, as each is read some
thousand times with one word of it spoilt.
"""

import json
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, time
from functools import cache
from pathlib import Path
from typing import Any

from rodwork.catalogue.costing import starting_values
from rodwork.job.inline import Inline, InRun
from rodwork.job.values import Kind, ListOf, OneOrList
from rodwork.job.words import SECTIONS, Words
from rodwork.joints.registry import joint_kinds
from rodwork.pipeline import nothing_beside
from tests import texts

BIRCH = texts.board("birch18", 18, 17.6)
BIRCH6 = texts.board("birch6", 6, 5.8)
DOWELS = texts.joint("dowels", '"dowel"')
BOX = """
[cabinets.it]
width = 600
height = 720
depth = 400
board = "birch18"
"""
OWN_FAMILY = Path(__file__).parents[2] / "examples" / "families" / "bolt-and-barrel-nut.toml"

SAMPLES = {
    "the job and its shop": """
[job]
name = "Pottery studio"
customer = "The pottery at Hill Lane"
address = \"\"\"upper floor
stair with one turn\"\"\"
letter = "B"
date = 2026-03-31
currency = "EUR"
units = "mm"
paper = "Letter"
notes = "carried up the back stair"
families = ["our-bolt.toml"]

[shop]
name = "Our workshop"
step = 0.1
fence_step = 0.5
first = 40
pitch = 96
end = 40
positions = "evenly"
clear_of_groove = 12
least_remainder = 3
depth_stops = [12, 15, 20]
groove_cutter = 6
ripped_together = true
accuracy = "our-accuracy.toml"
"""
    + BIRCH
    + BOX,
    "what it is made of": texts.JOB
    + """
[boards.chip18]
material = "chipboard"
thickness = 18
actual = 17.9
sheet = [2800, 2070]
grain = false
price = 41.50
density = 650
grade = "P2"
stiffness = 1800
strength = 11
creep = 2.25
declared_by = "sheet of its maker, 2024"

[edgings.tape]
thickness = 0.8
adds = 0.9
mills = 0.2
price_per_m = 0.45

[boards.oak18]
material = "oak"
grain = true
density = 690
thickness = 18
actual = 17.9
sheet = [2400, 150]

[edgings.lipping]
made_of = "oak18"
thickness = 17.9
proud = 1.5
longer = 12

[measured."I1-LS"]
length = 720.4
width = 399.8
thickness = 18
"""
    + BOX.replace("birch18", "chip18")
    + 'edging = { with = "tape", on = ["fronts", "side tops"] }\n',
    "how it is joined": texts.JOB
    + BIRCH
    + DOWELS
    + """
[fittings."our dowel"]
family = "dowel"
size = "8x40"

[joints.corners]
use = [{ family = "dowel", fitting = "our dowel" }]
"""
    + BOX
    + """sides = "through"
joint = "dowels"
corner_joint = "corners"
shelf_joint = "corners"
divider_joint = "corners"
rail_joint = "corners"
rails = { top_front = 80, top_back = 80, set = "flat" }
""",
    "shelves": texts.JOB
    + BIRCH
    + BOX
    + """mark = "B"
kind = "bookcase"
count = 2
shelf_board = "birch18"
fixed_shelves = 1
dividers = 1
loose_shelves = [1, 0]
shelf_set_back = 5
pins = { diameter = 5, depth = 10, front = 37, back = 37, start = 24, pitch = 32, holes = 3 }
contents = { kg_per_m2 = 40, heaviest_kg = 10, lasts = "permanent" }
sag = { straight = 400, sound = 240, most = 6 }
room = "heated"
notes = "two alike"
""",
    "the saw and its sheets": texts.JOB
    + BIRCH
    + """
[saw]
kind = "panel saw"
kerf = 3.2
trim = [10, 5, 10, 5]
rail = 2600
levels = 4
first = "either"
longest = 3200
least_strip = 40
rough = 5

[stock.large]
board = "birch18"
size = [3050, 1525]
price = 90
count = 4

[offcuts.rack3]
board = "birch18"
size = [900, 400]
count = 2

[matched.sides]
marks = ["I1-LS", "I1-RS"]
run = "along"

[cutting]
least_offcut = [200, 600]
offcut_share = 40
buy = true
may_turn = ["loose shelf"]
spare = 1
spare_on = ["side"]
one_sheet = ["it"]
"""
    + BOX,
    "what things cost": texts.JOB
    + BIRCH
    + """
[money]
hour = 30
cabinets_to_come = 100
one_pound = 1

[prices."dowel 8x30"]
price = 6.40
pieces = 200

[machines."dowel jig"]
owned = true
price = 90

[times]
"""
    + "".join(f"{name} = {row.minutes}\n" for name, row in starting_values().times.items())
    + BOX,
    "what it hangs by": texts.JOB
    + BIRCH
    + BIRCH6
    + """
[walls.kitchen]
kind = "dot and dab"
gap = 15
pull_kn = 0.25
shear_kn = 0.4
basis = "working load"
source = "sheet of the fixing's maker"

[walls.parting]
kind = "timber stud"
studs = 600

[tested."screw 4x50"]
pull_kn = 0.8
shear_kn = 0.9
moment_nm = 5
turning_nm_per_rad = 900
basis = "mean of tests"
source = "own test, March"
"""
    + BOX
    + """kind = "wall"
back = { board = "birch6", style = "grooved all round", void = 22, depth = 6, clearance = 0.5, grain = "up" }
hanging = { style = "split batten", wall = "kitchen", fixings = 3, from_top = 45, batten = 90, batten_board = "birch18" }
contents = { kg_per_m = 20 }
""",
    "brackets": texts.JOB
    + BIRCH
    + BIRCH6
    + BOX
    + """kind = "wall"
back = { board = "birch6", style = "grooved all round", void = 22, cut_outs = [{ for = "socket", left = 280, bottom = 240, width = 186, height = 126, out = 10 }] }
contents = { kg = 40 }

[cabinets.it.hanging]
style = "brackets"

[cabinets.it.hanging.bracket]
high = 60
wide = 20
deep = 45
below = 2
hook = 30
void = 15
bores = [{ down = 16, forward = 22 }, { down = 48, forward = 22 }]
bore = 5
depth = 12
notch = 50
notch_wide = 30
rail_short = 10
""",
    "a back by its own recipe": texts.JOB
    + BIRCH
    + BIRCH6
    + texts.joint("nailed", '"nail"')
    + DOWELS
    + BOX
    + """joint = "dowels"
back = { board = "birch6", style = "planted", joint = "nailed" }
rails = { fixing = 100, behind_back = false }
contents = { of = "books" }
""",
    "bays and openings": texts.JOB + BIRCH + BOX + 'bays = [250, "rest"]\nopenings = [300, "rest"]\n',
    "doors": texts.JOB
    + BIRCH
    + BOX
    + """
[cabinets.it.doors]
bays = [1]
hung = ["pair"]
style = "overlay"
board = "birch18"
openings = [1, 1]
sides = 1.5
ends = 1.5
between = 3
grain = "up"
hinge_fixed = [11, 1.5]
plates = [0, 2, 4]
cup_depth = 12.5
hinges = 2
handle = 128
handle_from_edge = 40
handle_from_end = 60

[cabinets.it.finish]
film = 0.1
when = "before assembly"
mask = "joints"
""",
    "bought doors": texts.JOB
    + BIRCH
    + BOX.replace("width = 600", "width = 599").replace("height = 720", "height = 718")
    + """
[cabinets.it.doors]
hung = "left"
bought = { height = 715, width = 596, cups_from_ends = 98, cups_from_edge = 22.5 }
""",
    "drawers": texts.JOB
    + BIRCH
    + BIRCH6
    + DOWELS
    + BOX
    + """joint = "dowels"

[cabinets.it.drawers]
bays = [1]
number = 2
opening = 1
heights = [300, "rest"]
board = "birch18"
box_board = "birch18"
bottom_board = "birch6"
joint = "dowels"
style = "overlay"
sides = 1.5
ends = 1.5
between = 3
grain = "across"
match = true
runners = "side-mounted"
runners_take = 27
runner_length = 350
runner_line = 60
handle = 128
""",
    "drawers on the grid": texts.JOB
    + BIRCH
    + BIRCH6
    + BOX.replace("height = 720", "height = 736")
    + """fronts_on_grid = true
drawers = { number = 2, bottom_board = "birch6", modules = [13, 10], box_width = 537.8 }
""",
    "clothes on rails": texts.JOB
    + BIRCH
    + BOX.replace("height = 720", "height = 1900").replace("depth = 400", "depth = 580")
    + """kind = "wardrobe"

[cabinets.it.clothes_rails]
bays = [1]
opening = 1
below = 60
from_front = 290
oval = [30, 15]
clothes = "short"
supports = 1

[cabinets.it.clothes_rails.socket]
bores = [{ up = 16, forward = 0 }, { up = -16, forward = 0 }]
bore = 5
depth = 12
high = 50
wide = 20
reach = 12
play = 1
""",
    "part-height dividers": texts.JOB
    + BIRCH
    + BOX
    + "fixed_shelves = 1\npart_dividers = [{ bays = [1], opening = 1, number = 2 }, { opening = 2, widths = [200, 'rest'] }]\n",
    "stiffeners": texts.JOB
    + BIRCH
    + texts.joint("strips", '"biscuit"')
    + BOX
    + "joint = 'strips'\nfixed_shelves = 1\nstiffeners = { board = 'birch18', depth = 40, set_back = 5, shelves = 'fixed', joint = 'strips' }\n",
    "a round rail": texts.JOB
    + BIRCH
    + BOX.replace("height = 720", "height = 1900").replace("depth = 400", "depth = 580")
    + 'clothes_rails = { diameter = 25, clothes = "long" }\n',
    "feet and plinth": texts.JOB
    + BIRCH
    + DOWELS
    + BOX
    + 'joint = "dowels"\nfeet = { style = "legs", height = 150, set_back = 50, board = "birch18", lower = 4, plinth = true }\n',
    "a plinth frame": texts.JOB
    + BIRCH
    + DOWELS
    + BOX
    + 'joint = "dowels"\nfeet = { style = "plinth frame", joint = "dowels" }\n',
    "under a slope": texts.JOB
    + BIRCH
    + texts.joint("biscuits", '"biscuit"')
    + DOWELS
    + """
[cabinets.it]
kind = "under slope"
width = 800
height = 1000
depth = 400
board = "birch18"
joint = "dowels"
roof = { falls = "right", low = 700, side_tops = "square", joint = "biscuits" }
""",
    "under a slope by degrees": texts.JOB
    + BIRCH
    + """
[cabinets.it]
kind = "under slope"
width = 800
height = 1000
depth = 400
board = "birch18"
roof = { falls = "left", degrees = 30 }
""",
    "a corner": texts.JOB
    + BIRCH
    + DOWELS
    + texts.joint("pockets", '"pocket screw"')
    + """
[cabinets.it]
kind = "base"
width = 1100
height = 720
depth = 560
board = "birch18"
joint = "dowels"
doors = { hung = "right" }
blind = { side = "left", takes = 580, infill = 50, from_corner = 20, handle = 35, board = "birch18", fixed = "pockets" }
""",
    "a face frame": texts.JOB
    + BIRCH
    + texts.joint("pockets", '"pocket screw"')
    + DOWELS
    + BOX
    + """joint = "dowels"
face_frame = { board = "birch18", stile = 40, rail = 40, overhang = 5, above = 5, below = 10, rails = "between", joint = "pockets", fixed = "pockets" }
""",
    "sides from a stock": texts.JOB
    + BIRCH
    + """
[drilled_sides.S720]
board = "birch18"
height = 720
depth = 400
first = 40
holes = 20
pitch = 32
front = 37
back = 37
diameter = 5
hole_depth = 12
"""
    + BOX
    + 'sides_from = "S720"\n',
    "an alcove": texts.JOB
    + BIRCH
    + """
[surveys.alcove]
heights = [-900, 0, 1100]
widths = [1212, 1206, 1215]
back_widths = [1209, 1203, 1211]
depths = [440, 438, 442]
right_depths = [440, 438, 442]
left_plumb = { out = 6, height = 2400 }
right_plumb = { readings = [0, 2, 3] }
floor = [-1000, -1008]
back_floor = [-1000, -1006]
ceiling = [1400, 1396]
skirting = { height = 120, out = 18, taken_out = false }
cornice = { height = 90, out = 60, taken_out = true }

[services.socket]
survey = "alcove"
what = "socket"
wall = "back"
low = [300, -700]
size = [146, 86]
out = 10

[cabinets.it]
height = 900
depth = 380
board = "birch18"
alcove = "alcove"
above_floor = 20
scribes = { least = 25, left = 70, right = 70, board = "birch18", round_to = 10 }
""",
    "an opening by its diagonals": texts.JOB
    + BIRCH
    + """
[surveys.alcove]
heights = [-900, 1100]
widths = [1200, 1200]
depths = [440, 440]
diagonals = [2333, 2332]
plan_diagonals = [1278, 1278]
ceiling = [1400]
right_plumb = { out = 2, height = 2000 }

[surveys.porch]
heights = [-900, 1100]
widths = [1200, 1200]
left_plumb = { readings = [0, 2] }
"""
    + BOX
    + 'alcove = "alcove"\n',
    "an appliance": texts.JOB
    + BIRCH
    + BIRCH6
    + """
[appliances.oven]
width = 595
height = 590
depth = 520
beside = 4
above = 4
behind = 10
vented = true

[cabinets.it]
kind = "tall"
height = 1500
depth = 580
board = "birch18"
appliance = [{ of = "oven", opening = 1 }]
back = { board = "birch6", style = "grooved all round", void = 20 }
""",
    "a run": texts.JOB
    + BIRCH
    + texts.board("top40", 40, 40, "[1300, 620]")
    + texts.EDGING
    + DOWELS
    + """
[cabinets.it]
kind = "base"
count = 2
width = 600
height = 720
depth = 560
board = "birch18"
joint = "dowels"

[runs.row]
of = [{ infill = 60, board = "birch18" }, "it", { gap = 602, for = "drier", worktop = true }, "it", { panel = "birch18" }]
where = "Kiln room, wall B"
length = 1880
walls = "left"
starts = "left"
above_floor = 150
behind = 40
board = "birch18"
edging = "birch"
scribe = 10
plinth = { board = "birch18", set_back = 50, clear = 5 }
doors = "by cabinet"
screws = { heights = [100, 620], front = 37 }
notes = "the drier comes later"

[runs.row.worktop]
board = "top40"
front = 40
ends = [0, 0]
joint = "dowels"
joints_at = [1000]
cut_outs = [{ for = "sink", over = 2, width = 400, depth = 380, radius = 15, from_front = 60 }]
upstand = 60
upstand_board = "birch18"
""",
    "a worktop by its depth": texts.JOB
    + BIRCH
    + BOX.replace("[cabinets.it]", '[cabinets.it]\nkind = "base"')
    + """
[runs.row]
of = ["it"]
worktop = { board = "birch18", depth = 450, cut_outs = [{ for = "sink", at = 300, width = 300, depth = 250 }] }
""",
    "a run over a bench": texts.JOB
    + BIRCH
    + """
[surveys.wall]
widths = [3000]

[cabinets.it]
kind = "wall"
width = "rest"
height = 600
depth = 320
board = "birch18"

[runs.row]
of = ["it", { infill = 100 }]
survey = "wall"
cornice = { height = 60, board = "birch18", forward = 10 }
pelmet = { height = 40, board = "birch18", forward = 10 }
above_floor = 1400
""",
}


TABLE = object()  # in place of the kind of a word whose value is a table of its own words, or a list of tables


@dataclass(frozen=True, slots=True)
class Place:
    """Where a sound job says a word of the grammar; `kind` is the kind of value that words.py has for it."""

    sample: str
    path: tuple[str | int, ...]
    kind: Any


def grammar() -> dict[tuple[str, ...], Any]:
    """Every word of the job file as ("cabinets", "doors", "hung"), with the kind of its value."""
    found: dict[tuple[str, ...], Any] = {}
    for section, (words, _) in SECTIONS.items():
        found |= _grammar(words, (section,))
    return found


def _grammar(words: type[Words], at: tuple[str, ...]) -> dict[tuple[str, ...], Any]:
    found: dict[tuple[str, ...], Any] = {}
    for word, info in _fields(words).items():
        if _is_table(info):
            found |= {(*at, word): TABLE} | _grammar(info.annotation, (*at, word))
        else:
            kind = _kind(info)
            found |= {(*at, word): kind} | {(*at, word, inner): one for inner, one in inner_words(kind).items()}
    return found


def _fields(words: type[Words]) -> dict[str, Any]:
    return {info.alias or name: info for name, info in words.model_fields.items()}


def _is_table(info: Any) -> bool:
    return isinstance(info.annotation, type) and issubclass(info.annotation, Words)


def _kind(info: Any) -> Any:
    return next((m for m in info.metadata if isinstance(m, Kind)), TABLE)


def inner_words(kind: Any) -> dict[str, Kind]:
    """The words of the small tables that are values of this kind, or entries of it."""
    if isinstance(kind, Inline):
        return dict(kind.words)
    if isinstance(kind, InRun):
        return {word: one for table in (kind.gap, kind.infill, kind.panel) for word, one in table.words.items()}
    return inner_words(kind.kind) if isinstance(kind, ListOf | OneOrList) else {}


@cache
def places() -> dict[tuple[str, ...], Place]:
    """The first place that says each word: what is not in it is in no sample."""
    found: dict[tuple[str, ...], Place] = {}
    for sample in SAMPLES:
        for section, content in tables(sample).items():
            words, named = SECTIONS[section]
            for path, table in [((section, n), t) for n, t in content.items()] if named else [((section,), content)]:
                for key, place, kind in _said(words, (section,), path, table):
                    found.setdefault(key, Place(sample, place, kind))
                    if section == "cabinets" and key != ("cabinets", "mark"):
                        key, place = ("every_cabinet", *key[1:]), ("every_cabinet", *place[2:])
                        found.setdefault(key, Place(sample, place, kind))
    return found


def _said(words: type[Words], at: tuple[str, ...], path: Any, table: Any) -> Iterator[tuple[Any, Any, Any]]:
    for word, value in table.items():
        info = _fields(words).get(word)
        if info is None:
            continue  # a setting of a family: those are not words of words.py
        key, place = (*at, word), (*path, word)
        kind = TABLE if _is_table(info) else _kind(info)
        yield key, place, kind
        for n, one in enumerate(value if isinstance(value, list) else [value]):
            inside = (*place, n) if isinstance(value, list) else place
            if _is_table(info) and isinstance(one, dict):
                yield from _said(info.annotation, key, inside, one)
            elif isinstance(one, dict):
                for inner in inner_words(kind).keys() & one.keys():
                    yield (*key, inner), (*inside, inner), inner_words(kind)[inner]


def beside(name: str) -> bytes:
    """The files that stand beside the samples."""
    if name == "our-bolt.toml":
        return OWN_FAMILY.read_bytes()
    if name == "our-accuracy.toml":
        return b""
    return nothing_beside(name)


@cache
def tables(sample: str) -> dict[str, Any]:
    """A sample as tomllib has it."""
    return tomllib.loads(SAMPLES[sample])


def family_sample(family: str) -> dict[str, Any]:
    """A job with a cabinet that is joined by this family, in the first place that it can stand in."""
    where = joint_kinds()[family].places
    text = texts.JOB + BIRCH + BIRCH6 + DOWELS + texts.joint("it", f'"{family}"') + BOX + 'joint = "dowels"\n'
    if "back in a groove" in where or "back in a rebate" in where:
        style = "grooved all round" if "back in a groove" in where else "rebated"
        text += f'back = {{ board = "birch6", style = "{style}" }}\n'  # which has the family by itself
    elif "corner" in where or "mitre" in where:
        text += f'corner_joint = "it"\nsides = "{"through" if "corner" in where else "mitred"}"\n'
    else:
        text += 'fixed_shelves = 1\nshelf_joint = "it"\n'
    return tomllib.loads(text)


def for_all_cabinets(job: dict[str, Any]) -> dict[str, Any]:
    """The job with what its one cabinet says moved to [every_cabinet]."""
    ((name, cabinet),) = job["cabinets"].items()
    own = {"mark": cabinet["mark"]} if "mark" in cabinet else {}
    every = {word: value for word, value in cabinet.items() if word not in own}
    return {**job, "every_cabinet": every, "cabinets": {name: own}}


def with_value(job: Any, path: tuple[str | int, ...], value: Any) -> Any:
    """The job with this value at this place; nothing else of it is another."""
    if not path:
        return value
    key, *rest = path
    inner = job[key] if isinstance(job, list) else job.get(key, {})
    new = with_value(inner, tuple(rest), value)
    return [*job[:key], new, *job[key + 1 :]] if isinstance(job, list) else {**job, key: new}


def without(job: Any, path: tuple[str | int, ...]) -> Any:
    """The job without the word at this place."""
    *up, last = path
    table = job
    for part in up:
        table = table[part]
    return with_value(job, tuple(up), {k: v for k, v in table.items() if k != last})


def with_key(job: Any, path: tuple[str | int, ...], key: str) -> Any:
    """The job with another key in place of the last one of this path."""
    *up, last = path
    table = job
    for part in up:
        table = table[part]
    return with_value(job, tuple(up), {key if k == last else k: v for k, v in table.items()})


def as_text(job: dict[str, Any]) -> str:
    """The job as a file: each table under a heading, each word on a line of its own."""
    rows = [f"{_key(section)} = {_value(content)}" for section, content in job.items() if not isinstance(content, dict)]
    for section, content in ((section, c) for section, c in job.items() if isinstance(c, dict)):
        named = section in SECTIONS and SECTIONS[section][1]
        for heading, table in content.items() if named else [(None, content)]:
            if not isinstance(table, dict):
                rows += [f"[{section}]", f"{_key(heading)} = {_value(table)}"]
                continue
            rows.append(heading_of(section, heading))
            rows += [f"{_key(word)} = {_value(value)}" for word, value in table.items()]
    return "\n".join(rows) + "\n"


def heading_of(section: str, name: str | None = None) -> str:
    """The heading of a table of the file."""
    return f"[{_key(section)}{'.' + _key(name) if name is not None else ''}]"


def _key(text: str) -> str:
    return text if re.fullmatch(r"[A-Za-z0-9_-]+", text) else _value(text)


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{_key(k)} = {_value(v)}' for k, v in value.items())} }}"
    return value.isoformat() if isinstance(value, date | time) else str(value)
