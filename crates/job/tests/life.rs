//! Slips, issued papers, states, order checks, merges and reorders, played on whole jobs.

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use hands::{cells, day, done, field, issue, pin, put_together, ring};
use notes_told::offered;
use quillbore_calc::Length;
use quillbore_job::changed::Changed;
use quillbore_job::concern::Concern;
use quillbore_job::file::{read_job, write_job};
use quillbore_job::life::{self, Blocker, Found, State};
use quillbore_job::merge::{Clash, Typed};
use quillbore_job::order::{self, Difference, Revised, Topic};
use quillbore_job::reorder;
use quillbore_job::slip::{kind, line};
use quillbore_job::{CellAt, Column, Edit, Field, Job, Line, Paper, SlipKind, Unit, apply};

#[test]
fn slips_and_papers_come_back_from_the_file_as_they_were() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let job = pin(
        &job,
        SlipKind::Run,
        &[
            (Line::Date, "2026-05-04"),
            (Line::TubeBefore, "300"),
            (Line::TubeAfter, "11 3/4 in"),
            (Line::SparkMinutes, "soon"),
            (Line::NextTime, "smaller gap\nfresh tube for B"),
        ],
    );
    let text = write_job(&job);
    let again = read_job(text.as_bytes()).expect("it opens");
    assert_eq!(again, job);
    assert_eq!(write_job(&again), text);
    let run = again
        .slips_of::<kind::Run>()
        .next()
        .expect("the run record");
    assert_eq!(run.get(line::TubeAfter).map(Length::mm), Some(11.75 * 25.4));
    let why = run.entry(line::SparkMinutes).why();
    assert!(why.is_some_and(|why| why.contains("soon")), "{why:?}");
}

#[test]
fn a_file_whose_slips_or_papers_cannot_be_is_refused_with_a_sentence() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let job = pin(&job, SlipKind::Call, &[(Line::Who, "Moss")]);
    let text = write_job(&job);
    let refused = |from: &str, to: &str, says: &str| {
        assert!(text.contains(from), "{from}");
        let broken = text.replacen(from, to, 1);
        let why = read_job(broken.as_bytes()).expect_err(to).to_string();
        assert!(why.contains(says), "{why}");
    };
    refused("kind: \"call\"", "kind: \"telegram\"", "telegram");
    refused("\"who\": (", "\"carrier\": (", "carrier");
    refused("next_slip: 1", "next_slip: 0", "identity 0");
    refused("each: \"48.20\"", "each: \"dear\"", "dear");
    refused("45.5", "NaN", "number is infinite or not a number");
    let hash = job.issued[0].hash.to_string();
    refused(&hash, "abc", "hash");
}

#[test]
fn an_edit_of_slips_is_refused_where_it_cannot_be() {
    let job = pin(&ring(), SlipKind::Call, &[(Line::Who, "Moss")]);
    let set = |slip, line| Edit::SetLine {
        slip,
        line,
        text: "x".to_owned(),
        unit: Unit::Mm,
    };
    for edit in [
        set(7, Line::Who),
        set(0, Line::Carrier),
        Edit::RemoveSlip { slip: 3 },
    ] {
        let why = apply(&job, &edit).expect_err("refused");
        assert!(!why.to_string().ends_with('.') && why.hint().ends_with('.'));
    }
    let gone = done(&job, &Edit::RemoveSlip { slip: 0 });
    let next = pin(&gone, SlipKind::Call, &[]);
    assert_eq!(next.slips[0].id, 1, "an identity is never used again");
}

