"""Who may import whom, how long a file may be, and that nothing happens at import."""

import ast
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PRODUCT = ("solver", "service", "reference_data")
LONGEST_FILE = 250

#: What a backend may know: arrays, and how to be asked.
BELOW_THE_SEAM = {"solver.backends", "solver.deadline", "solver.errors", "solver.numerics", "solver.program"}

#: The libraries that solve; what wraps one may import it, and nobody else.
SOLVERS = {"highspy", "scipy", "pulp"}

#: What the service puts together or passes on; everything else of the solver is food, and for service/translate alone.
COMPOSED = {
    "solver.backends",
    "solver.catalogue",
    "solver.deadline",
    "solver.errors",
    "solver.solve",
    "solver.reach_whole",
    "solver.rework",
    "solver.watch",
}

#: The seam between the two worlds names what goes in and what comes out.
SEAM = {
    "service.planner": {"solver.brief", "solver.outcome"},
    "service.beside": {
        "solver.outcome",
        "solver.alternatives",
        "solver.holds_carried",
        "solver.in_the_way",
        "solver.ways_out",
        "solver.worth",
    },
}


def name_of(path: Path) -> str:
    """The dotted name of a module of the product."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


MODULES = {name_of(path): path for package in PRODUCT for path in sorted((ROOT / package).rglob("*.py"))}
SOLVER = [name for name in MODULES if name.startswith("solver")]
BACKENDS = [name for name in SOLVER if name.startswith("solver.backends")]
SERVICE = [name for name in MODULES if name.startswith("service")]


def imports(module: str) -> Iterator[str]:
    """Dotted names of all that a module imports, inside functions too; relative imports are refused."""
    for node in ast.walk(ast.parse(MODULES[module].read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module} imports relatively"
            assert node.module is not None
            # "from solver import brief" imports the module solver.brief.
            deeper = (f"{node.module}.{alias.name}" for alias in node.names)
            found = [name for name in deeper if name in MODULES]
            yield from found or [node.module]


def is_within(module: str, packages: set[str]) -> bool:
    return any(module == package or module.startswith(f"{package}.") for package in packages)


def strangers(module: str) -> set[str]:
    """Top names of what a module imports from neither the standard library nor the product."""
    return {name.split(".")[0] for name in imports(module)} - set(sys.stdlib_module_names) - set(PRODUCT)


def test_the_product_is_found() -> None:
    assert {"solver.solve", "solver.backends.highs", "service.translate.to_brief", "reference_data"} <= set(MODULES)


@pytest.mark.parametrize("module", SOLVER)
def test_the_solver_imports_nothing_of_the_service_the_web_or_the_data(module: str) -> None:
    assert not [name for name in imports(module) if is_within(name, {"service", "reference_data"})]
    allowed = SOLVERS | {"numpy"} if module in BACKENDS else {"numpy"}
    assert strangers(module) <= allowed


@pytest.mark.parametrize("module", BACKENDS)
def test_backends_see_arrays_and_never_foods(module: str) -> None:
    of_the_solver = {name for name in imports(module) if is_within(name, {"solver"})}
    assert {name for name in of_the_solver if not is_within(name, BELOW_THE_SEAM)} == set()


@pytest.mark.parametrize("module", [name for name in MODULES if is_within(name, {"reference_data"})])
def test_the_data_knows_no_service(module: str) -> None:
    assert not [name for name in imports(module) if is_within(name, {"service"})]


@pytest.mark.parametrize("module", [name for name in SERVICE if is_within(name, {"service.schemas"})])
def test_schemas_know_nothing_of_the_solver(module: str) -> None:
    assert not [name for name in imports(module) if is_within(name, {"solver"})]


@pytest.mark.parametrize("module", [name for name in SERVICE if not is_within(name, {"service.translate"})])
def test_translate_alone_knows_both_worlds(module: str) -> None:
    allowed = COMPOSED | SEAM.get(module, set())
    of_the_solver = {name for name in imports(module) if is_within(name, {"solver"})}
    assert {name for name in of_the_solver if not is_within(name, allowed)} == set()


@pytest.mark.parametrize("module", [name for name in SERVICE if is_within(name, {"service.translate"})])
def test_translate_knows_neither_the_web_nor_how_a_plan_is_found(module: str) -> None:
    assert strangers(module) <= {"numpy"}
    assert not [name for name in imports(module) if is_within(name, {"solver.backends", "solver.solve"})]


@pytest.mark.parametrize("module", MODULES)
def test_a_file_can_be_read_in_one_go(module: str) -> None:
    assert len(MODULES[module].read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


_WATCHED_IMPORT = """
import importlib, json, sys
import numpy

seen = []

def watch(event, arguments):
    if event == "open" and not str(arguments[0]).endswith((".py", ".pyc")):
        seen.append(str(arguments[0]))
    if event in {"subprocess.Popen", "os.posix_spawn", "os.fork", "socket.connect", "_thread.start_new_thread"}:
        seen.append(event)

sys.addaudithook(watch)
for name in sys.argv[1:]:
    importlib.import_module(name)
print(json.dumps({"seen": seen, "loaded": sorted(sys.modules)}))
"""


def test_importing_the_solver_opens_no_file_and_starts_no_solver() -> None:
    unwrapped = [name for name in SOLVER if not strangers(name) & SOLVERS]
    assert {"solver.solve", "solver.backends"} <= set(unwrapped)
    ran = subprocess.run(
        [sys.executable, "-B", "-W", "error", "-c", _WATCHED_IMPORT, *unwrapped],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    told = json.loads(ran.stdout)
    assert told["seen"] == []
    assert not SOLVERS & set(told["loaded"])
    assert not {"service", "reference_data", "pydantic", "fastapi"} & set(told["loaded"])
    assert ran.stderr == ""


def test_a_service_starts_without_what_draws_a_pdf() -> None:
    """Few answers are printed, and the drawing library takes a fifth of the start and a quarter of the memory."""
    asked = "import sys, service.app; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", asked], cwd=ROOT, capture_output=True, text=True, check=True)
    assert "fpdf" not in loaded.stdout.split()
