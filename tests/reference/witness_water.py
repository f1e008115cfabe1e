# SPDX-License-Identifier: MIT
"""Witnesses of water: fluids (friction, beds, open flow), iapws (properties), scipy (curves, integrals, roots)."""
import functools
import math
import re

import fluids
import iapws
from iapws.iapws97 import _PSat_T
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from witness_row import G, GALLON, PassedOver, Witness

ATMOSPHERE = 0.101325  # MPa


@functools.lru_cache(maxsize=None)
def water(kelvin):
    return iapws.IAPWS95(T=kelvin, P=ATMOSPHERE)


def viscosity(kelvin):
    return water(kelvin).mu / water(kelvin).rho


def friction_factor(reynolds, roughness):
    if 2000 < reynolds < 4000:
        raise PassedOver  # the cubic between laminar and turbulent is nobody's but its author's
    return 64 / reynolds if reynolds <= 2000 else fluids.friction.Colebrook(reynolds, roughness)


def head_loss(flow, bore, length, roughness, minor, nu):
    speed = flow / (math.pi / 4 * bore**2)
    f = friction_factor(fluids.Reynolds(V=speed, D=bore, nu=nu), roughness / bore)
    return fluids.head_from_K(K=minor + fluids.K_from_f(fd=f, L=length, D=bore), V=speed, g=G)


def row_head_loss(r, nu):
    return head_loss(r["flow"], r["bore"], r["length"], r["roughness"], r["minor"], nu)


def reynolds(r):
    return fluids.Reynolds(V=r["flow"] / (math.pi / 4 * r["bore"] ** 2), D=r["bore"], nu=r["viscosity"])


def ergun(speed, size, porosity, nu):
    """Head lost over each length."""
    return fluids.packed_bed.Ergun(dp=size, voidage=porosity, vs=speed, rho=1000, mu=1000 * nu, L=1) / (1000 * G)


def seepage(gradient, r):
    bed = (r["stone_size"], r["porosity"], r["viscosity"])
    return brentq(lambda speed: ergun(speed, *bed) - gradient, 1e-12, 10, xtol=1e-16, rtol=1e-14)


def bed_flow(r):
    return seepage(r["gradient"], r) * r["width"] * r["depth"]


def unconfined(r):
    bed = (r["stone_size"], r["porosity"], r["viscosity"])

    def path(flow):
        return quad(lambda depth: 1 / ergun(flow / r["width"] / depth, *bed), r["downstream"], r["upstream"])[0]

    return brentq(lambda flow: path(flow) - r["length"], 1e-6, 1, xtol=1e-15, rtol=1e-12)


def curve(r):
    flows, heads = zip(*r.pairs("points"))
    law, speed = PchipInterpolator(flows, heads), r["speed"]
    return (lambda flow: float(law(flow / speed)) * speed**2), law, speed, flows[-1] * speed


def slope(r):
    _, law, speed, _ = curve(r)
    return float(law.derivative()(r["flow"] / speed)) * speed


def duty(r):
    head, _, _, last = curve(r)

    def system(flow):
        return r["static"] + r["per_gpm2"] * (flow / GALLON * 60) ** 2

    flow = brentq(lambda q: head(q) - system(q), 0, last, xtol=1e-15)
    return flow, system(flow)


def shaft_power(r):
    return water(293.15).rho * G * r["flow"] * r["head"] / r["efficiency"]


FRANCIS = {"thin_edge": 3.33, "notch": 3.33, "rounded": 3.087}  # ft^0.5/s, as the rows name them


def lip_law(r):
    """Flow over a lip at a head; C is in feet, and the source of a row says which where it is not the lip's own."""
    lip, said = r.word("lip"), re.search(r"\bC (\d\.\d+)", r.source)
    if not said and lip not in FRANCIS:
        raise PassedOver  # a V among them: fluids 1.0 gives a third more than the tables of that law
    c = (float(said.group(1)) if said else FRANCIS[lip]) * math.sqrt(0.3048)
    narrower = 0.2 if lip == "notch" else 0
    return lambda head: c * (r["width"] - narrower * head) * head**1.5


def lip_head(r):
    law = lip_law(r)
    return brentq(lambda head: law(head) - r["flow"], 1e-6, 1, xtol=1e-14)


def section(r, depth):
    """Area, wetted perimeter, width of the surface."""
    width, side = r["width"], r["side"]
    return (width + side * depth) * depth, width + 2 * depth * math.hypot(1, side), width + 2 * side * depth


def manning(r, depth):
    area, wetted, _ = section(r, depth)
    return area * fluids.open_flow.V_Manning(Rh=area / wetted, S=r["slope"], n=r["n"])


def normal_depth(r):
    return brentq(lambda depth: manning(r, depth) - r["flow"], 1e-6, 50, xtol=1e-13)


def normal_speed(r):
    return r["flow"] / section(r, normal_depth(r))[0]


def critical_depth(r):
    def excess(depth):
        area, _, surface = section(r, depth)
        return fluids.Froude(V=r["flow"] / area, L=area / surface, g=G) - 1

    return brentq(excess, 1e-4, 50, xtol=1e-13)


