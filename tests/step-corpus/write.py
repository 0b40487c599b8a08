"""Writes the solids of this folder and what is true of their holes.

Run from this folder, in an environment with a CAD kernel:

    pip install cadquery-ocp
    python write.py

Every solid is drilled by the kernel. What is true of a hole is measured on the body as it was without
this hole: the kernel cuts it with the hole's axis and with 720 lines of its wall, and says on which
surface each of them enters and leaves. Diameters, axes and bottoms are those of the construction.
Lengths of the truth are millimeters, whatever the unit of the file.
"""

import json
import math
import re
from pathlib import Path

from OCP.BRep import BRep_Builder
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_Copy,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_NurbsConvert,
    BRepBuilderAPI_Transform,
)
from OCP.BRepFilletAPI import BRepFilletAPI_MakeChamfer, BRepFilletAPI_MakeFillet
from OCP.BRepGProp import BRepGProp_Face
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeBox,
    BRepPrimAPI_MakeCone,
    BRepPrimAPI_MakeCylinder,
    BRepPrimAPI_MakeSphere,
    BRepPrimAPI_MakeTorus,
)
from OCP.BRepBndLib import BRepBndLib
from OCP.Bnd import Bnd_Box
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.Interface import Interface_Static
from OCP.ShapeCustom import ShapeCustom
from OCP.ShapeUpgrade import ShapeUpgrade_ShapeDivideAngle
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_StepModelType
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Compound
from OCP.XCAFDoc import XCAFDoc_DocumentTool
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Lin, gp_Pnt, gp_Trsf, gp_Vec

HERE = Path(__file__).parent
FAR = 500.0
LINES = 720


# ------------------------------------------------------------------ solids

def box(x, y, z, dx, dy, dz):
    return BRepPrimAPI_MakeBox(gp_Pnt(x, y, z), dx, dy, dz).Shape()


def ax(point, direction):
    return gp_Ax2(gp_Pnt(*point), gp_Dir(*direction))


def rod(point, direction, dia, length):
    return BRepPrimAPI_MakeCylinder(ax(point, direction), dia / 2, length).Shape()


def cone(point, direction, dia0, dia1, length):
    return BRepPrimAPI_MakeCone(ax(point, direction), dia0 / 2, dia1 / 2, length).Shape()


def ball(center, radius):
    return BRepPrimAPI_MakeSphere(gp_Pnt(*center), radius).Shape()


def ring(center, direction, major, minor):
    return BRepPrimAPI_MakeTorus(ax(center, direction), major, minor).Shape()


def cut(body, *tools):
    for tool in tools:
        body = BRepAlgoAPI_Cut(body, tool).Shape()
    return body


def fuse(body, *others):
    for other in others:
        body = BRepAlgoAPI_Fuse(body, other).Shape()
    return body


def turned(shape, trsf):
    return BRepBuilderAPI_Transform(shape, trsf, True).Shape()


def unit(v):
    length = math.sqrt(sum(c * c for c in v))
    return tuple(c / length for c in v)


def along(p, d, t):
    return tuple(a + t * b for a, b in zip(p, d))


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def faces(shape):
    found = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while found.More():
        yield TopoDS.Face(found.Current())
        found.Next()


def edges(shape):
    found = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_EDGE)
    while found.More():
        yield TopoDS.Edge(found.Current())
        found.Next()


# ------------------------------------------------------------------ measuring

def hits(body, point, direction):
    """Where a line meets a body: (t, face, outward normal), the same place once."""
    cutter = IntCurvesFace_ShapeIntersector()
    cutter.Load(body, 1e-9)
    cutter.Perform(gp_Lin(gp_Pnt(*point), gp_Dir(*direction)), -FAR, FAR)
    found = []
    for at in range(1, cutter.NbPnt() + 1):
        face = TopoDS.Face(cutter.Face(at))
        normal, where = gp_Vec(), gp_Pnt()
        BRepGProp_Face(face).Normal(cutter.UParameter(at), cutter.VParameter(at), where, normal)
        normal = unit((normal.X(), normal.Y(), normal.Z()))
        found.append((cutter.WParameter(at), face, normal))
    found.sort(key=lambda hit: hit[0])
    once = []
    for hit in found:
        if not once or hit[0] - once[-1][0] > 1e-7:
            once.append(hit)
    return once


def surface(hit, point, direction):
    """The kind of surface that a line meets, its radius and the line's offset from its axis or center."""
    _, face, normal = hit
    tilt = math.degrees(math.acos(min(1.0, abs(dot(normal, direction)))))
    about = BRepAdaptor_Surface(face)
    met = along(point, direction, hit[0])
    kind = about.GetType()
    if kind == GeomAbs_SurfaceType.GeomAbs_Plane:
        return {"kind": "flat", "tilt": tilt}
    if kind == GeomAbs_SurfaceType.GeomAbs_Cylinder:
        own = about.Cylinder()
        center, axis = own.Axis().Location(), own.Axis().Direction()
        center, axis = (center.X(), center.Y(), center.Z()), (axis.X(), axis.Y(), axis.Z())
        foot = along(center, axis, dot([m - c for m, c in zip(met, center)], axis))
        inward = dot(normal, [m - f for m, f in zip(met, foot)]) < 0
        between = cross(direction, axis)
        apart = [p - c for p, c in zip(point, center)]
        size = math.sqrt(dot(between, between))
        if size > 1e-9:
            offset = abs(dot(apart, between)) / size
        else:
            line = cross(apart, axis)
            offset = math.sqrt(dot(line, line))
        word = "bore" if inward else "cylinder"
        return {"kind": word, "tilt": tilt, "radius": own.Radius(), "offset": offset}
    if kind == GeomAbs_SurfaceType.GeomAbs_Sphere:
        own = about.Sphere()
        center = own.Location()
        apart = [p - c for p, c in zip(point, (center.X(), center.Y(), center.Z()))]
        line = cross(apart, direction)
        inward = dot(normal, [m - c for m, c in zip(met, (center.X(), center.Y(), center.Z()))]) < 0
        if inward:
            return {"kind": "other", "tilt": tilt}
        offset = math.sqrt(dot(line, line))
        return {"kind": "ball", "tilt": tilt, "radius": own.Radius(), "offset": offset}
    return {"kind": "other", "tilt": tilt}


