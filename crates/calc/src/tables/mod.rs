//! What the shop knows: materials, tubes, guides, machines, rates and start values, as arguments.
//!
//! The rows live in the project's assets and in the shop's own file, each with its pedigree; this
//! module only says what a calculation needs of them.

mod deviations;

pub use deviations::Deviations;

use alloc::string::String;
use alloc::sync::Arc;
use alloc::vec::Vec;

use crate::head::Head;
use crate::idx::Idx;
use crate::learn::Lessons;
use crate::quantity::{Limits, SAME_SIZE_MM, Spread};

/// Everything of the shop that a job's figures depend on.
#[derive(Clone, Debug, PartialEq)]
pub struct Tables {
    /// Materials of the work.
    pub materials: Vec<Material>,
    /// Tube electrodes in stock or to be had.
    pub tubes: Vec<Tube>,
    /// Guides in stock or to be had.
    pub guides: Vec<Guide>,
    /// The shop's machines.
    pub machines: Vec<Machine>,
    /// The rate card in force.
    pub rates: Rates,
    /// Start values of the process.
    pub start: StartValues,
    /// What the shop's own records make of them.
    pub lessons: Arc<Lessons>,
}

impl Tables {
    /// The guide of a tube.
    ///
    /// Formula: the first one whose tube diameter is the tube's, to [`SAME_SIZE_MM`].
    ///
    /// - `outer_mm`: the tube's outer diameter [mm], above 0.
    ///
    /// Result: which guide; `None` where there is none for this size.
    ///
    /// ```
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let tables = shop::tables();
    /// let guide = tables.guide_for(0.7004).unwrap();
    /// assert_eq!(guide.of(&tables.guides).unwrap().tube_mm, 0.7);
    /// assert_eq!(tables.guide_for(0.72), None);
    /// ```
    ///
    /// Source: common practice, no source.
    #[must_use]
    pub fn guide_for(&self, outer_mm: f64) -> Option<Idx<Guide>> {
        Idx::find(&self.guides, |guide| {
            (guide.tube_mm - outer_mm).abs() < SAME_SIZE_MM
        })
    }
}

/// The family of a work material: what decides its start values and its dangers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Carbon and low-alloy steel.
    Steel,
    /// Tool and high-speed steel.
    ToolSteel,
    /// Stainless steel.
    Stainless,
    /// Nickel alloys, wrought and cast.
    Nickel,
    /// Cobalt alloys.
    Cobalt,
    /// Titanium alloys.
    Titanium,
    /// Aluminum alloys.
    Aluminum,
    /// Copper, brass and bronze.
    Copper,
    /// Magnesium alloys.
    Magnesium,
    /// Tungsten, molybdenum, tantalum, niobium.
    Refractory,
    /// Zirconium.
    Zirconium,
    /// Cemented tungsten carbide.
    Carbide,
    /// Iron-nickel and iron-nickel-cobalt of low expansion, nickel-titanium.
    Special,
    /// Graphite.
    Graphite,
    /// Doped silicon, polycrystalline diamond, conductive ceramics.
    Hard,
    /// Silver and other precious metals.
    Precious,
}

/// A danger that the work material brings with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hazard {
    /// Its fines burn, and with water it makes hydrogen (titanium, magnesium, aluminum, zirconium).
    BurningFines,
    /// Nickel in sludge and mist.
    Nickel,
    /// Cobalt in sludge and mist.
    Cobalt,
    /// Chromium in sludge and mist.
    Chromium,
    /// Beryllium in sludge and mist.
    Beryllium,
    /// Copper or lead in sludge and mist.
    CopperLead,
}

/// A work material.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// Its name as the shop calls it.
    pub name: String,
    /// Its family.
    pub family: Family,
    /// Density [g/cm3].
    pub density_g_cm3: f64,
    /// Lowest and highest resistivity [ohm cm]; `None` where nothing is known.
    pub resistivity_ohm_cm: Option<Limits>,
    /// Feed of a 1 mm one-channel tube in a shallow hole [mm/min].
    pub feed_mm_min: Spread,
    /// Wear by length of a 1 mm tube in a shallow hole [-].
    pub wear: Spread,
    /// The tube material that the two above were taken with.
    pub tube_material: TubeMaterial,
    /// True where feed and wear were taken from the family, not from this grade.
    pub from_family: bool,
    /// What it endangers.
    pub hazards: Vec<Hazard>,
}

/// What a tube electrode is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum TubeMaterial {
    /// Brass.
    Brass,
    /// Copper.
    Copper,
}

/// A tube electrode.
#[derive(Clone, Debug, PartialEq)]
pub struct Tube {
    /// The shop's name of it.
    pub name: String,
    /// What it is made of.
    pub material: TubeMaterial,
    /// Outer diameter [mm].
    pub outer_mm: f64,
    /// Bore of one channel, or equivalent bore of several [mm].
    pub bore_mm: f64,
    /// Number of channels.
    pub channels: u8,
    /// Length when new [mm].
    pub length_mm: f64,
    /// Price of one [currency of the rate card].
    pub price: f64,
    /// How many are in the drawer; `None` where nobody counted.
    pub stock: Option<u32>,
    /// How many of them are kept for jobs on the floor.
    pub kept: u32,
    /// Pieces left of used ones: how many of each length, chuck end and all [mm].
    pub stubs: Vec<(u32, f64)>,
}

