//! Drawings that three writers made, each held against the numbers that it was made of.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a helper that fails is a failed test"
)]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use quillbore_intake::dxf;
use quillbore_intake::seen::{Guessed, Seen, SeenHole, Why};

/// What a truth says, as `tests/dxf-corpus/write.py` explains it.
#[derive(Default)]
struct Truth {
    unit_mm: Option<f64>,
    outline: Option<[f64; 4]>,
    holes: Vec<TrueHole>,
    refused: BTreeMap<String, usize>,
}

struct TrueHole {
    diameter: f64,
    entry: [f64; 3],
    axis: [f64; 3],
    layer: String,
    text: Option<String>,
    guesses: Vec<String>,
}

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/dxf-corpus")
}

fn truth(text: &str) -> Truth {
    let mut truth = Truth::default();
    for line in text.lines() {
        let parts: Vec<&str> = line.split('\t').collect();
        let number = |at: usize| parts[at].parse::<f64>().unwrap();
        match parts[0] {
            "unit" => truth.unit_mm = parts[1].parse().ok(),
            "outline" => truth.outline = Some([number(1), number(2), number(3), number(4)]),
            "refused" => {
                truth
                    .refused
                    .insert(parts[1].to_owned(), parts[2].parse().unwrap());
            }
            "hole" => truth.holes.push(TrueHole {
                diameter: number(1),
                entry: [number(2), number(3), number(4)],
                axis: [number(5), number(6), number(7)],
                layer: parts[8].to_owned(),
                text: (parts[9] != "-").then(|| parts[9].to_owned()),
                guesses: match parts[11] {
                    "-" => Vec::new(),
                    guesses => guesses.split(", ").map(ToOwned::to_owned).collect(),
                },
            }),
            other => panic!("what is {other}?"),
        }
    }
    truth
}

/// A guess as truths write it; lengths to nine digits.
fn guess(guessed: &Guessed) -> String {
    match guessed {
        Guessed::OfConcentric(diameter) => format!("of-concentric {diameter:.9}"),
        Guessed::TextBeside => "text-beside".to_owned(),
        Guessed::ClosedArcs => "closed-arcs".to_owned(),
        Guessed::NotQuiteRound(off) => format!("not-quite-round {off:.9}"),
        Guessed::DrawnTwice => "drawn-twice".to_owned(),
        Guessed::NotShown => "not-shown".to_owned(),
        Guessed::Dashed => "dashed".to_owned(),
        Guessed::BrokenEdge | Guessed::PassesAir(_) | Guessed::OpenBeside(_) => {
            "of a solid".to_owned()
        }
        Guessed::TextByCount(said) => format!("text-by-count-{said}"),
        Guessed::CountDiffers(said, found) => format!("count-differs-{said}-{found}"),
    }
}

fn why(why: &Why) -> String {
    match why {
        Why::Stretched => "stretched".to_owned(),
        Why::NotALength => "not a length".to_owned(),
        Why::HoldsItself => "holds itself".to_owned(),
        Why::TooDeep(_) => "too deep".to_owned(),
        Why::Missing(name) => format!("missing {name}"),
        Why::Open => "open".to_owned(),
        Why::NotRound => "not round".to_owned(),
        Why::CenterLine => "center line".to_owned(),
        Why::TextInside(text) => format!("text inside {text}"),
        Why::HoldsHoles => "holds holes".to_owned(),
        Why::HolesUponIt => "holes upon it".to_owned(),
        Why::OnPaper => "on paper".to_owned(),
        Why::NotRead(kind, times) => format!("not read {kind} {times}"),
        Why::Closed
        | Why::Groove
        | Why::AroundMaterial
        | Why::Bent
        | Why::Loose(_)
        | Why::NotClosed(_)
        | Why::Limits(_)
        | Why::Faceted => "of a solid".to_owned(),
    }
}

fn is_near(a: f64, b: f64, size: f64) -> bool {
    (a - b).abs() <= 1e-6 * size
}

