//! The figures as JSON, key by key; the README documents them. What is not computed yet is `null`.

use std::collections::BTreeMap;

use quillbore_calc::Band;
use serde::{Serialize, Serializer};

/// What is written one by one as it is made, so that the figures of many rows stand in memory once.
pub(super) struct Each<F>(pub(super) F);

impl<F, I> Serialize for Each<F>
where
    F: Fn() -> I,
    I: Iterator<Item: Serialize>,
{
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq((self.0)())
    }
}

#[derive(Serialize)]
pub(super) struct Document<'a, Holes: Serialize> {
    pub(super) job: &'a str,
    pub(super) format: u32,
    pub(super) material: Option<String>,
    pub(super) records_behind: u32,
    pub(super) calibrated: bool,
    pub(super) holes: Holes,
    pub(super) setups: Vec<Setup>,
    pub(super) lot: Option<Lot>,
    pub(super) price: Option<Price>,
    pub(super) promise: Promise,
    pub(super) findings: Vec<Finding>,
}

#[derive(Serialize)]
pub(super) struct Hole {
    pub(super) mark: String,
    pub(super) places: u32,
    pub(super) diameter_mm: Option<[f64; 2]>,
    pub(super) depth_mm: Option<f64>,
    pub(super) tilt_deg: f64,
    pub(super) electrode: Option<Electrode>,
    pub(super) side_gap_mm: Option<f64>,
    pub(super) size_mm: Option<[f64; 2]>,
    pub(super) checked_by_pin: bool,
    pub(super) proved_by: Option<&'static str>,
    pub(super) start_hole: Option<StartHole>,
    pub(super) verdict: Option<&'static str>,
    pub(super) chance_inside: Option<f64>,
    pub(super) chance_over: Option<f64>,
    pub(super) held: Option<f64>,
    pub(super) outside_in_lot: Option<f64>,
    pub(super) depth_plan: Option<DepthPlan>,
    pub(super) feed_mm_min: Option<f64>,
    pub(super) wear_ratio: Option<f64>,
    pub(super) minutes: Option<Percentiles>,
    pub(super) minutes_in: Option<BTreeMap<&'static str, f64>>,
    pub(super) wear_mm: Option<f64>,
    pub(super) target_depth_mm: Option<f64>,
    pub(super) machine_depth_mm: Option<f64>,
    pub(super) half_settings_mm: Option<[f64; 2]>,
    pub(super) stand_off_mm: Option<f64>,
    pub(super) touch_mm: AtEnds,
    pub(super) behind_mm: Option<f64>,
    pub(super) zones_mm: Option<AtEnds>,
    pub(super) reach_one_mm: Option<f64>,
    pub(super) limit_mm: Option<f64>,
    pub(super) electrodes_per_hole: Option<u32>,
    pub(super) ends: Option<u32>,
    pub(super) flush: Option<Flush>,
    pub(super) burnt: Option<Burnt>,
    pub(super) push_n: Option<f64>,
    pub(super) own: Option<Own>,
    pub(super) findings: Vec<Finding>,
}

/// What a wire finds in a start hole.
#[derive(Serialize)]
pub(super) struct StartHole {
    pub(super) exit_mm: Option<Exit>,
    pub(super) needed_mm: Option<f64>,
    pub(super) reaches_mm: Option<f64>,
}

/// The free exit: the smallest of the lot, one as expected, the largest.
#[derive(Serialize)]
pub(super) struct Exit {
    pub(super) smallest: f64,
    pub(super) expected: f64,
    pub(super) largest: f64,
}

/// What the shop's own records make of a row's figures.
#[derive(Serialize)]
pub(super) struct Own {
    pub(super) records_of_grade: u32,
    pub(super) lots_of_grade: u32,
    pub(super) records_of_family: u32,
    pub(super) records_of_shop: u32,
    pub(super) burn: OwnFactor,
    pub(super) wear: OwnFactor,
    pub(super) gap: Option<OwnFactor>,
}

/// A factor on a start value, and deviations of its logarithm.
#[derive(Serialize)]
pub(super) struct OwnFactor {
    pub(super) factor: f64,
    pub(super) deviation: f64,
    pub(super) start_deviation: f64,
    pub(super) calibrated: bool,
}

#[derive(Serialize)]
pub(super) struct Electrode {
    pub(super) name: String,
    pub(super) diameter_mm: f64,
    pub(super) bore_mm: f64,
    pub(super) channels: u8,
    pub(super) material: &'static str,
    pub(super) length_mm: f64,
}

/// The same at a hole's entry and at its exit.
#[derive(Serialize)]
pub(super) struct AtEnds {
    pub(super) entry: f64,
    pub(super) exit: f64,
}

