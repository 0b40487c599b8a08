#!/usr/bin/env python3
"""Writes the drawings of this folder and the truth of each, from what they are made of.

    python3 -m pip install ezdxf==1.4.5 dxfwrite==1.2.2
    PYTHONHASHSEED=0 python3 tests/dxf-corpus/write.py

ezdxf writes most of them, dxfwrite those whose names begin with "plain-", and write.mjs those with "script-". What a truth says comes from the
numbers that a drawing is built of, never from reading it. Lengths of a truth are in millimeters where the
drawing says its unit, else in its own.

A line of a truth, parts separated by tabs:
    unit     millimeters in one unit of the drawing, or "none"
    outline  least x, least y, most x, most y of the part's outline
    hole     diameter, entry (three), axis (three), layer, text or "-", "tied" or "beside" or "-", guesses
    refused  what it is refused for, and how often
"""

import logging
import math
import os
import random

import ezdxf
from dxfwrite import DXFEngine
from ezdxf import units
from ezdxf.math import OCS, Matrix44, Vec3
from ezdxf.render import mleader

HERE = os.path.dirname(os.path.abspath(__file__))
DOWN = (0.0, 0.0, -1.0)
MM = {"mm": 1.0, "inch": 25.4, "none": None, "cm": 10.0}
CODE = {"mm": units.MM, "inch": units.IN, "none": 0, "cm": units.CM}


class Truth:
    """What a drawing shows, in its own numbers; turned into millimeters when written."""

    def __init__(self, unit):
        self.unit, self.holes, self.refused, self.outline = unit, [], {}, None

    def hole(self, d, x, y, z=0.0, axis=DOWN, layer="0", text="-", how="-", guesses=()):
        self.holes.append((d, (x, y, z), axis, layer, text, how, guesses))

    def refuse(self, why, times=1):
        self.refused[why] = self.refused.get(why, 0) + times

    def write(self, name):
        scale = MM[self.unit] or 1.0
        lines = ["unit\t" + ("none" if MM[self.unit] is None else repr(scale))]
        if self.outline:
            lines.append("outline\t" + "\t".join(repr(v * scale) for v in self.outline))
        for d, entry, axis, layer, text, how, guesses in self.holes:
            numbers = [d * scale, *(v * scale for v in entry), *axis]
            said = []
            for guess in sorted(guesses):
                kind, _, value = guess.partition(" ")
                said.append(f"{kind} {float(value) * scale!r}" if value else kind)
            lines.append("\t".join(["hole", *map(repr, numbers), layer, text, how, ", ".join(said) or "-"]))
        lines += [f"refused\t{why}\t{times}" for why, times in sorted(self.refused.items())]
        with open(os.path.join(HERE, name + ".truth"), "w", encoding="utf-8", newline="\n") as file:
            file.write("\n".join(lines) + "\n")


def new(version, unit, setup=False):
    doc = ezdxf.new(version, setup=setup)
    if version != "R12":
        doc.header["$INSUNITS"] = CODE[unit]
    # R12 has no place for a unit.
    return doc, doc.modelspace(), Truth("none" if version == "R12" else unit)


def save(doc, truth, name, binary=False):
    doc.header["$TDCREATE"] = doc.header["$TDUPDATE"] = 2461000.5
    path = os.path.join(HERE, name + ".dxf")
    if binary:
        doc.saveas(path, fmt="bin")
    else:
        doc.saveas(path)
    truth.write(name)


def rectangle(msp, x0, y0, x1, y1, layer="0"):
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    if msp.doc.dxfversion == "AC1009":
        msp.add_polyline2d(corners, close=True, dxfattribs={"layer": layer})
    else:
        msp.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def plate(version, unit, name, binary=False):
    """A plate with twelve holes of two sizes."""
    doc, msp, truth = new(version, unit)
    doc.layers.add("HOLES", color=1)
    k = 1 / 25.4 if unit == "inch" else 1.0
    rectangle(msp, 0, 0, 100 * k, 60 * k)
    truth.outline = (0, 0, 100 * k, 60 * k)
    for column in range(4):
        for row in range(3):
            d = (0.8 if (column + row) % 2 else 1.3) * k
            x, y = (12.5 + 25 * column) * k, (10 + 20 * row) * k
            msp.add_circle((x, y), d / 2, dxfattribs={"layer": "HOLES"})
            truth.hole(d, x, y, layer="HOLES")
    save(doc, truth, name, binary)


def placed(matrices, point):
    point = Vec3(point)
    for matrix in matrices:
        point = matrix.transform(point)
    return point


def at(x, y, sx=1.0, sy=1.0, turn=0.0, base=(0, 0)):
    """What an insert does to its block's points."""
    return (
        Matrix44.translate(-base[0], -base[1], 0)
        @ Matrix44.scale(sx, sy, 1)
        @ Matrix44.z_rotate(math.radians(turn))
        @ Matrix44.translate(x, y, 0)
    )


