//! What the shop's tables say, worked out once for all rows of a job.

use alloc::borrow::Cow;
use alloc::vec::Vec;

use super::facts::{ByRecords, MaterialFacts, TubeFacts, material_facts, tube_facts};
use super::judgements::Judgements;
use super::median_sigma::MedianSigma;
use super::money::Money;
use super::setting::{RowOverrules, Setting};
use super::stock::Stock;
use crate::figure::Figure;
use crate::flush::Water;
use crate::input::JobInput;
use crate::learn::Lessons;
use crate::quantity::Spread;
use crate::size::Quantiles;
use crate::tables::{Machine, StartValues, Tables};

/// A job and its tables with all that its rows have in common worked out once.
#[derive(Clone, Debug)]
pub struct Context<'a> {
    pub(super) setting: Setting,
    pub(super) tables: &'a Tables,
    /// The start values, as the shop's records make those of this machine.
    pub(super) start: Cow<'a, StartValues>,
    /// What the shop's records make of the rest; `None` where the start values stand.
    pub(super) lessons: Option<&'a Lessons>,
    pub(super) machine: Option<&'a Machine>,
    /// By the tables' index.
    pub(super) materials: Vec<MaterialFacts>,
    /// By the tables' index.
    pub(super) tubes: Vec<TubeFacts>,
    /// What this machine drives.
    pub(super) driven: Stock,
    /// All tubes of the shop.
    pub(super) all: Stock,
    pub(super) quantiles: Quantiles,
    /// Twice the widest gap of any tube, with its scatter [mm].
    pub(super) widest_mm: f64,
    pub(super) overrules: RowOverrules,
    pub(super) depth: MedianSigma,
    pub(super) wear_at_100: MedianSigma,
    /// Touch-off, as wide as handling is.
    pub(super) touch_off: Spread,
    /// The dielectric as it flows, and its pressure at the pump [bar].
    pub(super) water: Option<Water>,
    pub(super) pressure_bar: Option<f64>,
    pub(super) money: Option<Money>,
    pub(super) judgements: Judgements,
}

impl<'a> Context<'a> {
    /// Works out what all rows of a job have in common.
    ///
    /// Formula: medians and deviations of the start values, and each tube's gap, feed and wear.
    ///
    /// - `input`: the job.
    /// - `tables`: the shop's tables.
    ///
    /// Result: a context for [`Context::row_figures`] and [`Context::drill`].
    ///
    /// ```
    /// use quillbore_calc::hole::Context;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(0.8, 20.0), through(1.2, 35.0)]);
    /// let context = Context::new(&input, &tables);
    /// let all: Vec<_> = input.rows.iter().map(|row| context.row_figures(row)).collect();
    /// // 20 mm at 0.8439 of a 0.7 mm tube.
    /// assert!((all[0].wear_mm.unwrap() - 16.878).abs() < 0.0005);
    /// assert!(all[0].wear_mm < all[1].wear_mm);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn new(input: &JobInput, tables: &'a Tables) -> Self {
        Self::of(Setting::of(input), RowOverrules::of(input), tables)
    }

    /// The same by the start values alone, whatever was learned and whatever somebody overruled.
    pub(crate) fn by_start_values(input: &JobInput, tables: &'a Tables) -> Self {
        let overrules = RowOverrules::default();
        Self::with(Setting::of(input), overrules, tables, None)
    }

    pub(crate) fn of(setting: Setting, overrules: RowOverrules, tables: &'a Tables) -> Self {
        Self::with(setting, overrules, tables, Some(&tables.lessons))
    }

    fn with(
        setting: Setting,
        overrules: RowOverrules,
        tables: &'a Tables,
        lessons: Option<&'a Lessons>,
    ) -> Self {
        let lessons = lessons.filter(|lessons| !lessons.evidence().is_empty());
        let by_records = lessons.map(|lessons| lessons.start_on(&tables.start, setting.machine));
        let start = by_records.unwrap_or(Cow::Borrowed(&tables.start));
        let machine = setting
            .machine
            .and_then(|machine| machine.of(&tables.machines));
        let known = ByRecords {
            start: &start,
            lessons,
            machine: setting.machine,
        };
        let facts = |tube| tube_facts(tube, tables, machine, &known);
        let tubes: Vec<TubeFacts> = tables.tubes.iter().map(facts).collect();
        let quantiles = Quantiles::default();
        let all = Stock::new(tables, &tubes, &quantiles);
        Self {
            tables,
            machine,
            materials: tables.materials.iter().map(material_facts).collect(),
            driven: machine.map_or_else(|| all.clone(), |machine| all.driven_by(machine)),
            all,
            widest_mm: widest_mm(&start, &tubes),
            tubes,
            quantiles,
            overrules,
            depth: MedianSigma::of(start.depth_s),
            wear_at_100: MedianSigma::of(start.wear_at_100_diameters),
            water: Water::at(start.water_c),
            pressure_bar: (setting.pressure_bar).or(machine.map(|machine| machine.pressure_bar)),
            touch_off: start.touch_off_min.at_least(start.deviations.handling()),
            money: machine.map(|machine| Money::new(&setting, &start, &tables.rates, machine)),
            judgements: Judgements::default(),
            setting,
            start,
            lessons,
        }
    }

    /// What the estimator put in a figure's place, where it is above 0.
    #[inline]
    pub(super) fn overruled(&self, figure: Figure) -> Option<f64> {
        self.overrules.get(figure)
    }
}

/// Twice the widest gap of any tube, with its scatter [mm].
fn widest_mm(start: &StartValues, tubes: &[TubeFacts]) -> f64 {
    let by_table = start.gap_mm.iter().map(|(_, gap)| *gap);
    let gaps = by_table.chain(tubes.iter().filter_map(|tube| tube.gap));
    gaps.fold(0.1, |widest: f64, gap| {
        widest.max(2.0 * gap.p90 * gap.p90 / gap.p50() + 0.2)
    })
}
