//! Words beside drawings.

/// What stands under sections of holes.
pub const SECTIONS: &str = "holes in section; angles true, lengths not to scale";

/// The angle of a hole to the surface's normal.
pub fn from_normal(degrees: &str) -> String {
    format!("{degrees}\u{b0} from normal")
}

/// The angle of a hole to the surface.
pub fn from_surface(degrees: &str) -> String {
    format!("{degrees}\u{b0} from surface")
}

/// The electrodes that a tube is drawn for.
pub fn electrodes(numbers: &str) -> String {
    format!("no. {numbers}")
}

/// The same with the tube's name, on one line.
pub fn electrodes_of(numbers: &str, tube: &str) -> String {
    format!("{numbers}, {tube}")
}

/// An electrode that is too long for the machine's stroke as it is bought.
pub fn cut_to(length: &str) -> String {
    format!("cut to {length}")
}

/// What is left of an electrode.
pub fn left(length: &str) -> String {
    format!("{length} left")
}

/// What the bar's left end is, where there is room to say it.
pub const HELD_BACK: &str = "; left of the mark in the bar: held back by chuck and guide";

/// What stands beside the ruler.
pub fn scale(unit: &str) -> String {
    format!("to scale, {unit}; hatched: used up")
}

/// Loads that are not drawn.
pub fn not_drawn(more: usize) -> String {
    match more {
        1 => "1 more line of the list above is not drawn.".to_owned(),
        more => {
            format!("{more} more lines of the list above are not drawn.")
        }
    }
}

/// The machine's hours, with their spread.
pub const MACHINE_HOURS: &str = "machine hours";

/// A person's hours, with their spread.
pub const LABOR_HOURS: &str = "labor hours";

/// What the lot costs, with its spread.
pub fn cost_of_lot(currency: &str) -> String {
    format!("cost of the lot, {currency}")
}

/// What the lot is sold for, marked beside what it costs.
pub fn sold_for(lot: &str) -> String {
    format!("price {lot}")
}

/// A figure with low, likely and high.
pub fn spread(what: &str, [low, likely, high]: &[String; 3]) -> String {
    format!("{what}: {low}, likely {likely}, {high}")
}

/// What a section shows, for whoever can't see it.
pub fn section_of(marks: &str) -> String {
    format!("section through {marks}")
}

/// What the chart of electrodes shows, for whoever can't see it.
pub const TUBES: &str = "each electrode to scale with the holes that it drills and what is left of it; the table above has the figures";

/// Beside a section that more rows share than have room there.
pub fn rows_alike(rows: usize) -> String {
    format!("{rows} rows of the table")
}

/// Name of the map of the holes.
pub const MAP: &str = "Map of the holes";

/// How the map is to be read.
pub const MAP_REMARK: &str = "to scale; mark and number; the thin line is the order, ringed where it begins; arrows: the electrode comes along \
     them";

/// Where something lies between two sides of a part.
#[derive(Clone, Copy)]
pub enum Lies {
    /// At the left, in front, below.
    Low,
    /// Halfway.
    Middle,
    /// At the right, at the rear, above.
    High,
    /// Anywhere else.
    Between,
}

/// Where the part's zero lies from left to right, from front to rear and upward, as the part lies before the operator.
pub fn zero([across, away, up]: [Lies; 3], is_lying: bool) -> String {
    let named = |lies, [low, high]: [&'static str; 2]| match lies {
        Lies::Low => Some(low),
        Lies::High => Some(high),
        Lies::Middle | Lies::Between => None,
    };
    let side = named(across, ["left", "right"]);
    let end = named(away, ["front", "rear"]);
    let place = match (across, away) {
        (Lies::Between, _) | (_, Lies::Between) => "where the cross is".to_owned(),
        _ => match (side, end) {
            (None, None) => "in the middle".to_owned(),
            (Some(one), None) | (None, Some(one)) => format!("in the middle of the {one} side"),
            (Some(side), Some(end)) => format!("{end} {side} corner; stops are at these two sides"),
        },
    };
    let height = match (up, is_lying) {
        (Lies::Between, _) => "height: see the cross",
        (Lies::Low, false) => "height: lower face",
        (Lies::High, false) => "height: upper face",
        (Lies::Middle, false) => "height: half way up",
        // The part is seen along the axis that turns it.
        (Lies::High, true) => "along the index axis: the face that is seen here",
        (Lies::Low, true) => "along the index axis: the face behind",
        (Lies::Middle, true) => "along the index axis: half way",
    };
    format!("the part's zero, the large cross, as it lies here: {place}; {height}")
}

/// In the place of a map, and of rows that have no place on it.
pub fn no_locations(marks: &str) -> String {
    format!(
        "{marks}: no locations here. They stand on the drawing; where they don't, stop and ask."
    )
}

/// The name of a part of the map that stands larger.
pub fn detail(number: usize) -> String {
    format!("detail {number}")
}

/// What a detail shows, for whoever can't see it.
pub fn detail_of(holes: usize) -> String {
    format!("{holes} holes of the map, larger; the annex has the figures")
}

/// Holes of a detail that have no label.
pub fn unlabeled(holes: usize) -> String {
    format!("{holes} not named: see the annex")
}

/// Below details that don't show all holes.
pub fn others_in_annex(holes: &str) -> String {
    format!(
        "The details show where each mark begins; {holes} more holes stand in the annex with their figures."
    )
}

/// Before a box to tick for each part.
pub const DRILLED: &str = "Part drilled:";
/// The box of a part for trials.
pub const SPARE: &str = "spare";

/// Several holes at one spot; more than are named are counted.
pub fn spots(names: &[String], more: usize) -> String {
    let mut said = names.join(", ");
    if more > 0 {
        said += &format!(" and {more} more");
    }
    said
}

/// A hole at which another electrode begins.
pub fn begins(spot: &str, electrode: u32) -> String {
    format!("{spot}: electrode no.\u{a0}{electrode}")
}

/// What a map shows, for whoever can't see it.
pub fn map_of(holes: usize) -> String {
    format!(
        "where the {holes} holes of this setup lie, from above and from the side; the annex has the figures"
    )
}

/// The first hole of a mark on the map.
pub fn spot(mark: &str, number: u32) -> String {
    if mark.ends_with(|ch: char| ch.is_ascii_digit()) {
        return format!("{mark}\u{a0}no.\u{a0}{number}");
    }
    format!("{mark}\u{a0}{number}")
}

/// So many holes of a mark.
pub fn times(mark: &str, count: u32) -> String {
    let lead = if mark.starts_with(|ch: char| ch.is_ascii_digit()) {
        "mark\u{a0}"
    } else {
        ""
    };
    format!("{lead}{mark}\u{a0}\u{d7}\u{a0}{count}")
}

/// A view from above, by the part's own axes.
pub fn from_above(right: &str, up: &str) -> String {
    format!("from above: {right} right, {up} up")
}

/// A view along the index axis, by the part's own axes.
pub fn along_index(right: &str, up: &str) -> String {
    format!("along the index axis: {right} right, {up} up")
}

/// A view from the side, by the part's own axes.
pub fn from_side(right: &str, up: &str) -> String {
    format!("from the side: {right} right, {up} up")
}

/// A direction that is none of the part's axes.
pub const INCLINED: &str = "inclined";

/// How deep a hole is and where it ends.
pub fn deep(depth: &str, unit: &str, end: &str) -> String {
    format!("{depth} {unit} deep, {end}")
}

/// What is free behind the exit.
pub fn clear_behind(length: &str) -> String {
    format!("{length} clear behind")
}

/// A hole that is drilled from both its ends.
pub const HALF_EACH: &str = "half from each end";
