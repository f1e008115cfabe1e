# SPDX-License-Identifier: MIT
"""Witnesses of networks: heads and flows of the published cases, by a general root finder of scipy and, where the pipes
follow Colebrook, its factor by fluids. The data of a case are its source's, as beside the row and in the adapter.
"""
import functools
import math

import numpy
from scipy.constants import foot, gallon, minute
from scipy.optimize import root

from witness_row import PassedOver, Witness
from witness_water import head_loss

GPM = gallon / minute


def power(r, n):
    return lambda q: r * q * abs(q) ** (n - 1)


def hazen_williams(length, bore, c):
    """As EPANET 2.2 has it, in feet and cubic feet a second."""
    return foot * 4.727 * (length / foot) / (c**1.852 * (bore / foot) ** 4.871) / foot ** (3 * 1.852)


def metric_hazen_williams(length, bore, c):
    return 10.67 * length / (c**1.852 * bore**4.87)


def colebrook(length, bore):
    return lambda q: math.copysign(head_loss(abs(q), bore, length, 0.25e-3, 0, 1.023053e-6), q)


THREE_LOOPS = ((1, 2, 250, .30, 159.7828), (2, 5, 100, .20, 535.9666), (5, 4, 125, .20, 669.9582),
               (3, 4, 125, .20, 669.9582), (1, 3, 100, .20, 535.9666), (4, 7, 100, .15, 2430.5356),
               (7, 6, 125, .25, 207.7883), (3, 6, 100, .15, 2430.5356), (5, 8, 100, .15, 2430.5356),
               (7, 8, 125, .25, 207.7883))
THREE_DRAWN = {4: 0.04, 6: 0.02, 8: 0.02}


def joined(pairs, n):
    return [(a, b, power(r, n)) for a, b, r in pairs]


def reservoirs(heads, resistances, n):
    """From the first to the joint, node 4, and from there to the others."""
    links = [(1, 4), (4, 2), (4, 3)]
    return dict(enumerate(heads, 1)), {}, [(a, b, power(r, n)) for (a, b), r in zip(links, resistances)], 1


def header(pumps):
    """Pumps of 30 - 0.006 Q^2 against 8 + 0.0045 Q^2, ft and gpm; links 1 and 2 are pumps, 3 is the line."""
    square = foot / GPM**2

    def pump(q):
        return 0.006 * square * q * abs(q) - 30 * foot

    links = [(1, 2, pump)] * pumps + [(1, 2, None)] * (2 - pumps) + [(2, 3, power(0.0045 * square, 2))]
    return {1: 0, 3: 8 * foot}, {}, links, 40 * GPM


QUARTER_PI = math.atan(1)
DARCY_FEET = 0.02 / (2 * 32.174 * QUARTER_PI**2)
TODINI = hazen_williams(1000, 0.5, 100)

# Fixed heads, what is drawn, links from and to with their law, the size of a flow to start from.
CASES = {
    "three_loops": lambda: ({1: 20}, THREE_DRAWN, joined([(a, b, r) for a, b, _, _, r in THREE_LOOPS], 2), 0.02),
    "colebrook": lambda: ({1: 20}, THREE_DRAWN, [(a, b, colebrook(x, d)) for a, b, x, d, _ in THREE_LOOPS], 0.02),
    "two_loops": lambda: ({3: 0}, {2: 0.5},
                          joined([(3, 1, 200), (1, 4, 2500), (3, 4, 500), (1, 2, 800), (4, 2, 300)], 2), 0.2),
    "two_reservoirs": lambda: ({5: 100, 6: 90}, {1: 2, 2: 4, 3: 1, 4: 3},
                               joined([(5, 1, 0.38), (1, 2, 2.89), (1, 4, 2.53), (4, 2, 12.13), (3, 2, 2.17),
                                       (3, 4, 2.89), (6, 3, 0.94)], 2), 2),
    "todini": lambda: ({1: 100}, {i: 0.01 * (i - 1) for i in range(2, 6)},
                       joined([(a, b, TODINI) for a, b in ((1, 2), (1, 3), (2, 3), (2, 5), (2, 4), (3, 5), (4, 5))],
                              1.852), 0.02),
    "reservoirs_1": lambda: reservoirs((135, 120, 112), (0.7594, 36.33, 8.168), 2),
    "reservoirs_2": lambda: reservoirs((200, 180, 185), (metric_hazen_williams(200, 0.5, 100),
                                                         metric_hazen_williams(2000, 0.5, 100),
                                                         metric_hazen_williams(400, 0.2, 140)), 1.852),
    "reservoirs_3": lambda: reservoirs((60, 30, 15), (0.01 * 1500 / 3 / 0.30**5, 0.01 * 800 / 3 / 0.25**5,
                                                      0.01 * 400 / 3 / 0.20**5), 2),
    "reservoirs_4": lambda: reservoirs((100, 20, 0), (1000 * DARCY_FEET, 500 * DARCY_FEET, 400 * DARCY_FEET), 2),
    "one_pump": lambda: header(1),
    "two_pumps": lambda: header(2),
}


@functools.lru_cache(maxsize=None)
def solved(case):
    """Heads by node and flows by link, both counted from 1; a link without a law is shut."""
    fixed, drawn, links, size = CASES[case]()
    open_links = [i for i, link in enumerate(links) if link[2]]
    free = sorted({node for i in open_links for node in links[i][:2]} - set(fixed))

    def heads_of(unknown):
        return {**fixed, **dict(zip(free, unknown))}

    def lacking(unknown):
        heads, flows = heads_of(unknown), unknown[len(free):] * size
        left = {node: -drawn.get(node, 0) for node in free}
        uneven = []
        for i, flow in zip(open_links, flows):
            start, end, law = links[i]
            uneven.append(heads[start] - heads[end] - law(flow))
            for node, share in ((start, -flow), (end, flow)):
                if node in left:
                    left[node] += share
        return numpy.array(uneven + [amount / size for amount in left.values()])

    guess = [sum(fixed.values()) / len(fixed)] * len(free) + [1.0] * len(open_links)
    answer = root(lacking, guess, tol=1e-13)
    if max(abs(lacking(answer.x))) > 1e-8:
        raise ArithmeticError(f"{case}: {answer.message}")
    flows = dict.fromkeys(range(1, len(links) + 1), 0.0)
    flows.update((i + 1, flow * size) for i, flow in zip(open_links, answer.x[len(free):]))
    return heads_of(answer.x), flows


def case_of(r):
    case = r.word("case")
    if case not in CASES:
        raise PassedOver
    return solved(case)


WITNESSES = {
    "network_solve.flow": Witness(("scipy",), lambda r: case_of(r)[1][int(r.word("link"))]),
    "network_solve.head": Witness(("scipy",), lambda r: case_of(r)[0][int(r.word("node"))]),
}
