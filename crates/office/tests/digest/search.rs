//! Finding jobs as one types, in lists that change.

use std::sync::Arc;

use proptest::prelude::{Strategy, prop_oneof, proptest};
use proptest::test_runner::Config;
use quillbore_calc::Idx;
use quillbore_calc::tables::Family;
use quillbore_job::Field;
use quillbore_office::digest::{Digest, Index, ShelfLine, Summary, Wanted, similar};

use crate::jobs::{find, job, key, line, names, with_hole};

/// The plain way of looking: all words in the lower-case text.
fn plainly(lines: &[Arc<ShelfLine>], typed: &str) -> Vec<u32> {
    let words = typed.to_lowercase();
    let has_all = |line: &ShelfLine| {
        let mut text = vec![line.name.to_lowercase()];
        if let Ok(digest) = &line.says {
            let says = &digest.summary;
            let more = [&says.part, &says.customer, &says.state, &says.notes];
            text.extend(more.map(|text| text.to_lowercase()));
        }
        let has = |word| text.iter().any(|text: &String| text.contains(word));
        words.split_whitespace().all(has)
    };
    let places = (0_u32..).zip(lines);
    let found = places.filter(|(_, line)| has_all(line));
    found.map(|(at, _)| at).collect()
}

#[test]
fn a_search_finds_what_a_plain_look_through_every_text_finds() {
    let customers = [
        "Alder Finch Rotors",
        "Dunmoor Hydraulics",
        "Moss & S\u{f6}hne",
        "x",
    ];
    let parts = ["4-118", "SP-510", "11.8/4", ""];
    let lines: Vec<Arc<ShelfLine>> = (0..200)
        .map(|at| {
            line(&job(
                &format!("26-{at:04}"),
                &[
                    (Field::Customer, customers[at % 4]),
                    (Field::Part, parts[at / 4 % 4]),
                    (Field::Notes, if at % 7 == 0 { "call\nMoss" } else { "" }),
                ],
            ))
        })
        .collect();
    let index = Index::new(lines);
    for typed in [
        "",
        "a",
        "4",
        "-",
        "26",
        "0-",
        "118",
        "alder",
        "ALDER 4-118",
        "moss",
        "s\u{f6}hne",
        "\u{f6}",
        "11.8/4 dun",
        "&",
        "rotors hydraulics",
        "0117",
        "call moss",
        "zz",
        "  x  ",
    ] {
        assert_eq!(
            find(&index, typed),
            plainly(&index.lines, typed),
            "{typed:?}"
        );
    }
    assert_eq!(index.lines[0].name, "26-0199", "the newest first");
    let found = index.by_number("26-0042").map(|line| line.name.as_str());
    assert_eq!(found, Some("26-0042"));
    assert!(index.by_number("26-9999").is_none());
}

#[test]
fn jobs_most_like_one_come_first_and_unlike_ones_not_at_all() {
    let nickel = "Nickel alloy 718";
    let steel = "Alloy steel 4340";
    let made = |number, material, quantity, size, depth| {
        let fields = [(Field::Material, material), (Field::Quantity, quantity)];
        line(&with_hole(&job(number, &fields), size, depth))
    };
    let index = Index::new(vec![
        made("26-0101", nickel, "25", "0.8", "14"),
        made("26-0102", nickel, "25", "0.8", "14"),
        made("26-0103", steel, "25", "0.8", "14"),
        made("26-0104", nickel, "25", "1.6", "28"),
        made("26-0105", nickel, "400", "0.8", "14"),
        made("26-0106", nickel, "25", "8", "14"),
    ]);
    let family_of = |name: &str| match name {
        n if n == nickel => Some((Idx::new(0), Family::Nickel)),
        n if n == steel => Some((Idx::new(1), Family::Steel)),
        _ => None,
    };
    let wanted = Wanted {
        number: "26-0102",
        family: Some(Family::Nickel),
        material: Some(Idx::new(0)),
        size_mm: Some(0.8),
        depth_mm: Some(14.0),
        quantity: Some(25),
    };
    let found: Vec<String> = similar(&index, &wanted, &family_of, 9)
        .into_iter()
        .map(|alike| alike.number)
        .collect();
    assert_eq!(found, ["26-0101", "26-0104", "26-0105", "26-0103"]);
    let nothing = Wanted {
        size_mm: None,
        ..wanted
    };
    assert!(similar(&index, &nothing, &family_of, 9).is_empty());
}

