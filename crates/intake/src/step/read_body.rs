//! A body as the file writes it: shells, faces, loops, edges, vertices.

use std::collections::{BTreeMap, BTreeSet};

use super::body::{Body, Edge, Face, Use};
use super::curve::{Arc, Curve};
use super::error::StepError;
use super::extents::face_bounds;
use super::facing::turn_shells;
use super::read_curve::{Directed, Reading};
use super::read_surface::Facing;
use super::round::round_patch;
use super::surface::Surface;
use super::tree::Tree;
use super::vector::{Bounds, V, distance, sub, unit};
use crate::seen::{Refused, Why};

/// How many edges faces may use still, and points that their forms may have: more is no part.
pub(super) struct Budget {
    left: usize,
}

/// A body while it is read.
struct Builder<'r, 'f, 'a> {
    reading: &'r Reading<'f, 'a>,
    body: Body,
    /// The edges by their numbers.
    edges: BTreeMap<u64, Result<usize, Why>>,
    /// The faces that are there already.
    faces: BTreeSet<u64>,
    refused: Vec<Refused>,
    /// How many faces are made of straight lines from point to point.
    facets: usize,
    budget: &'r mut Budget,
}

impl Budget {
    /// What a file of so many bytes may ask for.
    pub(super) const fn of(bytes: usize) -> Self {
        Self {
            left: bytes / 2 + 10_000,
        }
    }

    fn take(&mut self, count: usize) -> Result<(), StepError> {
        self.left = self.left.checked_sub(count).ok_or(StepError::TooMany)?;
        Ok(())
    }
}

/// Shells of a body: number, and whether its faces' normals point out of the material.
pub(super) fn shells(reading: &Reading<'_, '_>, solid: u64) -> Vec<(u64, bool)> {
    let file = reading.file;
    let mut open: Vec<(u64, bool)> = match file.name(solid) {
        "SHELL_BASED_SURFACE_MODEL" | "FACE_BASED_SURFACE_MODEL" => {
            let args = file.args(solid, file.name(solid));
            let shells = args
                .map(|args| args.skip(1).references())
                .unwrap_or_default();
            shells.into_iter().map(|shell| (shell, true)).collect()
        }
        name => {
            let mut args = match file.args(solid, name) {
                Some(args) => args.skip(1),
                None => return Vec::new(),
            };
            let outer = args.reference().map(|shell| (shell, true));
            let voids = args.references().into_iter().map(|shell| (shell, true));
            outer.into_iter().chain(voids).collect()
        }
    };
    for (shell, outward) in &mut open {
        // A shell that is turned around names the one that it turns.
        for kind in ["ORIENTED_CLOSED_SHELL", "ORIENTED_OPEN_SHELL"] {
            if let Some(args) = file.args(*shell, kind) {
                let mut args = args.skip(2);
                let inner = args.reference();
                *outward ^= args.flag() == Some(false);
                *shell = inner.unwrap_or(*shell);
            }
        }
    }
    open
}

/// Reads a body of some shells; what of it can't be read is refused by its numbers.
pub(super) fn body(
    reading: &Reading<'_, '_>,
    solid: u64,
    shells: &[(u64, bool)],
    budget: &mut Budget,
    refused: &mut Vec<Refused>,
) -> Result<Body, StepError> {
    let mut builder = Builder {
        reading,
        body: Body::default(),
        edges: BTreeMap::new(),
        faces: BTreeSet::new(),
        refused: Vec::new(),
        facets: 0,
        budget,
    };
    for (at, (shell, outward)) in shells.iter().enumerate() {
        let name = reading.file.name(*shell);
        let faces = reading
            .file
            .args(*shell, name)
            .filter(|_| name.ends_with("SHELL") || name == "CONNECTED_FACE_SET");
        match faces {
            Some(args) => {
                for face in args.skip(1).references() {
                    builder.face(face, at, *outward)?;
                }
            }
            None => builder.refuse(*shell, reading.missing(*shell)),
        }
    }
    if builder.facets > 0 && builder.facets == builder.body.faces.len() {
        builder.refuse(solid, Why::Faceted);
    }
    refused.append(&mut builder.refused);
    let facets = builder.facets;
    let mut body = builder.body;
    if facets == 0 {
        body.loose = body.loose_faces();
        body.unclosed = body.unclosed_faces(&body.loose);
    }
    let all: Vec<Bounds> = body.faces.iter().map(|face| face.bounds).collect();
    body.tree = Tree::new(&all);
    let rooms = reading.file.name(solid) == "BREP_WITH_VOIDS";
    turn_shells(&mut body, shells.len(), rooms);
    Ok(body)
}

