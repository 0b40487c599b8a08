"""The four jobs line by line. Each line's formula is the text shown, evaluated on the lines above it;
hole.py and lot.py are only asked at the end whether they agree, figure by figure."""
import math
import re
from statistics import NormalDist

FUN = {"sqrt": math.sqrt, "ln": math.log, "exp": math.exp, "floor": math.floor, "ceil": math.ceil, "max": max, "min": min,
       "tan": lambda a: math.tan(math.radians(a))}
QUANTILES = [NormalDist().inv_cdf((i - 0.5) / 15) for i in range(1, 16)]


def num(v):
    return "%d" % v if float(v).is_integer() and abs(v) < 1e7 else "%.7g" % v


class Sheet:
    def __init__(self):
        self.out, self.common, self.env, self.job, self.figures = [], {}, {}, None, {}

    def begin(self, job, title):
        self.job, self.env, self.figures[job] = job, dict(self.common), {}
        self.out.append("\n## %s\n" % title)

    def table(self, title):
        self.out.append("\n%s\n\n| figure | formula | result |\n|---|---|---|" % title)

    def shown(self, formula, free=()):
        text = re.sub(r"[A-Za-z_]\w*", lambda m: num(self.env[m[0]]) if m[0] in self.env and m[0] not in free else m[0], formula)
        return text.replace("**", "^").replace("*", "x").replace("|", "\\|")

    def put(self, name, formula, unit="", figure=None):
        """One line: a name, its formula with the numbers put in, its result."""
        value = eval(formula, {"__builtins__": {}}, {**FUN, **self.env})
        shown = self.shown(formula)
        self.env[name] = value
        self.out.append("| %s | %s | %s |" % (name, shown, (num(value) + " " + unit).strip()))
        if figure:
            self.figures[self.job][figure] = value
        return value

    def say(self, name, formula, result):
        self.out.append("| %s | %s | %s |" % (name, formula, result))

    def known(self, figure, value):
        """A figure told in words or worked by rule (chances of a size), not by one formula."""
        self.figures[self.job][figure] = value

    def size(self, r, parts):
        """Chances of a row: means over 99 quantiles of the lot's gap, too long to write out."""
        row, held = r["row"]["name"], r["row"]["size"]["held"]
        inside, over = r["row"]["size"]["chances"][r["tube"]["d"]]
        put = self.env
        put["held" + row], put["in" + row] = held, inside
        self.say("held" + row, "mean of 99 quantiles of the gap", "%s: %s" % (num(held), r["row"]["size"]["verdict"]))
        self.say("tube" + row, "greatest P(in) - P(over), or as typed", "%s: P(in) %s, P(over) %s" % (r["tube"]["name"], num(inside), num(over)))
        for figure, value in (("held", held), ("p_in", inside), ("p_over", over), ("tube", r["tube"]["name"])):
            self.known("row.%s.%s" % (row, figure), value)
        self.put("outside" + row, "%d*%d*(1-held%s)" % (parts, r["holes"], row), "holes expected outside in the lot", "row.%s.outside" % row)

    def burn(self, name, L, f0, d, start="0"):
        self.put(name, "(%s-%s)/%s + (%s*(%s/(%s*ds))**1.5 - %s*(%s/(%s*ds))**1.5)/2.5/%s" % (L, start, f0, L, L, d, start, start, d, f0), "min")

    def spread(self, name, d, L, figures=()):
        self.put(name, "sqrt(0.35**2+0.15**2+0.30**2+0.20**2+0.10**2+0.15**2+0.27**2+(0.20*ln(%s))**2+(0.15*ln(max(%s/%s,1)/20))**2)" % (d, L, d),
                 "deviation of burn and wear")
        for figure in figures:
            self.known(figure, self.env[name])

    def replan(self, name, formula, s, unit):
        """Mean of a whole number over the 15 wear quantiles; w stands for the wear factor."""
        got = [eval(formula, {"__builtins__": {}}, {**FUN, **self.env, "w": math.exp(z * self.env[s])}) for z in QUANTILES]
        self.env[name] = sum(got) / 15
        self.say(name, "mean over 15 of %s, w = exp(z %s): %s" % (self.shown(formula, ("w",)), num(self.env[s]), ", ".join(num(g) for g in got)),
                 "%s %s" % (num(self.env[name]), unit))

    def spares(self, name, ends, p, tube):
        a, b = 50 * p, 50 * (1 - p)
        total, k, shown = 0.0, 0, []
        while True:
            total += math.exp(math.lgamma(ends + 1) - math.lgamma(k + 1) - math.lgamma(ends - k + 1) + math.lgamma(k + a)
                              + math.lgamma(ends - k + b) - math.lgamma(ends + a + b) + math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b))
            shown.append("%d: %.4f" % (k, total))
            if total >= 0.9:
                break
            k += 1
        k = max(1, k)  # at least one
        self.env[name] = k
        self.say(name, "at least 1; beta-binomial n %d, a %.5f, b %.5f; P(X <= k) ... %s" % (ends, a, b, ", ".join(shown[-3:])), k)
        self.known("tube.%s.spares" % tube, k)

    def minutes(self, machine, labor, x=""):
        """Minutes by kind, then their sums and hours; only the median ones are figures of the program."""
        for side, kinds in (("machine", machine), ("labor", labor)):
            for kind, formula in kinds.items():
                self.put("%s_%s%s" % (side[0], kind, x), formula, "min", None if x else "%s.%s" % (side, kind))
            self.put("%s_hours%s" % (side, x), "(%s)/60" % "+".join("%s_%s%s" % (side[0], kind, x) for kind in kinds), "h",
                     None if x else "hours." + side)

    def money(self, rate, electrodes, broken, guides, risk="0", x=""):
        put = self.put
        figure = (lambda name: None) if x else (lambda name: "cost." + name)
        put("c_machine" + x, "machine_hours%s*%s" % (x, rate), "", figure("machine"))
        put("c_labor" + x, "labor_hours%s*50" % x, "", figure("labor"))
        put("c_bought" + x, electrodes)
        put("c_broken" + x, broken, "what broken tubes leave unused")
        put("c_electrodes" + x, "c_bought%s + c_broken%s" % (x, x), "", figure("electrodes"))
        put("c_guides" + x, guides, "", figure("guides"))
        put("c_dielectric" + x, "machine_hours%s*1.9" % x, "", figure("dielectric"))
        put("c_power" + x, "machine_hours%s*1" % x, "", figure("power"))
        put("c_redo" + x, "0.03*(c_machine%s+c_labor%s+c_electrodes%s)" % (x, x, x), "", figure("redo"))
        put("c_risk" + x, risk, "", figure("part_risk"))
        put("cost" + x, "+".join("c_%s%s" % (c, x) for c in ("machine", "labor", "electrodes", "guides", "dielectric", "power", "redo", "risk")),
            "", "cost.expected" if x else "cost.median")

    def close(self, parts):
        self.put("not_yet_known", "cost_x - cost", "", "cost.not_yet_known")
        self.put("wanted", "max(cost_x/(1-0.3), 165)")
        unit = math.floor(self.env["wanted"] / parts * 100 + 0.5) / 100
        self.say("unit price", "%.4f / %d, half away from zero" % (self.env["wanted"], parts), "%.2f" % unit)
        self.say("lot price", "%.2f x %d" % (unit, parts), "%.2f" % (unit * parts))
        self.known("price.unit", "%.2f" % unit)
        self.known("price.lot", "%.2f" % (unit * parts))

    def hole(self, row, **parts):
        """A row's minutes by part, as the program shows them for one hole over all its ends."""
        for part in ("touch_off", "entry", "full_metal", "exit", "overtravel", "retract", "changes"):
            self.put("%s%s" % (part, row), parts.get(part, "0"), "min", "row.%s.%s" % (row, part))
        self.put("minutes" + row, "+".join("%s%s" % (part, row) for part in
                 ("touch_off", "entry", "full_metal", "exit", "overtravel", "retract", "changes")), "min, one hole", "row.%s.minutes" % row)


