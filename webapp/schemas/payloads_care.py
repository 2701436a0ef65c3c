"""What the daily care of tanks, and looking at specimens, carry. Units as in `payloads`."""

from marshmallow import fields

from webapp.schemas.payloads import _choice, _count, _id, _number, _Payload, _text

FOODS = ("meaty", "fine", "plankton", "pellets", "other")
DIPS = ("iodine", "peroxide", "potassium", "plant_oil", "fresh_water", "other")
RESPONSES = ("ate", "spat", "none")
COLOURS = ("good", "pale", "bleached")


class _Tended(_Payload):
    """Something done to a tank: a subject of its own, as a reading is."""

    tank_id = _id(required=True)
    rack_id = _id(allow_none=True)
    note = _text(400)


class Fed(_Tended):
    """A tank, or the plugs of one rack, was fed."""

    food = _choice(FOODS, required=True)


class Dosed(_Tended):
    """Something was added to the water; `amount` in millilitres or grams as `unit` says."""

    what = _text(60, 1, required=True)
    amount = _number(0, 100_000)
    unit = _choice(("ml", "g"))


class WaterChanged(_Tended):
    """So many litres were changed."""

    litres = _number(0.1, 100_000, required=True)


class Serviced(_Tended):
    """A pump, lamp, heater or filter was set, cleaned, changed or failed."""

    what = _text(120, 1, required=True)


class TankNoted(_Tended):
    """Something about a tank worth keeping."""

    text = _text(1000, 1, required=True)


class Checked(_Payload):
    """A look at a specimen. What was not looked at is left out.

    holds: it stays when gently moved. edge_closed: no open wound. open: fully extended today. ate: it took food.
    bitten: new bite marks. pest: what was seen, '' for none although it was looked for. slime: brown slime or rot.
    """

    holds = fields.Boolean(allow_none=True)
    edge_closed = fields.Boolean(allow_none=True)
    open = fields.Boolean(allow_none=True)
    ate = fields.Boolean(allow_none=True)
    new_tissue_mm = _number(0, 500)
    pest_free = fields.Boolean(allow_none=True)
    bitten = fields.Boolean(allow_none=True)
    slime = fields.Boolean(allow_none=True)
    colour = _choice(COLOURS)
    note = _text(400)
    photo_id = _id(allow_none=True)


class Dipped(_Payload):
    """A dip: what, how strong as the label says, minutes, the water's temperature, what was seen and what fell off.

    `repeat`: whether it begins or continues a series that is repeated as eggs hatch.
    """

    dip = _choice(DIPS, required=True)
    strength = _text(80)
    minutes = _number(0, 240)
    temp_c = _number(10, 40)
    eggs_seen = fields.Boolean()
    fell_off = _text(200)
    repeat = fields.Boolean()
    photo_id = _id(allow_none=True)


class HandFed(_Payload):
    """One specimen was fed by hand, and what it did with it."""

    food = _choice(FOODS, required=True)
    response = _choice(RESPONSES, required=True)
    note = _text(400)


class PestFound(_Payload):
    """A pest or disease, in a tank, perhaps on one specimen. `stops_sale`: of everything that shared the water."""

    tank_id = _id(required=True)
    specimen_id = _id(allow_none=True)
    pest = _text(40, 1, required=True)
    stops_sale = fields.Boolean(required=True)
    photo_id = _id(allow_none=True)
    note = _text(400)


class PestLooked(_Payload):
    """A later look: `clean` when none was found."""

    clean = fields.Boolean(required=True)
    tank_id = _id(allow_none=True)
    note = _text(400)


class PestTreated(_Payload):
    """What was done against it."""

    treatment = _text(200, 1, required=True)


class PestStop(_Payload):
    """Sale of what is exposed is stopped, or goes on."""

    stops_sale = fields.Boolean(required=True)


class PestCleared(_Payload):
    """It counts as gone from here."""

    note = _text(400)


class PestBack(_Payload):
    """It was seen again: the finding is open once more."""

    note = _text(400)


class ShipmentSet(_Payload):
    """A shipment: from whom, under which papers, when it was packed and opened. Only what is named changes.

    freight_cents: freight, papers and duties of all of it.
    """

    supplier = _text(80)
    invoice = _text(80)
    papers = _text(120)
    expected_at = fields.AwareDateTime(format="iso", allow_none=True)
    packed_at = fields.AwareDateTime(format="iso", allow_none=True)
    opened_at = fields.AwareDateTime(format="iso", allow_none=True)
    box_temp_c = _number(-5, 50)
    claim_h = _number(0.5, 720)
    freight_cents = _count(0, 10_000_000, allow_none=True)
    note = _text(400)


class _Line(_Payload):
    line = _id(required=True)


class ShipmentLine(_Line):
    """A line of the order: the kind, its name as on the papers, how many, what they cost each, where they come from."""

    profile_key = _text(60, 1, required=True)
    name = _text(80, 1, required=True)
    as_on_papers = _text(120)
    papers = _text(120)
    source_code = _choice(("", "W", "R", "D", "A", "C", "F", "U", "I", "O", "X"))
    origin = _choice(("bought_in", "maricultured", "wild", "unknown"), required=True)
    count = _count(1, 1000, required=True)
    cost_cents = _count(0, 10_000_000, allow_none=True)


class LineDropped(_Line):
    """A line that is not coming."""


class BagMeasured(_Line):
    """A bag of this line as it was opened, and the tank that it goes into."""

    tank_id = _id(required=True)
    bag_temp_c = _number(0, 45)
    bag_salinity_ppt = _number(5, 60)
    bag_ph = _number(5, 10)
    bag_l = _number(0.05, 200)
    ammonia_smell = fields.Boolean()


class LineArrived(_Line):
    """What was in it: alive and dead, with a picture of the dead. `specimens`: those taken into the stock."""

    alive = _count(0, 1000, required=True)
    dead = _count(0, 1000, required=True)
    photo_id = _id(allow_none=True)
    specimens = fields.List(_id(), load_default=list)
    note = _text(400)


class DeadClaimed(_Payload):
    """A claim made to the supplier for what arrived dead."""

    count = _count(1, 10_000, required=True)
    note = _text(400)


class ShipmentDone(_Payload):
    """Everything of it is unpacked."""

    note = _text(400)
