//! How long a machine works with nobody at it.

/// Share of a part by which one may be unfinished and still count as done.
const NEARLY: f64 = 1e-9;

/// A machine that is left alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unattended {
    /// Minutes that one part takes [min], above 0.
    pub minutes_per_piece: f64,
    /// Parts that are loaded.
    pub pieces: u32,
    /// Electrodes that one part uses up [-], 0 and up.
    pub electrodes_per_piece: f64,
    /// Electrodes at hand without a person: what is in the changer, or the one in the chuck.
    pub electrodes: u32,
    /// Until somebody comes [h], 0 and up.
    pub hours: f64,
}

/// What a machine does that is left alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// How long it works [h].
    pub hours: f64,
    /// Parts that are done.
    pub pieces: u32,
    /// What it stops for.
    pub stops: Stops,
}

/// What a machine that is left alone stops for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stops {
    /// All parts are done.
    Pieces,
    /// No electrode is left.
    Electrodes,
    /// It doesn't: somebody comes before.
    Person,
}

impl Unattended {
    /// How long the machine works and what it gets done.
    ///
    /// Formula: parts begun `n = min(loaded, electrodes / electrodes per part, 60 T / minutes)`; it works
    /// `n minutes / 60`, and the whole ones of n are done. Of two limits that are reached at once the first is
    /// named.
    ///
    /// Result: hours [h], parts done [-] and what it stops for; `None` where a figure is below 0 or none, or a
    /// part takes no time.
    ///
    /// Parts of 50 min that use up 2.5 electrodes each, 30 of them loaded, 20 electrodes in the changer: 8 parts
    /// in 6.67 h of a night of 14:
    ///
    /// ```
    /// use quillbore_calc::head::{Stops, Unattended};
    /// let night = Unattended {
    ///     minutes_per_piece: 50.0, pieces: 30, electrodes_per_piece: 2.5, electrodes: 20, hours: 14.0,
    /// };
    /// let run = night.run().unwrap();
    /// assert_eq!((run.pieces, run.stops), (8, Stops::Electrodes));
    /// assert!((run.hours - 6.667).abs() < 0.0005);
    /// ```
    ///
    /// Source: arithmetic.
    #[must_use]
    pub fn run(&self) -> Option<Run> {
        let counts = |value: f64| value >= 0.0 && value.is_finite();
        let figures = [
            self.minutes_per_piece,
            self.electrodes_per_piece,
            self.hours,
        ];
        if !figures.into_iter().all(counts) || self.minutes_per_piece == 0.0 {
            return None;
        }
        let by_electrodes = if self.electrodes_per_piece > 0.0 {
            f64::from(self.electrodes) / self.electrodes_per_piece
        } else {
            f64::INFINITY
        };
        let by_hours = self.hours * 60.0 / self.minutes_per_piece;
        let limits = [
            (f64::from(self.pieces), Stops::Pieces),
            (by_electrodes, Stops::Electrodes),
            (by_hours, Stops::Person),
        ];
        let least =
            |one: (f64, Stops), other: (f64, Stops)| if other.0 < one.0 { other } else { one };
        let (begun, stops) = limits.into_iter().reduce(least)?;
        Some(Run {
            hours: (begun * self.minutes_per_piece / 60.0).min(self.hours),
            pieces: libm::floor(begun + NEARLY) as u32,
            stops,
        })
    }
}
