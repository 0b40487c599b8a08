//! What is filled in for whoever sits at the desk: lines of new slips, words of an order, names begun,
//! the price of last time, and what comes next.

#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests fail by panic"
)]

mod hands;

use hands::{cells, day, done, field, issue, line, pin, ring};
use quillbore_job::answer::How;
use quillbore_job::choices::{begun, choices, choices_like};
use quillbore_job::concern::Concern;
use quillbore_job::job::FigureKey;
use quillbore_job::life::Blocker;
use quillbore_job::prefilled::{accept_too, new_slip, release_of};
use quillbore_job::question::{Given, Question, answer_edit};
use quillbore_job::reorder::{self, OtherRate};
use quillbore_job::results::{Missing, NextStep, next_call, results_quick};
use quillbore_job::{Edit, Field, FieldKind, Form, Job, Line, Paper, Shop, SlipKind, Unit};

fn shop() -> &'static Shop {
    Shop::embedded().expect("the shop")
}

fn lines_of(edit: &Edit) -> Vec<(Line, &str)> {
    match edit {
        Edit::AddSlip { lines, .. } => lines.iter().map(|(l, text)| (*l, text.as_str())).collect(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_new_slip_has_the_day_and_who_where_it_has_lines_for_them() {
    let job = ring();
    let new = |kind, by: &str| new_slip(&job, kind, day(5, 4), Form::PLAIN, by);
    let call = new(SlipKind::Call, "Moss");
    assert!(lines_of(&call).contains(&(Line::Date, "2026-05-04")));
    for kind in SlipKind::ALL {
        let slip = new(*kind, "Moss");
        for (line, text) in [(Line::Date, "2026-05-04"), (Line::By, "Moss")] {
            let has = kind.lines().contains(&line);
            assert_eq!(lines_of(&slip).contains(&(line, text)), has, "{kind:?}");
        }
        let nobody = new(*kind, "");
        assert!(!lines_of(&nobody).iter().any(|(line, _)| *line == Line::By));
        done(&job, &slip);
    }
}

#[test]
fn an_order_and_a_reply_name_the_quotation_that_stands() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let job = issue(&job, Paper::Quotation, &[(25, "47.10")]);
    for kind in [SlipKind::Order, SlipKind::Reply] {
        let slip = new_slip(&job, kind, day(5, 4), Form::PLAIN, "");
        let paper = (Line::Paper, "26-0107-Q2");
        assert!(lines_of(&slip).contains(&paper), "{slip:?}");
        // Nothing of what the order itself says.
        assert!(lines_of(&slip).len() == 2, "{slip:?}");
    }
    let call = new_slip(&job, SlipKind::Call, day(5, 4), Form::PLAIN, "");
    assert!(!lines_of(&call).iter().any(|(line, _)| *line == Line::Paper));
}

#[test]
fn a_run_record_is_of_the_first_row_without_one() {
    let job = cells(&ring(), 1, &["B", "4", "1.0", "20"]);
    let mark = |job: &Job| {
        let slip = new_slip(job, SlipKind::Run, day(5, 4), Form::PLAIN, "");
        let lines = lines_of(&slip);
        let mark = lines.iter().find(|(line, _)| *line == Line::Mark);
        mark.map(|(_, text)| (*text).to_owned())
    };
    assert_eq!(mark(&job).as_deref(), Some("A"));
    let job = pin(&job, SlipKind::Run, &[(Line::Mark, "A")]);
    assert_eq!(mark(&job).as_deref(), Some("B"));
    let job = pin(&job, SlipKind::Run, &[(Line::Mark, "B")]);
    assert_eq!(mark(&job), None);
}

#[test]
fn a_part_of_an_order_is_released_by_a_slip_of_its_own() {
    let slip = release_of(&ring(), 12, day(5, 4), Form::PLAIN);
    let lines = [(Line::Date, "2026-05-04"), (Line::Quantity, "12")];
    assert_eq!(lines_of(&slip), lines);
    assert!(matches!(
        slip,
        Edit::AddSlip {
            kind: SlipKind::Release,
            ..
        }
    ));
}

#[test]
fn an_acceptance_is_taken_again_where_one_stands() {
    let job = pin(&ring(), SlipKind::Order, &[(Line::Accepted, " by Moss ")]);
    let edit = accept_too(&job, 0, Line::Accepted);
    let wanted = Edit::SetLine {
        slip: 0,
        line: Line::Accepted,
        text: "by Moss".to_owned(),
        unit: Unit::Mm,
    };
    assert_eq!(edit, Some(wanted));
    assert_eq!(accept_too(&job, 0, Line::Each), None);
    assert_eq!(accept_too(&job, 7, Line::Accepted), None);
    let emptied = line(&job, 0, Line::Accepted, " ");
    assert_eq!(accept_too(&emptied, 0, Line::Accepted), None);
}

#[test]
fn the_last_price_is_kept_for_the_quantity_of_now_and_says_where_it_comes_from() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let last = reorder::last_price(&job, 50).expect("a price");
    let Edit::Overrule {
        figure,
        text,
        reason,
        ..
    } = last.keep(50, Unit::Mm, Form::PLAIN)
    else {
        panic!();
    };
    assert_eq!(figure, FigureKey::UnitPrice(50));
    assert_eq!(text, "48.20");
    assert!(reason.contains("26-0107-Q1"), "{reason}");
}

#[test]
fn rates_that_are_others_today_are_told_and_an_entry_that_was_changed_is_not_relied_on() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let labor = |is| [("labor per hour".to_owned(), is)];
    assert_eq!(reorder::other_rates(&job, &labor(45.5)), []);
    let other = OtherRate {
        name: "labor per hour".to_owned(),
        was: 45.5,
        is: 47.0,
    };
    assert_eq!(reorder::other_rates(&job, &labor(47.0)), [other]);
    assert_eq!(reorder::other_rates(&job, &[]), []);
    let mut changed = job;
    let mut entry = changed.issued[0].as_ref().clone();
    entry.rests_on[0].1 = 40.0;
    changed.issued[0] = entry.into();
    assert_eq!(reorder::other_rates(&changed, &labor(47.0)), []);
}

