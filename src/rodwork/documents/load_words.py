"""The load in words and figures: the same on the terminal and on paper."""

from collections.abc import Iterable, Iterator

from rodwork.model.figure import Figure, Standing
from rodwork.model.loading import CabinetLoad, JointLoad, Link, ShelfLoad, WallForce

SHELF_COLUMNS = (
    ("board", False), ("how", False), ("span", True), ("carries", True), ("sag new", True), ("sag later", True),
    ("looks straight", True), ("sound", True), ("strong", True), ("longest span", True),
)  # fmt: skip
JOINT_COLUMNS = (
    ("joint", False),
    ("worst", False),
    ("across it", True),
    ("out", True),
    ("bears", True),
    ("times over", True),
)
NOT_FIRM: dict[Standing | None, str] = {
    "from memory": "from memory", "practice": "common practice", "judgement": "our judgement",
}  # fmt: skip
STYLES = {
    "split batten": "a split batten", "fixing rail": "a rail screwed to the wall", "brackets": "brackets",
    "screws": "screws through its back",
}  # fmt: skip
UNKNOWN = "?"
MOST_TIMES = 99.0  # beyond it a figure says nothing more


def begun(text: str) -> str:
    """A sentence's beginning: its first letter large, the rest as it is."""
    return text[:1].upper() + text[1:]


def times_text(margin: float | None) -> str:
    """How many times over, to two figures; a question mark where a figure is missing."""
    if margin is None:
        return UNKNOWN
    if margin > MOST_TIMES:
        return f"over {MOST_TIMES:.0f}"
    return f"{margin:.1f}" if margin >= 1.05 or margin < 0.95 else f"{margin:.2f}"


def standing_text(figure: Figure | None) -> str:
    """How sure a figure is, said where it is not plainly published."""
    if figure is None or figure.standing in ("verified", "entered", "arithmetic"):
        return ""
    return NOT_FIRM.get(figure.standing, figure.standing)


def _mm(value: float | None) -> str:
    return UNKNOWN if value is None else f"{value:.1f}"


def held_text(shelf: ShelfLoad) -> str:
    """How it is held, and whether a strip under it stiffens it."""
    return f"{shelf.held}, {shelf.stiffened}" if shelf.stiffened else shelf.held


def shelf_cells(shelf: ShelfLoad) -> tuple[str, ...]:
    """One row of the shelves' table."""
    longest = UNKNOWN if shelf.longest_mm is None else f"{int(shelf.longest_mm)}"
    return (
        shelf.name, held_text(shelf), f"{shelf.span_mm:.0f}", f"{shelf.contents_kg:.0f} kg", _mm(shelf.new_mm),
        _mm(shelf.later_mm), times_text(shelf.straight), times_text(shelf.sound), times_text(shelf.strong), longest,
    )  # fmt: skip


def joint_cells(joint: JointLoad) -> tuple[str, ...]:
    """One row of the joints' table."""
    worst = max(joint.forces, key=lambda f: f.shear_N**2 + f.pull_N**2, default=None)
    shear, pull = (worst.shear_N, worst.pull_N) if worst else (0.0, 0.0)
    bears = UNKNOWN if joint.bears is None else f"{joint.bears.value:.0f} N"
    return (joint.name, joint.mode, f"{shear:.0f} N", f"{pull:.0f} N", bears, times_text(joint.margin))


