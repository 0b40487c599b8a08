//! A million holes at random: whatever is typed, what comes out are numbers that hang together, and more
//! work never takes less.

use quillbore_calc::broken::{Broken, Kind as Tool, Stuff};
use quillbore_calc::hole::Context;
use quillbore_calc::input::{Ends, Exit, HoleEnd, Surface};
use quillbore_calc::job_figures::HoleFigures;
use quillbore_calc::tables::Tables;
use quillbore_calc::{Idx, Limits, RowId, RowInput, Spread};

use super::shop::{CARBIDE, STEEL, job, layers, tables};

/// Holes in all, and rows of one job among them.
const HOLES: u32 = 1_000_000;
const TOGETHER: u32 = 5_000;

/// A stream of numbers without a pattern that matters here (splitmix64).
struct Stream(u64);

impl Stream {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    }

    fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// As many small ones as large ones.
    fn spread(&mut self, low: f64, high: f64) -> f64 {
        low * libm::pow(high / low, self.share())
    }

    fn one_in(&mut self, of: u64) -> bool {
        self.bits().is_multiple_of(of)
    }

    fn below(&mut self, most: u64) -> u64 {
        self.bits() % most
    }

    /// A length as somebody may type it: mostly sensible, at times absurd.
    fn length(&mut self, low: f64, high: f64) -> f64 {
        match self.below(400) {
            0 => 0.0,
            1 => -self.spread(low, high),
            2 => self.spread(1e-9, 1e9),
            _ => self.spread(low, high),
        }
    }

    fn surface(&mut self) -> Surface {
        let (radius_mm, offset_mm) = (self.length(0.2, 200.0), self.length(0.01, 50.0));
        match self.below(6) {
            0 | 1 => Surface::Flat,
            2 => Surface::Cylinder {
                radius_mm,
                offset_mm,
            },
            3 => Surface::Ball {
                radius_mm,
                offset_mm,
            },
            4 => Surface::Edge {
                included_deg: self.between(1.0, 179.0),
                offset_mm,
            },
            _ => Surface::Bore {
                radius_mm,
                offset_mm,
            },
        }
    }

    fn tilt_deg(&mut self) -> f64 {
        if self.one_in(2) {
            0.0
        } else {
            self.between(0.0, 92.0)
        }
    }

    fn tool(&mut self, left_mm: f64) -> Broken {
        let kinds = [
            Tool::Tap,
            Tool::Drill,
            Tool::Stud,
            Tool::Reamer,
            Tool::Extractor,
        ];
        let stuffs = [Stuff::Hss, Stuff::Carbide, Stuff::Steel];
        let kind = kinds[self.below(5) as usize];
        let nominal_mm = self.length(0.8, 30.0);
        Broken {
            pitch_mm: (!self.one_in(4)).then(|| nominal_mm * self.between(0.05, 0.4)),
            flutes: self.one_in(2).then(|| self.below(9) as u32),
            left_mm: (!self.one_in(3)).then_some(left_mm),
            below_face_mm: self.length(0.0, 20.0).max(0.0),
            through: self.one_in(2),
            bound_mm: self.one_in(5).then(|| self.length(0.5, 20.0)),
            ..Broken::new(kind, stuffs[self.below(3) as usize], nominal_mm)
        }
    }

    fn row(&mut self, id: u32) -> RowInput {
        let lower = self.length(0.15, 8.0);
        let depth_mm = self.length(0.2, 600.0);
        RowInput {
            id: RowId(id),
            count: 1 + self.below(50) as u32,
            limits_mm: Some(Limits::new(lower, lower + self.length(0.005, 0.5))),
            depth_mm: Some(depth_mm),
            end: [HoleEnd::Through, HoleEnd::Into, HoleEnd::Blind][self.below(3) as usize],
            tilt_deg: self.tilt_deg(),
            surface: self.surface(),
            exit: self.one_in(3).then(|| Exit {
                surface: self.surface(),
                tilt_deg: (!self.one_in(3)).then(|| self.tilt_deg()),
            }),
            behind_mm: self.one_in(4).then(|| self.length(0.1, 50.0)),
            backed: self.one_in(6),
            layers: if self.one_in(8) {
                layers(&[
                    (CARBIDE, self.length(0.1, 20.0)),
                    (STEEL, self.length(0.1, 20.0)),
                ])
            } else {
                Vec::new()
            },
            core_trapped: self.one_in(9),
            ends: match self.below(4) {
                0 => Some(Ends::One),
                1 => Some(Ends::Both),
                _ => None,
            },
            broken: self.one_in(15).then(|| Box::new(self.tool(depth_mm))),
            dress_every: self.one_in(5).then(|| self.below(9) as u32),
            ..RowInput::default()
        }
    }
}

