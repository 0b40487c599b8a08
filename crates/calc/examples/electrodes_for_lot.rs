//! Reads a lot as JSON on standard input and prints which holes share an electrode.
//!
//! Form: `usable_length`, optional `part_used`, and `holes`, each with `id`, `reach` and `consume`,
//! optional `count`; any one unit of length. Prints one electrode a line, hole ids in drilling
//! order, then `needed N at_least M`.

use std::io::{Read, Write};
use std::process::ExitCode;

use quillbore_calc::packing::{
    Effort, Electrode, HoleKind, Plan, WhyUnplaceable, electrodes_for_lot,
};
use serde::Deserialize;

#[derive(Deserialize)]
struct Instance {
    usable_length: f64,
    #[serde(default)]
    part_used: Option<f64>,
    holes: Vec<Hole>,
}

#[derive(Deserialize)]
struct Hole {
    id: u32,
    reach: f64,
    consume: f64,
    #[serde(default = "one")]
    count: u32,
}

fn one() -> u32 {
    1
}

fn main() -> ExitCode {
    let mut text = String::new();
    let lines = match std::io::stdin().read_to_string(&mut text) {
        Ok(_) => plan(&text),
        Err(why) => Err(format!("Standard input can't be read as text: {why}.")),
    };
    // A reader that went away early is no fault of the lot.
    match lines {
        Ok(lines) => std::io::stdout()
            .write_all(lines.as_bytes())
            .map_or(ExitCode::from(2), |()| ExitCode::SUCCESS),
        Err(sentence) => {
            eprintln!("{sentence}");
            ExitCode::from(2)
        }
    }
}

fn plan(text: &str) -> Result<String, String> {
    let instance: Instance = serde_json::from_str(text).map_err(|why| {
        format!("Standard input is no lot of holes: {why}; give usable_length and holes with id, reach and consume.")
    })?;
    let kinds: Vec<HoleKind> = instance
        .holes
        .iter()
        .map(|hole| HoleKind {
            id: hole.id,
            reach_mm: hole.reach,
            consume_mm: hole.consume,
            count: hole.count,
        })
        .collect();
    let electrode = Electrode {
        usable_mm: instance.usable_length,
        part_used_mm: instance.part_used,
    };
    let plan = electrodes_for_lot(&kinds, &electrode, &Effort::default());
    if let Some(out) = plan.unplaceable.first() {
        return Err(match out.why {
            WhyUnplaceable::NotALength => format!(
                "Hole {}: reach, consume or usable_length is negative or no number; correct it.",
                out.id
            ),
            WhyUnplaceable::LongerThanElectrode => format!(
                "Hole {}: reach and consume together are longer than usable_length; drill it in stages.",
                out.id
            ),
        });
    }
    Ok(told(&plan))
}

fn told(plan: &Plan) -> String {
    let mut lines = String::new();
    for fill in &plan.electrodes {
        let ids = fill
            .holes
            .iter()
            .flat_map(|&(id, number)| std::iter::repeat_n(id.to_string(), number as usize));
        let line = ids.collect::<Vec<_>>().join(" ") + "\n";
        for _ in 0..fill.times {
            lines += &line;
        }
    }
    lines + &format!("needed {} at_least {}\n", plan.needed, plan.at_least)
}