def blocks(version, name, binary=False):
    """Holes in blocks: nested, scaled, turned, mirrored, in rows and columns, stretched."""
    doc, msp, truth = new(version, "mm")
    for layer in ("HOLES", "PLACED", "OTHER"):
        doc.layers.add(layer)
    rectangle(msp, -50, -50, 450, 350)
    truth.outline = (-50, -50, 450, 350)
    inner = doc.blocks.new("PAIR", base_point=(1, 2))
    inner.add_circle((1, 2), 0.5)
    inner.add_circle((7, 4), 0.75, dxfattribs={"layer": "HOLES"})
    outer = doc.blocks.new("GROUP")
    nested = [at(0, 0, base=(1, 2)), at(20, 5, 2, 2, 30, base=(1, 2)), at(0, 30, -1, 1, 0, base=(1, 2))]
    outer.add_blockref("PAIR", (0, 0))
    outer.add_blockref("PAIR", (20, 5), dxfattribs={"xscale": 2, "yscale": 2, "zscale": 2, "rotation": 30})
    outer.add_blockref("PAIR", (0, 30), dxfattribs={"xscale": -1, "layer": "OTHER"})

    def pair(matrices, scale, layer, holes_layer="HOLES"):
        for (point, d, own) in [((1, 2), 1.0, None), ((7, 4), 1.5, holes_layer)]:
            p = placed(matrices, point)
            truth.hole(d * scale, p.x, p.y, layer=own or layer)

    def group(last, scale, layer):
        for matrix, times, own in zip(nested, (1, 2, 1), (layer, layer, "OTHER")):
            pair([matrix, last], times * scale, own)

    for (x, y, s, mirror, turn, layer) in [
        (40, 40, 1, 1, 0, "PLACED"),
        (150, 60, 2, 1, 45, "PLACED"),
        (300, 60, 1.5, -1, 200, "OTHER"),
    ]:
        msp.add_blockref("GROUP", (x, y), dxfattribs={
            "xscale": s * mirror, "yscale": s, "zscale": s, "rotation": turn, "layer": layer})
        group(at(x, y, s * mirror, s, turn), s, layer)
    # Rows and columns; their steps turn with the insert, and its scale leaves them alone.
    msp.add_blockref("PAIR", (50, 200), dxfattribs={
        "column_count": 3, "row_count": 2, "column_spacing": 25, "row_spacing": 18,
        "rotation": 10, "xscale": 0.5, "yscale": 0.5, "layer": "PLACED"})
    for row in range(2):
        for column in range(3):
            step = Vec3(25 * column, 18 * row).rotate_deg(10)
            pair([at(50 + step.x, 200 + step.y, 0.5, 0.5, 10, base=(1, 2))], 0.5, "PLACED")
    # Stretched: no circles any more.
    msp.add_blockref("PAIR", (300, 250), dxfattribs={"xscale": 2, "yscale": 1})
    truth.refuse("stretched", 2)
    # Stretched one way in a block, and back where that is placed: circles again.
    back = doc.blocks.new("BACK")
    back.add_blockref("PAIR", (3, 3), dxfattribs={"xscale": 2, "yscale": 1})
    msp.add_blockref("BACK", (350, 300), dxfattribs={"xscale": 1, "yscale": 2, "layer": "PLACED"})
    pair([at(3, 3, 2, 1, base=(1, 2)), at(350, 300, 1, 2)], 2, "PLACED")
    save(doc, truth, name, binary)


def wrong_blocks():
    """Blocks that hold themselves, are nested too deep, or are not there."""
    doc, msp, truth = new("R2010", "mm")
    rectangle(msp, 0, 0, 50, 50)
    msp.add_circle((10, 10), 0.5)
    truth.hole(1.0, 10, 10)
    own = doc.blocks.new("OWN")
    own.add_circle((20, 20), 0.5)
    own.add_blockref("OTHERWISE", (1, 1))
    other = doc.blocks.new("OTHERWISE")
    other.add_blockref("OWN", (1, 1))
    msp.add_blockref("OWN", (0, 0))
    truth.hole(1.0, 20, 20)
    truth.refuse("holds itself")
    for depth in range(80):
        block = doc.blocks.new(f"D{depth}")
        block.add_blockref(f"D{depth + 1}", (0, 0))
    doc.blocks.new("D80").add_circle((30, 30), 0.5)
    msp.add_blockref("D0", (0, 0))
    truth.refuse("too deep")
    msp.add_blockref("NOWHERE", (0, 0))
    truth.refuse("missing NOWHERE")
    save(doc, truth, "wrong-blocks")


def extruded(version, name, binary=False):
    """Circles whose plane is not the drawing's, also in a block, and inserts that are turned over."""
    doc, msp, truth = new(version, "mm")
    block = doc.blocks.new("SPOT")
    block.add_circle((3, 1), 0.4)

    def into(normal):
        normal = Vec3(normal).normalize()
        # Drawn seen from above, whichever way its own plane is turned.
        return tuple(-normal if normal.z > 1e-9 or abs(normal.z) <= 1e-9 else normal)

    for n, normal in enumerate([(0, 0, -1), (0, 0, 1), (1, 0, 0), (0, 1, 1), (-1, 2, 3), (0, 0.01, -1), (0.01, 0.01, 1)]):
        center = Vec3(10 + 10 * n, 5 + 2 * n, 3)
        ocs = OCS(normal)
        own = ocs.from_wcs(center)
        msp.add_circle(own, 0.6, dxfattribs={"extrusion": normal})
        truth.hole(1.2, center.x, center.y, center.z, axis=into(normal))
    # An insert that is turned over: its block's x runs the other way.
    normal = Vec3(0, 0, -1)
    place = OCS(normal).from_wcs(Vec3(40, 60, 0))
    msp.add_blockref("SPOT", place, dxfattribs={"extrusion": normal, "rotation": 25})
    c = Vec3(3, 1).rotate_deg(25)
    truth.hole(0.8, 40 - c.x, 60 + c.y)
    # Two halves of a hole, turned over.
    own = OCS(normal).from_wcs(Vec3(70, 60, 0))
    for start in (20, 200):
        msp.add_arc(own, 0.7, start, start + 180, dxfattribs={"extrusion": normal})
    truth.hole(1.4, 70, 60, guesses=("closed-arcs",))
    save(doc, truth, name, binary)


def ring(cx, cy, r, count, bulge, turn=0.0):
    points = []
    for n in range(count):
        angle = math.radians(turn) + 2 * math.pi * n / count
        points.append((cx + r * math.cos(angle), cy + r * math.sin(angle), bulge))
    return points


