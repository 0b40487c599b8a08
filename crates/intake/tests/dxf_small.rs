//! Small drawings written out here: what they say of units, what is refused and where, and files that are none.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use quillbore_intake::dxf::{DxfError, Spot, read};
use quillbore_intake::seen::{Guessed, Seen, Why};

/// A drawing of these entities, each pair of words a group code and its value; `_` stands for a space.
fn drawing(header: &str, blocks: &str, entities: &str) -> Vec<u8> {
    let section = |name: &str, tags: &str| format!("0 SECTION 2 {name} {tags} 0 ENDSEC ");
    let all =
        section("HEADER", header) + &section("BLOCKS", blocks) + &section("ENTITIES", entities);
    let lines: Vec<String> = (all + "0 EOF")
        .split_whitespace()
        .map(|word| word.replace('_', " "))
        .collect();
    (lines.join("\n") + "\n").into_bytes()
}

fn seen(header: &str, blocks: &str, entities: &str) -> Seen {
    read(&drawing(header, blocks, entities), &|_| false).unwrap()
}

fn told(entities: &str) -> Vec<(String, Why)> {
    let refused = seen("", "", entities).refused;
    refused
        .into_iter()
        .map(|each| (each.from, each.why))
        .collect()
}

const CIRCLE: &str = "0 CIRCLE 5 2F 10 3 20 4 40 0.5";

/// Numbers of the units as the reference of the format lists them, from memory; their lengths by definition.
#[test]
fn units_are_read_and_never_guessed() {
    for (number, unit) in [
        (1, 25.4),
        (2, 304.8),
        (4, 1.0),
        (5, 10.0),
        (6, 1000.0),
        (9, 0.0254),
        (13, 0.001),
        (14, 100.0),
    ] {
        let seen = seen(&format!("9 $INSUNITS 70 {number}"), "", CIRCLE);
        assert_eq!(seen.unit_mm, Some(unit));
        assert!((seen.holes[0].diameter - unit).abs() < 1e-12 * unit);
        assert!((seen.holes[0].entry[1] - 4.0 * unit).abs() < 1e-12 * unit);
        assert_eq!(seen.extents.unwrap()[1][0], 3.5 * unit);
    }
    for (header, hint) in [
        ("", None),
        ("9 $MEASUREMENT 70 0", Some(25.4)),
        ("9 $MEASUREMENT 70 1", Some(1.0)),
    ] {
        for unit in ["", "9 $INSUNITS 70 0", "9 $INSUNITS 70 99"] {
            let seen = seen(&format!("{unit} {header}"), "", CIRCLE);
            assert_eq!((seen.unit_mm, seen.hint_mm), (None, hint));
            assert_eq!(seen.holes[0].diameter, 1.0);
        }
    }
}

