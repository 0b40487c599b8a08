//! Records as sentences about unknowns: sums of them that come near to a number.

use alloc::vec::Vec;

use super::gaussian::Sum;
use super::record::{Floor, Record, Told as Which};
use super::terms::{Learns, Places};
use crate::tables::Deviations;

/// What a lot has of its own beside what others like it have: burn, wear, handling, gap.
pub(super) type OwnOfLot = [f64; 4];

/// Deviation that a year of age adds to a record.
const A_YEAR: f64 = 0.1;

/// How far changes and handling of holes of one kind may lie from what the shop's other holes take,
/// deviation of the logarithm (our choice, no source): no part of the factors tells kinds of holes apart,
/// so one kind that is quick to load is not taken for a shop that is.
const OF_A_KIND: f64 = 0.3;

/// One figure of a record.
#[derive(Clone, Debug)]
pub(super) struct Told {
    /// Which record.
    pub(super) record: usize,
    /// Which of its figures.
    pub(super) what: What,
    /// Variance of the holes and of the reading.
    pub(super) variance: f64,
}

impl Told {
    /// Which figure it is.
    pub(super) const fn which(&self) -> Which {
        match self.what {
            What::Floor { .. } => Which::Clock,
            What::Factor { factor, .. } => match factor {
                Learns::Wear => Which::Wear,
                Learns::Gap => Which::Gap,
                Learns::Burn | Learns::Handling => Which::Spark,
            },
        }
    }
}

/// Which figure a record tells, as sums of unknowns.
#[derive(Clone, Debug)]
pub(super) enum What {
    /// The logarithm of a factor.
    Factor {
        factor: Learns,
        sum: Sum,
        logarithm: f64,
    },
    /// The logarithm of minutes that are a sum of burn, wear and handling: the unknowns of all three in
    /// their order, each with its part and how often it counts there.
    Floor {
        sums: Vec<(usize, usize, f64)>,
        floor: Floor,
    },
}

/// A figure near to what is believed now: a sum of unknowns and of what is the lot's own, that comes
/// near to a number.
#[derive(Clone, Debug)]
pub(super) struct Near {
    /// The unknowns of one that was straightened; the others' are their own.
    straightened: Sum,
    pub(super) own: OwnOfLot,
    pub(super) value: f64,
}

impl What {
    /// The unknowns that it speaks of.
    pub(super) fn unknowns(&self) -> impl Iterator<Item = usize> {
        let (one, three) = match self {
            Self::Factor { sum, .. } => (Some(sum), None),
            Self::Floor { sums, .. } => (None, Some(sums)),
        };
        let one = one.into_iter().flatten().map(|(at, _)| *at);
        one.chain(three.into_iter().flatten().map(|(at, ..)| *at))
    }

    /// Puts other places in the place of its unknowns, and sorts them by those.
    pub(super) fn put_places(&mut self, place: impl Fn(usize) -> usize) {
        match self {
            Self::Factor { sum, .. } => {
                sum.iter_mut().for_each(|(at, _)| *at = place(*at));
                sum.sort_unstable_by_key(|(at, _)| *at);
            }
            Self::Floor { sums, .. } => {
                sums.iter_mut().for_each(|(at, ..)| *at = place(*at));
                sums.sort_unstable_by_key(|(at, part, _)| (*at, *part));
            }
        }
    }

    /// The sum of unknowns that comes near to its value.
    pub(super) fn sum<'a>(&'a self, near: &'a Near) -> &'a [(usize, f64)] {
        match self {
            Self::Factor { sum, .. } => sum,
            Self::Floor { .. } => &near.straightened,
        }
    }

    /// It as one sentence; where it is bent it is straightened by [`What::straighten`] later.
    pub(super) fn near(&self) -> Near {
        match self {
            Self::Factor {
                factor, logarithm, ..
            } => {
                let mut own = OwnOfLot::default();
                own[*factor as usize] = 1.0;
                Near {
                    straightened: Sum::new(),
                    own,
                    value: *logarithm,
                }
            }
            Self::Floor { sums, .. } => Near {
                straightened: sums.iter().map(|(at, _, times)| (*at, *times)).collect(),
                own: OwnOfLot::default(),
                value: 0.0,
            },
        }
    }

    /// Straightens it about what is believed now, where it is bent: minutes on the floor are
    /// `ln(B exp b + W exp w + H exp h)`, and go on by its slopes.
    pub(super) fn straighten(&self, near: &mut Near, believed: &[f64], own_now: &OwnOfLot) {
        let Self::Floor { sums, floor } = self else {
            return;
        };
        let planned = [floor.burn_min, floor.wear_min, floor.handling_min];
        let mut logarithms = [own_now[0], own_now[1], own_now[2]];
        for (at, part, times) in sums {
            logarithms[*part] += times * believed[*at];
        }
        let minutes: [f64; 3] =
            core::array::from_fn(|part| planned[part] * libm::exp(logarithms[part]));
        let all: f64 = minutes.iter().sum();
        near.value = libm::log(floor.minutes) - libm::log(all);
        for part in 0..3 {
            let slope = minutes[part] / all;
            near.own[part] = slope;
            near.value += slope * logarithms[part];
        }
        for ((_, into), (_, part, times)) in near.straightened.iter_mut().zip(sums) {
            *into = near.own[*part] * times;
        }
    }
}

/// Every usable figure of the records, those of one lot together.
pub(super) fn all(
    records: &[Record],
    places: &Places,
    start: &Deviations,
    hole_scatter: f64,
) -> Vec<Told> {
    let mut told = Vec::new();
    for (at, record) in records.iter().enumerate().filter(|(_, r)| r.is_usable()) {
        let age = A_YEAR * A_YEAR * record.age_years;
        let holes = hole_scatter * hole_scatter / record.holes;
        let looked = places.look(&record.like);
        let sum = |factor| places.sum(factor, &looked, start).0;
        let ratios = [
            (Learns::Burn, record.burn),
            (Learns::Wear, record.wear),
            (Learns::Gap, record.gap),
        ];
        for (factor, ratio) in ratios {
            if let Some(ratio) = ratio.filter(super::record::Ratio::is_usable) {
                told.push(Told {
                    record: at,
                    what: What::Factor {
                        factor,
                        sum: sum(factor),
                        logarithm: libm::log(ratio.of_planned),
                    },
                    // How sizes scatter from hole to hole is in the reading of a gap.
                    variance: ratio.reading * ratio.reading
                        + age
                        + if factor == Learns::Gap { 0.0 } else { holes },
                });
            }
        }
        if let Some(floor) = record.floor.filter(Floor::is_usable) {
            let mut sums = Vec::with_capacity(18);
            for (part, factor) in [Learns::Burn, Learns::Wear, Learns::Handling]
                .iter()
                .enumerate()
            {
                let seen = places.seen(*factor, &looked);
                sums.extend(seen.map(|(at, times)| (at, part, times)));
            }
            let apart = OF_A_KIND * (1.0 - floor.burn_min / floor.planned());
            told.push(Told {
                record: at,
                variance: holes + age + floor.reading * floor.reading + apart * apart,
                what: What::Floor { sums, floor },
            });
        }
    }
    told.sort_by_key(|told| (records[told.record].lot, told.record));
    told
}
