"""Codes and values of the fit check into sentences: one table a matter, `note_sentence` for all."""

from webapp.fit.findings import Finding, Note
from webapp.words.acclimation_notes import STEPS
from webapp.words.advice_notes import ADVICE, SPOT
from webapp.words.animal_notes import ANIMALS
from webapp.words.answer_notes import PAPERWORK, SAFETY, UNKNOWABLE, WHOLE
from webapp.words.places import places_of
from webapp.words.plan_notes import CAUTIONS, NOTES
from webapp.words.sentences import Sentence, filled, finished
from webapp.words.speaker import Speaker
from webapp.words.water_notes import RANGES

#: Codes of a check. One code, 'test_again', is also a caution of plans, told apart by its values.
CHECK: dict[str, Sentence] = {**RANGES, **ANIMALS, **ADVICE, **SPOT, **WHOLE, **SAFETY, **PAPERWORK, **UNKNOWABLE}
PLANS: dict[str, Sentence] = {**CAUTIONS, **NOTES, **STEPS}


def note_sentence(note: Note, speaker: Speaker, finding: Finding | None = None) -> str:
    """The sentence of a note. `finding`: the factor it stands in, for values in that factor's unit.

    Raises KeyError for a code that has no sentence.
    """
    return finished(filled(sentence_of(note), note.values, places_of(note, speaker, finding), speaker))


def sentence_of(note: Note) -> Sentence:
    """The sentence with its places still open."""
    of_a_plan = note.code in PLANS and (note.code not in CHECK or "target" in note.values)
    return (PLANS if of_a_plan else CHECK)[note.code]
