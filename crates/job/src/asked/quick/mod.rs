//! A price by telephone: five texts on an empty sheet, a range at once, and the job that they make.

mod answer;
mod assumed;
mod call;
mod meant;
mod range;
mod told;
mod tried;

pub use answer::{QuickAnswer, Says};
pub use assumed::Assumed;
pub use call::{BrokenRange, CallTold, broken_range, for_the_try};
pub use range::{Minimum, QuickRange};
pub use told::Told;

use crate::edits::edit::{CellAt, Edit};
use crate::job::Job;
use crate::shop::rows::Shop;
pub use crate::typed::call::{Call, CallField};
use crate::typed::field::Field;
pub use crate::typed::quick::{LeadsTo, Quick, QuickField};
use crate::typed::row::Column;
use meant::Meant;

impl Quick {
    /// Whether a job is still so empty that a quick price is offered on its sheet.
    #[must_use]
    pub fn is_offered(job: &Job) -> bool {
        job.rows.is_empty()
            && job.overrules.is_empty()
            && job.field(Field::Material).is_empty()
            && job.field(Field::Quantity).is_empty()
    }

    /// The edit that makes an empty job the one that was typed, texts as they stand, on the machine that
    /// was assumed; none where nothing was typed, or where the job isn't empty any more.
    ///
    /// What was not typed stays empty, so that the sheet says what is missing. A material is finished as
    /// its line finishes what is typed in it.
    #[must_use]
    pub fn edit(&self, base: &Job, shop: &Shop) -> Option<Edit> {
        let mut edits = self.typed(base, &Meant::of(&self.material, shop), shop)?;
        if base.field(Field::Machine).is_empty()
            && let Some(machine) = self.answer(base, shop).machine
            && let Some(machine) = machine.of(&shop.tables.machines)
        {
            edits.push(field_edit(base, Field::Machine, &machine.name));
        }
        Edit::together(edits)
    }

    /// The edits that put what was typed on the sheet; none where nothing was, or the sheet isn't empty.
    fn typed(&self, base: &Job, meant: &Meant, shop: &Shop) -> Option<Vec<Edit>> {
        if !Self::is_offered(base) {
            return None;
        }
        let typed = |field: &QuickField| !self.is_blank(*field);
        let fields = QuickField::ALL.iter().copied().filter(typed);
        let edits =
            fields.filter_map(|field| put(base, field.goes_to(), self.text(field), meant, shop));
        let edits: Vec<Edit> = edits.collect();
        (!edits.is_empty()).then_some(edits)
    }
}

/// The edit that puts a text where it goes on the sheet; a material as its line finishes it.
fn put(base: &Job, goes_to: LeadsTo, text: &str, meant: &Meant, shop: &Shop) -> Option<Edit> {
    match goes_to {
        LeadsTo::Field(on_sheet @ Field::Material) => {
            Some(field_edit(base, on_sheet, meant.written(text, shop)))
        }
        LeadsTo::Field(on_sheet) => Some(field_edit(base, on_sheet, text)),
        LeadsTo::Column(column) => Some(cell_edit(base, column, text)),
        LeadsTo::Rates => None,
    }
}

fn field_edit(base: &Job, field: Field, text: &str) -> Edit {
    Edit::SetField {
        field,
        text: text.to_owned(),
        unit: base.unit,
    }
}

fn cell_edit(base: &Job, column: Column, text: &str) -> Edit {
    Edit::SetCells {
        at: CellAt { row: 0, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit: base.unit,
    }
}
