//! What changed on the sheet while a traveler is on the floor.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;
#[path = "hands/notes.rs"]
mod notes_told;

use notes_told::said as said_of;
use std::sync::Arc;

use hands::{cells, day, done, field, issue, pin, ring};
use quillbore_calc::finding::Level;
use quillbore_job::answer::{Answer, How};
use quillbore_job::changed::Changed;
use quillbore_job::concern::{Concern, Facts};
use quillbore_job::job::FigureKey;
use quillbore_job::life::changed_since_release;
use quillbore_job::results::{Beside, SideNote, results_quick};
use quillbore_job::{CellAt, Column, Edit, Field, Issued, Job, Line, Paper, Shop, SlipKind, Unit};

/// On the floor, for an order that says nothing but how many.
fn released() -> Job {
    let job = pin(&ring(), SlipKind::Order, &[(Line::Quantity, "25")]);
    let job = pin(&job, SlipKind::Received, &[(Line::Count, "25")]);
    issue(&job, Paper::Traveler, &[(25, "")])
}

fn depth(job: &Job, text: &str, unit: Unit) -> Job {
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Depth,
        },
        rows: vec![vec![Some(text.to_owned())]],
        unit,
    };
    done(job, &edit)
}

fn numbers(job: &Job) -> Vec<String> {
    let all = changed_since_release(job).into_iter();
    all.map(|(number, _)| number).collect()
}

fn changes(job: &Job) -> Vec<Changed> {
    let mut all = changed_since_release(job);
    assert_eq!(all.len(), 1, "{all:?}");
    all.remove(0).1
}

fn told(job: &Job) -> Vec<SideNote> {
    let notes = results_quick(job, Shop::embedded().expect("the shop")).notes;
    let outdated = notes
        .into_iter()
        .filter(|n| n.code() == "traveler-outdated");
    outdated.collect()
}

#[test]
fn a_change_after_the_release_is_told_until_a_traveler_of_it_stands_or_it_is_set_back() {
    let job = released();
    assert_eq!(numbers(&job), [""; 0]);
    assert_eq!(told(&job), []);
    let deeper = depth(&job, "12", Unit::Mm);
    assert_eq!(numbers(&deeper), ["26-0107-T1"]);
    let notes = told(&deeper);
    assert_eq!(notes.len(), 1);
    assert_eq!(
        (notes[0].level, notes[0].beside),
        (Level::Check, Beside::Papers)
    );
    let said = said_of(&deeper, &notes[0]);
    assert!(
        said.starts_with("Traveler 26-0107-T1 was released before these changes: hole A, ")
            && said.contains("was 14, now 12.")
            && said.ends_with("Release it again, or undo them."),
        "{said}"
    );
    assert_eq!(told(&depth(&deeper, "14", Unit::Mm)), [], "set back");
    let again = issue(&deeper, Paper::Traveler, &[]);
    assert_eq!(told(&again), [], "released again");
    // A later change is about the traveler that is worked by.
    let third = depth(&again, "13", Unit::Mm);
    assert_eq!(numbers(&third), ["26-0107-T2"]);
    let was = changes(&third);
    let changed = Changed::Cell("A".into(), Column::Depth, "12".into(), "13".into());
    assert_eq!(was, [changed]);
    // The newer one taken back, the older one is worked by.
    let back = pin(&third, SlipKind::Withdrawal, &[(Line::Paper, "26-0107-T2")]);
    assert_eq!(numbers(&back), ["26-0107-T1"]);
    let none = pin(&back, SlipKind::Withdrawal, &[(Line::Paper, "26-0107-T1")]);
    assert_eq!(numbers(&none), [""; 0]);
}

#[test]
fn travelers_of_one_sheet_for_two_lots_are_both_told() {
    let both = issue(&released(), Paper::Traveler, &[(5, "")]);
    let deeper = depth(&both, "12", Unit::Mm);
    assert_eq!(numbers(&deeper), ["26-0107-T1", "26-0107-T2"]);
}