def arcs(version, name, binary=False):
    """Holes drawn as arcs and chains that close, and arcs that are none."""
    doc, msp, truth = new(version, "mm")
    old = version == "R12"

    def chain(points, close=True):
        if old:
            msp.add_polyline2d(points, format="xyb", close=close)
        else:
            msp.add_lwpolyline(points, format="xyb", close=close)

    rectangle(msp, 0, 0, 120, 80)
    truth.outline = (0, 0, 120, 80)
    closed = ("closed-arcs",)
    for n, starts in enumerate([(0, 180), (30, 120, 210, 300), (10, 130, 250), (270, 90)]):
        x, y, r = 10 + 12 * n, 10, 0.4 + 0.1 * n
        for start in starts:
            msp.add_arc((x, y), r, start, start + 360 / len(starts))
        truth.hole(2 * r, x, y, guesses=closed)
    msp.add_arc((60, 10), 0.55, 0, 360)
    truth.hole(1.1, 60, 10)
    for n, (count, turn) in enumerate([(2, 0), (2, 77), (4, 10), (3, 0)]):
        x, y, r = 10 + 12 * n, 25, 0.5 + 0.1 * n
        chain(ring(x, y, r, count, math.tan(math.pi / count / 2), turn))
        truth.hole(2 * r, x, y, guesses=closed)
    # Clockwise, and closed by a last point upon the first.
    chain(list(reversed(ring(60, 25, 0.45, 2, -1))))
    truth.hole(0.9, 60, 25, guesses=closed)
    chain(ring(72, 25, 0.65, 2, 1) + [(72.65, 25, 0)], close=False)
    truth.hole(1.3, 72, 25, guesses=closed)
    # As many chords.
    chain(ring(84, 25, 1.5, 36, 0))
    truth.hole(3.0, 84, 25, guesses=closed)
    if not old:
        msp.add_ellipse((96, 25), (0.7, 0), 1.0)
        truth.hole(1.4, 96, 25)
        msp.add_ellipse((108, 25), (0.3, 0.4), 1.0, 0.5, 0.5 + 2 * math.pi)
        truth.hole(1.0, 108, 25)
        msp.add_ellipse((108, 40), (1.2, 0), 0.5)
        truth.refuse("stretched")
    # None: a slot, a plate with rounded corners, a hexagon, a keyhole, a fillet, half a hole in an edge.
    chain([(20, 50, 0), (30, 50, 1), (30, 52, 0), (20, 52, 1)])
    q = math.tan(math.pi / 8)
    chain([(42, 48, 0), (58, 48, q), (60, 50, 0), (60, 58, q), (58, 60, 0), (42, 60, q), (40, 58, 0), (40, 50, q)])
    chain(ring(75, 55, 3, 6, 0))
    msp.add_arc((90, 55), 2, -60, 240)
    end = (90 + 2 * math.cos(math.radians(60)), 55 - 2 * math.sin(math.radians(60)))
    msp.add_line(end, (end[0], 48))
    msp.add_line((end[0], 48), (180 - end[0], 48))
    msp.add_line((180 - end[0], 48), (180 - end[0], end[1]))
    msp.add_arc((110, 70), 3, 0, 90)
    msp.add_line((113, 70), (113, 62))
    msp.add_line((110, 73), (100, 73))
    # Three quarters of a turn with nothing to them.
    msp.add_arc((20, 70), 1, 0, 270)
    truth.refuse("open")
    save(doc, truth, name, binary)


def concentric(version, name, binary=False):
    """Which of circles about one center is the hole."""
    doc, msp, truth = new(version, "mm", setup=["linetypes"])
    rectangle(msp, 0, 0, 120, 60)
    truth.outline = (0, 0, 120, 60)
    # A chamfer, a countersink, a counterbore in a countersink.
    for n, ds in enumerate([(0.8, 1.2), (1.0, 2.4), (1.5, 3.0, 3.6)]):
        x, y = 10 + 15 * n, 10
        for d in reversed(ds):
            msp.add_circle((x, y), d / 2)
        truth.hole(ds[0], x, y, guesses=[f"of-concentric {d!r}" for d in ds[1:]])
    # An inner thread: three quarters of a turn outside the hole, at any angle.
    for n, start in enumerate((0, 100, 262.5)):
        x, y = 10 + 15 * n, 25
        msp.add_circle((x, y), 2.5)
        msp.add_arc((x, y), 3, start, start + 270)
        truth.hole(5.0, x, y, guesses=("of-concentric 6.0",))
    # Drawn twice.
    for _ in range(2):
        msp.add_circle((60, 10), 0.5)
    truth.hole(1.0, 60, 10, guesses=("drawn-twice",))
    # A cross of center lines, and a cross of plain ones.
    for x, kind in ((75, "CENTER"), (90, "CONTINUOUS")):
        msp.add_circle((x, 10), 0.5)
        msp.add_line((x - 1, 10), (x + 1, 10), dxfattribs={"linetype": kind})
        msp.add_line((x, 9), (x, 11), dxfattribs={"linetype": kind})
        truth.hole(1.0, x, 10)
    # A hole in sight, and a wider step behind it that is hidden.
    msp.add_circle((60, 25), 0.5)
    msp.add_circle((60, 25), 1.5, dxfattribs={"linetype": "HIDDEN"})
    truth.hole(1.0, 60, 25, guesses=("of-concentric 3.0",))
    # Wholly hidden: it begins in the other side.
    msp.add_circle((75, 25), 0.6, dxfattribs={"linetype": "HIDDEN"})
    truth.hole(1.2, 75, 25, guesses=("dashed",))
    # Holes on a circle of center lines, which is none, about a bore with a boss.
    msp.add_circle((100, 35), 8, dxfattribs={"linetype": "CENTER"})
    truth.refuse("center line")
    msp.add_circle((100, 35), 3)
    truth.hole(6.0, 100, 35)
    for n in range(6):
        a = math.radians(60 * n)
        msp.add_circle((100 + 8 * math.cos(a), 35 + 8 * math.sin(a)), 0.5)
        truth.hole(1.0, 100 + 8 * math.cos(a), 35 + 8 * math.sin(a))
    # A center that is drawn a hair beside.
    msp.add_circle((30, 45), 0.5)
    msp.add_circle((30 + 1e-7, 45 - 1e-7), 0.9)
    truth.hole(1.0, 30, 45, guesses=("of-concentric 1.8",))
    save(doc, truth, name, binary)


