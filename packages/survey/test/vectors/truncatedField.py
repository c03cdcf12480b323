"""Makes truncatedField.json: mean and deviation of a Gaussian field where some samples are only known to lie below a bound.

By brute force: 4e6 draws of the joint normal distribution given the samples with a level, of which those that keep all bounds count.
"""

import json

import numpy as np

rng = np.random.default_rng(11)
place = np.array([[0, 0], [300, 0], [600, 100], [900, -100], [1000, 200], [500, 600]], float)
level = np.array([2.0, -3.0, np.nan, np.nan, 1.0, np.nan])
bound = np.array([np.nan, np.nan, -4.0, -6.0, np.nan, 3.0])
target = np.array([[750, 0], [600, 100], [500, 600], [150, 50]], float)
sill, scale, nugget = 49.0, 300.0, 4.0
every = np.vstack([place, target])
gap = np.hypot(every[:, None, 0] - every[None, :, 0], every[:, None, 1] - every[None, :, 1])
covariance = sill * np.exp(-gap / scale)
covariance[np.arange(6), np.arange(6)] += nugget
known = np.flatnonzero(~np.isnan(level))
rest = np.setdiff1d(np.arange(10), known)
gain = covariance[np.ix_(rest, known)] @ np.linalg.inv(covariance[np.ix_(known, known)])
mean = gain @ level[known]
spread = covariance[np.ix_(rest, rest)] - gain @ covariance[np.ix_(known, rest)]
draws = rng.multivariate_normal(mean, spread, 4_000_000, method="cholesky")
limits = bound[rest[rest < 6]]
kept = draws[(draws[:, : len(limits)] < limits).all(axis=1)][:, len(limits) :]
with open("truncatedField.json", "w") as file:
    json.dump(
        {
            "source": f"NumPy {np.__version__}, rejection sampling",
            "shadowing": {"shadowingDb": 7, "decorrelationM": scale, "nuggetDb": 2},
            "samples": [
                {"eastM": p[0], "northM": p[1], "levelDb": None if np.isnan(z) else z, "belowDb": None if np.isnan(b) else b}
                for p, z, b in zip(place.tolist(), level, bound)
            ],
            "keptDraws": len(kept),
            "targets": [
                {"eastM": t[0], "northM": t[1], "mean": m, "deviation": d}
                for t, m, d in zip(target.tolist(), kept.mean(axis=0), kept.std(axis=0))
            ],
        },
        file,
        indent=1,
    )
