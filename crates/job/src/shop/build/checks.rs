//! A row that is looked at, and what its figures must be.

use chrono::NaiveDate;
use quillbore_calc::Limits;

use crate::ground::limits::is_of_a_shop;
use crate::shop::error::ShopError;
use crate::shop::unfit::{FigureNamed, RowUnfit};

/// Which row of which list is looked at.
#[derive(Clone, Copy)]
pub(super) struct At<'a>(pub(super) &'static str, pub(super) &'a str);

impl At<'_> {
    pub(super) fn bad(self, what: RowUnfit) -> ShopError {
        ShopError::Row {
            list: self.0,
            name: self.1.to_owned(),
            what,
        }
    }

    pub(super) fn positive(
        self,
        figure: impl Into<FigureNamed>,
        value: f64,
    ) -> Result<f64, ShopError> {
        if value > 0.0 && value.is_finite() {
            self.within(figure, value)
        } else {
            Err(self.bad(RowUnfit::NotAboveZero {
                figure: figure.into(),
            }))
        }
    }

    fn within(self, figure: impl Into<FigureNamed>, value: f64) -> Result<f64, ShopError> {
        if is_of_a_shop(value) {
            Ok(value)
        } else {
            Err(self.bad(RowUnfit::BeyondAll {
                figure: figure.into(),
            }))
        }
    }

    pub(super) fn not_negative(
        self,
        figure: impl Into<FigureNamed>,
        value: f64,
    ) -> Result<f64, ShopError> {
        if value >= 0.0 && value.is_finite() {
            self.within(figure, value)
        } else {
            Err(self.bad(RowUnfit::BelowZero {
                figure: figure.into(),
            }))
        }
    }

    pub(super) fn share(
        self,
        figure: impl Into<FigureNamed>,
        value: f64,
    ) -> Result<f64, ShopError> {
        if (0.0..=1.0).contains(&value) {
            Ok(value)
        } else {
            Err(self.bad(RowUnfit::NotFromZeroToOne {
                figure: figure.into(),
            }))
        }
    }

    pub(super) fn rising(
        self,
        figure: impl Into<FigureNamed>,
        (low, high): (f64, f64),
    ) -> Result<Limits, ShopError> {
        if low.is_finite() && high.is_finite() && low <= high {
            let figure = figure.into();
            self.within(figure.clone(), low)?;
            self.within(figure, high)?;
            Ok(Limits::new(low, high))
        } else {
            Err(self.bad(RowUnfit::NotRising {
                figure: figure.into(),
            }))
        }
    }

    /// A name that can be spoken of, and a word on where the row comes from.
    pub(super) fn told(self, pedigree: &str) -> Result<(), ShopError> {
        if self.1.trim().is_empty() || self.1.trim() != self.1 {
            return Err(self.bad(RowUnfit::Name));
        }
        if pedigree.trim().is_empty() {
            return Err(self.bad(RowUnfit::PedigreeEmpty));
        }
        Ok(())
    }
}

/// A day as the files write it.
pub(super) fn day(text: &str) -> Option<NaiveDate> {
    NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()
}
