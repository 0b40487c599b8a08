//! Workbooks by three writers, each against what its script put into them; odd, locked and hostile ones.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "helpers of tests stop the test as tests do"
)]

use std::io::{Cursor, Write as _};
use std::path::{Path, PathBuf};

use quillbore_intake::{Foreign, IntakeError, WorkbookError};
use quillbore_job::report::{LineOutcome, ReportLine};
use quillbore_job::{Column, Job, RowsAt, Unit, apply};
use serde_json::Value;
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/workbook-corpus")
}

fn read(name: &str) -> Vec<u8> {
    std::fs::read(corpus().join(name)).unwrap()
}

fn truth() -> Value {
    serde_json::from_slice(&read("truth.json")).unwrap()
}

/// The rows that a table becomes, as their texts, with what is told of the whole and of each line.
fn taken(table: &Foreign) -> (Job, Vec<String>, Vec<ReportLine>) {
    let job = Job::default();
    let taken = table.take(&job, RowsAt::Append, Unit::Mm).unwrap();
    let (job, _) = apply(&job, &taken.edit).unwrap();
    (job, taken.report.whole, taken.report.lines)
}

#[test]
fn every_cell_is_what_was_written() {
    let truth = truth();
    let mut files = 0;
    for (name, of_file) in truth.as_object().unwrap() {
        let table = Foreign::of_file(&read(name), name).unwrap();
        let sheets = table.sheets();
        let is_taken = sheets.iter().find(|sheet| sheet.is_taken).unwrap();
        assert_eq!(is_taken.name, of_file["sheet"].as_str().unwrap(), "{name}");
        let (job, whole, lines) = taken(&table);
        let rows = of_file["rows"].as_array().unwrap();
        assert_eq!(job.rows.len(), rows.len(), "{name}: {whole:?}");
        for (at, (row, wanted)) in job.rows.iter().zip(rows).enumerate() {
            for column in [
                Column::Mark,
                Column::Count,
                Column::Size,
                Column::Depth,
                Column::End,
                Column::Note,
            ] {
                let key = column.key();
                let text = row.cell(column).text;
                assert_eq!(
                    text,
                    wanted[key].as_str().unwrap(),
                    "{name}, row {at}, {key}"
                );
            }
        }
        let first = of_file["first_line"].as_u64().unwrap();
        let mut rows = lines
            .iter()
            .filter(|line| line.outcome != LineOutcome::LeftOut);
        assert_eq!(u64::from(rows.next().unwrap().number), first, "{name}");
        if let Some(told) = of_file.get("told") {
            let told = told.as_str().unwrap();
            assert!(
                whole.iter().any(|said| said.contains(told)),
                "{name}: {whole:#?}"
            );
        }
        if let Some(others) = of_file.get("others") {
            let found = sheets
                .iter()
                .filter(|sheet| !sheet.is_taken)
                .map(|sheet| sheet.name);
            let wanted = others
                .as_array()
                .unwrap()
                .iter()
                .map(|name| name.as_str().unwrap());
            assert!(found.eq(wanted), "{name}: {sheets:?}");
        }
        files += 1;
    }
    assert_eq!(files, std::fs::read_dir(corpus()).unwrap().count() - 2);
}

