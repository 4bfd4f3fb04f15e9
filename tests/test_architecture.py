"""The house stands as docs/architecture.md draws it.

What is judged here has no outside source: these are the rules the house gave itself.
"""

import ast
import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "braidwright"
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
CONTRACTS = {contract["id"]: contract for contract in SETTINGS["tool"]["importlinter"]["contracts"]}
MODULES = sorted(SOURCE.rglob("*.py"))

MOST_LINES_IN_A_MODULE = 400
MOST_LINES_IN_A_FUNCTION = 50

# Put together here, so that this file does not name what it looks for.
REGISTRY_HOSTS = tuple(
    ".".join(parts)
    for parts in (
        ("pypi", "org"),
        ("pythonhosted", "org"),
        ("npmjs", "org"),
        ("npmjs", "com"),
        ("yarnpkg", "com"),
        ("crates", "io"),
        ("proxy", "golang", "org"),
        ("anaconda", "org"),
        ("deb", "debian", "org"),
    )
)
MACHINE_PATHS = re.compile(r"(?<![\w.~$}>*-])/(?:(?:root|work|tmp|opt/pypi)\b|(?:home|Users)/[A-Za-z])")


def tracked_files() -> list[Path]:
    """What git keeps; outside a checkout, nothing to judge."""
    if not (ROOT / ".git").exists():
        pytest.skip("not a git checkout, so there are no tracked files to judge")
    listing = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, check=True, capture_output=True, text=True)
    names = [name for name in listing.stdout.split("\0") if name]
    return [path for path in (ROOT / name for name in names) if path.is_file()]


def lines_of(path: Path) -> Iterator[tuple[int, str]]:
    """The numbered lines of a text file; a picture or a font has none."""
    data = path.read_bytes()
    if b"\0" not in data:
        yield from enumerate(data.decode("utf-8").splitlines(), 1)


def findings(pattern: re.Pattern[str], paths: list[Path]) -> list[str]:
    """Where a pattern stands in files, as people quote it: file, line, text."""
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:100]}"
        for path in paths
        for number, line in lines_of(path)
        if pattern.search(line)
    ]


def registry_hosts() -> re.Pattern[str]:
    return re.compile("|".join(re.escape(host) for host in REGISTRY_HOSTS), re.IGNORECASE)


def test_import_contracts_are_kept() -> None:
    lint_imports = Path(sys.executable).with_name("lint-imports")
    run = subprocess.run(
        [lint_imports, "--no-cache"],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(SOURCE.parent), "COLUMNS": "200"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr


def test_pure_core_lists_every_dependency() -> None:
    """Numpy is the one library that the craft may lean on, numba the one more that the physics may."""
    names = (re.match(r"[A-Za-z0-9._-]+", wish) for wish in SETTINGS["project"]["dependencies"])
    dependencies = {name.group().replace("-", "_").lower() for name in names if name}
    assert dependencies - {"numba", "numpy"} <= set(CONTRACTS["pure-core"]["forbidden_modules"])
    assert set(CONTRACTS["numba-at-home"]["source_modules"]) >= {
        "braidwright.domain",
        "braidwright.catalogue",
        "braidwright.store",
    }
    assert set(CONTRACTS["disk-at-home"]["source_modules"]) >= {"braidwright.app", "braidwright.cli"}


def families() -> list[str]:
    """The folders whose `__init__.py` gathers its files."""
    gathers = re.compile(r"^from braidwright\.registry import ", re.MULTILINE)
    folders = [path for path in SOURCE.rglob("__init__.py") if gathers.search(path.read_text(encoding="utf-8"))]
    return [".".join(path.parent.relative_to(SOURCE.parent).parts) for path in sorted(folders)]


@pytest.mark.parametrize("package", families())
def test_every_family_has_its_own_contract_of_independence(package: str) -> None:
    """One contract a family, since two families pooled in one would part a format from its pen."""
    kept = [contract["modules"] for contract in CONTRACTS.values() if contract["type"] == "independence"]
    assert [f"{package}.*"] in kept


def test_no_tracked_file_names_a_registry_host() -> None:
    assert findings(registry_hosts(), tracked_files()) == []


def test_no_tracked_file_names_a_path_of_one_machine() -> None:
    assert findings(MACHINE_PATHS, tracked_files()) == []


@pytest.mark.parametrize(
    ("line", "is_found"),
    [
        ("https://" + REGISTRY_HOSTS[0] + "/simple", True),
        ("files." + REGISTRY_HOSTS[1].upper(), True),
        ("a package registry", False),
    ],
)
def test_the_host_finder_can_fail(line: str, is_found: bool) -> None:
    assert bool(registry_hosts().search(line)) is is_found


@pytest.mark.parametrize(
    ("line", "is_found"),
    [
        ("see " + "/wo" + "rk/main/notes", True),
        ('open("' + "/tm" + 'p/x")', True),
        ("/ho" + "me/ann/braids", True),
        ("frame" + "/wo" + "rk/steps", False),
        ("https://example.net" + "/wo" + "rk/1", False),
        ("and/or, 8/0, 1/2", False),
    ],
)
def test_the_path_finder_can_fail(line: str, is_found: bool) -> None:
    assert bool(MACHINE_PATHS.search(line)) is is_found


def test_no_module_is_longer_than_a_sitting() -> None:
    counts = {path.relative_to(ROOT).as_posix(): sum(1 for _ in lines_of(path)) for path in MODULES}
    assert {name: lines for name, lines in counts.items() if lines > MOST_LINES_IN_A_MODULE} == {}


def body_lines(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """The lines of a function below its signature and docstring."""
    start = function.body[0]
    is_docstring = isinstance(start, ast.Expr) and isinstance(start.value, ast.Constant)
    first = (start.end_lineno or start.lineno) + 1 if is_docstring else start.lineno
    return (function.end_lineno or first) - first + 1


def long_functions(name: str, text: str) -> list[str]:
    """Functions over the limit, with their lengths."""
    functions = [node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)]
    return [
        f"{name}:{function.lineno} {function.name}: {body_lines(function)} lines"
        for function in functions
        if body_lines(function) > MOST_LINES_IN_A_FUNCTION
    ]


def test_no_function_is_longer_than_a_screen() -> None:
    found = [
        long
        for path in MODULES
        for long in long_functions(path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8"))
    ]
    assert found == []


@pytest.mark.parametrize(("lines", "is_found"), [(50, False), (51, True)])
def test_the_function_measure_can_fail(lines: int, is_found: bool) -> None:
    text = 'def f():\n    """Say it.\n\n    More.\n    """\n' + "    x = 1\n" * lines
    assert bool(long_functions("f.py", text)) is is_found


def test_every_file_of_the_craft_says_what_it_is() -> None:
    """The tree is the table of contents, so each module's first line is a line of it."""
    silent = [path.relative_to(ROOT).as_posix() for path in MODULES if not _docstring(path)]
    assert silent == []


def _docstring(path: Path) -> str | None:
    return ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))


def test_both_locks_agree() -> None:
    """`make test` marks the setup for `make run` as done, so its lock must hold every line of the other."""
    pins = [
        {line for _, line in lines_of(ROOT / lock) if "==" in line}
        for lock in ("requirements-run.lock", "requirements.lock")
    ]
    assert pins[0]
    assert pins[0] <= pins[1]


def test_every_pin_has_a_hash() -> None:
    text = (ROOT / "requirements.lock").read_text(encoding="utf-8")
    pins = re.split(r"^(?=[a-z])", text, flags=re.MULTILINE)[1:]
    assert pins
    assert [pin.splitlines()[0] for pin in pins if "--hash=sha256:" not in pin] == []
