//! What papers that go to a customer say: a struct for each paper and for what several have, with one
//! value in `english` and one in `german`. A paper takes the words of its language once, from its matter.

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
mod tool_receipt;
mod who;

pub use agreed::Agreed;
pub use answers::{Answers, Lengths};
pub use blank::Blank;
pub use captions::Captions;
pub use cautions::Cautions;
pub use certificate::Certificate;
pub use confirmation::Confirmation;
pub use first_article::{CharacteristicsForm, FirstArticle, MaterialsForm, PartForm};
pub use frame::Frame;
pub use heads::Heads;
pub use hole::Hole;
pub use inspection::{Inspection, SampleState};
pub use label::Label;
pub use nonconformance::Nonconformance;
pub use opening::Opening;
pub use order::Order;
pub use packing::Packing;
pub use papers::{Papers, titled};
pub use phrases::Phrases;
pub use quotation::Quotation;
pub use receiving::Receiving;
pub use tool_receipt::ToolReceipt;
pub use who::Who;

use quillbore_job::{Form, Language};

use crate::words::{english, german};

/// All words of one language.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    /// How numbers and days are written in it, given how the shop writes them.
    pub form: fn(Form) -> Form,
    /// What was agreed with the customer.
    pub agreed: Agreed,
    /// Checks that the customer is asked about, and what was answered.
    pub answers: Answers,
    /// Blank forms.
    pub blank: Blank,
    /// Captions of fields that several papers have.
    pub captions: Captions,
    /// Cautions of a paper that the customer signs.
    pub cautions: Cautions,
    /// The certificate of conformance.
    pub certificate: Certificate,
    /// The order confirmation.
    pub confirmation: Confirmation,
    /// The first article inspection report.
    pub first_article: FirstArticle,
    /// Head and foot of every page.
    pub frame: Frame,
    /// Heads of columns that several papers have.
    pub heads: Heads,
    /// A row of holes as the drawing has it.
    pub hole: Hole,
    /// The hole inspection record.
    pub inspection: Inspection,
    /// The box label.
    pub label: Label,
    /// Non-conformances.
    pub nonconformance: Nonconformance,
    /// How papers begin.
    pub opening: Opening,
    /// What differs in an order.
    pub order: Order,
    /// The packing list.
    pub packing: Packing,
    /// What papers are called.
    pub papers: Papers,
    /// Phrases that several papers build their lines of.
    pub phrases: Phrases,
    /// The quotation.
    pub quotation: Quotation,
    /// The receiving slip.
    pub receiving: Receiving,
    /// The receipt for a broken tool.
    pub tool_receipt: ToolReceipt,
    /// Whom a paper goes to.
    pub who: Who,
}

impl Words {
    /// The words of a language.
    #[must_use]
    pub const fn of(language: Language) -> &'static Self {
        match language {
            Language::English => &english::WORDS,
            Language::German => &german::WORDS,
        }
    }
}
