//! Opening a hole that no tube fits: against counting cells of a grid, and by hand.
#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests stop the test as tests do"
)]

use proptest::prelude::*;
use quillbore_calc::plunge::{Asked, MOST_PLUNGES, Manner, Opening, Way, layered, on_circle, ways};
use quillbore_calc::wear::by_volume;

/// Tube 1.0 with a gap of 0.05: a plunge makes 1.1 mm in two minutes.
fn asked(hole_mm: f64, through: bool) -> Asked {
    Asked {
        hole_mm,
        depth_mm: 10.0,
        through,
        tube_mm: 1.0,
        gap_mm: 0.05,
        plunge_min: 2.0,
        wear: 0.5,
    }
}

fn plunged(hole_mm: f64, through: bool) -> Opening {
    on_circle(&asked(hole_mm, through), Manner::default()).unwrap()
}

#[test]
fn a_tube_that_fits_plunges_once() {
    // 1.0 + 2 x 0.05 and one rounding more.
    for hole in [1.1, 1.0 + 0.05 + 0.05] {
        for through in [true, false] {
            for opening in [
                plunged(hole, through),
                layered(&asked(hole, through), Manner::default()).unwrap(),
            ] {
                assert_eq!((opening.plunges, opening.rings, opening.layers), (1, 1, 0));
                assert_eq!((opening.minutes, opening.wear_mm), (2.0, 5.0));
                assert_eq!(opening.slug_mm, None);
                assert!((opening.metal_share - 1.0).abs() < 1e-12);
            }
        }
    }
}

/// D 3, d 1, g 0.05, c 0.02. By hand: R 1.5, R1 0.55, rc 0.95, w 1.48;
/// cos = (2.1904 + 0.9025 - 0.3025) / 2.812 = 0.99232, half the angle 0.12401, pi / 0.12401 = 25.3.
#[test]
fn a_count_by_hand() {
    let opening = plunged(3.0, true);
    assert_eq!((opening.plunges, opening.rings), (26, 1));
    assert!((opening.slug_mm.unwrap() - 0.8).abs() < 1e-12);
    // The cusp of 26 is within 0.02, that of 25 is not: where two edges cross, from the middle.
    let cusp = |n: f64| {
        let half = core::f64::consts::PI / n;
        let (along, across) = (0.95 * libm::cos(half), 0.95 * libm::sin(half));
        1.5 - along - libm::sqrt(0.55 * 0.55 - across * across)
    };
    assert!(cusp(26.0) <= 0.02 && cusp(25.0) > 0.02);
    // A ring of 0.4 to 1.5 mm but for cusps: (2.25 - 0.16) / 0.3025 = 6.91 plunges' metal.
    assert!((opening.wear_mm / 5.0 - 6.91).abs() < 0.08, "{opening:?}");
    assert!(opening.wear_mm / 5.0 < 6.91);
}

/// What a plunge meets, cell by cell of a grid: the centers are laid out here once more.
fn by_grid(rings: &[(f64, u32)], plunge: f64, hole: f64) -> (Vec<f64>, f64) {
    let cells = 1000;
    let step = hole / f64::from(cells);
    let mut met: Vec<u32> = vec![0; rings.iter().map(|ring| ring.1 as usize).sum()];
    let (mut inside, mut covered) = (0_u32, 0_u32);
    let centers: Vec<[f64; 2]> = rings
        .iter()
        .flat_map(|(radius, n)| {
            (0..*n).map(move |at| {
                let angle = core::f64::consts::TAU * f64::from(at) / f64::from(*n);
                [radius * libm::cos(angle), radius * libm::sin(angle)]
            })
        })
        .collect();
    for row in 0..2 * cells {
        for column in 0..2 * cells {
            let x = (f64::from(column) + 0.5) * step - hole;
            let y = (f64::from(row) + 0.5) * step - hole;
            inside += u32::from(x * x + y * y < hole * hole);
            let first = centers.iter().position(|center| {
                let (dx, dy) = (x - center[0], y - center[1]);
                dx * dx + dy * dy < plunge * plunge
            });
            if let Some(first) = first {
                met[first] += 1;
                covered += 1;
            }
        }
    }
    let whole = core::f64::consts::PI * plunge * plunge / (step * step);
    let shares = met.iter().map(|cells| f64::from(*cells) / whole).collect();
    (shares, f64::from(covered) / f64::from(inside))
}

