//! Callouts on pages of PDF whose parts stand apart: limits upon each other, parts behind a gap, counts in other lines.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use quillbore_intake::pdf::{self, Paged};
use quillbore_intake::words::pages;
use quillbore_job::Unit;

/// A page with these texts: what it says, where, y going up, and its letters' size.
fn page(texts: &[(&str, u32, u32, u32)]) -> Paged {
    let content: String = texts
        .iter()
        .map(|(text, x, y, size)| format!("BT /F {size} Tf {x} {y} Td ({text}) Tj ET\n"))
        .collect();
    let file = format!(
        "%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n\
         3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 600 400]/Contents 4 0 R/Resources<</Font<</F 5 0 R>>>>>>endobj\n\
         4 0 obj<</Length {}>>stream\n{content}\nendstream endobj\n\
         5 0 obj<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>endobj\n\
         trailer<</Root 1 0 R/Size 9>>\n%%EOF\n",
        content.len() + 1
    );
    pdf::read(file.as_bytes(), &|_| false).unwrap()
}

fn texts(paged: &Paged) -> Vec<String> {
    let callouts = paged.pages.iter().flat_map(|page| &page.callouts);
    let said = callouts.map(|callout| {
        let mut parts: Vec<String> = callout
            .parts
            .iter()
            .map(|part| format!("{:?}={}", part.column, part.text))
            .collect();
        parts.sort();
        format!("{}: {}", callout.text, parts.join(" "))
    });
    said.collect()
}

fn is_told(paged: &Paged, part: &str) -> bool {
    pages::of_pages(paged)
        .iter()
        .any(|told| told.contains(part))
}

#[test]
fn limits_upon_each_other_are_one_size() {
    for (stack, expect) in [
        (
            &[("4X \\3300.62", 50, 200, 10), ("0.58", 79, 188, 10)][..],
            "4X \u{d8}0.62/0.58: Count=4X Size=\u{d8}0.62/0.58",
        ),
        (
            &[("4X \\3300.62 THRU", 50, 200, 10), ("0.58", 79, 188, 10)],
            "4X \u{d8}0.62/0.58 THRU: Count=4X End=THRU Size=\u{d8}0.62/0.58",
        ),
        (
            &[("4X \\3300.62", 50, 200, 10), ("0.58 THRU", 79, 188, 10)],
            "4X \u{d8}0.62/0.58 THRU: Count=4X End=THRU Size=\u{d8}0.62/0.58",
        ),
        // The sign stands before both.
        (
            &[
                ("4X \\330", 50, 194, 10),
                ("0.62", 79, 200, 10),
                ("0.58", 79, 188, 10),
                ("THRU", 106, 194, 10),
            ],
            "4X \u{d8}0.62/0.58 THRU: Count=4X End=THRU Size=\u{d8}0.62/0.58",
        ),
        // What stands behind both belongs to them.
        (
            &[
                ("\\3300.62", 50, 200, 10),
                ("\\3300.58", 50, 188, 10),
                ("THRU", 84, 194, 10),
            ],
            "\u{d8}0.62/0.58 THRU: End=THRU Size=\u{d8}0.62/0.58",
        ),
    ] {
        assert_eq!(texts(&page(stack)), [expect], "{stack:?}");
    }
}

#[test]
fn numbers_below_that_are_no_limits() {
    // A length of another thing, and cells of columns.
    let far = page(&[("4X \\3300.62", 50, 200, 10), ("25.4", 79, 188, 10)]);
    assert_eq!(texts(&far), ["4X \u{d8}0.62: Count=4X Size=\u{d8}0.62"]);
    let cells = page(&[
        ("A", 20, 200, 10),
        ("\\3300.62", 50, 200, 10),
        ("B", 20, 188, 10),
        ("0.58", 57, 188, 10),
    ]);
    assert_eq!(texts(&cells), ["\u{d8}0.62: "]);
    assert!(is_told(&cells, "\u{201c}0.58\u{201d} stands beside"));
}

#[test]
fn what_stands_behind_a_gap_belongs_to_the_callout() {
    for (behind, expect) in [
        (
            "THRU",
            "4X \u{d8}0.62 THRU: Count=4X End=THRU Size=\u{d8}0.62",
        ),
        (
            "\\2610.02",
            "4X \u{d8}0.62 \u{b1}0.02: Count=4X Size=\u{d8}0.62 \u{b1}0.02",
        ),
        (
            "X 12 DEEP",
            "4X \u{d8}0.62 X 12 DEEP: Count=4X Depth=12 DEEP Size=\u{d8}0.62",
        ),
    ] {
        let near = page(&[("4X \\3300.62", 50, 200, 10), (behind, 110, 200, 10)]);
        assert_eq!(texts(&near), [expect]);
    }
    let count = page(&[("\\3300.62 THRU", 50, 200, 10), ("4X", 132, 200, 10)]);
    assert_eq!(
        texts(&count),
        ["\u{d8}0.62 THRU 4X: Count=4X End=THRU Size=\u{d8}0.62"]
    );
}