def wall_lines(point, direction, dia):
    other = (1, 0, 0) if abs(direction[0]) < 0.7 else (0, 1, 0)
    u = unit(cross(direction, other))
    v = cross(direction, u)
    for at in range(LINES):
        angle = 2 * math.pi * (at + 0.37) / LINES
        yield along(along(point, u, dia / 2 * math.cos(angle)), v, dia / 2 * math.sin(angle))


def measured(without, point, direction, dia, end, depth=None, tip=0.0, pieces=1, recess=None, **more):
    """What is true of a hole from a point outside along a direction, by the body without it.

    depth: of a blind hole, from `point` to the end of its wall along the axis; tip: what its bottom is
    deeper on the axis. pieces: how many times the axis is in the material.
    """
    direction = unit(direction)

    def span(start):
        found = [hit for hit in hits(without, start, direction) if hit[0] > -1e-7]
        first = found[0][0]
        if depth is not None:
            return first, depth, found
        return first, found[2 * pieces - 1][0], found

    first, last, found = span(point)
    lines = [span(start)[:2] for start in wall_lines(point, direction, dia)]
    lengths = [b - a for a, b in lines]
    hole = {
        "dia": dia,
        "entry": along(point, direction, first),
        "axis": direction,
        "end": end,
        "least": min(lengths),
        "on_axis": last + tip - first,
        "most": max(lengths),
        "begins": surface(found[0], point, direction),
        "leaves": None,
        "behind": None,
        "recess": recess,
    }
    if depth is None:
        hole["leaves"] = surface(found[2 * pieces - 1], point, direction)
        if len(found) > 2 * pieces:
            hole["behind"] = found[2 * pieces][0] - last
    hole.update(more)
    return hole


# ------------------------------------------------------------------ files

CASES = []
SCHEMAS = {"203": "AP203", "214": "AP214IS", "242": "AP242DIS"}


def named(label, name):
    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))


def export(path, build, schema, inch, on_surfaces):
    """Writes a document; `build` adds its shapes. `on_surfaces`: with every edge's curves on its surfaces."""
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 1 if on_surfaces else 0)
    Interface_Static.SetCVal_s("write.step.schema", SCHEMAS[schema])
    Interface_Static.SetCVal_s("write.step.unit", "INCH" if inch else "MM")
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    build(tool)
    tool.UpdateAssemblies()
    writer = STEPCAFControl_Writer()
    # The first writer of a run brings the settings back to its own.
    Interface_Static.SetIVal_s("write.surfacecurve.mode", 1 if on_surfaces else 0)
    Interface_Static.SetCVal_s("write.step.schema", SCHEMAS[schema])
    Interface_Static.SetCVal_s("write.step.unit", "INCH" if inch else "MM")
    writer.Transfer(document, STEPControl_StepModelType.STEPControl_AsIs)
    writer.Write(str(path))
    text = path.read_text()
    head = (
        "HEADER;\nFILE_DESCRIPTION(('A solid of the corpus'),'2;1');\n"
        f"FILE_NAME('{path.name}','2026-11-01T00:00:00',('Corpus'),('Corpus'),'','','');\n"
    )
    text = re.sub(r"HEADER;.*?(?=FILE_SCHEMA)", lambda _: head, text, flags=re.S)
    text = re.sub(r"Open\s+CASCADE[^']*", "Solid", text)
    text = re.sub(r"(?<=CALENDAR_DATE\()[^)]*", "2026,1,11", text)
    text = re.sub(r"(?<=LOCAL_TIME\()\d+,\d+", "0,0", text)
    path.write_text(text)


def case(name, body, holes, schema="214", inch=False, refused=(), build=None, on_surfaces=False, **more):
    path = HERE / f"{name}.step"
    export(path, build or (lambda tool: named(tool.AddShape(body, False), "Part")), schema, inch, on_surfaces)
    truth = {"unit_mm": 25.4 if inch else 1.0, "holes": holes, "refused": sorted(refused)}
    if body is not None:
        bounds = Bnd_Box()
        BRepBndLib.AddOptimal_s(body, bounds, True, False)
        bounds.SetGap(0.0)
        low, high = bounds.CornerMin(), bounds.CornerMax()
        truth["extents"] = [[low.X(), low.Y(), low.Z()], [high.X(), high.Y(), high.Z()]]
    truth.update(more)
    lines = ",\n".join(f"  {json.dumps(hole)}" for hole in truth.pop("holes"))
    head = json.dumps(truth)[1:]
    (HERE / f"{name}.json").write_text(f'{{"holes": [\n{lines}\n],\n{head}\n')
    print(name, path.stat().st_size, len(holes))


DOWN = (0, 0, -1)


def plate():
    """A plate with a hole of each kind of end."""
    body = box(0, 0, 0, 40, 30, 10)
    holes, tools = [], []
    for x, y, dia in [(5, 5, 2), (12, 5, 0.8), (35, 25, 3.175)]:
        tools.append(rod((x, y, 20), DOWN, dia, 30))
        holes.append(measured(body, (x, y, 20), DOWN, dia, "through"))
    tools.append(rod((20, 15, 20), DOWN, 1.5, 16))
    holes.append(measured(body, (20, 15, 20), DOWN, 1.5, "blind", depth=16))
    tip = 1.5 / math.tan(math.radians(59))
    tools += [rod((28, 10, 20), DOWN, 3, 15), cone((28, 10, 5), DOWN, 3, 0, tip)]
    holes.append(measured(body, (28, 10, 20), DOWN, 3, "blind", depth=15, tip=tip))
    tools.append(fuse(rod((10, 22, 20), DOWN, 2, 16), ball((10, 22, 4), 1)))
    holes.append(measured(body, (10, 22, 20), DOWN, 2, "blind", depth=16, tip=1.0))
    tools.append(rod((-10, 15, 5), (1, 0, 0), 1, 18))
    holes.append(measured(body, (-10, 15, 5), (1, 0, 0), 1, "blind", depth=18))
    return cut(body, *tools), holes