/// What makes a hole another burn than one plunge into full metal.
#[derive(Serialize)]
pub(super) struct Burnt {
    pub(super) core_mm: Option<f64>,
    pub(super) spared_mm: Option<f64>,
    pub(super) hole_mm: Option<f64>,
    pub(super) plunges: u32,
    pub(super) layers: u32,
    pub(super) slug_mm: Option<f64>,
}

/// How the flush flows.
#[derive(Serialize)]
pub(super) struct Flush {
    pub(super) pressure_bar: f64,
    pub(super) free_ml_min: f64,
    pub(super) bottom_ml_min: f64,
    pub(super) gap_m_s: f64,
    pub(super) regime: &'static str,
    pub(super) debris_share: Option<f64>,
    pub(super) weak_from_mm: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct DepthPlan {
    pub(super) first_try_setting_mm: f64,
    pub(super) tip_never_beyond_mm: f64,
    pub(super) two_steps: bool,
    pub(super) scatter_mm: f64,
    pub(super) allowed_mm: f64,
}

#[derive(Serialize)]
pub(super) struct Percentiles {
    pub(super) p10: f64,
    pub(super) p50: f64,
    pub(super) p90: f64,
}

#[derive(Serialize)]
pub(super) struct Setup {
    pub(super) name: String,
    pub(super) directions: u32,
    pub(super) holes: Vec<String>,
    pub(super) index_moves: u32,
    pub(super) tilts: u32,
    pub(super) turned_over: bool,
    pub(super) travel_mm: Option<f64>,
    pub(super) push_n: Option<f64>,
    pub(super) clamp_n: Option<f64>,
    pub(super) stop_n: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct Lot {
    pub(super) quantity: u32,
    pub(super) machine_hours: Percentiles,
    pub(super) machine_hours_calibrated: bool,
    pub(super) labor_hours: Percentiles,
    pub(super) labor_hours_calibrated: bool,
    pub(super) electrodes: Vec<LotElectrodes>,
    pub(super) guides: Vec<LotGuides>,
}

#[derive(Serialize)]
pub(super) struct LotGuides {
    pub(super) name: String,
    pub(super) ends: u64,
    pub(super) needed: u32,
}

#[derive(Serialize)]
pub(super) struct LotElectrodes {
    pub(super) name: String,
    pub(super) diameter_mm: f64,
    pub(super) needed: u32,
    pub(super) at_least: u32,
    pub(super) if_wear_high: u32,
    pub(super) spares: u32,
    pub(super) kit: u32,
    pub(super) fewest: u32,
    pub(super) breakages: f64,
}

#[derive(Serialize)]
pub(super) struct Price {
    pub(super) currency: String,
    pub(super) offered_quantity: Option<u32>,
    pub(super) chance_of_loss: Option<f64>,
    pub(super) risk: Option<Risk>,
    pub(super) margin: f64,
    pub(super) markup: f64,
    pub(super) lot_cost: Percentiles,
    pub(super) lot_cost_calibrated: bool,
    pub(super) expected_cost: f64,
    pub(super) cost_lines: BTreeMap<&'static str, f64>,
    pub(super) breaks: Vec<Break>,
    pub(super) one_off: Vec<OneOff>,
}

/// What the price of the offered quantity risks.
#[derive(Serialize)]
pub(super) struct Risk {
    pub(super) chance_below_paid_out: Option<f64>,
    pub(super) lot_at_a_tenth: f64,
    pub(super) each_at_a_tenth: f64,
    pub(super) drivers: BTreeMap<&'static str, f64>,
    pub(super) test_burns: Vec<TestBurn>,
}

/// What a test burn of so many holes would make of the lot's cost.
#[derive(Serialize)]
pub(super) struct TestBurn {
    pub(super) holes: u32,
    pub(super) p10: f64,
    pub(super) p90: f64,
}

#[derive(Serialize)]
pub(super) struct Break {
    pub(super) quantity: u32,
    pub(super) each: String,
    pub(super) lot: String,
    pub(super) minimum_charge: bool,
    pub(super) per_hole: Option<String>,
}

#[derive(Serialize)]
pub(super) struct OneOff {
    pub(super) what: String,
    pub(super) price: String,
}

/// `null` while a hole has no minutes; the dates until order and parts are in.
#[derive(Default, Serialize)]
pub(super) struct Promise {
    pub(super) working_days_p50: Option<u32>,
    pub(super) working_days_p90: Option<u32>,
    pub(super) date_p50: Option<String>,
    pub(super) date_p90: Option<String>,
}

#[derive(Serialize)]
pub(super) struct Finding {
    pub(super) level: &'static str,
    pub(super) code: &'static str,
    pub(super) about: String,
    pub(super) text: String,
    pub(super) remedy: Option<String>,
}

impl From<Band> for Percentiles {
    fn from(band: Band) -> Self {
        Self {
            p10: band.p10,
            p50: band.p50,
            p90: band.p90,
        }
    }
}
