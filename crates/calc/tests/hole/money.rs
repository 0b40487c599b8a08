//! What one end and both cost the lot, as the finding about the dearer tells it, worked by hand.
//!
//! Rates of the tests' shop: machine 60 an hour with 5 % for redone work, dielectric 3 and power 2:
//! 68 / 60 a minute; labor 45 with 5 %: 0.7875 a minute; tubes of 3 with 5 %: 3.15 each. Times are
//! made exact, and feed and wear typed with nothing unknown of them, so that sums can be done by hand;
//! minutes of a hole are those of `minutes.rs`.

use quillbore_calc::finding::Kind;
use quillbore_calc::input::{Ends, Overrule, PartAxis};
use quillbore_calc::{Figure, JobInput, Tables};

use super::shop::*;
use super::{close, first, tube};

const MACHINE: f64 = 68.0 / 60.0;
const LABOR: f64 = 0.7875;
const TUBE: f64 = 3.15;
/// Tubes broken for each end: the middle of 0.002 to 0.01.
const BROKEN: f64 = 0.004_472_135_955;

/// Ten parts of twelve holes from a tube of 1.0 x 400 mm, 300 mm of it usable on the bench head; 20 mm/min
/// at every depth.
fn exact(depth_mm: f64, wear_mm: f64) -> (Tables, JobInput) {
    let mut tables = tables();
    let start = &mut tables.start;
    for (time, minutes) in [
        (&mut start.touch_off_min, 0.1),
        (&mut start.change_by_hand_min, 2.5),
        (&mut start.change_by_changer_min, 0.5),
        (&mut start.turn_over_min, 20.0),
        (&mut start.first_piece_min, 7.0),
        (&mut start.load_min, 3.0),
        (&mut start.index_min, 0.25),
        (&mut start.dressing_min, 0.7),
        (&mut start.pin_check_min, 0.2),
    ] {
        *time = spread(minutes, minutes);
    }
    start.wear_at_100_diameters = spread(1.0, 1.0);
    start.depth_s = spread(1e9, 1e9);
    start.deviations.handling_shop = 0.0;
    start.deviations.handling_machine = 0.0;
    start.deviations.lot = 0.0;
    for tube in &mut tables.tubes {
        tube.price = 3.0;
    }
    let mut row = through(1.1, depth_mm);
    row.tube = Some(tube(&tables, 1.0, 400.0, 1));
    let mut input = job(vec![row.clone()]);
    input.overrules = vec![
        Overrule {
            figure: Figure::Feed(row.id),
            value: 20.0,
        },
        Overrule {
            figure: Figure::Wear(row.id),
            value: wear_mm,
        },
    ];
    (tables, input)
}

/// What one end and both cost, told to who asked for the dearer.
fn told(tables: &Tables, input: &JobInput) -> [f64; 2] {
    let mut input = input.clone();
    let mut asking = |ends| {
        input.rows[0].ends = Some(ends);
        let found = first(&input, tables);
        found
            .findings
            .iter()
            .find_map(|finding| match finding.kind {
                Kind::OtherEndsCheaper { one, both } => Some([one, both]),
                _ => None,
            })
    };
    let [one, both] = [asking(Ends::One), asking(Ends::Both)];
    assert!(
        one.is_none() || both.is_none(),
        "one of them is the cheaper"
    );
    one.or(both).unwrap()
}

/// What the lot's drilling costs by hand.
struct Lot {
    /// Minutes in all holes, changes inside them included.
    drilling: f64,
    /// Minutes of changes inside the holes.
    inside: f64,
    /// Minutes of changes between holes, and of dressing.
    between: f64,
    /// Tubes broken, and minutes lost with each.
    broken: [f64; 2],
    /// Electrodes without the broken ones, of which half is left on average.
    electrodes: f64,
    ends: f64,
}

impl Lot {
    fn checked(&self) -> f64 {
        self.ends * 0.2 * LABOR
    }

    fn bought(&self) -> f64 {
        (self.electrodes + self.broken[0] / 2.0) * TUBE
    }

    /// Somebody changes and dresses; 0.4 of the rest is attended.
    fn by_hand(&self) -> f64 {
        let lost = self.broken[0] * self.broken[1];
        let labor = self.between + self.inside + 0.4 * (self.drilling - self.inside + lost);
        (self.drilling + self.between + lost) * MACHINE
            + labor * LABOR
            + self.bought()
            + self.checked()
    }

    /// The machine changes and dresses, 0.4 of all of it attended.
    fn by_changer(&self) -> f64 {
        let lost = self.broken[0] * self.broken[1];
        let all = self.drilling + self.between + lost;
        all * MACHINE + 0.4 * all * LABOR + self.bought() + self.checked()
    }
}