/// A guide for one tube size.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    /// The shop's name of it.
    pub name: String,
    /// The tube's outer diameter that it guides [mm].
    pub tube_mm: f64,
    /// Holes it lasts.
    pub life_holes: f64,
    /// Price of one [currency of the rate card].
    pub price: f64,
    /// How many are in the drawer; `None` where nobody counted.
    pub stock: Option<u32>,
    /// Ends of holes that are still to be drilled through them for jobs on the floor.
    pub kept_ends: u64,
}

impl Guide {
    /// Guides that so many holes wear out, the last one begun.
    ///
    /// Formula: `ceil(ends / life)`; 1 where the life is not known, since nothing is drilled without a
    /// guide and nobody can say that it takes more.
    ///
    /// - `ends`: ends of holes drilled through it [-], 0 and up.
    ///
    /// Result: a count [-]; 0 for no ends.
    ///
    /// ```
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// // It lasts 500 holes.
    /// let guide = &shop::tables().guides[0];
    /// assert_eq!([1, 500, 501].map(|ends| guide.needed_for(ends)), [1, 1, 2]);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn needed_for(&self, ends: u64) -> u32 {
        if ends == 0 {
            return 0;
        }
        if self.life_holes > 0.0 {
            (libm::ceil(ends as f64 / self.life_holes) as u32).max(1)
        } else {
            1
        }
    }
}

/// A machine of the shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    /// The shop's name of it.
    pub name: String,
    /// Largest part it takes [mm], along x, y, z.
    pub part_mm: [f64; 3],
    /// Heaviest part it takes [kg].
    pub mass_kg: f64,
    /// Stroke of the drilling axis [mm].
    pub stroke_mm: f64,
    /// Smallest and largest tube diameter it drives [mm].
    pub tube_mm: Limits,
    /// Longest tube it takes [mm].
    pub tube_length_mm: f64,
    /// Length of a tube held back by chuck, guide, stand-off and reserve together [mm].
    pub held_back_mm: f64,
    /// Stand-off of the guide from the work, part of the above [mm].
    pub stand_off_mm: f64,
    /// Nose and head above the guide, where somebody measured them.
    pub head: Option<Head>,
    /// Flush pressure at the pump [bar].
    pub pressure_bar: f64,
    /// True where it changes electrodes by itself.
    pub changer: bool,
    /// True where a rotary axis can index the part.
    pub index_axis: bool,
    /// Smallest and largest tilt of head or table from upright [deg], where it tilts.
    pub tilt_deg: Option<Limits>,
    /// What tilts, where somebody said.
    pub tilts: Option<Tilts>,
    /// Rapid speed of the table's axes [mm/min].
    pub table_rapid_mm_min: f64,
    /// Rapid speed of the drilling axis [mm/min].
    pub head_rapid_mm_min: f64,
    /// Share of its running time that a person stands by, 0 to 1.
    pub attended: f64,
    /// Rate [currency of the rate card per hour].
    pub rate_per_hour: f64,
}

/// What of a machine tilts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tilts {
    /// The head with the electrode: the part stays as it is clamped.
    Head,
    /// The table with the part: the electrode stays upright.
    Table,
}

/// The rate card in force on a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates {
    /// ISO 4217 code of the currency.
    pub currency: String,
    /// Digits after the point in that currency (ISO 4217 minor unit).
    pub minor_digits: u32,
    /// Labor [per hour].
    pub labor_per_hour: f64,
    /// Dielectric, filters and resin [per machine hour].
    pub dielectric_per_hour: f64,
    /// Power [per machine hour].
    pub power_per_hour: f64,
    /// Margin on price, 0 to below 1.
    pub margin: f64,
    /// Least that one lot is sold for.
    pub minimum_charge: f64,
    /// What is asked for trying to burn out a broken tool where it can't be got out [currency]; the
    /// minimum charge where `None`.
    pub try_charge: Option<f64>,
    /// Step that prices are rounded to, a whole number of minor units; those where there is none.
    pub price_step: Option<f64>,
    /// Allowance for redone holes, as a share of machine, labor and electrode cost.
    pub redo_share: f64,
    /// Chance that one part of the customer's is spoiled, apart from what its holes add.
    pub part_risk_share: f64,
}

