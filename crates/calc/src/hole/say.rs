//! What there is to say about a row.

use alloc::vec::Vec;

use super::context::Context;
use super::depth::{Depth, Wall};
use super::facts::TubeFacts;
use super::material::about_material;
use super::planned::{EndsCost, Plan, Reach};
use super::way::Way;
use crate::entry::Meeting;
use crate::figure::Figure;
use crate::finding::{About, Finding, Kind, Level, Remedy};
use crate::idx::Idx;
use crate::input::{Ends, RowInput};
use crate::job_figures::{DepthPlan, HoleFigures};
use crate::quantity::Limits;
use crate::reach::miss;
use crate::tables::Tube;

/// Layers whose sum is off the depth by more than this disagree with it [mm].
const LAYERS_SLACK_MM: f64 = 0.05;

/// Everything there is to say about a row.
pub(super) fn findings(
    context: &Context<'_>,
    row: &RowInput,
    plan: &Plan,
    figures: &HoleFigures,
) -> Vec<Finding> {
    if row.unread {
        // What can't be read is told by whoever read it.
        return Vec::new();
    }
    let mut voice = Voice {
        context,
        row,
        plan,
        said: Vec::new(),
    };
    voice.typed();
    voice.layers();
    voice.tube();
    voice.burnt();
    voice.size();
    voice.drilled_before();
    voice.surfaces();
    voice.cavity();
    voice.recess();
    voice.proof();
    if let Some(found) = &figures.start_hole {
        voice.start_hole(found);
    }
    voice.head();
    if let Some(way) = &plan.way {
        voice.way(way);
    }
    if let Some(flush) = &figures.flush {
        voice.flush(flush);
    }
    voice.overrules();
    // Most rows have one finding or none, and a job has many rows: each list is as long as it must be. One
    // that is shrunk where it lies would leave a gap beside it that nothing fits in.
    let mut said = Vec::with_capacity(voice.said.len());
    said.append(&mut voice.said);
    said
}

pub(super) struct Voice<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) row: &'a RowInput,
    pub(super) plan: &'a Plan,
    said: Vec<Finding>,
}

