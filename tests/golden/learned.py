#!/usr/bin/env python3
"""What is learned of run records, worked by a general-purpose library: the fixture of a test.

    tests/golden/learned.py > tests/golden/learned.json

Needs numpy and scikit-learn. The posterior is that of sklearn.gaussian_process.GaussianProcessRegressor with
the linear kernel sklearn.gaussian_process.kernels.DotProduct on features whose prior covariance is one: it
conditions on the records themselves (records by records), where the program solves for the unknowns, and
carries what is a lot's own as unknowns, where the program sums it away. Only the rounds of weighing are the
same, since they are what is to be checked. Every number of the records is invented.
"""

import json
import math
import warnings

import numpy as np
from sklearn.gaussian_process import GaussianProcessRegressor
from sklearn.gaussian_process.kernels import DotProduct

START = {
    "shop": 0.35, "machine": 0.15, "family": 0.30, "grade": 0.20, "electrode": 0.10, "size_class": 0.15,
    "by_diameter": 0.20, "by_depth": 0.15, "lot": 0.27, "burn_and_wear": 0.5, "handling_shop": 0.35,
    "handling_machine": 0.20, "gap_shop": 0.25, "handling_lot": 0.15, "gap_machine": 0.15, "gap_size_class": 0.10, "gap_lot": 0.10,
}
HOLE, YEAR, FREEDOM, ROUNDS, WORTH_LOTS = 0.15, 0.1, 4.0, 5, 15.0
OF_A_KIND = 0.3
ESTIMATES_LOT = 2
PARTS = ("burn", "wear", "handling", "gap")


def terms(part, like):
    size = sum(like["tube_mm"] > end for end in (0.4, 0.9, 1.8))
    if part in ("burn", "wear"):
        depth = math.log(max(like["depth_mm"] / like["tube_mm"], 1.0) / 20.0)
        return [
            (("shop",), 1.0, START["shop"]),
            (("machine", like["machine"]), 1.0, START["machine"]),
            (("family", like["family"]), 1.0, START["family"]),
            (("grade", like["grade"]), 1.0, START["grade"]),
            (("electrode", like["electrode"]), 1.0, START["electrode"]),
            (("size", like["family"], size), 1.0, START["size_class"]),
            (("by_diameter",), math.log(like["tube_mm"]), START["by_diameter"]),
            (("by_depth",), depth, START["by_depth"]),
        ]
    if part == "handling":
        return [(("shop",), 1.0, START["handling_shop"]), (("machine", like["machine"]), 1.0, START["handling_machine"])]
    return [
        (("shop",), 1.0, START["gap_shop"]),
        (("machine", like["machine"]), 1.0, START["gap_machine"]),
        (("size", size), 1.0, START["gap_size_class"]),
    ]


def own(lot):
    together = START["burn_and_wear"]
    return np.array([
        [lot**2, together * lot**2, 0, 0],
        [together * lot**2, lot**2, 0, 0],
        [0, 0, START["handling_lot"]**2, 0],
        [0, 0, 0, START["gap_lot"]**2],
    ])


class Features:
    """Unknowns of one deviation each; burn and wear of a term are two of them, mixed."""

    def __init__(self):
        self.place = {}

    def of(self, part, like):
        """The features of a factor, as a dictionary of places."""
        together = START["burn_and_wear"]
        found = {}
        for key, times, deviation in terms(part, like):
            if part in ("burn", "wear"):
                one = self.place.setdefault(("both", key), len(self.place))
                other = self.place.setdefault(("wear's own", key), len(self.place))
                if part == "burn":
                    found[one] = found.get(one, 0.0) + times * deviation
                else:
                    found[one] = found.get(one, 0.0) + together * times * deviation
                    found[other] = found.get(other, 0.0) + math.sqrt(1 - together**2) * times * deviation
            else:
                at = self.place.setdefault((part, key), len(self.place))
                found[at] = found.get(at, 0.0) + times * deviation
        return found


def records():
    """Records of a shop, invented."""
    made = []
    for at in range(40):
        tube = 0.3 + 0.17 * (at % 13)
        like = {
            "machine": at % 3, "family": at % 4, "grade": at % 4 * 10 + at % 7 % 2, "electrode": at % 2,
            "tube_mm": round(tube, 3), "depth_mm": round(tube * (6 + 7 * (at % 11)), 3),
        }
        wave = math.sin(1.7 * at) * 0.4 + 0.3
        ratio = lambda value, reading: {"of_planned": round(math.exp(value), 6), "reading": reading}
        made.append({
            "lot": at // 3, "like": like, "holes": 4.0 + 9 * (at % 5), "age_years": round(0.11 * (at % 9), 3),
            "burn": ratio(wave + (1.0 if at == 17 else 0.0), 0.05) if at % 3 else None,
            "wear": ratio(0.6 * wave - 0.1 * (at % 4), 0.08) if at % 4 else None,
            "floor": {
                "minutes": round(100 * math.exp(0.5 * wave) * (3.0 if at == 24 else 1.0), 4),
                "burn_min": 60.0, "wear_min": 12.0 + at, "handling_min": 25.0, "reading": 0.1,
            } if at % 3 == 0 else None,
            "gap": ratio(0.3 * math.cos(at), 0.12) if at % 5 == 1 else None,
        })
    return made


