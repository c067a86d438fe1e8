"""Opened joints: one page for each kind of joint, with the same number on both sides of the fold."""

import re
from collections.abc import Sequence

from rodwork.documents.annotate import Row, block, capital, figure, listed, named
from rodwork.documents.bench_picture import HEIGHT, Lie, picture
from rodwork.documents.channel_section import channel_shapes
from rodwork.documents.drawing import LINE, Shape, Text, line
from rodwork.documents.going_home import WIDTH, home_shapes
from rodwork.documents.joint_drawing import not_drawn, opened_shapes
from rodwork.documents.joint_kinds import Opened, numbers_alike, opened_joints, unique
from rodwork.documents.machined import Work, cabinet_marks, marks_words, runs_words, words_of
from rodwork.documents.page import Area, Page, body
from rodwork.model.rod import Rod

SAYS = 10.0  # the least height of what is said at the foot, mm
MOST_BESIDE_HOME = 3  # bench pictures that leave room for the one of the joint going home


def opened_joint_pages(rod: Rod) -> tuple[Page, ...]:
    """One page for each kind of joint of the job."""
    area = body(rod.heading.paper, landscape=True)
    return tuple(_page(one, area) for one in opened_joints(rod))


def _page(one: Opened, area: Area) -> Page:
    says, below, above = _areas(area, SAYS)
    needed = -block(_says(one, above), 0.0, 0.0, area.width)[1] + 1.0
    if needed > SAYS:
        says, below, above = _areas(area, needed)
    said, _ = block(_says(one, above), says.left, says.top - 1.0, says.width)
    drawn = channel_shapes(one, above) if one.is_channel else opened_shapes(one, above)
    return Page(
        kind="opened joint",
        title=_title(one),
        under=_under(one),
        right=_settings(one),
        shapes=(*drawn, *_bench(one, below), *said),
    )


def _areas(area: Area, foot: float) -> tuple[Area, Area, Area]:
    """What is said at the foot, the bench pictures over it, the opened joint over them."""
    says = Area(left=area.left, bottom=area.bottom, right=area.right, top=area.bottom + foot)
    below = Area(left=area.left, bottom=says.top, right=area.right, top=says.top + HEIGHT + 6.0)
    return says, below, Area(left=area.left, bottom=below.top + 1.0, right=area.right, top=area.top + 1.5)


def _title(one: Opened) -> str:
    prefix = cabinet_marks(one.face_board)[0]
    hands = ", both hands" if one.other_hand else ""
    return f"{prefix} {one.end_board.name.upper()} {_verb(one)} {one.face_board.name.upper()}{hands}"


def _settings(one: Opened) -> str:
    if not one.settings:
        return "nothing to set"
    return f"setting{'s' if len(one.settings) > 1 else ''} {runs_words(one.settings)}"


def _verb(one: Opened) -> str:
    return "into" if one.is_channel else "to"


def _under(one: Opened) -> str:
    """What holds it, and which others it serves."""
    items: dict[str, int] = {}
    for fixing in one.joint.fixings:
        for item in fixing.hardware:
            items[item.item] = items.get(item.item, 0) + item.count
    things = [f"{count} x {item}" for item, count in items.items()] or unique(
        [w.thing for w in (*one.on_face, *one.tongue)]
    )
    glue = "glued" if one.joint.glued else "no glue"
    place: str = one.joint.contact.place
    if one.end_board.role == "drawer bottom":
        place = place.replace("back", "bottom")
    return f"{place}: {listed(things)}, {glue}.{_also(one)}"


def _also(one: Opened) -> str:
    """The other joints of this kind: other copies by their cabinet, other boards by name."""
    told = one.is_channel or one.in_drawer  # the numbers along of each are on the page
    alike = [o for o in one.others if told or numbers_alike(one, o)]
    unlike = [o for o in one.others if o not in alike]
    texts = []
    copies = cabinet_marks(one.face_board)[1:]
    if copies:
        texts.append(marks_words(copies, 3))
    texts += _named(one, alike)
    said = f" Also {listed(texts)}." if texts else ""
    if unlike:
        said += f" With their own numbers along: {listed(_named(one, unlike))}."
    return said


