#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes pool_estimates.csv and pool_expected.csv beside this script: what pooling of rates and of scatter must give.

bcg_trials.csv: 13 trials of a vaccine (Colditz et al. 1994, as printed in van Houwelingen et al. 2002, Table I; trials 1-7
looked up in a public analysis of that paper, 8-13 from memory). Their log relative risks under the model of
DerSimonian and Laird are a usual check: between-trial variance 0.3088, mean -0.7141, standard error 0.1787 (from memory).
The scatter groups are random; their reference is the moment equations of Smyth 2004 solved by scipy.optimize.brentq
instead of Newton's method.

Run: /usr/bin/python3 make_pool_reference.py     (Debian 12: python3-numpy 1.24, python3-scipy 1.10)
"""
import csv
import pathlib

import numpy
from scipy.optimize import brentq
from scipy.special import digamma, polygamma

HERE = pathlib.Path(__file__).parent
SEED = 20260302


def rates(y, v):
    w = 1.0 / v
    fixed = numpy.average(y, weights=w)
    q = numpy.sum(w * (y - fixed) ** 2)
    tau2 = max(0.0, (q - (len(y) - 1)) / (w.sum() - (w**2).sum() / w.sum()))
    mean = numpy.average(y, weights=1.0 / (v + tau2))
    out = {"between_variance": tau2, "mean": mean, "mean_standard_error": numpy.sum(1.0 / (v + tau2)) ** -0.5}
    # The posterior mean as the precision-weighted mean of own value and group mean.
    for i in range(len(y)):
        out[f"shrunk_{i}"] = mean if tau2 == 0 else (y[i] / v[i] + mean / tau2) / (1.0 / v[i] + 1.0 / tau2)
    return out


def scatter(s2, d):
    e = numpy.log(s2) - digamma(d / 2) + numpy.log(d / 2)
    excess = e.var(ddof=1) - numpy.mean(polygamma(1, d / 2))
    if excess <= 0:
        s0, d0 = numpy.sum(d * s2) / numpy.sum(d), numpy.inf
        shrunk = numpy.full(len(s2), s0)
    else:
        half = brentq(lambda x: polygamma(1, x) - excess, 1e-3, 1e7, xtol=1e-14, rtol=1e-14)
        d0, s0 = 2 * half, numpy.exp(e.mean() + digamma(half) - numpy.log(half))
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
