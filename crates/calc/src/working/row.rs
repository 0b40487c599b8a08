//! Workings of a row's figures.

use alloc::vec::Vec;

use super::job::{Job, Worked, plain};
use crate::figure::{Figure, Formula, Input, Name, Origin, Quantity, Unit};
use crate::input::{Ends, RowId, RowInput};
use crate::interpolate::log_log;
use crate::job_figures::HoleFigures;
use crate::quantity::Limits;
use crate::size::gap_of;
use crate::tables::{Material, Tube};

/// The working of one of a row's figures.
pub(super) fn worked(job: &Job<'_>, id: RowId, figure: Figure) -> Option<Worked> {
    let at = job.input.rows.iter().position(|row| row.id == id)?;
    let row = Row {
        job,
        input: job.input.rows.get(at)?,
        hole: job.figures.holes.get(at)?,
    };
    match figure {
        Figure::Electrode(_) => row.electrode(),
        Figure::Gap(_) => row.gap(),
        Figure::Feed(_) => row.feed(),
        Figure::HoleMinutes(_) => row.minutes(),
        Figure::Wear(_) => row.wear(),
        Figure::TargetDepth(_) => row.target_depth(),
        Figure::ReachOne(_) => row.reach_one(),
        Figure::ElectrodesPerHole(_) => row.electrodes(),
        Figure::Electrodes(_)
        | Figure::Setups
        | Figure::MachineHours
        | Figure::LaborHours
        | Figure::NotYetKnown
        | Figure::LotCost
        | Figure::UnitPrice(_) => None,
    }
}

/// A row with its figures.
struct Row<'a> {
    job: &'a Job<'a>,
    input: &'a RowInput,
    hole: &'a HoleFigures,
}

