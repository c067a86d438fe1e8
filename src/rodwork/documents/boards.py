"""Pair sheets and board sheets: every board that is bored, grooved or notched, as it lies on the bench.

A pair: both sides on one page, insides up, fronts together, bottoms to the left. So the RIGHT side lies above and
the LEFT below, neither is a mirror image, and the numbers between them serve both. The sides of a drawer are a pair
too, bottoms together and backs to the left.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from rodwork.documents.annotate import listed, plain_name
from rodwork.documents.askew_edges import finished_words
from rodwork.documents.board_drawing import View
from rodwork.documents.board_face import FACES, Board, Face
from rodwork.documents.board_layout import one_face, remarks, two_faces
from rodwork.documents.board_notches import notches
from rodwork.documents.board_notes import grouped, surfaces_words
from rodwork.documents.board_table import Cells, table
from rodwork.documents.drawing import Shape
from rodwork.documents.figures import board_size_text
from rodwork.documents.lipping_words import lipped_words
from rodwork.documents.machined import Work, Works, marks_words, runs_words, words_of
from rodwork.documents.page import Area, Page, body
from rodwork.model.panel import Part, Role
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.slope import askew
from rodwork.model.surface import EDGES, Surface

ORDER = (
    "side", "top", "bottom", "rail", "fixed shelf", "loose shelf", "divider", "part divider", "back", "face frame",
    "door", "drawer front", "drawer side", "drawer back", "drawer bottom",
)  # fmt: skip
MOST_MARKS = 6  # or runs of them, in a title


def board_pages(rod: Rod) -> tuple[Page, ...]:
    """The pair sheets, and one sheet for each other kind of board that is machined or notched."""
    works = Works(rod)
    area = body(rod.heading.paper, landscape=True)
    sheets = [(left.part.role, _pair_pages(left, right, area, rod.step)) for left, right in _pairs(rod, works)]
    sheets += [(board.part.role, _single_pages(board, area, rod.step)) for board in _singles(rod, works)]
    rank = {role: n for n, role in enumerate(ORDER)}
    sheets.sort(key=lambda sheet: rank.get(sheet[0], len(ORDER)))
    return tuple(page for _, pages in sheets for page in pages)


# Which boards share a sheet


def _pairs(rod: Rod, works: Works) -> list[tuple[Board, Board]]:
    """Left and right sides, of cabinets and drawers, that anything is machined in; pairs that are alike once."""
    found: dict[object, tuple[Board, Board]] = {}
    for cabinet in rod.cabinets:
        keys: dict[tuple[str | None, str | None], object] = {}
        for a, b in _hands(cabinet):
            left, right = (
                Board(part=p, works=works.of(cabinet, p), lipped=lipped_words(p, rod), step=rod.step) for p in (a, b)
            )
            key = keys.get((a.same_as, b.same_as), (_key(left), _key(right)))
            if key not in found and not (left.works or right.works or _is_notched(a) or _is_notched(b)):
                continue
            keys[a.id, b.id] = key
            if key in found:
                left, right = (replace(x, same=(*x.same, p)) for x, p in zip(found[key], (a, b), strict=True))
            found[key] = (left, right)
    return list(found.values())


def _hands(cabinet: RodCabinet) -> list[tuple[Part, Part]]:
    """The sides of a cabinet as (left, right), then those of its drawers.

    A drawer whose two sides are not the same as those of one and the same other drawer, or are the same as each other,
    has no pair: its boards have their own sheets.
    """
    pairs = _left_and_right(cabinet, "side", "top end")
    known: set[tuple[str | None, str | None]] = {(None, None)}
    for left, right in _left_and_right(cabinet, "drawer side", "front end"):
        if (left.same_as, right.same_as) in known and left.size == right.size:
            known.add((left.id, right.id))
            pairs.append((left, right))
    return pairs


def _left_and_right(cabinet: RodCabinet, role: Role, of_left: str) -> list[tuple[Part, Part]]:
    """The boards of this role as (left, right): the left ones have this word at their left end, inside up."""
    boards = [part for part in cabinet.parts if part.role == role]
    lefts = [p for p in boards if words_of(p)["left_end"] == of_left]
    rights = [p for p in boards if words_of(p)["left_end"] != of_left]
    return list(zip(lefts, rights, strict=False))


def _singles(rod: Rod, works: Works) -> list[Board]:
    """Every other board that is machined or notched, the same ones gathered.

    Within a cabinet they are the same as the turn test found them, across cabinets where every number agrees.
    """
    found: dict[object, Board] = {}
    for cabinet in rod.cabinets:
        paired = {part.id for pair in _hands(cabinet) for part in pair}
        keys: dict[str, object] = {}
        for part in cabinet.parts:
            board = Board(
                part=part, works=works.of(cabinet, part), to_lines=works.to_lines(cabinet, part),
                lipped=lipped_words(part, rod), step=rod.step,
            )  # fmt: skip
            if part.id in paired or not (board.works or _is_notched(part)):
                continue
            key = keys.get(part.same_as or "", _key(board))
            keys[part.id] = key
            found[key] = replace(found[key], same=(*found[key].same, part)) if key in found else board
    return list(found.values())


def _key(board: Board) -> object:
    """Equal for boards whose drawing and numbers are the same to the last figure."""
    part = board.part
    rows = sorted(
        (
            w.setup.id,
            w.bears,
            w.thing,
            w.size_words,
            w.depth_words,
            _span_key(w),
            (w.across.line or 0.0) * (w.bears in FACES),
        )
        for w in board.works
    )
    return (part.role, words_of(part)["left_end"], part.size, part.outline, part.edging, board.lipped, tuple(rows))


def _span_key(w: Work) -> tuple[tuple[int, float, float], ...]:
    return tuple(sorted((axis, round(a, 2), round(b, 2)) for axis, (a, b) in w.span.items()))


def _is_notched(part: Part) -> bool:
    """Whether its outline is more than a rectangle: notched, or with an edge askew."""
    return len(part.outline) > 4 or any(askew(part.outline, edge) for edge in EDGES)


# The pair sheet


def _pair_pages(left: Board, right: Board, area: Area, step: float) -> list[Page]:
    of_left, of_right = (board_size_text(board.part.size, step) for board in (left, right))
    size = of_left if of_left == of_right else f"L {of_left}  R {of_right}"
    notched = _is_notched(left.part) or _is_notched(right.part)
    shown: list[tuple[Surface, str]] = []
    if notched or any(b.worked_on("face_side", *EDGES) for b in (left, right)):
        shown.append(("face_side", "inside"))
    if any(b.worked_on("back_side") for b in (left, right)):
        shown.append(("back_side", "outside"))
    title = f"{left.part.marks[0]} and {right.part.marks[0]} {left.part.role.upper()}S, a pair"
    pages = []
    for n, (seen, word) in enumerate(shown):
        faces = pair_faces(left, right, seen, with_edges=n == 0)
        layout = two_faces(area, *faces)
        said = "the numbers between them are for both" if layout.alike else "NOT alike: L and R are for that one only"
        together, to_left = (faces[0].word_at(side).lower() for side in ("bottom", "left"))
        pages.append(
            Page(
                kind="pair",
                title=f"{title}{_also(left.marks, right.marks)}",
                under=f"{word}s up, {together}s together, {to_left}s to the left: {said}",
                right=size,
                shapes=layout.shapes,
            )
        )
    return pages


def pair_faces(left: Board, right: Board, seen: Surface, *, with_edges: bool) -> tuple[Face, Face]:
    """(upper, lower) of a pair sheet: insides up the RIGHT side lies above, outsides up the LEFT.

    Both have their bottoms to the left and their fronts together, so the lower one is turned by half a turn.
    """
    word = words_of(left.part)[seen]
    hands = (("RIGHT", right), ("LEFT", left))
    (upper, above), (lower, below) = hands if seen == "face_side" else hands[::-1]

    def face(hand: str, board: Board, turned: bool) -> Face:
        view = View(part=board.part, seen=seen, turned=turned)
        name = f"{hand} {board.part.role.upper()}, {word}"
        return Face(view=view, board=board, letter=hand[0], name=name, with_edges=with_edges)

    return face(upper, above, False), face(lower, below, True)


def _also(lefts: Sequence[str], rights: Sequence[str]) -> str:
    """The other copies of a pair: " (also G2)"; of other drawers by their own marks."""
    if len(lefts) < 2:
        return ""
    tail = lefts[0].partition("-")[2]
    if all(mark.partition("-")[2] == tail for mark in lefts):
        return f" (also {marks_words([mark.partition('-')[0] for mark in lefts[1:]], 4)})"
    if all(a[:-1] == b[:-1] for a, b in zip(lefts, rights, strict=True)):  # of other drawers: D1-W4L and D1-W4R
        return f" (also {marks_words([mark[:-1] for mark in lefts[1:]], 6)})"
    rest = [mark for pair in zip(lefts[1:], rights[1:], strict=True) for mark in pair]
    return f" (also {marks_words(rest, 6)})"


# One sheet for each other kind of board


def _single_pages(board: Board, area: Area, step: float) -> list[Page]:
    """The face that is worked, or both with their fronts together."""
    faces = [seen for seen in FACES if board.worked_on(seen)] or ["face_side"]
    words = words_of(board.part)
    title = _title(board)
    under = f"{len(board.marks)} of these: " if len(board.marks) > 1 else ""
    if len(faces) == 2:
        upper, lower = (
            Face(
                view=View(part=board.part, seen=seen, turned=seen == "back_side"), board=board,
                name=f"{_names(board)}, {words[seen]}",
                with_edges=seen == "face_side",
            )
            for seen in FACES
        )  # fmt: skip
        layout = two_faces(area, upper, lower)
        left = words[upper.view.surface_at("left")]
        under += f"{words['face_side']} up above, {words['back_side']} up below, {words['face_edge']}s together, "
        under += f"{left} to the left"
    else:
        seen = faces[0]
        face = Face(
            view=View(
                part=board.part,
                seen=seen,
                turned=board.part.role == "back" and seen == "face_side" and words["left_end"] == "top end",
            ),
            board=board,
            name=f"{_names(board)}, {words[seen]}",
        )
        shapes, top = _table(board, face, area)
        layout = one_face(area, face, shapes, top)
        under += f"{words[seen]} up, as it lies on the bench, {words[face.view.surface_at('bottom')]} towards you"
    return [
        Page(kind="board", title=title, under=under, right=board_size_text(board.part.size, step), shapes=layout.shapes)
    ]


def _table(board: Board, face: Face, area: Area) -> tuple[tuple[Shape, ...], float]:
    """What is machined, one row for each kind: where, from which surface, where along the row, how deep."""
    rows = [
        Cells(
            (
                g.where,
                g.title,
                g.from_fence or "-",
                g.along_run,
                g.first.depth_words + (", before edging" if g.before_edging else ""),
                g.settings.partition(" ")[2],
            )
        )
        for g in grouped(board.works)
    ]
    rows += [
        Cells((surfaces_words(notch.at), "notch", notch.deep, notch.along, "right through", "-"))
        for notch in notches(board.part)
    ]
    rows += [
        Cells((words_of(board.part)[cut.edge], "sawn to a line", "-", cut.words, "right through", cut.setup.id))
        for cut in board.to_lines
    ]
    says = [*remarks([face]), *finished_words(board)]
    heads = Cells(("where", "what", "fence or line", "along the row", "how deep", "setting"))
    return table(heads, rows, says, area)


def _title(board: Board) -> str:
    by_name: dict[str, list[str]] = {}
    for part in board.parts:
        by_name.setdefault(plain_name(part.name), []).extend(part.marks)
    return listed([f"{_marks(marks)} {name.upper()}" for name, marks in by_name.items()])


def _marks(marks: Sequence[str]) -> str:
    """All of them, cabinet by cabinet, where they go on a line: "B1-W1F to B1-W3F, B2-W1F to B2-W3F"."""
    ordered = sorted(marks, key=lambda mark: [int(p) if p.isdigit() else p for p in re.split(r"(\d+)", mark)])
    text = runs_words(ordered).replace(" and ", ", ")
    return text if text.count(",") < MOST_MARKS else marks_words(ordered, MOST_MARKS).replace(" and ", ", ")


def _names(board: Board) -> str:
    return listed(list(dict.fromkeys(plain_name(part.name).upper() for part in board.parts)))
