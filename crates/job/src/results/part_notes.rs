//! What is to be said of holes whose depth is at odds with the part's wall or size.

use std::sync::Arc;

use quillbore_calc::Length;
use quillbore_calc::finding::Level;
use quillbore_calc::input::{HoleEnd, RowInput, Surface};
use quillbore_calc::quantity::ROUNDING_MM;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::to_input::Asked;
use crate::typed::field::Field;
use crate::typed::row::{Column, Row};
use crate::words::part as words;
use crate::words::speaker::Speaker;

/// The share of the wall that the depth of a through hole has to stay below to be told: walls and
/// angles are typed rounded, and at 85 degrees half a degree is a tenth of the way through a wall.
const CLEARLY_SHORTER: f64 = 0.9;

/// Beyond this angle from the normal [degrees] the wall doesn't say how far its far side is.
const STEEPEST_DEG: f64 = 85.0;

/// From so many rows on that have the same against the part it is told once, beside the part's size.
const MANY: usize = 1_000;

/// Holes whose depth is at odds with the part, one note a row at the most, and where each stands in
/// the table; of very many rows one note for all that have the same.
///
/// A note tells the part's dimensions alone, so that rows of all depths and angles with the same fault
/// say the same.
pub(super) fn all(speaker: &Speaker<'_>, asked: &Asked) -> Vec<(SideNote, Option<usize>)> {
    let Speaker { job, .. } = *speaker;
    let part = Part::of(speaker, asked);
    let rows = || job.rows.iter().zip(&asked.input.rows).enumerate();
    let mut counts: Vec<(NoteKind, usize, usize)> = Vec::new();
    for (at, (row, input)) in rows() {
        let Some((_, kind, _)) = part.at_odds(row, input) else {
            continue;
        };
        match counts.iter_mut().find(|(known, ..)| *known == kind) {
            Some((_, count, _)) => *count += 1,
            None => counts.push((kind, 1, at)),
        }
    }
    let notes = rows().filter_map(|(at, (row, input))| {
        let (level, kind, said) = part.at_odds(row, input)?;
        let (_, count, first) = counts.iter().find(|(known, ..)| *known == kind)?;
        if *count < MANY {
            let beside = Beside::Row(row.id, Some(Column::Depth));
            let note = SideNote::new(level, kind, beside, Arc::clone(said));
            return Some((note, Some(at)));
        }
        (at == *first).then(|| {
            let said = words::in_rows(said, *count, &mark_of(row, at));
            let beside = Beside::Field(match kind {
                NoteKind::DeeperThanPart => Field::SizeX,
                _ => Field::Thickness,
            });
            (SideNote::new(level, kind, beside, said), None)
        })
    });
    notes.collect()
}

/// The mark of a row, or its place in the table where it has none.
fn mark_of(row: &Row, at: usize) -> String {
    match row.mark.text().trim() {
        "" => (at + 1).to_string(),
        mark => mark.to_owned(),
    }
}

/// What is known of the part, with the sentences about it.
struct Part {
    longest: Option<Longest>,
    wall: Option<Wall>,
}

/// The longest straight line in the box of the part.
struct Longest {
    mm: f64,
    deeper: Arc<str>,
}

/// The wall that holes go into.
struct Wall {
    mm: f64,
    comes_through: Arc<str>,
    may_be_thinner: Arc<str>,
}

impl Part {
    fn of(speaker: &Speaker<'_>, asked: &Asked) -> Self {
        let Speaker {
            job, unit, form, ..
        } = *speaker;
        let longest = asked.input.part_mm.map(|size_mm| {
            let squares: f64 = size_mm.iter().map(|mm| mm * mm).sum();
            let mm = libm::sqrt(squares);
            let deeper = words::deeper_than_part(&size_mm, mm, unit, form).into();
            Longest { mm, deeper }
        });
        let wall = job.length(Field::Thickness).map(Length::mm);
        let wall = wall.map(|mm| Wall {
            mm,
            comes_through: words::blind_through_wall(mm, unit, form).into(),
            may_be_thinner: words::shorter_than_wall(mm, unit, form).into(),
        });
        Self { longest, wall }
    }

    /// What a row has against the part: how much it matters, as what, and the sentence.
    fn at_odds(&self, row: &Row, input: &RowInput) -> Option<(Level, NoteKind, &Arc<str>)> {
        let deepest_mm = deepest_mm(row)?;
        let through = row.depth.value().is_some_and(|depth| depth.through);
        // What can't be read, or says two things, is told as that first.
        if input.unread || through && input.end == HoleEnd::Blind {
            return None;
        }
        let deeper = |there: &&Longest| deepest_mm > there.mm + ROUNDING_MM;
        if let Some(Longest { deeper, .. }) = self.longest.as_ref().filter(deeper) {
            return Some((Level::Check, NoteKind::DeeperThanPart, deeper));
        }
        let wall = self.wall.as_ref()?;
        let along_mm = wall.along_mm(input)?;
        let is_blind = input.end == HoleEnd::Blind;
        if is_blind && deepest_mm > along_mm - ROUNDING_MM {
            let said = &wall.comes_through;
            return Some((Level::Check, NoteKind::BlindThroughWall, said));
        }
        let is_short = !is_blind && deepest_mm < CLEARLY_SHORTER * along_mm;
        is_short.then_some((Level::Note, NoteKind::ShorterThanWall, &wall.may_be_thinner))
    }
}

impl Wall {
    /// Its thickness along the axis of a row's holes [mm]; `None` where it doesn't say how far its far
    /// side is: grazing holes, and such that are not square to a curved entry.
    fn along_mm(&self, row: &RowInput) -> Option<f64> {
        let offset_mm = match row.surface {
            Surface::Flat => None,
            Surface::Edge { .. } => return None,
            Surface::Cylinder { offset_mm, .. }
            | Surface::Ball { offset_mm, .. }
            | Surface::Bore { offset_mm, .. } => Some(offset_mm),
        };
        let is_known = match offset_mm {
            Some(offset_mm) => offset_mm == 0.0 && row.tilt_deg == 0.0,
            None => row.tilt_deg <= STEEPEST_DEG,
        };
        is_known.then(|| self.mm / libm::cos(row.tilt_deg.to_radians()))
    }
}

/// The most that a row says of its depth [mm]: as typed, else the sum of its layers; `None` where it
/// says nothing, so that the wall itself gives the depth.
fn deepest_mm(row: &Row) -> Option<f64> {
    if let Some(depth) = row.depth.value()
        && let Some(aim) = depth.aim
    {
        return Some(depth.limits.map_or(aim, |limits| limits.upper).mm());
    }
    let layers = row.layers.value()?.iter();
    layers
        .map(|layer| layer.thickness.mm())
        .reduce(|a, b| a + b)
}
