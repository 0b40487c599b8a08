#!/usr/bin/env python3
"""Puts in the program's way what offices, disks and shares put there, and looks that nothing is lost.

    tests/attack/drill.py BIN

Links, pipes, folders named like jobs, three desks at once, a full and a read-only disk, a share that went
away. Where nobody may mount (neither root nor sudo without a password), a limit on the size of files
stands in for the full disk and rights for the read-only one; that is told.
"""

import os
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DAY = "2026-11-25"
DEMO = ROOT / "demo-jobs/26-0101.ron"
# The invented shop: nothing is issued by a shop that has no name.
SHOP = ROOT / "assets/sample-shelf/shop.ron"


class Drill:
    def __init__(self, program, folder):
        self.program = program
        self.folder = folder
        self.env = dict(os.environ, XDG_DATA_HOME=str(folder / "data"), HOME=str(folder))
        self.count = 0

    def run(self, *words, cwd=None, wait=60, **how):
        words = [self.program, *map(str, words)]
        usual = {"env": self.env, "cwd": cwd or self.folder, "capture_output": True, "text": True}
        try:
            return subprocess.run(words, timeout=wait, **usual, **how)
        except subprocess.TimeoutExpired:
            sys.exit(f"{words[1:]}: no answer in {wait} s")

    def expect(self, codes, *words, says=(), **how):
        """Runs a command that must end with one of these codes, in one sentence where it is 2."""
        done = self.run(*words, **how)
        told = f"{' '.join(map(str, words))}: exit code {done.returncode}: {done.stderr.strip()}"
        if done.returncode not in codes:
            sys.exit(f"{told}\n  expected {codes}")
        if "panicked" in done.stderr:
            sys.exit(told)
        if done.returncode == 2 and len(done.stderr.strip().splitlines()) != 1:
            sys.exit(f"{told}\n  expected one sentence")
        for word in says:
            if word not in done.stderr:
                sys.exit(f"{told}\n  expected {word!r}")
        self.count += 1
        return done

    def shelf(self, name):
        """A shelf with a shop, one job and one issued quotation."""
        shelf = self.folder / name
        shelf.mkdir(parents=True, exist_ok=True)
        shutil.copy(DEMO, shelf)
        shutil.copy(SHOP, shelf)
        self.expect((0,), *self.issue(shelf), "--adopt")
        return shelf

    def issue(self, shelf):
        return ["issue", "26-0101", "quotation", "--shelf", shelf, "--date", DAY]

    def intake(self, holes, out):
        about = ["--material", "718", "--quantity", "25", "--date", DAY]
        return ["intake", "--holes", holes, *about, "--out", out]


def standing(folder):
    """Every plain file of a folder with its content."""
    files = [path for path in folder.rglob("*") if path.is_file() and not path.is_symlink()]
    return {path: path.read_bytes() for path in files if path.name != "saving.lock"}


def unchanged(folder, before, what):
    now = standing(folder)
    if now != before:
        other = [str(path) for path in now.keys() ^ before.keys()]
        sys.exit(f"{what}: the folder is not as it was: {other or 'a content changed'}")


def links(drill):
    folder = drill.folder / "links"
    folder.mkdir()
    secret = folder / "secret.ron"
    shutil.copy(DEMO, secret)
    names = {"dangling.ron": "nowhere.ron", "loop.ron": "loop.ron", "folder.ron": "."}
    for name, target in names.items():
        (folder / name).symlink_to(target)
        drill.expect((2,), "figures", folder / name)
    (folder / "26-0102.ron").symlink_to(secret)
    drill.expect((0, 1), "figures", folder / "26-0102.ron")
    # What is on a shelf is a file, not a link to one: nothing is written through it.
    shelf = drill.shelf("links/shelf")
    (shelf / "26-0103.ron").symlink_to(secret)
    before = standing(drill.folder)
    drill.expect((2,), "issue", "26-0103", "quotation", "--shelf", shelf)
    (shelf / "26-0104.files").symlink_to(folder)
    shutil.copy(secret, shelf / "26-0104.ron")
    before[shelf / "26-0104.ron"] = secret.read_bytes()
    drill.expect((2,), "issue", "26-0104", "quotation", "--shelf", shelf)
    unchanged(drill.folder, before, "links")
    out = folder / "out"
    out.mkdir()
    (out / "26-0101-quotation.pdf").symlink_to(secret)
    drill.expect((2,), "papers", DEMO, "--out", out, "--replace")
    unchanged(folder, {path: content for path, content in before.items() if folder in path.parents}, "links")