impl Voice<'_> {
    pub(super) fn say(&mut self, level: Level, kind: Kind, remedy: Option<Remedy>) {
        self.said.push(Finding {
            level,
            about: About::Row(self.row.id),
            kind,
            remedy,
        });
    }

    fn typed(&mut self) {
        let row = self.row;
        match self.plan.limits_mm {
            // What a broken tool asks for is told beside it.
            _ if row.broken.is_some() => {}
            None => self.say(Level::Stop, Kind::SizeMissing, None),
            Some(Limits {
                lower: lower_mm,
                upper: upper_mm,
            }) if row.limits_assumed => {
                let kind = Kind::LimitsAssumed { lower_mm, upper_mm };
                // What no pin checks nobody holds to limits: they choose the tube alone.
                let level = if row.checked().by_pin {
                    Level::Check
                } else {
                    Level::Note
                };
                self.say(level, kind, None);
            }
            Some(Limits {
                lower,
                upper: upper_mm,
            }) if lower <= 0.0 => {
                if let Some(asked) = self.plan.asked() {
                    let lower_mm = asked.limits_mm.lower;
                    let kind = Kind::LowerAssumed { lower_mm, upper_mm };
                    self.say(Level::Note, kind, None);
                }
            }
            Some(limits) => self.close(limits.width()),
        }
        let Some(depth_mm) = self.plan.depth_mm else {
            self.say(Level::Stop, Kind::DepthMissing, None);
            return;
        };
        let layers_mm: f64 = row.layers.iter().map(|layer| layer.thickness_mm).sum();
        let off_mm = (layers_mm - depth_mm).abs();
        if !row.layers.is_empty() && (off_mm > LAYERS_SLACK_MM || off_mm.is_nan()) {
            let kind = Kind::LayersDisagree {
                depth_mm,
                layers_mm,
            };
            self.say(Level::Check, kind, Some(Remedy::DepthFromLayers(row.id)));
        }
        if row.ends == Some(Ends::Both) && !row.is_open_behind() {
            let remedy = Remedy::DrillOneEnd(row.id);
            self.say(Level::Check, Kind::FarEndClosed, Some(remedy));
        }
    }

    /// Each material of a layered row is judged once.
    fn layers(&mut self) {
        let layers = &self.row.layers;
        for (place, layer) in layers.iter().enumerate() {
            let before = layers.iter().take(place);
            if before
                .into_iter()
                .all(|other| other.material != layer.material)
            {
                let Context {
                    setting, tables, ..
                } = self.context;
                let about = About::Row(self.row.id);
                about_material(setting, tables, layer.material, about, &mut self.said);
            }
        }
    }

    fn tube(&mut self) {
        let Some(facts) = &self.plan.facts else {
            if self.row.broken.is_none() {
                self.no_tube();
            }
            return;
        };
        let tube_mm = facts.outer_mm;
        if let (Some(machine), false) = (self.context.machine, self.context.is_driven(facts)) {
            let Limits {
                lower: least_mm,
                upper: most_mm,
            } = machine.tube_mm;
            let machines = &self.context.tables.machines;
            let other = Idx::find(machines, |machine| super::facts::drives(machine, tube_mm));
            let kind = Kind::TubeOutsideMachine {
                tube_mm,
                least_mm,
                most_mm,
            };
            self.say(Level::Stop, kind, other.map(Remedy::UseMachine));
        }
        if facts.guide.is_none() {
            self.say(Level::Stop, Kind::NoGuide { tube_mm }, None);
        }
        if self.plan.feed.is_none() && facts.feed_by_size.is_none() {
            let kind = Kind::FeedUnknown { tube_mm };
            self.say(Level::Stop, kind, Some(Remedy::AskTestPiece));
        }
        self.wishes(facts);
    }

    /// Channels and tube material that differ from what the hole wants.
    fn wishes(&mut self, facts: &TubeFacts) {
        let wish = self.plan.wish;
        let tubes = &self.context.tables.tubes;
        let material = self.plan.tube.and_then(|tube| tube.of(tubes));
        let material = material.map(|tube| tube.material);
        if wish.material.is_some_and(|wanted| material != Some(wanted)) {
            let better = self.better(|context, tube| {
                let tube = tube.of(&context.tables.tubes);
                tube.map(|tube| tube.material) == wish.material
            });
            self.say(Level::Check, Kind::OtherTubeMaterial, better);
        }
        if facts.several {
            return;
        }
        let several = |context: &Context<'_>, tube: Idx<Tube>| {
            tube.beside(&context.tubes)
                .is_some_and(|facts| facts.several)
        };
        if self.row.core_trapped {
            let better = self.better(several);
            self.say(Level::Check, Kind::CoreTrapped, better);
        } else if wish.several {
            let better = self.better(several);
            self.say(Level::Check, Kind::CoreLeft, better);
        } else {
            self.say(Level::Note, Kind::CoreLeft, None);
        }
    }

    fn way(&mut self, way: &Way) {
        let (Some(met), Some(depth_mm)) = (self.plan.met, self.plan.depth_mm) else {
            return;
        };
        if way.full_metal_mm <= 0.0 && met.entered.meeting == Meeting::Whole {
            let zones = met.zones.unwrap_or_default();
            let zones_mm = zones.entry.length_mm() + zones.exit.length_mm();
            let kind = Kind::NoFullMetal { zones_mm, depth_mm };
            self.say(Level::Note, kind, None);
        }
        match &way.depth {
            Some(depth) => self.sure_depth(depth),
            None => self.backed(way, depth_mm),
        }
        if let (Some(reach), Some(usable_mm)) = (self.plan.reach, self.plan.usable_mm) {
            self.reach(way, &reach, usable_mm);
        }
        self.deep(way);
    }

    /// A blind depth, or a wall behind the exit.
    fn sure_depth(&mut self, depth: &Depth) {
        let DepthPlan {
            two_steps,
            scatter_mm: by_mm,
            allowed_mm,
            ..
        } = depth.plan;
        let Some(Wall {
            behind_mm,
            needed_mm,
        }) = depth.wall
        else {
            let kind = if depth.exceeds() {
                Kind::DepthNotToBePromised {
                    by_mm,
                    allowed_mm,
                    is_general: self.row.given_depth_limits().is_none(),
                }
            } else if self.row.broken.is_some() {
                // Nobody asks how deep what is left of a tool is burnt to a tenth.
                return;
            } else {
                Kind::DepthBySteps { by_mm, two_steps }
            };
            let level = if depth.exceeds() {
                Level::Check
            } else {
                Level::Note
            };
            self.say(level, kind, None);
            return;
        };
        let remedy = Some(Remedy::AddBacking(self.row.id));
        if depth.exceeds() && !self.row.wall_waived {
            let kind = Kind::WallInReach {
                behind_mm,
                needed_mm,
                by_mm,
            };
            self.say(Level::Stop, kind, remedy);
        } else {
            let kind = Kind::BackingNeeded {
                behind_mm,
                needed_mm,
            };
            // Where there is room once the first hole is measured, a short first try is all it takes.
            let level = if needed_mm > behind_mm {
                Level::Check
            } else {
                Level::Note
            };
            self.say(level, kind, remedy);
        }
    }

    /// A wall behind the exit that only the backing keeps from the tip.
    fn backed(&mut self, way: &Way, depth_mm: f64) {
        let behind_mm = self.plan.met.and_then(|met| met.behind_mm);
        let Some(behind_mm) = behind_mm.filter(|_| self.row.backed) else {
            return;
        };
        let past_mm = way.tip_mm() - depth_mm;
        if past_mm > behind_mm {
            let kind = Kind::BackingHolds { behind_mm, past_mm };
            self.say(Level::Check, kind, None);
        }
    }

    fn reach(&mut self, way: &Way, reach: &Reach, usable_mm: f64) {
        let id = self.row.id;
        if !reach.reaches {
            let free_mm = (usable_mm - self.context.held_mm(self.row)).max(0.0);
            let limit_mm = self.context.reach_limit_mm(way.ends, free_mm);
            let depth_mm = match way.ends {
                Ends::One => way.tip_mm(),
                Ends::Both => self.plan.depth_mm.unwrap_or(0.0),
            };
            let other_end =
                (way.ends == Ends::One && reach.both_reach).then_some(Remedy::DrillBothEnds(id));
            let remedy = other_end.or_else(|| self.longer(way));
            let kind = Kind::OutOfReach { depth_mm, limit_mm };
            self.say(Level::Stop, kind, remedy);
            return;
        }
        let chains = reach.chains.iter().flatten();
        if chains.clone().any(|chain| chain.stage.whole > 0) {
            let electrodes = chains.map(|chain| chain.stage.whole + 1).sum();
            let remedy = self.longer(way);
            self.say(Level::Note, Kind::ChainedElectrodes { electrodes }, remedy);
        }
        if let Some(EndsCost { one, both }) = reach.cheaper {
            let remedy = match way.ends {
                Ends::One => Remedy::DrillBothEnds(id),
                Ends::Both => Remedy::DrillOneEnd(id),
            };
            let kind = Kind::OtherEndsCheaper { one, both };
            self.say(Level::Note, kind, Some(remedy));
        }
        if way.ends == Ends::Both {
            let each = way.deepest_mm();
            let by_mm = miss(self.context.start.drift_mm_per_100.p90, each);
            let back = reach.one_reaches.then_some(Remedy::DrillOneEnd(id));
            self.say(Level::Check, Kind::EndsMayMiss { by_mm }, back);
        }
    }

    /// A longer tube of the same diameter that does it in one.
    fn longer(&self, way: &Way) -> Option<Remedy> {
        let facts = self.plan.facts?;
        let tables = self.context.tables;
        let here = self.plan.tube?.of(&tables.tubes)?;
        let asks_mm = way.asks_mm();
        let longer = |index: &Idx<Tube>| {
            let usable = self.context.usable_mm(*index);
            let Some(tube) = index.of(&tables.tubes) else {
                return false;
            };
            tube.outer_mm == facts.outer_mm
                && tube.material == here.material
                && (tube.channels > 1) == facts.several
                && usable.is_some_and(|usable| usable >= asks_mm)
        };
        let found = Idx::all(&tables.tubes).find(longer);
        found.map(|tube| Remedy::UseTube(self.row.id, tube))
    }

    fn overrules(&mut self) {
        if self.context.overrules.is_empty() {
            return;
        }
        let id = self.row.id;
        let plan = self.plan;
        let computed_tube = || {
            let choosable = self.context.choosable(&plan.asked()?);
            let tube = choosable.first()?.first()?;
            Some(tube.beside(&self.context.tubes)?.outer_mm)
        };
        let computed_minutes = || {
            let times = plan.times?;
            let stands = self.context.overruled(Figure::HoleMinutes(id))?;
            plan.way.as_ref()?.sparking?;
            Some(stands / times.overruled)
        };
        let computed = [
            (Figure::Electrode(id), computed_tube()),
            (Figure::Gap(id), plan.computed_gap_mm),
            (Figure::Feed(id), plan.computed_feed),
            (Figure::HoleMinutes(id), computed_minutes()),
            (
                Figure::Wear(id),
                plan.way.as_ref().and_then(|way| way.computed_wear_mm),
            ),
        ];
        for (figure, computed) in computed {
            if let Some(stands) = self.context.overruled(figure) {
                let kind = Kind::Overruled {
                    figure,
                    computed,
                    stands,
                };
                self.say(Level::Note, kind, None);
            }
        }
    }
}
