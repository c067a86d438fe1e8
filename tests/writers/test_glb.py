"""The GLB is judged by the Khronos validator and read back with trimesh: neither shares code with what wrote it."""

import io
import json
import os
import struct
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import trimesh
from manifold3d import Manifold, Mesh64
from tests.geometry.formulas import part_volume
from tests.geometry.sample_boards import glaze, handed
from tests.tools.gltf import NotInstalledError, install, reports

from rodwork.documents.solids import Mesh
from rodwork.writers.glb import glb_bytes, glb_files, glb_name

MM = 1000.0


def read(data):
    scene = trimesh.load(io.BytesIO(data), file_type="glb", process=False)
    return {name: standing(scene, name) for name in scene.graph.nodes_geometry}


def standing(scene, name):
    """The board of this name where it stands, in mm."""
    matrix, shape = scene.graph.get(name)
    mesh = scene.geometry[shape].copy()
    mesh.apply_transform(matrix)
    mesh.apply_scale(MM)
    return mesh


def tree(data):
    """The JSON of a GLB, by the specification alone."""
    magic, version, length = struct.unpack("<4sII", data[:12])
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack("<I4s", data[12:20])
    assert kind == b"JSON"
    return json.loads(data[20 : 20 + size])


def test_the_validator_finds_no_error_and_nothing_to_say(tmp_path, monkeypatch):
    try:
        install()
    except NotInstalledError as problem:
        pytest.skip(str(problem))
    cabinet = glaze().cabinets[0]
    hostile = replace(
        cabinet, name='<b>"\\\x00\n日本', parts=tuple(replace(p, marks=('"}\x07',)) for p in cabinet.parts)
    )
    many = replace(cabinet, parts=tuple(replace(p, material=f"{p.board} {n}") for n, p in enumerate(cabinet.parts)))
    files = []
    for n, one in enumerate((cabinet, handed(cabinet), hostile, many)):
        file = tmp_path / f"{n}.glb"
        file.write_bytes(glb_bytes(one))
        files.append(file)
    fine = tmp_path / "fine.glb"
    fan = Mesh(
        points=((0.0, 0.0, 0.0), *((1000.0, float(n), 0.0) for n in range(70_000))),
        triangles=tuple((0, n, n + 1) for n in range(1, 70_000)),
    )
    with monkeypatch.context() as patch:
        patch.setattr("rodwork.writers.glb.drawn_mesh", lambda drawn: fan)
        fine.write_bytes(glb_bytes(replace(cabinet, parts=cabinet.parts[:1])))
    spoilt = tmp_path / "spoilt.glb"
    spoilt.write_bytes(files[0].read_bytes().replace(b'"VEC3"', b'"VEC4"'))
    *good, bad = reports(*files, fine, spoilt)
    for report in good:
        assert report["issues"]["messages"] == []
        assert report["info"]["generator"] == "rodwork"
    assert good[0]["info"]["totalTriangleCount"] > 1000
    assert good[-1]["info"]["totalVertexCount"] > 0xFFFF, "more corners than two bytes can number"
    assert bad["issues"]["numErrors"] > 0, "the validator does find an error where there is one"


def test_there_is_an_object_for_each_board_named_by_its_mark():
    cabinet = glaze().cabinets[0]
    data = glb_bytes(cabinet)
    assert set(read(data)) == {"G1-LS", "G1-RS", "G1-T", "G1-B", "G1-FS", "G1-BK", "G1-L1", "G1-L2"}
    nodes = tree(data)["nodes"]
    assert nodes[0] == {"name": "glaze", "children": [1, 2, 3, 4, 5, 6, 7, 8]}
    assert nodes[1]["extras"] == {"board": "left side", "marks": ["G1-LS", "G2-LS"]}


