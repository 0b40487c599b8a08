//! The machine that a quick price is said for: the cheapest of those that can do it.

use quillbore_calc::finding::{Finding, Kind, Level};
use quillbore_calc::head::put_clearances;
use quillbore_calc::tables::{Machine, Material};
use quillbore_calc::{Idx, JobFigures, JobInput, Tables, assemble};

/// A job tried on one machine, once for each material that may be meant.
pub(super) struct Tried {
    /// The machine; none where the shop has none.
    pub(super) machine: Option<Idx<Machine>>,
    /// The figures, material by material.
    pub(super) figures: Vec<JobFigures>,
}

impl Tried {
    /// The job on its own machine where it has one, else on that of the shop's which does it with the
    /// fewest stops, and of these for the least expected cost; of equals the first.
    pub(super) fn best(input: &JobInput, materials: &[Idx<Material>], tables: &Tables) -> Self {
        let on = |machine: Option<Idx<Machine>>| {
            let of = |material: &Idx<Material>| {
                let mut input = JobInput {
                    machine,
                    material: Some(*material),
                    ..input.clone()
                };
                put_clearances(&mut input, tables);
                assemble::quick(&input, tables)
            };
            let figures = materials.iter().map(of).collect();
            Self { machine, figures }
        };
        let shops = Idx::all(&tables.machines).filter(|_| input.machine.is_none());
        let mut best: Option<Self> = None;
        for machine in input.machine.into_iter().chain(shops) {
            let tried = on(Some(machine));
            if best.as_ref().is_none_or(|best| tried.beats(best)) {
                best = Some(tried);
            }
        }
        best.unwrap_or_else(|| on(None))
    }

    /// What was found, material by material.
    pub(super) fn found(&self) -> impl Iterator<Item = &Finding> {
        self.figures.iter().flat_map(|figures| {
            let rows = figures.holes.iter().flat_map(|hole| &hole.findings);
            figures.findings.iter().chain(rows)
        })
    }

    /// What was found of one level, each once.
    pub(super) fn kinds(&self, level: Level) -> Vec<Kind> {
        let mut kinds: Vec<Kind> = Vec::new();
        for finding in self.found().filter(|finding| finding.level == level) {
            if !kinds.contains(&finding.kind) {
                kinds.push(finding.kind.clone());
            }
        }
        kinds
    }

    fn beats(&self, other: &Self) -> bool {
        let of = |tried: &Self| (tried.kinds(Level::Stop).len(), tried.cost());
        let ((stops, cost), (other_stops, other_cost)) = (of(self), of(other));
        stops < other_stops || stops == other_stops && cost < other_cost
    }

    /// Expected cost of the lot, of all materials together [currency].
    fn cost(&self) -> f64 {
        let costs = self.figures.iter().map(|figures| {
            let price = figures.price.as_ref();
            price.map_or(f64::INFINITY, |price| price.expected_cost)
        });
        costs.sum()
    }
}
