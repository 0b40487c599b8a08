//! The highest number that anything on the shelf has in a year.

use chrono::NaiveDate;
use quillbore_job::Job;
use quillbore_office::disk::Disk as _;
use quillbore_office::numbers::{next_number, save_as_next};
use quillbore_office::save::SaveError;
use quillbore_office::shelf::{Commit, CommitError, ShelfError};

use crate::common::forms::{beside, each, file_of, job, key, start};
use crate::common::memory_disk::Node;

fn day(year: i32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, 11, 25).expect("a day")
}

#[test]
fn jobs_and_what_lies_beside_jobs_have_numbers_in_years_of_two_digits_and_of_four() {
    each(|form| {
        let highest = |year| form.desks[1].highest_number(year).expect("a number");
        if form.is_one_file() {
            assert_eq!(
                (highest(26), highest(25), highest(2026)),
                (Some(101), None, None)
            );
            return;
        }
        assert_eq!(highest(26), None);
        for name in [
            "26-0101",
            "26-0099",
            "25-0388",
            "26-0200-ours",
            "ring 26-0300",
        ] {
            start(&form.desks[0], &job(name), b"a job");
        }
        assert_eq!(
            (highest(26), highest(25), highest(24)),
            (Some(101), Some(388), None)
        );
        // One whose job is not there, or not any more, keeps its number too.
        let paper = Commit {
            attachments: vec![beside(&key("26-0117"), "26-0117-Q1.pdf", b"%PDF")],
            documents: Vec::new(),
        };
        form.desks[0].commit(&paper).expect("committed");
        assert_eq!(highest(26), Some(117));
        for name in ["2026-0007", "05-0009", "00-12345"] {
            start(&form.desks[0], &job(name), b"a job");
        }
        let others = (highest(2026), highest(5), highest(0), highest(26));
        assert_eq!(others, (Some(7), Some(9), Some(12_345), Some(117)));
        // What no number can be is none.
        start(&form.desks[0], &job("26-99999999999"), b"a job");
        assert_eq!(highest(26), Some(117));
    });
}

#[test]
fn anything_in_a_folder_keeps_its_number_whatever_it_is() {
    each(|form| {
        let (Some(disk), Some(root)) = (&form.disk, form.root()) else {
            return;
        };
        if form.is_one_file() {
            return;
        }
        let highest = || form.desks[1].highest_number(26).expect("a number");
        for (name, node, number) in [
            ("26-0102.files", Node::Folder, 102),
            ("26-0103.ron", Node::Link, 103),
            ("26-0104.ron", Node::Folder, 104),
            ("26-0105.RON", Node::Other, 105),
            ("26-0106.Files", Node::Link, 106),
            ("26-0107.txt", Node::Folder, 106),
            (".26-0108.ron.0.new", Node::Other, 106),
        ] {
            disk.put(&root.join(name), node);
            assert_eq!(highest(), Some(number), "{name}");
        }
    });
}

#[test]
fn a_new_job_gets_the_number_above_all_others_and_says_so() {
    each(|form| {
        let shelf = &form.desks[0];
        if form.is_one_file() {
            let refused = save_as_next(shelf, &Job::default(), day(2026));
            assert!(
                matches!(
                    refused,
                    Err(SaveError::Commit(CommitError::Shelf(
                        ShelfError::OneFile { .. }
                    )))
                ),
                "{refused:?}"
            );
            return;
        }
        let next = |year| next_number(form.desks[1].as_ref(), day(year)).expect("a number");
        assert_eq!((next(2026), next(2005)), (key("26-0101"), key("05-0101")));
        start(shelf, &job("26-0050"), b"a job");
        assert_eq!(next(2026), key("26-0101"));
        start(shelf, &job("26-0117"), b"a job");
        let opened = save_as_next(shelf, &Job::default(), day(2026)).expect("a number");
        assert_eq!(opened.key, key("26-0118"));
        assert_eq!(opened.base.number, "26-0118");
        assert_eq!(opened.base.opened, Some(day(2026)));
        assert_eq!(next(2026), key("26-0119"));
        let older = Job {
            opened: Some(day(2020)),
            ..Job::default()
        };
        let opened = save_as_next(shelf, &older, day(2026)).expect("a number");
        assert_eq!(
            (opened.key, opened.base.opened),
            (key("26-0119"), Some(day(2020)))
        );
        // No number of a year, whatever it looks like.
        start(shelf, &job("26-4294967295"), b"a job");
        start(shelf, &job("26-1000000"), b"a job");
        assert_eq!(next(2026), key("26-0120"));
        // The last number of all, by somebody's hand: the count goes on where it stood.
        start(shelf, &job("26-999999"), b"a job");
        let opened = save_as_next(shelf, &Job::default(), day(2026)).expect("a number");
        assert_eq!((opened.key, next(2026)), (key("26-0120"), key("26-0121")));
        assert_eq!(next(2027), key("27-0101"));
    });
}

/// Between looking for the highest number and taking the next, another desk takes it.
#[test]
fn a_number_that_another_desk_takes_meanwhile_is_passed_by() {
    each(|form| {
        let (Some(disk), Some(root)) = (&form.disk, form.root()) else {
            return;
        };
        if form.is_one_file() {
            return;
        }
        let mut overtaken = 0;
        for ahead in 0..9 {
            let hundred = ahead + 1;
            let taken = file_of(&root, &job(&format!("26-0{hundred}01")));
            start(&form.desks[0], &job(&format!("26-0{hundred}00")), b"a job");
            let (other, theirs) = (disk.clone(), taken.clone());
            disk.meanwhile(ahead, move || drop(other.write_new(&theirs, b"theirs")));
            let opened = save_as_next(&form.desks[1], &Job::default(), day(2026));
            let opened = opened.expect("a number");
            disk.mend();
            let theirs = disk.file(&taken) == Some(b"theirs".to_vec());
            let ours = if theirs { "02" } else { "01" };
            assert_eq!(opened.key, key(&format!("26-0{hundred}{ours}")));
            overtaken += usize::from(theirs);
        }
        assert!(overtaken > 5, "{overtaken}");
    });
}
