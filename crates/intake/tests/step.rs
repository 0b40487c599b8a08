//! Solids by a CAD kernel, each with what is true of its holes: `tests/step-corpus`, written by its script
//! from the construction and the kernel's own measurements, never by this reader.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::fs;
use std::path::{Path, PathBuf};

use quillbore_intake::seen::{Guessed, Seen, SeenEnd, SeenHole, SeenSurface, SurfaceKind, Why};
use quillbore_intake::step;
use serde_json::Value;

/// Depths are as true as this [mm].
const DEPTH: f64 = 0.01;
/// Diameters, places and axes are as true as this share.
const SHARE: f64 = 1e-6;

#[test]
fn every_hole_of_the_corpus_is_found_and_nothing_else() {
    let mut wrong = Vec::new();
    let (mut files, mut holes) = (0, 0);
    for path in corpus() {
        let truth = truth(&path);
        let name = path
            .file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned();
        files += 1;
        holes += list(&truth["holes"]).len();
        match step::read(&fs::read(&path).expect("a file"), &|_| false) {
            Ok(seen) => wrong.extend(
                against(&seen, &truth)
                    .iter()
                    .map(|what| format!("{name}: {what}")),
            ),
            Err(error) => wrong.push(format!("{name}: {error}")),
        }
    }
    assert!(files >= 30 && holes >= 150, "{files} files, {holes} holes");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Other systems write fewer digits, and each point by itself: of all solids each point is moved by up to
/// five millionths of the file's unit, each direction by a millionth.
#[test]
fn a_few_digits_less_hide_no_hole_and_add_none() {
    let mut wrong = Vec::new();
    for (number, path) in (1..).zip(corpus()) {
        let truth = truth(&path);
        let text = fs::read_to_string(&path).expect("a file");
        let points = jittered(&text, "CARTESIAN_POINT", 5e-6, number);
        let text = jittered(&points, "DIRECTION", 1e-6, number + 1_000);
        let name = path.file_stem().expect("a name").to_string_lossy();
        let seen = match step::read(text.as_bytes(), &|_| false) {
            Ok(seen) => seen,
            Err(error) => {
                if !list(&truth["holes"]).is_empty() {
                    wrong.push(format!("{name}: {error}"));
                }
                continue;
            }
        };
        let mut left: Vec<&SeenHole> = seen.holes.iter().collect();
        for hole in list(&truth["holes"]) {
            match left.iter().position(|found| is_nearly(found, hole)) {
                Some(at) => drop(left.remove(at)),
                None => wrong.push(format!("{name}: missed {hole}")),
            }
        }
        wrong.extend(left.iter().map(|hole| format!("{name}: too much {hole:?}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Whether a hole is the true one, by what a shop could measure of it.
fn is_nearly(found: &SeenHole, truth: &Value) -> bool {
    let (entry, axis) = (point(&truth["entry"]), point(&truth["axis"]));
    let depth = number(&truth["on_axis"]);
    let far = [0, 1, 2].map(|at| entry[at] + depth * axis[at]);
    let same = |entry: [f64; 3], axis: [f64; 3]| {
        distance(found.entry, entry) < DEPTH && distance(found.axis, axis) < 1e-4
    };
    let through = truth["end"] == "through";
    let placed = same(entry, axis) || (through && same(far, axis.map(|part| -part)));
    let deep = found.depth.expect("a depth").on_axis;
    let end = match found.end {
        Some(SeenEnd::Through) => "through",
        Some(SeenEnd::Into) => "into",
        Some(SeenEnd::Blind) => "blind",
        None => "none",
    };
    let wide = (found.diameter - number(&truth["dia"])).abs() < 1e-3;
    wide && placed && (deep - depth).abs() < DEPTH && truth["end"] == end
}

/// A file whose points, or directions, are moved a little, each of their numbers by its own share.
fn jittered(text: &str, of: &str, by: f64, seed: u64) -> String {
    let mut state = seed;
    let mut share = move || {
        // Numerical Recipes' quick generator (Press et al. 1992): all that is asked of it is to scatter.
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223) & 0xffff_ffff;
        2.0 * state as f64 / 4_294_967_295.0 - 1.0
    };
    let mut parts = text.split(of);
    let mut moved = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        moved.push_str(of);
        let numbers = part.find(",(").zip(part.find("))"));
        let Some((begin, end)) = numbers.filter(|(begin, end)| begin < end) else {
            moved.push_str(part);
            continue;
        };
        let all = part[begin + 2..end].split(',');
        let all = all.map(|number| {
            number
                .trim()
                .parse::<f64>()
                .map(|number| number + by * share())
        });
        let Ok(all) = all.collect::<Result<Vec<f64>, _>>() else {
            moved.push_str(part);
            continue;
        };
        let all: Vec<String> = all.iter().map(|number| format!("{number:.9}")).collect();
        moved.push_str(&part[..begin + 2]);
        moved.push_str(&all.join(","));
        moved.push_str(&part[end..]);
    }
    moved
}

fn corpus() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/step-corpus");
    let entries = fs::read_dir(folder).expect("a folder");
    let paths = entries.map(|entry| entry.expect("a file").path());
    let mut steps: Vec<PathBuf> = paths
        .filter(|path| path.extension().is_some_and(|end| end == "step"))
        .collect();
    steps.sort();
    steps
}

fn truth(path: &Path) -> Value {
    let text = fs::read_to_string(path.with_extension("json")).expect("a truth");
    serde_json::from_str(&text).expect("JSON")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn point(value: &Value) -> [f64; 3] {
    [0, 1, 2].map(|at| number(&value[at]))
}

/// What is wrong of what was seen.
fn against(seen: &Seen, truth: &Value) -> Vec<String> {
    let mut wrong = Vec::new();
    let unit = number(&truth["unit_mm"]);
    if seen.unit_mm.is_none_or(|seen| (seen - unit).abs() > 1e-9) {
        wrong.push(format!("unit {:?}", seen.unit_mm));
    }
    let mut refused: Vec<&str> = seen
        .refused
        .iter()
        .map(|refused| code(&refused.why))
        .collect();
    refused.sort_unstable();
    let expected: Vec<&str> = list(&truth["refused"])
        .iter()
        .map(|why| why.as_str().expect("a word"))
        .collect();
    if refused != expected {
        wrong.push(format!("refused {:?}", seen.refused));
    }
    if let Some(extents) = truth["extents"].as_array() {
        let found = seen.extents.expect("extents");
        for (found, true_ones) in found.iter().zip(extents) {
            if distance(*found, point(true_ones)) > 1e-3 {
                wrong.push(format!("extents {found:?} for {true_ones}"));
            }
        }
    }
    let mut left: Vec<&SeenHole> = seen.holes.iter().collect();
    for hole in list(&truth["holes"]) {
        let of_this = |found: &&SeenHole| is_at(found, hole);
        match left.iter().position(of_this) {
            Some(at) => {
                let found = left.remove(at);
                wrong.extend(hole_against(found, hole, truth));
            }
            None => wrong.push(format!("missed {hole}")),
        }
    }
    wrong.extend(left.iter().map(|hole| format!("too much {hole:?}")));
    wrong
}

/// Whether a hole is the true one, by diameter, place, axis and group.
fn is_at(found: &SeenHole, truth: &Value) -> bool {
    let (entry, axis) = (point(&truth["entry"]), point(&truth["axis"]));
    let depth = number(&truth["on_axis"]);
    let size = 1.0
        + entry
            .iter()
            .fold(0.0, |most: f64, part| most.max(part.abs()));
    let same = distance(found.entry, entry) < SHARE * size && distance(found.axis, axis) < SHARE;
    let other_entry = [0, 1, 2].map(|at| entry[at] + depth * axis[at]);
    let other = truth["either_way"].as_bool() == Some(true)
        && distance(found.entry, other_entry) < SHARE * size
        && distance(found.axis, axis.map(|part| -part)) < SHARE;
    let dia = number(&truth["dia"]);
    let group = truth["group"]
        .as_str()
        .is_none_or(|group| group == found.group);
    (found.diameter - dia).abs() < SHARE * dia && (same || other) && group
}

fn hole_against(found: &SeenHole, truth: &Value, whole: &Value) -> Vec<String> {
    let mut wrong = Vec::new();
    let depth = found.depth.expect("a depth");
    let pairs = [
        ("least", depth.least),
        ("on_axis", depth.on_axis),
        ("most", depth.most),
    ];
    for (name, value) in pairs {
        if (value - number(&truth[name])).abs() > DEPTH {
            wrong.push(format!("{name} {value} for {truth}"));
        }
    }
    let end = match found.end {
        Some(SeenEnd::Through) => "through",
        Some(SeenEnd::Into) => "into",
        Some(SeenEnd::Blind) => "blind",
        None => "none",
    };
    if truth["end"] != end {
        wrong.push(format!("{end} for {truth}"));
    }
    let turned = distance(found.axis, point(&truth["axis"])) > 1.0;
    let ends = [&truth["begins"], &truth["leaves"]];
    let ends = if turned { [ends[1], ends[0]] } else { ends };
    let patches = whole["guessed"].as_bool() == Some(true);
    for (seen, truth) in [found.begins, found.leaves].into_iter().zip(ends) {
        if !is_surface(seen, truth) {
            wrong.push(format!("{seen:?} for {truth}"));
        }
    }
    let behind = truth["behind"].as_f64();
    if !near(found.behind, behind) {
        wrong.push(format!("behind {:?} for {truth}", found.behind));
    }
    let recess = truth["recess"]
        .as_array()
        .map(|pair| [number(&pair[0]), number(&pair[1])]);
    let same = match (found.recess, recess) {
        (Some(found), Some(truth)) => {
            distance([found[0], found[1], 0.0], [truth[0], truth[1], 0.0]) < DEPTH
        }
        (found, truth) => found.is_none() && truth.is_none(),
    };
    if !same {
        wrong.push(format!("recess {:?} for {truth}", found.recess));
    }
    let guessed = found
        .guessed
        .iter()
        .any(|guess| matches!(guess, Guessed::NotQuiteRound(_)));
    let air = found.guessed.iter().find_map(|guess| match guess {
        Guessed::PassesAir(long) => Some(*long),
        _ => None,
    });
    if truth["air"].is_number() && !near(air, truth["air"].as_f64()) {
        wrong.push(format!("air {air:?} for {truth}"));
    }
    let beside = found.guessed.iter().find_map(|guess| match guess {
        Guessed::OpenBeside(long) => Some(*long),
        _ => None,
    });
    // Seen by so many lines of the wall: what is longest may stand between two of them.
    if beside.map(|long| (long * 50.0).round())
        != truth["beside"].as_f64().map(|long| (long * 50.0).round())
    {
        wrong.push(format!("beside {beside:?} for {truth}"));
    }
    let broken = found.guessed.contains(&Guessed::BrokenEdge);
    if guessed != patches || broken != (truth["broken"].as_bool() == Some(true)) {
        wrong.push(format!("guessed {:?} for {truth}", found.guessed));
    }
    wrong
}

fn near(found: Option<f64>, truth: Option<f64>) -> bool {
    match (found, truth) {
        (Some(found), Some(truth)) => (found - truth).abs() <= DEPTH,
        (found, truth) => found.is_none() && truth.is_none(),
    }
}

fn is_surface(seen: Option<SeenSurface>, truth: &Value) -> bool {
    let Some(seen) = seen else {
        return truth.is_null();
    };
    let near = |tilt: f64| (tilt - number(&truth["tilt"])).abs() <= 0.01;
    if truth.is_null() || !seen.tilt_deg.is_some_and(near) {
        return false;
    }
    let (kind, lengths) = match seen.kind {
        SurfaceKind::Flat => ("flat", None),
        SurfaceKind::Cylinder { radius, offset } => ("cylinder", Some((radius, offset))),
        SurfaceKind::Ball { radius, offset } => ("ball", Some((radius, offset))),
        SurfaceKind::Bore { radius, offset } => ("bore", Some((radius, offset))),
        SurfaceKind::Other => ("other", None),
    };
    let same = lengths.is_none_or(|(radius, offset)| {
        let apart = [
            radius - number(&truth["radius"]),
            offset - number(&truth["offset"]),
            0.0,
        ];
        distance(apart, [0.0; 3]) < 1e-6 * radius
    });
    truth["kind"] == kind && same
}

fn code(why: &Why) -> &'static str {
    match why {
        Why::Open => "open",
        Why::NotRound => "not round",
        Why::Closed => "closed",
        Why::Groove => "groove",
        Why::AroundMaterial => "around material",
        Why::Bent => "bent",
        Why::Loose(_) => "loose",
        Why::NotClosed(_) => "not closed",
        Why::Limits(_) => "limits",
        Why::Faceted => "faceted",
        Why::Missing(_) => "missing",
        Why::HoldsItself => "holds itself",
        Why::Stretched => "stretched",
        Why::TooDeep(_) => "too deep",
        Why::NotALength => "not a length",
        Why::NotRead(..) => "not read",
        Why::CenterLine
        | Why::TextInside(_)
        | Why::HoldsHoles
        | Why::HolesUponIt
        | Why::OnPaper => "of a drawing",
    }
}

fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    let square = |at: usize| (a[at] - b[at]) * (a[at] - b[at]);
    (square(0) + square(1) + square(2)).sqrt()
}
