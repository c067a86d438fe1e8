"""A cabinet as a GLB: one object for each board, named by its mark, to turn about on a screen.

glTF is in metres with Y up and the front towards +Z, so the cabinet's x, z and -y become X, Y and Z: a turn, no
mirror. Equal boards share their triangles, which carry no normals: a reader then shades each flat by itself, as
boards are flat. The same cabinet gives the same bytes.

Source: glTF 2.0 specification (ISO/IEC 12113:2022): 3.4 coordinates and units, 3.6.2 accessors, 4.4 the binary form.
"""

import json
import struct
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from rodwork.documents.solids import SCREEN_SEGMENTS, DrawnBoard, Mesh, Shape, drawn_boards, drawn_mesh
from rodwork.geometry.vec import Vec, neg
from rodwork.model.pose import Pose
from rodwork.model.rod import Rod, RodCabinet
from rodwork.writers.user_text import file_name, one_line, told_apart

_M = 0.001  # mm to m
_FLOAT, _SHORT, _INT = 5126, 5123, 5125  # component types, as the specification numbers them
_VERTICES, _INDICES = 34962, 34963  # what a view of the buffer is for
# Plain wood tones, light and dark in turn (linear red, green, blue); the board's own name stands on its material
_TONES = ((0.73, 0.55, 0.32), (0.45, 0.29, 0.15), (0.86, 0.77, 0.63), (0.27, 0.17, 0.08), (0.58, 0.58, 0.55))


def glb_files(rod: Rod) -> tuple[tuple[str, bytes], ...]:
    """(file name, bytes) for every cabinet of the job."""
    names = told_apart([glb_name(cabinet) for cabinet in rod.cabinets])
    return tuple((name, glb_bytes(cabinet)) for name, cabinet in zip(names, rod.cabinets, strict=True))


def glb_name(cabinet: RodCabinet) -> str:
    """Such as glaze_3d.glb."""
    return file_name((cabinet.name,), "3d.glb")


def glb_bytes(cabinet: RodCabinet, segments: int = SCREEN_SEGMENTS) -> bytes:
    """One copy of the cabinet as binary glTF 2.0, its boards where they stand.

    Each object bears the first mark of its board; what it is and all its marks lie in the object's extras.
    """
    materials = list(dict.fromkeys(part.material for part in cabinet.parts))
    shapes: dict[tuple[Shape, str], int] = {}
    scene = _Scene()
    drawn = drawn_boards(cabinet, segments)
    for d in drawn:
        key = (d.shape, d.part.material)
        if key not in shapes:
            shapes[key] = scene.add_mesh(drawn_mesh(d), materials.index(d.part.material), one_line(d.part.name))
    boards = [_object(d, shapes[d.shape, d.part.material]) for d in drawn]
    top = {"name": one_line(cabinet.name), "children": list(range(1, len(boards) + 1))}
    tree = {
        "asset": {"version": "2.0", "generator": "rodwork"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [top, *boards],
        "meshes": scene.meshes,
        "materials": [_material(name, n) for n, name in enumerate(materials)],
        "accessors": scene.accessors,
        "bufferViews": scene.views,
        "buffers": [{"byteLength": len(scene.data)}],
    }
    return _binary(tree, bytes(scene.data))


def _object(drawn: DrawnBoard, mesh: int) -> dict[str, Any]:
    part = drawn.part
    marks = [one_line(mark) for mark in part.marks]
    return {
        "name": marks[0] if marks else one_line(part.id),
        "mesh": mesh,
        "matrix": _stance(drawn.pose),
        "extras": {"board": one_line(part.name), "marks": marks},
    }


def _stance(pose: Pose) -> list[float]:
    """Where the board stands: 4 x 4, column by column, in metres with Y up."""
    x, y, z = pose.rotation
    rows = (x, z, neg(y))
    at = (pose.origin[0] * _M, pose.origin[2] * _M, 0.0 - pose.origin[1] * _M)
    turned = [row[column] for column in range(3) for row in rows]
    return [*turned[0:3], 0.0, *turned[3:6], 0.0, *turned[6:9], 0.0, *at, 1.0]


def _material(name: str, n: int) -> dict[str, Any]:
    colour = [*_TONES[n % len(_TONES)], 1.0]
    surface = {"baseColorFactor": colour, "metallicFactor": 0.0, "roughnessFactor": 0.9}
    return {"name": one_line(name), "pbrMetallicRoughness": surface}


@dataclass(slots=True)
class _Scene:
    """The one buffer, and what its bytes mean."""

    data: bytearray = field(default_factory=bytearray)
    views: list[dict[str, Any]] = field(default_factory=list)
    accessors: list[dict[str, Any]] = field(default_factory=list)
    meshes: list[dict[str, Any]] = field(default_factory=list)

    def add_mesh(self, mesh: Mesh, material: int, name: str) -> int:
        """The number of the new mesh."""
        primitive = {
            "attributes": {"POSITION": self._add_points(mesh.points)},
            "indices": self._add_corners([i for triangle in mesh.triangles for i in triangle], len(mesh.points)),
            "material": material,
        }
        self.meshes.append({"name": name, "primitives": [primitive]})
        return len(self.meshes) - 1

    def _add_points(self, points: Sequence[Vec]) -> int:
        packed = struct.pack(f"<{3 * len(points)}f", *(c * _M for point in points for c in point))
        kept = list(struct.iter_unpack("<3f", packed))  # the bounds are those of the numbers as they are written
        bounds = {"min": [min(c) for c in zip(*kept, strict=True)], "max": [max(c) for c in zip(*kept, strict=True)]}
        return self._add(packed, _VERTICES, {"componentType": _FLOAT, "type": "VEC3", "count": len(points), **bounds})

    def _add_corners(self, corners: Sequence[int], points: int) -> int:
        letter, kind = ("H", _SHORT) if points < 0xFFFF else ("I", _INT)
        packed = struct.pack(f"<{len(corners)}{letter}", *corners)
        return self._add(packed, _INDICES, {"componentType": kind, "type": "SCALAR", "count": len(corners)})

    def _add(self, packed: bytes, target: int, accessor: dict[str, Any]) -> int:
        view = {"buffer": 0, "byteOffset": len(self.data), "byteLength": len(packed), "target": target}
        self.data += _padded(packed, b"\0")
        self.views.append(view)
        self.accessors.append({"bufferView": len(self.views) - 1, **accessor})
        return len(self.accessors) - 1


def _padded(data: bytes, filler: bytes) -> bytes:
    return data + filler * (-len(data) % 4)


def _binary(tree: dict[str, Any], data: bytes) -> bytes:
    text = _padded(json.dumps(tree, ensure_ascii=False, separators=(",", ":")).encode("utf-8"), b" ")
    chunks = struct.pack("<I4s", len(text), b"JSON") + text + struct.pack("<I4s", len(data), b"BIN\0") + data
    return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks
