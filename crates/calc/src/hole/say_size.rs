//! What there is to say about a row's size: which tube, with what chance, and what else would do.

use super::asked::Held;
use super::burnt::CIRCLE_FROM_MM;
use super::context::Context;
use super::planned::places;
use super::say::Voice;
use crate::figure::Figure;
use crate::finding::{Kind, Level, Remedy};
use crate::idx::Idx;
use crate::job_figures::{Chance, Verdict};
use crate::learn::{Pinned, grade_id, machine_id};
use crate::quantity::{Limits, ROUNDING_MM};
use crate::size::{effort, verdict};
use crate::tables::Tube;

impl Voice<'_> {
    /// No tube of the shop: which one would do, or which way.
    pub(super) fn no_tube(&mut self) {
        let typed = self.context.overruled(Figure::Electrode(self.row.id));
        let limits = typed
            .map(|outer| Limits::new(outer, outer))
            .or(self.plan.limits_mm);
        let Some(Limits {
            lower: lower_mm,
            upper: upper_mm,
        }) = limits
        else {
            return;
        };
        let buy = self.plan.held.and_then(|held| held.bought);
        let circle = upper_mm >= CIRCLE_FROM_MM;
        let kind = Kind::NoTube {
            lower_mm,
            upper_mm,
            taper_mm: self.plan.taper_mm,
            buy,
            circle,
        };
        self.say(Level::Stop, kind, None);
    }

    /// What the verdict and the first tube's chance ask for.
    pub(super) fn size(&mut self) {
        let plan = self.plan;
        let (Some(asked), Some(Held { held, bought }), Some(_)) =
            (plan.asked(), plan.held, &plan.made)
        else {
            return;
        };
        let Limits {
            lower: lower_mm,
            upper: upper_mm,
        } = asked.limits_mm;
        let parts = f64::from(self.context.setting.quantity.unwrap_or(1));
        let outside = f64::from(places(self.row)) * parts * (1.0 - held);
        let buy = bought;
        match verdict(held, outside) {
            Verdict::Comfortable => {}
            Verdict::Tight => {
                let kind = Kind::LimitsTight { held, outside, buy };
                self.say(Level::Note, kind, None);
            }
            Verdict::NotToBePromised => {
                let kind = Kind::LimitsNotToBePromised {
                    held,
                    outside,
                    lower_mm,
                    upper_mm,
                    buy,
                };
                self.say(Level::Check, kind, None);
            }
            Verdict::NotHeld => {
                let kind = Kind::LimitsNotHeld {
                    held,
                    lower_mm,
                    upper_mm,
                    buy,
                    circle: upper_mm >= CIRCLE_FROM_MM,
                };
                self.say(Level::Stop, kind, None);
            }
        }
        let chosen = self.row.tube.is_some()
            || self
                .context
                .overruled(Figure::Electrode(self.row.id))
                .is_some();
        let Some(Chance { inside, over }) = self.plan.chance.filter(|_| chosen) else {
            return;
        };
        if over > 0.5 || inside < 0.05 {
            let better = self.better(|context, tube| {
                let place = context.all.of_tube(tube);
                let tube = place.and_then(|place| context.all.candidates.get(place));
                tube.is_some_and(|tube| {
                    tube.sized.chance(asked.limits_mm, asked.taper_mm).inside > inside
                })
            });
            self.say(Level::Check, Kind::TubeMisses { inside, over }, better);
        }
    }

    /// Where the shop has drilled this size with another tube: what went once is told beside what all
    /// pins together make of the gap.
    pub(super) fn drilled_before(&mut self) {
        let (context, row, plan) = (self.context, self.row, self.plan);
        let typed = context.overruled(Figure::Electrode(row.id)).is_some();
        let grade = context.materials_of(row).next();
        let (Some(lessons), Some(limits), Some(facts), Some(grade)) =
            (context.lessons, plan.limits_mm, plan.facts, grade)
        else {
            return;
        };
        if typed || row.tube.is_some() {
            return;
        }
        let is_planned = |tube_mm: f64| libm::fabs(tube_mm - facts.outer_mm) < ROUNDING_MM;
        let went = lessons
            .pinned(grade_id(grade), machine_id(context.setting.machine))
            .filter(|pinned| limits.lower <= pinned.size_mm && pinned.size_mm <= limits.upper);
        // The newest that came out right is the one that counts.
        let Some(went) = { went }.next().filter(|went| !is_planned(went.tube_mm)) else {
            return;
        };
        let Pinned {
            tube_mm, size_mm, ..
        } = *went;
        let alike = |tube: &Tube| libm::fabs(tube.outer_mm - tube_mm) < ROUNDING_MM;
        let long = plan.tube.and_then(|tube| tube.of(&context.tables.tubes));
        let long = |tube: &Tube| long.is_none_or(|long| tube.length_mm >= long.length_mm);
        let tubes = &context.tables.tubes;
        let tube = Idx::find(tubes, |tube| alike(tube) && long(tube));
        let remedy = tube.or_else(|| Idx::find(tubes, alike));
        let kind = Kind::OtherTubeDrilledIt { tube_mm, size_mm };
        self.say(
            Level::Note,
            kind,
            remedy.map(|tube| Remedy::UseTube(row.id, tube)),
        );
    }

    /// Limits closer than any effort holds.
    pub(super) fn close(&mut self, width_mm: f64) {
        let table = &self.context.start.effort_by_width;
        if effort(table, width_mm).is_none() {
            let least_mm = table.first().map_or(0.0, |(width, _)| *width);
            self.say(
                Level::Stop,
                Kind::LimitsTooClose { width_mm, least_mm },
                None,
            );
        }
    }

    /// The tube that the calculation would choose, where the estimator chose another and it is
    /// better in this.
    pub(super) fn better(
        &self,
        is_better: impl Fn(&Context<'_>, Idx<Tube>) -> bool,
    ) -> Option<Remedy> {
        self.row.tube?;
        let asked = self.plan.asked()?;
        let choosable = self.context.choosable(&asked);
        let lengths = *choosable.first()?;
        let here = self
            .plan
            .tube
            .and_then(|tube| tube.of(&self.context.tables.tubes));
        // The same length where it is to be had.
        let length = |tube: &&Idx<Tube>| {
            let tube = tube.of(&self.context.tables.tubes);
            tube.map(|tube| tube.length_mm) >= here.map(|tube| tube.length_mm)
        };
        let tube = lengths.iter().find(length).or(lengths.last())?;
        let tube = Some(*tube).filter(|tube| is_better(self.context, *tube))?;
        Some(Remedy::UseTube(self.row.id, tube))
    }
}
