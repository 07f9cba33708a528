"""The sheets of a job workbook as data: every heading, what is read under it, and a note on it.

The reader, the blank workbook and the manual all follow these tables, so that a heading is
written down once. The items of the `job` sheet are in `estimator.sheets.facts`.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

SMALLEST_M = 1e-5
"""Thinnest thing with a size of its own; a coat is thinner, but is a layer of something."""
_MOST_ALIKE = 1e5
_MOST_MONEY = 1e9
_MOST_IN_A_ROW = 100.0
_MOST_POSITIONS = 1000.0
_MOST_IN_A_ROW_OF_FIXINGS = 12.0


class Reads(StrEnum):
    """What a cell under a heading is read as, and so what its value is in Python."""

    TEXT = "text"
    """Any text, as typed: str."""
    NAME = "name"
    """The name of a thing, spaces tidied: str."""
    CHOICE = "choice"
    """One of a closed list, in the list's own spelling: str."""
    COUNT = "count"
    """A whole number, zero or more: int."""
    NUMBER = "number"
    """A plain number without a unit: float."""
    MONEY = "money"
    """A plain number in the currency of the job: float."""
    QUANTITY = "quantity"
    """A number with a unit of the one kind the column names: float, SI."""
    SIZE = "size"
    """As quantity, but more than zero: float, SI."""
    SHARE = "share"
    """A percentage from 0 to 100: float, 0 to 1."""
    AMOUNT = "amount"
    """A number with a unit of one of several kinds: `estimator.core.units.Amount`."""
    LAYER = "layer amount"
    """As amount, or a gauge kept as text (its kind is then "gauge", its value NaN)."""
    GAUGE = "gauge"
    """A gauge with its system or a thickness, as text: "18 SWG", "1.2 mm"."""
    STOCK_SIZE = "stock size"
    """A sheet or a length as sold, "2000 x 1000 mm" or "6 m": tuple of floats, metres."""
    SCALE = "scale"
    """The scale of a model or drawing, "1:10": float, 10.0."""
    COMPASS = "compass"
    """A compass point or a bearing in degrees: float, radians clockwise from north."""
    FACT = "fact"
    """What the item beside it says; left as it stands in the cell."""
    DATE = "date"
    """A calendar date: datetime.date."""


@dataclass(frozen=True, slots=True)
class Column:
    """One heading of a sheet.

    Attributes:
        heading: As the blank workbook prints it, without its unit.
        reads: What a cell under it is read as.
        words: The note on the heading: what to type there.
        kinds: Keys of `estimator.core.units.KINDS` a quantity may have; one, unless it is an
            amount.
        unit: Unit the blank workbook puts in the heading; for gauges none.
        bare: Unit that a number means when neither heading nor cell says one; blank for none.
        choices: The closed list of a choice.
        meanings: What each choice stands for, in the same order, where its name does not say so.
        needed: Whether a row is of no use without it.
        unless: Fields that, when any is filled, make a needed cell unnecessary.
        at_least: Smallest number that makes sense, SI.
        at_most: Largest number that makes sense, SI; the kind of a quantity has a limit, too.
    """

    heading: str
    reads: Reads
    words: str = ""
    kinds: tuple[str, ...] = ()
    unit: str = ""
    bare: str = ""
    choices: tuple[str, ...] = ()
    meanings: tuple[str, ...] = ()
    needed: bool = False
    unless: tuple[str, ...] = ()
    at_least: float = -math.inf
    at_most: float = math.inf

    @property
    def field(self) -> str:
        """Return the key of its value in a row: the heading in lower snake case."""
        return field_of(self.heading)


@dataclass(frozen=True, slots=True)
class Form:
    """What one sheet of the workbook holds.

    Attributes:
        sheet: Name of the sheet.
        row: What one row of it is.
        columns: Its headings, in the order the blank workbook prints them.
        names: Field that says what a row is about, shown beside its problems.
        unique: Whether no two rows of one option may carry the same name.
    """

    sheet: str
    row: str
    columns: tuple[Column, ...]
    names: str
    unique: bool = False


def field_of(heading: str) -> str:
    """Return a heading in lower snake case: "Build-up " is "build_up"."""
    return "_".join(heading.lower().replace("-", " ").replace("_", " ").split())


