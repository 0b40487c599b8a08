//! Who speaks of a job: lengths, amounts, rows and figures as every sentence names them.

use quillbore_calc::{Figure, RowId, Tables};

use super::{marks, workings};
use crate::job::Job;
use crate::typed::entry::Unit;
use crate::typed::form::Form;

/// What the sentences are about: the job for its marks, the tables for names, the unit shown.
#[derive(Clone, Copy, Debug)]
pub struct Speaker<'a> {
    /// The job spoken of.
    pub job: &'a Job,
    /// The shop's tables.
    pub tables: &'a Tables,
    /// The unit that lengths are said in.
    pub unit: Unit,
    /// How numbers and days are written.
    pub form: Form,
}

impl Speaker<'_> {
    /// A length with its unit.
    #[must_use]
    pub fn length(&self, mm: f64) -> String {
        self.form.length_with_unit(mm, self.unit)
    }

    /// A force with its unit: newtons, in an inch job pounds of force.
    #[must_use]
    pub fn force(&self, newtons: f64) -> String {
        self.form.force(newtons, self.unit)
    }

    /// The mark of a row, or its place in the table where it has none.
    #[must_use]
    pub fn mark(&self, row: RowId) -> String {
        marks::of_row(self.job, row)
    }

    /// A row as a sentence names it: "hole A".
    #[must_use]
    pub fn hole(&self, row: RowId) -> String {
        format!("hole {}", self.mark(row))
    }

    /// An amount with the currency.
    #[must_use]
    pub fn amount(&self, amount: f64) -> String {
        let rates = &self.tables.rates;
        format!(
            "{} {}",
            self.form.money(amount, rates.minor_digits),
            rates.currency
        )
    }

    /// A figure's name in a sentence.
    #[must_use]
    pub fn figure(&self, figure: Figure) -> String {
        match figure {
            Figure::Electrode(row) => format!("the electrode of {}", self.hole(row)),
            Figure::Gap(row) => format!("the gap per side of {}", self.hole(row)),
            Figure::Feed(row) => format!("the feed of {}", self.hole(row)),
            Figure::HoleMinutes(row) => format!("the time of {}", self.hole(row)),
            Figure::Wear(row) => format!("the wear of {}", self.hole(row)),
            Figure::TargetDepth(row) => format!("the target depth of {}", self.hole(row)),
            Figure::ReachOne(row) => format!("the reach of one electrode in {}", self.hole(row)),
            Figure::ElectrodesPerHole(row) => format!("the electrodes in one {}", self.hole(row)),
            Figure::Flush(row) => format!("the flush of {}", self.hole(row)),
            Figure::Push(row) => format!("what the flush of {} pushes with", self.hole(row)),
            Figure::Clamp(setup) => format!("the clamp of setup {}", setup + 1),
            Figure::Machines => "the machines, compared".to_owned(),
            Figure::Electrodes(tube) => {
                let name = tube
                    .of(&self.tables.tubes)
                    .map_or("?", |tube| tube.name.as_str());
                format!("the electrodes of {name}")
            }
            Figure::AllElectrodes => "the electrodes of the lot".to_owned(),
            Figure::Setups => "the setups".to_owned(),
            Figure::MachineHours => "the machine hours".to_owned(),
            Figure::LaborHours => "the labor hours".to_owned(),
            Figure::NotYetKnown => "what is not yet known".to_owned(),
            Figure::Cost(line) => format!("the cost of {}", workings::cost_line(line)),
            Figure::LotCost => "the cost of the lot".to_owned(),
            Figure::UnitPrice(quantity) => {
                format!("the price each at {}", self.form.count(f64::from(quantity)))
            }
            Figure::LotPrice(quantity) => {
                format!(
                    "the price of the lot of {}",
                    self.form.count(f64::from(quantity))
                )
            }
            Figure::WorkingDays => "the working days".to_owned(),
        }
    }
}

/// A sentence's first letter as a capital.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
