//! A job under another number is another job: what was issued stays with the first.

mod hands;

use hands::{issue, pin, ring};
use quillbore_job::file::{read_job, write_job};
use quillbore_job::{Job, Line, Paper, SlipKind};

fn whole() -> Job {
    let mut job = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    for kind in SlipKind::ALL {
        let named = kind.lines().contains(&Line::Paper);
        let lines: &[_] = if named {
            &[(Line::Paper, "26-0107-Q1")]
        } else {
            &[]
        };
        job = pin(&job, *kind, lines);
    }
    issue(&job, Paper::Traveler, &[])
}

#[test]
fn papers_and_what_only_speaks_of_them_stay_behind_and_are_named() {
    let job = whole();
    let (copy, behind) = job.as_copy("26-0108");
    assert_eq!(behind, ["26-0107-Q1", "26-0107-T1"]);
    assert_eq!(copy.number, "26-0108");
    assert_eq!(copy.issued, []);
    let kinds = |job: &Job| -> Vec<SlipKind> { job.slips.iter().map(|slip| slip.kind).collect() };
    let mut kept = kinds(&job);
    kept.retain(|kind| !matches!(kind, SlipKind::Reply | SlipKind::Withdrawal));
    assert_eq!(kinds(&copy), kept);
    let rest = Job {
        number: job.number.clone(),
        issued: job.issued.clone(),
        slips: job.slips.clone(),
        ..copy.clone()
    };
    assert_eq!(rest, job, "everything else goes with it");
    assert_eq!(
        copy.next_slip, job.next_slip,
        "an identity is never used again"
    );
    assert_eq!(read_job(write_job(&copy).as_bytes()).as_ref(), Ok(&copy));
    // Its own papers begin anew.
    assert_eq!(copy.next_paper_number(Paper::Quotation), "26-0108-Q1");
}

#[test]
fn under_its_own_number_it_is_the_same_job() {
    let job = whole();
    assert_eq!(job.as_copy("26-0107"), (job.clone(), Vec::new()));
}

#[test]
fn a_job_without_a_number_only_gets_one() {
    let call = pin(&ring(), SlipKind::Reply, &[]);
    let new = Job {
        number: String::new(),
        ..call.clone()
    };
    assert_eq!(new.as_copy("26-0107"), (call, Vec::new()));
}
