//! A job after its life: slips pinned to it, papers issued.

use quillbore_job::{Edit, Issued, Job, Line, Paper, SlipKind, Unit};

use super::plate::plate;
use super::sample::{Sample, day, set};

/// The plate after its whole life: ordered, received, drilled with trouble, sent in two deliveries.
pub fn delivered() -> Sample {
    let mut sample = plate();
    let slips: &[(SlipKind, &[(Line, &str)])] = &[
        (
            SlipKind::Order,
            &[
                (Line::Date, "2026-11-02"),
                (Line::Number, "BT-7781"),
                (Line::Quantity, "4"),
                (Line::Each, "512.5"),
                (Line::DrawingRevision, "7"),
                (Line::Terms, "14 days"),
                (Line::Accepted, "the owner, since the lot is small"),
            ],
        ),
        (
            SlipKind::Release,
            &[
                (Line::Number, "call 1"),
                (Line::Quantity, "3"),
                (Line::Due, "2026-11-20"),
            ],
        ),
        (
            SlipKind::Received,
            &[
                (Line::Date, "2026-11-03"),
                (Line::Count, "4"),
                (Line::Heat, "H4471"),
                (Line::Serials, "101-104"),
                (Line::Damage, "scratch on 104"),
                (Line::Files, "scratch-104.jpg"),
            ],
        ),
        (
            SlipKind::Run,
            &[
                (Line::Mark, "S2"),
                (Line::Serials, "101-102"),
                (Line::Pins, "0.79 to 0.80"),
            ],
        ),
        (
            SlipKind::Inspection,
            &[
                (Line::Mark, "s1"),
                (Line::Serials, "102"),
                (Line::Pins, "1.21 to 1.23"),
                (Line::Checked, "8"),
                (Line::NotGood, "0"),
            ],
        ),
        (
            SlipKind::Nonconformance,
            &[
                (Line::HolesNamed, "S1 of 103"),
                (Line::What, "entry edge chipped"),
                (Line::Decision, "use as it is"),
            ],
        ),
        (
            SlipKind::Delivery,
            &[
                (Line::Date, "2026-11-06"),
                (Line::Count, "3"),
                (Line::Serials, "101-103"),
            ],
        ),
    ];
    for (kind, lines) in slips {
        pin(&mut sample.job, *kind, lines);
    }
    sample
}

/// Pins a slip to a job.
pub fn pin(job: &mut Job, kind: SlipKind, lines: &[(Line, &str)]) {
    let lines = lines.iter().map(|(line, text)| (*line, (*text).to_owned()));
    let edit = Edit::AddSlip {
        kind,
        lines: lines.collect(),
        unit: Unit::Mm,
    };
    set(job, &edit);
}

/// Lets a job know of a paper that was issued.
pub fn issue(job: &mut Job, paper: Paper) {
    let number = job.next_paper_number(paper);
    let issued = Issued {
        file: format!("{number}.pdf"),
        paper,
        date: day(),
        valid_until: None,
        kept_by: None,
        hash: quillbore_job::file::hash(number.as_bytes()),
        lines: Vec::new(),
        currency: None,
        rests_on: Vec::new(),
        pages: Vec::new(),
        replaces: job.to_replace(paper),
        inputs: None,
        seal: None,
        number,
    };
    job.issued.push(issued.sealed().into());
}
