"""The whole pack, in the order in which it is used at the bench."""

from rodwork.documents.assembly import assembly_pages
from rodwork.documents.boards import board_pages
from rodwork.documents.buying_list import buying_list_pages
from rodwork.documents.cover import cover_pages
from rodwork.documents.cutting_list import cutting_list_pages
from rodwork.documents.drawing import Drawing
from rodwork.documents.labels import label_pages
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.page import Page, numbered
from rodwork.documents.settings_list import settings_pages
from rodwork.documents.strips import strip_pages
from rodwork.model.rod import Rod

_PARTS = (
    cover_pages,
    cutting_list_pages,
    settings_pages,
    board_pages,
    opened_joint_pages,
    assembly_pages,
    buying_list_pages,
    label_pages,
    strip_pages,
)


def pack_pages(rod: Rod) -> tuple[Page, ...]:
    """Every page: what and why, what to saw, how to set, boards and joints, assembly, what to buy, labels, strips."""
    return tuple(page for pages in _PARTS for page in pages(rod))


def pack_drawings(rod: Rod) -> tuple[Drawing, ...]:
    """The pack as sheets, each with job, letter and page."""
    return numbered(pack_pages(rod), rod)