#[test]
fn a_job_goes_through_its_states() {
    let mut job = ring();
    let state = |job: &Job| life::state(job);
    assert_eq!(state(&job), State::Inquiry);
    job = issue(&job, Paper::Quotation, &[(25, "48.20")]);
    assert_eq!(state(&job), State::Quoted);
    job = pin(&job, SlipKind::Order, &[(Line::Quantity, "25")]);
    assert_eq!(state(&job), State::Ordered);
    job = pin(&job, SlipKind::Received, &[(Line::Count, "25")]);
    assert_eq!(state(&job), State::PartsHere);
    job = issue(&job, Paper::Traveler, &[]);
    assert_eq!(state(&job), State::OnTheFloor);
    job = pin(&job, SlipKind::Delivery, &[(Line::Count, "10")]);
    assert_eq!(state(&job), State::OnTheFloor);
    assert_eq!(life::left_to_deliver(&job), Some(15));
    job = pin(&job, SlipKind::Delivery, &[(Line::Count, "15")]);
    assert_eq!(state(&job), State::Delivered);
    assert_eq!(
        state(&field(&job, Field::LaidAside, "lost to price")),
        State::LaidAside
    );
}

#[test]
fn a_paper_withdrawn_no_longer_stands_and_its_number_is_not_used_again() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let job = pin(
        &job,
        SlipKind::Withdrawal,
        &[(Line::Paper, "26-0107-Q1"), (Line::Why, "wrong material")],
    );
    assert_eq!(life::state(&job), State::Inquiry);
    assert_eq!(job.next_paper_number(Paper::Quotation), "26-0107-Q2");
    assert_eq!(job.next_paper_number(Paper::Traveler), "26-0107-T1");
}

#[test]
fn an_order_is_held_against_the_quotation_it_answers() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20"), (50, "41.00")]);
    let found = |lines: &[(Line, &str)]| {
        let job = pin(&job, SlipKind::Order, lines);
        let order = job.slips_of::<kind::Order>().next().expect("the order");
        order::differences(&job, order)
    };
    assert_eq!(
        found(&[
            (Line::Date, "2026-03-30"),
            (Line::Quantity, "25"),
            (Line::Each, "48.2"),
            (Line::Revision, "c"),
        ]),
        []
    );
    let price = |text: &str| text.parse().expect("an amount");
    let revision = |of, ordered: &str, other: &str| Difference::Revision {
        of,
        ordered: ordered.to_owned(),
        quoted: Some(other.to_owned()),
        on_sheet: Some(other.to_owned()),
    };
    assert_eq!(
        found(&[
            (Line::Date, "2026-04-02"),
            (Line::Quantity, "25"),
            (Line::Each, "45"),
            (Line::Revision, "D"),
            (Line::DrawingRevision, "3"),
            (Line::Terms, "90 days net"),
        ]),
        [
            Difference::TooLate { until: day(4, 1) },
            Difference::Price {
                ordered: price("45"),
                quoted: price("48.20")
            },
            revision(Revised::Part, "D", "C"),
            revision(Revised::Drawing, "3", "2"),
            Difference::Terms {
                named: "90 days net".to_owned()
            },
        ]
    );
    assert_eq!(
        found(&[(Line::Quantity, "30")]),
        [
            Difference::NotPriced {
                ordered: 30,
                nearest: 25
            },
            Difference::Quantity {
                ordered: 30,
                on_sheet: Some(25)
            }
        ]
    );
    assert_eq!(
        found(&[(Line::Paper, "26-0107-Q9")]),
        [Difference::OtherPaper {
            named: "26-0107-Q9".to_owned()
        }]
    );
}