/// Start values of the process, before the shop's own records narrow them.
#[derive(Clone, Debug, PartialEq)]
pub struct StartValues {
    /// Gap per side against tube diameter [mm], spread in mm; interpolated, ends held.
    pub gap_mm: Vec<(f64, Spread)>,
    /// Feed relative to 1 mm against tube diameter [mm]; ln-ln between, no value outside.
    pub feed_by_diameter: Vec<(f64, f64)>,
    /// Wear relative to 1 mm against tube diameter [mm]; ln-ln between, ends held.
    pub wear_by_diameter: Vec<(f64, f64)>,
    /// Factor on the wear of a hole 100 diameters deep; 1 in a shallow one, linear with depth.
    pub wear_at_100_diameters: Spread,
    /// Depth law: depth in diameters at which the feed is halved.
    pub depth_s: Spread,
    /// Depth law: exponent.
    pub depth_m: f64,
    /// Feed in entry and exit zones relative to full metal.
    pub zone_feed: f64,
    /// Feed of several channels relative to one.
    pub channels_feed: f64,
    /// Wear of several channels relative to one.
    pub channels_wear: f64,
    /// Smallest tube that is made with several channels [mm].
    pub channels_from_mm: f64,
    /// Overtravel past a clear exit: at least [mm].
    pub overtravel_least_mm: f64,
    /// Overtravel past a clear exit in tube diameters.
    pub overtravel_diameters: f64,
    /// Feed in overtravel, where the tube is no longer in full metal, relative to full metal.
    pub overtravel_feed: f64,
    /// Factor on the feed by the width of the limits [mm], for the effort that a close tolerance
    /// takes; linear between, 1 above; below the first width there is no such hole.
    pub effort_by_width: Vec<(f64, f64)>,
    /// Scatter of the size from hole to hole within a lot, as a deviation [mm], against tube
    /// diameter [mm]; linear between, ends held.
    pub size_scatter_mm: Vec<(f64, f64)>,
    /// Deepest hole that feed and wear are known for, in tube diameters.
    pub deepest_diameters: f64,
    /// Touch-off [min].
    pub touch_off_min: Spread,
    /// One index move [min].
    pub index_min: Spread,
    /// One tilt [min].
    pub tilt_min: Spread,
    /// One turn-over of the part [min].
    pub turn_over_min: Spread,
    /// Electrode change by hand [min].
    pub change_by_hand_min: Spread,
    /// The same up to [`Self::thin_tube_mm`] [min].
    pub change_thin_min: Spread,
    /// Electrode change by the changer [min].
    pub change_by_changer_min: Spread,
    /// Guide change [min].
    pub guide_change_min: Spread,
    /// Dressing of the tip between holes [min].
    pub dressing_min: Spread,
    /// Length lost at one dressing [mm].
    pub dressing_mm: f64,
    /// Setting up one clamping [min].
    pub setup_min: Spread,
    /// First piece [min].
    pub first_piece_min: Spread,
    /// Loading and unloading one part into a clamping [min].
    pub load_min: Spread,
    /// Receiving and checking one lot [min].
    pub receive_min: Spread,
    /// Washing and drying one part [min].
    pub wash_min: Spread,
    /// Checking one hole by pin [min].
    pub pin_check_min: Spread,
    /// Seeing light through one hole [min].
    pub light_check_min: Spread,
    /// Putting a wire or a pin through one hole [min].
    pub wire_check_min: Spread,
    /// Checking one hole by the air that flows through it [min].
    pub air_check_min: Spread,
    /// Packing one part [min].
    pub pack_min: Spread,
    /// Tolerance of a tube's diameter, plus or minus [mm].
    pub tube_tolerance_mm: f64,
    /// Tubes broken for each hole drilled.
    pub breakage: Spread,
    /// The same up to [`Self::thin_tube_mm`].
    pub breakage_thin: Spread,
    /// The same for thin tubes in holes deeper than [`Self::thin_deep_diameters`].
    pub breakage_thin_deep: Spread,
    /// Depth from which a thin tube breaks more often, in tube diameters.
    pub thin_deep_diameters: f64,
    /// Holes that the start value of breakage is worth, as a beta prior.
    pub breakage_worth_holes: f64,
    /// Chance that one hole spoils its part, apart from [`Rates::part_risk_share`].
    pub part_risk_hole: f64,
    /// Up to this diameter a tube counts as thin [mm].
    pub thin_tube_mm: f64,
    /// Drift of the axis [mm per 100 mm].
    pub drift_mm_per_100: Spread,
    /// What a wire needs beyond its own diameter to be threaded [mm].
    pub wire_clearance_mm: f64,
    /// Recast and white layer beside a hole [mm].
    pub white_layer_mm: f64,
    /// Electrodes that a changer holds.
    pub changer_holds: f64,
    /// Room that parts need between each other on the table [mm].
    pub part_spacing_mm: f64,
    /// Temperature of the dielectric [degC].
    pub water_c: f64,
    /// Most that the flush pump gives [l/min].
    pub pump_l_min: f64,
    /// Least speed of the flush up the gap that carries debris off [m/s].
    pub least_gap_m_s: f64,
    /// What is taken of broken tools.
    pub broken: crate::broken::Start,
    /// Overlap of two holes that meet from both ends [mm].
    pub overlap_mm: f64,
    /// How much smaller the exit is than the entry [mm of diameter per 100 mm of depth].
    pub taper_mm_per_100: f64,
    /// Scatter of one hole about the lot, as a deviation of the logarithm.
    pub hole_scatter: f64,
    /// How sure start values are.
    pub deviations: Deviations,
}
