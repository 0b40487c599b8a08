//! Two desks' work that one job can't hold is refused with a sentence, never cut and no panic.

mod hands;

use std::sync::Arc;

use hands::{cells, done, issue, line, pin, put_together, ring};
use quillbore_job::file::{read_job, write_job};
use quillbore_job::limits::{MOST_ROWS, MOST_SLIPS};
use quillbore_job::merge::{MergeRefused, Merged, merge};
use quillbore_job::{CellAt, Column, Edit, EditRefused, Job, Line, Paper, SlipKind, Unit, apply};

fn check(merged: &Merged) {
    let text = write_job(&merged.job);
    assert_eq!(read_job(text.as_bytes()).as_ref(), Ok(&merged.job));
}

fn with_rows(job: &Job, count: usize, mark: &str) -> Job {
    let edit = Edit::SetCells {
        at: CellAt {
            row: job.rows.len(),
            column: Column::Mark,
        },
        rows: vec![vec![Some(mark.to_owned())]; count],
        unit: Unit::Mm,
    };
    done(job, &edit)
}

#[test]
fn what_one_job_cannot_hold_is_refused() {
    let base = with_rows(&Job::default(), 20_000, "A");
    let most = MOST_ROWS / 2 - 10_000;
    let (ours, theirs) = (with_rows(&base, most, "B"), with_rows(&base, most, "C"));
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(merged.job.rows.len(), MOST_ROWS);
    let more = with_rows(&theirs, 1, "D");
    let refused = merge(&base, &ours, &more);
    assert_eq!(refused, Err(MergeRefused::TooManyRows { most: MOST_ROWS }));

    let call = Edit::AddSlip {
        kind: SlipKind::Call,
        lines: vec![(Line::Said, "it came".to_owned())],
        unit: Unit::Mm,
    };
    let mut base = done(&Job::default(), &call);
    let one = Arc::clone(&base.slips[0]);
    let slips = (0..).take(MOST_SLIPS - 1).map(|id| {
        let mut slip = one.as_ref().clone();
        slip.id = id;
        Arc::new(slip)
    });
    base.slips = slips.collect();
    base.next_slip = u32::try_from(MOST_SLIPS).expect("a number");
    let ours = done(&base, &call);
    assert_eq!(
        put_together(&base, &ours, &base).job.slips.len(),
        MOST_SLIPS
    );
    let theirs = line(&ours, base.next_slip, Line::Said, "it did not");
    let refused = merge(&base, &ours, &theirs);
    assert_eq!(
        refused,
        Err(MergeRefused::TooManySlips { most: MOST_SLIPS })
    );

    // Each of the two can be saved, both together not.
    let mut base = issue(&ring(), Paper::Quotation, &[]);
    let long = |base: &mut Job, sign: &str| {
        let mut ours = issue(base, Paper::Traveler, &[]);
        let last = Arc::make_mut(ours.issued.last_mut().expect("a paper"));
        last.pages = vec![sign.repeat(33 << 20)];
        ours
    };
    let (ours, theirs) = (long(&mut base, "a"), long(&mut base, "b"));
    assert_eq!(merge(&base, &ours, &theirs), Err(MergeRefused::TooLarge));
    for why in [
        MergeRefused::TooManyRows { most: MOST_ROWS },
        MergeRefused::TooManySlips { most: MOST_SLIPS },
        MergeRefused::IdentitiesRunOut,
        MergeRefused::TooLarge,
    ] {
        assert!(!why.to_string().ends_with('.') && why.hint().ends_with('.'));
    }
}

#[test]
fn identities_that_run_out_are_told() {
    let call = |job: &Job, said: &str| pin(job, SlipKind::Call, &[(Line::Said, said)]);
    for left in 0..6 {
        let mut base = ring();
        base.next_row = u32::MAX - left;
        base.next_slip = u32::MAX - left;
        let row = |job: &Job, mark: &str| {
            let mut job = job.clone();
            for _ in 0..2 {
                let edit = Edit::InsertRows {
                    before: 0,
                    count: 1,
                };
                let next = apply(&job, &edit).ok()?.0;
                job = cells(&next, 0, &[mark]);
            }
            Some(job)
        };
        let (Some(ours), Some(theirs)) = (row(&base, "o"), row(&base, "t")) else {
            assert!(left < 2);
            let slip = Edit::AddSlip {
                kind: SlipKind::Call,
                lines: vec![],
                unit: Unit::Mm,
            };
            let full = Job {
                next_slip: u32::MAX,
                ..base
            };
            let refused = apply(&full, &slip).expect_err("no identity is left");
            assert_eq!(refused, EditRefused::TooManySlips { most: MOST_SLIPS });
            continue;
        };
        let merged = merge(&base, &ours, &theirs);
        let slips = merge(
            &base,
            &call(&call(&base, "o"), "p"),
            &call(&call(&base, "t"), "u"),
        );
        if left < 4 {
            assert_eq!(merged, Err(MergeRefused::IdentitiesRunOut), "{left}");
            assert_eq!(slips, Err(MergeRefused::IdentitiesRunOut), "{left}");
        } else {
            let merged = merged.expect("enough identities");
            check(&merged);
            assert_eq!((merged.clashes, merged.job.rows.len()), (vec![], 5));
            let merged = slips.expect("enough identities");
            check(&merged);
            assert_eq!((merged.clashes, merged.job.slips.len()), (vec![], 4));
        }
    }
}