#[test]
fn a_job_and_something_with_its_name_are_two_lines() {
    let unusable = ShelfLine {
        name: "ring.ron".to_owned(),
        job: None,
        says: Err("a folder".to_owned()),
    };
    let mut index = Index::new(vec![Arc::new(unusable.clone())]);
    assert!(index.by_number("ring.ron").is_none(), "it is no job");
    index.put(line(&job("ring.ron", &[])));
    assert_eq!(names(&index.lines), ["ring.ron", "ring.ron"]);
    let found = index
        .by_number("ring.ron")
        .and_then(|line| line.job.clone());
    assert_eq!(found, Some(key("ring.ron")));
    index.take_away(&unusable);
    assert_eq!(index.lines.len(), 1);
    assert!(index.by_number("ring.ron").is_some());
}

fn of(name: u16, customer: &str) -> Arc<ShelfLine> {
    let name = format!("26-{name:04}");
    let summary = Summary {
        customer: customer.to_owned(),
        ..Summary::default()
    };
    Arc::new(ShelfLine {
        job: Some(key(&name)),
        name,
        says: Ok(Digest {
            summary,
            ..Digest::default()
        }),
    })
}

/// That an index is just what a new one of these lines is, and finds what a plain look does.
fn is_like_new(index: &Index, lines: &[Arc<ShelfLine>]) {
    let new = Index::new(lines.to_vec());
    assert_eq!(index.lines, new.lines);
    for typed in [
        "", "a", "b", "ab", "ba", "abc", "26-000", "02", "a 01", "c-", "26-0003",
    ] {
        let found = find(index, typed);
        assert_eq!(found, find(&new, typed), "{typed:?}");
        assert_eq!(found, plainly(&index.lines, typed), "{typed:?}");
    }
    for line in lines {
        let found = index.by_number(&line.name).expect("every job is found");
        assert!(Arc::ptr_eq(found, line));
    }
}

#[test]
fn a_list_that_changes_much_gets_a_new_base_and_stays_the_same_list() {
    let mut lines: Vec<Arc<ShelfLine>> = (0..900).map(|at| of(at, "abc-a")).collect();
    let mut index = Index::new(lines.clone());
    let mut settled = 0;
    for at in 0..300_u16 {
        let line = of(at * 3, "b-c");
        lines[usize::from(at) * 3] = Arc::clone(&line);
        index.put(line);
        // Each of them is a line beside the base and one of the base that is left out.
        settled += u16::from(index.settle());
    }
    is_like_new(&index, &lines);
    assert_eq!(settled, 1);
    // Few differences are put in, many make a new base; both come to the same.
    lines.remove(3);
    lines.push(of(7_000, "ab"));
    index.follow(lines.clone());
    is_like_new(&index, &lines);
    lines.truncate(100);
    index.follow(lines.clone());
    is_like_new(&index, &lines);
}

#[derive(Clone, Debug)]
enum Step {
    Put(u16, String),
    TakeAway(u16),
    Follow(Vec<(u16, String)>),
    Settle,
}

fn steps() -> impl Strategy<Value = Step> {
    let text = || "[abcAB-]{0,5}( [abc0-3-]{1,4})?";
    let number = || 0..30_u16;
    prop_oneof![
        8 => (number(), text()).prop_map(|(at, text)| Step::Put(at, text)),
        4 => number().prop_map(Step::TakeAway),
        1 => proptest::collection::vec((number(), text()), 0..20).prop_map(Step::Follow),
        1 => proptest::strategy::Just(Step::Settle),
    ]
}

proptest! {
    #![proptest_config(Config { cases: 200, failure_persistence: None, ..Config::default() })]

    #[test]
    fn an_index_that_is_changed_is_the_same_as_a_new_one(
        first in proptest::collection::vec((0..30_u16, "[abcAB-]{0,5}"), 0..30),
        story in proptest::collection::vec(steps(), 1..25),
        typed in "[abcB0-3-]{1,3}( [abc0-3-]{1,3})?",
    ) {
        // A later line of a number takes the place of an earlier one.
        let mut lines: std::collections::BTreeMap<u16, Arc<ShelfLine>> =
            first.iter().map(|(at, text)| (*at, of(*at, text))).collect();
        let mut index = Index::new(lines.values().cloned().collect());
        for step in story {
            match step {
                Step::Put(at, text) => {
                    lines.insert(at, of(at, &text));
                    index.put(Arc::clone(&lines[&at]));
                }
                Step::TakeAway(at) => {
                    lines.remove(&at);
                    index.take_away(&of(at, ""));
                }
                Step::Follow(to) => {
                    lines = to.iter().map(|(at, text)| (*at, of(*at, text))).collect();
                    index.follow(lines.values().cloned().collect());
                }
                Step::Settle => {
                    index.settle();
                }
            }
            let lines: Vec<_> = lines.values().cloned().collect();
            is_like_new(&index, &lines);
            assert_eq!(find(&index, &typed), plainly(&index.lines, &typed));
        }
    }
}
