//! Tables of holes on pages of PDF: headings between their rows, cells of several lines, heads that limit sizes, what
//! goes on on the next page.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use quillbore_intake::pdf::Offered;
use quillbore_intake::words::pages;
use quillbore_job::{Column, Job, RowsAt, apply};

/// A file with pages of these contents.
fn file(pages: &[String]) -> Vec<u8> {
    let kids: Vec<String> = (0..pages.len())
        .map(|at| format!("{} 0 R", 10 + 2 * at))
        .collect();
    let mut out = format!(
        "%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[{}]/Count {}>>endobj\n\
         5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>endobj\n",
        kids.join(" "),
        pages.len()
    );
    for (at, content) in pages.iter().enumerate() {
        let (page, stream) = (10 + 2 * at, 11 + 2 * at);
        out += &format!(
            "{page} 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 700 400]/Contents {stream} 0 R/Resources<</Font<</F 5 0 R>>>>>>endobj\n\
             {stream} 0 obj<</Length {}>>stream\n{content}\nendstream endobj\n",
            content.len() + 1
        );
    }
    out += "trailer<</Root 1 0 R/Size 90>>\n%%EOF\n";
    out.into_bytes()
}

/// A line of text; y goes up.
fn line(text: &str, x: u32, y: u32) -> String {
    format!("BT /F 10 Tf {x} {y} Td ({text}) Tj ET\n")
}

const MM: &str = "BT /F 10 Tf 20 20 Td (DIMENSIONS IN MM) Tj ET\n";

/// Lines of cells, 100 from column to column, 16 from line to line.
fn table(rows: &[&[&str]]) -> String {
    table_at(50, rows)
}

fn table_at(left: u32, rows: &[&[&str]]) -> String {
    let mut content = MM.to_owned();
    for (row, y) in rows.iter().zip((0..360).rev().step_by(16)) {
        for (cell, x) in row.iter().zip((left..).step_by(75)) {
            if !cell.is_empty() {
                content += &line(cell, x, y);
            }
        }
    }
    content
}

/// What becomes of all that is offered: the rows with their filled cells, and what is told.
fn taken(pages: &[String]) -> (Vec<String>, Vec<String>) {
    let mut offered = Offered::read(&file(pages), "cover.pdf", &|_| false).unwrap();
    let all: Vec<usize> = (0..offered.callouts().count()).collect();
    offered.take_only(&all).unwrap();
    let taken = offered.take(&Job::default(), RowsAt::Append).unwrap();
    let (job, _) = apply(&Job::default(), &taken.edit).unwrap();
    let columns = [
        Column::Mark,
        Column::Count,
        Column::Size,
        Column::Depth,
        Column::End,
        Column::Note,
    ];
    let rows = job.rows.iter().map(|row| {
        let cells = columns.map(|column| row.cell(column).text.to_owned());
        cells.join("|")
    });
    let mut told = pages::of_pages(offered.paged());
    told.extend(taken.report.whole);
    (rows.collect(), told)
}

fn is_told(told: &[String], part: &str) -> bool {
    told.iter().any(|told| told.contains(part))
}

const HEADS: &[&str] = &["HOLE", "QTY", "DIA", "DEPTH"];

#[test]
fn rows_below_a_heading_are_rows() {
    let (a, b, c) = (
        ["A", "4", "0.80", "12"],
        ["B", "2", "0.50", "8"],
        ["C", "3", "0.60", "9"],
    );
    let expect = ["A|4|0.80|12||", "B|2|0.50|8||", "C|3|0.60|9||"];
    for heading in [
        &["SIDE B"][..],
        &["", "(SIDE A)"],
        &["*"],
        &["", "", "", "SIDE B"],
    ] {
        let (rows, told) = taken(&[table(&[HEADS, &a, heading, &b, &c])]);
        assert_eq!(rows, expect, "{heading:?}");
        let text = heading.concat();
        assert!(
            is_told(&told, &format!("\u{201c}{text}\u{201d} stands alone")),
            "{told:?}"
        );
        let (rows, _) = taken(&[table(&[HEADS, heading, &a, &b, &c])]);
        assert_eq!(rows, expect, "{heading:?} first");
    }
}