/// From one end 30 mm: 1.5 min, 2.5 mm of overtravel in 2.5 / 60, touch-off 0.1, drawn out over 32.5 mm in
/// 0.0325: 1.674 167. An electrode of 300 mm drills 13 holes of 20 mm of wear, (300 - 32.5) / 20 = 13.4: ten
/// electrodes, nine changes.
///
/// From both 15.5 and 14.5 mm, wear 10.333 and 9.667; tips at 15.5 and 17: sparking as long, touched off
/// twice, drawn out over 32.5 mm: 1.774 167. (300 - 15.5) / 10.333 = 27.5 and (300 - 17) / 9.667 = 29.3: 120 / 27
/// and 120 / 29 are 8.58 electrodes, so nine.
fn shallow() -> [Lot; 2] {
    let (one, both) = (
        1.5 + 2.5 / 60.0 + 0.1 + 0.0325,
        1.5 + 2.5 / 60.0 + 0.2 + 0.0325,
    );
    let lot = |minutes: f64, electrodes: f64, ends| Lot {
        drilling: 120.0 * minutes,
        inside: 0.0,
        between: (electrodes - 1.0) * 2.5,
        broken: [120.0 * BROKEN, 2.5 + minutes / 2.0],
        electrodes,
        ends,
    };
    [lot(one, 10.0, 120.0), lot(both, 9.0, 240.0)]
}

/// Both ends take a turn-over, a first piece and ten more loads, by machine and hand.
const TURNED: f64 = (20.0 + 7.0 + 30.0) * (MACHINE + LABOR);

#[test]
fn one_end_and_both_by_hand() {
    let (tables, input) = exact(30.0, 20.0);
    let [one, both] = told(&tables, &input);
    let [by_one, by_both] = shallow();
    close(one, by_one.by_hand(), 1e-6);
    close(both, by_both.by_hand() + TURNED, 1e-6);
}

/// An index axis about which the part turns: ten index moves of 0.25 min, 0.4 of them attended. An axis
/// alone, or a part that does not turn about it, is turned over.
#[test]
fn the_far_end_by_index() {
    let (mut tables, mut input) = exact(30.0, 20.0);
    let [_, by_both] = shallow();
    let both = |tables: &Tables, input: &JobInput| told(tables, input)[1];
    input.index_about = Some(PartAxis::X);
    close(both(&tables, &input), by_both.by_hand() + TURNED, 1e-6);
    tables.machines[BENCH.at()].index_axis = true;
    let indexed = 2.5 * (MACHINE + 0.4 * LABOR);
    close(both(&tables, &input), by_both.by_hand() + indexed, 1e-6);
    input.index_about = None;
    close(both(&tables, &input), by_both.by_hand() + TURNED, 1e-6);
}

/// The same lot where the machine changes electrodes, in 0.5 min each.
#[test]
fn a_changer_takes_nobody_s_hand() {
    let (mut tables, input) = exact(30.0, 20.0);
    tables.machines[BENCH.at()].changer = true;
    let [one, both] = told(&tables, &input);
    let [by_one, by_both] = shallow().map(|lot| {
        let minutes = lot.drilling / 120.0;
        Lot {
            between: (lot.electrodes - 1.0) * 0.5,
            broken: [lot.broken[0], 0.5 + minutes / 2.0],
            ..lot
        }
    });
    close(one, by_one.by_changer(), 1e-6);
    close(both, by_both.by_changer() + TURNED, 1e-6);
}

/// Dressed before every second hole, 3 mm each: a hole takes 21.5 mm, but the last of an electrode is not
/// dressed again: (300 + 1.5 - 32.5) / 21.5 = 12.5, so 12 holes, ten electrodes. Of 120 holes less ten on
/// fresh electrodes half are dressed: 55 times 0.7 min. From both ends (300 + 1.5 - 15.5) / 11.833 = 24.2 and
/// (300 + 1.5 - 17) / 11.167 = 25.5: 5 and 4.8 electrodes, ten; 230 ends, 115 dressings.
#[test]
fn dressing_takes_minutes_and_length() {
    let (tables, mut input) = exact(30.0, 20.0);
    input.rows[0].dress_every = Some(2);
    let [one, both] = told(&tables, &input);
    let [by_one, by_both] = shallow();
    let by_one = Lot {
        between: 9.0 * 2.5 + 55.0 * 0.7,
        ..by_one
    };
    let by_both = Lot {
        between: 9.0 * 2.5 + 115.0 * 0.7,
        electrodes: 10.0,
        ..by_both
    };
    close(one, by_one.by_hand(), 1e-6);
    close(both, by_both.by_hand() + TURNED, 1e-6);
}

/// 200 mm that lose 200: the first electrode goes to 150 mm, the second loses 50 and can't drill another
/// hole, (300 - 202.5) / 50 = 1.95: 240 electrodes, 120 changes inside the holes, 119 between. Minutes: 10, the
/// overtravel, touch-off, 0.2025 to draw out; inside a change, a touch-off, 150 mm down and up.
///
/// From both 100.5 and 99.5 mm lose as much: (300 - 100.5) / 100.5 = 1.99 and (300 - 102) / 99.5 = 1.99: an
/// electrode for each end, 240, none inside.
#[test]
fn chained_electrodes_are_changed_inside_the_hole() {
    let (tables, input) = exact(200.0, 200.0);
    let [one, both] = told(&tables, &input);
    let sparking = 10.0 + 2.5 / 60.0;
    let chained = sparking + 0.1 + 0.2025 + 2.5 + 0.1 + 0.3;
    let by_one = Lot {
        drilling: 120.0 * chained,
        inside: 120.0 * 2.5,
        between: 119.0 * 2.5,
        broken: [120.0 * BROKEN, 2.5 + chained / 2.0],
        electrodes: 240.0,
        ends: 120.0,
    };
    close(one, by_one.by_hand(), 1e-6);
    let from_both = sparking + 0.2 + 0.2025;
    let by_both = Lot {
        drilling: 120.0 * from_both,
        inside: 0.0,
        between: 239.0 * 2.5,
        broken: [120.0 * BROKEN, 2.5 + from_both / 2.0],
        electrodes: 240.0,
        ends: 240.0,
    };
    close(both, by_both.by_hand() + TURNED, 1e-6);
}

