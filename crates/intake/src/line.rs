//! One line of a foreign table: its cells by what they mean, its size, its place.

use std::borrow::Cow;
use std::collections::BTreeMap;

use quillbore_calc::input::Place;
use quillbore_job::{Column, Unit, read_quantity};

use crate::cell_words::CellWord;
use crate::column::{Holds, How, Why};
use crate::commas::Commas;
use crate::crosses::Crosses;
use crate::foreign::Foreign;
use crate::head::AngleFrom;
use crate::head_unit::HeadUnit;
use crate::lines::Line;
use crate::meaning::Meaning;
use crate::of_unit::with_unit;
use crate::section::{Section, section_of};
use crate::tolerance::joined;
use crate::words;

/// One line of the foreign table, sorted by what its cells mean.
#[derive(Default)]
pub(crate) struct Sorted {
    pub(crate) cells: BTreeMap<Column, String>,
    pub(crate) limits: SizeLimits,
    pub(crate) depth_tolerance: Option<String>,
    /// What the head of its end says, where two columns say one end each.
    pub(crate) says_end: Option<CellWord>,
    pub(crate) point: [Option<String>; 3],
    pub(crate) axis: [Option<String>; 3],
    pub(crate) notes: Vec<String>,
    /// The cells of columns for notes, without their heads.
    pub(crate) remarks: Vec<String>,
    /// The unit of its lengths: told where it has none.
    pub(crate) unit: Option<String>,
    /// Whether it has a length.
    pub(crate) has_length: bool,
    /// The number of the line beside its mark.
    pub(crate) row_number: Option<String>,
    pub(crate) left_out: Vec<String>,
    /// What of its numbers is worth a look.
    pub(crate) guesses: Vec<String>,
}

/// How the lines of a table are read.
pub(crate) struct Reading<'a> {
    foreign: &'a Foreign,
    /// What bare lengths are in, unless something nearer says otherwise.
    unit: Unit,
    pub(crate) sections: Vec<Section>,
    commas: Commas,
    /// The columns that say the unit of others.
    units: Vec<usize>,
    /// Those that are crossed where a hole ends so.
    crosses: Option<Crosses>,
}

impl<'a> Reading<'a> {
    /// Of a table whose bare lengths are in `unit`.
    pub(crate) fn of(foreign: &'a Foreign, unit: Unit) -> Self {
        let columns = foreign.columns.iter().enumerate();
        let units = columns.filter(|(_, column)| column.holds(Meaning::Unit));
        Self {
            foreign,
            unit,
            sections: foreign.sections(),
            commas: Commas::of(foreign),
            units: units.map(|(at, _)| at).collect(),
            crosses: Crosses::of(foreign),
        }
    }

    /// The unit that a line says of the lengths in a column: of several the next on the right, else the
    /// last before it.
    fn of_line(&self, line: Line<'_>, column: usize) -> Option<HeadUnit> {
        let (before, behind) = self
            .units
            .split_at(self.units.partition_point(|unit| *unit < column));
        let mut units = behind.iter().chain(before.iter().rev());
        units.find_map(|unit| HeadUnit::of_text(line.cell(*unit)?))
    }
}

/// What stands beside a size in columns of its own.
#[derive(Default)]
pub(crate) struct SizeLimits {
    tolerance: Option<String>,
    lower: Option<String>,
    upper: Option<String>,
    lower_deviation: Option<String>,
    upper_deviation: Option<String>,
}

