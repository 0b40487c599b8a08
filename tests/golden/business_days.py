"""Writes business_days.json: the day that lies so many working days after another one, by numpy's business-day
functions (busday_offset), for 1,000 random cases in 40 calendars: usual and other work weeks, days off strewn over
the years, on free days too, and shutdowns of several weeks.

    python3 tests/golden/business_days.py

needs numpy; nothing of this project is used. Written by numpy 2.4.6.
"""
import json
import pathlib
import random

import numpy as np

DRAW = random.Random(20261127)
FIRST, DAYS = np.datetime64("2024-01-01"), 2600


def week():
    usual = DRAW.choice(["1111100", "1111100", "1111110", "1111000", "1111111", None])
    if usual:
        return usual
    days = DRAW.sample(range(7), DRAW.randint(1, 6))
    return "".join("1" if day in days else "0" for day in range(7))


def days_off():
    off = {int(DRAW.random() * DAYS) for _ in range(DRAW.choice([0, 30, 100]))}
    for _ in range(DRAW.randint(0, 6)):
        first = int(DRAW.random() * DAYS)
        off |= set(range(first, first + DRAW.randint(3, 24)))
    return [str(FIRST + day) for day in sorted(off)]


def calendar():
    mask, off = week(), days_off()
    cases = []
    for _ in range(25):
        day = FIRST + int(DRAW.random() * (DAYS - 600))
        days = DRAW.choice([1, 2, DRAW.randint(1, 12), DRAW.randint(1, 90), DRAW.randint(1, 300)])
        # From a day off the count begins with the next working day, as from the working day before it.
        done = np.busday_offset(day, days, roll="backward", weekmask=mask, holidays=off)
        # The same by its counting function: so many working days after the one, up to the other.
        assert np.busday_count(day + 1, done + 1, weekmask=mask, holidays=off) == days
        cases.append([str(day), days, str(done)])
    return {"week": mask, "off": off, "cases": cases}


written = json.dumps([calendar() for _ in range(40)], separators=(",", ":"))
written = written.replace("},{", "},\n{").replace('"cases":', '\n"cases":')
pathlib.Path(__file__).with_suffix(".json").write_text(written + "\n")
