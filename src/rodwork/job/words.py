"""Every word of the job file, table by table: what it means, its limits, what it is when left out.

These classes are the grammar. `tables.py` reads a table by them, `schema.py` makes the editors' schema of them,
and a test holds docs/job-file.md to them. Nothing here has a default of its own: what is left out is left out,
and reader.py and cabinets.py settle it; `default` is what they settle, in words.
"""

from dataclasses import fields
from functools import cache
from typing import Annotated, Any, get_args

from pydantic import BaseModel, ConfigDict, Field, create_model
from pydantic.config import JsonDict

from rodwork.catalogue.contents import usual_contents
from rodwork.catalogue.costing import starting_values
from rodwork.job.inline import Inline, InRun
from rodwork.job.values import (
    Amount,
    ByBay,
    Choice,
    Day,
    Kind,
    Length,
    LengthOr,
    LengthOrName,
    ListOf,
    Material,
    Minutes,
    OneOrList,
    Pattern,
    Price,
    Reference,
    Switch,
    TableOr,
    TablesOr,
    Text,
    Whole,
)
from rodwork.model.clothes_rail import Clothes
from rodwork.model.demand import Basis, HangingStyle, Lasts, Room, WallKind
from rodwork.model.finish import Mask, When
from rodwork.model.footing import FeetStyle
from rodwork.model.fronts import DoorStyle, FrameRails, Grain, Hung
from rodwork.model.job import BackStyle, Corners, EdgedPlace, SideTops
from rodwork.model.job import Kind as CabinetKind
from rodwork.model.panel import Role
from rodwork.model.run import DoorsAlike, StartsAt, WallsAt
from rodwork.model.sawing import FirstCut, Run, SawKind
from rodwork.model.stiffener import StiffenedShelves
from rodwork.model.survey import ServiceKind, SurveyedWall

DEFAULT = "x-default"  # keys under which a word hands on what schema.py and tables.py say of it
NEEDED = "x-needed"
SUCH_AS = "x-such-as"
MOST_SPACES = 40
NAME_LONGEST = 60


def word(
    about: str,
    default: str | None = None,
    such_as: str | None = None,
    needed: bool = False,
    written: str | None = None,
) -> Any:
    """A word of a table: what it is, what it is when left out, an example of its value, whether it must be there.

    `written`: the word itself, where Python keeps it for something else.
    """
    extra: JsonDict = {DEFAULT: default, NEEDED: needed, SUCH_AS: such_as}
    return Field(default=None, description=about, json_schema_extra=extra, alias=written, title=written)


class Words(BaseModel):
    """A table of the job file."""

    model_config = ConfigDict(extra="forbid", field_title_generator=lambda name, info: name.replace("_", " "))


class JobWords(Words):
    """The job as a whole: what it is called, for whom, in which money and units."""

    name: Annotated[str, Text(100)] = word("What the job is called", needed=True, such_as='"Pottery studio"')
    customer: Annotated[str, Text(200)] = word("For whom it is made")
    address: Annotated[str, Text(2000, lines=True)] = word("Where it goes")
    letter: Annotated[str, Pattern("[A-Z]{1,2}", "B", "one or two capitals")] = word(
        "The letter of the drawing: the next one on every change", default='"A"'
    )
    date: Annotated[str, Day()] = word("The day of this letter")
    currency: Annotated[str, Pattern("[A-Z]{3}", "GBP", "three capitals")] = word(
        "The money of all prices, three capitals as in ISO 4217", default='"GBP"'
    )
    units: Annotated[str, Choice(("mm", "in"))] = word("What a bare number means as a length", default='"mm"')
    paper: Annotated[str, Choice(("A4", "Letter"))] = word("The paper that the pack is printed on", default='"A4"')
    notes: Annotated[str, Text(2000, lines=True)] = word("Anything the bench should know of the job")
    families: Annotated[tuple[str, ...], ListOf(Text(200), 1, 40, '["our-bolt.toml"]', once=True)] = word(
        "Files with families of joints of your own, beside this file"
    )


class ShopWords(Words):
    """The shop's machines and habits: what they can be set to, where fixings stand by custom."""

    name: Annotated[str, Text(100)] = word("What the shop is called")
    step: Annotated[float, Length(0.05, 1)] = word("Sizes are printed to this", default="0.1 mm")
    fence_step: Annotated[float, Length(0.05, 5)] = word(
        "What fences and depths can be set to; printed settings are multiples of it", default="0.5 mm"
    )
    first: Annotated[float, Length(5, 500)] = word("Front edge to the first fixing of a row", default="40 mm")
    pitch: Annotated[float, Length(16, 1000)] = word("From one fixing to the next", default="96 mm")
    end: Annotated[float, Length(5, 500)] = word("Last fixing to the end of the row", default="40 mm")
    positions: Annotated[str, Choice(("fixed", "evenly"))] = word(
        "Fixings on the fixed first distance and pitch, the same on every board; or spread evenly on each",
        default='"fixed"',
    )
    clear_of_groove: Annotated[float, Length(0, 100)] = word(
        "Wood left between the last fixing and a back groove", default="12 mm"
    )
    least_remainder: Annotated[float, Length(0.5, 20)] = word(
        "Least board left under the deepest point of a bore or groove", default="3 mm"
    )
    depth_stops: Annotated[tuple[float, ...], ListOf(Length(2, 150), 1, 30, "[12, 15, 20, 25]", once=True)] = word(
        "The depths that the machine has stops for", default="any depth by fence_step"
    )
    groove_cutter: Annotated[float, Length(1, 30)] = word(
        "Width of the cutter that grooves are made with", default="6 mm"
    )
    ripped_together: Annotated[bool, Switch()] = word(
        "All boards are ripped to width at one setting, so back grooves are set from the back edge; "
        "false: they are set from the front edge",
        default="true",
    )
    accuracy: Annotated[str, Text(100)] = word(
        "The file beside this one with the shop's own readings, as `rodwork accuracy` writes it",
        default="accuracies are assumed",
        such_as='"our-accuracy.toml"',
    )


class MeasuredWords(Words):
    """One board as cut, by the mark on it: finished sizes, edging included."""

    length: Annotated[float, Length(10, 6000)] = word("Length as measured", such_as="720.4")
    width: Annotated[float, Length(10, 6000)] = word("Width as measured")
    thickness: Annotated[float, Length(1, 63)] = word("Thickness as measured")


class BoardWords(Words):
    """A sheet material of this job."""

    material: Annotated[str, Material()] = word("What it is made of", needed=True, such_as='"birch plywood"')
    thickness: Annotated[float, Length(2, 60)] = word("Thickness as sold", needed=True, such_as="18")
    actual: Annotated[float, Length(1, 63)] = word(
        "Thickness as measured, at most 3 mm off the thickness as sold; every size and setting uses it",
        default="thickness",
    )
    sheet: Annotated[tuple[float, float], ListOf(Length(100, 6000), 2, 2, "[2440, 1220]")] = word(
        "Length and width of a sheet, along the grain first", needed=True, such_as="[2440, 1220]"
    )
    grain: Annotated[bool, Switch()] = word(
        "Whether it has a grain that must run one way; true for a printed wood grain too",
        default="as the material has it",
    )
    price: Annotated[Any, Price()] = word("What a sheet costs", default="not known: the sheets are not priced")
    density: Annotated[float, Amount(50, 2000, "kg per m3")] = word(
        "What a cubic metre weighs", default="as the material has it"
    )
    grade: Annotated[str, Text(30)] = word(
        "Its grade, such as P2 or P5 of chipboard: strength and stiffness go by it",
        default="the weakest that the catalogue has of the material",
    )
    stiffness: Annotated[float, Amount(100, 50_000, "N per mm2")] = word(
        "Modulus of elasticity in bending, as its maker declares it", default="as the catalogue has the material"
    )
    strength: Annotated[float, Amount(0.5, 500, "N per mm2")] = word(
        "Characteristic bending strength, as its maker declares it", default="as the catalogue has the material"
    )
    creep: Annotated[float, Amount(0, 10, "times the sag as new")] = word(
        "Further sag under a load that stays, as its maker declares it", default="as the catalogue has the material"
    )
    declared_by: Annotated[str, Text(200)] = word("Whose sheet the declared figures stand on, and its year")


