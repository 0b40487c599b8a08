//! What papers that go to a customer say in German.

mod agreed;
mod answers;
mod blank;
mod captions;
mod cautions;
mod certificate;
mod confirmation;
mod first_article;
mod frame;
mod heads;
mod hole;
mod inspection;
mod label;
mod nonconformance;
mod opening;
mod order;
mod packing;
mod papers;
mod phrases;
mod quotation;
mod receiving;
mod sheet;
mod tool_receipt;
mod who;

use quillbore_job::Form;
use quillbore_job::form::{Dates, Numbers};

use super::customer::Words;

/// Everything that papers for a customer say in German.
pub(super) const WORDS: Words = Words {
    form: |_| FORM,
    agreed: agreed::WORDS,
    answers: answers::WORDS,
    blank: blank::WORDS,
    captions: captions::WORDS,
    cautions: cautions::WORDS,
    certificate: certificate::WORDS,
    confirmation: confirmation::WORDS,
    first_article: first_article::WORDS,
    frame: frame::WORDS,
    heads: heads::WORDS,
    hole: hole::WORDS,
    inspection: inspection::WORDS,
    label: label::WORDS,
    nonconformance: nonconformance::WORDS,
    opening: opening::WORDS,
    order: order::WORDS,
    packing: packing::WORDS,
    papers: papers::WORDS,
    phrases: phrases::WORDS,
    quotation: quotation::WORDS,
    receiving: receiving::WORDS,
    tool_receipt: tool_receipt::WORDS,
    who: who::WORDS,
};

/// How numbers and days are written in German, whatever the shop's own form: `1.234,50`, `25.11.2026`.
const FORM: Form = Form {
    numbers: Numbers::PointComma,
    dates: Dates::Points,
};
