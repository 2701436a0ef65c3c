"""What the daily care of tanks, and looking at specimens, carry. Units as in `payloads`."""

from marshmallow import fields

from webapp.schemas.payload_fields import Payload, choice_field, count_field, id_field, number_field, text_field

FOODS = ("meaty", "fine", "plankton", "pellets", "other")
DIPS = ("iodine", "peroxide", "potassium", "plant_oil", "fresh_water", "other")
RESPONSES = ("ate", "spat", "none")
COLOURS = ("good", "pale", "bleached")


class _Tended(Payload):
    """Something done to a tank: a subject of its own, as a reading is."""

    tank_id = id_field(required=True)
    rack_id = id_field(allow_none=True)
    note = text_field(400)


class Fed(_Tended):
    """A tank, or the plugs of one rack, was fed."""

    food = choice_field(FOODS, required=True)


class Dosed(_Tended):
    """Something was added to the water; `amount` in millilitres or grams as `unit` says."""

    what = text_field(60, 1, required=True)
    amount = number_field(0, 100_000)
    unit = choice_field(("ml", "g"))


class WaterChanged(_Tended):
    """So many litres were changed."""

    litres = number_field(0.1, 100_000, required=True)


class Serviced(_Tended):
    """A pump, lamp, heater or filter was set, cleaned, changed or failed."""

    what = text_field(120, 1, required=True)


class TankNoted(_Tended):
    """Something about a tank worth keeping."""

    text = text_field(1000, 1, required=True)


class Checked(Payload):
    """A look at a specimen. What was not looked at is left out.

    holds: it stays when gently moved. edge_closed: no open wound. open: fully extended today. ate: it took food.
    bitten: new bite marks. pest: what was seen, '' for none although it was looked for. slime: brown slime or rot.
    """

    holds = fields.Boolean(allow_none=True)
    edge_closed = fields.Boolean(allow_none=True)
    open = fields.Boolean(allow_none=True)
    ate = fields.Boolean(allow_none=True)
    new_tissue_mm = number_field(0, 500)
    pest_free = fields.Boolean(allow_none=True)
    bitten = fields.Boolean(allow_none=True)
    slime = fields.Boolean(allow_none=True)
    colour = choice_field(COLOURS)
    note = text_field(400)
    photo_id = id_field(allow_none=True)


class Dipped(Payload):
    """A dip: what, how strong as the label says, minutes, the water's temperature, what was seen and what fell off.

    `repeat`: whether it begins or continues a series that is repeated as eggs hatch.
    """

    dip = choice_field(DIPS, required=True)
    strength = text_field(80)
    minutes = number_field(0, 240)
    temp_c = number_field(10, 40)
    eggs_seen = fields.Boolean()
    fell_off = text_field(200)
    repeat = fields.Boolean()
    photo_id = id_field(allow_none=True)


class HandFed(Payload):
    """One specimen was fed by hand, and what it did with it."""

    food = choice_field(FOODS, required=True)
    response = choice_field(RESPONSES, required=True)
    note = text_field(400)


class PestFound(Payload):
    """A pest or disease, in a tank, perhaps on one specimen. `stops_sale`: of everything that shared the water."""

    tank_id = id_field(required=True)
    specimen_id = id_field(allow_none=True)
    pest = text_field(40, 1, required=True)
    stops_sale = fields.Boolean(required=True)
    photo_id = id_field(allow_none=True)
    note = text_field(400)


class PestLooked(Payload):
    """A later look: `clean` when none was found."""

    clean = fields.Boolean(required=True)
    tank_id = id_field(allow_none=True)
    note = text_field(400)


class PestTreated(Payload):
    """What was done against it."""

    treatment = text_field(200, 1, required=True)


class PestStop(Payload):
    """Sale of what is exposed is stopped, or goes on."""

    stops_sale = fields.Boolean(required=True)


class PestCleared(Payload):
    """It counts as gone from here."""

    note = text_field(400)


class PestBack(Payload):
    """It was seen again: the finding is open once more."""

    note = text_field(400)


class ShipmentSet(Payload):
    """A shipment: from whom, under which papers, when it was packed and opened. Only what is named changes.

    freight_cents: freight, papers and duties of all of it.
    """

    supplier = text_field(80)
    invoice = text_field(80)
    papers = text_field(120)
    expected_at = fields.AwareDateTime(format="iso", allow_none=True)
    packed_at = fields.AwareDateTime(format="iso", allow_none=True)
    opened_at = fields.AwareDateTime(format="iso", allow_none=True)
    box_temp_c = number_field(-5, 50)
    claim_h = number_field(0.5, 720)
    freight_cents = count_field(0, 10_000_000, allow_none=True)
    note = text_field(400)


class _Line(Payload):
    line = id_field(required=True)


class ShipmentLine(_Line):
    """A line of the order: the kind, its name as on the papers, how many, what they cost each, where they come from."""

    profile_key = text_field(60, 1, required=True)
    name = text_field(80, 1, required=True)
    as_on_papers = text_field(120)
    papers = text_field(120)
    source_code = choice_field(("", "W", "R", "D", "A", "C", "F", "U", "I", "O", "X"))
    origin = choice_field(("bought_in", "maricultured", "wild", "unknown"), required=True)
    count = count_field(1, 1000, required=True)
    cost_cents = count_field(0, 10_000_000, allow_none=True)


class LineDropped(_Line):
    """A line that is not coming."""


class BagMeasured(_Line):
    """A bag of this line as it was opened, and the tank that it goes into."""

    tank_id = id_field(required=True)
    bag_temp_c = number_field(0, 45)
    bag_salinity_ppt = number_field(5, 60)
    bag_ph = number_field(5, 10)
    bag_l = number_field(0.05, 200)
    ammonia_smell = fields.Boolean()


class LineArrived(_Line):
    """What was in it: alive and dead, with a picture of the dead. `specimens`: those taken into the stock."""

    alive = count_field(0, 1000, required=True)
    dead = count_field(0, 1000, required=True)
    photo_id = id_field(allow_none=True)
    specimens = fields.List(id_field(), load_default=list)
    note = text_field(400)


class DeadClaimed(Payload):
    """A claim made to the supplier for what arrived dead."""

    count = count_field(1, 10_000, required=True)
    note = text_field(400)


class ShipmentDone(Payload):
    """Everything of it is unpacked."""

    note = text_field(400)
