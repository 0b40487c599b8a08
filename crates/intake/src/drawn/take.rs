//! The chosen holes of a drawing or a solid as rows of the hole table.

use std::sync::Arc;

use quillbore_calc::input::Place;
use quillbore_job::field::AngleBasis;
use quillbore_job::limits::is_reachable;
use quillbore_job::report::{MOST_OUTLINED, Report};
use quillbore_job::words::english::angle_basis;
use quillbore_job::{Column, Edit, Field, Job, RowsAt, Unit, read_quantity};

use super::cells::{self, length};
use super::guesses::guesses;
use super::marks::Marks;
use super::{Drawn, DrawnError, NEAR_MM, far};
use crate::new_row::{NewRow, edit_of};
use crate::seen::SeenHole;
use crate::table::Taken;
use crate::words::drawn as words;

impl Drawn {
    /// Takes the chosen holes as rows of a job's hole table, and the part's size where the job has none.
    ///
    /// # Errors
    /// Where its unit is not known, or no hole is chosen.
    pub fn take(&self, job: &Job, at: RowsAt) -> Result<Taken, DrawnError> {
        let Some(unit) = self.unit else {
            return Err(match &self.seen.unit_note {
                Some(note) => DrawnError::UnitsDiffer(note.clone()),
                None => DrawnError::WhichUnit(self.seen.size()),
            });
        };
        if self.taken() == 0 {
            return Err(DrawnError::NoneTaken);
        }
        // On a sheet without holes nobody has said yet what angles are measured from.
        let says_normal = job.rows.is_empty() && job.field(Field::AngleBasis).is_empty();
        let is_plain = says_normal || job.angle_basis() == AngleBasis::FromNormal;
        let mut marks = Marks::beside(job, at);
        let lines = self.seen.holes.iter().filter_map(|hole| hole.line.as_ref());
        lines.for_each(|line| marks.keep(&line.mark));
        let mut whole = vec![match &self.seen.unit_note {
            Some(note) => words::unit_beside(note, unit),
            None => words::unit(unit, self.seen.unit_mm, self.is_overruled),
        }];
        let origin = self.origin();
        whole.extend(origin.map(|origin| words::counted_from(origin, unit)));
        let is_near = |hole: &SeenHole| is_reachable(far::from(origin, hole.entry));
        let mut rows = Vec::new();
        let mut number = 0_u32;
        let (mut left, mut too_far) = (Vec::new(), Vec::new());
        for kind in &self.kinds {
            let (chosen, others): (Vec<usize>, Vec<usize>) =
                kind.iter().partition(|at| self.takes(**at));
            left.extend(
                others
                    .first()
                    .and_then(|at| Some((self.seen.holes.get(*at)?, others.len()))),
            );
            let holes = chosen.iter().filter_map(|at| self.seen.holes.get(*at));
            let (holes, far): (Vec<&SeenHole>, Vec<&SeenHole>) =
                holes.partition(|hole| is_near(hole));
            too_far.extend(far.first().map(|first| (*first, far.len())));
            let Some(first) = holes.first() else { continue };
            let mark = match &first.line {
                Some(line) => marks.of_drawing(&line.mark),
                None => marks.next(),
            };
            let (mut cells, mut doubts) = cells::cells(first, unit, is_plain);
            doubts.extend(guesses(&holes, unit));
            cells.insert(Column::Mark, mark.clone());
            let charted = cells.insert(Column::Count, holes.len().to_string());
            let charted = charted.filter(|count| is_other(count, kind.len()));
            doubts.extend(charted.map(|count| words::charted(&count, kind.len())));
            let places = holes.iter().map(|hole| {
                number = number.saturating_add(1);
                Place {
                    number,
                    point_mm: far::from(origin, hole.entry),
                    axis: hole.axis,
                }
            });
            let places = places.collect();
            whole.push(words::row(&mark, &holes, self.seen.grouped, unit));
            whole.extend(doubts.into_iter().map(|doubt| words::of_row(&mark, &doubt)));
            rows.push(NewRow {
                cells,
                places,
                typed_place: None,
            });
        }
        whole.extend(words::left(left.into_iter(), unit));
        whole.extend(words::too_far(too_far.into_iter(), unit));
        let doubts = self.seen.doubts.iter();
        whole.extend(doubts.map(|doubt| words::doubt(doubt, unit)));
        whole.extend(words::refused(&self.seen.refused));
        whole.extend(words::loose(&self.seen.loose));
        let report = Report {
            from: self.from.clone(),
            whole,
            taken: 0,
            lines: Vec::new(),
            outline: outline_um(&self.seen.outline, origin),
        };
        let count = rows.len();
        let has_angles = rows
            .iter()
            .any(|row| row.cells.contains_key(&Column::Angle));
        let table = edit_of(at, rows, unit, Some(Arc::new(report.clone())));
        Ok(Taken {
            edit: self.with_size(job, table, unit, says_normal && has_angles),
            rows: count,
            report,
            is_drawn: true,
        })
    }

    /// The edit, with what angles are measured from, and the size of the part where nobody gave one.
    fn with_size(&self, job: &Job, table: Edit, unit: Unit, says_normal: bool) -> Edit {
        let basis = says_normal.then(|| Edit::SetField {
            field: Field::AngleBasis,
            text: angle_basis(AngleBasis::FromNormal).to_owned(),
            unit,
        });
        let sizes = self.size_of(job, unit);
        let mut edits: Vec<Edit> = basis.into_iter().chain(sizes).collect();
        if edits.is_empty() {
            return table;
        }
        edits.push(table);
        Edit::Together { edits }
    }

    /// The size of the part, where nobody gave one.
    fn size_of(&self, job: &Job, unit: Unit) -> Vec<Edit> {
        let fields = [Field::SizeX, Field::SizeY, Field::SizeZ];
        let is_open = fields.iter().all(|field| job.field(*field).is_empty());
        let Some(size) = self.seen.size().filter(|_| is_open) else {
            return Vec::new();
        };
        let sizes = fields
            .into_iter()
            .zip(size)
            .filter(|(_, size)| *size > NEAR_MM);
        let set = |(field, size)| Edit::SetField {
            field,
            text: length(size, unit, 3),
            unit,
        };
        sizes.map(set).collect()
    }
}

/// Whether a chart says another count.
fn is_other(count: &str, holes: usize) -> bool {
    read_quantity::holes(count).is_ok_and(|count| usize::try_from(count) != Ok(holes))
}

/// Points of an outline that are no farther apart are one [mm]: a map shows no more.
const THIN_MM: f64 = 0.05;

/// The rings of an outline [micrometers], thinned out; none where there are more points than a report keeps.
fn outline_um(rings: &[Vec<[f64; 2]>], origin: Option<[f64; 3]>) -> Vec<Vec<[i64; 2]>> {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a part is far smaller than what an i64 counts in micrometers"
    )]
    let um = |mm: f64| libm::round(mm * 1e3) as i64;
    let mut all = Vec::new();
    for ring in rings {
        let mut kept: Vec<[f64; 2]> = Vec::new();
        for &[x, y] in ring {
            let [x, y, _] = far::from(origin, [x, y, 0.0]);
            let is_far = |[a, b]: &[f64; 2]| libm::hypot(x - a, y - b) > THIN_MM;
            if kept.last().is_none_or(is_far) {
                kept.push([x, y]);
            }
        }
        if kept.len() > 2 {
            all.push(kept.into_iter().map(|point| point.map(um)).collect());
        }
    }
    let points: usize = all.iter().map(Vec::len).sum();
    if points > MOST_OUTLINED {
        return Vec::new();
    }
    all
}
