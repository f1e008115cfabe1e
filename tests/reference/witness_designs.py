# SPDX-License-Identifier: MIT
"""Witnesses of values of whole designs. The inputs stand here beside the words of the design that they are taken from;
a design that no longer holds those words makes its rows fail, so that no witness speaks of another design.
"""
import collections
import csv
import functools
import math
import os

from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq
from shapely.geometry import Polygon

import witness_ground as ground
import witness_water as water
from witness_row import G, number_of

FOLDER = "tests/designs/worked"
Known = collections.namedtuple("Known", "design words libraries value")
Bound = collections.namedtuple("Bound", "libraries work")

FT, INCH, GPH = number_of("1 ft"), number_of("1 in"), number_of("1 gal/h")
C_FEET = math.sqrt(0.3048)  # from ft^0.5/s
NU = functools.partial(water.viscosity, 288.15)  # water of 15 C, where a design says nothing of it
KNOWN = {}


def feet(*corners):
    return Polygon([(x * FT, y * FT) for x, y in corners])


def know(design, words, libraries, **values):
    """values: `thing__quantity`, a space in the thing written as one _"""
    for name, value in values.items():
        thing, quantity = name.split("__")
        KNOWN[f"{design}.tsv", f"{thing.replace('_', ' ')}.{quantity}"] = Known(design, words, libraries, value)


def witness_of(path, what):
    known = KNOWN.get((os.path.basename(path), what))
    return known and Bound(known.libraries, functools.partial(speak, known))


def speak(known, root):
    with open(os.path.join(root, FOLDER, f"{known.design}.lua"), encoding="utf-8") as file:
        design = " ".join(file.read().split())
    for words in known.words:
        if words not in design:
            raise ValueError(f"{known.design}.lua no longer says: {words}")
    return known.value()


ELBOW = feet((0, 0), (12, 0), (12, 6), (6, 6), (6, 10), (0, 10))
RAGGED = feet((0, 2), (3, 0), (7, 1), (9, 0), (12, 3), (11, 7), (7, 6), (4, 8), (1, 6))


def dug(figure, start, end):
    return quad(lambda depth: figure.buffer(-depth, **ground.MITRE).area, start * FT, end * FT)[0]


know("ground", ['basin "oval" { purpose = "display", outline = ellipse { "12 ft", "8 ft" }'], ("scipy",),
     oval__perimeter=lambda: ground.ellipse_perimeter(12 * FT, 8 * FT))
ELBOW_WORDS = ['rim = "0 ft", water_level = "-1 ft", depth = "1 ft", side_slope = "1H:1V"',
               '{ { "0 ft", "0 ft" }, { "12 ft", "0 ft" }, { "12 ft", "6 ft" }, { "6 ft", "6 ft" }, '
               '{ "6 ft", "10 ft" }, { "0 ft", "10 ft" } }']
know("ground", ELBOW_WORDS, ("shapely",),
     elbow__rim_area=lambda: ELBOW.area,
     elbow__perimeter=lambda: ELBOW.length,
     elbow__water_area=lambda: ELBOW.buffer(-FT, **ground.MITRE).area,
     elbow__bed_area=lambda: ELBOW.buffer(-2 * FT, **ground.MITRE).area)
know("ground", ELBOW_WORDS, ("shapely", "scipy"),
     elbow__volume_to_rim=lambda: dug(ELBOW, 0, 1),
     elbow__gross_volume=lambda: dug(ELBOW, 1, 2))
know("ground", ['{ "0 ft", "2 ft" }, { "3 ft", "0 ft" }, { "7 ft", "1 ft" }, { "9 ft", "0 ft" }, { "12 ft", "3 ft" }, '
                '{ "11 ft", "7 ft" }, { "7 ft", "6 ft" }, { "4 ft", "8 ft" }, { "1 ft", "6 ft" }'], ("shapely",),
     ragged__rim_area=lambda: RAGGED.area,
     ragged__perimeter=lambda: RAGGED.length)


def lip(name, fall=0.5 * INCH):
    """12 in of thin edge, half an inch out of level, 36 gal/min."""
    return water.tilted_lip(12 * INCH, fall, 3.33 * C_FEET, 2160 * GPH)[name]


def half(name, fall=2 * INCH):
    """6 in left of 12 in of broad stone, 2 in out of level, 1,000 gal/h, at the highest coefficient."""
    return water.tilted_lip(6 * INCH, fall, 3.33 * C_FEET, 1000 * GPH)[name]


