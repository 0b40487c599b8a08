//! What waits around an order: what differs and what can't be read, calls for its quotation, days and
//! parts that nobody counted as usual.

use quillbore_job::order::Difference;
use quillbore_job::{Edit, Field, Job, Line, SlipKind, Unit, apply};
use quillbore_office::digest::{Digest, OpenMatter};

use crate::jobs::{day, job, with_quotation, with_slip};

fn open(job: &Job) -> Vec<OpenMatter> {
    Digest::of(job).open
}

fn quoted(fields: &[(Field, &str)]) -> Job {
    let job = job("26-0107", fields);
    with_quotation(&job, "26-0107-Q1", None, &["26-0107"])
}

fn follow_up(job: &Job) -> Option<chrono::NaiveDate> {
    match open(job).as_slice() {
        [OpenMatter::Quotation { follow_up, .. }] => *follow_up,
        other => unreachable!("{other:?}"),
    }
}

/// The job with a text on a line of its first slip.
fn with_line(job: &Job, line: Line, text: &str) -> Job {
    let text = text.to_owned();
    let (slip, unit) = (0, Unit::Mm);
    let edit = Edit::SetLine {
        slip,
        line,
        text,
        unit,
    };
    apply(job, &edit).expect("an edit").0
}

fn differing(job: &Job) -> Vec<OpenMatter> {
    let differs = |open: &OpenMatter| matches!(open, OpenMatter::OrderDiffers { .. });
    open(job).into_iter().filter(differs).collect()
}

#[test]
fn an_order_that_differs_waits_until_just_that_is_accepted() {
    let order = [
        (Line::Date, "2026-11-24"),
        (Line::Quantity, "20"),
        (Line::Terms, "90 days net"),
    ];
    let job = with_slip(&quoted(&[(Field::Quantity, "25")]), SlipKind::Order, &order);
    let waits = OpenMatter::OrderDiffers {
        slip: 0,
        date: Some(day("2026-11-24")),
        what: Difference::NotPriced {
            ordered: 20,
            nearest: 25,
        },
        more: 2,
    };
    assert_eq!(differing(&job), [waits]);
    let accepted = with_line(&job, Line::Accepted, "Pell, by phone");
    assert_eq!(differing(&accepted), []);
    // What differs later was not accepted.
    let later = with_line(&accepted, Line::Revision, "D");
    assert_eq!(differing(&later).len(), 1);
    // Nobody asks once it went out.
    let gone = with_slip(&later, SlipKind::Delivery, &[(Line::Count, "20")]);
    assert_eq!(open(&gone), []);
}

#[test]
fn a_due_day_that_is_no_date_is_told_with_its_line() {
    let order = |due| [(Line::Quantity, "25"), (Line::Due, due)];
    let job = quoted(&[(Field::Quantity, "25")]);
    let soon = with_slip(&job, SlipKind::Order, &order("as soon as possible"));
    let unread = OpenMatter::Unread {
        slip: 0,
        kind: SlipKind::Order,
        line: Line::Due,
        typed: "as soon as possible".to_owned(),
    };
    let parts = OpenMatter::Parts {
        here: 0,
        ordered: 25,
        since: None,
    };
    assert_eq!(open(&soon), [unread.clone(), parts.clone()]);
    // A day on the sheet holds meanwhile, and what stands there may be no date either.
    let fields = [(Field::Quantity, "25"), (Field::Due, "2026-12-18")];
    let dated = with_slip(&quoted(&fields), SlipKind::Order, &order("soon"));
    let due = OpenMatter::Due {
        day: day("2026-12-18"),
        slip: None,
        left: Some(25),
    };
    assert!(open(&dated).contains(&due));
    let fields = [(Field::Quantity, "25"), (Field::Due, "ASAP")];
    let asap = quoted(&fields);
    assert_eq!(follow_up(&asap), None, "an inquiry's day is a wish");
    let bare = [(Line::Quantity, "25")];
    let typed = "ASAP".to_owned();
    assert_eq!(
        open(&with_slip(&asap, SlipKind::Order, &bare)),
        [parts, OpenMatter::DueUnread { typed }]
    );
}

#[test]
fn a_follow_up_is_settled_by_a_call_on_its_day_or_one_that_puts_it_off() {
    let job = quoted(&[(Field::FollowUp, "2026-12-01")]);
    let first = Some(day("2026-12-01"));
    assert_eq!(follow_up(&job), first);
    let call = |lines: &[(Line, &str)]| with_slip(&job, SlipKind::Call, lines);
    assert_eq!(follow_up(&call(&[(Line::Date, "2026-11-30")])), first);
    assert_eq!(follow_up(&call(&[(Line::Date, "2026-12-01")])), None);
    // A call that is promised for that day or a later one is the one that is made.
    for again in ["2026-12-01", "2026-12-10"] {
        let promised = call(&[(Line::Date, "2026-11-25"), (Line::CallAgain, again)]);
        let (quotation, call) = (
            OpenMatter::Quotation {
                number: "26-0107-Q1".to_owned(),
                date: day("2026-11-20"),
                follow_up: None,
            },
            OpenMatter::Call {
                slip: 0,
                day: day(again),
                who: String::new(),
            },
        );
        assert_eq!(open(&promised), [quotation, call]);
    }
    let before = call(&[(Line::CallAgain, "2026-11-30")]);
    assert_eq!(open(&before).len(), 2);
}

#[test]
fn parts_of_an_order_without_a_quantity_and_of_a_blanket_order_are_waited_for_as_they_are_known() {
    let with = |job: &Job, kind, lines: &[(Line, &str)]| with_slip(job, kind, lines);
    // The sheet's quantity is the order's.
    let order = [(Line::Due, "2026-12-18")];
    let job = with(&quoted(&[(Field::Quantity, "25")]), SlipKind::Order, &order);
    let some = with(&job, SlipKind::Delivery, &[(Line::Count, "10")]);
    let due = |slip, left| OpenMatter::Due {
        day: day("2026-12-18"),
        slip: Some(slip),
        left,
    };
    assert!(open(&some).contains(&due(0, Some(15))), "{:?}", open(&some));
    // Nobody says how many: all that are here wait for their traveler.
    let vague = with(&quoted(&[]), SlipKind::Order, &order);
    assert!(open(&vague).contains(&due(0, None)));
    let here = with(&vague, SlipKind::Received, &[(Line::Count, "7")]);
    let release = |parts| OpenMatter::ToRelease { parts, since: None };
    assert!(open(&here).contains(&release(7)));
    // A blanket order waits for nothing until some of it is called off.
    let blanket = [(Line::Quantity, "100"), (Line::Blanket, "yes")];
    let fields = [(Field::Quantity, "100")];
    let blanket = with(&quoted(&fields), SlipKind::Order, &blanket);
    let stock = with(&blanket, SlipKind::Received, &[(Line::Count, "30")]);
    let parts = |open: &OpenMatter| {
        matches!(
            open,
            OpenMatter::Parts { .. } | OpenMatter::ToRelease { .. }
        )
    };
    let of = |job: &Job| open(job).into_iter().filter(parts).collect::<Vec<_>>();
    assert_eq!(of(&stock), []);
    let called = [(Line::Quantity, "20"), (Line::Date, "2026-11-25")];
    let called = with(&stock, SlipKind::Release, &called);
    assert_eq!(of(&called), [release(20)]);
    let more = with(&called, SlipKind::Release, &[(Line::Quantity, "40")]);
    assert_eq!(of(&more), [release(20)], "lot by lot");
}
