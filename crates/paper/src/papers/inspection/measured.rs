//! What slips say was measured, told apart: of one piece, or over several.

use std::collections::BTreeMap;

use quillbore_job::inspected::Marks;
use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Form, Slip, serials};

use super::pieces::Pieces;
use crate::matter::Matter;
use crate::matter::day::day;
use crate::matter::nonconformance;
use crate::words::customer::Inspection;

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
    /// Depths as typed.
    pub(super) depths: Vec<String>,
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
        let words = &matter.words().inspection;
        let marks = matter.marks_typed();
        for slip in &matter.job.slips {
            if let Some(told) = Recorded::of(slip, matter.form(), words) {
                measured.take(told, &marks, pieces);
            }
        }
        for trouble in nonconformance::all(matter) {
            let known = |piece: &str| pieces.at(piece).is_some();
            let row = trouble.row(&marks);
            for piece in trouble.pieces(&known, &marks) {
                if let Some(at) = pieces.at(&piece) {
                    let there = measured.pieces.entry((at, row.unwrap_or(0))).or_default();
                    let said = (words.nonconformance)(trouble.number, &trouble.what());
                    there.remarks.push(said);
                }
            }
        }
        measured
    }

    fn take(&mut self, told: Recorded<'a>, marks: &Marks, pieces: &Pieces) {
        let record = &told.record;
        let counts_nothing = record.sizes.is_empty() && record.counts == ["", ""];
        if counts_nothing && told.depth.is_empty() && record.note.is_empty() {
            return;
        }
        let row = marks.row(record.mark);
        let named = serials::read(record.pieces);
        let one = match named.as_slice() {
            [piece] => pieces.at(piece),
            _ => None,
        };
        if let (Some(at), Some(row)) = (one, row) {
            let there = self.pieces.entry((at, row)).or_default();
            there.add(told);
            return;
        }
        let mut record = told.record;
        let depth = (told.words.measured)([told.depth, "", "", ""]).into_iter();
        let note = (!record.note.is_empty()).then(|| std::mem::take(&mut record.note));
        record.note = depth.chain(note).collect::<Vec<_>>().join("; ");
        self.lot.push(record);
    }
}

/// What a slip says that was measured, and the counts as read.
struct Recorded<'a> {
    record: OfLot<'a>,
    depth: &'a str,
    checked: Option<u32>,
    not_good: Option<u32>,
    words: &'static Inspection,
}

impl<'a> Recorded<'a> {
    /// What a run record or an inspection says; `None` of every other slip.
    fn of(slip: &'a Slip, form: Form, words: &'static Inspection) -> Option<Self> {
        if let Some(run) = slip.as_view::<kind::Run>() {
            return Some(Self {
                record: OfLot {
                    mark: run.get(line::Mark),
                    sizes: run.get(line::Pins),
                    numbers: "",
                    pieces: run.get(line::Serials),
                    counts: ["", ""],
                    date: day(form, run, line::Date),
                    by: run.get(line::By),
                    note: String::new(),
                },
                depth: "",
                checked: None,
                not_good: None,
                words,
            });
        }
        let slip = slip.as_view::<kind::Inspection>()?;
        Some(Self {
            record: OfLot {
                mark: slip.get(line::Mark),
                sizes: slip.get(line::Pins),
                numbers: slip.get(line::HoleNumbers),
                pieces: slip.get(line::Serials),
                counts: [slip.text(line::Checked), slip.text(line::NotGood)],
                date: day(form, slip, line::Date),
                by: slip.get(line::By),
                note: said_of(form, slip, words),
            },
            depth: slip.get(line::DepthFound),
            checked: slip.get(line::Checked),
            not_good: slip.get(line::NotGood),
            words,
        })
    }
}

/// Position, angle, gauge and what else an inspection says.
fn said_of(form: Form, slip: View<'_, kind::Inspection>, words: &Inspection) -> String {
    let gauge = (words.gauge)(
        slip.get(line::Gauge),
        &day(form, slip, line::CalibrationDue),
        slip.get(line::Temperature),
    );
    let mut said = (words.measured)([
        "",
        slip.get(line::Position),
        slip.get(line::AngleFound),
        &gauge,
    ]);
    let note = slip.get(line::Note).replace('\n', " ");
    said.extend((!note.is_empty()).then_some(note));
    said.join("; ")
}

impl OfPiece {
    fn add(&mut self, told: Recorded<'_>) {
        let words = told.words;
        let OfLot {
            sizes,
            numbers,
            date,
            by,
            note,
            ..
        } = told.record;
        if !told.depth.is_empty() {
            self.depths.push(told.depth.to_owned());
        }
        match (numbers, sizes) {
            ("", "") => {}
            ("", sizes) => self.sizes.push(sizes.to_owned()),
            (numbers, "") => self.remarks.push((words.holes_numbered)(numbers)),
            (numbers, sizes) => self.sizes.push(format!("{numbers}: {sizes}")),
        }
        let sum = |was: Option<u32>, more: Option<u32>| match (was, more) {
            (Some(was), Some(more)) => Some(was.saturating_add(more)),
            (was, more) => was.or(more),
        };
        self.checked = sum(self.checked, told.checked);
        self.not_good = sum(self.not_good, told.not_good);
        let who = [by, &date].into_iter().filter(|text| !text.is_empty());
        let who = who.collect::<Vec<_>>().join(", ");
        self.remarks
            .extend([note, who].into_iter().filter(|text| !text.is_empty()));
    }
}
