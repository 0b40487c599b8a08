//! Bounds within bounds, so that a ray asks few faces.

use super::vector::{Bounds, V};

/// How many things stay together.
const TOGETHER: usize = 4;

/// A tree of bounds.
#[derive(Debug, Default)]
pub(super) struct Tree {
    nodes: Vec<Node>,
    /// The things, those of a leaf beside each other.
    order: Vec<usize>,
}

#[derive(Debug)]
struct Node {
    bounds: Bounds,
    /// From where to where its things stand in the order.
    things: [usize; 2],
    /// Its two halves; `None` of a leaf.
    halves: Option<[usize; 2]>,
}

impl Tree {
    /// The tree over the bounds of things, by their place in the list.
    pub(super) fn new(all: &[Bounds]) -> Self {
        let mut tree = Self {
            nodes: Vec::new(),
            order: (0..all.len()).filter(|at| !all[*at].is_empty()).collect(),
        };
        let whole = [0, tree.order.len()];
        tree.push(all, whole);
        let mut open = vec![0];
        while let Some(node) = open.pop() {
            let [from, to] = tree.nodes[node].things;
            if to - from <= TOGETHER {
                continue;
            }
            let bounds = tree.nodes[node].bounds;
            let width = |axis: &usize| bounds.high[*axis] - bounds.low[*axis];
            let axis = (0..3)
                .max_by(|a, b| width(a).total_cmp(&width(b)))
                .unwrap_or(0);
            let center = |at: &usize| all[*at].low[axis] + all[*at].high[axis];
            let middle = (to - from) / 2;
            tree.order[from..to].select_nth_unstable_by(middle, |a, b| {
                center(a).total_cmp(&center(b)).then(a.cmp(b))
            });
            let first = tree.push(all, [from, from + middle]);
            let second = tree.push(all, [from + middle, to]);
            tree.nodes[node].halves = Some([first, second]);
            open.extend([first, second]);
        }
        tree
    }

    fn push(&mut self, all: &[Bounds], things: [usize; 2]) -> usize {
        let mut bounds = Bounds::EMPTY;
        for at in &self.order[things[0]..things[1]] {
            bounds.join(&all[*at]);
        }
        self.nodes.push(Node {
            bounds,
            things,
            halves: None,
        });
        self.nodes.len() - 1
    }

    /// Tells of what is near a point, the nearer half first; what is told says how near the nearest is.
    pub(super) fn near(&self, q: V, mut tell: impl FnMut(usize) -> f64) {
        let mut nearest = f64::INFINITY;
        let mut open = if self.order.is_empty() {
            Vec::new()
        } else {
            vec![(0.0, 0)]
        };
        while let Some((away, node)) = open.pop() {
            let Some(node) = self.nodes.get(node) else {
                continue;
            };
            if away > nearest * (1.0 + 1e-9) {
                continue;
            }
            match node.halves {
                Some(halves) => {
                    let mut both = halves.map(|at: usize| {
                        let bounds = self.nodes.get(at).map_or(Bounds::EMPTY, |node| node.bounds);
                        (bounds.distance(q), at)
                    });
                    if both[0].0 < both[1].0 {
                        both.reverse();
                    }
                    open.extend(both);
                }
                None => {
                    for at in &self.order[node.things[0]..node.things[1]] {
                        nearest = nearest.min(tell(*at));
                    }
                }
            }
        }
    }

    /// Tells of everything whose bounds a ray meets; what is told says how far the ray still matters.
    pub(super) fn along(&self, p: V, d: V, mut tell: impl FnMut(usize) -> f64) {
        let mut far = f64::INFINITY;
        let mut open = if self.order.is_empty() {
            Vec::new()
        } else {
            vec![0]
        };
        while let Some(node) = open.pop().and_then(|at: usize| self.nodes.get(at)) {
            if !node.bounds.met(p, d, far) {
                continue;
            }
            match node.halves {
                Some(halves) => open.extend(halves),
                None => {
                    for at in &self.order[node.things[0]..node.things[1]] {
                        far = tell(*at);
                    }
                }
            }
        }
    }
}
