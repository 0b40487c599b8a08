//! What papers follow from the order on: number, revision, quantity and due date of the order, the
//! sheet's only where the order says nothing.

use quillbore_job::slip::{View, kind, line};
use quillbore_job::{Field, Paper, order};

use crate::matter::Matter;
use crate::matter::day::day;
use crate::words::order as words;

impl<'a> Matter<'a> {
    /// The newest order.
    pub fn order(&self) -> Option<View<'a, kind::Order>> {
        self.job.slips_of::<kind::Order>().next_back()
    }

    /// The call-off whose parts the papers are about, where they were called off.
    pub fn call_off(&self) -> Option<View<'a, kind::Release>> {
        order::call_off(self.job)
    }

    /// The customer's number of the order; empty while there is none.
    pub fn order_number(&self) -> &'a str {
        self.order().map_or("", |order| order.get(line::Number))
    }

    /// The parts that the papers are about as printed, of how many where they are some of them; what
    /// can't be read stands as it was typed.
    pub fn quantity_text(&self) -> String {
        let follows = self.follows();
        match (follows.quantity, follows.of) {
            (None, _) => self.text(Field::Quantity).to_owned(),
            (Some(lot), None) => self.form().count(f64::from(lot)),
            (Some(lot), Some(all)) => (self.words().phrases.some_of)(self.form(), lot, all),
        }
    }

    /// When the parts are due as printed; what can't be read stands as it was typed.
    pub fn due_text(&self) -> String {
        if let Some(day) = self.follows().due {
            return self.form().day(day);
        }
        let called_off = self.call_off().map(|slip| slip.text(line::Due));
        let ordered = self.order().map(|slip| slip.text(line::Due));
        let typed = [called_off, ordered].into_iter().flatten();
        let mut typed = typed.chain([self.text(Field::Due)]);
        typed.find(|text| !text.is_empty()).unwrap_or("").to_owned()
    }

    /// Where electrodes and times were worked out for another quantity than the papers are about.
    pub fn worked_out_for_another_quantity(&self) -> Option<String> {
        let planned = self.figures.lot.as_ref()?.quantity;
        let wanted = self.follows().quantity?;
        (wanted != planned).then(|| words::other_quantity(self.form(), wanted, planned))
    }

    /// Issued papers of a kind that were withdrawn, each in a sentence: this one replaces them.
    pub fn withdrawn(&self, paper: Paper) -> Vec<String> {
        let said = self.job.withdrawals().filter_map(|slip| {
            let issued = self.job.taken_back_by(slip)?;
            (issued.paper == paper).then(|| {
                (self.words().opening.withdrawn)(
                    &issued.number,
                    &day(self.form(), slip, line::Date),
                    slip.get(line::By),
                    slip.get(line::Why),
                )
            })
        });
        said.collect()
    }
}
