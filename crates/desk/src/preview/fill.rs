//! Fills any outline as triangles: the painter itself fills only convex ones.

use egui::{Color32, Mesh, Pos2, pos2};
use quillbore_paper::page::Rule;

/// Corners that lie closer in height than this are taken for one [points of the screen].
const SAME_HEIGHT: f32 = 0.02;

/// The inside of closed outlines as a mesh of trapezoids between the heights of their corners.
#[must_use]
pub fn filled(outlines: &[Vec<Pos2>], rule: Rule, color: Color32) -> Mesh {
    let mut edges = Vec::new();
    let mut heights = Vec::new();
    for outline in outlines {
        for (i, &a) in outline.iter().enumerate() {
            let b = outline[(i + 1) % outline.len()];
            heights.push(a.y);
            if a.y < b.y {
                edges.push(Edge::new((a, b), 1));
            } else if b.y < a.y {
                edges.push(Edge::new((b, a), -1));
            }
        }
    }
    edges.sort_by(|a, b| a.top.y.total_cmp(&b.top.y));
    heights.sort_by(f32::total_cmp);
    heights.dedup_by(|next, height| *next - *height < SAME_HEIGHT);

    let mut mesh = Mesh::default();
    let mut waiting = edges.into_iter().peekable();
    let mut crossing: Vec<Edge> = Vec::new();
    for band in heights.windows(2) {
        let middle = (band[0] + band[1]) / 2.0;
        crossing.extend(std::iter::from_fn(|| {
            waiting.next_if(|edge| edge.top.y <= middle)
        }));
        crossing.retain(|edge| middle < edge.bottom.y);
        crossing.sort_by(|a, b| a.x_at(middle).total_cmp(&b.x_at(middle)));
        fill_band(&mut mesh, &crossing, rule, (band[0], band[1]), color);
    }
    mesh
}

/// A side of an outline that isn't level.
#[derive(Clone, Copy)]
struct Edge {
    top: Pos2,
    bottom: Pos2,
    /// Which way the outline runs along it: 1 down, -1 up.
    turn: i32,
}

impl Edge {
    fn new((top, bottom): (Pos2, Pos2), turn: i32) -> Self {
        Self { top, bottom, turn }
    }

    fn x_at(&self, y: f32) -> f32 {
        let (top, bottom) = (self.top, self.bottom);
        top.x + (bottom.x - top.x) * (y - top.y) / (bottom.y - top.y)
    }
}

/// Fills between two heights, where no outline has a corner.
fn fill_band(
    mesh: &mut Mesh,
    crossing: &[Edge],
    rule: Rule,
    (top, bottom): (f32, f32),
    color: Color32,
) {
    let mut turns = 0;
    for (index, pair) in crossing.windows(2).enumerate() {
        turns += pair[0].turn;
        let is_inside = match rule {
            Rule::EvenOdd => index % 2 == 0,
            Rule::NonZero => turns != 0,
        };
        if !is_inside {
            continue;
        }
        let first = mesh.vertices.len() as u32;
        for (edge, y) in [
            (pair[0], top),
            (pair[1], top),
            (pair[1], bottom),
            (pair[0], bottom),
        ] {
            mesh.colored_vertex(pos2(edge.x_at(y), y), color);
        }
        mesh.add_triangle(first, first + 1, first + 2);
        mesh.add_triangle(first, first + 2, first + 3);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The area that a mesh covers, by the cross product of each triangle's sides.
    fn area(mesh: &Mesh) -> f32 {
        mesh.indices
            .chunks_exact(3)
            .map(|t| {
                let [a, b, c] = [t[0], t[1], t[2]].map(|i| mesh.vertices[i as usize].pos);
                ((b - a).x * (c - a).y - (b - a).y * (c - a).x).abs() / 2.0
            })
            .sum()
    }

    fn ring(points: &[(f32, f32)]) -> Vec<Pos2> {
        points.iter().map(|&(x, y)| pos2(x, y)).collect()
    }

    #[test]
    fn areas_are_those_of_the_closed_form() {
        let square = ring(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let inner = ring(&[(2.0, 2.0), (6.0, 2.0), (6.0, 6.0), (2.0, 6.0)]);
        let notch = ring(&[(0.0, 0.0), (4.0, 0.0), (2.0, 2.0), (4.0, 4.0), (0.0, 4.0)]);
        let over = ring(&[(5.0, 5.0), (15.0, 5.0), (15.0, 15.0), (5.0, 15.0)]);
        let other_way: Vec<Pos2> = inner.iter().rev().copied().collect();
        let both = |outlines: Vec<Vec<Pos2>>, even_odd, non_zero| {
            [
                (outlines.clone(), Rule::EvenOdd, even_odd),
                (outlines, Rule::NonZero, non_zero),
            ]
        };
        for (outlines, rule, expect) in [
            both(vec![square.clone()], 100.0, 100.0),
            both(vec![square.clone(), inner], 84.0, 100.0),
            both(vec![square.clone(), other_way], 84.0, 84.0),
            both(vec![square, over], 150.0, 175.0),
            both(vec![notch], 12.0, 12.0),
            both(vec![], 0.0, 0.0),
        ]
        .into_iter()
        .flatten()
        {
            let mesh = filled(&outlines, rule, Color32::BLACK);
            assert!(
                (area(&mesh) - expect).abs() < 1e-3,
                "{rule:?} {expect}: {}",
                area(&mesh)
            );
        }
    }
}
