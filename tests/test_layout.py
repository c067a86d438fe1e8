"""The layout of the code, kept over its import statements and calls: which folder may know which, and who touches files.

Each rule stands in a table, and what is an exception stands in it with its reason.
"""

import ast
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

from rodwork.joints.registry import joint_kinds

SRC = Path(__file__).parents[1] / "src"
FILES = sorted((SRC / "rodwork").rglob("*.py"))
COMMON = {"geometry", "model", "catalogue"}
STATIONS = {"job", "carcass", "joints", "setout", "checks", "fit", "load", "sheets", "money", "documents"}
FOLDERS = {
    "geometry": {"geometry"},
    "model": {"model", "geometry"},
    "catalogue": {"catalogue", "model"},
    **{station: {station, *COMMON} for station in STATIONS},
    # a writer turns what documents have drawn or worked out into bytes; see WRITERS for which of them
    "writers": {"writers", "model", "geometry", "documents"},
}
WRITERS = {"documents.drawing", "documents.machining_drawing", "documents.sheet_machining", "documents.solids"}
EDGE = {
    "__init__": {"model.rod", "pipeline"},
    "__main__": {"cli"},
    "cli": {
        "",
        "pipeline",
        "comparing",
        "own_accuracy",
        "packing",
        "console",
        "console_compare",
        "console_load",
        "console_survey",
        "console_dry_fit",
        "console_cutting",
        "cutting_run",
        "model.results",
        "model.plain",
        "model.own_accuracy",
        "model.dry_fit",
        "model.finding",
        "model.costing",
        "model.rod",
        "job.faults",
        "job.starter",
    },
    "pipeline": {*COMMON, *(STATIONS - {"documents"}), "making", "own_accuracy"},
    "making": {*COMMON, "job", "carcass", "joints", "setout"},
    "own_accuracy": {*COMMON, "job", "fit"},  # its faults are told at their line of the job
    # the stations again, once for each way of joining
    "comparing": {*COMMON, *(STATIONS - {"documents"}), "making", "pipeline"},
    "packing": {*COMMON, "documents", "writers"},
    "console": {*COMMON, "documents", "terminal"},
    "console_compare": {*COMMON, "documents", "terminal"},
    "console_load": {*COMMON, "documents", "terminal"},
    "console_survey": {*COMMON, "documents", "terminal"},
    "console_dry_fit": {*COMMON, "documents", "terminal"},
    "console_cutting": {*COMMON, "documents", "terminal"},
    "terminal": {"model", "documents"},
    "cutting_run": {*COMMON, "pipeline"},
}
MAY_IMPORT_PIPELINE = {"cli", "__init__", "comparing", "cutting_run"}
MAY_IMPORT_WRITERS = {"packing", "writers"}
HEAVY = (
    "numpy",
    "pydantic",
    "typst",
    "ezdxf",
    "rich",
    "trimesh",
    "manifold3d",
    "openpyxl",
    "fontTools",
    "segno",
    "numba",
    "scipy",
)


@cache
def tree(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8"), str(file))


def module(file: Path) -> str:
    """ "joints.kinds.dowel" of .../rodwork/joints/kinds/dowel.py; "joints" of its __init__; "__init__" of the whole."""
    parts = file.relative_to(SRC / "rodwork").with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" and len(parts) > 1 else parts)


def imports(file: Path) -> list[tuple[str, tuple[str, ...], int]]:
    """(module of ours, names, line) of every import in a file, those inside functions too."""
    out = []
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file}:{node.lineno}: imports are written in full"
            if (node.module or "").split(".")[0] == "rodwork":
                names = tuple(a.name for a in node.names)
                out.append((node.module.removeprefix("rodwork").lstrip("."), names, node.lineno))
        elif isinstance(node, ast.Import):
            for alias in node.names:
                if alias.name.split(".")[0] == "rodwork":
                    out.append((alias.name.removeprefix("rodwork").lstrip("."), (), node.lineno))
    return out


def allowed(wanted: str, may: set[str]) -> bool:
    return any(wanted == m or (m and wanted.startswith(f"{m}.")) for m in may)


def name_of(file: Path) -> str:
    return str(file.relative_to(SRC))


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_a_file_imports_only_what_its_folder_may(file):
    own = module(file)
    folder = own.split(".")[0]
    may = EDGE.get(own) if own in EDGE else FOLDERS.get(folder)
    assert may is not None, f"{own} is in no table of this test: say what it may import"
    for wanted, names, line in imports(file):
        if folder == "writers" and wanted.startswith("documents"):
            assert wanted in WRITERS, f"{name_of(file)}:{line} imports {wanted}"
        assert allowed(wanted, may), f"{name_of(file)}:{line} imports {wanted or 'rodwork'} ({', '.join(names)})"


