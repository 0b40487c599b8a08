//! The kit: pages, wrapping, tables, head and foot.

use quillbore_job::Language;
use quillbore_paper::letterhead::frame::Frame;
use quillbore_paper::page::record;
use quillbore_paper::page::{Document, Item, Page, Role, Sheet, Style};
use quillbore_paper::page::{Face, SUBSTITUTE};
use quillbore_paper::typeset::flow::{Body, Flow};
use quillbore_paper::typeset::form::{self, Captioned};
use quillbore_paper::typeset::look::BODY;
use quillbore_paper::typeset::table::{Cell, Column, Table, TableRow, Width};
use quillbore_paper::typeset::wrap::{Span, wrap};

fn frame() -> Frame {
    Frame {
        head: "Traveler 26-0107".to_owned(),
        issuer: "Tern Mill Spark Works".to_owned(),
        code: "26-0107 T".to_owned(),
        note: "A printed copy is valid for this lot only".to_owned(),
        preview: None,
        language: Language::English,
    }
}

fn table_of(rows: usize, sheet: Sheet) -> Document {
    let mut table = Table::new([
        Column::text("Hole", Width::Fit(60.0)),
        Column::figures("Depth on the axis", "mm", Width::Fit(60.0)),
        Column::text("Remark", Width::Share(1.0)),
    ]);
    for index in 1..=rows {
        table.row(TableRow::new([
            Cell::new(format!("row-{index}")),
            Cell::new(format!("{index}.0")),
            Cell::new("flush from the far side until the burst shows"),
        ]));
    }
    let mut flow = Flow::new(sheet);
    table.set(&mut flow);
    flow.finish(|page, number, of| frame().write(page, sheet, number, of))
}

fn texts(page: &Page) -> Vec<&str> {
    page.items
        .iter()
        .filter_map(|item| match item {
            Item::Text(run) => Some(run.text.as_str()),
            _ => None,
        })
        .collect()
}

#[test]
fn wrapped_lines_fit_and_lose_nothing() {
    let check = |text: &str, width: f64, expect: &[&str]| {
        let lines = wrap(&[Span::new(BODY, text)], width);
        let mut page = Page::default();
        let mut top = 0.0;
        for line in &lines {
            assert!(
                line.width <= width + 1e-6,
                "{text:?}: {} > {width}",
                line.width
            );
            line.set(&mut page, 0.0, top);
            top += line.leading;
        }
        assert_eq!(texts(&page), expect, "{text:?} at {width}");
    };
    let em = BODY.measure("0");
    check("one", 500.0, &["one"]);
    check("0000 0000 0000", em * 9.5, &["0000 0000", "0000"]);
    check("000000000000", em * 5.2, &["00000", "00000", "00"]);
    check("0 000000000000", em * 5.2, &["0", "00000", "00000", "00"]);
    check("a\nb", 500.0, &["a", "b"]);
    check("00 00\u{a0}00 0", em * 5.5, &["00", "00 00", "0"]);
}

#[test]
fn spans_keep_their_style_and_their_word() {
    let width = BODY.measure("depth 14.0 mm");
    let lines = wrap(
        &[
            Span::new(BODY, "depth "),
            Span::new(BODY.bold(), "14.0"),
            Span::new(BODY, ", then more"),
        ],
        width,
    );
    let mut page = Page::default();
    for line in &lines {
        line.set(&mut page, 0.0, 0.0);
    }
    assert_eq!(texts(&page), ["depth ", "14.0", ",", "then more"]);
}

#[test]
fn a_missing_glyph_is_substituted_and_reported() {
    let mut page = Page::default();
    page.text(0.0, 10.0, BODY, "hole \u{4E2D} A");
    let document = Document {
        sheet: Sheet::A4,
        pages: vec![page],
        is_cut: false,
        language: Language::English,
    };
    assert_eq!(
        document.missing().into_iter().collect::<String>(),
        "\u{4E2D}"
    );
    assert_eq!(texts(&document.pages[0]), [format!("hole {SUBSTITUTE} A")]);
}

#[test]
fn every_face_has_what_the_papers_print() {
    let needed = "\u{2300}\u{21A7}\u{00B1}\u{00B0}\u{00D7}\u{2013}\u{2026}\u{2264}\u{2265}\u{00B5}\u{2192}\u{20AC}\u{2032}\u{2033}\u{FFFD}\u{00BD}";
    for face in Face::ALL {
        let lacking: String = needed.chars().filter(|ch| !face.covers(*ch)).collect();
        assert_eq!(lacking, "", "{face:?}");
    }
}

#[test]
fn figures_of_every_face_have_one_width() {
    for face in Face::ALL {
        let widths: Vec<f64> = ('0'..='9')
            .map(|ch| face.measure(&ch.to_string(), 10.0))
            .collect();
        assert!(
            widths.iter().all(|width| *width == widths[0]),
            "{face:?} {widths:?}"
        );
    }
}

