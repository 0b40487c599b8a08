//! Drawings in PDF of a few lines: odd ones, and what is made of callouts that were chosen.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use std::cell::Cell;
use std::fmt::Write as _;

use quillbore_intake::pdf::{
    self, Doubt, Offered, Paged, PaperError, PdfError, SeenCallout, WhyNone,
};
use quillbore_intake::words::pages;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

/// A file with one page of this content: Helvetica as F, `more` in its resources, further objects from 10 on.
fn file(content: &str, more: &str, objects: &str) -> Vec<u8> {
    format!(
        "%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R/OCProperties<</OCGs[20 0 R]/D<</OFF[20 0 R]>>>>>>endobj\n\
         2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n\
         3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 400]/Contents 4 0 R\
         /Resources<</Font<</F 5 0 R {more}>>/XObject<</X 11 0 R>>/Properties<</Off 20 0 R>>>>>>endobj\n\
         4 0 obj<</Length {}>>stream\n{content}\nendstream endobj\n\
         5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>endobj\n\
         20 0 obj<</Type/OCG/Name(off)>>endobj\n\
         {objects}\ntrailer<</Root 1 0 R/Size 30>>\n%%EOF\n",
        content.len() + 1,
    )
    .into_bytes()
}

/// A line of text; y goes up.
fn line(text: &str, x: u32, y: u32) -> String {
    format!("BT /F 10 Tf {x} {y} Td ({text}) Tj ET\n")
}

fn read(bytes: &[u8]) -> Paged {
    pdf::read(bytes, &|_| false).unwrap()
}

fn texts(paged: &Paged) -> Vec<&str> {
    let callouts = paged.pages.iter().flat_map(|page| &page.callouts);
    callouts.map(|callout| callout.text.as_str()).collect()
}

const MM: &str = "BT /F 10 Tf 20 20 Td (DIMENSIONS IN MM) Tj ET\n";

#[test]
fn what_is_a_pdf() {
    assert!(pdf::is_pdf(b"", "Part.PDF") && pdf::is_pdf(b"\n%PDF-1.4", "part"));
    assert!(!pdf::is_pdf(b"ISO-10303-21;", "part.step"));
    let none = |bytes: &[u8]| pdf::read(bytes, &|_| false).unwrap_err();
    assert_eq!(none(b""), PdfError::NotPdf);
    assert_eq!(none(b"0\nSECTION\n"), PdfError::NotPdf);
    assert_eq!(none(b"%PDF-1.4\n"), PdfError::Damaged);
    let whole = file(&line("4X \\3300.8 THRU", 50, 50), "", "");
    // Cut in its first object there is no page any more.
    assert_eq!(none(&whole[..100]), PdfError::Damaged);
}

#[test]
fn a_sign_that_only_the_name_of_its_font_tells() {
    let content = format!(
        "{MM}BT /G 10 Tf 50 200 Td (n) Tj /F 10 Tf 9 0 Td (0.80 ) Tj /G 10 Tf 24 0 Td (x) Tj /F 10 Tf 9 0 Td (14) Tj ET"
    );
    let font = |name: &str| {
        format!(
            "10 0 obj<</Type/Font/Subtype/Type3/BaseFont/{name}/FontBBox[0 0 1 1]/FontMatrix[1 0 0 1 0 0]\
             /CharProcs<</n 12 0 R/x 12 0 R>>/Encoding<</Differences[110/n 120/x]>>/FirstChar 110/LastChar 120\
             /Widths[.8 0 0 0 0 0 0 0 0 0 .8]>>endobj\n12 0 obj<</Length 20>>stream\n1 0 d0 0 0 1 1 re f \nendstream endobj"
        )
    };
    let paged = read(&file(&content, "/G 10 0 R", &font("ABCDEF+ShopGDT")));
    assert_eq!(texts(&paged), ["\u{2300}0.80 \u{21a7}14"]);
    let callout = &paged.pages[0].callouts[0];
    assert_eq!(callout.doubts, [Doubt::SignByFont]);
    assert_eq!(callout.parts.len(), 2);
    // A font of another name has letters.
    let plain = read(&file(&content, "/G 10 0 R", &font("Shop")));
    let lines: Vec<&str> = plain.pages[0]
        .lines
        .iter()
        .map(|line| line.text.as_str())
        .collect();
    assert!(lines.contains(&"n0.80 x14"), "{lines:?}");
}

