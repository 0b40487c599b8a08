//! Issuing looks first: nothing is released that somebody changed meanwhile, no number is given
//! twice, and what a crash left half done is told or completed.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]

mod common;

use std::fs;
use std::path::Path;
use std::sync::Arc;

use common::{Clerk, inquiry, key, office, office_in_memory, pdf, quoted, to_release};
use quillbore_job::{Column, Edit, Field, Job, Line, Paper, SealState, SlipKind, Unit};
use quillbore_office::issue::NotIssued;
use quillbore_office::names::AttachmentName;
use quillbore_office::office::Wanted;
use quillbore_office::shelf::Doc;
use quillbore_office::shelf::memory::Fault;

fn deeper(clerk: &mut Clerk) {
    clerk.edit(&Edit::SetCells {
        at: quillbore_job::CellAt {
            row: 0,
            column: Column::Depth,
        },
        rows: vec![vec![Some("14".to_owned())]],
        unit: Unit::Mm,
    });
}

#[test]
fn a_stale_desk_releases_no_traveler_with_old_holes() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut stale = to_release(&office);
    let mut other = Clerk::opening(&office, stale.number());
    deeper(&mut other);
    other.save().expect("saved");
    let before = fs::read(folder.path().join("26-0101.ron")).expect("the job");
    let not = stale
        .try_issue(Paper::Traveler)
        .expect_err("somebody saved meanwhile");
    let NotIssued::SavedMeanwhile { jobs, .. } = &not else {
        panic!("{not:?}");
    };
    assert_eq!(jobs, &[key("26-0101")]);
    assert!(
        !pdf(folder.path(), "26-0101-T1").exists(),
        "no paper was written"
    );
    assert_eq!(
        fs::read(folder.path().join("26-0101.ron")).expect("the job"),
        before
    );
    // Once they have looked, the paper has the new holes and the first number.
    let mut looked = Clerk::opening(&office, "26-0101");
    let refused = looked.refused(Paper::Traveler);
    assert!(refused.contains("the order differs (holes)"), "{refused}");
    let order = looked.job.slips[0].id;
    looked.type_on(order, Line::Accepted, "Ms. Arl: deeper is fine");
    let traveler = looked.issue(Paper::Traveler);
    assert_eq!(traveler.number, "26-0101-T1");
    assert!(traveler.pages.join("\n").contains("14"));
}

#[test]
fn two_desks_that_issue_at_once_never_get_one_number() {
    let (office, _) = office_in_memory();
    let mut first = quoted(&office);
    let mut second = Clerk::opening(&office, first.number());
    assert_eq!(first.issue(Paper::Quotation).number, "26-0101-Q2");
    assert!(matches!(
        second.try_issue(Paper::Quotation),
        Err(NotIssued::SavedMeanwhile { .. })
    ));
    let mut second = Clerk::opening(&office, "26-0101");
    assert_eq!(second.issue(Paper::Quotation).number, "26-0101-Q3");
}

#[test]
fn a_number_is_above_every_file_and_the_file_stays_as_it_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = quoted(&office);
    let letter = pdf(folder.path(), "26-0101-Q5");
    fs::write(&letter, "a letter").expect("written");
    assert_eq!(clerk.issue(Paper::Quotation).number, "26-0101-Q6");
    assert_eq!(fs::read(&letter).expect("the letter"), b"a letter");
}

#[test]
fn a_folder_that_has_the_papers_name_is_passed_over_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = quoted(&office);
    // It is no attachment, so nothing lists it.
    let taken = pdf(folder.path(), "26-0101-Q2");
    fs::create_dir(&taken).expect("made");
    assert_eq!(clerk.issue(Paper::Quotation).number, "26-0101-Q3");
    assert!(taken.is_dir() && pdf(folder.path(), "26-0101-Q3").is_file());
}

#[test]
fn a_paper_whose_entry_a_crash_prevented_is_told_and_its_number_not_given_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let mut clerk = to_release(&office);
    // As if the power had gone between the paper and the job.
    fs::write(
        pdf(folder.path(), "26-0101-T1"),
        "%PDF of the interrupted issue",
    )
    .expect("a paper");
    let open = |office: &Arc<quillbore_office::Office>| {
        let wanted = Wanted::Key(key("26-0101"));
        office
            .open(&wanted, "front office", &[])
            .expect("it opens")
            .told
    };
    let told = open(&office);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].contains("26-0101-T1") && told[0].contains("Interrupted"),
        "{told:?}"
    );
    assert_eq!(clerk.issue(Paper::Traveler).number, "26-0101-T2");
    assert_eq!(
        open(&office).len(),
        1,
        "it is told until somebody settles it"
    );
    clerk.pin(SlipKind::Withdrawal, &[(Line::Paper, "26-0101-t1 ")]);
    clerk.save().expect("saved");
    assert_eq!(open(&office), Vec::<String>::new());
}

