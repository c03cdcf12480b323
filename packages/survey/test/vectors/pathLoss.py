"""Writes pathLoss.json: tails of the normal distribution at 60 digits (mpmath), and fits with missed frames made by general-purpose
minimisers of SciPy from likelihoods written down here, on the 108 frames of tests/reference/survey-vectors.json and on three sets drawn here."""
import json
from pathlib import Path

import numpy as np
from mpmath import erfc, exp, log, mp, mpf, pi, sqrt
from scipy import __version__ as scipy_version
from scipy.optimize import brentq, minimize
from scipy.special import expit, log_ndtr, logit

mp.dps = 60
ROOT = Path(__file__).resolve().parents[4]
rows = json.loads((ROOT / "tests/reference/survey-vectors.json").read_text())["pathLossFit"]["rows"]


def tails():
    cases = []
    for z in [-10000, -500, -100, -40, -38.5, -37, -20, -10, -6, -5.66, -5.65, -5, -4, -3, -2, -1, -0.7, -0.66, -0.5, -0.25, -1e-3, 0, 1e-3, 0.25, 0.5, 0.66, 1, 2, 3, 5, 8]:
        m = mpf(z)
        share = erfc(-m / sqrt(2)) / 2
        cases.append({"z": z, "logShare": float(log(share)), "inverseMills": float(exp(-m * m / 2) / sqrt(2 * pi) / share)})
    return cases


def columns(frames):
    d = np.array([f["distanceM"] for f in frames], float)
    r = np.array([f["received"] for f in frames], bool)
    y = np.array([f["powerDbm"] if f["received"] else np.nan for f in frames], float)
    t = np.array([f["thresholdDbm"] for f in frames], float)
    return 10 * np.log10(d), r, y, t


def nll(p, data, loss=None, break_db=None):
    """p = level at the mean distance, exponent, ln spread, [second slope's excess], [logit of the constant loss]."""
    x, r, y, t = data
    c = x.mean()
    mu = p[0] - p[1] * (x - c)
    k = 3
    if break_db is not None:
        mu = mu - p[k] * np.maximum(0, x - break_db)
        k += 1
    s = np.exp(p[2])
    z = (y[r] - mu[r]) / s
    got = -0.5 * z**2 - np.log(s) - 0.5 * np.log(2 * np.pi)
    tail = log_ndtr((t[~r] - mu[~r]) / s)
    if loss:
        q = expit(p[k])
        got = got + np.log1p(-q)
        tail = np.log(q + (1 - q) * np.exp(tail))
    return -(got.sum() + tail.sum())


def settle(f, start):
    best = None
    for _ in range(6):
        for method, options in [("Nelder-Mead", dict(xatol=1e-10, fatol=1e-13, maxiter=20000, maxfev=20000, adaptive=True)), ("BFGS", dict(gtol=1e-9))]:
            got = minimize(f, start if best is None else best.x, method=method, options=options)
            if best is None or got.fun <= best.fun:
                best = got
    return best


def law(best, data, extra=()):
    c = data[0].mean()
    return {"interceptDbm": best.x[0] + best.x[1] * c, "exponent": best.x[1], "sigmaDb": float(np.exp(best.x[2])), "logLik": -best.fun}


def hessian(f, p, h=1e-4):
    n = len(p)
    out = np.zeros((n, n))
    for i in range(n):
        for j in range(n):
            def at(a, b):
                q = np.array(p, float)
                q[i] += a * h
                q[j] += b * h
                return f(q)
            out[i, j] = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * h * h)
    return out


def profile(data, best, which, confidence=0.95):
    """Ends of the likelihood-ratio interval of the exponent or of ln spread."""
    from scipy.stats import chi2
    bound = chi2.ppf(confidence, 1) / 2
    place = {"exponent": 1, "logSigma": 2}[which]
    others = [i for i in range(3) if i != place]

    def fall(v):
        def f(q):
            p = np.zeros(3)
            p[place] = v
            p[others] = q
            return nll(p, data)
        return settle(f, best.x[others]).fun - best.fun - bound
    at = best.x[place]
    se = np.sqrt(np.linalg.inv(hessian(lambda p: nll(p, data), best.x))[place, place])
    return [brentq(fall, at - 4 * se, at, xtol=1e-9), brentq(fall, at, at + 4 * se, xtol=1e-9)]