#[test]
fn the_position_sign_is_lines_not_a_glyph() {
    let mut page = Page::default();
    let end = page.text(0.0, 10.0, BODY, "\u{2316} 0.1 A");
    assert_eq!(texts(&page), [" 0.1 A"]);
    assert!((end - BODY.measure("\u{2316} 0.1 A")).abs() < 1e-9);
    let drawn = page
        .items
        .iter()
        .filter(|item| item.is_drawn() && !matches!(item, Item::Text(_)))
        .count();
    assert_eq!(drawn, 3, "a circle and two lines");
    // Whoever has it read aloud hears it all the same.
    assert_eq!(page.items[0], Item::Begin(Role::Sign('\u{2316}')));
}

#[test]
fn long_tables_repeat_heads_and_lose_no_row() {
    for sheet in [Sheet::A4, Sheet::Letter] {
        let document = table_of(300, sheet);
        assert!(document.pages.len() > 3);
        let of = document.pages.len();
        let mut rows = Vec::new();
        for (index, page) in document.pages.iter().enumerate() {
            let texts = texts(page);
            assert!(texts.contains(&"Hole"), "head on page {}", index + 1);
            assert!(texts.contains(&format!("page {} of {of}", index + 1).as_str()));
            rows.extend(
                texts
                    .iter()
                    .filter(|text| text.starts_with("row-"))
                    .map(|text| (*text).to_owned()),
            );
        }
        let expect: Vec<String> = (1..=300).map(|index| format!("row-{index}")).collect();
        assert_eq!(rows, expect);
    }
}

#[test]
fn a_row_taller_than_a_page_goes_on() {
    let words = "and a very long story of what was tried before ".repeat(900);
    let mut table = Table::new([
        Column::text("Hole", Width::Fixed(30.0)),
        Column::text("Story", Width::Share(1.0)),
    ]);
    table.row(TableRow::new([Cell::new("A"), Cell::new(words.trim())]));
    table.row(TableRow::new([Cell::new("B"), Cell::new("short")]));
    let mut flow = Flow::new(Sheet::A4);
    table.set(&mut flow);
    let document = flow.finish(|_, _, _| {});
    let story: usize = document
        .pages
        .iter()
        .flat_map(texts)
        .map(|text| text.matches("story").count())
        .sum();
    assert_eq!(story, 900);
    assert!(document.pages.len() > 2);
    assert_inside(&document);
}

#[test]
fn nothing_leaves_the_margins() {
    let long = "a wide remark ".repeat(40);
    let mut table = Table::new(
        (0..14).map(|index| Column::figures(&format!("Column {index}"), "mm", Width::Fit(90.0))),
    );
    for _ in 0..80 {
        table.row(
            TableRow::new((0..14).map(|index| Cell::new(format!("{index}00.000"))))
                .note(long.clone()),
        );
    }
    for sheet in [Sheet::A4, Sheet::Letter] {
        let mut flow = Flow::new(sheet);
        form::fields(
            &mut flow,
            &[
                Captioned::filled("material", &long, 1.0),
                Captioned::blank("heat", 2.0),
            ],
        );
        form::sign_off(&mut flow, &long);
        form::check(&mut flow, &[Span::new(BODY, &long)]);
        flow.section("Holes", &long, 100.0);
        table.set(&mut flow);
        flow.text(BODY, &"x".repeat(4000));
        let preview = Frame {
            preview: Some("the parts have not been received; not for the floor. ".repeat(5)),
            head: long.clone(),
            note: long.clone(),
            ..frame()
        };
        let document = flow.finish(|page, number, of| preview.write(page, sheet, number, of));
        assert_inside(&document);
    }
}

fn assert_inside(document: &Document) {
    let (width, height) = document.sheet.size();
    let body = Body::of(document.sheet);
    for (index, page) in document.pages.iter().enumerate() {
        for item in &page.items {
            if let Item::Text(run) = item {
                let tall = run.style.size;
                assert!(
                    run.x >= body.left - 1e-6
                        && run.right() <= width - 28.3
                        && run.y - tall >= 0.0
                        && run.y <= height - 28.3,
                    "page {}: {run:?} ends at {}",
                    index + 1,
                    run.right()
                );
            }
        }
    }
}

#[test]
fn a_preview_is_marked_on_every_sheet() {
    let preview = Frame {
        preview: Some("parts not received".to_owned()),
        ..frame()
    };
    let mut flow = Flow::new(Sheet::Letter);
    for _ in 0..200 {
        flow.text(BODY, "a line");
    }
    let document = flow.finish(|page, number, of| preview.write(page, Sheet::Letter, number, of));
    assert!(document.pages.len() > 1);
    for page in &document.pages {
        assert!(texts(page).contains(&"PREVIEW  parts not received"));
        assert!(
            matches!(page.items[0], Item::Path(_)),
            "the word lies under the text"
        );
    }
}

#[test]
fn the_record_tells_what_is_on_the_page() {
    let mut flow = Flow::new(Sheet::A4);
    form::fields(
        &mut flow,
        &[
            Captioned::filled("job", "26-0107", 1.0),
            Captioned::blank("heat", 1.0),
        ],
    );
    let document = flow.finish(|_, _, _| {});
    let lines: Vec<String> = record(&document)
        .lines()
        .map(|line| line.split(' ').next().unwrap_or_default().to_owned())
        .collect();
    assert_eq!(
        lines,
        [
            "page", "begin", "text", "text", "end", "begin", "text", "line", "end"
        ]
    );
    let style = Style::new(Face::Sans, 10.0);
    assert!(style.measure("26-0107") > 0.0);
}
