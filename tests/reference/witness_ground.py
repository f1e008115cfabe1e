# SPDX-License-Identifier: MIT
"""Witnesses of ground and outlines: shapely (plane figures), scipy (integrals, the ellipse, ground between points)."""
import math

import numpy
from scipy.integrate import quad
from scipy.interpolate import LinearNDInterpolator, lagrange
from scipy.spatial import Delaunay
from scipy.special import ellipe
from shapely.geometry import LineString, Polygon

from witness_row import Witness

MITRE = {"join_style": 2, "mitre_limit": 1000}
LEVELS = 200  # of a pit, cut at the middle of each


def outline(r):
    return Polygon(r.pairs("outline"))


def inset(r):
    return outline(r).buffer(-r["distance"], **MITRE)


def pieces(figure):
    return 0 if figure.is_empty else len(getattr(figure, "geoms", [figure]))


def along(r):
    return outline(r).exterior.interpolate(r["distance"])


def extents(r):
    """Least width over the sides of the hull, and the length square to it; (length, width)."""
    corners = numpy.array(outline(r).convex_hull.exterior.coords)
    sides = numpy.diff(corners, axis=0)
    found = []
    for side in sides / numpy.linalg.norm(sides, axis=1)[:, None]:
        across, down = corners @ side, corners @ numpy.array([-side[1], side[0]])
        found.append((numpy.ptp(down), numpy.ptp(across)))
    width, length = min(found)
    return length, width


def ellipse_perimeter(length, width):
    long, short = max(length, width) / 2, min(length, width) / 2
    return 4 * long * ellipe(1 - (short / long) ** 2)


def ellipse_area(r):
    a, b = r["length"] / 2, r["width"] / 2
    return 4 * quad(lambda t: a * b * math.cos(t) ** 2, 0, math.pi / 2, epsabs=0, epsrel=1e-13)[0]


def ellipse_inset(r):
    angles = numpy.linspace(0, 2 * math.pi, 4000, endpoint=False)
    ring = Polygon(numpy.column_stack([r["length"] / 2 * numpy.cos(angles), r["width"] / 2 * numpy.sin(angles)]))
    return ring.buffer(-r["distance"], **MITRE).area


def rectangle_pit(r):
    return quad(lambda z: (r["length"] - 2 * r["side"] * z) * (r["width"] - 2 * r["side"] * z), 0, r["depth"])[0]


def prismoid(r):
    """The parabola of the three areas, integrated."""
    law = lagrange([0, 0.5, 1], [r["top"], r["middle"], r["bottom"]])
    return r["depth"] * quad(law, 0, 1)[0]


def cone(r):
    def area(z):
        return math.pi / 4 * (r["bottom"] + (r["top"] - r["bottom"]) * z / r["height"]) ** 2

    return quad(area, 0, r["height"])[0]


def trapezoid(r):
    top, bottom = r["top"] / 2, r["bottom"] / 2
    return Polygon([(-bottom, 0), (bottom, 0), (top, r["height"]), (-top, r["height"])]).area


def liner_run(r):
    run, half = r["side"] * r["depth"], r["top"] / 2
    section = LineString([(-half, 0), (run - half, -r["depth"]), (half - run, -r["depth"]), (half, 0)])
    return section.length + 2 * r["overlap"]


def ground_height(r):
    return float(LinearNDInterpolator(numpy.array(r.pairs("survey")), r.list("heights"))(r["x"], r["y"]))


def above(triangle, level):
    """What of a triangle of points in space stands over a level, seen from above."""
    kept = []
    for (x, y, z), (u, v, w) in zip(triangle, numpy.roll(triangle, -1, axis=0)):
        if z >= level:
            kept.append((x, y))
        if (z - level) * (w - level) < 0:
            share = (level - z) / (w - z)
            kept.append((x + share * (u - x), y + share * (v - y)))
    return Polygon(kept) if len(kept) > 2 else Polygon()


def cut(survey, heights, figure, bottom, side):
    """Volume of a pit under uneven ground: at each level what of the pit lies under ground that is higher."""
    points = numpy.column_stack([survey, heights])
    triangles = [points[corners] for corners in Delaunay(numpy.array(survey)).simplices]
    step = (max(heights) - bottom) / LEVELS
    volume = 0
    for level in bottom + step * (numpy.arange(LEVELS) + 0.5):
        pit = figure.buffer(side * (level - bottom), **MITRE)
        volume += step * sum(pit.intersection(above(triangle, level)).area for triangle in triangles)
    return volume


def surface_cut(r):
    return cut(r.pairs("survey"), r.list("heights"), outline(r), r["level"], r["side"])


def by(*libraries):
    return lambda work: Witness(libraries, work)


WITNESSES = {
    "polygon_area": by("shapely")(lambda r: outline(r).area),
    "polygon_perimeter": by("shapely")(lambda r: outline(r).length),
    "polygon_centroid.x": by("shapely")(lambda r: outline(r).centroid.x),
    "polygon_centroid.y": by("shapely")(lambda r: outline(r).centroid.y),
    "polygon_inset.area": by("shapely")(lambda r: inset(r).area),
    "polygon_inset.perimeter": by("shapely")(lambda r: inset(r).length),
    "polygon_inset.pieces": by("shapely")(lambda r: pieces(inset(r))),
    "polygon_along.x": by("shapely")(lambda r: along(r).x),
    "polygon_along.y": by("shapely")(lambda r: along(r).y),
    "polygon_extents.length": by("shapely")(lambda r: extents(r)[0]),
    "polygon_extents.width": by("shapely")(lambda r: extents(r)[1]),
    "polygon_ellipse.area": by("scipy")(ellipse_area),
    "polygon_ellipse.perimeter": by("scipy")(lambda r: ellipse_perimeter(r["length"], r["width"])),
    "polygon_ellipse.inset_area": by("shapely")(ellipse_inset),
    "polygon_surface_height": by("scipy")(ground_height),
    "polygon_surface_cut": by("shapely", "scipy")(surface_cut),
    "solid_ellipse_area": by("scipy")(ellipse_area),
    "solid_ellipse_perimeter": by("scipy")(lambda r: ellipse_perimeter(r["length"], r["width"])),
    "solid_rectangle_pit": by("scipy")(rectangle_pit),
    "solid_prismoid": by("scipy")(prismoid),
    "solid_cone_frustum": by("scipy")(cone),
    "solid_trapezoid_area": by("shapely")(trapezoid),
    "liner_run": by("shapely")(liner_run),
    "liner_along": by("shapely")(lambda r: LineString(r.pairs("section")).length + 2 * r["overlap"]),
}
