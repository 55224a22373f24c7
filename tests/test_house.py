"""The arrows between the rooms, read from the source: downward only, no ring, and each heavy library in the rooms named for it."""

import ast
from collections.abc import Collection, Mapping
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[1] / "assistant"

# Rooms from the ground up; a room may import rooms of a lower floor, and itself.
FLOORS = (
    {"faults", "contract", "dataclass"},
    {"record"},
    {"reply", "places", "newfile", "patterns"},
    {"quantities", "tagtable"},
    {"matter"},
    {"relations"},
    {"solving", "listening", "cautions", "book"},
    {"teaching", "year"},  # shows, checks and sets what solving works out
    {"answering"},
    {"session"},
    {"render", "completing", "turns", "taking_up"},
    {"bookdoor", "ruledoor", "sheetdoor"},
    {"wordlist", "repl"},
    {"cli"},
    {"__main__"},
)
LEVEL = {room: level for level, floor in enumerate(FLOORS) for room in floor}

# library: the modules that may import it
NAMED_FOR = {
    "pint": {"quantities.registry"},
    "sympy": {"solving.algebra", "solving.rearrange"},
    "lark": {"listening.tables", "cautions"},
    "prompt_toolkit": {"repl"},
    "pydantic": {"contract", "book"},
    "dataclasses": {"dataclass"},  # its own is cheaper to load
    "scipy": {"year.shares"},
    "numpy": {"year.shares"},
}
# What knows no trade is handed it: these may not look at those, whatever the floor. The shape of what is handed over is no trade.
SHAPES = {"relations.relation", "matter.function"}
# A command for contributors reaches for everything it writes about; no room may import it.
COMMANDS = {"solving.rearrange", "teaching.turning"}
APART = {
    "solving": {"relations", "matter", "quantities"},
    "listening": {"relations", "matter", "solving"},
    "cautions": {"relations", "solving", "listening"},
}


def modules() -> dict[str, Path]:
    """Dotted name inside the package (without "assistant."): its file."""
    found = {}
    for path in sorted(HOUSE.rglob("*.py")):
        parts = path.relative_to(HOUSE).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" and len(parts) > 1 else parts)] = path
    return found


def imported(source: str, module: str, is_package: bool, own: Collection[str]) -> set[str]:
    """Every module named in an import anywhere in the source, in full, those inside functions too.

    `from room import words` means the module room.words where there is one (`own` holds their names), else the room itself.
    """
    names: set[str] = set()
    package = ["assistant", *module.split(".")][: None if is_package else -1]
    tree = ast.parse(source)
    for_types = {id(inner) for node in ast.walk(tree) if _is_for_types(node) for inner in ast.walk(node)}
    for node in ast.walk(tree):
        if id(node) in for_types:
            continue
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = ".".join([*package[: len(package) - node.level + 1], node.module or ""]).rstrip(".") if node.level else node.module or ""
            deeper = {f"{base}.{alias.name}" for alias in node.names}
            modules_meant = {name for name in deeper if name.removeprefix("assistant.") in own}
            names |= modules_meant if modules_meant == deeper else {base, *modules_meant}
    return names


def _is_for_types(node: ast.AST) -> bool:
    """A block under `if TYPE_CHECKING:`; it is never run, so it draws no arrow."""
    return isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def arrows() -> dict[str, set[str]]:
    """For each module of the house, what it imports: own modules without "assistant.", libraries by their first name."""
    own = modules()
    drawn = {}
    for module, path in own.items():
        names = imported(path.read_text(encoding="utf-8"), module, path.name == "__init__.py", own)
        inside = {name.removeprefix("assistant.") for name in names if name.startswith("assistant.")}
        drawn[module] = {name for name in inside if name in own} | {name.split(".")[0] for name in names if not name.startswith("assistant")}
    return drawn


def room(module: str) -> str:
    return module.split(".")[0]


ARROWS = arrows()


def test_the_house_is_read():
    assert len(ARROWS) > 20
    assert {"reply", "faults"} <= ARROWS["turns"]
    assert "prompt_toolkit" in ARROWS["repl"]
    assert imported("if TYPE_CHECKING:\n    import pint\nimport lark", "session", False, ()) == {"lark"}


def test_every_room_stands_on_a_floor():
    assert {room(module) for module in ARROWS} - {"__init__"} <= set(LEVEL)


