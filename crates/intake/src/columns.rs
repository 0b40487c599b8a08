//! Which column of a foreign table is which, by the words at its head.

use quillbore_job::words::english;
use quillbore_job::{Column, Unit};

use crate::lines::Lines;

/// What a foreign column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meaning {
    /// A column of the hole table.
    Ours(Column),
    /// A tolerance that belongs to the size beside it.
    Tolerance,
    /// The lower limit of the size.
    Lower,
    /// The upper limit of the size.
    Upper,
    /// A coordinate of the place: 0 x, 1 y, 2 z.
    Point(usize),
    /// A component of the axis into the material: 0 i, 1 j, 2 k.
    Axis(usize),
}

impl Meaning {
    /// Everything that a column can hold, the hole table's columns first.
    #[must_use]
    pub fn all() -> Vec<Self> {
        let ours = Column::ALL.iter().map(|column| Self::Ours(*column));
        let limits = [Self::Tolerance, Self::Lower, Self::Upper];
        let places = (0..3).map(Self::Point).chain((0..3).map(Self::Axis));
        ours.chain(limits).chain(places).collect()
    }

    /// Whether several columns may hold it: notes are put one behind the other.
    #[must_use]
    pub fn may_repeat(self) -> bool {
        self == Self::Ours(Column::Note)
    }
}

/// A head's meaning and the unit that it names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// The head as it stands.
    pub text: String,
    /// What the column holds, where its words are known.
    pub meaning: Option<Meaning>,
    /// The unit in it: `dia (mm)`, `depth [in]`.
    pub unit: Option<Unit>,
}

/// The heads of a table whose first line is the one at `first`; `None` where that line is no head.
///
/// A line is a head when none of its cells starts like a number and at least two of them are known
/// words, or numbers stand under at least two of them in every line below; a single word is one
/// where it is known and numbers stand under it.
#[must_use]
pub fn heads(lines: &Lines, first: usize) -> Option<Vec<Head>> {
    let filled = |cell: &&str| !cell.trim().is_empty();
    let line = lines.line(first)?;
    let mut cells = line.cells().filter(filled).peekable();
    if cells.peek().is_none() || cells.any(starts_like_a_number) {
        return None;
    }
    let heads: Vec<Head> = line.cells().map(head).collect();
    let known = heads.iter().filter(|head| head.meaning.is_some()).count();
    let over_numbers = |at: usize| {
        let below = lines.from(first + 1);
        let mut under = below
            .filter_map(|line| line.cell(at))
            .filter(filled)
            .peekable();
        under.peek().is_some() && under.all(starts_like_a_number)
    };
    let numbers = || {
        let cells = line.cells().enumerate();
        let named = cells.filter(|(_, cell)| filled(cell));
        named.filter(|(at, _)| over_numbers(*at)).count()
    };
    let all = line.cells().filter(filled).count();
    let is_head = match all {
        1 => known == 1 && numbers() == 1,
        _ => known >= 2 || numbers() >= 2,
    };
    is_head.then_some(heads)
}

fn starts_like_a_number(cell: &str) -> bool {
    cell.trim_start_matches(['+', '-', '.', ',', '#', '\u{d8}', '\u{2300}', ' '])
        .starts_with(|first: char| first.is_ascii_digit())
}

fn head(text: &str) -> Head {
    let lower = text.to_lowercase();
    let unit = unit_in(&lower);
    let words: String = lower
        .chars()
        .map(|letter| {
            if letter.is_alphanumeric() || letter == '\u{2300}' {
                letter
            } else {
                ' '
            }
        })
        .collect();
    let words: Vec<&str> = words
        .split_whitespace()
        .filter(|word| !matches!(*word, "mm" | "in" | "inch" | "inches" | "deg" | "degrees"))
        .collect();
    Head {
        text: text.trim().to_owned(),
        meaning: meaning(&words.join(" ")),
        unit,
    }
}

/// The unit that a head names, in brackets or as its last word.
fn unit_in(lower: &str) -> Option<Unit> {
    let words = lower.split(|letter: char| !letter.is_alphanumeric() && letter != '"');
    let mut unit = None;
    for word in words {
        match word {
            "mm" => unit = Some(Unit::Mm),
            "in" | "inch" | "inches" | "\"" => unit = Some(Unit::Inch),
            _ => {}
        }
    }
    unit
}

/// What trade words say that stands in a column, where they are known.
#[must_use]
pub fn meaning(words: &str) -> Option<Meaning> {
    Some(match words {
        "hole" | "holes" | "hole id" | "id" | "label" | "letter" | "item" | "no" | "nr"
        | "hole no" | "hole number" | "hole mark" | "feature" | "pos" | "position" | "tag" => {
            Meaning::Ours(Column::Mark)
        }
        "qty" | "quantity" | "places" | "pcs" | "pl" | "no of holes" | "number of holes"
        | "holes per part" | "number" | "x times" | "times" => Meaning::Ours(Column::Count),
        "dia" | "diameter" | "diam" | "d" | "\u{f8}" | "\u{2300}" | "hole dia"
        | "hole diameter" | "hole size" | "nominal" | "nominal dia" | "nominal diameter" => {
            Meaning::Ours(Column::Size)
        }
        "tol" | "tolerance" | "dia tol" | "tolerances" | "size tol" | "diameter tolerance" => {
            Meaning::Tolerance
        }
        "min" | "lower" | "lower limit" | "dia min" | "min dia" | "low" | "minimum" => {
            Meaning::Lower
        }
        "max" | "upper" | "upper limit" | "dia max" | "max dia" | "high" | "maximum" => {
            Meaning::Upper
        }
        "deep" | "length" | "hole depth" | "drill depth" | "axial depth" | "l" => {
            Meaning::Ours(Column::Depth)
        }
        "type" | "through" | "thru" | "through blind" | "thru blind" | "kind" => {
            Meaning::Ours(Column::End)
        }
        "tilt" | "entry angle" | "hole angle" | "inclination" => Meaning::Ours(Column::Angle),
        "entry surface" => Meaning::Ours(Column::Surface),
        "behind" | "behind exit" | "back wall" | "gap behind" => Meaning::Ours(Column::Behind),
        "backing" => Meaning::Ours(Column::Backed),
        "layer" => Meaning::Ours(Column::Layers),
        "ends" | "sides" | "from" => Meaning::Ours(Column::Ends),
        "tube" => Meaning::Ours(Column::Tube),
        "dress" | "dressing" => Meaning::Ours(Column::DressEvery),
        "notes" | "remark" | "remarks" | "comment" | "comments" => Meaning::Ours(Column::Note),
        "x" | "pos x" | "x pos" => Meaning::Point(0),
        "y" | "pos y" | "y pos" => Meaning::Point(1),
        "z" | "pos z" | "z pos" => Meaning::Point(2),
        "i" | "axis i" | "nx" | "ux" => Meaning::Axis(0),
        "j" | "axis j" | "ny" | "uy" => Meaning::Axis(1),
        "k" | "axis k" | "nz" | "uz" => Meaning::Axis(2),
        // What our own table calls a column is known without being listed here.
        _ => Meaning::Ours(own(words)?),
    })
}

fn own(words: &str) -> Option<Column> {
    let mut columns = Column::ALL.iter().copied();
    columns.find(|column| english::column(*column).head == words)
}
