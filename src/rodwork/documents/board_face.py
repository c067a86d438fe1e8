"""A board with everything set out on it, and one of its faces as it is drawn: shape, bores, lines and name."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from rodwork.documents.annotate import Box, place_for, text_box
from rodwork.documents.board_drawing import View, board_view, shelf_line_shapes, shelf_lines, taken_boxes
from rodwork.documents.drawing import Shape, Text, text_width
from rodwork.documents.machined import ToLine, Work, marks_words, words_of
from rodwork.model.panel import Part
from rodwork.model.surface import EDGES, OPPOSITE, Surface

NAME_AIR = ((4.0, 1.5), (1.5, 0.0))  # kept beside and over a name, mm: as may be, and where there is little room
FACES: tuple[Surface, ...] = ("face_side", "back_side")


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board with everything set out on it, and the other boards that it is the same as."""

    part: Part
    works: tuple[Work, ...]
    to_lines: tuple[ToLine, ...] = ()
    same: tuple[Part, ...] = ()
    step: float = 0.1  # what sizes are printed to, mm
    lipped: str = ""  # what is done before it is machined, where it is lipped

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every board that this drawing serves."""
        return (self.part, *self.same)

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of all of them."""
        return tuple(mark for part in self.parts for mark in part.marks)

    def worked_on(self, *surfaces: Surface) -> bool:
        """Whether anything is machined in one of these surfaces."""
        return any(w.bears in surfaces for w in self.works)


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One face of a board as it is drawn: its name, and the letter that tells its numbers from the other face's."""

    view: View
    board: Board
    name: str
    letter: str = ""
    with_edges: bool = True  # bores in the edges and ends are shown, and numbered, on this face

    @property
    def shown(self) -> tuple[Work, ...]:
        """What is drawn: works in this face, bores in edges and ends, and what comes through from behind."""
        return tuple(w for w in self.board.works if w in self.numbered or (w.bears in FACES and w.right_through))

    @property
    def numbered(self) -> tuple[Work, ...]:
        """What has its numbers on this face."""
        return tuple(w for w in self.board.works if w.bears == self.view.seen or (w.bears in EDGES and self.with_edges))

    @property
    def words(self) -> dict[Surface, str]:
        """The cabinet words of the board's surfaces."""
        return words_of(self.board.part)

    def word_at(self, side: str) -> str:
        """The word of the edge or end on this side of the drawing, in capitals: "BOTTOM"."""
        return self.words[self.view.surface_at(side)].split()[0].upper()

    def main(self, axis: int) -> Surface:
        """The edge or end that most of the numbers on this axis are taken from."""
        usual = self.view.surface_at("left") if axis == 0 else "face_edge"
        count = Counter(
            r.from_surface for w in self.numbered if (r := w.reading_from(axis)) is not None and not w.runs_through(r)
        )
        other = OPPOSITE[usual]
        return other if count[other] > count[usual] else usual


def face_shapes(face: Face, datum: Surface) -> tuple[Shape, ...]:
    """The board, its lines with their X, and its name and mark where there is room for them."""
    view, works = face.view, face.shown
    lines = shelf_lines(view, works)
    taken = list(taken_boxes(view, works, lines))
    drawn = board_view(view, works, thick=(datum,))
    crosses = shelf_line_shapes(view, lines, works)
    taken += [text_box(s) for s in crosses if isinstance(s, Text)]
    taken += _along_askew_edges(view)
    return (*drawn, *crosses, *_name(face, taken))


def _along_askew_edges(view: View) -> list[Box]:
    """Where the outline runs across the face, as small boxes one after another."""
    out = []
    for a, b in zip(view.part.outline, (*view.part.outline[1:], view.part.outline[0]), strict=True):
        if abs(a[0] - b[0]) < 1e-6 or abs(a[1] - b[1]) < 1e-6:
            continue
        steps = [view.at(a[0] + (b[0] - a[0]) * k / 40, a[1] + (b[1] - a[1]) * k / 40) for k in range(41)]
        for (x0, y0), (x1, y1) in pairwise(steps):
            out.append(Box(left=min(x0, x1), right=max(x0, x1), bottom=min(y0, y1), top=max(y0, y1)))
    return out


def _name(face: Face, taken: Sequence[Box]) -> tuple[Shape, ...]:
    """The board's mark and name inside it: as large as goes between the bores with air round it, else without."""
    marks = marks_words(face.board.marks, 2)
    inside = face.view.box
    up = (inside.bottom + inside.top) / 2
    with_marks = [(f"{marks} {face.name}", size) for size in (6.0, 5.0, 4.2)] if len(face.board.marks) < 3 else []
    for texts in (with_marks, [(face.name, size) for size in (6.0, 5.0, 4.2, 3.6, 3.0)]):
        for (beside, over), (text, size) in product(NAME_AIR, texts):
            long = text_width(text, size, True)
            wish = (max(inside.left + 0.35 * face.view.width, min(inside.left + 6.0 + long / 2, inside.middle)), up)
            spot = place_for(long + 2 * beside, size + 2 * over, inside, taken, wish)
            if spot is not None:
                return (Text(at=(spot[0] + beside, spot[1] + over + 0.2 * size), text=text, size=size, bold=True),)
    return ()
