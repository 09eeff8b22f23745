#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes drift_fits_readings.csv and drift_fits.csv beside this script: random multi-segment histories and what
numpy and SciPy make of them. The fit is numpy.linalg.lstsq on the full design matrix (time and one column per
segment), standard errors come from its QR factor, limits from scipy.stats.t (see quantile), the robust rate from
numpy.median over all within-segment pairs: another road than the program's centred sums.

Run: /usr/bin/python3 make_drift_fits.py     (Debian 12: python3-numpy 1.24, python3-scipy 1.10)
"""
import csv
import pathlib

import numpy
import scipy.stats

HERE = pathlib.Path(__file__).parent
SEED = 20260301
CASES = 60


def history(random, case):
    """Segments of (time, error): few calibrations are the normal case, some are long, some far from time 0."""
    segments = []
    origin = [0.0, -3.0, 12.5, 2000.0][case % 4]
    rate = random.normal(0.0, 0.4)
    scatter = 10.0 ** random.uniform(-4, 0)
    time = origin
    for _ in range(random.integers(1, 6)):
        level = random.normal(0.0, 1.0)
        count = random.integers(1, 4) if case % 3 else random.integers(2, 30)
        times = time + numpy.cumsum(random.uniform(0.2, 1.6, count))
        segments.append([(t, level + rate * (t - time) + random.normal(0.0, scatter)) for t in times])
        time = times[-1]
    if max(len(s) for s in segments) < 2:
        segments[0].append((segments[0][0][0] + 0.07, segments[0][0][1] + 0.5))
    return segments


def slopes(segments):
    return [(b[1] - a[1]) / (b[0] - a[0]) for s in segments for i, b in enumerate(s) for a in s[:i] if a[0] != b[0]]


def quantile(p, freedom):
    """Quantile of Student's t. scipy.stats.t.ppf of SciPy 1.10 is off by up to 2e-9 of it (3 degrees of freedom,
    p = 0.995); Newton's steps on its distribution function, which is not, mend that."""
    t = scipy.stats.t.ppf(p, freedom)
    for _ in range(5):
        t -= (scipy.stats.t.cdf(t, freedom) - p) / scipy.stats.t.pdf(t, freedom)
    return t


def fit(segments, at, confidence):
    times = numpy.array([t for s in segments for t, _ in s])
    errors = numpy.array([e for s in segments for _, e in s])
    which = numpy.array([k for k, s in enumerate(segments) for _ in s])
    about = times.mean()  # only for conditioning; intercepts are moved back to time 0 below
    design = numpy.column_stack([times - about] + [(which == k).astype(float) for k in range(len(segments))])
    solution = numpy.linalg.lstsq(design, errors, rcond=None)[0]
    residuals = errors - design @ solution
    freedom = len(errors) - len(segments) - 1
    out = {"rate": solution[0], "degrees_of_freedom": freedom, "robust_rate": numpy.median(slopes(segments))}
    for k in range(len(segments)):
        out[f"intercept_{k}"] = solution[1 + k] - solution[0] * about
    value = solution[-1] + solution[0] * (at - about)
    out |= {"at": at, "confidence": confidence, "value": value}
    means = numpy.array([errors[which == k].mean() for k in which])
    within = numpy.sum((errors - means) ** 2)
    if within > 0:
        out["r_squared"] = 1.0 - numpy.sum(residuals**2) / within
    if freedom > 0:
        sd = numpy.sqrt(numpy.sum(residuals**2) / freedom)
        inverse = numpy.linalg.inv(numpy.linalg.qr(design)[1])
        covariance = sd**2 * inverse @ inverse.T
        out |= {"residual_sd": sd, "rate_standard_error": numpy.sqrt(covariance[0, 0])}
        for k in range(len(segments)):
            row = numpy.zeros(1 + len(segments))
            row[0], row[1 + k] = -about, 1.0
            out[f"intercept_standard_error_{k}"] = numpy.sqrt(row @ covariance @ row)
        row = numpy.zeros(1 + len(segments))
        row[0], row[-1] = at - about, 1.0
        factor = quantile(0.5 + confidence / 2.0, freedom)
        half = factor * numpy.sqrt(sd**2 + row @ covariance @ row)
        out |= {"low": value - half, "high": value + half}
        out |= {"rate_low": solution[0] - factor * out["rate_standard_error"],
                "rate_high": solution[0] + factor * out["rate_standard_error"]}
    return out


def main():
    random = numpy.random.default_rng(SEED)
    with open(HERE / "drift_fits_readings.csv", "w", newline="") as readings, \
         open(HERE / "drift_fits.csv", "w", newline="") as results:
        reading_rows = csv.writer(readings, lineterminator="\n")
        result_rows = csv.writer(results, lineterminator="\n")
        reading_rows.writerow(["case", "segment", "time", "error"])
        result_rows.writerow(["case", "quantity", "value", "source"])
        for case in range(CASES):
            segments = history(random, case)
            for k, segment in enumerate(segments):
                for time, error in segment:
                    reading_rows.writerow([case, k, repr(float(time)), repr(float(error))])
            at = segments[-1][-1][0] + random.uniform(0.0, 3.0)
            confidence = [0.95, 0.9545, 0.8, 0.99][case % 4]
            for quantity, value in fit(segments, at, confidence).items():
                result_rows.writerow([case, quantity, repr(float(value)), "computed: numpy lstsq, scipy.stats.t"])


if __name__ == "__main__":
    main()
