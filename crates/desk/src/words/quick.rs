//! What is written at the quick price.

use quillbore_job::Unit;
use quillbore_job::quick::QuickField;
use quillbore_job::words::quick::field;

/// The head of the line.
pub const HEAD: &str = "Quick price";

/// What it does, below it.
pub const HOW: &str = "from the second field on the foot answers;";

/// Makes it the job.
pub const MAKE: &str = "make it the job";

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

/// The name of a field, for readers of the screen.
#[must_use]
pub fn named(field: &str) -> String {
    format!("quick price: {field}")
}
