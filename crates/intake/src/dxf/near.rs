//! Which circles are near a point, without looking at all of them.

/// A circle seen along z: center, radius.
pub(super) type Spot = ([f64; 2], f64);

/// Circles in a tree: halves by their place along x and y in turn.
pub(super) struct Near {
    spots: Vec<(Spot, usize)>,
    boxes: Vec<Boxed>,
}

/// Where a part of the circles stands.
#[derive(Clone, Copy)]
struct Boxed {
    least: [f64; 2],
    most: [f64; 2],
    largest: f64,
    /// The number of its second half's box; the first half's is the next one.
    second: usize,
}

/// So few are looked at one by one.
const LEAF: usize = 8;

impl Near {
    /// Sorts circles; what is found is told by their numbers in this list.
    pub(super) fn new(spots: &[Spot]) -> Self {
        let mut spots: Vec<(Spot, usize)> = spots.iter().copied().zip(0..).collect();
        let mut boxes = Vec::new();
        // Each part before its halves, and which part a second half belongs to.
        let mut parts = vec![(0, spots.len(), None)];
        while let Some((from, to, second_of)) = parts.pop() {
            let part = &mut spots[from..to];
            let (boxed, number) = (Boxed::of(part), boxes.len());
            if let Some(whole) = second_of.and_then(|whole: usize| boxes.get_mut(whole)) {
                let whole: &mut Boxed = whole;
                whole.second = number;
            }
            boxes.push(boxed);
            if part.len() > LEAF {
                let wide = [0, 1].map(|axis| boxed.most[axis] - boxed.least[axis]);
                let axis = usize::from(wide[1] > wide[0]);
                let middle = part.len() / 2;
                part.select_nth_unstable_by(middle, |a, b| {
                    a.0.0[axis].total_cmp(&b.0.0[axis]).then(a.1.cmp(&b.1))
                });
                parts.push((from + middle, to, Some(number)));
                parts.push((from, from + middle, None));
            }
        }
        Self { spots, boxes }
    }

    /// Calls `found` with each circle whose center is within a distance of a point, `by_rim` or whose rim is;
    /// at most so many, and until it says that it has enough.
    pub(super) fn visit(
        &self,
        at: [f64; 2],
        distance: f64,
        by_rim: bool,
        mut found: impl FnMut(usize) -> bool,
    ) {
        let mut left = MOST_FOUND;
        // Parts, and the number of each one's box.
        let mut parts = vec![(0, self.spots.len(), 0)];
        while let Some((from, to, boxed)) = parts.pop() {
            let Some(reach) = self.boxes.get(boxed) else {
                return;
            };
            let more = if by_rim { reach.largest } else { 0.0 };
            if reach.distance(at) > distance + more {
                continue;
            }
            if to - from > LEAF {
                let middle = from + (to - from) / 2;
                let halves = [(from, middle, boxed + 1), (middle, to, reach.second)];
                let far = |half: &(usize, usize, usize)| {
                    self.boxes
                        .get(half.2)
                        .map_or(0.0, |reach| reach.distance(at))
                };
                // The nearer half first: should there be too many, the far ones are left.
                let [first, second] = &halves;
                if far(first) <= far(second) {
                    parts.extend([*second, *first]);
                } else {
                    parts.extend([*first, *second]);
                }
                continue;
            }
            for (spot, number) in &self.spots[from..to] {
                let apart = libm::hypot(spot.0[0] - at[0], spot.0[1] - at[1]);
                if apart <= distance + if by_rim { spot.1 } else { 0.0 } {
                    left -= 1;
                    if found(*number) || left == 0 {
                        return;
                    }
                }
            }
        }
    }
}

/// More circles than these about one point are no drawing that anybody reads.
const MOST_FOUND: usize = 1_000;

impl Boxed {
    fn of(spots: &[(Spot, usize)]) -> Self {
        let mut boxed = Self {
            least: [f64::INFINITY; 2],
            most: [f64::NEG_INFINITY; 2],
            largest: 0.0,
            second: 0,
        };
        for ((center, radius), _) in spots {
            for (axis, along) in center.iter().enumerate() {
                boxed.least[axis] = boxed.least[axis].min(*along);
                boxed.most[axis] = boxed.most[axis].max(*along);
            }
            boxed.largest = boxed.largest.max(*radius);
        }
        boxed
    }

    fn distance(&self, at: [f64; 2]) -> f64 {
        let out = |axis: usize| {
            (self.least[axis] - at[axis])
                .max(at[axis] - self.most[axis])
                .max(0.0)
        };
        libm::hypot(out(0), out(1))
    }
}

#[cfg(test)]
mod tests {
    use super::Near;

    #[test]
    fn finds_what_a_look_at_all_finds() {
        // A lattice with some of its circles large, and some upon each other.
        let spots: Vec<([f64; 2], f64)> = (0..500_u32)
            .map(|at| {
                let center = [f64::from(at * 7 % 40), f64::from(at * 13 % 23)];
                (center, if at % 50 == 0 { 6.0 } else { 0.5 })
            })
            .collect();
        let near = Near::new(&spots);
        for (at, distance, by_rim) in [
            ([3.0, 4.0], 2.5, false),
            ([20.0, 11.0], 0.0, true),
            ([-5.0, -5.0], 3.0, true),
            ([100.0, 0.0], 1.0, false),
        ] {
            let mut found = Vec::new();
            near.visit(at, distance, by_rim, |number| {
                found.push(number);
                false
            });
            found.sort_unstable();
            let all = spots.iter().enumerate().filter(|(_, (center, radius))| {
                let apart = libm::hypot(center[0] - at[0], center[1] - at[1]);
                apart <= distance + if by_rim { *radius } else { 0.0 }
            });
            let expect: Vec<usize> = all.map(|(number, _)| number).collect();
            assert_eq!(found, expect, "{at:?}");
        }
    }
}
