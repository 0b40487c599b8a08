//! What slips say was measured, told apart: of one piece, or over several.

use std::collections::BTreeMap;

use quillbore_job::{Line, Slip, SlipKind, inspected, serials};

use super::pieces::Pieces;
use crate::matter::Matter;
use crate::nonconformance;
use crate::opening::day;
use crate::words::inspection as words;

/// What was measured of a job.
pub(super) struct Measured<'a> {
    /// Records over several pieces, or of none named.
    pub(super) lot: Vec<OfLot<'a>>,
    /// Records of one piece, by the piece's place in the list and the row's place in the table.
    pub(super) pieces: BTreeMap<(usize, usize), OfPiece>,
}

/// One record over several pieces.
pub(super) struct OfLot<'a> {
    /// The mark as typed.
    pub(super) mark: &'a str,
    /// The sizes as typed.
    pub(super) sizes: &'a str,
    /// Numbers of the holes as typed.
    pub(super) numbers: &'a str,
    /// The pieces as typed.
    pub(super) pieces: &'a str,
    /// Holes checked and holes not good, as typed; a run record counts neither.
    pub(super) counts: [&'a str; 2],
    /// The day, and who it was.
    pub(super) date: String,
    pub(super) by: &'a str,
    /// What else it says.
    pub(super) note: String,
}

/// What is known of one mark of one piece.
#[derive(Default)]
pub(super) struct OfPiece {
    /// The sizes as typed, with the holes' numbers where they were named.
    pub(super) sizes: Vec<String>,
    /// Holes checked and not good.
    pub(super) checked: Option<u32>,
    pub(super) not_good: Option<u32>,
    /// What else is said of it.
    pub(super) remarks: Vec<String>,
}

impl<'a> Measured<'a> {
    pub(super) fn of(matter: &Matter<'a>, pieces: &Pieces) -> Self {
        let mut measured = Self {
            lot: Vec::new(),
            pieces: BTreeMap::new(),
        };
        let marks: Vec<String> = matter.holes().map(|hole| hole.mark()).collect();
        for slip in &matter.job.slips {
            if matches!(slip.kind, SlipKind::Run | SlipKind::Inspection) {
                measured.take(slip, &marks, pieces);
            }
        }
        for trouble in nonconformance::all(matter) {
            let known = |piece: &str| pieces.at(piece).is_some();
            let row = trouble
                .mark(&marks)
                .and_then(|mark| marks.iter().position(|known| known == mark));
            for piece in trouble.pieces(&known, &marks) {
                if let Some(at) = pieces.at(&piece) {
                    let there = measured.pieces.entry((at, row.unwrap_or(0))).or_default();
                    let said = words::nonconformance(trouble.number, &trouble.what());
                    there.remarks.push(said);
                }
            }
        }
        measured
    }

    fn take(&mut self, slip: &'a Slip, marks: &[String], pieces: &Pieces) {
        let said = [Line::Pins, Line::Checked, Line::NotGood];
        if said.iter().all(|line| slip.text(*line).is_empty()) {
            return;
        }
        let mark = slip.text(Line::Mark);
        let row = marks
            .iter()
            .position(|known| inspected::is_mark(mark, known));
        let named = serials::read(slip.text(Line::Serials));
        let one = match named.as_slice() {
            [piece] => pieces.at(piece),
            _ => None,
        };
        if let (Some(at), Some(row)) = (one, row) {
            let there = self.pieces.entry((at, row)).or_default();
            there.add(slip);
            return;
        }
        self.lot.push(OfLot {
            mark,
            sizes: slip.text(Line::Pins),
            numbers: slip.text(Line::HoleNumbers),
            pieces: slip.text(Line::Serials),
            counts: [slip.text(Line::Checked), slip.text(Line::NotGood)],
            date: day(slip, Line::Date),
            by: slip.text(Line::By),
            note: note(slip),
        });
    }
}

impl OfPiece {
    fn add(&mut self, slip: &Slip) {
        let sizes = slip.text(Line::Pins);
        let numbers = slip.text(Line::HoleNumbers);
        match (numbers, sizes) {
            ("", "") => {}
            ("", sizes) => self.sizes.push(sizes.to_owned()),
            (numbers, "") => self.remarks.push(words::holes_numbered(numbers)),
            (numbers, sizes) => self.sizes.push(format!("{numbers}: {sizes}")),
        }
        let sum = |was: Option<u32>, line: Line| match (was, slip.count(line)) {
            (Some(was), Some(more)) => Some(was.saturating_add(more)),
            (was, more) => was.or(more),
        };
        self.checked = sum(self.checked, Line::Checked);
        self.not_good = sum(self.not_good, Line::NotGood);
        let who = words::who(&day(slip, Line::Date), slip.text(Line::By));
        self.remarks.extend(
            [note(slip), who]
                .into_iter()
                .filter(|text| !text.is_empty()),
        );
    }
}

fn note(slip: &Slip) -> String {
    slip.text(Line::Note).replace('\n', " ")
}
