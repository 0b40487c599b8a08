//! What an order freezes: papers follow it, what differs is told until it agrees or is accepted.

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use hands::{cells, day, done, field, issue, line, pin, ring};
use notes_told::offered;
use quillbore_job::file::{read_job, write_job};
use quillbore_job::history::{Doing, History};
use quillbore_job::life::{self, Blocker, Found};
use quillbore_job::order::{self, Difference, Revised, Topic};
use quillbore_job::results::results_quick;
use quillbore_job::slip::{Outcome, kind, line};
use quillbore_job::words::life as life_words;
use quillbore_job::{Edit, Field, Form, Job, Line, Paper, Shop, SlipKind, Unit};

fn quoted() -> Job {
    issue(&ring(), Paper::Quotation, &[(25, "48.20"), (50, "41.00")])
}

fn ordered(lines: &[(Line, &str)]) -> Job {
    pin(&quoted(), SlipKind::Order, lines)
}

fn topics(job: &Job) -> Vec<Topic> {
    let way = life::blockers(Paper::Confirmation, job, &Found::default(), None);
    let of = |blocker: &Blocker| match blocker {
        Blocker::OrderDiffers { topics } => Some(topics.clone()),
        _ => None,
    };
    way.iter().find_map(of).unwrap_or_default()
}

#[test]
fn papers_follow_the_order_where_it_speaks_and_the_sheet_where_it_does_not() {
    let sheet = field(&quoted(), Field::Due, "2026-05-04");
    let before = order::followed(&sheet);
    assert_eq!(
        (before.revision, before.drawing_revision, before.quantity),
        ("C", "2", Some(25))
    );
    assert_eq!(before.due, Some(day(5, 4)));
    let silent = pin(&sheet, SlipKind::Order, &[(Line::Number, "PO 7")]);
    assert_eq!(order::followed(&silent), order::followed(&sheet));
    let named = pin(
        &sheet,
        SlipKind::Order,
        &[
            (Line::Quantity, "20"),
            (Line::Revision, "D"),
            (Line::DrawingRevision, "3"),
            (Line::Due, "2026-04-20"),
        ],
    );
    let follows = order::followed(&named);
    assert_eq!(
        (follows.revision, follows.drawing_revision),
        ("D", "3"),
        "never the sheet's"
    );
    assert_eq!((follows.quantity, follows.of), (Some(20), None));
    assert_eq!(follows.due, Some(day(4, 20)));
    // A date that can't be read is not replaced by another one in silence.
    let soon = line(&named, 0, Line::Due, "soon");
    assert_eq!(order::followed(&soon).due, None);
}

#[test]
fn every_difference_blocks_confirmation_traveler_and_certificate() {
    let job = field(&quoted(), Field::LeadDays, "10");
    let job = field(&job, Field::Due, "2026-04-30");
    for (lines, wanted) in [
        (&[(Line::Revision, "D")][..], Topic::Revision(Revised::Part)),
        (
            &[(Line::DrawingRevision, "3")],
            Topic::Revision(Revised::Drawing),
        ),
        (&[(Line::Quantity, "20")], Topic::Quantity),
        (&[(Line::Each, "0")], Topic::Price),
        (&[(Line::Due, "2026-04-29")], Topic::Due),
        (&[(Line::Terms, "90 days net")], Topic::Terms),
        (&[(Line::Paper, "26-0107-Q7")], Topic::Quotation),
    ] {
        let order = pin(&job, SlipKind::Order, lines);
        for paper in [Paper::Confirmation, Paper::Traveler, Paper::Certificate] {
            let way = life::blockers(paper, &order, &Found::default(), None);
            let differs = |blocker: &Blocker| match blocker {
                Blocker::OrderDiffers { topics } => topics.contains(&wanted),
                _ => false,
            };
            assert!(way.iter().any(differs), "{lines:?} {paper:?}: {way:?}");
        }
        let accepted = line(&order, 0, Line::Accepted, "the owner: fifth order");
        assert_eq!(topics(&accepted), [], "{lines:?}");
        for paper in [Paper::Receiving, Paper::Inspection, Paper::Packing] {
            let way = life::blockers(paper, &order, &Found::default(), None);
            assert!(way.iter().all(Blocker::is_waiting), "{paper:?}: {way:?}");
        }
    }
}

