"""What a buyer chooses from: words that a person can check with the eye, each with what to look for.

Entries are (key, label, hint); keys are those of `science` and `fit.methods`.
"""

from webapp.words.language import later

#: Keys of science.light.WORDS.
LIGHT_WORDS = [
    ("dim", later("Dim"), later("One small lamp. You can look into it, and the bottom is dusky.")),
    (
        "modest",
        later("Modest"),
        later("An ordinary panel or a pair of tubes. Colours clear to the bottom, soft shadows."),
    ),
    ("strong", later("Strong"), later("A reef lamp. Sharp shadows on the sand, uncomfortable to look into.")),
    ("intense", later("Very strong"), later("Several reef lamps, or one turned up. Too bright to look into at all.")),
]
#: Keys of science.flow.WORDS.
FLOW_WORDS = [
    ("dirt_settles", later("Almost still"), later("Dirt settles and stays; tentacles hang.")),
    ("gentle_sway", later("Gentle"), later("Soft corals sway gently.")),
    ("waves_steadily", later("Steady"), later("Tentacles wave all the time; dirt does not settle.")),
    ("bent_over", later("Strong"), later("Soft corals are bent over to one side.")),
    ("sand_moves", later("Very strong"), later("Sand moves; polyps stay shut.")),
]
#: Keys of science.fixture.KINDS.
FIXTURES = [
    ("led_reef_blue", later("Reef LED, run mostly blue"), later("The tank looks blue.")),
    ("led_reef_mixed", later("Reef LED, blue and white together"), later("The tank looks cool white.")),
    ("led_white", later("White LED panel or spot"), later("An ordinary white lamp.")),
    ("led_strip", later("LED strip or bar"), later("A thin bar along the tank.")),
    ("t5", later("Fluorescent tubes"), later("Thin tubes under a reflector.")),
    ("metal_halide", later("Metal halide"), later("A hot, single bright lamp.")),
    ("compact_fluorescent", later("Compact fluorescent"), later("Folded tubes in one holder.")),
    ("unknown", later("Not sure which"), later("The answer is then wider.")),
]
#: Keys of science.flow.OUTLET_M_S.
PUMPS = [
    ("wave_wide", later("Wave pump, wide stream"), later("A propeller in a cage, inside the tank.")),
    ("wave_narrow", later("Stream pump, narrow jet"), later("A small round outlet, inside the tank.")),
    ("return", later("Return pump"), later("Lifts water from a sump or filter through a pipe.")),
    ("unknown", later("Not sure which"), later("The answer is then wider.")),
]
#: Keys of science.lux.COLOURS.
LAMP_COLOURS = [
    ("deep_blue", later("Deep blue only"), later("White paper looks violet-blue.")),
    ("blue", later("Mostly blue"), later("White paper looks blue.")),
    ("blue_white", later("Blue and white"), later("White paper looks bluish.")),
    ("white", later("White LED"), later("White paper looks white.")),
    ("warm_white", later("Warm white LED"), later("White paper looks yellowish.")),
    ("fluorescent", later("White fluorescent tube"), later("A white tube lamp.")),
    ("metal_halide", later("Metal halide"), later("A hot, single bright lamp.")),
    ("sunlight", later("Daylight"), later("Sun or sky through a window or roof.")),
    ("unknown", later("Not sure"), later("The answer is then wider.")),
]
#: Keys of science.lux.INSTRUMENT_ERROR.
INSTRUMENTS = [
    ("meter", later("A lux meter"), later("A hand-held instrument; reads within about 8 %.")),
    ("phone", later("A phone"), later("Reads within about a third, worse under blue light.")),
]
#: Keys of fit.methods.METHODS, all quantities together.
METHOD_NAMES = {
    "thermometer": later("glass thermometer"),
    "digital_probe": later("digital thermometer"),
    "strip_thermometer": later("stick-on strip thermometer"),
    "refractometer": later("refractometer"),
    "hydrometer_swing": later("swing-arm hydrometer"),
    "hydrometer_glass": later("glass hydrometer"),
    "conductivity_meter": later("conductivity meter"),
    "laboratory": later("laboratory test"),
    "drop_kit": later("drop test kit"),
    "fine_titration": later("fine syringe or burette titration"),
    "colorimeter": later("colorimeter (electronic colour reader)"),
    "strip": later("test strip"),
    "colour_card": later("test kit with a colour card"),
    "low_range_card": later("low-range kit with a colour card"),
    "low_range_colorimeter": later("low-range colorimeter (electronic colour reader)"),
    "electrode": later("pH meter, calibrated"),
}
#: Days a week on which the buyer can feed.
FEEDING = [
    ("0", later("Never")),
    ("1", later("Once a week")),
    ("2", later("Twice a week")),
    ("3", later("Every other day")),
    ("5", later("Five days a week")),
    ("7", later("Every day")),
]
#: Months that the tank has run with water and life in it.
AGES = [
    ("0", later("Less than a month")),
    ("1", later("A month or more")),
    ("2", later("Two months or more")),
    ("3", later("Three months or more")),
    ("4", later("Four months or more")),
    ("6", later("Half a year or more")),
    ("9", later("Nine months or more")),
    ("12", later("A year or more")),
    ("18", later("A year and a half or more")),
    ("24", later("Two years or more")),
]
