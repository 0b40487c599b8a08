//! Words of what is fetched.

/// Nothing is worked out yet.
pub const NO_KIT: &str = "Electrodes and guides are not worked out yet: ask the office.";
/// Head of the electrodes that the kit carries beside those that were chosen.
pub const NEIGHBORS: &str = "For the first piece, if its size is off";
/// What holds for those.
pub const NEIGHBORS_NOTE: &str = "With one of these the settings above do not hold: begin as with a first try, measure, ask the office.";
/// Name beside the kit.
pub const NAME: &str = "Kit";
/// Head of how many are taken.
pub const TAKE: &str = "Take";
/// Head of the rows that a tube is for.
pub const FOR: &str = "for";
/// Head of the guide.
pub const GUIDE: &str = "Guide";
/// No guide fits.
pub const NO_GUIDE: &str = "none in the shop";
/// Head of the rows that pins are for.
pub const PINS: &str = "Pins for";

/// Why so many electrodes are taken: by plan, how many more if wear is high, spare.
pub fn kit(by_plan: u32, if_wear_high: u32, spare: u32) -> String {
    let mut said = vec![format!("{by_plan}\u{a0}by plan")];
    if if_wear_high > 0 {
        said.push(format!("{if_wear_high}\u{a0}more if wear is high"));
    }
    if spare > 0 {
        said.push(format!("{spare}\u{a0}spare"));
    }
    said.join(", ")
}

/// So many guides of a name, and after how many holes one is changed where there are several.
pub fn guides(count: u32, name: &str, every: Option<&str>) -> String {
    match (count, every) {
        (0 | 1, _) => name.to_owned(),
        (count, None) => format!("{count} x {name}"),
        (count, Some(every)) => format!("{count} x {name}, a new one every {every} holes"),
    }
}