#[test]
fn what_only_the_office_reads_is_not_told() {
    let mut job = released();
    for (name, text) in [
        (Field::Contact, "Ms. Orly"),
        (Field::CustomerReference, "RFQ 9"),
        (Field::FollowUp, "2026-12-01"),
        (Field::Breaks, "50, 100"),
        (Field::Margin, "30 %"),
        (Field::FixtureCost, "100"),
        (Field::TestPieceCost, "100"),
        (Field::OutsideCost, "100"),
        (Field::OutsidePerPart, "1"),
        (Field::LeadDays, "20"),
        (Field::ValidDays, "30"),
        (Field::Exclusions, "no deburring"),
        (Field::Again, "25-0001"),
    ] {
        job = field(&job, name, text);
    }
    for figure in [
        FigureKey::UnitPrice(25),
        FigureKey::NotYetKnown,
        FigureKey::MachineHours,
        FigureKey::LaborHours,
    ] {
        job = overruled(&job, &figure, "9");
    }
    assert_eq!(changed_since_release(&job), []);
}

fn overruled(job: &Job, figure: &FigureKey, text: &str) -> Job {
    let edit = Edit::Overrule {
        figure: figure.clone(),
        text: text.to_owned(),
        reason: "as last time".to_owned(),
        unit: Unit::Mm,
    };
    done(job, &edit)
}

#[test]
fn the_sheet_is_told_where_the_order_is_silent_and_only_there() {
    let silent = released();
    for (of_sheet, of_order, text) in [
        (Field::Revision, Line::Revision, "D"),
        (Field::DrawingRevision, Line::DrawingRevision, "3"),
        (Field::Due, Line::Due, "2026-12-01"),
    ] {
        let changed = field(&silent, of_sheet, text);
        assert!(matches!(&changes(&changed)[..], [Changed::Field(one, ..)] if *one == of_sheet));
        let named = pin(&changed, SlipKind::Order, &[(of_order, text)]);
        assert_eq!(changed_since_release(&named), [], "{of_sheet:?}");
    }
}

#[test]
fn overrules_and_answers_that_the_floor_goes_by_are_told() {
    let job = released();
    let row = job.rows[0].id;
    for figure in [
        FigureKey::Gap(row),
        FigureKey::Feed(row),
        FigureKey::HoleMinutes(row),
        FigureKey::Wear(row),
    ] {
        let faster = overruled(&job, &figure, "2");
        let by = |was: &str, is: &str| {
            Changed::Overrule(figure.clone(), "A".into(), was.into(), is.into())
        };
        assert_eq!(changes(&faster), [by("", "2")]);
        let of_that = issue(&faster, Paper::Traveler, &[]);
        assert_eq!(changed_since_release(&of_that), []);
        assert_eq!(changes(&overruled(&of_that, &figure, "3")), [by("2", "3")]);
        let back = Edit::WithdrawOverrule {
            figure: figure.clone(),
        };
        let back = done(&of_that, &back);
        assert_eq!(changes(&back), [by("2", "")]);
        let said = said_of(&back, &told(&back)[0]);
        assert!(said.contains("of hole A: was 2, now empty"));
    }
    let more = overruled(&job, &FigureKey::Electrodes("brass 0.80 x 400".into()), "9");
    assert!(
        said_of(&more, &told(&more)[0])
            .contains("electrodes of brass 0.80 x 400: was empty, now 9")
    );
    let answer = |said: &str, by: &str| {
        Edit::Answer(Answer {
            row,
            concern: Concern::Limits,
            facts: Facts {
                given: vec![0.75, 0.85],
                by: 0.1,
            },
            how: How::Agreed,
            said: said.to_owned(),
            by: by.to_owned(),
            date: day(3, 3),
        })
    };
    let agreed = done(&job, &answer("Ms. Orly", "Pell"));
    let changed = [Changed::Answer("A".into(), Concern::Limits)];
    assert_eq!(changes(&agreed), changed);
    let of_that = issue(&agreed, Paper::Traveler, &[]);
    let noted = done(&of_that, &answer("Ms. Orly", "Moss"));
    assert_eq!(
        changed_since_release(&noted),
        [],
        "who noted it is the office's"
    );
    assert_eq!(
        changes(&done(&of_that, &answer("Mr. Ash", "Pell"))),
        changed
    );
    let gone = Edit::WithdrawAnswer {
        row,
        concern: Concern::Limits,
    };
    assert_eq!(changes(&done(&of_that, &gone)), changed);
}

