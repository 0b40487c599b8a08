//! The running sentence in the foot: what is said on the phone, in the order it is said.

use quillbore_calc::{Figure, JobFigures};
use rust_decimal::prelude::ToPrimitive as _;

use super::own::{self, Rests};
use super::speaker::Speaker;
use crate::typed::field::Field;
use crate::typed::show_quantity as show;

/// A piece of the sentence; one with a figure opens its working.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The words.
    pub text: String,
    /// The figure behind them.
    pub figure: Option<Figure>,
}

impl Speaker<'_> {
    /// The foot: price each, price of the lot, hours with spread, electrodes, days, and what the
    /// shop does not know.
    #[must_use]
    pub fn foot(&self, figures: &JobFigures) -> Vec<Piece> {
        let mut said = Vec::new();
        self.price(figures, &mut said);
        self.hours(figures, &mut said);
        self.electrodes(figures, &mut said);
        self.days(&mut said);
        self.unknowns(figures, &mut said);
        if said.is_empty() {
            let says = if self.job.rows.is_empty() {
                "Type a material, a machine, a quantity and the holes."
            } else {
                "No price yet: the side notes say what is missing."
            };
            plain(&mut said, says);
        }
        said
    }

    fn price(&self, figures: &JobFigures, said: &mut Vec<Piece>) {
        let Some(first) = figures
            .price
            .as_ref()
            .and_then(|price| price.breaks.first())
        else {
            return;
        };
        let digits = self.tables.rates.minor_digits;
        let each = first.each.to_f64().unwrap_or(0.0);
        let lot = first.lot.to_f64().unwrap_or(0.0);
        figure(said, self.amount(each), Figure::UnitPrice(first.quantity));
        plain(said, " each, ");
        figure(
            said,
            show::money(lot, digits),
            Figure::UnitPrice(first.quantity),
        );
        plain(
            said,
            &format!(" the lot of {}, at a cost of ", first.quantity),
        );
        let Some(price) = &figures.price else {
            return;
        };
        figure(said, show::money(price.expected_cost, 0), Figure::LotCost);
        plain(
            said,
            &format!(
                " ({} to {}); ",
                show::money(price.lot_cost.p10, 0),
                show::money(price.lot_cost.p90, 0)
            ),
        );
    }

    fn hours(&self, figures: &JobFigures, said: &mut Vec<Piece>) {
        let Some(lot) = &figures.lot else {
            return;
        };
        let hours = lot.machine_hours;
        figure(said, show::hours(hours.p50), Figure::MachineHours);
        plain(
            said,
            &format!(
                " machine hours ({} to {}), ",
                show::hours(hours.p10),
                show::hours(hours.p90)
            ),
        );
        figure(said, show::hours(lot.labor_hours.p50), Figure::LaborHours);
        plain(said, " of labor, ");
    }

    fn electrodes(&self, figures: &JobFigures, said: &mut Vec<Piece>) {
        let Some(lot) = &figures.lot else {
            return;
        };
        let last = lot.electrodes.len().saturating_sub(1);
        for (index, electrodes) in lot.electrodes.iter().enumerate() {
            if index > 0 {
                plain(said, if index == last { " and " } else { ", " });
            }
            let tube = electrodes.tube.of(&self.tables.tubes);
            let tube_mm = tube.map_or(0.0, |tube| tube.outer_mm);
            figure(
                said,
                electrodes.needed.to_string(),
                Figure::Electrodes(electrodes.tube),
            );
            let noun = if electrodes.needed == 1 {
                "electrode"
            } else {
                "electrodes"
            };
            plain(said, &format!(" {noun} of {}", self.length(tube_mm)));
        }
        let fewest = lot
            .electrodes
            .iter()
            .all(|electrodes| electrodes.needed == electrodes.at_least);
        if !lot.electrodes.is_empty() && fewest && figures.settled {
            plain(said, ", none fewer at this wear");
        }
    }

    fn days(&self, said: &mut Vec<Piece>) {
        if let Some(days) = self.job.count(Field::LeadDays) {
            // Without a price before it the sentence begins here.
            let lead = if said.is_empty() { "" } else { "; " };
            plain(
                said,
                &format!("{lead}{days} working days after order, parts and drawing are in"),
            );
        }
    }

    fn unknowns(&self, figures: &JobFigures, said: &mut Vec<Piece>) {
        if figures.lot.is_none() {
            return;
        }
        plain(said, ". ");
        let unpriced: Vec<String> = figures
            .holes
            .iter()
            .filter(|hole| hole.minutes.is_none())
            .map(|hole| self.mark(hole.row))
            .collect();
        if !unpriced.is_empty() {
            plain(said, &format!("Without {}. ", shortened(&unpriced)));
        }
        plain(said, &own::rests_on(Rests::of(figures)));
    }
}

/// The first few of a list, and how many more.
fn shortened(marks: &[String]) -> String {
    const SHOWN: usize = 5;
    let shown = marks
        .get(..SHOWN.min(marks.len()))
        .unwrap_or(marks)
        .join(", ");
    match marks.len().saturating_sub(SHOWN) {
        0 => shown,
        more => format!("{shown} and {more} more"),
    }
}

fn figure(said: &mut Vec<Piece>, text: String, figure: Figure) {
    said.push(Piece {
        text,
        figure: Some(figure),
    });
}

fn plain(said: &mut Vec<Piece>, text: &str) {
    said.push(Piece {
        text: text.to_owned(),
        figure: None,
    });
}
