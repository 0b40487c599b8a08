//! Fills any outline by the even-odd rule, as triangles: the painter itself fills only convex ones.

use egui::{Color32, Mesh, Pos2, pos2};

/// The inside of closed outlines as a mesh of trapezoids between the heights of their corners.
#[must_use]
pub fn even_odd(outlines: &[Vec<Pos2>], color: Color32) -> Mesh {
    let mut edges = Vec::new();
    let mut heights = Vec::new();
    for outline in outlines {
        for (i, &a) in outline.iter().enumerate() {
            let b = outline[(i + 1) % outline.len()];
            heights.push(a.y);
            if a.y < b.y {
                edges.push((a, b));
            } else if b.y < a.y {
                edges.push((b, a));
            }
        }
    }
    heights.sort_by(f32::total_cmp);
    heights.dedup();

    let mut mesh = Mesh::default();
    for band in heights.windows(2) {
        fill_band(&mut mesh, &edges, (band[0], band[1]), color);
    }
    mesh
}

/// Fills between two heights, where no outline has a corner.
fn fill_band(mesh: &mut Mesh, edges: &[(Pos2, Pos2)], (top, bottom): (f32, f32), color: Color32) {
    let middle = (top + bottom) / 2.0;
    let mut crossing: Vec<&(Pos2, Pos2)> = edges
        .iter()
        .filter(|(a, b)| a.y < middle && middle < b.y)
        .collect();
    crossing.sort_by(|a, b| x_at(a, middle).total_cmp(&x_at(b, middle)));
    for pair in crossing.chunks_exact(2) {
        let first = mesh.vertices.len() as u32;
        for (edge, y) in [
            (pair[0], top),
            (pair[1], top),
            (pair[1], bottom),
            (pair[0], bottom),
        ] {
            mesh.colored_vertex(pos2(x_at(edge, y), y), color);
        }
        mesh.add_triangle(first, first + 1, first + 2);
        mesh.add_triangle(first, first + 2, first + 3);
    }
}

fn x_at((a, b): &(Pos2, Pos2), y: f32) -> f32 {
    a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)
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
        for (outlines, expect) in [
            (vec![square.clone()], 100.0),
            (vec![square, inner], 84.0),
            (vec![notch], 12.0),
            (vec![], 0.0),
        ] {
            let mesh = even_odd(&outlines, Color32::BLACK);
            assert!(
                (area(&mesh) - expect).abs() < 1e-3,
                "{expect}: {}",
                area(&mesh)
            );
        }
    }
}