def test_the_cabinet_is_its_own_size_in_metres_with_y_up_and_its_front_towards_plus_z():
    cabinet = glaze().cabinets[0]
    boards = read(glb_bytes(cabinet))
    width, height, depth = cabinet.size
    low = np.min([b.bounds[0] for b in boards.values()], axis=0)
    high = np.max([b.bounds[1] for b in boards.values()], axis=0)
    assert low == pytest.approx((0, 0, -depth), abs=1e-3)
    assert high == pytest.approx((width, height, 0), abs=1e-3)
    middle = {name: b.bounds.mean(axis=0) for name, b in boards.items()}
    assert middle["G1-LS"][0] < middle["G1-RS"][0]
    assert middle["G1-B"][1] < middle["G1-T"][1]
    assert middle["G1-BK"][2] < middle["G1-FS"][2] < 0


def test_every_board_is_closed_and_holds_the_volume_of_the_formulas():
    cabinet = glaze().cabinets[0]
    boards = read(glb_bytes(cabinet))
    for part in cabinet.parts:
        mesh = boards[part.marks[0]]
        assert mesh.is_watertight
        assert mesh.is_winding_consistent
        assert mesh.volume == pytest.approx(part_volume(part, 16), rel=1e-5)


def test_the_left_side_is_the_mirror_of_the_right():
    cabinet = handed(glaze().cabinets[0])
    boards = read(glb_bytes(cabinet))
    left, right = (as_solid(boards[name]) for name in ("G1-LS", "G1-RS"))
    mirrored = right.mirror((1, 0, 0)).translate((cabinet.size[0], 0, 0))
    turned = right.rotate((0, 180, 0)).translate((cabinet.size[0], 0, -cabinet.size[2]))
    assert not_shared(left, mirrored) < 20, "mm3: what four bytes a number can tell of a board of 4 million"
    assert not_shared(left, turned) > 2000, "nor is it the right side turned about"
    pins = [p for p in boards["G1-RS"].vertices if np.isclose(p[0], 582.4, atol=1e-3) and 140 < p[1] < 230]
    assert len(pins) == 6 * 16, "all six pin bores open inwards, below the shelf"


def as_solid(mesh):
    return Manifold(Mesh64(np.array(mesh.vertices, float), np.array(mesh.faces, np.uint64)))


def not_shared(a, b):
    """What either has and the other has not, mm3."""
    return (a - b).volume() + (b - a).volume()


def test_equal_boards_share_their_triangles():
    found = tree(glb_bytes(glaze().cabinets[0]))
    numbers = {node["name"]: node["mesh"] for node in found["nodes"][1:]}
    assert numbers["G1-T"] == numbers["G1-B"]
    assert numbers["G1-L1"] == numbers["G1-L2"]
    assert numbers["G1-T"] != numbers["G1-FS"]
    handed_numbers = {n["name"]: n["mesh"] for n in tree(glb_bytes(handed(glaze().cabinets[0])))["nodes"][1:]}
    assert handed_numbers["G1-LS"] != handed_numbers["G1-RS"]


def test_names_are_told_as_text_and_files_stay_in_their_folder():
    rod = glaze()
    odd = replace(rod.cabinets[0], name="../glaze‮\n<script>")
    assert tree(glb_bytes(odd))["nodes"][0]["name"] == "../glaze <script>"
    names = [name for name, _ in glb_files(replace(rod, cabinets=(odd, rod.cabinets[0], rod.cabinets[0])))]
    assert names == ["glaze_script_3d.glb", "glaze_3d.glb", "glaze_3d_2.glb"]
    assert glb_name(replace(odd, name="CON")) == "CON_3d.glb"


def test_the_same_cabinet_gives_the_same_bytes_in_another_process():
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]);"
        "from rodwork.writers.glb import glb_bytes; from tests.geometry.sample_boards import glaze;"
        "sys.stdout.buffer.write(glb_bytes(glaze().cabinets[0]))"
    )
    run = [sys.executable, "-c", code, str(Path(__file__).parents[2])]
    made = [
        subprocess.run(run, env={**os.environ, "PYTHONHASHSEED": n}, capture_output=True, check=True).stdout
        for n in ("1", "2")
    ]
    assert made[0] == made[1] == glb_bytes(glaze().cabinets[0])