class EdgingWords(Words):
    """A tape, or a solid lipping made of a board, that goes on edges."""

    thickness: Annotated[float, Length(0.1, 40)] = word(
        "How thick it is; must be there for a tape", default="that of the board it is made of", such_as="1.0"
    )
    adds: Annotated[float, Length(0, 42)] = word(
        "What an edge grows by, glue line included; of a lipping, what is left of it",
        default="thickness; of a lipping over 4 mm 1 less, which comes off when the board is sawn to size again",
    )
    mills: Annotated[float, Length(0, 5)] = word("What the machine mills off the edge first", default="0")
    price_per_m: Annotated[Any, Price()] = word("What a metre costs", default="not known: the edging is not priced")
    made_of: Annotated[str, Reference("boards")] = word(
        "The board that a solid lipping is sawn from, of the thickness it is glued on at",
        default="it is bought tape",
        such_as='"oak9"',
    )
    proud: Annotated[float, Length(0, 5)] = word(
        "How far a lipping stands over each face until it is flushed", default="1 mm"
    )
    longer: Annotated[float, Length(0, 100)] = word(
        "How much longer a lipping is sawn at each end, to be trimmed", default="10 mm"
    )


class RecipeWords(Words):
    """How one kind of corner, shelf or divider is joined. It may mix families."""

    use: Annotated[list[dict[str, Any]], Field(min_length=1)] = word(
        "The families that make the joint, each with its settings", needed=True, such_as='[{ family = "dowel" }]'
    )


class FittingWords(Words):
    """A bought fitting by its supplier's sheet: the sizes of its family, written once for the whole job.

    Beside these words it may have every setting of its family.
    """

    family: Annotated[str, Text(60)] = word("Its family", needed=True, such_as='"cam"')


_BACK_CUT_OUT = Inline(
    words={
        "for": Text(60), "left": Length(0, 6000), "bottom": Length(0, 6000), "width": Length(10, 3000),
        "height": Length(10, 3000), "out": Length(0, 600),
    },
    needed=("for", "left", "bottom", "width", "height"),
    such_as='{ for = "socket", left = 280, bottom = 240, width = 186, height = 126 }',
)  # fmt: skip


class BackWords(Words):
    """The back of a cabinet."""

    board: Annotated[str, Reference("boards")] = word("Its board", needed=True, such_as='"birch6"')
    style: Annotated[str, Choice(get_args(BackStyle))] = word(
        "How it is held", needed=True, such_as='"grooved all round"'
    )
    void: Annotated[float, Length(0, 300)] = word(
        "Clear depth behind it, to the back of the carcass: for a batten, pipes or a wall that is not flat", default="0"
    )
    depth: Annotated[float, Length(1, 40)] = word(
        "How deep the groove is, or how far the rebate goes into the board", default="as the style has it"
    )
    clearance: Annotated[float, Length(0, 10)] = word(
        "Play at each edge of the back, so that it goes in", default="as the style has it"
    )
    grain: Annotated[str, Choice(("up", "across"))] = word(
        "Which way its grain runs", default='"up"; "across" where it comes out of its sheet only so'
    )
    joint: Annotated[str, Reference("joints")] = word("A recipe for how it is held", default="as the style has it")
    cut_outs: Annotated[tuple[Any, ...], ListOf(_BACK_CUT_OUT, 1, 20, f"[{_BACK_CUT_OUT.such_as}]")] = word(
        "Cut-outs for services, from the outside left and bottom of the carcass; `out`: how far what is there stands "
        "before the back of the carcass, so that drawers end 20 short of it",
        default="in an alcove one for each service that none is written for, with 20 mm all round",
    )


class PinsWords(Words):
    """The rows of bores that loose shelves stand in."""

    diameter: Annotated[float, Length(2, 15)] = word("Diameter of the bore", default="5 mm")
    depth: Annotated[float, Length(4, 40)] = word("Depth of the bore", default="12 mm, less in thin board")
    front: Annotated[float, Length(10, 500)] = word("Front of the shelf to the front row", default="37 mm")
    back: Annotated[float, Length(10, 500)] = word("Back of the space for shelves to the back row", default="37 mm")
    start: Annotated[float, Length(0, 1000)] = word("Bottom end to the first place of the grid", default="24 mm")
    pitch: Annotated[float, Length(10, 200)] = word("From one bore to the next", default="32 mm")
    holes: Annotated[int, Whole(1, 100)] = word("Bores in a row for each loose shelf", default="5")


_SPACE_LENGTH = LengthOr(Length(10, 6000), "rest")
_HEIGHTS = ListOf(_SPACE_LENGTH, 1, MOST_SPACES, '[333, "rest"]')
_HEIGHTS_BY_BAY = ListOf(_HEIGHTS, 1, MOST_SPACES, '[[333, "rest"], ["rest"]]')
_SHELVES = Whole(0, MOST_SPACES - 1)
_LOOSE = ListOf(Whole(0, 30), 1, MOST_SPACES, "[2, 0]")
_LOOSE_BY_BAY = ListOf(OneOrList(Whole(0, 100), _LOOSE), 1, MOST_SPACES, "[[2, 0], [1]]")


class BoughtDoorWords(Words):
    """Doors that come with their cups bored."""

    height: Annotated[float, Length(60, 3000)] = word("Height of a door", needed=True, such_as="715")
    width: Annotated[float, Length(60, 2000)] = word("Width of a door", needed=True, such_as="596")
    cups_from_ends: Annotated[float, Length(30, 1000)] = word(
        "Its upper and lower end to the middles of its two cups", needed=True, such_as="98"
    )
    cups_from_edge: Annotated[float, Length(18, 60)] = word(
        "Its hinged edge to the middles of its cups", default="22.5 mm"
    )


class DoorsWords(Words):
    """Doors on cup hinges over the front of a cabinet."""

    bays: Annotated[tuple[int, ...], ListOf(Whole(1, MOST_SPACES), 1, MOST_SPACES, "[1]", once=True)] = word(
        "The bays that have them, counted from the left", default="all"
    )
    hung: Annotated[
        tuple[str, ...],
        OneOrList(
            Choice(get_args(Hung)), ListOf(Choice(get_args(Hung)), 1, MOST_SPACES, '["left", "right"]'), wrap=True
        ),
    ] = word(
        "Where they hang: on the left or the right, a pair, or up from the top; or a list, one word for each bay",
        needed=True,
        such_as='"pair"',
    )
    style: Annotated[str, Choice(get_args(DoorStyle))] = word(
        "Over the whole edge of the sides, over half of it, or inside the opening", default='"overlay"'
    )
    board: Annotated[str, Reference("boards")] = word("Their board", default="the cabinet's board")
    openings: Annotated[tuple[int, ...], ListOf(Whole(1, MOST_SPACES), 2, 2, "[1, 2]")] = word(
        "The first and the last opening that they cover, from the bottom", default="all"
    )
    bought: BoughtDoorWords = word(
        "Doors that come with their cups bored: their size gives the margins, their cups the plates",
        default="made here",
    )
    sides: Annotated[float, Length(0, 40)] = word(
        "Margin at each outer edge: from the outside of the carcass, inset from the opening",
        default="1.5 mm, inset 2 mm",
    )
    ends: Annotated[float, Length(0, 40)] = word("Margin above and below", default="1.5 mm, inset 2 mm")
    between: Annotated[float, Length(0, 40)] = word("Margin between two doors", default="3 mm, inset 2 mm")
    grain: Annotated[str, Choice(get_args(Grain))] = word("Which way their grain runs", default='"up"')
    hinge_fixed: Annotated[tuple[float, ...], ListOf(Amount(-30, 40, "mm"), 1, 5, "[11, 1.5]", once=True)] = word(
        "Fixed distances of the hinges to choose from, by their maker's sheet: overlay less rim, on a plate of 0",
        default="[11, 1.5, -6]: straight, half cranked, cranked for inset doors",
    )
    plates: Annotated[tuple[float, ...], ListOf(Length(0, 30), 1, 10, "[0, 2, 4]", once=True)] = word(
        "Heights of mounting plates to choose from", default="[0, 2, 4]"
    )
    cup_depth: Annotated[float, Length(8, 20)] = word("Depth of the cup's bore", default="12.5 mm")
    hinges: Annotated[int, Whole(2, 9)] = word("Hinges to a door", default="by its height and weight")
    handle: Annotated[float, Length(0, 1000)] = word(
        "Distance between the bores of its handle; 0 for a knob", default="no bores"
    )
    handle_from_edge: Annotated[float, Length(10, 300)] = word("Handle to the door's free edge", default="40 mm")
    handle_from_end: Annotated[float, Length(10, 3000)] = word(
        "Handle to the door's lower end on a wall unit, to its upper end on others",
        default="60 mm; 1000 above the carcass's bottom, or as near as the door allows, where that comes over 1200",
    )


