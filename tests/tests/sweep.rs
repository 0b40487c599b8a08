//! Ten thousand jobs: a price never falls because a job grew, no tube lies wholly outside the limits
//! where another does not, chances are chances, and inches cost what millimeters cost.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use chrono::NaiveDate;
use quillbore_calc::assemble::figures_now;
use quillbore_calc::input::HoleEnd;
use quillbore_calc::job_figures::Chance;
use quillbore_calc::tables::{Machine, Material, Tables};
use quillbore_calc::{Idx, Limits};
use quillbore_job::results::results_quick;
use quillbore_job::{Field, Job, Shop, Unit};
use quillbore_tests::sweep::{Asked, Chain, Grows, Outcome, Reason, better_placed, chains, falls};
use quillbore_tests::{set_field, set_holes};

fn tables() -> Tables {
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
    Shop::embedded().unwrap().tables_on(day)
}

fn machine(tables: &Tables, name: &str) -> Idx<Machine> {
    Idx::find(&tables.machines, |machine| machine.name == name).unwrap()
}

fn material(tables: &Tables, name: &str) -> Idx<Material> {
    Idx::find(&tables.materials, |material| material.name == name).unwrap()
}

fn outcomes(chain: &Chain, tables: &Tables) -> Vec<Option<Outcome>> {
    let of = |job: &Asked| Outcome::of(&job.figures(tables));
    chain.jobs.iter().map(of).collect()
}

#[test]
fn ten_thousand_jobs() {
    let tables = tables();
    let machines = ["Barrow", "Steeple", "Wren"].map(|name| machine(&tables, name));
    let materials =
        ["Tool steel D2", "Nickel alloy 718", "Aluminum 6061"].map(|name| material(&tables, name));
    let chains = chains(&machines, &materials);
    let jobs: usize = chains.iter().map(|chain| chain.jobs.len()).sum();
    assert!(jobs >= 10_000, "{jobs} jobs");
    let (mut priced, mut fell) = (0, Vec::new());
    for chain in &chains {
        let outcomes = outcomes(chain, &tables);
        for (job, outcome) in chain.jobs.iter().zip(&outcomes) {
            let Some(outcome) = outcome else { continue };
            priced += 1;
            let Chance { inside, over } = outcome.chance;
            let chances = [outcome.held, inside, over, inside + over];
            let whole = 0.0..=1.0 + 1e-9;
            assert!(
                chances.iter().all(|chance| whole.contains(chance)),
                "{job:?} {outcome:?}"
            );
            assert!(
                outcome.cost.is_finite() && outcome.cost > 0.0,
                "{job:?} {outcome:?}"
            );
            let better =
                better_placed(job, outcome, &tables).map(|tube| &tables.tubes[tube.at()].name);
            assert_eq!(
                better,
                None,
                "{job:?} {}",
                tables.tubes[outcome.tube.at()].name
            );
        }
        fell.extend(falls(chain, &outcomes, &tables));
    }
    assert!(priced > jobs * 3 / 4, "{priced} of {jobs} have a price");
    let told = |reason: Reason| -> Vec<String> {
        let fell = fell.iter().filter(|fall| fall.reason == reason);
        fell.map(|fall| format!("{fall:?}")).collect()
    };
    let unknown = told(Reason::Unknown);
    assert!(unknown.is_empty(), "{}", unknown.join("\n"));
    // Both known reasons are met, so that neither hides behind the other.
    assert!(!told(Reason::AnotherTube).is_empty() && !told(Reason::OneStep).is_empty());
    // More holes and more parts never cost less, whatever the tube.
    let more = fell
        .iter()
        .filter(|fall| matches!(fall.grows, Grows::Holes | Grows::Parts));
    assert_eq!(more.count(), 0);
}