def _text(heading: str, words: str = "", *, needed: bool = False) -> Column:
    return Column(heading, Reads.TEXT, words, needed=needed)


def _name(
    heading: str, words: str, *, needed: bool = False, unless: tuple[str, ...] = ()
) -> Column:
    return Column(heading, Reads.NAME, words, needed=needed, unless=unless)


def _choice(heading: str, words: str, choices: tuple[str, ...], *, needed: bool = False) -> Column:
    return Column(heading, Reads.CHOICE, words, choices=choices, needed=needed)


def _place(heading: str, words: str, *, needed: bool = False) -> Column:
    return Column(heading, Reads.QUANTITY, words, ("length",), "mm", needed=needed)


def _size(heading: str, words: str) -> Column:
    return Column(heading, Reads.SIZE, words, ("length",), "mm", at_least=SMALLEST_M)


def _turn(heading: str, words: str) -> Column:
    return Column(heading, Reads.QUANTITY, words, ("angle",), "deg", bare="deg")


def _money(
    heading: str, words: str, *, needed: bool = False, unless: tuple[str, ...] = ()
) -> Column:
    return Column(
        heading, Reads.MONEY, words, needed=needed, unless=unless, at_least=0.0, at_most=_MOST_MONEY
    )


def _hours(heading: str, words: str, *, needed: bool = False) -> Column:
    return Column(
        heading, Reads.QUANTITY, words, ("time",), "h", bare="h", needed=needed, at_least=0.0
    )


def _count(heading: str, words: str, *, needed: bool = False) -> Column:
    return Column(heading, Reads.COUNT, words, needed=needed, at_least=0.0, at_most=_MOST_ALIKE)


def _some(heading: str, words: str, at_most: float = _MOST_IN_A_ROW) -> Column:
    return Column(heading, Reads.COUNT, words, at_least=1.0, at_most=at_most)


def _percent(heading: str, words: str) -> Column:
    return Column(heading, Reads.QUANTITY, words, ("percent",), "%", at_least=0.0)


AXES = ("across", "up", "out")
FILE_UNITS = ("mm", "cm", "m", "in", "ft")
YES_NO = ("yes", "no")
WIND_AS = (
    "half tube", "5 sides", "6 sides", "8 sides", "10 sides", "12 sides", "16 sides", "18 sides",
    "lattice tower", "lattice tower of rounds", "round wires",
)  # fmt: skip
"""What a part may be like to the wind where its shape does not say it."""
SHAPES = (
    "sheet", "disc", "ring", "sector", "blade", "leaf", "outline", "box", "flat", "rod", "tube",
    "hollow", "section", "hoop", "formed", "cone", "sphere", "dome", "ellipsoid", "torus", "mesh",
    "measured", "run", "bought",
)  # fmt: skip
STOCK_FORMS = ("sheet", "roll", "board", "timber", "bar", "tube", "section")
LIMIT_KINDS: Mapping[str, str] = {
    "headroom": "length", "projection": "length", "kerb gap": "length", "hand lift": "mass",
    "door width": "length", "door height": "length", "van length": "length",
    "van width": "length", "van height": "length", "van payload": "mass",
}  # fmt: skip
"""What each limit is a limit of."""
LIMITS = tuple(LIMIT_KINDS)
READINGS = (
    "foil mass", "foil per m2", "water displaced", "shadow area front", "shadow area side",
    "shadow area top", "hang line across", "hang line up", "hang line out",
)  # fmt: skip

OPTION = _name("option", "Way of building this row belongs to; blank for every one of them")
NOTE = _text("note", "Anything you want to remember; never read as a number")
SOURCE = _text("source", "Who said so, and when")

JOB = (
    _name("item", "One of the listed facts about the job", needed=True),
    Column("value", Reads.FACT, "The fact, with its unit in the cell: 7.6 m", needed=True),
    SOURCE,
)

LIMITS_SHEET = (
    _choice("limit", "What may not be exceeded", LIMITS, needed=True),
    Column(
        "value",
        Reads.AMOUNT,
        "With its unit: 2.5 m, 25 kg",
        ("length", "mass"),
        needed=True,
        at_least=0.0,
    ),
    SOURCE,
    Column("date", Reads.DATE, "When it was said"),
)

