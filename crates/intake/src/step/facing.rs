//! Which way out of the material is, as it looks from outside.

use super::body::Body;
use super::vector::{add, dot, times};

/// Turns the shells whose normals point into the material, as seen from outside of each; `rooms`: the first
/// is the outer one, the others are rooms in it, seen from the material.
pub(super) fn turn_shells(body: &mut Body, shells: usize, rooms: bool) {
    for shell in 0..shells {
        let wanted = if rooms && shell > 0 { -1 } else { 1 };
        if seen_from_outside(body, shell) * wanted < 0 {
            for face in body.faces.iter_mut().filter(|face| face.shell == shell) {
                face.outward = -face.outward;
            }
        }
    }
}

/// Above 0 where a shell's normals point toward who looks at it from outside, below 0 where they point away.
fn seen_from_outside(body: &Body, shell: usize) -> i32 {
    const LOOKS: usize = 9;
    let mut found = 0;
    let faces = body
        .faces
        .iter()
        .enumerate()
        .filter(|(_, face)| face.shell == shell);
    for (at, face) in faces.take(LOOKS) {
        let Some(used) = face.rim.first() else {
            continue;
        };
        let p = body.edges[used.edge].arc.at(0.5);
        let Some(into) = body.way_into(at, used.edge, 0.5) else {
            continue;
        };
        let size = face.bounds.size();
        let inside = face.surface.onto(add(p, times(into, 1e-3 * size)));
        let Some(inside) = inside.filter(|q| body.holds(at, *q)) else {
            continue;
        };
        let Some(out) = body.outward(at, inside) else {
            continue;
        };
        let far = 4.0
            * body.faces.iter().fold(0.0, |most: f64, face| {
                most.max(face.bounds.distance(inside) + face.bounds.size())
            });
        let from = add(inside, times(out, far));
        let hit = body.first_hit_of(from, times(out, -1.0), 0.0, |face| face.shell == shell);
        let normal = hit.and_then(|hit| body.outward(hit.face, add(from, times(out, -hit.t))));
        let cos = normal.map_or(0.0, |normal| dot(normal, out));
        found += i32::from(cos > 1e-6) - i32::from(cos < -1e-6);
    }
    found
}
