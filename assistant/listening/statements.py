"""What a sentence says, once it is read: frozen records, each with the place in the sentence it came from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.dataclass import dataclass, field

if TYPE_CHECKING:
    from assistant.faults import BenchError
    from assistant.listening.takings import Regimen


@dataclass(frozen=True, slots=True)
class Said:
    """A figure given to a quantity. `value`, `low`, `high` and `plus_minus` are in the bench unit of the quantity.

    member     the ingredient it belongs to, or ""
    said_unit  the unit as it was said ("oz", "US proof"), for answering in kind
    weak       True where nothing but the unit spoke for this quantity
    words      the words around it, by which a later correction finds it ("bottle was 350")
    """

    quantity: str
    value: float
    start: int
    end: int
    member: str = ""
    said_unit: str = ""
    low: float | None = None
    high: float | None = None
    plus_minus: float | None = None
    weak: bool = False
    words: frozenset[str] = frozenset()
    slack: float = 0.0  # half of the last digit said
    phrase: int = -1  # where the phrase began that claimed it: figures of one phrase belong together
    tool: str = ""  # what it was read on, where that was said

    @property
    def key(self) -> str:
        return f"{self.quantity}[{self.member}]" if self.member else self.quantity


def forget(figure: Said | Loose, said: list[Said], loose: list[Loose]) -> None:
    """Take a figure out of whichever of the lists holds it: that very one, not one like it. Changes both in place."""
    said[:] = [s for s in said if s is not figure]
    loose[:] = [f for f in loose if f is not figure]


@dataclass(frozen=True, slots=True)
class Asked:
    """A quantity that is asked for."""

    quantity: str
    start: int
    end: int
    member: str = ""

    @property
    def key(self) -> str:
        return f"{self.quantity}[{self.member}]" if self.member else self.quantity


@dataclass(frozen=True, slots=True)
class Act:
    """Something to be done in the conversation: undo, why, scale, compare, units …; `figures` are the values it bears."""

    name: str
    arguments: tuple[str, ...]
    start: int
    end: int
    figures: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Named:
    """A plant or ingredient named; `known` where the plants list has it."""

    name: str
    start: int
    end: int
    known: bool = True


@dataclass(frozen=True, slots=True)
class Loose:
    """A figure that no phrase claimed: the session finds its place or asks."""

    kind: str
    value: float
    unit: str
    start: int
    end: int
    text: str
    words: frozenset[str] = frozenset()
    low: float | None = None
    high: float | None = None
    said_unit: str = ""
    number: float | None = None  # as said, before its unit


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe: its name and what was said of it, quantity → value in bench units."""

    name: str
    figures: tuple[tuple[str, float, int, int], ...]  # (quantity, value, start, end)
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class Reference:
    """A number that is no quantity: "the 224", lot 24-07, ten minutes ago."""

    what: str  # reference | label | time
    start: int
    end: int
    value: float | None = None


@dataclass(frozen=True, slots=True)
class Tool:
    """An instrument described: what a person says of a scale, a glass, a dropper or a hydrometer. What was not said is None or "".

    kind         scale, glass, dropper or hydrometer; its figures are in g, mL, drops/mL and percent
    name         what it is called ("spring scale", "100 mL cylinder")
    capacity     the most it reads
    step         between two marks
    accuracy     its class: A or B of a glass, I to IIII of a scale
    standard     the standard its class is of, where one was named
    plus_minus   how far it may be out, as said
    per_ml       of a dropper: drops in a mL;  strength  [percent] of what they were counted with
    """

    kind: str
    name: str
    capacity: float | None = None
    step: float | None = None
    accuracy: str = ""
    standard: str = ""
    plus_minus: float | None = None
    per_ml: float | None = None
    strength: float | None = None
    start: int = 0
    end: int = 0


@dataclass(frozen=True, slots=True)
class ReadOn:
    """Where a figure was read off ("on the spring scale", "at home"): the name of an instrument, or field or home for a place."""

    name: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Weighing:
    """One weight of a plant that was weighed twice: grams, and where."""

    grams: float
    place: str  # field or home
    tool: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class GlassAsked:
    """Which glass for a volume: mL to reach, and the capacities to choose from (none: those the person owns)."""

    millilitres: float | None
    choices: tuple[float, ...]
    accuracy: str = ""
    standard: str = ""


