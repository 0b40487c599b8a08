//! Edges laid where their block is placed, and what of them is no circle any more.

use super::drawn::{Arc, As, Drawn, Edge, From, Look, Round};
use super::entity::{Chain, Ellipse, Kind, Line};
use super::place::{Place, Point, add, cross, is_sound, less, sin_cos, times};
use super::round::{Halves, Made, center_of_bulge, of_chain, of_curve};
use crate::seen::{Refused, Why};

/// What is laid so far.
pub(super) struct Lay<'e, 'a> {
    pub(super) drawn: Drawn<'e, 'a>,
    pub(super) refused: Vec<Refused>,
}

/// An edge on its way: where its plane is, how it is drawn, what it is read of.
#[derive(Clone, Copy)]
struct Edging<'a> {
    place: Place,
    look: Look,
    from: From<'a>,
}

impl<'a> Lay<'_, 'a> {
    /// An edge in its own plane, at the place of its block.
    pub(super) fn geometry(
        &mut self,
        kind: &Kind<'_>,
        normal: Point,
        block: &Place,
        look: Look,
        from: From<'a>,
    ) {
        let Some(plane) = Place::of_normal(normal) else {
            self.refuse(from, Why::NotALength);
            return;
        };
        let flat = Edging {
            place: block.after(&plane),
            look,
            from,
        };
        let in_space = Edging {
            place: *block,
            ..flat
        };
        match kind {
            Kind::Circle { center, radius } if *radius > 0.0 => {
                self.whole(Halves::of_circle(*center, *radius), flat, As::Circle);
            }
            Kind::Arc(arc) if arc.radius > 0.0 => {
                let turn = degrees_between(arc.start, arc.end);
                self.part(
                    Halves::of_circle(arc.center, arc.radius),
                    arc.start,
                    turn,
                    flat,
                    true,
                );
            }
            Kind::Ellipse(ellipse) if ellipse.ratio > 0.0 => {
                let Ellipse {
                    center,
                    major,
                    ratio,
                    ..
                } = **ellipse;
                match Halves::of_ellipse(center, major, ratio, normal) {
                    Some(halves) => {
                        let (start, end) = (ellipse.start.to_degrees(), ellipse.end.to_degrees());
                        self.part(halves, start, degrees_between(start, end), in_space, true);
                    }
                    None => self.refuse(from, Why::NotALength),
                }
            }
            Kind::Line(ends) => {
                let [a, b] = ends.map(|end| block.point(end));
                self.edge(a, b, in_space);
            }
            Kind::Chain(chain) => {
                self.chain(chain, if chain.in_space { in_space } else { flat });
            }
            Kind::Curve(points) => match of_curve(points) {
                Some((center, radius, drawn)) => {
                    self.whole(Halves::of_circle(center, radius), in_space, drawn);
                }
                None => {
                    for pair in points.windows(2) {
                        self.edge(block.point(pair[0]), block.point(pair[1]), in_space);
                    }
                }
            },
            // Everything else is none, or was said to be none.
            _ => self.refuse(from, Why::NotALength),
        }
    }

    /// A circle that stands on the sheet while the part stands in the model.
    pub(super) fn on_paper(&mut self, kind: &Kind<'_>, from: From<'a>) {
        if matches!(kind, Kind::Circle { .. }) {
            self.refuse(from, Why::OnPaper);
        }
    }

    fn whole(&mut self, halves: Halves, edging: Edging<'a>, drawn: As) {
        let placed = halves.placed(&edging.place);
        match placed.made() {
            Made::Circle(center, radius, normal) => {
                self.reach(
                    center,
                    normal.map(|along| round_reach(radius, along)),
                    edging.look,
                );
                self.drawn.rounds.push(Round {
                    center,
                    radius,
                    normal,
                    look: edging.look,
                    drawn,
                    from: edging.from,
                    order: self.order(),
                    also: Vec::new(),
                });
            }
            Made::Stretched => {
                self.refuse(edging.from, Why::Stretched);
                self.sampled(placed, 0.0, 360.0, edging);
            }
            Made::NoLength => self.refuse(edging.from, Why::NotALength),
        }
    }

    fn part(&mut self, halves: Halves, start: f64, turn: f64, edging: Edging<'a>, alone: bool) {
        if turn >= 360.0 - WHOLE {
            self.whole(halves, edging, As::Circle);
            return;
        }
        let placed = halves.placed(&edging.place);
        match placed.made() {
            Made::Circle(center, radius, normal) => {
                let begins = placed.toward(start);
                let arc = Arc {
                    center,
                    radius,
                    normal,
                    begins,
                    turn: turn.to_radians(),
                    look: edging.look,
                    from: edging.from,
                    order: self.order(),
                    alone,
                };
                self.reach(add(center, begins), [0.0; 3], edging.look);
                self.reach(
                    add(center, placed.toward(start + turn)),
                    [0.0; 3],
                    edging.look,
                );
                for corner in arc.corners() {
                    self.reach([corner[0], corner[1], center[2]], [0.0; 3], edging.look);
                }
                self.drawn.arcs.push(arc);
            }
            Made::Stretched => self.sampled(placed, start, turn, edging),
            Made::NoLength => self.refuse(edging.from, Why::NotALength),
        }
    }

    fn chain(&mut self, chain: &Chain, edging: Edging<'a>) {
        if let Some((center, radius, drawn)) = of_chain(chain) {
            self.whole(Halves::of_circle(center, radius), edging, drawn);
            return;
        }
        for (from, to, bulge) in chain.links() {
            let Some((center, radius)) = center_of_bulge(from, to, bulge) else {
                self.edge(edging.place.point(from), edging.place.point(to), edging);
                continue;
            };
            // An arc runs counterclockwise: one that bulges the other way is begun at its end.
            let begin = less(if bulge > 0.0 { from } else { to }, center);
            let halves = Halves {
                center,
                first: begin,
                second: [-begin[1], begin[0], 0.0],
            };
            let turn = (4.0 * libm::atan(bulge.abs())).to_degrees();
            if radius > 0.0 {
                self.part(halves, 0.0, turn, edging, !chain.closed);
            }
        }
    }

    /// A stretched arc as short edges.
    fn sampled(&mut self, halves: Halves, start: f64, turn: f64, edging: Edging<'a>) {
        const STEPS: u32 = 12;
        let at = |step: u32| {
            let part = f64::from(step) / f64::from(STEPS);
            add(halves.center, halves.toward(start + turn * part))
        };
        for step in 0..STEPS {
            self.edge(at(step), at(step + 1), edging);
        }
    }

    fn edge(&mut self, a: Point, b: Point, edging: Edging<'a>) {
        let look = edging.look;
        if !is_sound(a) || !is_sound(b) {
            self.refuse(edging.from, Why::NotALength);
            return;
        }
        self.reach(a, [0.0; 3], look);
        self.reach(b, [0.0; 3], look);
        if look.shown && look.line == Line::Plain {
            self.drawn.edges.push(Edge {
                ends: [[a[0], a[1]], [b[0], b[1]]],
                look,
            });
        }
    }

    fn reach(&mut self, point: Point, around: Point, look: Look) {
        if is_sound(point) && is_sound(around) && look.shown && look.line != Line::Center {
            self.drawn.reach.take(point, around);
        }
    }

    fn order(&self) -> u32 {
        u32::try_from(self.drawn.rounds.len() + self.drawn.arcs.len()).unwrap_or(u32::MAX)
    }

    fn refuse(&mut self, from: From<'a>, why: Why) {
        let from = self.drawn.path(from);
        self.refused.push(Refused { from, why });
    }
}