#[test]
fn the_traveler_waits_for_order_parts_and_a_word_about_open_trouble() {
    let quoted = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let way = |job: &Job| life::blockers(Paper::Traveler, job, &Found::default(), None);
    assert_eq!(way(&quoted), [Blocker::NoOrder, Blocker::NoParts]);
    let ordered = pin(
        &quoted,
        SlipKind::Order,
        &[(Line::Quantity, "25"), (Line::Each, "40")],
    );
    let differs = |topics: &[Topic]| Blocker::OrderDiffers {
        topics: topics.to_vec(),
    };
    assert_eq!(way(&ordered), [differs(&[Topic::Price]), Blocker::NoParts]);
    let accepted = done(
        &ordered,
        &Edit::SetLine {
            slip: 0,
            line: Line::Accepted,
            text: "the owner, for the fifth order".to_owned(),
            unit: Unit::Mm,
        },
    );
    let some = pin(&accepted, SlipKind::Received, &[(Line::Count, "20")]);
    assert_eq!(
        way(&some),
        [Blocker::Missing {
            here: 20,
            ordered: 25
        }]
    );
    let in_parts = pin(&some, SlipKind::Release, &[(Line::Quantity, "20")]);
    assert_eq!(way(&in_parts), []);
    assert_eq!(
        life::blockers(
            Paper::Traveler,
            &in_parts,
            &Found {
                stands_in: Vec::new(),
                exchange: false,
                amounts_currency: false,
                order_currency: false,
                stop: true,
                unread: true,
                unpriced: true,
                order_price: true,
                unanswered: vec![(Concern::Step, in_parts.rows[0].id)],
            },
            None
        ),
        [
            Blocker::Stop,
            Blocker::SheetUnread,
            Blocker::Unanswered {
                checks: vec![(Concern::Step, "A".to_owned())]
            },
            differs(&[Topic::Price])
        ]
    );
    let before = pin(&ring(), SlipKind::Nonconformance, &[(Line::What, "oval")]);
    let trouble =
        |job: &Job| life::blockers(Paper::Confirmation, job, &Found::default(), Some(&before));
    assert_eq!(trouble(&in_parts), [Blocker::OpenTrouble]);
    let told = done(
        &in_parts,
        &Edit::SetLine {
            slip: 0,
            line: Line::GoOn,
            text: "the customer sorts them out".to_owned(),
            unit: Unit::Mm,
        },
    );
    assert_eq!(trouble(&told), []);
}

fn typed(text: &str) -> Typed {
    Typed {
        text: text.to_owned(),
        unit: Some(Unit::Mm),
    }
}

#[test]
fn two_desks_work_is_put_together_and_what_met_is_told() {
    let base = cells(&ring(), 1, &["B", "4", "1.2", "10"]);
    let ours = field(&base, Field::Notes, "ours");
    let ours = pin(&ours, SlipKind::Call, &[(Line::Who, "we")]);
    let ours = cells(&ours, 2, &["C", "2", "0.5", "3"]);
    let ours = cells(&ours, 0, &["A", "40"]);
    let theirs = field(&base, Field::Due, "2026-12-01");
    let theirs = pin(&theirs, SlipKind::Call, &[(Line::Who, "they")]);
    let theirs = cells(&theirs, 2, &["D", "9", "0.6", "4"]);
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(merged.clashes, []);
    let job = &merged.job;
    assert_eq!(job.text(Field::Notes), "ours");
    assert_eq!(job.text(Field::Due), "2026-12-01");
    let who: Vec<&str> = job
        .slips_of::<kind::Call>()
        .map(|s| s.get(line::Who))
        .collect();
    assert_eq!(who, ["they", "we"]);
    let rows: Vec<(&str, &str)> = job
        .rows
        .iter()
        .map(|row| (row.mark.text(), row.count.text()))
        .collect();
    assert_eq!(rows, [("A", "40"), ("B", "4"), ("D", "9"), ("C", "2")]);
    let text = write_job(job);
    assert_eq!(
        read_job(text.as_bytes()).as_ref(),
        Ok(job),
        "identities hold"
    );

    let theirs = field(&theirs, Field::Notes, "theirs");
    let theirs = cells(&theirs, 0, &["A", "41"]);
    assert_eq!(
        put_together(&base, &ours, &theirs).clashes,
        [
            Clash::Field(Field::Notes, typed("theirs")),
            Clash::Cell(base.rows[0].id, Column::Count, typed("41"))
        ]
    );
    let took_out = done(
        &base,
        &Edit::DeleteRows {
            rows: vec![base.rows[1].id],
        },
    );
    let merged = put_together(&base, &took_out, &theirs);
    assert_eq!(merged.clashes, []);
    assert!(merged.job.rows.iter().all(|row| row.mark.text() != "B"));
}

