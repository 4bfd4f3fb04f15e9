"""The demo designs that come with the program; all invented."""

from pathlib import Path

PACKED = Path(__file__).parent / "demos"  # in an installed wheel
IN_TREE = Path(__file__).parents[3] / "designs"


def demo_files() -> dict[str, bytes]:
    """The design files, by name."""
    folder = PACKED if PACKED.is_dir() else IN_TREE
    return {path.stem: path.read_bytes() for path in sorted(folder.glob("*.json"))}
