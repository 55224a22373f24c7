"""Fuzzing guided by coverage, run by hand: each run goes on until its time is over or something does not hold.

    pip install -e '.[test,fuzz]'
    python -m tests.fuzz.run sentences 300          a target of targets.py, and for how many seconds
    python -m tests.fuzz.run sentences --again FILE the text of a finding once more

What was found is written to fuzz-found/ in the folder it is run in, what it grew from to fuzz-grown/; neither belongs into the repository.
A finding is first made a test beside the room it belongs to, then mended.
"""

import sys
from pathlib import Path

from tests.fuzz import watching
from tests.fuzz.starts import starts, words

SLOWED = 30  # how much slower a program is that tells of every line it reaches
FOUND, GROWN = Path("fuzz-found"), Path("fuzz-grown")


def composed(target: str, data: bytes) -> str:
    """The text that some bytes stand for: for sentences a row of words of the bench with raw pieces between, else the bytes themselves."""
    if target != "sentences" or not data or data[0] < 128:
        return data.decode("utf-8", "surrogateescape" if target == "screen" else "replace")
    known = words()
    pieces, at = [], 1
    while at + 1 < len(data):
        number = int.from_bytes(data[at : at + 2], "big")
        at += 2
        if number < 0xF000:
            pieces.append(known[number % len(known)])
        elif number < 0xF800:
            pieces.append("\n")
        else:
            pieces.append(data[at : at + 3].decode("utf-8", "replace"))
            at += 3
    return " ".join(pieces)


def main(arguments: list[str]) -> None:
    target = arguments[0]
    if len(arguments) == 3 and arguments[1] == "--again":
        from tests.fuzz.targets import TARGETS

        TARGETS[target](composed(target, Path(arguments[2]).read_bytes()))
        return
    try:
        import atheris
    except ImportError:
        sys.exit("the fuzzer is not installed: pip install -e '.[test,fuzz]'")
    with atheris.instrument_imports(include=["assistant"]):
        from tests.fuzz.targets import TARGETS
    watching.LONGEST = SLOWED * watching.LONGEST
    grown = GROWN / target
    grown.mkdir(parents=True, exist_ok=True)
    FOUND.mkdir(exist_ok=True)
    for number, text in enumerate(starts(target)):
        (grown / f"start-{number}").write_bytes(text.encode("utf-8", "surrogatepass"))

    def once(data: bytes) -> None:
        TARGETS[target](composed(target, data))

    most = 4_000 if target != "imports" else 200_000
    how = {"max_total_time": arguments[1], "artifact_prefix": f"{FOUND}/{target}-", "max_len": most, "timeout": 120, "rss_limit_mb": 1500}
    atheris.Setup([sys.argv[0], *(f"-{name}={value}" for name, value in how.items()), str(grown)], once)
    atheris.Fuzz()


if __name__ == "__main__":
    main(sys.argv[1:])
