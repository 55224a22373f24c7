"""What is asked back, in bench terms, for each thing that may be missing."""

from __future__ import annotations

from collections.abc import Container, Iterable

from assistant.listening.statements import Loose
from assistant.quantities.vocabulary import VOCABULARY, about, base
from assistant.reply import Question

ASKED_AS = {
    "herb": ("How many grams of plant go in?", ("it is 112 g",)),
    "ratio": ("What ratio do you want, plant to menstruum?", ("1:2", "1:5")),
    "strength": ("What strength do you pour?", ("at 60 %",)),
    "stock_strength": ("What strength is the spirit you start from?", ("from 95 %", "from 40 %")),
    "finished_strength": ("What strength shall it finish at?", ("finish at 50 %",)),
    "water_content": ("How much water is in the fresh plant?", ("80 % water", "70 % water")),
    "menstruum": ("How many millilitres of menstruum?", ("500 mL of menstruum",)),
    "pressed": ("How much tincture came out?", ("pressed 400 mL",)),
    "wetting_per_gram": ("How much spirit to wet each gram?", ("wet it with 0.5 mL of spirit to the gram",)),
    "held_per_gram": ("How much does the marc hold per gram, or how do you press?", ("the press leaves 1.2 mL a gram",)),
    "jar_size": ("How big are the jars?", ("500 mL jars",)),
    "bottle_size": ("How big are the bottles?", ("in 50 mL bottles",)),
    "blend": ("How much do you want in all?", ("100 mL in all",)),
    "batch": ("How much do you want in all?", ("a 500 g batch",)),
    "dose": ("How many millilitres is a dose?", ("5 mL three times a day",)),
    "dropper_size": ("How many millilitres does one squeeze of the dropper lift?", ("ours draws 0.8 mL",)),
    "times_a_day": ("How many times a day?", ("three times a day",)),
    "adult_dose": ("What is the adult dose?", ("adults take 5 mL",)),
    "child_dose": (
        "By which rule of thumb, and how old or heavy is the child?",
        ("Clark's rule, she weighs 20 kg", "Young's rule, he is 6 years old", "Fried's rule, 10 months old"),
    ),
    "child_weight": ("What does the child weigh?", ("she weighs 20 kg",)),
    "per_cup": ("How many grams to a cup?", ("2 g per cup",)),
    "acidity": ("What acidity has the vinegar?", ("5 % vinegar",)),
    "tare": ("What does the empty bag or basket weigh?", ("the bag is 50 g",)),
    "gross": ("What did the scale show?", ("742 g with the basket",)),
    "stock": ("How much of the spirit have you?", ("700 mL of 95 %",)),
    "dried": ("How much dried herb?", ("60 g dried",)),
    "keeping_strength": ("What strength is the spirit that keeps it?", ("brandy at 40 %",)),
    "stand_plants": ("How many plants stand there?", ("a stand of 60 plants",)),
    "plants_taken": ("How many plants are taken?", ("I dig 8 plants",)),
    "per_plant": ("What does one plant give?", ("6 g a plant",)),
    "share_allowed": (
        "Which share of the stand at most? Common practice is a fifth of what comes again, one in twenty of what is dug.",
        ("at most one in twenty", "at most a fifth"),
    ),
    "empty_bottle": ("What does the empty bottle cost?", ("the bottle costs 0.90",)),
    "tin_size": ("How big are the tins?", ("30 mL tins",)),
    "tins": ("How many tins?", ("24 tins",)),
    "course": ("For how long?", ("for 4 weeks",)),
    "decoction": ("How much decoction or infusion?", ("500 mL decoction",)),
    "sugar": ("How much sugar?", ("650 g sugar",)),
    "glycerine": ("What percent glycerine do you pour?", ("at 60 % glycerine",)),
    "materials": ("What did the materials cost?", ("spent 46.50 on materials",)),
    "child_years": ("How old is the child, in years?", ("she is 6 years old",)),
    "child_months": ("How old is the child, in months?", ("9 months old",)),
    "eo_base": ("How much does it go into?", ("in 200 mL",)),
    "eo_share": ("What percent of essential oil?", ("2 % essential oil",)),
    "blend_strength": ("What strength shall it have together?", ("at 30 %",)),
    "percolate": ("How much shall drip through?", ("1 L of percolate",)),
    "used_last_year": ("How much of it went last year?", ("used 4 L last year",)),
    "used_a_day": ("How much goes out a day?", ("35 mL a day",)),
    "still_left": ("How much of it is left?", ("900 mL left",)),
    "needed_by": ("For which day must it be bottled?", ("bottled for 12 December",)),
    "latest_start": ("On which day is it started?", ("started on 1 November",)),
    "wilted": ("What does it weigh now?", ("it weighs 400 g now",)),
    "spirit_on_shelf": ("How much spirit stands on the shelf?", ("1.2 L on the shelf",)),
    "spirit_bought": ("How much spirit was bought?", ("bought 5 L of 95 %",)),
    "dispensed": ("How much was handed out?", ("gave her 200 mL",)),
    "elapsed": ("How many days ago was that?", ("28 days ago",)),
    "left_in_bottle": ("How much is left in the bottle?", ("35 mL left",)),
    "per_kit": ("How much goes into each kit?", ("60 mL each",)),
    "students": ("How many people are coming?", ("nine students",)),
    "bed_holds": ("How many crowns does a bed hold?", ("20 crowns a bed",)),
    "crown_years": ("How many years does a crown grow?", ("three years to grow",)),
    "sold": ("How many were sold?", ("sold 23",)),
    "taken_to_market": ("How many bottles went to market?", ("took 40",)),
    "spirit_there": ("How much spirit is there?", ("8 L of 95 %",)),
    "shelf_has": ("How much of it is on the shelf?", ("1.4 L on the shelf",)),
    "each_batch": ("How much does each batch take?", ("each batch takes 120 mL",)),
    "batches_meant": ("How many batches are wanted?", ("I want 16",)),
    "basket": ("How many litres does the press basket take?", ("a basket of 3 L",)),
    "to_gather": ("How much is wanted, in grams?", ("1.2 kg",)),
    "left_dried": ("How much water is in the fresh plant that is left over?", ("it is fresh, 78 % water",)),
    "brix": ("What strength in °Bx shall the syrup have?", ("to 65 Brix",)),
}