ASSEMBLIES = (
    _name("assembly", "A thing that hangs, moves or is lifted as one", needed=True),
    _name("mounted on", "The assembly that carries its origin; blank for the building"),
    _place("across", "Origin, right along the wall, from the datum or the carrier's origin"),
    _place("up", "Origin, upwards"),
    _place("out", "Origin, from the wall towards the street"),
    _choice(
        "stands", "How it stands to the wall", ("flat to wall", "off wall", "projecting", "free")
    ),
    _choice("moves", "Whether it moves", ("fixed", "turns", "slides")),
    _choice("axis", "Axis it turns about or slides along, through its origin", AXES),
    Column(
        "from", Reads.AMOUNT, "First end position: an angle if it turns, a length if it slides",
        ("angle", "length"),
    ),
    Column("to", Reads.AMOUNT, "Last end position", ("angle", "length")),
    _some("positions", "In how many positions it is worked out", _MOST_POSITIONS),
    _name("carried by", "Bracket set or assembly that takes its load; wall if fixed straight on"),
    _name("lift unit", "Assemblies with the same name are lifted together"),
    _text("stage", "When it goes up"),
    _choice(
        "wind",
        "outline: united outline of its parts; parts: added up",
        ("outline", "parts", "none"),
    ),
    Column("coefficient", Reads.NUMBER, "Wind force coefficient somebody gave you", at_least=0.0,
           at_most=5.0),
    _name("same as", "An assembly whose parts this one repeats"),
    _choice("mirrored", "Whether the repeat is mirrored left to right", YES_NO),
    Column("stiffness", Reads.SIZE, "EI of a long body: 12 kNm2", ("stiffness",), "kNm2"),
    SOURCE,
)  # fmt: skip

PARTS = (
    _name("part", "A short mark used once: T15", needed=True),
    _text("name", "What it is"),
    _name("assembly", "The assembly it belongs to", needed=True),
    _count("count", "How many are alike; 0 parks the row", needed=True),
    _choice("shape", "Form it is worked out as", SHAPES, needed=True),
    _size("length", "Longest way, along the axis under `along`"),
    _size("width", "Across the length; the height of a box"),
    _size("depth", "Through the thing; the rise of a dome"),
    _size("diameter", "Over all"),
    _size("bore", "Inside diameter of a ring or a disc with a hole"),
    Column("end width", Reads.QUANTITY, "Width at the tip; 0 for a point", ("length",), "mm",
           at_least=0.0),
    Column("end diameter", Reads.QUANTITY, "Diameter at the far end; 0 for a point", ("length",),
           "mm", at_least=0.0),
    _size("wall", "Wall thickness of a tube or hollow section"),
    Column("angle", Reads.SIZE, "Angle a sector spans", ("angle",), "deg"),
    _text("section", "A listed section: SHS 60x60x4"),
    Column("kg per m", Reads.SIZE, "Mass of one metre", ("line_mass",), "kg/m", bare="kg/m"),
    _text("file", "File the outline or the mesh is in"),
    Column("scale", Reads.SCALE, "Scale of the model or the drawing: 1:10"),
    _choice("file unit", "Unit of length of the file, where the file does not say it", FILE_UNITS),
    _choice("model shows", "Which face of the skin the mesh is; outside when blank",
            ("outside", "inside", "middle")),
    _choice("along", "Axis its length runs along", AXES),
    _choice("faces", "Axis a flat or domed thing faces", AXES),
    Column("made of", Reads.NAME, "A material or a build-up", needed=True,
           unless=("mass_each", "kg_per_m")),
    Column("gauge", Reads.GAUGE, "With its system: 18 SWG, Code 5, 16 oz, 1.2 mm"),
    _text("finish", "Coats, joined by +: oil gilt + wax"),
    _place("across", "Middle of its envelope from the assembly's origin, to the right"),
    _place("up", "Upwards from the assembly's origin"),
    _place("out", "From the wall towards the street, from the assembly's origin"),
    _turn("turn", "About out; anticlockwise seen from the street"),
    _turn("tip", "About across; + leans the top out"),
    _turn("swing", "About up; + turns its front to the right"),
    _choice("set out", "How several of a row are set out: a row runs across unless it says up or "
            "out", ("row", "row up", "row out", "ring", "scattered")),
    _size("spread", "Length of the row, or diameter of the ring their middles lie on"),
    _turn("start", "Where the first of a ring stands; 0 to the right, anticlockwise"),
    Column("relief", Reads.NUMBER, "Skin area gained by hammering, same outline: 1.08",
           at_least=1.0, at_most=5.0),
    Column("cut away", Reads.SHARE, "Share of outline and mass lost from the same blank",
           ("percent",), "%"),
    _some("pieces", "Pieces it is made from", _MOST_ALIKE),
    _size("longest piece", "No piece may be longer, its laps included"),
    _name("forming", "How its sheet is formed: raised, sunk, spun, rolled; what that makes of its "
          "mass stands in `estimator tables forming`"),
    _name("joint", "How its pieces are joined: butt weld, lead welt; blank for what is usual"),
    _choice("in wind", "Whether wind reaches it", YES_NO),
    _choice("wind as", "What it is like to the wind, where its shape does not say: a half tube "
            "bulges the way it faces; it counts where the assembly's wind is parts", WIND_AS),
    _choice("get by", "Where it comes from", ("make", "buy", "rack")),
    Column("mass each", Reads.SIZE, "Mass of one, if known", ("mass",), "kg"),
    _text("contents", "What fills it"),
    _choice("confidence", "How sure its figures are", ("guess", "drawn", "quoted", "weighed")),
    _money("price each", "Price of one, if bought"),
    _choice("roll way", "Side of the blank that must lie along the roll",
            ("length", "width", "any")),
)  # fmt: skip

