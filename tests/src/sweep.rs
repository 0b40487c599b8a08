//! A sweep over depth, holes, parts, diameter, tolerance and angle: what a price does from one job to
//! the next.
//!
//! Chains of jobs that differ in one thing only are priced with the shop of the assets. What is to
//! hold of each job and of each pair of neighbors is asked in `tests/tests/sweep.rs`; the example
//! `falls` prints where a price falls though the job grew.

use quillbore_calc::assemble::quick;
use quillbore_calc::input::{Ends, HoleEnd, JobInput, RowInput};
use quillbore_calc::job_figures::{Chance, JobFigures, Verdict};
use quillbore_calc::size::gap_of;
use quillbore_calc::tables::{Machine, Material, Tables, Tube, TubeMaterial};
use quillbore_calc::{Idx, Limits};

/// A price may fall by so much of itself before that is called a fall: the unit price is rounded.
const FALL: f64 = 0.005;

/// What grows along a chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grows {
    /// The depth.
    Depth,
    /// Holes in a part.
    Holes,
    /// Parts in the lot.
    Parts,
    /// The diameter, limits alike.
    Diameter,
    /// The closeness of the limits.
    Tolerance,
    /// The angle from the normal.
    Angle,
}

impl Grows {
    /// True where more of it is more work of the same kind, so that a price has no reason to fall.
    #[must_use]
    pub const fn is_work(self) -> bool {
        matches!(self, Self::Depth | Self::Holes | Self::Parts)
    }
}

/// One job of a chain.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// Index of the machine in the tables.
    pub machine: Idx<Machine>,
    /// Index of the material.
    pub material: Idx<Material>,
    /// Lower and upper limit [mm].
    pub limits_mm: Limits,
    /// Depth [mm].
    pub depth_mm: f64,
    /// Where it ends.
    pub end: HoleEnd,
    /// Angle from the normal [deg].
    pub tilt_deg: f64,
    /// Holes in one part.
    pub holes: u32,
    /// Parts.
    pub parts: u32,
}

/// Jobs that differ in one thing only, which grows.
#[derive(Clone, Debug)]
pub struct Chain {
    /// What grows.
    pub grows: Grows,
    /// The jobs, least first.
    pub jobs: Vec<Asked>,
}

/// What came of one job; `None` where there was no price.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Index of the tube.
    pub tube: Idx<Tube>,
    /// Ends drilled from.
    pub ends: Ends,
    /// Chance that it can be held, and that the first tube is right and oversize.
    pub held: f64,
    /// Chance of the first tube: inside, oversize.
    pub chance: Chance,
    /// The verdict.
    pub verdict: Verdict,
    /// Each hole in two steps.
    pub two_steps: bool,
    /// Price of the lot.
    pub lot: f64,
    /// Expected cost of the lot.
    pub cost: f64,
}

/// Why a price may fall though the job grew.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// Another diameter, material or kind of tube became the better first choice: chances decide, not
    /// money, and the one before stands among the alternatives.
    AnotherTube,
    /// A step of ISO 2768 allows a blind depth so much more that each hole needs one step only.
    OneStep,
    /// What grew is no more work of the same kind: a larger hole, closer limits, another angle.
    OtherWork,
    /// None that is known.
    Unknown,
}

/// A job and what came of it.
#[derive(Clone, Debug)]
pub struct Priced {
    /// The job.
    pub job: Asked,
    /// What came of it.
    pub outcome: Outcome,
}

/// A price that fell along a chain.
#[derive(Clone, Debug)]
pub struct Fall {
    /// What grew.
    pub grows: Grows,
    /// Before.
    pub before: Priced,
    /// After.
    pub after: Priced,
    /// Why.
    pub reason: Reason,
}

impl Asked {
    /// The job as the calculation is asked it.
    #[must_use]
    pub fn input(&self) -> JobInput {
        JobInput {
            material: Some(self.material),
            machine: Some(self.machine),
            quantity: Some(self.parts),
            part_mm: Some([100.0, 100.0, 50.0]),
            mass_kg: Some(2.0),
            part_value: Some(200.0),
            rows: vec![RowInput {
                count: self.holes,
                limits_mm: Some(self.limits_mm),
                depth_mm: Some(self.depth_mm),
                end: self.end,
                tilt_deg: self.tilt_deg,
                ..RowInput::default()
            }],
            ..JobInput::default()
        }
    }