#[test]
fn letters_without_a_meaning_are_told() {
    let font = "10 0 obj<</Type/Font/Subtype/Type0/BaseFont/Odd/Encoding/Identity-H/DescendantFonts[<</Type/Font\
                /Subtype/CIDFontType2/BaseFont/Odd/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>\
                /FontDescriptor<</Type/FontDescriptor/FontName/Odd/Flags 4>>/DW 600>>]>>endobj";
    let content =
        format!("{MM}BT /G 10 Tf 50 200 Td <00030004> Tj /F 10 Tf 12 0 Td (\\3300.8 THRU) Tj ET");
    let paged = read(&file(&content, "/G 10 0 R", font));
    assert_eq!(paged.pages[0].why_none, [WhyNone::NoLetters(2)]);
    assert_eq!(texts(&paged), ["\u{fffd}\u{fffd}\u{d8}0.8 THRU"]);
    assert!(paged.pages[0].callouts[0].doubts.contains(&Doubt::NoLetter));
}

#[test]
fn layers_that_are_off_and_what_lies_off_the_page() {
    let content = format!(
        "{}/OC /Off BDC {} EMC {} {}",
        line("4X \\3300.8 THRU", 50, 50),
        line("5X \\3300.9 THRU", 50, 90),
        line("6X \\3301.1 THRU", 50, 130),
        line("7X \\3301.2 THRU", 900, 130),
    );
    let paged = read(&file(&content, "", ""));
    assert_eq!(texts(&paged), ["6X \u{d8}1.1 THRU", "4X \u{d8}0.8 THRU"]);
    assert_eq!(paged.pages[0].why_none, [WhyNone::Hidden(12)]);
    assert_eq!(paged.pages[0].off_page, 1);
    let told = pages::of_pages(&paged);
    assert!(
        told[0].starts_with("Page 1: 12 letters are on layers"),
        "{told:?}"
    );
    assert!(
        told[1].starts_with("Page 1: 1 line of text stands outside"),
        "{told:?}"
    );
}

fn offered(content: &str) -> Offered {
    Offered::read(&file(content, "", ""), "cover.pdf", &|_| false).unwrap()
}

#[test]
fn nothing_is_taken_unasked() {
    let content = [
        line("4X \\3300.8 THRU", 50, 350),
        line("\\33050 SHAFT", 500, 350),
        line("2X \\3301.2", 50, 50),
        line("THRU", 50, 38),
    ];
    let mut offered = offered(&content.concat());
    let job = Job::default();
    assert_eq!(offered.callouts().count(), 3);
    assert_eq!(
        offered.take(&job, RowsAt::Append),
        Err(PaperError::NoneTaken)
    );
    assert_eq!(
        offered.take_only(&[0, 3]),
        Err(PaperError::NoSuchCallout(3, 3))
    );
    assert!(!offered.is_taken(0));
    offered.take_only(&[0, 1]).unwrap();
    offered.toggle(2);
    offered.toggle(1);
    assert!(offered.is_taken(0) && !offered.is_taken(1) && offered.is_taken(2));
    // Nothing says the unit.
    assert_eq!(
        offered.take(&job, RowsAt::Append),
        Err(PaperError::WhichUnit(Vec::new()))
    );
    offered.say_unit(Unit::Mm);
    let taken = offered.take(&job, RowsAt::Append).unwrap();
    assert_eq!(taken.rows, 2);
    let (job, _) = apply(&job, &taken.edit).unwrap();
    let cell = |row: usize, column: Column| job.rows[row].cell(column).text.to_owned();
    let row = |at| {
        [
            Column::Mark,
            Column::Count,
            Column::Size,
            Column::End,
            Column::Note,
        ]
        .map(|column| cell(at, column))
    };
    assert_eq!(
        row(0),
        ["A", "4X", "\u{d8}0.8", "THRU", "4X \u{d8}0.8 THRU"]
    );
    assert_eq!(
        row(1),
        ["B", "2X", "\u{d8}1.2", "THRU", "2X \u{d8}1.2 THRU"]
    );
    let whole = taken.report.whole;
    assert_eq!(whole[0], "Lengths were read in millimeters, as was said.");
    assert_eq!(
        whole[1],
        "A: \u{201c}4X \u{d8}0.8 THRU\u{201d}, page 1, upper left."
    );
    assert_eq!(
        whole[2],
        "B: \u{201c}2X \u{d8}1.2 THRU\u{201d}, page 1, lower left."
    );
    assert_eq!(
        whole[3],
        "Left out: \u{201c}\u{d8}50 SHAFT\u{201d} (page 1, upper right)."
    );
}