def disc(version, name, binary=False):
    """A round part: its outline is a circle and no hole, nor is the raised middle that has holes in it."""
    doc, msp, truth = new(version, "inch")
    msp.add_circle((5, 5), 2)
    truth.outline = (3, 3, 7, 7)
    msp.add_circle((5, 5), 1.5)
    truth.refuse("holds holes", 2)
    msp.add_circle((5, 5), 0.25)
    truth.hole(0.5, 5, 5)
    for n in range(8):
        a = math.radians(45 * n + 10)
        for r, d in ((1.0, 0.03125), (1.75, 0.04)):
            x, y = 5 + r * math.cos(a), 5 + r * math.sin(a)
            msp.add_circle((x, y), d / 2)
            truth.hole(d, x, y)
    save(doc, truth, name, binary)


def balloons(version, name):
    """Circles with text in them, and a sheet with circles of its own."""
    doc, msp, truth = new(version, "mm")
    rectangle(msp, 0, 0, 80, 50)
    truth.outline = (0, 0, 80, 50)
    for n in range(4):
        msp.add_circle((10 + 15 * n, 20), 0.45)
        truth.hole(0.9, 10 + 15 * n, 20)
    # Balloons, one of them a block with an attribute.
    for n, label in enumerate(("1", "12", "A")):
        msp.add_circle((100, 10 + 12 * n), 4)
        msp.add_text(label, height=3).set_placement((100, 10 + 12 * n), align=ezdxf.enums.TextEntityAlignment.MIDDLE_CENTER)
        truth.refuse("text inside " + label)
    mark = doc.blocks.new("MARK")
    mark.add_circle((0, 0), 4)
    mark.add_attdef("NO", (-1, -1.5), dxfattribs={"height": 3})
    placed_mark = msp.add_blockref("MARK", (115, 20))
    placed_mark.add_attrib("NO", "7", (114, 18.5), dxfattribs={"height": 3})
    truth.refuse("text inside 7")
    msp.add_circle((115, 40), 4)
    msp.add_mtext("B2", dxfattribs={"char_height": 3, "attachment_point": 5, "insert": (115, 40)})
    truth.refuse("text inside B2")
    # A datum target: a circle in two halves, each with its text.
    msp.add_circle((100, 55), 6)
    msp.add_line((94, 55), (106, 55))
    for label, y in (("5", 57.5), ("A1", 52.5)):
        msp.add_text(label, height=2.5).set_placement((100, y), align=ezdxf.enums.TextEntityAlignment.MIDDLE_CENTER)
    truth.refuse("text inside 5")
    # What the sheet has of circles.
    paper = doc.layout("Layout1")
    paper.add_circle((200, 20), 5)
    paper.add_circle((200, 20), 3)
    truth.refuse("on paper", 2)
    save(doc, truth, name)


def mtexts(beside):
    """Callouts in the codes of formatted text."""
    beside(50, 10, 1.2, r"{\fArial|b0|i0|c0|p34;2x }\H0.7x;%%c1.2\S+0.1^ -0.05; \U+21A712", "2x \u23001.2 +0.1/-0.05 \u21a712", mtext=True, differs="2-1")
    beside(90, 10, 1.0, r"\A1;\C1;%%c1 H7\PTHRU ALL", "\u23001 H7 THRU ALL", mtext=True)
    beside(50, 25, 0.6, r"{\Famgdt|c0;n}0.6 {\fAIGDT|b0|i0|c2|p2;x}9", "\u23000.6 \u21a79", mtext=True)


