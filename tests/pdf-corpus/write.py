#!/usr/bin/env python3
"""Writes the drawings of this folder and the truth of each, from what they are made of.

    python3 -m pip install reportlab==5.1.0 fpdf2==2.8.9 matplotlib==3.11.2 pillow==13.0.0
    PYTHONHASHSEED=0 python3 tests/pdf-corpus/write.py /usr/share/fonts/truetype/dejavu

reportlab writes those whose names begin with "lab-", fpdf2 "two-", matplotlib "plot-", Pillow "scan-", and
write.mjs those with "kit-". What a truth says comes from where a text was put and how wide its letters are by
the font's own figures, never from reading the drawing. Lengths are points from the upper left corner of the page
as it is shown.

A line of a truth, parts separated by tabs:
    unit     mm, inch or none
    refused  why nothing is read of the file
    page     number from 0, width, height, and why it shows no more text, or "-"
    callout  page, left, top, right, bottom, count or "-", cells ("size=..; end=..", "table", "-"), doubts or "-",
             text
"""

import math
import os
import sys
import time

import matplotlib
from fpdf import FPDF
from PIL import Image, ImageDraw, ImageFont
from reportlab.lib import pdfencrypt
from reportlab.lib.pagesizes import A3, A4, landscape, letter
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen import canvas

HERE = os.path.dirname(os.path.abspath(__file__))
FONTS = sys.argv[1] if len(sys.argv) > 1 else "/usr/share/fonts/truetype/dejavu"
SANS = os.path.join(FONTS, "DejaVuSans.ttf")
pdfmetrics.registerFont(TTFont("Sans", SANS))
DATE = (2026, 11, 2, 8, 0, 0, 0, 306, 0)

DIA, DEEP, PM = "\u2300", "\u21a7", "\u00b1"