class DrawersWords(Words):
    """The drawers of one opening."""

    bays: Annotated[tuple[int, ...], ListOf(Whole(1, MOST_SPACES), 1, MOST_SPACES, "[2]", once=True)] = word(
        "The bays that have them, counted from the left", default="all"
    )
    number: Annotated[int, Whole(1, 12)] = word("How many, one above another", needed=True, such_as="3")
    opening: Annotated[int, Whole(1, MOST_SPACES)] = word("In which opening, from the bottom", default="the top one")
    modules: Annotated[tuple[int, ...], ListOf(Whole(2, 60), 1, 12, "[10, 8, 5]")] = word(
        "In place of heights: so many modules of 32 mm, less the gap, from the bottom", default="all even"
    )
    heights: Annotated[tuple[Any, ...], ListOf(_SPACE_LENGTH, 1, 12, '[280, "rest", 140]')] = word(
        'Heights of their fronts from the bottom; "rest" shares what is left', default="all even"
    )
    board: Annotated[str, Reference("boards")] = word("The board of their fronts", default="the cabinet's board")
    box_board: Annotated[str, Reference("boards")] = word("The board of their boxes", default="the cabinet's board")
    bottom_board: Annotated[str, Reference("boards")] = word(
        "The board of their bottoms", needed=True, such_as='"birch6"'
    )
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe of their boxes' corners", default="as the cabinet's corners"
    )
    style: Annotated[str, Choice(("overlay", "inset"))] = word("How their fronts lie, as doors do", default='"overlay"')
    sides: Annotated[float, Length(0, 40)] = word("Margin at each outer edge", default="1.5 mm, inset 2 mm")
    ends: Annotated[float, Length(0, 40)] = word("Margin above and below", default="1.5 mm, inset 2 mm")
    between: Annotated[float, Length(0, 40)] = word("Margin between two fronts", default="3 mm, inset 2 mm")
    grain: Annotated[str, Choice(get_args(Grain))] = word(
        "Which way the grain of their fronts runs", default='"across"'
    )
    match: Annotated[bool, Switch()] = word(
        "Whether the fronts of a bay come out of one piece, so that the figure runs on over them", default="false"
    )
    runners: Annotated[str, Choice(("side-mounted", "concealed"))] = word("Their runners", default='"side-mounted"')
    runners_take: Annotated[float, Length(0, 120)] = word(
        "By the runner's sheet: the opening less the box's outside width, of concealed runners less its inside width",
        default="27 mm (1 1/16 in), concealed 41.3 mm (1 5/8 in)",
    )
    runner_length: Annotated[float, Length(150, 1200)] = word(
        "Length of runners and boxes", default="the longest in steps of 50 that goes in"
    )
    runner_line: Annotated[float, Length(0, 400)] = word(
        "By the runner's sheet: the box's bottom edge to the line of the screws in the side",
        default="half the box's height",
    )
    box_width: Annotated[float, Length(50, 3000)] = word(
        "Outside width of a box that is there already: refused where the opening is not its own",
        default="by the opening",
    )
    handle: Annotated[float, Length(0, 1000)] = word(
        "Distance between the bores of its handle, in the middle of the front; 0 for a knob", default="no bores"
    )


_SOCKET_BORE = Inline(
    words={"up": Length(-200, 200), "forward": Length(-200, 200)}, needed=("up",),
    such_as="{ up = 16, forward = 0 }",
)  # fmt: skip


class SocketWords(Words):
    """The sockets at both ends of a clothes rail by their maker's sheet."""

    bores: Annotated[tuple[Any, ...], ListOf(_SOCKET_BORE, 1, 8, f"[{_SOCKET_BORE.such_as}]", once=True)] = word(
        "Its bores: up and forward from the middle of the tube, below nought down and back",
        default="16 up and 16 down, one straight over the other",
    )
    bore: Annotated[float, Length(1, 40)] = word("Their diameter", default="5 mm")
    depth: Annotated[float, Length(2, 40)] = word(
        "Their depth", default="12 mm, less in thin board and in a divider with sockets on both its faces"
    )
    high: Annotated[float, Length(5, 300)] = word("Height of the socket", default="20 mm more than the tube")
    wide: Annotated[float, Length(5, 300)] = word("How wide it is, front to back", default="7 mm more than the tube")
    reach: Annotated[float, Length(2, 200)] = word("How far it stands out from the upright", default="16 mm")
    play: Annotated[float, Length(0, 50)] = word(
        "How much shorter the tube is than the clear width, at each end", default="2 mm"
    )


class PartDividerWords(Words):
    """Dividers inside one opening, from the board below it to the board above."""

    bays: Annotated[tuple[int, ...], ListOf(Whole(1, MOST_SPACES), 1, MOST_SPACES, "[1]", once=True)] = word(
        "The bays that have them, counted from the left", default="all"
    )
    opening: Annotated[int, Whole(1, MOST_SPACES)] = word("In which opening, from the bottom", default="the top one")
    number: Annotated[int, Whole(1, 20)] = word("How many, evenly spaced", default="1")
    widths: Annotated[tuple[Any, ...], ListOf(_SPACE_LENGTH, 2, MOST_SPACES, '[200, "rest"]')] = word(
        'Clear widths between them from the left, in place of number; "rest" shares what is left'
    )


class ClothesRailWords(Words):
    """A rail for clothes: a tube in sockets between two uprights."""

    bays: Annotated[tuple[int, ...], ListOf(Whole(1, MOST_SPACES), 1, MOST_SPACES, "[1]", once=True)] = word(
        "The bays that have it, counted from the left", default="all"
    )
    opening: Annotated[int, Whole(1, MOST_SPACES)] = word("In which opening, from the bottom", default="the top one")
    below: Annotated[float, Length(10, 3000)] = word(
        "From the board above down to the middle of the tube", default="60 mm"
    )
    from_front: Annotated[float, Length(10, 3000)] = word(
        "From the front of the carcass to the middle of the tube", default="the middle of the depth"
    )
    diameter: Annotated[float, Length(8, 80)] = word("Of a round tube: its diameter", default="an oval one")
    oval: Annotated[tuple[float, float], ListOf(Length(5, 80), 2, 2, "[30, 15]")] = word(
        "Of an oval tube: its height and how wide it is", default="[30, 15]"
    )
    clothes: Annotated[str, Choice(get_args(Clothes))] = word(
        "What hangs on it: shirts, skirts and jackets; or coats and dresses too", default='"short"'
    )
    supports: Annotated[int, Whole(0, 9)] = word("How many middle supports, hung from the board above", default="0")
    socket: SocketWords = word("The sockets at both its ends by their maker's sheet", default="the starting values")


class FeetWords(Words):
    """What a cabinet stands on, and the toe space before it."""

    style: Annotated[str, Choice(get_args(FeetStyle))] = word(
        "Sides to the floor, notched at the front (height is then from the floor); a frame of its own under the "
        "carcass; or levelling legs (height is then the carcass's alone)",
        needed=True, such_as='"legs"',
    )  # fmt: skip
    height: Annotated[float, Length(30, 500)] = word(
        "How high the toe space, the frame or the legs are", default="100 mm; legs 150 mm"
    )
    set_back: Annotated[float, Length(0, 400)] = word(
        "From the front of the carcass to the plinth", default="60 mm; legs 50 mm"
    )
    board: Annotated[str, Reference("boards")] = word("The board of plinth and frame", default="the cabinet's board")
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe of the plinth board between notched sides, or of the frame", default="corner_joint"
    )
    lower: Annotated[float, Length(0, 40)] = word(
        "Before legs: how much lower the plinth board is than they stand at the lowest", default="4 mm"
    )
    plinth: Annotated[bool, Switch()] = word(
        "Before legs: whether the cabinet has a plinth board of its own; false where its run has one", default="true"
    )


class RoofWords(Words):
    """The slope that a cabinet stands under: its top lies along it, between sides of different height."""

    falls: Annotated[str, Choice(("left", "right"))] = word(
        "To which hand it falls: the side there is the low one", needed=True, such_as='"right"'
    )
    low: Annotated[float, Length(50, 6000)] = word(
        "Outside height of the low side; `height` is that of the high side", default="from degrees"
    )
    degrees: Annotated[float, Amount(1, 89, "degrees")] = word("The slope against the level", default="from low")
    side_tops: Annotated[str, Choice(get_args(SideTops))] = word(
        "Tops of the sides: square, flush with the top inside; or bevelled to the slope, the high one or both",
        default='"square"',
    )
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe of the top's ends, and of dividers under it", default="biscuits"
    )


