//! The traveler: what goes with the parts and lets a stranger start without a question.

mod basis;
pub(in crate::papers) mod cautions;
mod depths;
mod floor;
mod floor_note;
mod held;
mod holes;
mod inspection;
mod kit;
mod lengths;
mod lessons;
mod limits;
mod operations;
mod order;
mod part;
mod places;
mod plan;
mod plugged;
pub(in crate::papers) mod record;
mod row_notes;
mod stop;
mod tip;
mod title;

use quillbore_job::Paper;

use crate::letterhead::frame::Frame;
use crate::matter::Matter;
use crate::page::Document;
use crate::typeset::flow::Flow;
use crate::words::traveler as words;

/// Sets the traveler of a job.
pub fn traveler(matter: &Matter<'_>) -> Document {
    let mut flow = Flow::new(matter.sheet);
    title::set(matter, &mut flow);
    stop::set(matter, &mut flow);
    floor::set(matter, &mut flow);
    lessons::set(matter, &mut flow);
    part::drawing(matter, &mut flow);
    part::part(matter, &mut flow);
    part::material(matter, &mut flow);
    part::received(matter, &mut flow);
    title::notes(matter, &mut flow);
    plan::machine(matter, &mut flow);
    plan::setup(matter, &mut flow);
    kit::set(matter, &mut flow);
    holes::set(matter, &mut flow);
    depths::set(matter, &mut flow);
    plan::first_piece(matter, &mut flow);
    limits::stop_if(matter, &mut flow);
    order::set(matter, &mut flow);
    record::set(matter, &mut flow);
    plan::after(matter, &mut flow);
    operations::set(matter, &mut flow);
    inspection::set(matter, &mut flow);
    plugged::set(matter, &mut flow);
    cautions::set(matter, &mut flow);
    if matter.annex {
        places::annex(matter, &mut flow);
    }
    let frame = Frame::of(matter, Paper::Traveler, words::title::TITLE, words::FOOT);
    flow.finish(|page, number, of| frame.write(page, matter.sheet, number, of))
}
