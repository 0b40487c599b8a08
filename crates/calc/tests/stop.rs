//! A search that is stopped has no answer; one that is not is none the worse for being asked.

use std::cell::Cell;

use quillbore_calc::order::{Ends, Metric, OrderEffort, hole_order, hole_order_until};
use quillbore_calc::packing::{Effort, Electrode, HoleKind, PackingAsked, electrodes_for_lot};

/// Kinds of which three go on an electrode with next to nothing left: proof and repacking both look.
fn kinds() -> Vec<HoleKind> {
    let kinds = (0..30).map(|id: u32| HoleKind {
        id,
        reach_mm: f64::from(id % 5) * 2.0,
        consume_mm: 80.0 + f64::from(id * 37 % 23) + f64::from(id) * 0.07,
        count: 1,
    });
    kinds.collect()
}

fn points() -> Vec<[f64; 2]> {
    let place = |at: u32| [f64::from(at * 37 % 101), f64::from(at * 59 % 97)];
    (0..60).map(place).collect()
}

#[test]
fn a_stopped_packing_is_none_however_late_it_is_stopped() {
    let asked = PackingAsked::new(&kinds(), &Electrode::new(280.0), Effort::default());
    let counted = Cell::new(0_u32);
    let whole = asked.question.answer(&|| {
        counted.set(counted.get() + 1);
        false
    });
    let times = counted.get();
    assert!(times > 100, "asked {times} times");
    let plan = asked.plan(&whole.unwrap());
    let at_once = electrodes_for_lot(&kinds(), &Electrode::new(280.0), &Effort::default());
    assert_eq!(plan, at_once);
    for at in [1, times / 2, times] {
        counted.set(0);
        let stopped = asked.question.answer(&|| {
            counted.set(counted.get() + 1);
            counted.get() >= at
        });
        assert_eq!(stopped, None, "stopped at {at} of {times}");
    }
}

#[test]
fn questions_are_equal_whatever_their_kinds_are_called_and_however_they_are_listed() {
    let electrode = Electrode::new(280.0);
    let mut other = kinds();
    other.reverse();
    for kind in &mut other {
        kind.id += 1_000;
    }
    let ask = |kinds: &[HoleKind]| PackingAsked::new(kinds, &electrode, Effort::default());
    let (one, two) = (ask(&kinds()), ask(&other));
    assert_eq!(one.question, two.question);
    // The answer to the one is told by the names of the other.
    let found = one.question.answer(&|| false).unwrap();
    assert_eq!(
        two.plan(&found),
        electrodes_for_lot(&other, &electrode, &Effort::default())
    );
    other[0].consume_mm += 0.001;
    assert_ne!(one.question, ask(&other).question);
}

#[test]
fn a_stopped_order_is_none_however_late_it_is_stopped() {
    let (points, effort) = (points(), OrderEffort::for_holes(60));
    for ends in [Ends::Open, Ends::From(3), Ends::Closed] {
        let order = |stop: &dyn Fn() -> bool| {
            hole_order_until(&points, Metric::Straight, ends, &effort, stop)
        };
        let counted = Cell::new(0_u64);
        let whole = order(&|| {
            counted.set(counted.get() + 1);
            false
        });
        assert_eq!(
            whole,
            Some(hole_order(&points, Metric::Straight, ends, &effort))
        );
        let times = counted.get();
        assert!(times >= effort.kicks, "{times} of {}", effort.kicks);
        for at in [1, times / 2, times] {
            counted.set(0);
            let stopped = order(&|| {
                counted.set(counted.get() + 1);
                counted.get() >= at
            });
            assert_eq!(stopped, None, "{ends:?} stopped at {at} of {times}");
        }
    }
}

/// As many kicks as the effort says for a ring, half as many again for a path; it is asked at each.
#[test]
fn an_order_takes_the_kicks_of_its_effort() {
    let effort = OrderEffort {
        kicks: 1000,
        seed: 1,
    };
    for (ends, kicks) in [
        (Ends::Closed, 1000),
        (Ends::Open, 1500),
        (Ends::From(3), 1500),
    ] {
        let counted = Cell::new(0_u64);
        let found = hole_order_until(&points(), Metric::Straight, ends, &effort, &|| {
            counted.set(counted.get() + 1);
            false
        });
        assert!(found.is_some());
        assert_eq!(counted.get(), kicks, "{ends:?}");
    }
}

/// The same question with another effort is another question, and the same again with the first.
#[test]
fn a_question_with_another_effort_is_another() {
    let ask = |effort| PackingAsked::new(&kinds(), &Electrode::new(250.0), effort).question;
    let (settled, first) = (ask(Effort::default()), ask(Effort::quick()));
    assert_ne!(settled, first);
    assert_eq!(settled.with(Effort::quick()), first);
    assert_eq!(first.with(Effort::default()), settled);
}
