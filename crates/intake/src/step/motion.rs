//! Places and directions of things: coordinate systems, and what moves a body into another one.

use super::scan::Exchange;
use super::vector::{V, across, add, along, cross, dot, is_finite, length, sub, times, unit};

/// A right-handed coordinate system.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    /// Where it is.
    pub(super) origin: V,
    /// Its x direction.
    pub(super) x: V,
    /// Its y direction.
    pub(super) y: V,
    /// Its z direction, the axis of what is round about it.
    pub(super) z: V,
}

/// What moves points: turned, stretched alike in all directions, and shifted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Motion {
    /// Where x, y and z directions come to lie, each one long.
    turn: [V; 3],
    /// How many times longer things become.
    pub(super) scale: f64,
    shift: V,
}

/// What a placement is where it can't be had.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum NoMotion {
    /// Stretched differently in different directions.
    Stretched,
    /// Something that it names is missing, or is no placement.
    Missing(u64),
}

impl Frame {
    /// The one about an axis.
    pub(super) fn about(origin: V, z: V) -> Self {
        let [x, y] = across(z);
        Self { origin, x, y, z }
    }

    /// A placement of the file, its lengths in the file's unit.
    pub(super) fn read(file: &Exchange<'_>, number: u64) -> Option<Self> {
        let placed = file.args(number, "AXIS2_PLACEMENT_3D");
        let placed = placed.or_else(|| file.args(number, "AXIS1_PLACEMENT"))?;
        let mut args = placed.skip(1);
        let origin = point(file, args.reference()?)?;
        let z = args.reference().and_then(|axis| direction(file, axis));
        let x = args.reference().and_then(|axis| direction(file, axis));
        Some(Self::of(origin, z.unwrap_or([0.0, 0.0, 1.0]), x))
    }

    /// The one with an axis, and an x direction as near to another as it can be.
    pub(super) fn of(origin: V, z: V, x: Option<V>) -> Self {
        let square = x.and_then(|x| unit(sub(x, times(z, dot(x, z)))));
        square.map_or_else(
            || Self::about(origin, z),
            |x| Self {
                origin,
                x,
                y: cross(z, x),
                z,
            },
        )
    }

    /// A point by its coordinates in it.
    pub(super) fn at(&self, x: f64, y: f64, z: f64) -> V {
        let plane = along(along(self.origin, self.x, x), self.y, y);
        along(plane, self.z, z)
    }

    /// A point's coordinates in it.
    pub(super) fn coordinates(&self, p: V) -> V {
        let from = sub(p, self.origin);
        [dot(from, self.x), dot(from, self.y), dot(from, self.z)]
    }
}

impl Motion {
    /// What leaves everything where it is.
    pub(super) const NONE: Self = Self {
        turn: [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
        scale: 1.0,
        shift: [0.0; 3],
    };

    /// What a placement or an operator of the file does to what stands at the origin. `unit` is what its
    /// lengths are multiplied by.
    pub(super) fn read(file: &Exchange<'_>, number: u64, unit: f64) -> Result<Self, NoMotion> {
        let missing = || NoMotion::Missing(number);
        if let Some(frame) = Frame::read(file, number) {
            return Ok(Self {
                turn: [frame.x, frame.y, frame.z],
                scale: 1.0,
                shift: times(frame.origin, unit),
            });
        }
        let uneven = file.args(number, "CARTESIAN_TRANSFORMATION_OPERATOR_3D_NON_UNIFORM");
        if uneven.is_some() {
            return Err(NoMotion::Stretched);
        }
        let whole = file.args(number, "CARTESIAN_TRANSFORMATION_OPERATOR_3D");
        let complex = file.name(number).is_empty();
        // Alone it says all, its own five parameters last; in parts the third axis stands apart.
        let basis = file.args(number, "CARTESIAN_TRANSFORMATION_OPERATOR");
        let mut args = if complex {
            basis
        } else {
            whole.map(|args| args.last(5))
        }
        .ok_or_else(missing)?;
        let mut axes: [Option<V>; 3] = [None; 3];
        let read = |args: &mut super::args::Args<'_>| {
            args.reference().and_then(|axis| direction(file, axis))
        };
        axes[0] = read(&mut args);
        axes[1] = read(&mut args);
        let origin = args
            .reference()
            .and_then(|at| point(file, at))
            .ok_or_else(missing)?;
        let scale = args.real().unwrap_or(1.0);
        axes[2] = match whole {
            Some(mut third) if complex => read(&mut third),
            _ => read(&mut args),
        };
        if !(scale.is_finite() && scale != 0.0) {
            return Err(missing());
        }
        let z = axes[2].or_else(|| unit_cross(axes[0], axes[1]));
        let frame = Frame::of([0.0; 3], z.unwrap_or([0.0, 0.0, 1.0]), axes[0]);
        // A second axis against the hand of the two others mirrors.
        let mirrored = axes[1].is_some_and(|second| dot(second, frame.y) < 0.0);
        let y = if mirrored {
            times(frame.y, -1.0)
        } else {
            frame.y
        };
        // A length below nothing mirrors, too: at a point.
        let turn = [frame.x, y, frame.z].map(|axis| times(axis, scale.signum()));
        Ok(Self {
            turn,
            scale: scale.abs(),
            shift: times(origin, unit),
        })
    }

    /// Where a point comes to lie.
    pub(super) fn point(&self, p: V) -> V {
        add(times(self.direction(p), self.scale), self.shift)
    }

    /// Where a direction comes to point.
    pub(super) fn direction(&self, d: V) -> V {
        let [x, y, z] = self.turn;
        add(add(times(x, d[0]), times(y, d[1])), times(z, d[2]))
    }

    /// This motion after another one.
    pub(super) fn after(&self, first: &Self) -> Self {
        Self {
            turn: first.turn.map(|axis| self.direction(axis)),
            scale: self.scale * first.scale,
            shift: self.point(first.shift),
        }
    }

    /// What undoes it.
    pub(super) fn undone(&self) -> Self {
        let [x, y, z] = self.turn;
        let turn = [0, 1, 2].map(|at| [x[at], y[at], z[at]]);
        let mut undone = Self {
            turn,
            scale: 1.0 / self.scale,
            shift: [0.0; 3],
        };
        undone.shift = times(undone.point(self.shift), -1.0);
        undone
    }

    /// True where every number of it is one.
    pub(super) fn is_finite(&self) -> bool {
        let lengths = self.scale.is_finite() && is_finite(self.shift);
        lengths
            && self
                .turn
                .iter()
                .all(|axis| (length(*axis) - 1.0).abs() < 1e-6)
    }
}

fn unit_cross(a: Option<V>, b: Option<V>) -> Option<V> {
    unit(cross(a?, b?))
}

/// A point of the file, in the file's unit.
pub(super) fn point(file: &Exchange<'_>, number: u64) -> Option<V> {
    let mut list = file.args(number, "CARTESIAN_POINT")?.skip(1).list()?;
    let mut read = || list.real();
    let found = [read()?, read()?, read().unwrap_or(0.0)];
    // A part is smaller than this, whatever its unit; beyond it lengths lose their digits.
    found.iter().all(|part| part.abs() < 1e15).then_some(found)
}

/// A direction of the file, one long.
pub(super) fn direction(file: &Exchange<'_>, number: u64) -> Option<V> {
    let mut list = file.args(number, "DIRECTION")?.skip(1).list()?;
    let mut read = || list.real();
    unit([read()?, read()?, read().unwrap_or(0.0)])
}
