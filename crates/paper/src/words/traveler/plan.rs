//! Words of machine, setup, first piece and what comes after.

use quillbore_calc::job_figures::SetupFigures;
use quillbore_job::Form;

use crate::words::kinds::Kinds;
use crate::words::phrases::count;

/// Setup check.
pub const SETUP_CHECK: &str =
    "Set up, picked up, zeroed as above; flush and ground proved (who sets up).";
/// The same of one setup of several.
pub fn setup_check(number: usize) -> String {
    format!("Setup {number}: zeroed; flush and ground proved (who sets up).")
}
/// The same where the first piece went through other setups before the lot.
pub fn setup_check_again(number: usize) -> String {
    format!("Setup {number} again, for the lot: zeroed (who sets up).")
}
/// First piece check of one setup of several.
pub fn first_check(number: usize) -> String {
    format!("Setup {number}: first piece measured and approved by who inspects.")
}
/// Where a spare part is there for trials.
pub const ON_SPARE: &str =
    "Before that, try on the spare part: a hole or two of every mark. It is not the first piece.";
/// First piece check.
pub const FIRST_CHECK: &str =
    "First piece measured and approved by who inspects, not by who drilled it; the lot may go on.";
/// Who signs the lines of several setups.
pub const FIRST_CHECKS: &str =
    "Approved by who inspects, not by who drilled it; only then the other parts of that setup.";
/// Name beside the machine.
pub const MACHINE: &str = "Machine";
/// Caption of the machine.
pub const MACHINES_NAME: &str = "machine";
/// Caption of the fixture.
pub const FIXTURE: &str = "fixture and where it is kept";
/// Caption of the program.
pub const PROGRAM: &str = "program";
/// Lead of the part's axis that the index turns.
pub const INDEX_ABOUT: &str = "Index axis turns the part about: ";
/// Lead of the settings.
pub const SETTINGS: &str = "Settings: ";
/// Caption of settings that are not on record yet.
pub const SETTINGS_BLANK: &str = "settings of generator and flush: write down those that are used";
/// Name beside the setup.
pub const SETUP: &str = "Setup";
/// Caption of a setup that is not on record yet.
pub const HELD: &str = "how it is held and zeroed: write it down before the first hole";
/// Where the zero of each setup is, and on which parts it is picked up.
pub const ZERO: &str = "Zero: where the map of each setup has it, also where that is another side than in the setup before; picked up \
     on every part, unless a proved stop holds them all alike.";
/// Lead of faces that must not be clamped.
pub const NOT_TO_CLAMP: &str = "Do not clamp on: ";
/// Lead of the backing.
pub const BACKING: &str = "Backing behind the exits: ";
/// Name beside the first piece.
pub const FIRST_PIECE: &str = "First piece";
/// Name beside what comes after.
pub const AFTER: &str = "After";

/// Nothing was typed about the first piece; a hold point may say how it is measured.
pub fn first_plain(kinds: Kinds, by_hold: bool) -> String {
    let measured = match (kinds.open, kinds.blind) {
        _ if !kinds.some_by_pin => "prove it open as its row of the hole table says",
        (false, true) => "measure its size and its depth",
        (_, false) => "measure entry and exit with pins",
        (true, true) => {
            "of open holes measure entry and exit with pins, of blind holes size and depth"
        }
    };
    let to_the_end = if by_hold {
        "measure it as the hold point on page 1 says, where it says how, else all of it"
    } else {
        "measure all of it"
    };
    let measured = if kinds.some_by_pin {
        format!("{measured}, as far as a pin comes to the exit")
    } else {
        measured.to_owned()
    };
    format!(
        "Drill the first hole of every mark, {measured}; correct setting or electrode, \
         then drill the first piece to the end and {to_the_end}."
    )
}

/// Caption of a backing that nobody described.
pub const BACKING_BLANK: &str = "backing behind the exits: what it is, where it is put";
/// Backing is in.
pub const BACKING_IN: &str = "Backing is in behind every exit that has it, in each part before its first hole (who sets up).";
/// Backing is out.
pub const BACKING_OUT: &str =
    "Backing is out of every exit of every part, none is left (who cleans).";
/// Exits are backed.
pub const UNBACK: &str = "Take the backing out of every exit and show that none is left.";

/// Nothing was typed about what follows.
pub fn after_plain(kinds: Kinds) -> &'static str {
    match (kinds.open, kinds.blind) {
        _ if kinds.proved => {
            "Flush open holes through from both sides, prove each open as its row of the hole table \
             says, else with wire, pin or light; see that no core is left in blind ones; wash, dry, \
             count, protect against rust, pack as received."
        }
        (false, true) => {
            "Flush every hole out until it runs clear, see that no core and no sludge is left at the \
             bottom, wash, dry, count, protect against rust, pack as received."
        }
        (_, false) => {
            "Flush every hole through from both sides, prove it open with wire, pin or light, wash, \
             dry, count, protect against rust, pack as received."
        }
        (true, true) => {
            "Flush open holes through from both sides and prove them open with wire, pin or light; \
             flush blind holes out until they run clear and see that no core is left in them; wash, \
             dry, count, protect against rust, pack as received."
        }
    }
}

/// How the part is mounted, behind a setup.
pub fn mounted(mount: &str) -> String {
    format!(" Mounted: {mount}.")
}

/// One setup in a sentence.
pub fn setup(
    form: Form,
    setup: &SetupFigures,
    marks: &str,
    (per_part, is_swung): (bool, bool),
) -> String {
    let count = |number, one, several| count(form, number, one, several);
    let each = if per_part { " per part" } else { "" };
    let mut text = if is_swung {
        "part swung round, the same face up; ".to_owned()
    } else if setup.turned_over {
        "part turned over; ".to_owned()
    } else {
        String::new()
    };
    text += &format!(
        "{} of {} in {}",
        count(setup.holes, "hole", "holes"),
        marks,
        count(setup.directions, "direction", "directions"),
    );
    if setup.index_moves > 0 {
        text += &format!(
            "; {} per part",
            count(setup.index_moves, "index move", "index moves")
        );
    }
    if setup.tilts > 0 {
        let tilts = count(setup.tilts, "tilt", "tilts");
        text += &format!("; {tilts} of head or table{each}");
    }
    if setup.guide_changes > 0 {
        let changes = count(setup.guide_changes, "guide change", "guide changes");
        text += &format!("; {changes}{each}");
    }
    text + "."
}