fn packed(parts: &[(&str, &str)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        zip.start_file(*name, SimpleFileOptions::default()).unwrap();
        zip.write_all(text.as_bytes()).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

fn ods(rows: &str) -> Vec<u8> {
    let content = format!(
        "<office:document-content><office:body><office:spreadsheet><table:table table:name=\"Holes\">{rows}\
         </table:table></office:spreadsheet></office:body></office:document-content>"
    );
    packed(&[("content.xml", &content)])
}

fn text_cell(text: &str, more: &str) -> String {
    format!(
        "<table:table-cell office:value-type=\"string\" {more}><text:p>{text}</text:p></table:table-cell>"
    )
}

fn refused(bytes: &[u8]) -> IntakeError {
    Foreign::of_file(bytes, "holes.xlsx").unwrap_err()
}

fn refused_workbook(bytes: &[u8]) -> WorkbookError {
    match refused(bytes) {
        IntakeError::Workbook(error) => error,
        other => panic!("{other:?}"),
    }
}

#[test]
fn another_sheet_is_taken_by_its_name() {
    let table = Foreign::of_file(&read("two-lists.xlsx"), "two-lists.xlsx").unwrap();
    let may_be: Vec<&str> = table
        .sheets()
        .iter()
        .filter(|sheet| sheet.may_be_it)
        .map(|sheet| sheet.name)
        .collect();
    assert_eq!(may_be, ["Side 1", "Side 2"]);
    let second = table.on_sheet("side 2").unwrap();
    assert_eq!(taken(&second).0.rows.len(), 2);
    let told = taken(&second).1;
    assert!(
        told.iter()
            .any(|said| said.contains("“Side 2” was taken; “Side 1” was not")),
        "{told:?}"
    );
    let error = table.on_sheet("Side 3").unwrap_err();
    assert_eq!(
        error.to_string(),
        "There is no sheet “Side 3”, only “Side 1”, “Side 2”"
    );
}

#[test]
fn what_is_no_workbook_says_what_to_do() {
    let mut old = vec![0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1];
    old.extend([0; 600]);
    assert_eq!(refused_workbook(&old), WorkbookError::OldKind);
    old.extend("EncryptedPackage".encode_utf16().flat_map(u16::to_le_bytes));
    assert_eq!(refused_workbook(&old), WorkbookError::Locked);
    let letter = packed(&[("word/document.xml", "<w:document/>")]);
    assert_eq!(refused_workbook(&letter), WorkbookError::NoWorkbook);
    let whole = read("plain.xlsx");
    for cut in [40, 400, whole.len() - 30] {
        let error = refused_workbook(&whole[..cut]);
        assert!(
            matches!(error, WorkbookError::Damaged(_)),
            "{cut}: {error:?}"
        );
    }
    let locked = packed(&[
        (
            "META-INF/manifest.xml",
            "<manifest:file-entry><manifest:encryption-data/></manifest:file-entry>",
        ),
        ("content.xml", "\u{1}\u{2}"),
    ]);
    assert_eq!(refused_workbook(&locked), WorkbookError::Locked);
    assert_eq!(refused(&ods("")), IntakeError::Empty);
}

/// A cell that says it stands there a million times over, in a row that does so too.
#[test]
fn what_repeats_without_end_is_counted_first() {
    let often = "table:number-columns-repeated=\"4294967295\"";
    let rows = |cell: &str| {
        ods(&format!(
            "<table:table-row table:number-rows-repeated=\"4294967295\">{cell}</table:table-row>"
        ))
    };
    let too_many = WorkbookError::TooManyCells("Holes".to_owned());
    assert_eq!(refused_workbook(&rows(&text_cell("A", often))), too_many);
    assert_eq!(refused_workbook(&rows(&text_cell("A", ""))), too_many);
    assert_eq!(refused(&rows(&text_cell("", often))), IntakeError::Empty);
}

#[test]
fn what_unpacks_without_end_is_refused() {
    let blanks = " ".repeat(200_000_000);
    let bytes = packed(&[("content.xml", &blanks)]);
    assert!(bytes.len() < 1_000_000);
    assert_eq!(refused_workbook(&bytes), WorkbookError::TooLarge);
}

/// Remarks are none of a cell's text, entities and blanks are; a table in a cell is no line of the sheet.
#[test]
fn odd_cells_of_an_open_document() {
    let row = |cells: &[String]| format!("<table:table-row>{}</table:table-row>", cells.concat());
    let remark = "<office:annotation><text:p>old: 0.9</text:p></office:annotation>";
    let number = |value: &str, shown: &str| {
        format!(
            "<table:table-cell office:value-type=\"float\" office:value=\"{value}\">{remark}\
             <text:p>{shown}</text:p></table:table-cell>"
        )
    };
    let inner = "<table:table-cell><table:table><table:table-row><table:table-cell><text:p>x</text:p>\
                 </table:table-cell></table:table-row></table:table></table:table-cell>";
    let table = ods(&[
        row(&["Hole", "Diameter", "Depth", "Note"].map(|head| text_cell(head, ""))),
        row(&[
            text_cell("A", ""),
            number("0.8125", "0.81 mm"),
            number("12.5", "12.5"),
            text_cell(
                "both<text:s text:c=\"2\"/>sides &lt;B&gt;<text:line-break/>&#216;",
                "",
            ),
        ]),
        row(&[inner.to_owned()]),
    ]
    .concat());
    let (job, ..) = taken(&Foreign::of_file(&table, "odd.ods").unwrap());
    assert_eq!(job.rows.len(), 1);
    let text = |column| job.rows[0].cell(column).text.to_owned();
    assert_eq!(text(Column::Size), "0.8125 mm");
    assert_eq!(text(Column::Depth), "12.5");
    assert_eq!(text(Column::Note), "both sides <B> \u{d8}");
}

const NAMES: &str = "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";

/// A workbook of one sheet whose cells may be struck through (style 1) or fractions (style 2).
fn styled(rows: &str) -> Vec<u8> {
    let relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    let of_package = "http://schemas.openxmlformats.org/package/2006/relationships";
    let parts = [
        (
            "[Content_Types].xml",
            "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>"
                .to_owned(),
        ),
        (
            "_rels/.rels",
            format!(
                "<Relationships xmlns=\"{of_package}\"><Relationship Id=\"a\" Type=\"{relations}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            ),
        ),
        (
            "xl/workbook.xml",
            format!(
                "<workbook {NAMES} xmlns:r=\"{relations}\"><sheets><sheet name=\"Holes\" sheetId=\"1\" r:id=\"a\"/></sheets></workbook>"
            ),
        ),
        (
            "xl/_rels/workbook.xml.rels",
            format!(
                "<Relationships xmlns=\"{of_package}\"><Relationship Id=\"a\" Type=\"{relations}/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"b\" Type=\"{relations}/styles\" Target=\"styles.xml\"/></Relationships>"
            ),
        ),
        (
            "xl/styles.xml",
            format!(
                "<styleSheet {NAMES}><numFmts count=\"1\"><numFmt numFmtId=\"164\" formatCode=\"# ?/??\"/></numFmts><fonts count=\"2\"><font><sz val=\"11\"/></font><font><strike/><sz val=\"11\"/></font></fonts><cellXfs count=\"3\"><xf numFmtId=\"0\" fontId=\"0\"/><xf numFmtId=\"0\" fontId=\"1\"/><xf numFmtId=\"164\" fontId=\"0\"/></cellXfs></styleSheet>"
            ),
        ),
        (
            "xl/worksheets/sheet1.xml",
            format!("<worksheet {NAMES}><sheetData>{rows}</sheetData></worksheet>"),
        ),
    ];
    let parts: Vec<(&str, &str)> = parts
        .iter()
        .map(|(name, text)| (*name, text.as_str()))
        .collect();
    packed(&parts)
}

#[test]
fn struck_cells_and_fractions_are_told() {
    let text = |text: &str| format!("<c t=\"inlineStr\"><is><t>{text}</t></is></c>");
    let head = ["Hole", "Qty", "Dia", "Depth"].map(text).concat();
    let a = text("A");
    let rows = format!(
        "<row r=\"1\">{head}</row><row r=\"2\">{a}<c><v>4</v></c><c s=\"2\"><v>0.03125</v></c><c><v>12</v></c></row>\
         <row r=\"3\">{a}<c s=\"1\"><v>4</v></c><c s=\"1\"><v>0.8</v></c><c s=\"1\"><v>12</v></c></row>"
    );
    let table = Foreign::of_file(&styled(&rows), "holes.xlsx").unwrap();
    let (job, said, _) = taken(&table);
    assert_eq!(job.rows[0].cell(Column::Size).text, "1/32");
    assert!(job.rows[0].size.value().is_none());
    for told in ["struck through", "shown as fractions: line 2"] {
        assert!(
            said.iter().any(|said| said.contains(told)),
            "{told}: {said:?}"
        );
    }
}