def handling(sheet):
    sheet.env = sheet.common
    sheet.table("Handling times: median of the band, and mean with the deviation widened to at least sqrt(0.35^2 + 0.2^2)")
    put = sheet.put
    put("z90", "1.2815515655446004")
    put("s_wide", "sqrt(0.35**2 + 0.20**2)")
    for name, lo, hi in (("setup", 30, 60), ("first", 5, 10), ("load", 2, 5), ("turn", 15, 30), ("guide", 5, 10), ("hand", 2, 3), ("thin", 4, 6),
                         ("changer", 0.4, 0.6), ("tilt", 10, 15), ("dress", 0.5, 1), ("receive", 10, 20), ("wash", 1, 3), ("pin", 0.1, 0.25), ("pack", 0.5, 2)):
        put(name, "sqrt(%s*%s)" % (lo, hi), "min")
        put(name + "_x", "%s * exp(max(ln(%s/%s)/(2*z90), s_wide)**2/2)" % (name, hi, lo), "min")
    put("touch", "sqrt(5*15)/60", "min")
    put("touch_x", "touch * exp(max(ln(15/5)/(2*z90), s_wide)**2/2)", "min")
    put("ds", "sqrt(60*100)", "diameters: depth that halves the feed")
    put("k100", "sqrt(1*1.5)", "wear at L/d 100 against shallow")


