//! Solids of STEP files: ISO 10303-21 with the shapes of AP203, AP214 and AP242.
//!
//! A file's instances are found once and read when something asks for them. A body's holes are found in its
//! own coordinates, once, whatever it is used for in an assembly, and brought to each of its places.

mod args;
mod bends;
mod body;
mod bottom;
mod broken;
mod curve;
mod depth;
mod ends;
mod error;
mod extents;
mod facing;
mod holes;
mod island;
mod motion;
mod patch;
mod places;
mod read_body;
mod read_curve;
mod read_surface;
mod rings;
mod round;
mod scan;
mod shut_in;
mod spline;
mod structure;
mod surface;
mod text;
mod tree;
mod twice;
mod units;
mod vector;
mod wall;
mod walls;

use std::collections::BTreeMap;

pub use error::StepError;

use crate::seen::{Refused, Seen, SeenDepth, SeenHole, SeenSurface, SurfaceKind, Why};
use crate::watch::{Watch, share};
use body::Body;
use extents::{around, flat_outline, reach};
use holes::{Found, holes};
use motion::Motion;
use places::{Placed, places};
use read_body::{Budget, shells};
use read_curve::Reading;
use scan::Exchange;
use units::Units;
use vector::Bounds;

/// No drawing or solid shows more holes than this.
const MOST_HOLES: usize = 100_000;

/// How limits of a size are written.
const LIMITS: &str = "PLUS_MINUS_TOLERANCE";

/// The share of the work that finding the instances of a file is.
const SCANNED: f64 = 0.4;

/// The holes of the solids in a STEP file; `watch` hears now and then how far it is.
///
/// # Errors
/// What is no STEP file, is cut off, or shows no solid at all. What can't be read of a single face or place
/// is told in [`Seen::refused`].
pub fn read(bytes: &[u8], watch: Watch<'_>) -> Result<Seen, StepError> {
    let file = Exchange::scan(bytes, &|done| watch(SCANNED * done))?;
    let (placed, refused) = places(&file)?;
    if placed.is_empty() && refused.is_empty() {
        return Err(StepError::NoSolid);
    }
    let mut reader = Reader {
        file: &file,
        budget: Budget::of(file.len()),
        seen: Seen {
            refused,
            ..Seen::default()
        },
        bounds: Bounds::EMPTY,
        corners: Vec::new(),
        loose: (0, 0),
        unclosed: (0, 0),
    };
    // A body once, at all of its places; bodies in the order in which they are first placed.
    let mut order: Vec<(u64, Vec<&Placed>)> = Vec::new();
    let mut known: BTreeMap<u64, usize> = BTreeMap::new();
    for place in &placed {
        let at = *known.entry(place.solid).or_insert(order.len());
        if at == order.len() {
            order.push((place.solid, Vec::new()));
        }
        order[at].1.push(place);
    }
    let alone = placed.len() == 1;
    let bodies = order.len();
    for (at, (solid, places)) in order.into_iter().enumerate() {
        let done = SCANNED + (1.0 - SCANNED) * share(at, bodies);
        reader.body(solid, &places, alone, &|| watch(done))?;
    }
    Ok(reader.finish())
}

/// A file while its bodies are read.
struct Reader<'f, 'a> {
    file: &'f Exchange<'a>,
    budget: Budget,
    seen: Seen,
    bounds: Bounds,
    /// Points of the outline around everything, thinned out body by body.
    corners: Vec<[f64; 2]>,
    /// How many faces share no edge with another one, and the number of the first.
    loose: (usize, u64),
    /// How many others have an edge that is no other's, and the number of the first.
    unclosed: (usize, u64),
}