#[test]
fn what_stands_behind_a_gap_and_is_another_thing() {
    // A callout of its own, and one that stands below its count.
    let other = page(&[
        ("4X \\3300.62 THRU", 50, 200, 10),
        ("3X \\3300.50", 150, 200, 10),
    ]);
    assert_eq!(texts(&other).len(), 2);
    let count = page(&[
        ("\\3300.62 THRU", 50, 200, 10),
        ("4X", 132, 200, 10),
        ("\\3300.5 THRU", 130, 188, 10),
    ]);
    assert_eq!(
        texts(&count),
        [
            "\u{d8}0.62 THRU: End=THRU Size=\u{d8}0.62",
            "4X \u{d8}0.5 THRU: Count=4X End=THRU Size=\u{d8}0.5"
        ]
    );
    // An angle may be measured there, which is told.
    let angle = page(&[
        ("4X \\3300.62 THRU", 50, 200, 10),
        ("30\\260", 150, 200, 10),
    ]);
    assert_eq!(
        texts(&angle),
        ["4X \u{d8}0.62 THRU: Count=4X End=THRU Size=\u{d8}0.62"]
    );
    assert!(is_told(&angle, "\u{201c}30\u{b0}\u{201d} stands beside"));
    let length = page(&[("4X \\3300.62 THRU", 50, 200, 10), ("25.4", 150, 200, 10)]);
    assert_eq!(texts(&length), texts(&angle));
}

#[test]
fn callouts_without_signs_stand_beside_others() {
    let paged = page(&[
        ("0.80", 50, 200, 10),
        ("THRU", 50, 188, 10),
        ("4X", 150, 200, 10),
        ("\\3300.6 THRU", 150, 188, 10),
    ]);
    assert_eq!(
        texts(&paged),
        [
            "0.80 THRU: End=THRU Size=0.80",
            "4X \u{d8}0.6 THRU: Count=4X End=THRU Size=\u{d8}0.6"
        ]
    );
}

#[test]
fn an_end_without_a_size_is_told() {
    let paged = page(&[("THRU ALL", 50, 200, 10), ("4X \\3300.62", 50, 100, 10)]);
    assert!(is_told(
        &paged,
        "\u{201c}THRU ALL\u{201d} stands at no size"
    ));
}

#[test]
fn a_count_on_a_circle_counts_what_stands_below() {
    let paged = page(&[
        ("8 HOLES EQ SP ON \\33040 B.C.", 50, 200, 10),
        ("\\3300.6 \\2610.02 THRU", 50, 188, 10),
    ]);
    assert_eq!(
        texts(&paged),
        [
            "8 HOLES EQ SP ON \u{d8}40 B.C. \u{d8}0.6 \u{b1}0.02 THRU: Count=8 HOLES End=THRU Size=\u{d8}0.6 \u{b1}0.02"
        ]
    );
    let above = page(&[
        ("\\3300.6 THRU", 50, 200, 10),
        ("8 HOLES EQ SP ON \\33040 B.C.", 50, 188, 10),
    ]);
    assert_eq!(
        texts(&above),
        ["\u{d8}0.6 THRU 8 HOLES EQ SP ON \u{d8}40 B.C.: Count=8 HOLES End=THRU Size=\u{d8}0.6"]
    );
    let alone = page(&[
        ("4X \\3300.6 THRU", 50, 200, 10),
        ("EQ SP ON \\33040 B.C.", 50, 188, 10),
    ]);
    assert_eq!(
        texts(&alone),
        ["4X \u{d8}0.6 THRU EQ SP ON \u{d8}40 B.C.: Count=4X End=THRU Size=\u{d8}0.6"]
    );
    // What counts itself is not counted twice.
    let both = page(&[
        ("8 HOLES EQ SP ON \\33040 B.C.", 50, 200, 10),
        ("4X \\3300.6 THRU", 50, 188, 10),
    ]);
    assert_eq!(texts(&both).len(), 2);
}

#[test]
fn the_names_of_units() {
    let unit = |words: &str| page(&[(words, 20, 20, 10), ("4X \\3300.8 THRU", 50, 200, 10)]).unit;
    for words in ["ALL DIM. IN MM", "MILLIMETER", "MILLIMETRES", "DIM IN MM"] {
        assert_eq!(unit(words), Some(Unit::Mm), "{words}");
    }
    assert_eq!(unit("INCHES"), Some(Unit::Inch));
    for words in ["MM", "(INCHES)", "in"] {
        assert_eq!(unit(words), None, "{words}");
    }
    // Words that say it of all lengths go before a name alone.
    let both = page(&[
        ("INCHES", 20, 20, 10),
        ("DIMENSIONS IN MM", 120, 20, 10),
        ("4X \\3300.8 THRU", 50, 200, 10),
    ]);
    assert_eq!(both.unit, Some(Unit::Mm));
}