#[test]
fn a_reorder_points_back_and_tells_what_was_learned_and_what_changed() {
    let old = issue(&ring(), Paper::Quotation, &[(25, "48.20"), (50, "41.00")]);
    let old = pin(
        &old,
        SlipKind::Run,
        &[
            (Line::FloorMinutes, "300"),
            (Line::StopMinutes, "60"),
            (Line::SparkMinutes, "100"),
            (Line::Settings, "program 118, step 3"),
            (Line::NextTime, "fresh tube after 12 holes"),
        ],
    );
    let again = [
        (Line::SparkMinutes, "60"),
        (Line::Trouble, "wax not whole"),
        (Line::NextTime, "fresh tube after 12 holes"),
    ];
    let old = pin(&old, SlipKind::Run, &again);
    let old = field(&old, Field::CustomerReference, "PO 1");
    let new = reorder::again(&old, day(11, 25));
    assert_eq!(new.text(Field::Again), "26-0107");
    assert_eq!(new.text(Field::CustomerReference), "");
    assert_eq!(new.text(Field::Settings), "program 118, step 3");
    assert_eq!(
        new.text(Field::Lessons),
        "fresh tube after 12 holes\nwent wrong last time: wax not whole",
        "the floor reads it again, each lesson once"
    );
    let third = reorder::again(&pin(&new, SlipKind::Run, &again), day(12, 1));
    assert_eq!(third.text(Field::Lessons), new.text(Field::Lessons));
    assert!(new.slips.is_empty() && new.issued.is_empty() && new.number.is_empty());
    let learned = reorder::learned(&old);
    assert_eq!(learned.hours, Some(5.0));
    assert_eq!(learned.next_time, ["fresh tube after 12 holes"]);
    let last = reorder::last_price(&old, 40).expect("a price");
    assert_eq!(
        (last.quantity, last.each.to_string().as_str()),
        (50, "41.00")
    );
    let new = field(&new, Field::DrawingRevision, "3");
    let new = cells(&new, 0, &["A", "40"]);
    assert_eq!(
        reorder::changed(&old, &new)
            .iter()
            .filter(|changed| !matches!(changed, Changed::Field(Field::Settings, ..)))
            .collect::<Vec<_>>(),
        [
            &Changed::Field(Field::DrawingRevision, "2".to_owned(), "3".to_owned()),
            &Changed::Cell(
                "A".to_owned(),
                Column::Count,
                "36".to_owned(),
                "40".to_owned()
            ),
        ]
    );
}

#[test]
fn a_certificate_waits_for_every_mark_and_every_decision() {
    let sent = pin(&ring(), SlipKind::Delivery, &[(Line::Count, "25")]);
    let way = |job: &Job| life::blockers(Paper::Certificate, job, &Found::default(), None);
    let marks = vec!["A".to_owned()];
    assert_eq!(way(&sent), [Blocker::NotInspected { marks }]);
    let good = pin(
        &sent,
        SlipKind::Run,
        &[(Line::Mark, "A"), (Line::Good, "25")],
    );
    assert_eq!(way(&good), []);
    let open = pin(&good, SlipKind::Nonconformance, &[(Line::What, "oval")]);
    assert_eq!(way(&open), [Blocker::Undecided]);
}

#[test]
fn two_rows_with_one_mark_are_told_and_mended() {
    use quillbore_job::results::results_quick;
    let shop = quillbore_job::Shop::embedded().expect("the shop");
    let job = cells(&ring(), 1, &[" a ", "4", "1.2", "10"]);
    let twice = |job: &Job| {
        let notes = results_quick(job, shop).notes;
        notes.into_iter().find(|note| note.code() == "mark-twice")
    };
    let note = twice(&job).expect("a note");
    let mended = done(&job, &offered(&job, &note));
    assert_eq!(mended.rows[1].mark.text(), "B");
    assert_eq!(twice(&mended), None);
}

