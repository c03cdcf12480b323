"""Writes calibrate.json: quantiles of Student's t and of chi-square by root search at 50 digits, and one Tobit fit by spot weights.

The fit is a second route: the root of the likelihood's derivatives, all of them taken as differences at 50 digits.
"""
import json
from mpmath import mp, mpf, betainc, gammainc, erfc, sqrt, log, pi, nstr, findroot, diff

mp.dps = 50


def digits(value):
    return float(nstr(value, 20))


def bisected(share, low, high):
    low, high = mpf(low), mpf(high)
    for _ in range(170):
        middle = (low + high) / 2
        if share(middle):
            low = middle
        else:
            high = middle
    return (low + high) / 2


def student(tail, v):
    def above(t):
        return betainc(mpf(v) / 2, mpf(1) / 2, 0, v / (v + t * t), regularized=True) / 2
    return digits(bisected(lambda t: above(t) > mpf(tail), 0, 10000))


def chi_square(p, v):
    return digits(bisected(lambda x: gammainc(mpf(v) / 2, 0, x / 2, regularized=True) < mpf(p), 0, 10 * v + 200))


# Errors of four spots (predicted less measured); a missed frame errs by more than its bound.
walk = [
    [("heard", 3.0), ("heard", 5.5)],
    [("heard", -2.0), ("missed", 1.0), ("heard", 0.5)],
    [("heard", 8.0), ("missed", 6.0)],
    [("missed", 4.0), ("missed", 9.0)],
    [("heard", 1.25)],
]


def negative_log_likelihood(b, log_s):
    s = mp.e ** log_s
    total = mpf(0)
    for spot in walk:
        for kind, e in spot:
            z = (mpf(e) - b) / s
            one = -z * z / 2 - log(s) - log(2 * pi) / 2 if kind == "heard" else log(erfc(z / sqrt(2)) / 2)
            total -= one / len(spot)
    return total


f = negative_log_likelihood
root = findroot(lambda b, t: [diff(f, (b, t), (1, 0)), diff(f, (b, t), (0, 1))], (mpf(4), mpf(1)))
hess = mp.matrix([[diff(f, (root[0], root[1]), (2, 0)), diff(f, (root[0], root[1]), (1, 1))],
                  [diff(f, (root[0], root[1]), (1, 1)), diff(f, (root[0], root[1]), (0, 2))]])
meat = mp.zeros(2)
everything = walk
for spot in everything:
    walk = [spot]  # the likelihood of this spot alone
    g = mp.matrix([diff(f, (root[0], root[1]), (1, 0)), diff(f, (root[0], root[1]), (0, 1))])
    meat += g * g.T
count = len(everything)
cov = hess ** -1 * meat * hess ** -1 * count / (count - 1)

json.dump({
    "source": "definitions, mpmath at 50 digits; checked against scipy.stats t.isf and chi2.ppf",
    "generator": "calibrate.py",
    "licence": "facts",
    "student": [{"tail": p, "degreesOfFreedom": v, "t": student(p, v)}
                for p in ("0.25", "0.05", "0.025", "0.005", "0.00005") for v in (1, 2, 5, 17, 120, 5000)],
    "chiSquare": [{"probability": p, "degreesOfFreedom": v, "quantile": chi_square(p, v)}
                  for p in ("0.00005", "0.025", "0.25", "0.75", "0.975", "0.99995") for v in (1, 2, 5, 15, 120, 3000)],
    "tobitBySpot": {"biasDb": digits(root[0]), "sigmaDb": digits(mp.e ** root[1]), "standardErrorDb": digits(sqrt(cov[0, 0])),
                    "walk": [[{"missed": k == "missed", "errorDb": e} for k, e in spot] for spot in everything]},
}, open("calibrate.json", "w"), indent=1)