#[test]
fn nothing_is_issued_from_a_copy_or_from_a_file_on_no_shelf() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    quoted(&office);
    // Copied by hand: both files would give the number 26-0101-Q2.
    fs::copy(
        folder.path().join("26-0101.ron"),
        folder.path().join("26-0500.ron"),
    )
    .expect("copied");
    let mut copy = Clerk::opening(&office, "26-0500");
    let said = copy.refused(Paper::Quotation);
    assert!(
        said.contains("26-0500") && said.contains("save as"),
        "{said}"
    );
    let elsewhere = tempfile::tempdir().expect("a folder");
    let path = elsewhere.path().join("26-0101.ron");
    fs::copy(folder.path().join("26-0101.ron"), &path).expect("copied");
    let on_desk = office
        .open(&Wanted::Path(path), "front office", &[])
        .expect("it opens");
    let mut loose = Clerk {
        office: Arc::clone(&office),
        job: on_desk.job,
        opened: Some(on_desk.opened),
    };
    let said = loose.refused(Paper::Quotation);
    assert!(said.contains("not on a shelf"), "{said}");
    assert_eq!(files_beside(elsewhere.path()), Vec::<String>::new());
}

fn files_beside(root: &Path) -> Vec<String> {
    let mut names = Vec::new();
    for entry in fs::read_dir(root).expect("the folder") {
        let name = entry
            .expect("an entry")
            .file_name()
            .to_string_lossy()
            .into_owned();
        if name.ends_with(".pdf") {
            names.push(name);
        }
    }
    names
}

#[test]
fn a_job_saved_under_another_name_leaves_its_papers_behind() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let clerk = quoted(&office);
    let path = folder.path().join("26-0700.ron");
    let saved = office
        .save_as(&clerk.job, &path, common::day())
        .expect("saved");
    assert_eq!(saved.left_behind, ["26-0101-Q1"]);
    assert_eq!(
        (saved.job.number.as_str(), saved.job.issued.len()),
        ("26-0700", 0)
    );
    let mut copy = Clerk::opening(&office, "26-0700");
    assert_eq!(copy.issue(Paper::Quotation).number, "26-0700-Q1");
    // Under its own name elsewhere it is the same job.
    let elsewhere = tempfile::tempdir().expect("a folder");
    let path = elsewhere.path().join("26-0101.ron");
    let same = office
        .save_as(&clerk.job, &path, common::day())
        .expect("saved");
    assert_eq!((same.left_behind.len(), same.job.issued.len()), (0, 1));
}

/// Two inquiries of one customer, saved.
fn two(office: &Arc<quillbore_office::Office>) -> (Clerk, Clerk) {
    let (mut first, mut second) = (inquiry(office), inquiry(office));
    first.save().expect("saved");
    second.field(Field::Part, "GP-13");
    second.save().expect("saved");
    (first, second)
}

fn together(first: &Clerk, second: &Clerk) -> quillbore_office::issue::ToIssue {
    let mut wanted = first.to_issue(Paper::Quotation);
    wanted.others.push(second.seen());
    wanted
}

#[test]
fn a_quotation_of_two_jobs_is_written_to_both_or_to_none() {
    let (office, _) = office_in_memory();
    let (first, second) = two(&office);
    // Somebody changes the second one meanwhile: neither gets an entry, and there is no paper.
    let mut other = Clerk::opening(&office, second.number());
    deeper(&mut other);
    other.save().expect("saved");
    let not = office
        .issue(&together(&first, &second))
        .expect_err("the second is stale");
    assert!(matches!(&not, NotIssued::SavedMeanwhile { jobs, .. } if *jobs == [key("26-0102")]));
    let beside = office
        .shelf
        .attachments(&key("26-0101"))
        .expect("the names");
    assert_eq!(beside, []);
    assert_eq!(Clerk::opening(&office, "26-0101").job.issued.len(), 0);
    let now = office.issue(&together(&first, &other)).expect("issued");
    assert_eq!(now.others.len(), 1);
    for (name, kept_by) in [("26-0101", None), ("26-0102", Some("26-0101"))] {
        let job = Clerk::opening(&office, name).job;
        let entry = job.standing(Paper::Quotation).next().expect("an entry");
        assert_eq!(entry.number, "26-0101-Q1");
        assert_eq!(entry.kept_by.as_deref(), kept_by);
        assert_eq!(entry.seal_state(), SealState::Sealed);
        let frozen = entry.inputs.as_ref().expect("its own sheet");
        assert_eq!(frozen.number, name);
    }
}