class RailsWords(Words):
    """Rails across between the sides: in place of a full top, or one to screw a unit to the wall through."""

    top_front: Annotated[float, Length(30, 500)] = word(
        "Width of a rail at the front of the top; with it or top_back there is no full top", such_as="80"
    )
    top_back: Annotated[float, Length(30, 500)] = word("Width of a rail at the back of the top", such_as="80")
    set: Annotated[str, Choice(("flat", "on edge"))] = word("How the top rails are set", default='"flat"')
    fixing: Annotated[float, Length(40, 500)] = word(
        "Height of a rail on edge under the top at the back, to screw through into the wall", such_as="100"
    )
    behind_back: Annotated[bool, Switch()] = word(
        "The fixing rail stands behind the back, in its void; false: before it", default="false"
    )


class StiffenersWords(Words):
    """A strip on edge under the front edge of each shelf."""

    depth: Annotated[float, Length(15, 300)] = word("How far it hangs below the shelf", needed=True, such_as="40")
    board: Annotated[str, Reference("boards")] = word("Its board", default="shelf_board, or board")
    set_back: Annotated[float, Length(0, 2000)] = word(
        "From the front edge of the shelf to the front of the strip", default="0: flush"
    )
    shelves: Annotated[str, Choice(get_args(StiffenedShelves))] = word("Which shelves have one", default='"all"')
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe that joins it to its shelf; only what is glued stiffens", default="biscuits, glued"
    )


class CabinetEdgingWords(Words):
    """What is edged, and with what."""

    with_: Annotated[str, Reference("edgings")] = word("Its edging", needed=True, such_as='"birch"', written="with")
    on: Annotated[
        tuple[str, ...],
        OneOrList(
            Choice(get_args(EdgedPlace)),
            ListOf(Choice(get_args(EdgedPlace)), 1, len(get_args(EdgedPlace)), '["fronts", "side bottoms"]', once=True),
            wrap=True,
        ),
    ] = word(
        "Which edges: the fronts of all boards but the back; the fronts of the shelves alone; the ends of the sides "
        "and of top and bottom; all four of each door; all four of each drawer front",
        default='"fronts"',
    )


class ContentsWords(Words):
    """What will stand inside."""

    kg_per_m2: Annotated[float, Amount(0, 2000, "kg per m2")] = word(
        "Weight on each square metre of shelf and bottom", such_as="60"
    )
    kg_per_m: Annotated[float, Amount(0, 1000, "kg per m")] = word(
        "Or weight on each metre of shelf and bottom", such_as="30"
    )
    kg: Annotated[float, Amount(0, 5000, "kg")] = word(
        "Or weight of all that one cabinet holds, shared by area", such_as="40"
    )
    of: Annotated[str, Choice(tuple(usual_contents()))] = word("Or what it is: the catalogue has a weight for it")
    heaviest_kg: Annotated[float, Amount(0, 500, "kg")] = word(
        "The heaviest single thing besides: it may stand in the middle of any shelf"
    )
    lasts: Annotated[str, Choice(get_args(Lasts))] = word(
        "How long it stays: over 10 years, to 10 years, to 6 months, to a week, a moment", default='"permanent"'
    )


class SagWords(Words):
    """How far shelves may sag."""

    straight: Annotated[float, Amount(50, 5000, "mm of span to 1 mm of sag")] = word(
        "What still looks straight after creep: 1 mm in so many", default="400"
    )
    sound: Annotated[float, Amount(50, 5000, "mm of span to 1 mm of sag")] = word(
        "What is sound as new: 1 mm in so many", default="240"
    )
    most: Annotated[float, Length(0.5, 50)] = word("And as new never more than this", default="6.4 mm")


_BRACKET_BORE = Inline(
    words={"down": Length(1, 300), "forward": Length(1, 300)}, needed=("down", "forward"),
    such_as="{ down = 16, forward = 22 }",
)  # fmt: skip


class BracketWords(Words):
    """A hanging bracket by its supplier's sheet."""

    high: Annotated[float, Length(10, 300)] = word("Height of its body", default="60 mm")
    wide: Annotated[float, Length(5, 150)] = word("How far its body stands out from the side", default="20 mm")
    deep: Annotated[float, Length(10, 300)] = word("How far its body stands forward from the back", default="45 mm")
    below: Annotated[float, Length(0, 200)] = word("From the underside of the top down to its body", default="2 mm")
    hook: Annotated[float, Length(1, 300)] = word(
        "From the underside of the top down to the line of the wall rail", default="30 mm"
    )
    void: Annotated[float, Length(5, 100)] = word(
        "What the hook and the wall rail want behind the back", default="15 mm"
    )
    bores: Annotated[tuple[Any, ...], ListOf(_BRACKET_BORE, 1, 12, f"[{_BRACKET_BORE.such_as}]", once=True)] = word(
        "Its bores in each side: down from the underside of the top, forward from the back",
        default="16 and 48 down, 22 forward",
    )
    bore: Annotated[float, Length(1, 40)] = word("Their diameter", default="5 mm")
    depth: Annotated[float, Length(2, 40)] = word("Their depth", default="12 mm")
    notch: Annotated[float, Length(5, 300)] = word(
        "How far down from the underside of the top the back is cut away for the hook", default="50 mm"
    )
    notch_wide: Annotated[float, Length(5, 150)] = word(
        "How far in from the side the back is cut away", default="30 mm"
    )
    rail_short: Annotated[float, Length(0, 300)] = word(
        "How much shorter the wall rail is than the clear width, at each end", default="10 mm"
    )


class HangingWords(Words):
    """How a cabinet hangs on a wall."""

    style: Annotated[str, Choice(get_args(HangingStyle))] = word(
        "What it hangs by", needed=True, such_as='"split batten"'
    )
    wall: Annotated[str, Reference("walls")] = word(
        "Which wall: the NAME of a [walls.NAME], or a kind of wall", default='"unknown"'
    )
    fixings: Annotated[int, Whole(1, 60)] = word(
        "How many fixings go into the wall", default="as drawn; where none is drawn, two, and one more each 400 mm"
    )
    from_top: Annotated[float, Length(5, 3000)] = word(
        "From the top of the carcass down to the line of wall fixings",
        default="the middle of its batten or rail; 60 mm where none is drawn",
    )

    batten: Annotated[float, Length(40, 300)] = word(
        "Height of each half of a split batten, drawn and listed as boards: 75 to 100 as a rule", default="not drawn"
    )
    batten_board: Annotated[str, Reference("boards")] = word("Its board", default="the cabinet's board")
    bracket: BracketWords = word(
        "The brackets by their supplier's sheet, in the top back corners; {} for the starting values",
        default="not drawn",
    )


_PULL = "What one fixing bears straight out"
_SHEAR = "What one fixing bears across its length"


class WallWords(Words):
    """A wall that cabinets hang on, and what one fixing in it bears."""

    kind: Annotated[str, Choice(get_args(WallKind))] = word("What it is built of", needed=True, such_as='"brick"')
    gap: Annotated[float, Length(0, 300)] = word(
        "Of dot and dab: from the back of its board to the block, which the fixing must bridge"
    )
    studs: Annotated[float, Length(100, 2000)] = word("Of studs: from the middle of one to the middle of the next")
    pull_kn: Annotated[float, Amount(0.001, 500, "kN (1 kN is 102 kg hung)")] = word(_PULL)
    shear_kn: Annotated[float, Amount(0.001, 500, "kN (1 kN is 102 kg hung)")] = word(_SHEAR)
    basis: Annotated[str, Choice(get_args(Basis))] = word(
        "What the figures are: to be used as they stand; or 5 in 100 fail below them; or the mean at failure in tests",
        default='"working load"',
    )
    source: Annotated[str, Text(200)] = word("Whose figures they are: must be there where there are any")


class TestedWords(Words):
    """What a fitting, dowel or screw was found to bear, by its name on the buying list or how that begins."""

    pull_kn: Annotated[float, Amount(0.001, 500, "kN (1 kN is 102 kg hung)")] = word(_PULL)
    shear_kn: Annotated[float, Amount(0.001, 500, "kN (1 kN is 102 kg hung)")] = word(_SHEAR)
    moment_nm: Annotated[float, Amount(0.01, 5000, "Nm")] = word("What one bears against turning of a corner")
    turning_nm_per_rad: Annotated[float, Amount(1, 1_000_000, "Nm per rad")] = word(
        "How stiffly one holds a corner, for shelves and for racking"
    )
    basis: Annotated[str, Choice(get_args(Basis))] = word(
        "What the figures are, as for a wall", default='"working load"'
    )
    source: Annotated[str, Text(200)] = word("Whose figures they are", needed=True, such_as='"own test, March"')


