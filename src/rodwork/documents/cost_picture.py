"""What each way of joining costs as cabinets are made, its machine included, with the points where machines pay."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil, log10

from rodwork.documents.annotate import clipped, spread
from rodwork.documents.comparison import ordinal
from rodwork.documents.drawing import FAINT, NO_PEN, Circle, Drawing, Pen, Point, Shape, Text, box, line, text_width
from rodwork.documents.page import Area
from rodwork.model.costing import Comparison, Way

SIZE = 3.0
MOST_LINES = 14  # the cheapest: more could not be told apart
LEAST_CABINETS = 12
NAMES_MM = 52.0  # room for names at the right ends of the lines
BELOW_MM = 9.0
LEFT_MM = 15.0
AT_HAND = Pen(width=0.45)
Place = Callable[[float, float], Point]
BOUGHT = Pen(width=0.45, dashes=(2.2, 1.2))


@dataclass(frozen=True, slots=True)
class _Line:
    """One way: what it costs before the first cabinet, and with each."""

    way: Way
    first: float
    each: float

    def at(self, cabinets: float) -> float:
        return self.first + self.each * cabinets


def cost_drawing(compared: Comparison) -> Drawing:
    """The picture alone, on a sheet of its own."""
    area = Area(left=6.0, bottom=6.0, right=194.0, top=104.0)
    return Drawing(width=200.0, height=110.0, shapes=cost_shapes(compared, area))


def cost_shapes(compared: Comparison, area: Area) -> tuple[Shape, ...]:
    """Money over cabinets made: a line for each way that is priced, dashed where a machine is bought first."""
    priced = [_line(way, compared) for way in compared.all if way.running is not None and _known(way)]
    if not priced:
        return (Text(at=(area.left, area.top - 6.0), text="No way is priced: there is nothing to draw.", size=4.0),)
    most = _most(compared)
    lines = sorted(priced, key=lambda one: one.at(most))[:MOST_LINES]
    high = _round_up(max(one.at(most) for one in lines))
    plot = Area(
        left=area.left + LEFT_MM, bottom=area.bottom + BELOW_MM, right=area.right - NAMES_MM, top=area.top - 5.0
    )

    def place(cabinets: float, money: float) -> tuple[float, float]:
        return (plot.left + plot.width * cabinets / most, plot.bottom + plot.height * money / high)

    shapes: list[Shape] = [*_axes(compared, plot, most, high)]
    for one in lines:
        pen = BOUGHT if one.way.to_buy else AT_HAND
        shapes.append(line(place(0, one.first), place(most, one.at(most)), pen))
    ends = [place(most, one.at(most))[1] for one in lines]
    heights = spread(ends, [SIZE] * len(lines), plot.bottom, area.top, gap=0.4)
    for one, end, height in zip(lines, ends, heights, strict=True):
        shapes.append(line((plot.right, end), (plot.right + 4.0, height), FAINT))
        text = clipped(one.way.name, SIZE, NAMES_MM - 7.0)
        shapes.append(Text(at=(plot.right + 5.0, height - 0.33 * SIZE), text=text, size=SIZE))
    shapes += _break_evens(lines, place, plot, most)
    return tuple(shapes)


def _known(way: Way) -> bool:
    return all(machine.price is not None for machine in way.to_buy)


def _line(way: Way, compared: Comparison) -> _Line:
    assert way.running is not None
    bought = sum(float(m.price) for m in way.to_buy if m.price is not None)
    return _Line(way, bought, float(way.running) / compared.cabinets)


def _most(compared: Comparison) -> int:
    """How many cabinets the picture goes to: past every point where a machine pays, or as many as are to come."""
    pays = [way.pays_from for way in compared.with_machine if way.pays_from is not None]
    wanted = max([LEAST_CABINETS, compared.cabinets, compared.cabinets_to_come, *(ceil(1.25 * n) for n in pays)])
    return int(_round_up(min(wanted, 10 * max(compared.cabinets, compared.cabinets_to_come))))


def _round_up(value: float) -> float:
    """The next figure whose quarters are plain ones: 1.2, 1.6, 2, 2.4, 3.2, 4, 6, 8, 10 times a power of ten."""
    if value <= 0:
        return 1.0
    power = 10.0 ** int(log10(value) if value >= 1 else log10(value) - 1)
    return next(n * power for n in (1.2, 1.6, 2, 2.4, 3.2, 4, 6, 8, 10, 12) if n * power >= value - 1e-9)


def _axes(compared: Comparison, plot: Area, most: int, high: float) -> list[Shape]:
    shapes: list[Shape] = [
        line((plot.left, plot.bottom), (plot.right, plot.bottom)),
        line((plot.left, plot.bottom), (plot.left, plot.top)),
        Text(at=(plot.left, plot.top + 2.0), text=f"{compared.currency}, machine included", size=SIZE, bold=True),
        Text(at=(plot.right, plot.bottom - 7.6), text="cabinets made", size=SIZE, bold=True, anchor="end"),
    ]  # fmt: skip
    for share in (0.25, 0.5, 0.75, 1.0):
        x, y = plot.left + share * plot.width, plot.bottom + share * plot.height
        shapes += [
            line((x, plot.bottom), (x, plot.bottom - 1.2)), line((plot.left, y), (plot.left - 1.2, y)),
            Text(at=(x, plot.bottom - 4.2), text=f"{share * most:g}", size=SIZE, anchor="middle"),
            Text(at=(plot.left - 2.0, y - 0.33 * SIZE), text=f"{share * high:g}", size=SIZE, anchor="end"),
        ]  # fmt: skip
    return shapes


def _break_evens(lines: list[_Line], place: Place, plot: Area, most: int) -> Iterator[Shape]:
    """Each point where a machine is earned back: a ring on its line, and its name in the corner, first ones first."""
    paid = [(one.way.pays_from, one) for one in lines if one.way.pays_from is not None and one.way.pays_from <= most]
    found = sorted(paid, key=lambda row: (row[0], row[1].way.name))
    for n, one in found:
        yield Circle(centre=place(n, one.at(n)), radius=1.1, pen=Pen(width=0.35), fill="white")
    step = SIZE + 0.9
    room = int((plot.height - 3.0) / step)
    told = [f"{clipped(one.way.name, SIZE, 44.0)} pays from the {ordinal(n)}" for n, one in found]
    if len(told) > room:
        told = [*told[: room - 1], f"and {len(told) - room + 1} more"]
    width = max((text_width(text, SIZE) for text in told), default=0.0)
    if told:
        height = len(told) * step + 1.5
        yield box(plot.left + 3.0, plot.top - height, width + 3.0, height, pen=NO_PEN, fill="white")
    for k, text in enumerate(told):
        yield Text(at=(plot.left + 4.5, plot.top - (k + 1) * step), text=text, size=SIZE)