#[test]
fn what_cannot_be_taken_apart_comes_as_a_note() {
    let mut offered = offered(&format!("{MM}{}", line("\\33050 SHAFT", 500, 350)));
    offered.take_only(&[0]).unwrap();
    let taken = offered.take(&Job::default(), RowsAt::Append).unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    assert_eq!(job.rows[0].cell(Column::Note).text, "\u{d8}50 SHAFT");
    assert_eq!(job.rows[0].cell(Column::Size).text, "");
    assert!(
        taken
            .report
            .whole
            .iter()
            .any(|told| told.contains("its size is to be typed"))
    );
}

#[test]
fn a_size_alone_is_the_size_of_its_row() {
    let sizes = line("\\3300.45 \\2610.02", 50, 350) + &line("\\3301.2", 500, 350);
    let mut offered = offered(&format!("{MM}{sizes}"));
    offered.take_only(&[0, 1]).unwrap();
    let taken = offered.take(&Job::default(), RowsAt::Append).unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    let sizes: Vec<&str> = job.rows.iter().map(|row| row.size.text()).collect();
    assert_eq!(sizes, ["\u{d8}0.45 \u{b1}0.02", "\u{d8}1.2"]);
    let told = &taken.report.whole;
    assert!(
        !told.iter().any(|told| told.contains("to be typed")),
        "{told:?}"
    );
}

/// Callouts in a row, the second line of each below it: no heads of a table, however many of their words could be.
#[test]
fn callouts_in_a_row_are_no_table() {
    let row = |texts: [&str; 3], y: u32| -> String {
        let at = [50, 200, 350];
        let lines = texts.iter().zip(at).map(|(text, x)| line(text, x, y));
        lines.collect()
    };
    let content = format!(
        "{MM}{}{}",
        row(["2X \\3300.80", "3X \\3300.60", "4X \\3300.50"], 200),
        row(["THRU", "THRU", "THRU"], 188)
    );
    assert_eq!(
        texts(&read(&file(&content, "", ""))),
        [
            "2X \u{d8}0.80 THRU",
            "3X \u{d8}0.60 THRU",
            "4X \u{d8}0.50 THRU"
        ]
    );
}

/// Of two units the one without brackets is that of the lengths.
#[test]
fn a_second_unit_in_brackets_is_not_that_of_the_lengths() {
    for (words, callout, unit) in [
        (
            "DIMENSIONS IN MM [INCH]",
            "2X \\3300.80 [.031] THRU",
            Unit::Mm,
        ),
        (
            "DIMENSIONS ARE IN INCHES [MM]",
            "4X \\330.0315 [0.80] THRU",
            Unit::Inch,
        ),
        ("SCALE 1:1", "4X \\3300.80 [.0315] THRU", Unit::Mm),
    ] {
        let content = format!("{}{}", line(words, 20, 20), line(callout, 50, 200));
        let offered = offered(&content);
        // Brackets alone tell no unit.
        let expect = (words != "SCALE 1:1").then_some(unit);
        assert_eq!(offered.unit(), expect, "{words}");
    }
}

