#!/usr/bin/env python3
"""Four jobs worked by hand and recomputed by rule: writes sheet.md and figures.csv, or checks them.

    python3 recompute.py            writes both
    python3 recompute.py --check    fails where a file differs from what would be written

The sheet's lines (worked.py) and the rules (hole.py, lot.py) are two ways to the same figures; where
they differ by more than 1 in 1,000,000,000 nothing is written. The program's tests compare its own
figures with figures.csv to the last printed digit.
"""
import json
import sys
from pathlib import Path

sys.dont_write_bytecode = True
from lot import recompute  # noqa: E402
from worked import JOBS, Sheet, handling, num  # noqa: E402

HERE = Path(__file__).resolve().parent
HEAD = """# Golden jobs

Minutes, millimeters, USD. The shop stands in `house.json`, the jobs in `jobs/`. Labor 50, dielectric 1.9 and power 1 an hour, margin 0.30,
minimum 165, redo 0.03; machine 70 (Barrow), 64 (Wren), 76 (Spire). `_x` marks an expected figure, `m_` and `l_` machine and labor minutes,
`c_` cost lines. Written by `recompute.py`, which stops where a line differs from the rules in `hole.py` and `lot.py`.
"""


def load(name):
    house = json.loads((HERE / "house.json").read_text())
    job = json.loads((HERE / "jobs" / (name + ".json")).read_text())
    job["machine"] = house["machines"][job["machine"]]
    return house, job


def by_rule(house, job, rows, result):
    """The same figures by hole.py and lot.py, under the names of the sheet."""
    median, parts = result["median"], job["parts"]
    out = {}
    for r in rows:
        row, ends = r["row"], r["ends"]
        steps = 2 if r["depth"] and r["depth"]["two_steps"] else 1
        inside = median["tubes"][r["tube"]["name"]]
        again, walk = inside["inside"][inside["rows"].index(row["name"])]
        holes = r["holes"] * parts
        changer = job["machine"]["changer"]
        change = "change_changer" if changer else "change_thin" if r["tube"]["d"] <= 0.3 else "change_hand"
        touch = median["time"]("touch_off_s")
        part = {"touch_off": steps * touch * len(ends), "entry": ends[0]["entry"], "full_metal": sum(e["full"] for e in ends),
                "exit": sum(e["exit"] for e in ends), "overtravel": sum(e["over"] for e in ends),
                "retract": steps * sum(e["q"] for e in ends) / job["machine"]["head_rapid"],
                "changes": (again * (touch + median["time"](change)) + walk / job["machine"]["head_rapid"]) / holes}
        if len(ends) == 2:  # What the second end enters is the hole's exit.
            part["exit"] += ends[1]["entry"]
        part["minutes"] = sum(part.values())
        size = row["size"]
        p_in, p_over = size["chances"][r["tube"]["d"]]
        part |= {"held": size["held"], "p_in": p_in, "p_over": p_over, "tube": r["tube"]["name"], "outside": holes * (1 - size["held"]),
                 "wear": sum(e["wear"] for e in ends), "s_burn": r["s_b"], "s_wear": r["s_w"]}
        if r["depth"]:
            plan = r["depth"]
            part |= {"first_try": plan["first_try"], "never_beyond": plan["never_beyond"], "scatter": plan["left"], "allowed": plan["allowed"],
                     "two_steps": int(plan["two_steps"])}
        out |= {"row.%s.%s" % (row["name"], k): v for k, v in part.items()}
    for name, kit in result["kit"].items():
        out |= {"tube.%s.%s" % (name, k): v for k, v in (("needed", kit["by_plan"]), ("if_wear_high", kit["if_wear_high"]), ("spares", kit["spares"]),
                                                          ("kit", kit["take"]), ("breakages", median["tubes"][name]["broken"]))}
    m, l, c = median["minutes"], median["labor"], median["cost"]
    out |= {"machine.set_up": m["setup"], "machine.first_piece": m["first_piece"], "machine.load": m["load"], "machine.turn_over": m["turn_over"], "machine.index": m["index"] + m["tilt"],
            "machine.holes": m["holes"] + m["changes_in_hole"], "machine.electrode_changes": m["changes_between"],
            "machine.guide_changes": m["guide_change"], "machine.dressing": m["dressing"], "machine.breakages": m["breakages"],
            "labor.receive": l["receive"], "labor.set_up": l["setup"], "labor.handling": l["handling"], "labor.stand_by": l["stand_by"],
            "labor.wash": l["wash"], "labor.inspect": l["pin"], "labor.pack": l["pack"],
            "hours.machine": sum(m.values()) / 60, "hours.labor": sum(l.values()) / 60,
            "cost.machine": c["machine"], "cost.labor": c["labor"], "cost.electrodes": c["electrodes"] + c["tubes_broken"], "cost.guides": c["guides"],
            "cost.dielectric": c["dielectric"], "cost.power": c["power"], "cost.redo": c["redo"], "cost.part_risk": c["part_at_risk"],
            "cost.median": median["total"], "cost.expected": result["expected"]["total"], "cost.not_yet_known": result["not_yet_known"],
            "price.unit": str(result["unit"]), "price.lot": str(result["lot_price"])}
    return out


def printed(figure, value):
    """Seven digits; chances, and holes outside by them, to seven digits after the point."""
    if isinstance(value, str):
        return value
    return "%.7f" % value if figure.split(".")[-1] in ("held", "p_in", "p_over", "outside") else num(value)


def agree(job, name, worked, ruled):
    same = worked == ruled if isinstance(worked, str) else abs(worked - ruled) <= 1e-9 * max(1, abs(ruled))
    return [] if same else ["%s %s: worked %r, by rule %r" % (job, name, worked, ruled)]


def write():
    """The text of both files."""
    sheet, differ, lines = Sheet(), [], ["job,figure,value"]
    sheet.out.append(HEAD)
    handling(sheet)
    for name, work in JOBS.items():
        house, job = load(name)
        rows, result = recompute(house, job)
        work(sheet, rows, result)
        ruled = by_rule(house, job, rows, result)
        for figure, value in sheet.figures[name].items():
            differ += agree(name, figure, value, ruled[figure]) if figure in ruled else ["%s %s: not known by rule" % (name, figure)]
            lines.append("%s,%s,%s" % (name, figure, printed(figure, value)))
        absent = {f for f, v in ruled.items() if f not in sheet.figures[name] and v not in (0, 0.0)}
        differ += ["%s %s: %r by rule, not on the sheet" % (name, f, ruled[f]) for f in sorted(absent)]
    return {"sheet.md": "\n".join(sheet.out) + "\n", "figures.csv": "\n".join(lines) + "\n"}, differ


def main():
    files, differ = write()
    for file, text in files.items():
        if sys.argv[1:] == ["--check"] and (HERE / file).read_text() != text:
            differ.append("%s is not what recompute.py writes" % file)
    if differ:
        sys.exit("\n".join(differ))
    if sys.argv[1:] != ["--check"]:
        for file, text in files.items():
            (HERE / file).write_text(text)
    print("%d figures of %d jobs %s" % (files["figures.csv"].count("\n") - 1, len(JOBS), "agree" if sys.argv[1:] == ["--check"] else "written"))


if __name__ == "__main__":
    main()
