//! What is written at the plan.

/// The heads of the electrodes for the lot.
pub const ELECTRODE_HEADS: [&str; 5] = [
    "electrodes for the lot",
    "needed",
    "no fewer than",
    "kit with spares",
    "in any order",
];

/// What stands for the name of a tube that the shop doesn't have.
pub const NO_TUBE: &str = "?";

/// How many setups there are.
#[must_use]
pub fn setups(count: usize) -> String {
    if count == 1 {
        "1 setup".to_owned()
    } else {
        format!("{count} setups")
    }
}

/// Opens what the job comes to on each machine of the shop.
pub const COMPARE: &str = "compare machines";

/// What is done in a setup, counted from 1.
#[must_use]
pub fn setup(number: usize, setup: &quillbore_calc::job_figures::SetupFigures) -> String {
    let directions = match setup.directions {
        1 => "one direction".to_owned(),
        directions => format!("{directions} directions"),
    };
    let holes = match setup.holes {
        1 => "1 hole".to_owned(),
        holes => format!("{holes} holes"),
    };
    let mut says = format!("{number}: {holes} in {directions}");
    for (count, what) in [(setup.index_moves, "index move"), (setup.tilts, "tilt")] {
        match count {
            0 => {}
            1 => says.push_str(&format!(", 1 {what}")),
            count => says.push_str(&format!(", {count} {what}s")),
        }
    }
    if setup.turned_over {
        says.push_str(", turned over");
    }
    says
}

/// What leads the line of what holds the part.
pub const HELD: &str = "against the flush";
/// Nothing is known of what holds the part.
pub const NOT_HELD: &str = "flush: not known";

/// What must hold the part in a setup, counted from 1; none where its weight does.
#[must_use]
pub fn held(number: usize, clamp: Option<&str>) -> String {
    match clamp {
        Some(clamp) => format!("{number}: clamp {clamp}"),
        None => format!("{number}: its weight holds it"),
    }
}

/// The section of a hole, by its name and its angle, and what the flush does in it.
#[must_use]
pub fn section(hole: &str, tilt: &str, flush: Option<[&str; 2]>) -> String {
    let flush = flush.map_or_else(String::new, |[flow, push]| {
        format!("; flush {flow}, pushes {push}")
    });
    format!("{hole}, {tilt}\u{b0} from the normal{flush}")
}

/// What stands under the electrodes of the lot where they are drawn.
#[must_use]
pub fn electrodes_drawn(all: usize, drawn: usize) -> String {
    if drawn == all {
        "electrodes of the lot, by what they drill".to_owned()
    } else {
        format!("electrodes of the lot: {drawn} of {all} kinds of load")
    }
}

/// What stands under the spread of hours and cost.
pub const SPREAD_DRAWN: &str = "hatched: low to high; thick line: likely";
