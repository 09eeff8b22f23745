#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes drift_growth.csv beside this script: whether scatter grows with time, on the random histories of
drift_fits_readings.csv. The restricted likelihood of error = intercept(segment) + rate time + walk + noise is written down
with full matrices (numpy.linalg.slogdet and solve) and maximised by scipy.optimize over the ratio of the walk's variance per
year to the noise variance; the p-value of the locally best invariant statistic e'Ke / e'e is the share among 200000 simulated
quiet histories: other roads than the program's rotation and characteristic function.

Run: /usr/bin/python3 make_growth_reference.py     (Debian 12: python3-numpy 1.24, python3-scipy 1.10)
"""
import csv
import pathlib

import numpy
from scipy.optimize import minimize_scalar

HERE = pathlib.Path(__file__).parent
SEED = 20260303
DRAWS = 200_000


def main():
    random = numpy.random.default_rng(SEED)
    with open(HERE / "drift_fits_readings.csv", newline="") as file:
        rows = [(int(r["case"]), int(r["segment"]), float(r["time"]), float(r["error"])) for r in csv.DictReader(file)]
    with open(HERE / "drift_growth.csv", "w", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["case", "quantity", "value", "source"])
        for case in sorted({r[0] for r in rows}):
            these = [r for r in rows if r[0] == case]
            segment, time, error = (numpy.array([r[i] for r in these]) for i in (1, 2, 3))
            n, p = len(these), len(set(segment)) + 1
            if n - p < 4 or n > 60:
                continue
            time = time - time[0]
            first = {s: time[segment == s].min() for s in set(segment)}
            since = numpy.array([t - first[s] for t, s in zip(time, segment)])
            walk = numpy.minimum.outer(since, since) * (segment[:, None] == segment[None, :])
            design = numpy.column_stack([time] + [(segment == s).astype(float) for s in sorted(set(segment))])

            def cost(ratio):
                cover = numpy.eye(n) + ratio * walk
                inside = design.T @ numpy.linalg.solve(cover, design)
                fit = numpy.linalg.solve(inside, design.T @ numpy.linalg.solve(cover, error))
                left = error - design @ fit
                rss = left @ numpy.linalg.solve(cover, left)
                return (n - p) * numpy.log(rss) + numpy.linalg.slogdet(cover)[1] + numpy.linalg.slogdet(inside)[1]

            grid = numpy.concatenate([[0.0], numpy.geomspace(1e-4, 1e3, 400)])
            best = int(numpy.argmin([cost(r) for r in grid]))
            ratio = 0.0
            if 0 < best < len(grid) - 1:
                ratio = minimize_scalar(cost, bounds=(grid[best - 1], grid[best + 1]), method="bounded",
                                        options={"xatol": 1e-12 * grid[best]}).x
            q = numpy.linalg.qr(design)[0]
            project = numpy.eye(n) - q @ q.T
            statistic = lambda e: numpy.einsum("ij,jk,ik->i", e, walk, e) / numpy.einsum("ij,ij->i", e, e)
            seen = statistic((project @ error)[None, :])[0]
            drawn = statistic(random.normal(size=(DRAWS, n)) @ project)
            if best < len(grid) - 1:  # beyond it the walk is all there is
                out.writerow([case, "ratio", repr(float(ratio)), "computed: numpy, scipy.optimize"])
            out.writerow([case, "p_value", repr(float(numpy.mean(drawn >= seen))), "computed: numpy, 200000 draws"])


if __name__ == "__main__":
    main()
