"""The days of the week, each played by one who works in the shop, with what the pages answer to each deed."""

import re
from datetime import timedelta

from tests.journeys.week.reading import codes_on, exposed_by_place, figures, listed, specimen_of, words

MEASURED = (-24, 6)
"""When the discs were measured first: Friday of the fourth week before, at six. The second time is 30 days later."""


def before(staff, stage, go_to):
    """Four weeks earlier five discs of 15.00 are put up for sale in the other tank; two of them are measured."""
    go_to(-28, 8)
    staff.open("/stock/new").send(
        "/stock/new", profile_key="discosoma", name="Blue Disc", origin="own", status="for_sale", count="5",
        rack=stage.other_tank, price="15",
    )  # fmt: skip
    discs = codes_on(staff)
    assert len(discs) == 5
    go_to(*MEASURED)
    for code in discs[3:]:
        staff.open(specimen_of(staff, code)).send("/measure", measure__size_mm="30")
        assert "Size noted." in staff.text
    return discs


def monday(staff, go_to):
    """A box of ten, two of them dead."""
    go_to(0, 8)
    staff.open("/tanks/new").send("/tanks/new", name="Quiet", purpose="quarantine", volume_l="80")
    quiet = staff.open("/tanks").find(r'href="/tanks/([0-9a-f]{32})"[^>]*>(?:<[^>]+>)*Quiet')
    staff.open(f"/tanks/{quiet}/readings").send("/readings", temp="25", salinity="35")
    opened = go_to(0, 9, 30)
    staff.open("/shipments/new").send("/shipments/new", supplier="a farm far away", claim_h="24")
    staff.send("/line", line__profile_key="discosoma", line__name="Tide Disc", line__count="10", line__cost="6",
               line__origin="maricultured")  # fmt: skip
    box = staff.path
    packed = opened - timedelta(hours=20)
    staff.send("/open", open__packed_at=f"{packed:%Y-%m-%dT%H:%M}", open__opened_at=f"{opened:%Y-%m-%dT%H:%M}")
    go_to(0, 10, 30)
    staff.open(staff.find(r'href="([^"]+/lines/[0-9a-f]{32})"'))
    # 22 °C into 25 °C: at 2 °C in 15 minutes down to a gap of 1 °C, 15 minutes. 32.5 into 35 ppt: the gap of 2.5 halved
    # twice is within 1 ppt. Two times half a litre in an hour: 1 L, 1000/60 = 16.7 mL a minute, at 20 drops to the
    # millilitre 333 drops a minute, 5.6 a second. 32.5 -> 33.75 -> 34.375 ppt.
    staff.send("/bag", bag__tank=quiet, bag__bag_temp_c="22", bag__bag_salinity_ppt="32.5", bag__bag_l="0.5")
    assert "15 min Float the closed bag." in staff.text
    assert "60 min Drip 1 L of the tank’s water: 17 mL a minute, 5.6 drops a second. It ends at 34.4" in staff.text
    assert "Every 30 min Pour half of it away." in staff.text
    staff.send("/contents", contents__alive="8", contents__dead="2", contents__rack=quiet)
    assert len(codes_on(staff)) == 8
    # Opened 9:30, 24 h to claim, asked at 10:30: 23 h left. 2 of 10.
    assert listed(staff, "Claim what arrived dead") == (1, "a farm far away 2 dead and not claimed; 23 hours left.")
    assert listed(staff, "Shipment to receive")[0] == 1
    staff.open(box).send("/claim").send("/done")
    assert listed(staff, "Claim what arrived dead")[0] == listed(staff, "Shipment to receive")[0] == 0
    # 10 x 6.00. 40.00 freight over the 8 that lived: 5.00 each.
    staff.open(box).send("/edit", edit__freight="40")
    assert figures(staff) == {
        "On the way": "20 h", "Arrived dead": "2 of 10, 20 %", "Costs by the order": "€ 60.00",
        "Freight, € 5.00 for each that lived": "€ 40.00",
    }  # fmt: skip
    # The whole box goes through one dip before it is left alone.
    staff.open("/stock?state=quarantine")
    ids = list(dict.fromkeys(re.findall(r'name="chosen" value="([0-9a-f]{32})"', staff.page)))
    staff.open("/dip?" + "&".join(f"id={one}" for one in ids)).send("/dip", chosen=ids, dip="iodine", minutes="8")
    assert "Dipped: 8." in staff.text
    assert listed(staff, "Dip again")[0] == 0
    return quiet