def job1(sheet, rows, _):
    sheet.begin("1-plain", "1. Plain lot: tool steel, Barrow (changer), 10 parts of 4 through holes 1.0 +-0.05, 12 deep, square faces")
    put, table = sheet.put, sheet.table
    table("Size; taper 0.03 x 12/100 = 0.0036 on the lower limit")
    sheet.size(rows[0], 10)
    table("One hole, tube brass 0.90 x 400 (0.58), U = min(400 - 95, 350) = 305")
    put("f0", "sqrt(15*35)*1*1", "mm/min; size factor 1 (0.8-1.2), effort 1 (width 0.1)")
    sheet.burn("full", 12, "f0", 0.9)
    put("clear", "max(1, 2.5*0.9)", "mm overtravel")
    put("f_exit", "f0/(1+(12/(0.9*ds))**1.5)", "mm/min")
    put("q", "12 + clear", "mm, what the tip must reach")
    sheet.hole("A", touch_off="touch", full_metal="full", overtravel="clear/(3*f_exit)", retract="q/3000")
    put("spark", "full_metalA + overtravelA", "min")
    put("size_wear", "exp(ln(1.3) + (ln(0.9)-ln(0.5))/(ln(1)-ln(0.5))*(ln(1)-ln(1.3)))", "wear at 0.9 against 1 mm")
    put("rise", "(k100-1)/(100*0.9)", "a of W(z) = rho z (1 + a z)")
    put("wear", "sqrt(0.4*1.2)*size_wear*12*(1+rise*12)", "mm", "row.A.wear")
    sheet.spread("s", 0.9, 12, ("row.A.s_burn", "row.A.s_wear"))
    table("Lot of 40 holes")
    tube = "brass 0.90 x 400"
    put("each", "floor((305-q)/wear)", "holes on an electrode")
    put("electrodes", "ceil(40/each)", "", "tube.%s.needed" % tube)
    put("fill", "40*wear/(electrodes*305)")
    put("p", "sqrt(0.002*0.01)", "tubes broken for each hole")
    put("broken", "40*p", "", "tube.%s.breakages" % tube)
    put("el_high", "ceil(40/floor((305-q)/(wear*exp(z90*s))))", "electrodes at P90 wear", "tube.%s.if_wear_high" % tube)
    sheet.spares("spares", 40, sheet.env["p"], tube)
    put("take", "el_high + spares", "", "tube.%s.kit" % tube)
    put("burn_x", "exp(s**2/2)", "mean of sparking minutes against their median")
    put("hole_x", "touch_x + spark*burn_x + retractA", "min, expected")
    sheet.replan("electrodes_x", "ceil(40/floor((305-q)/(wear*w)))", "s", "electrodes")
    put("again_x", "(1-inA)*(guide_x+first_x)", "min: a first tube that is not right")
    for x, hole, el in (("", "minutesA", "electrodes"), ("_x", "hole_x", "electrodes_x")):
        table("Expected" if x else "At the medians")
        put("rest" + x, "broken*(changer%s + %s/2)" % (x, hole), "min lost to breakages")
        k = {"x": x, "hole": hole, "el": el, "again": " + again_x" if x else ""}
        machine = {"set_up": "setup{x}", "first_piece": "first{x}", "load": "10*load{x}", "holes": "40*{hole}",
                   "electrode_changes": "({el}-1)*changer{x}", "breakages": "rest{x}"}
        labor = {"receive": "receive{x}", "set_up": "setup{x}+first{x}", "handling": "10*load{x}",
                 "stand_by": "0.35*(40*{hole} + ({el}-1)*changer{x} + rest{x})", "wash": "10*wash{x}", "inspect": "40*pin{x}", "pack": "10*pack{x}"}
        if x:
            machine["again"] = labor["again"] = "again_x"
        sheet.minutes(*({n: f.format(**k) for n, f in kinds.items()} for kinds in (machine, labor)), x)
        sheet.money(70, el + "*0.58", "broken*0.58*(1-fill/2)", "40/400*26", x=x)
    sheet.close(10)


