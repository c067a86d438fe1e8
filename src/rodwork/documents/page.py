"""A page of the pack: its body, and the frame that every page has (job, letter, page, large in one corner)."""

from dataclasses import dataclass

from rodwork.documents.annotate import clipped
from rodwork.documents.drawing import Drawing, Shape, Text, line, text_width
from rodwork.model.rod import Rod

MARGIN = 12.0
HEAD = 17.0  # depth of the title strip
FOOT = 9.0  # depth of the strip with job, letter and page
PAPERS: dict[str, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A rectangle of a page, mm from its bottom left corner."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Width, mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height, mm."""
        return self.top - self.bottom


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page before it is numbered: title at the head, a short note under it, a figure at its right."""

    kind: str
    title: str
    under: str = ""
    right: str = ""
    landscape: bool = True
    shapes: tuple[Shape, ...] = ()
    bare: bool = False  # labels and strips fill the sheet and are cut off: only the foot is printed


def paper_size(paper: str, landscape: bool) -> tuple[float, float]:
    """(width, height) of the paper, mm."""
    w, h = PAPERS[paper]
    return (h, w) if landscape else (w, h)


def body(paper: str, landscape: bool, bare: bool = False) -> Area:
    """The room that is left for the body of a page."""
    w, h = paper_size(paper, landscape)
    head = 0.0 if bare else HEAD
    return Area(left=MARGIN, bottom=MARGIN + FOOT, right=w - MARGIN, top=h - MARGIN - head)


def fitted(text: str, size: float, width: float, bold: bool = False) -> float:
    """The largest em up to `size` at which the text is no wider than `width`, mm."""
    return min(size, size * width / max(text_width(text, size, bold), 1e-9))


def fitted_text(text: str, size: float, least: float, width: float, bold: bool = False) -> tuple[str, float]:
    """The text and its em: shrunk to fit the width, and cut short where that would be too small to read."""
    em = fitted(text, size, width, bold)
    return (text, em) if em >= least else (clipped(text, least, width, bold), least)


def numbered(pages: tuple[Page, ...], rod: Rod) -> tuple[Drawing, ...]:
    """Every page with its title, and job, letter and page number at the foot."""
    return tuple(_framed(page, rod, n, len(pages)) for n, page in enumerate(pages, 1))


def _framed(page: Page, rod: Rod, number: int, of: int) -> Drawing:
    w, h = paper_size(rod.heading.paper, page.landscape)
    head = () if page.bare else _head(page, w, h)
    return Drawing(width=w, height=h, shapes=(*head, *page.shapes, *_foot(rod, number, of, w)))


def _head(page: Page, w: float, h: float) -> tuple[Shape, ...]:
    right, right_size = fitted_text(page.right, 7.0, 4.0, 0.4 * w, bold=True)
    room = w - 2 * MARGIN - text_width(right, right_size, True) - 6.0
    title, size = fitted_text(page.title, 8.5, 4.5, room, True)
    shapes: list[Shape] = [
        Text(at=(MARGIN, h - MARGIN - 6.5), text=title, size=size, bold=True),
        line((MARGIN, h - MARGIN - HEAD + 2.0), (w - MARGIN, h - MARGIN - HEAD + 2.0)),
    ]
    if right:
        at = (w - MARGIN, h - MARGIN - 6.5)
        shapes.append(Text(at=at, text=right, size=right_size, bold=True, anchor="end"))
    if page.under:
        under, size = fitted_text(page.under, 4.2, 3.0, w - 2 * MARGIN)
        shapes.append(Text(at=(MARGIN, h - MARGIN - 12.5), text=under, size=size))
    return tuple(shapes)


def _foot(rod: Rod, number: int, of: int, w: float) -> tuple[Shape, ...]:
    date = f"   {rod.heading.date}" if rod.heading.date else ""
    place, place_size = fitted_text(f"{rod.heading.letter}   {number} of {of}", 6.5, 4.0, 60.0, True)
    room = w - 2 * MARGIN - 66.0
    size = max(fitted(rod.job + date, 5.0, room, True), 3.6)
    job = clipped(rod.job, size, room - text_width(date, size, True), True) + date
    return (
        line((MARGIN, MARGIN + FOOT - 2.5), (w - MARGIN, MARGIN + FOOT - 2.5)),
        Text(at=(MARGIN, MARGIN), text=job, size=size, bold=True),
        Text(at=(w - MARGIN, MARGIN), text=place, size=place_size, bold=True, anchor="end"),
    )