def pipes(drill):
    folder = drill.folder / "pipes"
    folder.mkdir()
    pipe = folder / "26-0109.ron"
    os.mkfifo(pipe)
    new = folder / "new.ron"
    for words in (
        ["figures", pipe],
        ["papers", pipe, "--out", folder],
        ["figures", DEMO, "--shop", pipe],
        ["issue", pipe, "quotation"],
        drill.intake(pipe, new),
        drill.intake("/dev/zero", new),
    ):
        drill.expect((2,), *words, wait=10)
    shelf = drill.shelf("pipes/shelf")
    os.mkfifo(shelf / "26-0102.ron")
    drill.expect((2,), "issue", "26-0102", "quotation", "--shelf", shelf, wait=10)
    (shelf / "shop.ron").unlink()
    os.mkfifo(shelf / "shop.ron")
    drill.expect((2,), *drill.issue(shelf), wait=10)
    if new.exists():
        sys.exit("a job was made of a pipe")


def numbers_as_paths(drill):
    shelf = drill.shelf("numbers/shelf")
    here = drill.folder / "numbers"
    (here / "26-0101").mkdir()
    drill.expect((0, 1), "figures", "26-0101", "--shelf", shelf, cwd=here)
    (here / "26-0101").rmdir()
    (here / "26-0101").write_text("a letter")
    drill.expect((0, 1), "figures", "26-0101", "--shelf", shelf, cwd=here)
    if (here / "26-0101").read_text() != "a letter":
        sys.exit("a file named like a job was written to")
    for name in ("..", "../shelf", "26-0101/../26-0101", "con", "a" * 5_000, "\u202e26-0101"):
        drill.expect((2,), "issue", name, "quotation", "--shelf", shelf, cwd=here)


def two_desks(drill):
    shelf = drill.shelf("desks/shelf")
    words = [drill.program, *map(str, drill.issue(shelf))]
    # Desks that issue the very same at the same moment have one paper together; a sheet of another size
    # is another paper.
    told, issued = set(), 0
    for _ in range(15):
        pipe = subprocess.PIPE
        sheets = (["--sheet", "a4"], ["--sheet", "letter"], [])
        desks = [
            subprocess.Popen([*words, *sheet], env=drill.env, stdout=pipe, stderr=pipe, text=True)
            for sheet in sheets
        ]
        for desk in desks:
            place, why = desk.communicate(timeout=60)
            if desk.returncode == 0:
                told.add(Path(place.strip()))
                issued += 1
            elif desk.returncode != 2 or "panicked" in why:
                sys.exit(f"three desks: exit code {desk.returncode}: {why}")
    text = (shelf / "26-0101.ron").read_text()
    lost = [str(place) for place in told if not place.is_file() or f'"{place.name}"' not in text]
    if lost:
        sys.exit(f"three desks were told of papers that are not there, or not in the job: {lost}")
    if len(told) < 15:
        sys.exit(f"{issued} were told of {len(told)} papers: too few to tell anything")
    drill.count += 1


def vanished(drill):
    shelf = drill.shelf("share/shelf")
    away = shelf.with_name("away")
    shelf.rename(away)
    for words in (drill.issue(shelf), ["figures", "26-0101", "--shelf", shelf]):
        drill.expect((2,), *words)
    if shelf.exists():
        sys.exit("a folder was made where the share was")
    # The mount point is there, and empty.
    shelf.mkdir()
    for words in (drill.issue(shelf), ["figures", "26-0101", "--shelf", shelf]):
        drill.expect((2,), *words)
    if any(shelf.iterdir()):
        sys.exit("something was written to an empty mount point")
    shelf.rmdir()
    away.rename(shelf)
    drill.expect((0,), *drill.issue(shelf))


def mounted(drill, options):
    """A small disk of its own; None where nobody may mount."""
    place = drill.folder / "disk"
    place.mkdir(exist_ok=True)
    sudo = [] if os.geteuid() == 0 else ["sudo", "-n"]
    owner = f"uid={os.geteuid()},gid={os.getegid()}"
    words = [*sudo, "mount", "-t", "tmpfs", "-o", f"{options},{owner}", "quillbore", place]
    try:
        done = subprocess.run(words, capture_output=True)
    except FileNotFoundError:
        return None
    return (place, sudo) if done.returncode == 0 else None


def holds_on_full(drill, words, place, **how):
    """A command on a disk that may be full: done, or one sentence and nothing changed."""
    before = standing(place)
    done = drill.run(*words, **how)
    if done.returncode == 2:
        unchanged(place, before, f"{words[0]} on a full disk")
        if len(done.stderr.strip().splitlines()) != 1:
            sys.exit(f"{words[0]} on a full disk: {done.stderr}")
    elif done.returncode not in (0, 1) or "panicked" in done.stderr:
        sys.exit(f"{words[0]} on a full disk: exit code {done.returncode}: {done.stderr}")
    drill.count += 1
    return done.returncode == 2


def wide_table(drill):
    table = drill.folder / "wide.csv"
    rows = "".join(f"H{row},2,0.8 +-0.05,12,{'x' * 80}\n" for row in range(3_000))
    table.write_text("hole,qty,dia,depth,note\n" + rows)
    return table