/// Sorts a line's cells by what their columns hold; in a block that was laid over cells, empty ones count
/// too. `at` is the line's place among all lines.
pub(crate) fn sort(reading: &Reading<'_>, at: usize, line: Line<'_>) -> Sorted {
    let mut sorted = Sorted::default();
    let (laid, unit) = (reading.foreign.laid, reading.unit);
    let of_section = section_of(&reading.sections, at);
    for (place, (cell, column)) in line.cells().zip(&reading.foreign.columns).enumerate() {
        if cell.trim().is_empty() {
            // A block that was laid over cells empties those that it is empty over.
            if let (true, Some(Holds::A(Meaning::Ours(ours)))) = (laid, column.holds) {
                sorted.cells.entry(ours).or_insert_with(|| cell.to_owned());
            }
            continue;
        }
        let meaning = match column.holds {
            Some(Holds::A(meaning)) => meaning,
            Some(Holds::LeftOut) => {
                let told = words::cell_left_out(&column.head.text, cell);
                let digits = cell.trim().chars().all(|letter| letter.is_ascii_digit());
                if column.how == How::Guess(Why::RowNumber) && digits {
                    sorted.row_number = Some(told);
                } else {
                    sorted.left_out.push(told);
                }
                continue;
            }
            // Nothing is taken before every column with something in it is understood.
            None => continue,
        };
        let is_length = meaning.is_length();
        sorted.has_length |= meaning.is_length();
        let of_line = || reading.of_line(line, place);
        let nearer = || of_line().or(of_section);
        let named = is_length
            .then(|| column.head.unit.or_else(nearer))
            .flatten();
        let cell = match is_length && cell.contains(',') {
            true => {
                let of = named.unwrap_or(HeadUnit::Whole(unit));
                reading.commas.read(cell, meaning, of, &mut sorted.guesses)
            }
            false => Cow::Borrowed(cell),
        };
        let cell = &*cell;
        let text = || with_unit(cell, named.filter(|named| named.typed_in() != Some(unit)));
        match meaning {
            Meaning::Ours(Column::Note) => {
                let head = column.head.text.as_str();
                sorted.remarks.push(cell.to_owned());
                let doubted = !matches!(column.how, How::Head | How::Place);
                sorted.notes.push(match doubted && !head.is_empty() {
                    true => format!("{head}: {cell}"),
                    false => cell.to_owned(),
                });
            }
            Meaning::Ours(Column::Angle) => {
                let angle = with_basis(cell, column.head.basis);
                sorted.cells.insert(Column::Angle, angle);
            }
            Meaning::Ours(ours) => {
                sorted.cells.insert(ours, text());
            }
            Meaning::Tolerance => sorted.limits.tolerance = Some(text()),
            Meaning::Lower => sorted.limits.lower = Some(text()),
            Meaning::Upper => sorted.limits.upper = Some(text()),
            Meaning::LowerDeviation => {
                let text = with_sign(text(), &column.head.folded);
                sorted.limits.lower_deviation = Some(text);
            }
            Meaning::UpperDeviation => {
                let text = with_sign(text(), &column.head.folded);
                sorted.limits.upper_deviation = Some(text);
            }
            Meaning::DepthTolerance => sorted.depth_tolerance = Some(text()),
            Meaning::Point(axis) => set(&mut sorted.point, axis, text()),
            Meaning::Axis(axis) => set(&mut sorted.axis, axis, text()),
            Meaning::Unit => {
                let told = words::cell_left_out(&column.head.text, cell);
                match HeadUnit::of_text(cell) {
                    Some(_) => sorted.unit = Some(told),
                    // A unit that none of its lengths is in: pieces, sets.
                    None => sorted.left_out.push(told),
                }
            }
        }
    }
    if let Some(crosses) = &reading.crosses {
        crosses.settle(line, &mut sorted);
    }
    sorted
}

fn set(parts: &mut [Option<String>; 3], index: usize, text: String) {
    if let Some(part) = parts.get_mut(index) {
        *part = Some(text);
    }
}

/// A bare angle with what its head says that it is measured from.
fn with_basis(cell: &str, basis: Option<AngleFrom>) -> String {
    let number = cell
        .trim()
        .trim_end_matches(['\u{b0}', '\u{ba}'])
        .trim_end();
    let bare = |letter: char| letter.is_ascii_digit() || ".,-+".contains(letter);
    match basis {
        Some(basis) if number.chars().all(bare) => format!("{number} deg {}", basis.behind()),
        _ => cell.to_owned(),
    }
}

/// A deviation with the sign that its head has, where it has none itself: `Tol -` over `0.02`.
fn with_sign(cell: String, head: &str) -> String {
    let digits = |text: &str| text.starts_with(|l: char| l.is_ascii_digit() || l == '.');
    let zero = |text: &str| text.chars().all(|letter| matches!(letter, '0' | '.' | ','));
    let says = |word: &str| head.split(' ').any(|said| said.starts_with(word));
    let text = cell.trim();
    if !digits(text) || zero(text) {
        return cell;
    }
    if says("minus") {
        format!("-{text}")
    } else if says("plus") {
        format!("+{text}")
    } else {
        cell
    }
}