/// The verdict goes by how many holes of the lot will be outside, the price by each hole alone: once
/// one part more raised the price of each by 65 %.
#[test]
fn more_parts_never_cost_more_each() {
    let tables = tables();
    for name in ["Barrow", "Steeple", "Wren"] {
        for limits_mm in [Limits::new(0.95, 1.05), Limits::new(1.126, 1.206)] {
            let of = |parts| Asked {
                machine: machine(&tables, name),
                material: material(&tables, "Tool steel D2"),
                limits_mm,
                depth_mm: 12.0,
                end: HoleEnd::Through,
                tilt_deg: 0.0,
                holes: 4,
                parts,
            };
            let each = |parts: u32| {
                let outcome = Outcome::of(&of(parts).figures(&tables)).unwrap();
                outcome.lot / f64::from(parts)
            };
            let each: Vec<f64> = (1..=60).map(each).collect();
            for (parts, pair) in (1..).zip(each.windows(2)) {
                assert!(pair[1] <= pair[0] * 1.005, "{name} {parts}: {pair:?}");
            }
        }
    }
}

/// 347 mm once cost twice as much as 366 mm: the shortest length that reached one hole was taken, and
/// the fewest ends, whatever the lot cost.
#[test]
fn fifty_deep_holes_never_cost_less_by_being_deeper() {
    let tables = tables();
    for end in [HoleEnd::Through, HoleEnd::Into] {
        let of = |depth_mm: u32| Asked {
            machine: machine(&tables, "Steeple"),
            material: material(&tables, "Tool steel D2"),
            limits_mm: Limits::new(0.95, 1.15),
            depth_mm: f64::from(depth_mm),
            end,
            tilt_deg: 0.0,
            holes: 50,
            parts: 1,
        };
        // Beyond 200 diameters from one end there is no feed and so no price.
        let depths = if end == HoleEnd::Into {
            160..=190
        } else {
            340..=370
        };
        let jobs: Vec<Asked> = depths.map(of).collect();
        let cost = |job: &Asked| {
            let figures = figures_now(&job.input(), &tables);
            let outcome = Outcome::of(&figures).unwrap();
            (outcome.tube, outcome.lot)
        };
        let costs: Vec<_> = jobs.iter().map(cost).collect();
        for (pair, job) in costs.windows(2).zip(&jobs) {
            assert!(
                pair[1].1 >= pair[0].1 * 0.995,
                "{} mm: {pair:?}",
                job.depth_mm
            );
        }
    }
}

#[test]
fn inches_cost_what_millimeters_cost() {
    let shop = Shop::embedded().unwrap();
    let mut compared = 0;
    for thousandths in [16_u32, 24, 31, 40, 63, 79] {
        for depth in [50_u32, 250, 550, 1500, 4000] {
            for end in ["through", "blind"] {
                for count in [1, 12] {
                    let typed = |unit: Unit| {
                        // A thousandth of an inch is 0.0254 mm, so both are typed without rounding.
                        let length = |thousandths: u32| match unit {
                            Unit::Inch => {
                                format!("{}.{:03}", thousandths / 1000, thousandths % 1000)
                            }
                            Unit::Mm => {
                                let parts = thousandths * 254;
                                format!("{}.{:04}", parts / 10_000, parts % 10_000)
                            }
                        };
                        let size = format!("{} +-{}", length(thousandths), length(2));
                        let row = format!("A | {count} | {size} | {} | {end}", length(depth));
                        let mut job = set_holes(&Job::default(), unit, &row).unwrap();
                        for (field, text) in [
                            (Field::Material, "Stainless 304"),
                            (Field::Machine, "Barrow"),
                            (Field::Quantity, "7"),
                        ] {
                            job = set_field(&job, field, text).unwrap();
                        }
                        results_quick(&job, shop)
                    };
                    let [mm, inch] = [Unit::Mm, Unit::Inch].map(typed);
                    let price = |figures: &quillbore_job::results::Results| {
                        figures
                            .figures
                            .price
                            .as_ref()
                            .map(|price| price.breaks[0].lot)
                    };
                    assert_eq!(
                        price(&mm),
                        price(&inch),
                        "{thousandths} {depth} {end} {count}"
                    );
                    assert_eq!(mm.figures.holes[0].tube, inch.figures.holes[0].tube);
                    compared += usize::from(price(&mm).is_some());
                }
            }
        }
    }
    assert!(compared > 60, "only {compared} have a price");
}