/// A circle with a stroke through it stands between the count and the size.
#[test]
fn a_count_stands_before_a_sign_that_is_drawn() {
    let apart = |x: u32| format!("{MM}{}{}", line("4X", 50, 200), line("0.80 THRU", x, 200));
    // `4X` is 12.2 wide.
    assert_eq!(texts(&read(&file(&apart(76), "", ""))), ["4X 0.80 THRU"]);
    let far = read(&file(&apart(110), "", ""));
    assert_eq!(texts(&far), ["0.80 THRU"]);
}

#[test]
fn texts_that_disagree_on_the_unit_are_told() {
    let content = format!(
        "{MM}{}{}",
        line("ALL DIMENSIONS IN INCHES", 300, 20),
        line("4X \\3300.8 THRU", 50, 350)
    );
    let mut offered = offered(&content);
    offered.take_only(&[0]).unwrap();
    let Err(PaperError::WhichUnit(says)) = offered.take(&Job::default(), RowsAt::Append) else {
        unreachable!("both units are said");
    };
    assert_eq!(says.len(), 2);
    assert!(says[0].contains("page 1 says"), "{says:?}");
}

/// A table of four columns and these lines.
fn table(heads: [&str; 4], rows: &[[&str; 4]]) -> String {
    let mut content = String::new();
    for (at, cells) in std::iter::once(&heads).chain(rows).enumerate() {
        for (column, cell) in cells.iter().enumerate() {
            let (x, y) = (
                50 + 100 * u32::try_from(column).unwrap(),
                300 - 14 * u32::try_from(at).unwrap(),
            );
            content += &line(cell, x, y);
        }
    }
    content
}

#[test]
fn lines_of_a_table_are_rows_with_their_places() {
    let rows = [
        ["A", "0.8", "10.5", "20"],
        ["A", "0.8", "30", "20"],
        ["B", "1.2 H7", "5", "-7"],
    ];
    let mut offered = offered(&format!("{MM}{}", table(["MARK", "SIZE", "X", "Y"], &rows)));
    assert!(offered.callouts().all(SeenCallout::is_of_table));
    offered.take_only(&[0, 1, 2]).unwrap();
    let taken = offered.take(&Job::default(), RowsAt::Append).unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    assert_eq!((taken.rows, job.rows.len()), (2, 2));
    let points: Vec<[f64; 3]> = job.rows[0]
        .places
        .iter()
        .map(|place| place.point_mm)
        .collect();
    assert_eq!(points, [[10.5, 20.0, 0.0], [30.0, 20.0, 0.0]]);
    assert_eq!(job.rows[1].cell(Column::Size).text, "1.2 H7");
    offered.take_only(&[2]).unwrap();
    let taken = offered.take(&Job::default(), RowsAt::Append).unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    assert_eq!(job.rows[0].cell(Column::Mark).text, "B");
    assert_eq!(job.rows.len(), 1);
}

#[test]
fn a_table_in_another_unit_is_not_taken_for_this_one() {
    let rows = [["A", ".031", "1.5", "2"], ["B", ".047", "2.5", "2"]];
    let content = format!(
        "{}{}",
        table(["MARK", "DIA (IN)", "X (IN)", "Y (IN)"], &rows),
        line("4X \\3300.8 THRU", 50, 350)
    );
    let mut offered = offered(&content);
    offered.take_only(&[0, 1, 2]).unwrap();
    offered.say_unit(Unit::Mm);
    let taken = offered.take(&Job::default(), RowsAt::Append).unwrap();
    assert_eq!(taken.rows, 1);
    assert!(
        taken
            .report
            .whole
            .iter()
            .any(|told| told.starts_with("Not taken: the heads of a table say inches"))
    );
}

