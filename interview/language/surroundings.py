"""Which surroundings does the word name whose temperature is given: the yard, the shop, the deck?"""

from __future__ import annotations

from interview.language.line import Line
from interview.language.pairing import Cue

_PLACES = {
    "yard": "open_air",
    "outside": "open_air",
    "outdoors": "open_air",
    "field": "open_air",
    "shop": "indoors",
    "workshop": "indoors",
    "shed": "indoors",
    "barn": "indoors",
    "hall": "indoors",
    "factory": "indoors",
    "mill": "indoors",
    "warehouse": "indoors",
    "indoors": "indoors",
    "bonnet": "engine_bay",
    "hood": "engine_bay",
    "freezer": "cold_store",
    "deck": "on_deck",
}


def hear_surroundings(line: Line, cue: Cue) -> None:
    """Who gives the temperature of the shop has said where the hose works."""
    a, _ = line.clause(cue.first)
    before = [c.first for c in line.cues if c.tag == cue.tag and a <= c.first < cue.first]
    if cue.tag == "ambient_temperature" and line.words[cue.first] not in _PLACES:  # "outside is winter minus thirty"
        cue = next((Cue(cue.tag, k, k) for k in before if line.words[k] in _PLACES), cue)
    word = line.words[cue.first]
    if cue.tag == "ambient_temperature" and word in _PLACES and not any(f.name == "surroundings" for f in line.facts):
        line.add("surroundings", _PLACES[word], cue.first, cue.first)
