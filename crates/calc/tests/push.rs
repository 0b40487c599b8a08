//! Flush against light parts: printed statics, moments edge by edge, and odd parts by hand.
#![expect(
    clippy::unwrap_used,
    reason = "helpers outside of test functions know that their parts stand"
)]

use proptest::prelude::*;
use quillbore_calc::push::{Holding, Part, Pushed, Rest, Support, Turn, held, hole_push_n, plug_n};

type Vector = [f64; 3];

const UP: Vector = [0.0, 0.0, 1.0];
const DOWN: Vector = [0.0, 0.0, -1.0];
const EAST: Vector = [1.0, 0.0, 0.0];
const GRAVITY: f64 = 9.81;

/// A box whose lower face has its middle at zero.
fn centered(size: Vector, mass_kg: f64) -> Part {
    Part {
        corner_mm: [-size[0] / 2.0, -size[1] / 2.0, 0.0],
        size_mm: size,
        mass_kg,
    }
}

fn on(rest: Rest) -> Support {
    Support { up: UP, rest }
}

fn pushed(point_mm: Vector, toward: Vector, push_n: f64) -> Pushed {
    Pushed {
        point_mm,
        toward,
        push_n,
        exit_mm: None,
    }
}

/// The same hole through to the part's lower face at z 0.
fn through(at: [f64; 2], push_n: f64) -> Pushed {
    Pushed {
        exit_mm: Some([at[0], at[1], 0.0]),
        ..pushed([at[0], at[1], 1.0], DOWN, push_n)
    }
}

fn level(part: &Part, rest: Rest, pushes: &[Pushed]) -> Holding {
    held(part, &on(rest), DOWN, pushes).unwrap()
}

/// The greatest push at which a part doesn't tip, by halving.
fn limit(tips: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 1e4);
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if tips(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    low
}

/// Worked by hand, pressure on the hole's area: 7 MPa, 50 bar, and a plug of 12 mm.
#[test]
fn pushes_worked_by_hand() {
    for (bar, hole, newtons, digit) in [
        (70.0, 0.5, 1.374, 0.0005),
        (70.0, 1.0, 5.498, 0.0005),
        (50.0, 0.4, 0.6, 0.05),
        (50.0, 0.6, 1.4, 0.05),
        (50.0, 0.9, 3.2, 0.05),
        (50.0, 1.1, 4.8, 0.05),
        (50.0, 1.6, 10.1, 0.05),
        (50.0, 2.1, 17.3, 0.05),
        (50.0, 3.1, 37.7, 0.05),
        (70.0, 0.15, 0.124, 0.0005),
    ] {
        let found = hole_push_n(bar, hole).unwrap();
        assert!((found - newtons).abs() < digit, "{bar} {hole}: {found}");
    }
    assert!((plug_n(70.0, 12.0).unwrap() - 791.7).abs() < 0.05);
    assert_eq!(hole_push_n(0.0, 1.0), Some(0.0));
}

/// A push over the corner of a square support, 10 N at 20 mm beyond two of its edges against 0.981 N at 20 within
/// them: 180.38 N mm about either. The edge along x is named, whichever way the push lies.
#[test]
fn of_edges_alike_the_first_is_named() {
    let plate = centered([100.0, 100.0, 10.0], 0.1);
    for (x, y) in [(40.0, 40.0), (-40.0, 40.0), (40.0, -40.0), (-40.0, -40.0)] {
        let push = pushed([x, y, 10.0], DOWN, 10.0);
        let tips = level(&plate, Rest::Rectangle([40.0, 40.0]), &[push]).tips;
        let Turn {
            over, moment_n_mm, ..
        } = tips.unwrap();
        assert!((moment_n_mm - 180.38).abs() < 1e-9, "{x} {y}");
        assert_eq!(over, Some([f64::signum(x), 0.0, 0.0]), "{x} {y}");
    }
}

