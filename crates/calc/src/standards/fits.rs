//! Hole tolerance classes of ISO 286 by table, for sizes up to 18 mm.

use crate::quantity::{Length, Limits};

/// Upper ends of the size ranges [mm], each "up to and including".
const RANGES_MM: [f64; 4] = [3.0, 6.0, 10.0, 18.0];

/// First grade of [`WIDTHS_UM`].
const FIRST_GRADE: usize = 5;

/// Widths of the grades IT5 to IT14 by range [um].
///
/// Source: ISO 286-1:2010 as reproduced by two tables that agree (IT1 to IT14; IT5 to IT11).
const WIDTHS_UM: [[u16; 10]; 4] = [
    [4, 6, 10, 14, 25, 40, 60, 100, 140, 250],
    [5, 8, 12, 18, 30, 48, 75, 120, 180, 300],
    [6, 9, 15, 22, 36, 58, 90, 150, 220, 360],
    [8, 11, 18, 27, 43, 70, 110, 180, 270, 430],
];

/// Lower deviations EI of the letters by range [um].
///
/// Source: ISO 286-2:2010 as reproduced by nine tables that agree in this range (E in fewer).
const LOWER_UM: [(&str, [u16; 4]); 5] = [
    ("D", [20, 30, 40, 50]),
    ("E", [14, 20, 25, 32]),
    ("F", [6, 10, 13, 16]),
    ("G", [2, 4, 5, 6]),
    ("H", [0, 0, 0, 0]),
];

/// Lower and upper limit of a hole by its ISO 286 class.
///
/// Formula: nominal plus the class's deviations, see [`deviations_um`]. The widths are looked up:
/// the standard's formula does not reproduce its own table.
///
/// - `nominal`: nominal size, above 0 and up to 18 mm.
/// - `class`: letter and grade, for example `H7`: D, E, F, G, H or JS with 5 to 14.
///
/// Result: lower and upper limit, or `None` outside the table.
///
/// ```
/// use quillbore_calc::{Length, Limits};
/// use quillbore_calc::standards::fits::limits;
/// let Limits { lower, upper } = limits(Length::from_mm(4.0).unwrap(), "F8").unwrap();
/// assert!((lower.mm() - 4.010).abs() < 1e-9 && (upper.mm() - 4.028).abs() < 1e-9);
/// ```
///
/// Source: ISO 286-1:2010 and ISO 286-2:2010, from tables that reproduce them.
#[must_use]
pub fn limits(nominal: Length, class: &str) -> Option<Limits<Length>> {
    let Limits { lower, upper } = deviations_um(nominal, class)?;
    Some(Limits::new(
        Length::from_mm(nominal.mm() + lower / 1000.0)?,
        Length::from_mm(nominal.mm() + upper / 1000.0)?,
    ))
}

/// Lower and upper deviation of a hole from its nominal size by its ISO 286 class.
///
/// Formula: EI from the table and `ES = EI + IT`; JS lies `IT/2` either side.
///
/// - `nominal`: nominal size, above 0 and up to 18 mm.
/// - `class`: letter and grade, for example `H7`: D, E, F, G, H or JS with 5 to 14.
///
/// Result: deviations [um], or `None` outside the table. Grade 14 is not used up to 1 mm (memory
/// of a note to the standard's table).
///
/// ```
/// use quillbore_calc::{Length, Limits};
/// use quillbore_calc::standards::fits::deviations_um;
/// let three = Length::from_mm(3.0).unwrap();
/// assert_eq!(deviations_um(three, "H7"), Some(Limits::new(0.0, 10.0)));
/// assert_eq!(deviations_um(three, "JS9"), Some(Limits::new(-12.5, 12.5)));
/// ```
///
/// Source: ISO 286-1:2010 and ISO 286-2:2010, from tables that reproduce them.
#[must_use]
pub fn deviations_um(nominal: Length, class: &str) -> Option<Limits> {
    let size = nominal.mm();
    if size <= 0.0 {
        return None;
    }
    let range = RANGES_MM.iter().position(|most| size <= *most)?;
    let digits = class.find(|c: char| c.is_ascii_digit())?;
    let (letter, grade) = class.split_at(digits);
    let grade = grade_of(grade)?;
    if grade == 14 && size <= 1.0 {
        return None;
    }
    let width = f64::from(*WIDTHS_UM.get(range)?.get(grade.checked_sub(FIRST_GRADE)?)?);
    if letter == "JS" {
        return Some(Limits::new(-width / 2.0, width / 2.0));
    }
    let (_, by_range) = LOWER_UM.iter().find(|(name, _)| *name == letter)?;
    let lower = f64::from(*by_range.get(range)?);
    Some(Limits::new(lower, lower + width))
}

/// A grade written in digits only, without a leading zero or sign.
fn grade_of(text: &str) -> Option<usize> {
    let digits = text.bytes().all(|byte| byte.is_ascii_digit()) && !text.starts_with('0');
    if digits { text.parse().ok() } else { None }
}
