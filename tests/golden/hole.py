"""A hole by itself: size, minutes, wear, depth. One plain function per rule; millimeters and minutes.

A band [lo, hi] is P10 to P90 of a lognormal: median sqrt(lo hi), deviation of the logarithm
ln(hi/lo) / (2 x 1.2816). Written from the rules and not from the program's code: it is there to
disagree with the program where either is wrong.
"""
import math
from functools import lru_cache
from statistics import NormalDist

NORMAL = NormalDist()
phi = NORMAL.cdf
Z90 = NORMAL.inv_cdf(0.9)
EPS = 1e-9

# ---------------------------------------------------------------- bands and tables
def median(band):
    return math.sqrt(band[0] * band[1])

def sigma(band):
    return math.log(band[1] / band[0]) / (2 * Z90)

def linear(x, points):
    """Linear between the points, constant outside them."""
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in zip(points, points[1:]):
        if x <= x1:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]

def lnln(x, points):
    """Straight in the logarithms between the points; None outside them."""
    if x < points[0][0] - EPS or x > points[-1][0] + EPS:
        return None
    return math.exp(linear(math.log(x), [(math.log(a), math.log(b)) for a, b in points]))

def start_deviation(start, d, ld):
    """Deviation of the logarithm of burn or of wear of a lot before any record."""
    dev = start["start_dev"]
    plain = sum(dev[k] ** 2 for k in ("shop", "machine", "family", "grade", "electrode", "size_class", "lot"))
    return math.sqrt(plain + (dev["slope_ln_d"] * math.log(d)) ** 2
                     + (dev["slope_ln_ld"] * math.log(max(ld, 1) / 20)) ** 2)

def handling(start, name, expected):
    """A handling time in minutes: median, or mean of its lognormal."""
    band = start[name]
    minutes = median(band) / (60 if name.endswith("_s") else 1)
    if expected:
        widest = max(sigma(band), math.hypot(*start["start_dev"]["handling"]))
        minutes *= math.exp(widest ** 2 / 2)
    return minutes

# ---------------------------------------------------------------- size
@lru_cache(maxsize=None)
def size_terms(table, d):
    """Median gap per side, deviation of its logarithm, scatter of the size from hole to hole."""
    gap, scatter, least, tolerance = table
    lo = linear(d, [(p[0], p[1]) for p in gap])
    hi = linear(d, [(p[0], p[2]) for p in gap])
    return median((lo, hi)), max(sigma((lo, hi)), least), math.hypot(linear(d, scatter), tolerance / math.sqrt(3))

def size_table(start):
    return (tuple(map(tuple, start["gap_mm"])), tuple(map(tuple, start["size_scatter"])),
            start["gap_sigma_least"], start["tube_tolerance"])

def size_verdict(start, limits, taper, tubes):
    """(chance held after the first piece, tubes that tie as the first, {tube: (P in, P over)}).

    Taper counts on the lower limit; 99 quantiles i/100 of the lot's gap; P is never below 0.
    """
    lo, hi = limits
    table = size_table(start)
    quantiles = [NORMAL.inv_cdf(i / 100) for i in range(1, 100)]
    target = (lo + hi + taper) / 2
    tubes = [d for d in tubes if hi - 1.5 < d < hi]
    held, first = 0.0, {d: [0.0, 0.0] for d in tubes}
    for z in quantiles:
        best = 0.0
        for d in tubes:
            gap, dev, s = size_terms(table, d)
            gap *= math.exp(z * dev)
            size = d + 2 * gap
            first[d][0] += max(0.0, phi((hi - size) / s) - phi((lo + taper - size) / s)) / 99
            first[d][1] += (1 - phi((hi - size) / s)) / 99
            move = max(0.015, 0.25 * 2 * gap)
            size += max(-move, min(move, target - size))
            best = max(best, phi((hi - size) / s) - phi((lo + taper - size) / s))
        held += best / 99
    best_in = max((p for p, _ in first.values()), default=0.0)
    able = {d: p - over for d, (p, over) in first.items() if p >= best_in / 4}
    if best_in < 0.05:
        return held, [], first
    top = max(able.values())
    return held, [d for d in tubes if able.get(d, -9) >= top - 0.02 and first[d][1] <= 0.5], first