@pytest.mark.parametrize("module", sorted(set(ARROWS) - {"__init__"}))
def test_imports_go_down_only(module):
    here = room(module)
    upward = {name for name in ARROWS[module] if room(name) in LEVEL and room(name) != here and LEVEL[room(name)] >= LEVEL[here]}
    assert not upward, f"assistant/{module} imports upward or sideways: {sorted(upward)}"


@pytest.mark.parametrize("here", sorted(APART))
def test_rooms_that_are_handed_their_trade_do_not_fetch_it(here):
    fetched = {(module, name) for module in ARROWS if room(module) == here for name in ARROWS[module] if room(name) in APART[here]}
    fetched = {(module, name) for module, name in fetched if name not in SHAPES and module not in COMMANDS}
    assert not fetched


def test_no_room_imports_a_command():
    assert not {module for module, names in ARROWS.items() if names & COMMANDS}


def test_there_is_no_ring():
    own = {module: {name for name in names if name in ARROWS and name != module} for module, names in ARROWS.items()}
    own.pop("__init__", None)
    assert not (found := ring(own)), " → ".join(found)


def ring(own: dict[str, set[str]]) -> list[str]:
    """One ring of imports, the first module again at its end; nothing where there is none."""
    done: set[str] = set()

    def walk(module: str, way: list[str]) -> list[str]:
        if module in way:
            return [*way[way.index(module) :], module]
        if module in done:
            return []
        for name in sorted(own.get(module, ())):
            if found := walk(name, [*way, module]):
                return found
        done.add(module)
        return []

    return next((found for module in sorted(own) if (found := walk(module, []))), [])


def test_a_ring_is_found_wherever_it_begins():
    assert ring({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": set()}) == ["b", "c", "b"]
    assert ring({"a": {"b", "c"}, "b": {"c"}, "c": set()}) == []


@pytest.mark.parametrize("library", sorted(NAMED_FOR))
def test_a_heavy_library_stays_in_the_rooms_named_for_it(library):
    allowed = NAMED_FOR[library]
    strangers = {module for module, names in ARROWS.items() if library in names and module not in allowed and room(module) not in allowed}
    assert not strangers, f"{library} is imported by {sorted(strangers)}"


def test_the_reader_of_imports_sees_every_kind():
    source = "import lark\ndef f():\n    from assistant.solving import algebra\n    from . import words\n    from ..reply import Reply\n"
    own = {"listening", "listening.words", "solving", "solving.algebra", "reply"}
    assert imported(source, "listening.reading", False, own) == {"lark", "assistant.solving.algebra", "assistant.listening.words", "assistant.reply"}


def _said_once(files: Mapping[str, ast.Module]) -> list[str]:
    """Names a module defines that neither itself, nor another one, nor a test ever reads: "module.NAME"."""
    fetched: set[tuple[str, str]] = set()
    attributes: set[str] = set()
    for tree in files.values():
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module:
                fetched |= {(node.module, one.name) for one in node.names}
            elif isinstance(node, ast.Attribute):
                attributes.add(node.attr)
    found = []
    for module, tree in files.items():
        nodes = list(ast.walk(tree))
        read = {n.id for n in nodes if isinstance(n, ast.Name) and isinstance(n.ctx, ast.Load)} | {n.value for n in nodes if isinstance(n, ast.Constant)}
        for node in tree.body:
            made: list[ast.expr] = []
            if isinstance(node, ast.Assign):
                made = node.targets
            elif isinstance(node, ast.AnnAssign):
                made = [node.target]
            names = [n.id for one in made for n in ast.walk(one) if isinstance(n, ast.Name)]
            names += [node.name] if isinstance(node, ast.FunctionDef | ast.ClassDef) else []
            found += [f"{module}.{name}" for name in names if name not in read | attributes and (module, name) not in fetched and not name.startswith("__")]
    return found


def _trees(folder: Path, name: str) -> dict[str, ast.Module]:
    return {
        ".".join((name, *path.relative_to(folder).with_suffix("").parts)): ast.parse(path.read_text(encoding="utf-8")) for path in sorted(folder.rglob("*.py"))
    }


def test_no_name_stands_there_unread():
    tests = Path(__file__).parent
    unread = [name for name in _said_once(_trees(HOUSE, "assistant") | _trees(tests, "tests")) if name.startswith("assistant.")]
    assert unread == []


def test_an_unread_name_is_found():
    files = {"assistant.a": ast.parse("ONE = 1\nTWO = 2\ndef three(): return TWO\n"), "tests.b": ast.parse("from assistant.a import three\nthree()\n")}
    assert _said_once(files) == ["assistant.a.ONE"]
