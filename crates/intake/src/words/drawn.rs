//! What is said of holes that were seen in drawings and solids.

use std::collections::BTreeMap;
use std::error::Error;
use std::fmt;

use quillbore_calc::quantity::MM_PER_INCH;
use quillbore_job::Unit;

use super::{count, in_quotes};
use crate::drawn::{DrawnError, length};
use crate::seen::{Doubt, Grouped, Guessed, Refused, SeenHole, UnitNote, Why};

/// How many of a kind a sentence names.
const NAMED: usize = 6;

/// A form that is so near to a circle is one to anybody who measures it [mm].
const ROUND_MM: f64 = 0.001;

/// That a hole begins in a surface that the table has no word for.
pub(crate) const BEGINS_IN_OTHER: &str =
    "begins in a surface that is no plane, cylinder, ball or bore, which was left open";

/// The same of its other end.
pub(crate) const LEAVES_BY_OTHER: &str =
    "ends in a surface that is no plane, cylinder, ball or bore, which was left open";

/// That the axis of a hole doesn't meet the surface that it begins in.
pub(crate) const BEGINS_BESIDE: &str = "its axis meets no surface where it begins: the angle was left open, and entry and depth are those of its wall";

/// The same of its other end.
pub(crate) const LEAVES_BESIDE: &str = "its axis meets no surface where it ends: its exit was left open, and its depth is that of its wall";

/// The unit of the lengths, who says so, and what the file's own is [mm].
pub(crate) fn unit(unit: Unit, file_mm: Option<f64>, is_overruled: bool) -> String {
    let read = name_of(unit);
    match file_mm.map(name_of_mm) {
        None => format!("The file doesn't say its unit: lengths were read in {read}."),
        Some(own) if is_overruled => {
            format!(
                "The file says that its lengths are in {own}; they were read in {read}, as was said."
            )
        }
        Some(own) if own == read => format!("The file says that its lengths are in {own}."),
        Some(own) => {
            format!("The file says that its lengths are in {own}; they were turned into {read}.")
        }
    }
}