BUILD_UPS = (
    _name("build-up", "Name used under `made of`", needed=True),
    _text("layer", "What the layer is", needed=True),
    _name("material", "What it is made of", needed=True),
    _choice("over", "What it covers or fills",
            ("one face", "both faces", "whole outside", "solid", "length", "each"), needed=True),
    Column("amount", Reads.LAYER, "With its unit: 2.24 mm, 18 SWG, 0.3 kg/m2, 60 %, 0.6 kg/m, 2 kg",
           ("length", "surface_mass", "line_mass", "mass", "percent"), needed=True),
    Column("covers", Reads.SHARE, "Share of that area it covers", ("percent",), "%"),
    _percent("laps", "Extra for laps and welts; stays on and weighs"),
    _percent("waste", "Extra to buy that does not stay on"),
    _text("finish", "Coats on this layer"),
)  # fmt: skip

MAQUETTE = (
    _name("part", "Part the reading is for", needed=True),
    Column("scale", Reads.SCALE, "Scale of the model: 1:10; blank for that of the part"),
    _choice(
        "reading",
        "What was read. Foil mass: foil or paper laid over the whole skin and weighed; foil per "
        "m2: the same foil. Water displaced: its volume, its mass, or the weight the model loses "
        "in water. Shadow area: traced as the model stands on the wall, seen from the street, "
        "from its end or from above. Hang line: where the plumb line from the balance point lies "
        "- across: from the left end, up: from the foot, out: from the back. More rows of one "
        "reading are repeats",
        READINGS,
        needed=True,
    ),
    Column("value", Reads.AMOUNT, "With its unit: 41 g, 34 g/m2, 0.8 L, 120 cm2, 90 mm",
           ("mass", "surface_mass", "volume", "area", "length"), needed=True, at_least=0.0),
    Column("spread", Reads.AMOUNT, "How far repeated readings lay apart; blank if each has a row",
           ("percent", "mass", "surface_mass", "volume", "area", "length"), at_least=0.0),
)  # fmt: skip

