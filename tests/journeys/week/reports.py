"""What Today, the exposure list and every report say on Sunday at one, against figures worked out by hand."""

import re

from tests.journeys.week.reading import everything_due, exposed_by_place, figures, listed, specimen_of, table, words


def today(staff):
    """4 plugs that nobody tried (6, one tried, one dead); of three tanks lived in one was never read, and two with
    mushrooms were never fed; one rack in use, never read nor counted in 60 days; the mother never measured."""
    assert everything_due(staff) == {
        "Does it hold?": 4, "Nearly sold out": 1, "Feed": 2, "Read the water": 1, "Read the light": 1,
        "Measure the mother": 1, "A batch dies": 2, "Losses of the month": 1, "Count": 1, "Count everything": 1,
    }  # fmt: skip


def exposed(staff, finding):
    """Wednesday's 14, less the one that died, and the disc that came back into that quarantine: 14 here; 1 gone."""
    staff.open(finding)
    assert figures(staff)["Exposed here now"] == "14"
    # N1: the mother, plugs 1, 3 and 4.
    assert exposed_by_place(staff) == {"North, N1": "4", "Quiet": "10", "Left the shop since": "1"}


def losses(staff):
    """1 died, 2 dead on arrival. Stands: mother, 5 plugs, 2 discs and the one that came back, 8: 17 in all.

    1 of 18 is 5.6 %. What began in 30 days: 5 discs, 8 out of the box, 6 plugs.
    """
    staff.open("/losses?span=30")
    assert figures(staff) == {
        "died": "1", "of the stock, 30 days": "5.6 %", "dead on arrival": "2", "by their prices": "€ 11.50",
    }  # fmt: skip
    told = words(staff.page)
    assert "1 died in 30 days: 5.6 % of what stood here. Above 5 % it deserves a look." in told
    assert "Ember Ring : 1 of 6 of one batch died, 17 %. Above 10 % it deserves a look." in told
    assert "a farm far away : 2 of 10 of one shipment died, 20 %. Above 10 % it deserves a look." in told
    assert table(staff, "<span>When ") == [["While healing", "1"]]
    assert table(staff, "<span>Of what ") == [["Melted after the cut", "1"]]
    assert table(staff, "<span>By mother ") == [["Ember Ring", "1 of 6, 17 %"]]
    assert table(staff, "<span>By method ") == [["cut with a scalpel", "1 of 6, 17 %"]]
    assert table(staff, "<span>By kind ") == [["zoas (button polyps)", "1 of 6, 17 %"]]
    # Of the box's ten two arrived dead, and none died since.
    assert table(staff, "<span>By supplier ") == [["a farm far away", "2 of 10, 20 %"]]
    # In North stand or died of those six plugs 1 to 4; the fifth and the sixth were carried elsewhere.
    assert table(staff, "<span>By tank ") == [["North", "1 of 4, 25 %"]]
    # By day of work: of Tuesday's six one died; of Monday's box nothing died after it was taken in.
    (day,) = table(staff, "<summary>By day of work")
    assert re.fullmatch(r"\S+ \S+ \S+, Noor", day[0])
    assert day[1:] == ["Ember Ring", "1 of 6, 17 %: deserves a look"]
    assert listed(staff, "Losses of the month") == (1, "The stock 1 died in 30 days: 5.6 % of what stood here.")


def survival(staff):
    """Zoanthids: mother and 6 plugs, 1 of the 7 died on its third day: 6/7 = 85.7 %, followed over 60 days.

    Its interval, of log(-log S): the variance is 1/(7 x 6) over (ln 6/7)², 0.02381/0.02376 = 1.002; 1.96 of its roots
    are 1.962, e to that 7.113; (6/7) to the power of 7.113 and of 1/7.113: 33 to 98 %. (Kalbfleisch and Prentice 1980,
    The Statistical Analysis of Failure Time Data, 1.3, for that interval.)
    """
    staff.open("/insight?by=kind&span=365")
    figure = staff.find(r"(<figure[^>]*><figcaption><h3>zoas.*?</figure>)")
    assert "7 followed, 1 died" in words(figure)
    assert table(staff, "<h3>zoas") == [
        ["30 days", "85.7 %", "33 to 98 %"], ["90 days", "not followed so long", ""],
        ["180 days", "not followed so long", ""],
    ]  # fmt: skip
    # By method and by mother the six plugs alone, 5/6 live, and nobody was followed for 30 days yet.
    for by, name in (("method", "cut with a scalpel"), ("mother", "Ember Ring")):
        figure = staff.open(f"/insight?by={by}&span=365").find(rf"(<figure[^>]*><figcaption><h3>{name}.*?</figure>)")
        assert "6 followed, 1 died" in words(figure)
        assert "83 % live after 5 days" in figure
        assert [row[1] for row in table(staff, f"<h3>{name}")] == ["not followed so long"] * 3


