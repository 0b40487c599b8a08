//! What the shop's own records make of figures, in words.

use quillbore_calc::JobFigures;
use quillbore_calc::learn::Behind;

use crate::typed::form::Form;

/// What figures rest on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rests {
    /// The records that stand behind the row that has the fewest; none where there are no records.
    pub behind: Option<Behind>,
    /// They make all figures so sure that they are called calibrated.
    pub calibrated: bool,
}

impl Rests {
    /// What the figures of a job rest on.
    #[must_use]
    pub fn of(figures: &JobFigures) -> Self {
        Self {
            behind: figures.behind(),
            calibrated: figures.is_calibrated(),
        }
    }
}

/// The records that stand behind figures: of this material, else what there is of its kind.
#[must_use]
pub fn records(behind: Behind) -> String {
    let Behind {
        grade,
        lots,
        family,
        all,
    } = behind;
    match (grade, family) {
        (0, 0) => format!(
            "no run of such material yet, {} of other materials",
            runs(all)
        ),
        (0, family) => format!(
            "no run of this material yet, {} of its family",
            runs(family)
        ),
        (grade, _) if lots == grade => format!("{} of this material", runs(grade)),
        (grade, _) if lots == 1 => format!("{} of this material, all of one lot", runs(grade)),
        (grade, _) => format!("{} of this material, of {lots} lots", runs(grade)),
    }
}

/// Beside a figure: how many runs, and what they make of the start value.
#[must_use]
pub fn beside(behind: Behind, factor: f64, form: Form) -> String {
    let factor = times(factor, form);
    match behind.grade {
        0 => format!("0 runs, {factor}"),
        grade => format!("{}, {factor}", runs(grade)),
    }
}

/// A factor on a start value, to two digits.
#[must_use]
pub fn times(factor: f64, form: Form) -> String {
    format!("{} x", times_plain(factor, form))
}

/// The same without its sign.
#[must_use]
pub fn times_plain(factor: f64, form: Form) -> String {
    let digits = match factor {
        small if small < 0.995 => 2,
        middle if middle < 9.95 => 1,
        _ => 0,
    };
    form.fixed(factor, digits)
}

fn runs(number: u32) -> String {
    match number {
        1 => "1 run".to_owned(),
        number => format!("{number} runs"),
    }
}