    /// What comes of it, with all figures.
    #[must_use]
    pub fn figures(&self, tables: &Tables) -> JobFigures {
        quick(&self.input(), tables)
    }
}

impl Outcome {
    /// What came of a job's first row; `None` where there is no price.
    #[must_use]
    pub fn of(figures: &JobFigures) -> Option<Self> {
        let hole = figures.holes.first()?;
        let price = figures.price.as_ref()?;
        let chance = hole.first_choice?;
        Some(Self {
            tube: hole.tube?,
            ends: hole.ends?,
            held: hole.held?,
            chance,
            verdict: hole.verdict?,
            two_steps: hole.depth_plan.is_some_and(|plan| plan.two_steps),
            lot: f64::try_from(price.breaks.first()?.lot).ok()?,
            cost: price.expected_cost,
        })
    }

    /// What tells a tube from another apart from its length.
    fn kind(&self, tables: &Tables) -> Option<(u64, TubeMaterial, u8)> {
        let tube = self.tube.of(&tables.tubes)?;
        Some((tube.outer_mm.to_bits(), tube.material, tube.channels))
    }
}

/// Where the price falls from one job of a chain to the next that has a price.
#[must_use]
pub fn falls(chain: &Chain, outcomes: &[Option<Outcome>], tables: &Tables) -> Vec<Fall> {
    let with_price: Vec<(&Asked, &Outcome)> = (chain.jobs.iter().zip(outcomes))
        .filter_map(|(job, outcome)| Some((job, outcome.as_ref()?)))
        .collect();
    let priced = |job: &Asked, outcome: &Outcome| Priced {
        job: job.clone(),
        outcome: outcome.clone(),
    };
    with_price
        .windows(2)
        .filter_map(|pair| {
            let [(before, was), (after, is)] = pair.try_into().ok()?;
            (is.lot < was.lot * (1.0 - FALL)).then(|| Fall {
                grows: chain.grows,
                before: priced(before, was),
                after: priced(after, is),
                reason: reason(chain.grows, was, is, tables),
            })
        })
        .collect()
}

fn reason(grows: Grows, was: &Outcome, is: &Outcome, tables: &Tables) -> Reason {
    if was.kind(tables) != is.kind(tables) {
        Reason::AnotherTube
    } else if grows == Grows::Depth && was.two_steps && !is.two_steps {
        Reason::OneStep
    } else if grows.is_work() {
        Reason::Unknown
    } else {
        Reason::OtherWork
    }
}

/// A tube that can lie inside the limits, where the chosen one lies wholly outside them; `None` where
/// all is well.
#[must_use]
pub fn better_placed(asked: &Asked, outcome: &Outcome, tables: &Tables) -> Option<Idx<Tube>> {
    let start = &tables.start;
    let Limits { lower, upper } = asked.limits_mm;
    let taper = match asked.end {
        HoleEnd::Blind => 0.0,
        HoleEnd::Through | HoleEnd::Into => start.taper_mm_per_100 * asked.depth_mm / 100.0,
    };
    let meets = |tube: Idx<Tube>| {
        let outer = tube.of(&tables.tubes).map_or(0.0, |tube| tube.outer_mm);
        gap_of(&start.gap_mm, outer, start.deviations.gap()).is_some_and(|gap| {
            outer + 2.0 * gap.p10 < upper && outer + 2.0 * gap.p90 - taper > lower
        })
    };
    let Limits {
        lower: least,
        upper: most,
    } = asked.machine.of(&tables.machines)?.tube_mm;
    let driven = |tube: &Idx<Tube>| {
        let outer = tube.of(&tables.tubes).map_or(0.0, |tube| tube.outer_mm);
        outer >= least && outer <= most
    };
    let mut others = Idx::all(&tables.tubes).filter(driven);
    if meets(outcome.tube) {
        None
    } else {
        others.find(|tube| meets(*tube))
    }
}

const DEPTHS_MM: [f64; 20] = [
    1.0, 2.0, 3.0, 5.0, 6.5, 8.0, 12.0, 18.0, 25.0, 31.0, 40.0, 55.0, 75.0, 100.0, 125.0, 150.0,
    185.0, 240.0, 320.0, 420.0,
];
const COUNTS: [u32; 14] = [1, 2, 3, 5, 8, 13, 21, 28, 29, 50, 100, 250, 1000, 4000];
const ENDS: [HoleEnd; 3] = [HoleEnd::Through, HoleEnd::Into, HoleEnd::Blind];

