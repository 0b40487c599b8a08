//! Drawings in PDF that five writers made, each held against where its texts were put and what they say.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a helper that fails is a failed test"
)]

use std::path::{Path, PathBuf};

use quillbore_intake::pdf::{self, Doubt, Paged, PdfError, SeenCallout, WhyNone};
use quillbore_job::Unit;

/// What a truth says, as `tests/pdf-corpus/write.py` explains it.
#[derive(Default)]
struct Truth {
    unit: Option<Unit>,
    refused: Option<String>,
    /// Width, height, and why there is no more text.
    pages: Vec<([f64; 2], String)>,
    callouts: Vec<TrueCallout>,
}

struct TrueCallout {
    page: usize,
    place: [f64; 4],
    count: Option<u32>,
    cells: String,
    doubts: String,
    text: String,
}

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/pdf-corpus")
}

fn truth(text: &str) -> Truth {
    let mut truth = Truth::default();
    for line in text.lines() {
        let parts: Vec<&str> = line.split('\t').collect();
        let number = |at: usize| parts[at].parse::<f64>().unwrap();
        match parts[0] {
            "unit" => {
                truth.unit = match parts[1] {
                    "mm" => Some(Unit::Mm),
                    "inch" => Some(Unit::Inch),
                    "none" => None,
                    other => panic!("what unit is {other}?"),
                };
            }
            "refused" => truth.refused = Some(parts[1].to_owned()),
            "page" => truth
                .pages
                .push(([number(2), number(3)], parts[4].to_owned())),
            "callout" => truth.callouts.push(TrueCallout {
                page: parts[1].parse().unwrap(),
                place: [2, 3, 4, 5].map(number),
                count: parts[6].parse().ok(),
                cells: parts[7].to_owned(),
                doubts: parts[8].to_owned(),
                text: parts[9].to_owned(),
            }),
            other => panic!("what is {other}?"),
        }
    }
    truth
}

fn dash(text: String) -> String {
    if text.is_empty() {
        "-".to_owned()
    } else {
        text
    }
}

/// A callout's cells as truths write them.
fn cells(callout: &SeenCallout) -> String {
    if callout.is_of_table() {
        return "table".to_owned();
    }
    let parts = callout.parts.iter();
    let parts: Vec<String> = parts
        .map(|part| {
            format!(
                "{}={}",
                format!("{:?}", part.column).to_lowercase(),
                part.text
            )
        })
        .collect();
    dash(parts.join("; "))
}

fn doubts(callout: &SeenCallout) -> String {
    let said = callout.doubts.iter().map(|doubt| match doubt {
        Doubt::AsText => "as-text",
        Doubt::Unseen => "unseen",
        Doubt::SignByFont => "sign-by-font",
        Doubt::NoLetter => "no-letter",
    });
    dash(said.collect::<Vec<_>>().join(", "))
}

fn why(why: &[WhyNone]) -> String {
    let said = why.iter().map(|why| match why {
        WhyNone::Blank => "blank".to_owned(),
        WhyNone::Scan => "scan".to_owned(),
        WhyNone::Strokes => "strokes".to_owned(),
        WhyNone::NoLetters(letters) => format!("no letters {letters}"),
        WhyNone::Hidden(letters) => format!("hidden {letters}"),
        WhyNone::NoSize => "no size".to_owned(),
        WhyNone::TooMuch => "too much".to_owned(),
    });
    dash(said.collect::<Vec<_>>().join(", "))
}

/// Places are within this of the truth [pt].
const NEAR: f64 = 1.0;

