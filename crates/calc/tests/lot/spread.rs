//! The joint draw against closed forms. Its strata leave far less noise than free throws would;
//! the tolerances say how much is taken.

use quillbore_calc::spread::{
    Breakages, DRAWS, Factor, normal_at, normal_below, percentiles, scatter_of_sum, stratified,
    sum_of_parts,
};

#[track_caller]
fn near(computed: f64, expected: f64, tolerance: f64) {
    assert!(
        (computed - expected).abs() <= tolerance,
        "{computed} is not within {tolerance} of {expected}"
    );
}

#[test]
fn normal_deviates_are_the_inverse_of_erfc() {
    // Closed form printed in tables of the normal distribution.
    for (share, z) in [
        (0.5, 0.0),
        (0.9, 1.281_551_565_544_600_4),
        (0.975, 1.959_963_984_540_054),
        (0.999, 3.090_232_306_167_813_5),
    ] {
        near(normal_at(share), z, 1e-13);
        near(normal_at(1.0 - share), -z, 1e-13);
    }
    for share in [1e-12, 1e-6, 0.01, 0.3, 0.77, 0.9999] {
        near(normal_below(normal_at(share)) / share, 1.0, 1e-11);
    }
    assert_eq!(
        (normal_at(0.0), normal_at(1.0)),
        (f64::NEG_INFINITY, f64::INFINITY)
    );
}

#[test]
fn one_lognormal() {
    // Closed form: median 100, deviation 0.3: mean 104.603, deviation 32.100, P10 68.08, P90 146.88.
    let values: Vec<f64> = stratified(7, 10_000)
        .into_iter()
        .map(|z| 100.0 * libm::exp(0.3 * z))
        .collect();
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let variance = values
        .iter()
        .map(|value| (value - mean).powi(2))
        .sum::<f64>();
    near(mean, 104.603, 0.02);
    near((variance / values.len() as f64).sqrt(), 32.100, 0.1);
    let band = percentiles(&values).unwrap();
    near(band.p10, 68.08, 0.02);
    near(band.p50, 100.0, 0.02);
    near(band.p90, 146.88, 0.02);
}

#[test]
fn ten_normals_add_in_squares() {
    // Closed form: ten of mean 5 and deviation 1: P10 45.947, P90 54.053. Free throws of this number
    // have a standard error of 0.054 there; three of them.
    let mut sums = vec![50.0; 10_000];
    for stream in 0..10 {
        for (sum, z) in sums.iter_mut().zip(stratified(stream, 10_000)) {
            *sum += z;
        }
    }
    let band = percentiles(&sums).unwrap();
    near(band.p10, 45.947, 0.162);
    near(band.p90, 54.053, 0.162);
    // P90s are not added: ten of 6.2816 would be 62.8.
    assert!(band.p90 < 10.0 * (5.0 + normal_at(0.9)) - 8.0);
}

#[test]
fn one_triangular() {
    // Closed form by the inverse of its distribution: 2, 3, 7: mean 4, P50 3.8377, P90 5.5858.
    let values: Vec<f64> = stratified(3, 10_000)
        .into_iter()
        .map(|z| {
            let share = normal_below(z);
            if share <= 0.2 {
                2.0 + (share * 5.0).sqrt()
            } else {
                7.0 - ((1.0 - share) * 20.0).sqrt()
            }
        })
        .collect();
    near(values.iter().sum::<f64>() / 10_000.0, 4.0, 0.001);
    let band = percentiles(&values).unwrap();
    near(band.p50, 3.8377, 0.001);
    near(band.p90, 5.5858, 0.001);
}

#[test]
fn streams_are_fixed_and_do_not_go_together() {
    let factors = [
        Factor::Feed,
        Factor::Wear,
        Factor::Handling,
        Factor::Holes,
        Factor::Breakages,
    ];
    let streams: Vec<Vec<f64>> = factors.map(|factor| factor.deviates(DRAWS)).into();
    assert_eq!(streams[0], Factor::Feed.deviates(DRAWS));
    for (at, one) in streams.iter().enumerate() {
        near(one.iter().sum::<f64>(), 0.0, 1e-9);
        near(
            one.iter().map(|z| z * z).sum::<f64>() / DRAWS as f64,
            1.0,
            0.01,
        );
        for other in &streams[at + 1..] {
            // Independent columns of n have a correlation of deviation 1 / sqrt n; three of them.
            let product: f64 = one.iter().zip(other).map(|(a, b)| a * b).sum();
            near(product / DRAWS as f64, 0.0, 3.0 / (DRAWS as f64).sqrt());
        }
    }
}

#[test]
fn percentiles_of_few_and_of_none() {
    assert_eq!(percentiles(&[]), None);
    let one = percentiles(&[4.0]).unwrap();
    assert_eq!((one.p10, one.p50, one.p90), (4.0, 4.0, 4.0));
    let ten: Vec<f64> = (1..=10).map(f64::from).collect();
    let band = percentiles(&ten).unwrap();
    near(band.p10, 1.5, 1e-12);
    near(band.p50, 5.5, 1e-12);
    near(band.p90, 9.5, 1e-12);
}

