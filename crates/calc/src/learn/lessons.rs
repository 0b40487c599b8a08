//! What a shop's records have taught, as its tables carry it to every figure.

use alloc::borrow::Cow;
use alloc::collections::{BTreeMap, BTreeSet};
use alloc::vec::Vec;

use super::evidence::{BreakageClass, Evidence};
use super::learned::{Factor, Learned, Prediction, learn};
use super::record::{Likeness, Record};
use super::terms::Learns;
use crate::idx::Idx;
use crate::quantity::Spread;
use crate::tables::{Family, Machine, Material, StartValues};

/// Parts that the start value of spoiled parts is worth, as a beta prior (our choice, no source).
const SPOILED_WORTH_PARTS: f64 = 100.0;

/// What a shop's records have taught: nothing where there are none.
#[derive(Clone, Debug, Default)]
pub struct Lessons {
    evidence: Vec<Evidence>,
    /// What was learned of the four factors; `None` where no record speaks of one.
    learned: Option<Learned>,
    /// Factors that some record speaks of.
    spoken_of: Vec<Learns>,
    /// Ends drilled and tubes broken.
    broken: BTreeMap<BreakageClass, Counted>,
    /// Parts made and spoiled.
    spoiled: Counted,
    by_grade: BTreeMap<u32, u32>,
    /// Grades with the lots of their records.
    lots: BTreeSet<(u32, u32)>,
    by_family: BTreeMap<u32, u32>,
    /// Tubes and the sizes that they drilled by pins [mm], by grade, the newest last.
    pinned: BTreeMap<u32, Vec<Pinned>>,
    /// Deepest that was drilled, in tube diameters, by family and whether the tube was thin.
    deepest: BTreeMap<(u32, bool), f64>,
}

/// Things that were counted, and how many of them went wrong.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Counted {
    all: f64,
    wrong: f64,
}

/// How often a tube breaks.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Breakage {
    /// Tubes broken for each end drilled.
    pub chance: f64,
    /// Holes that this is worth, as a beta prior.
    pub worth_holes: f64,
}

/// How many records stand behind a figure.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Behind {
    /// Of the same grade.
    pub grade: u32,
    /// Lots that those are of.
    pub lots: u32,
    /// Of the same family.
    pub family: u32,
    /// Of anything.
    pub all: u32,
}

impl PartialEq for Lessons {
    /// Equal records teach the same.
    fn eq(&self, other: &Self) -> bool {
        core::ptr::eq(self, other) || self.evidence == other.evidence
    }
}

impl Counted {
    /// Share of what went wrong, with a start value that is worth so many.
    fn share(self, start: f64, worth: f64) -> f64 {
        let all = worth + self.all;
        if all > 0.0 {
            (worth * start + self.wrong) / all
        } else {
            start
        }
    }
}

/// A size that a tube drilled, by pins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pinned {
    /// The machine, by its number among the tables'.
    machine: u32,
    /// The tube's diameter [mm].
    pub(crate) tube_mm: f64,
    /// What it drilled [mm].
    pub(crate) size_mm: f64,
    age_years: f64,
}

impl Lessons {
    /// What these records teach.
    ///
    /// Formula: burn, wear, handling and gap by [`learn`]; breakage and spoiled parts as beta priors,
    /// worth the start value's holes and 100 parts: `(worth x start + counted) / (worth + all)`.
    ///
    /// - `evidence`: what records say, in any order.
    /// - `start`: start values.
    ///
    /// Result: lessons for [`crate::Tables`].
    ///
    /// ```
    /// use quillbore_calc::learn::Lessons;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let none = Lessons::of(Vec::new(), &shop::start_values());
    /// assert_eq!(none.spoiled_share(0.005), 0.005);
    /// assert!(none.evidence().is_empty());
    /// ```
    ///
    /// Source: [`learn`]; conjugate beta prior of a binomial share.
    #[must_use]
    pub fn of(evidence: Vec<Evidence>, start: &StartValues) -> Self {
        let records: Vec<Record> = evidence.iter().map(|told| told.record).collect();
        let learned = learn(&records, &start.deviations, start.hole_scatter);
        let speaks_of = |factor: &Learns| records.iter().any(|r| r.speaks_of(*factor));
        let spoken_of: Vec<Learns> = Learns::ALL.into_iter().filter(speaks_of).collect();
        let mut lessons = Self {
            learned: (!spoken_of.is_empty()).then_some(learned),
            spoken_of,
            ..Self::default()
        };
        for told in &evidence {
            lessons.count(told);
        }
        for pinned in lessons.pinned.values_mut() {
            pinned.sort_by(|one, other| other.age_years.total_cmp(&one.age_years));
        }
        Self {
            evidence,
            ..lessons
        }
    }

