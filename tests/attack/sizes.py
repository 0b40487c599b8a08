#!/usr/bin/env python3
"""Gives the program jobs of absurd size, and looks that it answers, in bounded memory, with a sentence.

    tests/attack/sizes.py BIN

Nothing is timed to the second: what a search for each row costs is minutes here, and what keeps every
line of every piece is gigabytes. The seconds are printed to be looked at.
"""

import os
import re
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DAY = "2026-11-25"
ROWS = 100_000
# What a table of ten megabytes may take, and what anything may take [MB].
OF_TEXT, OF_ANYTHING = 300, 500
LONGEST = 60
PAPERS = ("quotation", "confirmation", "receiving", "traveler", "inspection", "certificate", "packing", "label")


class Sizes:
    def __init__(self, program, folder):
        self.program = program
        self.folder = folder
        self.env = dict(os.environ, XDG_DATA_HOME=str(folder / "data"), HOME=str(folder))

    def run(self, most, *words):
        """Runs a command in so many megabytes; gives its exit code and what it told."""
        words = [self.program, *map(str, words)]
        began = time.monotonic()
        with (self.folder / "told").open("w+") as told:
            child = subprocess.Popen(words, env=self.env, stdout=subprocess.DEVNULL, stderr=told, cwd=self.folder)
            late = threading.Timer(LONGEST, child.kill)
            late.start()
            _, status, used = os.wait4(child.pid, 0)
            late.cancel()
            child.returncode = os.waitstatus_to_exitcode(status)
            told.seek(0)
            said = told.read().strip()
        # The system counts what this script had when it began the program: no less is ever shown.
        seconds, megabytes = time.monotonic() - began, used.ru_maxrss // 1024
        shown = " ".join(word for word in words[1:] if "/" not in word)
        print(f"  {shown}: {seconds:.1f} s, {megabytes} MB", flush=True)
        if child.returncode not in (0, 1, 2) or "panicked" in said:
            sys.exit(f"{shown}: ended with {child.returncode} after {seconds:.0f} s: {said[-300:]}")
        if child.returncode == 2 and len(said.splitlines()) != 1:
            sys.exit(f"{shown}: more than one sentence: {said[-300:]}")
        if megabytes > most:
            sys.exit(f"{shown}: {megabytes} MB, more than {most}")
        return child.returncode, said

    def table(self, name, head, lines, most):
        """A hole table becomes a job with a machine, and its figures are worked out."""
        table, job = self.folder / f"{name}.csv", self.folder / f"{name}.ron"
        table.write_text(head + "\n" + "\n".join(lines) + "\n")
        about = ["--material", "718", "--quantity", "5", "--thickness", "12 mm", "--date", DAY]
        print(f"{name}: {table.stat().st_size / 1e6:.1f} MB of text")
        code, said = self.run(most, "intake", "--holes", table, *about, "--out", job)
        if code == 2:
            sys.exit(f"{name}: not taken in: {said}")
        job.write_text(job.read_text().replace("fields: {\n", f"fields: {{\n    {MACHINE}\n", 1))
        for how in ([], ["--json"]):
            if self.run(OF_ANYTHING, "figures", job, *how, "--date", DAY)[0] == 2:
                sys.exit(f"{name}: no figures")
        return job

    def papers(self, job):
        """Each paper is written, or refused with the sentence that says it is too long."""
        refused = []
        for paper in PAPERS:
            out = self.folder / f"{job.stem}-papers"
            code, said = self.run(OF_ANYTHING, "papers", job, "--only", paper, "--out", out, "--date", DAY)
            if code == 2 and "more than 1000 pages" not in said:
                sys.exit(f"{paper}: {said}")
            if (code == 2) == (out / f"{job.stem}-{paper}.pdf").exists():
                sys.exit(f"{paper}: exit code {code}, and yet the paper says otherwise")
            refused += [paper] * (code == 2)
        print(f"  too long to be printed: {', '.join(refused) or 'none'}")


MACHINE = re.search(r'"machine": .*', (ROOT / "demo-jobs/26-0101.ron").read_text()).group(0)


def slips(rows, count, pieces):
    """A job whose every piece was received, drilled, measured and delivered on slips of its own."""

    def slip(at, kind, **lines):
        told = ", ".join(f'"{key}": ("{text}", mm)' for key, text in lines.items())
        return f'(id: {at}, kind: "{kind}", lines: {{{told}}}),'

    told = [
        slip(0, "order", date="2025-10-01", number="4711", quantity=pieces, each="86"),
        slip(1, "received", date="2025-10-02", by="Pell", count=pieces, serials=f"1-{pieces}"),
    ]
    for at in range(2, count - 1):
        about = {"date": "2025-10-21", "by": "Pell", "mark": f"H{at % rows}", "serials": at % pieces + 1}
        if at % 3:
            told.append(slip(at, "run", **about, holes=1, good=1, pins="0.80", spark_minutes=4))
        else:
            told.append(slip(at, "inspection", **about, checked=1, pins="0.80", not_good=0))
    last = {"date": "2025-10-27", "by": "Moss", "count": pieces, "serials": f"1-{pieces}"}
    told.append(slip(count - 1, "delivery", **last))
    holes = "\n".join(
        f'(id: {at}, cells: {{"mark": ("H{at}", mm), "size": ("0.80 +-0.05", mm), "depth": ("10", mm)}}),'
        for at in range(rows)
    )
    fields = f'{MACHINE} "material": ("718", mm), "thickness": ("12", mm), "quantity": ("{pieces}", mm),'
    return (
        f'(\n  format: 2,\n  number: "slips-{rows}",\n  unit: mm,\n  fields: {{{fields}}},\n'
        f"  next_row: {rows},\n  rows: [{holes}],\n  next_slip: {count},\n  slips: [{chr(10).join(told)}],\n)\n"
    )


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    program = str(Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        sizes = Sizes(program, Path(folder))
        plain = "hole,qty,dia,depth"
        alike = sizes.table("alike", plain, (f"H{at},1,0.8,10" for at in range(ROWS)), OF_TEXT)
        sizes.papers(alike)
        unlike = (f"H{at},{at % 7 + 1},{0.3 + at % 2700 / 1000:.3f},{5 + at % 97 / 10:.1f}" for at in range(ROWS))
        sizes.table("unlike", plain, unlike, OF_ANYTHING)
        note = "x" * 100
        sizes.table("notes", plain + ",note", (f"H{at},1,0.8,10,{note}" for at in range(83_000)), OF_TEXT)
        head = plain + ",end,angle,surface,behind,note,dress every,ends"
        rest = "through,0,flat,12.5 mm,deburr the exit side and check it with a gage,5,one"
        sizes.table("wide", head, (f"H{at},1,0.800 +-0.05,10.00,{rest}" for at in range(ROWS)), OF_TEXT)
        places = (f"A,0.8,10,{at % 1000},{at // 1000}" for at in range(ROWS))
        sizes.papers(sizes.table("places", "hole,dia,depth,x,y", places, OF_TEXT))
        for rows, count, pieces in ((2, 10_000, 10_000), (1_000, 10_000, 500), (ROWS, 10_000, 10_000)):
            print(f"{count} slips of {pieces} pieces with {rows} rows")
            job = Path(folder) / f"slips-{rows}.ron"
            job.write_text(slips(rows, count, pieces))
            if sizes.run(OF_ANYTHING, "figures", job, "--date", DAY)[0] == 2:
                sys.exit("no figures")
            sizes.papers(job)
    print("sizes: every job was answered")


if __name__ == "__main__":
    main()
