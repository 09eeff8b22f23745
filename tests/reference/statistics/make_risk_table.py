#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes risk_table.csv beside this script: false-accept and false-reject probabilities of random tolerances,
guard bands, populations and uncertainties. Another road than the program's: the measured value is integrated
over the acceptance interval with scipy.integrate.quad, and the true value given the measured one in closed form
(normal posterior), where the program integrates over the true value.

Run: /usr/bin/python3 make_risk_table.py     (Debian 12: python3-numpy 1.24, python3-scipy 1.10)
"""
import csv
import math
import pathlib

import numpy
from scipy.integrate import quad
from scipy.special import ndtr

HERE = pathlib.Path(__file__).parent
SEED = 20261125
CASES = 120


def between(low, high):
    """Phi(high) - Phi(low) from the side where the tails are small."""
    return ndtr(-low) - ndtr(-high) if low > 0 else ndtr(high) - ndtr(low)


def integrate(function, low, high, places):
    edges = [low] + sorted(p for p in set(places) if low < p < high) + [high]
    return math.fsum(quad(function, a, b, epsabs=0, epsrel=1e-12, limit=400)[0] for a, b in zip(edges, edges[1:]))


def risks(low, high, accept_low, accept_high, mean, sd, u):
    spread = math.hypot(sd, u)  # of measured values
    left, right = max(accept_low, mean - 39 * spread), min(accept_high, mean + 39 * spread)
    posterior = sd * u / spread

    def density(y):
        return math.exp(-0.5 * ((y - mean) / spread) ** 2) / (spread * math.sqrt(2 * math.pi))

    def inside(y):
        centre = mean + (sd / spread) ** 2 * (y - mean)
        return between((low - centre) / posterior, (high - centre) / posterior)

    def outside(y):
        centre = mean + (sd / spread) ** 2 * (y - mean)
        return ndtr((low - centre) / posterior) + ndtr((centre - high) / posterior)

    limits = [x for x in (low, high, accept_low, accept_high) if math.isfinite(x)]
    # Where the posterior crosses a limit.
    crossings = [mean + (x - mean) * (spread / sd) ** 2 for x in limits]
    places = [mean + k * spread for k in range(-9, 10)]
    places += [x + k * s for x in limits + crossings for k in (-6, -3, -1, 0, 1, 3, 6)
               for s in (u, posterior * (spread / sd) ** 2)]
    accepted_outside = integrate(lambda y: density(y) * outside(y), left, right, places) if left < right else 0.0
    far_left, far_right = mean - 39 * spread, mean + 39 * spread
    rejected_inside = 0.0
    if left >= right:
        rejected_inside = between((low - mean) / sd, (high - mean) / sd)
    else:
        if left > far_left:
            rejected_inside += integrate(lambda y: density(y) * inside(y), far_left, left, places)
        if right < far_right:
            rejected_inside += integrate(lambda y: density(y) * inside(y), right, far_right, places)
    return between((low - mean) / sd, (high - mean) / sd), accepted_outside, rejected_inside


def main():
    random = numpy.random.default_rng(SEED)
    with open(HERE / "risk_table.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["low", "high", "accept_low", "accept_high", "mean", "sd", "u", "in_tolerance", "false_accept",
                      "false_reject"])
        for case in range(CASES):
            scale = 10.0 ** random.uniform(-3, 3)
            high = scale * random.uniform(0.3, 1.5)
            low = -high if case % 3 == 0 else -scale * random.uniform(0.3, 1.5)
            if case % 5 == 1:
                low = -math.inf
            elif case % 5 == 3:
                high = math.inf
            width = scale * (random.uniform(-0.2, 0.3) if case % 4 else 0.0)
            mean = scale * random.normal(0, 0.2) if case % 2 else 0.0
            sd, u = scale * 10.0 ** random.uniform(-1.0, 0.5), scale * 10.0 ** random.uniform(-2.5, 0.0)
            row = [low, high, low + width, high - width, mean, sd, u]
            row = [float(repr(float(x))) for x in row]
            out.writerow([repr(x) for x in row] + [repr(float(x)) for x in risks(*row)])


main()