#[test]
fn an_acceptance_is_about_what_differed_then_and_nothing_that_came_later() {
    let job = ordered(&[(Line::Quantity, "25"), (Line::Each, "45")]);
    let job = line(&job, 0, Line::Accepted, "the owner");
    assert_eq!(topics(&job), []);
    let revised = line(&job, 0, Line::Revision, "D");
    assert_eq!(topics(&revised), [Topic::Revision(Revised::Part)]);
    let cheaper = line(&job, 0, Line::Each, "40");
    assert_eq!(topics(&cheaper), [Topic::Price], "not at that price");
    let moved = field(&revised, Field::Revision, "E");
    assert_eq!(topics(&moved), [Topic::Revision(Revised::Part)]);
    // The same word once more is about all that differs now.
    let again = line(&revised, 0, Line::Accepted, "the owner");
    assert_eq!(topics(&again), []);
    assert_eq!(topics(&line(&again, 0, Line::Accepted, "")).len(), 2);
    let file = write_job(&job);
    let read = read_job(file.as_bytes()).expect("it opens");
    assert_eq!(read, job);
    assert_eq!(topics(&line(&read, 0, Line::Revision, "D")).len(), 1);
}

#[test]
fn what_was_accepted_is_kept_by_the_program_and_an_old_file_keeps_its_meaning() {
    let job = ordered(&[(Line::Each, "45"), (Line::Accepted, "the owner")]);
    let forged = Edit::SetLine {
        slip: 0,
        line: Line::AcceptedWhat,
        text: "price: 1; 48.2".to_owned(),
        unit: Unit::Mm,
    };
    assert!(quillbore_job::apply(&job, &forged).is_err());
    let text = write_job(&job);
    let kept = text.lines().position(|line| line.contains("accepted_what"));
    let old: Vec<&str> = text
        .lines()
        .enumerate()
        .filter(|(at, _)| Some(*at) != kept)
        .map(|(_, line)| line)
        .collect();
    let old = read_job(old.join("\n").as_bytes()).expect("it opens");
    let order = old.slips_of::<kind::Order>().next().expect("the order");
    assert_eq!(order.get(line::AcceptedWhat), "");
    assert_eq!(topics(&old), [], "then a word stood for everything");
    let later = line(&old, 0, Line::Revision, "D");
    assert_eq!(topics(&later), [Topic::Revision(Revised::Part)]);
    let later = field(&old, Field::Revision, "D");
    assert_eq!(topics(&later), [Topic::Revision(Revised::Part)]);
}

#[test]
fn an_order_that_agrees_again_needs_no_word() {
    let job = ordered(&[
        (Line::Quantity, "25"),
        (Line::Each, "48.2"),
        (Line::Revision, "D"),
    ]);
    let shop = Shop::embedded().expect("the shop");
    let notes = results_quick(&job, shop).notes;
    let note = notes.iter().find(|note| note.code() == "order-differs");
    let note = note.expect("it is told");
    assert_eq!(note.settled_by, Some((0, Line::Accepted)));
    // It can be put on the sheet.
    let agreed = done(&job, &offered(&job, note));
    assert_eq!(agreed.text(Field::Revision), "D");
    // The quotation was for C all the same: its price was made for that.
    let order = agreed.slips_of::<kind::Order>().next().expect("the order");
    assert_eq!(
        order::differences(&agreed, order),
        [Difference::Revision {
            of: Revised::Part,
            ordered: "D".to_owned(),
            quoted: Some("C".to_owned()),
            on_sheet: None
        }]
    );
}

