#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes random_budgets.csv: random uncertainty budgets worked out by another road.

Formulas are random expressions over two to five inputs. Their partial derivatives come from complex steps
(Im f(x + ih) / h with h = 1e-30: no cancellation, exact to rounding), Student's t from SciPy. The rules are those
of the GUM: 5.2.2 eq. 16, G.4.1 (correlated inputs as one line, with the fewest degrees of freedom among them).

Run:  /usr/bin/python3 make_random_budgets.py > random_budgets.csv      (NumPy, SciPy; seed fixed below)
"""
import math
import sys

import numpy as np
from scipy import integrate, special, stats

SEED = 20240611
CASES = 60
FUNCTIONS = {
    "sin": np.sin, "cos": np.cos, "exp": np.exp, "ln": np.log, "sqrt": np.sqrt, "atan": np.arctan,
    "tanh": np.tanh, "sinh": np.sinh, "asinh": np.arcsinh, "log10": np.log10,
}
rng = np.random.default_rng(SEED)


def expression(names, depth):
    """Text that muParser and, with ** for ^, Python understand alike; smooth everywhere."""
    if depth == 0:
        return rng.choice(names) if rng.random() < 0.8 else f"{rng.uniform(0.2, 3):.3f}"
    left = expression(names, depth - 1)
    kind = rng.integers(0, 10)
    if kind <= 4:
        right = expression(names, depth - 1)
        return [f"({left} + {right})", f"({left} - {right})", f"({left} * {right})",
                f"({left} / (2 + ({right})^2))", f"({left} * {right} + {right})"][kind]
    return [f"sin({left})", f"sqrt(1 + ({left})^2)", f"ln(3 + ({left})^2)", f"tanh({left} / 3)",
            f"atan({left})"][kind - 5]


def correlations(count):
    """Coefficients of some of the inputs, from a random positive definite matrix."""
    if count < 3 or rng.random() < 0.5:
        return {}
    members = rng.choice(count, size=rng.integers(2, min(count, 4)), replace=False)
    root = rng.normal(size=(len(members), len(members) + 2))
    matrix = root @ root.T
    scale = np.sqrt(np.diag(matrix))
    return {(int(min(a, b)), int(max(a, b))): round(float(matrix[i, j] / scale[i] / scale[j]), 3) * 0.95
            for i, a in enumerate(members) for j, b in enumerate(members) if i < j}


def evaluate(formula, names, values):
    scope = dict(FUNCTIONS)
    scope.update(zip(names, values))
    return eval(formula.replace("^", "**"), {"__builtins__": {}}, scope)  # our own text, written above


def derivatives(formula, names, values):
    step = 1e-30
    result = []
    for i in range(len(names)):
        moved = [complex(v) for v in values]
        moved[i] += 1j * step
        result.append(float(np.imag(evaluate(formula, names, moved)) / step))
    return result


def effective(parts, degrees, related, combined):
    group = list(range(len(parts)))
    for (a, b), _ in related.items():
        group = [group[a] if g == group[b] else g for g in group]
    total = 0.0
    for g in set(group):
        members = [i for i in range(len(parts)) if group[i] == g]
        variance = sum(parts[i] ** 2 for i in members)
        variance += sum(2 * r * parts[a] * parts[b] for (a, b), r in related.items() if a in members)
        nu = min(degrees[i] for i in members)
        if math.isfinite(nu):
            total += (variance / combined ** 2) ** 2 / nu
    return 1 / total if total > 0 else math.inf


def student(probability, nu):
    """Two-sided factor. scipy.stats.t.ppf is good to 1e-8 only: improved by Newton steps on the coverage, which is
    the integral of the density over the central interval (adaptive quadrature, smooth and bounded)."""
    density = lambda x: math.exp(-(nu + 1) / 2 * math.log1p(x * x / nu))
    # poch gives the ratio of the gamma functions without overflow.
    scale = special.poch(nu / 2, 0.5) / math.sqrt(nu * math.pi)
    t = float(stats.t.ppf(0.5 + probability / 2, nu))
    for _ in range(4):
        covered = 2 * scale * integrate.quad(density, 0, t, epsabs=1e-15, epsrel=1e-14)[0]
        t -= (covered - probability) / (2 * scale * density(t))
    return t


def one():
    count = int(rng.integers(2, 6))
    names = [f"x{i + 1}" for i in range(count)]
    formula = " + ".join(f"{rng.uniform(-3, 3):.3f} * {n}" for n in names) + " + " + expression(names, 3)
    values = [float(f"{rng.uniform(-4, 4) * 10.0 ** rng.integers(-1, 2):.4g}") for _ in names]
    spreads = [float(f"{abs(v) * 10 ** rng.uniform(-5, -1) + 1e-4:.3g}") for v in values]
    degrees = [math.inf if rng.random() < 0.4 else float(rng.integers(3, 60)) for _ in names]
    related = {pair: r for pair, r in correlations(count).items() if r != 0}
    probability = float(rng.choice([0.9, 0.95, 0.9545, 0.99]))
    slopes = derivatives(formula, names, values)
    parts = [c * u for c, u in zip(slopes, spreads)]
    variance = sum(p * p for p in parts) + sum(2 * r * parts[a] * parts[b] for (a, b), r in related.items())
    if variance < 1e-3 * sum(p * p for p in parts):
        return None  # nearly all cancels: every road loses digits there
    combined = math.sqrt(variance)
    nu = effective(parts, degrees, related, combined)
    factor = stats.norm.ppf(0.5 + probability / 2) if math.isinf(nu) else student(probability, nu)
    value = float(np.real(evaluate(formula, names, values)))
    many = lambda items: ";".join(repr(float(i)) for i in items)
    pairs = ";".join(f"{a}:{b}:{r!r}" for (a, b), r in related.items())
    return [formula, many(values), many(spreads), many(degrees), pairs, repr(probability), repr(value), many(slopes),
            repr(combined), repr(nu), repr(float(factor)), repr(float(factor * combined))]


def main():
    out = sys.stdout
    out.write("formula,values,standard_uncertainties,degrees_of_freedom,correlations,probability,value,sensitivities,"
              "combined,effective_degrees,coverage_factor,expanded\n")
    done = 0
    while done < CASES:
        row = one()
        if row:
            out.write(",".join(row) + "\n")
            done += 1


main()