#[test]
fn areas_are_those_of_a_grid() {
    for (hole, through) in [(3.0, true), (2.0, true), (2.0, false), (1.3, false)] {
        let opening = plunged(hole, through);
        assert_eq!(opening.rings, 1);
        let (shares, metal) = by_grid(&[(hole / 2.0 - 0.55, opening.plunges)], 0.55, hole / 2.0);
        let minutes: f64 = shares.iter().map(|share| 2.0 * share.max(0.2)).sum();
        assert!((opening.minutes / minutes - 1.0).abs() < 2e-3, "{hole}");
        assert!((opening.metal_share - metal).abs() < 5e-4, "{hole}");
        let met: f64 = shares.iter().sum();
        assert!((opening.wear_mm - 5.0 * met).abs() < 0.02, "{hole}");
    }
}

/// All the metal of a blind hole goes but for the cusps, each at most 0.02 high all round.
#[test]
fn nothing_stays_in_a_blind_hole() {
    for hole in [1.15, 1.5, 2.2, 2.3, 3.0, 4.0, 5.5, 8.0, 10.0] {
        let opening = plunged(hole, false);
        assert_eq!(opening.slug_mm, None);
        let radius = hole / 2.0;
        let within = (radius - 0.02) * (radius - 0.02) / (radius * radius);
        assert!(
            opening.metal_share >= within - 1e-9 && opening.metal_share <= 1.0 + 1e-9,
            "{hole}: {opening:?} {within}"
        );
        // The union is the same metal as the wear, whatever the least share makes of minutes.
        let plunges = opening.metal_share * radius * radius / (0.55 * 0.55);
        assert!((opening.wear_mm - 5.0 * plunges).abs() < 1e-9);
    }
}

/// A slug is what a through hole saves: the disc that no plunge reaches.
#[test]
fn a_slug_only_where_the_middle_stays() {
    assert_eq!(plunged(2.2, true).slug_mm, None); // rc = R1: the middle is just met
    assert!((plunged(2.3, true).slug_mm.unwrap() - 0.1).abs() < 1e-9);
    assert!(plunged(2.3, true).minutes < plunged(2.3, false).minutes);
    assert_eq!(plunged(2.2, true).minutes, plunged(2.2, false).minutes);
}

/// One plunge in the middle stays within the cusp; past it there are three, of a least share each.
#[test]
fn the_step_from_one_to_three() {
    let (one, three) = (plunged(1.14, true), plunged(1.1401, true));
    assert_eq!((one.plunges, three.plunges), (1, 3));
    assert_eq!(one.minutes, 2.0);
    assert!((three.minutes - 2.8).abs() < 1e-9);
}

/// A blind hole's middle may be covered by other circles, which share the least shares otherwise: by
/// less than one of them.
#[test]
fn a_wider_hole_never_takes_less() {
    for (through, least_share) in [
        (true, 0.0),
        (true, 0.2),
        (true, 0.5),
        (false, 0.0),
        (false, 0.2),
        (false, 0.5),
    ] {
        let manner = Manner {
            least_share,
            ..Manner::default()
        };
        let allowed = if through { 0.0 } else { 2.0 * least_share };
        let (mut plunges, mut minutes, mut layers) = (0, 0.0, 0.0);
        for step in 0..800 {
            let hole = 1.1 + f64::from(step) * 0.005;
            let both = ways(&asked(hole, through), manner);
            let (on_circle, layered) = (both.on_circle.unwrap(), both.layered.unwrap());
            assert!(on_circle.minutes >= minutes - allowed - 1e-9, "{hole}");
            assert!(on_circle.plunges >= plunges, "{hole}");
            assert!(layered.minutes >= layers, "{hole}");
            (plunges, minutes, layers) = (on_circle.plunges, on_circle.minutes, layered.minutes);
        }
    }
}