#[test]
fn an_order_without_a_revision_answers_the_quotations() {
    let job = ordered(&[(Line::Quantity, "25"), (Line::Each, "48.2")]);
    assert_eq!(topics(&job), []);
    let moved = field(&job, Field::Revision, "D");
    let order = moved.slips_of::<kind::Order>().next().expect("the order");
    assert_eq!(
        order::differences(&moved, order),
        [Difference::RevisedSince {
            of: Revised::Part,
            quoted: "C".to_owned(),
            on_sheet: "D".to_owned()
        }]
    );
    let drawing = field(&job, Field::DrawingRevision, "3");
    assert_eq!(topics(&drawing), [Topic::Revision(Revised::Drawing)]);
}

#[test]
fn two_orders_are_one_lot_and_a_call_off_is_a_part_of_it() {
    let job = ordered(&[(Line::Quantity, "10"), (Line::Each, "48.2")]);
    assert_eq!(topics(&job), [Topic::Quantity]);
    let both = pin(
        &job,
        SlipKind::Order,
        &[(Line::Quantity, "15"), (Line::Each, "48.2")],
    );
    let newest = both
        .slips_of::<kind::Order>()
        .next_back()
        .expect("the second");
    let of_sheet = |difference: &Difference| matches!(difference, Difference::Quantity { .. });
    let all = order::differences(&both, newest);
    assert!(!all.iter().any(of_sheet), "25 together: {all:?}");
    let all = order::differences(
        &both,
        both.slips_of::<kind::Order>().next().expect("the first"),
    );
    assert!(!all.iter().any(of_sheet), "told on the newest: {all:?}");

    let blanket = ordered(&[
        (Line::Quantity, "100"),
        (Line::Each, "48.2"),
        (Line::Blanket, "yes"),
    ]);
    let first = pin(
        &blanket,
        SlipKind::Release,
        &[(Line::Quantity, "25"), (Line::Due, "2026-05-01")],
    );
    let second = pin(
        &first,
        SlipKind::Release,
        &[(Line::Quantity, "30"), (Line::Due, "2026-06-01")],
    );
    let order = second.slips_of::<kind::Order>().next().expect("the order");
    let all = order::differences(&second, order);
    assert!(!all.iter().any(of_sheet), "a lot is the sheet's: {all:?}");
    let lot = |job: &Job| {
        let follows = order::followed(job);
        (follows.quantity, follows.of, follows.due)
    };
    assert_eq!(lot(&second), (Some(25), Some(100), Some(day(5, 1))));
    let released = issue(&second, Paper::Traveler, &[(25, "")]);
    assert_eq!(lot(&released), (Some(30), Some(100), Some(day(6, 1))));
    let all_out = issue(&released, Paper::Traveler, &[(30, "")]);
    assert_eq!(
        lot(&all_out),
        lot(&released),
        "nothing is called off beyond"
    );
    // What came in parts without a blanket order goes on with the rest.
    let in_parts = line(&all_out, 0, Line::Blanket, "");
    assert_eq!(lot(&in_parts), (Some(45), Some(100), None));
    let rest = issue(&in_parts, Paper::Traveler, &[(45, "")]);
    assert_eq!(lot(&rest), lot(&released), "the last one is shown");
}

#[test]
fn a_price_is_typed_and_free_of_charge_is_a_price_too() {
    let way = |job: &Job| life::blockers(Paper::Confirmation, job, &Found::default(), None);
    let silent = ordered(&[(Line::Quantity, "25")]);
    assert_eq!(way(&silent), [Blocker::NoOrderPrice]);
    let notes = results_quick(&silent, Shop::embedded().expect("the shop")).notes;
    assert!(
        notes
            .iter()
            .any(|note| note.code() == "order-without-price")
    );
    let free = line(&silent, 0, Line::Each, "0");
    assert_eq!(
        way(&free),
        [Blocker::OrderDiffers {
            topics: vec![Topic::Price]
        }]
    );
    let redone = line(&free, 0, Line::Accepted, "Pell: made again, spoiled by us");
    assert_eq!(way(&redone), []);
    // A second order without a price is not confirmed by the price of the first.
    let more = pin(&redone, SlipKind::Order, &[(Line::Quantity, "5")]);
    assert!(way(&more).contains(&Blocker::NoOrderPrice));
}