def water(staff, stage, go_to, day, alk, temp):
    """The first tank is read at one: alkalinity falls, the temperature goes up and down."""
    go_to(day, 13)
    staff.open(f"/tanks/{stage.tank}/readings").send("/readings", alk=alk, temp=temp)
    assert staff.status == 200, staff.text[:800]


def tuesday(staff, stage, go_to):
    """Six plugs of the mother; in the evening the sixth goes over to the other tank."""
    go_to(1, 10)
    assert "0 for sale and 0 healing; fewer than 3 is low. She may be cut now." in listed(staff, "Nearly sold out")[1]
    assert f'href="/s/{stage.mother}/frag"' in staff.page
    staff.open(f"/s/{stage.mother}/frag")
    staff.send("/frag", method="scalpel", pieces="6", rack=stage.rack, price="11.50", heads="4")
    if staff.status == 422:  # the shop asks before more is taken than it usually takes
        staff.send("/frag", meant="y")
    frags = codes_on(staff)
    assert len(frags) == 6, staff.text[:800]
    told = "0 for sale and 6 healing; fewer than 3 is low. She rests: not to be cut for another 28 days."
    assert told in listed(staff, "Nearly sold out")[1]  # four weeks since the last cut, a threshold of the shop
    assert f'href="/s/{stage.mother}/frag"' not in staff.page
    go_to(1, 19)
    staff.open(specimen_of(staff, frags[5])).send("/move", move__rack=stage.other_tank, move__slot="")
    return frags


def wednesday(staff, stage, go_to, frags, quiet):
    """A pest in the first tank. At noon one plug, exposed, is carried into quarantine: that water is exposed too.

    Exposed: the mother and plugs 1 to 5 (6), and the 8 in quarantine: 14. Not plug 6, moved out the evening before, nor
    the 5 discs beside it.
    """
    go_to(2, 11)
    staff.open(f"/pests/new?tank={stage.tank}").send("/pests/new", pest="montipora_nudibranch")
    finding = staff.path
    go_to(2, 12)
    staff.open(specimen_of(staff, frags[4])).send("/move", move__rack=quiet, move__slot="")
    staff.open(finding)
    told = figures(staff)
    assert (told["Exposed here now"], told["Sale out of this water"]) == ("14", "stopped")
    assert exposed_by_place(staff) == {"North, N1": "5", "Quiet": "9"}  # plug 5 stands in Quiet now, beside the eight
    assert staff.text.count("Ember Ring") == 6
    assert staff.text.count("Tide Disc") == 8
    assert "Blue Disc" not in staff.text and "South" not in staff.text
    waters = re.findall(r'href="/tanks/[0-9a-f]{32}"><span class="name">(\w+)</span> <span>since ([^<]+)<', staff.page)
    assert [name for name, _since in waters] == ["North", "Quiet"]
    assert [words(since)[-5:] for _name, since in waters] == ["11:00", "12:00"]
    assert listed(staff, "Sale is stopped here")[0] == 0  # nothing in that water is for sale
    go_to(8, 12)
    assert listed(staff, "Look for the pest again")[0] == 0  # 6 days and an hour after the finding
    go_to(9, 11)
    assert listed(staff, "Look for the pest again") == (1, "North Montipora nudibranch, due less than a day ago.")
    return finding


def thursday(staff, go_to, frags):
    """48 hours after the cut all six are due to be tried; one tap each."""
    go_to(3, 9, 59)
    assert listed(staff, "Does it hold?")[0] == 0
    go_to(3, 10)
    assert listed(staff, "Does it hold?")[0] == 6
    first = specimen_of(staff, frags[0]).removeprefix("/s/")
    staff.open("/today/loose_check").send("/today/loose_check", target=first)
    assert "Noted: it holds." in staff.text
    assert listed(staff, "Does it hold?")[0] == 5
    staff.open("/today").send("/today/loose_check").send("/undo/")
    assert listed(staff, "Does it hold?")[0] == 5