class DrilledSidesWords(Words):
    """Sides from a stock that are sawn, edged and drilled already."""

    board: Annotated[str, Reference("boards")] = word("Their board", needed=True, such_as='"birch18"')
    height: Annotated[float, Length(100, 3000)] = word("Their height", needed=True, such_as="720")
    depth: Annotated[float, Length(100, 1200)] = word("Their depth", needed=True, such_as="560")
    first: Annotated[float, Length(3, 1000)] = word("Bottom end to the lowest hole", needed=True, such_as="40")
    holes: Annotated[int, Whole(1, 100)] = word("How many holes a row has", needed=True, such_as="21")
    pitch: Annotated[float, Length(10, 200)] = word("From one hole to the next", default="32 mm")
    front: Annotated[float, Length(5, 500)] = word("Front edge to the front row", default="37 mm")
    back: Annotated[float, LengthOr(Length(5, 500), "none", alone=True)] = word(
        "Back edge to the back row", default="37 mm"
    )
    diameter: Annotated[float, Length(2, 15)] = word("Diameter of the holes", default="5 mm")
    hole_depth: Annotated[float, Length(4, 40)] = word("Depth of the holes", default="13 mm")


class ApplianceWords(Words):
    """An appliance by its maker's sheet: an opening of a cabinet, or a gap of a run, follows from it."""

    width: Annotated[float, Length(100, 3000)] = word("Its width", needed=True, such_as="595")
    height: Annotated[float, Length(50, 3000)] = word("Its height", needed=True, such_as="590")
    depth: Annotated[float, Length(50, 1500)] = word("Its depth, front left out", needed=True, such_as="550")
    beside: Annotated[float, Length(0, 200)] = word(
        "By its maker's sheet: how much wider its opening is, in all", default="4 mm"
    )
    above: Annotated[float, Length(0, 500)] = word(
        "By its maker's sheet: how much higher its opening is", default="4 mm"
    )
    behind: Annotated[float, Length(0, 500)] = word("By its maker's sheet: what is free behind it", default="0")
    vented: Annotated[bool, Switch()] = word("Whether the back is cut out behind it", default="true")


_HOUSED = Inline(
    words={"of": Reference("appliances"), "opening": Whole(1, MOST_SPACES)}, needed=("of",),
    such_as='{ of = "oven", opening = 2 }',
)  # fmt: skip
_OVEN_AND_OTHER = '[{ of = "oven", opening = 2 }, { of = "microwave", opening = 3 }]'


class ScribesWords(Words):
    """The strips that close the gaps between a unit in an alcove and the walls."""

    least: Annotated[float, Length(0, 300)] = word(
        "The narrowest that is left of a scribe", default="25 mm; 30 mm where a door hangs beside it"
    )
    left: Annotated[float, Length(10, 600)] = word(
        "Width that the left one is supplied at", default="the widest gap and 10 mm to plane off"
    )
    right: Annotated[float, Length(10, 600)] = word(
        "Width that the right one is supplied at", default="the widest gap and 10 mm to plane off"
    )
    board: Annotated[str, Reference("boards")] = word("Their board", default="the cabinet's board")
    round_to: Annotated[float, Length(0.1, 100)] = word(
        "Sizes that follow the alcove are rounded down to this", default="10 mm"
    )


class BlindWords(Words):
    """The blind end of a square corner unit, which the neighbour along the other wall stands before."""

    side: Annotated[str, Choice(("left", "right"))] = word("Which end is in the corner", needed=True, such_as='"left"')
    takes: Annotated[float, Length(100, 1500)] = word(
        "What the neighbour takes from the corner: its depth with its doors on", needed=True, such_as="580"
    )
    infill: Annotated[float, Length(20, 300)] = word("What is seen of the blind board beside the door", default="50 mm")
    from_corner: Annotated[float, Length(0, 1000)] = word("How far the unit stands off the corner", default="0")
    handle: Annotated[float, Length(0, 200)] = word("How far the neighbour's handle stands out", default="35 mm")
    board: Annotated[str, Reference("boards")] = word("The board of the blind board", default="the cabinet's board")
    fixed: Annotated[str, Reference("joints")] = word(
        "The recipe that holds it on the carcass", default="pocket screws"
    )


class FaceFrameWords(Words):
    """A frame of stiles and rails on the front of a carcass."""

    board: Annotated[str, Reference("boards")] = word("Its board", needed=True, such_as='"oak19"')
    stile: Annotated[float, Length(10, 300)] = word("Width of its stiles", default="38 mm")
    rail: Annotated[float, Length(10, 300)] = word("Width of its rails", default="38 mm")
    overhang: Annotated[float, Length(0, 200)] = word("How far it stands over each side of the carcass", default="0")
    above: Annotated[float, Length(0, 200)] = word("How far it stands over the top of the carcass", default="0")
    below: Annotated[float, Length(0, 300)] = word("How far it hangs below the carcass", default="0")
    rails: Annotated[str, Choice(get_args(FrameRails))] = word(
        "Top and bottom rail between the stiles, or through from side to side with the stiles between",
        default='"between"',
    )
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe of its members with one another", default="two pocket screws at each end"
    )
    fixed: Annotated[str, Reference("joints")] = word(
        "The recipe that holds it on the carcass", default="pocket screws, in the outsides of the boards"
    )


class FinishWords(Words):
    """Paint, lacquer or oil that adds to the size of what it covers."""

    film: Annotated[float, Length(0.01, 1)] = word("What it adds to each face and edge", needed=True, such_as="0.15")
    when: Annotated[str, Choice(get_args(When))] = word("When it goes on", default='"before assembly"')
    mask: Annotated[str, Choice(get_args(Mask))] = word(
        "What is kept bare: glued surfaces and channels; these and the ends that go into channels; or nothing",
        default='"joints"',
    )


