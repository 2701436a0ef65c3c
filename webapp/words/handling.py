"""What a buyer may plan to do with the rock of a kind that may carry a poison."""

from webapp.words.language import later

#: (key, label) of the form's question.
ROCK = [
    ("", later("not said")),
    ("keep", later("Leave it as it is")),
    ("clean", later("Scrub, drill, saw or dry it")),
    ("boil", later("Boil, steam or heat it, or pour hot water over it")),
]
#: Plans that can hurt a person: what is said of them.
PLANS = {
    "clean": later(
        "You said: scrub, drill, saw or dry it. Do not. Dust and spray from dry or sawn rock carry the poison into "
        "eyes and lungs."
    ),
    "boil": later(
        "You said: boil, steam or heat it. Do not. Whole families have been poisoned by the vapour."
    ),
}