/// What differs between a hole and the true one in its place.
fn differs(seen: &SeenHole, truth: &TrueHole, size: f64) -> Vec<String> {
    let mut differs = Vec::new();
    let mut differ = |is: bool, what: String| {
        if is {
            differs.push(what);
        }
    };
    differ(
        !is_near(seen.diameter, truth.diameter, truth.diameter),
        format!("diameter {}", seen.diameter),
    );
    for axis in 0..3 {
        differ(
            !is_near(seen.entry[axis], truth.entry[axis], size),
            format!("entry {:?}", seen.entry),
        );
        differ(
            !is_near(seen.axis[axis], truth.axis[axis], 1.0),
            format!("axis {:?}", seen.axis),
        );
    }
    differ(seen.group != truth.layer, format!("layer {}", seen.group));
    differ(seen.text != truth.text, format!("text {:?}", seen.text));
    let mut guesses: Vec<String> = seen.guessed.iter().map(guess).collect();
    guesses.sort();
    let mut true_guesses: Vec<String> = truth
        .guesses
        .iter()
        .map(|guess| match guess.split_once(' ') {
            Some((kind, length)) => format!("{kind} {:.9}", length.parse::<f64>().unwrap()),
            None => guess.clone(),
        })
        .collect();
    true_guesses.sort();
    differ(guesses != true_guesses, format!("guesses {guesses:?}"));
    differ(
        seen.from.is_empty() || seen.from.iter().any(String::is_empty),
        "nowhere".to_owned(),
    );
    differs
}

fn box_of(ring: &[[f64; 2]]) -> [f64; 4] {
    let along = |axis: usize| ring.iter().map(move |point| point[axis]);
    [
        along(0).fold(f64::INFINITY, f64::min),
        along(1).fold(f64::INFINITY, f64::min),
        along(0).fold(f64::NEG_INFINITY, f64::max),
        along(1).fold(f64::NEG_INFINITY, f64::max),
    ]
}

/// All that is wrong in what was seen of a drawing.
fn wrong(seen: &Seen, truth: &Truth) -> Vec<String> {
    let mut wrong = Vec::new();
    if seen.unit_mm != truth.unit_mm {
        wrong.push(format!("unit {:?}", seen.unit_mm));
    }
    let size = truth
        .holes
        .iter()
        .flat_map(|hole| hole.entry)
        .map(f64::abs)
        .fold(1.0, f64::max);
    let mut left: Vec<&SeenHole> = seen.holes.iter().collect();
    for hole in &truth.holes {
        // The one in its place that is nearest in size.
        let apart = |seen: &SeenHole| {
            (0..3)
                .map(|axis| (seen.entry[axis] - hole.entry[axis]).abs())
                .fold(0.0, f64::max)
        };
        let nearest = (0..left.len()).min_by(|a, b| apart(left[*a]).total_cmp(&apart(left[*b])));
        match nearest.filter(|at| apart(left[*at]) <= 1e-6 * size) {
            Some(at) => {
                let differs = differs(left.remove(at), hole, size);
                if !differs.is_empty() {
                    wrong.push(format!(
                        "{} at {:?}: {}",
                        hole.diameter,
                        hole.entry,
                        differs.join(", ")
                    ));
                }
            }
            None => wrong.push(format!("no hole of {} at {:?}", hole.diameter, hole.entry)),
        }
    }
    wrong.extend(left.iter().map(|hole| format!("a hole too many: {hole:?}")));
    let mut refused: BTreeMap<String, usize> = BTreeMap::new();
    for each in &seen.refused {
        *refused.entry(why(&each.why)).or_default() += 1;
    }
    if refused != truth.refused {
        wrong.push(format!("refused {refused:?}, not {:?}", truth.refused));
    }
    if let Some(expect) = truth.outline {
        let found = seen.outline.first().map(|ring| box_of(ring));
        let is_same =
            found.is_some_and(|found| (0..4).all(|at| is_near(found[at], expect[at], size)));
        if !is_same {
            wrong.push(format!("outline {found:?}, not {expect:?}"));
        }
    }
    wrong
}

#[test]
fn every_drawing_is_seen_as_it_was_made() {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(corpus())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "dxf"))
        .collect();
    paths.sort();
    assert!(paths.len() >= 30, "{} drawings", paths.len());
    let mut failed = Vec::new();
    let mut holes = 0;
    for path in paths {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let truth = truth(&std::fs::read_to_string(path.with_extension("truth")).unwrap());
        holes += truth.holes.len();
        match dxf::read(&std::fs::read(&path).unwrap(), &|_| false) {
            Ok(seen) => failed.extend(
                wrong(&seen, &truth)
                    .iter()
                    .map(|wrong| format!("{name}: {wrong}")),
            ),
            Err(error) => failed.push(format!("{name}: {error}")),
        }
    }
    assert!(failed.is_empty(), "of {holes} holes\n{}", failed.join("\n"));
}
