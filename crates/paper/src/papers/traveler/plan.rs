//! Machine, setup, first piece and what comes after, as the office wrote them.

use quillbore_calc::job_figures::SetupFigures;
use quillbore_job::Field;

use crate::matter::Matter;
use crate::matter::axes;
use crate::page::mm;
use crate::typeset::flow::Flow;
use crate::typeset::form::{self, Field as Blank};
use crate::typeset::look::{BODY, STRONG};
use crate::typeset::side::side;
use crate::typeset::wrap::Span;
use crate::words::traveler as words;

pub(super) fn machine(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "Machine", |flow| {
        form::fields(
            flow,
            &[
                Blank::of("machine", matter.text(Field::Machine), 2.0).style(STRONG),
                Blank::of(
                    "fixture and where it lies",
                    matter.text(Field::Fixture),
                    3.0,
                ),
                Blank::of("program", matter.text(Field::Program), 2.0),
            ],
        );
        if matter.has(Field::IndexAbout) {
            let lead = Span::new(STRONG, "Index axis turns the part about: ");
            let axis = Span::new(BODY, matter.text(Field::IndexAbout));
            flow.paragraph(&[lead, axis], 0.0);
        }
        if matter.has(Field::Settings) {
            flow.paragraph(
                &[
                    Span::new(STRONG, "Settings: "),
                    Span::new(BODY, matter.text(Field::Settings)),
                ],
                0.0,
            );
        } else {
            form::fields(flow, &[Blank::blank("settings", 1.0)]);
        }
    });
}

pub(super) fn setup(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "Setup", |flow| {
        if matter.has(Field::SetupText) {
            flow.text(BODY, matter.text(Field::SetupText));
        } else {
            form::fields(flow, &[Blank::blank("how it is held and zeroed", 1.0)]);
        }
        for (lead, field) in [
            ("Do not clamp on: ", Field::FacesNotToClamp),
            ("Backing behind the exits: ", Field::BackingText),
        ] {
            if matter.has(field) {
                flow.paragraph(
                    &[Span::new(STRONG, lead), Span::new(BODY, matter.text(field))],
                    0.0,
                );
            }
        }
        let mounted = axes::mounted(matter);
        for (index, setup) in matter.figures.setups.iter().enumerate() {
            let lead = format!("Setup {}: ", index + 1);
            let mounted = mounted.get(index).filter(|setup| !setup.stops.is_empty());
            let mount = mounted.map(axes::Mounted::mounting);
            let mount = mount.map_or_else(String::new, |mount| format!(" Mounted: {mount}."));
            flow.paragraph(
                &[
                    Span::new(STRONG, &lead),
                    Span::new(BODY, &one_setup(matter, setup)),
                    Span::new(BODY, &mount),
                ],
                0.0,
            );
        }
        form::sign_off(flow, words::SETUP_CHECK);
    });
}

/// One setup in a sentence.
pub(super) fn one_setup(matter: &Matter<'_>, setup: &SetupFigures) -> String {
    let marks = matter.marks(setup.rows.iter().copied());
    let mut text = if setup.turned_over {
        "part turned over; ".to_owned()
    } else {
        String::new()
    };
    text += &format!(
        "{} of {} in {}",
        words::count(setup.holes, "hole", "holes"),
        marks,
        words::count(setup.directions, "direction", "directions"),
    );
    if setup.index_moves > 0 {
        text += &format!(
            "; {} for one part",
            words::count(setup.index_moves, "index move", "index moves")
        );
    }
    if setup.tilts > 0 {
        text += &format!(
            "; {} of head or table",
            words::count(setup.tilts, "tilt", "tilts")
        );
    }
    if setup.guide_changes > 0 {
        let changes = words::count(setup.guide_changes, "guide change", "guide changes");
        text += &format!("; {changes}");
    }
    text + "."
}

pub(super) fn first_piece(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "First piece", |flow| {
        let text = matter.text(Field::FirstPiece);
        flow.text(
            BODY,
            if text.is_empty() {
                words::first_plain(matter.kinds())
            } else {
                text
            },
        );
        form::sign_off(flow, words::FIRST_CHECK);
    });
}

pub(super) fn after(matter: &Matter<'_>, flow: &mut Flow) {
    side(flow, "After", |flow| {
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