def box(x, y, wide, size, deg=0.0):
    """Around a text that begins at x, y (down) and runs turned counterclockwise by so much."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    corners = [(u, v) for u in (0.0, wide) for v in (0.25 * size, -0.75 * size)]
    xs = [x + u * c + v * s for u, v in corners]
    ys = [y - u * s + v * c for u, v in corners]
    return min(xs), min(ys), max(xs), max(ys)


def around(boxes):
    left, top, right, bottom = zip(*boxes)
    return min(left), min(top), max(right), max(bottom)


class Truth:
    def __init__(self, name, unit):
        self.name, self.lines, self.number = name, [f"unit\t{unit}"], -1

    def refused(self, why):
        self.lines.append(f"refused\t{why}")

    def page(self, wide, high, why="-"):
        self.number += 1
        self.lines.append(f"page\t{self.number}\t{wide!r}\t{high!r}\t{why}")

    def callout(self, boxes, count, cells, text, doubts="-"):
        place = "\t".join(f"{v:.3f}" for v in around(boxes))
        self.lines.append(f"callout\t{self.number}\t{place}\t{count}\t{cells}\t{doubts}\t{text}")

    def write(self):
        with open(os.path.join(HERE, self.name + ".truth"), "w", encoding="utf-8", newline="\n") as file:
            file.write("\n".join(self.lines) + "\n")


class Lab:
    """A drawing by reportlab."""

    def __init__(self, name, unit, size, font="Sans", **more):
        self.truth, self.size = Truth(name, unit), size
        more.setdefault("invariant", 1)
        self.canvas = canvas.Canvas(os.path.join(HERE, name + ".pdf"), pagesize=size, **more)
        self.font = font
        self.truth.page(float(size[0]), float(size[1]))

    def put(self, text, x, y, size=10, deg=0.0, font=None):
        """Puts a text; where it stands."""
        font = font or self.font
        c = self.canvas
        c.setFont(font, size)
        c.saveState()
        c.translate(x, self.size[1] - y)
        c.rotate(deg)
        c.drawString(0, 0, text)
        c.restoreState()
        return box(x, y, pdfmetrics.stringWidth(text, font, size), size, deg)

    def frame(self):
        wide, high = self.size
        self.canvas.rect(20, 20, wide - 40, high - 40)
        self.canvas.rect(wide - 220, 20, 200, 80)
        for n in range(4):
            self.canvas.circle(100 + 60 * n, high - 300, 6)

    def close(self):
        self.canvas.showPage()
        self.canvas.save()
        self.truth.write()


def by_hand(lab, size=10):
    """Texts of a drawing that speak of no hole."""
    wide, high = lab.size
    for n, text in enumerate(["WREN & ASH TOOLROOM", "PART 7714-02 REV C", "SCALE 2:1", "SHEET 1 OF 1", "X40CrMoV5-1, 52 HRC"]):
        lab.put(text, wide - 210, high - 90 + 14 * n, 9)
    for n, text in enumerate(["120.00", "R5", "2X 45\u00b0", "0.5 X 45\u00b0", "12.5", "3.2", "Ra 1.6"]):
        lab.put(text, 60 + 70 * n, high - 180, size)
    lab.put("NOTES:", 60, high - 150, size)
    lab.put("1. BREAK SHARP EDGES 0.2 MAX.", 60, high - 136, size)
    lab.put("2. PARTS TO BE CLEAN AND DRY.", 60, high - 122, size)


def lab_metric():
    d = Lab("lab-metric", "mm", landscape(A3))
    t = d.truth
    d.frame()
    by_hand(d)
    d.put("ALL DIMENSIONS IN MM", 60, 740, 10)
    one = f"4X {DIA}0.80 {PM}0.02 THRU"
    t.callout([d.put(one, 120, 120)], 4, f"size={DIA}0.80 {PM}0.02; end=THRU; count=4X", one)
    a, b = f"4X {DIA}0.80", f"{DEEP} 14.0"
    t.callout([d.put(a, 300, 120), d.put(b, 304, 134)], 4, f"size={DIA}0.80; depth={DEEP} 14.0; count=4X", f"{a} {b}")
    a, b, c = f"12X {DIA}1.20", "+0.05/-0.02", "THRU ALL"
    t.callout([d.put(a, 480, 120), d.put(b, 480, 133), d.put(c, 480, 146)], 12,
              f"size={DIA}1.20 +0.05/-0.02; end=THRU; count=12X", f"{a} {b} {c}")
    # A count over what it counts.
    a, b = "6X", f"{DIA}0.50 H7 THRU"
    t.callout([d.put(a, 660, 120), d.put(b, 656, 134)], 6, f"size={DIA}0.50 H7; end=THRU; count=6X", f"{a} {b}")
    # Limits upon each other in small letters, with and without words behind them.
    first = d.put(f"3X {DIA}0.80", 120, 220, 12)
    small = [d.put("+0.03", first[2] + 3, 213, 7), d.put("-0.01", first[2] + 3, 222, 7)]
    last = d.put("THRU", small[0][2] + 4, 220, 12)
    text = f"3X {DIA}0.80 +0.03/-0.01 THRU"
    t.callout([first, last, *small], 3, f"size={DIA}0.80 +0.03/-0.01; end=THRU; count=3X", text)
    first = d.put(f"{DIA}1.00", 320, 220, 12)
    small = [d.put("+0.02", first[2] + 2, 214, 6), d.put("0", first[2] + 2, 222, 6)]
    t.callout([first, *small, d.put(f"{DEEP}9.5", 322, 238, 12)], "-", f"size={DIA}1.00 +0.02/0; depth={DEEP}9.5",
              f"{DIA}1.00 +0.02/0 {DEEP}9.5")
    # Turned.
    text = f"2X {DIA}0.60 {DEEP}7"
    t.callout([d.put(text, 500, 330, 10, 90)], 2, f"size={DIA}0.60; depth={DEEP}7; count=2X", text)
    a, b = f"8X {DIA}0.40 {PM}0.01", "THRU"
    c, s = math.cos(math.radians(30)), math.sin(math.radians(30))
    t.callout([d.put(a, 560, 330, 10, 30), d.put(b, 560 + 13 * s, 330 + 13 * c, 10, 30)], 8,
              f"size={DIA}0.40 {PM}0.01; end=THRU; count=8X", f"{a} {b}")
    # Two callouts below each other stay two.
    a, b = f"{DIA}0.90 THRU", f"{DIA}0.70 THRU"
    t.callout([d.put(a, 700, 220)], "-", f"size={DIA}0.90; end=THRU", a)
    t.callout([d.put(b, 700, 234)], "-", f"size={DIA}0.70; end=THRU", b)
    # What can't be taken apart is offered as it is.
    text = f"{DIA}50 g6 GROUND"
    t.callout([d.put(text, 860, 220)], "-", "-", text, "as-text")
    # A length that happens to stand below is none of the callout's.
    a = f"5X {DIA}0.45 THRU"
    t.callout([d.put(a, 860, 330)], 5, f"size={DIA}0.45; end=THRU; count=5X", a)
    d.put("14.0", 870, 344)
    d.close()


def lab_inch():
    d = Lab("lab-inch", "inch", landscape(letter), font="Helvetica")
    t = d.truth
    d.frame()
    by_hand(d)
    d.put("UNLESS OTHERWISE SPECIFIED", 60, 560, 8)
    d.put("DIMENSIONS ARE IN INCHES", 60, 570, 8)
    a, b = "12X .0315", "THRU"
    t.callout([d.put(a, 100, 100), d.put(b, 100, 112)], 12, "size=.0315; end=THRU; count=12X", f"{a} {b}")
    text = "4X \u00d8.031\u00b1.002 .55 DEEP"
    t.callout([d.put(text, 260, 100)], 4, "size=\u00d8.031\u00b1.002; depth=.55; count=4X", text)
    a, b = ".020 +.001/-.000 DIA", "(6) PLACES"
    t.callout([d.put(a, 480, 100), d.put(b, 490, 112)], 6, "size=.020 +.001/-.000 DIA; count=(6) PLACES", f"{a} {b}")
    text = "%%c.040 %%p.001 THRU"
    t.callout([d.put(text, 100, 200)], "-", "size=\u2300.040 \u00b1.001; end=THRU", text)
    text = "#60 DRILL THRU"
    t.callout([d.put(text, 260, 200)], "-", "size=#60; end=THRU", text)
    text = "M6 tap broken .47 deep"
    t.callout([d.put(text, 480, 200)], "-", "broken=M6 tap; depth=.47 deep", text)
    d.close()


def lab_points():
    """No words on the unit: lengths without a naught before the point."""
    d = Lab("lab-points", "inch", letter, font="Times-Roman")
    text = "2X \u00d8.0625 THRU"
    d.truth.callout([d.put(text, 200, 200)], 2, "size=\u00d8.0625; end=THRU; count=2X", text)
    d.close()


def lab_unsaid():
    """Neither words nor points."""
    d = Lab("lab-unsaid", "none", A4, font="Courier")
    text = "2X \u00d81.5 THRU"
    d.truth.callout([d.put(text, 200, 200)], 2, "size=\u00d81.5; end=THRU; count=2X", text)
    d.close()


def lab_both():
    """One page says inches, the other millimeters."""
    d = Lab("lab-both", "none", A4, font="Helvetica")
    d.put("DIMENSIONS IN INCHES", 60, 60)
    text = "2X \u00d8.06 THRU"
    d.truth.callout([d.put(text, 200, 200)], 2, "size=\u00d8.06; end=THRU; count=2X", text)
    d.canvas.showPage()
    d.truth.page(float(A4[0]), float(A4[1]))
    d.put("DIMENSIONS IN MM", 60, 60)
    text = "2X \u00d81.5 THRU"
    d.truth.callout([d.put(text, 200, 200)], 2, "size=\u00d81.5; end=THRU; count=2X", text)
    d.close()


def lab_turned(name, rotate):
    """A page that is turned where it is shown."""
    d = Lab(name, "mm", A4)
    d.truth.lines.pop()
    # The writer lays the sheet the other way where it is turned by a quarter.
    wide, high = d.size = landscape(A4) if rotate in (90, 270) else A4
    shown = A4
    d.truth.page(float(shown[0]), float(shown[1]))
    d.truth.lines[-1] = d.truth.lines[-1].replace("page\t1", "page\t0")
    d.truth.number = 0
    d.canvas.setPageRotation(rotate)

    def turn(b):
        left, top, right, bottom = b
        return {90: (high - bottom, left, high - top, right), 180: (wide - right, high - bottom, wide - left, high - top),
                270: (top, wide - right, bottom, wide - left)}[rotate]

    d.put("MASSE IN MM", 60, 60)
    text = f"4X {DIA}0.80 THRU"
    cells = f"size={DIA}0.80; end=THRU; count=4X"
    d.truth.callout([turn(d.put(text, 120, 500))], 4, cells, text)
    a, b = f"4X {DIA}0.80", "THRU"
    boxes = [turn(d.put(a, 300, 300, 10, rotate)), turn(d.put(b, 300 + 13 * math.sin(math.radians(rotate)),
             300 + 13 * math.cos(math.radians(rotate)), 10, rotate))]
    d.truth.callout(boxes, 4, cells, f"{a} {b}")
    d.close()


def lab_chart():
    d = Lab("lab-chart", "mm", landscape(A4))
    t = d.truth
    d.frame()
    d.put("DIMENSIONS IN MILLIMETERS", 60, 60)
    columns = [420, 470, 530, 600, 660, 720]
    heads = ["HOLE", "QTY", "SIZE", "DEPTH", "X", "Y"]
    for x, head in zip(columns, heads):
        d.put(head, x, 100, 9)
    rows = [["A", "4", f"{DIA}0.80", "14.0", "10.5", "20.0"], ["B", "2", f"{DIA}1.20", "THRU", "30.25", "-12.5"],
            ["C", "1", f"{DIA}0.50 H7", "6", "0", "5"]]
    for n, cells in enumerate(rows):
        boxes = [d.put(cell, x + 2, 114 + 14 * n, 9) for x, cell in zip(columns, cells)]
        t.callout(boxes, "-", "table", " | ".join(cells))
    d.canvas.line(410, 420, 780, 420)
    # The marks beside their holes are none.
    for n, mark in enumerate("ABC"):
        d.put(mark, 120 + 50 * n, 300)
    text = f"3X {DIA}2.00 THRU"
    t.callout([d.put(text, 120, 200)], 3, f"size={DIA}2.00; end=THRU; count=3X", text)
    d.close()


def lab_locked():
    for name, user in [("lab-locked", "wren"), ("lab-protected", "")]:
        lock = pdfencrypt.StandardEncryption(user, ownerPassword="ash", canPrint=1, canModify=0, strength=128)
        d = Lab(name, "mm", A4, encrypt=lock)
        d.put("DIMENSIONS IN MM", 60, 60)
        text = f"4X {DIA}0.80 THRU"
        place = d.put(text, 120, 700)
        if user:
            d.truth.lines = ["unit\tnone"]
            d.truth.refused("locked")
        else:
            d.truth.callout([place], 4, f"size={DIA}0.80; end=THRU; count=4X", text)
        d.close()


def lab_forms():
    """Texts in forms that are placed, turned and scaled, and beside them a form that is never placed."""
    d = Lab("lab-forms", "mm", A4)
    c, size = d.canvas, 10
    text = f"4X {DIA}0.80 THRU"
    c.beginForm("note", 0, 0, 200, 200)
    c.setFont("Sans", size)
    c.drawString(10, 20, text)
    c.endForm()
    c.beginForm("never", 0, 0, 200, 200)
    c.setFont("Sans", size)
    c.drawString(10, 20, f"9X {DIA}0.99 THRU")
    c.endForm()
    d.put("DIMENSIONS IN MM", 60, 60)
    wide = pdfmetrics.stringWidth(text, "Sans", size)
    cells = f"size={DIA}0.80; end=THRU; count=4X"
    c.saveState()
    c.translate(100, d.size[1] - 300)
    c.scale(1.5, 1.5)
    c.doForm("note")
    c.restoreState()
    d.truth.callout([box(115, 270, 1.5 * wide, 1.5 * size)], 4, cells, text)
    c.saveState()
    c.translate(400, d.size[1] - 300)
    c.rotate(90)
    c.doForm("note")
    c.restoreState()
    d.truth.callout([box(380, 290, wide, size, 90)], 4, cells, text)
    d.close()


def lab_scanned():
    """A picture with letters behind it that nobody sees, as programs write that guess them."""
    d = Lab("lab-scanned", "mm", A4)
    wide, high = A4
    d.canvas.drawImage(ImageReader(scan_of(["4X 0.80 THRU"])), 0, 0, wide, high)
    text = f"4X {DIA}0.80 THRU"
    for words, y in [("DIMENSIONS IN MM", 60), (text, 200)]:
        out = d.canvas.beginText(100, high - y)
        out.setFont("Sans", 10)
        out.setTextRenderMode(3)
        out.textOut(words)
        d.canvas.drawText(out)
    place = box(100, 200, pdfmetrics.stringWidth(text, "Sans", 10), 10)
    d.truth.callout([place], 4, f"size={DIA}0.80; end=THRU; count=4X", text, "unseen")
    d.close()


def scan_of(words):
    picture = Image.new("L", (620, 877), 255)
    pen = ImageDraw.Draw(picture)
    font = ImageFont.truetype(SANS, 18)
    for n, text in enumerate(words):
        pen.text((100, 200 + 40 * n), text, font=font, fill=0)
    return picture


def scan_alone():
    at = time.struct_time(DATE)
    pages = [scan_of([f"4X {DIA}0.80 THRU", "DIMENSIONS IN MM"]), scan_of(["SHEET 2"])]
    pages[0].save(os.path.join(HERE, "scan-alone.pdf"), resolution=75, save_all=True, append_images=pages[1:],
                  creationDate=at, modDate=at)
    t = Truth("scan-alone", "none")
    for _ in pages:
        t.page(620 * 72 / 75, 877 * 72 / 75, "scan")
    t.write()


class Two:
    """A drawing by fpdf2."""

    def __init__(self, name, unit, size, lock=None):
        self.truth, self.name, self.size = Truth(name, unit), name, size
        self.pdf = FPDF(unit="pt", format=size)
        self.pdf.set_creation_date(__import__("datetime").datetime(*DATE[:6], tzinfo=__import__("datetime").timezone.utc))
        self.pdf.set_auto_page_break(False)
        self.pdf.add_font("Sans", "", SANS)
        if lock:
            self.pdf.set_encryption(**lock)

    def page(self, why="-"):
        self.pdf.add_page()
        self.truth.page(float(self.size[0]), float(self.size[1]), why)

    def put(self, text, x, y, size=10, deg=0.0, font="Sans"):
        self.pdf.set_font(font, size=size)
        if deg:
            with self.pdf.rotation(deg, x=x, y=y):
                self.pdf.text(x, y, text)
        else:
            self.pdf.text(x, y, text)
        return box(x, y, self.pdf.get_string_width(text), size, deg)

    def close(self):
        self.pdf.output(os.path.join(HERE, self.name + ".pdf"))
        self.truth.write()


def two_metric():
    d = Two("two-metric", "mm", (841.89, 595.28))
    t = d.truth
    d.page()
    d.put("Alle Ma\u00dfe in mm", 60, 560, 9, font="Helvetica")
    for n, text in enumerate(["120", "45\u00b0", "R2", "Werkstoff 1.2379", "Blatt 1 von 2"]):
        d.put(text, 60 + 90 * n, 500, 10, font="Helvetica")
    text = "4x \u00d80,8 durchgehend"
    t.callout([d.put(text, 80, 80, 11, font="Helvetica")], 4, "size=\u00d80,8; end=through; count=4x", text)
    a, b = f"2x {DIA}0,60 {PM}0,02", "12 tief"
    t.callout([d.put(a, 300, 80), d.put(b, 310, 93)], 2, f"size={DIA}0,60 {PM}0,02; depth=12; count=2x", f"{a} {b}")
    first = d.put(f"{DIA}0,80", 520, 80, 12)
    small = [d.put("+0,05", first[2] + 2, 74, 7), d.put("-0,02", first[2] + 2, 83, 7)]
    t.callout([first, *small, d.put("durch", small[0][2] + 4, 80, 12)], "-", f"size={DIA}0,80 +0,05/-0,02; end=through",
              f"{DIA}0,80 +0,05/-0,02 durch")
    text = f"3x {DIA}0,35 {DEEP}4"
    t.callout([d.put(text, 700, 300, 10, 90)], 3, f"size={DIA}0,35; depth={DEEP}4; count=3x", text)
    # Two fonts in one line, as where a sign is missing in the first.
    first = d.put("5x ", 300, 200, 10, font="Helvetica")
    second = d.put(f"{DIA}0,9 ", first[2], 200, 10)
    third = d.put("THRU", second[2], 200, 10, font="Helvetica")
    t.callout([first, second, third], 5, f"size={DIA}0,9; end=THRU; count=5x", f"5x {DIA}0,9 THRU")
    d.page("blank")
    d.close()


def two_chart():
    d = Two("two-chart", "inch", (792.0, 612.0))
    d.page()
    heads = ["MARK", "X (IN)", "Y (IN)", "DIA (IN)", "DEPTH (IN)", "FINISH"]
    columns = [80, 160, 240, 320, 420, 540]
    for x, head in zip(columns, heads):
        d.put(head, x, 90, 9, font="Helvetica")
    rows = [["A1", "1.250", "0.500", ".0315", ".550", "AS BURNT"], ["A2", "1.750", "0.500", ".0315", ".550", "AS BURNT"],
            ["B1", "2.000", "1.000", ".0472", "THRU", "POLISH"]]
    for n, cells in enumerate(rows):
        boxes = [d.put(cell, x, 104 + 13 * n, 9, font="Helvetica") for x, cell in zip(columns, cells)]
        d.truth.callout(boxes, "-", "table", " | ".join(cells))
    d.close()


def two_locked():
    d = Two("two-locked", "none", (595.28, 841.89), lock={"owner_password": "ash", "user_password": "wren"})
    d.page()
    d.put("4x \u00d80,8 THRU", 80, 80)
    d.truth.lines = ["unit\tnone"]
    d.truth.refused("locked")
    d.close()


def plot():
    matplotlib.use("pdf")
    from matplotlib import pyplot
    from matplotlib.patches import PathPatch
    from matplotlib.textpath import TextPath

    wide, high = 720.0, 432.0
    texts = [(f"4X {DIA}0.80 THRU", 100, 80, 4, f"size={DIA}0.80; end=THRU; count=4X"),
             (f"2X {DIA}1.25 {DEEP}6", 400, 300, 2, f"size={DIA}1.25; depth={DEEP}6; count=2X")]
    for name, kind in [("plot-type3", 3), ("plot-truetype", 42), ("plot-strokes", None)]:
        matplotlib.rcParams["pdf.fonttype"] = kind or 42
        figure = pyplot.figure(figsize=(wide / 72, high / 72))
        t = Truth(name, "none" if kind is None else "mm")
        t.page(wide, high, "strokes" if kind is None else "-")
        axes = figure.add_axes([0, 0, 1, 1], xlim=(0, wide), ylim=(0, high))
        axes.set_axis_off()
        said = [*texts, ("DIMENSIONS IN MM", 60, 400, None, None)]
        for text, x, y, count, cells in said:
            if kind is None:
                for n in range(5):
                    # As many outlines as a drawing has letters.
                    for at, sign in ((at, sign) for at, sign in enumerate(text) if sign != " "):
                        axes.add_patch(PathPatch(TextPath((x + 7 * at, high - y - 12 * n), sign, size=10), lw=0))
                continue
            axes.text(x, high - y, text, fontsize=10, parse_math=False)
            if cells:
                t.callout([box(x, y, pdfmetrics.stringWidth(text, "Sans", 10), 10)], count, cells, text)
        figure.savefig(os.path.join(HERE, name + ".pdf"), metadata={"CreationDate": None})
        pyplot.close(figure)
        t.write()


for write in [lab_metric, lab_inch, lab_points, lab_unsaid, lab_both, lab_chart, lab_locked, lab_forms, lab_scanned,
              scan_alone, two_metric, two_chart, two_locked, plot]:
    write()
for turned, by in [("lab-turned-90", 90), ("lab-turned-180", 180), ("lab-turned-270", 270)]:
    lab_turned(turned, by)