#[test]
fn rows_and_the_unit_of_a_text_are_told() {
    let job = released();
    let more = cells(&job, 1, &["B", "4", "1.2", "10"]);
    assert_eq!(changes(&more), [Changed::NewRow("B".into())]);
    let fewer = done(
        &job,
        &Edit::DeleteRows {
            rows: vec![job.rows[0].id],
        },
    );
    assert_eq!(changes(&fewer), [Changed::RowGone("A".into())]);
    // The same text in the other unit is another depth.
    let inches = depth(&job, "14", Unit::Inch);
    let cell = Changed::Cell("A".into(), Column::Depth, "14 mm".into(), "14 in".into());
    assert_eq!(changes(&inches), [cell]);
    // A text that means the same in both is the same, and so is the sheet shown in another unit.
    let typed = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![vec![Some("A".to_owned())]],
        unit: Unit::Inch,
    };
    let same = done(&done(&job, &typed), &Edit::SetUnit(Unit::Inch));
    assert_eq!(changed_since_release(&same), []);
    let wide = Edit::SetField {
        field: Field::SizeX,
        text: "4".to_owned(),
        unit: Unit::Mm,
    };
    let wide = issue(&done(&job, &wide), Paper::Traveler, &[]);
    let wider = Edit::SetField {
        field: Field::SizeX,
        text: "4".to_owned(),
        unit: Unit::Inch,
    };
    let field = Changed::Field(Field::SizeX, "4 mm".into(), "4 in".into());
    assert_eq!(changes(&done(&wide, &wider)), [field]);
}

#[test]
fn long_texts_and_many_changes_are_cut_and_counted() {
    let mut job = field(&released(), Field::Notes, &"wax first\n".repeat(20));
    for name in [
        Field::Datums,
        Field::Program,
        Field::Fixture,
        Field::Coating,
        Field::Hardness,
        Field::Condition,
        Field::StopIf,
    ] {
        job = field(&job, name, "x");
    }
    let said = said_of(&job, &told(&job)[0]);
    assert!(said.contains("; 2 more. Release"), "{said}");
    let notes = field(&released(), Field::Notes, &"wax first\n".repeat(20));
    let said = said_of(&notes, &told(&notes)[0]);
    assert!(
        said.contains("now wax first / wax first") && said.contains('\u{2026}'),
        "{said}"
    );
    assert!(said.len() < 250, "{said}");
}

#[test]
fn nobody_is_told_of_a_traveler_that_nobody_works_by() {
    let deeper = depth(&released(), "12", Unit::Mm);
    assert_eq!(told(&deeper).len(), 1);
    let out = pin(&deeper, SlipKind::Delivery, &[(Line::Count, "25")]);
    assert_eq!(told(&out), []);
    let aside = field(&deeper, Field::LaidAside, "lost to price");
    assert_eq!(told(&aside), []);
}

#[test]
fn a_traveler_whose_entry_was_changed_is_told_as_that() {
    let mut job = depth(&released(), "12", Unit::Mm);
    let mut entry = Issued::clone(&job.issued[0]);
    entry.inputs = entry
        .inputs
        .map(|inputs| Arc::new(depth(&inputs, "11", Unit::Mm)));
    job.issued[0] = Arc::new(entry);
    assert_eq!(changed_since_release(&job), []);
    let notes = results_quick(&job, Shop::embedded().expect("the shop")).notes;
    assert!(notes.iter().any(|note| note.code() == "entry-changed"));
}