impl Builder<'_, '_, '_> {
    fn refuse(&mut self, number: u64, why: Why) {
        let from = format!("#{number}");
        self.refused.push(Refused { from, why });
    }

    fn face(&mut self, mut number: u64, shell: usize, mut outward: bool) -> Result<(), StepError> {
        let file = self.reading.file;
        if let Some(args) = file.args(number, "ORIENTED_FACE") {
            let mut args = args.skip(2);
            let inner = args.reference();
            outward ^= args.flag() == Some(false);
            number = inner.unwrap_or(number);
        }
        if self.faces.insert(number)
            && let Err(why) = self.try_face(number, shell, outward)?
        {
            self.refuse(number, why);
        }
        Ok(())
    }

    fn try_face(
        &mut self,
        number: u64,
        shell: usize,
        outward: bool,
    ) -> Result<Result<(), Why>, StepError> {
        let file = self.reading.file;
        let name = file.name(number);
        let kinds = ["ADVANCED_FACE", "FACE_SURFACE"];
        let Some(args) = kinds.iter().find_map(|kind| file.args(number, kind)) else {
            return Ok(Err(match name {
                "FACE" => Why::Faceted,
                _ => self.reading.missing(number),
            }));
        };
        let mut args = args.skip(1);
        let bounds: BTreeSet<u64> = args.references().into_iter().collect();
        let (surface, same) = (args.reference(), args.flag());
        let (Some(surface), Some(same)) = (surface, same) else {
            return Ok(Err(Why::Missing(format!("#{number}"))));
        };
        let mut rim = Vec::new();
        for (at, bound) in bounds.into_iter().enumerate() {
            let from = rim.len();
            if let Err(why) = self.bound(bound, &mut rim)? {
                return Ok(Err(why));
            }
            rim[from..].iter_mut().for_each(|used| used.bound = at);
        }
        let points = rim
            .iter()
            .flat_map(|used| &self.body.edges[used.edge].points);
        let points: Vec<V> = points.copied().collect();
        self.budget.take(file.count_of(surface))?;
        let Facing { surface, along } = match self.reading.surface(surface, &points) {
            Ok(facing) => facing,
            Err(why) => return Ok(Err(why)),
        };
        if let Surface::Patch(patch) = &surface {
            self.budget.take(patch.net().len())?;
        }
        let mut sense = if same == along { 1.0 } else { -1.0 };
        let mut surface = surface;
        let mut off_round = None;
        if let Surface::Patch(patch) = &surface
            && let Some(known) = round_patch(patch)
        {
            sense *= known.sense;
            (surface, off_round) = (known.surface, known.off);
        }
        let bounds = face_bounds(&surface, &points);
        let at = self.body.faces.len();
        mark_seams(&mut rim);
        for used in &rim {
            let faces = &mut self.body.edges[used.edge].faces;
            if faces.len() < 8 && faces.iter().all(|(face, _)| *face != at) {
                faces.push((at, used.along));
            }
        }
        self.body.faces.push(Face {
            number,
            surface,
            sense,
            outward: if outward { 1.0 } else { -1.0 },
            shell,
            rim_tree: self.rim_tree(&rim),
            rim,
            bounds,
            off_round,
        });
        Ok(Ok(()))
    }

    /// Finds the edges near a point, of a face with more than are quickly gone through.
    fn rim_tree(&self, rim: &[Use]) -> Option<Tree> {
        const FEW: usize = 24;
        let all = || {
            rim.iter().map(|used| {
                let mut bounds = Bounds::EMPTY;
                let points = &self.body.edges[used.edge].points;
                points.iter().for_each(|p| bounds.take(*p));
                bounds
            })
        };
        (rim.len() > FEW).then(|| Tree::new(&all().collect::<Vec<_>>()))
    }

    /// The edges of one bound.
    fn bound(&mut self, number: u64, rim: &mut Vec<Use>) -> Result<Result<(), Why>, StepError> {
        let file = self.reading.file;
        let args = file.args(number, "FACE_BOUND");
        let args = args.or_else(|| file.args(number, "FACE_OUTER_BOUND"));
        let parts = args.and_then(|args| {
            let mut args = args.skip(1);
            Some((args.reference()?, args.flag()?))
        });
        let Some((ring, along)) = parts else {
            return Ok(Err(self.reading.missing(number)));
        };
        if let Some(args) = file.args(ring, "POLY_LOOP") {
            self.facets += 1;
            return self.corners(&args.skip(1).references(), along, rim);
        }
        if file.args(ring, "VERTEX_LOOP").is_some() {
            return Ok(Ok(()));
        }
        let Some(args) = file.args(ring, "EDGE_LOOP") else {
            return Ok(Err(self.reading.missing(ring)));
        };
        let uses = args.skip(1).references();
        self.budget.take(uses.len())?;
        for number in uses {
            let args = file.args(number, "ORIENTED_EDGE");
            let parts = args.and_then(|args| {
                let mut args = args.skip(3);
                Some((args.reference()?, args.flag()?))
            });
            let Some((edge, same)) = parts else {
                return Ok(Err(self.reading.missing(number)));
            };
            match self.edge(edge)? {
                Ok(edge) => rim.push(Use {
                    edge,
                    along: same == along,
                    seam: false,
                    bound: 0,
                }),
                Err(why) => return Ok(Err(why)),
            }
        }
        Ok(Ok(()))
    }

    /// Straight edges from corner to corner.
    fn corners(
        &mut self,
        corners: &[u64],
        along: bool,
        rim: &mut Vec<Use>,
    ) -> Result<Result<(), Why>, StepError> {
        self.budget.take(corners.len())?;
        let points: Result<Vec<V>, Why> = corners
            .iter()
            .map(|corner| self.reading.point(*corner))
            .collect();
        let points = match points {
            Ok(points) => points,
            Err(why) => return Ok(Err(why)),
        };
        let next = points.iter().cycle().skip(1);
        for (a, b) in points.iter().zip(next) {
            let Some(d) = unit(sub(*b, *a)) else { continue };
            let arc = Arc {
                curve: Curve::Line { p: *a, d },
                from: 0.0,
                to: distance(*a, *b),
            };
            rim.push(Use {
                edge: self.body.edges.len(),
                along,
                seam: false,
                bound: 0,
            });
            self.body.edges.push(Edge {
                arc,
                points: vec![*a, *b],
                faces: Vec::new(),
            });
        }
        Ok(Ok(()))
    }

    /// An edge by its number, read once.
    fn edge(&mut self, number: u64) -> Result<Result<usize, Why>, StepError> {
        if let Some(known) = self.edges.get(&number) {
            return Ok(known.clone());
        }
        let read = self.read_edge(number)?;
        let points = read.as_ref().map_or(0, |edge| edge.points.len());
        self.budget.take(points)?;
        let read = read.map(|edge| {
            self.body.edges.push(edge);
            self.body.edges.len() - 1
        });
        self.edges.insert(number, read.clone());
        Ok(read)
    }

    fn read_edge(&mut self, number: u64) -> Result<Result<Edge, Why>, StepError> {
        let file = self.reading.file;
        let parts = file.args(number, "EDGE_CURVE").and_then(|args| {
            let mut args = args.skip(1);
            let ends = [args.reference()?, args.reference()?];
            Some((ends, args.reference()?, args.flag()?))
        });
        let Some((ends, curve, same)) = parts else {
            return Ok(Err(self.reading.missing(number)));
        };
        self.budget.take(file.count_of(curve))?;
        Ok(self.piece(ends, curve, same))
    }

    fn piece(&self, ends: [u64; 2], curve: u64, same: bool) -> Result<Edge, Why> {
        let [a, b] = [self.vertex(ends[0])?, self.vertex(ends[1])?];
        let Directed { curve, along } = self.reading.curve(curve)?;
        let arc = curve.piece(a, b, along == same).ok_or(Why::NotALength)?;
        let points = arc.points().ok_or(Why::NotALength)?;
        Ok(Edge {
            arc,
            points,
            faces: Vec::new(),
        })
    }

    fn vertex(&self, number: u64) -> Result<V, Why> {
        let args = self.reading.file.args(number, "VERTEX_POINT");
        let point = args.and_then(|args| args.skip(1).reference());
        self.reading
            .point(point.ok_or_else(|| self.reading.missing(number))?)
    }
}

/// An edge that a face has on both of its sides is a seam.
fn mark_seams(rim: &mut [Use]) {
    let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
    for used in rim.iter() {
        *seen.entry(used.edge).or_default() += 1;
    }
    for used in rim {
        used.seam = seen.get(&used.edge).is_some_and(|times| *times > 1);
    }
}