    fn count(&mut self, told: &Evidence) {
        let like = &told.record.like;
        if let Some(broken) = told.broken {
            let counted = self.broken.entry(told.class).or_default();
            counted.all += told.ends;
            counted.wrong += broken.min(told.ends);
        }
        if let Some([good, scrap]) = told.pieces {
            self.spoiled.all += good + scrap;
            self.spoiled.wrong += scrap;
        }
        if told.record.burn.is_some() || told.record.wear.is_some() || told.record.floor.is_some() {
            *self.by_grade.entry(like.grade).or_default() += 1;
            self.lots.insert((like.grade, told.record.lot));
            *self.by_family.entry(like.family).or_default() += 1;
        }
        if let Some(size_mm) = told.size_mm {
            let pinned = Pinned {
                machine: like.machine,
                tube_mm: like.tube_mm,
                size_mm,
                age_years: told.record.age_years,
            };
            self.pinned.entry(like.grade).or_default().push(pinned);
        }
        let deep = self.deepest.entry((like.family, told.thin)).or_default();
        *deep = deep.max(told.deep);
    }

    /// Sizes that a machine drilled in a grade by pins, the newest first.
    pub(crate) fn pinned(&self, grade: u32, machine: u32) -> impl Iterator<Item = &Pinned> {
        let of_grade = self.pinned.get(&grade).into_iter().flatten().rev();
        of_grade.filter(move |pinned| pinned.machine == machine)
    }

    /// What the records say.
    #[must_use]
    pub const fn evidence(&self) -> &[Evidence] {
        self.evidence.as_slice()
    }

    /// What was learned of burn, wear, handling and gap; `None` where no record speaks of them.
    #[must_use]
    pub const fn learned(&self) -> Option<&Learned> {
        self.learned.as_ref()
    }