def alike_rows(rows: Iterable[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Rows that differ in their name alone told once, in the order of the first of each: how many more there are."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for name, *figures in rows:
        alike.setdefault(tuple(figures), []).append(name)
    return [
        (names[0] if len(names) == 1 else f"{names[0]} and {len(names) - 1} more alike", *figures)
        for figures, names in alike.items()
    ]


def stiffness_lines(cabinet: CabinetLoad) -> Iterator[str]:
    """The stiffness and creep that the shelves were reckoned with, each once."""
    told: dict[str, None] = {}
    for shelf in cabinet.shelves:
        if shelf.stiffness is not None:
            sure = standing_text(shelf.stiffness)
            told[
                f"Stiffness used, {shelf.thickness_mm:g} mm: {shelf.stiffness.value:.0f} N/mm² "
                f"({shelf.stiffness.source}{f'; {sure}' if sure else ''})."
            ] = None
        if shelf.creep is not None:
            sure = standing_text(shelf.creep)
            told[
                f"Later is {1 + shelf.creep.value:g} times new ({shelf.creep.source}{f'; {sure}' if sure else ''})."
            ] = None
        if shelf.taken:
            told[shelf.taken] = None
    yield from told


def link_text(link: Link) -> str:
    """One link in a line: open, or how many times over, and where that is not firm."""
    if link.margin is None:
        return f"{link.name}: {link.carries}, OPEN"
    sure = "" if link.standing not in NOT_FIRM else f", {NOT_FIRM[link.standing]}"
    return f"{link.name}: {link.carries}, {times_text(link.margin)} times over{sure}"


def force_text(state: WallForce) -> str:
    """One state of a wall unit in a line."""
    return (
        f"{state.state}: {state.weight_N:.0f} N down, {state.pull_N:.0f} N out at the wall screws, "
        f"{state.push_N:.0f} N in at the foot"
    )


def most_text(state: WallForce) -> str:
    """The fixing that most comes to."""
    if not state.forces:
        return state.state
    most = max(state.forces, key=lambda f: abs(f.pull_N) + abs(f.shear_N))
    return f"{most.shear_N:.0f} N down and {most.pull_N:.0f} N out"


def racking_lines(cabinet: CabinetLoad) -> Iterator[str]:
    """How far the front opening goes out of square under a hand's push."""
    box = cabinet.racking
    if box is None:
        return
    front = "by a figure that is not known" if box.backed_mm is None else f"by {box.backed_mm:.1f} mm"
    bare = "" if box.bare_mm is None else f"; by its corners alone {box.bare_mm:.1f} mm"
    bears = "" if box.margin is None else f"; the worst screw of its back bears it {times_text(box.margin)} times over"
    yield (
        f"Pushed sideways at its top with {box.push_N:.0f} N, the front opening goes out of square {front}{bare}"
        f"{bears}. {begun(box.how)}. ({box.source})"
    )


def hanging_lines(cabinet: CabinetLoad) -> Iterator[str]:
    """The wall, the states, the chain."""
    hanging = cabinet.hanging
    if hanging is None:
        return
    places = ", ".join(f"{x:.0f}" for x in hanging.at_mm)
    by = f"On the wall ({hanging.wall}) by {STYLES[hanging.style]}"
    yield f"{by}: screws {places} from the left, {hanging.down_mm:.0f} below the top."
    for state in hanging.states:
        yield f"  {force_text(state)}"
    yield f"  to the worst fixing {most_text(hanging.states[-1])}; with one missing {most_text(hanging.one_missing)}"
    yield f"  {hanging.chain.verdict}"
    for link in hanging.chain.links:
        yield f"    {link_text(link)}"


def tipping_lines(cabinet: CabinetLoad) -> Iterator[str]:
    """Whether it falls forward, and the restraint that it needs."""
    tipping = cabinet.tipping
    if tipping is None:
        return
    for state in tipping.states:
        falls = (
            f"falls forward; a restraint at its top must bear {state.restraint_N:.0f} N"
            if state.margin < 1
            else "stands"
        )
        yield f"{state.state}: {falls} ({times_text(state.margin)} times)"


def more_lines(cabinet: CabinetLoad, in_tables: bool = False) -> Iterator[str]:
    """What stands under the tables of a cabinet; `in_tables`: the wall and tipping have pages of their own."""
    if cabinet.contents_from is not None:
        sure = standing_text(cabinet.contents_from)
        yield f"Weight of contents: {cabinet.contents_from.source}{f' ({sure})' if sure else ''}."
    yield from cabinet.left_out
    yield from stiffness_lines(cabinet)
    if not in_tables:
        yield from hanging_lines(cabinet)
        yield from tipping_lines(cabinet)
    yield from racking_lines(cabinet)
    kg = cabinet.lifting.kg
    weighs = "" if kg is None else f"Weighs {kg:.0f} kg empty. "
    yield f"{weighs}{cabinet.lifting.words} ({cabinet.lifting.source})"
