//! Sequences of edits, undone and done again, and what two desks make of one job.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::history::{Doing, History};
use quillbore_job::job::FigureKey;
use quillbore_job::merge;
use quillbore_job::report::{Report, Source};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Line, RowsAt, RunAt, SlipKind, Unit, apply};

use super::figures::a_job;
use super::files::comes_back;
use super::pick::Pick;

/// Whatever is done: identities hold, the job is written and read the same, and all of it can be
/// undone and done again.
pub(super) fn edits(bytes: &[u8]) {
    let mut pick = Pick::new(bytes);
    let start = if pick.once_in(3) {
        a_job()
    } else {
        Job::default()
    };
    let mut history: History = History::new(start, true);
    let first = Arc::clone(history.now());
    let mut steps = 0;
    while !pick.is_used_up() && steps < 60 {
        let edit = edit(&mut pick, 0);
        let before = Arc::clone(history.now());
        let doing = Doing {
            gesture: None,
            before: (),
            after: (),
        };
        let done = history.do_edit(&edit, doing);
        if let Err(refused) = done {
            assert!(!refused.to_string().is_empty() && !refused.hint().is_empty());
            assert!(
                **history.now() == *before,
                "refused, and yet done: {edit:?}"
            );
            continue;
        }
        identities(history.now());
        steps += 1;
    }
    let last = Arc::clone(history.now());
    comes_back(&last);
    while history.undo().is_some() {}
    assert!(
        content(history.now()) == content(&first),
        "undo leads elsewhere"
    );
    while history.redo().is_some() {}
    assert!(
        content(history.now()) == content(&last),
        "redo leads elsewhere"
    );
}

/// The job without what only ever grows.
fn content(job: &Job) -> Job {
    Job {
        next_row: 0,
        next_slip: 0,
        ..job.clone()
    }
}

fn identities(job: &Job) {
    let rows: BTreeSet<RowId> = job.rows.iter().map(|row| row.id).collect();
    assert!(rows.len() == job.rows.len(), "a row's number stands twice");
    assert!(
        rows.iter().all(|id| id.0 < job.next_row),
        "a row's number would be given again"
    );
    let slips: BTreeSet<u32> = job.slips.iter().map(|slip| slip.id).collect();
    assert!(
        slips.len() == job.slips.len(),
        "a slip's number stands twice"
    );
    assert!(
        slips.iter().all(|id| *id < job.next_slip),
        "a slip's number would be given again"
    );
}

/// Whatever two desks do: put together it can be saved, nobody's row is lost in silence, and who did
/// nothing changes nothing.
pub(super) fn merge(bytes: &[u8]) {
    let mut pick = Pick::new(bytes);
    let start = if pick.once_in(4) {
        a_job()
    } else {
        Job::default()
    };
    let base = some_edits(&start, &mut pick, 8);
    let ours = some_edits(&base, &mut pick, 8);
    let theirs = some_edits(&base, &mut pick, 8);
    match merge::merge(&base, &ours, &theirs) {
        Ok(merged) => {
            identities(&merged.job);
            comes_back(&merged.job);
            if merged.clashes.is_empty() {
                let both = |id| {
                    let has = |job: &Job| job.rows.iter().any(|row| row.id == id);
                    has(&ours) && has(&theirs)
                };
                let kept = base.rows.iter().filter(|row| both(row.id));
                let lost =
                    kept.filter(|row| !merged.job.rows.iter().any(|there| there.id == row.id));
                assert!(lost.count() == 0, "a row of both is lost");
            }
        }
        Err(refused) => assert!(!refused.to_string().is_empty()),
    }
    let alone = merge::merge(&base, &ours, &base);
    if let Ok(alone) = alone {
        assert!(alone.clashes.is_empty(), "{:?}", alone.clashes);
        assert!(
            content(&alone.job) == content(&ours),
            "nobody else did anything"
        );
    }
}

/// A job after so many edits, those that are refused left out.
pub(super) fn some_edits(job: &Job, pick: &mut Pick<'_>, most: usize) -> Job {
    let mut job = job.clone();
    for _ in 0..pick.below(most + 1) {
        if let Ok((next, _)) = apply(&job, &edit(pick, 0)) {
            job = next;
        }
    }
    job
}

