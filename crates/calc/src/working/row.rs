//! Workings of a row's figures.

use alloc::vec::Vec;

use super::job::{Job, Worked, overruled, plain};
use crate::figure::{Figure, Formula, Input, Name, Origin, Quantity, Unit};
use crate::input::{Ends, RowId, RowInput};
use crate::job_figures::{HoleFigures, OwnFigures};
use crate::quantity::Limits;
use crate::tables::Tube;

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
        Figure::Flush(_) => row.flush(),
        Figure::Push(_) => row.push(),
        Figure::ElectrodesPerHole(_) => row.electrodes(),
        Figure::Electrodes(_)
        | Figure::AllElectrodes
        | Figure::Clamp(_)
        | Figure::Machines
        | Figure::Setups
        | Figure::MachineHours
        | Figure::LaborHours
        | Figure::NotYetKnown
        | Figure::Cost(_)
        | Figure::LotCost
        | Figure::UnitPrice(_)
        | Figure::LotPrice(_)
        | Figure::WorkingDays => None,
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
            mm(Name::Taper, self.hole.steps.taper_mm, Origin::Computed),
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

    /// Where a start value comes from that the shop's run records may have moved.
    fn origin(&self, moved: impl Fn(&OwnFigures) -> bool) -> Origin {
        match &self.hole.own {
            Some(own) if moved(own) => Origin::Runs,
            _ => Origin::StartValue,
        }
    }

    /// A wear ratio, with where it comes from.
    fn wear_ratio(&self, ratio: f64) -> Input {
        let origin = self.origin(|own| own.wear.factor != 1.0);
        plain(Name::WearRatio, ratio, Unit::Number, origin)
    }

    fn gap(&self) -> Option<Worked> {
        let moved = |own: &OwnFigures| own.gap.is_some_and(|gap| gap.factor != 1.0);
        let origin = self.origin(moved);
        let of = |name, value| plain(name, value, Unit::Mm, origin);
        let mut inputs = alloc::vec![self.tube_diameter()?];
        let mut result = self.hole.gap_mm?.p50();
        if let Some(gap) = self.hole.steps.gap_mm {
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
        let start = |name, value, unit| plain(name, value, unit, Origin::StartValue);
        let mut inputs = Vec::new();
        let mut result = stands;
        if let Some(steps) = self.hole.steps.feed {
            inputs.extend([
                start(Name::MaterialFeed, steps.material_mm_min, Unit::MmPerMin),
                start(Name::SizeFactor, steps.size, Unit::Number),
                start(Name::ChannelsFactor, steps.channels, Unit::Number),
                start(Name::EffortFactor, steps.effort, Unit::Number),
            ]);
            if steps.full_metal != 1.0 {
                let share = steps.full_metal;
                inputs.push(start(Name::InterruptedFactor, share, Unit::Number));
            }
            if let Some(own) = &self.hole.own {
                let factor = 1.0 / own.burn.factor;
                let origin = Origin::Runs;
                inputs.push(plain(Name::RunsFactor, factor, Unit::Number, origin));
            }
            let figure = Figure::Feed(self.hole.row);
            result = overruled(self.job.figures, figure).0.unwrap_or(stands);
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
        if let Some(opening) = self.hole.burnt.as_deref().and_then(|burnt| burnt.opening) {
            let plunges = f64::from(opening.plunges);
            inputs.push(plain(
                Name::Plunges,
                plunges,
                Unit::Number,
                Origin::Computed,
            ));
        }
        if let (Some(feed), Some(halved)) = (self.hole.feed_mm_min, self.hole.steps.halved_mm) {
            let opens = Figure::Feed(self.hole.row);
            let exponent = start.depth_m;
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
        let steps = &self.hole.steps;
        let (wear, ratio) = (steps.wear_mm?, steps.wear_ratio?);
        Some(Worked {
            formula: Formula::Wear,
            inputs: alloc::vec![self.wear_ratio(ratio), self.depth()?,],
            result: length(wear),
        })
    }

    fn depth(&self) -> Option<Input> {
        let depth = self.hole.depth_mm?;
        Some(plain(Name::Depth, depth, Unit::Mm, Origin::Typed))
    }

    fn target_depth(&self) -> Option<Worked> {
        let target = self.hole.target_depth_mm?;
        let machine = self.job.input.machine?.of(&self.job.tables.machines)?;
        let stand_off = self.hole.stand_off_mm?;
        let origin = if stand_off == machine.stand_off_mm {
            Origin::ShopTable
        } else {
            Origin::Computed
        };
        let mm = |name, value, origin| plain(name, value, Unit::Mm, origin);
        let mut inputs = alloc::vec![mm(Name::StandOff, stand_off, origin)];
        if self.hole.ends == Some(Ends::Both) {
            // Half of the depth and of the overlap from each end, and no exit.
            let tip = self.hole.steps.tip_mm?;
            inputs.push(mm(Name::Depth, tip, Origin::Computed));
        } else {
            let beyond = self.hole.steps.beyond_exit_mm;
            let overtravel = self.hole.overtravel_mm.unwrap_or(0.0);
            inputs.extend([
                self.depth()?,
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
        let ratio = self.hole.steps.reach_ratio?;
        Some(Worked {
            formula: Formula::ReachOne,
            inputs: alloc::vec![
                usable,
                self.wear_ratio(ratio),
                mm(Name::TubeLength, self.tube()?.length_mm),
                mm(Name::HeldBack, machine.held_back_mm),
                mm(Name::Stroke, machine.stroke_mm),
            ],
            result: length(reach),
        })
    }

    fn flush(&self) -> Option<Worked> {
        let flush = self.hole.flush.as_deref()?;
        let tube = self.tube()?;
        let start = &self.job.tables.start;
        let mm = |name, value, origin| plain(name, value, Unit::Mm, origin);
        let mut inputs = alloc::vec![
            self.pressure(flush.pressure_bar),
            mm(Name::TubeLength, self.hole.mounted_mm?, Origin::ShopTable),
            mm(Name::Bore, tube.bore_mm, Origin::ShopTable),
            plain(
                Name::Channels,
                f64::from(tube.channels),
                Unit::Count,
                Origin::ShopTable
            ),
            self.job.opened(
                Name::TubeDiameter,
                tube.outer_mm,
                Unit::Mm,
                Figure::Electrode(self.hole.row)
            ),
            self.job.opened(
                Name::Gap,
                self.hole.gap_mm?.p50(),
                Unit::Mm,
                Figure::Gap(self.hole.row)
            ),
            mm(Name::Depth, flush.depth_mm, Origin::Computed),
            plain(
                Name::WaterTemperature,
                start.water_c,
                Unit::Celsius,
                Origin::StartValue
            ),
            plain(
                Name::PumpFlow,
                1000.0 * start.pump_l_min,
                Unit::MlPerMin,
                Origin::StartValue
            ),
            plain(
                Name::FreeFlow,
                flush.face.ml_min,
                Unit::MlPerMin,
                Origin::Computed
            ),
            plain(
                Name::GapSpeed,
                flush.bottom.gap_m_s,
                Unit::MetersPerSecond,
                Origin::Computed
            ),
        ];
        if let Some(share) = flush.debris_share {
            inputs.push(plain(
                Name::DebrisShare,
                share,
                Unit::Share,
                Origin::Computed,
            ));
        }
        Some(Worked {
            formula: Formula::FlushByPressure,
            inputs,
            result: Quantity {
                value: flush.bottom.ml_min,
                unit: Unit::MlPerMin,
            },
        })
    }

    fn push(&self) -> Option<Worked> {
        let push = self.hole.push_n?;
        let hole_mm = self.hole.limits_mm.map(|limits| limits.upper)?;
        let machine = self.job.input.machine?.of(&self.job.tables.machines)?;
        let pressure = (self.job.input.pressure_bar).unwrap_or(machine.pressure_bar);
        Some(Worked {
            formula: Formula::PressureOnHole,
            inputs: alloc::vec![
                self.pressure(pressure),
                plain(Name::LargestHole, hole_mm, Unit::Mm, Origin::Typed),
            ],
            result: Quantity {
                value: push,
                unit: Unit::Newton,
            },
        })
    }

    fn pressure(&self, bar: f64) -> Input {
        let origin = if self.job.input.pressure_bar.is_some() {
            Origin::Typed
        } else {
            Origin::ShopTable
        };
        plain(Name::Pressure, bar, Unit::Bar, origin)
    }

    fn electrodes(&self) -> Option<Worked> {
        let number = self.hole.electrodes_per_hole?;
        let mut inputs = alloc::vec![self.usable()?, self.depth()?];
        if let Some(ratio) = self.hole.wear_ratio {
            let number = self.wear_ratio(ratio);
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