def callouts(version, name, binary=False):
    """Texts beside holes, at the end of leaders, in dimensions."""
    doc, msp, truth = new(version, "mm", setup=["linetypes", "styles", "dimstyles:metric"])
    rectangle(msp, 0, 0, 150, 100)
    truth.outline = (0, 0, 150, 100)
    middle = ezdxf.enums.TextEntityAlignment.MIDDLE_LEFT

    def beside(x, y, d, raw, read, mtext=False, differs=None):
        msp.add_circle((x, y), d / 2)
        if mtext:
            msp.add_mtext(raw, dxfattribs={"char_height": 1.5, "attachment_point": 4, "insert": (x + d / 2 + 1, y)})
        else:
            msp.add_text(raw, height=1.5).set_placement((x + d / 2 + 1, y), align=middle)
        differs = (f"count-differs-{differs}",) if differs else ()
        truth.hole(d, x, y, text=read, how="beside", guesses=("text-beside", *differs))

    beside(10, 10, 0.8, "4x %%c0.8 %%p0.02 THRU", "4x \u23000.8 \u00b10.02 THRU", differs="4-2")
    if version != "R12":
        mtexts(beside)
    beside(10, 25, 0.5, r"3 HOLES \U+00D80.5 THRU", "3 HOLES \u00d80.5 THRU", differs="3-1")
    # A word that is no callout, a mark of a view, and a length: nothing of theirs is the hole's.
    msp.add_circle((90, 25), 0.7)
    msp.add_text("DEBURR", height=1.5).set_placement((92, 25), align=middle)
    msp.add_text("12.5", height=1.5).set_placement((88, 27.5), align=middle)
    truth.hole(1.4, 90, 25)
    # Too far away to be anybody's.
    msp.add_circle((130, 25), 0.7)
    msp.add_text("%%c1.4 THRU", height=1.5).set_placement((30, 130), align=middle)
    truth.hole(1.4, 130, 25)
    # Between two holes of two sizes, nearer to the one that it does not speak of.
    msp.add_circle((10, 40), 0.4)
    msp.add_text("%%c1.6 THRU", height=1.5).set_placement((11.5, 40), align=middle)
    msp.add_circle((24, 44), 0.8)
    truth.hole(0.8, 10, 40)
    truth.hole(1.6, 24, 44, text="\u23001.6 THRU", how="beside", guesses=("text-beside",))
    if version != "R12":
        # A leader that knows its text, and one that ends beside it.
        msp.add_circle((50, 50), 0.45)
        leader = msp.add_leader([(50 + 0.45 * math.cos(1), 50 + 0.45 * math.sin(1)), (55, 58), (58, 58)], dimstyle="EZDXF")
        note = msp.add_mtext("6x %%c0.9 \\P15 DEEP", dxfattribs={"char_height": 2, "attachment_point": 4, "insert": (59, 58)})
        leader.dxf.annotation_handle = note.dxf.handle
        truth.hole(0.9, 50, 50, text="6x \u23000.9 15 DEEP", how="tied", guesses=("count-differs-6-2",))
        msp.add_circle((90, 50), 0.45)
        msp.add_leader([(90, 50.45), (95, 60), (98, 60)], dimstyle="EZDXF")
        msp.add_text("%%c0.9 THRU", height=2).set_placement((99, 60), align=middle)
        truth.hole(0.9, 90, 50, text="\u23000.9 THRU", how="tied")
        # A multileader.
        msp.add_circle((120, 50), 0.55)
        builder = msp.add_multileader_mtext("Standard")
        builder.set_content("2X %%c1.1\\P%%p0.05 THRU", char_height=2)
        builder.add_leader_line(mleader.ConnectionSide.left, [ezdxf.math.Vec2(120.55, 50)])
        builder.build(insert=ezdxf.math.Vec2(130, 60))
        truth.hole(1.1, 120, 50, text="2X \u23001.1 \u00b10.05 THRU", how="tied", guesses=("count-differs-2-1",))
    # Dimensions of diameters: measured, with words of their own, and across two points.
    msp.add_circle((20, 70), 1)
    msp.add_diameter_dim(center=(20, 70), radius=1, angle=45, dimstyle="EZ_RADIUS").render()
    truth.hole(2.0, 20, 70, text="\u23002", how="tied")
    msp.add_circle((50, 75), 0.9)
    msp.add_diameter_dim(center=(50, 75), radius=0.9, angle=30, text="5X <> THRU", dimstyle="EZ_RADIUS").render()
    # The sheet shows the measure with a comma, as the style has it.
    truth.hole(1.8, 50, 75, text="5X \u23001,8 THRU", how="tied", guesses=("count-differs-5-1",))
    msp.add_circle((80, 75), 1.1)
    msp.add_linear_dim(base=(80, 80), p1=(78.9, 75), p2=(81.1, 75), text="%%c<> %%p0.05", dimstyle="EZDXF", override={"dimlfac": 1}).render()
    truth.hole(2.2, 80, 75, text="\u23002.2 \u00b10.05", how="tied")
    # From one hole to the next: the length between them is neither's.
    for x in (110, 122):
        msp.add_circle((x, 75), 0.35)
        truth.hole(0.7, x, 75)
    msp.add_linear_dim(base=(110, 85), p1=(110, 75), p2=(122, 75), dimstyle="EZDXF").render()
    # A block with its callout in it.
    block = doc.blocks.new("SAID")
    block.add_circle((0, 0), 0.25)
    block.add_text("%%c0.5x8", height=0.75).set_placement((0.75, 0), align=middle)
    msp.add_blockref("SAID", (20, 90), dxfattribs={"xscale": 2, "yscale": 2})
    truth.hole(1.0, 20, 90, text="\u23000.5x8", how="beside", guesses=("text-beside",))
    save(doc, truth, name, binary)


def places(version, name):
    """A chart that has places, counts and remarks beside the sizes; its marks stand beside the holes."""
    doc, msp, truth = new(version, "mm")
    rectangle(msp, 0, 0, 80, 50)
    truth.outline = (0, 0, 80, 50)
    lines = {
        "C": ("3", "10.00", "%%c0.80 %%p0.02", "THRU", "EDM"),
        "A": ("2", "40.00", "%%c1.20", "12", "EDM, DEBURR"),
    }
    for mark, d, at in [("C", 0.8, [(10, 10), (20, 10), (30, 10)]), ("A", 1.2, [(10, 30)])]:
        read = " ".join((mark, *lines[mark])).replace("%%c", "\u2300").replace("%%p", "\u00b1")
        for x, y in at:
            msp.add_circle((x, y), d / 2)
            msp.add_text(mark, height=1.8).set_placement((x + 0.8, y + 0.8))
            truth.hole(d, x, y, text=read, how="beside", guesses=("text-beside",))
    heads = ("SYM", "QTY", "X LOC", "SIZE", "DEPTH", "REMARKS")
    for n, line in enumerate([heads, *((mark, *cells) for mark, cells in lines.items())]):
        for column, cell in enumerate(line):
            msp.add_text(cell, height=2.5).set_placement((100 + 20 * column, 50 - 5 * n))
    # Three texts that are one callout, and a second line below another one.
    for n, words in enumerate(["1x", "%%c2.0", "THRU"]):
        msp.add_text(words, height=2).set_placement((52 + (0, 4, 11)[n], 41))
    msp.add_circle((50, 40), 1)
    truth.hole(2.0, 50, 40, text="1x \u23002.0 THRU", how="beside", guesses=("text-beside",))
    msp.add_text("%%c0.70", height=2).set_placement((62, 20.5))
    msp.add_text("8 DEEP", height=2).set_placement((62, 17))
    msp.add_circle((60, 20), 0.35)
    truth.hole(0.7, 60, 20, text="\u23000.70 8 DEEP", how="beside", guesses=("text-beside",))
    save(doc, truth, name)


