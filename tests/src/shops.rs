//! Invented shops whose truth is richer than what the program believes of shops, and their records.
//!
//! Every number here is invented, to try the model by, and never to plan by.

use quillbore_calc::learn::{Floor, Likeness, Ratio, Record};
use quillbore_calc::spread::normal_at;

/// Families of materials, grades of each, machines, electrode materials.
pub(crate) const FAMILIES: usize = 6;
pub(crate) const GRADES: u32 = 4;
pub(crate) const MACHINES: usize = 3;
const ELECTRODES: usize = 2;
/// Logarithms of tube diameters [mm] between which a family's size effect is straight.
const KNOTS: [f64; 5] = [
    -2.0 * core::f64::consts::LN_2,
    -core::f64::consts::LN_2,
    0.0,
    core::f64::consts::LN_2,
    2.0 * core::f64::consts::LN_2,
];
/// Months that are looked back on.
pub const MONTHS: usize = 50;
/// A record that is wrong is so by this factor.
pub(crate) const WRONG: f64 = 3.0;

/// Numbers by chance, the same for the same seed (splitmix64: Steele, Lea and Flood, 2014).
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    /// Begins anew.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Between 0 and 1, never one of them.
    pub fn share(&mut self) -> f64 {
        ((self.next() >> 12) as f64 + 0.5) / (1_u64 << 52) as f64
    }

    /// One of so many.
    pub fn below(&mut self, count: usize) -> usize {
        (self.share() * count as f64) as usize
    }

    /// Normal with this deviation.
    pub fn normal(&mut self, deviation: f64) -> f64 {
        deviation * normal_at(self.share())
    }

    /// Two that go together by half, each with this deviation.
    fn pair(&mut self, deviation: f64) -> [f64; 2] {
        let (one, own) = (self.normal(deviation), self.normal(deviation));
        [one, 0.5 * one + libm::sqrt(0.75) * own]
    }
}

type Pair = [f64; 2];

/// How far a shop's burn and wear, and its handling, are from the start values.
#[derive(Clone, Debug)]
pub struct TrueShop {
    shop: Pair,
    machines: Vec<Pair>,
    families: Vec<Pair>,
    grades: Vec<Vec<Pair>>,
    electrodes: Vec<Pair>,
    sizes: Vec<Vec<Pair>>,
    depths: Vec<Pair>,
    bent_by_depth: Pair,
    by_diameter: Pair,
    months: Vec<Pair>,
    handling: f64,
    handling_of: Vec<f64>,
}

/// A lot of the shop: what it is like, and the month of it.
#[derive(Clone, Copy, Debug)]
pub struct Lot {
    /// What it is like.
    pub like: Likeness,
    /// Months since the first that is looked back on.
    pub month: usize,
}

/// What a lot is planned to take by the start values, in its parts [min].
#[derive(Clone, Copy, Debug)]
pub struct Planned {
    /// With the feed, with the wear, by handling.
    pub minutes: [f64; 3],
    /// Holes.
    pub holes: f64,
}

/// How a lot really came out: logarithms of burn, wear and handling over what the start values say.
pub type Truth = [f64; 3];

impl TrueShop {
    /// A shop by chance.
    #[must_use]
    pub fn new(chance: &mut Chance) -> Self {
        let mut many = |count: usize, deviation: f64| -> Vec<Pair> {
            (0..count).map(|_| chance.pair(deviation)).collect()
        };
        let (machines, families) = (many(MACHINES, 0.15), many(FAMILIES, 0.30));
        let grades = (0..FAMILIES).map(|_| many(GRADES as usize, 0.20)).collect();
        let electrodes = many(ELECTRODES, 0.10);
        let sizes = (0..FAMILIES).map(|_| many(KNOTS.len(), 0.15)).collect();
        let depths = many(FAMILIES, 0.15);
        let steps = many(MONTHS + 1, 0.1 / libm::sqrt(12.0));
        let mut so_far = [0.0; 2];
        let months = steps.iter().map(|step| {
            so_far = [so_far[0] + step[0], so_far[1] + step[1]];
            so_far
        });
        Self {
            months: months.collect(),
            machines,
            families,
            grades,
            electrodes,
            sizes,
            depths,
            shop: chance.pair(0.35),
            bent_by_depth: chance.pair(0.05),
            by_diameter: chance.pair(0.20),
            handling: chance.normal(0.35),
            handling_of: (0..MACHINES).map(|_| chance.normal(0.20)).collect(),
        }
    }

