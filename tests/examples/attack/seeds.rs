//! What the changed bytes begin with: demo jobs, the fuzzers' seeds, tables, and every kept case.

use std::path::{Path, PathBuf};

/// Bytes to begin with.
pub(crate) struct Seeds {
    all: Vec<Vec<u8>>,
}

impl Seeds {
    /// One of them, the small ones as often as the large.
    pub(crate) fn one(&self, random: &mut fastrand::Rng) -> &[u8] {
        &self.all[random.usize(..self.all.len())]
    }
}

/// The seeds of a reader; there is always one, if only of nothing.
pub(crate) fn of(reader: &str) -> Seeds {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folders: &[&str] = match reader {
        "job" => &[
            "../demo-jobs",
            "fuzz/seeds/read_job",
            "hard-jobs",
            "old-jobs/format-1",
            "old-jobs/format-2",
        ],
        "shop" => &["fuzz/seeds/shop_file", "../assets"],
        "dxf" => &["dxf-corpus"],
        "step" => &["step-corpus"],
        "pdf" => &["pdf-corpus"],
        "workbook" => &["workbook-corpus"],
        _ => &[],
    };
    let cases = tests.join("attack/cases").join(reader);
    let folders = folders.iter().map(|folder| tests.join(folder));
    let files = folders.chain([cases]).flat_map(|folder| files_in(&folder));
    // Beside a drawing stands its truth.
    let files = files.filter(|path| {
        !matches!(reader, "dxf" | "pdf") || path.extension().is_none_or(|is| is == reader)
    });
    let mut all: Vec<Vec<u8>> = files.filter_map(|path| std::fs::read(path).ok()).collect();
    // The largest file of a job says the same a thousand times over.
    all.retain(|bytes| bytes.len() < 60_000);
    all.extend(written(reader).iter().map(|text| text.as_bytes().to_vec()));
    if reader == "compare" {
        all.extend(two_of(tests));
    }
    // Choices are read off any bytes at all.
    if matches!(reader, "edits" | "merge" | "figures" | "papers" | "cell") {
        let mut random = fastrand::Rng::with_seed(7);
        all.extend((0..60).map(|_| (0..random.usize(4..400)).map(|_| random.u8(..)).collect()));
    }
    all.push(Vec::new());
    Seeds { all }
}

/// A solid and a drawing beside themselves and beside another, parted as the check parts them.
fn two_of(tests: &Path) -> impl Iterator<Item = Vec<u8>> {
    let pairs = [
        ("step-corpus/angled.step", "step-corpus/angled.step"),
        ("step-corpus/angled.step", "step-corpus/edges.step"),
        ("step-corpus/tilted.step", "step-corpus/ring.step"),
        ("dxf-corpus/plate-r12.dxf", "dxf-corpus/plain-plate.dxf"),
        ("dxf-corpus/plain-plate.dxf", "dxf-corpus/plain-plate.dxf"),
        ("dxf-corpus/script-plate.dxf", "step-corpus/ring.step"),
    ];
    pairs.into_iter().map(|(one, other)| {
        let read = |name| std::fs::read(tests.join(name)).unwrap_or_default();
        [read(one), vec![0], read(other)].concat()
    })
}

