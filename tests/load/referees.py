"""Beams by two finite-element libraries that share nothing with our own: PyNiteFEA and anastruct."""

import warnings
from itertools import pairwise

from anastruct import SystemElements
from Pynite import FEModel3D


def _spaced(places, length, points, look_at):
    """Places of nodes; the one to look at is left out where another lies within a hair of it."""
    xs = sorted({0.0, length, *places, *(x for x, _ in points)})
    return xs if min(abs(x - look_at) for x in xs) < 1e-3 * length else sorted([*xs, look_at])


def by_pynite(places, length, EI, even, points, springs, look_at):
    """(largest sag, reactions, largest moment) of a beam: supports at places, springs N mm/rad at some of them."""
    E, G = 1.0e4, 1.0
    model = FEModel3D()
    model.add_material("m", E, G, 0.3, 1e-12)
    A = 1e6
    model.add_section("s", A, EI / E, EI / E, 1e6)
    xs = _spaced(places, length, points, look_at)
    fine = sorted({*xs, *(a + (b - a) * i / 8 for a, b in pairwise(xs) for i in range(1, 8))})
    for i, x in enumerate(fine):
        model.add_node(f"N{i}", x, 0, 0)
    number = {x: i for i, x in enumerate(fine)}
    for i in range(len(fine) - 1):
        model.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "m", "s")
        model.add_member_dist_load(f"M{i}", "Fy", -even, -even)
    for k, x in enumerate(places):
        model.def_support(f"N{number[x]}", k == 0, True, True, True, True, False)
        if springs[k]:
            model.def_support_spring(f"N{number[x]}", "RZ", springs[k])
    for x, force in points:
        model.add_node_load(f"N{number[x]}", "FY", -force)
    model.analyze_linear()
    sag = max(abs(node.DY["Combo 1"]) for node in model.nodes.values())
    reactions = [model.nodes[f"N{number[x]}"].RxnFY["Combo 1"] for x in places]
    moment = max(abs(m.max_moment("Mz", "Combo 1")) for m in model.members.values())
    moment = max(moment, *(abs(m.min_moment("Mz", "Combo 1")) for m in model.members.values()))
    return sag, reactions, moment


def by_anastruct(places, length, EI, even, points, look_at):
    """(largest sag, reactions) of a beam without shear."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        xs = _spaced(places, length, points, look_at)
        fine = sorted({*xs, *(a + (b - a) * i / 8 for a, b in pairwise(xs) for i in range(1, 8))})
        model = SystemElements(EA=1e9, EI=EI)
        for a, b in pairwise(fine):
            model.add_element(location=[[a, 0], [b, 0]])
        number = {x: i + 1 for i, x in enumerate(fine)}
        for k, x in enumerate(places):
            (model.add_support_hinged if k == 0 else model.add_support_roll)(node_id=number[x])
        for element in range(1, len(fine)):
            model.q_load(q=-even, element_id=element)
        for x, force in points:
            model.point_load(node_id=number[x], Fy=-force)
        model.solve()
        sag = max(abs(d["uy"]) for d in model.get_node_displacements())
        reactions = [-model.reaction_forces[number[x]].Fy for x in places]
    return sag, reactions
