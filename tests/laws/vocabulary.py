"""Random jobs of one cabinet, written as a maker writes them: any word of the vocabulary beside any other.

`lines` is the cabinet's own table; a new word of the job file has a line here, drawn on its own or with those that it
needs. What no carcass can be made of is refused by the job's own messages and drawn again: they must stay the fewer.
"""

import re
from functools import cache
from math import radians, tan

from hypothesis import assume
from hypothesis import strategies as st

from rodwork.job.faults import JobFaults
from rodwork.model.rod import Rod
from rodwork.pipeline import set_out
from tests.texts import EDGING, JOB, board, joint

SHEET = "[3050, 1850]"
CABINET = '\n[cabinets.it]\nboard = "birch18"\n'
CORNER = (
    "dowel", "screw", "biscuit", "loose tenon", "carcass screw", "pocket screw", "tongue", "cam", "quarter-turn connector",
    "keyhole", "tenon-and-bolt fitting",
)  # fmt: skip
SHELF = (*CORNER, "housing")
MITRE = ("biscuit", "loose tenon", "spline", "quarter-turn connector", "clip-in connector")


class Drawn:
    """A job text and its Rod; shown as its own lines, so that a failing law can be copied into a file."""

    def __init__(self, text: str, rod: Rod):
        self.text, self.rod = text, rod

    def __repr__(self):
        return f"Drawn:\n{self.text}\n"


@cache
def set_out_once(text: str) -> Rod | None:
    """The Rod of a text, or None where it is refused: the laws share their examples."""
    try:
        return set_out(text, "drawn.toml")
    except JobFaults:
        return None


@st.composite
def jobs(draw):
    """A job of one cabinet that can be made."""
    text = draw(texts())
    rod = set_out_once(text)
    assume(rod is not None)
    return Drawn(text, rod)


@st.composite
def texts(draw):
    """The text of a job of one cabinet: most can be made."""
    if draw(st.integers(0, 6)) == 0:
        return draw(under_slopes())
    recipes, lines = joint("drawer", '"dowel"'), []
    sides = draw(st.sampled_from(["through", "between", "under the top", "mitred"]))
    corner = MITRE if sides == "mitred" else CORNER
    for place, families in (("corner", corner), ("shelf", SHELF), ("divider", CORNER)):
        recipes += joint(place, f'"{draw(st.sampled_from(families))}"')
        lines.append(f'{place}_joint = "{place}"')
    kind = draw(st.sampled_from(["wall", "base", "tall", "wardrobe", "bookcase", "open box"]))
    bays, shelves = draw(st.integers(1, 3)), draw(st.integers(0, 3))
    height = draw(st.integers(1600, 2200) if kind in ("tall", "wardrobe") else st.integers(420 + 260 * shelves, 1500))
    width, depth = draw(st.integers(360, 800)) + 380 * (bays - 1), draw(st.integers(280, 600))
    lines += [
        f'kind = "{kind}"', f'sides = "{sides}"', f"width = {width}", f"height = {height}",
        f"depth = {depth}", f"dividers = {bays - 1}",
    ]  # fmt: skip
    inside, fewest = draw(storeys(bays, shelves))
    back = draw(backs())
    lines += back + draw(edged()) + draw(fronts(bays, fewest + 1)) + draw(finishes()) + draw(frames())
    lines += draw(railed(sides, back)) + draw(footed(sides)) + draw(hung(back))
    hangs = kind == "wardrobe" or draw(st.integers(0, 5)) == 0
    rail = draw(clothes(bays, shelves + 1, lines)) if hangs and fewest == shelves else []
    lines += [*inside[:1], *(rail or inside[1:])]
    if not rail and len(inside) == 1 and draw(st.integers(0, 2)) == 0:
        places = draw(st.lists(st.integers(1, fewest + 1), min_size=1, max_size=3, unique=True))
        tables = [f"{{ opening = {n}, number = {draw(st.integers(1, 2))} }}" for n in places]
        lines.append(f"part_dividers = [{', '.join(tables)}]")
    lines += draw(stiffened(lines)) if draw(st.integers(0, 3)) == 0 else []
    if draw(st.integers(0, 3)) == 0:
        height, lines = on_grid(height, lines)
    actual = draw(st.sampled_from([16.0, 17.6, 18.0, 18.3]))
    stock = draw(from_stock(height, depth)) if sides == "through" and draw(st.integers(0, 3)) == 0 else ""
    lines += ['sides_from = "stock"'] if stock else []
    row = draw(rows(lines)) if draw(st.integers(0, 3)) == 0 else []
    if row and draw(st.integers(0, 2)) == 0:
        row += draw(shared_out(lines, many_of(row) * width + 700))
        lines = ['width = "rest"' if line.startswith("width") else line for line in lines]
    lines += [f"count = {many_of(row)}"] if row else draw(niches(width, depth)) if draw(st.integers(0, 3)) == 0 else []
    head = (
        JOB + board("birch18", 18, actual, SHEET) + board("birch6", 6, 5.8, SHEET) + EDGING + LIPPINGS + recipes + stock
    )
    return head + CABINET + "\n".join([*lines, *row]) + "\n"


