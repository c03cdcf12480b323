"""Writes quantiles.json: quantiles of the normal and the beta distribution, found by root search at 60 digits with mpmath."""
import json
from mpmath import mp, mpf, betainc, erfc, findroot, sqrt, log, nstr

mp.dps = 60


def digits(value):
    return float(nstr(value, 25))


def normal(p):
    p = mpf(p)
    low, high = mpf(-40), mpf(40)
    for _ in range(260):
        middle = (low + high) / 2
        if erfc(-middle / sqrt(2)) / 2 < p:
            low = middle
        else:
            high = middle
    return digits((low + high) / 2)


def share_below(x, a, b):
    """Exact by 60-digit series; for whole shapes the finite binomial sum, which cannot go astray."""
    if a == int(a) and b == int(b) and a + b < 3000:
        n = int(a + b) - 1
        return sum(mp.binomial(n, j) * x**j * (1 - x) ** (n - j) for j in range(int(a), n + 1))
    return betainc(a, b, 0, x, regularized=True)


def beta(p, a, b):
    p, a, b = mpf(p), mpf(a), mpf(b)
    low, high = mpf(-200), mpf(0)  # in ln x, so that tiny quantiles keep their digits
    for _ in range(120):
        middle = (low + high) / 2
        if share_below(mp.e**middle, a, b) < p:
            low = middle
        else:
            high = middle
    return digits(mp.e ** ((low + high) / 2))


normal_cases = [
    {"probability": float(p), "quantile": normal(float(p))}
    for p in ["1e-300", "1e-30", "5e-13", "1e-9", "5e-7", "1e-4", "0.005", "0.025", "0.05", "0.0749", "0.0751", "0.1", "0.3", "0.499", "0.5", "0.8", "0.975"]
]
shapes = [(0.5, 0.5), (0.5, 20.5), (20.5, 0.5), (1, 1), (1, 29), (29, 1), (4, 17), (81, 183), (497.5, 145.5), (512, 10), (950, 51), (0.5, 1000.5), (15.5, 16), (200, 200)]
beta_cases = [
    {"probability": float(p), "shapeA": a, "shapeB": b, "quantile": beta(float(p), a, b)}
    for a, b in shapes
    for p in ["5e-7", "0.005", "0.025", "0.1", "0.495"]
]
json.dump(
    {
        "source": "definition integrals of the normal and the beta distribution, root search at 60 digits, mpmath " + __import__("mpmath").__version__,
        "generator": "quantiles.py",
        "licence": "facts",
        "normal": normal_cases,
        "beta": beta_cases,
    },
    open("quantiles.json", "w"),
    indent=1,
)