#[test]
fn files_that_are_no_drawings_get_a_sentence() {
    let whole = drawing("", "", CIRCLE);
    let cut = |at: usize| whole[..at].to_vec();
    let mended = |from: &str, to: &str| {
        String::from_utf8(whole.clone())
            .unwrap()
            .replace(from, to)
            .into_bytes()
    };
    let at_circle = whole.windows(6).position(|part| part == b"CIRCLE").unwrap();
    let cases: [(Vec<u8>, DxfError, &str); 11] = [
        (Vec::new(), DxfError::Empty, "Nothing is drawn"),
        (b" \n\n".to_vec(), DxfError::Empty, "Nothing is drawn"),
        (drawing("", "", ""), DxfError::Empty, "Nothing is drawn"),
        // A block that nobody places is not drawn.
        (
            drawing("", "0 BLOCK 2 B 0 CIRCLE 10 1 20 1 40 1 0 ENDBLK", ""),
            DxfError::Empty,
            "Nothing is drawn",
        ),
        (
            b"AC1032\0\0\0\0\0\0".to_vec(),
            DxfError::Dwg,
            "This is a DWG drawing",
        ),
        (
            b"%PDF-1.7\n%abc\n".to_vec(),
            DxfError::NotDxf,
            "This is not a DXF drawing",
        ),
        (
            b"hole,dia\nA,0.8\n".to_vec(),
            DxfError::NotDxf,
            "This is not a DXF drawing",
        ),
        (
            cut(at_circle + 7),
            DxfError::Cut(Spot::Line(19)),
            "The drawing breaks off before its end, at line 19",
        ),
        (
            cut(whole.len() - 12),
            DxfError::Cut(Spot::Line(29)),
            "The drawing breaks off before its end, at line 29",
        ),
        (
            mended("CIRCLE\n5\n2F", "CIRCLE\nfive\n2F"),
            DxfError::NoCode {
                spot: Spot::Line(19),
                found: "five".to_owned(),
            },
            "The drawing has \u{201c}five\u{201d} in the place of a group code, at line 19",
        ),
        (
            drawing(
                "",
                "0 BLOCK 2 B 0 CIRCLE 10 1 20 1 40 1 0 ENDBLK",
                "0 INSERT 2 B 10 0 20 0 70 30000 71 30000 44 5 45 5",
            ),
            // One for each 20 bytes of the file on top.
            DxfError::TooMuchPlaced(50_000 + 187 / 20),
            "The drawing places its blocks so often that they come to more than 50009 edges",
        ),
    ];
    for (bytes, error, says) in cases {
        let found = read(&bytes, &|_| false).unwrap_err();
        assert_eq!(found, error);
        assert!(found.to_string().starts_with(says), "{found}");
        assert!(!found.hint().is_empty());
    }
    assert_eq!(read(&whole, &|_| true), Err(DxfError::Cancelled));
}

/// The binary form says where by its bytes.
#[test]
fn a_cut_binary_drawing_says_at_which_byte() {
    let mut bytes = b"AutoCAD Binary DXF\r\n\x1a\0\0SECTION\0\x02ENTITIES\0\0CIRCLE\0\x0a".to_vec();
    bytes.extend([0; 5]);
    let length = bytes.len();
    assert_eq!(
        read(&bytes, &|_| false),
        Err(DxfError::Cut(Spot::Byte(length)))
    );
}

#[test]
fn what_is_not_taken_is_told_with_its_place() {
    let cases: [(&str, &str, Why); 8] = [
        ("0 CIRCLE 5 2F 10 3 20 4 40 0", "2F", Why::NotALength),
        ("0 CIRCLE 10 3 20 4 40 -1", ":17", Why::NotALength),
        ("0 CIRCLE 5 2F 10 3 20 4", "2F", Why::NotALength),
        ("0 CIRCLE 5 2F 10 x 20 4 40 1", "2F", Why::NotALength),
        ("0 CIRCLE 5 2F 10 1e300 20 4 40 1", "2F", Why::NotALength),
        (
            "0 CIRCLE 5 2F 10 3 20 4 40 1 210 0 220 0 230 0",
            "2F",
            Why::NotALength,
        ),
        (
            "0 INSERT 5 2F 2 GONE 10 0 20 0",
            "2F",
            Why::Missing("GONE".to_owned()),
        ),
        (
            "0 3DSOLID 5 2F 0 3DSOLID 5 30",
            "2F",
            Why::NotRead("3DSOLID".to_owned(), 2),
        ),
    ];
    for (entities, from, why) in cases {
        assert_eq!(told(entities), [(from.to_owned(), why)], "{entities}");
    }
}

#[test]
fn a_hole_in_a_block_names_its_inserts() {
    let blocks = "0 BLOCK 2 OUTER 0 INSERT 5 B1 2 inner 10 0 20 0 0 ENDBLK \
                  0 BLOCK 2 INNER 0 CIRCLE 5 C1 10 1 20 1 40 0.5 0 CIRCLE 10 1 20 1 40 0.5 0 ENDBLK";
    let seen = seen("", blocks, "0 INSERT 5 A1 2 OUTER 10 0 20 0");
    assert_eq!(seen.holes.len(), 1);
    assert_eq!(seen.holes[0].from, ["A1/B1/C1", "A1/B1/:41"]);
    assert_eq!(seen.holes[0].guessed, [Guessed::DrawnTwice]);
}

