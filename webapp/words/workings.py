"""Parts of an answer that are no factor, as headings of 'How this was worked out'."""

from webapp.words.language import later

PARTS = {
    "reading": later("Every reading"),
    "whole": later("The whole, and what would settle most"),
    "spot": later("Where in the tank"),
    "plans": later("Grams, litres and days"),
    "acclimation": later("From our water to yours"),
    "used_to": later("What it is used to here"),
    "own_evidence": later("How others of its kind did here"),
}
