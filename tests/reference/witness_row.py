# SPDX-License-Identifier: MIT
"""One row of a table as the witnesses read it. Units are scipy's constants: not the engine's, nor reference_test's."""
import collections
import re

from scipy import constants as c

GALLON = c.gallon
FT2, FT3 = c.foot**2, c.foot**3
UNITS = {
    "m": 1, "mm": c.milli, "in": c.inch, "ft": c.foot, "m2": 1, "ft2": FT2, "m3": 1, "ft3": FT3, "yd3": c.yard**3,
    "gal": GALLON, "m3/s": 1, "L/s": c.liter, "L/min": c.liter / c.minute, "cfs": FT3, "gpm": GALLON / c.minute,
    "gal/h": GALLON / c.hour, "m2/s": 1, "ft2/s": FT2, "gpm/ft": GALLON / c.minute / c.foot, "m/s": 1,
    "gal/h/in": GALLON / c.hour / c.inch, "ft/s": c.foot, "Pa": 1, "mPas": c.milli, "kg/m3": 1, "W": 1,
    "hp": 550 * c.foot * c.lbf, "deg": c.degree, "%": 0.01, "mmHg": c.mmHg, "ft/(gal/min)": c.foot / GALLON * c.minute,
}
DEGREES = {"C": "Celsius", "F": "Fahrenheit"}
G = c.g

Witness = collections.namedtuple("Witness", "libraries work")


class PassedOver(Exception):
    """The function is known and this row of it is not."""


def number_of(text, offset=True):
    """ "1.5:ft", "1.5 ft" or "0.4" in SI units."""
    match = re.fullmatch(r"([-+0-9.,eE]+)(?:[: ](.+))?", text)
    if not match:
        raise ValueError(f"no amount: {text}")
    number, unit = float(match.group(1).replace(",", "")), match.group(2)
    if unit in DEGREES:
        return c.convert_temperature(number, DEGREES[unit], "Kelvin") if offset else number
    return number * UNITS[unit] if unit else number


class Row:
    def __init__(self, inputs, mark, source):
        self.texts = dict(word.split("=", 1) for word in inputs.split(" "))
        self.mark, self.source = mark, source

    def __getitem__(self, name):
        return number_of(self.texts[name])

    def word(self, name):
        return self.texts[name]

    def list(self, name):
        """ "ft|1,2,3" """
        unit, values = self.texts[name].split("|")
        return [float(value) * UNITS[unit] for value in values.split(",")]

    def pairs(self, name):
        """ "ft;ft|0/0,1/0" """
        units, values = self.texts[name].split("|")
        across, up = (UNITS[unit] for unit in units.split(";"))
        return [(float(x) * across, float(y) * up) for x, y in (pair.split("/") for pair in values.split(","))]