/// What a row's figures say that is no such number.
fn odd(figures: &HoleFigures) -> Option<&'static str> {
    let wrong = |value: f64| !(value.is_finite() && value >= 0.0);
    let any = |values: &[Option<f64>]| values.iter().flatten().any(|value| wrong(*value));
    let ordered = |band: quillbore_calc::Band| {
        !(0.0 < band.p10 && band.p10 <= band.p50 && band.p50 <= band.p90 && band.p90.is_finite())
    };
    if figures.minutes.is_some_and(ordered) {
        return Some("minutes");
    }
    let parts = figures.minutes_in;
    let parts = parts.map(|parts| {
        [
            parts.touch_off,
            parts.entry,
            parts.full_metal,
            parts.exit,
            parts.overtravel,
            parts.retract,
            parts.changes,
        ]
    });
    if parts.is_some_and(|parts| parts.into_iter().any(wrong)) {
        return Some("parts of the minutes");
    }
    let [near, far] = figures
        .half_settings_mm
        .map_or([None; 2], |both| both.map(Some));
    let lengths = [
        figures.wear_mm,
        figures.wear_high_mm,
        figures.wear_ratio,
        figures.target_depth_mm,
        figures.machine_depth_mm,
        figures.overtravel_mm,
        figures.reach_one_mm,
        figures.limit_mm,
        near,
        far,
        Some(figures.touch_mm.entry),
        Some(figures.touch_mm.exit),
        figures.zones_mm.map(|zones| zones.entry),
        figures.zones_mm.map(|zones| zones.exit),
        figures.depth_plan.map(|plan| plan.first_try_mm),
        figures.depth_plan.map(|plan| plan.scatter_mm),
    ];
    if any(&lengths) {
        return Some("lengths");
    }
    let shares = [
        figures.held,
        figures.first_choice.map(|chance| chance.inside),
    ];
    if any(&shares) || shares.iter().flatten().any(|share| *share > 1.0 + 1e-12) {
        return Some("chances");
    }
    let flush = figures.flush.as_deref().map(|flush| {
        let [free, bottom] = [flush.face, flush.bottom];
        [
            free.ml_min,
            free.bore_m_s,
            bottom.ml_min,
            bottom.gap_m_s,
            free.ml_min - bottom.ml_min,
            flush.debris_share.unwrap_or(0.0),
            flush.weak_from_mm.unwrap_or(0.0),
        ]
    });
    if flush.is_some_and(|flush| flush.into_iter().any(wrong)) || any(&[figures.push_n]) {
        return Some("flush");
    }
    None
}

#[test]
fn a_million_random_holes_come_out_as_numbers() {
    let tables = tables();
    let mut stream = Stream(20_261_129);
    let (mut with_minutes, mut with_flush) = (0_u32, 0_u32);
    for _ in 0..HOLES / TOGETHER {
        let rows = (0..TOGETHER).map(|id| stream.row(id)).collect();
        let mut input = job(rows);
        input.machine = Some(Idx::new(stream.below(2) as usize));
        input.material = Some(Idx::new(stream.below(2) as usize));
        let context = Context::new(&input, &tables);
        for row in &input.rows {
            let figures = context.row_figures(row);
            if let Some(what) = odd(&figures) {
                unreachable!("{what}: {row:?} {figures:?}");
            }
            with_minutes += u32::from(figures.minutes.is_some());
            with_flush += u32::from(figures.flush.is_some());
        }
    }
    // Most of what is asked can be drilled, so that the figures were looked at.
    assert!(with_minutes > HOLES / 5, "{with_minutes}");
    assert!(with_flush > HOLES / 5, "{with_flush}");
}

/// One of the test shop's tables in which this material is another one.
fn changed(tables: &Tables, feed: f64, wear: f64) -> Tables {
    let times = |spread: Spread, factor: f64| {
        Spread::new(spread.p10 * factor, spread.p90 * factor).unwrap_or(spread)
    };
    let mut changed = tables.clone();
    for material in &mut changed.materials {
        material.feed_mm_min = times(material.feed_mm_min, feed);
        material.wear = times(material.wear, wear);
    }
    changed
}

/// More depth, more wear and a slower feed never take less: minutes, wear and electrodes of one hole. The tube
/// is chosen before, since another one is another hole. Two steps down are known: a blind hole may leave out its
/// second step where its depth passes a step of the general tolerance, and in front of a wall the overtravel
/// gives way to what the wear scatters. So depths are compared of open holes, and wear where no wall stands; and
/// changes are left out, since an electrode that is worn earlier is changed at a lesser depth, which saves a few
/// millimeters of rapid travel. How many there are is compared.
#[test]
fn more_work_never_takes_less() {
    let tables = tables();
    let [wearing, harder] = [changed(&tables, 1.0, 1.3), changed(&tables, 0.7, 1.0)];
    let mut stream = Stream(7);
    let mut compared = [0_u32; 3];
    for id in 0..40_000 {
        let mut row = stream.row(id);
        row.ends = Some(Ends::One);
        let mut input = job(vec![row.clone()]);
        input.machine = Some(Idx::new(1));
        let Some(tube) = Context::new(&input, &tables).row_figures(&row).tube else {
            continue;
        };
        row.tube = Some(tube);
        let figures = |row: &RowInput, tables: &Tables| {
            let mut input = input.clone();
            input.rows = vec![row.clone()];
            let found = Context::new(&input, tables).row_figures(row);
            let changes = found.minutes_in?.changes;
            Some([
                found.minutes?.p50 - changes,
                found.wear_mm?,
                f64::from(found.electrodes_per_hole?),
            ])
        };
        let Some(now) = figures(&row, &tables) else {
            continue;
        };
        let mut deeper = row.clone();
        deeper.depth_mm = row.depth_mm.map(|depth| depth * 1.07);
        deeper.layers.clear();
        let into_bore = matches!(
            row.exit,
            Some(Exit {
                surface: Surface::Bore { .. },
                ..
            })
        );
        let is_walled = (row.behind_mm.is_some() || into_bore) && !row.backed;
        let is_open = row.end != HoleEnd::Blind && row.layers.is_empty() && !is_walled;
        let more = [
            figures(&deeper, &tables).filter(|_| is_open),
            figures(&row, &wearing).filter(|_| !is_walled),
            figures(&row, &harder),
        ];
        for (at, more) in more.into_iter().enumerate() {
            let Some(more) = more else { continue };
            compared[at] += 1;
            for (more, now) in more.into_iter().zip(now) {
                assert!(more >= now * (1.0 - 1e-12), "{at}: {more} {now} {row:?}");
            }
        }
    }
    assert!(compared.iter().all(|times| *times > 3_000), "{compared:?}");
}