def friday(staff, go_to, frags, discs):
    """The second plug has melted: 1 of 6, 16.7 % of the batch; 2 of the 10 on Monday. A disc goes on hold for a day."""
    go_to(4, 10)
    staff.open(specimen_of(staff, frags[1])).send("/lose", lose__cause="melt_after_cut")
    told = "Ember Ring 1 of 6 died: 17 %. a farm far away 2 of 10 died: 20 %."
    assert listed(staff, "A batch dies") == (2, told)
    # Stands: mother, 5 plugs, 5 discs, 8 in quarantine: 19. 1 of 20 is 5.0 %, not above it.
    assert listed(staff, "Losses of the month")[0] == 0
    staff.open(specimen_of(staff, discs[0])).send("/hold", hold__word="pearl", hold__hours="24")
    assert listed(staff, "Holds that run out") == (1, f"Blue Disc {discs[0]} For “pearl”, 24 hours left.")


def saturday(staff, go_to, frags, discs):
    """Three discs in one sale, one for less: 15 + 15 + 12 = 42. A plug out of the exposed water is refused."""
    go_to(5, 8)
    staff.open("/till").send("/till/add", code=f"{discs[0]} {discs[1]} {discs[2]} {frags[0]}")
    first, third = (specimen_of(staff, code).removeprefix("/s/") for code in (discs[0], discs[2]))
    plug = specimen_of(staff, frags[0]).removeprefix("/s/")
    staff.open("/till")
    assert "4 on the till, € 56.50 by their tags" in words(staff.page)  # 3 x 15.00 and 11.50
    # The plug: a sixth of her 42.00, 0.60, 6 minutes at 20.00 an hour, 3.917 days at 0.02: 9.678; 5 of its 6 live:
    # 11.61. A disc, of the shop's own growing and for sale at 15.00, is far above what it cost.
    told = "It cost the shop € 11.61 so far: € 7.00 bought, € 0.60 plug and glue, € 2.00 work, € 0.08 rack-days, over"
    assert f"{told} the 83 % of its batch that lived." in words(staff.page)
    assert staff.text.count("It cost the shop") == 1
    agreed = {f"price-{third}": "12", f"reason-{third}": "a torn edge", f"word-{first}": "pearl", "talk": "y"}
    staff.open("/till").send("/till/sell", **agreed)
    assert staff.status == 422
    assert "Its sale is stopped until that is cleared" in staff.text
    staff.send("/till/drop", specimen_id=plug)
    go_to(5, 14)  # the hold ran out at ten, so its word is not asked for any more
    staff.open("/till").send("/till/sell", **agreed)
    assert "Sold as number 1" in staff.text, staff.text[:600]
    assert "Together € 42.00" in staff.text
    assert "€ 15.00 on its tag, sold for € 12.00 (a torn edge)." in words(staff.page)
    staff.send("/bag", bag__case="air", bag__journey_h="1.5")
    assert re.search(r"Safe in its bag until [^.]*16:00", staff.text)  # packed at 14:00, 2 h in air
    assert re.search(r"Claims until [^;]*14:00", staff.text)  # 24 h
    staff.open("/sales")
    assert re.search(r"Sale 1 .*14:00, 3 animals, € 42.00", words(staff.page))


def sunday(staff, go_to, discs):
    """21 hours later the one for less is said to have died, and another comes back; two discs are measured again."""
    go_to.days_after(MEASURED, 30)  # so that what is grown in 30 days is what was measured, also where clocks change
    for code, size in zip(discs[3:], ("36", "33"), strict=True):
        staff.open(specimen_of(staff, code)).send("/measure", measure__size_mm=size)
        assert "Size noted." in staff.text
    go_to(6, 11)
    second, third = (specimen_of(staff, code).removeprefix("/s/") for code in (discs[1], discs[2]))
    staff.open("/sale/1").send("/claim", claim__specimen_id=third, claim__trouble="died", claim__readings="alk 5.1 dKH")
    assert "after the claim time" not in staff.text
    go_to(6, 13)
    assert listed(staff, "Claims to settle") == (1, "Sale 1 Open for 2 hours.")
    staff.open("/sale/1").send("/settle", settle__outcome="credit", settle__amount="12")
    assert re.search(r"Settled [^:]*13:00: credit, € 12.00", words(staff.page))
    assert listed(staff, "Claims to settle")[0] == 0
    staff.open("/sale/1").send("/return", **{"return-specimen_id": second, "return-reason": "too large"})
    assert "It is back, and its quarantine in Quiet begins." in staff.text
    assert re.search(rf"Blue Disc {discs[1]} came back [^:]*13:00: too large; no money given back\.", words(staff.page))
