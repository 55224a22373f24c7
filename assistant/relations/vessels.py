"""Jars to macerate in, bottles to fill. mL, percents and whole numbers."""

from __future__ import annotations

from assistant.relations.craft import practice

RELATIONS = (
    practice("herb and liquid together", "contents = menstruum + herb * herb_room", "The liquid and the room the herb takes in it.", "room"),
    practice("the liquid alone", "contents = menstruum", "Only the liquid is counted.", "!room !oxymel"),
    practice("vinegar and honey in it", "contents = in_jar", "Vinegar and honey both are counted.", "!room oxymel"),
    practice("jars", "jars = ceil(contents / (jar_size * fill / 100))", "Fill each jar so far and go up to the next whole jar.", "jars !how_full"),
    practice("how full", "contents = jars * jar_size * fill / 100", "What is in the jars, out of what they hold to the brim.", "jars how_full"),
    practice("plant in each jar", "herb_in_each = herb / jars", "The plant shared evenly among the jars.", "jars"),
    practice("in each jar", "in_each = contents / jars", "Split evenly among the jars.", "jars"),
    practice("bottles", "bottles = floor(to_bottle / bottle_size)", "Bottles are whole: as many as can be filled to the mark.", "bottling !filled"),
    practice("left after bottling", "rest = to_bottle - bottles * bottle_size", "What does not fill another bottle.", "bottling !filled"),
    practice("filling them all", "to_fill = bottles_to_fill * bottle_size", "Bottles times what each one holds."),
    practice("left after so many bottles", "rest = to_bottle - to_fill", "What there was, less what the bottles take.", "filled"),
    practice("lacking for them", "fill_short = to_fill - to_bottle", "What they take in all, less what there is.", "filling"),
    practice("bottles of spirit", "stock_bottles = ceil(stock / stock_bottle)", "The spirit it takes, in bottles as bought, up to the next whole one."),
    practice("bottling what was pressed", "to_bottle = racked", "What is bottled is what was pressed and settled.", "!keeps_some bottles_pressed"),
    practice("bottling the blend", "to_bottle = blend", "The blend is bottled.", "!keeps_some bottles_blend"),
    practice("bottling the syrup", "to_bottle = syrup", "The syrup is bottled.", "!keeps_some bottles_syrup"),
    practice("bottling the syrup with its spirit", "to_bottle = fortified", "Both are bottled.", "!keeps_some bottles_fortified"),
    practice("bottling what was made", "to_bottle = menstruum", "What was made is bottled.", "!keeps_some bottles_made"),
    practice("bottling what was pressed, some kept back", "to_bottle = racked - kept_back", "What was pressed, less that.", "keeps_some bottles_pressed"),
    practice("bottling the blend, some kept back", "to_bottle = blend - kept_back", "The blend, less that.", "keeps_some bottles_blend"),
    practice("bottling the syrup, some kept back", "to_bottle = syrup - kept_back", "The syrup, less that.", "keeps_some bottles_syrup"),
    practice("bottling the syrup with its spirit, some kept back", "to_bottle = fortified - kept_back", "Both, less that.", "keeps_some bottles_fortified"),
    practice("bottling what was made, some kept back", "to_bottle = menstruum - kept_back", "What was made, less that.", "keeps_some bottles_made"),
)
