//! Which desk has a job open.

use quillbore_office::shelf::Held;

use crate::common::forms::{each, start};

fn by(held: &Held) -> Option<&str> {
    match held {
        Held::Elsewhere(name) => Some(name),
        Held::Here(_) => None,
        Held::NoLocks | Held::Unknown => panic!("the shelf knows holds"),
    }
}

#[test]
fn a_job_is_held_by_one_desk_and_the_others_hear_its_name_until_it_lets_go() {
    each(|form| {
        start(&form.desks[0], &form.docs[0], b"a job");
        let jobs = form.jobs();
        let job = &jobs[0];
        let ours = form.desks[0].hold(job, "front office");
        assert_eq!(by(&ours), None);
        for desk in &form.desks {
            assert_eq!(by(&desk.hold(job, "the other desk")), Some("front office"));
        }
        // Another job is another hold.
        if let Some(other) = jobs.get(1) {
            assert_eq!(by(&form.desks[1].hold(other, "the other desk")), None);
        }
        drop(ours);
        (form.settle)();
        let theirs = form.desks[1].hold(job, "the other desk");
        assert_eq!(by(&theirs), None);
        assert_eq!(
            by(&form.desks[0].hold(job, "front office")),
            Some("the other desk")
        );
        drop(theirs);
        (form.settle)();
        assert_eq!(by(&form.desks[2].hold(job, "the third")), None);
    });
}

#[test]
fn a_hold_keeps_nobody_from_saving() {
    each(|form| {
        let job = form.job();
        let _ours = form.desks[0].hold(&job, "front office");
        start(&form.desks[1], &form.docs[0], b"theirs");
    });
}

#[test]
fn a_desk_that_calls_itself_strangely_is_told_on_one_short_line() {
    each(|form| {
        let job = form.job();
        for (called, told) in [
            ("", ""),
            ("  front\noffice\u{7} ", "frontoffice"),
            (&"x".repeat(9_000), &"x".repeat(80)),
            (&"\u{f6}".repeat(9_000), &"\u{f6}".repeat(80)),
        ] {
            let ours = form.desks[0].hold(&job, called);
            assert_eq!(by(&form.desks[1].hold(&job, "the other")), Some(told));
            drop(ours);
            (form.settle)();
        }
    });
}

#[test]
fn a_name_that_the_shelf_cannot_keep_is_held_by_nobody() {
    each(|form| {
        if form.is_one_file() {
            let other = crate::common::forms::key("26-0102");
            let held = form.desks[0].hold(&other, "front office");
            assert!(matches!(held, Held::Unknown), "{held:?}");
        }
    });
}
