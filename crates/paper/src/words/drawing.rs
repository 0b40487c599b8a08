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

/// What is left of an electrode.
pub fn left(length: &str) -> String {
    format!("{length} left")
}

/// What stands beside the ruler.
pub fn scale(unit: &str) -> String {
    format!("to scale, {unit}; hatched: used up")
}

/// Loads that are not drawn.
pub fn not_drawn(more: usize) -> String {
    match more {
        1 => "1 more kind of load is in the table above and is not drawn.".to_owned(),
        more => {
            format!("{more} more kinds of loads are in the table above and are not drawn.")
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
