//! Words of mountings, axes and directions.

use quillbore_calc::direction::{across, quarter};
use quillbore_calc::mount::Mount;
use quillbore_calc::tables::Tilts;
use quillbore_job::Form;
use quillbore_job::form::one_by_one;

use super::phrases::{self, count};

/// Heads of the annex of hole locations: the location on the part, then where the machine's axes
/// stand for it.
pub const HEADS: [&str; 11] = [
    "No.",
    "x",
    "y",
    "z",
    "from down",
    "turn",
    "setup",
    "table x",
    "table y",
    "tilt",
    "index",
];
/// Columns of the part's x and y and of the table's.
pub const SAME: [usize; 4] = [1, 2, 7, 8];
/// The table's x and y are the part's.
pub const AS_ON_PART: &str = ", table\u{a0}x and y as\u{a0}x and\u{a0}y";
/// Name of the annex.
pub const ANNEX: &str = "Annex: hole locations";
/// What the columns mean; what the table's x and y are of where the electrode leans.
pub fn legend(leaning: Option<&str>) -> String {
    let leaning = leaning.map_or_else(String::new, |leaning| format!("{leaning} "));
    format!(
        "No., x, y, z: on the drawing, in the part's own coordinates. From down: the angle between the \
         electrode's way in and straight down (\u{2212}z); 90 is level, 180 straight up, from below. Turn: of \
         that way about z, from +x toward +y. Setup, table x, table y, tilt, index: positions of the \
         machine's axes, table x and y from the part's zero. {leaning}Pick up and prove the first hole of \
         every setup before the rest."
    )
}

/// What the table's x and y of tilted holes are.
pub const fn leaning(tilts: Option<Tilts>) -> &'static str {
    match tilts {
        Some(Tilts::Table) => {
            "The table tilts: table x and y are those of the tilted part under the upright electrode; pick the part's zero up as it stands tilted."
        }
        Some(Tilts::Head) => {
            "The head tilts: table x and y are those of the entry on the part as it is clamped; a tilted \
             electrode's end stands elsewhere than the upright one's, so at every tilt bring the tilted end to a place \
             of known x, y and z (a datum edge, or an entry that is marked out) and count from there."
        }
        None => {
            "Whether head or table tilts does not stand in the shop's sheet: tilted holes have no table x and y. \
             At every tilt bring the electrode's end to a place of known x, y and z (a datum edge, or an entry that is \
             marked out) and count from there."
        }
    }
}

/// What the grid of a row is about.
pub fn from_exit(far: bool) -> &'static str {
    if far { "   from the exit" } else { "" }
}

/// Marks that are drilled one after the other at each number.
pub fn in_turn(marks: &str, first: u32, last: u32) -> String {
    format!("{marks} in turn of each number, {}", range(first, last))
}

/// Numbers that run on.
pub fn range(first: u32, last: u32) -> String {
    format!("{first}\u{a0}to\u{a0}{last}")
}

/// How the part is mounted, in words; how it tilts only where it does.
pub fn mount(form: Form, mount: &Mount, tilts: bool) -> String {
    let named = |vector| named(form, vector);
    let index = |axis| index(form, axis);
    let toward = |vector: [f64; 3]| {
        if tilts {
            format!(
                "; tilt: at plus the electrode leans toward the part's {}",
                named(vector)
            )
        } else {
            String::new()
        }
    };
    match mount {
        Mount::Face { up, toward: x } => format!(
            "the part's {} up, its {} along table x{}",
            named(*up),
            named(*x),
            toward(*x)
        ),
        Mount::Upright(axis) => format!(
            "index axis vertical, the part's {} up; {}{}",
            named(*axis),
            index(*axis),
            if tilts {
                "; tilt: the electrode leans toward that side"
            } else {
                ""
            }
        ),
        Mount::Lying(axis) => format!(
            "index axis horizontal, the part's {} along table x; {}{}",
            named(*axis),
            index(*axis),
            toward(*axis)
        ),
        Mount::Inclined { about, up } => format!(
            "clamped at an angle by the fixture, {} up{}",
            named(*up),
            about.map_or_else(String::new, |axis| format!("; {}", index(axis)))
        ),
    }
}

/// From where the index counts.
fn index(form: Form, axis: [f64; 3]) -> String {
    format!(
        "index: the part's side that faces the electrode, 0 at {}, counted toward {}",
        named(form, across(axis)),
        named(form, quarter(axis))
    )
}

/// A direction of the part: an axis by its name, all others by their components.
fn named(form: Form, vector: [f64; 3]) -> String {
    for (part, name) in vector.iter().zip(["x", "y", "z"]) {
        if (part.abs() - 1.0).abs() < 1e-6 {
            let sign = if *part > 0.0 { "+" } else { "\u{2212}" };
            return format!("{sign}{name}");
        }
    }
    let told = vector.map(|part| form.fixed(part, 3));
    format!("direction ({})", one_by_one(&told))
}

/// The drilling order of a setup.
pub fn order(setup: usize, mount: &str, order: &str) -> [String; 3] {
    [
        phrases::setup(setup),
        format!("{mount}. "),
        format!("Drill in this order: {order}."),
    ]
}

/// Rows of a setup whose locations are not given.
pub fn unplaced(marks: &str) -> String {
    format!("{marks} (locations from the drawing)")
}

/// What the locations are told in.
pub fn annex_remark(unit: &str) -> String {
    format!("{unit} and degrees")
}

/// So many locations.
pub fn locations(form: Form, number: u32) -> String {
    count(form, number, "location", "locations")
}

/// The name of a row's locations.
pub fn block(mark: &str, size: &str, count: &str, from_exit: &str) -> String {
    format!("Mark {mark}:   {size},   {count}{from_exit}")
}

/// What a page goes on with: the row, and what its locations share.
pub fn goes_on(mark: &str, alike: &str) -> String {
    format!("{mark}, continued{alike}")
}

/// What all locations of a row share.
pub fn all_at(shared: &str) -> String {
    format!("   all at {shared}")
}
