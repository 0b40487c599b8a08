//! Minutes of sparking against quadrature, limits and printed figures.

use quillbore_calc::Limits;
use quillbore_calc::burn::{
    Cut, CutMinutes, DepthLaw, cut_minutes, feed_at, minutes_between, minutes_over, minutes_to,
    overtravel, retract_minutes, room_behind,
};
use quillbore_calc::entry::{AtEnds, Zone, flat};
use quillbore_calc::span::Span;

/// Simpson's rule over `1/f(z)`, written apart from the closed form.
fn quadrature(feed: f64, from: f64, to: f64, halved: f64, exponent: f64) -> f64 {
    let slowness = |z: f64| (1.0 + pow(z / halved, exponent)) / feed;
    let steps = 20_000;
    let width = (to - from) / f64::from(steps);
    let mut sum = slowness(from) + slowness(to);
    for step in 1..steps {
        let weight = if step % 2 == 1 { 4.0 } else { 2.0 };
        sum += weight * slowness(from + f64::from(step) * width);
    }
    sum * width / 3.0
}

fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}

fn law(tube: f64, s: f64, exponent: f64) -> DepthLaw {
    DepthLaw {
        halved_mm: tube * s,
        exponent,
    }
}

/// Closed form worked by hand: d 0.7, s 80, m 1.5, f0 20.
#[test]
fn printed_minutes() {
    for (depth, printed) in [(14.0, 0.735), (60.0, 4.331), (140.0, 18.068)] {
        let minutes = minutes_to(20.0, depth, law(0.7, 80.0, 1.5));
        assert!((minutes - printed).abs() < 0.0005, "{depth}: {minutes}");
    }
}

#[test]
fn quadrature_agrees() {
    for exponent in [1.0, 1.5, 2.0, 2.7] {
        for (from, to) in [(0.0, 14.0), (0.0, 140.0), (30.0, 31.0), (60.0, 200.0)] {
            let span = Span {
                from_mm: from,
                to_mm: to,
                value: 20.0,
            };
            let closed = minutes_between(span, law(0.7, 80.0, exponent));
            let by_steps = quadrature(20.0, from, to, 0.7 * 80.0, exponent);
            assert!(
                (closed / by_steps - 1.0).abs() < 1e-6,
                "{exponent} {from} {to}"
            );
        }
    }
}

/// The start value's exponent has a way of its own: it must not be another law.
#[test]
fn exponent_one_and_a_half_is_continuous() {
    for depth in [1.0, 14.0, 56.0, 140.0] {
        let at = |exponent| minutes_to(20.0, depth, law(0.7, 80.0, exponent));
        let around = f64::midpoint(at(1.5 - 1e-6), at(1.5 + 1e-6));
        assert!((at(1.5) / around - 1.0).abs() < 1e-9, "{depth}");
    }
}

#[test]
fn a_feed_that_does_not_fall_is_the_limit() {
    assert_eq!(minutes_to(20.0, 140.0, DepthLaw::NONE), 7.0);
    let nearly = minutes_to(20.0, 140.0, law(0.7, 1e9, 1.5));
    assert!((nearly - 7.0).abs() < 1e-6);
    assert_eq!(feed_at(20.0, 140.0, DepthLaw::NONE), 20.0);
}

/// Layers by difference: cutting one material into layers changes nothing, and a layer far down
/// takes the time that quadrature gives it.
#[test]
fn layers_by_difference() {
    let law = law(0.7, 80.0, 1.5);
    let span = |from_mm, to_mm, value| Span {
        from_mm,
        to_mm,
        value,
    };
    let whole = minutes_to(20.0, 140.0, law);
    let cut = minutes_over(
        [
            span(0.0, 3.0, 20.0),
            span(3.0, 90.0, 20.0),
            span(90.0, 140.0, 20.0),
        ],
        law,
    );
    assert!((whole - cut).abs() < 1e-12);
    let mixed = minutes_over([span(0.0, 3.0, 5.0), span(3.0, 140.0, 20.0)], law);
    let by_steps = quadrature(5.0, 0.0, 3.0, 56.0, 1.5) + quadrature(20.0, 3.0, 140.0, 56.0, 1.5);
    assert!((mixed / by_steps - 1.0).abs() < 1e-6);
}

fn sum(parts: CutMinutes) -> f64 {
    parts.entry + parts.full_metal + parts.exit
}

fn even(from_mm: f64, to_mm: f64) -> f64 {
    minutes_between(
        Span {
            from_mm,
            to_mm,
            value: 1.0,
        },
        DepthLaw::NONE,
    )
}

/// A 1.5 mm wall at 60 degrees from the normal, d 0.8, zone feed one half: as long as 7.157 mm of
/// full metal. Worked by hand: travel 3 + 1.3856, of it full 1.6144, zones twice 1.3856 at half.
#[test]
fn thin_steep_wall() {
    let zone = flat(0.8, 60.0).unwrap();
    let cut = Cut {
        depth_mm: 3.0,
        entry: zone,
        exit: zone,
    };
    assert!((cut.travel_mm() - 4.3856).abs() < 0.00005);
    assert!((cut.full_metal_mm() - 1.6144).abs() < 0.00005);
    let parts = cut_minutes(
        &cut,
        0.5,
        AtEnds {
            entry: 1.0,
            exit: 1.0,
        },
        even,
    );
    assert!((sum(parts) - 7.157).abs() < 0.0005, "{parts:?}");
    assert!((parts.entry - 2.7713).abs() < 0.00005);
    assert!((parts.entry - parts.exit).abs() < 1e-12);
}