def apart(floor):
    """How far what is not burned may lie off in holes of one kind, as a share of all minutes."""
    rest = floor["wear_min"] + floor["handling_min"]
    return OF_A_KIND * rest / (floor["burn_min"] + rest)


def main():
    warnings.simplefilter("ignore")
    made = records()
    asked = [
        {"machine": 0, "family": 0, "grade": 0, "electrode": 0, "tube_mm": 0.7, "depth_mm": 21.0},
        {"machine": 2, "family": 3, "grade": 31, "electrode": 1, "tube_mm": 1.5, "depth_mm": 90.0},
        {"machine": 7, "family": 9, "grade": 99, "electrode": 5, "tube_mm": 0.25, "depth_mm": 3.0},
    ]
    features = Features()
    told = []
    for record in made:
        age = YEAR**2 * record["age_years"]
        holes = HOLE**2 / record["holes"]
        for at, part in enumerate(PARTS):
            if part != "handling" and record[part]:
                reading = record[part]["reading"]
                told.append({
                    "lot": record["lot"], "kind": part, "own": np.eye(4)[at], "sum": features.of(part, record["like"]),
                    "value": math.log(record[part]["of_planned"]),
                    "variance": reading**2 + age + (0.0 if part == "gap" else holes),
                })
        if record["floor"]:
            told.append({
                "lot": record["lot"], "kind": "floor", "floor": record["floor"],
                "sums": [features.of(part, record["like"]) for part in PARTS[:3]],
                "variance": holes + age + record["floor"]["reading"]**2 + apart(record["floor"])**2,
            })
    wanted = [[features.of(part, like) for part in PARTS] for like in asked]
    known = len(features.place)
    lots = sorted({each["lot"] for each in told})
    width = known + 4 * len(lots)

    def row(found):
        dense = np.zeros(width)
        for at, times in found.items():
            dense[at] = times
        return dense

    weights, lot = np.ones(len(told)), START["lot"]
    mean, owns = np.zeros(width), {each: np.zeros(4) for each in lots}
    for turn in range(ROUNDS):
        mixed = np.linalg.cholesky(own(lot))
        rows, values, straight = [], [], []
        for each in told:
            if each["kind"] == "floor":
                floor = each["floor"]
                sums = [row(part) for part in each["sums"]]
                logs = [part @ mean + owns[each["lot"]][at] for at, part in enumerate(sums)]
                minutes = [floor[name] * math.exp(log) for name, log in zip(("burn_min", "wear_min", "handling_min"), logs)]
                slopes = [part / sum(minutes) for part in minutes]
                dense = sum(slope * part for slope, part in zip(slopes, sums))
                shares = np.array([*slopes, 0.0])
                value = math.log(floor["minutes"]) - math.log(sum(minutes)) + sum(s * l for s, l in zip(slopes, logs))
            else:
                dense, shares, value = row(each["sum"]), each["own"], each["value"]
            from_lot = known + 4 * lots.index(each["lot"])
            dense = dense.copy()
            dense[from_lot:from_lot + 4] += mixed.T @ shares
            rows.append(dense)
            values.append(value)
            straight.append(shares)
        rows, values = np.array(rows), np.array(values)
        noise = np.array([each["variance"] for each in told]) / weights
        regressor = GaussianProcessRegressor(DotProduct(sigma_0=0, sigma_0_bounds="fixed"), alpha=noise, optimizer=None)
        regressor.fit(rows, values)
        posterior, covariance = regressor.predict(np.eye(width), return_cov=True)
        mean = posterior.copy()
        mean[known:] = 0.0
        squares = 0.0
        for at, each in enumerate(lots):
            part = slice(known + 4 * at, known + 4 * at + 4)
            owns[each] = mixed @ posterior[part]
            # In deviations the prior of burn and wear is one.
            spread = covariance[part, part] + np.outer(posterior[part], posterior[part])
            squares += np.trace(spread[:2, :2]) / 2 * lot**2
        for at, each in enumerate(told):
            error = (values[at] - rows[at] @ posterior) / math.sqrt(each["variance"])
            weights[at] = (FREEDOM + 1) / (FREEDOM + error**2)
        if turn == ESTIMATES_LOT:
            lot = math.sqrt((WORTH_LOTS * START["lot"]**2 + squares) / (WORTH_LOTS + len(lots)))
    expected = []
    for like, sums in zip(asked, wanted):
        dense = np.array([row(part) for part in sums])
        spread = dense @ covariance @ dense.T
        expected.append({
            "like": like, "mean": list(dense @ mean), "unknown": list(np.diag(spread)),
            "burn_and_wear": float(spread[0, 1] + own(lot)[0, 1]),
        })
    print(json.dumps({"records": made, "lot": lot, "weights": list(weights), "expected": expected}, indent=1))


if __name__ == "__main__":
    main()