#[test]
fn the_shops_names_are_chosen_among_and_finished() {
    let shop = shop();
    let begun = |kind, text: &str| begun(kind, shop, text);
    assert_eq!(
        begun(FieldKind::Material, " 6061 alum").as_deref(),
        Some("Aluminum 6061")
    );
    // Several fit, none does, the whole name stands there, nothing was typed.
    for text in ["aluminum", "unobtainium", "aluminum 6061", " "] {
        assert_eq!(begun(FieldKind::Material, text), None, "{text}");
    }
    assert_eq!(begun(FieldKind::YesNo, "y").as_deref(), Some("yes"));
    assert_eq!(begun(FieldKind::Line, "y"), None);
    assert_eq!(choices(FieldKind::Line, shop), None);
    let like = choices_like(FieldKind::Material, shop, "Aluminum");
    let all = [
        "Aluminum 2024",
        "Aluminum 6061",
        "Aluminum 7075",
        "Aluminum alloy, other",
    ];
    assert_eq!(like, all);
}

#[test]
fn one_answer_is_given_to_each_question_that_is_still_asked() {
    let job = ring();
    let row = job.rows[0].id;
    let asked = Question::of(&job, row, Concern::Limits, Default::default());
    let given = Given {
        how: How::Agreed,
        said: "Moss, by phone",
        by: "desk 1",
        date: day(5, 4),
    };
    let edit = |wanted: &[_]| answer_edit([&asked, &asked].into_iter(), wanted, &given);
    let Some(Edit::Answer(answer)) = edit(&[(row, Concern::Limits)]) else {
        panic!();
    };
    assert_eq!((answer.row, answer.how), (row, How::Agreed));
    assert_eq!(
        (answer.said.as_str(), answer.by.as_str()),
        ("Moss, by phone", "desk 1")
    );
    assert_eq!(edit(&[(row, Concern::WallBehind)]), None);
}

