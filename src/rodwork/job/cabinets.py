"""Cabinets of the job file: each with what [every_cabinet] says where it is silent, and all names looked up."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from rodwork.job.alcoves import NoRoom, ask_of, cut_out_of, cut_outs, hinged_sides, stand_in
from rodwork.job.appliances import with_openings, wrong_opening
from rodwork.job.clothes_rails import clothes_rail_of
from rodwork.job.demand import contents_of, hanging_of, one_way_contents, sag_of
from rodwork.job.drilled_sides import pins_in
from rodwork.job.faults import shown
from rodwork.job.fronts import BEHIND_INSET_MM, blind_of, doors_of, drawers_of, face_frame_of
from rodwork.job.in_bays import doors_in, in_bays, is_by_bay, openings_by_bay, openings_named
from rodwork.job.inside import feet_of, part_dividers_of, rails_of
from rodwork.job.lines import Path
from rodwork.job.marks import marks
from rodwork.job.recipes import on_a_slope, on_carcass, recipe_left_to_us, under_a_shelf
from rodwork.job.tables import Given, Reading, lacks, read_named, read_table, unknown_name
from rodwork.job.under_roof import roof_of
from rodwork.job.words import (
    BackWords,
    BlindWords,
    BoughtDoorWords,
    CabinetEdgingWords,
    CabinetWords,
    ClothesRailWords,
    DoorsWords,
    DrawersWords,
    EveryCabinetWords,
    FaceFrameWords,
    FeetWords,
    FinishWords,
    HangingWords,
    PartDividerWords,
    RoofWords,
    StiffenersWords,
)
from rodwork.model.alcove import Alcove
from rodwork.model.clothes_rail import ClothesRailAsked
from rodwork.model.demand import Contents, Hanging, Wall
from rodwork.model.drilled_sides import DrilledSides
from rodwork.model.finish import Finish
from rodwork.model.fronts import BlindEnd, Doors, Drawers, FaceFrame
from rodwork.model.job import (
    Appliance,
    Back,
    Cabinet,
    CabinetEdging,
    Feet,
    Housed,
    InBay,
    PartDividers,
    Pins,
    Place,
    Rails,
    Recipe,
    RoofAsked,
)
from rodwork.model.stiffener import StiffenersAsked
from rodwork.model.survey import Survey

MOST_CABINETS = 2000
NEEDED = ("width", "height", "depth", "board")
ONLY_BOARD = ("board",)  # in an alcove, sizes that are not written follow it
OF_ALCOVES = ("above_floor", "scribes")
INSTEAD_OF_EACH_OTHER = (("dividers", "bays"), ("fixed_shelves", "openings"))
NAME_ONE_INSIDE = (
    "back",
    "feet",
    "roof",
    "face_frame",
    "blind",
    "drawers",
    "stiffeners",
)  # tables with a recipe of their own
PLACES_OF_JOINTS = ("corner_joint", "shelf_joint", "divider_joint")


@dataclass(frozen=True, slots=True)
class Shared:
    """What the cabinets of a job refer to: by name, None where one is written but wrong."""

    boards: Mapping[str, Any]
    edgings: Mapping[str, Any]
    recipes: Mapping[str, Recipe | None]
    families: Mapping[str, type]
    walls: Mapping[str, Wall | None] = field(default_factory=dict)
    surveys: Mapping[str, Survey | None] = field(default_factory=dict)
    appliances: Mapping[str, Appliance | None] = field(default_factory=dict)
    cabinets: Mapping[str, None] = field(default_factory=dict)
    drilled_sides: Mapping[str, DrilledSides | None] = field(default_factory=dict)
    in_runs: frozenset[str] = frozenset()  # the recipes that worktops name


def read_cabinets(every: Any, section: Any, shared: Shared, reading: Reading) -> tuple[Cabinet, ...]:
    """Every cabinet that is sound; the faults of all."""
    tables = read_named("cabinets", section, CabinetWords, "cabinet", reading)
    if len(tables) > MOST_CABINETS:
        reading.fault(
            ("cabinets",), f"there are {len(tables)} cabinets", f"Cut the job into several of {MOST_CABINETS}"
        )
        return ()
    default = _every(every, reading)
    own = {name: _own(name, raw, reading) for name, raw in tables.items()}
    given_marks = {name: given.get("mark") for name, given in own.items() if given.get("mark")}
    _marks_once(given_marks, reading)
    _recipes_used(default, own, shared, reading)
    all_marks = marks(own, given_marks)
    made = [_Maker(name, all_marks[name], given, default, shared, reading).cabinet() for name, given in own.items()]
    return tuple(cabinet for cabinet in made if cabinet)


def _every(raw: Any, reading: Reading) -> Given:
    """What [every_cabinet] says; None where it is misspelt, and then any word may stand there."""
    path = ("every_cabinet",)
    if raw is None:
        return Given(path=path, wrong=frozenset(EveryCabinetWords.model_fields))
    given = read_table(EveryCabinetWords, raw, path, "[every_cabinet]", reading, whole=False)
    _not_both(given, reading)
    return given


def _own(name: str, raw: Any, reading: Reading) -> Given:
    given = read_table(CabinetWords, raw, ("cabinets", name), f"the cabinet {shown(name)}", reading, whole=False)
    _not_both(given, reading)
    return given


def _not_both(given: Given, reading: Reading) -> None:
    for number, sizes in INSTEAD_OF_EACH_OTHER:
        if given.says(number) and given.says(sizes):
            reading.fault(
                (*given.path, sizes), f"{number} and {sizes} say the same thing in two ways",
                f"Keep {number} for even spaces, or {sizes} for the clear sizes",
            )  # fmt: skip


def _marks_once(given: Mapping[str, str], reading: Reading) -> None:
    first: dict[str, str] = {}
    for name, mark in given.items():
        other = first.setdefault(mark, name)
        if other != name:
            reading.fault(
                ("cabinets", name, "mark"), f"the mark {mark} is {shown(other)}'s already",
                "Give this cabinet another mark, or leave it out for one to be made",
            )  # fmt: skip


def _names_one(inside: Any) -> bool:
    """Whether a table inside a cabinet, or one of several, names a recipe."""
    each = inside if isinstance(inside, tuple | list) else (inside,)
    return any(isinstance(table, dict) and ("joint" in table or "fixed" in table) for table in each)


def _recipes_used(default: Given, own: Mapping[str, Given], shared: Shared, reading: Reading) -> None:
    """A recipe is written for a reason: where nothing names one, a line was forgotten."""
    words = ("joint", *PLACES_OF_JOINTS, "rail_joint")
    tables = (default, *own.values())
    idle = [name for name in shared.recipes if name not in shared.in_runs]
    if not idle or not own or any(given.says(word) for given in tables for word in words):
        return
    if any(_names_one(given.get(word)) for given in tables for word in NAME_ONE_INSIDE):
        return
    name = idle[0]
    reading.fault(
        ("joints", name), "no cabinet names a recipe, though there is one here",
        f"Write joint = {shown(name)} in a cabinet or under [every_cabinet], or take the recipe out",
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Table:
    """One table inside a cabinet, of a word that may have several: what it says, and where it stands."""

    said: Mapping[str, Any]
    path: Path

    def at(self, word: str) -> Path:
        """Where a word of it stands."""
        return (*self.path, word)


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes one cabinet of its own words and those of every cabinet."""

    name: str
    mark: str
    own: Given
    every: Given
    shared: Shared
    reading: Reading

    def cabinet(self) -> Cabinet | None:
        """The cabinet, or None where it is not sound; the faults are noted."""
        before = len(self.reading.faults)
        self._needs()
        bays = self._spaces("dividers", "bays")
        heights = openings_by_bay(self._get("openings"), self._get("fixed_shelves", 0), len(bays), self._fault_in)
        houses = self._houses(heights[0], bays)
        if houses:
            heights = (with_openings(heights[0], houses),)
        inside = in_bays(heights, self._get("loose_shelves", 0), self._fault_in)
        board = self._look_up("board", self.shared.boards, "boards")
        shelf_board = self._look_up("shelf_board", self.shared.boards, "boards") or board
        back, edging, contents, hanging = self._back(), self._edging(), self._contents(), self._hanging()
        frame = self._face_frame()
        drawers = self._drawers(board, inside, frame)
        doors = self._doors(board, inside, drawers, frame)
        shelves, parted = any(len(openings) > 1 for openings in heights), self._part_dividers(inside)
        corner, shelf, divider = self._joints(fixed_shelves=shelves, dividers=len(bays) > 1 or bool(parted))
        drilled, clothes = self._drilled_sides(), self._clothes_rails(inside)
        rails, rail_joint = self._rails(), self._recipe_for("rail_joint")
        stiffeners = self._stiffeners(shelf_board)
        feet, roof = self._feet(board), self._roof()
        lifts = feet.height_mm if feet is not None and feet.style != "notched sides" else 0.0
        alcove = self._alcove(board, lifts, hinged_sides(doors, len(bays)), hanging is not None)
        if alcove and back and board:
            thick, own = self.shared.boards[board].actual_mm, back.cut_outs
            back = replace(back, cut_outs=(*own, *cut_outs(alcove, thick, own)))
        asked = self._get("width")
        if asked is None and houses and board:
            asked = max(h.appliance.opening_mm[0] for h in houses) + 2 * self.shared.boards[board].actual_mm
        by_run = alcove is None and asked == "rest"
        asked = 0.0 if by_run else asked
        width, height, depth = alcove.size if alcove else (asked, self._get("height"), self._get("depth"))
        if drilled is not None and alcove is None:
            planted = back is not None and back.style == "planted" and self.shared.boards[back.board].actual_mm
            height, depth = height or drilled.height_mm, depth or drilled.depth_mm + (planted or 0.0)
        wrong = self.own.wrong or self.every.wrong or len(self.reading.faults) > before or width is None
        if wrong or not (board and shelf_board and corner and shelf and divider):
            return None
        return Cabinet(
            name=self.name, mark=self.mark, kind=self._get("kind", "open box"), count=self._get("count", 1),
            width_mm=width, height_mm=height, depth_mm=depth, alcove=alcove, houses=houses,
            board=board, shelf_board=shelf_board, sides=self._get("sides", "through"),
            corner_joint=corner, shelf_joint=shelf, divider_joint=divider, back=back, bays=bays, in_bays=inside,
            by_bay=self._by_bay(), shelf_set_back_mm=self._get("shelf_set_back", self._behind(doors)),
            pins=self._pins() if drilled is None else pins_in(drilled), edging=edging, drilled=drilled,
            contents=contents, notes=self._get("notes"), place=Place(path=self.own.path), hanging=hanging,
            room=self._get("room", "heated"), sag=sag_of(self._table("sag")), doors=doors, drawers=drawers,
            finish=self._finish(), face_frame=frame, blind=self._blind(board),
            rails=rails, rail_joint=rail_joint, feet=feet, by_run=by_run, roof=roof,
            on_grid=self._get("fronts_on_grid", False), clothes_rails=clothes,
            stiffeners=stiffeners, part_dividers=parted,
        )  # fmt: skip

    def _from(self, word: str) -> Given | None:
        """The table that settles a word: the cabinet's own, else every cabinet's."""
        if self.own.says(word):
            return self.own
        for pair in INSTEAD_OF_EACH_OTHER:
            if word in pair and any(self.own.says(other) for other in pair):
                return None  # what the cabinet says in one way is not overruled by the other
        return self.every if self.every.says(word) else None

    def _get(self, word: str, default: Any = None) -> Any:
        table = self._from(word)
        return default if table is None else table.get(word, default)

    def _path(self, *words: str) -> Path:
        """Where a word is written, for the line of a fault."""
        table = self._from(words[0])
        if len(words) > 1 and table is self.own and words[1] not in (self.own.get(words[0]) or ()):
            table = self.every if self.every.says(words[0]) else self.own
        return (*(table or self.own).path, *words)

    def _spoilt(self, *words: str) -> bool:
        """Whether one of these words, or something in it, is wrong and has had its fault."""
        return any(word in self.own.wrong or word in self.every.wrong for word in words)

    def _needs(self) -> None:
        housed, drilled = self._from("appliance") is not None, self._from("sides_from") is not None
        for word in ONLY_BOARD if self._from("alcove") else NEEDED:
            followed = (housed and word == "width") or (drilled and word in ("height", "depth"))
            if self._from(word) is None and not followed:
                self.reading.fault(self.own.path, *lacks(CabinetWords, word, f"the cabinet {shown(self.name)}"))

    def _look_up(self, word: str, names: Mapping[str, Any], section: str) -> str | None:
        name = self._get(word)
        return self._named(name, names, section, self._path(word)) if name is not None else None

    def _named(self, name: str, names: Mapping[str, Any], section: str, path: Path) -> str | None:
        """The name, if there is such a thing. One that is written but wrong has had its fault."""
        if name not in names:
            self.reading.fault(path, *unknown_name(name, names, section))
            return None
        return name if names[name] is not None else None

    def _table(self, word: str) -> Mapping[str, Any] | None:
        """A table inside a cabinet: what every cabinet has, and over it what this one says."""
        own, every = self.own.get(word), self.every.get(word)
        if isinstance(own, dict):
            return {**every, **own} if isinstance(every, dict) else own
        value = own if self.own.says(word) else every
        return value if isinstance(value, dict) else None

    def _spaces(self, number: str, sizes: str) -> tuple[Any, ...]:
        """Clear spaces as written, or so many even ones."""
        written: tuple[Any, ...] | None = self._get(sizes)
        return written if written is not None else ("rest",) * (self._get(number, 0) + 1)

    def _by_bay(self) -> bool:
        """Whether what stands inside is said bay by bay."""
        said = [self._get(word) for word in ("openings", "loose_shelves")]
        return any(is_by_bay(one) for one in said) or isinstance(self._get("fixed_shelves"), tuple)

    def _fault_in(self, word: str, what: str, mend: str) -> None:
        """A fault of what stands in the bays, unless it follows from one that is told already."""
        if not self._spoilt("dividers", "bays", "fixed_shelves", "openings"):
            self.reading.fault(self._path(word), what, mend)

    def _joints(self, fixed_shelves: bool, dividers: bool) -> tuple[Recipe | None, Recipe | None, Recipe | None]:
        """Recipes of corners, shelves and dividers: the nearest that is named."""
        self._look_up("joint", self.shared.recipes, "joints")  # though nothing may be left for it to join
        named = [self._recipe(word) for word in PLACES_OF_JOINTS]
        if all(path is None for path, _ in named):
            left = recipe_left_to_us(self.shared.families, self.own.path)
            if left is None:
                self.reading.fault(
                    self.own.path, f"the cabinet {shown(self.name)} names no joint", "Name a recipe: joint = ..."
                )
            return left, left, left
        needed = (True, fixed_shelves, dividers)
        for word, (path, _), wanted in zip(PLACES_OF_JOINTS, named, needed, strict=True):
            if wanted and path is None:
                self.reading.fault(
                    self.own.path, f"the cabinet {shown(self.name)} names a joint, but no {word}",
                    f"Write {word} = ..., or joint = ... for all that are not named",
                )  # fmt: skip
        spare = next((recipe for _, recipe in named if recipe), None)  # of what the cabinet does not have
        corner, shelf, divider = (recipe or (spare if path is None else None) for path, recipe in named)
        return corner, shelf, divider

    def _recipe(self, word: str) -> tuple[Path | None, Recipe | None]:
        """Where the recipe for a place is named, and the recipe. The cabinet's own words go before every cabinet's."""
        for table in (self.own, self.every):
            for said in (word, "joint"):
                if table.says(said):
                    path = (*table.path, said)
                    name = table.get(said)
                    found = self._named(name, self.shared.recipes, "joints", path) if name is not None else None
                    return path, self.shared.recipes[found] if found is not None else None
        return None, None

    def _recipe_for(self, word: str) -> Recipe | None:
        """A recipe that is named by this word alone."""
        name = self._look_up(word, self.shared.recipes, "joints")
        return self.shared.recipes[name] if name is not None else None

    def _feet(self, board: str | None) -> Feet | None:
        table = self._table("feet")
        if table is None or not self._whole(table, FeetWords, "feet", ("style",)):
            return None
        own = self._named_in(table, "feet", "board", self.shared.boards, "boards") if "board" in table else board
        name = self._named_in(table, "feet", "joint", self.shared.recipes, "joints")
        joint = self.shared.recipes[name] if name is not None else None
        return None if own is None else feet_of(table, own, joint, self._path("feet"), self.reading)

    def _roof(self) -> RoofAsked | None:
        table = self._table("roof")
        if table is None:
            if self._get("kind") == "under slope" and not self._spoilt("roof"):
                self.reading.fault(
                    self._path("kind"),
                    f"the cabinet {shown(self.name)} stands under a slope, and its roof is not said",
                    'Write how the slope runs: roof = { falls = "right", low = 700 }',
                )  # fmt: skip
            return None
        if not self._whole(table, RoofWords, "roof", ("falls",)):
            return None
        name = self._named_in(table, "roof", "joint", self.shared.recipes, "joints")
        own = self.shared.recipes[name] if name is not None else None
        if self._spoilt("roof"):
            return None
        return roof_of(table, own or on_a_slope(self.shared.families, self.own.path), self._path("roof"), self.reading)

    def _rails(self) -> Rails | None:
        table = self._table("rails")
        return None if table is None or self._spoilt("rails") else rails_of(table, self._path("rails"), self.reading)

    def _stiffeners(self, shelf_board: str | None) -> StiffenersAsked | None:
        table = self._table("stiffeners")
        if table is None or not self._whole(table, StiffenersWords, "stiffeners", ("depth",)):
            return None
        of = self._named_in(table, "stiffeners", "board", self.shared.boards, "boards")
        own = self._named_in(table, "stiffeners", "joint", self.shared.recipes, "joints")
        board = of if "board" in table else shelf_board
        joint = self.shared.recipes[own] if own is not None else under_a_shelf(self.shared.families, self.own.path)
        if board is None or joint is None or self._spoilt("stiffeners"):
            return None
        return StiffenersAsked(
            depth_mm=table["depth"], set_back_mm=table.get("set_back", 0.0), board=board,
            shelves=table.get("shelves", "all"), joint=joint, path=self._path("stiffeners"),
        )  # fmt: skip

    def _back(self) -> Back | None:
        table = self._table("back")
        if table is None:
            return None
        whole = self._whole(table, BackWords, "back", ("board", "style"))
        board = self._named_in(table, "back", "board", self.shared.boards, "boards")
        joint = self._named_in(table, "back", "joint", self.shared.recipes, "joints")
        if not whole or board is None:
            return None
        return Back(
            board=board, style=table["style"], void_mm=table.get("void", 0.0), depth_mm=table.get("depth"),
            clearance_mm=table.get("clearance"), grain=table.get("grain"),
            cut_outs=tuple(cut_out_of(cut) for cut in table.get("cut_outs", ())),
            joint=self.shared.recipes[joint] if joint is not None else None,
        )  # fmt: skip

    def _edging(self) -> CabinetEdging | None:
        table = self._table("edging")
        if table is None:
            return None
        self._whole(table, CabinetEdgingWords, "edging", ("with",))
        name = self._named_in(table, "edging", "with", self.shared.edgings, "edgings")
        return CabinetEdging(edging=name, on=table.get("on", ("fronts",))) if name is not None else None

    def _blind(self, board: str | None) -> BlindEnd | None:
        table = self._table("blind")
        if table is None or not self._whole(table, BlindWords, "blind", ("side", "takes")):
            return None
        own = self._named_in(table, "blind", "board", self.shared.boards, "boards") if "board" in table else board
        name = self._named_in(table, "blind", "fixed", self.shared.recipes, "joints")
        fixed = self.shared.recipes[name] if name is not None else on_carcass(self.shared.families, self.own.path)
        return blind_of(table, own, fixed) if own is not None and fixed is not None else None

    def _face_frame(self) -> FaceFrame | None:
        table = self._table("face_frame")
        if table is None or not self._whole(table, FaceFrameWords, "face_frame", ("board",)):
            return None
        board = self._named_in(table, "face_frame", "board", self.shared.boards, "boards")
        recipes = {
            word: self._named_in(table, "face_frame", word, self.shared.recipes, "joints")
            for word in ("joint", "fixed")
        }
        named = {word: self.shared.recipes[name] if name is not None else None for word, name in recipes.items()}
        if board is None:
            return None
        return face_frame_of(table, board, named["joint"], named["fixed"], self.shared.families, self.own.path)

    def _finish(self) -> Finish | None:
        table = self._table("finish")
        if table is None or not self._whole(table, FinishWords, "finish", ("film",)):
            return None
        return Finish(
            film_mm=table["film"], when=table.get("when", "before assembly"), mask=table.get("mask", "joints")
        )  # fmt: skip

    def _tables(self, word: str) -> list[_Table]:
        """The tables of a word that may have several: each with what every cabinet says in one, where it is silent."""
        own, every = self.own.get(word), self.every.get(word)
        written = own if self.own.says(word) else every
        under = every if isinstance(every, dict) and written is own else {}
        path = self._path(word)
        if isinstance(written, dict):
            return [_Table({**under, **written}, path)]
        if isinstance(written, tuple):
            return [_Table({**under, **one}, (*path, n)) for n, one in enumerate(written)]
        return []

    def _drawers(self, board: str | None, inside: Sequence[InBay], frame: FaceFrame | None) -> tuple[Drawers, ...]:
        tables = self._tables("drawers")
        return tuple(d for table in tables for d in self._drawers_of_one(table, board, inside, frame))

    def _drawers_of_one(
        self, table: _Table, board: str | None, inside: Sequence[InBay], frame: FaceFrame | None
    ) -> tuple[Drawers, ...]:
        said, whole = table.said, self._whole_table(table, DrawersWords, "drawers", ("number", "bottom_board"))
        named = {
            word: self._named_at(table, word, self.shared.boards, "boards") if word in said else board
            for word in ("board", "box_board", "bottom_board")
        }
        joint = self._named_at(table, "joint", self.shared.recipes, "joints")
        if "heights" in said and "modules" in said:
            self.reading.fault(
                table.at("modules"), "heights and modules say the same thing in two ways", "Keep one of them"
            )
            return ()
        for word in ("heights", "modules"):
            if word in said and "number" in said and len(said[word]) != said["number"]:
                self.reading.fault(
                    table.at(word),
                    f"the number of drawers is {said['number']}, and {word} has {len(said[word])}",
                    f"Write one {'height' if word == 'heights' else 'number'} for each, from the bottom",
                )
                return ()
        boards = {word: name for word, name in named.items() if name is not None}
        recipe = self.shared.recipes[joint] if joint is not None else None
        if not whole or len(boards) != len(named) or not inside:
            return ()
        return tuple(
            replace(drawers_of(said, boards, opening, recipe, table.path, frame), bays=bays)
            for bays, opening in openings_named(inside, said)
        )

    def _behind(self, doors: tuple[Doors, ...]) -> float:
        """How far shelves stand back where it is not said: behind inset doors, and room to shut them."""
        if self._table("face_frame") is not None:
            return 0.0  # inset doors shut within the frame
        inset = [self.shared.boards[d.board] for d in doors if d.style == "inset"]
        return max((round(b.actual_mm + BEHIND_INSET_MM, 6) for b in inset if b is not None), default=0.0)

    def _doors(
        self, board: str | None, inside: Sequence[InBay], drawers: tuple[Drawers, ...], frame: FaceFrame | None
    ) -> tuple[Doors, ...]:
        tables = self._tables("doors")
        return tuple(d for table in tables for d in self._doors_of_one(table, board, inside, drawers, frame))

    def _doors_of_one(
        self,
        table: _Table,
        board: str | None,
        inside: Sequence[InBay],
        drawers: tuple[Drawers, ...],
        frame: FaceFrame | None,
    ) -> tuple[Doors, ...]:
        said, whole = table.said, self._whole_table(table, DoorsWords, "doors", ("hung",))
        bought = said.get("bought")
        for inner in ("height", "width", "cups_from_ends"):
            if bought is not None and inner not in bought:
                whole = False
                if not self._spoilt("doors"):
                    self.reading.fault(table.at("bought"), *lacks(BoughtDoorWords, inner, "bought"))
        own_board = self._named_at(table, "board", self.shared.boards, "boards")
        named = own_board if "board" in said else board
        if not whole or named is None or not inside:
            return ()
        return doors_in(inside, said, drawers, lambda span: doors_of(said, named, span, table.path, frame))

    def _part_dividers(self, inside: Sequence[InBay]) -> tuple[PartDividers, ...]:
        return tuple(
            part_dividers_of(table.said, bays, opening, table.path, self.reading)
            for table in self._tables("part_dividers")
            if inside and self._whole_table(table, PartDividerWords, "part_dividers", ())
            for bays, opening in openings_named(inside, table.said)
        )

    def _clothes_rails(self, inside: Sequence[InBay]) -> tuple[ClothesRailAsked, ...]:
        made = [
            (bays, clothes_rail_of(table.said, opening, table.path, self.reading))
            for table in self._tables("clothes_rails")
            if inside and self._whole_table(table, ClothesRailWords, "clothes_rails", ())
            for bays, opening in openings_named(inside, table.said)
        ]
        return tuple(replace(rail, bays=bays) for bays, rail in made if rail is not None)

    def _houses(self, openings: tuple[Any, ...], bays: tuple[Any, ...]) -> tuple[Housed, ...]:
        """The appliances that it houses, each in its opening."""
        found: dict[int, Housed] = {}
        for n, said in enumerate(self._get("appliance") or ()):
            path = (*self._path("appliance"), n)
            name = self._named(said["of"], self.shared.appliances, "appliances", (*path, "of"))
            appliance, opening = self.shared.appliances[name] if name is not None else None, said.get("opening", 1)
            wrong = wrong_opening(openings, bays, opening, found)
            if wrong is not None:
                self.reading.fault(path, *wrong)
            elif appliance is not None:
                found[opening] = Housed(appliance=appliance, opening=opening)
        return tuple(found.values())

    def _alcove(self, board: str | None, feet: float, hinged: tuple[bool, bool], lifted: bool) -> Alcove | None:
        """Where it stands in a surveyed opening, on feet so high, if it does. Its own sizes go before the opening's."""
        name = self._look_up("alcove", self.shared.surveys, "surveys")
        survey = None if name is None else self.shared.surveys[name]
        if survey is not None and self.own.get("width") == "rest":
            self.reading.fault(
                self._path("width"), "its width is what a run leaves for it, and it stands in an alcove",
                "Take width out, for the alcove to give it, or write it in mm",
            )  # fmt: skip
            return None
        for word in OF_ALCOVES:
            if self.own.says(word) and self._from("alcove") is None:
                self.reading.fault(self._path(word), f"{word} is there and no alcove", "Name it: alcove = ...")
        scribes = self._table("scribes") or {}
        of = self._named_in(scribes, "scribes", "board", self.shared.boards, "boards") if "board" in scribes else board
        if survey is None or of is None:
            return None
        if self._get("count", 1) != 1:
            self.reading.fault(
                self._path("count"), "there is one alcove and more than one cabinet for it", "Write count = 1"
            )
        above = self._get("above_floor", feet)
        ask = ask_of(self.own.values, above, scribes, self.shared.boards[of], hinged, lifted)
        try:
            return stand_in(survey, ask)
        except NoRoom as problem:
            self.reading.fault(
                self._path("alcove"), f"{problem.why} in the survey {shown(survey.name)}",
                f"Write {problem.size} = ... in the cabinet {shown(self.name)}, or measure again",
            )  # fmt: skip
        return None

    def _contents(self) -> Contents | None:
        table = one_way_contents(self.own.get("contents"), self.every.get("contents"))
        if table is None or self._spoilt("contents"):
            return None
        return contents_of(table, self._path("contents"), self.reading)

    def _hanging(self) -> Hanging | None:
        table = self._table("hanging")
        if table is None:
            return None
        self._whole(table, HangingWords, "hanging", ("style",))
        if "batten_board" in table:
            self._named_in(table, "hanging", "batten_board", self.shared.boards, "boards")
        table = {"batten_board": self._get("board"), **table}
        return hanging_of(table, self._path("hanging"), self.shared.walls, self.reading)

    def _named_in(
        self, table: Mapping[str, Any], word: str, inner: str, names: Mapping[str, Any], section: str
    ) -> str | None:
        """What a table inside the cabinet names, if it names anything."""
        name = table.get(inner)
        return None if name is None else self._named(name, names, section, self._path(word, inner))

    def _named_at(self, table: _Table, word: str, names: Mapping[str, Any], section: str) -> str | None:
        """What one of several tables names, if it names anything."""
        name = table.said.get(word)
        return None if name is None else self._named(name, names, section, table.at(word))

    def _whole_table(self, table: _Table, words: Any, word: str, needed: tuple[str, ...]) -> bool:
        """Whether one of several tables has all that it needs; says what it lacks."""
        lacking = [inner for inner in needed if inner not in table.said]
        if not self._spoilt(word):  # else it has had its fault
            for inner in lacking:
                self.reading.fault(table.path, *lacks(words, inner, word))
        return not lacking

    def _drilled_sides(self) -> DrilledSides | None:
        """The sides that it takes from a stock."""
        name = self._look_up("sides_from", self.shared.drilled_sides, "drilled_sides")
        if name is not None and self._from("pins") is not None:
            self.reading.fault(
                self._path("pins"), f"the sides come from {shown(name)}, and their rows of holes are there already",
                "Take pins out, or sides_from",
            )  # fmt: skip
        return self.shared.drilled_sides[name] if name is not None else None

    def _pins(self) -> Pins:
        words = {"holes": "holes"}
        return Pins(**{words.get(word, f"{word}_mm"): value for word, value in (self._table("pins") or {}).items()})

    def _whole(self, table: Mapping[str, Any], words: Any, word: str, needed: tuple[str, ...]) -> bool:
        """Whether a table inside a cabinet has all that it needs; says what it lacks."""
        lacking = [inner for inner in needed if inner not in table]
        if not self._spoilt(word):  # else it has had its fault
            for inner in lacking:
                self.reading.fault(self._path(word), *lacks(words, inner, word))
        return not lacking
