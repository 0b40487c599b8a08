// Writes the drawings whose names begin with "script-", and their truths; write.py says what those hold.
//
//   npm install @tarikjabiri/dxf@2.9.0 && node tests/dxf-corpus/write.mjs

import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { DxfWriter, LWPolylineFlags, Units, point2d, point3d } from "@tarikjabiri/dxf";

const here = dirname(fileURLToPath(import.meta.url));
const inch = 25.4;
const lines = [];
const hole = (d, x, y, layer, text = "-", how = "-", guesses = "-") =>
  lines.push(["hole", d * inch, x * inch, y * inch, 0, 0, 0, -1, layer, text, how, guesses].join("\t"));

const dxf = new DxfWriter();
dxf.setUnits(Units.Inches);
dxf.setVariable("$LASTSAVEDBY", { 1: "shop" });
dxf.addLayer("HOLES", 1, "Continuous");
const corners = [[0, 0], [4, 0], [4, 2.5], [0, 2.5]];
dxf.addLWPolyline(corners.map(([x, y]) => ({ point: point2d(x, y) })), { flags: LWPolylineFlags.Closed });
lines.push("unit\t25.4", ["outline", 0, 0, 4 * inch, 2.5 * inch].join("\t"));

for (let n = 0; n < 6; n++) {
  dxf.addCircle(point3d(0.5 + 0.5 * n, 0.5), 0.03125 / 2, { layerName: "HOLES" });
  hole(0.03125, 0.5 + 0.5 * n, 0.5, "HOLES");
}
for (const start of [45, 225]) {
  dxf.addArc(point3d(0.5, 1), 0.02, start, (start + 180) % 360, { layerName: "HOLES" });
}
hole(0.04, 0.5, 1, "HOLES", "-", "-", "closed-arcs");
dxf.addEllipse(point3d(1, 1), point3d(0.025, 0), 1, 0, 2 * Math.PI, { layerName: "HOLES" });
hole(0.05, 1, 1, "HOLES");
dxf.addLWPolyline(
  [{ point: point2d(1.47, 1), bulge: 1 }, { point: point2d(1.53, 1), bulge: 1 }],
  { flags: LWPolylineFlags.Closed, layerName: "HOLES" });
hole(0.06, 1.5, 1, "HOLES", "-", "-", "closed-arcs");

const block = dxf.addBlock("SPOT");
block.addCircle(point3d(0.1, 0), 0.01);
dxf.addInsert("SPOT", point3d(1, 2), { layerName: "HOLES", rotationAngle: 90, scaleFactor: { x: 2, y: 2, z: 2 } });
hole(0.04, 1, 2.2, "HOLES");
dxf.addInsert("SPOT", point3d(2, 2), { layerName: "HOLES", columnCount: 2, rowCount: 2, columnSpacing: 0.3, rowSpacing: 0.2 });
for (const row of [0, 1]) for (const column of [0, 1]) hole(0.02, 2.1 + 0.3 * column, 2 + 0.2 * row, "HOLES");
dxf.addInsert("SPOT", point3d(3, 2), { layerName: "HOLES", scaleFactor: { x: 1, y: 3, z: 1 } });

dxf.addCircle(point3d(3, 1), 0.0236 / 2, { layerName: "HOLES" });
dxf.addText(point3d(3.03, 1), 0.06, "\u2300.0236 \u00b1.002 THRU");
hole(0.0236, 3, 1, "HOLES", "\u2300.0236 \u00b1.002 THRU", "beside", "text-beside");
lines.push("refused\tstretched\t1");

writeFileSync(join(here, "script-plate.dxf"), dxf.stringify());
writeFileSync(join(here, "script-plate.truth"), lines.join("\n") + "\n");