def allowance(of):
    """What a lip may be out of level for 30 % more than its share at the low end."""
    return brentq(lambda fall: of("local", fall) - 0.30, 1e-4, 0.02)


know("faults", ['lip = "thin edge", lip_width = "12 in", effect = "sheet"', 'out_of_level = "1/2 in"',
                'measured = { flow = "2,160 gal/h", with = "bucket" }'], ("scipy",),
     lip__dry_share=lambda: lip("dry_share"),
     lip__shifted_share=lambda: lip("shifted"),
     lip__local_excess=lambda: lip("local"),
     lip__level_allowance=lambda: allowance(lip))
know("faults", ['measured = { flow_in = "1,000 gal/h" } } spill "half"',
                'lip = "broad stone", lip_width = "12 in", blocked = "50 %"', 'out_of_level = "2 in"'], ("scipy",),
     half__dry_share=lambda: half("dry_share"),
     half__shifted_share=lambda: half("shifted"),
     half__local_excess=lambda: half("local"),
     half__level_allowance=lambda: allowance(half))


def bed(size=0.75 * INCH, porosity=0.4):
    return {"stone_size": size, "porosity": porosity, "viscosity": NU()}


know("faults", ['gravel_size = "3/4 in"', 'width = "12 in", depth = "6 in", lined = "yes", returns_to = "pool", '
                'path = "4 ft 6 in", fall = "3 in"'], ("fluids", "scipy", "iapws"),
     bowl__ring_flow=lambda: 2 * water.seepage(3 / 54, bed()) * 72 * INCH**2)
know("faults", ['gravel_size = "3/4 in"',
                'ring = { { starts = "0 ft", ends = "12 ft", width = "12 in", depth = "6 in", lined = "yes", '
                'returns_to = "corner" } }'], ("fluids", "scipy", "iapws"),
     leafy__ring_flow=lambda: water.unconfined({**bed(), "width": FT, "upstream": FT / 2, "downstream": 0,
                                                "length": 12 * FT}))


def running(flow, width, slope, n):
    """Normal depth of a channel with upright sides."""
    return water.normal_depth({"flow": flow * GPH, "width": width * INCH, "side": 0, "slope": slope, "n": n})


def climb():
    depth = running(1000, 12, 1 / 20, 0.02)
    return (1000 * GPH / (12 * INCH * depth)) ** 2 / (2 * G)


know("faults", ['length = "10 ft", width = "12 in", fall = "6 in", roughness = 0.04, edge = "8 in", '
                'measured = { flow = "1,000 gal/h" }'], ("fluids", "scipy"),
     run__climb=climb,
     run__depth_high=lambda: running(1000, 12, 1 / 20, 0.08),
     run__live_volume=lambda: running(1000, 12, 1 / 20, 0.04) * 12 * INCH * 10 * FT)
know("more", ['measured = { flow = "3,000 gal/h" }', 'channel "brook" { into = "catch", start = "40 in", '
              'length = "20 ft", width = "18 in", fall = "12 in", roughness = 0.05'], ("fluids", "scipy"),
     brook__depth=lambda: running(3000, 18, 1 / 20, 0.05),
     brook__depth_high=lambda: running(3000, 18, 1 / 20, 0.10))


def line_loss(flow, length, minor):
    """Of 1 1/2 in plastic pipe, 1.610 in within, in m for a flow in m3/s."""
    return water.head_loss(flow, 1.610 * INCH, length * FT, 0.0015e-3, minor, NU())


know("more", ['measured = { flow = "500 gal/h", static_head = "4 ft" }', 'pipe "one line" { from = "one", to = "bowl", '
              'size = "1 1/2 in", length = "40 ft", fittings = { { type = "elbow 90", count = 2 } }'],
     ("fluids", "iapws"),
     one_line__head_loss=lambda: line_loss(500 * GPH, 40, 2 * 0.9))


def pump_flow():
    curve = PchipInterpolator([q * GPH for q in (0, 800, 1600, 2100)], [h * FT for h in (14, 11.5, 6.5, 0)])
    # three elbows of 0.9, the way in 0.5, the way out 1
    return brentq(lambda q: float(curve(q)) - 46 * INCH - line_loss(q, 36, 4.2), 1000 * GPH, 2100 * GPH, xtol=1e-12)