def from_side(point, angle, turn=0.0):
    """A direction that leans by an angle from straight down."""
    a, b = math.radians(angle), math.radians(turn)
    return (math.sin(a) * math.cos(b), math.sin(a) * math.sin(b), -math.cos(a))


def main():
    body, holes = plate()
    for schema in SCHEMAS:
        for inch in (False, True):
            case(f"plate-{schema}-{'inch' if inch else 'mm'}", body, holes, schema, inch, on_surfaces=inch)
    case("plate-quarters", quartered(body), holes, "203")
    case("plate-nurbs", BRepBuilderAPI_NurbsConvert(body, True).Shape(), holes, "214", guessed=True)
    case("plate-revolved", ShapeCustom.ConvertToRevolution_s(body), holes, "242")

    body = box(0, 0, 0, 40, 30, 6)
    aims = [((10, 8), 30, 0, 1.0), ((20, 14), 60, 90, 0.5), ((30, 8), 75, 130, 0.6)]
    tools, holes = [], []
    for (x, y), lean, turn, dia in aims:
        d = from_side(None, lean, turn)
        start = along((x, y, 6), d, -20)
        tools.append(rod(start, d, dia, 80))
        holes.append(measured(body, start, d, dia, "through"))
    d = from_side(None, 40, 200)
    start = along((34, 24, 6), d, -20)
    tools.append(rod(start, d, 1.2, 25))
    holes.append(measured(body, start, d, 1.2, "blind", depth=25))
    case("angled", cut(body, *tools), holes, "242")
    case("angled-halves", quartered(cut(body, *tools), math.pi), holes, "203", True)

    body = rod((0, 0, 0), (1, 0, 0), 20, 50)
    tools, holes = [], []
    for x, y, dia, lean in [(8, 0, 1, 0), (18, 4, 1.5, 0), (28, -8.5, 1, 0), (38, 0, 0.7, 35)]:
        d = from_side(None, lean)
        start = along((x, y, 0), d, -30)
        tools.append(rod(start, d, dia, 60))
        holes.append(measured(body, start, d, dia, "through"))
    case("round", cut(body, *tools), holes, "214")
    case("round-quarters", quartered(cut(body, *tools)), holes, "242", True)

    body = ball((0, 0, 0), 12)
    tools, holes = [], []
    for x, y, dia in [(5, 3, 1), (-6, -5, 2)]:
        tools.append(rod((x, y, 20), DOWN, dia, 40))
        holes.append(measured(body, (x, y, 20), DOWN, dia, "through"))
    tools.append(rod((0, -20, 1), (0, 1, 0), 1.5, 16))
    holes.append(measured(body, (0, -20, 1), (0, 1, 0), 1.5, "blind", depth=16))
    case("ball", cut(body, *tools), holes, "203")

    stepped()
    crossing()
    hollow()
    tilted()
    assembly()
    decoys()
    edges_and_rings()
    manifold()
    broken()
    tips()
    crowns()
    islands()
    corners()
    bends()
    open_rooms()
    loose()


def manifold():
    """Two hundred holes, of which thirty are small and lean; the second revision moves two and widens four."""
    body = box(0, 0, 0, 200, 140, 12)
    others = [((10 + 12 * i, 90 + 10 * j), 5.5, None) for i in range(15) for j in range(5)]
    others += [((10 + 12 * i, 70), 4.2, None) for i in range(15)]
    others += [((10 + 8 * i, 8 + 10 * j), 3.3, 9) for i in range(16) for j in range(5)]
    for revision in "ab":
        tools, holes = [], []
        for (x, y), dia, deep in others:
            tools.append(rod((x, y, 20), DOWN, dia, 8 + (deep or 12)))
            holes.append(measured(body, (x, y, 20), DOWN, dia, "blind" if deep else "through",
                                  depth=8 + deep if deep else None))
        for row in range(3):
            for i in range(10):
                d = from_side(None, 30, 0)
                x, y, dia = 150 + 4 * i, 12 + 14 * row, 0.8
                if revision == "b" and row == 0 and i < 2:
                    y += 3
                if revision == "b" and row == 2 and i > 5:
                    dia = 0.9
                start = along((x, y, 12), d, -20)
                tools.append(rod(start, d, dia, 60))
                holes.append(measured(body, start, d, dia, "through"))
        case(f"manifold-{revision}", cut(body, *tools), holes, "214")


def quartered(body, angle=math.pi / 2):
    """The same body, round faces split."""
    divide = ShapeUpgrade_ShapeDivideAngle(angle, body)
    divide.Perform()
    return divide.Result()