BRACKETS = (
    _name("bracket", "A short mark used once: B1", needed=True),
    _name("set", "Brackets that carry the same things together", needed=True),
    _place("across", "Middle of its wall plate, to the right of the datum", needed=True),
    _place("up", "Middle of its wall plate, above the datum", needed=True),
    _size("reach", "Length of its arm, from the wall face"),
    _place("bears at", "Where the load bears on the arm, from the wall face"),
    _text("section", "Arm: SHS 60x60x4, HFSHS for hot-finished; or trial, trial RHS"),
    _text("grade", "Grade of the metal: S275"),
    _choice("holds", "How it holds what it carries", ("welded", "pin", "hook", "slide", "rests")),
    _place("stay from", "Root of a stay on the wall, above the arm (- below)"),
    _place("stay to", "Where the stay meets the arm, from the wall face; its end when blank"),
    _text("stay section", "Section of the stay: round 16, SHS 40x40x3; rods and flats only pull"),
    _size("plate width", "Wall plate, along the wall"),
    _size("plate height", "Wall plate, upwards"),
    _size("plate thickness", "Wall plate, thickness"),
    _some("fixings across", "Fixings in one row", _MOST_IN_A_ROW_OF_FIXINGS),
    _some("fixings up", "Rows of fixings", _MOST_IN_A_ROW_OF_FIXINGS),
    _size("pitch across", "Between fixings in a row"),
    _size("pitch up", "Between rows of fixings"),
    _size("fixing diameter", "Trial size, for pricing and for the engineer to choose from"),
    _text("stage", "When it goes up"),
)

MOVING = (
    _name("assembly", "The assembly that moves", needed=True),
    Column("drive torque", Reads.SIZE, "Torque the drive has at the axle", ("moment",), "Nm"),
    Column("drive weight", Reads.SIZE, "Weight that drives it", ("mass",), "kg"),
    _size("drum", "Diameter of the drum its line winds on"),
    _some("falls", "Falls of line that carry the drive weight"),
    _name("counterweight part", "Part that balances it"),
    _size("radius", "From the axle to the middle of the counterweight"),
    _turn("blade twist", "Angle a hammered blade is out of flat"),
    Column("friction", Reads.AMOUNT, "Torque, or a share of the drive torque",
           ("moment", "percent"), at_least=0.0),
    _turn("stops from", "Of what hangs free: the first angle, from as drawn, at which a stop holds "
          "it"),
    _turn("stops to", "The last such angle"),
    _size("stop arm", "From the axle to where a stop bears, square to the way it bears"),
)  # fmt: skip

EXTRA_LOADS = (
    _name("load", "What it is", needed=True),
    _name("assembly", "What it acts on", needed=True),
    Column("force", Reads.SIZE, "Characteristic force; blank for trapped water: all it can hold",
           ("force",), "N", needed=True, unless=("mass", "cause")),
    Column("mass", Reads.SIZE, "Or the mass that bears on it", ("mass",), "kg"),
    _choice("direction", "Way the force acts; down when blank",
            ("down", "up", "in", "out", "left", "right")),
    _place("across", "Where it acts, from the assembly's origin"),
    _place("up", "Where it acts, upwards"),
    _place("out", "Where it acts, from the wall towards the street"),
    _text("where", "Where it acts, in words"),
    _choice("cause", "What causes it", ("person", "snow", "water trapped", "ice", "mechanism")),
    _text("together with", "Loads of the same cause it may act with: E1, E2; or none. Blank in all "
          "of a cause: all together. Different causes go by the combination rule"),
    SOURCE,
)  # fmt: skip

ANSWERS = (
    _text(
        "about",
        "What was asked: pressure, coefficient, zone not to fix in, a fact of the job "
        "by its heading; anything else is kept in the register only",
        needed=True,
    ),
    _name("which", "The assembly a coefficient is of, or what is in a zone; else blank"),
    Column("answer", Reads.FACT, "What was said, with its unit in the cell", needed=True),
    _text("who", "Who said it"),
    Column("date", Reads.DATE, "When; of two answers about one thing the later counts"),
)

STOCK = (
    _name("material", "As under `made of`", needed=True),
    _choice("form", "How it is sold", STOCK_FORMS, needed=True),
    Column("gauge", Reads.GAUGE, "Gauge or thickness"),
    _text("section", "Section: flat 50x6"),
    Column(
        "size",
        Reads.STOCK_SIZE,
        "As sold: 2000 x 1000 mm, 6 m",
        ("length",),
        needed=True,
        at_least=SMALLEST_M,
    ),
    _money("price", "Price of one", needed=True),
    _choice("per", "What the price is for; a piece when blank", ("piece", "kg", "m")),
    Column("priced on", Reads.DATE, "When the merchant said so"),
    _text("supplier note", "Which merchant, smallest order"),
)