def job2(sheet, rows, _):
    sheet.begin("2-thin", "2. Thin tubes: stainless, Wren (by hand), 5 parts; A 40 holes 0.4 +-0.05 12 deep; B 20 holes 0.25 +-0.04 3 deep")
    put, table = sheet.put, sheet.table
    table("Size; taper 0.0036 and 0.0009")
    for r in rows:
        sheet.size(r, 5)
    for r, d, L, tube, U, feed, wear_f, n, eff in (
            ("A", 0.3, 12, "brass 0.30 x 300", "min(300-75, 220)", 0.55, 1.6, 200, "1"),
            ("B", 0.2, 3, "brass 0.20 x 200", "min(200-75, 220)", 0.4, 2.0, 100, "0.8+0.2*(0.08-0.05)/0.05")):
        table("Row %s, tube %s" % (r, tube))
        put("U" + r, U, "mm")
        put("f" + r, "sqrt(10*30)*%s*(%s)" % (feed, eff), "mm/min, by size and effort of the limits")
        sheet.burn("full" + r, L, "f" + r, d)
        put("clear" + r, "max(1, 2.5*%s)" % d, "mm")
        put("q" + r, "%s + clear%s" % (L, r), "mm")
        sheet.hole(r, touch_off="touch", full_metal="full" + r, overtravel="clear%s/(3*f%s/(1+(%s/(%s*ds))**1.5))" % (r, r, L, d),
                   retract="q%s/6000" % r)
        put("spark" + r, "full_metal%s + overtravel%s" % (r, r), "min")
        put("wear" + r, "sqrt(0.4*1.2)*%s*%s*(1+(k100-1)/(100*%s)*%s)" % (wear_f, L, d, L), "mm", "row.%s.wear" % r)
        sheet.spread("s" + r, d, L, ("row.%s.s_burn" % r, "row.%s.s_wear" % r))
        put("each" + r, "floor((U%s-q%s)/wear%s)" % (r, r, r), "holes on an electrode")
        put("el" + r, "ceil(%d/each%s)" % (n, r), "", "tube.%s.needed" % tube)
        put("fill" + r, "%d*wear%s/(el%s*U%s)" % (n, r, r, r))
        put("p" + r, "sqrt(%s)" % ("0.02*0.06" if L / d > 30 else "0.01*0.03"), "tubes broken for each hole, L/d %g" % (L / d))
        put("broken" + r, "%d*p%s" % (n, r), "", "tube.%s.breakages" % tube)
        put("high" + r, "ceil(%d/floor((U%s-q%s)/(wear%s*exp(z90*s%s))))" % (n, r, r, r, r), "at P90 wear", "tube.%s.if_wear_high" % tube)
        sheet.spares("spares" + r, n, sheet.env["p" + r], tube)
        put("take" + r, "high%s + spares%s" % (r, r), "", "tube.%s.kit" % tube)
        put("hole%s_x" % r, "touch_x + spark%s*exp(s%s**2/2) + retract%s" % (r, r, r), "min, expected")
        sheet.replan("el%s_x" % r, "ceil(%d/floor((U%s-q%s)/(wear%s*w)))" % (n, r, r, r), "s" + r, "electrodes")
    table("Two tubes in a setup: the lot run once per tube, or each part getting both")
    put("passes", "5*load + guide", "min: five more loads and one guide change")
    put("by_part", "5*guide", "min: a guide change for each part; more, so once per tube")
    put("again_x", "(1-inA + 1-inB)*(guide_x+first_x)", "min: a first tube that is not right")
    for x in ("", "_x"):
        table("Expected" if x else "At the medians")
        k = {"x": x, "a": "holeA_x" if x else "minutesA", "b": "holeB_x" if x else "minutesB"}
        put("half" + x, "brokenA*{a}/2 + brokenB*{b}/2".format(**k), "min in holes lost to breakages")
        machine = {"set_up": "setup{x}", "first_piece": "first{x}", "load": "10*load{x}", "holes": "200*{a} + 100*{b}",
                   "electrode_changes": "(elA{x}-1 + elB{x}-1)*thin{x}", "guide_changes": "guide{x}",
                   "breakages": "(brokenA+brokenB)*thin{x} + half{x}"}
        labor = {"receive": "receive{x}", "set_up": "setup{x}+first{x}",
                 "handling": "10*load{x} + guide{x} + (elA{x}-1 + elB{x}-1 + brokenA+brokenB)*thin{x}",
                 "stand_by": "0.6*(200*{a} + 100*{b} + half{x})", "wash": "5*wash{x}", "inspect": "300*pin{x}", "pack": "5*pack{x}"}
        if x:
            machine["again"] = labor["again"] = "again_x"
        sheet.minutes(*({n: f.format(**k) for n, f in kinds.items()} for kinds in (machine, labor)), x)
        sheet.money(64, "elA%s*1.10 + elB%s*0.79" % (x, x), "brokenA*1.10*(1-fillA/2) + brokenB*0.79*(1-fillB/2)", "200/250*42 + 100/250*42", x=x)
    sheet.close(5)


def deep_common(sheet, rows):
    put, table = sheet.put, sheet.table
    tube = "brass 3.00 x 1000"
    table("Common; tube %s (2.95)" % tube)
    for r in rows:
        sheet.size(r, 6)
    put("U", "min(1000-170, 900)", "mm")
    put("f0", "sqrt(15*35)*0.35", "mm/min at 3 mm")
    put("rho", "sqrt(0.4*1.2)*0.7", "shallow, at 3 mm")
    put("rise", "(k100-1)/(100*3)", "a of W(z) = rho z (1 + a z)")
    put("clear", "max(1, 2.5*3)", "mm")
    put("p", "sqrt(0.002*0.01)", "tubes broken for each end")
    sheet.spread("sB", 3, 60, ("row.B.s_burn", "row.B.s_wear"))
    put("qB", "60+clear", "mm")
    sheet.burn("fullB", 60, "f0", 3)
    sheet.hole("B", touch_off="touch", full_metal="fullB", overtravel="clear/(3*f0/(1+(60/(3*ds))**1.5))", retract="qB/2000")
    put("sparkB", "full_metalB + overtravelB", "min")
    put("wearB", "rho*60*(1+rise*60)", "mm", "row.B.wear")
    put("holeB_x", "touch_x + sparkB*exp(sB**2/2) + qB/2000", "min, expected")
    put("again_x", "(1-min(inA,inB))*(guide_x+first_x)", "min: one tube, the most doubtful of its rows")
    return tube


