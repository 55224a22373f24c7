"""The room of cautions: reads rules and plants, and decides which rules speak about a batch.

Holds the language of rules (grammar/rules.lark), three-valued conditions, the plants and their names, and the shipped and the person's own
folders. Is handed facts, never a batch or a sentence; knows no plant, no threshold and no figure of its own: all of that stands in rules/.

    facts.py         what is handed in: figures, tags, plants
    conditions.py    a condition and how it answers: no, unknown, yes
    rules.py         a rule, and a caution it speaks
    speaking.py      facts → cautions
    plants.py        a plant, and finding names in a row of words
    folder.py        the shipped folder, a person's own, check_folder
    reading.py, meaning.py, plant_reading.py, ready.py     texts → rules and plants, with every fault told
"""

from assistant.cautions.facts import Facts
from assistant.cautions.folder import Pack, check_folder, in_use, read_folder, shipped, using
from assistant.cautions.plants import Found, Plant, PlantList, plants, unknown_plant
from assistant.cautions.rules import Caution, Rule
from assistant.cautions.speaking import RuleBook, speak, still_spoken

__all__ = [
    "Caution", "Facts", "Found", "Pack", "Plant", "PlantList", "Rule", "RuleBook",
    "check_folder", "in_use", "plants", "read_folder", "shipped", "speak", "still_spoken", "unknown_plant", "using",
]  # fmt: skip