fn edit(pick: &mut Pick<'_>, depth: u8) -> Edit {
    let unit = pick.of(&[Unit::Mm, Unit::Mm, Unit::Inch]);
    let kind = pick.byte();
    // Above what the kept cases are made of.
    if kind >= 240 {
        return Edit::SetRuns {
            at: RunAt {
                row: pick.below(4),
                line: pick.of(Line::ALL),
            },
            rows: cells(pick),
            unit,
        };
    }
    match kind % 20 {
        0..=3 => Edit::SetField {
            field: pick.of(Field::ALL),
            text: pick.text(),
            unit,
        },
        4..=7 => Edit::SetCells {
            at: CellAt {
                row: pick.below(6),
                column: pick.of(Column::ALL),
            },
            rows: cells(pick),
            unit,
        },
        8 => Edit::InsertRows {
            before: pick.below(6),
            count: pick.of(&[1, 2, 0, 3, usize::MAX]),
        },
        9 => Edit::DeleteRows {
            rows: vec![row(pick), row(pick)],
        },
        10 => Edit::SetPlaces {
            row: row(pick),
            places: places(pick),
        },
        11 => Edit::SetRows {
            at: match pick.byte() % 3 {
                0 => RowsAt::Append,
                1 => RowsAt::Replace,
                _ => RowsAt::Over { row: pick.below(6) },
            },
            cells: cells(pick),
            places: vec![places(pick)],
            unit,
            report: pick.once_in(2).then(|| Arc::new(report(pick))),
        },
        12 if depth < 2 => Edit::Together {
            edits: (0..pick.below(4)).map(|_| edit(pick, depth + 1)).collect(),
        },
        12 => Edit::SetUnit(unit),
        13 => Edit::Overrule {
            figure: figure(pick),
            text: pick.text(),
            reason: pick.text(),
            unit,
        },
        14 => Edit::AddSlip {
            kind: pick.of(SlipKind::ALL),
            lines: (0..pick.below(4))
                .map(|_| (pick.of(Line::ALL), pick.text()))
                .collect(),
            unit,
        },
        15 => Edit::SetLine {
            slip: pick.of(&[0, 1, 2, u32::MAX]),
            line: pick.of(Line::ALL),
            text: pick.text(),
            unit,
        },
        16 => Edit::RemoveSlip {
            slip: pick.of(&[0, 1, 2, u32::MAX]),
        },
        17 => Edit::WithdrawOverrule {
            figure: figure(pick),
        },
        18 => Edit::Answer(Answer {
            row: row(pick),
            concern: pick.of(Concern::ALL),
            facts: Facts {
                given: vec![pick.number(), pick.number()],
                by: pick.number(),
            },
            how: pick.of(How::ALL),
            said: pick.text(),
            by: pick.text(),
            date: NaiveDate::from_ymd_opt(2026, 3, 1).unwrap_or_default(),
        }),
        _ => Edit::WithdrawAnswer {
            row: row(pick),
            concern: pick.of(Concern::ALL),
        },
    }
}

fn row(pick: &mut Pick<'_>) -> RowId {
    RowId(pick.of(&[0, 1, 2, 3, 9, u32::MAX]))
}

fn cells(pick: &mut Pick<'_>) -> Vec<Vec<Option<String>>> {
    let cell = |pick: &mut Pick<'_>| (!pick.once_in(4)).then(|| pick.text());
    let cells = |pick: &mut Pick<'_>| (0..pick.below(5)).map(|_| cell(pick)).collect();
    (0..pick.below(4)).map(|_| cells(pick)).collect()
}

fn places(pick: &mut Pick<'_>) -> Vec<Place> {
    let place = |pick: &mut Pick<'_>| Place {
        number: pick.of(&[1, 2, 3, 0, u32::MAX]),
        point_mm: [pick.number(), pick.number(), pick.number()],
        axis: [pick.number(), pick.number(), pick.number()],
    };
    (0..pick.below(4)).map(|_| place(pick)).collect()
}

fn report(pick: &mut Pick<'_>) -> Report {
    Report {
        from: Source::named(&pick.text()),
        whole: vec![pick.text()],
        taken: pick.word(),
        lines: Vec::new(),
        outline: vec![vec![[0, 1_000], [-2_000, 3_000], [5, 5]]],
    }
}

fn figure(pick: &mut Pick<'_>) -> FigureKey {
    match pick.byte() % 9 {
        0 => FigureKey::Gap(row(pick)),
        1 => FigureKey::Feed(row(pick)),
        2 => FigureKey::HoleMinutes(row(pick)),
        3 => FigureKey::Wear(row(pick)),
        4 => FigureKey::Electrodes(pick.text()),
        5 => FigureKey::MachineHours,
        6 => FigureKey::LaborHours,
        7 => FigureKey::NotYetKnown,
        _ => FigureKey::UnitPrice(pick.of(&[1, 5, 25, 0, u32::MAX])),
    }
}