class EveryCabinetWords(Words):
    """What all cabinets have unless they say otherwise: any word of a cabinet but its mark."""

    kind: Annotated[str, Choice(get_args(CabinetKind))] = word("What it is: some checks go by it", default='"open box"')
    count: Annotated[int, Whole(1, 999)] = word("How many alike are made", default="1")
    width: Annotated[float, LengthOr(Length(100, 6000), "rest", alone=True)] = word(
        "Outside width of the carcass; doors and worktop come on top; the rest is what its run leaves for it",
        needed=True, such_as="600",
    )  # fmt: skip
    height: Annotated[float, Length(100, 6000)] = word("Outside height of the carcass", needed=True, such_as="720")
    depth: Annotated[float, Length(60, 6000)] = word(
        "Outside depth of the carcass, back and edging included", needed=True, such_as="320"
    )
    board: Annotated[str, Reference("boards")] = word("The board it is made of", needed=True, such_as='"birch18"')
    shelf_board: Annotated[str, Reference("boards")] = word("The board of its shelves", default="board")
    sides: Annotated[str, Choice(get_args(Corners))] = word(
        "Sides through, top and bottom standing between them; sides between top and bottom; the bottom between the "
        "sides, and the top over them; or all four mitred",
        default='"through"',
    )
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe of its corners, fixed shelves and dividers",
        default="8 x 30 dowels, where no recipe is named at all",
    )
    corner_joint: Annotated[str, Reference("joints")] = word("The recipe of its corners", default="joint")
    shelf_joint: Annotated[str, Reference("joints")] = word("The recipe of its fixed shelves", default="joint")
    divider_joint: Annotated[str, Reference("joints")] = word("The recipe of its dividers", default="joint")
    rail_joint: Annotated[str, Reference("joints")] = word("The recipe of its rails", default="corner_joint")
    rails: Annotated[RailsWords, TableOr("none", "rails = { top_front = 80, top_back = 80 }")] = word(
        "Rails in place of a full top, or to fix it to the wall through", default='"none": a full top'
    )
    feet: Annotated[FeetWords, TableOr("none", 'feet = { style = "legs" }')] = word(
        "What it stands on", default='"none": its own boards, or a wall'
    )
    roof: Annotated[RoofWords, TableOr("none", 'roof = { falls = "right", low = 700 }')] = word(
        "The sloping ceiling that it stands under", default='"none": a level top'
    )
    back: Annotated[BackWords, TableOr("open", 'back = { board = "birch6", style = "grooved all round" }')] = word(
        "Its back", default='"open": no back'
    )
    dividers: Annotated[int, Whole(0, 20)] = word("How many upright dividers, evenly spaced", default="0")
    bays: Annotated[tuple[Any, ...], ListOf(_SPACE_LENGTH, 1, MOST_SPACES, '[400, "rest"]')] = word(
        'Clear widths between the uprights from the left, in place of dividers; "rest" shares what is left'
    )
    fixed_shelves: Annotated[Any, OneOrList(_SHELVES, ListOf(_SHELVES, 1, MOST_SPACES, "[1, 0]"))] = word(
        "How many fixed shelves, evenly spaced; or a list, one number for each bay from the left", default="0"
    )
    openings: Annotated[tuple[Any, ...], ByBay(_HEIGHTS, _HEIGHTS_BY_BAY)] = word(
        'Clear heights from the bottom, in place of fixed_shelves; "rest" shares what is left'
    )
    loose_shelves: Annotated[Any, OneOrList(Whole(0, 100), ByBay(_LOOSE, _LOOSE_BY_BAY))] = word(
        "How many loose shelves on pins, in each bay shared out from the bottom opening up; or a list, one number for "
        "each opening",
        default="0",
    )
    shelf_set_back: Annotated[float, Length(0, 1000)] = word(
        "How far the fronts of the shelves stand behind the front of the carcass",
        default="0; behind inset doors their thickness and 3 mm",
    )
    sides_from: Annotated[str, Reference("drilled_sides")] = word(
        "The drilled sides that it takes from a stock: its height, its depth and its rows of holes follow from them",
        default="none: they are made for it",
    )
    pins: PinsWords = word("The rows of bores for loose shelves", default="5 mm, the rows 37 from front and back")
    edging: Annotated[CabinetEdgingWords, TableOr("none", 'edging = { with = "birch", on = "fronts" }')] = word(
        "What is edged", default='"none"'
    )
    doors: Annotated[DoorsWords, TablesOr("none", 'doors = { hung = "pair" }')] = word(
        "Its doors; several tables where they differ from bay to bay or one above another", default='"none"'
    )
    drawers: Annotated[DrawersWords, TablesOr("none", 'drawers = { number = 3, bottom_board = "birch6" }')] = word(
        "Its drawers; several tables where they stand in several openings or differ from bay to bay", default='"none"'
    )
    stiffeners: Annotated[StiffenersWords, TableOr("none", "stiffeners = { depth = 40 }")] = word(
        "Strips on edge under the front edges of shelves, against sagging", default='"none"'
    )
    part_dividers: Annotated[PartDividerWords, TablesOr("none", "part_dividers = { opening = 1, number = 2 }")] = word(
        "Part-height dividers; several tables where they stand in several openings or differ from bay to bay",
        default='"none"',
    )
    clothes_rails: Annotated[ClothesRailWords, TablesOr("none", "clothes_rails = { opening = 1 }")] = word(
        "Rails for clothes; several tables where they stand in several openings or differ from bay to bay",
        default='"none"',
    )
    fronts_on_grid: Annotated[bool, Switch()] = word(
        "Whether every front is a whole number of modules of 32 mm high, less the gap, with hinge plates and runners "
        "at the heights of the pins' grid",
        default="false",
    )
    blind: Annotated[BlindWords, TableOr("none", 'blind = { side = "left", takes = 580 }')] = word(
        "Its blind end, where it stands in a corner", default='"none"'
    )
    face_frame: Annotated[FaceFrameWords, TableOr("none", 'face_frame = { board = "oak19" }')] = word(
        "A frame of stiles and rails on its front; it comes on top of the depth", default='"none"'
    )
    finish: Annotated[FinishWords, TableOr("none", "finish = { film = 0.15 }")] = word(
        "A finish that adds to the size of what it covers: it enters margins and channels, never what is glued or sawn",
        default='"none"',
    )
    contents: ContentsWords = word("What will stand inside", default="not said")
    notes: Annotated[str, Text(2000, lines=True)] = word("What the bench should know of this cabinet")
    hanging: Annotated[HangingWords, TableOr("none", 'hanging = { style = "split batten", wall = "brick" }')] = word(
        "How it hangs on a wall", default='"none": it stands'
    )
    room: Annotated[str, Choice(get_args(Room))] = word("The air where it stands", default='"heated"')
    alcove: Annotated[str, Reference("surveys")] = word(
        "The surveyed opening that it stands in: width, height and depth that it does not say itself follow from it",
        default="none",
    )
    above_floor: Annotated[float, Length(0, 4000)] = word(
        "In an alcove: from the highest point of the floor up to the carcass", default="as high as its feet, else 0"
    )
    appliance: Annotated[Any, OneOrList(_HOUSED, ListOf(_HOUSED, 1, 9, _OVEN_AND_OTHER), wrap=True)] = word(
        "The appliance that it houses, or a list of them, in which opening from the bottom (the first where it is not "
        "said): the opening's height follows, and the cabinet's width where it is not said",
        default="none",
    )
    scribes: ScribesWords = word("Its scribes in an alcove", default="25 mm or more each side")
    sag: SagWords = word("How far its shelves may sag", default="1 in 400 after creep; as new 1 in 240, and 6.4 mm")


class CabinetWords(EveryCabinetWords):
    """A cabinet. Whatever it does not say is taken from [every_cabinet]."""

    mark: Annotated[str, Pattern("[A-Z]{1,3}", "G", "one to three capitals")] = word(
        "What its boards are marked with: G1-LS is the left side of the first G", default="made from its name"
    )


class MoneyWords(Words):
    """What the shop's time costs, and over what a machine that is bought is spread. For `rodwork compare`."""

    hour: Annotated[Any, Price()] = word(
        "An hour at the bench, overheads in", default=f"{starting_values().hour} pounds, a starting value"
    )
    cabinets_to_come: Annotated[int, Whole(1, 100_000)] = word(
        "How many cabinets a machine that is bought is spread over",
        default=f"{starting_values().cabinets_to_come}, a starting value",
    )
    one_pound: Annotated[Any, Price()] = word(
        "What one pound of the starting values is in the job's currency",
        default="1 where the currency is GBP; else no starting price is used",
    )


class PriceWords(Words):
    """What a fitting costs. NAME is what the buying list calls it: "dowel 8x30". The name glue is by the litre."""

    price: Annotated[Any, Price()] = word("What the packet costs", needed=True, such_as="6.40")
    pieces: Annotated[int, Whole(1, 1_000_000)] = word("How many are in the packet", default="1")


class MachineWords(Words):
    """A machine by the name that `rodwork compare` gives it: "dowel jig", "router"."""

    owned: Annotated[bool, Switch()] = word("Whether the shop has it", default="as most shops have")
    price: Annotated[Any, Price()] = word("What one costs", default="a starting value, where there is one")


def _times_words() -> type[Words]:
    """Minutes by what is done, with the starting value of each."""
    table: dict[str, Any] = {
        name: (Annotated[Any, Minutes()], word(row.about, default=f"{row.minutes}, a starting value"))
        for name, row in starting_values().times.items()
    }
    return create_model("TimesWords", __base__=Words, __doc__="Minutes for one of what is done.", **table)


TimesWords = _times_words()


_HEIGHT = Length(-5000, 5000)
_SERVICE_AT = Length(-5000, 20000)
_READINGS = "[1212, 1206, 1215]"
MOST_READINGS = 12


def _readings(low: float, high: float, such_as: str) -> ListOf:
    return ListOf(Length(low, high), 1, MOST_READINGS, such_as)


class PlumbWords(Words):
    """How a wall leans: so much in so much height, or from a plumb line at each height."""

    out: Annotated[float, Length(-300, 300)] = word(
        "How far it leans into the opening from its foot to its top; below nought where it leans away"
    )
    height: Annotated[float, Length(100, 6000)] = word("In so much height", such_as="2400")
    readings: Annotated[tuple[float, ...], _readings(-300, 300, "[0, 3, 6]")] = word(
        "Or how far into the opening it stands at each of the heights, from one plumb line"
    )


class MouldingWords(Words):
    """A skirting or a cornice."""

    height: Annotated[float, Length(5, 1000)] = word("Its height", such_as="120")
    out: Annotated[float, Length(1, 500)] = word("How far it stands out of the wall", such_as="18")
    taken_out: Annotated[bool, Switch()] = word("Whether it is cut away where the unit comes", default="false")


