//! Choices read off bytes, so that every sequence of them is a case that can be kept.

/// Texts that mean something to some reader, or nearly so, or are more than it can hold.
pub const TEXTS: &[&str] = &[
    "",
    " ",
    "A",
    "B",
    "36x",
    "36",
    "1",
    "0",
    "-1",
    "-0",
    "0.5",
    "1000000",
    "1000001",
    "4294967295",
    "4294967296",
    "99999999999999999999",
    "1e308",
    "-1e308",
    "1e-308",
    "1e400",
    "NaN",
    "inf",
    "0.80 +-0.02",
    "0,8",
    ".031 +.003/-0",
    "3 H7",
    "0.02",
    "#60",
    "0.82 MAX",
    "0.8/0.9",
    "14",
    "12 +-0.2",
    "30",
    "60 from surface",
    "89.9",
    "90",
    "thru",
    "blind",
    "into cavity",
    "flat",
    "R20",
    "yes",
    "no",
    "never",
    "both",
    "one",
    "1.2 Steel + 3",
    "from surface",
    "12.5 kg",
    "2027-01-12",
    "12/01/2027",
    "9999-12-31",
    "-262143-01-01",
    "10 days",
    "nonsense",
    "0,5 mm",
    "1 000 mm",
    "1/32",
    "1/0",
    "1/32\"",
    "\"",
    "\"\"",
    "1,250",
    "$45.50",
    "100 %",
    "-5 %",
    "110 %",
    "0.0001 %",
    "45 %",
    "500000000000",
    "26-0101",
    "26-0101-Q1",
    "26-4294967295",
    "two\nlines",
    "tab\there",
    "\u{1b}[31m",
    "\u{202e}abc",
    "\u{0}",
    "\u{feff}",
    "\u{d8} 0.8",
    "\u{2033}",
    "\u{ff11}",
    "a;b;c;d;e;f",
    "1, 5, 25, 100",
    "SN 1-10000",
    "1-4294967295",
    "718",
    "Nickel alloy 718",
    "Wren",
    "brass",
    "x 10 y 20",
    "10 20 30 0 0 -1",
    "circle 40 x 36",
    "36 on 40 dia",
    "grid 10 x 10 at 5",
];

/// Bytes that are used up by choices; where they end, every choice is the first.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pick<'a> {
    left: &'a [u8],
}

impl<'a> Pick<'a> {
    pub(super) const fn new(bytes: &'a [u8]) -> Self {
        Self { left: bytes }
    }

    pub(super) const fn is_used_up(&self) -> bool {
        self.left.is_empty()
    }

    pub(super) const fn rest(&self) -> &'a [u8] {
        self.left
    }

    pub(super) fn byte(&mut self) -> u8 {
        let Some((first, left)) = self.left.split_first() else {
            return 0;
        };
        self.left = left;
        *first
    }

    pub(super) fn word(&mut self) -> u32 {
        u32::from_le_bytes([self.byte(), self.byte(), self.byte(), self.byte()])
    }

    pub(super) fn below(&mut self, count: usize) -> usize {
        if count <= 256 {
            return usize::from(self.byte()) % count.max(1);
        }
        (usize::from(self.byte()) << 8 | usize::from(self.byte())) % count
    }

    pub(super) fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }

    /// True once in so many times.
    pub(super) fn once_in(&mut self, count: u8) -> bool {
        self.byte() % count == 1
    }

    /// A number of any size, also none.
    pub(super) fn number(&mut self) -> f64 {
        match self.byte() % 8 {
            0..=4 => f64::from(self.word() as i32) / 1e6,
            5 => self.of(&[0.0, -0.0, 1.0, -1.0, 1e-308, 1e308, -1e308, 1e9]),
            6 => self.of(&[f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX]),
            _ => f64::from_bits(u64::from(self.word()) << 32 | u64::from(self.word())),
        }
    }

    /// A text of the list, two of them together, or any.
    pub(super) fn text(&mut self) -> String {
        match self.byte() % 8 {
            0..=4 => self.of(TEXTS).to_owned(),
            5 => format!("{} {}", self.of(TEXTS), self.of(TEXTS)),
            _ => {
                let length = usize::from(self.byte()).min(self.left.len());
                let (text, left) = self.left.split_at(length);
                self.left = left;
                String::from_utf8_lossy(text).into_owned()
            }
        }
    }
}