@st.composite
def storeys(draw, bays, shelves):
    """Fixed and loose shelves, alike in all bays or bay by bay; and the fewest fixed shelves that a bay has."""
    if bays == 1 or draw(st.booleans()):
        loose = [f"loose_shelves = {draw(st.integers(0, 2))}"] if draw(st.booleans()) else []
        return [f"fixed_shelves = {shelves}", *loose], shelves
    each = [draw(st.integers(0, shelves)) for _ in range(bays)]
    loose = [[draw(st.integers(0, 1)) for _ in range(n + 1)] for n in each]
    return [f"fixed_shelves = {each}", *([f"loose_shelves = {loose}"] if draw(st.booleans()) else [])], min(each)


ON_A_SLOPE = ("biscuit", "screw", "loose tenon", "quarter-turn connector", "clip-in connector")


def on_grid(height, lines):
    """The height that is nearest to whole modules over the floor of the cabinet, where overlay fronts can be on the grid."""
    fronts = " ".join(line for line in lines if line.startswith(("doors", "drawers")))
    if not fronts or "inset" in fronts or any(line.startswith("face_frame") for line in lines):
        return height, lines
    toe = next((int(m[1]) for line in lines if (m := re.search(r'"notched sides", height = (\d+)', line))), 0)
    whole = 32 * round((height - toe) / 32) + toe
    kept = [line for line in lines if line != f"height = {height}"]
    return whole, [*kept, f"height = {whole}", "fronts_on_grid = true"]


@st.composite
def from_stock(draw, height, depth):
    """Drilled sides that a cabinet of this height and depth could be built on."""
    first = draw(st.integers(26, 60))
    back = draw(st.sampled_from(["", "", 'back = "none"']))
    return f"""
[drilled_sides.stock]
board = "birch18"
height = {height}
depth = {depth}
first = {first}
holes = {(height - first - 26) // 32 + 1}
hole_depth = 12
{back}
"""


@st.composite
def under_slopes(draw):
    """A cabinet under a sloping ceiling: what stands under the slope, and what goes before the openings below it."""
    recipes, lines = joint("drawer", '"dowel"'), []
    for place, families in (("corner", CORNER), ("shelf", SHELF), ("slope", ON_A_SLOPE)):
        recipes += joint(place, f'"{draw(st.sampled_from(families))}"')
    bays, shelves = draw(st.integers(1, 3)), draw(st.integers(0, 2))
    width, low = draw(st.integers(500, 900)) * bays, draw(st.integers(300, 500)) + 260 * shelves
    steep = draw(st.integers(5, 52))
    slope = f'falls = "{draw(st.sampled_from(["left", "right"]))}", degrees = {steep}, joint = "slope"'
    tops = draw(st.sampled_from(["square", "high side bevelled", *(["bevelled"] if steep < 9 else [])]))
    slope += f', side_tops = "{tops}"'
    lines += [
        'kind = "under slope"', f"width = {width}", f"height = {low + round(width * tan(radians(steep)))}",
        f"depth = {draw(st.integers(280, 600))}", f"dividers = {bays - 1}",
        'corner_joint = "corner"', 'shelf_joint = "shelf"', 'divider_joint = "drawer"', f"roof = {{ {slope} }}",
    ]  # fmt: skip
    inside, shelves = draw(storeys(bays, shelves))
    lines += inside
    lines += (
        draw(backs((None, "grooved all round", "rebated", *(["planted"] if tops != "square" else []))))
        + draw(edged())
        + draw(finishes())
    )
    if draw(st.integers(0, 3)) == 0:
        lines = [line for line in lines if not line.startswith("loose")] + draw(clothes(bays, shelves + 1, lines))
    lines += draw(stiffened(lines)) if draw(st.integers(0, 3)) == 0 else []
    if draw(st.booleans()):
        lines += draw(cut_to_a_slope(shelves))
    head = JOB + board("birch18", 18, draw(st.sampled_from([17.6, 18.3])), SHEET) + board("birch6", 6, 5.8, SHEET)
    return head + EDGING + LIPPINGS + recipes + CABINET + "\n".join(lines) + "\n"


