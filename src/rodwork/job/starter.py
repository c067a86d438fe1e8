"""A job file to begin with: one sound wall cupboard, every line explained."""

from importlib.resources import files

LONGEST_NAME = 100
WITHOUT_A_NAME = "First job"


def starter(name: str) -> str:
    """The text of a commented job file for a job of this name.

    What no job name may have in it (letters that cannot be seen, more than 100 letters) is left out of the name,
    since the name may be that of a file.
    """
    seen = "".join(c for c in name if c.isprintable())[:LONGEST_NAME].strip() or WITHOUT_A_NAME
    quoted = seen.replace("\\", "\\\\").replace('"', '\\"')
    text = files("rodwork.job").joinpath("starter.toml").read_text(encoding="utf-8")
    return text.replace("@NAME@", quoted)


def family_starter() -> str:
    """The text of a commented family of joints, to be changed into one of the maker's own."""
    return files("rodwork.job").joinpath("family_starter.toml").read_text(encoding="utf-8")