/// Seven equal discs cover one of twice their radius, six of them on a circle of sqrt 3 radii: a known
/// optimum. A hole whose middle is a hair smaller takes seven more plunges, a hair larger takes more.
#[test]
fn seven_cover_twice_the_radius() {
    // (rc^2 - R1^2) / (R - c) = 2 R1 with R = rc + R1, solved for R: R^2 - 4 R1 R + 2 R1 c = 0.
    let hole = 2.0 * (1.1 + libm::sqrt(1.1 * 1.1 - 1.1 * 0.02));
    let inner = |hole: f64| plunged(hole, false).plunges - plunged(hole, true).plunges;
    assert_eq!(inner(hole - 1e-4), 7);
    assert_eq!(inner(hole + 1e-4), 8);
    assert_eq!(plunged(hole - 1e-4, false).rings, 3);
}

/// The bore goes out: volume lost by wear by volume, over the tube's section.
#[test]
fn layers_by_volume() {
    let opening = layered(&asked(3.0, false), Manner::default()).unwrap();
    // (1.5 / 0.55)^2 = 7.438; 1 + 6.438 / 0.5 = 13.876 plunges.
    assert!((opening.minutes - 27.752).abs() < 0.0005);
    for bore in [0.0, 0.35] {
        let lost = by_volume(0.5, 1.0, bore, 1.1, 0.0) * 3.0 * 3.0 * 10.0;
        let length = lost / (1.0 - bore * bore);
        assert!((opening.wear_mm - length).abs() < 1e-9);
    }
    assert_eq!((opening.rings, opening.layers), (2, 100)); // 0.95 / 0.55, 10 / 0.1
    assert_eq!(opening.metal_share, 1.0);
}

#[test]
fn the_cheaper_way() {
    let way = |hole, through| {
        let both = ways(&asked(hole, through), Manner::default());
        let cheaper = both.cheaper().unwrap();
        let other = [both.on_circle, both.layered]
            .into_iter()
            .flatten()
            .find(|opening| opening.way != cheaper.way)
            .unwrap();
        assert!(cheaper.minutes <= other.minutes);
        cheaper.way
    };
    assert_eq!(way(1.3, true), Way::Layered);
    assert_eq!(way(3.0, true), Way::OnCircle);
    // What can't be done leaves the other.
    let fine = Manner {
        cusp_mm: 0.0,
        ..Manner::default()
    };
    let both = ways(&asked(3.0, true), fine);
    assert_eq!(both.on_circle, None);
    assert_eq!(both.cheaper(), both.layered);
}

/// A tube far too thin: 0.19 mm plunges in a 12.7 mm hole, 0.02 of cusp, are past the most.
#[test]
fn too_thin_a_tube() {
    let thin = Asked {
        tube_mm: 0.15,
        gap_mm: 0.02,
        depth_mm: 200.0,
        ..asked(12.7, true)
    };
    assert_eq!(on_circle(&thin, Manner::default()), None);
    let opening = plunged(12.7, true);
    assert!(opening.plunges <= MOST_PLUNGES, "{opening:?}");
}

/// A tube that fits takes the same either way: it plunges.
/// Circle by circle there are few enough, all of them together are too many.
#[test]
fn as_many_as_are_allowed_and_no_more() {
    let most = |through: bool| {
        let holes = (150..2_000).map(|hundredths| f64::from(hundredths) / 100.0);
        let openings = holes.filter_map(|hole| on_circle(&asked(hole, through), Manner::default()));
        openings.map(|opening| opening.plunges).max()
    };
    assert_eq!(most(false), Some(MOST_PLUNGES));
    assert_eq!(on_circle(&asked(12.7, false), Manner::default()), None);
    assert!(on_circle(&asked(12.7, true), Manner::default()).is_some());
}

#[test]
fn of_equal_ways_the_plunge() {
    let both = ways(&asked(1.1, true), Manner::default());
    assert_eq!(both.cheaper().unwrap().way, Way::OnCircle);
}