def test_only_the_edge_imports_the_pipeline_and_the_writers():
    for file in FILES:
        own = module(file)
        for wanted, _, line in imports(file):
            top = wanted.split(".")[0]
            if top == "pipeline":
                assert own in MAY_IMPORT_PIPELINE, f"{name_of(file)}:{line}"
            if top == "writers":
                assert own.split(".")[0] in MAY_IMPORT_WRITERS, f"{name_of(file)}:{line}"
            if top in (
                "cli",
                "packing",
                "console",
                "console_compare",
                "console_load",
                "console_survey",
                "console_dry_fit",
                "console_cutting",
            ):
                assert own in ("cli", "__main__"), f"{name_of(file)}:{line}"
            if top == "terminal":
                assert own.startswith("console"), f"{name_of(file)}:{line}"


def test_no_kind_of_joint_and_no_check_knows_another():
    for folder in ("joints", "checks"):
        for file in sorted((SRC / "rodwork" / folder / "kinds").glob("*.py")):
            for wanted, names, line in imports(file):
                assert not wanted.startswith(f"{folder}.kinds"), f"{name_of(file)}:{line} imports {wanted} {names}"


def test_the_proof_shares_no_code_with_the_derivation():
    """It may have the shapes of data; not words, surfaces, poses, rounding or any arithmetic of ours."""
    shapes = {"clothes_rail", "contact", "feature", "fixing", "fronts", "panel", "rod", "setup", "shop", "surface"}
    proof = [f for f in FILES if module(f) == "setout.proof" or module(f).startswith("setout.proving")]
    assert len(proof) > 1
    for file in proof:
        for wanted, names, line in imports(file):
            where = f"{name_of(file)}:{line} imports {wanted} ({', '.join(names)})"
            if wanted.startswith("model."):
                assert wanted.removeprefix("model.") in shapes, where
                assert all(n[0].isupper() and not n.isupper() for n in names), f"{where}: shapes of data only"
            else:
                assert wanted.startswith("setout.proving"), where
    for file in set(FILES) - set(proof):
        for wanted, _, line in imports(file):
            assert not wanted.startswith("setout.proving"), f"{name_of(file)}:{line} imports {wanted}"


def defined(file: Path) -> set[str]:
    """Names that a file defines at its top level, and those that it says in __all__ it hands on."""
    names: set[str] = set()
    for node in tree(file).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names.add(node.name)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            for target in targets:
                names.update(n.id for n in ast.walk(target) if isinstance(n, ast.Name))
            if any(isinstance(t, ast.Name) and t.id == "__all__" for t in targets) and node.value is not None:
                names.update(ast.literal_eval(node.value))
        elif isinstance(node, ast.If | ast.Try):
            names.update(defined_in(node))
    return names


def defined_in(block: ast.AST) -> set[str]:
    return {
        n.name if isinstance(n, ast.FunctionDef | ast.ClassDef) else n.id
        for n in ast.walk(block)
        if isinstance(n, ast.FunctionDef | ast.ClassDef) or (isinstance(n, ast.Name) and isinstance(n.ctx, ast.Store))
    }


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_a_name_is_imported_from_the_file_that_defines_it(file):
    """Never from a package's __init__: that is where circles of imports come from."""
    by_module = {module(f): f for f in FILES}
    packages = {module(f) for f in FILES if f.name == "__init__.py"}
    for wanted, names, line in imports(file):
        for name in names:
            if f"{wanted}.{name}".lstrip(".") in by_module:
                continue  # a module or a folder, taken as such
            where = f"{name_of(file)}:{line}: {name} from {wanted or 'rodwork'}"
            if wanted == "":
                assert name == "__version__", where
                continue
            assert wanted in by_module, f"{where}: there is no such file"
            assert wanted not in packages, f"{where}: from a package, not from the file that defines it"
            assert name in defined(by_module[wanted]), f"{where}: not defined there"


FAMILY_WORDS_THAT_NAME_NO_FAMILY = {
    # "groove" and "rebate" are also shapes of machining: void.shape == "rebate", feature.kind == "groove"
    "attributes": {"shape", "kind"},
    # what a maker calls a channel, worked out from its shape and place and not from who made it
    "names": {("checks/kinds/near_far_face.py", "what"), ("documents/machined.py", "kind")},
}


def compared(file: Path) -> list[tuple[str, str, int]]:
    """(what is compared, the family's name, line) wherever a literal family's name is compared, matched or a key."""
    families = set(joint_kinds())
    out = []

    def literal(node: ast.AST) -> list[str]:
        return [n.value for n in ast.walk(node) if isinstance(n, ast.Constant) and n.value in families]

    for node in ast.walk(tree(file)):
        if isinstance(node, ast.Compare):
            sides = [node.left, *node.comparators]
            for side in sides:
                for name in literal(side) if isinstance(side, ast.Constant | ast.Tuple | ast.Set | ast.List) else []:
                    others = [ast.unparse(s) for s in sides if s is not side]
                    out += [(other, name, node.lineno) for other in others]
        elif isinstance(node, ast.Dict):
            out += [("a table by family", name, node.lineno) for key in node.keys if key for name in literal(key)]
        elif isinstance(node, ast.Match):
            for case in node.cases:
                out += [(ast.unparse(node.subject), name, case.pattern.lineno) for name in literal(case.pattern)]
    return out


