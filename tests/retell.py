"""Tell the demo conversations again: `python -m tests.retell` rewrites every file of transcripts_demo/ and the replies shown in README.md
and DEVELOPERS.md; the difference shows in version control.

A transcript is what a person sees on a screen of WIDTH columns without colour:
    # a remark, kept as it stands
    > what was said
    what was printed, up to the next line that begins with "> " or "# "

`--check` changes nothing and tells what differs, with exit code 1. Needs only the installed package, so that a wheel can be tried with it.
"""

import argparse
import difflib
import json
import re
import sys
from datetime import date
from pathlib import Path

from assistant import Session
from assistant.render import Look, on_screen

WIDTH = 76
TODAY = date(2031, 6, 12)  # in the invented scenario
ROOT = Path(__file__).parents[1]
FOLDER = ROOT / "transcripts_demo"
PAGES = (ROOT / "README.md", ROOT / "DEVELOPERS.md")
# In a page: a block of text that begins with something said, and a block of JSON under the command that prints it.
SPOKEN = re.compile(r"(?<=```text\n)(> .*?)(?=```)", re.DOTALL)
AS_JSON = re.compile(r'(gallipot --json "([^"\n]+)"\n```\n\n```json\n).*?(?=```)', re.DOTALL)


def retold(transcript: str) -> str:
    """The same conversation, spoken to a fresh session."""
    session = Session(today=lambda: TODAY)
    blocks: list[str] = []
    for line in transcript.splitlines():
        if line.startswith("# "):
            if blocks and blocks[-1].startswith("# "):
                blocks[-1] += "\n" + line
            else:
                blocks.append(line)
        elif line.startswith("> "):
            blocks.append(line + "\n" + on_screen(session.say(line[2:]), Look(width=WIDTH)).rstrip())
    return "\n\n".join(blocks) + "\n"


def retold_page(page: str) -> str:
    """A page of documentation with its replies told anew."""
    page = SPOKEN.sub(lambda block: retold(block.group()), page)
    return AS_JSON.sub(lambda block: block.group(1) + as_json(block.group(2)) + "\n", page)


def as_json(sentence: str) -> str:
    """The reply to one sentence, a line for each of its fields and each record in them."""
    lines = []
    for name, value in Session().say(sentence).model_dump(mode="json").items():
        if isinstance(value, list) and value and isinstance(value[0], dict):
            told = "[\n" + ",\n".join(f"    {json.dumps(record, ensure_ascii=False)}" for record in value) + "\n  ]"
        else:
            told = json.dumps(value, ensure_ascii=False)
        lines.append(f"  {json.dumps(name)}: {told}")
    return "{\n" + ",\n".join(lines) + "\n}"


def difference(path: Path, old: str, new: str) -> str:
    lines = difflib.unified_diff(old.splitlines(), new.splitlines(), f"{path.name} as kept", f"{path.name} as told now", lineterm="")
    return "\n".join(lines)


def main() -> int:
    parser = argparse.ArgumentParser(description="Tell the demo conversations again.")
    parser.add_argument("files", nargs="*", type=Path)
    parser.add_argument("--check", action="store_true", help="change nothing, tell what differs")
    asked = parser.parse_args()
    paths = asked.files or [*sorted(FOLDER.glob("*.txt")), *PAGES]
    differing = 0
    for path in paths:
        old = path.read_text(encoding="utf-8")
        new = retold_page(old) if path.suffix == ".md" else retold(old)
        if old != new:
            differing += 1
            print(difference(path, old, new) if asked.check else f"{path.name}: told anew")
            if not asked.check:
                path.write_text(new, encoding="utf-8")
    print(f"{len(paths) - differing} of {len(paths)} as they were")
    return int(not paths or (asked.check and differing > 0))


if __name__ == "__main__":
    sys.exit(main())