fn written(reader: &str) -> &'static [&'static str] {
    match reader {
        "table" => &[
            "hole,qty,dia,depth,note\nA,36,0.8 +-0.05,14,\nB,4,1.0,thru,\"see, note\"\nC,1,0.9,10,\"\n",
            "Bohrung;Anzahl;D;Tiefe\r\nA;36;0,80;14\r\nB;4;1,0;12\r\n",
            "hole\tdia\tx\ty\tz\ti\tj\tk\nA\t0.8\t10\t20\t0\t0\t0\t-1\nA\t0.8\t10\t30\t0\t0\t0\t-1\n",
            "\"dia\n(mm)\",min,max,\"note\n\"\n0.8,0.75,0.85,\"two\nlines\"\n1,0.9,1.1,\"say \"\"thru\"\"\"\n",
            "x,y\n1,2\n3,4\n",
            "sep=;\nZeichnung;4-118\nPos.;Anz.;\u{d8};Tol. -;Tiefe;Durch\n;;mm;\u{b5}m;mm;\nA;4x;0,8;20;14 tief;ja\nSumme;69\n",
            "Hole table\n| Hole | Size | T |\n|---|---|---|\n| A | 4x \u{2300}0.80 \u{b1}0.02 THRU | 14 |\nall dims in mm\n",
            "A,1,0.8,12\n\n,,,\nB,2,0.9,14\n",
        ],
        "dxf" => &[
            "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nB\n10\n0\n20\n0\n0\nCIRCLE\n8\n0\n10\n1\n20\n2\n40\n0.4\n0\nENDBLK\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nINSERT\n8\nA\n2\nB\n10\n5\n20\n5\n41\n2\n42\n2\n50\n30\n70\n3\n71\n2\n44\n5\n45\n4\n0\nENDSEC\n0\nEOF\n",
            "0\nSECTION\n2\nENTITIES\n0\nARC\n10\n1\n20\n2\n40\n3\n50\n0\n51\n180\n0\nARC\n10\n1\n20\n2\n40\n3\n50\n180\n51\n360\n0\nSPLINE\n71\n2\n40\n0\n40\n0\n40\n0\n40\n1\n40\n1\n40\n1\n10\n0\n20\n0\n10\n1\n20\n1\n10\n2\n20\n0\n0\nELLIPSE\n10\n9\n20\n9\n11\n1\n21\n0\n40\n1\n0\nMTEXT\n10\n10\n20\n9\n40\n1\n1\n{\\fgdt;n}2 \\S+1^-2; THRU\n0\nLEADER\n10\n9\n20\n10\n10\n12\n20\n12\n0\nDIMENSION\n70\n3\n10\n8\n20\n9\n15\n10\n25\n9\n1\n2X <>\n0\nENDSEC\n0\nEOF\n",
            "AC1032\0\0\0\0\0",
        ],
        "pdf" => &[
            "%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R/OCProperties<</OCGs[9 0 R]/D<</OFF[9 0 R]>>>>>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1/MediaBox[0 0 400 300]>>endobj\n3 0 obj<</Type/Page/Parent 2 0 R/Rotate 90/Resources<</Font<</F 5 0 R/G 6 0 R>>/XObject<</X 7 0 R>>/Properties<</L 9 0 R>>>>/Contents 4 0 R/Annots[<</Rect[10 10 90 40]/AP<</N 7 0 R>>>>]>>endobj\n4 0 obj<</Length 350>>stream\nq 1 0 0 1 20 200 cm BT /F 10 Tf 12 TL 0 0 Td (4X .0315) Tj T* (THRU) Tj ET Q /X Do q .7 .7 -.7 .7 200 100 cm BT /F 12 Tf [(2X )-250(\\3300.80)] TJ 7 0 0 7 90 4 Tm (+0.02) Tj 0 -1 Td (-0.01) Tj ET Q /OC /L BDC BT /F 9 Tf 5 5 Td (9X \\3309 THRU) Tj ET EMC BT /G 8 Tf 3 Tr 1 0 0 1 50 50 Tm <6e302e35> Tj ET 0 0 m 9 9 l S BI /W 1 /H 1 /BPC 8 /CS /G ID x EI\nendstream endobj\n5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>endobj\n6 0 obj<</Type/Font/Subtype/Type3/BaseFont/GDT/FontBBox[0 0 9 9]/FontMatrix[.1 0 0 .1 0 0]/CharProcs<</n 8 0 R>>/Encoding<</Differences[110/n]>>/FirstChar 110/LastChar 110/Widths[9]>>endobj\n7 0 obj<</Type/XObject/Subtype/Form/BBox[0 0 99 99]/Matrix[1 0 0 1 5 5]/Resources<</Font<</F 5 0 R>>/XObject<</X 7 0 R>>>>/Length 60>>stream\nBT /F 10 Tf 1 1 Td (3X \\3301.2 H7 THRU) Tj ET /X Do\nendstream endobj\n8 0 obj<</Length 20>>stream\n9 0 d0 0 0 9 9 re f\nendstream endobj\n9 0 obj<</Type/OCG/Name(off)>>endobj\ntrailer<</Root 1 0 R/Size 10>>\nstartxref\n0\n%%EOF\n",
            "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R<</Type/Page/Contents 4 0 R>>]/Count 2>>endobj\n3 0 obj<</Type/Page/MediaBox[0 0 600 400]/Resources<</Font<</F<</Type/Font/Subtype/Type1/BaseFont/Courier>>>>>>/Contents[4 0 R 5 0 R]>>endobj\n4 0 obj<</Length 9999/Filter/ASCIIHexDecode>>stream\n4254202F462031302054662031203020302031203130203330302054 6D>\nendstream endobj\n5 0 obj<</Length 300>>stream\n(DIMENSIONS IN MM) ' 0 -20 Td (MARK) Tj 80 0 Td (SIZE) Tj 80 0 Td (DEPTH) Tj 80 0 Td (X) Tj 80 0 Td (Y) Tj -320 -14 Td (A) Tj 80 0 Td (0.8) Tj 80 0 Td (12) Tj 80 0 Td (5) Tj 80 0 Td (7) Tj -320 -14 Td (B) Tj 80 0 Td (0.9 H7) Tj 80 0 Td (THRU) Tj 80 0 Td (6) Tj 80 0 Td (-3) Tj ET\nendstream endobj\ntrailer<</Root 1 0 R>>\n",
        ],
        "block" => &[
            "A\t36\t0.8 +-0.05\t14\r\nB\t4\t1.0\tthru\r\n",
            "hole\tqty\tdia\tdepth\tnote\nA\t1\t0.8\t12\t\"\nB\t1\t0.8\t12\t\"\n",
            "4x \u{2300}0.80 \u{b1}0.02 THRU\n12x \u{2300}0.80 \u{21a7}14\n",
            "HOLE  QTY  DIA\nA  4  0.8\nB  2  0.9\n",
            "\u{2300}0.80 \u{b1}0.02\t4x\t14 THRU\tA\n\u{2300}1.20 \u{b1}0.02\t2x\t12 blind\tB\n",
            "\"through\nboth\"\t2\n\"say \"\"thru\"\"\"\t3\n",
            "0.8\n\n0.9\n\n",
        ],
        "compare" => &[
            "mark;qty;size;depth;note\nA;36;0.80 \u{b1}0.02;14;to the plenum\nB;12;1.00;6 thru;\nC;2;0.50;5;\nD;4;0.3;3;\n\0mark;qty;size;depth;note\nA;36;.80 \u{b1}.02;14.0;\nB;10;1.00;6 thru;\nD;4;0.35;3;\nE;1;2;8;\n",
            "mark;size;depth;x;y\nA;0.8;10;1;2\nA;0.8;10;3;4\nB;1.2;thru;5;6\n\0mark;size;depth;x;y\nA;0.8;10;1;2\nA;0.8;10;3;4.5\nC;1.2;thru;5;6\n",
            "mark;qty;size;depth\nA;5;0.8;10\nB;7;1.2;10\n\0mark;qty;size;depth\nA;1;3;4\nB;5;0.8;10\nC;7;1.2;10\n",
            "hole,qty,dia,depth,angle,end,note\nA,3,.031 +.003/-0,.5,30,thru,deburr\nA,3,.031 +.003/-0,.5,30,thru,deburr\n,1,0.9 H7,as deep as it goes,,blind,\n\0hole,qty,dia,depth,angle,end,note\n,1,0.9 H7,12,,blind,wax\nA,3,.031,.5,35,thru,\nA,2,0.8 mm,,,into cavity,deburr\n",
            "mark;qty;size;depth\nA;2;0.8;10\nB;2;0.8;10\n",
        ],
        "words" => &[
            "papers\x00demo-jobs/26-0101.ron\x00--out\x00out\x00--only\x00traveler,quotation\x00--sheet\x00letter\x00--date\x002026-11-25\x00--replace",
            "papers\x0026-0101\x00--out\x00out\x00--blank\x00run-record,inspection\x00--pages\x003",
            "figures\x0026-0101\x00--json\x00--shop\x00shop.ron\x00--shelf\x00jobs",
            "intake\x00--holes\x00h.csv\x00--material\x00718\x00--quantity\x0025\x00--thickness\x0012 mm\x00--unit\x00mm\x00--column\x00finish=note\x00--out\x00a.ron",
            "issue\x0026-0101\x00quotation\x00--with\x0026-0102,26-0103\x00--adopt",
            "release\x0026-0101\x00--parts\x005",
            "26-0101\x0026-4294967295\x0026-0101-Q1\x00con.ron\x00..\x00a/b\x00.hidden\x00",
        ],
        "cache" => &[
            "{\"version\":2,\"format\":2,\"mark\":null,\"cursor\":4}\nabcd{\"jobs\":[],\"unusable\":[[\"x\",{\"Err\":\"why\"}]],\"owed\":[\"26-0101\"]}",
        ],
        "draft" => &[
            r#"{"job":"(\n  format: 2,\n  number: \"26-0101\",\n  unit: mm,\n)\n","from":null}"#,
            r#"{"job":"(\n  format: 2,\n  number: \"26-0101\",\n  unit: mm,\n)\n","from":{"mark":null,"at":"jobs/26-0101.ron","version":"0000000000000000000000000000000000000000000000000000000000000000","base":"(\n  format: 2,\n  unit: mm,\n)\n"}}"#,
        ],
        _ => &[],
    }
}

fn files_in(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.path())
        .filter(|path| path.is_file())
        .collect();
    files.sort();
    files
}
