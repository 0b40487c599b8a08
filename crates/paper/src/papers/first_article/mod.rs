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
use found::FirstPiece;

/// Sets the report on the first piece of a job.
pub fn first_article(matter: &Matter<'_>) -> Document {
    let piece = FirstPiece::of(matter);
    let words = &matter.words().first_article;
    let mut flow = Flow::in_language(matter.sheet, matter.language);
    opening::title(matter, &mut flow, words.title);
    flow.text(BODY, words.what);
    part(matter, &piece, &mut flow);
    flow.next_page();
    materials(matter, &piece, &mut flow);
    flow.next_page();
    flow.section(
        words.characteristics.name,
        words.characteristics.remark,
        mm(30.0),
    );
    identity(matter, &piece, &mut flow, false);
    characteristics::set(matter, &piece, &mut flow);
    let frame = Frame::of(matter, Paper::FirstArticle, words.title, "");
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}

/// Part, revision, serial number and report, the same on every form.
fn identity(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow, is_first: bool) {
    let words = &matter.words().first_article.part;
    let revision = if is_first {
        words.part_revision
    } else {
        words.part_revision_too
    };
    let follows = matter.follows();
    form::fields(
        flow,
        &[
            Captioned::of(words.part_number, matter.text(Field::Part), 2.2).style(STRONG),
            Captioned::of(words.part_name, matter.text(Field::PartName), 2.2),
            Captioned::of(words.serial, &piece.serial, 1.6).style(STRONG),
            Captioned::of(words.report, &matter.number_of(Paper::FirstArticle), 2.0).style(STRONG),
            Captioned::of(revision, follows.revision, 1.6).style(STRONG),
        ],
    );
}

/// The first form: what the report is of, and who stands for it.
fn part(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow) {
    let words = &matter.words().first_article.part;
    let follows = matter.follows();
    flow.section(words.name, words.remark, mm(40.0));
    identity(matter, piece, flow, true);
    let process = [matter.job.number.trim(), matter.text(Field::Program)];
    let process: Vec<&str> = process
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    form::fields(
        flow,
        &[
            Captioned::of(words.drawing, matter.text(Field::Drawing), 2.4),
            Captioned::of(words.drawing_revision, follows.drawing_revision, 1.4),
            Captioned::blank(words.changes, 2.4),
            Captioned::of(words.process, &process.join(", "), 2.4),
        ],
    );
    form::fields(
        flow,
        &[
            Captioned::of(words.organization, &matter.issuer.name, 3.0),
            Captioned::blank(words.supplier_code, 1.6),
            Captioned::of(words.order, matter.order_number(), 2.4).whole(),
        ],
    );
    for [lead, said] in words.kinds {
        flow.paragraph(&[Span::new(STRONG, lead), Span::new(BODY, said)], 0.0);
    }
    form::fields(
        flow,
        &[
            Captioned::blank(words.baseline, 2.0),
            Captioned::filled(words.reason, words.only_here, 3.0),
        ],
    );
    let open: Vec<String> = nonconformance::all(matter)
        .iter()
        .map(nonconformance::Nonconformance::for_the_customer)
        .collect();
    flow.paragraph(
        &[
            Span::new(STRONG, words.nonconforming),
            Span::new(BODY, (words.has_nonconformances)(!open.is_empty())),
        ],
        0.0,
    );
    flow.dashes(BODY, open.iter().map(String::as_str));
    form::fields(flow, &[Captioned::blank(words.comments, 1.0)]);
    for who in words.signed {
        form::sign_off(flow, who);
    }
}

/// The second form: materials, special processes, functional tests.
fn materials(matter: &Matter<'_>, piece: &FirstPiece<'_>, flow: &mut Flow) {
    let words = &matter.words().first_article.materials;
    flow.section(words.name, "", mm(40.0));
    identity(matter, piece, flow, false);
    let heats = match matter.heats() {
        none if none.is_empty() => none,
        heats => (words.heat)(&heats),
    };
    let certificate = matter.job.standing(Paper::Certificate).last();
    let certificate = certificate.map_or("", |issued| issued.number.as_str());
    let named = matter.material_named();
    let recast = matter.text(Field::RecastLimit);
    let recast = match recast {
        "" => words.by_drawing.to_owned(),
        limit => (words.recast)(limit),
    };
    let mut table = Table::new([
        Column::text(words.material, Width::Share(1.6)).style(STRONG),
        Column::text(words.specification, Width::Share(1.4)),
        Column::text(words.code, Width::Fixed(mm(16.0))),
        Column::text(words.source, Width::Share(1.2)),
        Column::text(words.approval, Width::Fixed(mm(22.0))),
        Column::text(words.certificate, Width::Share(1.0)),
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
        words.customer,
        &heats,
    );
    line(words.drilling, &recast, &matter.issuer.name, certificate);
    if matter.has(Field::OutsideText) {
        line(matter.text(Field::OutsideText), "", "", "");
    }
    table.set(flow);
    flow.text(BODY, words.special);
    flow.take(mm(3.0));
    let mut tests = Table::new([
        Column::text(words.test, Width::Share(1.6)).style(STRONG),
        Column::text(words.procedure, Width::Share(2.0)),
        Column::text(words.acceptance, Width::Share(1.0)),
    ])
    .written_on();
    let mut test = |what: &str, how: &str| {
        let cells = [Cell::new(what), Cell::new(how), Cell::blank()];
        tests.row(TableRow::new(cells).at_least(form::HAND));
    };
    if matter.kinds().open {
        test(words.open_test, words.open_how);
    }
    if matter.has(Field::Inspection) {
        test(words.asked_test, matter.text(Field::Inspection));
    }
    if matter.kinds().open || matter.has(Field::Inspection) {
        tests.set(flow);
    }
}
