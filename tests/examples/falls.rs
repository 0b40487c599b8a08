//! Prints where a price falls along the sweep though the job grew, with the reason:
//! `cargo run -p quillbore-tests --example falls`.

use quillbore_calc::job_figures::Chance;
use quillbore_calc::tables::{Machine, Material, Tables};
use quillbore_calc::{Idx, Limits};
use quillbore_job::Shop;
use quillbore_job::shop::ShopError;
use quillbore_tests::sweep::{Asked, Fall, Outcome, chains, falls};

fn main() -> Result<(), ShopError> {
    let tables = &Shop::embedded()?.tables;
    let named = |name: &str| Idx::find(&tables.materials, |row| row.name == name);
    let machines: Vec<Idx<Machine>> = Idx::all(&tables.machines).collect();
    let materials: Vec<Idx<Material>> = ["Tool steel D2", "Nickel alloy 718", "Aluminum 6061"]
        .into_iter()
        .filter_map(named)
        .collect();
    let (mut jobs, mut priced, mut fell) = (0, 0, Vec::new());
    for chain in chains(&machines, &materials) {
        let of = |job: &Asked| Outcome::of(&job.figures(tables));
        let outcomes: Vec<Option<Outcome>> = chain.jobs.iter().map(of).collect();
        jobs += outcomes.len();
        priced += outcomes.iter().flatten().count();
        fell.extend(falls(&chain, &outcomes, tables));
    }
    println!(
        "{jobs} jobs, {priced} with a price, {} falls by more than 0.5 %",
        fell.len()
    );
    fell.sort_by_key(|fall| fall.reason);
    for fall in &fell {
        print(fall, tables);
    }
    Ok(())
}

fn print(fall: &Fall, tables: &Tables) {
    let (before, was) = (&fall.before.job, &fall.before.outcome);
    let (after, is) = (&fall.after.job, &fall.after.outcome);
    let machine = before
        .machine
        .of(&tables.machines)
        .map_or("", |row| &row.name);
    let material = before
        .material
        .of(&tables.materials)
        .map_or("", |row| &row.name);
    let percent = 100.0 * (is.lot / was.lot - 1.0);
    println!(
        "\n{:?}: {:.2} -> {:.2} ({percent:.1} %), {:?}, {material} on {machine}, {:?}",
        fall.grows, was.lot, is.lot, fall.reason, before.end,
    );
    for (job, outcome) in [(before, was), (after, is)] {
        let Limits { lower, upper } = job.limits_mm;
        let tube = outcome.tube.of(&tables.tubes).map_or("", |row| &row.name);
        let Chance { inside, over } = outcome.chance;
        println!(
            "  {lower:.3}-{upper:.3} x {} mm, {} deg, {} x {}: {tube}, {:?} end, {:?} {:.3}, right at once {inside:.2}, oversize {over:.2}{}",
            job.depth_mm,
            job.tilt_deg,
            job.parts,
            job.holes,
            outcome.ends,
            outcome.verdict,
            outcome.held,
            if outcome.two_steps {
                ", in two steps"
            } else {
                ""
            },
        );
    }
}