def _named(one: Opened, others: Sequence[Opened], most: int = 4) -> list[str]:
    """Joints of this cabinet by name, so many of them; those of others by their cabinets, copy by copy."""
    here: list[str] = []
    elsewhere: list[str] = []
    for o in others:
        if o.cabinet is one.cabinet:
            over = o.face_above != one.face_above and o.hand == one.hand and not one.holds_back
            turned = " (page turned round)" if over else ""
            here.append(f"{o.end_board.name} {_verb(o)} {o.face_board.name}{turned}")
        else:
            elsewhere += cabinet_marks(o.face_board)
    names, cabinets = unique(here), unique(elsewhere)
    if len(names) > most:
        names = [*names[: most - 1], f"{len(names) - most + 1} more of {cabinet_marks(one.face_board)[0]}"]
    return [*names, *cabinets]


def _bench(one: Opened, area: Area) -> tuple[Shape, ...]:
    """The bench pictures side by side, each half in the order of the settings, and how the board goes home."""
    lies = _lies(one)
    shapes: list[Shape] = [line((area.left, area.top), (area.right, area.top), LINE)]
    room = area.width
    if len(lies) <= MOST_BESIDE_HOME:
        left = area.right - WIDTH
        room -= WIDTH + 6.0
        shapes.append(Text(at=(left, area.top - 5.6), text="How it goes home", size=4.8, bold=True))
        shapes += home_shapes(one, left, area.top - 7.5, HEIGHT - 6.5)
    if lies:
        shapes.append(Text(at=(area.left, area.top - 5.6), text="How each half lies", size=4.8, bold=True))
    width = (room - 6.0 * (len(lies) - 1)) / max(len(lies), 2)
    for n, lie in enumerate(lies):
        shapes += picture(lie, area.left + n * (width + 6.0), area.top - 6.0, width)
    return tuple(shapes)


def _lies(one: Opened) -> list[Lie]:
    """One for each way a board has to lie, the end board first."""
    held: dict[object, tuple[str, bool, list[Work]]] = {}
    on_end = (*one.on_end, *one.tongue)
    for board, works, face in ((one.end_board, on_end, False), (one.face_board, one.on_face, True)):
        for w in works:
            key = (board.id, w.bears, w.across.from_surface, w.setup.fence.mm if w.setup.fence else None)
            held.setdefault(key, (board.name.upper(), face, []))[2].append(w)
    out: list[Lie] = []
    fences: set[str] = set()
    for name, face, rows in held.values():
        stays: set[str] = set()
        for w in sorted(rows, key=lambda w: (len(w.setup.id), w.setup.id)):
            if w.setup.fence is not None and w.setup.fence.id in fences:
                stays.add(w.setup.id)
        fences |= {w.setup.fence.id for w in rows if w.setup.fence is not None}
        line_at = one.line if face and one.has_line else None
        out.append(Lie(name=name, works=tuple(rows), fence_stays=frozenset(stays), line=line_at))
    return out