/// GNU FisicaLab manual, Static of solids, example 7: a piece of 3.5 kg, center of mass at 18 cm, lower
/// right corner at 25 cm, force down at 50 cm: F = 9.614 N, N = 43.949 N.
#[test]
fn printed_force_at_which_a_piece_tips() {
    // From -14 to 50 cm its middle is at 18; a support of 14 about that ends at 25.
    let piece = Part {
        corner_mm: [-140.0, 0.0, 0.0],
        size_mm: [640.0, 100.0, 200.0],
        mass_kg: 3.5,
    };
    let tips = |force: f64| {
        let push = pushed([500.0, 50.0, 200.0], DOWN, force);
        level(&piece, Rest::Rectangle([140.0, 100.0]), &[push])
            .tips
            .is_some()
    };
    let force = limit(tips);
    assert!((force - 9.614).abs() < 0.0005, "{force}");
    // At that limit all of both stands on the corner.
    assert!((force + 3.5 * GRAVITY - 43.949).abs() < 0.0005);
}

/// Mississippi State University, statics, friction on a horizontal surface, example 3: W = 250 lb,
/// a = 32 in, b = 72 in, h = 66 in. Worked from these: P = W (a/2) / h = 60.6 lb.
#[test]
fn a_block_pushed_sideways_tips_as_in_the_textbook() {
    let inches = |size: Vector| size.map(|length| length * 25.4);
    let (pound_kg, pound_n) = (0.453_592_37, 0.453_592_37 * GRAVITY);
    let block = centered(inches([32.0, 40.0, 72.0]), 250.0 * pound_kg);
    let push = |pounds: f64| pushed(inches([-16.0, 0.0, 66.0]), EAST, pounds * pound_n);
    let held = |pounds| level(&block, Rest::Face, &[push(pounds)]);
    let force = limit(|pounds| held(pounds).tips.is_some());
    assert!((force - 60.6).abs() < 0.05, "{force}");
    let stop = held(60.0).stop.unwrap();
    assert!((stop.force_n / pound_n - 60.0).abs() < 1e-9);
    assert_eq!((stop.toward, stop.push), (EAST, Some(0)));
}

/// By hand: 30 mm beyond a support of 20, 8 N: 240 - 0.6 kg * 9.81 * 10 = 181.14 N mm; 18.114 N at 10 mm.
#[test]
fn overhang() {
    let bar = centered([100.0, 20.0, 10.0], 0.6);
    let beyond = pushed([-40.0, 5.0, 10.0], DOWN, 8.0);
    let inside = pushed([3.0, 0.0, 10.0], DOWN, 20.0);
    let holding = level(&bar, Rest::Rectangle([20.0, 20.0]), &[inside, beyond]);
    let tips = holding.tips.unwrap();
    assert_eq!((tips.push, tips.over), (Some(1), Some([-1.0, 0.0, 0.0])));
    assert!((tips.moment_n_mm - 181.14).abs() < 1e-9);
    assert!((tips.hold_n - 18.114).abs() < 1e-9);
    // Against twice the push: 480 - 58.86 N mm.
    assert!((holding.clamp_n - 42.114).abs() < 1e-9);
    assert_eq!(holding.stop, None);
}

/// Sides go by the axes in their order, whichever points up, and never beyond the face.
#[test]
fn a_rectangle_lies_along_the_axes() {
    let part = Part {
        corner_mm: [-20.0, -30.0, -40.0],
        size_mm: [40.0, 60.0, 80.0],
        mass_kg: 1.0,
    };
    // A push of 1 N beyond the support's edge along each axis in turn, against 9.81 N.
    let tips = |up: Vector, sides: [f64; 2], at: Vector| {
        let support = Support {
            up,
            rest: Rest::Rectangle(sides),
        };
        let down = up.map(|part| -part);
        let holding = held(&part, &support, down, &[pushed(at, down, 1.0)]).unwrap();
        holding.tips.map_or(0.0, |tips| tips.moment_n_mm)
    };
    let moment = |at: f64, half: f64| at - half - GRAVITY * half;
    let (far, near) = ([2.0, 60.0], [60.0, 2.0]);
    assert!((tips(EAST, far, [0.0, 25.0, 0.0]) - moment(25.0, 1.0)).abs() < 1e-9);
    assert_eq!(tips(EAST, far, [0.0, 0.0, 25.0]), 0.0);
    let north = [0.0, -1.0, 0.0];
    assert!((tips(north, far, [15.0, 0.0, 0.0]) - moment(15.0, 1.0)).abs() < 1e-9);
    assert!((tips(north, near, [0.0, 0.0, 35.0]) - moment(35.0, 1.0)).abs() < 1e-9);
    assert!((tips(UP, near, [0.0, -25.0, 0.0]) - moment(25.0, 1.0)).abs() < 1e-9);
    let wide = tips(UP, [500.0, 2.0], [25.0, 0.0, 0.0]);
    assert_eq!(wide, tips(UP, [40.0, 2.0], [25.0, 0.0, 0.0]));
}