@st.composite
def cut_to_a_slope(draw, shelves):
    """Doors up to the slope, or before the openings below a fixed shelf alone."""
    style, hung = draw(st.sampled_from(["overlay", "inset"])), draw(st.sampled_from(["left", "right", "pair"]))
    first = draw(st.integers(1, shelves + 1))
    last = draw(st.integers(first, shelves + 1))
    more = draw(st.sampled_from(["", ", handle = 128", ', grain = "across"', ", handle = 0"]))
    back = ["shelf_set_back = 22"] if style == "inset" else []
    return [f'doors = {{ style = "{style}", hung = "{hung}", openings = [{first}, {last}]{more} }}', *back]


STYLES = (None, "grooved all round", "grooved in the sides", "rebated", "rebated in the sides", "planted", "inset")


@st.composite
def backs(draw, styles=STYLES):
    style = draw(st.sampled_from(styles))
    if style is None:
        return []
    void = 0 if style == "planted" else draw(st.sampled_from([0, 10, 22]))
    board = "birch18" if style == "inset" else "birch6"
    socket = '{ for = "socket", left = 100, bottom = 120, width = 120, height = 90, out = 20 }'
    cut = f", cut_outs = [{socket}]" if draw(st.integers(0, 3)) == 0 else ""
    return [f'back = {{ board = "{board}", style = "{style}", void = {void}{cut} }}']


@st.composite
def niches(draw, width, depth):
    """The survey of an opening that leans, round a cabinet of this size: a line for it, and a table after the others."""
    gap, lean, splay = draw(st.integers(30, 120)), draw(st.integers(-8, 8)), draw(st.integers(-10, 0))
    return [
        'alcove = "niche"', "[surveys.niche]", "heights = [-900, 1300]", f"widths = [{width + gap}, {width + gap + 4}]",
        f"back_widths = [{width + gap + splay}, {width + gap + splay}]", f"depths = [{depth + 30}, {depth + 34}]",
        f"left_plumb = {{ out = {lean}, height = 2200 }}", "floor = [-1000, -1006]",
        "skirting = { height = 100, out = 12 }",
    ]  # fmt: skip


@st.composite
def frames(draw):
    if draw(st.integers(0, 4)):
        return []
    rails, over = draw(st.sampled_from(["between", "through"])), draw(st.integers(0, 20))
    return [f'face_frame = {{ board = "birch18", overhang = {over}, rails = "{rails}" }}']


@st.composite
def finishes(draw):
    mask = draw(st.sampled_from([None, None, "joints", "joints and ends"]))
    return [] if mask is None else [f'finish = {{ film = {draw(st.sampled_from([0.1, 0.15]))}, mask = "{mask}" }}']


@st.composite
def hung(draw, back):
    """By a split batten that is drawn, by brackets, or not at all, as far as there is room behind the back."""
    deep = room_behind(back)
    passed = not re.search("planted|rebated|inset", " ".join(back))  # a bracket's hooks go through such a back's edge
    if passed and draw(st.integers(0, 4)) == 0:
        sheets = ["", "high = 45, hook = 22, bores = [{ down = 12, forward = 30 }]"] if deep >= 15 else []
        sheet = draw(st.sampled_from([*sheets, "void = 10"]))
        return [f'hanging = {{ style = "brackets", bracket = {{ {sheet} }} }}']
    high = draw(st.sampled_from([None, None, None, 75, 90]))
    return [] if high is None or not back or deep < 19 else [f'hanging = {{ style = "split batten", batten = {high} }}']