/// What of a turn may be missing where an arc is a circle, in degrees.
const WHOLE: f64 = 1e-6;

/// From one angle counterclockwise to another; alike they are a whole turn.
fn degrees_between(start: f64, end: f64) -> f64 {
    let turn = (end - start).rem_euclid(360.0);
    if turn <= WHOLE || !turn.is_finite() {
        360.0
    } else {
        turn
    }
}

/// How far a circle reaches along an axis that its normal leans toward by so much.
fn round_reach(radius: f64, normal: f64) -> f64 {
    radius * (1.0 - normal * normal).max(0.0).sqrt()
}

impl Arc<'_> {
    /// True where it is seen as an arc along z.
    pub(super) fn is_flat(&self) -> bool {
        self.normal[2].abs() > 1.0 - 1e-9
    }

    /// Its two ends, seen along z.
    pub(super) fn ends(&self) -> [[f64; 2]; 2] {
        let (sin, cos) = libm::sincos(self.turn);
        let across = cross(self.normal, self.begins);
        let ends = add(times(self.begins, cos), times(across, sin));
        [self.begins, ends].map(|end| {
            let [x, y, _] = add(self.center, end);
            [x, y]
        })
    }

    /// Where it begins, seen along z, in degrees; counterclockwise whichever way it was drawn.
    pub(super) fn start(&self) -> f64 {
        let start = libm::atan2(self.begins[1], self.begins[0]);
        if self.normal[2] < 0.0 {
            (start - self.turn).to_degrees()
        } else {
            start.to_degrees()
        }
    }

    /// Where it is farthest along x or y.
    pub(super) fn corners(&self) -> Vec<[f64; 2]> {
        if !self.is_flat() {
            return Vec::new();
        }
        let (start, turn) = (self.start(), self.turn.to_degrees());
        let corners = [0.0, 90.0, 180.0, 270.0].into_iter();
        corners
            .filter(|corner| (corner - start).rem_euclid(360.0) < turn)
            .map(|corner| self.at(corner))
            .collect()
    }

    /// The point at an angle in degrees, seen along z.
    pub(super) fn at(&self, degrees: f64) -> [f64; 2] {
        let (sin, cos) = sin_cos(degrees);
        let [x, y, _] = add(self.center, times([cos, sin, 0.0], self.radius));
        [x, y]
    }
}
