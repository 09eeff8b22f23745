#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes reliability_outcomes.csv and reliability_fits.csv beside this script: random in/out-of-tolerance outcomes
at unequal intervals, and the exponential rate that scipy.optimize makes of them. The rate is the maximum of the
log-likelihood by a bounded scalar minimiser on log(rate), then polished by a root of its slope; limits are roots of
the likelihood ratio by brentq. All in or all out: the exact one-sided limit.

Run: /usr/bin/python3 make_reliability_table.py     (Debian 12: python3-numpy 1.24, python3-scipy 1.10)
"""
import csv
import math
import pathlib

import numpy
from scipy.optimize import brentq, minimize_scalar
from scipy.stats import chi2

HERE = pathlib.Path(__file__).parent
SEED = 20261126
CASES = 48


def log_likelihood(days, inside, rate):
    exposure = rate * days
    return float(numpy.sum(-exposure[inside]) + numpy.sum(numpy.log(-numpy.expm1(-exposure[~inside]))))


def fit(days, inside, confidence):
    """rate, low, high; None where there is none."""
    def at(log_rate):
        return log_likelihood(days, inside, math.exp(log_rate))

    centre = math.log(1.0 / float(numpy.sum(days)))
    if inside.all():
        return 0.0, None, -math.log(1 - confidence) / float(numpy.sum(days))
    if not inside.any():
        return None, math.exp(brentq(lambda v: at(v) - math.log(1 - confidence), centre - 40, centre + 40, xtol=1e-14)), None
    rough = minimize_scalar(lambda v: -at(v), bounds=(centre - 5, centre + 15), method="bounded",
                            options={"xatol": 1e-10}).x

    def slope(log_rate):
        exposure = math.exp(log_rate) * days
        return float(-numpy.sum(exposure[inside]) + numpy.sum(exposure[~inside] / numpy.expm1(exposure[~inside])))

    best = brentq(slope, rough - 1e-3, rough + 1e-3, xtol=1e-14)
    level = at(best) - chi2.ppf(confidence, 1) / 2
    low = brentq(lambda v: at(v) - level, best - 40, best, xtol=1e-14)
    high = brentq(lambda v: at(v) - level, best, best + 20, xtol=1e-14)
    return math.exp(best), math.exp(low), math.exp(high)


def main():
    random = numpy.random.default_rng(SEED)
    with open(HERE / "reliability_outcomes.csv", "w", newline="") as data, \
            open(HERE / "reliability_fits.csv", "w", newline="") as fits:
        data, fits = csv.writer(data, lineterminator="\n"), csv.writer(fits, lineterminator="\n")
        data.writerow(["case", "interval_days", "in_tolerance"])
        fits.writerow(["case", "confidence", "rate", "rate_low", "rate_high"])
        for case in range(CASES):
            count = int(random.integers(1, 60))
            typical = float(10.0 ** random.uniform(1, 3.3))
            days = numpy.round(typical * random.uniform(0.3, 2.5, count), 1)
            rate = 10.0 ** random.uniform(-2, 0.7) / typical
            inside = random.uniform(size=count) < numpy.exp(-rate * days)
            confidence = [0.95, 0.8, 0.99][case % 3]
            for t, good in zip(days, inside):
                data.writerow([case, repr(float(t)), "yes" if good else "no"])
            fits.writerow([case, confidence] + ["" if x is None else repr(float(x)) for x in fit(days, inside, confidence)])


main()