def plans(sheet, result):
    """What packing of mixed targets came to at the 15 wear quantiles; searched, not a formula."""
    f = next(iter(result["expected"]["tubes"].values()))
    for name, value in (("electrodes_x", f["electrodes"]), ("between_x", f["between"]), ("in_hole_x", f["in_hole"]), ("walk_x", f["inside"][0][1])):
        sheet.env[name] = value
    runs = f["runs"]
    sheet.say("electrodes_x", "mean of the 15 plans: " + ", ".join(num(r["electrodes"]) for r in runs), num(f["electrodes"]))
    sheet.say("between_x", "changes between holes, mean of the 15 plans: " + ", ".join(num(r["between"]) for r in runs), num(f["between"]))
    sheet.say("in_hole_x", "changes in holes A, mean of the 15 plans: " + ", ".join(num(r["inside"][0][0]) for r in runs), num(f["in_hole"]))
    sheet.say("walk_x", "mm out and in again in holes A, mean of the 15 plans: " + ", ".join("%.1f" % r["inside"][0][1] for r in runs), num(f["inside"][0][1]))


def job3_one(sheet, rows, result):
    sheet.begin("3-one-end", "3a. Chain: tool steel, Spire (1000 mm tube, 170 held back, by hand), 6 parts; A 2 holes 2.95-3.45, 550 deep,\n"
                "drilled from one end by word of the estimator; B 1 hole of the same size, 60 deep")
    put, table = sheet.put, sheet.table
    tube = deep_common(sheet, rows)
    table("A from one end")
    put("wearA", "rho*550*(1+rise*550)", "mm in all", "row.A.wear")
    put("qA", "550+clear", "mm")
    put("needA", "qA+wearA", "mm; above U: more than one electrode")
    put("z1", "2*U/(1+rho+sqrt((1+rho)**2+4*rho*rise*U))", "mm, where the first gets to: z + rho z (1 + a z) = U")
    put("restA", "wearA - rho*z1*(1+rise*z1)", "mm, wear of the second")
    put("need2", "qA+restA", "mm; not above U: two electrodes")
    sheet.spread("sA", 3, 550)
    put("x", "(550/(3*ds))**1.5/2.5", "share of the depth law")
    put("burnA", "max(sA, sqrt((ln(35/15)/(2*z90))**2 + (1.5*x/(1+x)*ln(100/60)/(2*z90))**2))", "deviation of burn", "row.A.s_burn")
    put("D", "550/(100*3)")
    put("wornA", "max(sA, sqrt((ln(1.2/0.4)/(2*z90))**2 + (k100*D/(1+(k100-1)*D)*ln(1.5/1)/(2*z90))**2))", "deviation of wear", "row.A.s_wear")
    sheet.burn("fullA", 550, "f0", 3)
    sheet.hole("A", touch_off="touch", full_metal="fullA", overtravel="clear/(3*f0/(1+(550/(3*ds))**1.5))", retract="qA/2000",
               changes="hand + touch + 2*z1/2000")
    put("sparkA", "full_metalA + overtravelA", "min")
    put("each", "1 + floor((U-qA-2*restA)/(2*restA+wearB))", "parts on an electrode that finishes them one after another: A, A, B")
    put("stub", "U - each*(2*restA+wearB)", "mm left then")
    put("next", "qA+restA", "mm for the next part's first A: it asks for another electrode")
    put("shared", "ceil(6/each)", "electrodes for the second stages and B of 6 parts")
    put("electrodes", "12 + shared", "", "tube.%s.needed" % tube)
    put("between", "12 + max(shared-12, 1) - 1", "changes between holes: chained ends + max(shared - chained, 1) - 1")
    put("broken", "(12+6)*p", "", "tube.%s.breakages" % tube)
    put("fill", "(12*wearA + 6*wearB)/(electrodes*U)")
    high = result["kit"][tube]["if_wear_high"]
    sheet.env["high"] = high
    sheet.say("high", "electrodes at P90 wear, packed", high)
    sheet.known("tube.%s.if_wear_high" % tube, high)
    sheet.spares("spares", 18, sheet.env["p"], tube)
    put("take", "high + spares", "", "tube.%s.kit" % tube)
    plans(sheet, result)
    put("endA_x", "touch_x + sparkA*exp(burnA**2/2) + qA/2000", "min, expected, without changes")
    put("moreA_x", "(in_hole_x*(hand_x+touch_x) + walk_x/2000)/12", "min, changes in one hole A")
    for x in ("", "_x"):
        table("Expected" if x else "At the medians")
        k = {"x": x, "a": "(endA_x+moreA_x)" if x else "minutesA", "b": "holeB_x" if x else "minutesB", "inside": "in_hole_x" if x else "12"}
        put("half" + x, "12*p*{a}/2 + 6*p*{b}/2".format(**k), "min in holes lost to breakages")
        machine = {"set_up": "setup{x}", "first_piece": "first{x}", "load": "6*load{x}", "holes": "12*{a} + 6*{b}",
                   "electrode_changes": "between{x}*hand{x}", "breakages": "broken*hand{x} + half{x}"}
        labor = {"receive": "receive{x}", "set_up": "setup{x}+first{x}", "handling": "6*load{x} + ({inside}+between{x}+broken)*hand{x}",
                 "stand_by": "0.5*(12*{a} + 6*{b} - {inside}*hand{x} + half{x})", "wash": "6*wash{x}", "inspect": "18*pin{x}", "pack": "6*pack{x}"}
        if x:
            machine["again"] = labor["again"] = "again_x"
        sheet.minutes(*({n: f.format(**k) for n, f in kinds.items()} for kinds in (machine, labor)), x)
        sheet.money(76, "electrodes%s*2.95" % x, "broken*2.95*(1-fill/2)", "18/600*24", x=x)
    sheet.close(6)