def verdict_class(held, holes_in_lot):
    name = ("comfortable" if held >= 0.98 else "tight" if held >= 0.9
            else "not to be promised" if held >= 0.5 else "stop")
    if name == "comfortable" and holes_in_lot * (1 - held) > 1:
        name = "tight"
    return name

def effort(start, limits):
    """Feed factor of a close tolerance, by the width of the typed limits; None is a stop."""
    width = round(limits[1] - limits[0], 6)
    return None if width < start["effort"][0][0] - EPS else linear(width, start["effort"])

# ---------------------------------------------------------------- one end of a hole
def feed_and_wear(house, row, tube):
    """Per layer (thickness, feed at depth 0, wear by length shallow), or None outside the tables."""
    start = house["start"]
    by_d, wear_d = lnln(tube["d"], start["feed_by_d"]), lnln(min(tube["d"], 3.0), start["wear_by_d"])
    if by_d is None or wear_d is None:
        return None
    several = tube["channels"] > 1
    slower = 1.0 if row.get("max_only") else effort(start, row["limits"])
    if slower is None:
        return None
    layers = []
    for layer in row["layers"]:
        family = house["families"][layer["family"]]
        feed = median(layer.get("feed", family["feed"])) * by_d * slower * row.get("interrupted", 1.0)
        wear = median(layer.get("wear", family["wear"])) * wear_d
        layers.append((layer["mm"], feed * (start["channels_feed"] if several else 1),
                       wear * (start["channels_wear"] if several else 1)))
    return layers

def cut(layers, depth):
    """The layers down to a depth."""
    out, z = [], 0.0
    for mm, feed, wear in layers:
        take = min(mm, depth - z)
        if take > EPS:
            out.append((take, feed, wear))
        z += mm
    return out

def slowed(z, d, start):
    """Integral of f(0)/f from 0 to z: z (1 + (z/(d s))^m / (m + 1))."""
    z = max(z, 0.0)
    m = start["depth_m"]
    return z * (1 + (z / (d * median(start["depth_s"]))) ** m / (m + 1))

def burn(layers, a, b, d, start):
    """Minutes of full metal from depth a to b, layer by layer, as a difference."""
    total, z = 0.0, 0.0
    for mm, feed, _ in layers:
        lo, hi = max(a, z), min(b, z + mm)
        if hi > lo:
            total += (slowed(hi, d, start) - slowed(lo, d, start)) / feed
        z += mm
    return total

def feed_at(layers, z, d, start):
    return layers[-1][1] / (1 + (z / (d * median(start["depth_s"]))) ** start["depth_m"])

def rise(d, start):
    """a of W(z) = rho z (1 + a z): wear 100 diameters deep is k times that of a shallow hole."""
    return (median(start["wear_at_100"]) - 1) / (100 * d)

def wear_between(end, a, b, factor=1.0):
    """Length lost between two depths: rho (z (1 + a z)) layer by layer, as a difference."""
    total, z = 0.0, 0.0
    for mm, _, wear in end["layers"]:
        lo, hi = max(a, z), min(b, z + mm)
        if hi > lo:
            total += wear * factor * (hi * (1 + end["rise"] * hi) - lo * (1 + end["rise"] * lo))
        z += mm
    return total

def reach(end, begun, U, factor):
    """Depth z' with z' + wear(begun to z') = U; the root of a quadratic in the layer it lies in."""
    worn, top = 0.0, 0.0
    for mm, _, wear in end["layers"]:
        bottom, z = top + mm, max(begun, top)
        if bottom > z + EPS:
            loss = wear_between(end, z, bottom, factor)
            if bottom + worn + loss >= U - EPS:
                rho, a = wear * factor, end["rise"]
                left = U - worn + rho * z * (1 + a * z)
                return 2 * left / (1 + rho + math.sqrt((1 + rho) ** 2 + 4 * rho * a * left))
            worn += loss
        top = bottom
    return top

def chain(end, U, factor):
    """The electrodes of one end as (target, wear, depth begun at); None where it is not reached.

    One electrode gets to z' with z' + wear(z to z') = U; the last must get to the target.
    """
    stages, z = [], 0.0
    for _ in range(60):
        last = wear_between(end, z, end["L"], factor)
        if end["q"] + last <= U + EPS:
            return stages + [(end["q"], last, z)]
        reached = reach(end, z, U, factor)
        if reached - z < 1e-6:
            return None
        stages.append((reached, U - reached, z))
        z = reached
    return None

