//! Two desks on one job: what stands, what is told, and what one job can't hold.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;

use std::sync::Arc;

use hands::{cells, day, done, field, issue, line, pin, put_together, ring};
use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::answer::{Answer, How};
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::field::AngleBasis;
use quillbore_job::file::{hash, read_job, write_job};
use quillbore_job::job::FigureKey;
use quillbore_job::merge::{Clash, Merged, Met, Side, Typed};
use quillbore_job::read_field::read_field;
use quillbore_job::read_line::read_line;
use quillbore_job::row::put;
use quillbore_job::words::merge::clash;
use quillbore_job::{
    CellAt, Column, Edit, Field, Form, Issued, Job, Line, Paper, Row, SlipKind, Unit,
};

fn cell(job: &Job, row: usize, column: Column, text: &str) -> Job {
    cell_in(job, row, column, text, Unit::Mm)
}

fn cell_in(job: &Job, row: usize, column: Column, text: &str, unit: Unit) -> Job {
    let edit = Edit::SetCells {
        at: CellAt { row, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit,
    };
    done(job, &edit)
}

fn delete(job: &Job, row: usize) -> Job {
    let rows = vec![job.rows[row].id];
    done(job, &Edit::DeleteRows { rows })
}

fn overruled(job: &Job, figure: FigureKey, text: &str) -> Job {
    let edit = Edit::Overrule {
        figure,
        text: text.to_owned(),
        reason: "as last time".to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

fn answered(job: &Job, row: usize, said: &str) -> Job {
    let answer = Answer {
        row: job.rows[row].id,
        concern: Concern::Limits,
        facts: Facts::default(),
        how: How::Agreed,
        said: said.to_owned(),
        by: String::new(),
        date: day(3, 2),
    };
    done(job, &Edit::Answer(answer))
}

fn typed(text: &str) -> Typed {
    Typed {
        text: text.to_owned(),
        unit: Some(Unit::Mm),
    }
}

/// What is told, and a proof that the job can be saved.
fn told(merged: &Merged) -> Vec<String> {
    let text = write_job(&merged.job);
    assert_eq!(read_job(text.as_bytes()).as_ref(), Ok(&merged.job));
    let clashes = merged.clashes.iter();
    clashes
        .map(|met| clash(&merged.job, met, Form::default()))
        .collect()
}

#[test]
fn what_angles_are_measured_from_holds_for_the_rows_of_both() {
    let base = cells(&ring(), 1, &["B", "4", "1.2", "10", "through", "20"]);
    let typed_angle = cell(&cell(&base, 0, Column::Angle, "35"), 1, Column::Depth, "11");
    let surface = field(&base, Field::AngleBasis, "from surface");
    for (ours, theirs) in [(&typed_angle, &surface), (&surface, &typed_angle)] {
        let merged = put_together(&base, ours, theirs);
        assert_eq!(told(&merged), [""; 0]);
        let angle = |row: usize| {
            let angle = merged.job.rows[row].angle.value();
            angle.expect("an angle").from_normal.deg()
        };
        assert_eq!((angle(0), angle(1)), (55.0, 70.0));
        assert_eq!(merged.job.rows[1].depth.text(), "11");
    }
    // A row that differs by its reading alone was not changed: it goes with who takes it out.
    let without = delete(&base, 1);
    for (ours, theirs) in [(&without, &surface), (&surface, &without)] {
        let merged = put_together(&base, ours, theirs);
        assert_eq!((told(&merged), merged.job.rows.len()), (vec![], 1));
    }
}

#[test]
fn two_cells_of_one_row_both_stand_and_only_one_cell_can_clash() {
    let base = ring();
    let ours = cell(&base, 0, Column::Depth, "15");
    let theirs = cell(&base, 0, Column::Size, "0.90 +-0.05");
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(told(&merged), [""; 0]);
    let row = &merged.job.rows[0];
    assert_eq!((row.depth.text(), row.size.text()), ("15", "0.90 +-0.05"));

    let theirs = cell_in(&theirs, 0, Column::Depth, ".6", Unit::Inch);
    let theirs = cell(&theirs, 0, Column::Count, "40");
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(
        told(&merged),
        [
            "hole A, depth: yours is kept; theirs was \u{201c}.6\u{201d}, numbers without a unit in inches"
        ]
    );
    let row = &merged.job.rows[0];
    assert_eq!((row.depth.text(), row.count.text()), ("15", "40"));
    assert_eq!(row.depth.unit(), Some(Unit::Mm));

    let emptied = cell(&base, 0, Column::Depth, "");
    let merged = put_together(&base, &ours, &emptied);
    assert_eq!(
        told(&merged),
        ["hole A, depth: yours is kept; theirs was empty"]
    );
}

/// The unit counts where it makes another length, and nowhere else.
#[test]
fn the_same_text_in_another_unit_is_a_change_only_where_it_measures() {
    let base = field(&ring(), Field::Thickness, "12");
    let again = |job: &Job, unit| {
        let job = cell_in(job, 0, Column::Mark, "A", unit);
        let job = cell_in(&job, 0, Column::Depth, "14", unit);
        let thickness = Edit::SetField {
            field: Field::Thickness,
            text: "12".to_owned(),
            unit,
        };
        done(&job, &thickness)
    };
    let theirs = cell(&base, 0, Column::Mark, "B");
    let theirs = cell(&theirs, 0, Column::Depth, "15");
    let theirs = field(&theirs, Field::Thickness, "13");
    let ours = again(&base, Unit::Inch);
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(
        told(&merged),
        [
            "wall thickness: yours is kept; theirs was \u{201c}13\u{201d}",
            "hole B, depth: yours is kept; theirs was \u{201c}15\u{201d}",
        ]
    );
    assert_eq!(merged.job.rows[0].depth.unit(), Some(Unit::Inch));
    let merged = put_together(&base, &theirs, &ours);
    assert_eq!(
        told(&merged),
        [
            "wall thickness: yours is kept; theirs was \u{201c}12\u{201d}, numbers without a unit in inches",
            "hole B, depth: yours is kept; theirs was \u{201c}14\u{201d}, numbers without a unit in inches",
        ]
    );
}

/// Each column and kind of line that says so, and no other, reads a bare number in the unit.
#[test]
fn what_measures_is_what_reads_otherwise_in_another_unit() {
    let texts = [
        "0.5",
        "+-0.5",
        "R0.5",
        "2 Steel + 3",
        "2 x 3",
        "bore d0.5",
        "12",
        "0.5 +-0.1",
        "3.3 drill",
        "2026-03-02",
        "yes",
    ];
    // Only what was read counts here, not the unit beside it.
    let differs = |read: &dyn Fn(&str, Unit) -> String| {
        let without = |text, unit| read(text, unit).replace("Inch", "Mm");
        let mut texts = texts.iter();
        texts.any(|text| without(text, Unit::Mm) != without(text, Unit::Inch))
    };
    for &column in Column::ALL {
        let read = |text: &str, unit| {
            let mut row = Row::default();
            put(&mut row, column, text, unit, AngleBasis::FromNormal);
            format!("{row:?}")
        };
        assert_eq!(differs(&read), column.is_measured(), "{column:?}");
    }
    for &field in Field::ALL {
        let read = |text: &str, unit| format!("{:?}", read_field(field, text, unit));
        assert_eq!(differs(&read), field.kind().is_measured(), "{field:?}");
    }
    for &line in Line::ALL {
        let read = |text: &str, unit| format!("{:?}", read_line(line, text, unit));
        assert_eq!(differs(&read), line.kind().is_measured(), "{line:?}");
    }
}

#[test]
fn the_places_of_a_row_are_one_cell() {
    let base = ring();
    let places = |job: &Job, xs: &[f64]| {
        let places = xs.iter().zip(1..).map(|(&x, number)| Place {
            number,
            point_mm: [x, 0.0, 0.0],
            axis: [0.0, 0.0, -1.0],
        });
        let row = job.rows[0].id;
        let places = places.collect();
        done(job, &Edit::SetPlaces { row, places })
    };
    let theirs = cell(&places(&base, &[1.0, 2.0]), 0, Column::Note, "theirs");
    let merged = put_together(&base, &cell(&base, 0, Column::Depth, "9"), &theirs);
    assert_eq!(told(&merged), [""; 0]);
    assert_eq!(merged.job.rows[0].places, theirs.rows[0].places);
    let ours = places(&base, &[5.0]);
    let merged = put_together(&base, &ours, &theirs);
    let id = base.rows[0].id;
    let lost = Arc::clone(&theirs.rows[0].places);
    assert_eq!(merged.clashes, [Clash::Places(id, lost)]);
    assert_eq!(merged.job.rows[0].places, ours.rows[0].places);
    assert_eq!(merged.job.rows[0].note.text(), "theirs");
    assert_eq!(
        told(&merged),
        ["hole A, hole locations: yours are kept; theirs, 2 of them, are in the version before"]
    );
}

#[test]
fn a_row_that_one_took_out_and_the_other_changed_stays_with_all_that_hangs_on_it() {
    let base = cells(&ring(), 1, &["B", "4", "1.2", "10"]);
    let base = overruled(&base, FigureKey::Gap(base.rows[1].id), "0.05");
    let base = answered(&base, 1, "M. Oakes");
    let changed = cell(&base, 1, Column::Depth, "12");
    let without = delete(&base, 1);
    for (ours, theirs, says) in [
        (
            &changed,
            &without,
            "the other desk deleted it, you changed it",
        ),
        (
            &without,
            &changed,
            "you deleted it, the other desk changed it",
        ),
    ] {
        let merged = put_together(&base, ours, theirs);
        assert_eq!(told(&merged), [format!("hole B: {says}; it is kept")]);
        assert_eq!(merged.job.rows, changed.rows);
        assert_eq!(merged.job.overrules, changed.overrules);
        assert_eq!(merged.job.answers, changed.answers);
    }
    let merged = put_together(&base, &without, &base);
    assert_eq!(told(&merged), [""; 0], "it goes where nobody changed it");
    assert!(merged.job.overrules.is_empty() && merged.job.answers.is_empty());
}

#[test]
fn what_went_with_a_row_is_told_in_full() {
    let base = cells(&ring(), 1, &["B", "4", "1.2", "10"]);
    let hung = overruled(&base, FigureKey::Feed(base.rows[1].id), "18");
    let hung = answered(&hung, 1, "M. Oakes");
    let without = delete(&base, 1);
    let merged = put_together(&base, &hung, &without);
    assert_eq!(
        merged.job,
        Job {
            overrules: vec![].into(),
            answers: vec![].into(),
            ..without.clone()
        }
    );
    assert_eq!(
        told(&merged),
        [
            "overruled feed of a row (hole B): the other desk deleted the row, and yours with it: \
             \u{201c}18\u{201d}, because \u{201c}as last time\u{201d}",
            "answer to limits not to be promised of a row (hole B): the other desk deleted the \
             row, and yours with it: \u{201c}agreed by M. Oakes\u{201d}",
        ]
    );
    let merged = put_together(&base, &without, &hung);
    assert!(merged.job.overrules.is_empty() && merged.job.answers.is_empty());
    let told = told(&merged);
    assert!(
        told.iter()
            .all(|line| line.contains("you deleted the row, and theirs with it"))
    );
    assert_eq!(told.len(), 2);
}

/// A file may hold an overrule of a row that no version has: it is nobody's to take away.
#[test]
fn what_hangs_on_no_row_is_left_as_it_is() {
    let base = overruled(&ring(), FigureKey::Gap(ring().rows[0].id), "0.05");
    let base = Job {
        rows: vec![].into(),
        ..base
    };
    let theirs = field(&base, Field::Notes, "theirs");
    let merged = put_together(&base, &base, &theirs);
    assert_eq!((told(&merged), merged.job), (vec![], theirs));
}

#[test]
fn figures_overruled_at_both_desks_are_put_together_by_what_they_are() {
    let tube = FigureKey::Electrodes("brass 0.70 x 400".to_owned());
    let base = overruled(&ring(), FigureKey::MachineHours, "41");
    let ours = overruled(&base, FigureKey::UnitPrice(5), "48.20");
    let ours = overruled(&ours, tube.clone(), "9");
    let theirs = overruled(&base, FigureKey::UnitPrice(25), "41.00");
    let theirs = overruled(&theirs, tube.clone(), "8");
    let theirs = overruled(&theirs, FigureKey::MachineHours, "40");
    let back = Edit::WithdrawOverrule {
        figure: FigureKey::MachineHours,
    };
    let ours = done(&ours, &back);
    let merged = put_together(&base, &ours, &theirs);
    let texts = merged.job.overrules.iter();
    let texts: Vec<&str> = texts.map(|overrule| overrule.value.text()).collect();
    assert_eq!(texts, ["40", "41.00", "9", "48.20"]);
    assert_eq!(
        told(&merged),
        [
            "overruled machine hours: you withdrew it, the other desk changed it; theirs is kept",
            "overruled electrodes of brass 0.70 x 400: yours is kept; theirs was \u{201c}8\u{201d}, \
             because \u{201c}as last time\u{201d}",
        ]
    );
    assert_eq!(
        told(&put_together(&base, &theirs, &done(&base, &back))),
        ["overruled machine hours: the other desk withdrew it, you changed it; yours is kept"]
    );
}

#[test]
fn slips_are_put_together_line_by_line() {
    let base = pin(
        &ring(),
        SlipKind::Call,
        &[(Line::Date, "2026-03-02"), (Line::Said, "first")],
    );
    let ours = line(&base, 0, Line::Who, "M. Oakes");
    let theirs = line(&base, 0, Line::Said, "first\nand second");
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(told(&merged), [""; 0]);
    let slip = &merged.job.slips[0];
    assert_eq!(
        (
            slip.line(Line::Who).text().trim(),
            slip.line(Line::Said).text().trim()
        ),
        ("M. Oakes", "first\nand second")
    );
    let ours = line(&ours, 0, Line::Said, "first, then nothing");
    let merged = put_together(&base, &ours, &theirs);
    let lost = typed("first\nand second");
    assert_eq!(merged.clashes, [Clash::Line(0, Line::Said, lost)]);
    assert_eq!(
        told(&merged),
        [
            "call \u{201c}2026-03-02\u{201d}, what was said: yours is kept; theirs was \
             \u{201c}first / and second\u{201d}"
        ]
    );
    let off = done(&base, &Edit::RemoveSlip { slip: 0 });
    for (ours, theirs, by) in [(&ours, &off, Side::Theirs), (&off, &ours, Side::Ours)] {
        let merged = put_together(&base, ours, theirs);
        assert_eq!(merged.clashes, [Clash::Slip(0, by)]);
        assert_eq!(merged.job.slips.len(), 1);
        assert!(told(&merged)[0].starts_with("call \u{201c}2026-03-02\u{201d}: "));
    }
    assert_eq!(put_together(&base, &off, &base).job.slips, []);
}

/// A file changed by hand: lines of two kinds of slips can't stand on one.
#[test]
fn a_slip_that_became_another_kind_is_another_slip() {
    let base = pin(&ring(), SlipKind::Call, &[(Line::Said, "first")]);
    let ours = line(&base, 0, Line::Said, "second");
    let hold = pin(&ring(), SlipKind::Hold, &[(Line::Point, "first piece")]);
    let merged = put_together(&base, &ours, &hold);
    told(&merged);
    let kinds: Vec<SlipKind> = merged.job.slips.iter().map(|slip| slip.kind).collect();
    assert_eq!(kinds, [SlipKind::Hold, SlipKind::Call]);
    assert_eq!(merged.job.slips[1].line(Line::Said).text().trim(), "second");
}

/// Who accepted and what there was to accept are one thing: half of each would be neither's word.
#[test]
fn an_acceptance_is_never_put_together_out_of_two() {
    let order = [
        (Line::Quantity, "12"),
        (Line::Accepted, "Oakes"),
        (Line::Note, "n"),
    ];
    let base = pin(&ring(), SlipKind::Order, &order);
    // The same words again, for what differs by then.
    let ours = line(
        &line(&base, 0, Line::Quantity, "11"),
        0,
        Line::Accepted,
        "Oakes",
    );
    let theirs = line(&base, 0, Line::Accepted, "Finch");
    let merged = put_together(&base, &ours, &theirs);
    let (slip, mine) = (&merged.job.slips[0], &ours.slips[0]);
    for of in [Line::Accepted, Line::AcceptedWhat] {
        assert_eq!(slip.line(of).text().trim(), mine.line(of).text().trim());
    }
    assert_ne!(
        mine.line(Line::AcceptedWhat).text().trim(),
        theirs.slips[0].line(Line::AcceptedWhat).text().trim()
    );
    let lines = merged.clashes.iter().map(|clash| match clash {
        Clash::Line(0, line, lost) => (*line, lost.text.as_str()),
        other => panic!("{other:?}"),
    });
    assert_eq!(
        lines.collect::<Vec<_>>(),
        [
            (Line::Accepted, "Finch"),
            (
                Line::AcceptedWhat,
                theirs.slips[0].line(Line::AcceptedWhat).text()
            )
        ]
    );
    assert_eq!(told(&merged).len(), 2);
}

/// The newest paper as if another desk had made it, with another PDF.
fn otherwise(job: &Job) -> Job {
    let mut job = job.clone();
    let last = job.issued.pop().expect("a paper");
    job.issued.push(Arc::new(Issued {
        hash: hash(b"another"),
        pages: vec!["otherwise".to_owned()],
        ..last.as_ref().clone()
    }));
    job
}

#[test]
fn two_papers_of_one_number_are_both_kept_and_the_next_is_above_them() {
    let base = issue(&ring(), Paper::Traveler, &[]);
    let theirs = issue(&base, Paper::Traveler, &[]);
    let ours = otherwise(&theirs);
    let merged = put_together(&base, &ours, &theirs);
    let job = &merged.job;
    let kept_as = format!(
        "26-0107-T2 (another, hash {})",
        &hash(b"another").to_string()[..8]
    );
    let numbers: Vec<&str> = job.issued.iter().map(|one| one.number.as_str()).collect();
    assert_eq!(numbers, ["26-0107-T1", "26-0107-T2", kept_as.as_str()]);
    assert_eq!(job.issued[1], theirs.issued[1], "on the shelf first");
    let second = Issued {
        number: "26-0107-T2".to_owned(),
        ..job.issued[2].as_ref().clone()
    };
    assert_eq!(second, *ours.issued[1], "nothing else of it was changed");
    assert_eq!(job.next_paper_number(Paper::Traveler), "26-0107-T3");
    assert_eq!(
        merged.clashes,
        [Clash::PaperTwice {
            paper: Paper::Traveler,
            number: "26-0107-T2".to_owned(),
            date: day(3, 2),
            hash: hash(b"another"),
            kept_as: kept_as.clone(),
        }]
    );
    assert_eq!(
        told(&merged),
        [format!(
            "traveler 26-0107-T2: both desks issued one of that number; yours of 2 Mar 2026 is \
             kept as \u{201c}{kept_as}\u{201d}, and slips of yours that name it follow; withdraw \
             the one that must not be used"
        )]
    );
    // A third desk had issued it too, with the very PDF but other inputs.
    let third = field(&ours, Field::Notes, "of the third");
    let mut third = third;
    let inputs = Some(Arc::new(third.inputs()));
    let last = Arc::make_mut(third.issued.last_mut().expect("a paper"));
    last.inputs = inputs;
    let merged = put_together(&base, &third, job);
    assert_eq!(merged.job.issued[..3], job.issued);
    assert_eq!(merged.job.issued[3].number, kept_as.replace(')', ", 2)"));
    assert_eq!(told(&merged).len(), 1);
}

/// What we pinned about our own paper must not fall on theirs.
#[test]
fn slips_about_a_paper_of_ours_follow_it_to_its_other_number() {
    let base = issue(&ring(), Paper::Quotation, &[(25, "48.20")]);
    let theirs = issue(&base, Paper::Quotation, &[(25, "47.00")]);
    let ours = otherwise(&theirs);
    let ours = pin(
        &ours,
        SlipKind::Withdrawal,
        &[(Line::Paper, "26-0107-Q2"), (Line::Why, "oops")],
    );
    let theirs_told = pin(&theirs, SlipKind::Reply, &[(Line::Paper, "26-0107-Q2")]);
    let merged = put_together(&base, &ours, &theirs_told);
    let job = &merged.job;
    let [_, theirs_q2, ours_q2] = job.issued.as_slice() else {
        panic!("{:?}", job.issued);
    };
    assert!(job.stands(theirs_q2) && job.is_withdrawn(ours_q2));
    let named: Vec<&str> = job
        .slips
        .iter()
        .map(|slip| slip.line(Line::Paper).text().trim())
        .collect();
    assert_eq!(named, ["26-0107-Q2", ours_q2.number.as_str()]);
    assert_eq!(told(&merged).len(), 1);
    // A later one of ours took the place of ours, also where theirs is the same to the byte.
    let ours = issue(&otherwise(&theirs), Paper::Quotation, &[(25, "46.00")]);
    let standing = |job: &Job| -> Vec<String> {
        let standing = job.standing(Paper::Quotation);
        standing.map(|one| one.number.clone()).collect()
    };
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(standing(&merged.job), ["26-0107-Q2", "26-0107-Q3"]);
    let next = merged.job.next_paper_number(Paper::Quotation);
    assert_eq!(next, "26-0107-Q4");
    let mut theirs = theirs;
    theirs.issued.push(Arc::clone(&ours.issued[2]));
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(told(&merged).len(), 2);
    let [theirs_q3, ours_q3] = standing(&merged.job).try_into().expect("two");
    assert_eq!(theirs_q3, "26-0107-Q3");
    assert!(ours_q3.starts_with("26-0107-Q3 (another, hash "));
}

#[test]
fn number_day_and_unit_are_not_lost_either() {
    let base = ring();
    let theirs = done(&base, &Edit::SetUnit(Unit::Inch));
    let merged = put_together(&base, &base, &theirs);
    assert_eq!(
        merged.job.unit,
        Unit::Mm,
        "not under the hands of who types"
    );
    assert_eq!(
        told(&merged),
        ["unit: yours is kept; the other desk switched to inches"]
    );
    assert_eq!(put_together(&base, &theirs, &base).job.unit, Unit::Inch);
    let other = |number: &str, on| Job {
        number: number.to_owned(),
        opened: Some(on),
        ..base.clone()
    };
    let (ours, theirs) = (other("26-0108", day(3, 1)), other("26-0109", day(3, 2)));
    let merged = put_together(&base, &base, &theirs);
    assert_eq!((told(&merged), &merged.job), (vec![], &theirs));
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(merged.job, ours);
    assert_eq!(
        told(&merged),
        [
            "job number: yours is kept; theirs was \u{201c}26-0109\u{201d}",
            "day opened: yours is kept; theirs was 2 Mar 2026",
        ]
    );
}

#[test]
fn new_rows_stand_where_they_were_put() {
    let base = cells(&ring(), 1, &["B"]);
    let insert = |job: &Job, before: usize, mark: &str| {
        let job = done(job, &Edit::InsertRows { before, count: 1 });
        cells(&job, before, &[mark])
    };
    let ours = insert(&insert(&insert(&base, 0, "o0"), 2, "o1"), 4, "o2");
    let theirs = insert(&insert(&base, 0, "t0"), 2, "t1");
    let marks = |job: &Job| -> Vec<String> {
        let rows = job.rows.iter();
        rows.map(|row| row.mark.text().to_owned()).collect()
    };
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(told(&merged), [""; 0]);
    assert_eq!(marks(&merged.job), ["t0", "o0", "A", "t1", "o1", "B", "o2"]);
    let merged = put_together(&base, &ours, &base);
    assert_eq!(
        merged.job, ours,
        "identities too where nobody else has them"
    );
}

/// A row whose deletion was undone is the row that it was.
#[test]
fn a_row_brought_back_keeps_its_identity() {
    let before = cells(&ring(), 1, &["B", "4", "1.2"]);
    let base = delete(&before, 1);
    let ours = Job {
        rows: before.rows.clone(),
        ..base.clone()
    };
    let theirs = cells(&base, 1, &["C"]);
    let merged = put_together(&base, &ours, &theirs);
    let rows = merged.job.rows.iter();
    let rows: Vec<(u32, &str)> = rows.map(|row| (row.id.0, row.mark.text())).collect();
    assert_eq!(rows, [(0, "A"), (2, "C"), (1, "B")]);
    assert_eq!(told(&merged), [""; 0]);
    let theirs = cell(&ours, 1, Column::Count, "5");
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(
        told(&merged),
        ["hole B, count: yours is kept; theirs was \u{201c}5\u{201d}"]
    );
}

#[test]
fn a_clash_names_rows_without_a_mark_by_their_place() {
    let base = cells(&ring(), 1, &["", "4"]);
    let (ours, theirs) = (cells(&base, 1, &["", "5"]), cells(&base, 1, &["", "6"]));
    let merged = put_together(&base, &ours, &theirs);
    assert_eq!(
        told(&merged),
        ["row 2, count: yours is kept; theirs was \u{201c}6\u{201d}"]
    );
    let gone = Met::RowGone {
        mark: String::new(),
        of: Side::Ours,
        lost: answered(&ring(), 0, "M. Oakes").answers[0].clone(),
    };
    let gone = Clash::Answer(RowId(77), Concern::Step, gone);
    assert_eq!(
        clash(&merged.job, &gone, Form::default()),
        "answer to step where two ends meet of a row: the other desk deleted the row, and yours \
         with it: \u{201c}agreed by M. Oakes\u{201d}"
    );
}
