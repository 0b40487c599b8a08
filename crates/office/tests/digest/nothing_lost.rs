//! The day's list held against a plain count over random jobs: each stands once, in the first group that
//! is left, and every matter is told, counted on its line or put off.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use proptest::prelude::{Just, Strategy, prop_oneof, proptest};
use proptest::sample::select;
use proptest::test_runner::Config;
use quillbore_job::order::Difference;
use quillbore_job::{Form, Line, SlipKind};
use quillbore_office::digest::{Digest, Index, OpenMatter, ShelfLine, Summary};
use quillbore_office::today::{Day, Group, PutOff, Today, today};
use quillbore_office::week::five_days;

use crate::jobs::{day, key};

/// Wednesday.
const TODAY: &str = "2026-11-25";

const DAYS: [&str; 6] = [
    "2026-11-20",
    "2026-11-24",
    TODAY,
    "2026-11-26",
    "2026-11-29",
    "2026-11-30",
];

fn a_day() -> impl Strategy<Value = NaiveDate> {
    select(&DAYS[..]).prop_map(day)
}

/// A matter, and the group that it stands in.
fn one() -> impl Strategy<Value = (OpenMatter, Option<Group>)> {
    let slip = 0..9_u32;
    let due = a_day().prop_map(|at| {
        let group = if at < day(TODAY) {
            Some(Group::Late)
        } else {
            (at < day("2026-11-30")).then_some(Group::DueThisWeek)
        };
        let (slip, left) = (None, Some(3));
        let day = at;
        (OpenMatter::Due { day, slip, left }, group)
    });
    let call = (slip.clone(), a_day()).prop_map(|(slip, at)| {
        let group = (at <= day(TODAY)).then_some(Group::CallToday);
        let (day, who) = (at, String::new());
        (OpenMatter::Call { slip, day, who }, group)
    });
    let asked = proptest::option::of(a_day());
    let quotation = (asked, slip.clone()).prop_map(|(follow_up, number)| {
        let is_today = follow_up.is_some_and(|at| at <= day(TODAY));
        let group = if is_today {
            Group::CallToday
        } else {
            Group::NoAnswer
        };
        let (number, date) = (format!("Q{number}"), day("2026-11-11"));
        let quotation = OpenMatter::Quotation {
            number,
            date,
            follow_up,
        };
        (quotation, Some(group))
    });
    let kinds = prop_oneof![
        Just((SlipKind::Call, Group::CallToday)),
        Just((SlipKind::Received, Group::WaitingForParts)),
        Just((SlipKind::Order, Group::OrderDiffers)),
    ];
    let unread = (kinds, slip.clone()).prop_map(|((kind, group), slip)| {
        let (line, typed) = (Line::Date, "soon".to_owned());
        let unread = OpenMatter::Unread {
            slip,
            kind,
            line,
            typed,
        };
        (unread, Some(group))
    });
    let rest = slip.prop_map(|slip| {
        let (what, typed, since) = (String::new(), String::new(), None);
        let number = format!("T{slip}");
        match slip % 7 {
            0 => (OpenMatter::DueUnread { typed }, Some(Group::OrderDiffers)),
            1 => (
                OpenMatter::ToRelease { parts: 2, since },
                Some(Group::ToRelease),
            ),
            2 => (
                OpenMatter::SheetChanged { traveler: number },
                Some(Group::ToRelease),
            ),
            3 => (OpenMatter::EntryChanged { number }, Some(Group::CantRead)),
            4 => {
                let (here, ordered) = (0, 2);
                let parts = OpenMatter::Parts {
                    here,
                    ordered,
                    since,
                };
                (parts, Some(Group::WaitingForParts))
            }
            5 => {
                let (date, more) = (None, 0);
                let what = Difference::NoQuotation;
                let differs = OpenMatter::OrderDiffers {
                    slip,
                    date,
                    what,
                    more,
                };
                (differs, Some(Group::OrderDiffers))
            }
            _ => {
                let date = None;
                let trouble = OpenMatter::Nonconformance { slip, date, what };
                (trouble, Some(Group::Nonconformance))
            }
        }
    });
    prop_oneof![due, call, quotation, unread, rest]
}

/// A job's matters by what each of them is, so that none stands twice.
fn job() -> impl Strategy<Value = Vec<(OpenMatter, Option<Group>)>> {
    proptest::collection::vec(one(), 0..7).prop_map(|matters| {
        let mut once: Vec<(OpenMatter, Option<Group>)> = Vec::new();
        for (open, group) in matters {
            let same = |there: &&(OpenMatter, Option<Group>)| {
                std::mem::discriminant(&there.0) == std::mem::discriminant(&open)
            };
            if once.iter().find(same).is_none() {
                once.push((open, group));
            }
        }
        once
    })
}

fn list(jobs: &[Vec<(OpenMatter, Option<Group>)>], put_off: &PutOff) -> Today {
    let line = |(at, open): (usize, &Vec<(OpenMatter, Option<Group>)>)| {
        let name = format!("26-{at:04}");
        let summary = Summary::default();
        let open = open.iter().map(|(open, _)| open.clone()).collect();
        Arc::new(ShelfLine {
            job: Some(key(&name)),
            name,
            says: Ok(Digest {
                summary,
                open,
                ..Digest::default()
            }),
        })
    };
    let index = Index::new(jobs.iter().enumerate().map(line).collect());
    let asked = Day {
        today: day(TODAY),
        calendar: &five_days(),
        hours: &BTreeMap::new(),
        short: &[],
        put_off,
        form: Form::default(),
    };
    today(&index, &asked)
}

proptest! {
    #![proptest_config(Config { cases: 500, failure_persistence: None, ..Config::default() })]

    #[test]
    fn every_matter_is_told_counted_or_put_off(
        jobs in proptest::collection::vec(job(), 0..12),
        until in a_day(),
        rounds in 0..4_usize,
    ) {
        let mut put_off = PutOff::new();
        // Whatever stands first in each job is put off, round by round.
        for _ in 0..rounds {
            for line in list(&jobs, &put_off).lines {
                put_off.insert(line.matter, until);
            }
        }
        let is_off = until > day(TODAY);
        let found = list(&jobs, &put_off);
        let mut set_aside = 0;
        let mut lines = 0;
        for (at, matters) in jobs.iter().enumerate() {
            let mut groups: Vec<Group> = matters.iter().filter_map(|(_, group)| *group).collect();
            groups.sort_unstable();
            let off = if is_off { rounds.min(groups.len()) } else { 0 };
            set_aside += off;
            let name = format!("26-{at:04}");
            let of_job: Vec<_> = found.lines.iter().filter(|line| line.number == name).collect();
            if off == groups.len() {
                assert!(of_job.is_empty(), "{of_job:?}");
                continue;
            }
            lines += 1;
            let [line] = of_job.as_slice() else {
                unreachable!("{of_job:?}")
            };
            let mut stands = vec![line.matter.group];
            stands.extend(&line.others);
            assert_eq!(stands, groups[off..]);
            assert!(!line.says.is_empty());
        }
        assert_eq!((found.lines.len(), found.foot.set_aside), (lines, set_aside));
        assert_eq!(found.aside.len(), set_aside);
        assert!(found.aside.iter().all(|line| !line.says.is_empty()));
        assert!(found.lines.is_sorted_by_key(|line| (line.matter.group, line.when.is_none(), line.when)));
        let grouped: usize = found.groups().map(|(_, lines)| lines.len()).sum();
        assert_eq!(grouped, lines);
    }
}