def counted(version, name):
    """Callouts that name several holes and stand at one of them, or at none."""
    doc, msp, truth = new(version, "mm")
    doc.layers.add("OLD").off()
    rectangle(msp, 0, 0, 100, 60)
    truth.outline = (0, 0, 100, 60)

    def row(y, d, count, text, pointed=None, guess=None, layer="0", others=()):
        for n in range(count):
            x = 10 + 12 * n
            msp.add_circle((x, y), d / 2, dxfattribs={"layer": layer})
            own = () if n == pointed else (guess,) if guess else ()
            truth.hole(d, x, y, layer=layer, text=text, how="tied", guesses=(*own, *others))

    def leader(x, y, d, words):
        builder = msp.add_multileader_mtext("Standard")
        builder.set_content(words, char_height=2)
        builder.add_leader_line(mleader.ConnectionSide.left, [ezdxf.math.Vec2(x + d / 2, y)])
        builder.build(insert=ezdxf.math.Vec2(x + 6, y + 6))

    # A leader to the first of four.
    row(10, 0.8, 4, "4x \u23000.8 \u00b10.02 THRU", pointed=0, guess="text-by-count-4")
    leader(10, 10, 0.8, "4x %%c0.8 %%p0.02 THRU")
    # Six that a text far away speaks of.
    row(25, 0.6, 6, "6x \u23000.6 THRU", guess="text-by-count-6")
    msp.add_text("6x %%c0.6 THRU", height=2).set_placement((120, 90))
    # Three, and a fourth of another day that is switched off.
    row(40, 1.0, 3, "3x \u23001 8 DEEP", pointed=0, guess="text-by-count-3")
    leader(10, 40, 1.0, "3x %%c1 8 DEEP")
    msp.add_circle((90, 40), 0.5, dxfattribs={"layer": "OLD"})
    truth.hole(1.0, 90, 40, layer="OLD", guesses=("not-shown",))
    # Nobody can say which two of three are meant.
    for n in range(3):
        x = 10 + 12 * n
        msp.add_circle((x, 53), 0.7)
        of_first = dict(text="2x \u23001.4 THRU", how="tied", guesses=("count-differs-2-3",)) if n == 0 else {}
        truth.hole(1.4, x, 53, **of_first)
    leader(10, 53, 1.4, "2x %%c1.4 THRU")
    save(doc, truth, name)


def styled(version, name):
    """Dimensions whose limits, words and scale stand in their style, and in their block as the sheet shows them."""
    doc, msp, truth = new(version, "mm", setup=True)
    rectangle(msp, 0, 0, 100, 60)
    truth.outline = (0, 0, 100, 60)
    style = doc.dimstyles.duplicate_entry("EZ_RADIUS", "DIAMETER")
    style.dxf.dimlfac, style.dxf.dimdsep, style.dxf.dimdec, style.dxf.dimzin = 1, ord("."), 3, 8
    for x, d, given, text in [
        (10, 1.0, dict(dimtol=1, dimtp=0.02, dimtm=0.01, dimtdec=2), "\u23001 +0.02/-0.01"),
        (30, 1.2, dict(dimtol=1, dimtp=0.03, dimtm=0.03, dimtdec=2), "\u23001.2\u00b10.03"),
        (50, 1.4, dict(dimlim=1, dimtp=0.02, dimtm=0.02, dimtdec=2), "\u23001.38-1.42"),
        # Drawn twice as large as it is.
        (70, 1.6, dict(dimlfac=0.5), "\u23000.8"),
    ]:
        msp.add_circle((x, 30), d / 2)
        msp.add_diameter_dim(center=(x, 30), radius=d / 2, angle=40, dimstyle="DIAMETER", override=given).render()
        truth.hole(d, x, 30, text=text, how="tied")
    save(doc, truth, name)


def framed(version, name, in_block):
    """A plate on a sheet whose frame has no words: in the model, or in a block."""
    doc, msp, truth = new(version, "mm")
    doc.layers.add("BORDER")
    frame = doc.blocks.new("FRAME") if in_block else msp
    for box in [(0, 0, 297, 210), (10, 10, 287, 200), (187, 10, 287, 50)]:
        rectangle(frame, *box, layer="BORDER")
    if in_block:
        msp.add_blockref("FRAME", (0, 0), dxfattribs={"layer": "BORDER"})
    rectangle(msp, 50, 80, 150, 140)
    truth.outline = (50, 80, 150, 140)
    for n in range(5):
        msp.add_circle((60 + 20 * n, 110), 0.4)
        truth.hole(0.8, 60 + 20 * n, 110)
    # A hole for the binder in the margin.
    msp.add_circle((5, 105), 3)
    truth.hole(6.0, 5, 105)
    save(doc, truth, name)


def pitch(version, name):
    """Circles that holes are spaced on, drawn through and dashed."""
    doc, msp, truth = new(version, "mm", setup=["linetypes"])
    doc.layers.add("CENTERLINES")
    for n, look in enumerate([{}, {"linetype": "DASHED"}, {"layer": "CENTERLINES"}]):
        x0 = 30 + 60 * n
        rectangle(msp, x0 - 28, 2, x0 + 28, 58)
        msp.add_circle((x0, 30), 20, dxfattribs=look)
        truth.refuse("holes upon it")
        for k in range(6):
            x, y = x0 + 20 * math.cos(math.radians(60 * k)), 30 + 20 * math.sin(math.radians(60 * k))
            msp.add_circle((x, y), 0.25)
            truth.hole(0.5, x, y)
        # Two holes of a size upon a third are no such circle.
        msp.add_circle((x0, 30), 3)
        truth.hole(6.0, x0, 30)
        for x in (x0 - 3, x0 + 3):
            msp.add_circle((x, 30), 0.4)
            truth.hole(0.8, x, 30)
    save(doc, truth, name)


