//! Machine, setup, first piece and what comes after, as the office wrote them.

use quillbore_calc::direction::between;
use quillbore_calc::job_figures::SetupFigures;
use quillbore_calc::mount::Mount;
use quillbore_job::Field;

use super::held;
use super::order::setups_made_twice;
use crate::matter::Matter;
use crate::matter::axes;
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Captioned};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::phrases;
use crate::words::traveler::plan as words;

/// Setups that have a line to sign each.
const MOST_SIGNED: usize = 6;

/// Faces that are no farther from each other than this lie up alike [deg].
const SAME_DEG: f64 = 0.1;

pub(super) fn machine(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::MACHINE, |flow| {
        form::fields(
            flow,
            &[
                Captioned::of(words::MACHINES_NAME, matter.text(Field::Machine), 2.0).style(STRONG),
                Captioned::of(words::FIXTURE, matter.text(Field::Fixture), 3.0),
                Captioned::of(words::PROGRAM, matter.text(Field::Program), 2.0),
            ],
        );
        if matter.has(Field::IndexAbout) {
            let lead = Span::new(STRONG, words::INDEX_ABOUT);
            let axis = Span::new(BODY, matter.text(Field::IndexAbout));
            flow.paragraph(&[lead, axis], 0.0);
        }
        if matter.has(Field::Settings) {
            flow.paragraph(
                &[
                    Span::new(STRONG, words::SETTINGS),
                    Span::new(BODY, matter.text(Field::Settings)),
                ],
                0.0,
            );
        } else {
            form::fields(flow, &[Captioned::blank(words::SETTINGS_BLANK, 1.0)]);
        }
        held::flush(matter, flow);
    });
}

pub(super) fn setup(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::SETUP, |flow| {
        if matter.has(Field::SetupText) {
            flow.text(BODY, matter.text(Field::SetupText));
        } else {
            form::fields(flow, &[Captioned::blank(words::HELD, 1.0)]);
        }
        held::rests_on(matter, flow);
        for (lead, field) in [
            (words::NOT_TO_CLAMP, Field::FacesNotToClamp),
            (words::BACKING, Field::BackingText),
        ] {
            if matter.has(field) {
                flow.paragraph(
                    &[Span::new(STRONG, lead), Span::new(BODY, matter.text(field))],
                    0.0,
                );
            }
        }
        if !matter.has(Field::BackingText) && has_backed(matter) {
            form::fields(flow, &[Captioned::blank(words::BACKING_BLANK, 1.0)]);
        }
        let mounted = axes::mounted(matter);
        for (index, setup) in matter.figures.setups.iter().enumerate() {
            let lead = phrases::setup(index + 1);
            let mounted = mounted.get(index).filter(|setup| !setup.stops.is_empty());
            let mount = mounted.map(|setup| setup.mounting(matter.form()));
            let mount = mount.map_or_else(String::new, |mount| words::mounted(&mount));
            flow.paragraph(
                &[
                    Span::new(STRONG, &lead),
                    Span::new(BODY, &one_setup(matter, index, setup)),
                    Span::new(BODY, &mount),
                    Span::new(BODY, &held::in_setup(matter, setup)),
                ],
                0.0,
            );
        }
        if mounted.iter().any(|setup| !setup.stops.is_empty()) {
            flow.text(BODY, words::ZERO);
        }
        if has_backed(matter) || matter.has(Field::BackingText) {
            form::sign_off(flow, words::BACKING_IN);
        }
        sign_offs(matter, flow, words::SETUP_CHECK, words::setup_check);
        if is_signed_by_setup(matter) {
            for number in setups_made_twice(matter) {
                form::sign_off(flow, &words::setup_check_again(number));
            }
        }
    });
}

/// One setup in a sentence.
pub(super) fn one_setup(matter: &Matter<'_>, index: usize, setup: &SetupFigures) -> String {
    let lot = matter.figures.lot.as_ref().filter(|lot| lot.quantity > 1);
    let by_part = lot.and_then(|lot| lot.part_by_part.get(index).copied());
    words::setup(
        matter.form(),
        setup,
        &matter.marks(setup.rows.iter().copied()),
        (by_part.unwrap_or(false), is_swung(matter, index)),
    )
}

/// Whether the part lies on the face that it lay on in the setup before.
fn is_swung(matter: &Matter<'_>, index: usize) -> bool {
    let up = |at: usize| match matter.figures.setups.get(at)?.mount {
        Mount::Face { up, .. } | Mount::Upright(up) => Some(up),
        Mount::Lying(_) | Mount::Inclined { .. } => None,
    };
    let pair = index.checked_sub(1).and_then(up).zip(up(index));
    pair.is_some_and(|(before, now)| between(before, now) < SAME_DEG)
}

pub(super) fn first_piece(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::FIRST_PIECE, |flow| {
        let text = matter.text(Field::FirstPiece);
        if text.is_empty() {
            let by_hold = matter.has(Field::HoldPoints);
            flow.text(BODY, &words::first_plain(matter.kinds(), by_hold));
        } else {
            flow.text(BODY, text);
        }
        if matter
            .count_of(Field::Spares)
            .is_some_and(|spares| spares > 0)
        {
            flow.text(BODY, words::ON_SPARE);
        }
        if is_signed_by_setup(matter) {
            flow.text(BODY, words::FIRST_CHECKS);
        }
        sign_offs(matter, flow, words::FIRST_CHECK, words::first_check);
    });
}

/// Whether somebody said of a row that its exits are backed.
fn has_backed(matter: &Matter<'_>) -> bool {
    let mut rows = matter.job.rows.iter();
    rows.any(|row| row.backed.value() == Some(&true))
}

/// A line to sign for each setup; of very many the operations have one each.
fn sign_offs(matter: &Matter<'_>, flow: &mut Flow, one: &str, of: fn(usize) -> String) {
    if !is_signed_by_setup(matter) {
        form::sign_off(flow, one);
        return;
    }
    for number in 1..=matter.figures.setups.len() {
        form::sign_off(flow, &of(number));
    }
}

/// Whether each setup has lines of its own to sign.
fn is_signed_by_setup(matter: &Matter<'_>) -> bool {
    (2..=MOST_SIGNED).contains(&matter.figures.setups.len())
}

pub(super) fn after(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, words::AFTER, |flow| {
        if has_backed(matter) || matter.has(Field::BackingText) {
            flow.text(BODY, words::UNBACK);
            form::sign_off(flow, words::BACKING_OUT);
        }
        let text = matter.text(Field::After);
        flow.text(
            BODY,
            if text.is_empty() {
                words::after_plain(matter.kinds())
            } else {
                text
            },
        );
        flow.take(mm(1.0));
    });
}
