//! Sampling plans for lots that are inspected by attributes.

/// Code letters in the order of their samples, and the samples.
const LETTERS: [(char, u32); 16] = [
    ('A', 2),
    ('B', 3),
    ('C', 5),
    ('D', 8),
    ('E', 13),
    ('F', 20),
    ('G', 32),
    ('H', 50),
    ('J', 80),
    ('K', 125),
    ('L', 200),
    ('M', 315),
    ('N', 500),
    ('P', 800),
    ('Q', 1250),
    ('R', 2000),
];

/// Largest lot of each range, and the letters of S-1 to S-4, I, II and III.
const LOTS: [(u32, &str); 15] = [
    (8, "AAAAAAB"),
    (15, "AAAAABC"),
    (25, "AABBBCD"),
    (50, "ABBCCDE"),
    (90, "BBCCCEF"),
    (150, "BBCDDFG"),
    (280, "BCDEEGH"),
    (500, "BCDEFHJ"),
    (1_200, "CCEFGJK"),
    (3_200, "CDEGHKL"),
    (10_000, "CDFGJLM"),
    (35_000, "CDFHKMN"),
    (150_000, "DEGJLNP"),
    (500_000, "DEGJMPQ"),
    (u32::MAX, "DEHKNQR"),
];

/// Acceptance quality limits [%] from the fifth of the standard's list on.
const LIMITS: [f64; 12] = [
    0.065, 0.10, 0.15, 0.25, 0.40, 0.65, 1.0, 1.5, 2.5, 4.0, 6.5, 10.0,
];

/// Which of the standard's list the first of them is.
const FIRST_LIMIT: usize = 4;

/// Acceptance numbers along the table's diagonals, from the first on that has one.
const ACCEPT: [u32; 11] = [0, 0, 0, 1, 2, 3, 5, 7, 10, 14, 21];

/// The diagonal of acceptance number 0; the two after it point to the row above and to the row below.
const ZERO: usize = 14;

/// How severely a lot is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InspectionLevel {
    /// S-1 to S-4, by their number.
    Special(u8),
    /// I to III, by their number; II where none is named.
    General(u8),
}

/// How many are looked at, and with how many not good the lot passes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SamplingPlan {
    /// The code letter of the lot.
    pub letter: char,
    /// The letter whose plan is used: the table's arrows lead from one to the other.
    pub plan: char,
    /// Parts that are looked at; all of the lot where the plan asks for as many or more.
    pub sample: u32,
    /// Most of them that may be not good.
    pub accept: u32,
    /// Every part is looked at.
    pub all: bool,
}

/// The plan for single sampling, normal inspection, percent nonconforming.
///
/// Formula: the letter by lot and level; with the letter's place i and the limit's place j the sum i + j
/// names the acceptance number (14: 0, 17: 1, 18: 2, 19: 3, 20: 5, 21: 7, 22: 10, 23: 14, 24: 21); 15 uses
/// the row above, 16 and all below 14 the row below, all above 24 the row above.
///
/// - `lot`: parts in the lot, 1 and up.
/// - `level`: inspection level.
/// - `limit_percent`: acceptance quality limit [%], one of 0.065 to 10 of the standard's list.
///
/// Result: the plan; `None` for a limit that is not in the list, a level that there is not, an empty lot, or
/// where the table ends.
///
/// A lot of 100 at level II and 1.0 is letter F, whose arrow points up to E: 13 parts, none not good. One of
/// 300 is H: 50 parts, one not good. Of 8 all are looked at.
///
/// ```
/// use quillbore_calc::standards::sampling::{InspectionLevel, plan};
/// let of = |lot| plan(lot, InspectionLevel::General(2), 1.0).unwrap();
/// assert_eq!((of(100).letter, of(100).plan, of(100).sample, of(100).accept), ('F', 'E', 13, 0));
/// assert_eq!((of(300).letter, of(300).sample, of(300).accept), ('H', 50, 1));
/// assert_eq!((of(8).sample, of(8).all), (8, true));
/// ```
///
/// Source: ISO 2859-1:1999, tables 1 and 2-A (code letters and sample sizes as published charts have them;
/// the rule of the diagonals from memory, held against published cells).
#[must_use]
pub fn plan(lot: u32, level: InspectionLevel, limit_percent: f64) -> Option<SamplingPlan> {
    let column = match level {
        InspectionLevel::Special(number @ 1..=4) => usize::from(number) - 1,
        InspectionLevel::General(number @ 1..=3) => usize::from(number) + 3,
        _ => return None,
    };
    let (_, letters) = LOTS.iter().find(|(most, _)| lot > 0 && lot <= *most)?;
    let letter = letters.chars().nth(column)?;
    let asked = LETTERS.iter().position(|(known, _)| *known == letter)?;
    let limit = LIMITS
        .iter()
        .position(|known| (known - limit_percent).abs() < 1e-9)?
        + FIRST_LIMIT;
    let row = match asked + limit {
        sum if sum < ZERO => ZERO - limit,
        sum if sum == ZERO + 1 => asked.checked_sub(1)?,
        sum if sum == ZERO + 2 => asked + 1,
        sum if sum > ZERO + 10 => (ZERO + 10).checked_sub(limit)?,
        _ => asked,
    };
    let (plan, size) = *LETTERS.get(row)?;
    let accept = *ACCEPT.get((row + limit).checked_sub(ZERO)?)?;
    let all = size >= lot;
    Some(SamplingPlan {
        letter,
        plan,
        sample: size.min(lot),
        accept,
        all,
    })
}
