"""Figures as a maker reads them, and the dimension lines that carry them."""

from functools import lru_cache

from rodwork.documents.drawing import NO_PEN, THIN, Path_, Pen, Shape, Text, line, text_width
from rodwork.geometry.rounding import to_step

_TICK = 1.1  # half a tick, mm
_ARROW = 2.2  # length of an arrow head, mm


@lru_cache(maxsize=20_000)
def size_text(mm: float, step: float = 0.1) -> str:
    """A size for the saw or the rule: to the step, without a nought after the point ("720", "564.8")."""
    return f"{to_step(mm, step):.3f}".rstrip("0").rstrip(".")


def board_size_text(size: tuple[float, float, float], step: float) -> str:
    """A finished board, length and width to the step, thickness as it was measured: "720 x 320 x 17.6"."""
    long, wide, thick = size
    return f"{size_text(long, step)} x {size_text(wide, step)} x {size_text(thick, 0.01)}"


def mass_text(kg: float) -> str:
    """A mass to lift: to half a kilogram, tenths below 10."""
    return f"{kg:.1f} kg" if kg < 10 else f"{kg:.0f} kg"


def dimension_across(
    x0: float, x1: float, y: float, text: str, size: float = 4.2, bold: bool = False, reach: float = 0.0
) -> tuple[Shape, ...]:
    """A level dimension with its figure above the line; `reach`: how far the end lines run up to the work, mm."""
    middle = Text(at=((x0 + x1) / 2, y + 1.0), text=text, size=size, bold=bold, anchor="middle")
    ends = tuple(line((x, y - _TICK), (x, y + _TICK + reach), THIN) for x in (x0, x1))
    if text_width(text, size, bold) > abs(x1 - x0) - 2.0:  # beside it rather than over its ends
        middle = Text(at=(max(x0, x1) + 1.5, y - 0.33 * size), text=text, size=size, bold=bold)
    return (line((x0, y), (x1, y), THIN), *ends, middle)


def dimension_up(
    x: float, y0: float, y1: float, text: str, size: float = 4.2, bold: bool = False, reach: float = 0.0
) -> tuple[Shape, ...]:
    """An upright dimension with its figure to the left of the line, read from the right."""
    middle = Text(at=(x - 1.0, (y0 + y1) / 2), text=text, size=size, bold=bold, anchor="middle", turn=90.0)
    ends = tuple(line((x - _TICK, y), (x + _TICK + reach, y), THIN) for y in (y0, y1))
    return (line((x, y0), (x, y1), THIN), *ends, middle)


def clear_height(x: float, y0: float, y1: float, text: str, size: float = 4.2) -> tuple[Shape, ...]:
    """A figure in the middle of an opening, arrows from it up and down to what it lies between."""
    middle = (y0 + y1) / 2
    figure = Text(at=(x, middle - 0.33 * size), text=text, size=size, anchor="middle")
    room = (y1 - y0) / 2 - 0.6 * size
    if room < _ARROW:
        return (figure,)
    up = (line((x, y1 - room), (x, y1), THIN), arrow_head((x, y1), (0.0, 1.0)))
    down = (line((x, y0 + room), (x, y0), THIN), arrow_head((x, y0), (0.0, -1.0)))
    return (figure, *up, *down)


def clear_width(x0: float, x1: float, y: float, text: str, size: float = 4.2) -> tuple[Shape, ...]:
    """A figure in the middle of an opening, arrows from it left and right."""
    middle = (x0 + x1) / 2
    figure = Text(at=(middle, y - 0.33 * size), text=text, size=size, anchor="middle")
    room = (x1 - x0) / 2 - text_width(text, size) / 2 - 1.0
    if room < _ARROW:
        return (figure,)
    left = (line((x0 + room, y), (x0, y), THIN), arrow_head((x0, y), (-1.0, 0.0)))
    right = (line((x1 - room, y), (x1, y), THIN), arrow_head((x1, y), (1.0, 0.0)))
    return (figure, *left, *right)


def arrow_head(tip: tuple[float, float], way: tuple[float, float], length: float = _ARROW) -> Path_:
    """A filled arrow head whose tip is here, pointing this way (a unit vector)."""
    half = 0.22 * length
    bx, by = tip[0] - way[0] * length, tip[1] - way[1] * length
    points = (tip, (bx - way[1] * half, by + way[0] * half), (bx + way[1] * half, by - way[0] * half))
    return Path_(points=points, closed=True, pen=NO_PEN, fill="black")


def arrow(start: tuple[float, float], end: tuple[float, float], width: float = 1.4) -> tuple[Path_, ...]:
    """A black arrow on a white ground, so that it stands out from the lines under it."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    u = (dx / length, dy / length)
    head = min(4.0 * width, length)
    neck = (end[0] - u[0] * head, end[1] - u[1] * head)

    def across(p: tuple[float, float], by: float) -> tuple[float, float]:
        return (p[0] - u[1] * by, p[1] + u[0] * by)

    half, wing = width / 2, 1.6 * width
    points = (
        across(start, half), across(neck, half), across(neck, wing), end,
        across(neck, -wing), across(neck, -half), across(start, -half),
    )  # fmt: skip
    return (
        Path_(points=points, closed=True, pen=Pen(width=1.2, ink="white"), fill="white"),
        Path_(points=points, closed=True, pen=NO_PEN, fill="black"),
    )


def tick_box(x: float, y: float, side: float = 4.0) -> Path_:
    """A box to tick, by its bottom left corner."""
    return Path_(
        points=((x, y), (x + side, y), (x + side, y + side), (x, y + side)),
        closed=True,
        pen=Pen(width=0.3),
        fill="white",
    )
