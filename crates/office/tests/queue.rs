//! What comes first on a machine: which jobs of the shelf, and the hours that they still take.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod common;

use std::sync::Arc;

use common::{Clerk, day, inquiry, office_in_memory, to_release};
use quillbore_job::results::promise::hours_left;
use quillbore_job::{Field, Line, Paper, SlipKind};
use quillbore_office::Office;
use quillbore_office::names::JobKey;
use quillbore_office::office::queue::Queue;

/// A job that was ordered, with so many parts here, on a machine.
fn ordered(office: &Arc<Office>, machine: &str, here: &str) -> Clerk {
    let mut clerk = inquiry(office);
    clerk.field(Field::Machine, machine);
    clerk.pin(SlipKind::Order, &[(Line::Quantity, "12")]);
    if !here.is_empty() {
        clerk.pin(SlipKind::Received, &[(Line::Count, here)]);
    }
    clerk.save().expect("saved");
    clerk
}

fn hours(clerk: &Clerk) -> f64 {
    let shop = clerk.office.shop_as_taught(day());
    hours_left(&clerk.job, &shop).expect("hours")
}

/// What comes first before a job that is on no shelf yet.
fn before(clerk: &Clerk) -> Queue {
    let own = JobKey::new(clerk.number());
    let own = own.unwrap_or_else(|_| common::key("99-9999"));
    let queue = clerk.office.queue_before(&clerk.job, &own, day());
    queue.expect("the shelf is read")
}

/// Hours and jobs; none of them without hours.
#[track_caller]
fn assert_queue(found: Queue, hours: f64, jobs: usize) {
    assert!((found.hours - hours).abs() < 1e-9, "{found:?}, not {hours}");
    assert_eq!((found.jobs, found.without_hours), (jobs, 0));
}

#[test]
fn ordered_jobs_on_the_same_machine_come_first_and_no_others() {
    let (office, _) = office_in_memory();
    let asks = inquiry(&office);
    assert_eq!(before(&asks), Queue::default(), "an empty shelf");
    inquiry(&office).save().expect("saved");
    common::quoted(&office);
    ordered(&office, "Barrow", "");
    assert_eq!(
        before(&asks),
        Queue::default(),
        "asked, quoted, on another machine"
    );
    let waits = ordered(&office, "Wren", "");
    let here = ordered(&office, " wren ", "12");
    let all = hours(&waits) + hours(&here);
    assert!(hours(&waits) > 0.1);
    assert_queue(before(&asks), all, 2);
    // Nobody comes before itself, and who has its parts comes before who has not.
    assert_queue(before(&waits), hours(&here), 1);
    assert_queue(before(&here), 0.0, 0);
    let mut floor = to_release(&office);
    assert_queue(before(&here), hours(&floor), 1);
    floor.issue(Paper::Traveler);
    assert_queue(before(&asks), all + hours(&floor), 3);
    assert_queue(before(&floor), 0.0, 0);
    // A part of it delivered leaves the rest; all of it leaves nothing.
    let whole = hours(&floor);
    floor.pin(SlipKind::Delivery, &[(Line::Count, "9")]);
    floor.save().expect("saved");
    assert_queue(before(&asks), all + whole * 0.25, 3);
    floor.pin(SlipKind::Delivery, &[(Line::Count, "3")]);
    floor.save().expect("saved");
    assert_queue(before(&asks), all, 2);
    // Without a machine nothing is known to wait for it.
    let mut bare = inquiry(&office);
    bare.field(Field::Machine, "");
    assert_eq!(before(&bare), Queue::default());
}

#[test]
fn a_job_without_hours_is_counted_as_one() {
    let (office, _) = office_in_memory();
    let mut vague = ordered(&office, "Wren", "");
    vague.field(Field::Material, "");
    vague.save().expect("saved");
    let found = before(&inquiry(&office));
    let none = Queue {
        without_hours: 1,
        ..Queue::default()
    };
    assert_eq!(found, none);
    // One that is gone, or that nobody can read, has none either.
    assert_eq!(office.queue(&[common::key("26-7777")], day()), none);
    // Each for itself, those that have hours are known.
    let known = ordered(&office, "Wren", "");
    let jobs = [vague.number(), "26-7777", known.number()].map(common::key);
    let each = office.hours_each(&jobs, day());
    assert_eq!(each.len(), 1);
    assert!((each[&jobs[2]] - hours(&known)).abs() < 1e-9);
    let many: Vec<JobKey> = (0..201)
        .map(|at| common::key(&format!("26-{:04}", 7000 + at)))
        .collect();
    assert_eq!(office.queue(&many, day()).without_hours, 201);
}