/// Notes below a heading are words where rows have numbers.
#[test]
fn notes_below_a_table_are_no_rows() {
    let (rows, _) = taken(&[table(&[
        HEADS,
        &["A", "4", "0.80", "12"],
        &["B", "2", "0.50", "THRU"],
        &["NOTES:"],
        &["1.", "BREAK EDGES"],
        &["2.", "NO BURRS", "SEE SHEET 2", "ALL"],
    ])]);
    assert_eq!(rows, ["A|4|0.80|12||", "B|2|0.50|THRU||"]);
}

#[test]
fn what_stands_below_a_table_is_none_of_it() {
    let (rows, told) = taken(&[table(&[
        HEADS,
        &["A", "4", "0.80", "12"],
        &["B", "2", "0.50", "8"],
        &["NOTE: ALL HOLES DEBURRED"],
    ])]);
    assert_eq!(rows.len(), 2);
    assert!(!is_told(&told, "stands alone"), "{told:?}");
}

#[test]
fn lines_in_the_columns_of_a_table_are_told() {
    let blank: &[&str] = &[];
    let (rows, told) = taken(&[table(&[
        HEADS,
        &["A", "4", "0.80", "12"],
        blank,
        blank,
        blank,
        blank,
        &["B", "2", "0.50", "8"],
    ])]);
    assert_eq!(rows.len(), 1);
    assert!(is_told(&told, "B 2 0.50 8"), "{told:?}");
}

#[test]
fn heads_that_limit_sizes() {
    let expect = ["A|4|0.78/0.82|12||", "B|2|0.50/0.53|THRU||"];
    let rows: [&[&str]; 2] = [
        &["A", "4", "0.78", "0.82", "12"],
        &["B", "2", "0.50", "0.53", "THRU"],
    ];
    for heads in [
        &[&["HOLE", "QTY", "MIN", "MAX", "DEPTH"][..]][..],
        &[&["HOLE", "QTY", "DIA MIN", "DIA MAX", "DEPTH"]],
        &[
            &["HOLE", "NO.", "DIA", "DIA", "DEPTH"],
            &["", "REQD", "MIN", "MAX", "(mm)"],
        ],
    ] {
        let all = [heads, &rows].concat();
        let (rows, _) = taken(&[table(&all)]);
        assert_eq!(rows, expect, "{heads:?}");
    }
}

/// Nothing says which column the sizes stand in: what stands below each other there is no callout.
#[test]
fn a_table_without_sizes_is_told() {
    let content = table(&[
        &["HOLE", "QTY", "WIDTH", "DEPTH"],
        &["A", "4", "SEE", "12"],
        &["B", "2", "SEE", "THRU"],
    ]);
    let content = content + &line("\\3302.5 THRU", 500, 100);
    let (rows, told) = taken(&[content]);
    assert_eq!(rows.len(), 1, "{rows:?}");
    assert!(
        is_told(&told, "no head says where the sizes stand"),
        "{told:?}"
    );
}

/// Nobody knows such heads, but what stands below each other in columns is no callout.
#[test]
fn cells_of_columns_without_known_heads_are_no_callouts() {
    let content = table(&[
        &["AA", "BB", "CC", "DD"],
        &["A", "4", "0.80", "12"],
        &["B", "2", "0.50", "THRU"],
    ]);
    let content = content + &line("\\3302.5 THRU", 500, 100);
    let (rows, told) = taken(&[content]);
    assert_eq!(rows.len(), 1, "{rows:?}");
    assert!(
        is_told(&told, "\u{201c}THRU\u{201d} stands at no size"),
        "{told:?}"
    );
}

#[test]
fn a_table_goes_on_on_the_next_page() {
    let first = table(&[
        HEADS,
        &["A", "4", "0.80", "12"],
        &["B", "2", "0.50", "THRU"],
    ]);
    let next = table(&[&["C", "4", "0.80", "12"], &["D", "2", "0.50", "8"]]);
    let (rows, told) = taken(&[first.clone(), next]);
    assert_eq!(
        rows,
        [
            "A|4|0.80|12||",
            "B|2|0.50|THRU||",
            "C|4|0.80|12||",
            "D|2|0.50|8||"
        ]
    );
    assert!(is_told(&told, "on the page before"), "{told:?}");
    // In other columns it is another thing.
    let other = table_at(90, &[&["C", "4", "0.80", "12"], &["D", "2", "0.50", "8"]]);
    let (rows, _) = taken(&[first, other]);
    assert_eq!(rows.len(), 2);
}