#[test]
fn a_count_that_cannot_be_read_stops_the_job() {
    let shop = quillbore_job::Shop::embedded().expect("the shop");
    let job = cells(&ring(), 0, &["A", "-6"]);
    let results = quillbore_job::results::results_quick(&job, shop);
    assert!(results.stopped() && results.found().unread);
    let way = life::blockers(Paper::Quotation, &job, &results.found(), None);
    assert_eq!(
        way,
        [Blocker::Stop, Blocker::SheetUnread, Blocker::Unpriced]
    );
}

/// What goes out is listed before the job is over; a later delivery is listed anew.
#[test]
fn parts_that_go_out_are_listed_next() {
    let job = pin(&ring(), SlipKind::Order, &[(Line::Quantity, "10")]);
    let job = pin(&job, SlipKind::Received, &[(Line::Count, "10")]);
    let job = issue(&job, Paper::Traveler, &[(10, "")]);
    let job = pin(&job, SlipKind::Run, &[(Line::SparkMinutes, "40")]);
    assert_eq!(life::next_deed(&job), Some(life::Deed::Deliver(None)));
    let some = pin(&job, SlipKind::Delivery, &[(Line::Count, "4")]);
    assert_eq!(life::next_deed(&some), Some(life::Deed::Pack));
    let listed = issue(&some, Paper::Packing, &[(4, "")]);
    assert_eq!(life::next_deed(&listed), Some(life::Deed::Deliver(None)));
    let all = pin(&listed, SlipKind::Delivery, &[(Line::Count, "6")]);
    assert_eq!(life::next_deed(&all), Some(life::Deed::Pack));
    let listed = issue(&all, Paper::Packing, &[(4, ""), (6, "")]);
    assert_eq!(life::next_deed(&listed), Some(life::Deed::Reorder));
}

/// Call-offs that are released one after another are counted, however many there are; two rows of one mark
/// never go to the floor.
#[test]
fn what_is_on_a_traveler_stays_counted_and_marks_are_one_row_each() {
    let traveler = |job: &Job| {
        let way = life::blockers(Paper::Traveler, job, &Found::default(), None);
        let of = |blocker: Blocker| match blocker {
            Blocker::MoreThanHere {
                parts,
                here,
                released,
            } => Some([parts, here, released]),
            _ => None,
        };
        way.into_iter().find_map(of)
    };
    let job = pin(&ring(), SlipKind::Order, &[(Line::Quantity, "20")]);
    let job = pin(&job, SlipKind::Received, &[(Line::Count, "20")]);
    let job = pin(&job, SlipKind::Release, &[(Line::Quantity, "8")]);
    let job = issue(&job, Paper::Traveler, &[(8, "")]);
    let job = issue(&job, Paper::Traveler, &[(12, "")]);
    let more = pin(&job, SlipKind::Release, &[(Line::Quantity, "4")]);
    assert_eq!(traveler(&more), Some([4, 20, 20]));
    let more = issue(&more, Paper::Traveler, &[(4, "")]);
    let more = pin(&more, SlipKind::Release, &[(Line::Quantity, "1")]);
    assert_eq!(traveler(&more).map(|[.., released]| released), Some(24));
    let twice = field(&ring(), Field::Notes, "");
    let mark = twice.rows[0].mark.text().to_owned();
    let at = CellAt {
        row: 1,
        column: Column::Mark,
    };
    let edit = Edit::SetCells {
        at,
        rows: vec![vec![Some(mark.clone())]],
        unit: Unit::Mm,
    };
    let twice = done(&twice, &edit);
    let way = life::blockers(Paper::Traveler, &twice, &Found::default(), None);
    assert!(
        way.contains(&Blocker::SameMarks { marks: vec![mark] }),
        "{way:?}"
    );
}
