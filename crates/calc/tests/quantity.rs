//! Lengths, angles, spreads and limits against their definitions.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use quillbore_calc::quantity::{Angle, Band, Length, Limits, MM_PER_INCH, Pace, Spread, Z90};

fn mm(mm: f64) -> Length {
    Length::from_mm(mm).unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!(
        (found - expected).abs() <= 1e-12 * expected.abs(),
        "{found}, expected {expected}"
    );
}

/// The inch is 25.4 mm exactly (international yard, 1959).
#[test]
fn inches() {
    assert_eq!(Length::from_inch(1.0).unwrap(), mm(MM_PER_INCH));
    assert_eq!(Length::from_inch(36.0).unwrap().mm(), 914.4);
    assert_eq!(mm(12.7).inch(), 0.5);
    // 3/64 inch is 1.190625 mm; the ratio is rounded once.
    assert_eq!(
        Length::from_ratio_mm(3 * 254, 64 * 10).unwrap().mm(),
        1.190_625
    );
    assert_eq!(Length::from_ratio_mm(1, 3).unwrap().mm(), 1.0 / 3.0);
}

#[test]
fn lengths_are_summed_and_compared() {
    assert_eq!(mm(5.0) + mm(1.5), mm(6.5));
    assert_eq!(mm(5.0) - mm(1.5), mm(3.5));
    assert_eq!(-mm(5.0), mm(-5.0));
    assert_eq!(mm(5.0) * 1.5, mm(7.5));
    assert_eq!(mm(6.0) / mm(1.5), 4.0);
    assert_eq!(Length::ZERO, mm(0.0));
    assert!(mm(1.0) < mm(1.5));
}

#[test]
fn what_is_no_number_is_no_length_and_no_angle() {
    for none in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(Length::from_mm(none), None);
        assert_eq!(Length::from_inch(none), None);
        assert_eq!(Angle::from_deg(none), None);
    }
    assert_eq!(Length::from_ratio_mm(1, 0), None);
}

/// A degree is pi/180 (SI brochure, 9th ed., table 8); drawings give the angle from the surface or from
/// its normal, which make a right angle together.
#[test]
fn angles() {
    let of = |deg| Angle::from_deg(deg).unwrap();
    near(of(180.0).rad(), core::f64::consts::PI);
    near(of(1.0).rad(), core::f64::consts::PI / 180.0);
    near(libm::sin(of(30.0).rad()), 0.5);
    assert_eq!(of(30.0).complement(), of(60.0));
    assert_eq!(of(0.0).complement().deg(), 90.0);
    assert_eq!(Angle::ZERO, of(0.0));
}

#[test]
fn limits() {
    let limits = Limits::new(0.78, 0.86);
    near(limits.width(), 0.08);
    near(limits.middle(), 0.82);
    assert_eq!(limits.map(|side| side * 2.0), Limits::new(1.56, 1.72));
}

#[test]
fn bands() {
    let exact = Band::exact(3.0);
    assert_eq!([exact.p10, exact.p50, exact.p90], [3.0; 3]);
    let (p10, p50, p90) = (2.0, 3.0, 5.0);
    let scaled = Band { p10, p50, p90 }.scaled(1.5);
    assert_eq!([scaled.p10, scaled.p50, scaled.p90], [3.0, 4.5, 7.5]);
}

/// A lognormal by its P10 and P90: the median is their geometric middle, the deviation a half of the
/// logarithm of their ratio over 1.2816 (the 90th percentile of the normal distribution, by any table),
/// the mean exp(s^2/2) above the median.
#[test]
fn spreads() {
    let spread = Spread::new(2.0, 8.0).unwrap();
    near(spread.p50(), 4.0);
    let sigma = libm::log(4.0) / 2.0 / 1.281_551_565_544_600_4;
    near(spread.sigma(), sigma);
    near(Z90, 1.281_551_565_544_600_4);
    near(spread.mean(), 4.0 * libm::exp(sigma * sigma / 2.0));
    near(spread.at(0.0), 4.0);
    near(spread.at(Z90), 8.0);
    near(spread.at(-Z90), 2.0);
    near(spread.pick(Pace::Median), 4.0);
    near(spread.pick(Pace::Mean), spread.mean());
    near(spread.pick(Pace::Off(2.0)), 4.0 * libm::exp(2.0 * sigma));
    assert_eq!(spread.scaled(1.5), Spread::new(3.0, 12.0).unwrap());
    let band = spread.band();
    assert_eq!([band.p10, band.p50, band.p90], [2.0, 4.0, 8.0]);
}

/// A spread is widened about its median to a deviation, and never made narrower.
#[test]
fn spreads_are_widened_only() {
    let spread = Spread::new(2.0, 8.0).unwrap();
    for less in [0.0, 0.3, spread.sigma()] {
        assert_eq!(spread.at_least(less), spread);
    }
    let wide = spread.at_least(1.0);
    near(wide.sigma(), 1.0);
    near(wide.p50(), 4.0);
    near(wide.p90, 4.0 * libm::exp(Z90));
    near(wide.p10, 4.0 / libm::exp(Z90));
}

/// Both ends above 0, in their order, and finite; a figure that is known exactly has both alike.
#[test]
fn spreads_that_are_none() {
    for (p10, p90) in [
        (0.0, 1.0),
        (-1.0, 1.0),
        (2.0, 1.0),
        (1.0, f64::INFINITY),
        (f64::NAN, 1.0),
        (1.0, f64::NAN),
    ] {
        assert_eq!(Spread::new(p10, p90), None, "{p10}, {p90}");
    }
    let exact = Spread::new(0.5, 0.5).unwrap();
    assert_eq!((exact.p50(), exact.sigma(), exact.mean()), (0.5, 0.0, 0.5));
}