/// No friction: a stop takes all that lies along the support.
#[test]
fn a_stop_takes_the_whole_side_share() {
    let block = centered([100.0, 100.0, 20.0], 5.0);
    let tilted = |degrees: f64| {
        let angle = degrees.to_radians();
        [libm::sin(angle), 0.0, -libm::cos(angle)]
    };
    let push = |degrees, force| pushed([0.0, 0.0, 20.0], tilted(degrees), force);
    let stop =
        |gravity, pushes: &[Pushed]| held(&block, &on(Rest::Face), gravity, pushes).unwrap().stop;
    let one = stop(DOWN, &[push(30.0, 8.0)]).unwrap();
    assert!((one.force_n - 4.0).abs() < 1e-12);
    assert_eq!(one.toward, EAST);
    // Two are never added; the greater stands.
    let two = stop(DOWN, &[push(30.0, 8.0), push(-30.0, 9.0)]).unwrap();
    assert!((two.force_n - 4.5).abs() < 1e-12);
    assert_eq!((two.push, two.toward[0]), (Some(1), -1.0));
    // On a table tilted by 30 degrees half the weight, and what the push adds or takes.
    let weight = 5.0 * GRAVITY / 2.0;
    let alone = stop(tilted(30.0), &[]).unwrap();
    assert!((alone.force_n - weight).abs() < 1e-9);
    let with = stop(tilted(30.0), &[push(-30.0, 3.0), push(30.0, 8.0)]).unwrap();
    assert!((with.force_n - weight - 4.0).abs() < 1e-9);
    assert_eq!((alone.push, with.push), (None, Some(1)));
    // The flush may be off: what it would take away from the weight's share is not counted.
    let against = stop(tilted(30.0), &[push(-30.0, 3.0)]).unwrap();
    assert_eq!(against, alone);
    // As upright as angles are told apart is upright.
    assert_eq!(stop(tilted(0.05), &[push(-0.05, 8.0)]), None);
    assert!(stop(tilted(0.2), &[]).is_some());
}

/// 3 g with a 0.5 mm hole at 70 bar, worked by hand: 1.374 N against 0.0294 N.
#[test]
fn a_part_of_three_grams() {
    let part = centered([10.0, 10.0, 4.0], 0.003);
    let push = hole_push_n(70.0, 0.5).unwrap();
    let weight = 0.003 * GRAVITY;
    let from_above = level(&part, Rest::Face, &[pushed([4.0, 4.0, 4.0], DOWN, push)]);
    assert_eq!((from_above.clamp_n, from_above.stop), (0.0, None));
    // Through its middle it rises straight with what is above the weight.
    let lifts = level(&part, Rest::Face, &[through([0.0, 0.0], push)]);
    let turn = lifts.lifts.unwrap();
    assert_eq!((turn.over, lifts.tips), (None, None));
    assert!((turn.hold_n - (push - weight)).abs() < 1e-12);
    // 2 * 1.3744 - 0.0294
    assert!((lifts.clamp_n - 2.719).abs() < 0.0005);
    // At a corner it rises about the edges across: (1.3744 * 9 - 0.0294 * 5) / 5 = 2.4446.
    let corner = level(&part, Rest::Face, &[through([4.0, 0.0], push)]);
    let turn = corner.lifts.unwrap();
    assert_eq!(turn.over, Some([-1.0, 0.0, 0.0]));
    assert!((turn.moment_n_mm - 12.2226).abs() < 0.0005, "{turn:?}");
    // (2 * 1.3744 * 9 - 0.0294 * 5) / 5
    assert!((corner.clamp_n - 4.9186).abs() < 0.00005);
}