class SurveyWords(Words):
    """A wall, or an opening between two walls, measured off a level line."""

    heights: Annotated[tuple[float, ...], ListOf(_HEIGHT, 1, MOST_READINGS, "[-900, 0, 1300]")] = word(
        "Where widths, depths and plumb were read: up from the level line, below nought down from it; from the lowest",
        default="[0]: on the level line",
    )
    widths: Annotated[tuple[float, ...], _readings(100, 20000, _READINGS)] = word(
        "Wall to wall at those heights, at the front; of a wall alone its length", needed=True, such_as=_READINGS
    )
    back_widths: Annotated[tuple[float, ...], _readings(100, 20000, "[1209, 1203, 1211]")] = word(
        "The same at the back of the opening", default="widths"
    )
    depths: Annotated[tuple[float, ...], _readings(20, 6000, "[340, 338, 342]")] = word(
        "Front of the opening to the back wall at those heights, at the left", default="a wall alone, no opening"
    )
    right_depths: Annotated[tuple[float, ...], _readings(20, 6000, "[344, 341, 345]")] = word(
        "The same at the right", default="depths"
    )
    left_plumb: PlumbWords = word("How the left wall leans", default="by the diagonals, else taken as plumb")
    right_plumb: PlumbWords = word("How the right wall leans", default="by the left wall and the widths")
    diagonals: Annotated[tuple[float, ...], ListOf(Length(100, 25000), 2, 2, "[2504, 2498]")] = word(
        "At the front, between the lowest and the highest of the heights: bottom left to top right, then bottom right "
        "to top left"
    )
    plan_diagonals: Annotated[tuple[float, ...], ListOf(Length(100, 25000), 2, 2, "[1257, 1254]")] = word(
        "On plan, at the height nearest the line: front left to back right, then front right to back left",
        default="the left wall is square to the front",
    )
    floor: Annotated[tuple[float, ...], _readings(-5000, 0, "[-1000, -1008]")] = word(
        "The floor at the front at even steps from left to right, below nought: down from the level line",
        default="[-1000]",
    )
    back_floor: Annotated[tuple[float, ...], _readings(-5000, 0, "[-1002, -1008]")] = word(
        "The same at the back", default="floor"
    )
    ceiling: Annotated[tuple[float, ...], _readings(0, 8000, "[1400, 1396]")] = word(
        "The ceiling at even steps from left to right, up from the level line", default="not measured"
    )
    skirting: MouldingWords = word("The skirting, on every wall of it", default="none")
    cornice: MouldingWords = word("The cornice under the ceiling", default="none")


class ServiceWords(Words):
    """A socket, pipe or the like that must not be covered."""

    survey: Annotated[str, Reference("surveys")] = word(
        "The survey it was measured in", needed=True, such_as='"alcove"'
    )
    what: Annotated[str, Choice(get_args(ServiceKind))] = word("What it is", needed=True, such_as='"socket"')
    wall: Annotated[str, Choice(get_args(SurveyedWall))] = word("On which wall", default='"back"')
    low: Annotated[tuple[float, ...], ListOf(_SERVICE_AT, 2, 2, "[300, -700]")] = word(
        "Its lower corner: along the wall, then up from the level line (below nought: down). Along the back wall from "
        "the left wall, along a side wall from the front",
        needed=True,
        such_as="[300, -700]",
    )
    size: Annotated[tuple[float, ...], ListOf(Length(5, 3000), 2, 2, "[146, 86]")] = word(
        "Its size along the wall and up", needed=True, such_as="[146, 86]"
    )
    out: Annotated[float, Length(0, 300)] = word("How far it stands out of the wall", default="0")


class SawWords(Words):
    """The saw that the sheets are cut with, and how the shop works with it."""

    kind: Annotated[str, Choice(get_args(SawKind))] = word(
        "A track saw or panel saw cuts right across the piece in hand; a router goes round every part",
        default='"track saw"',
    )
    kerf: Annotated[float, Length(0, 20)] = word(
        "What the blade takes; of a router the cutter and what is left beside it", default="3 mm; 8 mm for a router"
    )
    trim: Annotated[Any, OneOrList(Length(0, 100), ListOf(Length(0, 100), 4, 4, "[10, 5, 10, 5]"))] = word(
        "What the trim cuts take off a new sheet, blade included: all round, or left end, right end, lower edge, "
        "upper edge",
        default="5 mm",
    )
    rail: Annotated[float, Length(300, 6000)] = word(
        "The longest cut without moving the rail: longer ones are marked", default="any"
    )
    levels: Annotated[int, Whole(2, 9)] = word(
        "How often the way of cutting may change on one sheet; a last cut that parts a board from waste is free",
        default="3 for a panel saw; for a track saw as often as wanted",
    )
    first: Annotated[str, Choice(get_args(FirstCut))] = word(
        "Which way a whole sheet is cut first: along its length or across", default='"either"'
    )
    longest: Annotated[float, Length(300, 6000)] = word("The longest cut that the saw can make", default="any")
    least_strip: Annotated[float, Length(0, 500)] = word("The narrowest strip that the saw can hold", default="0: any")
    rough: Annotated[float, Length(0, 50)] = word(
        "How much over size boards are broken down, to be sized in sets at one stop", default="0: cut to size at once"
    )


class StockWords(Words):
    """Sheets of another size than the board's own, or more of it at another price."""

    board: Annotated[str, Reference("boards")] = word("Its board", needed=True, such_as='"birch18"')
    size: Annotated[tuple[float, float], ListOf(Length(100, 6000), 2, 2, "[3050, 1525]")] = word(
        "Its length and width, along the grain first", needed=True, such_as="[3050, 1525]"
    )
    price: Annotated[Any, Price()] = word("What a sheet costs", default="as the board's own, by area")
    count: Annotated[int, Whole(1, 9999)] = word("How many there are", default="as many as are wanted")


class OffcutWords(Words):
    """An offcut that the shop has: used where it saves a sheet, but not at any price."""

    board: Annotated[str, Reference("boards")] = word("Its board", needed=True, such_as='"birch18"')
    size: Annotated[tuple[float, float], ListOf(Length(20, 6000), 2, 2, "[900, 400]")] = word(
        "Its length and width, along the grain first", needed=True, such_as="[900, 400]"
    )
    count: Annotated[int, Whole(1, 999)] = word("How many there are", default="1")


class MatchedWords(Words):
    """Boards sawn out of one piece so that the figure of the wood runs on over them."""

    marks: Annotated[tuple[str, ...], ListOf(Text(40), 2, 20, '["D1-F1", "D1-F2"]', once=True)] = word(
        "Their marks in order, from the left, or from the bottom up", needed=True, such_as='["D1-F1", "D1-F2"]'
    )
    run: Annotated[str, Choice(get_args(Run))] = word(
        "Whether they follow each other along the grain, or lie beside each other across it", default='"along"'
    )


class CuttingWords(Words):
    """What the maker wants of the cutting plan."""

    least_offcut: Annotated[tuple[float, float], ListOf(Length(10, 6000), 2, 2, "[200, 600]")] = word(
        "The smallest leftover that is worth keeping", default="[200, 600]"
    )
    offcut_share: Annotated[float, Amount(0, 100, "% of the price of its area")] = word(
        "What an offcut of the shop counts when it is used", default="40"
    )
    buy: Annotated[bool, Switch()] = word(
        "Whether sheets may be bought; false: only what stands under stock and offcuts", default="true"
    )
    may_turn: Annotated[
        tuple[str, ...], ListOf(Choice(get_args(Role)), 1, len(get_args(Role)), '["back"]', once=True)
    ] = word("Boards that may lie across the grain all the same")
    spare: Annotated[float, Length(0, 100)] = word("Left on each length and width when it is sawn", default="0")
    spare_on: Annotated[
        tuple[str, ...], ListOf(Choice(get_args(Role)), 1, len(get_args(Role)), '["scribe"]', once=True)
    ] = word("Which boards have the spare", default="every board")
    one_sheet: Annotated[tuple[str, ...], ListOf(Text(60), 1, 100, '["glaze"]', once=True)] = word(
        "Cabinets whose boards of one kind come from one sheet, each copy by itself"
    )


class PlinthWords(Words):
    """The plinth board of a run, from the floor to the carcasses, in lengths that join under a cabinet."""

    board: Annotated[str, Reference("boards")] = word("Its board", default="the run's board")
    set_back: Annotated[float, Length(0, 300)] = word("Its face behind the fronts of the carcasses", default="50 mm")
    clear: Annotated[float, Length(0, 60)] = word(
        "How much lower it is than the carcasses stand above the floor at its high point", default="5 mm"
    )


class CorniceWords(Words):
    """A board on edge over the carcasses of a run, or under them, with a return at each free end."""

    height: Annotated[float, Length(10, 400)] = word("How high", needed=True, such_as="60")
    board: Annotated[str, Reference("boards")] = word("Its board", default="the run's board")
    forward: Annotated[float, Length(0, 200)] = word(
        "Its face before the fronts of the carcasses", default="0: it stands on their own front edges"
    )


_CUT_OUT = Inline(
    words={
        "for": Text(60), "width": Length(50, 3000), "depth": Length(50, 1500), "radius": Length(0, 400),
        "from_front": Length(0, 1500), "over": Whole(1, 60), "at": Length(0, 30_000),
    },
    needed=("for", "width", "depth"),
    such_as='{ for = "sink", over = 2, width = 560, depth = 480, radius = 15 }',
)  # fmt: skip