    /// A lot of a family and grade, or of any.
    #[must_use]
    pub fn lot(&self, of: Option<(u32, u32)>, month: usize, chance: &mut Chance) -> Lot {
        let (family, grade) = of.unwrap_or_else(|| {
            let family = chance.below(FAMILIES) as u32;
            (family, chance.below(GRADES as usize) as u32)
        });
        let tube_mm = libm::exp(libm::log(0.25) + chance.share() * libm::log(12.0));
        let depths = libm::exp(libm::log(5.0) + chance.share() * libm::log(16.0));
        Lot {
            like: Likeness {
                machine: chance.below(MACHINES) as u32,
                family,
                grade: family * GRADES + grade,
                electrode: chance.below(ELECTRODES) as u32,
                tube_mm,
                depth_mm: depths * tube_mm,
            },
            month,
        }
    }

    /// How a lot comes out, what is the lot's own by chance.
    #[must_use]
    pub fn comes_out(&self, lot: &Lot, chance: &mut Chance) -> Truth {
        let like = &lot.like;
        let family = like.family as usize;
        let size = libm::log(like.tube_mm);
        let at = KNOTS.iter().filter(|knot| size > **knot).count();
        let at = at.clamp(1, KNOTS.len() - 1);
        let along = (size - KNOTS[at - 1]) / (KNOTS[at] - KNOTS[at - 1]);
        let depth = libm::log((like.depth_mm / like.tube_mm).max(1.0) / 20.0);
        let own = chance.pair(0.25);
        let sizes = &self.sizes[family];
        let of = |which: usize| {
            self.shop[which]
                + self.machines[like.machine as usize][which]
                + self.families[family][which]
                + self.grades[family][(like.grade % GRADES) as usize][which]
                + self.electrodes[like.electrode as usize][which]
                + (1.0 - along) * sizes[at - 1][which]
                + along * sizes[at][which]
                + self.depths[family][which] * depth
                + self.bent_by_depth[which] * depth * depth
                + self.by_diameter[which] * size
                + self.months[lot.month][which]
                + own[which]
        };
        let handling = self.handling + self.handling_of[like.machine as usize];
        [of(0), of(1), handling + chance.normal(0.15)]
    }

    /// How long what goes with no machine takes (receiving, washing, checking, packing), as a logarithm:
    /// nobody records it; it goes with the shop's handling, and has its own.
    #[must_use]
    pub fn beside(&self, chance: &mut Chance) -> f64 {
        self.handling + chance.normal(0.20)
    }

    /// What was written down of a lot: half of them know floor minutes only, one figure in ten is wrong
    /// by a factor of 3.
    #[must_use]
    pub fn record(&self, number: u32, lot: &Lot, chance: &mut Chance) -> Record {
        let truth = self.comes_out(lot, chance);
        let planned = Planned::by_chance(chance);
        let holes = planned.holes;
        let own = [0; 2].map(|_| chance.normal(0.15 / libm::sqrt(holes)));
        let mut read = |value: f64| {
            let wrong = match chance.share() {
                share if share < 0.05 => WRONG,
                share if share < 0.10 => 1.0 / WRONG,
                _ => 1.0,
            };
            value * wrong * libm::exp(chance.normal(READING))
        };
        let [burn, wear] = [truth[0] + own[0], truth[1] + own[1]];
        let minutes = read(planned.takes([burn, wear, truth[2]]));
        let (burn, wear) = (read(libm::exp(burn)), read(libm::exp(wear)));
        let ratio = |of_planned| Ratio {
            of_planned,
            reading: READING,
        };
        let [burn_min, wear_min, handling_min] = planned.minutes;
        let by_floor = chance.share() < 0.5;
        Record {
            lot: number,
            like: lot.like,
            holes,
            age_years: (MONTHS - lot.month) as f64 / 12.0,
            burn: (!by_floor).then(|| ratio(burn)),
            wear: (chance.share() < 0.8).then(|| ratio(wear)),
            floor: by_floor.then_some(Floor {
                minutes,
                burn_min,
                wear_min,
                handling_min,
                reading: READING,
            }),
            gap: None,
        }
    }
}

/// How well a clock and a rule are read.
pub(crate) const READING: f64 = 0.05;

impl Planned {
    /// A plan by chance: wear and handling take some share of what the burn takes.
    #[must_use]
    pub fn by_chance(chance: &mut Chance) -> Self {
        let holes = (3 + chance.below(117)) as f64;
        let burn = holes * libm::exp(chance.normal(0.5));
        let wear = burn * libm::exp(chance.normal(0.7) - 1.5);
        let handling = burn * libm::exp(chance.normal(0.6) - 1.0);
        Self {
            minutes: [burn, wear, handling],
            holes,
        }
    }

    /// Minutes where burn, wear and handling come out so.
    #[must_use]
    pub fn takes(&self, truth: Truth) -> f64 {
        let parts = self.minutes.iter().zip(truth);
        parts.map(|(minutes, log)| minutes * libm::exp(log)).sum()
    }
}