const fn name_of(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

/// A unit by its length [mm].
fn name_of_mm(mm: f64) -> String {
    const NAMES: [(f64, &str); 13] = [
        (25.4e-6, "microinches"),
        (0.001, "micrometers"),
        (0.0254, "thousandths of an inch"),
        (1.0, "millimeters"),
        (10.0, "centimeters"),
        (25.4, "inches"),
        (100.0, "decimeters"),
        (304.8, "feet"),
        (914.4, "yards"),
        (1_000.0, "meters"),
        (10_000.0, "decameters"),
        (1_000_000.0, "kilometers"),
        (1_609_344.0, "miles"),
    ];
    let known = NAMES.iter().find(|(of, _)| (mm / of - 1.0).abs() < 1e-9);
    match known {
        Some((_, name)) => (*name).to_owned(),
        None => format!("units of {} mm", length(mm, Unit::Mm, 6)),
    }
}

/// A text that says another unit than the file's settings, or says one where they say none.
pub(crate) fn unit_note(note: &UnitNote) -> String {
    let text = in_quotes(&note.says);
    match note.settings_mm {
        Some(mm) => format!(
            "The file's settings say that its lengths are in {}, and a text in it says {text}.",
            name_of_mm(mm)
        ),
        None => format!("The file's settings don't say its unit; a text in it says {text}."),
    }
}

/// The same, and the unit that was said.
pub(crate) fn unit_beside(note: &UnitNote, unit: Unit) -> String {
    format!(
        "{} Lengths were read in {}, as was said.",
        unit_note(note),
        name_of(unit)
    )
}

/// From where places are counted, since the drawing's own zero is too far away.
pub(crate) fn counted_from(origin: [f64; 3], unit: Unit) -> String {
    let [x, y, z] = origin.map(|along| length(along, unit, 3));
    let level = if z == "0" {
        String::new()
    } else {
        format!(", z {z}")
    };
    format!(
        "The drawing stands farther from its zero than a part is long: places are counted from its x {x}, y {y}{level}."
    )
}

/// Holes that stand too far from the others.
pub(crate) fn too_far<'a>(
    kinds: impl Iterator<Item = (&'a SeenHole, usize)>,
    unit: Unit,
) -> Option<String> {
    let all: Vec<String> = kinds.map(|(hole, holes)| kind(hole, holes, unit)).collect();
    (!all.is_empty()).then(|| {
        format!(
            "Not taken: {}, more than a kilometer away from the others.",
            all.join("; ")
        )
    })
}

/// What of a whole drawing is to be looked at.
pub(crate) fn doubt(doubt: &Doubt, unit: Unit) -> String {
    match doubt {
        Doubt::Frame(sides) => {
            let [wide, high] = sides.map(|side| length(side, unit, 3));
            format!(
                "A box of {wide} x {high} {} was taken for the frame of a sheet, and not for the part.",
                unit.symbol()
            )
        }
        Doubt::LikePaper => {
            "What was taken for the part is as large as a sheet of paper: look whether it is the frame."
                .to_owned()
        }
        Doubt::Views(holes) => format!(
            "Two outlines of one size hold the same {}: where they are views of one part, its holes are counted twice.",
            count(u64::try_from(*holes).unwrap_or(u64::MAX), "hole", "holes")
        ),
        Doubt::OtherView(text) => format!(
            "A text says {}: look whether holes are drawn in more than one view, or larger than they are.",
            in_quotes(text)
        ),
    }
}

/// What a file that doesn't say its unit makes one guess: how long what is drawn is, its smallest hole, and the
/// unit that the file hints at [mm], all in the file's own numbers.
pub(crate) fn evidence(size: Option<[f64; 3]>, smallest: f64, hint_mm: Option<f64>) -> String {
    let drawn = size.map(|[x, y, z]| {
        let largest = length(x.max(y).max(z), Unit::Mm, 3);
        format!("what is drawn is {largest} long at most, ")
    });
    let looks = match hint_mm {
        Some(MM_PER_INCH) => " Its other settings are those of inches.",
        Some(1.0) => " Its other settings are those of millimeters.",
        // No tube is as thin as that in millimeters, and none as thick in inches.
        _ if smallest < 0.1 => " That would be inches.",
        _ if smallest > 0.5 => " That would be millimeters.",
        _ => "",
    };
    format!(
        "The file doesn't say its unit: {}its smallest hole {} wide.{looks}",
        drawn.unwrap_or_default(),
        length(smallest, Unit::Mm, 4)
    )
}

/// How deep a hole is along its wall.
pub(crate) fn along_the_wall(least: &str, most: &str, unit: Unit) -> String {
    format!("{least} to {most} {} deep along its wall", unit.symbol())
}

/// A text beside a hole that speaks of another one.
pub(crate) fn other_text(text: &str, diameter: f64, unit: Unit) -> String {
    format!(
        "the text beside it, {}, speaks of another size than the {} {} that it is drawn with",
        in_quotes(text),
        length(diameter, unit, 4),
        unit.symbol()
    )
}

/// A text beside a hole that can't be taken apart.
pub(crate) fn unread_text(text: &str) -> String {
    format!(
        "the text beside it, {}, could not be taken apart, and stands in the note as it is",
        in_quotes(text)
    )
}

/// A chart that says another count than the drawing shows.
pub(crate) fn charted(count: &str, found: usize) -> String {
    format!("the chart says {count} of them, and the drawing shows {found}")
}

/// What was said of some holes, or of all.
pub(crate) fn of_some(sentence: String, times: usize, all: usize) -> String {
    if times >= all {
        return sentence;
    }
    format!("{times} of its {all} holes: {sentence}")
}

/// Guesses that are not told one by one.
pub(crate) fn more_guesses(more: usize) -> String {
    format!("and {more} more to look at")
}

/// What was guessed of a hole; `None` where it is too little to matter.
pub(crate) fn guess(guess: &Guessed, unit: Unit) -> Option<String> {
    let of = |mm: f64| format!("{} {}", length(mm, unit, 4), unit.symbol());
    Some(match guess {
        Guessed::OfConcentric(other) => format!(
            "taken of two circles about one point, beside {}",
            of(*other)
        ),
        Guessed::TextBeside => "its text belongs to it by nearness alone".to_owned(),
        Guessed::ClosedArcs => "drawn as arcs or lines that close".to_owned(),
        Guessed::NotQuiteRound(off) if *off < ROUND_MM => return None,
        Guessed::NotQuiteRound(off) => format!(
            "a free form that is up to {} off the circle that was taken for it",
            of(*off)
        ),
        Guessed::DrawnTwice => "drawn more than once in its place, and taken once".to_owned(),
        Guessed::NotShown => "on a layer that is off, or marked as not to be seen".to_owned(),
        Guessed::Dashed => {
            "drawn as a hidden edge: it may be drilled from the other side".to_owned()
        }
        Guessed::PassesAir(long) => format!(
            "on its way it crosses free room, {} of its depth: it was taken for one hole",
            of(*long)
        ),
        Guessed::OpenBeside(long) => format!(
            "its wall is open to one side over up to {} of its depth, where another room touches it",
            of(*long)
        ),
        Guessed::BrokenEdge => {
            "its edge is rounded or chamfered: entry, depth and angle are those of the surface around it"
                .to_owned()
        }
        Guessed::TextByCount(said) => format!(
            "its text stands at another one: {said} holes are spoken of, and there are {said} of this size"
        ),
        Guessed::CountDiffers(said, found) => format!(
            "its text speaks of {said} holes, and the drawing shows {found} of this size: look which ones it means"
        ),
    })
}

/// A row and the holes that it was made of.
pub(crate) fn row(mark: &str, holes: &[&SeenHole], grouped: Grouped, unit: Unit) -> String {
    let Some(first) = holes.first() else {
        return String::new();
    };
    let of = kind(first, holes.len(), unit);
    let mut from: Vec<&str> = holes
        .iter()
        .flat_map(|hole| hole.from.iter().map(String::as_str))
        .collect();
    let more = from.len().saturating_sub(NAMED);
    from.truncate(NAMED);
    let more = and_more(more);
    let mut groups: Vec<&str> = holes.iter().map(|hole| hole.group.as_str()).collect();
    groups.sort_unstable();
    groups.dedup();
    // The first layer is in every drawing, and says nothing.
    groups.retain(|group| !group.is_empty() && (grouped, *group) != (Grouped::ByLayer, "0"));
    let groups: Vec<String> = groups
        .iter()
        .take(NAMED)
        .map(|group| in_quotes(group))
        .collect();
    let on = match (grouped, groups.as_slice()) {
        (_, []) => String::new(),
        (Grouped::ByBody, all) => format!(", of {}", all.join(", ")),
        (Grouped::ByLayer, [layer]) => format!(", on layer {layer}"),
        (Grouped::ByLayer, all) => format!(", on layers {}", all.join(", ")),
    };
    format!("{mark}: {of}{on}; in the file {}{more}.", from.join(", "))
}

/// Something that is to be looked at in a row.
pub(crate) fn of_row(mark: &str, doubt: &str) -> String {
    format!("{mark}: {doubt}.")
}

/// Holes that were left out.
pub(crate) fn left<'a>(
    kinds: impl Iterator<Item = (&'a SeenHole, usize)>,
    unit: Unit,
) -> Option<String> {
    let all: Vec<String> = kinds.map(|(hole, holes)| kind(hole, holes, unit)).collect();
    (!all.is_empty()).then(|| format!("Left out: {}.", all.join("; ")))
}

/// So many holes of a kind.
pub fn kind(hole: &SeenHole, holes: usize, unit: Unit) -> String {
    let holes = count(u64::try_from(holes).unwrap_or(u64::MAX), "hole", "holes");
    let diameter = length(hole.diameter, unit, 4);
    let deep = hole
        .depth
        .map(|depth| format!(", {} deep", length(depth.on_axis, unit, 3)));
    format!(
        "{holes} of {diameter} {}{}",
        unit.symbol(),
        deep.unwrap_or_default()
    )
}

/// What looks like a hole and was not taken, by the reasons.
pub(crate) fn refused(refused: &[Refused]) -> Vec<String> {
    let mut by_why: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for each in refused {
        by_why.entry(why(&each.why)).or_default().push(&each.from);
    }
    let said = by_why.into_iter().map(|(why, from)| {
        let first: Vec<&str> = from
            .iter()
            .copied()
            .take(NAMED)
            .filter(|from| !from.is_empty())
            .collect();
        let more = from.len().saturating_sub(NAMED);
        let more = and_more(more);
        match first.as_slice() {
            [] => format!("Not taken: {why}."),
            first => format!("Not taken: {why}; in the file {}{more}.", first.join(", ")),
        }
    });
    said.collect()
}

/// Texts that speak of holes and belong to none.
pub(crate) fn loose(texts: &[String]) -> Option<String> {
    let first: Vec<String> = texts
        .iter()
        .take(NAMED)
        .map(|text| in_quotes(text))
        .collect();
    let more = texts.len().saturating_sub(NAMED);
    let more = and_more(more);
    (!first.is_empty()).then(|| {
        format!(
            "Texts that belong to none of the holes: {}{more}.",
            first.join(", ")
        )
    })
}

/// How many there are beside those that are named.
fn and_more(more: usize) -> String {
    match more {
        0 => String::new(),
        more => format!(" and {more} more"),
    }
}

fn why(why: &Why) -> String {
    match why {
        Why::Stretched => "a circle that is stretched in one direction".to_owned(),
        Why::NotALength => "its numbers are no lengths".to_owned(),
        Why::HoldsItself => "it holds itself".to_owned(),
        Why::TooDeep(depth) => format!("nested deeper than {depth}"),
        Why::Missing(what) => format!("{what} is not in the file"),
        Why::Open => "its wall or its line doesn't close".to_owned(),
        Why::NotRound => "its wall is not round".to_owned(),
        Why::CenterLine => "drawn as a center line".to_owned(),
        Why::TextInside(text) => format!(
            "it has the text {} in it, as a balloon has",
            in_quotes(text)
        ),
        Why::HolesUponIt => "holes stand upon it, as on a pitch circle".to_owned(),
        Why::HoldsHoles => "holes stand in it, as in an outline or a boss".to_owned(),
        Why::OnPaper => "it stands on the sheet, not in the model".to_owned(),
        Why::Closed => "a round room that nothing leads into".to_owned(),
        Why::Groove => "a ring in the wall of a bore".to_owned(),
        Why::AroundMaterial => {
            "material stands within its wall, as in a ring groove or a pocket with an island"
                .to_owned()
        }
        Why::Bent => {
            "a bore along an arc, which is no straight hole; straight ones that lead into it end there"
                .to_owned()
        }
        Why::Loose(faces) => format!(
            "{} not joined to those beside them: holes may be missing, and of others surfaces and ends may be wrong; ask for the part as one solid",
            count(u64::try_from(*faces).unwrap_or(u64::MAX), "face is", "faces are")
        ),
        Why::NotClosed(faces) => format!(
            "{} an edge that no other face shares, so the solid isn't closed: holes may be missing there, and ends of others may be wrong; ask for it closed",
            count(u64::try_from(*faces).unwrap_or(u64::MAX), "face has", "faces have")
        ),
        Why::Limits(sizes) => format!(
            "the file has limits of {}, which are not read: type those of the holes",
            count(u64::try_from(*sizes).unwrap_or(u64::MAX), "size", "sizes")
        ),
        Why::Faceted => "a body of flat facets, which has no round wall".to_owned(),
        Why::NotRead(name, times) => format!(
            "{name} ({}) is not read",
            count(u64::try_from(*times).unwrap_or(u64::MAX), "time", "times")
        ),
    }
}

impl DrawnError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Drawing(error) => error.hint(),
            Self::Solid(error) => error.hint(),
            Self::NoHoles(_) => {
                "type the holes, or ask for a file that shows them as circles or round walls"
            }
            Self::NoneTaken => "choose sizes that it has",
            Self::WhichUnit(_) | Self::UnitsDiffer(_) => "say --unit mm or --unit inch",
        }
    }
}

impl Error for DrawnError {}

impl fmt::Display for DrawnError {
    /// One sentence: why nothing could be taken.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Drawing(error) => error.fmt(f),
            Self::Solid(error) => error.fmt(f),
            Self::NoHoles(refused) if refused.is_empty() => f.write_str("The file shows no hole"),
            Self::NoHoles(refused) => write!(f, "The file shows no hole. {}", refused.join(" ")),
            Self::NoneTaken => f.write_str("None of its holes has such a size"),
            Self::UnitsDiffer(note) => f.write_str(unit_note(note).trim_end_matches('.')),
            Self::WhichUnit(None) => f.write_str("The file doesn't say its unit"),
            Self::WhichUnit(Some([x, y, z])) => {
                let largest = x.max(*y).max(*z);
                write!(
                    f,
                    "The file doesn't say its unit; what is drawn is {largest:.4} long at most, which may be inches or millimeters"
                )
            }
        }
    }
}
