//! Numbers with one comma and three digits behind it: a decimal comma, or thousands.

use std::borrow::Cow;
use std::ops::Range;

use crate::column::{ForeignColumn, Holds};
use crate::foreign::Foreign;
use crate::head_unit::HeadUnit;
use crate::meaning::Meaning;
use crate::of_unit::is_bare;
use crate::values::LOOKED_AT;
use crate::words;
use quillbore_job::Column;

/// What the lengths of a table tell of its commas.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Commas {
    /// There are decimal commas: `0,8`.
    decimal: bool,
    /// There are decimal points.
    points: bool,
    /// Sizes are whole numbers of three digits, as micrometers are.
    large: bool,
    /// Semicolons part the cells, as where commas are decimal.
    semicolons: bool,
}

impl Commas {
    /// Of the first rows of a table.
    pub(crate) fn of(foreign: &Foreign) -> Self {
        let mut commas = Self {
            semicolons: foreign.separator == Some(';'),
            ..Self::default()
        };
        let meaning = |column: &ForeignColumn| match column.holds {
            Some(Holds::A(meaning)) if meaning.is_length() => Some(meaning),
            _ => None,
        };
        let meanings: Vec<Option<Meaning>> = foreign.columns.iter().map(meaning).collect();
        for (_, line) in foreign.rows().take(LOOKED_AT) {
            let cells = line.cells().zip(&meanings);
            for (cell, meaning) in cells.filter_map(|(cell, meaning)| Some((cell, (*meaning)?))) {
                commas.points |= cell.contains('.') && !cell.contains(',');
                commas.decimal |= cell.contains(',') && in_doubt(cell).is_none();
                let digits = || cell.bytes().all(|byte| byte.is_ascii_digit());
                commas.large |= meaning == SIZE && cell.len() >= 3 && digits();
            }
        }
        commas
    }

    /// A length as it is read: its commas stay where they are decimal, go where they group, and where
    /// nothing tells both numbers stand there, so that it is asked about.
    pub(crate) fn read<'a>(
        self,
        cell: &'a str,
        meaning: Meaning,
        unit: HeadUnit,
        said: &mut Vec<String>,
    ) -> Cow<'a, str> {
        let Some(number) = in_doubt(cell) else {
            return Cow::Borrowed(cell);
        };
        let (before, typed, behind) = (
            cell.get(..number.start).unwrap_or_default(),
            cell.get(number.clone()).unwrap_or_default(),
            cell.get(number.end..).unwrap_or_default(),
        );
        let (grouped, decimal) = (typed.replace(',', ""), typed.replace(',', "."));
        match self.meant(cell, meaning, unit) {
            Meant::Decimal => Cow::Borrowed(cell),
            Meant::DecimalTold => {
                said.push(words::comma_read(cell.trim(), &decimal));
                Cow::Borrowed(cell)
            }
            Meant::Thousands => {
                said.push(words::comma_read(cell.trim(), &grouped));
                format!("{before}{grouped}{behind}").into()
            }
            Meant::Unknown => {
                said.push(words::comma_in_doubt(cell.trim(), &decimal, &grouped));
                format!("{before}{decimal} or {grouped}{behind}").into()
            }
        }
    }

    fn meant(self, cell: &str, meaning: Meaning, unit: HeadUnit) -> Meant {
        let decimal = self.decimal && !self.points;
        let of_deviations = matches!(
            meaning,
            Meaning::Tolerance
                | Meaning::LowerDeviation
                | Meaning::UpperDeviation
                | Meaning::DepthTolerance
        );
        let small = match is_bare(cell) {
            true => matches!(
                unit,
                HeadUnit::Um | HeadUnit::Thou | HeadUnit::Part(..) | HeadUnit::Tenths
            ),
            false => ["\u{b5}m", "\u{3bc}m", "um", "thou", "mil"]
                .iter()
                .any(|unit| cell.trim_end().ends_with(unit)),
        };
        match (small, of_deviations) {
            // No hole is a micrometer wide or deep.
            (true, false) => Meant::Thousands,
            (_, _) if decimal => Meant::Decimal,
            (true, true) => Meant::Unknown,
            (false, _) if self.semicolons && !self.points && !self.large => Meant::Decimal,
            // No small hole is a meter wide.
            (false, _) if meaning == SIZE && !self.points && !self.large => Meant::DecimalTold,
            (false, _) => Meant::Unknown,
        }
    }
}

const SIZE: Meaning = Meaning::Ours(Column::Size);

/// What a comma in doubt means.
enum Meant {
    Decimal,
    DecimalTold,
    Thousands,
    Unknown,
}

/// The first number of a cell whose one comma may group its digits: `1,200`, and not `0,800`.
fn in_doubt(cell: &str) -> Option<Range<usize>> {
    let of_number = |byte: u8| byte.is_ascii_digit() || matches!(byte, b'.' | b',');
    let bytes = cell.as_bytes();
    let mut from = 0;
    while let Some(begins) = (from..bytes.len()).find(|at| of_number(bytes[*at])) {
        let ends = (begins..bytes.len()).find(|at| !of_number(bytes[*at]));
        let number = begins..ends.unwrap_or(bytes.len());
        if let Some((whole, part)) = cell.get(number.clone()).and_then(|all| all.split_once(','))
            && (1..=3).contains(&whole.len())
            && !whole.starts_with('0')
            && part.len() == 3
            && !whole.contains('.')
            && !part.contains(['.', ','])
        {
            return Some(number);
        }
        from = number.end;
    }
    None
}