@st.composite
def footed(draw, sides):
    """A toe space, a plinth frame or legs, or none."""
    to_the_floor = ["notched sides"] if sides in ("through", "under the top") else []
    style = draw(st.sampled_from([None, None, "plinth frame", "legs", *to_the_floor]))
    joint = "" if style == "legs" else ', joint = "drawer"'
    return [] if style is None else [f'feet = {{ style = "{style}", height = {draw(st.integers(60, 160))}{joint} }}']


@st.composite
def stiffened(draw, lines):
    """Strips under the fixed or the loose shelves of a cabinet of these lines, if there are any."""
    fixed = re.search(r"fixed_shelves = \[?[^a-z]*[1-9]", " ".join(lines))
    kinds = [
        kind
        for kind, there in (("fixed", fixed), ("loose", re.search(r"loose_shelves = \[?[^a-z]*[1-9]", " ".join(lines))))
        if there
    ]
    if not kinds:
        return []
    joint = draw(st.sampled_from(["", ', joint = "drawer"']))
    shelves, back = draw(st.sampled_from([*kinds, "all"])), draw(st.integers(0, 40))
    return [f'stiffeners = {{ depth = {draw(st.integers(30, 60))}, set_back = {back}, shelves = "{shelves}"{joint} }}']


def room_behind(back):
    """How deep the space behind a back of these lines is, mm; any where there is no back."""
    found = re.search(r"void = (\d+)", " ".join(back))
    return int(found[1]) if found else 100


@st.composite
def railed(draw, sides, back):
    """Rails in place of a top, a fixing rail under it, or none; butted whatever the corners are."""
    if not draw(st.integers(0, 2)):
        return []
    front, rear, fixing = (draw(st.integers(64, 120)) for _ in range(3))
    in_place_of_top = [
        f"top_front = {front}, top_back = {rear}",
        f'top_front = {front}, top_back = {rear}, set = "on edge"',
    ]
    behind = [f"fixing = {fixing}, behind_back = true"] if back and room_behind(back) >= 19 else []
    between = in_place_of_top if sides == "through" else []
    said = draw(st.sampled_from(["", *between, f"fixing = {fixing}", *behind]))
    return [f"rails = {{ {said} }}", 'rail_joint = "drawer"'] if said else []


@st.composite
def edged(draw):
    """Taped, lipped with strips that are sawn to size again or not, or neither."""
    with_ = draw(st.sampled_from([None, None, "birch", "birch", "lipping", "thick"]))
    return [] if with_ is None else [f'edging = {{ with = "{with_}", on = ["fronts", "doors", "drawer fronts"] }}']


LIPPINGS = """
[boards.oak]
material = "oak"
grain = true
density = 690
thickness = 9
sheet = [2700, 150]

[edgings.lipping]
made_of = "oak"
adds = 9

[edgings.thick]
made_of = "oak"
proud = 1.5
longer = 20
"""


@st.composite
def fronts(draw, bays, openings):
    """Doors over all openings, drawers in the top one, or both; or a bay with doors beside one with drawers; or neither."""
    what = draw(st.sampled_from(["none", "none", "doors", "drawers", "both", "beside"]))
    if what == "beside" and bays > 1:
        return draw(beside(bays, openings))
    if what == "both" and openings == 1:
        what = "doors"
    style = draw(st.sampled_from(["overlay", "inset"]))
    lines = []
    if what in ("doors", "both"):
        hung = draw(st.sampled_from(["left", "right", "pair"]))
        over = f", openings = [1, {openings - 1}]" if what == "both" else ""
        lines.append(f'doors = {{ hung = "{hung}", style = "{style}", handle = 128{over} }}')
    if what in ("drawers", "both"):
        number = draw(st.integers(1, 2))
        lines.append(
            f'drawers = {{ number = {number}, bottom_board = "birch6", joint = "drawer", style = "{style}"{draw(figured())} }}'
        )
    return lines