#[test]
fn a_half_done_joint_quotation_is_completed_from_its_keepers_entry() {
    for through_keeper in [true, false] {
        let (office, now) = half_done();
        assert!(now.told[0].contains("26-0101-Q1"), "{:?}", now.told);
        assert_eq!(entries(&office, "26-0101"), 1);
        assert_eq!(entries(&office, "26-0102"), 0);
        let (wanted, keepers) = if through_keeper {
            (key("26-0101"), vec![])
        } else {
            (key("26-0102"), vec![key("26-0101")])
        };
        let on_desk = office.open(&Wanted::Key(wanted), "front office", &keepers);
        let told = on_desk.expect("it opens").told.join(" ");
        assert!(told.contains("completed"), "{told}");
        assert_eq!(entries(&office, "26-0102"), 1);
        let job = Clerk::opening(&office, "26-0102").job;
        assert_eq!(job.issued[0].kept_by.as_deref(), Some("26-0101"));
        assert!(
            job.issued[0].inputs.is_some(),
            "its sheet still gives those prices"
        );
    }
}

#[test]
fn a_joint_quotation_that_only_the_first_commit_cut_short_is_completed_at_once() {
    let (office, memory) = office_in_memory();
    let (first, second) = two(&office);
    for at in memory.calls()..memory.calls() + 20 {
        memory.break_at(at, Fault::After(1));
    }
    let now = office.issue(&together(&first, &second)).expect("issued");
    assert_eq!(now.told, Vec::<String>::new());
    assert_eq!(
        (entries(&office, "26-0101"), entries(&office, "26-0102")),
        (1, 1)
    );
}

/// An office whose shelf gave way twice: after the keeper's job, and when the rest was tried again.
fn half_done() -> (
    Arc<quillbore_office::Office>,
    quillbore_office::issue::IssuedNow,
) {
    // Which of the calls is the commit: the one after which something is to be told.
    for ahead in 0..20 {
        let (office, memory) = office_in_memory();
        let (first, second) = two(&office);
        let at = memory.calls() + ahead;
        memory.break_at(at, Fault::After(1));
        memory.break_at(at + 1, Fault::Refused);
        let done = office.issue(&together(&first, &second));
        memory.mend();
        if let Ok(now) = done
            && !now.told.is_empty()
        {
            return (office, now);
        }
    }
    panic!("no commit of two jobs was made");
}

fn entries(office: &quillbore_office::Office, name: &str) -> usize {
    let stored = office
        .shelf
        .read(&Doc::Job(key(name)))
        .expect("read")
        .expect("there");
    let job: Job = quillbore_job::file::read_job(&stored.bytes).expect("a job");
    job.issued.len()
}

#[test]
fn what_is_issued_while_the_shelf_is_gone_is_not_issued_at_all() {
    let (office, memory) = office_in_memory();
    let mut clerk = quoted(&office);
    memory.break_at(memory.calls(), Fault::Gone);
    let said = clerk.refused(Paper::Quotation);
    assert!(said.contains("not there"), "{said}");
    memory.mend();
    let name = AttachmentName::new("26-0101-Q2.pdf").expect("a name");
    assert_eq!(office.shelf.attachment(&key("26-0101"), &name), Ok(None));
    assert_eq!(clerk.issue(Paper::Quotation).number, "26-0101-Q2");
}

#[test]
fn a_new_job_takes_no_number_where_another_of_its_quotation_is_on_no_shelf() {
    let folder = tempfile::tempdir().expect("a folder");
    let office = office(folder.path());
    let copies = tempfile::tempdir().expect("a folder");
    let mut saved = inquiry(&office);
    saved.save().expect("saved");
    let copy = copies.path().join("26-0101.ron");
    fs::copy(folder.path().join("26-0101.ron"), &copy).expect("copied");
    let loose = office
        .open(&Wanted::Path(copy), "the front office", &[])
        .expect("it opens");
    let on_no_shelf = Clerk {
        office: Arc::clone(&office),
        job: loose.job,
        opened: Some(loose.opened),
    };
    for other in [inquiry(&office).seen(), on_no_shelf.seen()] {
        let mut wanted = inquiry(&office).to_issue(Paper::Quotation);
        wanted.others.push(other);
        let not = office.issue(&wanted).expect_err("nothing is issued");
        let NotIssued::Failed { numbered, .. } = &not else {
            panic!("{not:?}");
        };
        assert!(numbered.is_none());
        let jobs = fs::read_dir(folder.path()).expect("the shelf").count();
        assert!(
            !folder.path().join("26-0102.ron").exists(),
            "a number was taken: {jobs} names on the shelf"
        );
    }
}
