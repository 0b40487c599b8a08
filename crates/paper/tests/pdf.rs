//! The bytes: the same each time, fonts embedded and tagged, nothing untrue said.
#![expect(clippy::unwrap_used, reason = "helpers of tests may panic")]

use chrono::NaiveDate;
use lopdf::{Dictionary, Document as Pdf, Object};
use quillbore_paper::page::Face;
use quillbore_paper::page::{Document, Item, MOST_PAGES, Page, Role, Sheet, Style, TextRun};
use quillbore_paper::pdf::{self, Meta, PdfError};
use quillbore_paper::typeset::flow::Flow;
use quillbore_paper::typeset::look::BODY;
use quillbore_paper::typeset::table::{Cell, Column, Table, TableRow, Width};

fn meta() -> Meta {
    Meta {
        title: "Traveler 26-0107".to_owned(),
        author: "Tern Mill Spark Works".to_owned(),
        date: NaiveDate::from_ymd_opt(2026, 11, 7).unwrap(),
    }
}

fn sample() -> Document {
    let mut flow = Flow::new(Sheet::A4);
    for face in Face::ALL {
        flow.text(
            Style::new(face, 9.0),
            "hole A36 \u{2300}0.80 \u{00B1}0.05 at 60\u{00B0}",
        );
    }
    flow.finish(|_, _, _| {})
}

fn read() -> Pdf {
    Pdf::load_mem(&pdf::write(&sample(), &meta()).unwrap()).unwrap()
}

fn descriptors(pdf: &Pdf) -> Vec<&Dictionary> {
    pdf.objects
        .values()
        .filter_map(|object| object.as_dict().ok())
        .filter(|dict| {
            dict.get(b"Type")
                .and_then(Object::as_name)
                .is_ok_and(|name| name == b"FontDescriptor")
        })
        .collect()
}

#[test]
fn the_same_document_gives_the_same_bytes() {
    let first = pdf::write(&sample(), &meta()).unwrap();
    let again = pdf::write(&sample(), &meta()).unwrap();
    assert!(first == again);
}

#[test]
fn another_date_gives_another_identity() {
    let other = Meta {
        date: NaiveDate::from_ymd_opt(2026, 11, 8).unwrap(),
        ..meta()
    };
    let id = |meta: &Meta| {
        let pdf = Pdf::load_mem(&pdf::write(&sample(), meta).unwrap()).unwrap();
        format!("{:?}", pdf.trailer.get(b"ID").unwrap())
    };
    assert_ne!(id(&meta()), id(&other));
}

#[test]
fn every_face_in_use_is_embedded_as_a_tagged_subset() {
    let pdf = read();
    let descriptors = descriptors(&pdf);
    assert_eq!(descriptors.len(), 4);
    for descriptor in descriptors {
        let name = String::from_utf8(
            descriptor
                .get(b"FontName")
                .unwrap()
                .as_name()
                .unwrap()
                .to_vec(),
        )
        .unwrap();
        let (tag, face) = name.split_once('+').unwrap();
        assert!(
            tag.len() == 6 && tag.bytes().all(|byte| byte.is_ascii_uppercase()),
            "{name}"
        );
        assert!(Face::ALL.iter().any(|known| known.name() == face), "{name}");
        let file = descriptor
            .get(b"FontFile2")
            .unwrap()
            .as_reference()
            .unwrap();
        let program = pdf
            .get_object(file)
            .unwrap()
            .as_stream()
            .unwrap()
            .decompressed_content()
            .unwrap();
        assert!(
            program.len() > 1000 && program.len() < 60_000,
            "{name}: {} bytes",
            program.len()
        );
    }
}

#[test]
fn every_font_maps_its_codes_back_to_text() {
    let pdf = read();
    let fonts: Vec<_> = pdf
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok())
        .filter(|dict| {
            dict.get(b"Subtype")
                .and_then(Object::as_name)
                .is_ok_and(|name| name == b"Type0")
        })
        .collect();
    assert_eq!(fonts.len(), 4);
    for font in fonts {
        let map = font.get(b"ToUnicode").unwrap().as_reference().unwrap();
        let map = pdf
            .get_object(map)
            .unwrap()
            .as_stream()
            .unwrap()
            .decompressed_content()
            .unwrap();
        let map = String::from_utf8(map).unwrap();
        // The codes' texts: diameter, plus-minus, degree, h, 8.
        for text in ["<2300>", "<00B1>", "<00B0>", "<0068>", "<0038>"] {
            assert!(map.contains(text), "{text} in\n{map}");
        }
    }
}

#[test]
fn it_says_nothing_untrue() {
    let pdf = read();
    let info = pdf.trailer.get(b"Info").unwrap().as_reference().unwrap();
    let info = pdf.get_object(info).unwrap().as_dict().unwrap();
    assert!(info.get(b"GTS_PDFXVersion").is_err());
    assert_eq!(
        info.get(b"CreationDate").unwrap().as_str().unwrap(),
        b"D:20261107000000Z"
    );
}

