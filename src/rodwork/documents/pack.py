"""The whole pack, in the order in which it is used at the bench."""

from rodwork.documents.alcove_pages import alcove_pages
from rodwork.documents.assembly import assembly_pages
from rodwork.documents.boards import board_pages
from rodwork.documents.buying_list import buying_list_pages
from rodwork.documents.cover import cover_pages
from rodwork.documents.cutting_list import cutting_list_pages
from rodwork.documents.cutting_pages import cutting_pages
from rodwork.documents.drawing import Drawing
from rodwork.documents.dry_fit_pages import dry_fit_pages
from rodwork.documents.front_pages import front_pages
from rodwork.documents.inside_pages import inside_pages
from rodwork.documents.labels import label_pages
from rodwork.documents.load_pages import load_pages
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.page import Page, numbered
from rodwork.documents.run_pages import run_pages
from rodwork.documents.settings_list import settings_pages
from rodwork.documents.strips import strip_pages
from rodwork.model.results import NOTHING_ASKED, Results
from rodwork.model.rod import Rod


def pack_pages(rod: Rod, results: Results = NOTHING_ASKED) -> tuple[Page, ...]:
    """Every page: what and why, what to saw, how to set, boards and joints, assembly, what to buy, labels, strips."""
    plan = results.cutting
    return (
        *cover_pages(rod), *front_pages(rod), *inside_pages(rod), *alcove_pages(rod), *run_pages(rod),
        *cutting_list_pages(rod),
        *(cutting_pages(rod, plan) if plan else ()), *settings_pages(rod, plan),
        *board_pages(rod), *opened_joint_pages(rod),
        *(dry_fit_pages(rod, results.dry_fit) if results.dry_fit else ()), *assembly_pages(rod),
        *(load_pages(rod, results.loading) if results.loading else ()), *buying_list_pages(rod, plan),
        *label_pages(rod, plan), *strip_pages(rod),
    )  # fmt: skip


def pack_drawings(rod: Rod, results: Results = NOTHING_ASKED) -> tuple[Drawing, ...]:
    """The pack as sheets, each with job, letter and page."""
    return numbered(pack_pages(rod, results), rod)