#[test]
fn several_edits_are_one_step_and_one_stands_by_itself() {
    let one = || Edit::SetUnit(Unit::Inch);
    assert_eq!(Edit::together(Vec::new()), None);
    assert_eq!(Edit::together(vec![one()]), Some(one()));
    let both = Edit::Together {
        edits: vec![one(), Edit::SetUnit(Unit::Mm)],
    };
    let edits = vec![one(), Edit::SetUnit(Unit::Mm)];
    assert_eq!(Edit::together(edits), Some(both));
}

#[test]
fn a_job_says_what_it_lacks_for_its_next_step() {
    let shop = shop();
    let next = |job: &Job| results_quick(job, shop).next(job, None);
    let NextStep::Quote {
        missing, no_holes, ..
    } = next(&Job::default())
    else {
        panic!();
    };
    assert!(no_holes);
    assert!(missing.contains(&Missing::Material) && missing.contains(&Missing::Quantity));

    // What is missing already says that it can't be priced.
    let NextStep::Quote {
        missing,
        no_holes,
        others,
    } = next(&ring())
    else {
        panic!();
    };
    assert_eq!(missing, [Missing::Material, Missing::Machine]);
    assert!(!no_holes && others.is_empty(), "{others:?}");

    let quoted = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let NextStep::Release(blockers) = next(&quoted) else {
        panic!();
    };
    assert!(blockers.contains(&Blocker::NoOrder));
    let aside = field(&quoted, Field::LaidAside, "no answer for a year");
    assert_eq!(next(&aside), NextStep::Nothing);

    let one = NextStep::Release(vec![Blocker::Missing {
        here: 12,
        ordered: 25,
    }]);
    assert_eq!(one.part_here(), Some(12));
    let two = NextStep::Release(vec![
        Blocker::NoOrder,
        Blocker::Missing {
            here: 12,
            ordered: 25,
        },
    ]);
    assert_eq!(two.part_here(), None);
    assert!(NextStep::Release(Vec::new()).is_ready_to_release());
    assert!(!two.is_ready_to_release());
}

#[test]
fn a_job_on_the_floor_says_how_many_are_still_to_go_and_what_keeps_them() {
    let shop = shop();
    let job = pin(&ring(), SlipKind::Order, &[(Line::Quantity, "25")]);
    let job = issue(&job, Paper::Traveler, &[(25, "48.20")]);
    let job = pin(&job, SlipKind::Delivery, &[(Line::Count, "10")]);
    let next = |job: &Job| results_quick(job, shop).next(job, None);
    let wanted = |held| NextStep::Deliver {
        left: Some(15),
        held,
    };
    assert_eq!(next(&job), wanted(None));
    let trouble = pin(&job, SlipKind::Nonconformance, &[(Line::What, "gouged")]);
    assert_eq!(next(&trouble), wanted(Some(Blocker::Undecided)));
    let why = line(&trouble, 2, Line::SendBecause, "customer agreed");
    assert_eq!(next(&why), wanted(None));
}

#[test]
fn the_quotation_is_asked_about_on_the_latest_day_until_somebody_answers() {
    let job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    assert_eq!(next_call(&job), None);
    let job = field(&job, Field::FollowUp, "2026-03-20");
    assert_eq!(next_call(&job), Some(day(3, 20)));
    let job = pin(&job, SlipKind::Call, &[(Line::CallAgain, "2026-03-27")]);
    assert_eq!(next_call(&job), Some(day(3, 27)));
    let reply = [(Line::Paper, "26-0107-Q1"), (Line::Outcome, "declined")];
    assert_eq!(next_call(&pin(&job, SlipKind::Reply, &reply)), None);
    assert_eq!(
        next_call(&field(&ring(), Field::FollowUp, "2026-03-20")),
        None
    );
}