def ends_of(house, row, tube, count):
    """The one or two ends of a hole: metal depth, zones, target, minutes by part."""
    start, d = house["start"], tube["d"]
    layers = feed_and_wear(house, row, tube)
    if layers is None:
        return None
    L = sum(layer[0] for layer in layers)
    zones = [d * math.tan(math.radians(row.get(k, 0))) for k in ("entry_deg", "exit_deg")]
    clear = row.get("overtravel_mm", max(start["overtravel_least"], start["overtravel_d"] * d))
    if row.get("blind"):
        parts = [(L, layers, zones[0], 0.0, 0.0)]
    elif count == 1:
        parts = [(L, layers, zones[0], zones[1], clear)]
    else:  # The first end goes half the overlap past the middle, the second breaks into it like a clear exit.
        over = start["overlap"]
        far = layers[::-1]
        parts = [((L + over) / 2, cut(layers, (L + over) / 2), zones[0], 0.0, 0.0),
                 ((L - over) / 2, cut(far, (L - over) / 2), zones[1], 0.0, max(over, clear))]
    ends = []
    for mm, own, zi, zo, over in parts:
        # Zones: the half inside the depth at the feed of that depth, the half outside at that of the face.
        inner, outer = zi / 2, mm - zo / 2
        if inner > outer:  # no full metal at all; the zones part in proportion
            inner = outer = mm * zi / (zi + zo)
        face, deep = own[0][1], feed_at(own, mm, d, start)
        end = {"L": mm, "layers": own, "q": mm + zo / 2 + over, "rise": rise(d, start), "ld": mm / d,
               "entry": (zi / 2 / face + burn(own, 0.0, inner, d, start)) / start["zone_feed"],
               "full": burn(own, inner, outer, d, start),
               "exit": (zo / 2 / deep + burn(own, outer, mm, d, start)) / start["zone_feed"],
               "over": over / (start["overtravel_feed"] * deep)}
        end["spark"] = end["entry"] + end["full"] + end["exit"] + end["over"]
        end["wear"] = wear_between(end, 0, mm)
        ends.append(end)
    return ends

def spreads(house, row, tube, ends):
    """Deviations of the logarithm of burn and of wear of the row's lot."""
    start, d = house["start"], tube["d"]
    L = max(e["L"] for e in ends)
    least = start_deviation(start, d, L / d)
    x = (L / (d * median(start["depth_s"]))) ** start["depth_m"]
    share = x / (start["depth_m"] + 1)
    law = start["depth_m"] * share / (1 + share) * sigma(start["depth_s"])
    k, D = median(start["wear_at_100"]), L / (100 * d)
    up = k * D / (1 + (k - 1) * D) * sigma(start["wear_at_100"])
    own = [house["families"][layer["family"]] | layer for layer in row["layers"]]
    # Layers weigh by their minutes and by the length lost in them, as in a shallow hole.
    minutes = [f["mm"] / median(f["feed"]) for f in own]
    lost = [f["mm"] * median(f["wear"]) for f in own]
    feed = sum(m * sigma(f["feed"]) for m, f in zip(minutes, own)) / sum(minutes)
    wear = sum(w * sigma(f["wear"]) for w, f in zip(lost, own)) / sum(lost)
    return max(least, math.hypot(feed, law)), max(least, math.hypot(wear, up))

# ---------------------------------------------------------------- blind depth
def general_tolerance(L):
    """ISO 2768-1, class m."""
    for top, tol in ((6, 0.1), (30, 0.2), (120, 0.3), (400, 0.5), (1000, 0.8)):
        if L <= top:
            return tol
    return 1.2

def depth_plan(house, row, L, wear, s_w):
    """First try (a setting), never beyond (the tip), scatter, whether in two steps."""
    start = house["start"]
    rho, hole = wear / L, start["hole_scatter"]
    scatter = Z90 * L * rho / (1 + rho) * hole
    allowed = row.get("depth_tol", general_tolerance(L))
    p2 = math.exp(NORMAL.inv_cdf(0.02) * math.hypot(s_w, hole))
    two = scatter > allowed
    return {"first_try": L + wear * p2, "tip_at_first_try": (L + wear * p2) / (1 + rho), "never_beyond": L + allowed,
            "scatter": scatter, "allowed": allowed, "two_steps": two, "left": scatter / 5 if two else scatter}