def pump_head():
    return 46 * INCH + line_loss(pump_flow(), 36, 4.2)


know("water", ['curve = { { "0 gal/h", "14 ft" }, { "800 gal/h", "11 1/2 ft" }, { "1,600 gal/h", "6 1/2 ft" }, '
               '{ "2,100 gal/h", "0 ft" } }', 'size = "1 1/2 in", length = "36 ft", fittings = { { type = "elbow 90", '
               'count = 3 } }, outlet = "above water", outlet_at = "46 in"'], ("fluids", "scipy", "iapws"),
     pump__flow=pump_flow,
     pump__head=pump_head)


def stepped():
    def area(height):
        back = 0.5 * height + (2 * FT if height > 2 * FT else 0)
        return (10 * FT + 2 * back) * (6 * FT + 2 * back)

    return quad(area, 0, 4 * FT, points=[2 * FT])[0]


know("liners", ['basin "block" { purpose = "display", outline = rectangle { "10 ft", "6 ft" }', 'depth = "39 in"',
                'below = "6 in", slope = "0.5H:1V", benches = { { up = "2 ft", width = "2 ft" } }'], ("scipy",),
     stepped__bank_volume=stepped)

PLANE = [(x * FT, y * FT) for x, y in ((-40, -40), (41, -39), (38, 40), (-39, 42))]  # no four on a circle


POOL = feet((-5, -3), (5, -3), (5, 3), (-5, 3))


def surveyed(name):
    """Places and heights of a survey in feet, its columns by their headings."""
    with open(os.path.join(os.path.dirname(__file__), "..", "designs", "worked", name), encoding="utf-8") as file:
        rows = list(csv.reader(line for line in file if line.strip() and not line.startswith("#")))
    headings = [heading.split(" ")[0].lower() for heading in rows[0]]
    east, north, height = ([float(row[headings.index(heading)]) * FT for row in rows[1:]]
                           for heading in ("easting", "northing", "elevation"))
    return list(zip(east, north)), height


def pit():
    return ground.cut(PLANE, [0.1 * y for _, y in PLANE], POOL, -4 * FT, 1)


def surveyed_pit():
    return ground.cut(*surveyed("survey.csv"), POOL, -4 * FT, 1)


def pit_top():
    """Sides at 1:1 from 4 ft down meet a plane that rises by 0.1 y where |x| = 9 + 0.1 y and |y| = 7 + 0.1 y."""
    low, high = -7 / 1.1, 7 / 0.9
    return feet((-9 - 0.1 * low, low), (9 + 0.1 * low, low), (9 + 0.1 * high, high), (-9 - 0.1 * high, high)).area


PIT_WORDS = ['outline = polygon { { "-5 ft", "-3 ft" }, { "5 ft", "-3 ft" }, { "5 ft", "3 ft" }, { "-5 ft", "3 ft" } }',
             'water_level = "-6 in", depth = "3 ft"', 'beyond = "0 in", below = "6 in", slope = "1H:1V"']
know("slope", ['ground = "0 ft", ground_slope = "10 %"', *PIT_WORDS], ("shapely", "scipy"), pit__bank_volume=pit)
know("slope", ['ground = "0 ft", ground_slope = "10 %"', *PIT_WORDS], ("shapely",), pit__top_area=pit_top)
know("survey", ['survey = "survey.csv"', *PIT_WORDS], ("shapely", "scipy"), pit__bank_volume=surveyed_pit)
know("survey", ['survey = "survey.csv"', *PIT_WORDS], ("shapely",), pit__top_area=pit_top)

ELL = feet((-5, -4), (7, -4), (7, 2), (1, 2), (1, 6), (-5, 6))


def ell(side):
    return ground.cut(*surveyed("uneven.csv"), ELL, -3 * FT, side)


know("uneven", ['survey = "uneven.csv"', 'water_level = "-1 ft", depth = "18 in"',
                '{ { "-5 ft", "-4 ft" }, { "7 ft", "-4 ft" }, { "7 ft", "2 ft" }, { "1 ft", "2 ft" }, '
                '{ "1 ft", "6 ft" }, { "-5 ft", "6 ft" } }'], ("shapely", "scipy"),
     upright__bank_volume=lambda: ell(0),
     one_to_one__bank_volume=lambda: ell(1),
     flatter__bank_volume=lambda: ell(1.5))