#[test]
fn cells_of_several_lines_are_one() {
    let heads = ["HOLE", "QTY", "DIA", "REMARK"];
    // At the top of their rows.
    let (rows, _) = taken(&[table(&[
        &heads,
        &["A", "4", "0.80", "first"],
        &["", "", "", "second"],
        &["", "", "", "third"],
        &["B", "2", "0.50", "x"],
    ])]);
    assert_eq!(rows, ["A|4|0.80|||first second third", "B|2|0.50|||x"]);
    // In the middle of them.
    let rows: [(&[&str], u32); 5] = [
        (&heads, 300),
        (&["", "", "", "first"], 280),
        (&["A", "4", "0.80", ""], 274),
        (&["", "", "", "second"], 268),
        (&["B", "2", "0.50", "x"], 248),
    ];
    let mut content = MM.to_owned();
    for (cells, y) in rows {
        for (cell, x) in cells.iter().zip([50, 150, 250, 350]) {
            content += &line(cell, x, y);
        }
    }
    let (rows, _) = taken(&[content]);
    assert_eq!(rows, ["A|4|0.80|||first second", "B|2|0.50|||x"]);
}

/// Sizes of two lines, with their rows' other cells between these.
#[test]
fn sizes_of_two_lines_are_one() {
    let rows: [(&[&str], u32); 7] = [
        (&["HOLE", "QTY", "SIZE", "NOTE"], 300),
        (&["", "", "\\3300.80 \\2610.02", ""], 274),
        (&["A", "4", "", ""], 269),
        (&["", "", "THRU", ""], 264),
        (&["", "", "\\3300.50", ""], 244),
        (&["B", "2", "", "x"], 239),
        (&["", "", "8 DEEP", ""], 234),
    ];
    let mut content = MM.to_owned();
    for (cells, y) in rows {
        for (cell, x) in cells.iter().zip([50, 150, 250, 350]) {
            if !cell.is_empty() {
                content += &line(cell, x, y);
            }
        }
    }
    let (rows, _) = taken(&[content]);
    assert_eq!(
        rows,
        [
            "A|4|\u{d8}0.80 \u{b1}0.02||THRU|",
            "B|2|\u{d8}0.50|8|blind|x"
        ]
    );
}

#[test]
fn callouts_in_a_column_of_any_name_are_sizes() {
    for head in ["DESCRIPTION", "SIZE AND DEPTH"] {
        let (rows, whole) = taken(&[table(&[
            &["SYM", "QTY", head],
            &["A", "4", "\\3300.80 \\2610.02 THRU"],
            &["B", "12", "\\3300.50 8 DEEP"],
            &["C", "2", "M4x0.7 6 DEEP"],
        ])]);
        assert_eq!(rows.len(), 3, "{head}: {rows:?}");
        assert_eq!(rows[0], "A|4|\u{d8}0.80 \u{b1}0.02||THRU|", "{head}");
        assert_eq!(rows[1], "B|12|\u{d8}0.50|8|blind|", "{head}");
        let blind = "\u{201c}\u{d8}0.50 8 DEEP\u{201d} has a depth and no THRU: taken as blind";
        assert!(whole.iter().any(|said| said.contains(blind)), "{whole:#?}");
        assert!(rows[2].starts_with("C|2|M4"), "{head}: {rows:?}");
    }
}

#[test]
fn tables_side_by_side_are_two() {
    let heads = ["HOLE", "QTY", "DIA"];
    for others in [heads, ["MARK", "QTY", "DIA"]] {
        let (rows, _) = taken(&[format!(
            "{}{}",
            table(&[&heads, &["A", "4", "0.80"], &["B", "2", "0.50"]]),
            table_at(350, &[&others, &["C", "3", "0.60"], &["D", "1", "1.20"]])
        )]);
        let mut rows = rows;
        rows.sort();
        assert_eq!(
            rows,
            ["A|4|0.80|||", "B|2|0.50|||", "C|3|0.60|||", "D|1|1.20|||"]
        );
    }
}