class WorktopWords(Words):
    """The worktop of a run."""

    board: Annotated[str, Reference("boards")] = word("Its board", needed=True, such_as='"top40"')
    front: Annotated[float, Length(0, 400)] = word(
        "How far it stands before the fronts of the carcasses", default="40 mm: a door, its buffers and 20 to spare"
    )
    depth: Annotated[float, Length(100, 2000)] = word(
        "Its depth, in place of front", default="front, the deepest carcass and behind"
    )
    ends: Annotated[tuple[float, float], ListOf(Length(0, 400), 2, 2, "[10, 10]")] = word(
        "How far it stands over the left and the right end of the run, where there is no wall", default="[10, 10]"
    )
    joint: Annotated[str, Reference("joints")] = word(
        "The recipe that joins its lengths, edge to edge", default="none: it must come in one length"
    )
    joints_at: Annotated[tuple[float, ...], ListOf(Length(1, 30_000), 1, 20, "[1800]", once=True)] = word(
        "Where its lengths are joined, from the left end of the run",
        default="as even as sheets, gaps and cut-outs allow",
    )
    cut_outs: Annotated[tuple[Any, ...], ListOf(_CUT_OUT, 1, 20, f"[{_CUT_OUT.such_as}]")] = word(
        "Cut-outs by the template that comes with the sink or hob: over which thing in the run, counted from the left, "
        "or `at` so far from its left end to the middle; `from_front` of the worktop, 60 mm where it is not said",
        default="none",
    )
    upstand: Annotated[float, Length(10, 400)] = word("Height of an upstand along the wall", default="none")
    upstand_board: Annotated[str, Reference("boards")] = word("Its board", default="the run's board")


class RunScrewWords(Words):
    """Screws that hold neighbours together, bored through both sides in place."""

    heights: Annotated[tuple[float, ...], ListOf(Length(20, 3000), 1, 12, "[100, 620]", once=True)] = word(
        "Their heights from the underside of the carcasses", default="a low and a high bore of pin rows that both have"
    )
    front: Annotated[float, Length(15, 500)] = word(
        "From the fronts of the carcasses, where heights are said", default="37 mm"
    )


_IN_RUN = InRun(
    gap=Inline(
        words={"gap": LengthOrName(Length(1, 3000), "appliances"), "for": Text(60), "worktop": Switch()},
        needed=("gap",),
        such_as='{ gap = 602, for = "dishwasher" }',
    ),
    infill=Inline(
        words={"infill": LengthOr(Length(10, 600), "rest"), "board": Reference("boards")}, needed=("infill",),
        such_as='{ infill = "rest" }',
    ),
    panel=Inline(words={"panel": Reference("boards")}, needed=("panel",), such_as='{ panel = "birch18" }'),
)  # fmt: skip


class RunWords(Words):
    """Cabinets side by side, with the boards that go along them."""

    of: Annotated[tuple[Any, ...], ListOf(_IN_RUN, 1, 60, '["bench", { gap = 602, for = "dishwasher" }, "bench"]')] = (
        word("What stands in it, from the left; a cabinet as often as its count allows", needed=True,
             such_as='["bench", { gap = 602, for = "dishwasher" }, "bench"]')
    )  # fmt: skip
    where: Annotated[str, Text(100)] = word("Where it goes, for the labels", such_as='"Kiln room, wall B"')
    length: Annotated[float, Length(100, 30_000)] = word(
        "Clear length that it has, between walls or from a wall", default="as long as what stands in it"
    )
    walls: Annotated[str, Choice(get_args(WallsAt))] = word(
        "At which of its ends a wall stands", default='"both" where length or a survey is said, else "none"'
    )
    starts: Annotated[str, Choice(get_args(StartsAt))] = word(
        "The end from which it is set out and fitted: what is left over falls at the other; a survey knows the high "
        "point of the floor",
        default='"left"',
    )
    survey: Annotated[str, Reference("surveys")] = word(
        "The wall or opening as it was surveyed: its clear length, its floor, how its walls lean",
        default="none: length says it",
    )
    above_floor: Annotated[float, Length(0, 3000)] = word(
        "Height of the undersides of the carcasses above the high point of the floor",
        default="as high as the feet under its cabinets, else 0",
    )
    behind: Annotated[float, Length(0, 600)] = word(
        "Clear depth between the deepest carcass and the wall, for services", default="0"
    )
    board: Annotated[str, Reference("boards")] = word(
        "The board of its infills and strips", default="the board of its first cabinet's doors, else of that cabinet"
    )
    edging: Annotated[str, Reference("edgings")] = word(
        "What the front edges of worktop and end panels and the free ends of a worktop are edged with", default="none"
    )
    scribe: Annotated[float, Length(0, 100)] = word("What an infill at a wall has over, to be scribed", default="10 mm")
    plinth: Annotated[PlinthWords, TableOr("none", "plinth = { set_back = 50 }")] = word(
        "Its plinth board", default='"none"'
    )
    worktop: Annotated[WorktopWords, TableOr("none", 'worktop = { board = "top40" }')] = word(
        "Its worktop", default='"none"'
    )
    cornice: Annotated[CorniceWords, TableOr("none", "cornice = { height = 60 }")] = word(
        "A board over the carcasses", default='"none"'
    )
    pelmet: Annotated[CorniceWords, TableOr("none", "pelmet = { height = 40 }")] = word(
        "A board under the carcasses, to hide a light", default='"none"'
    )
    doors: Annotated[str, Choice(get_args(DoorsAlike))] = word(
        "Whether all its doors are equally wide, or as their cabinets make them", default='"by cabinet"'
    )
    screws: Annotated[RunScrewWords, TableOr("none", "screws = { heights = [100, 620] }")] = word(
        "Screws through neighbours", default="through pin rows that both have"
    )
    notes: Annotated[str, Text(2000, lines=True)] = word("What the bench should know of this run")


SECTIONS: dict[str, tuple[type[Words], bool]] = {  # the table, and whether it has a NAME: [boards.NAME]
    "job": (JobWords, False),
    "shop": (ShopWords, False),
    "boards": (BoardWords, True),
    "edgings": (EdgingWords, True),
    "measured": (MeasuredWords, True),
    "saw": (SawWords, False),
    "stock": (StockWords, True),
    "offcuts": (OffcutWords, True),
    "matched": (MatchedWords, True),
    "cutting": (CuttingWords, False),
    "joints": (RecipeWords, True),
    "fittings": (FittingWords, True),
    "money": (MoneyWords, False),
    "prices": (PriceWords, True),
    "times": (TimesWords, False),
    "machines": (MachineWords, True),
    "every_cabinet": (EveryCabinetWords, False),
    "cabinets": (CabinetWords, True),
    "runs": (RunWords, True),
    "walls": (WallWords, True),
    "tested": (TestedWords, True),
    "surveys": (SurveyWords, True),
    "services": (ServiceWords, True),
    "appliances": (ApplianceWords, True),
    "drilled_sides": (DrilledSidesWords, True),
}


def setting_words(settings: type) -> dict[str, str]:
    """The words of a family's settings, and the field that each stands for: first for first_mm.

    Where the short word is another setting's already, the length keeps its unit.
    """
    known = {f.name: f.metadata for f in fields(settings) if f.metadata}
    words = {}
    for name, said in known.items():
        short = name.removesuffix("_mm")
        words[short if "length" in said and short not in known else name] = name
    return words


@cache
def family_words(family: str, settings: type, bought: bool = False) -> type[Words]:
    """The table of one family in a recipe, or of a `bought` fitting of it, from what its settings say of themselves."""
    by_name = {f.name: f for f in fields(settings)}
    table: dict[str, Any] = {"family": (Annotated[str, Choice((family,))], word("Which family", needed=True))}
    for key, name in setting_words(settings).items():
        about, default = by_name[name].metadata["about"], by_name[name].default
        table[key] = (Annotated[Any, _kind(by_name[name].metadata)], word(about, default=_default(default)))
    if not bought:
        about = "The fitting of [fittings.NAME] whose sizes it takes, where nothing else is written here"
        table["fitting"] = (Annotated[str, Reference("fittings")], word(about))
    return create_model(
        f"{family}{'_bought' if bought else ''}_words", __base__=Words, __doc__=_first_line(settings), **table
    )


def _kind(said: Any) -> Kind:
    """The kind of value that a setting's metadata describes."""
    if "length" in said:
        return Length(said["low"], said["high"])
    if "options" in said:
        return Choice(tuple(said["options"]))
    if "switch" in said:
        return Switch()
    if "pattern" in said:
        return Pattern(said["pattern"], said["example"])
    return Whole(said["low"], said["high"])


def _default(value: Any) -> str | None:
    if value is None or isinstance(value, bool):
        return None if value is None else str(value).lower()
    return f'"{value}"' if isinstance(value, str) else f"{value:g}"


def _first_line(settings: type) -> str:
    return (settings.__doc__ or "").strip().split("\n")[0]
