//! Rate cards that can't be used as they are typed, and the days that they would be in force.

use chrono::NaiveDate;

use super::rows::Shop;
use crate::ground::stands_in::StandsIn;

/// A rate card that can't be used as it is typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct BadCard {
    /// The day that it is valid from; none where that can't be read.
    pub(super) from: Option<NaiveDate>,
    /// Names of the columns that can't be used, each with the day of the card that it is typed in; none
    /// where all of it can't.
    pub(super) columns: Vec<(&'static str, NaiveDate)>,
}

impl Shop {
    /// What of it is a sample's or an older card's on its day, so that papers would leave under it though
    /// it has its own, or never said one.
    #[must_use]
    pub fn stands_in(&self) -> Vec<StandsIn> {
        let in_force = self.bad_cards.iter().filter(|bad| self.would_count(bad));
        let cards = in_force.map(|bad| StandsIn::Card {
            from: bad.columns.first().map_or(bad.from, |(_, day)| Some(*day)),
            columns: bad.columns.iter().map(|(column, _)| *column).collect(),
        });
        self.samples_say.iter().cloned().chain(cards).collect()
    }

    /// Whether a bad card would be the one in force on the shop's day, were it not bad.
    fn would_count(&self, bad: &BadCard) -> bool {
        // What can't be read may be today.
        let Some(from) = bad.from else {
            return true;
        };
        let counts = match self.day {
            Some(day) => self.rates_on(day),
            None => &self.newest_rates,
        };
        let counts = counts.valid_from;
        match self.day {
            // Before the first one's day, the first one counts.
            Some(day) if day < counts => from <= counts,
            Some(day) => counts <= from && from <= day,
            None => counts <= from,
        }
    }
}
