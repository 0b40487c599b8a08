//! Hatching: parallel lines inside an outline.

use crate::page::{Page, Stroke};

/// Hatches an outline with lines `spacing` points apart, rising to the right or falling.
pub fn hatch(page: &mut Page, outline: &[(f64, f64)], spacing: f64, rising: bool, stroke: Stroke) {
    let sign = if rising { 1.0 } else { -1.0 };
    // A line at 45 degrees is where x + sign * y is constant.
    let level = |(x, y): (f64, f64)| x + sign * y;
    let least = outline
        .iter()
        .map(|point| level(*point))
        .fold(f64::INFINITY, f64::min);
    let most = outline
        .iter()
        .map(|point| level(*point))
        .fold(f64::NEG_INFINITY, f64::max);
    if !(least.is_finite() && most.is_finite() && spacing > 0.0) {
        return;
    }
    let step = spacing * std::f64::consts::SQRT_2;
    let mut at = least + step / 2.0;
    while at < most {
        let mut met = crossings(outline, at, sign);
        if met.len() > 2 {
            met.sort_by(|a, b| a.0.total_cmp(&b.0));
        }
        for inside in met.chunks_exact(2) {
            page.line(inside[0], inside[1], stroke);
        }
        at += step;
    }
}

/// Where the line meets the outline: as often in as out.
fn crossings(outline: &[(f64, f64)], at: f64, sign: f64) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    for (index, &from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        let (a, b) = (from.0 + sign * from.1 - at, to.0 + sign * to.1 - at);
        if (a < 0.0) == (b < 0.0) {
            continue;
        }
        let share = a / (a - b);
        found.push((
            from.0 + share * (to.0 - from.0),
            from.1 + share * (to.1 - from.1),
        ));
    }
    found
}