impl Reader<'_, '_> {
    /// Reads a body and takes it up at its places.
    fn body(
        &mut self,
        solid: u64,
        places: &[&Placed],
        alone: bool,
        cancel: &dyn Fn() -> bool,
    ) -> Result<(), StepError> {
        let Some(first) = places.first() else {
            return Ok(());
        };
        if cancel() {
            return Err(StepError::Stopped);
        }
        if self.file.name(solid).starts_with("TESSELLATED") {
            let from = format!("#{solid}");
            self.seen.refused.push(Refused {
                from,
                why: Why::Faceted,
            });
            return Ok(());
        }
        let units = Units::of(self.file, first.representation);
        self.seen.unit_mm = self.seen.unit_mm.or(units.length_mm);
        let reading = Reading::new(self.file, units);
        let shells = shells(&reading, solid);
        let refused = &mut self.seen.refused;
        let body = read_body::body(&reading, solid, &shells, &mut self.budget, refused)?;
        for (count, faces) in [
            (&mut self.loose, &body.loose),
            (&mut self.unclosed, &body.unclosed),
        ] {
            if let Some(first) = faces.first().and_then(|at| body.faces.get(*at)) {
                let number = if count.0 == 0 { first.number } else { count.1 };
                *count = (count.0 + faces.len(), number);
            }
        }
        let mut found = holes(&body, cancel).ok_or(StepError::Stopped)?;
        self.seen.refused.append(&mut found.refused);
        for place in places {
            if cancel() {
                return Err(StepError::Stopped);
            }
            self.take(&body, &found, place, alone);
            if self.seen.holes.len() > MOST_HOLES {
                return Err(StepError::TooMany);
            }
        }
        Ok(())
    }

    /// Takes a body up at one of its places.
    fn take(&mut self, body: &Body, found: &Found, place: &Placed, alone: bool) {
        let motion = &place.motion;
        let holes = found
            .holes
            .iter()
            .map(|hole| moved(hole, motion, &place.name));
        self.seen.holes.extend(holes);
        let reach = reach(body, motion);
        reach.iter().for_each(|p| self.bounds.take(*p));
        if alone && let Some(outline) = flat_outline(body, motion, &self.bounds, &found.faces) {
            self.seen.outline = outline;
            return;
        }
        let mut corners = std::mem::take(&mut self.corners);
        corners.extend(reach.iter().map(|[x, y, _]| [*x, *y]));
        self.corners = around(corners);
    }

    fn finish(mut self) -> Seen {
        let (loose, first) = self.loose;
        let (unclosed, open) = self.unclosed;
        // One alone is a sheet beside the part.
        if loose > 1 {
            let from = format!("#{first}");
            let why = Why::Loose(loose);
            self.seen.refused.push(Refused { from, why });
        } else if unclosed > 0 {
            let from = format!("#{open}");
            let why = Why::NotClosed(unclosed);
            self.seen.refused.push(Refused { from, why });
        }
        let holes = std::mem::take(&mut self.seen.holes);
        self.seen.holes = twice::once(holes, self.bounds.size());
        let limits = self.file.of_kind(LIMITS);
        if let Some(first) = limits.first() {
            let from = format!("#{first}");
            let why = Why::Limits(limits.len());
            self.seen.refused.push(Refused { from, why });
        }
        if !self.bounds.is_empty() {
            self.seen.extents = Some([self.bounds.low, self.bounds.high]);
        }
        if self.seen.outline.is_empty() && !self.corners.is_empty() {
            self.seen.outline = vec![self.corners];
        }
        self.seen
    }
}

/// A hole of a body, brought to a place of the body.
fn moved(hole: &SeenHole, motion: &Motion, group: &str) -> SeenHole {
    let scale = motion.scale;
    let surface = |surface: SeenSurface| SeenSurface {
        kind: match surface.kind {
            SurfaceKind::Cylinder { radius, offset } => SurfaceKind::Cylinder {
                radius: radius * scale,
                offset: offset * scale,
            },
            SurfaceKind::Ball { radius, offset } => SurfaceKind::Ball {
                radius: radius * scale,
                offset: offset * scale,
            },
            SurfaceKind::Bore { radius, offset } => SurfaceKind::Bore {
                radius: radius * scale,
                offset: offset * scale,
            },
            kind @ (SurfaceKind::Flat | SurfaceKind::Other) => kind,
        },
        tilt_deg: surface.tilt_deg,
    };
    SeenHole {
        diameter: hole.diameter * scale,
        // Adding 0 makes one of -0.
        entry: motion.point(hole.entry).map(|part| part + 0.0),
        axis: motion.direction(hole.axis).map(|part| part + 0.0),
        depth: hole.depth.map(|depth| SeenDepth {
            least: depth.least * scale,
            on_axis: depth.on_axis * scale,
            most: depth.most * scale,
        }),
        begins: hole.begins.map(surface),
        leaves: hole.leaves.map(surface),
        behind: hole.behind.map(|behind| behind * scale),
        recess: hole
            .recess
            .map(|recess| recess.map(|length| length * scale)),
        group: group.to_owned(),
        ..hole.clone()
    }
}