@dataclass(frozen=True, slots=True)
class Within:
    """A figure that is wanted within a ± of its own: the ± in `unit` (percent, g or mL), and the word for the figure ("finish"; "" for the last one)."""

    target: str
    plus_minus: float
    unit: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Slack:
    """A ± said by itself ("the weight is ± 2 g"): of a figure of the batch, which one is for the session to find."""

    plus_minus: float
    unit: str
    start: int
    end: int


@dataclass
class Reading:
    """All that one sentence says."""

    heard: str
    said: list[Said] = field(default_factory=list)
    asked: list[Asked] = field(default_factory=list)
    acts: list[Act] = field(default_factory=list)
    named: list[Named] = field(default_factory=list)
    loose: list[Loose] = field(default_factory=list)
    ingredients: list[Ingredient] = field(default_factory=list)
    liquids: list[Ingredient] = field(default_factory=list)
    rows: list[tuple[Loose, ...]] = field(default_factory=list)  # "0.14, 0.10 and 0.08": a figure for each ingredient, in order
    sizes: tuple[Loose, ...] = ()  # bottles of several sizes: "100s, 50s and 30s"
    regimen: Regimen | None = None  # doses that change in the day or from day to day
    mentions: list[Named] = field(default_factory=list)  # every ingredient named, plants and stuffs alike
    references: list[Reference] = field(default_factory=list)
    claims: list[Said] = field(default_factory=list)
    numbers: list[tuple[int, int, str]] = field(default_factory=list)  # every island that bears a number: start, end, kind
    freed: set[str] = field(default_factory=set)
    tags: set[str] = field(default_factory=set)
    denied: set[str] = field(default_factory=set)
    passing: set[str] = field(default_factory=set)
    frames: set[str] = field(default_factory=set)
    left: set[str] = field(default_factory=set)
    notes: list[str] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    clauses: list[tuple[int, int]] = field(default_factory=list)
    slacks: dict[int, float] = field(default_factory=dict)  # where a figure begins → its ± as a share of it
    measures: str = "us"  # in which country's measures the sentence was read
    questioning: bool = False
    understood: int = 0
    tools: list[Tool] = field(default_factory=list)
    tools_gone: list[str] = field(default_factory=list)
    read_on: list[ReadOn] = field(default_factory=list)
    weighings: tuple[Weighing, ...] = ()
    weighed_again: Weighing | None = None  # one weight with its place: the other may be in the batch
    slack_alone: Slack | None = None
    glass: GlassAsked | None = None
    glass_again: GlassAsked | None = None  # "which for 60 ml?": of the glasses there was talk of
    within: Within | None = None
    fault: BenchError | None = None  # what it says of a day cannot be
    settled: bool = False  # what is asked about weights is already known

    @property
    def figures(self) -> list[Said | Loose]:
        """Every figure that stands by itself, in the order it was said."""
        figures: list[Said | Loose] = [*self.said, *self.loose]
        return sorted(figures, key=lambda f: f.start)

    def has(self, act: str) -> bool:
        return any(a.name == act for a in self.acts)

    def act(self, name: str) -> Act | None:
        return next((a for a in self.acts if a.name == name), None)

    def let_go(self, *acts: str) -> None:
        """The sentence is nothing of this kind after all: no claim, no undoing."""
        self.acts[:] = [a for a in self.acts if a.name not in acts]

    def only_points(self, figure: Said | Loose, what: str = "reference") -> None:
        """The figure tells nothing new: it points at what was said already, or at a time. It is used, and is no quantity."""
        forget(figure, self.said, self.loose)
        self.references.append(Reference(what, figure.start, figure.end, figure.value))

    def in_state(self, state: str) -> None:
        """The plant spoken of is fresh, or it is dried: never both."""
        self.tags.discard("fresh" if state == "dried" else "dried")
        self.tags.add(state)
