"""Families written as data for the checks, so that a check is tried on what it is for. The sizes are invented."""

from pathlib import Path

from rodwork.job.own_families import read_family
from rodwork.joints.own import settings_of
from rodwork.model.job import Recipe, Use
from tests.building import PLACE

BOLT = read_family(
    (Path(__file__).parents[2] / "examples/families/bolt-and-barrel-nut.toml").read_text(encoding="utf-8"), "bolt.toml"
)
HEAD = """
[family]
name = "{name}"
title = "{name}s"
law = "meet"
duty = "both"
places = ["corner", "fixed shelf", "divider"]
glued = {glued}
length = 24
goes_home = 12
slides = {slides}
[nature]
registers_on = "outer face, and END"
board = [9, 30]
demands_along = 2
demands_across = 0.2
[play]
along = 0.1
across = 0.1
"""
CUT = """
[[cut]]
board = "{board}"
kind = "{kind}"
{sizes}
depth = {depth}
tool = "slot jointer"
"""
DISC = "cutter_radius = 50\nthickness = 4"
MORTISE = 'width = 8\nlength = {length}\nends = "{ends}"\nend_radius = {radius}'


def disc(glued=True):
    """A round cutter of 100 plunged 12 into both boards, 4 thick: chord 65."""
    return _family("disc", glued, "arc_slot", DISC)


def mortise(length=24, ends="round", glued=True):
    """A slot of 8, 12 deep in both boards."""
    sizes = MORTISE.format(length=length, ends=ends, radius=4 if ends == "round" else 0)
    return _family("lug", glued, "slot", sizes)


def hook(slides):
    """A slot that is hooked in beside its place, and slides home."""
    return _family("hook", False, "slot", MORTISE.format(length=24, ends="round", radius=4), slides)


def _family(name, glued, kind, sizes, slides=0):
    cuts = "".join(CUT.format(board=b, kind=kind, sizes=sizes, depth=12) for b in ("face", "end"))
    return read_family(HEAD.format(name=name, slides=slides, glued=str(glued).lower()) + cuts, f"{name}.toml")


def own(family, **said):
    """A recipe of one family of our own."""
    use = Use(family=family.name, settings=settings_of(family)(**said), place=PLACE)
    return Recipe(name=family.name, uses=(use,), place=PLACE)