def cluster_cr1(frames, data, best):
    """Standard errors by spot from scores taken by differences."""
    h = 1e-5
    f = lambda p: nll(p, data)
    bread = np.linalg.inv(hessian(f, best.x))
    spots = sorted({row["spot"] for row in frames})
    scores = []
    for spot in spots:
        take = np.array([row["spot"] == spot for row in frames])
        x, r, y, t = data
        # The mean distance must stay that of all frames.
        def part(p):
            mu = p[0] - p[1] * (x - x.mean())
            s = np.exp(p[2])
            a = take & r
            b = take & ~r
            return (-0.5 * ((y[a] - mu[a]) / s) ** 2 - np.log(s)).sum() + log_ndtr((t[b] - mu[b]) / s).sum()
        row = []
        for j in range(3):
            e = np.zeros(3)
            e[j] = h
            row.append((part(best.x + e) - part(best.x - e)) / (2 * h))
        scores.append(row)
    meat = np.array(scores).T @ np.array(scores)
    g, n, p = len(spots), len(frames), 3
    v = bread @ meat @ bread * g / (g - 1) * (n - 1) / (n - p)
    return {"spots": g, "seExponent": float(np.sqrt(v[1, 1])), "seLogSigma": float(np.sqrt(v[2, 2]))}


def drawn(seed, n, b, slope, s, threshold, loss=0.0, break_m=None, beyond=None):
    rng = np.random.default_rng(seed)
    d = np.round(10 ** rng.uniform(2, 3.8, n), 1)
    x = 10 * np.log10(d)
    mu = b - slope * x
    if break_m:
        mu -= (beyond - slope) * np.maximum(0, x - 10 * np.log10(break_m))
    y = np.round(mu + rng.normal(0, s, n), 2)
    r = (y >= threshold) & (rng.uniform(size=n) >= loss)
    return [{"distanceM": float(a), "powerDbm": float(v) if k else None, "thresholdDbm": threshold, "received": bool(k)} for a, v, k in zip(d, y, r)]


data = columns(rows)
best = settle(lambda p: nll(p, data), [-110, 2.9, 1.6])
spread_of = lambda pair: [float(np.exp(v)) for v in pair]
plain = {**law(best, data), "exponent95": profile(data, best, "exponent"), "sigmaDb95": spread_of(profile(data, best, "logSigma")), "bySpotCr1": cluster_cr1(rows, data, best)}

lossy_rows = drawn(11, 160, -22, 3.0, 5.5, -128, loss=0.12)
lossy_data = columns(lossy_rows)
lossy_plain = settle(lambda p: nll(p, lossy_data), [-110, 3, 1.7])
lossy = settle(lambda p: nll(p, lossy_data, loss=True), [*lossy_plain.x, -2])
q = float(expit(lossy.x[3]))
se = float(np.sqrt(np.linalg.inv(hessian(lambda p: nll(p, lossy_data, loss=True), lossy.x))[3, 3])) * q * (1 - q)

bent_rows = drawn(12, 160, -35, 2.2, 4, -132, break_m=1000, beyond=4.0)
bent_data = columns(bent_rows)
bent_plain = settle(lambda p: nll(p, bent_data), [-110, 3, 1.7])
at_1000 = settle(lambda p: nll(p, bent_data, break_db=30.0), [*bent_plain.x, 0.5])
found = max(
    ((-settle(lambda p: nll(p, bent_data, break_db=b), at_1000.x).fun, b) for b in np.arange(24, 34, 0.1)),
)

out = {
    "source": f"mpmath {__import__('mpmath').__version__} (tails), SciPy {scipy_version} (minimisers, log_ndtr)",
    "generator": "pathLoss.py",
    "licence": "facts",
    "tails": tails(),
    "plain": plain,
    "constantLoss": {"truth": 0.12, "rows": lossy_rows, "plain": law(lossy_plain, lossy_data), "fit": {**law(lossy, lossy_data), "lossRatio": q, "seLossRatio": se}},
    "twoSlopes": {"truth": [2.2, 4.0, 1000], "rows": bent_rows, "plain": law(bent_plain, bent_data), "at1000M": {**law(at_1000, bent_data), "beyondExponent": float(at_1000.x[1] + at_1000.x[3])}, "grid": {"logLik": float(found[0]), "breakpointM": float(10 ** (found[1] / 10))}},
}
(Path(__file__).parent / "pathLoss.json").write_text(json.dumps(out, indent=1) + "\n")
