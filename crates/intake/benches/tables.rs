//! A hole table of 10,000 rows, as delimited text and as a workbook: read, and taken as rows.
#![expect(clippy::unwrap_used, reason = "a bench fails by panic")]

use std::fmt::Write as _;
use std::hint::black_box;
use std::io::{Cursor, Write as _};

use criterion::{Criterion, criterion_group, criterion_main};
use quillbore_intake::Foreign;
use quillbore_job::{Job, RowsAt, Unit};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

const ROWS: usize = 10_000;

/// Cells of one row: texts and numbers as they are told apart in a workbook.
fn row(at: usize) -> [Cell; 6] {
    let size = 0.3 + 0.05 * (at % 40) as f64;
    let end = ["thru", "blind"][at % 2];
    [
        Cell::Text(format!("H{at}")),
        Cell::Number((1 + at % 9).to_string()),
        Cell::Number(format!("{size:.2}")),
        Cell::Number(format!("{}", 4 + at % 17)),
        Cell::Text(end.to_owned()),
        Cell::Text(format!("side {}", at % 8)),
    ]
}

enum Cell {
    Text(String),
    Number(String),
}

const HEAD: [&str; 6] = ["Hole", "Qty", "Dia", "Depth", "End", "Note"];

fn delimited() -> Vec<u8> {
    let mut text = HEAD.join(",") + "\n";
    for at in 0..ROWS {
        let cells = row(at).map(|cell| match cell {
            Cell::Text(text) | Cell::Number(text) => text,
        });
        writeln!(text, "{}", cells.join(",")).unwrap();
    }
    text.into_bytes()
}

/// Texts are shared and numbered, as spreadsheet programs do; every number has a style.
fn workbook() -> Vec<u8> {
    let mut shared = Vec::new();
    let mut numbers = std::collections::BTreeMap::new();
    let mut cell = |column: usize, line: usize, cell: &Cell| {
        let name = format!("{}{line}", char::from(b'A' + u8::try_from(column).unwrap()));
        match cell {
            Cell::Number(number) => format!("<c r=\"{name}\" s=\"1\"><v>{number}</v></c>"),
            Cell::Text(text) => {
                let number = *numbers.entry(text.clone()).or_insert_with(|| {
                    shared.push(text.clone());
                    shared.len() - 1
                });
                format!("<c r=\"{name}\" s=\"0\" t=\"s\"><v>{number}</v></c>")
            }
        }
    };
    let head = HEAD.map(|head| Cell::Text(head.to_owned()));
    let rows = (0..ROWS).map(row);
    let mut data = String::new();
    for (line, cells) in (1..).zip(std::iter::once(head).chain(rows)) {
        write!(data, "<row r=\"{line}\" spans=\"1:6\">").unwrap();
        for (column, each) in cells.iter().enumerate() {
            data += &cell(column, line, each);
        }
        data += "</row>";
    }
    let texts: String = shared
        .iter()
        .map(|text| format!("<si><t>{text}</t></si>"))
        .collect();
    let main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    let relations = "http://schemas.openxmlformats.org/package/2006/relationships";
    let office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    packed(&[
        ("[Content_Types].xml", "<Types/>".to_owned()),
        (
            "_rels/.rels",
            format!(
                "<Relationships xmlns=\"{relations}\"><Relationship Id=\"rId1\" Type=\"{office}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            ),
        ),
        (
            "xl/workbook.xml",
            format!(
                "<workbook xmlns=\"{main}\" xmlns:r=\"{office}\"><sheets><sheet name=\"Holes\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>"
            ),
        ),
        (
            "xl/_rels/workbook.xml.rels",
            format!(
                "<Relationships xmlns=\"{relations}\"><Relationship Id=\"rId1\" Type=\"{office}/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"
            ),
        ),
        (
            "xl/styles.xml",
            format!(
                "<styleSheet xmlns=\"{main}\"><cellXfs count=\"2\"><xf numFmtId=\"0\"/><xf numFmtId=\"2\"/></cellXfs></styleSheet>"
            ),
        ),
        (
            "xl/sharedStrings.xml",
            format!(
                "<sst xmlns=\"{main}\" count=\"{}\" uniqueCount=\"{}\">{texts}</sst>",
                3 * ROWS + HEAD.len(),
                shared.len()
            ),
        ),
        (
            "xl/worksheets/sheet1.xml",
            format!(
                "<worksheet xmlns=\"{main}\"><dimension ref=\"A1:F{}\"/><sheetData>{data}</sheetData></worksheet>",
                ROWS + 1
            ),
        ),
    ])
}

fn packed(parts: &[(&str, String)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        zip.start_file(*name, SimpleFileOptions::default()).unwrap();
        zip.write_all(text.as_bytes()).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

fn taken(bytes: &[u8], name: &str) -> usize {
    let table = Foreign::of_file(bytes, name).unwrap();
    let job = Job::default();
    let taken = table.take(&job, RowsAt::Append, Unit::Mm).unwrap();
    taken.rows
}

fn of_tables(c: &mut Criterion) {
    let mut group = c.benchmark_group("tables");
    group.sample_size(20);
    for (what, bytes, name) in [
        ("10,000 rows of CSV", delimited(), "holes.csv"),
        ("10,000 rows of a workbook", workbook(), "holes.xlsx"),
    ] {
        assert_eq!(taken(&bytes, name), ROWS);
        group.bench_function(what, |b| b.iter(|| taken(black_box(&bytes), name)));
    }
    group.finish();
}

criterion_group!(benches, of_tables);
criterion_main!(benches);