#[test]
fn what_cannot_be_read_is_named_with_its_slip() {
    let said = |job: &Job, paper| {
        let way = life::blockers(paper, job, &Found::default(), None);
        let unread = |blocker: &&Blocker| matches!(blocker, Blocker::Unread { .. });
        let said: Vec<String> = way.iter().filter(unread).map(life_words::blocker).collect();
        said.join("; ")
    };
    let same = ordered(&[(Line::Quantity, "25"), (Line::Each, "same")]);
    for paper in [Paper::Confirmation, Paper::Traveler, Paper::Certificate] {
        assert_eq!(
            said(&same, paper),
            "price each of the order can't be read: correct it",
            "{paper:?}"
        );
    }
    let again = pin(&same, SlipKind::Order, &[(Line::Each, "as before")]);
    let called = pin(&again, SlipKind::Release, &[(Line::Due, "soon")]);
    let received = pin(&called, SlipKind::Received, &[(Line::Count, "all")]);
    assert_eq!(
        said(&received, Paper::Traveler),
        "price each of the order and due of the call-off and count of the parts received can't be \
         read: correct it"
    );
    let only = pin(&quoted(), SlipKind::Received, &[(Line::Count, "all")]);
    let counted = "count of the parts received can't be read: correct it";
    assert_eq!(said(&only, Paper::Traveler), counted);
    assert_eq!(said(&only, Paper::Confirmation), "");
    let right = ordered(&[(Line::Quantity, "25"), (Line::Each, "86.00")]);
    assert_eq!(said(&right, Paper::Traveler), "");
}

#[test]
fn an_order_is_due_no_earlier_than_was_quoted() {
    // 2026-11-02 is a Monday.
    let quoted = field(&ring(), Field::LeadDays, "8");
    let quoted = issue(&quoted, Paper::Quotation, &[(25, "48.20")]);
    let early = |came: &str, due: &str| {
        let job = pin(
            &quoted,
            SlipKind::Order,
            &[(Line::Date, came), (Line::Due, due)],
        );
        let order = job.slips_of::<kind::Order>().next().expect("the order");
        let all = order::differences(&job, order).into_iter();
        let mut early = all.filter_map(|difference| match difference {
            Difference::DueEarly { earliest, .. } => Some(earliest),
            _ => None,
        });
        early.next()
    };
    assert_eq!(early("2026-11-02", "2026-11-12"), None);
    assert_eq!(early("2026-11-02", "2026-11-11"), Some(day(11, 12)));
    assert_eq!(early("2026-11-06", "2026-11-17"), Some(day(11, 18)));
    assert_eq!(
        early("2026-11-07", "2026-11-17"),
        Some(day(11, 18)),
        "on a Saturday"
    );
}

