"""Jobs and Rods for tests, made from values and not from text. The sizes are invented."""

from dataclasses import replace
from typing import Any

from rodwork.carcass.build import build
from rodwork.geometry.directions import BACK, LEFT, UP
from rodwork.joints.place import entry_of, join
from rodwork.joints.registry import back_recipe, families
from rodwork.model.demand import Contents
from rodwork.model.finish import with_finish
from rodwork.model.job import Back, Board, Cabinet, CabinetEdging, Edging, InBay, Job, Pins, Place, Recipe, Use
from rodwork.model.meeting import Carcass
from rodwork.model.rod import Rod
from rodwork.model.shop import Shop
from rodwork.setout.draft import Made, draft
from rodwork.setout.proof import proof_of

PLACE = Place(path=("cabinets", "glaze"))


def recipe(*families_and_settings: tuple[str, dict[str, Any]] | str) -> Recipe:
    """A recipe of families, each with its settings: recipe("dowel", ("screw", {"first_mm": 60.0}))."""
    uses = []
    for one in families_and_settings:
        family, settings = (one, {}) if isinstance(one, str) else one
        uses.append(Use(family=family, settings=families()[family](**settings), place=PLACE))
    return Recipe(name=" + ".join(u.family for u in uses), uses=tuple(uses), place=PLACE)


def back(style: str = "grooved all round", **changes: Any) -> Back:
    void = {"planted": 0.0, "grooved all round": 18.0, "grooved in the sides": 18.0}.get(style, 0.0)
    values: dict[str, Any] = {
        "board": "birch6", "style": style, "void_mm": void, "depth_mm": None, "clearance_mm": None, "grain": "up",
        "joint": None,
    }  # fmt: skip
    return Back(**{**values, **changes})


def cabinet(**changes: Any) -> Cabinet:
    values: dict[str, Any] = {
        "name": "glaze", "mark": "G", "kind": "wall", "count": 1, "width_mm": 600.0, "height_mm": 720.0,
        "depth_mm": 320.0, "board": "birch18", "shelf_board": "birch18", "sides": "through",
        "corner_joint": recipe("dowel"), "shelf_joint": recipe("dowel"), "divider_joint": recipe("dowel"),
        "back": back(), "bays": ("rest",), "openings": ("rest", "rest"), "loose_shelves": (1, 1),
        "shelf_set_back_mm": 0.0, "pins": Pins(), "edging": CabinetEdging(edging="birch", on=("fronts",)),
        "contents": Contents(kg_per_m2=60.0), "notes": None, "place": PLACE,
    }  # fmt: skip
    values.update(changes)
    if "loose_shelves" not in changes:
        values["loose_shelves"] = (1,) * len(values["openings"])
    alike = InBay(openings=values.pop("openings"), loose_shelves=values.pop("loose_shelves"))
    values.setdefault("in_bays", (alike,) * len(values["bays"]))
    for word in ("doors", "drawers"):  # none, those of one table, or of several
        one = values.get(word)
        values[word] = one if isinstance(one, tuple) else () if one is None else (one,)
    return Cabinet(**values)


def job(*cabinets: Cabinet, thickness: float = 17.6, back_thickness: float = 5.8, shop: Shop | None = None) -> Job:
    def board(name: str, nominal: float, actual: float) -> Board:
        return Board(
            name=name, material="birch plywood", thickness_mm=nominal, actual_mm=actual, sheet_mm=(2440.0, 1220.0),
            grain=True, price="64.00 GBP", density_kg_m3=680.0,
        )  # fmt: skip

    return Job(
        name="Pottery studio", letter="A", date="2026-11-25", customer=None, address=None, notes=None, currency="GBP",
        units="mm", paper="A4", shop=shop or Shop(name=None),
        boards={"birch18": board("birch18", 18.0, thickness), "birch6": board("birch6", 6.0, back_thickness)},
        edgings={"birch": Edging(name="birch", thickness_mm=1.0, adds_mm=1.0, mills_mm=0.0, price_per_m="0.85 GBP")},
        cabinets=cabinets,
    )  # fmt: skip


def made(cabinet: Cabinet, in_job: Job) -> Made:
    """Carcass and joints of one cabinet."""
    shop = with_finish(in_job.shop, cabinet.finish)
    carcass = build(
        cabinet, in_job.boards, in_job.edgings, shop, lambda b: back_recipe(b, cabinet.place),
        lambda r, host, guest: entry_of(r, host, guest, shop),
    )  # fmt: skip
    joined = join(carcass, shop)
    return Made(cabinet=cabinet, carcass=carcass, joints=joined.joints, machining=joined.machining)


def rod_of(in_job: Job) -> Rod:
    """The Rod of a job, proof numbers included, without checks."""
    rod = draft(in_job, tuple(made(c, in_job) for c in in_job.cabinets))
    return replace(rod, cabinets=tuple(replace(c, proof=proof_of(c, rod.setups)) for c in rod.cabinets))


def edge_to_edge(joint: Recipe, thickness: float = 17.6) -> Rod:
    """Two boards lying side by side, joined in width: numbers from their left ends, upper sides flush."""
    from rodwork.carcass.boards import LYING, panel
    from rodwork.carcass.contacts import edge_to_edge as meeting

    in_job = job(cabinet(width_mm=900.0, height_mm=thickness, depth_mm=500.0, back=None), thickness=thickness)
    front, behind = (
        panel(id=f"fixed shelf {n}", role="fixed shelf", board=in_job.boards["birch18"], rotation=LYING, edged=(), edging=None,
              box=((0.0, y, 0.0), (900.0, y + deep, thickness)), shows=("face_side",))
        for n, y, deep in ((1, 0.0, 200.0), (2, 200.0, 300.0))
    )  # fmt: skip
    met = meeting(host=front, guest=behind, toward=BACK, datum=LEFT, flush=UP, recipe=joint)
    carcass = Carcass(panels=(front, behind), meetings=(met,), pin_rows=(), openings=(), shelf_pins=0)
    joined = join(carcass, in_job.shop)
    one = Made(cabinet=in_job.cabinets[0], carcass=carcass, joints=joined.joints, machining=joined.machining)
    rod = draft(in_job, (one,))
    return replace(rod, cabinets=tuple(replace(c, proof=proof_of(c, rod.setups)) for c in rod.cabinets))


def rod(**changes: Any) -> Rod:
    """The Rod of one cabinet with these changes."""
    return rod_of(job(cabinet(**changes)))
