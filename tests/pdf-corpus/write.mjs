// Writes the drawings whose names begin with "kit-", and their truths; write.py says what those hold.
//
//   npm install pdfkit@0.20.2 && node tests/pdf-corpus/write.mjs /usr/share/fonts/truetype/dejavu/DejaVuSans.ttf

import { createWriteStream, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import PDFDocument from "pdfkit";

const here = dirname(fileURLToPath(import.meta.url));
const sans = process.argv[2] ?? "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";
const dia = "\u2300", deep = "\u21a7", pm = "\u00b1";

function drawing(name, unit, size) {
  const info = { CreationDate: new Date(Date.UTC(2026, 10, 2, 8)) };
  const pdf = new PDFDocument({ size, margin: 0, info });
  pdf.pipe(createWriteStream(join(here, name + ".pdf")));
  const lines = [`unit\t${unit}`, `page\t0\t${size[0]}\t${size[1]}\t-`];
  // Puts a text; where it stands.
  const put = (text, x, y, high = 10, font = sans, turned = 0) => {
    pdf.font(font).fontSize(high);
    pdf.save();
    if (turned) pdf.rotate(-turned, { origin: [x, y] });
    pdf.text(text, x, y, { baseline: "alphabetic", lineBreak: false });
    pdf.restore();
    const wide = pdf.widthOfString(text);
    const turn = (turned * Math.PI) / 180, c = Math.cos(turn), s = Math.sin(turn);
    const corners = [0, wide].flatMap((u) => [0.25 * high, -0.75 * high].map((v) => [x + u * c + v * s, y - u * s + v * c]));
    const [xs, ys] = [0, 1].map((axis) => corners.map((corner) => corner[axis]));
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  };
  const callout = (boxes, count, cells, text, doubts = "-") => {
    const least = (at) => Math.min(...boxes.map((box) => box[at]));
    const most = (at) => Math.max(...boxes.map((box) => box[at]));
    const place = [least(0), least(1), most(2), most(3)].map((v) => v.toFixed(3));
    lines.push(["callout", 0, ...place, count, cells, doubts, text].join("\t"));
  };
  const close = () => {
    pdf.end();
    writeFileSync(join(here, name + ".truth"), lines.join("\n") + "\n");
  };
  return { pdf, put, callout, close };
}

{
  const { pdf, put, callout, close } = drawing("kit-metric", "mm", [1190.55, 841.89]);
  pdf.rect(20, 20, 1150, 800).stroke();
  put("DIMENSIONS IN MM", 900, 780);
  ["TERN FINE BURRS", "88-140 REV 3", "60", "12.75", "R0.4"].forEach((text, at) => put(text, 100 + 110 * at, 700));
  let text = `4\u00d7 ${dia}0.80 ${pm}0.02 ${deep}14`;
  callout([put(text, 120, 120, 14)], 4, `size=${dia}0.80 ${pm}0.02; depth=${deep}14; count=4\u00d7`, text);
  let [a, b] = [`16X ${dia}0.30`, "THRU ALL"];
  callout([put(a, 420, 120, 12), put(b, 425, 136, 12)], 16, `size=${dia}0.30; end=THRU; count=16X`, `${a} ${b}`);
  // Heavy letters: the same text again, a hair beside.
  text = `7X ${dia}0.55 THRU`;
  const first = put(text, 120, 300, 12);
  callout([first, put(text, 120.4, 300, 12)], 7, `size=${dia}0.55; end=THRU; count=7X`, text);
  text = `${dia}0.95 THRU 30\u00b0`;
  callout([put(text, 420, 300, 12, sans, 45)], "-", `size=${dia}0.95; end=THRU; angle=30\u00b0`, text);
  text = `9X ${dia}0.25 ${deep}2.5`;
  callout([put(text, 700, 300, 12, sans, 270)], 9, `size=${dia}0.25; depth=${deep}2.5; count=9X`, text);
  close();
}
{
  const { pdf, put, callout, close } = drawing("kit-inch", "inch", [792, 612]);
  pdf.moveTo(50, 50).lineTo(700, 50).stroke();
  put("ALL DIMENSIONS ARE IN INCHES", 500, 580, 9, "Helvetica");
  ["4.125", "2.000", "NOTE 3", "MATL A-2"].forEach((text, at) => put(text, 100 + 110 * at, 500, 10, "Helvetica"));
  let text = "2X \u00d8.020 +.001/-.000 X .50 DP";
  callout([put(text, 100, 100, 11, "Helvetica")], 2, "size=\u00d8.020 +.001/-.000; depth=.50 DP; count=2X", text);
  const [a, b] = ["1/32 DIA THRU", "6 PL"];
  callout([put(a, 400, 100, 11, "Courier"), put(b, 400, 113, 11, "Courier")], 6, "size=1/32 DIA; end=THRU; count=6 PL", `${a} ${b}`);
  text = "3 HOLES \u00d8.045 THRU EQ SP";
  callout([put(text, 100, 220, 11, "Times-Roman")], 3, "size=\u00d8.045; end=THRU; count=3 HOLES", text);
  close();
}