    /// How many records of burn or wear there are of a grade, of a family, and of anything.
    ///
    /// Formula: counted.
    ///
    /// - `material`: the grade.
    /// - `family`: its family.
    ///
    /// Result: counts; 0 where there are no records.
    ///
    /// ```
    /// use quillbore_calc::Idx;
    /// use quillbore_calc::learn::Lessons;
    /// use quillbore_calc::tables::Family;
    /// assert_eq!(Lessons::default().behind(Idx::new(0), Family::Steel).all, 0);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn behind(&self, material: Idx<Material>, family: Family) -> Behind {
        let of = |counts: &BTreeMap<u32, u32>, key: u32| counts.get(&key).copied().unwrap_or(0);
        let grade = grade_id(material);
        let lots = self.lots.range((grade, 0)..=(grade, u32::MAX)).count();
        Behind {
            grade: of(&self.by_grade, grade),
            lots: u32::try_from(lots).unwrap_or(u32::MAX),
            family: of(&self.by_family, family_id(family)),
            all: self.by_grade.values().sum(),
        }
    }

    /// What to expect of burn and wear of a lot like this one.
    ///
    /// Formula: that of [`Learned::predict`].
    ///
    /// - `like`: what the lot is like.
    ///
    /// Result: factors on the start values [-]; `None` where no record speaks of burn or wear.
    ///
    /// ```
    /// use quillbore_calc::learn::{Lessons, Likeness};
    /// assert_eq!(Lessons::default().foresee(&Likeness::UNKNOWN), None);
    /// ```
    ///
    /// Source: as [`learn`].
    #[must_use]
    pub fn foresee(&self, like: &Likeness) -> Option<Prediction> {
        let learned = self.learned.as_ref();
        learned
            .filter(|_| self.speaks_of(Learns::Burn) || self.speaks_of(Learns::Wear))
            .map(|learned| learned.predict(like))
    }

    /// A gap per side as the records make it.
    ///
    /// Formula: the start value's median times the factor; its deviation in the ratio of what is known
    /// now to what was known at the start.
    ///
    /// - `start`: start values.
    /// - `machine`: the machine, where one is chosen.
    /// - `tube_mm`: tube diameter [mm], above 0.
    /// - `gap`: gap by the start values [mm].
    ///
    /// Result: gap [mm]; as it was where no record speaks of gaps.
    ///
    /// ```
    /// use quillbore_calc::Spread;
    /// use quillbore_calc::learn::Lessons;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values();
    /// let gap = Spread::new(0.03, 0.08).unwrap();
    /// assert_eq!(Lessons::default().gap(&start, None, 1.0, gap), gap);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn gap(
        &self,
        start: &StartValues,
        machine: Option<Idx<Machine>>,
        tube_mm: f64,
        gap: Spread,
    ) -> Spread {
        let like = Likeness {
            machine: machine_id(machine),
            tube_mm,
            ..Likeness::UNKNOWN
        };
        let factor = self.factor(Learns::Gap, &like);
        factor.map_or(gap, |factor| {
            as_learned(gap, &factor, start.deviations.gap())
        })
    }

    /// The start values with a machine's times of handling as the records make them.
    ///
    /// Formula: each time of a machine as [`Lessons::gap`]; what goes with no machine (receiving, washing,
    /// checking, packing) as on a machine of which nothing is known.
    ///
    /// - `start`: start values.
    /// - `machine`: the machine, where one is chosen.
    ///
    /// Result: start values; those given where no record speaks of handling.
    ///
    /// ```
    /// use quillbore_calc::learn::Lessons;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values();
    /// assert_eq!(*Lessons::default().start_on(&start, None), start);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn start_on<'a>(
        &self,
        start: &'a StartValues,
        machine: Option<Idx<Machine>>,
    ) -> Cow<'a, StartValues> {
        let like = Likeness {
            machine: machine_id(machine),
            ..Likeness::UNKNOWN
        };
        let Some(factor) = self.factor(Learns::Handling, &like) else {
            return Cow::Borrowed(start);
        };
        let beside = self.factor(Learns::Handling, &Likeness::UNKNOWN);
        let beside = beside.unwrap_or_default();
        let before = start.deviations.handling();
        let mut own = start.clone();
        for time in machine_times(&mut own) {
            *time = as_learned(time.at_least(before), &factor, before);
        }
        for time in [
            &mut own.receive_min,
            &mut own.wash_min,
            &mut own.pin_check_min,
            &mut own.light_check_min,
            &mut own.wire_check_min,
            &mut own.air_check_min,
            &mut own.pack_min,
        ] {
            *time = as_learned(time.at_least(before), &beside, before);
        }
        own.deviations.handling_shop = factor.sigma();
        own.deviations.handling_machine = 0.0;
        Cow::Owned(own)
    }

    /// How often a tube breaks, by the class of its holes.
    ///
    /// Formula: `(worth x start + broken) / (worth + ends)`.
    ///
    /// - `start`: start values.
    /// - `class`: thin tubes and deep holes break more.
    ///
    /// Result: chance for each end [-], and the holes that it is worth.
    ///
    /// ```
    /// use quillbore_calc::learn::{BreakageClass, Lessons};
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values();
    /// let usual = Lessons::default().breakage(&start, BreakageClass::Usual);
    /// assert!((usual.chance - 0.00447).abs() < 0.00001); // sqrt(0.002 x 0.01)
    /// assert_eq!(usual.worth_holes, 50.0);
    /// ```
    ///
    /// Source: conjugate beta prior of a binomial share.
    #[must_use]
    pub fn breakage(&self, start: &StartValues, class: BreakageClass) -> Breakage {
        let band = match class {
            BreakageClass::Usual => start.breakage,
            BreakageClass::Thin => start.breakage_thin,
            BreakageClass::ThinDeep => start.breakage_thin_deep,
        };
        let counted = self.broken.get(&class).copied().unwrap_or_default();
        Breakage {
            chance: counted.share(band.p50(), start.breakage_worth_holes),
            worth_holes: start.breakage_worth_holes + counted.all,
        }
    }

    /// Chance that a part is spoiled, apart from what its holes add.
    ///
    /// Formula: `(100 x start + spoiled) / (100 + parts)`.
    ///
    /// - `start`: the rate card's chance [-], 0 to 1.
    ///
    /// Result: chance [-].
    ///
    /// ```
    /// use quillbore_calc::learn::Lessons;
    /// assert_eq!(Lessons::default().spoiled_share(0.005), 0.005);
    /// ```
    ///
    /// Source: conjugate beta prior of a binomial share; the worth is our choice.
    #[must_use]
    pub fn spoiled_share(&self, start: f64) -> f64 {
        self.spoiled.share(start, SPOILED_WORTH_PARTS)
    }

    /// Deepest hole of a family that the shop drilled.
    ///
    /// Formula: the largest depth from one end over the tube's diameter among the records.
    ///
    /// - `family`: the family of the material.
    /// - `thin`: with tubes that count as thin where depth over diameter is judged.
    ///
    /// Result: tube diameters [-]; 0 where it drilled none.
    ///
    /// ```
    /// use quillbore_calc::learn::Lessons;
    /// use quillbore_calc::tables::Family;
    /// assert_eq!(Lessons::default().deepest(Family::Steel, false), 0.0);
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn deepest(&self, family: Family, thin: bool) -> f64 {
        let key = (family_id(family), thin);
        self.deepest.get(&key).copied().unwrap_or(0.0)
    }

    /// Whether some record tells anything of a factor by itself.
    pub(crate) fn speaks_of(&self, factor: Learns) -> bool {
        self.spoken_of.contains(&factor)
    }

    /// A factor on a start value for a lot like this one; `None` where no record speaks of it.
    fn factor(&self, factor: Learns, like: &Likeness) -> Option<Factor> {
        let learned = self.learned.as_ref()?;
        self.speaks_of(factor)
            .then(|| learned.predict(like).factors[factor as usize])
    }
}

/// A start value as its factor makes it: its deviation goes with what was known at the start.
fn as_learned(start: Spread, factor: &Factor, before: f64) -> Spread {
    if before <= 0.0 {
        return start;
    }
    let own = start.scaled(libm::exp(factor.mean));
    own.with_sigma(own.sigma() * factor.sigma() / before)
}

/// Times that go with a machine and whoever stands at it.
const fn machine_times(start: &mut StartValues) -> [&mut Spread; 12] {
    [
        &mut start.touch_off_min,
        &mut start.index_min,
        &mut start.tilt_min,
        &mut start.turn_over_min,
        &mut start.change_by_hand_min,
        &mut start.change_thin_min,
        &mut start.change_by_changer_min,
        &mut start.guide_change_min,
        &mut start.dressing_min,
        &mut start.load_min,
        &mut start.setup_min,
        &mut start.first_piece_min,
    ]
}

pub(crate) fn machine_id(machine: Option<Idx<Machine>>) -> u32 {
    machine.map_or(u32::MAX, |machine| machine.at() as u32)
}

pub(crate) const fn grade_id(material: Idx<Material>) -> u32 {
    material.at() as u32
}

pub(crate) const fn family_id(family: Family) -> u32 {
    family as u32
}