/// Ten thousand jobs in chains, for these machines and materials.
#[must_use]
pub fn chains(machines: &[Idx<Machine>], materials: &[Idx<Material>]) -> Vec<Chain> {
    let mut chains = Vec::new();
    for &machine in machines {
        for (at, &material) in materials.iter().enumerate() {
            let first = at == 0;
            let base = |limits_mm: Limits, depth_mm: f64| Asked {
                machine,
                material,
                limits_mm,
                depth_mm,
                end: HoleEnd::Through,
                tilt_deg: 0.0,
                holes: 4,
                parts: 10,
            };
            let mut chain = |grows, jobs| chains.push(Chain { grows, jobs });
            for [lower, upper] in [
                [0.35, 0.45],
                [0.45, 0.6],
                [0.75, 0.85],
                [0.95, 1.05],
                [1.95, 2.05],
                [2.9, 3.1],
            ] {
                let base = base(Limits::new(lower, upper), 10.0);
                for end in ENDS {
                    for (holes, parts) in [(4, 1), (10, 20)] {
                        let with = |depth_mm| Asked {
                            depth_mm,
                            end,
                            holes,
                            parts,
                            ..base.clone()
                        };
                        chain(Grows::Depth, DEPTHS_MM.map(with).to_vec());
                    }
                }
            }
            for (limits, depth) in [
                (Limits::new(0.35, 0.45), 5.0),
                (Limits::new(0.95, 1.05), 30.0),
                (Limits::new(1.4, 1.6), 90.0),
                (Limits::new(0.95, 1.05), 240.0),
            ] {
                for end in [HoleEnd::Through, HoleEnd::Blind] {
                    let base = Asked {
                        end,
                        holes: 3,
                        parts: 3,
                        ..base(limits, depth)
                    };
                    chain(
                        Grows::Holes,
                        COUNTS
                            .map(|holes| Asked {
                                holes,
                                ..base.clone()
                            })
                            .to_vec(),
                    );
                    chain(
                        Grows::Parts,
                        COUNTS
                            .map(|parts| Asked {
                                parts,
                                ..base.clone()
                            })
                            .to_vec(),
                    );
                }
            }
            for middle in [0.4, 0.8, 1.0, 2.0, 3.0] {
                for (depth, parts) in [(5.0, 2), (30.0, 50)] {
                    let closer = |width: f64| Asked {
                        parts,
                        ..base(
                            Limits::new(middle - width / 2.0, middle + width / 2.0),
                            depth,
                        )
                    };
                    let widths = [0.3, 0.2, 0.16, 0.12, 0.1, 0.08, 0.06, 0.05, 0.03, 0.02];
                    chain(Grows::Tolerance, widths.map(closer).to_vec());
                }
            }
            for depth in [2.0, 12.0, 45.0] {
                let wider = |step: u32| {
                    let middle = 0.2 + f64::from(step) * 0.1;
                    base(Limits::new(middle - 0.05, middle + 0.05), depth)
                };
                chain(Grows::Diameter, (0..30).map(wider).collect());
            }
            // A blind depth over 6 mm may be off by 0.2 mm instead of 0.1 mm (ISO 2768-1, medium).
            let many = Asked {
                end: HoleEnd::Blind,
                holes: 45,
                parts: 299,
                ..base(Limits::new(2.77, 3.17), 6.0)
            };
            let deeper = |depth_mm| Asked {
                depth_mm,
                ..many.clone()
            };
            chain(Grows::Depth, [6.0, 6.05].map(deeper).to_vec());
            if first {
                for limits in [
                    Limits::new(0.35, 0.45),
                    Limits::new(0.95, 1.05),
                    Limits::new(1.9, 2.1),
                ] {
                    for depth in [2.0, 12.0, 60.0] {
                        let leans = |tilt_deg| Asked {
                            tilt_deg,
                            ..base(limits, depth)
                        };
                        let tilts = [0.0, 5.0, 15.0, 25.0, 35.0, 45.0, 55.0, 65.0];
                        chain(Grows::Angle, tilts.map(leans).to_vec());
                    }
                }
            }
        }
    }
    chains
}
