//! The first article inspection report: part, materials and processes, every characteristic of the holes,
//! by the fields that AS9102 names.

mod characteristics;
mod found;

use quillbore_job::{Field, Paper};

use crate::letterhead::frame::Frame;
use crate::letterhead::opening;
use crate::matter::Matter;
use crate::matter::nonconformance;
use crate::page::{Document, mm};
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::table::{Cell, Column, Table, TableRow, Width};
use crate::typeset::wrap::Span;
use crate::words::first_article as words;
use found::FirstPiece;

/// Sets the report on the first piece of a job.
pub fn first_article(matter: &Matter<'_>) -> Document {
    let piece = FirstPiece::of(matter);
    let mut flow = Flow::new(matter.sheet);
    opening::title(matter, &mut flow, words::TITLE);
    flow.text(BODY, words::WHAT);
    part(matter, &piece, &mut flow);
    flow.next_page();
    materials(matter, &piece, &mut flow);
    flow.next_page();
    flow.section(
        words::CHARACTERISTICS,
        words::CHARACTERISTICS_REMARK,
        mm(30.0),
    );
    identity(matter, &piece, &mut flow);
    characteristics::set(matter, &piece, &mut flow);
    let frame = Frame::of(matter, Paper::FirstArticle, words::TITLE, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// Part, revision, serial number and report, the same on every form.
fn identity(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow) {
    let follows = matter.follows();
    form::fields(
        flow,
        &[
            Captioned::of(words::PART_NUMBER, matter.text(Field::Part), 2.4).style(STRONG),
            Captioned::of(words::PART_NAME, matter.text(Field::PartName), 2.4),
            Captioned::of(words::SERIAL, &piece.serial, 1.6).style(STRONG),
            Captioned::of(words::REPORT, &matter.number_of(Paper::FirstArticle), 2.0).style(STRONG),
            Captioned::of(words::PART_REVISION, follows.revision, 1.2).style(STRONG),
        ],
    );
}

/// The first form: what the report is of, and who stands for it.
fn part(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow) {
    let follows = matter.follows();
    flow.section(words::PART, words::PART_REMARK, mm(40.0));
    identity(matter, piece, flow);
    let process = [matter.job.number.trim(), matter.text(Field::Program)];
    let process: Vec<&str> = process
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    form::fields(
        flow,
        &[
            Captioned::of(words::DRAWING, matter.text(Field::Drawing), 2.4),
            Captioned::of(words::DRAWING_REVISION, follows.drawing_revision, 1.4),
            Captioned::blank(words::CHANGES, 2.4),
            Captioned::of(words::PROCESS, &process.join(", "), 2.4),
        ],
    );
    form::fields(
        flow,
        &[
            Captioned::of(words::ORGANIZATION, &matter.issuer.name, 3.0),
            Captioned::blank(words::SUPPLIER_CODE, 1.6),
            Captioned::of(words::ORDER, matter.order_number(), 2.4).whole(),
        ],
    );
    for (lead, said) in [
        (words::DETAIL, words::DETAIL_SAID),
        (words::PARTIAL, words::PARTIAL_SAID),
        (words::ASSEMBLY, words::ASSEMBLY_SAID),
    ] {
        flow.paragraph(&[Span::new(STRONG, lead), Span::new(BODY, said)], 0.0);
    }
    form::fields(
        flow,
        &[
            Captioned::blank(words::BASELINE, 2.0),
            Captioned::blank(words::REASON, 3.0),
        ],
    );
    let open: Vec<String> = nonconformance::all(matter)
        .iter()
        .map(nonconformance::Nonconformance::for_the_customer)
        .collect();
    flow.paragraph(
        &[
            Span::new(STRONG, words::NONCONFORMING),
            Span::new(BODY, words::nonconforming(open.len())),
        ],
        0.0,
    );
    flow.dashes(BODY, open.iter().map(String::as_str));
    for who in [words::PREPARED, words::APPROVED, words::CUSTOMER_APPROVAL] {
        form::sign_off(flow, who);
    }
}

/// The second form: materials, special processes, functional tests.
fn materials(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow) {
    flow.section(words::MATERIALS, "", mm(40.0));
    identity(matter, piece, flow);
    let heats = matter.heats();
    let certificate = matter.job.standing(Paper::Certificate).last();
    let certificate = certificate.map_or("", |issued| issued.number.as_str());
    let named = matter.material_named();
    let recast = matter.text(Field::RecastLimit);
    let recast = match recast {
        "" => words::BY_DRAWING.to_owned(),
        limit => words::recast(limit),
    };
    let mut table = Table::new([
        Column::text(words::MATERIAL, Width::Share(1.6)).style(STRONG),
        Column::text(words::SPECIFICATION, Width::Share(1.4)),
        Column::text(words::CODE, Width::Fixed(mm(16.0))),
        Column::text(words::SOURCE, Width::Share(1.2)),
        Column::text(words::APPROVAL, Width::Fixed(mm(22.0))),
        Column::text(words::CERTIFICATE, Width::Share(1.0)),
    ])
    .written_on();
    let mut line = |what: &str, asked: &str, source: &str, proof: &str| {
        let cells = [
            Cell::new(what),
            Cell::new(asked),
            Cell::blank(),
            Cell::new(source),
            Cell::blank(),
            Cell::new(proof),
        ];
        table.row(TableRow::new(cells).at_least(form::HAND));
    };
    line(
        &named,
        matter.text(Field::Condition),
        words::CUSTOMER,
        &heats,
    );
    line(words::DRILLING, &recast, &matter.issuer.name, certificate);
    if matter.has(Field::OutsideText) {
        line(matter.text(Field::OutsideText), "", "", "");
    }
    table.set(flow);
    flow.text(BODY, words::SPECIAL);
    flow.take(mm(3.0));
    let mut tests = Table::new([
        Column::text(words::TEST, Width::Share(1.6)).style(STRONG),
        Column::text(words::PROCEDURE, Width::Share(2.0)),
        Column::text(words::ACCEPTANCE, Width::Share(1.0)),
    ])
    .written_on();
    let mut test = |what: &str, how: &str| {
        let cells = [Cell::new(what), Cell::new(how), Cell::blank()];
        tests.row(TableRow::new(cells).at_least(form::HAND));
    };
    if matter.kinds().open {
        test(words::OPEN_TEST, words::OPEN_HOW);
    }
    if matter.has(Field::Inspection) {
        test(words::ASKED_TEST, matter.text(Field::Inspection));
    }
    if matter.kinds().open || matter.has(Field::Inspection) {
        tests.set(flow);
    }
}
