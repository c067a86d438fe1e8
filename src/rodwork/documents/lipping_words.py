"""What is to be done to a board that is lipped, and to its lippings, in the order of work."""

from rodwork.documents.annotate import on_edges
from rodwork.documents.figures import size_text
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.surface import EDGES, Surface, axis_of, outward
from rodwork.model.words import cabinet_words


def lipped_words(part: Part, rod: Rod) -> str:
    """From the saw to the size that it is machined at; nothing where it has no lippings."""
    stock = rod.edgings.get(part.edging_name or "")
    edges = [e for e in EDGES if part.edging.at(e)]
    if stock is None or stock.lipping is None or not edges:
        return ""
    words = cabinet_words(part.role, part.pose.rotation)
    material = rod.boards[stock.lipping.made_of].material
    both = len({axis_of(e) for e in edges}) == 2
    glued = "glue the lippings on the ends first, then those on the edges over them" if both else "glue it on"
    again = (
        f", then saw it to {_size(part.size, rod)} again"
        if stock.comes_off
        else f"; it is {_size(part.size, rod)} then"
    )
    return (
        f"Lipped with {size_text(stock.adds, rod.step)} of {material} {on_edges([words[e] for e in edges])}, "
        f"before any of this: saw to {_size(part.cut, rod)}, {glued}, flush both faces{again}."
    )


def _size(size: tuple[float, ...], rod: Rod) -> str:
    return " x ".join(size_text(v, rod.step) for v in size[:2])


def glue_on_words(lipping: Part, mark: str, cabinet: RodCabinet) -> str:
    """Where a strip goes: "glue on G1-LS, front edge; flush, trim the ends"."""
    board = cabinet.part[lipping.glued_on or ""]
    edge = cabinet_words(board.role, board.pose.rotation)[edge_of(lipping, board)]
    return f"glue on {board.marks[lipping.marks.index(mark)]}, {edge}; flush both faces, trim the ends"


def edge_of(lipping: Part, board: Part) -> Surface:
    """The edge or end of its board that a lipping is on: the one that its seen face looks the way of."""
    way = board.pose.direction_to_part(lipping.pose.direction_to_cabinet((0.0, 0.0, 1.0)))
    return max(EDGES, key=lambda e: sum(a * b for a, b in zip(outward(e), way, strict=True)))
