//! Exact ratios of whole numbers: what text means before the one rounding to a float.

use std::cmp::Ordering;

/// A ratio in lowest terms with a positive divisor; every operation that would overflow is `None`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Ratio {
    numerator: i128,
    denominator: i128,
}

impl Ratio {
    pub(crate) const ZERO: Self = Self::whole(0);

    pub(crate) const fn whole(number: i128) -> Self {
        Self {
            numerator: number,
            denominator: 1,
        }
    }

    pub(crate) fn new(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator == 0 {
            return None;
        }
        if denominator == 1 {
            return Some(Self::whole(numerator));
        }
        let divisor = greatest_common_divisor(numerator, denominator)?;
        let sign = denominator.signum();
        Some(Self {
            numerator: (numerator / divisor).checked_mul(sign)?,
            denominator: (denominator / divisor).checked_mul(sign)?,
        })
    }

    pub(crate) fn add(self, other: Self) -> Option<Self> {
        let left = self.numerator.checked_mul(other.denominator)?;
        let right = other.numerator.checked_mul(self.denominator)?;
        Self::new(
            left.checked_add(right)?,
            self.denominator.checked_mul(other.denominator)?,
        )
    }

    pub(crate) fn sub(self, other: Self) -> Option<Self> {
        self.add(other.negated()?)
    }

    pub(crate) fn mul(self, other: Self) -> Option<Self> {
        Self::new(
            self.numerator.checked_mul(other.numerator)?,
            self.denominator.checked_mul(other.denominator)?,
        )
    }

    pub(crate) fn negated(self) -> Option<Self> {
        Some(Self {
            numerator: self.numerator.checked_neg()?,
            denominator: self.denominator,
        })
    }

    /// The number as a whole one, where it is one.
    pub(crate) fn as_whole(self) -> Option<i128> {
        (self.denominator == 1).then_some(self.numerator)
    }

    pub(crate) const fn is_zero(self) -> bool {
        self.numerator == 0
    }

    pub(crate) const fn is_negative(self) -> bool {
        self.numerator < 0
    }

    pub(crate) fn at_least(self, other: Self) -> bool {
        self.compare(other) != Ordering::Less
    }

    pub(crate) fn compare(self, other: Self) -> Ordering {
        let left = self.numerator.checked_mul(other.denominator);
        let right = other.numerator.checked_mul(self.denominator);
        match (left, right) {
            (Some(left), Some(right)) => left.cmp(&right),
            // Only numbers of absurd length come here; their order needs no last digit.
            _ => self.to_f64().total_cmp(&other.to_f64()),
        }
    }

    #[expect(
        clippy::cast_precision_loss,
        reason = "the one rounding of the whole way from text to value"
    )]
    pub(crate) fn to_f64(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }

    pub(crate) const fn parts(self) -> (i128, i128) {
        (self.numerator, self.denominator)
    }
}

fn greatest_common_divisor(left: i128, right: i128) -> Option<i128> {
    let (mut left, mut right) = (left.checked_abs()?, right.checked_abs()?);
    while right != 0 {
        // Nearly all that is typed fits; wide numbers take many times as long to divide.
        (left, right) = match (u64::try_from(left), u64::try_from(right)) {
            (Ok(narrow), Ok(by)) => (right, i128::from(narrow % by)),
            _ => (right, left % right),
        };
    }
    Some(left)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratio(numerator: i128, denominator: i128) -> Ratio {
        Ratio::new(numerator, denominator).unwrap()
    }

    #[test]
    fn lowest_terms_and_a_positive_divisor() {
        assert_eq!(ratio(6, -8).parts(), (-3, 4));
        assert_eq!(ratio(0, -8).parts(), (0, 1));
        assert_eq!(Ratio::new(1, 0), None);
    }

    #[test]
    fn sums_are_exact() {
        assert_eq!(ratio(8, 10).sub(ratio(2, 100)), Some(ratio(78, 100)));
        assert_eq!(ratio(1, 3).add(ratio(1, 6)), Some(ratio(1, 2)));
    }

    #[test]
    fn overflow_is_none_not_a_wrong_number() {
        let huge = Ratio::whole(i128::MAX);
        assert_eq!(huge.add(huge), None);
        assert_eq!(huge.mul(Ratio::whole(2)), None);
        assert_eq!(Ratio::new(i128::MIN, 3), None);
        assert_eq!(Ratio::whole(i128::MIN).negated(), None);
    }

    #[test]
    fn order_by_value() {
        assert!(ratio(1, 2).at_least(ratio(1, 3)));
        assert!(!ratio(-1, 2).at_least(ratio(1, 3)));
        assert_eq!(
            Ratio::whole(i128::MAX).compare(ratio(1, 3)),
            Ordering::Greater
        );
    }
}
