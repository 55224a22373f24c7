"""Where things lie: the folders grammar/ and rules/, one loader for a checkout, an editable install and a wheel; and the person's book.

In a checkout (and an editable install, which points at it) they stand beside the package; in a wheel they travel inside it,
under assistant/_data/. A wheel is always unpacked to plain files, so a Path is enough and nothing is copied out of it.
"""

from pathlib import Path

from assistant.faults import HouseFault

_PACKAGE = Path(__file__).resolve().parent


def data_folder(name: str) -> Path:
    """The shipped folder of that name ("grammar" or "rules").

    fails   HouseFault, when neither place has it: the installation is incomplete
    """
    # The wheel's own copy first: beside an installed package stands site-packages, where a stranger's folder "rules" may lie.
    places = (_PACKAGE / "_data" / name, _PACKAGE.parent / name)
    for place in places:
        if place.is_dir():
            return place
    raise HouseFault(f"the folder {name}/ is missing", where=str(places[0]), try_this="install gallipot again, from a complete copy")


def grammar_folder() -> Path:
    return data_folder("grammar")


def rules_folder() -> Path:
    return data_folder("rules")


def grammar_file(name: str) -> Path:
    """A file of grammar/, for example "bench.lark".

    fails   HouseFault, naming the file
    """
    return _shipped(grammar_folder(), name)


def rules_file(name: str) -> Path:
    """A file of rules/, for example "plants.toml".

    fails   HouseFault, naming the file
    """
    return _shipped(rules_folder(), name)


def usual_book() -> Path:
    """Where the book lies when no other is named: the platform's own folder for data."""
    import platformdirs

    return Path(platformdirs.user_data_path("gallipot", appauthor=False)) / "book.db"


def _shipped(folder: Path, name: str) -> Path:
    place = folder / name
    if not place.is_file():
        raise HouseFault(f"the file {folder.name}/{name} is missing", where=str(place), try_this="install gallipot again, from a complete copy")
    return place