RACK = (
    _name("material", "As under `made of`", needed=True),
    _choice("form", "What it is", STOCK_FORMS, needed=True),
    Column("gauge", Reads.GAUGE, "Gauge or thickness"),
    _text("section", "Section: flat 50x6"),
    Column("size", Reads.STOCK_SIZE, "What is left: 1200 x 600 mm, 2.4 m", ("length",),
           needed=True, at_least=SMALLEST_M),
    _count("count", "How many are alike", needed=True),
)  # fmt: skip

HOURS = (
    _name("activity", "A piece of work", needed=True),
    _name("assembly", "What it is for"),
    _some("people", "How many work on it at once; 1 when blank"),
    _hours("low", "Hours each, if all goes well"),
    _hours("likely", "Hours each, most likely", needed=True),
    _hours("high", "Hours each, if it goes badly"),
    _name("rate", "Name on the `rates` sheet", needed=True),
    _text("after", "Activity that must be done first"),
)


def _priced(per: Column) -> tuple[Column, ...]:
    return (
        _name("name", "What it is", needed=True),
        _text("category", "Kind of cost, for the sums"),
        _money("low", "If all goes well"),
        _money("likely", "Most likely", needed=True, unless=("amount",)),
        _money("high", "If it goes badly"),
        _money("amount", "Or one figure that is known"),
        per,
        Column("date", Reads.DATE, "When the figure was given"),
        SOURCE,
    )


RATES = _priced(_choice("per", "What it is for; an hour when blank", ("hour", "day", "week")))
COSTS = _priced(_text("per", "What it is for; the job when blank"))

WEIGHED = (
    _name(
        "assembly",
        "What was weighed: an assembly, without what is mounted on it",
        needed=True,
        unless=("lift_unit", "part"),
    ),
    _name("lift unit", "or a lift unit"),
    _name("part", "or a part; where several are alike, the reading is of one"),
    Column("mass", Reads.SIZE, "Scale reading", ("mass",), "kg", needed=True),
    Column("date", Reads.DATE, "When it was weighed"),
    _text("scale", "Which scale, and when it was last checked"),
)

TIMESHEET = (
    _name("activity", "As on the `hours` sheet", needed=True),
    _hours("hours", "Hours used", needed=True),
    Column("date", Reads.DATE, "Which day", needed=True),
)

_SHEETS = (
    Form("job", "a fact about the job", JOB, "item", unique=True),
    Form("limits", "a limit somebody gave", LIMITS_SHEET, "limit"),
    Form("assemblies", "a thing that hangs, moves or is lifted as one", ASSEMBLIES, "assembly",
         unique=True),
    Form("parts", "a part", PARTS, "part", unique=True),
    Form("build-ups", "a layer", BUILD_UPS, "build_up"),
    Form("maquette", "a reading on a model", MAQUETTE, "part"),
    Form("brackets", "a bracket", BRACKETS, "bracket", unique=True),
    Form("moving", "the drive of a thing that moves", MOVING, "assembly", unique=True),
    Form("extra loads", "a load from elsewhere", EXTRA_LOADS, "load"),
    Form("answers", "what the engineer said", ANSWERS, "about"),
    Form("stock", "a size a merchant sells", STOCK, "material"),
    Form("rack", "a piece already owned", RACK, "material"),
    Form("hours", "an activity", HOURS, "activity"),
    Form("rates", "a rate", RATES, "name", unique=True),
    Form("costs", "another cost", COSTS, "name"),
    Form("quotes", "a quote received", COSTS, "name"),
    Form("weighed", "a scale reading", WEIGHED, "assembly"),
    Form("timesheet", "hours used", TIMESHEET, "activity"),
)  # fmt: skip

FORMS: Mapping[str, Form] = {
    form.sheet: Form(form.sheet, form.row, (OPTION, *form.columns, NOTE), form.names, form.unique)
    for form in _SHEETS
}
"""Every sheet by name, in the order of the contract; each with `option` and `note`."""

LISTS = "lists"
"""Sheet of the blank workbook that holds its pick lists; never read."""