def job3_both(sheet, rows, result):
    sheet.begin("3-both-ends", "3b. The same with nothing said about the ends: both ends cost less, so both are planned.\n"
                "First end 275.5 deep (half the depth and half the overlap of 1), second 274.5 and overtravel as past any clear exit")
    put, table = sheet.put, sheet.table
    tube = deep_common(sheet, rows)
    table("A from both ends")
    put("wear1", "rho*275.5*(1+rise*275.5)", "mm")
    put("wear2", "rho*274.5*(1+rise*274.5)", "mm")
    put("wearA", "wear1 + wear2", "mm", "row.A.wear")
    put("q2", "274.5+clear", "mm")
    sheet.burn("full1", 275.5, "f0", 3)
    sheet.burn("full2", 274.5, "f0", 3)
    sheet.hole("A", touch_off="2*touch", full_metal="full1 + full2", overtravel="clear/(3*f0/(1+(274.5/(3*ds))**1.5))", retract="(275.5+q2)/2000")
    sheet.spread("s2", 3, 275.5, ("row.A.s_burn", "row.A.s_wear"))
    put("each1", "floor((U-275.5)/wear1)", "first ends on an electrode")
    put("each2", "floor((U-q2)/wear2)", "second ends on an electrode")
    put("low", "max(ceil((12*wear1+12*wear2)/(U-275.5)), ceil((12*wear1+12*wear2+6*wearB)/(U-qB)))", "lower bound by level")
    put("electrodes", "12/each1 + 12/each2", "4 of three first ends, 4 of three second ends; the 6 holes B on their stubs", "tube.%s.needed" % tube)
    put("stub", "U - 3*wear1", "mm left on one; a hole B needs qB + wearB = %.1f" % (sheet.env["qB"] + sheet.env["wearB"]))
    put("broken", "30*p", "", "tube.%s.breakages" % tube)
    put("fill", "(12*(wear1+wear2) + 6*wearB)/(electrodes*U)")
    high = result["kit"][tube]["if_wear_high"]
    sheet.env["high"] = high
    sheet.say("high", "electrodes at P90 wear, packed", high)
    sheet.known("tube.%s.if_wear_high" % tube, high)
    sheet.spares("spares", 30, sheet.env["p"], tube)
    put("take", "high + spares", "", "tube.%s.kit" % tube)
    plans(sheet, result)
    put("endsA_x", "2*touch_x + (full_metalA+overtravelA)*exp(s2**2/2) + retractA", "min, expected, both ends without changes")
    put("moreA_x", "(in_hole_x*(hand_x+touch_x) + walk_x/2000)/12", "min, changes in one hole A")
    for x in ("", "_x"):
        table("Expected" if x else "At the medians")
        k = {"x": x, "a": "(endsA_x+moreA_x)" if x else "minutesA", "b": "holeB_x" if x else "minutesB", "inside": "in_hole_x" if x else "0",
             "between": "between_x" if x else "(electrodes-1)"}
        put("half" + x, "24*p*{a}/2/2 + 6*p*{b}/2".format(**k), "min in holes lost to breakages: half an end each")
        machine = {"set_up": "setup{x}", "first_piece": "2*first{x}", "load": "12*load{x}", "turn_over": "turn{x}", "holes": "12*{a} + 6*{b}",
                   "electrode_changes": "{between}*hand{x}", "breakages": "broken*hand{x} + half{x}"}
        labor = {"receive": "receive{x}", "set_up": "setup{x}+2*first{x}", "handling": "12*load{x} + turn{x} + ({inside}+{between}+broken)*hand{x}",
                 "stand_by": "0.5*(12*{a} + 6*{b} - {inside}*hand{x} + half{x})", "wash": "6*wash{x}", "inspect": "30*pin{x}", "pack": "6*pack{x}"}
        if x:
            machine["again"] = labor["again"] = "again_x"
        sheet.minutes(*({n: f.format(**k) for n, f in kinds.items()} for kinds in (machine, labor)), x)
        sheet.money(76, "electrodes%s*2.95" % x, "broken*2.95*(1-fill/2)", "30/600*24", x=x)
    sheet.close(6)