def chart(version, name):
    """A chart of holes in texts: the mark beside a hole leads to its line."""
    doc, msp, truth = new(version, "inch")
    rectangle(msp, 0, 0, 8, 5)
    truth.outline = (0, 0, 8, 5)
    lines = [("A1", ".0315", "THRU"), ("A2", ".0394", ".500 DP"), ("B1", ".0500", "THRU")]
    holes = [("A1", 1, 1, 0.0315), ("A1", 2, 1, 0.0315), ("A2", 3, 2, 0.0394), ("B1", 4, 3, 0.05), ("A2", 6, 4, 0.0394)]
    for mark, x, y, d in holes:
        msp.add_circle((x, y), d / 2)
        msp.add_text(mark, height=0.1).set_placement((x + 0.06, y + 0.03))
        line = next(line for line in lines if line[0] == mark)
        truth.hole(d, x, y, text=f"{mark} \u2300{line[1]} {line[2]}", how="beside", guesses=("text-beside",))
    for n, line in enumerate([("HOLE", "SIZE", "DEPTH"), *lines]):
        for column, cell in enumerate(line):
            cell = "%%c" + cell if n and column == 1 else cell
            msp.add_text(cell, height=0.1).set_placement((10 + 1.2 * column, 5 - 0.25 * n))
    save(doc, truth, name)


def layers(version, name, binary=False):
    """Layers that are off or frozen, and lines that are hidden."""
    doc, msp, truth = new(version, "mm", setup=["linetypes"])
    rectangle(msp, 0, 0, 60, 40, layer="PART")
    truth.outline = (0, 0, 60, 40)
    doc.layers.add("PART")
    doc.layers.add("OFF").off()
    doc.layers.add("FROZEN").freeze()
    doc.layers.add("BEHIND", linetype="HIDDEN")
    doc.layers.add("AXES", linetype="CENTER")
    doc.layers.add("DRILL \u00d80.8" if version not in ("R12",) else "DRILL_08")
    drill = "DRILL \u00d80.8" if version not in ("R12",) else "DRILL_08"
    for layer, x, guesses in [
        ("PART", 5, ()), ("OFF", 15, ("not-shown",)), ("FROZEN", 25, ("not-shown",)), ("BEHIND", 35, ("dashed",)), (drill, 45, ())]:
        msp.add_circle((x, 10), 0.4, dxfattribs={"layer": layer})
        truth.hole(0.8, x, 10, layer=layer, guesses=guesses)
    msp.add_circle((30, 20), 9, dxfattribs={"layer": "AXES"})
    truth.refuse("center line")
    # By the layer's dashes, but drawn whole.
    msp.add_circle((35, 20), 0.4, dxfattribs={"layer": "BEHIND", "linetype": "CONTINUOUS"})
    truth.hole(0.8, 35, 20, layer="BEHIND")
    block = doc.blocks.new("B")
    block.add_circle((0, 0), 0.5)
    block.add_circle((4, 0), 0.5, dxfattribs={"layer": "PART"})
    block.add_circle((8, 0), 0.5, dxfattribs={"linetype": "BYBLOCK"})
    msp.add_blockref("B", (5, 30), dxfattribs={"layer": "OFF", "linetype": "HIDDEN"})
    truth.hole(1.0, 5, 30, layer="OFF", guesses=("not-shown",))
    truth.hole(1.0, 9, 30, layer="PART")
    truth.hole(1.0, 13, 30, layer="OFF", guesses=("dashed", "not-shown"))
    # A frozen insert takes all of its block with it.
    msp.add_blockref("B", (35, 30), dxfattribs={"layer": "FROZEN"})
    truth.hole(1.0, 35, 30, layer="FROZEN", guesses=("not-shown",))
    truth.hole(1.0, 39, 30, layer="PART", guesses=("not-shown",))
    truth.hole(1.0, 43, 30, layer="FROZEN", guesses=("not-shown",))
    save(doc, truth, name, binary)


def pages(version, name, page, unit="mm"):
    """Texts and layer names in the code page of an old drawing."""
    doc, msp, truth = new(version, unit)
    doc.encoding = page
    layer = {"cp1252": "BOHRUNGEN \u00d80,8", "cp1251": "\u041e\u0422\u0412", "cp932": "\u7a74", "utf8": "\u7a74 \u00d80,8"}[page]
    doc.layers.add(layer)
    msp.add_circle((10, 10), 0.4, dxfattribs={"layer": layer})
    said = {"cp1252": "4x \u00d80,8 \u00b10,02", "cp1251": "4x %%c0.8 \u041e\u0422\u0412", "cp932": "4\u00d7%%c0.8 \u901a\u3057", "utf8": "4\u00d7 \u23000,8 \u21a714"}[page]
    msp.add_text(said, height=1.5).set_placement((11, 10))
    truth.hole(0.8, 10, 10, layer=layer, text=said.replace("%%c", "\u2300"), how="beside", guesses=("text-beside", "count-differs-4-1"))
    save(doc, truth, name)


def sheet(version, name):
    """Two views on a sheet with a frame and a title block, all of it in the model."""
    doc, msp, truth = new(version, "mm")
    doc.layers.add("FRAME")
    for x0, y0, x1, y1 in [(0, 0, 420, 297), (10, 10, 410, 287)]:
        rectangle(msp, x0, y0, x1, y1, layer="FRAME")
    rectangle(msp, 260, 10, 410, 60, layer="FRAME")
    for n, words in enumerate(["BRACKET", "DWG 4-118", "REV B", "SCALE 1:1", "SHEET 1 OF 1"]):
        msp.add_text(words, height=4).set_placement((265, 15 + 8 * n))
    # The part seen from above: lines and arcs, an edge with a notch, a pocket.
    corner = [(60, 100), (200, 100), (200, 180), (190, 190), (70, 190), (60, 180)]
    for a, b in [(0, 1), (1, 2), (3, 4), (5, 0)]:
        msp.add_line(corner[a], corner[b])
    msp.add_arc((190, 180), 10, 0, 90)
    msp.add_arc((70, 180), 10, 90, 180)
    truth.outline = (60, 100, 200, 190)
    rectangle(msp, 100, 120, 150, 150)
    # Seen from the side: a long box.
    rectangle(msp, 60, 220, 200, 250)
    for x, y in [(70, 110), (90, 110), (170, 110), (190, 170)]:
        msp.add_circle((x, y), 0.5)
        truth.hole(1.0, x, y)
    save(doc, truth, name)


