//! Small workbooks that ask for far more memory or time than a hole table needs: each is refused before it gets
//! that.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "helpers of tests stop the test as tests do"
)]

use std::cell::{Cell, RefCell};
use std::io::{Cursor, Write as _};

use quillbore_intake::{Foreign, IntakeError, WorkbookError};
use quillbore_job::{Column, Job, RowsAt, Unit, apply};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS: &str = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/// A workbook, part by part; all of its sheets are one part.
struct Book {
    sheet: String,
    strings: String,
    styles: String,
    sheets: usize,
}

impl Book {
    fn of(rows: &str, after: &str) -> Self {
        Self {
            sheet: format!(
                "<worksheet xmlns=\"{MAIN}\"><sheetData>{rows}</sheetData>{after}</worksheet>"
            ),
            strings: "<sst/>".to_owned(),
            styles: "<styleSheet/>".to_owned(),
            sheets: 1,
        }
    }

    fn bytes(&self) -> Vec<u8> {
        let sheets: String = (1..=self.sheets)
            .map(|at| format!("<sheet name=\"S{at}\" sheetId=\"{at}\" r:id=\"rId1\"/>"))
            .collect();
        let relation = |kind: &str, target: &str| {
            format!(
                "<Relationships xmlns=\"{RELATIONS}\"><Relationship Id=\"rId1\" Type=\"{OFFICE}/{kind}\" Target=\"{target}\"/></Relationships>"
            )
        };
        packed(&[
            ("[Content_Types].xml", "<Types/>"),
            (
                "_rels/.rels",
                &relation("officeDocument", "xl/workbook.xml"),
            ),
            (
                "xl/workbook.xml",
                &format!(
                    "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{OFFICE}\"><sheets>{sheets}</sheets></workbook>"
                ),
            ),
            (
                "xl/_rels/workbook.xml.rels",
                &relation("worksheet", "worksheets/sheet1.xml"),
            ),
            ("xl/sharedStrings.xml", &self.strings),
            ("xl/styles.xml", &self.styles),
            ("xl/worksheets/sheet1.xml", &self.sheet),
        ])
    }