def stepped():
    body = box(0, 0, 0, 60, 30, 20)
    tools, holes = [], []
    # Three steps, through.
    wide = rod((8, 8, 30), DOWN, 6, 14)
    middle = rod((8, 8, 30), DOWN, 3, 20)
    narrow = rod((8, 8, 30), DOWN, 1.5, 40)
    tools += [wide, middle, narrow]
    holes.append(measured(body, (8, 8, 30), DOWN, 6, "blind", depth=14))
    holes.append(measured(cut(body, wide), (8, 8, 30), DOWN, 3, "blind", depth=20, recess=[6, 4]))
    holes.append(measured(cut(body, wide, middle), (8, 8, 30), DOWN, 1.5, "through", recess=[3, 10]))
    # Counterbored.
    bore = rod((22, 8, 30), DOWN, 8, 13)
    tools += [bore, rod((22, 8, 30), DOWN, 4, 40)]
    holes.append(measured(body, (22, 8, 30), DOWN, 8, "blind", depth=13))
    holes.append(measured(cut(body, bore), (22, 8, 30), DOWN, 4, "through", recess=[8, 3]))
    # Countersunk by 90 degrees; the wall's lines begin where the cone ends.
    sink = cone((36, 8, 20), DOWN, 6, 2, 2)
    tools += [sink, rod((36, 8, 30), DOWN, 2, 40)]
    hole = measured(cut(body, rod((36, 8, 30), DOWN, 6, 12)), (36, 8, 30), DOWN, 2, "through", recess=[6, 2])
    hole["begins"] = {"kind": "other", "tilt": 0.0}
    holes.append(hole)
    # Chamfered at both ends.
    tools += [
        cone((50, 8, 20), DOWN, 3.4, 3, 0.2),
        rod((50, 8, 30), DOWN, 3, 40),
        cone((50, 8, 0), (0, 0, 1), 3.4, 3, 0.2),
    ]
    short = cut(box(0, 0, 0.2, 60, 30, 19.6))
    hole = measured(short, (50, 8, 30), DOWN, 3, "through", recess=[3.4, 0.2])
    hole["begins"] = {"kind": "other", "tilt": 0.0}
    hole["leaves"] = {"kind": "other", "tilt": 0.0}
    holes.append(hole)
    # Counterbored from below: it is begun there.
    bore = rod((22, 22, -10), (0, 0, 1), 7, 15)
    tools += [bore, rod((22, 22, -10), (0, 0, 1), 2.5, 40)]
    holes.append(measured(body, (22, 22, -10), (0, 0, 1), 7, "blind", depth=15))
    holes.append(measured(cut(body, bore), (22, 22, -10), (0, 0, 1), 2.5, "through", recess=[7, 5]))
    # A groove inside.
    tools += [rod((40, 22, 30), DOWN, 4, 40), rod((40, 22, 8), (0, 0, 1), 6, 2)]
    holes.append(measured(body, (40, 22, 30), DOWN, 4, "through"))
    # A flat bottom with a round corner.
    tools.append(bull_nose((52, 22), 30, 10, 5, 1))
    holes.append(measured(body, (52, 22, 30), DOWN, 5, "blind", depth=19, tip=1.0))
    case("stepped", cut(body, *tools), holes, "214", refused=["groove"])
    case("stepped-quarters", quartered(cut(body, *tools)), holes, "203", True, refused=["groove"])


def bull_nose(at, top, bottom, dia, radius):
    """A rod that stands on a rounded end."""
    x, y = at
    rest = fuse(
        rod((x, y, bottom + radius), (0, 0, 1), dia, top - bottom - radius),
        rod((x, y, bottom), (0, 0, 1), dia - 2 * radius, radius),
        ring((x, y, bottom + radius), (0, 0, 1), dia / 2 - radius, radius),
    )
    return rest


def crossing():
    body = box(0, 0, 0, 50, 30, 20)
    bore = rod((-10, 15, 10), (1, 0, 0), 5, 80)
    small = rod((10, 15, 30), DOWN, 3, 50)
    equal = rod((22, 15, 30), DOWN, 5, 50)
    into = rod((32, 15, 30), DOWN, 1, 20)
    past = rod((40, 16.5, 30), DOWN, 1.2, 50)
    all_of = [bore, small, equal, into, past]

    def without(tool):
        return cut(body, *[other for other in all_of if other is not tool])

    holes = [
        # Its wall is what is left where others cross it: the axis runs from face to face.
        measured(body, (-10, 15, 10), (1, 0, 0), 5, "through", air=5),
        measured(cut(body, bore), (10, 15, 30), DOWN, 3, "through", pieces=2, air=5),
        measured(body, (22, 15, 30), DOWN, 5, "through", air=5),
        measured(cut(body, bore), (32, 15, 30), DOWN, 1, "into"),
        measured(cut(body, bore), (40, 16.5, 30), DOWN, 1.2, "through", pieces=2, air=4),
    ]
    for at in (0, 2):
        holes[at]["either_way"] = True
    case("crossing", without(None), holes, "242")
    case("crossing-quarters", quartered(without(None)), holes, "214", True)


def hollow():
    # A closed box with a flat-walled and a round room inside.
    body = cut(box(0, 0, 0, 60, 30, 20), box(5, 5, 5, 20, 20, 10), ball((45, 15, 10), 7))
    one = rod((15, 15, 30), DOWN, 1, 20)
    two = rod((45, 15, 30), DOWN, 1.5, 20)
    side = rod((-10, 15, 10), (1, 0, 0), 0.8, 20)
    holes = [
        measured(body, (15, 15, 30), DOWN, 1, "into"),
        measured(body, (45, 15, 30), DOWN, 1.5, "into"),
        measured(body, (-10, 15, 10), (1, 0, 0), 0.8, "into"),
    ]
    case("hollow", cut(body, one, two, side), holes, "242")
    case("hollow-203", cut(body, one, two, side), holes, "203", True)

    # A tube: one wall, both walls, one wall off center.
    body = cut(rod((0, 0, 0), (0, 0, 1), 16, 60), rod((0, 0, -5), (0, 0, 1), 12, 70))
    bore = measured(rod((0, 0, 0), (0, 0, 1), 16, 60), (0, 0, 70), DOWN, 12, "through")
    out = (-1, 0, 0)
    one = rod((20, 0, 10), out, 1, 18)
    both = rod((20, 0, 25), out, 1, 40)
    off = rod((20, 3, 40), out, 0.8, 18)
    holes = [
        bore,
        measured(body, (20, 0, 10), out, 1, "into"),
        measured(cut(body, rod((0, 0, 25), out, 1, 20)), (20, 0, 25), out, 1, "into"),
        measured(cut(body, rod((0, 0, 25), (1, 0, 0), 1, 20)), (-20, 0, 25), (1, 0, 0), 1, "into"),
        measured(body, (20, 3, 40), out, 0.8, "into"),
    ]
    holes[2]["behind"] = holes[3]["behind"] = None
    holes[2]["end"] = holes[3]["end"] = "into"
    case("tube", cut(body, one, both, off), holes, "214")
    case("tube-halves", quartered(cut(body, one, both, off), math.pi), holes, "242")

    # A bracket: one leg, another behind it; and the floor between them.
    body = cut(box(0, 0, 0, 40, 20, 30), box(5, -1, 5, 30, 22, 30))
    leg = rod((-10, 10, 20), (1, 0, 0), 2, 20)
    floor = rod((20, 10, 40), DOWN, 3, 50)
    holes = [
        measured(body, (-10, 10, 20), (1, 0, 0), 2, "through"),
        measured(body, (20, 10, 40), DOWN, 3, "through"),
    ]
    case("bracket", cut(body, leg, floor), holes, "203")

    # A pocket with round corners: a hole in its floor, one through its side.
    pocket = rounded(box(10, 10, 5, 30, 20, 20), 3)
    body = cut(box(0, 0, 0, 50, 40, 15), pocket)
    holes = [
        measured(body, (20, 20, 30), DOWN, 2, "through"),
        measured(body, (-10, 20, 10), (1, 0, 0), 1.6, "through"),
    ]
    solid = cut(body, rod((20, 20, 30), DOWN, 2, 50), rod((-10, 20, 10), (1, 0, 0), 1.6, 25))
    case("pocket", solid, holes, "214")


