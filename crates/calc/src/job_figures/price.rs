//! The figures of cost and price.

use alloc::string::String;
use alloc::vec::Vec;

use rust_decimal::Decimal;

use super::risk::Risk;
use crate::figure::CostLine;
use crate::quantity::Band;

/// The price of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct PriceFigures {
    /// ISO 4217 code.
    pub currency: String,
    /// Cost lines of the lot at the offered quantity [currency].
    pub cost: CostLines,
    /// What expected cost is beyond the cost at the medians, before anybody overruled it [-].
    pub not_yet_known_share: f64,
    /// Spread of the full cost of the lot, its P50 at the median of everything [currency].
    pub lot_cost: Band,
    /// Whether the shop's records make that cost so sure that it is called calibrated.
    pub calibrated: bool,
    /// What the price of the offered quantity risks; `None` until the lot was drawn.
    pub risk: Option<Risk>,
    /// Expected full cost of the lot, on which the price rests: all cost lines together [currency].
    pub expected_cost: f64,
    /// The offered quantity and then the others, each priced by the same engine.
    pub breaks: Vec<Break>,
    /// One-off charges as priced.
    pub one_off: Vec<(String, Decimal)>,
    /// Margin on price, 0 to below 1.
    pub margin: f64,
    /// Markup on cost that this margin comes to.
    pub markup: f64,
}

/// Cost lines of a lot [currency].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CostLines {
    /// Machine.
    pub machine: f64,
    /// Labor.
    pub labor: f64,
    /// Electrodes.
    pub electrodes: f64,
    /// Guides, by their life in holes.
    pub guides: f64,
    /// Dielectric, filters and resin.
    pub dielectric: f64,
    /// Power.
    pub power: f64,
    /// Outside work.
    pub outside: f64,
    /// Breakage and redo.
    pub redo: f64,
    /// The customer's part at risk.
    pub part_risk: f64,
    /// Not yet known: expected cost beyond the cost at the medians.
    pub not_yet_known: f64,
}

impl CostLines {
    /// One of the lines that have a working of their own.
    ///
    /// Formula: the line itself.
    ///
    /// - `line`: which.
    ///
    /// Result: cost [currency].
    ///
    /// ```
    /// use quillbore_calc::figure::CostLine;
    /// use quillbore_calc::job_figures::CostLines;
    /// let lot = CostLines { labor: 200.0, ..CostLines::default() };
    /// assert_eq!(lot.line(CostLine::Labor), 200.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub const fn line(&self, line: CostLine) -> f64 {
        match line {
            CostLine::Machine => self.machine,
            CostLine::Labor => self.labor,
            CostLine::Electrodes => self.electrodes,
            CostLine::Guides => self.guides,
            CostLine::Dielectric => self.dielectric,
            CostLine::Power => self.power,
            CostLine::Outside => self.outside,
            CostLine::Redo => self.redo,
            CostLine::PartRisk => self.part_risk,
        }
    }

    /// All of them together.
    ///
    /// Formula: sum of the lines.
    ///
    /// Result: cost [currency].
    ///
    /// ```
    /// use quillbore_calc::job_figures::CostLines;
    /// let lot = CostLines {
    ///     machine: 400.0, labor: 180.0, electrodes: 20.0, guides: 4.0, dielectric: 30.0, power: 20.0,
    ///     outside: 50.0, redo: 30.0, part_risk: 6.0, not_yet_known: 60.0,
    /// };
    /// assert_eq!(lot.sum(), 800.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.machine
            + self.labor
            + self.electrodes
            + self.guides
            + self.dielectric
            + self.power
            + self.outside
            + self.redo
            + self.part_risk
            + self.not_yet_known
    }

    /// What is not yet known, as it stands in the cost, as a share of what is.
    ///
    /// Formula: the line of what is not yet known over the sum of the others.
    ///
    /// Result: share [-]; 0 where the others come to nothing.
    ///
    /// ```
    /// use quillbore_calc::job_figures::CostLines;
    /// let lot = CostLines { machine: 400.0, labor: 200.0, not_yet_known: 60.0, ..CostLines::default() };
    /// assert_eq!(lot.share_not_yet_known(), 0.1);
    /// assert_eq!(CostLines::default().share_not_yet_known(), 0.0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn share_not_yet_known(&self) -> f64 {
        let known = self.sum() - self.not_yet_known;
        if known > 0.0 {
            self.not_yet_known / known
        } else {
            0.0
        }
    }
}

/// One quantity and its price.
#[derive(Clone, Debug, PartialEq)]
pub struct Break {
    /// Parts.
    pub quantity: u32,
    /// Full cost of one part [currency].
    pub unit_cost: f64,
    /// Price of one part, rounded half away from zero.
    pub each: Decimal,
    /// The same before anybody overruled it.
    pub computed_each: Decimal,
    /// Price of the lot: the unit price extended.
    pub lot: Decimal,
    /// True where the minimum charge decided it.
    pub minimum: bool,
    /// True where the unit price was overruled.
    pub overruled: bool,
    /// What that comes to for each hole, where all holes are start holes [currency].
    pub per_hole: Option<Decimal>,
}
