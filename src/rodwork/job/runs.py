"""Runs of the job file: cabinets by name in their order, every copy once, and what goes along them."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from rodwork.job.cabinets import Shared
from rodwork.job.faults import shown
from rodwork.job.lines import Path
from rodwork.job.marks import marks
from rodwork.job.tables import Given, Reading, lacks, read_named, read_table, unknown_name
from rodwork.job.words import CorniceWords, PlinthWords, RunWords, WorktopWords
from rodwork.model.alcove import SPARE_TO_PLANE_MM
from rodwork.model.job import Cabinet, Feet, Place, Recipe
from rodwork.model.run_asked import CutOutAsked, RunAsked, RunEntry, ScrewsAsked, StripAsked, WorktopAsked

# All common practice, no source.
SET_BACK_MM, CLEAR_MM = 50.0, 5.0  # of a plinth
FRONT_MM, END_MM = 40.0, 10.0  # a worktop over carcasses: a door, its buffers and 20 to spare; over a free end
FROM_FRONT_MM, RADIUS_MM = 60.0, 10.0  # of a cut-out
SCREW_LINE_MM = 37.0
SAME_MM = 0.05  # of two heights


def read_runs(section: Any, cabinets: Sequence[Cabinet], shared: Shared, reading: Reading) -> tuple[RunAsked, ...]:
    """Every run that is sound; the faults of all. `cabinets`: those that are sound, in the order of the file."""
    tables = read_named("runs", section, RunWords, "run", reading)
    known = {c.name: c for c in cabinets}
    for name in tables:
        if name in known:
            reading.fault(
                ("runs", name), f"{shown(name)} is the name of a cabinet too", "Give the run a name of its own"
            )
    all_marks = marks(tables, {c.name: c.mark for c in cabinets})
    used: Counter[str] = Counter()
    made = [
        _Maker(name, all_marks.get(name, ""), read_table(RunWords, raw, ("runs", name), f"the run {shown(name)}",
               reading), known, shared, reading, used).run()
        for name, raw in tables.items()
    ]  # fmt: skip
    _in_one_run(cabinets, tables, made, reading)
    return tuple(run for run in made if run)


def _in_one_run(
    cabinets: Sequence[Cabinet], tables: Mapping[str, Any], made: Sequence[RunAsked | None], reading: Reading
) -> None:
    """A cabinet whose width its run leaves for it stands in a run, and in one only."""
    if None in made:  # what stands in that one is not known
        return
    for cabinet in (c for c in cabinets if c.by_run):
        homes = [run.name for run in made if run and any(e.name == cabinet.name for e in run.of)]
        if len(homes) != 1:
            where = f"in {len(homes)} runs" if homes else "in no run"
            reading.fault(
                (*cabinet.place.path, "width"),
                f'the width of {shown(cabinet.name)} is "rest", what its run leaves, and it stands {where}',
                "Name it in one run: of = [...], or write its width",
            )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes one run of its words. `used`: how many copies of each cabinet stand in runs so far."""

    name: str
    mark: str
    given: Given
    known: Mapping[str, Cabinet]
    shared: Shared
    reading: Reading
    used: "Counter[str]"

    def run(self) -> RunAsked | None:
        """The run, or None where it is not sound."""
        before, get = len(self.reading.faults), self.given.get
        of = tuple(self._entry(i, entry) for i, entry in enumerate(get("of", ())))
        board = self._board("board") or self._usual_board(of)
        edging = get("edging")
        if edging is not None and edging not in self.shared.edgings:
            self._unknown(("edging",), edging, self.shared.edgings, "edgings")
        length, survey = get("length"), self._survey()
        known = length is not None or survey is not None
        walls = get("walls", "both" if known else "none")
        if walls == "both" and not known:
            self._fault(("walls",), "both its ends stand at a wall, and its length is not said", "Write length = ...")
        of = tuple(self._with_board(i, entry, board) for i, entry in enumerate(of))
        above = self._above_floor(of)
        plinth, worktop = self._plinth(board, of, above), self._worktop(board)
        cornice, pelmet = self._strip("cornice", board), self._strip("pelmet", board)
        if self.given.wrong or len(self.reading.faults) > before or not board:
            return None
        return RunAsked(
            name=self.name, mark=self.mark, where=get("where"), length_mm=length, survey=survey, walls=walls,
            starts=get("starts", "left"), above_floor_mm=above, behind_mm=get("behind", 0.0),
            scribe_mm=get("scribe", SPARE_TO_PLANE_MM), edging=edging, of=of, plinth=plinth, worktop=worktop,
            cornice=cornice, pelmet=pelmet, screws=self._screws(), notes=get("notes"),
            place=Place(path=self.given.path), doors=get("doors", "by cabinet"),
        )  # fmt: skip

    def _fault(self, inner: Path, what: str, mend: str) -> None:
        self.reading.fault((*self.given.path, *inner), what, mend)

    def _unknown(self, inner: Path, name: str, names: Mapping[str, Any], section: str) -> None:
        self._fault(inner, *unknown_name(name, names, section))

    def _entry(self, i: int, entry: RunEntry) -> RunEntry:
        """An entry of `of`: of a cabinet, which of its copies it is."""
        if entry.stands_as == "gap" and entry.mm is None:
            return self._for_appliance(i, entry)
        if entry.stands_as != "cabinet":
            return entry
        cabinet = self.known.get(entry.name)
        if cabinet is None:
            if entry.name not in self.shared.cabinets:  # else it has had its fault
                self._unknown(("of", i), entry.name, self.shared.cabinets, "cabinets")
            return entry
        self.used[entry.name] += 1
        copy = self.used[entry.name]
        if copy == cabinet.count + 1:
            times = "once" if cabinet.count == 1 else f"{cabinet.count} times"
            self._fault(
                ("of", i), f"the cabinet {shown(entry.name)} is made {times}, and the runs want it more often",
                f"Write count = {copy} in [cabinets.{entry.name}], or take one out of the runs",
            )  # fmt: skip
        return replace(entry, copy=copy)

    def _for_appliance(self, i: int, entry: RunEntry) -> RunEntry:
        """A gap that is as wide as the appliance it is named after asks for."""
        if entry.name not in self.shared.appliances:
            self._unknown(("of", i, "gap"), entry.name, self.shared.appliances, "appliances")
            return entry
        appliance = self.shared.appliances[entry.name]
        return entry if appliance is None else replace(entry, mm=appliance.opening_mm[0])

    def _usual_board(self, of: Sequence[RunEntry]) -> str | None:
        """The board of the first cabinet's doors, else its own."""
        first = next((self.known[e.name] for e in of if e.stands_as == "cabinet" and e.name in self.known), None)
        if first is None:
            if of and not any(e.stands_as == "cabinet" for e in of):
                self._fault(("of",), "there is no cabinet in it", "Write the NAME of a [cabinets.NAME]")
            return None
        return first.doors[0].board if first.doors else first.board

    def _with_board(self, i: int, entry: RunEntry, board: str | None) -> RunEntry:
        """An infill or end panel with the board it is made of."""
        if entry.stands_as not in ("infill", "end panel"):
            return entry
        word = "board" if entry.stands_as == "infill" else "panel"
        if entry.name and entry.name not in self.shared.boards:
            self._unknown(("of", i, word), entry.name, self.shared.boards, "boards")
        return replace(entry, name=entry.name or board or "")

    def _survey(self) -> str | None:
        """The survey that is named; it gives the length, and the high point of the floor."""
        name = self.given.get("survey")
        if name is None:
            if self.given.get("starts") == "high point":
                self._fault(
                    ("starts",), "the high point of the floor is known from a survey, and none is named",
                    'Write survey = the NAME of a [surveys.NAME], or starts = "left"',
                )  # fmt: skip
            return None
        if self.given.says("length"):
            self._fault(("length",), "length and survey say the same thing in two ways", "Keep one of them")
        if name not in self.shared.surveys:
            self._unknown(("survey",), name, self.shared.surveys, "surveys")
        return str(name)

    def _board(self, *path: str) -> str | None:
        """A board that is named, if it is and there is one."""
        at: Any = self.given.values
        for word in path:
            at = at.get(word) if isinstance(at, Mapping) else None
        if at is not None and at not in self.shared.boards:
            self._unknown(path, at, self.shared.boards, "boards")
            return None
        return at if isinstance(at, str) else None

    def _table(self, word: str, words: Any, needed: Sequence[str]) -> Mapping[str, Any] | None:
        """A table inside the run, if it is there and has what it needs."""
        table = self.given.get(word)
        if not isinstance(table, Mapping):
            return None
        for inner in needed:
            if inner not in table and word not in self.given.wrong:  # else it has had its fault
                self._fault((word,), *lacks(words, inner, word))
        return table if all(inner in table for inner in needed) else None

    def _above_floor(self, of: Sequence[RunEntry]) -> float:
        """How high the carcasses stand: as said, or on the feet that some of them have under them."""
        feet = {
            name: c.feet.height_mm
            for name, c in ((e.name, self.known.get(e.name)) for e in of if e.stands_as == "cabinet")
            if c is not None and c.feet is not None and not c.toe_mm
        }
        above: float = self.given.get("above_floor", max(feet.values(), default=0.0))
        wrong = next((name for name, height in feet.items() if abs(height - above) > SAME_MM), None)
        if wrong is not None:
            self._fault(
                ("above_floor",) if self.given.says("above_floor") else ("of",),
                f"{shown(wrong)} stands on {feet[wrong]:g} of its own, and the carcasses of its run {above:g} above "
                "the floor",
                f"Write above_floor = {feet[wrong]:g}, or height = {above:g} in the feet of {shown(wrong)}",
            )
        return above

    def _plinth(self, board: str | None, of: Sequence[RunEntry], height: float) -> StripAsked | None:
        table = self._table("plinth", PlinthWords, ())
        if table is None:
            return None
        clear = table.get("clear", CLEAR_MM)
        own = self._board("plinth", "board") or board or ""
        standing = [self.known[e.name] for e in of if e.stands_as == "cabinet" and e.name in self.known]
        if any(c.toe_mm for c in standing):
            return self._planted(own, clear, standing, height)
        if height - clear < 30.0 and not self.given.wrong & {"above_floor", "plinth"}:
            self._fault(
                ("plinth",), f"a plinth board under carcasses at {height:g} would be {height - clear:g} high",
                "Write above_floor = 150, or what height they stand at",
            )  # fmt: skip
        return StripAsked(
            board=own, height_mm=None, set_mm=table.get("set_back", SET_BACK_MM), clear_mm=clear
        )  # fmt: skip

    def _planted(self, board: str, clear: float, standing: Sequence[Cabinet], height: float) -> StripAsked | None:
        """A plinth board over the notches of sides that go down to the floor: its back on their edges."""
        notch = self._notch(standing)
        if notch is None:
            return None
        if height:
            self._fault(
                ("above_floor",), "its cabinets go down to the floor on notched sides",
                "Write above_floor = 0, or leave it out",
            )  # fmt: skip
        found, said = self.shared.boards.get(board), self.given.get("plinth", {})
        thick = 0.0 if found is None else found.actual_mm
        face = round(notch.set_back_mm - thick, 6)
        if face < 0:
            self._fault(
                ("plinth",), f"a board of {thick:g} stands out of a notch {notch.set_back_mm:g} deep",
                f"Write set_back = {thick + SET_BACK_MM:g} under feet",
            )  # fmt: skip
        if "set_back" in said and abs(said["set_back"] - face) > SAME_MM:
            self._fault(
                ("plinth", "set_back"),
                f"the board lies on the edges of notches {notch.set_back_mm:g} deep, which brings its face to {face:g}",
                "Leave set_back out here, and write it under feet",
            )  # fmt: skip
        return StripAsked(board=board, height_mm=notch.height_mm, set_mm=face, clear_mm=clear)

    def _notch(self, standing: Sequence[Cabinet]) -> Feet | None:
        """The feet on notched sides that all cabinets of the run have; a fault where they differ."""
        first = next(c for c in standing if c.toe_mm)
        notch = first.feet
        for cabinet in standing:
            other = cabinet.feet
            if notch is None or other is None or not cabinet.toe_mm:
                what = f"{first.name} stands on notched sides and {cabinet.name} does not"
            elif (other.height_mm, other.set_back_mm) != (notch.height_mm, notch.set_back_mm):
                what = (
                    f"the notches of {first.name} are {notch.height_mm:g} high and {notch.set_back_mm:g} deep, and "
                    f"those of {cabinet.name} {other.height_mm:g} and {other.set_back_mm:g}"
                )
            else:
                continue
            self._fault(
                ("plinth",), f"one plinth board goes along the run, and {what}", "Give all its cabinets the same feet"
            )
            return None
        return notch

    def _strip(self, word: str, board: str | None) -> StripAsked | None:
        table = self._table(word, CorniceWords, ("height",))
        if table is None:
            return None
        return StripAsked(
            board=self._board(word, "board") or board or "", height_mm=table["height"],
            set_mm=-table.get("forward", 0.0),
        )  # fmt: skip

    def _worktop(self, board: str | None) -> WorktopAsked | None:
        table = self._table("worktop", WorktopWords, ("board",))
        if table is None:
            return None
        if "front" in table and "depth" in table:
            self._fault(("worktop", "depth"), "front and depth say the same thing in two ways", "Keep one of them")
        cuts = tuple(self._cut_out(i, cut) for i, cut in enumerate(table.get("cut_outs", ())))
        return WorktopAsked(
            board=self._board("worktop", "board") or "", depth_mm=table.get("depth"),
            front_mm=table.get("front", FRONT_MM), ends_mm=table.get("ends", (END_MM, END_MM)),
            joint=self._recipe(), joints_at_mm=table.get("joints_at"), cut_outs=cuts,
            upstand_mm=table.get("upstand", 0.0), upstand_board=self._board("worktop", "upstand_board") or board or "",
        )  # fmt: skip

    def _recipe(self) -> Recipe | None:
        name = self.given.get("worktop", {}).get("joint")
        if name is None:
            return None
        if name not in self.shared.recipes:
            self._unknown(("worktop", "joint"), name, self.shared.recipes, "joints")
        return self.shared.recipes.get(name)

    def _cut_out(self, i: int, said: Mapping[str, Any]) -> CutOutAsked:
        path, over, number = ("worktop", "cut_outs", i), said.get("over"), len(self.given.get("of", ()))
        if (over is None) == ("at" not in said):
            self._fault(
                path, "a cut-out says in one way where it is: over which thing in the run, or at so far from the left",
                "Write over = 2, or at = 900",
            )  # fmt: skip
        if over is not None and over > number > 0:  # none at all: that has had its fault
            self._fault((*path, "over"), f"over is {over}, and {number} things stand in the run", "Count from the left")
        return CutOutAsked(
            what=said["for"], width_mm=said["width"], depth_mm=said["depth"], radius_mm=said.get("radius", RADIUS_MM),
            from_front_mm=said.get("from_front", FROM_FRONT_MM), place=over, at_mm=said.get("at"),
        )  # fmt: skip

    def _screws(self) -> ScrewsAsked | None:
        said = self.given.get("screws", {})
        if not isinstance(said, Mapping):
            return None
        return ScrewsAsked(heights_mm=tuple(sorted(said.get("heights", ()))), front_mm=said.get("front", SCREW_LINE_MM))