    fn refused(&self) -> WorkbookError {
        refused(&self.bytes())
    }
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

fn refused(bytes: &[u8]) -> WorkbookError {
    match Foreign::of_file(bytes, "holes.xlsx") {
        Err(IntakeError::Workbook(error)) => error,
        other => panic!("{other:?}"),
    }
}

fn too_many(sheet: &str) -> WorkbookError {
    WorkbookError::TooManyCells(sheet.to_owned())
}

#[test]
fn texts_that_are_said_to_be_there_are_no_reason_to_make_room_for_them() {
    for count in [
        "18446744073709551615",
        "400000000000",
        "99999999999999999999999",
    ] {
        let book = Book {
            strings: format!("<sst uniqueCount=\"{count}\"><si><t>A</t></si></sst>"),
            ..Book::of("<row><c><v>1</v></c></row>", "")
        };
        assert!(
            matches!(book.refused(), WorkbookError::Damaged(_)),
            "{count}"
        );
    }
}

#[test]
fn texts_and_formats_are_held_against_the_file() {
    let book = Book {
        strings: format!("<sst>{}</sst>", "<si><t>a</t></si>".repeat(2_000_000)),
        ..Book::of("<row><c><v>1</v></c></row>", "")
    };
    assert_eq!(book.refused(), WorkbookError::TooLarge);
    let format = "0".repeat(100_000);
    let book = Book {
        styles: format!(
            "<styleSheet><numFmts><numFmt numFmtId=\"200\" formatCode=\"{format}\"/></numFmts><cellXfs>{}</cellXfs></styleSheet>",
            "<xf numFmtId=\"200\"/>".repeat(20_000)
        ),
        ..Book::of("<row><c><v>1</v></c></row>", "")
    };
    assert_eq!(book.refused(), WorkbookError::TooLarge);
}

#[test]
fn one_text_in_a_hundred_thousand_cells_is_as_much_as_their_sum() {
    let text = "x".repeat(100_000);
    let row = "<row><c t=\"s\"><v>0</v></c></row>";
    let book = Book {
        strings: format!("<sst><si><t>{text}</t></si></sst>"),
        ..Book::of(&row.repeat(100_000), "")
    };
    assert_eq!(book.refused(), WorkbookError::TooLarge);
    let repeated = ods(&format!(
        "<table:table-row table:number-rows-repeated=\"100000\"><table:table-cell office:value-type=\"string\">\
         <text:p>{text}</text:p></table:table-cell></table:table-row>"
    ));
    assert_eq!(refused(&repeated), WorkbookError::TooLarge);
    // Merged over lines that have something else in them.
    let rows: String = (1..=9_000)
        .map(|line| format!("<row r=\"{line}\"><c r=\"B{line}\"><v>1</v></c></row>"))
        .collect();
    let first = "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c></row>";
    let merged = "<mergeCells><mergeCell ref=\"A1:A9000\"/></mergeCells>";
    let book = Book {
        strings: format!("<sst><si><t>{text}</t></si></sst>"),
        ..Book::of(&format!("{first}{rows}"), merged)
    };
    assert_eq!(book.refused(), WorkbookError::TooLarge);
}

#[test]
fn lines_and_cells_are_held_against_the_file() {
    let row = "<row><c><v>1</v></c></row>";
    assert!(Foreign::of_file(&Book::of(&row.repeat(9_000), "").bytes(), "a.xlsx").is_ok());
    assert_eq!(Book::of(&row.repeat(100_000), "").refused(), too_many("S1"));
    let repeated = |lines: u32, columns: u32| {
        ods(&format!(
            "<table:table-row table:number-rows-repeated=\"{lines}\"><table:table-cell office:value-type=\"string\" \
             table:number-columns-repeated=\"{columns}\"><text:p>A</text:p></table:table-cell></table:table-row>"
        ))
    };
    assert_eq!(refused(&repeated(3_900_000, 1)), too_many("Holes"));
    assert_eq!(refused(&repeated(3_990, 1_000)), too_many("Holes"));
    // Text that isn't packed is held against what a job has.
    let lines = "1\n".repeat(120_000);
    let error = Foreign::of_file(lines.as_bytes(), "holes.csv").unwrap_err();
    assert!(error.to_string().contains("110000 lines"), "{error}");
}

#[test]
fn merged_areas_that_lie_on_one_another_are_not_looked_at_without_end() {
    let rows: String = (1..=9_000)
        .map(|line| format!("<row r=\"{line}\"><c r=\"A{line}\"><v>1</v></c></row>"))
        .collect();
    let area = "<mergeCell ref=\"A1:A1048576\"/>";
    let merged = format!("<mergeCells>{}</mergeCells>", area.repeat(1_000));
    assert_eq!(Book::of(&rows, &merged).refused(), too_many("S1"));
}

#[test]
fn a_formula_without_a_result_in_four_thousand_million_rows_is_counted() {
    let often = "4294967295";
    let rows = format!(
        "<table:table-row table:number-rows-repeated=\"{often}\">\
         <table:table-cell table:formula=\"of:=1\" table:number-columns-repeated=\"{often}\"/></table:table-row>"
    );
    assert_eq!(refused(&ods(&rows)), too_many("Holes"));
}

#[test]
fn a_part_that_is_five_thousand_sheets_is_not_read_for_each() {
    let book = Book {
        sheets: 5_000,
        ..Book::of("<row><c><v>1</v></c></row>", "")
    };
    assert_eq!(book.refused(), WorkbookError::TooLarge);
    // Ten that are one sheet of a hundred thousand cells are more than the file has.
    let row = format!("<row>{}</row>", "<c><v>1</v></c>".repeat(500));
    let book = Book {
        sheets: 10,
        ..Book::of(&row.repeat(200), "")
    };
    assert_eq!(book.refused(), too_many("S4"));
}

/// What a sheet says of its size costs nothing, and two cells in one place are the later one.
#[test]
fn a_sheet_that_says_it_is_as_large_as_a_sheet_can_be_is_read() {
    let mut book = Book::of(
        "<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>Hole</t></is></c><c r=\"B1\" t=\"inlineStr\"><is><t>Dia</t></is></c></row>\
         <row r=\"1048576\"><c r=\"B1048576\"><v>0.9</v></c><c r=\"A1048576\" t=\"inlineStr\"><is><t>A</t></is></c>\
         <c r=\"B1048576\"><v>0.8</v></c></row>",
        "",
    );
    let dimension = "<dimension ref=\"A1:XFD1048576\"/><sheetData>";
    book.sheet = book.sheet.replace("<sheetData>", dimension);
    let table = Foreign::of_file(&book.bytes(), "holes.xlsx").unwrap();
    let taken = table
        .take(&Job::default(), RowsAt::Append, Unit::Mm)
        .unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    assert_eq!(job.rows.len(), 1);
    assert_eq!(job.rows[0].cell(Column::Mark).text, "A");
    assert_eq!(job.rows[0].cell(Column::Size).text, "0.8");
}

#[test]
fn areas_and_sizes_that_end_before_they_begin_are_left_out() {
    let mut book = Book::of(
        "<row><c><v>0.8</v></c></row><row><c r=\"B2\"><v>12</v></c></row>",
        "<mergeCells><mergeCell ref=\"B9:A1\"/></mergeCells>",
    );
    let dimension = "<dimension ref=\"F9:A1\"/><sheetData>";
    book.sheet = book.sheet.replace("<sheetData>", dimension);
    assert!(Foreign::of_file(&book.bytes(), "holes.xlsx").is_ok());
}

/// A terminal does what such signs say.
#[test]
fn signs_that_no_line_has_are_in_no_sentence() {
    let name = "a\u{1b}]0;\u{7}".repeat(100);
    let cell =
        "<table:table-cell office:value-type=\"string\"><text:p>A</text:p></table:table-cell>";
    let row = format!("<table:table-row>{cell}</table:table-row>");
    let bytes = |rows: &str| {
        let content = format!("<table:table table:name=\"{name}\">{rows}</table:table>");
        packed(&[("content.xml", &content)])
    };
    let is_plain = |says: &str| !says.contains(char::is_control) && says.chars().count() < 400;
    let book = Foreign::of_file(&bytes(&row), "holes.ods").unwrap();
    let sheet = book.sheets()[0].name.to_owned();
    assert!(is_plain(&sheet), "{sheet:?}");
    assert!(book.on_sheet(&sheet).is_ok());
    let wide = bytes(&format!(
        "<table:table-row>{}</table:table-row>",
        cell.repeat(1_001)
    ));
    let broken = bytes(&format!("<table:table-row></{name}>"));
    for bytes in [wide, broken] {
        let says = refused(&bytes).to_string();
        assert!(is_plain(&says), "{says:?}");
    }
}

/// Each kind of table tells how far it is as it is read, and is left where somebody stops it.
#[test]
fn reading_is_told_and_stopped() {
    let lines = "A,0.8,12\n".repeat(8_000);
    let numbers = "<c><v>0.8</v></c><c><v>12</v></c>";
    let sheet: String = (1..=8_000)
        .map(|line| format!("<row r=\"{line}\">{numbers}</row>"))
        .collect();
    let mut book = Book::of(&sheet, "");
    let dimension = "<dimension ref=\"A1:B8000\"/><sheetData>";
    book.sheet = book.sheet.replace("<sheetData>", dimension);
    let cell = "<table:table-cell office:value-type=\"float\" office:value=\"0.8\"/>".repeat(2);
    let row = format!("<table:table-row>{cell}</table:table-row>").repeat(8_000);
    let content = format!("<table:table table:name=\"Holes\">{row}</table:table>");
    for (bytes, name) in [
        (lines.into_bytes(), "holes.csv"),
        (book.bytes(), "holes.xlsx"),
        (packed(&[("content.xml", &content)]), "holes.ods"),
    ] {
        let told = RefCell::new(Vec::new());
        let whole = Foreign::read(&bytes, name, &|done| {
            told.borrow_mut().push(done);
            false
        });
        let told = told.into_inner();
        assert_eq!(whole, Foreign::of_file(&bytes, name), "{name}");
        assert!(told.is_sorted(), "{name}: {told:?}");
        assert!(
            told.iter().any(|done| (0.3..0.7).contains(done)),
            "{name}: {told:?}"
        );
        let looks = Cell::new(0);
        let stopped = Foreign::read(&bytes, name, &|_| {
            looks.set(looks.get() + 1);
            looks.get() == 2
        });
        assert_eq!(stopped, Err(IntakeError::Stopped), "{name}");
        assert_eq!(looks.get(), 2, "{name}");
    }
}

/// What a sheet shows in its writer's language and marks is read by its value.
#[test]
fn shown_values_of_open_document_sheets() {
    let text = |text: &str| {
        format!(
            "<table:table-cell office:value-type=\"string\"><text:p>{text}</text:p></table:table-cell>"
        )
    };
    let head: String = ["Hole", "Dia", "Backed"].map(text).concat();
    let size = "<table:table-cell office:value-type=\"float\" office:value=\"0.0315\"><text:p>0,0315 \"</text:p></table:table-cell>";
    let backed = "<table:table-cell office:value-type=\"boolean\" office:boolean-value=\"true\"><text:p>WAHR</text:p></table:table-cell>";
    let row = |cells: &str| format!("<table:table-row>{cells}</table:table-row>");
    let rows = row(&head) + &row(&(text("A") + size + backed));
    let content = format!("<table:table table:name=\"Holes\">{rows}</table:table>");
    let table = Foreign::of_file(&packed(&[("content.xml", &content)]), "holes.ods").unwrap();
    let taken = table
        .take(&Job::default(), RowsAt::Append, Unit::Mm)
        .unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    assert_eq!(job.rows[0].size.value().unwrap().upper.mm(), 0.8001);
    assert_eq!(job.rows[0].backed.value(), Some(&true));
}
