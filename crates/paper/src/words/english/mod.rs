//! What papers say in English. What the shop's own papers have, too, stands here as constants and
//! functions, which those take by name.

mod agreed;
pub mod answers;
mod blank;
pub mod captions;
mod cautions;
mod certificate;
mod confirmation;
mod first_article;
mod frame;
pub mod heads;
pub mod hole;
pub mod inspection;
mod label;
mod nonconformance;
pub mod opening;
pub mod order;
mod packing;
mod papers;
pub mod phrases;
mod quotation;
mod receiving;
mod tool_receipt;
mod who;

use super::customer::Words;

/// Everything that papers for a customer say in English, numbers and days as the shop writes them.
pub(super) const WORDS: Words = Words {
    form: |form| form,
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