def job4(sheet, rows, _):
    sheet.begin("4-layers", "4. Layers, a tilted entry, a blind row: 8 parts on Barrow, worth 400 each, cap 300.\n"
                "A: 6 through holes 0.85-1.0, carbide 3 on tool steel 12, 30 degrees off the normal of parallel faces, copper 0.80 x 400 (0.75).\n"
                "B: 2 blind holes 1.05-1.2, tool steel 20 deep, brass 1.00 x 400 with 3 channels (1.01), no depth tolerance given")
    put, table = sheet.put, sheet.table
    copper, brass = "copper 0.80 x 400", "brass 1.00 x 400 of 3 channels"
    table("Row A")
    sheet.size(rows[0], 8)
    put("U", "min(400-95, 350)", "mm, both tubes")
    put("fC", "sqrt(2*10)*1", "mm/min, carbide at 0.8")
    put("fS", "sqrt(15*35)*1", "mm/min, steel")
    put("zi", "0.8*tan(30)", "mm entry zone; the wall's faces are parallel, so the exit zone is as long")
    sheet.burn("full1", 3, "fC", 0.8, "zi/2")
    sheet.burn("full2", "(15-zi/2)", "fS", 0.8, 3)
    put("f_exit", "fS/(1+(15/(0.8*ds))**1.5)", "mm/min")
    put("qA", "15+zi/2+2", "mm; overtravel 2.5 x 0.8 = 2")
    sheet.burn("in_zone", "(zi/2)", "fC", 0.8)
    sheet.burn("out_zone", 15, "fS", 0.8, "(15-zi/2)")
    sheet.hole("A", touch_off="touch", entry="(zi/2/fC + in_zone)/0.5", full_metal="full1+full2", exit="(out_zone + zi/2/f_exit)/0.5", overtravel="2/(3*f_exit)", retract="qA/3000")
    put("sparkA", "entryA+full_metalA+exitA+overtravelA", "min")
    put("size_wear", "exp(ln(1.3)+(ln(0.8)-ln(0.5))/(ln(1)-ln(0.5))*(ln(1)-ln(1.3)))", "wear at 0.8 against 1 mm")
    put("a", "(k100-1)/(100*0.8)", "a of W(z) = rho z (1 + a z)")
    put("wearA", "size_wear*(sqrt(1*4)*3*(1+a*3) + sqrt(0.4*1.2)*(15*(1+a*15) - 3*(1+a*3)))", "mm", "row.A.wear")
    put("least", "sqrt(0.3804+(0.2*ln(0.8))**2+(0.15*ln(15/0.8/20))**2)", "start deviation at 0.8, 15 deep")
    put("x", "(15/(0.8*ds))**1.5/2.5", "share of the depth law")
    put("mC", "3/sqrt(2*10)", "min, the layers by their minutes")
    put("mS", "12/sqrt(15*35)", "min")
    put("bandA", "(mC*ln(10/2)+mS*ln(35/15))/(mC+mS)/(2*z90)", "the layers' own deviation of feed, by minutes")
    put("sA", "max(least, sqrt(bandA**2 + (1.5*x/(1+x)*ln(100/60)/(2*z90))**2))", "deviation of burn", "row.A.s_burn")
    put("wC", "3*sqrt(1*4)", "mm, the layers by the length lost in them")
    put("wS", "12*sqrt(0.4*1.2)", "mm")
    put("D", "15/(100*0.8)")
    put("wornA", "(wC*ln(4/1)+wS*ln(1.2/0.4))/(wC+wS)/(2*z90)", "the layers' own deviation of wear, by length lost")
    put("swA", "max(least, sqrt(wornA**2 + (k100*D/(1+(k100-1)*D)*ln(1.5)/(2*z90))**2))", "deviation of wear", "row.A.s_wear")
    put("eachA", "floor((U-qA)/wearA)")
    put("elA", "ceil(48/eachA)", "", "tube.%s.needed" % copper)
    put("fillA", "48*wearA/(elA*U)")
    table("Row B; no taper")
    sheet.size(rows[1], 8)
    put("fB", "sqrt(15*35)*0.8", "mm/min, several channels")
    sheet.burn("fullB", 20, "fB", 1.0)
    put("wearB", "20*sqrt(0.4*1.2)*1.2*(1+(k100-1)*20/100)", "mm", "row.B.wear")
    put("rhoB", "wearB/20")
    sheet.spread("sB", 1.0, 20, ("row.B.s_burn", "row.B.s_wear"))
    put("z02", "%r" % NormalDist().inv_cdf(0.02), "one lot in fifty stays under it")
    put("p2", "exp(z02*sqrt(sB**2+0.15**2))", "wear at P2 against the median")
    put("first_try", "20 + wearB*p2", "mm, a setting", "row.B.first_try")
    put("beyond", "20+0.2", "mm the tip may go: ISO 2768-1 m, over 6 to 30: 0.2", "row.B.never_beyond")
    put("scatter", "z90*20*rhoB/(1+rhoB)*0.15", "mm; above 0.2: two steps")
    put("left", "scatter/5", "mm left after two steps; above 0.2: a check", "row.B.scatter")
    sheet.known("row.B.allowed", 0.2)
    sheet.known("row.B.two_steps", 1)
    sheet.hole("B", touch_off="2*touch", full_metal="fullB", retract="2*20/3000")
    put("eachB", "floor((U+3-20)/(wearB+3))", "a fresh electrode needs no dressing")
    put("elB", "ceil(16/eachB)", "", "tube.%s.needed" % brass)
    put("dressings", "16-elB")
    put("fillB", "(16*wearB+dressings*3)/(elB*U)")
    table("Lot")
    put("p", "sqrt(0.002*0.01)")
    put("brokenA", "48*p", "", "tube.%s.breakages" % copper)
    put("brokenB", "16*p", "", "tube.%s.breakages" % brass)
    put("highA", "ceil(48/floor((U-qA)/(wearA*exp(z90*swA))))", "at P90 wear", "tube.%s.if_wear_high" % copper)
    put("highB", "ceil(16/floor((U+3-20)/(wearB*exp(z90*sB)+3)))", "at P90 wear", "tube.%s.if_wear_high" % brass)
    sheet.spares("sparesA", 48, sheet.env["p"], copper)
    sheet.spares("sparesB", 16, sheet.env["p"], brass)
    put("takeA", "highA + sparesA", "", "tube.%s.kit" % copper)
    put("takeB", "highB + sparesB", "", "tube.%s.kit" % brass)
    put("passes", "8*load + guide + tilt", "min: the lot once per tube and tilt")
    put("by_part", "8*(guide + tilt)", "min: each part both tubes and tilts; more, so the lot twice")
    put("again_x", "(1-inA + 1-inB)*(guide_x+first_x)", "min: a first tube that is not right")
    put("holeA_x", "touch_x+sparkA*exp(sA**2/2)+retractA", "min, expected")
    put("holeB_x", "2*touch_x+full_metalB*exp(sB**2/2)+retractB", "min, expected")
    sheet.replan("elA_x", "ceil(48/floor((U-qA)/(wearA*w)))", "swA", "electrodes")
    sheet.replan("elB_x", "ceil(16/floor((U+3-20)/(wearB*w+3)))", "sB", "electrodes")
    put("dressings_x", "16-elB_x", "mean of the 15 plans")
    risk = "8*min(400,300)*(1-(1-0.005)*(1-0.000002)**6*(1-0.000002)**2)"
    for x in ("", "_x"):
        table("Expected" if x else "At the medians")
        k = {"x": x, "a": "holeA_x" if x else "minutesA", "b": "holeB_x" if x else "minutesB"}
        machine = {"set_up": "setup{x}", "first_piece": "first{x}", "load": "16*load{x}", "holes": "48*{a} + 16*{b}",
                   "electrode_changes": "(elA{x}-1 + elB{x}-1)*changer{x}", "guide_changes": "guide{x}", "index": "tilt{x}", "dressing": "dressings{x}*dress{x}",
                   "breakages": "brokenA*(changer{x}+{a}/2) + brokenB*(changer{x}+{b}/2)"}
        labor = {"receive": "receive{x}", "set_up": "setup{x}+first{x}", "handling": "16*load{x} + guide{x} + tilt{x}",
                 "stand_by": "0.35*(m_holes{x} + m_electrode_changes{x} + m_dressing{x} + m_breakages{x})", "wash": "8*wash{x}", "inspect": "64*pin{x}",
                 "pack": "8*pack{x}"}
        if x:
            machine["again"] = labor["again"] = "again_x"
        sheet.minutes(*({n: f.format(**k) for n, f in kinds.items()} for kinds in (machine, labor)), x)
        sheet.money(70, "elA%s*0.75 + elB%s*1.01" % (x, x), "brokenA*0.75*(1-fillA/2) + brokenB*1.01*(1-fillB/2)", "48/400*26+16/400*26", risk, x)
    sheet.close(8)


JOBS = {"1-plain": job1, "2-thin": job2, "3-one-end": job3_one, "3-both-ends": job3_both, "4-layers": job4}
