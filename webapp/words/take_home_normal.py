"""What is normal after a move and what is not, by group of animals, each with what to do: all of it common practice."""

from webapp.words.language import later

NORMAL = {
    "corallimorph": (
        later("Shrunk, folded or closed for one to seven days; a little slime."),
        later("It may let go and drift at first: put it back behind mesh."),
    ),
    "zoanthid": (
        later("Closed for one to five days, single polyps for longer."),
        later("A dull film that comes off by itself."),
    ),
    "soft": (
        later("Limp or closed for one to seven days, in leather corals up to three weeks."),
        later("A waxy skin that comes off in the flow: leathers do that to clean themselves."),
    ),
    "gorgonian": (
        later("Polyps in for up to a week."),
        later("A thin film that the flow takes away."),
    ),
    "lps": (
        later("Half open up to seven days; smaller by night."),
        later("Some slime; threads of waste once or twice."),
    ),
    "sps": (
        later("Polyps in for one to three days; a little browner or paler for some weeks."),
        later("White growing tips and rims: that is new skeleton."),
    ),
    "anemone": (
        later("Shrunk and emptied once or twice a day in the first week."),
        later("It walks until a place suits it: cover every pump intake."),
    ),
    "clam": (
        later("Closing quickly at a shadow: a good sign."),
        later("Half open for one to three days."),
    ),
}
_SKELETON = later("White bare skeleton, more each day: test the water that day.")
_SLIME = later("Smelly brown slime: siphon it off, animal into a bowl of tank water, ask us at once.")
NOT_NORMAL = {
    "corallimorph": (
        later("Melting, holes, a bad smell: take it out at once, it spoils the water."),
        later("Gaping and pale: too much light. Move it lower."),
    ),
    "zoanthid": (
        later("Closed for over a week: look for small snails, spiders and white spots; do not scrape or brush it."),
        later("Stretched tall: too little light. Melting polyps: ask us the same day."),
    ),
    "soft": (
        later("Black or rotten spots, a bad smell: more flow, fresh carbon, ask us the same day."),
        later("Shut for more than three weeks: test salinity and alkalinity."),
    ),
    "gorgonian": (
        later("Bare black or brown skeleton: cut off the bare tip outside the tank, and ask us."),
        later("Closed for more than two weeks: more flow, more fine food."),
    ),
    "lps": (_SLIME, _SKELETON),
    "sps": (_SKELETON, later("Skin that peels from the base up: cut off a healthy tip and ask us the same day.")),
    "anemone": (
        later("Limp with an open mouth, a bad smell: take it out at once; a dead one spoils the water in hours."),
        later("Pale and shrunk for days: too little light or food."),
    ),
    "clam": (
        later("Gaping wide, slow to close, mantle pinched: test the water and ask us the same day."),
        later("White patches inside the mantle: too little or too much light."),
    ),
}
ASK_US = later("In doubt? Show us a photo.")
BRING = later("For a claim: this sheet, a photo, readings, some of your water.")