/// Feed off by 0.27 in the logarithm makes sparking dearer by exp(0.27^2 / 2) on average. Wear off by as
/// much is the mean over 15 quantiles: their deviates (standard normal table, middles of fifteenths) make
/// 30 mm of wear so much, and a lot of so many electrodes at each.
#[test]
fn what_is_not_known_counts_at_its_mean() {
    let (mut tables, input) = exact(30.0, 30.0);
    tables.start.deviations.lot = 0.27;
    let [one, _] = told(&tables, &input);
    let upper = [0.0, 0.1679, 0.3407, 0.5244, 0.7279, 0.9674, 1.2816, 1.8339];
    let below = upper[1..].iter().map(|z| -z);
    let electrodes: Vec<f64> = upper
        .into_iter()
        .chain(below)
        .map(|z| {
            let wear = 30.0 * libm::exp(0.27 * z);
            libm::ceil(120.0 / libm::floor(267.5 / wear))
        })
        .collect();
    assert_eq!(electrodes.len(), 15);
    let electrodes = electrodes.iter().sum::<f64>() / 15.0;
    // At the median wear (300 - 32.5) / 30 = 8.9: eight holes each, fifteen electrodes.
    close(electrodes, 15.133_333, 1e-5);
    let sparking = (1.5 + 2.5 / 60.0) * libm::exp(0.27 * 0.27 / 2.0);
    let minutes = sparking + 0.1 + 0.0325;
    let by_hand = Lot {
        drilling: 120.0 * minutes,
        inside: 0.0,
        between: (electrodes - 1.0) * 2.5,
        broken: [120.0 * BROKEN, 2.5 + minutes / 2.0],
        electrodes,
        ends: 120.0,
    };
    close(one, by_hand.by_hand(), 1e-6);
}

/// Times are taken at their means: a time of 0.1 to 0.4 min has the median 0.2 and a deviation of
/// ln 2 / 1.2816 = 0.5409; pin checks of that, 120 of them.
#[test]
fn handling_counts_at_its_mean() {
    let (tables, input) = exact(30.0, 20.0);
    let mut wider = tables.clone();
    wider.start.pin_check_min = spread(0.1, 0.4);
    let more = told(&wider, &input)[0] - told(&tables, &input)[0];
    let deviation = std::f64::consts::LN_2 / 1.281_551_565_5;
    let mean = 0.2 * libm::exp(deviation * deviation / 2.0);
    close(more, 120.0 * (mean - 0.2) * LABOR, 1e-6);
    // Handling is off by at least so much, whatever the table says of one time.
    let mut least = tables.clone();
    least.start.deviations.handling_shop = 0.6;
    least.start.deviations.handling_machine = 0.8;
    least.start.touch_off_min = tables.start.touch_off_min;
    let told_least = told(&least, &input)[0];
    let [by_one, _] = shallow();
    let factor = libm::exp(0.5);
    let minutes = by_one.drilling / 120.0 + 0.1 * (factor - 1.0);
    let lot = Lot {
        drilling: 120.0 * minutes,
        between: by_one.between * factor,
        broken: [by_one.broken[0], 2.5 * factor + minutes / 2.0],
        ..by_one
    };
    let checks = 120.0 * 0.2 * (factor - 1.0) * LABOR;
    close(told_least, lot.by_hand() + checks, 1e-6);
}

/// What fits exactly is drilled: (300 - 32.5) / 26.75 are ten holes of an electrode, twelve electrodes.
#[test]
fn an_electrode_is_used_to_its_very_end() {
    let (tables, input) = exact(30.0, 26.75);
    let [by_one, _] = shallow();
    let by_one = Lot {
        between: 11.0 * 2.5,
        electrodes: 12.0,
        ..by_one
    };
    close(told(&tables, &input)[0], by_one.by_hand(), 1e-6);
}

/// The same hole where the part is indexed: 36 minutes of ways down and up again are saved by both ends, more
/// than pin checks and index moves take, though a feed that never falls saves nothing.
#[test]
fn chained_holes_are_drilled_from_both_ends_where_that_pays() {
    let (mut tables, mut input) = exact(200.0, 200.0);
    assert_eq!(first(&input, &tables).ends, Some(Ends::One));
    tables.machines[BENCH.at()].index_axis = true;
    input.index_about = Some(PartAxis::X);
    assert_eq!(first(&input, &tables).ends, Some(Ends::Both));
}
