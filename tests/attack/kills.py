#!/usr/bin/env python3
"""Kills the program while it prints, takes a table in, and issues, and looks at what is left.

    tests/attack/kills.py BIN [KILLS] [SEED]

So many kills of each. After every one: each file that has a name of its own is whole, the job opens
with every paper that it names, and the next run succeeds as if nothing had been.
"""

import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DAYS = ["2026-11-25", "2026-11-26"]


def main():
    if len(sys.argv) < 2:
        sys.exit(__doc__)
    program = str(Path(sys.argv[1]).resolve())
    kills = int(sys.argv[2]) if len(sys.argv) > 2 else 100
    chance = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    all_killed = 0
    for what in (Papers, Intake, Issue):
        with tempfile.TemporaryDirectory() as folder:
            scene = what(program, Path(folder))
            killed = cut = 0
            # One paper more makes a job longer, so the last runs tell more than the first; a single slow
            # one tells nothing.
            usual = sorted(scene.timed() for _ in range(5))[3]
            for at in range(kills):
                scene.before()
                # Every other one toward the end, where files get their names.
                first, last = (0.0, 1.05) if at % 2 else (0.7, 1.3)
                if scene.killed(chance.uniform(first * usual, last * usual)):
                    killed += 1
                cut += scene.look()
            scene.goes_on()
        print(f"{what.__name__.lower()}: {kills} runs, {killed} killed, {cut} in the middle of writing")
        all_killed += killed
        if killed < kills // 4:
            sys.exit("most runs were done before they were killed: the machine is too uneven to tell")
    print(f"{all_killed} killed: nothing lost, nothing torn")


class Scene:
    """A command, run again and again in a folder."""

    def __init__(self, program, folder):
        self.program = program
        self.folder = folder
        self.env = dict(os.environ, XDG_DATA_HOME=str(folder / "data"), HOME=str(folder))
        self.make()

    def words(self):
        raise NotImplementedError

    def run(self, *words):
        """What a command says when nobody disturbs it; it must not fail."""
        done = subprocess.run([self.program, *words], env=self.env, capture_output=True, text=True)
        if done.returncode not in (0, 1) or "panicked" in done.stderr:
            sys.exit(f"{words}: exit code {done.returncode}: {done.stderr}")
        return done

    def timed(self):
        self.before()
        begun = time.monotonic()
        self.run(*self.words())
        took = time.monotonic() - begun
        self.look()
        return took

    def killed(self, after):
        """Whether the command was killed so many seconds after its start."""
        quiet = subprocess.DEVNULL
        child = subprocess.Popen([self.program, *self.words()], env=self.env, stdout=quiet, stderr=quiet)
        try:
            child.wait(after)
        except subprocess.TimeoutExpired:
            child.kill()
            child.wait()
        if child.returncode not in (0, 1, -signal.SIGKILL):
            sys.exit(f"{self.words()}: exit code {child.returncode}")
        return child.returncode == -signal.SIGKILL

    def before(self):
        pass

    def goes_on(self):
        self.before()
        self.run(*self.words())
        self.look()


def left_behind(folder):
    """Whether a save was cut off in the middle; what is left has no name of its own."""
    left = [path for end in ("new", "old") for path in folder.rglob(f"*.{end}")]
    for path in left:
        if not path.name.startswith("."):
            sys.exit(f"{path} looks like a file of somebody")
        path.unlink()
    return bool(left)


class Papers(Scene):
    """Prints the papers of one day over those of the other."""

    def make(self):
        self.day = 0
        self.job = ROOT / "demo-jobs/26-0101.ron"
        self.whole = []
        for day in DAYS:
            out = self.folder / day
            self.run("papers", str(self.job), "--out", str(out), "--date", day)
            self.whole.append({path.name: path.read_bytes() for path in out.iterdir()})
        self.out = self.folder / "out"
        shutil.copytree(self.folder / DAYS[0], self.out)

    def before(self):
        self.day = 1 - self.day

    def words(self):
        out = ["--out", str(self.out), "--date", DAYS[self.day], "--replace"]
        return ["papers", str(self.job), *out]

    def look(self):
        cut = left_behind(self.out)
        there = {path.name: path.read_bytes() for path in self.out.iterdir()}
        if set(there) != set(self.whole[0]):
            sys.exit(f"other papers than before: {sorted(there)}")
        for name, content in there.items():
            if content not in (self.whole[0][name], self.whole[1][name]):
                sys.exit(f"{name} is neither the old paper nor the new one")
        return cut


class Intake(Scene):
    """Makes a new job of a hole table each time."""

    def make(self):
        self.count = 0
        self.table = self.folder / "holes.csv"
        rows = "".join(f"H{row},2,0.8 +-0.05,12\n" for row in range(400))
        self.table.write_text("hole,qty,dia,depth\n" + rows)
        self.out = self.folder / "jobs"
        self.out.mkdir()
        self.whole = None

    def before(self):
        self.count += 1

    def path(self):
        return self.out / f"26-{1000 + self.count}.ron"

    def words(self):
        about = ["--material", "718", "--quantity", "25", "--date", DAYS[0]]
        return ["intake", "--holes", str(self.table), *about, "--out", str(self.path())]

    def look(self):
        cut = left_behind(self.out)
        if self.path().exists():
            text = self.path().read_text().replace(self.path().stem, "26-0000")
            self.whole = self.whole or text
            if text != self.whole:
                sys.exit(f"{self.path()} is not whole")
        else:
            # What was cut off is in nobody's way.
            self.run(*self.words())
        return cut


class Issue(Scene):
    """Issues quotation after quotation of a job on a shelf."""

    def make(self):
        self.shelf = self.folder / "shelf"
        self.anew()

    def anew(self):
        shutil.rmtree(self.shelf, ignore_errors=True)
        self.shelf.mkdir()
        shutil.copy(ROOT / "demo-jobs/26-0101.ron", self.shelf)
        # The invented shop: nothing is issued by a shop that has no name.
        shutil.copy(ROOT / "assets/sample-shelf/shop.ron", self.shelf)
        done = self.run(*self.words(), "--adopt")
        self.entries = self.papers()
        if not self.entries:
            sys.exit(f"nothing was issued, so nothing could be lost: {done.stderr}")

    def words(self):
        return ["issue", "26-0101", "quotation", "--shelf", str(self.shelf), "--date", DAYS[0]]

    def papers(self):
        text = (self.shelf / "26-0101.ron").read_text()
        return re.findall(r'"(26-0101-Q\d+)\.pdf"', text)

    def before(self):
        if len(self.entries) > 25:
            self.anew()

    def look(self):
        cut = left_behind(self.shelf)
        entries = self.papers()
        lost = [entry for entry in self.entries if entry not in entries]
        if lost:
            sys.exit(f"the job lost {lost}")
        self.entries = entries
        for entry in entries:
            paper = self.shelf / "26-0101.files" / f"{entry}.pdf"
            if not paper.is_file() or not paper.read_bytes().rstrip().endswith(b"%%EOF"):
                sys.exit(f"{paper} is named by the job and not whole")
        for paper in (self.shelf / "26-0101.files").glob("*.pdf"):
            if not paper.read_bytes().rstrip().endswith(b"%%EOF"):
                sys.exit(f"{paper} is torn")
        self.run("figures", "26-0101", "--shelf", str(self.shelf))
        return cut


if __name__ == "__main__":
    main()