/// Forms that draw themselves, and forms of which each draws the next one ten times.
#[test]
fn forms_in_forms_are_bounded() {
    let itself = "11 0 obj<</Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</X 11 0 R>>>>/Length 12>>stream\n/X Do /X Do \nendstream endobj";
    let paged = read(&file(
        &format!("{}/X Do", line("4X \\3300.8 THRU", 50, 50)),
        "",
        itself,
    ));
    assert_eq!((texts(&paged).len(), paged.pages[0].why_none.len()), (1, 0));
    let mut chain = String::new();
    for at in 0..10 {
        let times = "/X Do ".repeat(10);
        write!(
            chain,
            "{} 0 obj<</Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</X {} 0 R>>>>/Length {}>>stream\n{times}\nendstream endobj\n",
            if at == 0 { 11 } else { 30 + at },
            31 + at,
            times.len()
        )
        .unwrap();
    }
    let bytes = file("/X Do", "", &chain);
    assert_eq!(read(&bytes).pages[0].why_none, [WhyNone::TooMuch]);
    assert_eq!(
        pdf::picture(&bytes, 0, 1_000, &|| false),
        Err(PdfError::TooMuchDrawn)
    );
}

#[test]
fn page_trees_that_go_round_and_thousands_of_pages() {
    let round = b"%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[2 0 R 3 0 R 2 0 R]>>endobj\n3 0 obj<</Type/Pages/Kids[2 0 R 3 0 R 4 0 R]>>endobj\n4 0 obj<</Type/Page>>endobj\ntrailer<</Root 1 0 R>>";
    let paged = read(round);
    assert_eq!(paged.pages.len(), 1);
    assert_eq!(paged.pages[0].why_none, [WhyNone::Blank]);
    let mut many =
        "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids["
            .to_owned();
    (0..10_000).for_each(|at| write!(many, "{} 0 R ", at + 3).unwrap());
    many += "]>>endobj\n";
    (0..10_000).for_each(|at| writeln!(many, "{} 0 obj<</Type/Page>>endobj", at + 3).unwrap());
    many += "trailer<</Root 1 0 R>>";
    let paged = read(many.as_bytes());
    assert_eq!(
        (paged.pages_in_file, paged.pages.len()),
        (10_000, pdf::MOST_PAGES)
    );
    let told = pages::of_pages(&paged);
    assert!(
        told.last()
            .unwrap()
            .starts_with("Of 10000 pages the first 60 were read"),
        "{told:?}"
    );
}

#[test]
fn pages_in_few_bytes_are_too_many_parts() {
    let many = format!(
        "%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[{}]>>endobj\ntrailer<</Root 1 0 R>>",
        "<<>>".repeat(100_000)
    );
    assert_eq!(
        pdf::read(many.as_bytes(), &|_| false),
        Err(PdfError::TooManyParts)
    );
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    use std::io::Write as _;
    let mut zlib = flate2::write::ZlibEncoder::new(Vec::new(), flate2::Compression::best());
    zlib.write_all(bytes).unwrap();
    zlib.finish().unwrap()
}

/// A file whose page's content is this, packed in these ways.
fn stream(filters: &str, data: &[u8]) -> Vec<u8> {
    let head = format!(
        "%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]>>endobj\n\
         3 0 obj<</Type/Page/Contents 4 0 R>>endobj\n4 0 obj<</Length {}/Filter{filters}>>stream\n",
        data.len()
    );
    let tail =
        b"\nendstream endobj\n5 0 obj[/FlateDecode/FlateDecode]endobj\ntrailer<</Root 1 0 R>>";
    [head.as_bytes(), data, tail].concat()
}

