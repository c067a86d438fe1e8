"""Cabinets with a clothes rail, for its checks. The sizes are invented."""

from dataclasses import fields

from rodwork.model.clothes_rail import ClothesRailAsked, SocketSheet
from tests.building import rod


def rail(**changes):
    values = {
        "opening": 1, "below_mm": 60.0, "from_front_mm": None, "section": "oval", "size_mm": (30.0, 15.0),
        "clothes": "short", "supports": 0, "socket": SocketSheet(high_mm=50.0, wide_mm=22.0),
    }  # fmt: skip
    return ClothesRailAsked(**{**values, **changes})


def with_rail(**changes):
    """The words of a cabinet of one opening, deep and high enough, with a rail of these changes."""
    words = {"kind": "wardrobe", "depth_mm": 600.0, "height_mm": 1800.0, "openings": ("rest",), "loose_shelves": (0,)}
    of_rail = {f.name for f in fields(ClothesRailAsked)} - {"bays"}  # which are the cabinet's here
    of_cabinet = {w: changes.pop(w) for w in tuple(changes) if w not in of_rail}
    return {**words, "clothes_rails": (rail(**changes),), **of_cabinet}


def hung(**changes):
    return rod(**with_rail(**changes))