/// A hole lifts only where it opens into the support.
#[test]
fn water_lifts_only_from_the_support() {
    let part = centered([60.0, 40.0, 5.0], 0.1);
    let lifts = |rest, hole: &Pushed| level(&part, rest, &[*hole]).lifts.is_some();
    let hole = through([12.0, 0.0], 20.0);
    assert!(lifts(Rest::Face, &hole));
    assert!(lifts(Rest::Rectangle([24.0, 10.0]), &hole));
    assert!(!lifts(Rest::Rectangle([23.0, 10.0]), &hole));
    assert!(lifts(Rest::Ring(24.0), &hole));
    assert!(!lifts(Rest::Ring(23.0), &hole));
    let above = Pushed {
        exit_mm: Some([12.0, 0.0, 0.1]),
        ..hole
    };
    assert!(!lifts(Rest::Face, &above));
    let closed = Pushed {
        exit_mm: None,
        ..hole
    };
    assert!(!lifts(Rest::Face, &closed));
    // The greater of tipping and lifting is what a clamp is asked for.
    let sideways = pushed([0.0, 0.0, 5.0], EAST, 500.0);
    let both = level(&part, Rest::Face, &[hole, sideways]);
    let (tips, lifts) = (both.tips.unwrap(), both.lifts.unwrap());
    assert!(tips.hold_n > lifts.hold_n);
    // Twice the push asks for twice as much and the weight once more.
    assert!((both.clamp_n - 2.0 * tips.hold_n - 0.1 * GRAVITY).abs() < 1e-9);
    assert_eq!((tips.push, lifts.push), (Some(1), Some(0)));
}

/// 0.5 kg, 100 mm across and 5 thick, on a ring of 20: by hand 30 N at 45 over the ring at 10, less
/// 4.905 N at 10: 1000.95 N mm whichever way the hole lies. And 200 kg, which no flush moves.
#[test]
fn a_disc_on_a_ring_and_a_heavy_block() {
    let disc = centered([100.0, 100.0, 5.0], 0.5);
    for step in 0..16 {
        let angle = f64::from(step) * core::f64::consts::FRAC_PI_8;
        let way = [libm::cos(angle), libm::sin(angle), 0.0];
        let hole = pushed(way.map(|part| part * 45.0), DOWN, 30.0);
        let tips = level(&disc, Rest::Ring(20.0), &[hole]).tips.unwrap();
        assert!((tips.moment_n_mm - 1000.95).abs() < 1e-9);
        assert!((tips.hold_n - 100.095).abs() < 1e-9);
        let over = tips.over.unwrap();
        assert!((dot(over, way) - 1.0).abs() < 1e-12);
    }
    let block = centered([300.0, 300.0, 283.0], 200.0);
    let push = hole_push_n(100.0, 3.1).unwrap();
    let hole = through([140.0, 140.0], push);
    let holding = level(&block, Rest::Face, &[hole]);
    assert_eq!((holding.clamp_n, holding.tips), (0.0, None));
    assert_eq!((holding.lifts, holding.stop), (None, None));
}