#[test]
fn a_later_quotation_replaces_the_one_before() {
    let second = issue(&quoted(), Paper::Quotation, &[(25, "50.00")]);
    let numbers = |job: &Job| -> Vec<String> {
        let standing = job.standing(Paper::Quotation);
        standing.map(|issued| issued.number.clone()).collect()
    };
    assert_eq!(numbers(&second), ["26-0107-Q2"]);
    assert_eq!(second.issued[1].replaces, ["26-0107-Q1"]);
    let order = |job: &Job, named: &str| {
        let job = pin(job, SlipKind::Order, &[(Line::Paper, named)]);
        let order = job.slips_of::<kind::Order>().next().expect("the order");
        order::differences(&job, order)
    };
    assert_eq!(
        order(&second, "26-0107-Q1"),
        [Difference::Replaced {
            named: "26-0107-Q1".to_owned(),
            by: "26-0107-Q2".to_owned()
        }]
    );
    assert_eq!(order(&second, "26-0107-Q2"), []);
    let withdrawn = pin(
        &second,
        SlipKind::Withdrawal,
        &[(Line::Paper, "26-0107-Q2"), (Line::Why, "wrong material")],
    );
    assert_eq!(numbers(&withdrawn), [""; 0], "the first one stays replaced");
    assert_eq!(life::state(&withdrawn), life::State::Inquiry);
    let file = write_job(&second);
    assert_eq!(read_job(file.as_bytes()), Ok(second.clone()));
    // What was said of the first one is no answer to the second.
    let lines = [(Line::Paper, "26-0107-Q1"), (Line::Outcome, "declined")];
    let declined = pin(&quoted(), SlipKind::Reply, &lines);
    assert_eq!(life::outcome(&declined), Some(Outcome::Declined));
    let again = issue(&declined, Paper::Quotation, &[(25, "44.00")]);
    assert_eq!(life::outcome(&again), None);
    // Travelers stand side by side.
    let travelers = issue(&second, Paper::Traveler, &[(25, "")]);
    let travelers = issue(&travelers, Paper::Traveler, &[(25, "")]);
    assert_eq!(travelers.standing(Paper::Traveler).count(), 2);
}

#[test]
fn an_open_non_conformance_holds_a_delivery_until_somebody_says_why_not() {
    let sent = pin(&ring(), SlipKind::Delivery, &[(Line::Count, "25")]);
    let open = pin(&sent, SlipKind::Nonconformance, &[(Line::What, "oval")]);
    let papers = [Paper::Packing, Paper::Label, Paper::Certificate];
    let held = |job: &Job| {
        let way = |paper| life::blockers(paper, job, &Found::default(), None);
        papers.map(|paper| way(paper).contains(&Blocker::Undecided))
    };
    let told = |job: &Job| {
        let notes = results_quick(job, Shop::embedded().expect("the shop")).notes;
        notes.iter().any(|note| note.code() == "delivered-open")
    };
    assert_eq!((held(&sent), told(&sent)), ([false; 3], false));
    assert_eq!((held(&open), told(&open)), ([true; 3], true));
    let said = line(
        &open,
        1,
        Line::SendBecause,
        "Ms. Orly takes them as they are",
    );
    assert_eq!((held(&said), told(&said)), ([false; 3], false));
    let second = pin(&said, SlipKind::Nonconformance, &[(Line::What, "burr")]);
    assert_eq!(held(&second), [true; 3], "one word is about one of them");
    let soon = line(&open, 1, Line::Closed, "soon");
    assert_eq!(
        held(&soon),
        [true; 3],
        "a day that can't be read closes nothing"
    );
    let closed = line(&open, 1, Line::Closed, "2026-05-05");
    assert_eq!(held(&closed), [false; 3]);
}

#[test]
fn an_order_of_a_reorder_is_held_against_todays_price_until_it_is_confirmed() {
    let shop = Shop::embedded().expect("the shop");
    let mut job = field(&ring(), Field::Material, "Stainless 316");
    job = field(&job, Field::Machine, "Wren");
    job = field(&job, Field::Again, "25-0388");
    let today = results_quick(&job, shop)
        .figures
        .price
        .expect("a price")
        .breaks[0]
        .each;
    let open = |job: &Job| results_quick(job, shop).found().order_price;
    let order = |each: &str| {
        pin(
            &job,
            SlipKind::Order,
            &[(Line::Quantity, "25"), (Line::Each, each)],
        )
    };
    assert!(!open(&order(&today.to_string())));
    let less = order("1.00");
    assert!(open(&less) && open(&order("100000")));
    assert!(!open(&line(&less, 0, Line::Accepted, "the owner")));
    let confirmed = issue(&less, Paper::Confirmation, &[(25, "1.00")]);
    assert!(!open(&confirmed), "what was confirmed binds the shop");
}