#[test]
fn many_holes_average_their_scatter() {
    // Moments: 400 alike scatter by a twentieth of one's relative deviation.
    let one = libm::sqrt(libm::expm1(0.15 * 0.15));
    let sum = scatter_of_sum([(400.0, 3.0)], 0.15);
    near(libm::sqrt(libm::expm1(sum * sum)), one / 20.0, 1e-12);
    assert_eq!(scatter_of_sum([], 0.15), 0.0);
}

#[test]
fn breakages_of_a_known_rate_are_binomial() {
    // Binomial sums by hand: 10 at 0.1: P(0..1) 0.7361, P(0..2) 0.9298; 1 at 0.05: P(0) 0.95.
    for (holes, chance, enough) in [(10, 0.1, 2.0), (1, 0.05, 0.0), (1, 0.2, 1.0), (0, 0.2, 0.0)] {
        let known = Breakages::new(holes, chance, 1e9);
        assert_eq!(known.at(0.9), enough, "{holes} at {chance}");
    }
    assert_eq!(Breakages::new(10, f64::NAN, 50.0).at(0.9), 0.0);
    assert_eq!(Breakages::new(10, 0.0, 50.0).at(0.9), 0.0);
}

#[test]
fn breakages_of_an_unknown_rate_are_beta_binomial() {
    // Closed form: a = b = 1 makes every number from 0 to n as likely: 0 to 9 of 10, each 1/11.
    let even = Breakages::new(10, 0.5, 2.0);
    for number in 0..=10 {
        let below = (f64::from(number) + 0.5) / 11.0;
        assert_eq!(even.at(below), f64::from(number));
    }
    // Mean n p, whatever the prior's worth: 500 holes at 2 %.
    let mean = |worth: f64| {
        let lot = Breakages::new(500, 0.02, worth);
        (0..10_000)
            .map(|at| lot.at((f64::from(at) + 0.5) / 10_000.0))
            .sum::<f64>()
            / 10_000.0
    };
    near(mean(50.0), 10.0, 0.02);
    near(mean(1e9), 10.0, 0.02);
    // A rate that is hardly known needs more spares than a known one.
    let spares = |worth| Breakages::new(500, 0.02, worth).at(0.9);
    assert_eq!(spares(1e9), 14.0);
    assert!(spares(50.0) > 20.0, "{}", spares(50.0));
    // A lot too large to count one by one goes on where the counted ones end.
    let large = |holes| Breakages::new(holes, 0.005, 50.0).at(0.9) / holes as f64;
    near(large(1_000_000) / large(20_000), 1.0, 0.001);
}

/// A sum of one part is that part: P10 and P90 are `median exp(-+1.2816 s)`, closed form.
#[test]
fn one_part_keeps_its_own_percentiles() {
    for (median, sigma) in [(100.0, 0.3), (2.5, 0.62), (7.0, 0.05), (0.4, 1.1)] {
        let (low, high) = sum_of_parts(&[(median, sigma)]);
        let factor = libm::exp(1.281_551_565_544_6 * sigma);
        near(low / median * factor, 1.0, 1e-9);
        near(high / median / factor, 1.0, 1e-9);
    }
}

/// Parts that are known move the sum and nothing else.
#[test]
fn known_parts_shift_the_sum() {
    let alone = sum_of_parts(&[(10.0, 0.4)]);
    let moved = sum_of_parts(&[(3.0, 0.0), (10.0, 0.4), (2.0, 0.0)]);
    near(moved.0 - alone.0, 5.0, 1e-9);
    near(moved.1 - alone.1, 5.0, 1e-9);
    assert_eq!(sum_of_parts(&[(3.0, 0.0), (4.0, 0.0)]), (7.0, 7.0));
    assert_eq!(sum_of_parts(&[]), (0.0, 0.0));
}

/// Two unlike lognormals on a grid of 400 by 400 equally likely values each; within the 2 % that the
/// three moments promise.
#[test]
fn two_parts_as_on_a_grid() {
    let values = |median: f64, sigma: f64| -> Vec<f64> {
        let share = |at: u32| (f64::from(at) + 0.5) / 400.0;
        (0..400)
            .map(|at| median * libm::exp(sigma * normal_at(share(at))))
            .collect()
    };
    let [one, other] = [values(10.0, 0.4), values(6.0, 0.6)];
    let sums: Vec<f64> = one
        .iter()
        .flat_map(|a| other.iter().map(move |b| a + b))
        .collect();
    let band = percentiles(&sums).unwrap();
    let (low, high) = sum_of_parts(&[(10.0, 0.4), (6.0, 0.6)]);
    near(low / band.p10, 1.0, 0.02);
    near(high / band.p90, 1.0, 0.02);
}

/// Two strata come out in either order: of a fair shuffle about as often, in 400 within 40 of 200, which
/// is four deviations.
#[test]
fn strata_are_shuffled_fairly() {
    let rising = (0..400)
        .filter(|stream| {
            let z = stratified(*stream, 2);
            z[0] < z[1]
        })
        .count();
    assert!((160..=240).contains(&rising), "{rising}");
    // Of three every order comes, each in one of six: 600 within 45 of 100, more than four deviations.
    let mut orders = std::collections::BTreeMap::new();
    for stream in 0..600 {
        let z = stratified(stream, 3);
        *orders
            .entry([z[0] < z[1], z[1] < z[2], z[0] < z[2]])
            .or_insert(0) += 1;
    }
    assert_eq!(orders.len(), 6);
    assert!(orders.values().all(|count| (55..=145).contains(count)));
}