def _says(one: Opened, above: Area) -> list[Row]:
    """What the two halves have to do with each other, and how it goes home."""
    texts = []
    if one.slide:
        start = words_of(one.end_board)[one.joint.contact.guest_register.along_from].removesuffix(" edge")
        texts.append(
            f"The boxed numbers differ by the slide of {figure(one.slide)}, and must. Put the board over the heads, "
            f"its {start} standing out by that; push it in, then slide it home. Set the heads by a gauge off the face."
        )
    elif one.on_end and one.on_face and one.has_line:
        texts.append(
            "The same number stands on both sides of the fold: both are set from the thick lines, which come together."
        )
    elif one.on_end and one.on_face:
        texts.append("The same number stands on both sides of the fold, and both thick lines finish flush.")
    elif one.in_place:
        how = "on its line" if one.has_line else "flush at the thick line"
        if one.stands_in:
            edge = words_of(one.face_board)[one.joint.contact.host_register.across_from]
            other = words_of(one.end_board)[one.joint.contact.guest_register.across_from]
            way = "inside" if one.stands_in > 0 else "beyond"
            how = f"with the {edge} {figure(abs(one.stands_in))} {way} the {other}"
        texts.append(f"Clamp the joint {how}, then bore the pilots through the bores already there.")
    elif one.is_channel and one.has_line:
        where = "Its flush face comes to the line" if one.tongue else "One wall is on the line"
        texts.append(f"{where}; the board goes in on the X side.")
    elif one.aside and all(f.law == "none" for f in one.joint.fixings):
        texts.append(
            f"Clamp the joint while you drive, the {_flush(one)} held to a flat: "
            "the slope of the screw pushes the board along."
        )
        if one.has_line:
            datum = capital(words_of(one.face_board)[one.joint.contact.host_register.across_from])
            texts.append(f"On {named(one.face_board.name)} it comes to the line {figure(one.line)} from the {datum}.")
    elif one.driven:
        how = "on its line" if one.has_line else "flush at the thick line"
        glue = "Glue, hold" if one.joint.glued else "Hold"
        texts.append(f"{glue} the boards {how}, nail at the crosses; lean every second nail the other way.")
    texts += _lines_at(one)
    hidden = [] if one.is_channel else not_drawn(one, above)
    if hidden:
        texts.append(f"Between the break lines: {listed([figure(mm) for mm in hidden])}.")
    if one.mitred:
        texts.append("Set along the slope. Tape the outside arris and fold it shut, or draw it with mitre cauls.")
    push = set() if one.slide else {move.mm for f in one.joint.fixings for move in f.motion}
    if push and max(push) >= 3.0:
        texts.append(f"Goes straight in for the last {figure(max(push))}.")
    rows = [Row(text=" ".join(texts), size=3.7)]
    both = " ".join(text for text in (_other_hand(one), _fences(one), _along_drawers(one)) if text)
    return [*rows, Row(text=both, size=3.7, bold=True)] if both else rows


def _other_hand(one: Opened) -> str:
    """Which joints are the picture's mirror image: those of this cabinet by name, others by their cabinet."""
    if not one.other_hand:
        return ""
    alike = [o for o in one.other_hand if numbers_alike(one, o)]
    return f"The other hand, all of it in a mirror: {listed(_named(one, alike, 3))}." if alike else ""


def _fences(one: Opened) -> str:
    """The settings of the face boards by the surface that the fence is on, where that is not one and the same."""
    found: dict[str, dict[str, None]] = {}
    for o in one.all:
        for w in o.on_face if not o.has_line else ():
            found.setdefault(capital(w.across.word), {})[w.setup.id] = None
    if len(found) < 2:
        return ""
    return f"Fence on the {'; on the '.join(f'{word}: {listed(list(ids))}' for word, ids in found.items())}."


def _along_drawers(one: Opened) -> str:
    """The numbers along the corners of each drawer, where one sheet serves drawers of several heights."""
    found: dict[tuple[float, ...], dict[str, None]] = {}
    for o in one.all if one.in_drawer else ():
        number = re.search(r"\d+", o.end_board.name)
        drawer = f"{cabinet_marks(o.face_board)[0]} drawer{f' {number[0]}' if number else ''}"
        found.setdefault(o.numbers_along, {})[drawer] = None
    if len(found) < 2:
        return ""
    rows = [f"{marks_words(list(which), 3)}: {listed([figure(mm) for mm in at])}" for at, which in found.items()]
    datum = words_of(one.end_board)[one.joint.contact.guest_register.along_from]
    return f"From the {capital(datum)}, {'; '.join(rows)}."


def _flush(one: Opened) -> str:
    """The face of the end board that comes flush, or to the line."""
    return words_of(one.end_board)[one.joint.contact.guest_register.across_from]


def _lines_at(one: Opened) -> list[str]:
    """Every line that this kind of joint stands on, where there are several."""
    rows: dict[str, set[float]] = {}
    for o in one.all:
        if o.has_line:
            prefix = cabinet_marks(o.face_board)[0]
            rows.setdefault(f"{prefix} {o.face_board.name}", set()).add(o.line)
    if len({mm for at in rows.values() for mm in at}) < 2:
        return []
    said = [f"{name} {', '.join(figure(mm) for mm in sorted(at))}" for name, at in rows.items()]
    if len(said) > 4:
        said = [*said[:4], "the rest on their boards' sheets"]
    return [f"Lines: {'; '.join(said)}."]
