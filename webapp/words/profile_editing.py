"""How a median of the shop lies in a range."""

from webapp.words.language import later

LIES = {"ideal": later("ideal"), "borne": later("borne"), "beyond": later("beyond its limits")}