impl SizeLimits {
    /// Joins what stands beside the size to it; says what was guessed.
    pub(crate) fn join(self, row: &mut BTreeMap<Column, String>, unit: Unit) -> Option<String> {
        let nominal = row
            .get(&Column::Size)
            .filter(|text| !text.trim().is_empty());
        let nominal = nominal.cloned();
        let deviations = deviations(self.upper_deviation, self.lower_deviation);
        let (size, guess) = match (nominal, self.tolerance, deviations, self.lower, self.upper) {
            (_, None, None, None, None) => return None,
            (nominal, None, None, Some(lower), Some(upper)) => {
                let guess = nominal.map(|nominal| words::left_for_limits(&nominal, &lower, &upper));
                (format!("{lower}/{upper}"), guess)
            }
            (None, None, None, None, Some(upper)) => (format!("{upper} MAX"), None),
            (Some(nominal), Some(beside), None, None, None)
            | (Some(nominal), None, Some(beside), None, None) => {
                joined(&nominal, &beside, Column::Size, unit)
            }
            (nominal, tolerance, deviations, lower, upper) => {
                let parts = [nominal, tolerance, deviations, lower, upper];
                let parts: Vec<String> = parts.into_iter().flatten().collect();
                (parts.join(" "), Some(words::SIZE_AND_LIMITS.to_owned()))
            }
        };
        row.insert(Column::Size, size);
        guess
    }
}

/// Both deviations as they stand behind a size: the upper first.
fn deviations(upper: Option<String>, lower: Option<String>) -> Option<String> {
    match (upper, lower) {
        (None, None) => None,
        (Some(one), None) | (None, Some(one)) => Some(signed(one)),
        (Some(upper), Some(lower)) => Some(format!("{}/{lower}", signed(upper))),
    }
}

/// An upper deviation without a sign is above the size.
fn signed(deviation: String) -> String {
    let digits = |letter: char| letter.is_ascii_digit() || letter == '.';
    match deviation.trim_start().starts_with(digits) {
        true => format!("+{}", deviation.trim_start()),
        false => deviation,
    }
}

/// Joins the depth's tolerance to it; says what was guessed.
pub(crate) fn join_depth(
    row: &mut BTreeMap<Column, String>,
    tolerance: Option<String>,
    unit: Unit,
) -> Option<String> {
    let depth = row.get(&Column::Depth).map_or("", String::as_str);
    let (depth, guess) = joined(depth, &tolerance?, Column::Depth, unit);
    row.insert(Column::Depth, depth);
    guess
}

/// The place that a line names as it is typed: `x 10 y 5.5`.
pub(crate) fn place_typed(sorted: &Sorted) -> String {
    let names = ["x", "y", "z", "i", "j", "k"];
    let parts = names
        .into_iter()
        .zip(sorted.point.iter().chain(&sorted.axis));
    let typed = parts.filter_map(|(name, part)| Some(format!("{name} {}", part.as_ref()?.trim())));
    typed.collect::<Vec<_>>().join(" ")
}

/// The place that a line names, or why it can't be read; its number is set by the caller.
pub(crate) fn place_of(sorted: &Sorted, unit: Unit) -> (Option<Place>, Option<String>) {
    let [Some(x), Some(y), z] = &sorted.point else {
        let some = sorted.point.iter().chain(&sorted.axis).any(Option::is_some);
        return (None, some.then(|| words::HALF_A_PLACE.to_owned()));
    };
    let coordinate =
        |text: &str| read_quantity::coordinate(text, unit).map(quillbore_calc::Length::mm);
    let read = || -> Result<Place, read_quantity::Misread> {
        let z_mm = z.as_deref().map_or(Ok(0.0), coordinate)?;
        let axis = match &sorted.axis {
            [None, None, None] => [0.0, 0.0, -1.0],
            parts => {
                let mut axis = [0.0; 3];
                for (part, text) in axis.iter_mut().zip(parts) {
                    *part = text
                        .as_deref()
                        .map_or(Ok(0.0), read_quantity::vector_part)?;
                }
                axis
            }
        };
        Ok(Place {
            number: 0,
            point_mm: [coordinate(x)?, coordinate(y)?, z_mm],
            axis,
        })
    };
    match read() {
        Ok(place) => match quillbore_calc::direction::unit(place.axis) {
            Some(axis) => (Some(Place { axis, ..place }), None),
            None => (None, Some(words::NO_DIRECTION.to_owned())),
        },
        Err(why) => (None, Some(words::place_unread(&why.to_string()))),
    }
}