def full_by_limit(drill):
    """No file may grow beyond a limit: what a write says then is what it says on a full disk."""
    print("  nobody may mount here: a limit on the size of files stands in for a full disk")
    place = drill.folder / "disk"
    shelf = drill.shelf("disk/shelf")
    out = place / "out"
    out.mkdir()
    (out / "26-0101-quotation.pdf").write_bytes(b"an older one")
    refused = 0
    for limit in (0, 1, 3_000, 12_000, 40_000, 120_000):

        def limited():
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

        for words in (
            drill.intake(wide_table(drill), place / f"new-{limit}.ron"),
            ["papers", DEMO, "--out", out, "--replace", "--only", "quotation,traveler"],
            drill.issue(shelf),
        ):
            refused += holds_on_full(drill, words, place, preexec_fn=limited)
    if refused < 6:
        sys.exit(f"only {refused} refusals: the test shows nothing")
    drill.expect((0,), *drill.issue(shelf))


def full_disk(drill):
    disk = mounted(drill, "size=1500k")
    if disk is None:
        return full_by_limit(drill)
    place, sudo = disk
    try:
        shelf = drill.shelf("disk/shelf")
        table = wide_table(drill)
        out = place / "out"
        out.mkdir()
        (out / "26-0101-quotation.pdf").write_bytes(b"an older one")
        filler = place / "filler"
        for left in (200, 60, 20, 8, 4, 0):
            free = shutil.disk_usage(place).free
            with filler.open("ab") as more:
                more.write(b"x" * max(0, free - left * 1024))
            for words in (
                drill.intake(table, place / "new.ron"),
                ["papers", DEMO, "--out", out, "--replace", "--only", "quotation,traveler"],
                drill.issue(shelf),
            ):
                holds_on_full(drill, words, place)
        if not holds_on_full(drill, drill.intake(table, place / "new.ron"), place):
            sys.exit("nothing was refused on a full disk: the test shows nothing")
        filler.unlink()
        shutil.rmtree(out)
        drill.expect((0,), *drill.issue(shelf))
    finally:
        subprocess.run([*sudo, "umount", place], check=True)


def read_only_disk(drill):
    disk = mounted(drill, "size=20m")
    if disk is None:
        return read_only_by_rights(drill)
    place, sudo = disk
    try:
        shelf, table = read_only(drill, place)
        subprocess.run([*sudo, "mount", "-o", "remount,ro", place], check=True)
        nothing_is_written(drill, place, shelf, table)
    finally:
        subprocess.run([*sudo, "umount", place], check=True)


def read_only(drill, place):
    shelf = drill.shelf("disk/shelf")
    table = place / "holes.csv"
    table.write_text("hole,qty,dia,depth\nA,2,0.8 +-0.05,12\n")
    return shelf, table


def nothing_is_written(drill, place, shelf, table, **how):
    before = standing(place)
    for words in (
        drill.issue(shelf),
        ["papers", DEMO, "--out", place / "out"],
        ["papers", DEMO, "--out", shelf / "26-0101.files", "--replace"],
        drill.intake(table, place / "new.ron"),
    ):
        drill.expect((2,), *words, **how)
    drill.expect((0, 1), "figures", "26-0101", "--shelf", shelf, **how)
    unchanged(place, before, "a read-only disk")


def read_only_by_rights(drill):
    """Nobody may write to the folder; root may always, so root becomes nobody for it."""
    print("  nobody may mount here: rights stand in for a read-only disk")
    place = drill.folder / "disk"
    shelf, table = read_only(drill, place)
    shutil.copy(DEMO, drill.folder / "demo.ron")
    drill.folder.chmod(0o755)
    for path in [place, *place.rglob("*")]:
        path.chmod(0o555 if path.is_dir() else 0o444)
    how = {"user": 65_534, "group": 65_534, "extra_groups": []} if os.geteuid() == 0 else {}
    if how:
        # Where root alone may go, nobody finds no program.
        program = drill.folder / "quillbore"
        shutil.copy(drill.program, program)
        program.chmod(0o755)
        drill.program = str(program)
    try:
        nothing_is_written(drill, place, shelf, table, **how)
    finally:
        for path in [place, *place.rglob("*")]:
            path.chmod(0o755 if path.is_dir() else 0o644)


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    program = str(Path(sys.argv[1]).resolve())
    for attack in (links, pipes, numbers_as_paths, two_desks, vanished, full_disk, read_only_disk):
        with tempfile.TemporaryDirectory() as folder:
            drill = Drill(program, Path(folder))
            attack(drill)
            print(f"{attack.__name__.replace('_', ' ')}: {drill.count} tries, nothing lost")


if __name__ == "__main__":
    main()
