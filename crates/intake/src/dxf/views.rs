//! What tells that a drawing shows its part more than once.

use super::notes::Note;
use super::outline::Outlined;
use crate::pdf::unit_said;
use crate::seen::{Doubt, UnitNote};

/// What of the whole drawing is to be looked at; the diameters are those of the holes, in their order.
pub(super) fn doubts(outlined: &Outlined, diameters: &[f64], notes: &[Note<'_>]) -> Vec<Doubt> {
    let frames = outlined.frames.iter().map(|sides| Doubt::Frame(*sides));
    let like_paper = outlined.like_paper.then_some(Doubt::LikePaper);
    let views = views(outlined, diameters).map(Doubt::Views);
    let others = notes.iter().filter(|note| is_other_view(note.says));
    let others = others.map(|note| Doubt::OtherView(note.says.to_owned()));
    frames
        .take(1)
        .chain(like_paper)
        .chain(views)
        .chain(others.take(MOST))
        .collect()
}

/// So many texts are told.
const MOST: usize = 3;

/// How many holes stand in two rings of one size that hold the same.
fn views(outlined: &Outlined, diameters: &[f64]) -> Option<usize> {
    let mut held: Vec<Vec<f64>> = vec![Vec::new(); outlined.sides.len()];
    for (ring, diameter) in outlined.of_hole.iter().zip(diameters) {
        if let Some(held) = ring.and_then(|ring| held.get_mut(ring)) {
            held.push(*diameter);
        }
    }
    for held in &mut held {
        held.sort_by(f64::total_cmp);
    }
    let is_same = |a: f64, b: f64| (a - b).abs() <= SAME * a.max(b);
    let rings: Vec<(&[f64; 2], &Vec<f64>)> = outlined.sides.iter().zip(&held).collect();
    for (at, (sides, held)) in rings.iter().enumerate() {
        let again = rings.iter().skip(at + 1).any(|(others, other)| {
            let sides = (0..2).all(|axis| is_same(sides[axis], others[axis]));
            sides
                && held.len() == other.len()
                && held.iter().zip(*other).all(|(a, b)| is_same(*a, *b))
        });
        if again && !held.is_empty() {
            return Some(held.len());
        }
    }
    None
}

/// Lengths that differ by less are one, in parts of them.
const SAME: f64 = 1e-4;

/// `DETAIL Z SCALE 5:1`, `BOTTOM VIEW`.
fn is_other_view(says: &str) -> bool {
    const SIDES: [&str; 8] = [
        "BOTTOM VIEW",
        "REAR VIEW",
        "BACK VIEW",
        "VIEW FROM BELOW",
        "UNTERSEITE",
        "RÜCKSEITE",
        "VUE DE DESSOUS",
        "DETAIL",
    ];
    if says.len() > LONGEST {
        return false;
    }
    let says = says.to_uppercase();
    SIDES.iter().any(|side| says.contains(side)) || says.contains("EINZELHEIT")
}

/// No name of a view is longer, in bytes.
const LONGEST: usize = 60;

/// The text that says of all lengths which unit they are in, where the settings say none or one of the other kind.
pub(super) fn unit_note(notes: &[Note<'_>], settings_mm: Option<f64>) -> Option<UnitNote> {
    let said = notes.iter().filter(|note| note.says.len() <= LONGEST_NOTE);
    let mut said = said.filter_map(|note| Some((note.says, unit_said(note.says)?)));
    let (says, unit) = said.next()?;
    // Two texts that differ say nothing.
    if said.any(|(_, other)| other != unit) {
        return None;
    }
    let is_inch = unit == quillbore_job::Unit::Inch;
    let agrees = settings_mm.is_some_and(|mm| is_of_inches(mm) == is_inch);
    (!agrees).then(|| UnitNote {
        says: says.to_owned(),
        mm: if is_inch { 25.4 } else { 1.0 },
        settings_mm,
    })
}

/// A note of units is no longer, in bytes.
const LONGEST_NOTE: usize = 2_000;

/// Whether a unit is a part or a multiple of an inch, by its length [mm].
fn is_of_inches(mm: f64) -> bool {
    const INCHES: [f64; 6] = [25.4e-6, 0.0254, 25.4, 304.8, 914.4, 1_609_344.0];
    INCHES.iter().any(|inches| (mm / inches - 1.0).abs() < 1e-9)
}
