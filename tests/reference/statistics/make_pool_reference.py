#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes pool_estimates.csv and pool_expected.csv beside this script: what pooling of rates and of scatter must give.

bcg_trials.csv: 13 trials of a vaccine (Colditz et al. 1994, as printed in van Houwelingen et al. 2002, Table I; trials 1-7
looked up in a public analysis of that paper, 8-13 from memory). Their log relative risks with the between-trial variance by
restricted maximum likelihood are a usual check: 0.3132, mean -0.7145, standard error 0.1798 (from memory).
Rates: the restricted likelihood is written down and maximised by scipy.optimize, and the averages over its posterior are
taken by scipy.integrate.quad over tau itself, where the program uses a trapezoid over log tau^2. make_pool_outside.R gives
the same maximum by an R package (pool_outside.csv).
Scatter: the density of s^2 by scipy.stats.f, its profile by scipy.optimize, the mean of psi^2 by scipy.integrate.quad.

Run: /usr/bin/python3 make_pool_reference.py     (Debian 12: python3-numpy 1.24, python3-scipy 1.10)
"""
import csv
import pathlib

import numpy
from scipy import integrate, optimize, stats

HERE = pathlib.Path(__file__).parent
SEED = 20260302


def restricted(y, v, tau2):
    """Mean, its variance and the restricted log likelihood."""
    w = 1.0 / (v + tau2)
    mean = numpy.average(y, weights=w)
    return mean, 1.0 / w.sum(), -0.5 * (-numpy.log(w).sum() + numpy.log(w.sum()) + numpy.sum(w * (y - mean) ** 2))


def rates(y, v):
    top = 10.0 * (numpy.ptp(y) + numpy.sqrt(v.max())) ** 2
    grid = numpy.concatenate([[0.0], numpy.geomspace(1e-9 * top, top, 4000)])
    values = [restricted(y, v, t)[2] for t in grid]
    best = int(numpy.argmax(values))
    tau2 = 0.0
    if best > 0:
        tau2 = optimize.minimize_scalar(lambda t: -restricted(y, v, t)[2], method="bounded",
                                        bounds=(grid[best - 1], grid[min(best + 1, len(grid) - 1)]), options={"xatol": 1e-13}).x
    mean, variance, peak = restricted(y, v, tau2)
    out = {"between_variance": tau2, "mean": mean, "mean_standard_error": variance**0.5}
    wide = 10.0 * stats.hmean(v)

    def average(what):
        def over(function):
            density = lambda tau: numpy.exp(restricted(y, v, tau * tau)[2] - peak) / (1.0 + tau * tau / wide)
            marks = sorted({tau2**0.5, (v.mean()) ** 0.5, 3.0 * (numpy.ptp(y) + 1e-3)})
            ends = [0.0, *[m for m in marks if m > 0], 100.0 * (numpy.ptp(y) + wide**0.5)]
            return sum(integrate.quad(lambda tau: function(tau) * density(tau), lo, hi, epsabs=0, epsrel=1e-10, limit=400)[0]
                       for lo, hi in zip(ends, ends[1:]))
        return over(what) / over(lambda tau: 1.0)

    for i in range(len(y)):
        def moments(tau, i=i):
            m, mv, _ = restricted(y, v, tau * tau)
            own = tau * tau / (tau * tau + v[i])
            return m + own * (y[i] - m), own * v[i] + (1.0 - own) ** 2 * mv
        first = average(lambda tau: moments(tau)[0])
        out[f"shrunk_{i}"] = first
        out[f"shrunk_variance_{i}"] = average(lambda tau: moments(tau)[1] + (moments(tau)[0] - first) ** 2)
    return out


def scatter(s2, d):
    def profile(d0):
        cost = lambda x: -numpy.sum(stats.f.logpdf(s2 / numpy.exp(x), d, d0) - x)
        middle = numpy.log(numpy.average(s2, weights=d))
        found = optimize.minimize_scalar(cost, bracket=(middle - 0.5, middle + 0.5), options={"xtol": 1e-12})
        return numpy.exp(found.x), -found.fun

    peak = max(profile(2.0 / p**2)[1] - p**2 / 0.72 for p in numpy.linspace(0.05, 3.0, 60))
    weight = lambda psi: numpy.exp(profile(2.0 / psi**2)[1] - psi**2 / 0.72 - peak)
    low = 1e-3  # below it the F distribution is its limit
    whole = integrate.quad(weight, low, 3.0, epsrel=1e-9, limit=200)[0] + low * weight(low)
    square = integrate.quad(lambda p: p * p * weight(p), low, 3.0, epsrel=1e-9, limit=200)[0]
    d0 = 2.0 * whole / square
    s0 = profile(d0)[0]
    shrunk = (d0 * s0 + d * s2) / (d0 + d)
    return {"group_variance": s0, "group_degrees_of_freedom": d0} | {f"shrunk_{i}": x for i, x in enumerate(shrunk)}


def main():
    random = numpy.random.default_rng(SEED)
    groups = {}
    with open(HERE / "bcg_trials.csv", newline="") as file:
        trials = [[float(x) for x in row[1:]] for row in list(csv.reader(file))[1:]]
    a, b, c, d = numpy.array(trials).T
    groups["bcg"] = (numpy.log(a / (a + b)) - numpy.log(c / (c + d)), 1 / a - 1 / (a + b) + 1 / c - 1 / (c + d))
    for number, (count, spread) in enumerate([(3, 0.0), (5, 0.3), (12, 0.1), (40, 2.0)]):
        v = 10.0 ** random.uniform(-3, 0, count)
        groups[f"rates_{number}"] = (random.normal(0.2, spread, count) + random.normal(0.0, numpy.sqrt(v)), v)
    scatters = {}
    for number, (count, prior) in enumerate([(3, 5.0), (8, 3.0), (40, 2.0), (30, 1e9)]):
        freedom = random.integers(1, 9, count).astype(float)
        variance = 0.04 * prior / random.chisquare(prior, count)
        scatters[f"scatter_{number}"] = (variance * random.chisquare(freedom) / freedom, freedom)
    with open(HERE / "pool_estimates.csv", "w", newline="") as inputs, \
         open(HERE / "pool_expected.csv", "w", newline="") as results:
        input_rows = csv.writer(inputs, lineterminator="\n")
        result_rows = csv.writer(results, lineterminator="\n")
        input_rows.writerow(["group", "value", "variance_or_freedom"])
        result_rows.writerow(["group", "quantity", "value", "source"])
        for these, compute in ((groups, rates), (scatters, scatter)):
            for name, (value, beside) in these.items():
                for pair in zip(value, beside):
                    input_rows.writerow([name, *(repr(float(x)) for x in pair)])
                for quantity, number in compute(value, beside).items():
                    result_rows.writerow([name, quantity, repr(float(number)), "computed: numpy, scipy"])


if __name__ == "__main__":
    main()
