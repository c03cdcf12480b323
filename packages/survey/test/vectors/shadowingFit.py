"""Makes shadowingFit.json: greatest likelihoods of a Gaussian field with exponential covariance, by SciPy's optimiser from many starts.

The field is simulated here (seed 7) and its samples are written with the answer. Independent of the package: dense solves of NumPy.
"""

import json

import numpy as np
from scipy.optimize import minimize

rng = np.random.default_rng(7)
n = 60
xy = np.round(rng.uniform(-1500, 1500, (n, 2)), 1)
distance = np.hypot(xy[:, None, 0] - xy[None, :, 0], xy[:, None, 1] - xy[None, :, 1])
truth = {"shadowingDb": 7.0, "decorrelationM": 350.0, "nuggetDb": 3.0}
frames = rng.integers(1, 12, n)
covariance = 49 * np.exp(-distance / 350) + np.diag(9 / frames)
level = np.round(rng.multivariate_normal(np.full(n, 2.0), covariance), 3)
ones = np.ones((n, 1))


def minus_log_likelihood(x, restricted):
    sill, scale, nugget = np.exp(2 * x[0]), np.exp(x[1]), np.exp(2 * x[2])
    v = sill * np.exp(-distance / scale) + np.diag(nugget / frames)
    inverse = np.linalg.inv(v)
    gram = ones.T @ inverse @ ones
    rest = level - (ones @ np.linalg.solve(gram, ones.T @ inverse @ level))
    core = np.linalg.slogdet(v)[1] + rest @ inverse @ rest
    if restricted:
        return (core + np.linalg.slogdet(gram)[1] + (n - 1) * np.log(2 * np.pi)) / 2
    return (core + n * np.log(2 * np.pi)) / 2


def fit(restricted):
    best = None
    for scale in (60, 200, 600, 1500):
        for nugget in (0.5, 3):
            start = np.log([6, scale, nugget])
            options = {"xatol": 1e-10, "fatol": 1e-13, "maxiter": 20000, "maxfev": 20000}
            found = minimize(minus_log_likelihood, start, (restricted,), method="Nelder-Mead", options=options)
            if best is None or found.fun < best.fun:
                best = found
    s, a, g = np.exp(best.x)
    return {"shadowingDb": s, "decorrelationM": a, "nuggetDb": g, "logLikelihood": -best.fun}


with open("shadowingFit.json", "w") as file:
    samples = [
        {"eastM": x, "northM": y, "levelDb": z, "frames": int(f)} for (x, y), z, f in zip(xy.tolist(), level.tolist(), frames)
    ]
    json.dump(
        {"source": f"NumPy {np.__version__}, SciPy", "truth": truth, "restricted": fit(True), "full": fit(False), "samples": samples},
        file,
        indent=1,
    )