def test_no_code_outside_the_kinds_branches_on_the_name_of_a_family():
    kinds = SRC / "rodwork" / "joints" / "kinds"
    for file in FILES:
        if kinds in file.parents:
            continue
        path = file.relative_to(SRC / "rodwork").as_posix()
        for what, name, line in compared(file):
            last = what.rsplit(".", 1)[-1]
            if "." in what and last in FAMILY_WORDS_THAT_NAME_NO_FAMILY["attributes"]:
                continue
            if (path, what) in FAMILY_WORDS_THAT_NAME_NO_FAMILY["names"]:
                continue
            pytest.fail(f"{path}:{line} compares {what} with the family {name!r}")


def test_the_test_for_branching_on_a_family_finds_one(tmp_path):
    file = tmp_path / "slip.py"
    file.write_text(
        'def f(x):\n    t = {"groove": 1}\n    return x.family == "dowel" or x.family in ("screw", "peg") or t\n',
        encoding="utf-8",
    )
    found = {(what, name) for what, name, _ in compared(file)}
    assert found == {("a table by family", "groove"), ("x.family", "dowel"), ("x.family", "screw")}


MAY_TOUCH = {
    "cli": "the edge: reads the job, writes the pack",
    "__init__": "set_out(path) reads the job file it is given",
    "cutting_run": "the clock and Ctrl-C of the cutting plan",
    "catalogue.boards": "reads its own table from the package",
    "catalogue.accuracy": "reads its own table from the package",
    "catalogue.costing": "reads its own table from the package",
    "catalogue.contents": "reads its own table from the package",
    "catalogue.fasteners": "reads its own table from the package",
    "catalogue.strengths": "reads its own tables from the package",
    "job.starter": "reads its own starter from the package",
    "documents.drawing": "reads the widths of letters from the font's package",
    "writers.pdf": "hands the typesetter a folder of its own with our two fonts in it",
}
FILE_CALLS = {
    "open", "read_text", "read_bytes", "write_text", "write_bytes", "mkdir", "unlink", "rename", "touch", "rmdir",
    "TemporaryDirectory", "NamedTemporaryFile", "mkdtemp", "copy", "copyfile", "copytree", "rmtree", "TTFont",
}  # fmt: skip
OUTSIDE_WORLD = {"socket", "subprocess", "urllib", "http", "time", "random", "secrets", "sqlite3", "glob", "os"}
CLOCKS = {"now", "today", "utcnow"}


def touches(file: Path) -> list[tuple[str, int]]:
    """Calls that read or write files or clocks, and imports of what does."""
    out = []
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.Call):
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            on_a_value = isinstance(node.func, ast.Attribute) and called == "copy" and not node.args
            if (called in FILE_CALLS or called in CLOCKS) and not on_a_value:
                out.append((called, node.lineno))
        elif isinstance(node, ast.Import):
            out += [(a.name, node.lineno) for a in node.names if a.name.split(".")[0] in OUTSIDE_WORLD]
        elif isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] in OUTSIDE_WORLD:
            out += [(a.name, node.lineno) for a in node.names if (node.module, a.name) != ("os", "PathLike")]
    return out


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_files_clocks_and_sockets_are_touched_only_at_the_edge(file):
    found = touches(file)
    if module(file) not in MAY_TOUCH:
        assert not found, f"{name_of(file)} touches the outside world: {found}"


def loaded_after(code: str) -> set[str]:
    """Which of the heavy packages a fresh Python has loaded after running this."""
    script = f"{code}\nimport sys\nprint(' '.join(m for m in {HEAVY!r} if m in sys.modules))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines()[-1].split())


def test_importing_rodwork_loads_nothing_heavy():
    assert loaded_after("import rodwork") == set()


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["pack", "--help"], ["completion", "bash"]])
def test_help_loads_nothing_heavy(words):
    call = f"from rodwork.cli import main\ntry:\n    main({words!r}, prog_name='rodwork')\nexcept SystemExit:\n    pass"
    assert loaded_after(call) == set()


def test_a_set_out_loads_neither_what_draws_nor_what_writes():
    """numpy, the typesetter and the writers of files come only where a pack is asked for."""
    code = "import rodwork\nrodwork.set_out('examples/first-cupboard.toml')"
    script = f"import os\nos.chdir({str(SRC.parent)!r})\n{code}"
    assert loaded_after(script) <= {"pydantic"}
