//! A row's figures from what they rest on.

use alloc::sync::Arc;
use alloc::vec::Vec;

use super::asked::Held;
use super::context::Context;
use super::planned::{Plan, Reach, places};
use super::say::findings;
use super::way::Way;
use crate::entry::AtEnds;
use crate::figure::Figure;
use crate::idx::Idx;
use crate::input::{Ends, HoleEnd, RowInput};
use crate::job_figures::{BurntFigures, HoleFigures, HoleSteps, MinutesIn};
use crate::quantity::{Band, Pace, Z90};
use crate::reach::{limit_from_both, mounted, next_through};
use crate::size::verdict;
use crate::size_choice::Candidate;
use crate::spread::sum_of_parts;
use crate::tables::Tube;

impl Context<'_> {
    /// The figures of one row, with its findings.
    ///
    /// Formula: the modules of this crate, one after another: size, entry, burn, wear, reach.
    ///
    /// One hole's P10 and P90 are those of a sum of lognormals, see [`sum_of_parts`]: the sparking part
    /// with what the lot may be off and the hole's own scatter, touch-off and changes with handling,
    /// changes also with what the P10 and P90 of wear make of them. The parts are taken as
    /// independent: what a whole lot shares is drawn jointly elsewhere.
    ///
    /// - `row`: the row; what has not been typed yet is `None`.
    ///
    /// Result: figures; what can't be computed yet is `None`.
    ///
    /// ```
    /// use quillbore_calc::hole::Context;
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// # use shop::*;
    /// let tables = tables();
    /// let input = job(vec![through(0.8, 20.0)]); // 0.7 to 0.9 mm, 20 mm deep, in tool steel
    /// let figures = Context::new(&input, &tables).row_figures(&input.rows[0]);
    /// assert_eq!(tables.tubes[figures.tube.unwrap().at()].outer_mm, 0.7);
    /// let minutes = figures.minutes_in.unwrap();
    /// assert!((minutes.full_metal - 1.0135).abs() < 0.0005);
    /// assert!((minutes.touch_off - 0.1443).abs() < 0.00005);
    /// ```
    ///
    /// Source: the modules that compute the figures.
    #[must_use]
    pub fn row_figures(&self, row: &RowInput) -> HoleFigures {
        self.figures_of(row, &self.plan(row))
    }

    pub(super) fn figures_of(&self, row: &RowInput, plan: &Plan) -> HoleFigures {
        let mut figures = empty(row, plan);
        let halved_mm = plan.facts.map(|facts| self.law(&facts).halved_mm);
        Arc::make_mut(&mut figures.steps).halved_mm = halved_mm;
        let way = plan.way.as_ref();
        figures.flush = way.and_then(|way| self.flushed(plan, way)).map(Arc::new);
        figures.start_hole = self.start_hole(row, plan).map(Arc::new);
        figures.findings = findings(self, row, plan, &figures);
        self.put_size(row, plan, &mut figures);
        if let Some(met) = plan.met {
            let middle = plan.limits_mm.map(|limits| {
                if limits.lower > 0.0 {
                    limits.middle()
                } else {
                    limits.upper
                }
            });
            let hole_mm = middle.or(plan.made.as_ref().map(|made| made.sized.median_mm()));
            figures.tilt_deg = met.entered.tilt_deg;
            figures.mouth_mm =
                hole_mm.and_then(|hole| crate::entry::mouth(hole, met.entered.tilt_deg));
            figures.behind_mm = met.behind_mm;
            figures.zones_mm = met.zones.map(|zones| AtEnds {
                entry: zones.entry.length_mm(),
                exit: zones.exit.length_mm(),
            });
        }
        figures.push_n = self.push_n(plan);
        if let Some(way) = &plan.way {
            self.put_way(row, plan, way, &mut figures);
            figures.own = self.own_figures(row, plan).map(Arc::new);
        }
        // What the estimator says stands, also where nothing can be computed yet.
        let stands = |figure| self.overruled(figure);
        figures.wear_mm = figures.wear_mm.or(stands(Figure::Wear(row.id)));
        let minutes = stands(Figure::HoleMinutes(row.id)).map(Band::exact);
        figures.minutes = figures.minutes.or(minutes);
        figures
    }

    fn put_size(&self, row: &RowInput, plan: &Plan, figures: &mut HoleFigures) {
        if let Some(burnt) = plan.burnt.as_deref() {
            figures.size_mm = burnt.hole_mm(plan.gap, plan.asked().map(|asked| asked.limits_mm));
            figures.burnt = Some(Arc::new(BurntFigures {
                tool: burnt.tool,
                opening: burnt.opening,
            }));
            return;
        }
        if let Some(made) = &plan.made {
            figures.size_mm = Some(made.sized.range_mm(plan.taper_mm));
            figures.neighbors = self.neighbors(made);
        }
        figures.first_choice = plan.chance;
        let Some(Held { held, bought }) = plan.held else {
            return;
        };
        let parts = f64::from(self.setting.quantity.unwrap_or(1));
        let outside = f64::from(places(row)) * parts * (1.0 - held);
        figures.held = Some(held);
        figures.bought = bought;
        figures.outside_in_lot = Some(outside);
        figures.verdict = Some(verdict(held, outside));
    }

    /// The tubes like this one next in size below and above, the shortest of each.
    fn neighbors(&self, made: &Candidate) -> Vec<Idx<Tube>> {
        let outer = made.sized.tube_mm;
        let like = || self.driven.class_of(made);
        let below = like().filter(|tube| tube.sized.tube_mm < outer).last();
        let above = like().find(|tube| tube.sized.tube_mm > outer);
        below
            .into_iter()
            .chain(above)
            .map(|tube| tube.tube)
            .collect()
    }

    fn put_way(&self, row: &RowInput, plan: &Plan, way: &Way, figures: &mut HoleFigures) {
        let wear_mm = way.wear_mm();
        figures.ends = Some(way.ends);
        figures.wear_mm = Some(wear_mm);
        figures.wear_high_mm = Some(wear_mm * plan.high);
        figures.depth_plan = way.depth.map(|depth| depth.plan);
        figures.wear_ratio = plan.depth_mm.map(|depth| wear_mm / depth);
        let computed_mm = way.computed_wear_mm.unwrap_or(wear_mm);
        let steps = Arc::make_mut(&mut figures.steps);
        steps.wear_mm = Some(computed_mm);
        steps.wear_ratio = plan.depth_mm.map(|depth| computed_mm / depth);
        steps.tip_mm = Some(way.tip_mm());
        steps.beyond_exit_mm = way.beyond_exit_mm;
        figures.overtravel_mm = (row.end != HoleEnd::Blind).then_some(way.overtravel_mm);
        // The machine counts from where the tool touched, which on a slope is before the axis crosses it.
        let touches = [way.touch_mm.entry, way.touch_mm.exit];
        let sides = way.sides.iter().flatten().zip(touches);
        let mut settings =
            sides.map(|(side, touch_mm)| touch_mm + side.tip_mm + side.wear_mm / way.wears);
        let (near, far) = (settings.next(), settings.next());
        figures.machine_depth_mm = near.map(|near| far.map_or(near, |far| near.max(far)));
        figures.half_settings_mm = near.zip(far).map(|(near, far)| [near, far]);
        figures.touch_mm = way.touch_mm;
        let (Some(machine), Some(usable_mm), Some(reach)) =
            (self.machine, plan.usable_mm, &plan.reach)
        else {
            return;
        };
        let held_mm = self.held_mm(row);
        let stand_off_mm = machine.stand_off_mm + held_mm;
        let free_mm = (usable_mm - held_mm).max(0.0);
        figures.stand_off_mm = Some(stand_off_mm);
        figures.target_depth_mm = Some(stand_off_mm + way.tip_mm());
        figures.limit_mm = Some(self.reach_limit_mm(way.ends, free_mm));
        figures.mounted_mm = Some(mounted(usable_mm, machine.held_back_mm));
        if let [Some(near), _] = &way.sides {
            let spans = near.ratio.spans(0.0, f64::INFINITY);
            let reach_mm = next_through(free_mm, near.rise, 0.0, spans);
            figures.reach_one_mm = Some(reach_mm);
            // Wear rises with depth: its mean is what of the length is lost over that depth.
            let ratio = Some(free_mm / reach_mm - 1.0);
            Arc::make_mut(&mut figures.steps).reach_ratio = ratio;
        }
        if reach.reaches {
            let chains = reach.chains.iter().flatten();
            figures.electrodes_per_hole = Some(chains.map(|chain| chain.stage.whole + 1).sum());
            self.put_minutes(plan, way, reach, figures);
        }
    }

    /// Depth of hole that no number of electrodes passes, drilled from these ends [mm].
    pub(super) fn reach_limit_mm(&self, ends: Ends, usable_mm: f64) -> f64 {
        match ends {
            Ends::One => usable_mm,
            Ends::Both => limit_from_both(usable_mm, self.start.overlap_mm),
        }
    }

    fn put_minutes(&self, plan: &Plan, way: &Way, reach: &Reach, figures: &mut HoleFigures) {
        let (Some(times), high) = (&plan.times, plan.high) else {
            return;
        };
        let chains = reach.chains.iter().flatten();
        let changes: f64 = chains
            .map(|chain| times.changes_min(chain, Pace::Median))
            .sum();
        figures.minutes_in = way.sparking.map(|sparking| MinutesIn {
            touch_off: times.touch_offs * times.touch_off.p50(),
            retract: times.retract_min,
            changes,
            ..sparking
        });
        let changes_at = |factor: f64| -> f64 {
            let sides = way.sides.iter().flatten();
            sides
                .map(|side| times.changes_min(&side.chain(times.usable_mm, factor), Pace::Median))
                .sum()
        };
        let touch_off = times.touch_offs * times.touch_off.p50();
        let of_changes = if changes > 0.0 {
            (changes_at(high) - changes_at(1.0 / high)) / (2.0 * Z90) / changes
        } else {
            0.0
        };
        let (p10, p90) = sum_of_parts(&[
            (times.sparking_min, self.one_hole(plan.sigmas.feed)),
            (touch_off, times.touch_off.sigma()),
            (changes, libm::hypot(times.change.sigma(), of_changes)),
            (times.retract_min, 0.0),
        ]);
        let p50 = times.sparking_min + touch_off + changes + times.retract_min;
        let band = Band {
            p10: p10.min(p50),
            p50,
            p90: p90.max(p50),
        };
        figures.minutes = Some(band.scaled(times.overruled));
    }
}

