"""The load in words and figures: the same on the terminal and on paper."""

from collections.abc import Iterator

from rodwork.model.figure import Figure
from rodwork.model.loading import CabinetLoad, JointLoad, ShelfLoad

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
UNKNOWN = "?"
MOST_TIMES = 99.0  # beyond it a figure says nothing more


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
    return {"practice": "common practice", "judgement": "our judgement"}.get(figure.standing, figure.standing)


def _mm(value: float | None) -> str:
    return UNKNOWN if value is None else f"{value:.1f}"


def shelf_cells(shelf: ShelfLoad) -> tuple[str, ...]:
    """One row of the shelves' table."""
    longest = UNKNOWN if shelf.longest_mm is None else f"{int(shelf.longest_mm)}"
    return (
        shelf.name, shelf.held, f"{shelf.span_mm:.0f}", f"{shelf.contents_kg:.0f} kg", _mm(shelf.new_mm),
        _mm(shelf.later_mm), times_text(shelf.straight), times_text(shelf.sound), times_text(shelf.strong), longest,
    )  # fmt: skip


def joint_cells(joint: JointLoad) -> tuple[str, ...]:
    """One row of the joints' table."""
    worst = max(joint.forces, key=lambda f: f.shear_N**2 + f.pull_N**2, default=None)
    shear, pull = (worst.shear_N, worst.pull_N) if worst else (0.0, 0.0)
    bears = UNKNOWN if joint.bears is None else f"{joint.bears.value:.0f} N"
    return (joint.name, joint.mode, f"{shear:.0f} N", f"{pull:.0f} N", bears, times_text(joint.margin))


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
    yield from told


def more_lines(cabinet: CabinetLoad) -> Iterator[str]:
    """What stands under the tables of a cabinet."""
    if cabinet.contents_from is not None:
        sure = standing_text(cabinet.contents_from)
        yield f"Weight of contents: {cabinet.contents_from.source}{f' ({sure})' if sure else ''}."
    yield from stiffness_lines(cabinet)
    kg = cabinet.lifting.kg
    weighs = "" if kg is None else f"Weighs {kg:.0f} kg empty. "
    yield f"{weighs}{cabinet.lifting.words} ({cabinet.lifting.source})"