def plain_plate():
    """By dxfwrite: R12, no unit, polylines, blocks, texts."""
    drawing = DXFEngine.drawing(os.path.join(HERE, "plain-plate.dxf"))
    truth = Truth("none")
    drawing.add_layer("HOLES", color=1)
    drawing.add_layer("PART")
    outline = DXFEngine.polyline([(0, 0), (80, 0), (80, 50), (0, 50)], layer="PART")
    outline.close()
    drawing.add(outline)
    truth.outline = (0, 0, 80, 50)
    for n in range(5):
        drawing.add(DXFEngine.circle(0.4, (10 + 12 * n, 10), layer="HOLES"))
        truth.hole(0.8, 10 + 12 * n, 10, layer="HOLES")
    for start in (0, 180):
        drawing.add(DXFEngine.arc(0.75, (10, 25), start, start + 180, layer="HOLES"))
    truth.hole(1.5, 10, 25, layer="HOLES", guesses=("closed-arcs",))
    drawing.add(DXFEngine.circle(0.6, (30, 25), layer="HOLES"))
    drawing.add(DXFEngine.text("%%c1.2 THRU", (31, 25), height=1.5, layer="0"))
    truth.hole(1.2, 30, 25, layer="HOLES", text="\u23001.2 THRU", how="beside", guesses=("text-beside",))
    block = DXFEngine.block("SPOT")
    block.add(DXFEngine.circle(0.25, (1, 0)))
    drawing.blocks.add(block)
    drawing.add(DXFEngine.insert("SPOT", insert=(50, 40), rotation=90, xscale=2, yscale=2, zscale=2, layer="HOLES"))
    truth.hole(1.0, 50, 42, layer="HOLES")
    drawing.add(DXFEngine.insert("SPOT", insert=(60, 40), columns=3, colspacing=5, rows=2, rowspacing=4, layer="HOLES"))
    for row in range(2):
        for column in range(3):
            truth.hole(0.5, 61 + 5 * column, 40 + 4 * row, layer="HOLES")
    drawing.add(DXFEngine.insert("SPOT", insert=(10, 40), xscale=2, yscale=1, layer="HOLES"))
    truth.refuse("stretched")
    drawing.save()
    truth.write("plain-plate")


def plain_scatter():
    """By dxfwrite: a hundred holes where chance puts them, in a block of a block."""
    drawing = DXFEngine.drawing(os.path.join(HERE, "plain-scatter.dxf"))
    truth = Truth("none")
    chance = random.Random(4)
    inner, outer = DXFEngine.block("INNER", basepoint=(5, 5)), DXFEngine.block("OUTER")
    taken = []
    while len(taken) < 100:
        x, y = round(chance.uniform(0, 90), 3), round(chance.uniform(0, 90), 3)
        if all(math.hypot(x - a, y - b) > 2 for a, b in taken):
            taken.append((x, y))
    for n, (x, y) in enumerate(taken):
        d = (0.5, 0.8, 1.1)[n % 3]
        inner.add(DXFEngine.circle(d / 2, (x, y)))
        p = placed([at(3, 4, 0.5, 0.5, 33, base=(5, 5)), at(100, 20, -3, 3, 71)], (x, y))
        truth.hole(d * 1.5, p.x, p.y, layer="BURN")
    outer.add(DXFEngine.insert("INNER", insert=(3, 4), rotation=33, xscale=0.5, yscale=0.5, zscale=0.5))
    for block in (inner, outer):
        drawing.blocks.add(block)
    drawing.add(DXFEngine.insert("OUTER", insert=(100, 20), rotation=71, xscale=-3, yscale=3, zscale=3, layer="BURN"))
    drawing.save()
    truth.write("plain-scatter")


def main():
    logging.disable(logging.WARNING)
    ezdxf.options.write_fixed_meta_data_for_testing = True
    plate("R12", "none", "plate-r12")
    plate("R12", "none", "plate-r12-binary", binary=True)
    plate("R2000", "inch", "plate-r2000-inch")
    plate("R2000", "inch", "plate-r2000-inch-binary", binary=True)
    plate("R2010", "mm", "plate-r2010-mm")
    plate("R2018", "none", "plate-r2018")
    plate("R2018", "cm", "plate-r2018-cm-binary", binary=True)
    blocks("R2010", "blocks-r2010")
    blocks("R12", "blocks-r12-binary", binary=True)
    wrong_blocks()
    extruded("R2000", "extruded-r2000")
    extruded("R2018", "extruded-r2018-binary", binary=True)
    arcs("R2007", "arcs-r2007")
    arcs("R12", "arcs-r12")
    concentric("R2013", "concentric-r2013")
    concentric("R12", "concentric-r12-binary", binary=True)
    disc("R2004", "disc-r2004")
    balloons("R2010", "balloons-r2010")
    callouts("R2010", "callouts-r2010")
    callouts("R12", "callouts-r12")
    callouts("R2018", "callouts-r2018-binary", binary=True)
    chart("R2010", "chart-r2010")
    places("R2010", "places-r2010")
    counted("R2010", "counted-r2010")
    styled("R2010", "styled-r2010")
    framed("R2010", "framed-r2010", in_block=False)
    framed("R2004", "framed-r2004", in_block=True)
    pitch("R2010", "pitch-r2010")
    layers("R2004", "layers-r2004")
    layers("R12", "layers-r12")
    layers("R2018", "layers-r2018-binary", binary=True)
    pages("R2000", "page-1252", "cp1252")
    pages("R2000", "page-1251", "cp1251")
    pages("R2004", "page-932", "cp932")
    pages("R2007", "page-utf-8", "utf8")
    sheet("R2010", "sheet-r2010")
    plain_plate()
    plain_scatter()


if __name__ == "__main__":
    main()