#[test]
fn undo_takes_an_acceptance_back_with_what_it_was_about() {
    let job = ordered(&[(Line::Quantity, "25"), (Line::Each, "45")]);
    let mut history: History = History::new(job.clone(), true);
    let accept = Edit::SetLine {
        slip: 0,
        line: Line::Accepted,
        text: "the owner".to_owned(),
        unit: Unit::Mm,
    };
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    history.do_edit(&accept, doing).expect("it is done");
    assert_eq!(topics(history.now()), []);
    assert!(history.undo().is_some());
    assert_eq!(**history.now(), job);
    assert_eq!(topics(history.now()), [Topic::Price]);
}

#[test]
fn holes_that_are_others_than_were_quoted_are_told_until_somebody_accepts_them() {
    let job = ordered(&[(Line::Number, "PO 7"), (Line::Each, "48.20")]);
    assert_eq!(topics(&job), []);
    let size = |job: &Job, text: &str| cells(job, 0, &["A", "36", text]);
    let quoted = job.rows[0].size.text().to_owned();
    let closer = size(&job, "0.8 +-0.03");
    assert_eq!(topics(&closer), [Topic::Holes]);
    let order = closer.slips_of::<kind::Order>().next().expect("the order");
    let told: Vec<String> = order::differences(&closer, order)
        .iter()
        .map(|difference| life_words::difference(difference, Form::PLAIN))
        .collect();
    let said = format!("A, size: quoted {quoted}, now 0.8 +-0.03.");
    assert!(told.len() == 1 && told[0].ends_with(&said), "{told:?}");
    let accepted = line(&closer, 0, Line::Accepted, "Mr. Tamm");
    assert_eq!(topics(&accepted), []);
    assert_eq!(topics(&size(&accepted, "0.8 +-0.02")), [Topic::Holes]);
    // As it was quoted, and written otherwise, it differs in nothing.
    assert_eq!(topics(&size(&closer, &quoted)), []);
}

#[test]
fn an_order_that_names_the_quotation_of_the_job_before_is_no_order_without_one() {
    let again = quillbore_job::reorder::again(&quoted(), day(6, 1));
    let number = quoted().number;
    for (named, expect) in [
        (format!("{number}-Q1"), vec![]),
        (format!("{}-q1", number.to_lowercase()), vec![]),
        (format!("{number}-T1"), vec![Topic::Quotation]),
        ("25-0001-Q1".to_owned(), vec![Topic::Quotation]),
    ] {
        let lines = [
            (Line::Paper, named.as_str()),
            (Line::Quantity, "25"),
            (Line::Each, "48.20"),
        ];
        let job = pin(&again, SlipKind::Order, &lines);
        assert_eq!(topics(&job), expect, "{named}");
    }
}

/// What a confirmation says beside the holes is what was quoted, or somebody accepted the difference.
#[test]
fn a_cap_or_a_material_that_changed_since_the_quotation_is_a_difference() {
    let sheet = field(&ring(), Field::LiabilityCap, "5000");
    let sheet = field(&sheet, Field::Material, "1.4301");
    let quoted = issue(&sheet, Paper::Quotation, &[(25, "48.20"), (50, "41.00")]);
    let job = pin(&quoted, SlipKind::Order, &[]);
    assert_eq!(topics(&job), []);
    for (changed, text) in [
        (Field::LiabilityCap, ""),
        (Field::LiabilityCap, "50000"),
        (Field::Exclusions, "no honing"),
        (Field::Material, "1.2379"),
    ] {
        let now = field(&job, changed, text);
        assert_eq!(topics(&now), [Topic::Scope], "{changed:?} {text:?}");
        let accepted = line(&now, 0, Line::Accepted, "the owner");
        assert_eq!(topics(&accepted), []);
    }
    // Told after it was left open.
    assert_eq!(topics(&field(&job, Field::Hardness, "44 HRC")), []);
}