def rounded(shape, radius, upright=True):
    fillet = BRepFilletAPI_MakeFillet(shape)
    seen = set()
    for edge in edges(shape):
        about = ends_of(edge)
        if about in seen:
            continue
        seen.add(about)
        a, b = about
        if not upright or (abs(a[0] - b[0]) < 1e-9 and abs(a[1] - b[1]) < 1e-9):
            fillet.Add(radius, edge)
    return fillet.Shape()


def ends_of(edge):
    """The ends of an edge, in one order."""
    curve = BRepAdaptor_Curve(edge)
    ends = []
    for at in (curve.FirstParameter(), curve.LastParameter()):
        p = curve.Value(at)
        ends.append((round(p.X(), 6), round(p.Y(), 6), round(p.Z(), 6)))
    return tuple(sorted(ends))


def moved(holes, trsf, **more):
    """Holes, moved with their body."""
    found = []
    for hole in holes:
        hole = dict(hole)
        p, d = gp_Pnt(*hole["entry"]).Transformed(trsf), gp_Vec(*hole["axis"]).Transformed(trsf)
        hole["entry"] = (p.X(), p.Y(), p.Z())
        hole["axis"] = (d.X(), d.Y(), d.Z())
        hole.update(more)
        found.append(hole)
    return found


def odd_turn(angle, shift):
    turn, move = gp_Trsf(), gp_Trsf()
    turn.SetRotation(gp_Ax1(gp_Pnt(1, 2, 3), gp_Dir(1, 2, 4)), angle)
    move.SetTranslation(gp_Vec(*shift))
    return move.Multiplied(turn)


def tilted():
    body, holes = plate()
    trsf = odd_turn(0.8, (31.4, -7.7, 120.5))
    either = [dict(hole, either_way=hole["end"] == "through") for hole in holes]
    case("tilted", turned(body, trsf), moved(either, trsf), "214")
    case("tilted-inch", turned(body, trsf), moved(either, trsf), "242", True)


def assembly():
    plain = box(0, 0, 0, 20, 20, 8)
    holes = [measured(plain, (5, 6, 20), DOWN, 2, "through"), measured(plain, (12, 9, 20), DOWN, 1, "blind", depth=16)]
    block = cut(plain, rod((5, 6, 20), DOWN, 2, 40), rod((12, 9, 20), DOWN, 1, 16))
    round_body = rod((0, 0, 0), (1, 0, 0), 10, 30)
    pin_holes = [measured(round_body, (7, 1, 30), DOWN, 1.5, "through")]
    pin = cut(round_body, rod((7, 1, 30), DOWN, 1.5, 60))

    first, second = gp_Trsf(), odd_turn(1.1, (60, 5, 2))
    first.SetTranslation(gp_Vec(3, 4, 5))
    inner = odd_turn(0.4, (0, 30, 0))
    outer = odd_turn(2.2, (-50, 20, 10))

    def build(tool):
        a, b = tool.AddShape(block, False), tool.AddShape(pin, False)
        named(a, "Block")
        named(b, "Pin")
        sub = tool.NewShape()
        named(sub, "Sub")
        for trsf, part, name in [(first, a, "left"), (inner, b, "pin")]:
            named(tool.AddComponent(sub, part, TopLoc_Location(trsf)), name)
        top = tool.NewShape()
        named(top, "Top")
        for trsf, part, name in [(second, a, "block"), (outer, sub, "sub one"), (inner, sub, "sub two")]:
            named(tool.AddComponent(top, part, TopLoc_Location(trsf)), name)

    free = {"either_way": True}
    all_of = [dict(h, group="Top / block") for h in moved(holes, second)]
    for trsf, name in [(outer, "sub one"), (inner, "sub two")]:
        all_of += moved(holes, trsf.Multiplied(first), group=f"Top / {name} / left")
        all_of += moved(pin_holes, trsf.Multiplied(inner), group=f"Top / {name} / pin")
    all_of = [dict(h, **free) if h["end"] == "through" else h for h in all_of]
    for schema, inch in [("203", False), ("214", True), ("242", False)]:
        case(f"assembly-{schema}", None, all_of, schema, inch, build=build)


