//! The part's outline among all closed rings of the drawing.

use std::collections::BTreeMap;

use super::drawn::{Arc, Edge, Round};
use super::entity::Line;
use super::notes::{Note, speaks_of_hole};
use super::place::sin_cos;
use super::rings::{Ring, STEP, rings};
use super::sheet::{is_margin, is_paper, is_sheet};

/// What rings are made of, and what stands in them.
pub(super) struct Web<'n, 'a> {
    pub(super) edges: &'n [Edge],
    pub(super) arcs: &'n [Arc<'a>],
    /// Circles that are no holes because holes stand in them.
    pub(super) rounds: &'n [&'n Round<'a>],
    /// Centers of the holes.
    pub(super) holes: &'n [[f64; 2]],
    pub(super) notes: &'n [Note<'n>],
    /// How near ends have to be to meet.
    pub(super) hair: f64,
    /// Least of all edges along x and y.
    pub(super) corner: [f64; 2],
}

/// What the rings of a drawing come to.
#[derive(Default)]
pub(super) struct Outlined {
    /// The outline, its outer ring first; empty where none is found.
    pub(super) rings: Vec<Vec<[f64; 2]>>,
    /// Width and height of what was taken for the frames of sheets.
    pub(super) frames: Vec<[f64; 2]>,
    /// True where the outline is as large as a sheet.
    pub(super) like_paper: bool,
    /// Which ring each hole stands in, by the numbers of the largest rings.
    pub(super) of_hole: Vec<Option<usize>>,
    /// Width and height of the largest rings.
    pub(super) sides: Vec<[f64; 2]>,
}

/// The outline among all rings.
pub(super) fn outline(web: &Web<'_, '_>) -> Outlined {
    let mut all = web.rings_by_layer();
    // The larger first; those of one size in the order of the file.
    all.sort_by(|a, b| b.area.total_cmp(&a.area));
    let mut frames: Vec<Ring> = Vec::new();
    while frames.len() < MOST_LOOKED_AT
        && all.first().is_some_and(|ring| {
            is_frame(ring, &all, web)
                || is_sheet(ring, &all, web)
                || frames.iter().any(|sheet| is_margin(ring, sheet, &all, web))
        })
    {
        frames.push(all.remove(0));
    }
    let mut outlined = Outlined {
        frames: frames.iter().map(Ring::sides).collect(),
        ..Outlined::default()
    };
    outlined.sides = all.iter().take(MOST_LOOKED_AT).map(Ring::sides).collect();
    // Of rings in rings the smallest, which is the last one.
    let ring_of = |hole: &[f64; 2]| {
        let mut looked_at = all.iter().take(MOST_LOOKED_AT);
        looked_at.rposition(|ring| ring.has_in_box(*hole))
    };
    outlined.of_hole = web.holes.iter().map(ring_of).collect();
    let looked_at = all.iter().take(MOST_LOOKED_AT);
    let held = looked_at.map(|ring| web.held(ring));
    // The one with the most holes in it, the largest of them.
    let Some((outer, _)) = held
        .enumerate()
        .max_by(|a, b| a.1.cmp(&b.1).then(b.0.cmp(&a.0)))
    else {
        return outlined;
    };
    let outer = all.remove(outer);
    outlined.like_paper = outer.is_box() && is_paper(outer.sides());
    let mut inner = Vec::new();
    for ring in all.into_iter().take(MOST_INNER) {
        let within = ring.points.first().is_some_and(|point| outer.has(*point));
        if ring.area < outer.area
            && outer.has_in_box(ring.least)
            && outer.has_in_box(ring.most)
            && within
        {
            inner.push(ring.points);
        }
    }
    let mut outline = vec![outer.points];
    outline.append(&mut inner);
    outlined.rings = outline;
    outlined
}

/// Among so many of the largest rings the outline is looked for.
pub(super) const MOST_LOOKED_AT: usize = 24;

/// An outline has no more inner rings.
const MOST_INNER: usize = 1_000;

impl Web<'_, '_> {
    /// Rings of edges that stand on one layer; of all together where that makes none.
    fn rings_by_layer(&self) -> Vec<Ring> {
        let mut by_layer: BTreeMap<u32, (Vec<&Edge>, Vec<&Arc<'_>>)> = BTreeMap::new();
        for edge in self.edges {
            by_layer.entry(edge.look.layer).or_default().0.push(edge);
        }
        let in_sight =
            |arc: &&Arc<'_>| arc.is_flat() && arc.look.shown && arc.look.line == Line::Plain;
        let arcs: Vec<&Arc<'_>> = self.arcs.iter().filter(in_sight).collect();
        for arc in &arcs {
            by_layer.entry(arc.look.layer).or_default().1.push(arc);
        }
        let mut all: Vec<Ring> = by_layer
            .values()
            .flat_map(|(edges, arcs)| rings(edges, arcs, self.hair, self.corner))
            .collect();
        if all.is_empty() && by_layer.len() > 1 {
            let edges: Vec<&Edge> = self.edges.iter().collect();
            all = rings(&edges, &arcs, self.hair, self.corner);
        }
        all.extend(self.rounds.iter().filter_map(|round| ring_of(round)));
        all
    }

    /// How many holes stand in a ring's box.
    pub(super) fn held(&self, ring: &Ring) -> usize {
        let holes = self.holes.iter();
        holes.filter(|hole| ring.has_in_box(**hole)).count()
    }
}

/// A circle as a ring.
fn ring_of(round: &Round<'_>) -> Option<Ring> {
    let [x, y, _] = round.center;
    let steps = (360.0 / STEP) as u32;
    let points = (0..steps).map(|step| {
        let (sin, cos) = sin_cos(f64::from(step) * STEP);
        [x + round.radius * cos, y + round.radius * sin]
    });
    Ring::of(points.collect())
}

/// A sheet's frame: a box with all texts in it, of which several are no callouts, and with another ring that
/// has all of its holes.
fn is_frame(ring: &Ring, all: &[Ring], web: &Web<'_, '_>) -> bool {
    if !ring.is_box() {
        return false;
    }
    let within = web.notes.iter().filter(|note| ring.has_in_box(note.middle));
    let (mut inside, mut others) = (0, 0);
    for note in within {
        inside += 1;
        others += usize::from(!speaks_of_hole(note.says));
    }
    if others < FEWEST_WORDS || inside * 20 < web.notes.len() * 19 {
        return false;
    }
    let held = web.held(ring);
    let smaller = all.iter().filter(|other| other.area < ring.area);
    smaller
        .take(MOST_LOOKED_AT)
        .any(|other| web.held(other) == held && other.area > 0.0)
}

/// A title block has so many texts at least.
const FEWEST_WORDS: usize = 3;