/// A cusp as high as a plunge is wide, a layer of nothing: neither is a manner to work in.
#[test]
fn manners_that_are_none() {
    let manner = |change: &dyn Fn(&mut Manner)| {
        let mut manner = Manner::default();
        change(&mut manner);
        manner
    };
    for hole in [1.1, 3.0] {
        let none = |manner| assert_eq!(on_circle(&asked(hole, true), manner), None, "{manner:?}");
        for bad in [0.0, -0.1, 0.55, 0.6, f64::NAN] {
            none(manner(&|manner| manner.cusp_mm = bad));
        }
        for bad in [-0.1, 1.1, f64::NAN] {
            none(manner(&|manner| manner.least_share = bad));
        }
        for bad in [0.0, -0.1, f64::NAN] {
            let thickness = manner(&|manner| manner.layer_mm = bad);
            assert_eq!(layered(&asked(hole, true), thickness), None, "{hole} {bad}");
            let efficiency = manner(&|manner| manner.efficiency = bad);
            assert_eq!(layered(&asked(hole, true), efficiency), None);
        }
    }
}

/// What is asked with a figure that is none, or with a tube wider than the hole.
#[test]
fn what_is_no_question() {
    let none = |change: &dyn Fn(&mut Asked)| {
        let mut asked = asked(3.0, true);
        change(&mut asked);
        let both = ways(&asked, Manner::default());
        assert_eq!((both.on_circle, both.layered), (None, None), "{asked:?}");
    };
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        none(&|asked| asked.hole_mm = bad);
        none(&|asked| asked.depth_mm = bad);
        none(&|asked| asked.tube_mm = bad);
        none(&|asked| asked.gap_mm = bad);
        none(&|asked| asked.plunge_min = bad);
        none(&|asked| asked.wear = bad);
    }
    none(&|asked| asked.hole_mm = 0.0);
    none(&|asked| asked.depth_mm = 0.0);
    none(&|asked| asked.tube_mm = 0.0);
    none(&|asked| asked.tube_mm = 2.91);
    // Nothing of these is none: a tube without gap and wear that takes no time.
    let easy = Asked {
        gap_mm: 0.0,
        plunge_min: 0.0,
        wear: 0.0,
        ..asked(3.0, true)
    };
    let both = ways(&easy, Manner::default());
    for opening in [both.on_circle.unwrap(), both.layered.unwrap()] {
        assert_eq!((opening.minutes, opening.wear_mm), (0.0, 0.0));
    }
}

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => 0.0..20.0,
        1 => proptest::num::f64::ANY,
        1 => prop_oneof![Just(0.0), Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(-1.0)],
    ]
}

/// A tube as wide as the widest number: its share of the metal is all of it, not a number that is none.
#[test]
fn a_hole_as_wide_as_numbers_go_is_whole() {
    let asked = Asked {
        hole_mm: 1e300,
        depth_mm: 14.72,
        through: false,
        tube_mm: 1e300,
        gap_mm: 0.0,
        plunge_min: 0.0,
        wear: 0.0,
    };
    let opening = on_circle(&asked, Manner::default()).unwrap();
    assert_eq!((opening.metal_share, opening.plunges), (1.0, 1));
}

proptest! {
    #[test]
    fn wild_figures_make_no_wild_openings(
        figures in proptest::array::uniform6(number()),
        manner in proptest::array::uniform4(number()),
        through: bool,
    ) {
        let [hole_mm, depth_mm, tube_mm, gap_mm, plunge_min, wear] = figures;
        let asked = Asked { hole_mm, depth_mm, through, tube_mm, gap_mm, plunge_min, wear };
        let [cusp_mm, least_share, layer_mm, efficiency] = manner;
        let both = ways(&asked, Manner { cusp_mm, least_share, layer_mm, efficiency });
        for opening in [both.on_circle, both.layered].into_iter().flatten() {
            prop_assert!(opening.minutes >= plunge_min && opening.minutes.is_finite());
            prop_assert!(opening.wear_mm >= 0.0 && opening.wear_mm.is_finite());
            prop_assert!(opening.plunges >= 1 && opening.rings >= 1);
            prop_assert!(opening.metal_share > 0.0 && opening.metal_share < 1.0 + 1e-6);
        }
    }
}