/// With no full metal at all every millimeter of travel is at the zone feed.
#[test]
fn no_full_metal_at_all() {
    let zone = flat(2.0, 75.0).unwrap();
    let cut = Cut {
        depth_mm: 1.0,
        entry: zone,
        exit: Zone {
            before_mm: 1.0,
            after_mm: 2.0,
        },
    };
    assert_eq!(cut.full_metal_mm(), 0.0);
    let parts = cut_minutes(
        &cut,
        0.25,
        AtEnds {
            entry: 1.0,
            exit: 1.0,
        },
        even,
    );
    assert_eq!(parts.full_metal, 0.0);
    assert!((sum(parts) - cut.travel_mm() / 0.25).abs() < 1e-12);
}

/// At full zone feed a cut takes as long as its travel, whatever the zones.
#[test]
fn full_zone_feed_is_travel() {
    for tilt in [0.0, 20.0, 60.0, 80.0] {
        let zone = flat(0.8, tilt).unwrap();
        let cut = Cut {
            depth_mm: 3.0,
            entry: zone,
            exit: zone.mirrored(),
        };
        let parts = cut_minutes(
            &cut,
            1.0,
            AtEnds {
                entry: 1.0,
                exit: 1.0,
            },
            even,
        );
        assert!((sum(parts) - cut.travel_mm()).abs() < 1e-12, "{tilt}");
    }
}

#[test]
fn square_entry_has_no_zone_minutes() {
    let cut = Cut {
        depth_mm: 10.0,
        entry: Zone::NONE,
        exit: Zone::NONE,
    };
    let parts = cut_minutes(
        &cut,
        0.5,
        AtEnds {
            entry: 1.0,
            exit: 1.0,
        },
        even,
    );
    assert_eq!(
        (parts.entry, parts.full_metal, parts.exit),
        (0.0, 10.0, 0.0)
    );
}

/// Common practice, no source: the larger of 1 mm and 2 to 3 diameters, less than the back allows.
#[test]
fn overtravel_and_back_wall() {
    assert_eq!(overtravel(0.4, 1.0, 2.5), 1.0);
    assert_eq!(overtravel(1.0, 1.0, 2.5), 2.5);
    assert_eq!(room_behind(2.5, 0.5, 3.0), (2.5, None));
    assert_eq!(room_behind(2.5, 0.6, 3.0), (2.5, Some(3.1)));
    assert_eq!(room_behind(2.5, 0.5, 0.0), (0.0, Some(3.0)));
}

/// Zones of unlike length share a wall that is thinner than both by their lengths; by hand.
#[test]
fn unlike_zones() {
    let cut = |depth_mm, entered, leaves| Cut {
        depth_mm,
        entry: Zone {
            before_mm: 0.0,
            after_mm: entered,
        },
        exit: Zone {
            before_mm: leaves,
            after_mm: 0.0,
        },
    };
    assert_eq!(cut(10.0, 1.0, 2.0).bounds_mm(), Limits::new(1.0, 8.0));
    assert_eq!(cut(3.0, 1.0, 2.0).bounds_mm(), Limits::new(1.0, 1.0));
    assert_eq!(cut(1.0, 1.0, 3.0).bounds_mm(), Limits::new(0.25, 0.25));
    assert_eq!(cut(10.0, 1.0, 2.0).full_metal_mm(), 7.0);
    assert_eq!(cut(1.0, 1.0, 3.0).full_metal_mm(), 0.0);
}

/// A zone that lies outside the face alone takes its minutes too: 1 mm at 2 mm/min, half of it in the zone,
/// is one minute, and 0.5 mm at 1 mm/min at the exit another.
#[test]
fn zones_outside_the_faces() {
    let even = |from: f64, to: f64| to - from;
    let cut = Cut {
        depth_mm: 10.0,
        entry: Zone {
            before_mm: 1.0,
            after_mm: 0.0,
        },
        exit: Zone {
            before_mm: 0.0,
            after_mm: 0.5,
        },
    };
    let parts = cut_minutes(
        &cut,
        0.5,
        AtEnds {
            entry: 2.0,
            exit: 1.0,
        },
        even,
    );
    assert_eq!(
        (parts.entry, parts.full_metal, parts.exit),
        (1.0, 10.0, 1.0)
    );
}

/// 250 mm at 1,000 mm/min are a quarter of a minute, 1,500 mm one and a half.
#[test]
fn drawing_back_takes_its_way_at_rapid() {
    assert_eq!(retract_minutes(250.0, 1000.0), 0.25);
    assert_eq!(retract_minutes(1500.0, 1000.0), 1.5);
    assert_eq!(retract_minutes(0.0, 1000.0), 0.0);
}