/// What a stream says whose reference stands in the catalog.
fn catalog_stream(pdf: &Pdf, key: &[u8]) -> String {
    let at = pdf.catalog().unwrap().get(key).unwrap();
    let (_, stream) = pdf.dereference(at).unwrap();
    let stream = stream.as_stream().unwrap();
    let content = stream.decompressed_content();
    let content = content.unwrap_or_else(|_| stream.content.clone());
    String::from_utf8(content).unwrap()
}

/// ISO 19005-2, 6.6.4: a file says in its metadata which part it conforms to and how far; 6.7: it is tagged,
/// and says its language.
#[test]
fn it_is_for_the_archive() {
    let pdf = read();
    let said = catalog_stream(&pdf, b"Metadata");
    for wanted in [
        "<pdfaid:part>2</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
        "Traveler 26-0107",
        "Tern Mill Spark Works",
    ] {
        assert!(said.contains(wanted), "{wanted} in\n{said}");
    }
    let catalog = pdf.catalog().unwrap();
    let lang = catalog.get(b"Lang").unwrap().as_str().unwrap();
    assert_eq!(lang, b"en");
    let marked = catalog.get(b"MarkInfo").unwrap().as_dict().unwrap();
    assert!(marked.get(b"Marked").unwrap().as_bool().unwrap());
    assert!(catalog.get(b"StructTreeRoot").is_ok());
    assert!(catalog.get(b"OutputIntents").is_ok());
}

#[test]
fn a_paper_of_too_many_pages_is_not_kept_and_not_written() {
    let set = |pages: usize| {
        let mut flow = Flow::new(Sheet::A4);
        for page in 1..=pages {
            flow.text(BODY, &format!("text {page}"));
            flow.next_page();
        }
        flow.finish(|_, _, _| {})
    };
    let most = set(MOST_PAGES);
    assert_eq!((most.pages.len(), most.is_cut), (MOST_PAGES, false));
    let more = set(MOST_PAGES + 1);
    assert_eq!((more.pages.len(), more.is_cut), (MOST_PAGES, true));
    let error = pdf::write(&more, &meta()).unwrap_err();
    assert!(matches!(error, PdfError::TooLong));
    assert_eq!(
        error.to_string(),
        "The paper would have more than 1000 pages"
    );
}

#[test]
fn what_cannot_be_written_is_told() {
    let empty = Document {
        sheet: Sheet::A4,
        pages: Vec::new(),
        is_cut: false,
        language: quillbore_job::Language::English,
    };
    assert!(matches!(
        pdf::write(&empty, &meta()),
        Err(PdfError::NoPages)
    ));
    let mut page = Page::default();
    page.items.push(Item::Text(TextRun {
        x: 0.0,
        y: 0.0,
        style: Style::new(Face::Sans, 9.0),
        text: "\u{4E2D}".to_owned(),
    }));
    let unchecked = Document {
        sheet: Sheet::A4,
        pages: vec![page],
        is_cut: false,
        language: quillbore_job::Language::English,
    };
    let error = pdf::write(&unchecked, &meta()).unwrap_err();
    assert_eq!(
        error.to_string(),
        "The face DejaVuSans has no glyph for '\u{4E2D}' (U+4E2D) on page 1"
    );
    assert_eq!(error.hint(), "Replace the character in the job's text");
}

/// A part that goes on over pages is one part, heads that stand on every page are read once, and what ends
/// behind the last full page makes no page of its own.
#[test]
fn parts_are_read_in_order_across_pages() {
    let mut table = Table::new([
        Column::text("Mark", Width::Share(1.0)),
        Column::figures("Size", "mm", Width::Share(1.0)),
    ]);
    for row in 0..120 {
        table.row(TableRow::new([
            Cell::new(format!("A{row}")),
            Cell::new("0.80"),
        ]));
    }
    let mut flow = Flow::new(Sheet::A4);
    flow.section("Holes", "", 0.0);
    table.set(&mut flow);
    let document = flow.finish(|page, number, _| {
        page.part(Role::Edge, |page| {
            page.text(60.0, 30.0, BODY, &format!("head {number}"))
        });
    });
    assert!(document.pages.len() > 2);
    let pdf = Pdf::load_mem(&pdf::write(&document, &meta()).unwrap()).unwrap();
    let kinds = kinds(&pdf);
    let count = |kind: &str| kinds.iter().filter(|known| *known == kind).count();
    assert_eq!(count("Table"), 1, "{kinds:?}");
    assert_eq!((count("TR"), count("TH"), count("TD")), (121, 2, 240));
    assert_eq!((count("H2"), count("P")), (1, 0));
    assert!(pdf.catalog().unwrap().get(b"Outlines").is_ok());
}

/// The kinds of all parts of a paper.
fn kinds(pdf: &Pdf) -> Vec<String> {
    let parts = pdf
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok());
    let kinds = parts.filter_map(|part| {
        part.get(b"P").ok()?;
        let kind = part.get(b"S").and_then(Object::as_name).ok()?;
        Some(String::from_utf8_lossy(kind).into_owned())
    });
    kinds.collect()
}