#[test]
fn what_nobody_knows_is_none() {
    let part = centered([10.0, 20.0, 30.0], 0.1);
    let hole = pushed([0.0; 3], DOWN, 1.0);
    let face = on(Rest::Face);
    assert!(held(&part, &face, DOWN, &[hole]).is_some());
    let with_up = |up| held(&part, &Support { up, ..face }, DOWN, &[hole]);
    let leaning = |degrees: f64| {
        let angle = degrees.to_radians();
        with_up([libm::sin(angle), 0.0, libm::cos(angle)])
    };
    assert_eq!(leaning(0.09), with_up(UP));
    assert_eq!(leaning(0.11), None);
    for up in [
        [0.0; 3],
        [f64::NAN; 3],
        [0.0, 0.0, f64::INFINITY],
        [1.0, 1.0, 0.0],
    ] {
        assert_eq!(with_up(up), None, "{up:?}");
    }
    for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let light = Part {
            mass_kg: wrong,
            ..part
        };
        assert_eq!(held(&light, &face, DOWN, &[hole]), None, "mass {wrong}");
        for axis in 0..3 {
            let mut flat = part;
            flat.size_mm[axis] = wrong;
            assert_eq!(held(&flat, &face, DOWN, &[hole]), None, "size {wrong}");
        }
        for rest in [
            Rest::Ring(wrong),
            Rest::Rectangle([wrong, 1.0]),
            Rest::Rectangle([1.0, wrong]),
        ] {
            assert_eq!(held(&part, &on(rest), DOWN, &[hole]), None, "{rest:?}");
        }
        assert_eq!(hole_push_n(10.0, wrong), None);
        assert_eq!(plug_n(10.0, wrong), None);
        if wrong != 0.0 {
            let push = pushed([0.0; 3], DOWN, wrong);
            assert_eq!(held(&part, &face, DOWN, &[push]), None, "push {wrong}");
            assert_eq!(hole_push_n(wrong, 1.0), None);
        }
    }
    for wrong in [f64::NAN, f64::INFINITY, 1e308] {
        let off = Part {
            corner_mm: [wrong, 0.0, 0.0],
            ..part
        };
        let far = pushed([0.0, 0.0, wrong], EAST, 10.0);
        assert_eq!(held(&part, &face, DOWN, &[far]), None, "point {wrong}");
        assert!(wrong == 1e308 || held(&off, &face, DOWN, &[]).is_none());
    }
    assert_eq!(held(&part, &face, [0.0; 3], &[hole]), None);
    let nowhere = pushed([0.0; 3], [0.0; 3], 1.0);
    assert_eq!(held(&part, &face, DOWN, &[nowhere]), None);
    assert_eq!(hole_push_n(1e300, 1e300), None);
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Vector, b: Vector) -> Vector {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

fn plus(a: Vector, b: Vector, times: f64) -> Vector {
    [0, 1, 2].map(|axis| a[axis] + b[axis] * times)
}

/// A force at a point.
type Force = (Vector, Vector);

/// Moment of forces about each edge of the support, one edge after another: with the edge itself as
/// axis, written apart from the product. A ring has an edge every 1/20 degree.
fn moments_about_edges(part: &Part, support: &Support, forces: &[Force]) -> Vec<f64> {
    let upright = (0..3)
        .find(|axis| support.up[*axis] != 0.0)
        .unwrap_or_default();
    let (first, second) = ((upright + 1) % 3, (upright + 2) % 3);
    let middle = middle(part, support.up);
    let sides = part.size_mm;
    let (mut along_first, mut along_second) = (sides[first], sides[second]);
    let mut edges: Vec<(Vector, f64)> = Vec::new();
    if let Rest::Ring(diameter) = support.rest {
        for step in 0..7200 {
            let angle = f64::from(step).to_radians() / 20.0;
            let mut way = [0.0; 3];
            (way[first], way[second]) = (libm::cos(angle), libm::sin(angle));
            let radius = diameter.min(along_first).min(along_second) / 2.0;
            edges.push((way, radius));
        }
    } else {
        if let Rest::Rectangle([one, other]) = support.rest {
            let (of_first, of_second) = if first < second {
                (one, other)
            } else {
                (other, one)
            };
            along_first = along_first.min(of_first);
            along_second = along_second.min(of_second);
        }
        for (axis, side) in [(first, along_first), (second, along_second)] {
            for sign in [1.0, -1.0] {
                let mut way = [0.0; 3];
                way[axis] = sign;
                edges.push((way, side / 2.0));
            }
        }
    }
    let about = |(way, arm): &(Vector, f64)| {
        moment_about(plus(middle, *way, *arm), cross(support.up, *way), forces)
    };
    edges.iter().map(about).collect()
}

/// Moment of forces about an axis through a point.
fn moment_about(on_axis: Vector, axis: Vector, forces: &[Force]) -> f64 {
    let moment = |(at, force): &Force| dot(cross(plus(*at, on_axis, -1.0), *force), axis);
    forces.iter().map(moment).sum()
}

/// The middle of a part's lower face.
fn middle(part: &Part, up: Vector) -> Vector {
    let half = [0, 1, 2].map(|axis: usize| up[axis] * part.size_mm[axis] / 2.0);
    plus(plus(part.corner_mm, part.size_mm, 0.5), half, -1.0)
}

/// The weight alone, and with each push and each lift.
fn cases(part: &Part, support: &Support, gravity: Vector, pushes: &[Pushed]) -> Vec<Vec<Force>> {
    let times = |way: Vector, by: f64| way.map(|share| share * by);
    let center = plus(part.corner_mm, part.size_mm, 0.5);
    let weight = (center, times(gravity, part.mass_kg * GRAVITY));
    let mut all = vec![vec![weight]];
    for push in pushes {
        all.push(vec![
            weight,
            (push.point_mm, times(push.toward, push.push_n)),
        ]);
        if let Some(exit) = push.exit_mm {
            all.push(vec![weight, (exit, times(support.up, push.push_n))]);
        }
    }
    all
}

fn direction() -> impl Strategy<Value = Vector> {
    let component = -1.0..1.0_f64;
    [component.clone(), component.clone(), component]
        .prop_filter("has a length", |way| dot(*way, *way) > 0.01)
        .prop_map(|way| way.map(|share| share / libm::sqrt(dot(way, way))))
}

#[derive(Clone, Debug)]
struct Case {
    part: Part,
    support: Support,
    gravity: Vector,
    pushes: Vec<Pushed>,
}

impl Case {
    fn held(&self) -> Holding {
        held(&self.part, &self.support, self.gravity, &self.pushes).unwrap()
    }

    /// What is left over about the edges with a clamp, for each case the worst edge.
    fn left_over(&self, clamp_n: f64) -> Vec<f64> {
        let center = plus(self.part.corner_mm, self.part.size_mm, 0.5);
        let clamp = (center, self.support.up.map(|share| -share * clamp_n));
        cases(&self.part, &self.support, self.gravity, &self.pushes)
            .into_iter()
            .map(|mut forces| {
                forces.push(clamp);
                let moments = moments_about_edges(&self.part, &self.support, &forces);
                moments.into_iter().fold(f64::MIN, f64::max)
            })
            .collect()
    }

    /// The same in a part whose axes are named otherwise and point the other way: axis i of the new one
    /// is axis `order[i]` of this, turned about where `signs` is below 0.
    fn renamed(&self, order: [usize; 3], signs: Vector) -> Self {
        let vector = |v: Vector| [0, 1, 2].map(|axis: usize| v[order[axis]] * signs[axis]);
        let size_mm = order.map(|axis| self.part.size_mm[axis]);
        let corner = vector(self.part.corner_mm);
        let lowest = [0, 1, 2].map(|axis: usize| {
            if signs[axis] < 0.0 {
                corner[axis] - size_mm[axis]
            } else {
                corner[axis]
            }
        });
        let upright = (0..3)
            .find(|axis| self.support.up[*axis] != 0.0)
            .unwrap_or_default();
        let across = |up: usize| [[1, 2], [0, 2], [0, 1]][up];
        let rest = match self.support.rest {
            Rest::Rectangle(sides) => {
                let was = across(upright);
                let is = across(order.iter().position(|axis| *axis == upright).unwrap());
                Rest::Rectangle(is.map(|axis| {
                    let old = order[axis];
                    sides[was.iter().position(|axis| *axis == old).unwrap()]
                }))
            }
            other => other,
        };
        let pushed = |push: &Pushed| Pushed {
            point_mm: vector(push.point_mm),
            toward: vector(push.toward),
            push_n: push.push_n,
            exit_mm: push.exit_mm.map(vector),
        };
        Self {
            part: Part {
                corner_mm: lowest,
                size_mm,
                mass_kg: self.part.mass_kg,
            },
            support: Support {
                up: vector(self.support.up),
                rest,
            },
            gravity: vector(self.gravity),
            pushes: self.pushes.iter().map(pushed).collect(),
        }
    }
}

fn rest() -> impl Strategy<Value = Rest> {
    prop_oneof![
        Just(Rest::Face),
        [2.0..150.0_f64, 2.0..150.0_f64].prop_map(Rest::Rectangle),
        (2.0..150.0_f64).prop_map(Rest::Ring),
    ]
}

prop_compose! {
    /// A part on any of its faces, with holes anywhere in it and exits anywhere on its whole lower face.
    fn case()(
        corner_mm in [-90.0..90.0_f64, -90.0..90.0_f64, -90.0..90.0_f64],
        size_mm in [3.0..200.0_f64, 3.0..200.0_f64, 3.0..200.0_f64],
        mass_kg in 0.002..5.0_f64,
        (axis, sign) in (0_usize..3, prop_oneof![Just(1.0), Just(-1.0)]),
        rest in rest(),
        gravity in prop_oneof![Just(None), direction().prop_map(Some)],
        holes in prop::collection::vec(
            ([0.0..1.0_f64, 0.0..1.0_f64, 0.0..1.0_f64], direction(), 0.0..80.0_f64, any::<bool>()),
            0..5,
        ),
    ) -> Case {
        let mut up = [0.0; 3];
        up[axis] = sign;
        let part = Part { corner_mm, size_mm, mass_kg };
        let whole = matches!(rest, Rest::Face);
        let pushes = holes.into_iter().map(|(share, toward, push_n, opens)| {
            let point_mm = [0, 1, 2].map(|i: usize| corner_mm[i] + share[i] * size_mm[i]);
            let mut exit = point_mm;
            exit[axis] = if sign > 0.0 { corner_mm[axis] } else { corner_mm[axis] + size_mm[axis] };
            Pushed { point_mm, toward, push_n, exit_mm: (opens && whole).then_some(exit) }
        });
        Case {
            part,
            support: Support { up, rest },
            gravity: gravity.unwrap_or(up.map(|share: f64| 0.0 - share)),
            pushes: pushes.collect(),
        }
    }
}

proptest! {
    /// The clamp leaves no moment about any edge under twice the push, half of it none under the push; one of
    /// them just none about the worst.
    #[test]
    fn the_clamp_just_holds(case in case()) {
        let holding = case.held();
        let twice = Case {
            pushes: case.pushes.iter().map(|push| Pushed { push_n: 2.0 * push.push_n, ..*push }).collect(),
            ..case.clone()
        };
        let most = |moments: Vec<f64>| moments.into_iter().fold(f64::MIN, f64::max);
        let [under, over] = [most(case.left_over(holding.clamp_n / 2.0)), most(twice.left_over(holding.clamp_n))];
        let worst = under.max(over);
        // The ring's edges stand 1/20 degree apart.
        let arm = case.part.size_mm.iter().sum::<f64>() * 200.0;
        let near = if matches!(case.support.rest, Rest::Ring(_)) { arm * 1e-6 } else { arm * 1e-12 };
        prop_assert!(worst < arm * 1e-12, "{worst}");
        prop_assert!(holding.clamp_n == 0.0 || worst > -near, "{worst}");
        prop_assert!(holding.clamp_n > 0.0 || most(twice.left_over(0.0)) < arm * 1e-12);
    }

    /// What is told of a turn is the moment of its push about its edge.
    #[test]
    fn moments_are_told_of_the_push_that_makes_them(case in case()) {
        let holding = case.held();
        let asked = [holding.tips, holding.lifts].into_iter().flatten().map(|turn| turn.hold_n);
        prop_assert!(holding.clamp_n >= 2.0 * asked.fold(0.0, f64::max));
        for (turn, lifts) in [(holding.tips, false), (holding.lifts, true)] {
            let Some(turn) = turn else { continue };
            let pushes = turn.push.map(|push| {
                let made = case.pushes[push];
                Pushed { exit_mm: made.exit_mm.filter(|_| lifts), ..made }
            });
            let alone = Case { pushes: pushes.into_iter().collect(), ..case.clone() };
            let forces = cases(&alone.part, &alone.support, alone.gravity, &alone.pushes);
            let way = turn.over.unwrap();
            let on_edge = plus(middle(&case.part, case.support.up), way, turn.moment_n_mm / turn.hold_n);
            let moment = moment_about(on_edge, cross(case.support.up, way), forces.last().unwrap());
            prop_assert!((moment - turn.moment_n_mm).abs() < 1e-6 * (1.0 + moment), "{moment} {turn:?}");
        }
    }

    /// No more pushes up than the clamp, the weight and nothing else push down.
    #[test]
    fn forces_up_are_held_where_moments_are(case in case()) {
        let clamp = case.held().clamp_n / 2.0;
        for forces in cases(&case.part, &case.support, case.gravity, &case.pushes) {
            let up: f64 = forces.iter().map(|(_, force)| dot(*force, case.support.up)).sum();
            prop_assert!(up < clamp + 1e-9, "{up} {clamp}");
        }
    }

    /// Axes named otherwise, mirrored or turned, change nothing.
    #[test]
    fn nothing_depends_on_how_axes_are_named(
        case in case(),
        order in Just([0_usize, 1, 2]).prop_shuffle(),
        signs in [prop_oneof![Just(1.0), Just(-1.0)], prop_oneof![Just(1.0), Just(-1.0)], prop_oneof![Just(1.0), Just(-1.0)]],
    ) {
        let (one, other) = (case.held(), case.renamed(order, signs).held());
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9 * (1.0 + a.abs());
        prop_assert!(near(one.clamp_n, other.clamp_n), "{one:?} {other:?}");
        for (a, b) in [(one.tips, other.tips), (one.lifts, other.lifts)] {
            prop_assert_eq!(a.map(|turn| turn.push), b.map(|turn| turn.push));
            let hold = |turn: Option<Turn>| turn.map_or(0.0, |turn| turn.hold_n);
            prop_assert!(near(hold(a), hold(b)));
        }
        let force = |holding: &Holding| holding.stop.map_or(0.0, |stop| stop.force_n);
        prop_assert!(near(force(&one), force(&other)));
    }

    /// A push straight down on a part that rests on its whole face never tips it nor slides it.
    #[test]
    fn pushes_down_inside_the_support_are_held(case in case()) {
        let down = case.support.up.map(|share| 0.0 - share);
        let straight = |push: &Pushed| Pushed { toward: down, push_n: push.push_n * 1e3, exit_mm: None, ..*push };
        let holding = Case {
            support: Support { rest: Rest::Face, ..case.support },
            gravity: down,
            pushes: case.pushes.iter().map(straight).collect(),
            ..case
        }
        .held();
        prop_assert_eq!((holding.clamp_n, holding.tips, holding.stop), (0.0, None, None));
    }

    /// A part of the push asks for no more than the whole or none of it.
    #[test]
    fn the_whole_push_or_none_is_the_worst(case in case(), share in 0.0..1.0_f64) {
        let whole = case.held();
        let less = |push: &Pushed| Pushed { push_n: push.push_n * share, ..*push };
        let part = Case { pushes: case.pushes.iter().map(less).collect(), ..case }.held();
        prop_assert!(part.clamp_n < whole.clamp_n + 1e-9);
        let force = |holding: &Holding| holding.stop.map_or(0.0, |stop| stop.force_n);
        prop_assert!(force(&part) < force(&whole) + 1e-9);
    }
}

/// Of pushes that ask for as much the first one is named; one of nothing asks for nothing.
#[test]
fn the_first_of_equal_pushes_is_named() {
    const WEST: Vector = [-1.0, 0.0, 0.0];
    let plate = centered([100.0, 60.0, 10.0], 0.5);
    let rest = Rest::Rectangle([40.0, 60.0]);
    let at = |x: f64| pushed([x, 0.0, 10.0], DOWN, 5.0);
    for (ends, over) in [([45.0, -45.0], EAST), ([-45.0, 45.0], WEST)] {
        let tips = level(&plate, rest, &ends.map(at)).tips.unwrap();
        assert_eq!((tips.push, tips.over), (Some(0), Some(over)));
    }
    let side = |toward: Vector| pushed([0.0, 0.0, 0.0], toward, 5.0);
    for ways in [[EAST, WEST], [WEST, EAST]] {
        let stop = level(&plate, Rest::Face, &ways.map(side)).stop.unwrap();
        assert_eq!((stop.push, stop.toward), (Some(0), ways[0]));
    }
    let idle = level(&plate, rest, &[pushed([45.0, 0.0, 10.0], DOWN, 0.0)]);
    assert_eq!((idle.tips, idle.lifts, idle.stop), (None, None, None));
    assert!(idle.clamp_n.abs() < f64::EPSILON);
}
