//! Inch drill sizes: numbers, letters and fractions of an inch.

use crate::quantity::Length;

/// Number drills 1 to 97, in ten-thousandths of an inch.
///
/// Source: 1 to 80 two lists that agree entry by entry, one of them after ASME B94.11M-1993 (57:
/// one list and a chart); 81 to 97 one public-domain chart of metric, inch and fraction drills,
/// version 2, 2007.
const NUMBERS: [u16; 97] = [
    2280, 2210, 2130, 2090, 2055, 2040, 2010, 1990, 1960, 1935, 1910, 1890, 1850, 1820, 1800, 1770,
    1730, 1695, 1660, 1610, 1590, 1570, 1540, 1520, 1495, 1470, 1440, 1405, 1360, 1285, 1200, 1160,
    1130, 1110, 1100, 1065, 1040, 1015, 995, 980, 960, 935, 890, 860, 820, 810, 785, 760, 730, 700,
    670, 635, 595, 550, 520, 465, 430, 420, 410, 400, 390, 380, 370, 360, 350, 330, 320, 310, 292,
    280, 260, 250, 240, 225, 210, 200, 180, 160, 145, 135, 130, 125, 120, 115, 110, 105, 100, 95,
    91, 87, 83, 79, 75, 71, 67, 63, 59,
];

/// Letter drills A to Z, in ten-thousandths of an inch.
///
/// Source: two lists that agree entry by entry, one of them after ASME B94.11M-1993.
const LETTERS: [u16; 26] = [
    2340, 2380, 2420, 2460, 2500, 2570, 2610, 2660, 2720, 2770, 2810, 2900, 2950, 3020, 3160, 3230,
    3320, 3390, 3480, 3580, 3680, 3770, 3860, 3970, 4040, 4130,
];

/// A drill size by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drill {
    /// A number drill, 97 (thin) to 1.
    Number(u8),
    /// A letter drill, `A` to `Z`, capital.
    Letter(char),
}

impl Drill {
    /// Diameter in ten-thousandths of an inch, exact.
    ///
    /// Formula: looked up.
    ///
    /// Result: diameter [0.0001 in], or `None` for a name that is not in the table.
    ///
    /// ```
    /// use quillbore_calc::standards::drills::Drill;
    /// assert_eq!(Drill::Number(60).ten_thousandths(), Some(400));
    /// assert_eq!(Drill::Letter('E').ten_thousandths(), Some(2500));
    /// assert_eq!(Drill::Number(98).ten_thousandths(), None);
    /// ```
    ///
    /// Source: see the tables; wire gauges are another system.
    #[must_use]
    pub fn ten_thousandths(self) -> Option<u16> {
        match self {
            Self::Number(number) => NUMBERS.get(usize::from(number).checked_sub(1)?).copied(),
            Self::Letter(letter) => {
                let place = u32::from(letter).checked_sub(u32::from('A'))?;
                LETTERS.get(usize::try_from(place).ok()?).copied()
            }
        }
    }

    /// Diameter as an exact ratio of millimeters.
    ///
    /// Formula: `n/10000 in x 25.4 mm/in = 254 n / 100000 mm`.
    ///
    /// Result: numerator and denominator [mm], or `None` for a name that is not in the table.
    ///
    /// ```
    /// use quillbore_calc::standards::drills::Drill;
    /// assert_eq!(Drill::Number(60).ratio_mm(), Some((101_600, 100_000)));
    /// ```
    ///
    /// Source: international inch, 25.4 mm exactly.
    #[must_use]
    pub fn ratio_mm(self) -> Option<(i128, i128)> {
        Some((i128::from(self.ten_thousandths()?) * 254, 100_000))
    }

    /// Diameter as a length.
    ///
    /// Formula: the ratio of [`Drill::ratio_mm`] by one division.
    ///
    /// Result: diameter, or `None` for a name that is not in the table.
    ///
    /// ```
    /// use quillbore_calc::standards::drills::Drill;
    /// assert_eq!(Drill::Number(80).length().unwrap().mm(), 0.3429);
    /// ```
    ///
    /// Source: see the tables.
    #[must_use]
    pub fn length(self) -> Option<Length> {
        let (numerator, denominator) = self.ratio_mm()?;
        Length::from_ratio_mm(numerator, denominator)
    }
}

/// A fraction of an inch in sixty-fourths, as an exact ratio of millimeters.
///
/// Formula: `n/64 in x 25.4 mm/in = 127 n / 320 mm`.
///
/// - `sixty_fourths`: n, 0 and up.
///
/// Result: numerator and denominator [mm].
///
/// ```
/// use quillbore_calc::Length;
/// use quillbore_calc::standards::drills::fraction_ratio_mm;
/// let (numerator, denominator) = fraction_ratio_mm(2); // 1/32 in
/// assert_eq!(Length::from_ratio_mm(numerator, denominator).unwrap().mm(), 0.79375);
/// ```
///
/// Source: international inch, 25.4 mm exactly.
#[must_use]
pub const fn fraction_ratio_mm(sixty_fourths: u32) -> (i128, i128) {
    (sixty_fourths as i128 * 127, 320)
}