@st.composite
def clothes(draw, bays, openings, lines):
    """A clothes rail in an opening with no drawers, in every bay or in one; there, loose shelves in the others."""
    drawn = next((line for line in lines if line.startswith("drawers")), "")
    taken = int(m[1]) if (m := re.search(r"opening = (\d+)", drawn)) else openings if drawn else 0
    free = [n for n in range(1, openings + 1) if n != taken]
    if not free:
        return []
    at, one = draw(st.sampled_from(free)), bays > 1 and draw(st.booleans())
    tube = draw(st.sampled_from(["", ", diameter = 25", ', oval = [36, 18], clothes = "long"', ", supports = 1"]))
    socket = draw(
        st.sampled_from(["", "", ", socket = { bores = [{ up = 22, forward = 9 }, { up = -12, forward = -9 }] }"])
    )
    where = f", bays = [{draw(st.integers(1, bays))}]" if one else ""
    shelves = [0] * openings
    if one:
        shelves[at - 1] = draw(st.integers(0, 1))
    below = draw(st.integers(45, 90))
    return [
        f"clothes_rails = {{ opening = {at}, below = {below}{where}{tube}{socket} }}", f"loose_shelves = {shelves}"
    ]  # fmt: skip


@st.composite
def beside(draw, bays, openings):
    """Doors in some bays, drawers in one opening of the others, doors above or below them."""
    drawn = draw(st.integers(1, bays))
    shut = [b for b in range(1, bays + 1) if b != drawn]
    at, number = draw(st.integers(1, openings)), draw(st.integers(1, 3))
    tables = [f'{{ bays = {shut}, hung = "{draw(st.sampled_from(["left", "right", "pair"]))}" }}']
    for first, last in ((1, at - 1), (at + 1, openings)):
        if first <= last and draw(st.booleans()):
            tables.append(f'{{ bays = [{drawn}], openings = [{first}, {last}], hung = "left", handle = 96 }}')
    boxes = f'bays = [{drawn}], opening = {at}, number = {number}, bottom_board = "birch6", joint = "drawer"{draw(figured())}'
    return [f"doors = [{', '.join(tables)}]", f"drawers = {{ {boxes} }}"]


BETWEEN = ("", '{ gap = 602, for = "drier" }, ', '{ panel = "birch18" }, ', "{ infill = 60 }, ")
BESIDE = ("", ', { panel = "birch18" }', ", { infill = 45 }")
SINK = ', cut_outs = [{ for = "sink", over = 1, width = 240, depth = 160, radius = 12 }]'


@st.composite
def rows(draw, cabinet):
    """A run of some of the cabinet with something between or beside them, and boards along it.

    It stands on the feet of its cabinets, where these have some.
    """
    feet = next((line for line in cabinet if line.startswith("feet")), "")
    notched, own = "notched" in feet, re.search(r"height = (\d+)", feet)
    up = 0 if notched else int(own[1]) if own else draw(st.sampled_from([0, 100, 150]))
    first = f'"it", {draw(st.sampled_from(BETWEEN))}' * draw(st.sampled_from([1, 1, 2, 4]))
    lines = ["", "[runs.row]", f'of = [{first}"it"{draw(st.sampled_from(BESIDE))}]', f"above_floor = {up}"]
    lines += draw(st.sampled_from([[], ['edging = "birch"', "behind = 45"], ["screws = { heights = [90, 300] }"]]))
    cut = draw(st.sampled_from(["", SINK]))
    top = [f'worktop = {{ board = "birch18", joint = "corner", upstand = 60{cut} }}']
    plinth = ["plinth = {}"] if up or notched else []
    strips = ["cornice = { height = 60 }", *(["pelmet = { height = 40 }"] if up else [])]
    low = not any(re.match('kind = "(wall|tall|wardrobe)"', line) for line in cabinet)  # it can carry a worktop
    return lines + draw(st.sampled_from([[], plinth, *([plinth + top] if low else []), strips]))


def many_of(row):
    """How many cabinets stand in a run of these lines."""
    return " ".join(row).count('"it"')


@st.composite
def shared_out(draw, lines, length):
    """A run that settles the widths of its cabinets itself, by their doors where every bay has some."""
    fronted = any(line.startswith(("doors", "drawers")) for line in lines)
    by_doors = fronted and not any(line.startswith("face_frame") for line in lines)
    return [
        f"length = {length}", 'walls = "none"', f'doors = "{draw(st.sampled_from(["equal", "by cabinet"])) if by_doors else "by cabinet"}"'
    ]  # fmt: skip


def figured():
    """Which way the grain of drawer fronts runs, and whether they come out of one piece."""
    return st.sampled_from(["", ', grain = "up"', ", match = true", ', grain = "up", match = true'])
