//! Whatever stops a look, and whatever gets lost with a crash: nothing stays unread.

use std::sync::Arc;

use proptest::prelude::{Just, Strategy, any, prop_oneof, proptest};
use proptest::test_runner::Config;
use quillbore_job::{Field, Job};
use quillbore_office::digest::{Follower, Index, ShelfLine};
use quillbore_office::shelf::memory::Fault;
use quillbore_office::shelf::{Doc, Memory};

use crate::jobs::{job, key, look, put, put_bytes, shelf};

fn of(number: u8, customer: u8) -> Job {
    let customer = format!("customer {customer}");
    job(&name(number), &[(Field::Customer, &customer)])
}

fn name(number: u8) -> String {
    format!("26-01{number:02}")
}

/// The lines of a shelf as one sees them who reads all of it.
fn plainly(shelf: &Memory) -> Vec<Arc<ShelfLine>> {
    let mut follower = Follower::default();
    look(&mut follower, shelf);
    Index::new(follower.lines()).lines
}

fn known(follower: &Follower) -> Vec<Arc<ShelfLine>> {
    Index::new(follower.lines()).lines
}

fn again(follower: &mut Follower) -> Follower {
    Follower::from_cache(&follower.to_cache()).expect("a cache of this version")
}

/// Every call of a look fails once, in both ways; the program goes on, or is started again.
#[test]
fn whichever_call_of_a_look_fails_the_next_look_reads_the_rest() {
    for restarts in [false, true] {
        for fault in [Fault::Refused, Fault::Gone] {
            for at in 0..9 {
                let shelf = shelf(1);
                for number in 0..4 {
                    put(&shelf, &of(number, 0));
                }
                let mut follower = Follower::default();
                look(&mut follower, &shelf);
                for number in 1..6 {
                    put(&shelf, &of(number, 1));
                }
                put_bytes(&shelf, &name(2), b"no job");
                shelf.take_away(&Doc::Job(key(&name(3))));
                shelf.break_at(shelf.calls() + at, fault);
                let _ = follower.look(&shelf, &mut |_| true);
                if restarts {
                    follower = again(&mut follower);
                }
                shelf.mend();
                look(&mut follower, &shelf);
                assert_eq!(known(&follower), plainly(&shelf), "{fault:?} at call {at}");
            }
        }
    }
}

#[derive(Clone, Debug)]
enum Step {
    /// Another desk saves a job.
    Save(u8, u8),
    /// Something that is no job stands in a job's place.
    Spoil(u8),
    /// A job is taken away.
    TakeAway(u8),
    /// This desk hears, early or late, that it saved a job.
    Took(u8, u8),
    /// A look in which one call goes wrong, where it has that many, or that is stopped at once.
    Look {
        fault: Option<(u64, bool)>,
        stops: bool,
    },
    /// The cache is written.
    Keep,
    /// The program crashes and is started again.
    Crash,
    /// The shelf comes back.
    Mend,
}

fn steps() -> impl Strategy<Value = Step> {
    let (number, customer) = (0..6_u8, 0..3_u8);
    prop_oneof![
        4 => (number.clone(), customer.clone()).prop_map(|(at, who)| Step::Save(at, who)),
        1 => number.clone().prop_map(Step::Spoil),
        2 => number.clone().prop_map(Step::TakeAway),
        2 => (number, customer).prop_map(|(at, who)| Step::Took(at, who)),
        4 => (proptest::option::of((0..10_u64, any::<bool>())), proptest::bool::weighted(0.2))
            .prop_map(|(fault, stops)| Step::Look { fault, stops }),
        2 => Just(Step::Keep),
        2 => Just(Step::Crash),
        1 => Just(Step::Mend),
    ]
}

proptest! {
    #![proptest_config(Config { cases: 400, failure_persistence: None, ..Config::default() })]

    #[test]
    fn after_any_story_one_whole_look_knows_what_a_first_look_would(
        story in proptest::collection::vec(steps(), 1..40)
    ) {
        let shelf = shelf(1);
        let mut follower = Follower::default();
        let mut kept: Option<Vec<u8>> = None;
        for step in story {
            match step {
                // The others have a shelf that works.
                Step::Save(number, customer) => {
                    shelf.mend();
                    put(&shelf, &of(number, customer));
                }
                Step::Spoil(number) => {
                    shelf.mend();
                    put_bytes(&shelf, &name(number), b"no job");
                }
                Step::TakeAway(number) => shelf.take_away(&Doc::Job(key(&name(number)))),
                Step::Took(number, customer) => {
                    follower.took(&key(&name(number)), &of(number, customer));
                }
                Step::Look { fault, stops } => {
                    if let Some((at, gone)) = fault {
                        let fault = if gone { Fault::Gone } else { Fault::Refused };
                        shelf.break_at(shelf.calls() + at, fault);
                    }
                    let _ = follower.look(&shelf, &mut |_| !stops);
                }
                Step::Keep => kept = Some(follower.to_cache()),
                Step::Crash => {
                    let cache = kept.as_deref().and_then(Follower::from_cache);
                    follower = cache.unwrap_or_default();
                }
                Step::Mend => shelf.mend(),
            }
        }
        shelf.mend();
        look(&mut follower, &shelf);
        assert_eq!(known(&follower), plainly(&shelf));
    }
}