impl Row<'_> {
    fn tube(&self) -> Option<&Tube> {
        self.hole.tube?.of(&self.job.tables.tubes)
    }

    /// Material at the entry.
    fn material(&self) -> Option<&Material> {
        let first = self.input.layers.first().map(|layer| layer.material);
        first
            .or(self.job.input.material)?
            .of(&self.job.tables.materials)
    }

    /// A length that somebody typed, or that the shop usually takes.
    fn limit(&self, name: Name, value: f64) -> Input {
        let origin = if self.input.limits_assumed {
            Origin::ShopTable
        } else {
            Origin::Typed
        };
        plain(name, value, Unit::Mm, origin)
    }

    fn tube_diameter(&self) -> Option<Input> {
        let outer = self.tube()?.outer_mm;
        let figure = Figure::Electrode(self.hole.row);
        let opened = self.job.opened(Name::TubeDiameter, outer, Unit::Mm, figure);
        let typed = self.input.tube.is_some();
        Some(Input {
            origin: if typed { Origin::Typed } else { opened.origin },
            ..opened
        })
    }

    /// Chances of the tube against the limits.
    fn electrode(&self) -> Option<Worked> {
        let outer = self.tube()?.outer_mm;
        let Limits {
            lower: smallest,
            upper: largest,
        } = self.hole.size_mm?;
        let start = &self.job.tables.start;
        let mm = |name, value, origin| plain(name, value, Unit::Mm, origin);
        let opens = Figure::Gap(self.hole.row);
        let gap = |name, value| self.job.opened(name, value, Unit::Mm, opens);
        let [gap_low, gap_high] = [
            gap(Name::GapLow, self.hole.gap_mm?.p10),
            gap(Name::GapHigh, self.hole.gap_mm?.p90),
        ];
        let taper = outer + 2.0 * gap_low.value.value - smallest;
        let mut inputs: Vec<Input> = Vec::new();
        if let Some(Limits { lower, upper }) = self.hole.limits_mm {
            inputs.push(self.limit(Name::LowerLimit, lower));
            inputs.push(self.limit(Name::UpperLimit, upper));
        }
        inputs.extend([
            gap_low,
            gap_high,
            mm(
                Name::TubeTolerance,
                start.tube_tolerance_mm,
                Origin::StartValue,
            ),
            mm(Name::Taper, taper, Origin::Computed),
            mm(Name::SmallestHole, smallest, Origin::Computed),
            mm(Name::LargestHole, largest, Origin::Computed),
        ]);
        let share = |name, value| plain(name, value, Unit::Share, Origin::Computed);
        if let Some(chance) = self.hole.first_choice {
            inputs.push(share(Name::Inside, chance.inside));
            inputs.push(share(Name::Over, chance.over));
        }
        inputs.extend(self.hole.held.map(|held| share(Name::Held, held)));
        Some(Worked {
            formula: Formula::ElectrodeChoice,
            inputs,
            result: length(outer),
        })
    }

    fn gap(&self) -> Option<Worked> {
        let outer = self.tube()?.outer_mm;
        let of = |name, value| plain(name, value, Unit::Mm, Origin::StartValue);
        let start = &self.job.tables.start;
        let mut inputs = alloc::vec![self.tube_diameter()?];
        let mut result = self.hole.gap_mm?.p50();
        if let Some(gap) = gap_of(&start.gap_mm, outer, start.deviations.gap()) {
            inputs.extend([of(Name::GapLow, gap.p10), of(Name::GapHigh, gap.p90)]);
            result = gap.p50();
        }
        Some(Worked {
            formula: Formula::GapByDiameter,
            inputs,
            result: length(result),
        })
    }

    fn feed(&self) -> Option<Worked> {
        let stands = self.hole.feed_mm_min?;
        let (tube, start) = (self.tube()?, &self.job.tables.start);
        let number = |name, value| plain(name, value, Unit::Number, Origin::StartValue);
        let by_size = log_log(&start.feed_by_diameter, tube.outer_mm);
        let mut inputs = Vec::new();
        let mut result = stands;
        if let (Some(material), Some(by_size)) = (self.material(), by_size) {
            let several = tube.channels > 1;
            let channels = if several { start.channels_feed } else { 1.0 };
            let feed = material.feed_mm_min.p50();
            let origin = Origin::StartValue;
            inputs.extend([
                plain(Name::MaterialFeed, feed, Unit::MmPerMin, origin),
                number(Name::SizeFactor, by_size),
                number(Name::ChannelsFactor, channels),
            ]);
            // What is left between the factors and the figure is the effort of close limits.
            let figure = Figure::Feed(self.hole.row);
            let computed = self.job.overruled(figure).0.unwrap_or(stands);
            let effort = computed / (feed * (by_size * channels));
            inputs.push(number(Name::EffortFactor, effort));
            result = computed;
        }
        inputs.push(self.tube_diameter()?);
        Some(Worked {
            formula: Formula::FeedByDiameter,
            inputs,
            result: Quantity {
                value: result,
                unit: Unit::MmPerMin,
            },
        })
    }

    fn minutes(&self) -> Option<Worked> {
        let stands = self.hole.minutes?.p50;
        let start = &self.job.tables.start;
        let minutes = |name, value| plain(name, value, Unit::Min, Origin::Computed);
        let mut inputs = Vec::new();
        // Without a known feed there is nothing but what the estimator said.
        let mut result = stands;
        if let Some(parts) = self.hole.minutes_in {
            result = parts.sum();
            inputs.extend([
                minutes(Name::TouchOff, parts.touch_off),
                minutes(Name::Entry, parts.entry),
                minutes(Name::FullMetal, parts.full_metal),
                minutes(Name::Exit, parts.exit),
                minutes(Name::Overtravel, parts.overtravel),
                minutes(Name::Retract, parts.retract),
                minutes(Name::Changes, parts.changes),
            ]);
        }
        if let (Some(feed), Some(tube)) = (self.hole.feed_mm_min, self.tube()) {
            let opens = Figure::Feed(self.hole.row);
            let (halved, exponent) = (start.depth_s.p50() * tube.outer_mm, start.depth_m);
            let origin = Origin::StartValue;
            inputs.extend([
                self.job.opened(Name::Feed, feed, Unit::MmPerMin, opens),
                plain(Name::DepthHalved, halved, Unit::Mm, origin),
                plain(Name::DepthExponent, exponent, Unit::Number, origin),
            ]);
        }
        Some(Worked {
            formula: Formula::HoleMinutes,
            inputs,
            result: Quantity {
                value: result,
                unit: Unit::Min,
            },
        })
    }

    fn wear(&self) -> Option<Worked> {
        let figure = Figure::Wear(self.hole.row);
        let stands = self.hole.wear_mm?;
        let wear = self.job.overruled(figure).0.unwrap_or(stands);
        let depth = self.depth()?;
        let ratio = wear / depth.value.value;
        Some(Worked {
            formula: Formula::Wear,
            inputs: alloc::vec![
                plain(Name::WearRatio, ratio, Unit::Number, Origin::StartValue),
                depth,
            ],
            result: length(wear),
        })
    }

    fn depth(&self) -> Option<Input> {
        let depth = self.hole.depth_mm?;
        Some(plain(Name::Depth, depth, Unit::Mm, Origin::Typed))
    }

    fn target_depth(&self) -> Option<Worked> {
        let target = self.hole.target_depth_mm?;
        let machine = self.job.input.machine?;
        let stand_off = machine.of(&self.job.tables.machines)?.stand_off_mm;
        let mm = |name, value, origin| plain(name, value, Unit::Mm, origin);
        let mut inputs = alloc::vec![mm(Name::StandOff, stand_off, Origin::ShopTable)];
        if self.hole.ends == Some(Ends::Both) {
            // Half of the depth and of the overlap from each end, and no exit.
            inputs.push(mm(Name::Depth, target - stand_off, Origin::Computed));
        } else {
            let depth = self.depth()?;
            let overtravel = self.hole.overtravel_mm.unwrap_or(0.0);
            let beyond = target - stand_off - depth.value.value - overtravel;
            inputs.extend([
                depth,
                mm(Name::BeyondExit, beyond, Origin::Computed),
                mm(Name::Overtravel, overtravel, Origin::StartValue),
            ]);
        }
        Some(Worked {
            formula: Formula::TargetDepth,
            inputs,
            result: length(target),
        })
    }

    fn usable(&self) -> Option<Input> {
        let usable = self.hole.usable_mm?;
        Some(plain(Name::Usable, usable, Unit::Mm, Origin::Computed))
    }

    fn reach_one(&self) -> Option<Worked> {
        let reach = self.hole.reach_one_mm?;
        let machine = self.job.input.machine?.of(&self.job.tables.machines)?;
        let mm = |name, value| plain(name, value, Unit::Mm, Origin::ShopTable);
        let usable = self.usable()?;
        // Mean over the depth reached: wear rises with depth.
        let ratio = usable.value.value / reach - 1.0;
        Some(Worked {
            formula: Formula::ReachOne,
            inputs: alloc::vec![
                usable,
                plain(Name::WearRatio, ratio, Unit::Number, Origin::StartValue),
                mm(Name::TubeLength, self.tube()?.length_mm),
                mm(Name::HeldBack, machine.held_back_mm),
                mm(Name::Stroke, machine.stroke_mm),
            ],
            result: length(reach),
        })
    }

    fn electrodes(&self) -> Option<Worked> {
        let number = self.hole.electrodes_per_hole?;
        let mut inputs = alloc::vec![self.usable()?, self.depth()?];
        if let Some(ratio) = self.hole.wear_ratio {
            let number = plain(Name::WearRatio, ratio, Unit::Number, Origin::StartValue);
            inputs.push(number);
        }
        if let Some(wear) = self.hole.wear_mm {
            let opens = Figure::Wear(self.hole.row);
            inputs.push(self.job.opened(Name::Wear, wear, Unit::Mm, opens));
        }
        if let Some(limit) = self.hole.limit_mm {
            inputs.push(plain(Name::ReachLimit, limit, Unit::Mm, Origin::Computed));
        }
        Some(Worked {
            formula: Formula::Chain,
            inputs,
            result: Quantity {
                value: f64::from(number),
                unit: Unit::Count,
            },
        })
    }
}

fn length(value: f64) -> Quantity {
    Quantity {
        value,
        unit: Unit::Mm,
    }
}