def decoys():
    body = rounded(box(0, 0, 0, 50, 40, 12), 5)
    body = fuse(body, rod((25, 20, 12), (0, 0, 1), 10, 6), ball((10, 10, 12), 4))
    pocket = rounded(box(30, 25, 6, 12, 10, 10), 2)
    slot = fuse(box(8, 28, -1, 10, 4, 20), rod((8, 30, -1), (0, 0, 1), 4, 20), rod((18, 30, -1), (0, 0, 1), 4, 20))
    groove = rod((-5, 0, 12), (1, 0, 0), 3, 80)
    case("no-holes", cut(body, pocket, slot, groove), [], "214")

    body = box(0, 0, 0, 50, 40, 12)
    taper = cone((10, 10, 13), DOWN, 5, 3, 14)
    keyed = fuse(rod((25, 20, -1), (0, 0, 1), 8, 20), box(24, 20, -1, 2, 6, 20))
    cut_open = rod((50 - 1, 10, -1), (0, 0, 1), 4, 20)
    one = rod((40, 30, 30), DOWN, 1, 50)
    holes = [measured(body, (40, 30, 30), DOWN, 1, "through")]
    case("refused", cut(body, taper, keyed, cut_open, one), holes, "242", refused=["not round", "open", "open"])
    inside = cut(body, rod((20, 20, 4), (0, 0, 1), 4, 4), one)
    case("closed-room", inside, holes, "203", refused=["closed"])


def edges_and_rings():
    # Across a convex edge, and in an inner corner.
    body = cut(box(0, 0, 0, 40, 20, 20), box(20, -1, 10, 30, 30, 30))
    d = unit((-1, 0, -1))
    corner = along((20, 8, 10), (1, 0, -1), 0)
    start = along(corner, d, -12)
    edge = unit((1, 0, -1))
    top = along((0, 8, 20), edge, -10)
    holes = [
        measured(body, start, d, 2, "through"),
        measured(body, top, edge, 1, "blind", depth=20),
    ]
    for hole, more in ((holes[0], "begins"), (holes[1], "begins")):
        hole[more]["kind"] = "other"
        hole[more]["tilt"] = 45.0
    solid = cut(body, rod(start, d, 2, 60), rod(top, edge, 1, 20))
    case("edges", solid, holes, "214", loose_ends=True)

    # Into a ring and a cone: surfaces that are neither flat, round nor balls.
    body = fuse(ring((0, 0, 0), (0, 0, 1), 15, 5))
    holes = [measured(body, (15.5, 1, 20), DOWN, 1, "through")]
    case("ring", cut(body, rod((15.5, 1, 20), DOWN, 1, 40)), holes, "242")
    body = cone((0, 0, 0), (0, 0, 1), 30, 10, 20)
    holes = [
        measured(body, (8, 1, 40), DOWN, 1, "through"),
        measured(body, (40, 2, 8), (-1, 0, 0), 1.4, "through", either_way=True),
    ]
    # They cut each other, with their axes 1 apart.
    holes[0]["beside"] = 2 * math.sqrt(0.7**2 - (1 - 0.5) ** 2)
    holes[1]["beside"] = 2 * math.sqrt(0.5**2 - (1 - 0.7) ** 2)
    case("cone", cut(body, rod((8, 1, 40), DOWN, 1, 60), rod((40, 2, 8), (-1, 0, 0), 1.4, 80)), holes, "203")


def broken():
    """Edges of mouths that are rounded or chamfered: what is true is measured as if they weren't."""
    body = box(0, 0, 0, 58, 20, 8)
    tools, holes = [], []
    # Rounded where it begins, chamfered there, rounded where it ends; straight, it is a recess.
    for x, lean in [(8, 35), (20, 50), (40, 15), (52, 0)]:
        d = from_side(None, lean)
        start = along((x, 10, 8), d, -20)
        tools.append(rod(start, d, 1.2, 60))
        holes.append(measured(body, start, d, 1.2, "through", broken=lean > 0))
    short = box(0, 0, 0, 58, 20, 7.7)
    holes[3] = measured(short, (52, 10, 30), DOWN, 1.2, "through", recess=[1.8, 0.3])
    holes[3]["begins"] = {"kind": "other", "tilt": 0.0}
    solid = cut(body, *tools)
    top = [edge for edge in edges(solid) if is_mouth(edge, 8)]
    low = [edge for edge in edges(solid) if is_mouth(edge, 0)]
    near = lambda these, x: [edge for edge in these if abs(middle(edge)[0] - x) < 2]
    solid = edged(solid, 0.15, near(top, 20), BRepFilletAPI_MakeChamfer)
    low = [edge for edge in edges(solid) if is_mouth(edge, 0)]
    top = [edge for edge in edges(solid) if is_mouth(edge, 8)]
    exit_at = 40 + 8 * math.tan(math.radians(15))
    solid = edged(solid, 0.3, near(top, 8) + near(top, 52) + near(low, exit_at))
    case("broken", solid, holes, "242")

    # On a cylinder, from both sides, and off center on a ball.
    body = rod((0, 0, 0), (1, 0, 0), 20, 30)
    tool = rod((15, 2, 30), DOWN, 2, 60)
    solid = cut(body, tool)
    mouths = [edge for edge in edges(solid) if is_closed(edge) and 13 < middle(edge)[0] < 17]
    holes = [measured(body, (15, 2, 30), DOWN, 2, "through", broken=True)]
    case("broken-round", edged(solid, 0.3, mouths), holes, "214")
    body = ball((0, 0, 0), 12)
    solid = cut(body, rod((4, 0, 40), DOWN, 2, 80))
    about = lambda edge: math.hypot(middle(edge)[0] - 4, middle(edge)[1])
    mouths = [edge for edge in edges(solid) if middle(edge)[2] > 5 and abs(about(edge) - 1) < 1e-3]
    holes = [measured(body, (4, 0, 40), DOWN, 2, "through", broken=True)]
    case("broken-ball", edged(solid, 0.3, mouths), holes, "203")


