"""A lot: electrodes, breakages, minutes, cost and price of all rows of a job."""
import itertools
import math
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache

from hole import (EPS, NORMAL, Z90, chain, depth_plan, ends_of, handling, median, size_verdict, spreads, verdict_class)

# ---------------------------------------------------------------- electrodes for a lot
def pack(types, U):
    """Fewest electrodes for types (target, wear, count): (electrodes, lower bound, plan).

    A set fits if for each level q the wear of its holes with target >= q stays <= U - q.
    """
    types = sorted((t for t in types if t[2] > 0), reverse=True)
    if not types:
        return 0, 0, []
    if len(types) == 1:
        q, w, n = types[0]
        each = max(1, math.floor((U - q) / w + EPS)) if w > 0 else n   # a hole always fits on one of its own
        made = math.ceil(n / each)
        return made, made, [((min(each, n),), made)]
    bound = 0
    for q, _, _ in types:
        load = sum(w * n for t, w, n in types if t >= q - EPS)
        bound = max(bound, math.ceil(load / (U - q) - EPS) if U > q else 0)

    def fill(counts):
        """Sets of holes that fit on one electrode, each with as many of the shallowest as still fit."""
        out = []

        def go(i, used, chosen):
            q, w, _ = types[i]
            most = max(0, min(counts[i], math.floor((U - q - used) / w + EPS) if w > 0 else counts[i]))
            if i == len(types) - 1:
                out.append((*chosen, most))
                return
            for n in range(most, -1, -1):
                go(i + 1, used + n * w, (*chosen, n))
        go(0, 0.0, ())
        alone = [tuple(int(i == j) for j in range(len(types))) for i in range(len(types)) if counts[i]]
        return [p for p in dict.fromkeys(out + alone) if any(p)]

    counts = tuple(n for _, _, n in types)
    found = None
    for key in (lambda p: p, lambda p: sum(n * t[1] for n, t in zip(p, types))):
        plan, left, made = [], counts, 0               # deep first; then fullest first
        while any(left):
            p = max(fill(left), key=key)
            times = min(a // b for a, b in zip(left, p) if b)
            plan.append((p, times))
            made += times
            left = tuple(a - times * b for a, b in zip(left, p))
        if found is None or made < found[0]:
            found = (made, bound, plan)
    if found[0] == bound or math.prod(n + 1 for n in counts) > 4000:
        return found

    @lru_cache(maxsize=None)
    def best(left):                                    # small lots: exact search
        if not any(left):
            return 0, None
        return min((1 + best(tuple(a - b for a, b in zip(left, p)))[0], p) for p in fill(left))
    plan, left = [], counts
    while any(left):
        p = best(left)[1]
        plan.append(p)
        left = tuple(a - b for a, b in zip(left, p))
    return len(plan), bound, [(p, plan.count(p)) for p in dict.fromkeys(plan)]

def dress_rule(row):
    n = row.get("dress_every", 1 if row.get("blind") else None)
    return 1 / n if n else 0.0

def shared_in_work(on_tube, setups, U, start, parts):
    """Electrodes that holes share at the median wear, drilled part after part in the table's order, the last one
    as far as it is used."""
    full = U + min(r["dress"] for r in on_tube) * start["dressing_mm"]
    made, left = 0, -1.0
    for name, inside in setups.items():
        for _ in range(parts):
            for r in (r for r in inside if r in on_tube):
                end = r["ends"][0 if r["row"].get("setup", "A") == name else 1]
                q, w, _ = chain(end, U, 1.0)[-1]
                w += r["dress"] * start["dressing_mm"]
                for _ in range(r["holes"]):
                    if left < q + w - EPS:
                        made, left = made + 1, full
                    left -= w
    return made - left / full

def electrodes_for(tube, rows, U, start, z, parts, over=1.0):
    """Electrodes, changes in and between holes, dressings of all rows on one tube at a wear quantile z.

    Shared ones are the fewest times over, rounded up, which is what the order of the work asks for at the median.
    """
    spare = min(r["dress"] for r in rows) * start["dressing_mm"]
    types, early, chained_ends, unchained, consumed, inside = [], 0, 0, False, 0.0, []
    for r in rows:
        again = walk = 0.0
        for end in r["ends"]:
            stages = chain(end, U, math.exp(z * r["s_w"]))
            if stages is None:
                return None
            n = r["holes"] * parts
            early += (len(stages) - 1) * n
            again += (len(stages) - 1) * n
            walk += 2 * sum(s[0] for s in stages[:-1]) * n            # out and in again at rapid
            if len(stages) > 1:
                chained_ends += n
            else:
                unchained = True
            q, w, _ = stages[-1]
            types.append((q, w + r["dress"] * start["dressing_mm"], n))
            consumed += sum(s[1] for s in stages) * n
        inside.append((again, walk))
    shared, bound, plan = pack(types, U + spare)
    shared = math.ceil(shared * over - EPS)
    made = early + shared
    ends = sum(r["holes"] * len(r["ends"]) * parts * r["dress"] for r in rows)
    dressings = max(0, math.floor(ends - made * min(r["dress"] for r in rows) + EPS))
    consumed += dressings * start["dressing_mm"]
    between = chained_ends + max(shared - chained_ends, 1 if unchained else 0) - 1
    return {"electrodes": made, "bound": early + bound, "plan": plan, "inside": inside, "between": between,
            "dressings": dressings, "fill": consumed / (made * U), "shared": shared}

# ---------------------------------------------------------------- breakage
def breakage_chance(start, d, ld):
    if d > start["thin"] + EPS:
        return median(start["breakage"])
    return median(start["breakage_thin"] if ld <= start["breakage_deep_ld"] else start["breakage_thin_deep"])

def beta_binomial_p90(n, p, prior):
    """Smallest k with P(X <= k) >= 0.9, a = prior p, b = prior (1 - p)."""
    a, b = prior * p, prior * (1 - p)
    term = math.exp(math.lgamma(b + n) - math.lgamma(a + b + n) - math.lgamma(b) + math.lgamma(a + b))
    total, k = term, 0
    while total < 0.9 and k < n:
        term *= (n - k) / (k + 1) * (a + k) / (b + n - k - 1)
        total += term
        k += 1
    return k

# ---------------------------------------------------------------- the lot
def planned(house, job, choice):
    """The rows with their tube, ends and spreads; None where one has no feed or is not reached."""
    rows = []
    for row, (tube, count) in zip(job["rows"], choice):
        ends = ends_of(house, row, tube, count)
        if ends is None or max(e["ld"] for e in ends) > 200:
            return None
        s_b, s_w = spreads(house, row, tube, ends)
        plan = depth_plan(house, row, ends[0]["L"], ends[0]["wear"], s_w) if row.get("blind") else None
        rows.append({"row": row, "tube": tube, "p_in": row["size"]["chances"][tube["d"]][0], "ends": ends, "s_b": s_b, "s_w": s_w, "holes": row["holes"],
                     "dress": dress_rule(row), "depth": plan})
    return rows

def setups_of(job, rows):
    """Setup name -> rows drilled in it; '-A' is the opposite of 'A', reached by a turn-over."""
    setups = {}
    for r in rows:
        name = r["row"].get("setup", "A")
        setups.setdefault(name, []).append(r)
        if len(r["ends"]) == 2:
            setups.setdefault(name[1:] if name.startswith("-") else "-" + name, []).append(r)
    return setups

def lot(house, job, rows, expected, zs=(0.0,)):
    """Minutes and money of the lot, at the medians or expected (mean over the wear quantiles zs)."""
    start, machine, rates, parts = house["start"], job["machine"], house["rates"], job["parts"]

    def time(name):
        return handling(start, name, expected)

    by_tube = {}
    for r in rows:
        by_tube.setdefault(r["tube"]["name"], []).append(r)
    minutes = dict.fromkeys(("setup", "first_piece", "load", "turn_over", "guide_change", "holes", "changes_in_hole",
                             "changes_between", "dressing", "breakages", "index", "tilt", "travel"), 0.0)
    by_hand = hand_in_hole = breakage_hand = electrode_cost = tube_loss = guide_cost = 0.0
    figures = {}
    for name, on_tube in by_tube.items():
        tube = on_tube[0]["tube"]
        U = min(tube["length"] - machine["held_back"], machine["stroke"])
        alone = electrodes_for(tube, on_tube, U, start, 0.0, parts)
        if alone is None:
            return None
        over = max(1.0, shared_in_work(on_tube, setups_of(job, rows), U, start, parts) / alone["shared"])
        runs = [electrodes_for(tube, on_tube, U, start, z, parts, over) for z in zs]
        if None in runs:
            return None
        mean = {k: sum(run[k] for run in runs) / len(runs)
                for k in ("electrodes", "between", "dressings")}
        inside = [[sum(run["inside"][i][k] for run in runs) / len(runs) for k in (0, 1)] for i in range(len(on_tube))]
        in_hole = sum(again for again, _ in inside)
        fill = electrodes_for(tube, on_tube, U, start, 0.0, parts, over)["fill"]
        change = time("change_changer" if machine["changer"] else
                      "change_thin" if tube["d"] <= start["thin"] + EPS else "change_hand")
        minutes["changes_in_hole"] += in_hole * change
        minutes["changes_between"] += mean["between"] * change
        minutes["dressing"] += mean["dressings"] * time("dressing")
        if not machine["changer"]:
            hand_in_hole += in_hole * change
            by_hand += mean["between"] * change + mean["dressings"] * time("dressing")
        electrode_cost += mean["electrodes"] * tube["price"]
        all_ends = sum(r["holes"] * len(r["ends"]) for r in on_tube) * parts
        broken = 0.0
        for r, (again, walk) in zip(on_tube, inside):
            n = r["holes"] * parts
            more = again * time("touch_off_s") + walk / machine["head_rapid"]
            minutes["holes"] += more
            more = (more + again * change) / (n * len(r["ends"]))          # more in each of the row's ends
            for end in r["ends"]:
                steps = 2 if r["depth"] and r["depth"]["two_steps"] else 1
                one = (end["spark"] * (math.exp(r["s_b"] ** 2 / 2) if expected else 1)
                       + steps * (time("touch_off_s") + end["q"] / machine["head_rapid"]))
                minutes["holes"] += n * one
                p = breakage_chance(start, tube["d"], end["ld"])
                broken += n * p
                minutes["breakages"] += n * p * (change + (one + more) / 2)
                breakage_hand += 0 if machine["changer"] else n * p * change
        tube_loss += broken * tube["price"] * (1 - fill / 2)
        guide = next((g for g in house["guides"] if abs(g["d"] - tube["d"]) < 1e-6), {"life": 1e9, "price": 0})
        guide_cost += all_ends / guide["life"] * guide["price"]
        figures[name] = dict(mean, in_hole=in_hole, inside=inside, fill=fill, U=U, broken=broken, ends=all_ends, runs=runs,
                             rows=[r["row"].get("name") for r in on_tube])
    done = []
    for name, inside in setups_of(job, rows).items():
        opposite = name[1:] if name.startswith("-") else "-" + name
        minutes["turn_over" if opposite in done else "setup"] += time("turn_over" if opposite in done else "setup")
        done.append(name)
        minutes["first_piece"] += time("first_piece")
        minutes["load"] += parts * time("load")
        # Each part gets all tubes and tilts, or the lot is run once for each and every part loaded again.
        stretches = {(r["tube"]["name"], r["row"].get("entry_deg", 0.0)) for r in inside}
        guides, tilts = len({r["tube"]["d"] for r in inside}) - 1, len({tilt for _, tilt in stretches}) - 1
        by_part = parts * (guides * time("guide_change") + tilts * time("tilt"))
        again = (len(stretches) - 1) * parts * time("load")
        by_lot = guides * time("guide_change") + tilts * time("tilt") + again
        runs = parts if by_part <= by_lot else 1
        minutes["guide_change"] += runs * guides * time("guide_change")
        minutes["tilt"] += runs * tilts * time("tilt")
        minutes["load"] += 0.0 if runs == parts else again
    minutes["index"] = parts * job.get("index_moves", 0) * time("index_s")
    minutes["travel"] = parts * job.get("travel_mm", 0) / machine.get("table_rapid", 3000.0)
    ends = sum(r["holes"] * len(r["ends"]) for r in rows) * parts  # each checked by pin
    running = minutes["holes"] + minutes["index"] + minutes["travel"] + minutes["breakages"] - breakage_hand
    if machine["changer"]:  # It changes and dresses by itself, which is running too.
        running += minutes["changes_in_hole"] + minutes["changes_between"] + minutes["dressing"]
    # Expected is also a first tube that is not right: of each tube the most doubtful row.
    wrong = sum(max(1 - r["p_in"] for r in on_tube) for on_tube in by_tube.values()) if expected else 0.0
    again = minutes["first_tube_again"] = wrong * (time("guide_change") + time("first_piece"))
    labor = {"receive": time("receive"), "setup": minutes["setup"] + minutes["first_piece"],
             "handling": minutes["load"] + minutes["turn_over"] + minutes["guide_change"] + minutes["tilt"] + by_hand + hand_in_hole
             + breakage_hand,
             "first_tube_again": again, "stand_by": machine["attended"] * running,
             "wash": parts * time("wash"), "pin": ends * time("pin"), "pack": parts * time("pack")}
    hours = sum(minutes.values()) / 60
    cost = {"machine": hours * machine["rate"], "labor": sum(labor.values()) / 60 * rates["labor"],
            "electrodes": electrode_cost, "tubes_broken": tube_loss, "guides": guide_cost,
            "dielectric": hours * rates["dielectric"], "power": hours * rates["power"],
            "outside": job.get("outside_per_part", 0.0) * parts}
    cost["redo"] = rates["redo"] * (cost["machine"] + cost["labor"] + cost["electrodes"] + cost["tubes_broken"])
    cost["part_at_risk"] = part_at_risk(start, job, rows)
    return {"minutes": minutes, "labor": labor, "cost": cost, "total": sum(cost.values()), "tubes": figures, "time": time}

def part_at_risk(start, job, rows):
    """Parts x min(value, cap) x (1 - (1 - p0 f) x product (1 - ph f)^holes), f of the worst row for p0."""
    money = min(job.get("part_value", 0.0), job.get("cap", math.inf))
    if not money:
        return 0.0
    factors = [r["row"].get("risk_factor", 1) for r in rows]
    kept = 1 - start["spoil_part"] * max(factors)
    for r, f in zip(rows, factors):
        kept *= (1 - start["spoil_hole"] * f) ** r["holes"]
    return job["parts"] * money * (1 - kept)

WEAR_QUANTILES = [NORMAL.inv_cdf((i - 0.5) / 15) for i in range(1, 16)]

def priced(house, job, rows):
    at_median, expected = lot(house, job, rows, False), lot(house, job, rows, True, WEAR_QUANTILES)
    if at_median is None or expected is None:
        return None
    rates, parts = house["rates"], job["parts"]
    wanted = max(expected["total"] / (1 - rates["margin"]), rates["minimum"])
    unit = Decimal(wanted / parts).quantize(Decimal(1).scaleb(-rates["digits"]), rounding=ROUND_HALF_UP)
    kit = {}
    at_p90 = lot(house, job, rows, False, (Z90,))
    for name, f in at_median["tubes"].items():
        spares = max(1, beta_binomial_p90(f["ends"], f["broken"] / f["ends"], house["start"]["breakage_prior"]))
        high = at_p90["tubes"][name]["electrodes"] if at_p90 else None
        kit[name] = {"by_plan": f["electrodes"], "if_wear_high": high, "spares": spares,
                     "take": None if high is None else high + spares}
    return {"median": at_median, "expected": expected, "not_yet_known": expected["total"] - at_median["total"],
            "unit": unit, "lot_price": unit * parts, "wanted": wanted, "kit": kit}

def risk_factor(row, held):
    """How much likelier a row spoils its part, by its chance of being held; once agreed to, 3 at most."""
    return 1 if held >= 0.98 else 3 if held >= 0.9 or row.get("agreed") else 10

def choices(house, job, row):
    """Tubes and numbers of ends a row may take, with its size verdict put into the row."""
    machine, start = job["machine"], house["start"]
    slowest = min(row["layers"], key=lambda layer: median(house["families"][layer["family"]]["feed"]))
    material = house["families"][slowest["family"]]["tube"]
    L = sum(layer["mm"] for layer in row["layers"])
    stock = [t for t in house["tubes"] if machine["tube_mm"][0] - EPS <= t["d"] <= machine["tube_mm"][1] + EPS
             and t["length"] <= machine["tube_length"] + EPS and t["material"] == material]
    several = bool(row.get("blind"))
    stock = [t for t in stock if (t["channels"] > 1) == (several and t["d"] >= start["channels_from"] - EPS)] or stock
    from_an_end = L / 2 if row.get("ends") == 2 else L
    taper = 0.0 if row.get("blind") else start["taper_per_100"] * from_an_end / 100
    held, ties, chances = size_verdict(start, row["limits"], taper, sorted({t["d"] for t in stock}))
    row["size"] = {"held": held, "verdict": verdict_class(held, row["holes"] * job["parts"]), "chances": chances}
    row["risk_factor"] = risk_factor(row, held)
    if "tube" in row:
        tubes = [t for t in house["tubes"] if t["name"] == row["tube"]]
    else:
        tubes = [t for t in stock if t["d"] in ties]
    counts = [row["ends"]] if "ends" in row else [1] if row.get("blind") or not row.get("both_open") or L <= 2 * start["overlap"] else [1, 2]
    return [(t, c) for t in tubes for c in counts]

def recompute(house, job):
    """The cheapest plan by expected cost over tubes that tie, stock lengths and ends."""
    options = [choices(house, job, row) for row in job["rows"]]
    best = None
    for choice in itertools.product(*options):
        rows = planned(house, job, choice)
        result = priced(house, job, rows) if rows else None
        if result and (best is None or result["expected"]["total"] < best[0] - 1e-9):
            best = (result["expected"]["total"], rows, result)
    return best and (best[1], best[2])
