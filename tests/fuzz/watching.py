"""What must never happen while the program is given a stranger's text, watched from below it.

Python tells of every import, all code that is run, every file opened and every process begun through its audit hooks. While `watched()` is on,
code made of a text, sympy, a process, a connection, or a file written outside the given folder is an offence.
"""

import os
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

LONGEST = 1.0  # seconds of a processor that anything may take
NEVER = ("os.system", "os.exec", "os.fork", "os.posix_spawn", "subprocess.Popen", "socket.connect", "socket.bind", "ctypes.dlopen", "pickle.find_class")


class Offence(AssertionError):
    """Something was done that no text may bring about."""


class _Watch(threading.local):
    folder: str | None = None
    offences: list[str] = []  # noqa: RUF012 - replaced when a watch begins


_watch = _Watch()


def _hook(event: str, arguments: tuple[object, ...]) -> None:
    if _watch.folder is None:
        return
    if event == "exec":
        _run(arguments[0])
    elif event == "import" and str(arguments[0]).split(".")[0] == "sympy":
        _watch.offences.append("sympy was loaded")
    elif event == "open":
        _opened(arguments)
    elif event in ("os.remove", "os.rename", "os.mkdir", "shutil.rmtree"):
        _inside(event, arguments[0])
    elif event.startswith(NEVER):
        _watch.offences.append(f"{event} {arguments!r}"[:200])


def _run(code: object) -> None:
    """A module being loaded comes from a file; a text that was made into code has none."""
    name = getattr(code, "co_filename", "")
    if Path(name).is_absolute() or name.startswith("<frozen"):
        return
    if not _writes_a_constructor(getattr(code, "co_names", ())):
        _watch.offences.append(f"code of {name} was run: {getattr(code, 'co_names', ())} {getattr(code, 'co_consts', ())}"[:200])


def _writes_a_constructor(names: tuple[str, ...]) -> bool:
    """Whether the code does what assistant/dataclass.py compiles: it defines __init__ and looks at nothing but usual values."""
    return names[-1:] == ("__init__",) and all(name == "ABSENT" or name.startswith("_usual_") for name in names[:-1])


def _opened(arguments: tuple[object, ...]) -> None:
    path, mode, flags = arguments
    writes = (isinstance(mode, str) and any(sign in mode for sign in "wax+")) or (isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
    if writes and isinstance(path, str | bytes):
        _inside("wrote", path)


def _inside(doing: str, path: object) -> None:
    real = os.path.realpath(os.fsdecode(path)) if isinstance(path, str | bytes | os.PathLike) else ""
    if real and real != os.devnull and not real.startswith(str(_watch.folder)) and "__pycache__" not in real:  # the optimiser's log goes to nowhere
        _watch.offences.append(f"{doing} {real}, outside {_watch.folder}")


sys.addaudithook(_hook)


@contextmanager
def watched(folder: Path | None = None) -> Iterator[None]:
    """Watch what is done meanwhile; `folder` is where files may be written (nowhere, without it).

    fails   Offence, naming what was done, or that it took longer than LONGEST
    """
    _watch.offences = []
    _watch.folder = os.path.realpath(folder) if folder else tempfile.gettempdir() + "/nowhere"
    begun = time.thread_time()
    try:
        yield
    finally:
        spent = time.thread_time() - begun
        _watch.folder = None
    if _watch.offences:
        raise Offence("; ".join(_watch.offences))
    if spent > LONGEST:
        raise Offence(f"it took {spent:.1f} s")