def edged(body, by, these, how=BRepFilletAPI_MakeFillet):
    """A body with some of its edges rounded, or chamfered."""
    made = how(body)
    seen = set()
    for edge in these:
        about = tuple(round(part, 6) for part in middle(edge))
        if about not in seen:
            seen.add(about)
            made.Add(by, edge)
    return made.Shape()


def middle(edge):
    curve = BRepAdaptor_Curve(edge)
    p = curve.Value((curve.FirstParameter() + curve.LastParameter()) / 2)
    return (p.X(), p.Y(), p.Z())


def is_closed(edge):
    a, b = ends_of(edge)
    return a == b


def is_mouth(edge, height):
    """A closed edge at a height."""
    return is_closed(edge) and abs(ends_of(edge)[0][2] - height) < 1e-6 and abs(middle(edge)[2] - height) < 1e-6


def tips():
    """Drill points, a flat end and a ball end that break into a crossing bore, and one that doesn't."""
    body = box(0, 0, 0, 70, 40, 30)
    bore = rod((-5, 20, 10), (1, 0, 0), 8, 100)
    crossed = cut(body, bore)
    point = 1.5 / math.tan(math.radians(59))
    tools = []
    holes = [measured(body, (-5, 20, 10), (1, 0, 0), 8, "through", either_way=True)]
    for x, y, wall in [(8, 20, 14.5), (22, 22, 14.3)]:
        # Its wall ends above the bore; only its point reaches it.
        tools += [rod((x, y, 40), DOWN, 3, 40 - wall), cone((x, y, wall), DOWN, 3, 0, point)]
        hole = measured(crossed, (x, y, 40), DOWN, 3, "into")
        hole["least"] = hole["most"] = 30 - wall
        holes.append(hole)
    tools += [rod((36, 20, 40), DOWN, 3, 24), cone((36, 20, 16), DOWN, 3, 0, point)]
    holes.append(measured(body, (36, 20, 40), DOWN, 3, "blind", depth=24, tip=point))
    # A flat end at 13.9, while the bore goes up to 14 at its middle and to 13.71 at the hole's side.
    tools.append(rod((50, 20, 40), DOWN, 3, 26.1))
    hole = measured(crossed, (50, 20, 40), DOWN, 3, "into")
    hole["most"] = 16.1
    holes.append(hole)
    tools += [rod((62, 20, 40), DOWN, 3, 25.7), ball((62, 20, 14.3), 1.5)]
    hole = measured(crossed, (62, 20, 40), DOWN, 3, "into")
    hole["least"] = hole["most"] = 15.7
    holes.append(hole)
    case("tips", cut(crossed, *tools), holes, "203")


def crowns():
    """Blind holes with material standing up from their bottoms, as a tube leaves it: low, past half of the
    wall, with a flat top, and with a groove around a flat."""
    body = box(0, 0, 0, 50, 20, 15)
    up = (0, 0, 1)
    low = cut(rod((8, 10, 5), up, 3, 20), cone((8, 10, 5), up, 3, 0, 2))
    high = cut(rod((18, 10, 5), up, 3, 20), cone((18, 10, 5), up, 3, 0, 7))
    blunt = cut(rod((28, 10, 5), up, 3, 20), cone((28, 10, 5), up, 3, 0.6, 8))
    groove = fuse(rod((38, 10, 6), up, 3, 20), ring((38, 10, 6), up, 0.8, 0.7))
    holes = [
        measured(body, (8, 10, 30), DOWN, 3, "blind", depth=25, tip=-2.0),
        measured(body, (18, 10, 30), DOWN, 3, "blind", depth=25, tip=-7.0),
        measured(body, (28, 10, 30), DOWN, 3, "blind", depth=25, tip=-8.0),
        measured(body, (38, 10, 30), DOWN, 3, "blind", depth=24),
    ]
    solid = cut(body, low, high, blunt, groove)
    case("crowns", solid, holes, "214")
    case("crowns-halves", quartered(solid, math.pi), holes, "203", True)


def islands():
    """Ring grooves and pockets with something standing in them are no holes; those beside them are."""
    body = box(0, 0, 0, 60, 40, 15)
    seal = cut(rod((14, 20, 13), (0, 0, 1), 20, 5), rod((14, 20, 10), (0, 0, 1), 16, 10))
    high = cut(rod((36, 12, 9), (0, 0, 1), 14, 10), rod((36, 12, 8), (0, 0, 1), 6, 12))
    aside = cut(rod((52, 12, 9), (0, 0, 1), 12, 10), box(48, 9, 8, 2, 3, 12))
    low = cut(rod((36, 31, 5), (0, 0, 1), 8, 20), rod((36, 31, 0), (0, 0, 1), 5, 8))
    holes = [
        measured(body, (14, 20, 30), DOWN, 1.2, "through"),
        measured(box(0, 0, 0, 60, 40, 8), (36, 31, 30), DOWN, 1, "through"),
        measured(body, (52, 31, 30), DOWN, 8, "blind", depth=22),
    ]
    tools = [seal, high, aside, low, rod((14, 20, 30), DOWN, 1.2, 50), rod((36, 31, 30), DOWN, 1, 50)]
    tools.append(rod((52, 31, 30), DOWN, 8, 22))
    case("islands", cut(body, *tools), holes, "242", refused=["around material"] * 4)


