//! Records as sentences about unknowns: sums of them that come near to a number.

use alloc::borrow::Cow;
use alloc::vec::Vec;

use super::gaussian::Sum;
use super::record::{Floor, Record};
use super::terms::{Learns, Places};
use crate::tables::Deviations;

/// What a lot has of its own beside what others like it have: burn, wear, handling, gap.
pub(super) type OwnOfLot = [f64; 4];

/// Deviation that a year of age adds to a record.
const A_YEAR: f64 = 0.1;

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

/// Which figure a record tells, as sums of unknowns.
#[derive(Clone, Debug)]
pub(super) enum What {
    /// The logarithm of a factor.
    Factor {
        factor: Learns,
        sum: Sum,
        logarithm: f64,
    },
    /// The logarithm of minutes that are a sum of burn, wear and handling.
    Floor { sums: [Sum; 3], floor: Floor },
}

/// A figure near to what is believed now: a sum of unknowns and of what is the lot's own, that comes
/// near to a number.
#[derive(Clone, Debug)]
pub(super) struct Near<'a> {
    pub(super) sum: Cow<'a, [(usize, f64)]>,
    pub(super) own: OwnOfLot,
    pub(super) value: f64,
}

impl What {
    /// The sums that it speaks of.
    pub(super) fn sums(&self) -> impl Iterator<Item = &Sum> {
        let (one, three) = match self {
            Self::Factor { sum, .. } => (Some(sum), None),
            Self::Floor { sums, .. } => (None, Some(sums)),
        };
        one.into_iter().chain(three.into_iter().flatten())
    }

    /// It as one sentence, straightened where it is bent about what is believed now.
    pub(super) fn near(&self, believed: &[f64], own_now: &OwnOfLot) -> Near<'_> {
        match self {
            Self::Factor {
                factor,
                sum,
                logarithm,
            } => {
                let mut own = OwnOfLot::default();
                own[*factor as usize] = 1.0;
                Near {
                    sum: Cow::Borrowed(sum.as_slice()),
                    own,
                    value: *logarithm,
                }
            }
            Self::Floor { sums, floor } => floor_near(sums, floor, believed, own_now),
        }
    }
}

/// Minutes on the floor: `ln(B exp b + W exp w + H exp h)`, straightened by its slopes.
fn floor_near(
    sums: &[Sum; 3],
    floor: &Floor,
    believed: &[f64],
    own_now: &OwnOfLot,
) -> Near<'static> {
    let planned = [floor.burn_min, floor.wear_min, floor.handling_min];
    let mut minutes = [0.0; 3];
    let mut logarithms = [0.0; 3];
    for part in 0..3 {
        let parts = sums[part].iter().map(|(at, times)| times * believed[*at]);
        let mean: f64 = parts.sum();
        logarithms[part] = mean + own_now[part];
        minutes[part] = planned[part] * libm::exp(logarithms[part]);
    }
    let all: f64 = minutes.iter().sum();
    let mut sum = Sum::new();
    let mut own = OwnOfLot::default();
    let mut value = libm::log(floor.minutes) - libm::log(all);
    for part in 0..3 {
        let slope = minutes[part] / all;
        sum.extend(sums[part].iter().map(|(at, times)| (*at, slope * times)));
        own[part] = slope;
        value += slope * logarithms[part];
    }
    sum.sort_unstable_by_key(|(at, _)| *at);
    Near {
        sum: Cow::Owned(sum),
        own,
        value,
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
        let sum = |factor| places.sum(factor, &record.like, start).0;
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
            let sums = [Learns::Burn, Learns::Wear, Learns::Handling].map(sum);
            told.push(Told {
                record: at,
                variance: holes + age + floor.reading * floor.reading,
                what: What::Floor { sums, floor },
            });
        }
    }
    told.sort_by_key(|told| (records[told.record].lot, told.record));
    told
}
