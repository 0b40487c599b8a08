//! What is written at the plan.

/// The heads of the electrodes for the lot.
pub const ELECTRODE_HEADS: [&str; 5] = [
    "electrodes for the lot",
    "needed",
    "at least",
    "kit with spares",
    "in table order",
];

/// What stands for the name of a tube that the shop doesn't have.
pub const NO_TUBE: &str = "?";

/// How many clampings there are.
#[must_use]
pub fn clampings(count: usize) -> String {
    if count == 1 {
        "1 clamping".to_owned()
    } else {
        format!("{count} clampings")
    }
}

/// What is done in a clamping, counted from 1.
#[must_use]
pub fn clamping(number: usize, setup: &quillbore_calc::job_figures::SetupFigures) -> String {
    let directions = match setup.directions {
        1 => "one direction".to_owned(),
        directions => format!("{directions} directions"),
    };
    let mut says = format!("{number}: {} holes in {directions}", setup.holes);
    for (count, what) in [(setup.index_moves, "index moves"), (setup.tilts, "tilts")] {
        if count > 0 {
            says.push_str(&format!(", {count} {what}"));
        }
    }
    if setup.turned_over {
        says.push_str(", turned over");
    }
    says
}

/// The section of a hole, by its name and its angle.
#[must_use]
pub fn section(hole: &str, tilt: &str) -> String {
    format!("{hole}, {tilt}\u{b0} from the normal")
}