def sold(staff):
    """Sold and not back: two discs, 15 + 12 = 27.00, 33 days after they came; the 2 that were never sold stand for 34
    days."""
    staff.open("/insight?by=kind&span=365")
    assert table(staff, "The figures of 1 strain") == [["Blue Disc", "2", "€ 27.00", "33", "2", "34"]]


def growth(staff):
    """Two discs in 30 days, 30 to 36 and 30 to 33 mm: areas times 1.44 and 1.21. The middle of two rates is that of
    the root of 1.44 x 1.21, 1.32: +32 % in 30 days, doubled in 30 x ln 2 / ln 1.32 = 74.9 days."""
    staff.open("/insight/growth")
    kind = "smooth mushroom (also striped or spotted)"
    assert table(staff, "Growth in 30 days") == [[kind, "2", "+32.0 %", "75 days"]]


def grown(staff, code):
    """One of them: 44 % in 30 days. Its error: the middle of both areas is that of a disc of √((30² + 36²)/2) = 33.1
    mm; 1 mm of that is 6.04 % of the area; over the root of 2 x 15² days, 21.2: 0.285 % a day; times 30 days, 1.44
    and 1.96: 24.1 %. It doubles in 30 x ln 2 / ln 1.44 = 57.0 days."""
    staff.open(specimen_of(staff, code))
    told = "44 % in 30 days , give or take 24.1, from 2 sizes taken as discs over 30 days; it doubles in 57 days."
    assert told in words(staff.page)


def drift(staff):
    """Alkalinity on days 0 to 3: 8.3, 8.1, 8.0, 7.6, mean 8.0; Sxy = -1.10, Sxx = 5: -0.22 a day, -6.6 in 30 days.

    Residuals -0.03, -0.01, 0.11, -0.07: their squares sum to 0.018, over 2 and over 5 the root is 0.0424; times 4.303
    (Student's t, 2 degrees of freedom, 0.975: NIST/SEMATECH e-Handbook, 1.3.6.7.2) 0.1826 a day, 5.48 in 30 days: -12.1
    to -1.12. Temperature: slope 0.08, residuals -0.08, 0.24, -0.24, 0.08; 0.113 x 4.303 = 0.49 is more than 0.08.
    """
    staff.open("/insight/growth?span=90")
    assert table(staff, "The figures of 1 that drifts") == [
        ["North, Alkalinity", "4", "7.6 dKH", "−6.6 dKH", "−12.1 to −1.12"]
    ]
    assert "No drift can be told of the other 1: it is smaller than what such readings scatter by." in words(staff.page)


def card(staff, code):
    """What a walk-in reads of plug 4: its tank from Monday at one to Thursday at one."""
    told = words(staff.open(f"/{code}").page)
    assert "Alkalinity over 3 days: 7.6 to 8.3 dKH" in told
    assert "Temperature over 3 days: 25.0 to 25.4 °C" in told
    # Of its own days, Tuesday at ten to Sunday: 8.1, 8.0 and 7.6; between the first and the last tenth of them, by
    # straight lines: 7.6 + 0.2 x 0.4 = 7.68 and 8.0 + 0.8 x 0.1 = 8.08.
    assert "here 8 (7.7–8.1)" in told


def session(staff, stage):
    """Of Tuesday's six one died, none is for sale yet: 5/6 = 83 %."""
    staff.open(f"/s/{stage.mother}")
    assert "6 pieces 83 % did not die: 0 sold, 5 healing, 1 died" in words(staff.page)
