//! What is written at the quick price.

use quillbore_job::quick::{CallField, LeadsTo, QuickField};
use quillbore_job::words::call;
use quillbore_job::words::english::column_unit;
use quillbore_job::words::quick::field;
use quillbore_job::{FieldKind, Unit};

use super::sheet::label as label_of;

/// The head of the line.
pub const HEAD: &str = "Quick price";

/// What it does, below it.
pub const HOW: &str = "from the second field on the foot answers;";

/// Makes it the job.
pub const MAKE: &str = "make it the job";

/// Asks for a broken tool instead.
pub const BROKEN: &str = "a broken tool instead";

/// Asks for holes again.
pub const HOLES: &str = "holes instead";

/// What is asked of a broken tool, below it.
pub const CALL_HOW: &str = "in the order of a call; the foot answers from tool and material on;";

/// That the sheet is no longer empty.
pub const MADE: &str = "the sheet is begun: a quick price is asked on an empty one (Ctrl+N)";

/// Before all that is assumed.
pub const ASSUMED: &str = "assumed; press one to say otherwise:";

/// The label of a field, with the unit of bare numbers in it.
#[must_use]
pub fn label(of: QuickField, unit: Unit) -> String {
    match of {
        QuickField::Size | QuickField::Depth => format!("{} {}", field(of), unit.symbol()),
        QuickField::Material | QuickField::Holes | QuickField::Parts => field(of).to_owned(),
    }
}

/// The label of a question about a broken tool, with the unit of bare numbers in it.
#[must_use]
pub fn call_label(of: CallField, unit: Unit, currency: &str) -> String {
    let name = call::field(of);
    match of.goes_to() {
        LeadsTo::Field(field) => {
            let currency = (field.kind() == FieldKind::Money).then_some(currency);
            label_of(name, field.kind(), unit, currency)
        }
        LeadsTo::Column(column) => {
            let unit = column_unit(column, unit);
            format!("{name} {unit}").trim_end().to_owned()
        }
        LeadsTo::Rates => name.to_owned(),
    }
}

/// The name of such a question, for readers of the screen.
#[must_use]
pub fn call_named(field: &str) -> String {
    format!("broken tool: {field}")
}

/// The name of a field, for readers of the screen.
#[must_use]
pub fn named(field: &str) -> String {
    format!("quick price: {field}")
}