/// A circle as a rational spline of four quarters: knots 0 0 0 1 1 2 2 3 3 4 4 4, weights of 1 and the root of
/// one half, the square around it as control points.
#[test]
fn a_spline_that_is_a_circle_is_a_hole() {
    let knots: String = [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4]
        .iter()
        .map(|knot| format!("40 {knot} "))
        .collect();
    let corners = [
        (1, 0),
        (1, 1),
        (0, 1),
        (-1, 1),
        (-1, 0),
        (-1, -1),
        (0, -1),
        (1, -1),
        (1, 0),
    ];
    let points: String = corners
        .iter()
        .map(|(x, y)| format!("10 {} 20 {} ", 7 + x, 5 + y))
        .collect();
    let weights: String = (0..9)
        .map(|at| {
            if at % 2 == 0 {
                "41 1 "
            } else {
                "41 0.7071067811865476 "
            }
        })
        .collect();
    let seen = seen(
        "",
        "",
        &format!("0 SPLINE 5 2F 70 1 71 2 {knots} {weights} {points}"),
    );
    let [hole] = seen.holes.as_slice() else {
        panic!("{:?}", seen.holes)
    };
    assert!((hole.diameter - 2.0).abs() < 1e-9, "{hole:?}");
    assert!((hole.entry[0] - 7.0).abs() < 1e-9 && (hole.entry[1] - 5.0).abs() < 1e-9);
    assert!(matches!(hole.guessed.as_slice(), [Guessed::NotQuiteRound(off)] if *off < 1e-9));
}

#[test]
fn a_callout_that_is_nobodys_is_kept() {
    let far = "0 TEXT 10 500 20 500 40 1 1 %%c0.8_THRU 0 TEXT 10 510 20 500 40 1 1 REV_B";
    let seen = seen("", "", &format!("{CIRCLE} {far}"));
    assert_eq!(seen.holes[0].text, None);
    assert_eq!(seen.loose, ["\u{2300}0.8 THRU"]);
}

/// A hole stands in the pocket of a plate; a second view stands beside it.
#[test]
fn the_outline_is_the_ring_around_the_holes_with_the_rings_in_it() {
    let square = |low: f64, high: f64, shift: f64| {
        let corners = [(low, low), (high, low), (high, high), (low, high)];
        let side = |at: usize| {
            let (from, to) = (corners[at], corners[(at + 1) % 4]);
            format!(
                "0 LINE 10 {} 20 {} 11 {} 21 {} ",
                from.0 + shift,
                from.1,
                to.0 + shift,
                to.1
            )
        };
        (0..4).map(side).collect::<String>()
    };
    // A loose end at a corner, and a rib between two sides, are no part of the ring.
    let ribs = "0 LINE 10 0 20 0 11 -5 21 -5 0 LINE 10 0 20 0 11 20 21 20 ";
    let entities =
        square(0.0, 20.0, 0.0) + ribs + &square(2.0, 6.0, 0.0) + &square(0.0, 40.0, 100.0) + CIRCLE;
    let seen = seen("", "", &entities);
    let corners = |ring: &[[f64; 2]]| {
        let mut corners: Vec<String> = ring.iter().map(|[x, y]| format!("{x},{y}")).collect();
        corners.sort();
        corners
    };
    assert_eq!(seen.outline.len(), 2);
    assert_eq!(corners(&seen.outline[0]), ["0,0", "0,20", "20,0", "20,20"]);
    assert_eq!(corners(&seen.outline[1]), ["2,2", "2,6", "6,2", "6,6"]);
    assert_eq!(seen.extents, Some([[0.0, 0.0, 0.0], [20.0, 20.0, 0.0]]));
}