def nappe_depth(r):
    return brentq(lambda depth: fluids.Froude(V=r["q"] / depth, L=depth, g=G) - 1, 1e-6, 50, xtol=1e-13)


def over_edge(level, c, edge, start, end):
    """Integral of C (level - edge(x))^1.5 between two places."""
    return quad(lambda x: c * max(0.0, level - edge(x)) ** 1.5, start, end, limit=400, epsabs=0, epsrel=1e-10)[0]


def round_rim(r):
    """Level, its wet half angle, and the flow through an angle either side of the lowest point."""
    radius, high, c = r["around"] / (2 * math.pi), r["tilt"], r["c"]

    def edge(angle):
        return -high * math.cos(angle)

    def half_wet(level):
        return math.acos(max(-1.0, min(1.0, -level / high)))

    def flow(level, angle):
        return 2 * radius * over_edge(level, c, edge, 0, min(angle, half_wet(level)))

    level = brentq(lambda h: flow(h, math.pi) - r["flow"], -high + 1e-7, high + 0.3, xtol=1e-13)
    return level, half_wet(level) / math.pi, flow(level, math.pi / 4) / r["flow"]


def tilted_lip(width, fall, c, flow):
    """Head at the low end, the dry share, the share of the flow moved, the excess at the low end."""

    def edge(x):
        return fall * x / width

    def wet(head):
        return min(width, width * head / fall)

    head = brentq(lambda h: over_edge(h, c, edge, 0, wet(h)) - flow, 1e-6, fall + 0.5, xtol=1e-14)
    even, end = flow / width, wet(head)
    same = width * (head - (even / c) ** (2 / 3)) / fall  # where as much goes over as on a level lip
    moved = over_edge(head, c, edge, 0, same) - even * same
    return {"head_low": head, "dry_share": 1 - end / width, "shifted": moved / flow, "local": c * head**1.5 / even - 1}


def tilt(name):
    return Witness(("scipy",), lambda r: tilted_lip(r["width"], r["fall"], r["c"], r["flow"])[name])


def vapour_pressure(r):
    if r.mark != "computed":
        raise PassedOver  # the rows seen are values of a fitted formula, nearer to it than it is to steam tables
    return _PSat_T(r["temperature"]) * 1e6


def latent_heat(r):
    dry, wet = (iapws.IAPWS97(T=r["temperature"], x=x).h for x in (1, 0))
    return (dry - wet) * 1e3


def by(*libraries):
    return lambda work: Witness(libraries, work)


WITNESSES = {
    "water_density": by("iapws")(lambda r: water(r["temperature"]).rho),
    "water_dynamic_viscosity": by("iapws")(lambda r: water(r["temperature"]).mu),
    "water_kinematic_viscosity": by("iapws")(lambda r: viscosity(r["temperature"])),
    "evaporation_vapour_pressure": by("iapws")(vapour_pressure),
    "evaporation_latent_heat": by("iapws")(latent_heat),
    "pump_shaft_power": by("iapws")(shaft_power),
    "pipe_friction_factor": by("fluids")(lambda r: friction_factor(r["reynolds"], r["relative_roughness"])),
    "pipe_reynolds": by("fluids")(reynolds),
    "pipe_minor_loss": by("fluids")(lambda r: fluids.head_from_K(K=r["k"], V=r["velocity"], g=G)),
    "pipe_head_loss": by("fluids")(lambda r: row_head_loss(r, r["viscosity"])),
    "pipe_head_loss.water": by("fluids", "iapws")(lambda r: row_head_loss(r, viscosity(r["temperature"]))),
    "gravel_gradient": by("fluids")(lambda r: ergun(r["speed"], r["stone_size"], r["porosity"], r["viscosity"])),
    "gravel_flow": by("fluids", "scipy")(bed_flow),
    "gravel_unconfined_flow": by("fluids", "scipy")(unconfined),
    "pump_head": by("scipy")(lambda r: curve(r)[0](r["flow"])),
    "pump_head_slope": by("scipy")(slope),
    "pump_operating_point.flow": by("scipy")(lambda r: duty(r)[0]),
    "pump_operating_point.head": by("scipy")(lambda r: duty(r)[1]),
    "weir_head.low": by("scipy")(lip_head),
    "weir_head.likely": by("scipy")(lip_head),
    "weir_head.high": by("scipy")(lip_head),
    "channel_normal_depth": by("fluids", "scipy")(normal_depth),
    "channel_velocity": by("fluids", "scipy")(normal_speed),
    "channel_capacity": by("fluids")(lambda r: manning(r, r["depth"])),
    "channel_critical_depth": by("fluids", "scipy")(critical_depth),
    "nappe_critical_depth": by("fluids", "scipy")(nappe_depth),
    "rim_level.round": by("scipy")(lambda r: round_rim(r)[0]),
    "rim_wet_share.round": by("scipy")(lambda r: round_rim(r)[1]),
    "rim_flow_share_of_lowest.round": by("scipy")(lambda r: round_rim(r)[2]),
    "rim_tilt.head_low": tilt("head_low"),
    "rim_tilt.dry_share": tilt("dry_share"),
    "rim_tilt.shifted": tilt("shifted"),
    "rim_tilt.local": tilt("local"),
}
