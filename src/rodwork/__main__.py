"""So that `python -m rodwork` is the command too."""

from rodwork.cli import main

main(prog_name="rodwork")