# What can be read off a scale, a jug or a label comes first.
ASKABLE = (
    "herb",
    "ratio",
    "strength",
    "stock_strength",
    "menstruum",
    "water_content",
    "batch",
    "blend",
    "bottle_size",
    "dose",
    "dropper_size",
    "times_a_day",
    "adult_dose",
    "child_weight",
    "jar_size",
    "acidity",
    "glycerine",
    "pressed",
    "tare",
    "gross",
    "per_cup",
    "spoon",
    "cups_a_day",
    "course",
    "stock",
    "decoction",
    "sugar",
    "brix",
    "finished_strength",
    "keeping_strength",
    "syrup",
    "tin_size",
    "tins",
    "held_per_gram",
    "yield_share",
    "dried",
    "materials",
    "bottles",
    "eo_share",
    "eo_base",
    "boiled_from",
    "boiled_to",
    "planned_herb",
    "spirit_in_hand",
    "finished_acidity",
    "finished_glycerine",
    "stand_plants",
    "plants_taken",
    "per_plant",
    "share_allowed",
    "honey",
    "child_years",
    "child_months",
    "celsius",
    "hydrometer",
    "used_last_year",
    "used_a_day",
    "still_left",
    "needed_by",
    "latest_start",
    "wilted",
    "spirit_on_shelf",
    "spirit_bought",
    "dispensed",
    "elapsed",
    "left_in_bottle",
    "per_kit",
    "students",
    "bed_holds",
    "crown_years",
    "sold",
    "taken_to_market",
    "spirit_there",
    "shelf_has",
    "each_batch",
    "batches_meant",
    "basket",
    "to_gather",
)


def first_counted(wants: Iterable[str], facts: Container[str]) -> list[str]:
    """What is wanted, each once; of a dose counted in dropperfuls it is what one of them lifts that is wanted, not its mL."""
    counted = "dropperfuls" in facts and "dropper_size" not in facts
    return list(dict.fromkeys("dropper_size" if counted and want == "dose" else want for want in wants))


def unplaced_question(figure: Loose) -> Question:
    """What is asked about a figure that found no place; a dropperful is no measure until its bulb was counted, a cup of leaf until it was weighed."""
    if figure.kind == "dropperful":
        text = f"“{figure.text}” is no measure: how many millilitres does one squeeze of that dropper lift? Count it once: mostly 0.6 to 1 mL, never the whole pipette."  # noqa: E501  (one sentence, or one expression)
        return Question(text=text, wants=("dropper_size",), choices=("ours draws 0.8 mL",))
    if figure.kind == "herbcup":
        text = f"“{figure.text}” of a plant has no fixed weight: leaf, root and powder differ many times. How many grams is it on the scale?"
        return Question(text=text, wants=("herb",), choices=("it is 25 g",))
    return Question(text=f"What is “{figure.text}” for?")


def question_for(key: str) -> tuple[str, tuple[str, ...]]:
    """The question for one missing quantity, and answers that can be said as they stand."""
    name = base(key)
    if about(key):
        if name == "strength_of":
            return f"What strength is the {about(key)}?", (f"{about(key)} is 40 %",)
        return f"How much {about(key)} ({VOCABULARY[name].caption})?", ()
    if name in ASKED_AS:
        return ASKED_AS[name]
    return f"What is the {VOCABULARY[name].caption}?", ()