#[test]
fn files_that_swell_are_refused() {
    let large = packed(&vec![b' '; 40_000_000]);
    let swells = |filters: &str, data: &[u8]| {
        let read = pdf::read(&stream(filters, data), &|_| false);
        assert_eq!(read, Err(PdfError::Swells), "{filters}");
    };
    swells("/FlateDecode", &large);
    swells("/#46lateDecode", &large);
    swells("[/FlateDecode/FlateDecode]", &packed(&large));
    swells(
        "[/AHx/FlateDecode]",
        large
            .iter()
            .fold(String::new(), |text, byte| text + &format!("{byte:02x}"))
            .as_bytes(),
    );
    // Where another part of the file says how it is packed, nobody sees it beforehand.
    swells(" 5 0 R", &packed(&large));
    // What stays within the bounds is read.
    let fair = packed(b"BT /F 10 Tf 9 700 Td (4X .031 THRU) Tj ET");
    assert_eq!(
        texts(&read(&stream("/FlateDecode", &fair))),
        ["4X .031 THRU"]
    );
}

#[test]
fn deep_brackets_and_huge_pages() {
    for deep in [
        "[".repeat(200_000),
        "<</A".repeat(10_000),
        "(".repeat(200_000),
    ] {
        let bytes = file(
            &format!("{} {deep}", line("4X \\3300.8 THRU", 50, 50)),
            "",
            &format!("10 0 obj{deep}endobj"),
        );
        match pdf::read(&bytes, &|_| false) {
            Ok(paged) => assert!(texts(&paged).len() <= 1),
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    }
    let huge = String::from_utf8(file(&line("4X \\3300.8 THRU", 50, 50), "", "")).unwrap();
    let huge = huge
        .replace("[0 0 600 400]", "[0 0 900000000 900000000]")
        .into_bytes();
    assert_eq!(read(&huge).pages[0].width, 900_000_000.0);
    let shown = pdf::picture(&huge, 0, 10_000, &|| false).unwrap();
    assert_eq!((shown.width, shown.height), (100, 100));
    let thin = String::from_utf8(file("", "", "")).unwrap();
    let thin = thin
        .replace("[0 0 600 400]", "[0 0 1 900000000]")
        .into_bytes();
    assert_eq!(
        pdf::picture(&thin, 0, 10_000, &|| false),
        Err(PdfError::TooMuchDrawn)
    );
    assert_eq!(
        pdf::picture(&thin, 1, 10_000, &|| false),
        Err(PdfError::NoSuchPage(1))
    );
}

#[test]
fn reading_stops_where_nobody_wants_it() {
    let content = line("4X \\3300.8 THRU", 50, 50).repeat(4_000);
    let bytes = file(&content, "", "");
    let asked = Cell::new(0_u32);
    let all = pdf::read(&bytes, &|_| {
        asked.set(asked.get() + 1);
        false
    });
    assert!(
        all.is_ok() && asked.get() > 4,
        "asked {} times",
        asked.get()
    );
    for at in 0..asked.get() {
        let left = Cell::new(at);
        let read = pdf::read(&bytes, &|_| left.replace(left.get().saturating_sub(1)) == 0);
        assert_eq!(read, Err(PdfError::Cancelled), "at {at}");
    }
}

/// Signs that parts begin with stand in packed pictures by chance.
#[test]
fn bytes_of_a_large_picture_are_no_parts() {
    // Numerical Recipes' "quick and dirty" generator, from memory: any bytes will do.
    let mut state = 1_u32;
    let mut random = || {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 24) as u8
    };
    let data: Vec<u8> = (0..6_000_000).map(|_| random()).collect();
    let whole = file(&line("4X \\3300.8 THRU", 50, 50), "", "@");
    let at = whole.iter().position(|byte| *byte == b'@').unwrap();
    let head = format!("11 0 obj<</Subtype/Image/Length {}>>stream\n", data.len());
    let bytes = [
        &whole[..at],
        head.as_bytes(),
        &data,
        b"\nendstream endobj",
        &whole[at + 1..],
    ]
    .concat();
    assert_eq!(texts(&read(&bytes)).len(), 1);
}