def corners():
    """Holes in the middle of pockets with sharp corners, which are no recess, on either side."""
    body = box(0, 0, 0, 60, 20, 15)
    pockets = [box(5, 5, 10, 10, 10, 20), box(42, 5, -1, 10, 10, 6)]
    eight = BRepBuilderAPI_MakePolygon()
    for at in range(8):
        angle = 2 * math.pi * at / 8
        eight.Add(gp_Pnt(28 + 6 * math.cos(angle), 10 + 6 * math.sin(angle), 10))
    eight.Close()
    far = BRepBuilderAPI_MakePolygon()
    for at in range(8):
        angle = 2 * math.pi * at / 8
        far.Add(gp_Pnt(28 + 6 * math.cos(angle), 10 + 6 * math.sin(angle), 20))
    far.Close()
    pockets.append(lofted(eight, far))
    without = cut(body, *pockets)
    # A step in the floor of the first pocket is one.
    step = rod((10, 10, 8), (0, 0, 1), 5, 20)
    holes = [
        measured(without, (10, 10, 30), DOWN, 5, "blind", depth=22),
        measured(cut(without, step), (10, 10, 30), DOWN, 1.5, "through", recess=[5, 2]),
        measured(without, (28, 10, 30), DOWN, 2, "through"),
        measured(without, (47, 10, 30), DOWN, 1.5, "through"),
    ]
    tools = [step] + [rod((x, 10, 30), DOWN, dia, 50) for x, dia in [(10, 1.5), (28, 2), (47, 1.5)]]
    case("corners", cut(without, *tools), holes, "214")

    # A shaped hole: its wide end is a four-sided funnel, three deep on the axis, and it begins there.
    body = box(0, 0, 0, 30, 20, 4)
    d = from_side(None, 55)
    start, begin = along((10, 10, 4), d, -20), along((10, 10, 4), d, 3)
    side = unit(cross(d, (0, 1, 0)))

    def four(t, wide, high):
        made = BRepBuilderAPI_MakePolygon()
        for a, b in [(-1, -1), (1, -1), (1, 1), (-1, 1)]:
            corner = along(along(along(begin, d, t), (0, 1, 0), a * wide), side, b * high)
            made.Add(gp_Pnt(*corner))
        made.Close()
        return made

    without = cut(body, lofted(four(0, 0.32, 0.32), four(-6, 1.6, 0.9)))
    hole = measured(without, start, d, 0.6, "through")
    case("funnel", cut(without, rod(start, d, 0.6, 60)), [hole], "242")
    # A fan: two of its walls run along the axis.
    without = cut(body, lofted(four(0, 0.32, 0.32), four(-6, 1.6, 0.32)))
    hole = measured(without, start, d, 0.6, "through")
    case("fan", cut(without, rod(start, d, 0.6, 60)), [hole], "214")


def bends():
    """A bore along an arc beside a straight one, and an elbow whose straight legs are holes."""
    body = box(0, 0, 0, 60, 30, 40)
    bend = BRepPrimAPI_MakeTorus(gp_Ax2(gp_Pnt(30, 15, 20), gp_Dir(0, -1, 0), gp_Dir(1, 0, 0)), 10, 2, math.pi / 2)
    legs = [((40, 15, -5), (0, 0, 1), 25), ((-5, 15, 30), (1, 0, 0), 35)]
    arc = ring((60, 8, 0), (0, 1, 0), 12, 1)
    # The axis of a leg meets the far side of the bend where a circle of 12 about its center does.
    behind = math.sqrt(12**2 - 10**2)
    holes = [measured(body, p, d, 4, "into", depth=length, behind=behind) for p, d, length in legs]
    holes.append(measured(body, (20, 8, 50), DOWN, 1, "through"))
    tools = [rod(p, d, 4, length) for p, d, length in legs]
    solid = cut(body, bend.Shape(), arc, rod((20, 8, 50), DOWN, 1, 70), *tools)
    case("bends", solid, holes, "214", refused=["bent"] * 2)
    nurbs = BRepBuilderAPI_NurbsConvert(solid, True).Shape()
    case("bends-nurbs", nurbs, holes, "203", refused=["bent"] * 2, guessed=True)
    case("bends-quarters", quartered(solid), holes, "242", refused=["bent"] * 2)


def open_rooms():
    """A square tube, open at both ends, with like holes from end to end; a hole across a slot."""
    body = cut(box(-15, -15, 0, 30, 30, 60), box(-13, -13, -1, 26, 26, 80))
    starts = [(40, 2.5, 3 + 7.5 * at) for at in range(8)]
    holes = [measured(body, start, (-1, 0, 0), 1, "into") for start in starts]
    case("square-tube", cut(body, *[rod(start, (-1, 0, 0), 1, 40) for start in starts]), holes, "242")
    body = cut(box(0, 0, 0, 25, 20, 16), box(10, -1, 5, 4, 30, 20))
    hole = measured(body, (40, 10, 11), (-1, 0, 0), 1.5, "through", pieces=2, air=4, either_way=True)
    case("across-slot", cut(body, rod((40, 10, 11), (-1, 0, 0), 1.5, 60)), [hole], "203")
    # A hole that a bore cuts from the side: its wall is open where the bore is, over a chord of it.
    body = box(0, 0, 0, 30, 30, 20)
    bore, hole = rod((-5, 12, 10), (1, 0, 0), 6, 50), rod((15, 14.6, 30), DOWN, 1, 50)
    chord = 2 * math.sqrt(3**2 - (14.6 - 0.5 - 12) ** 2)
    holes = [
        measured(body, (-5, 12, 10), (1, 0, 0), 6, "through", either_way=True),
        measured(body, (15, 14.6, 30), DOWN, 1, "through", beside=chord),
    ]
    case("cut-beside", cut(body, bore, hole), holes, "242")


def loose():
    """A plate whose faces are sheets that share no edge: without a truth, for its hole can't be relied on."""
    body = cut(box(0, 0, 0, 20, 15, 8), rod((5, 6, 20), DOWN, 2, 40))
    sheets, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(sheets)
    for face in faces(body):
        builder.Add(sheets, BRepBuilderAPI_Copy(face).Shape())
    (HERE / "loose").mkdir(exist_ok=True)
    export(HERE / "loose" / "plate.step", lambda tool: named(tool.AddShape(sheets, False), "Part"), "214", False, False)


def lofted(first, last):
    made = BRepOffsetAPI_ThruSections(True, True)
    made.AddWire(first.Wire())
    made.AddWire(last.Wire())
    made.Build()
    return made.Shape()


if __name__ == "__main__":
    main()