/// All that is wrong in what was seen of a drawing.
fn wrong(paged: &Paged, truth: &Truth) -> Vec<String> {
    let mut wrong = Vec::new();
    if paged.unit != truth.unit {
        wrong.push(format!("unit {:?}", paged.unit));
    }
    if paged.pages.len() != truth.pages.len() {
        wrong.push(format!("{} pages", paged.pages.len()));
    }
    for (page, ([width, height], none)) in paged.pages.iter().zip(&truth.pages) {
        if (page.width - width).abs() > 0.01 || (page.height - height).abs() > 0.01 {
            wrong.push(format!("a page of {} x {}", page.width, page.height));
        }
        if why(&page.why_none) != *none {
            wrong.push(format!("why none: {}", why(&page.why_none)));
        }
    }
    let all = paged.pages.iter().flat_map(|page| &page.callouts);
    let mut left: Vec<&SeenCallout> = all.collect();
    for callout in &truth.callouts {
        let is_it = |seen: &&SeenCallout| {
            let near = seen.place.iter().zip(callout.place);
            seen.page == callout.page
                && seen.text == callout.text
                && near
                    .into_iter()
                    .all(|(seen, truth)| (seen - truth).abs() <= NEAR)
        };
        let Some(at) = left.iter().position(is_it) else {
            wrong.push(format!("no {} at {:?}", callout.text, callout.place));
            continue;
        };
        let seen = left.remove(at);
        let is = (seen.count, cells(seen), doubts(seen));
        let shall_be = (callout.count, callout.cells.clone(), callout.doubts.clone());
        if is != shall_be {
            wrong.push(format!("{}: {is:?}, not {shall_be:?}", callout.text));
        }
    }
    let more = left.iter();
    wrong.extend(
        more.map(|callout| format!("one too many: {} at {:?}", callout.text, callout.place)),
    );
    wrong
}

#[test]
fn every_drawing_is_seen_as_it_was_made() {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(corpus())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "pdf"))
        .collect();
    paths.sort();
    assert!(paths.len() >= 20, "{} drawings", paths.len());
    let mut failed = Vec::new();
    let mut callouts = 0;
    for path in paths {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let truth = truth(&std::fs::read_to_string(path.with_extension("truth")).unwrap());
        callouts += truth.callouts.len();
        let read = pdf::read(&std::fs::read(&path).unwrap(), &|_| false);
        match (&truth.refused, read) {
            (None, Ok(paged)) => {
                let wrong = wrong(&paged, &truth);
                failed.extend(wrong.iter().map(|wrong| format!("{name}: {wrong}")));
            }
            (Some(why), Err(error)) => {
                assert_eq!(
                    (why.as_str(), error),
                    ("locked", PdfError::Locked),
                    "{name}"
                );
            }
            (_, read) => failed.push(format!("{name}: {:?}", read.map(|paged| paged.pages.len()))),
        }
    }
    assert!(
        failed.is_empty(),
        "of {callouts} callouts\n{}",
        failed.join("\n")
    );
}

#[test]
fn every_page_is_shown() {
    for (name, page, size) in [
        ("lab-metric", 0, [1190.55, 841.89]),
        ("lab-turned-90", 0, [595.28, 841.89]),
        ("scan-alone", 1, [595.2, 841.92]),
        ("kit-metric", 0, [1190.55, 841.89]),
        ("plot-strokes", 0, [720.0, 432.0]),
        ("lab-protected", 0, [595.28, 841.89]),
    ] {
        let bytes = std::fs::read(corpus().join(name).with_extension("pdf")).unwrap();
        let shown = pdf::picture(&bytes, page, 200_000, &|| false).unwrap();
        let (width, height) = (f64::from(shown.width), f64::from(shown.height));
        assert!(
            width * height <= 200_000.0 && width * height > 190_000.0,
            "{name}"
        );
        assert!((width / height - size[0] / size[1]).abs() < 0.01, "{name}");
        assert_eq!(shown.rgba.len(), (shown.width * shown.height * 4) as usize);
        let dark = shown
            .rgba
            .chunks_exact(4)
            .filter(|pixel| pixel[0] < 128)
            .count();
        assert!(dark > 50 && dark < 100_000, "{name}: {dark} dark");
        assert!(
            shown.rgba.chunks_exact(4).all(|pixel| pixel[3] == 255),
            "{name}"
        );
    }
}