/// A row's figures as far as they come straight from what was typed and chosen.
fn empty(row: &RowInput, plan: &Plan) -> HoleFigures {
    HoleFigures {
        row: row.id,
        places: places(row),
        limits_mm: plan.limits_mm,
        depth_mm: plan.depth_mm,
        tilt_deg: row.tilt_deg,
        tube: plan.tube,
        guide: plan.facts.and_then(|facts| facts.guide),
        gap_mm: plan.gap,
        size_mm: None,
        checked: row.checked(),
        start_hole: None,
        verdict: None,
        first_choice: None,
        held: None,
        bought: None,
        outside_in_lot: None,
        neighbors: Vec::new(),
        depth_plan: None,
        feed_mm_min: plan.feed,
        wear_ratio: None,
        minutes: None,
        minutes_in: None,
        zones_mm: None,
        mouth_mm: None,
        wear_mm: None,
        wear_high_mm: None,
        dressings: plan.dress_share,
        overtravel_mm: None,
        target_depth_mm: None,
        machine_depth_mm: None,
        half_settings_mm: None,
        touch_mm: AtEnds::default(),
        behind_mm: row.behind_mm,
        stand_off_mm: None,
        flush: None,
        burnt: None,
        push_n: None,
        usable_mm: plan.usable_mm,
        mounted_mm: None,
        reach_one_mm: None,
        limit_mm: None,
        electrodes_per_hole: None,
        ends: None,
        steps: Arc::new(HoleSteps {
            taper_mm: plan.taper_mm,
            gap_mm: plan.facts.and_then(|facts| facts.gap),
            feed: plan.feed_steps,
            ..HoleSteps::default()
        }),
        own: None,
        findings: Vec::new(),
    }
}
