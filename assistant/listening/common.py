"""Everyday words that are neither a plant nor a quantity, wherever they stand."""

from __future__ import annotations

# Words a plant can never be, besides those of the phrases.
COMMON = frozenset(
    """a about above after again all also am an and any are as at be been before being below but by came can cannot could did do does doing done down each
    else end enough ever every few for from further get gets getting go goes going gone good got had half has have he her here hers him his how i if
    in into is it its
    just keep kind know last least left less let like little long lot lots made make makes many may me mean meant might mine more most much must my
    near need never new
    next no not now of off oh ok okay old on once one only or other our out over own part per perhaps please pls put quite rather really right said same say see
    shall she should since so some something soon still stuff such sure take tell than that the their them then there these they thing things this those though
    through thru time to today together tomorrow too took under until up upon us use used very want wants was way we well went were what when where
    which while who
    why will with within without would yes yesterday yet you your morning evening afternoon night week weeks day days month months class teacher
    apprentice student
    scale jug sheet recipe book lesson question answer number figure sum thanks thank sorry oops hang wait hi hello hey bench table shelf cupboard kitchen shed
    barn field hedge lane creek wood woods slope garden home house shop stall market fill full empty whole thing bit bits amount amounts result ending start
    started lovely nice big small large litre liter ml g gram grams percent strength either side yellow brown mouldy wilted spoiled damaged
    tonight overnight earlier afterwards already altogether finally actually roughly instead outside inside somewhere everything anything nothing somebody
    anyone everyone nobody myself yourself himself herself themselves noon midday midnight dawn dusk lunch lunchtime breakfast supper weekend yearly
    monday tuesday wednesday thursday friday saturday sunday january february april june july august september october november december
    spring summer autumn winter rain raining sunny hot cold warm wet heavy light basket bag bucket trug sack""".split()
)
