//! What a drawing or a solid shows of its holes, before any of them is a row of the hole table.

use std::sync::Arc;

/// What was read of a drawing or a solid.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Seen {
    /// Millimeters in one of the numbers below, by the file's own word; `None` where it says nothing, so that
    /// somebody must. Where it is said the numbers below are in millimeters already, and this tells what the
    /// file's own were.
    pub unit_mm: Option<f64>,
    /// Where the unit is not said: what the file makes one guess, in millimeters, and no more than a guess.
    pub hint_mm: Option<f64>,
    /// Its holes, in the file's order.
    pub holes: Vec<SeenHole>,
    /// What its holes belong to.
    pub grouped: Grouped,
    /// Least and most along x, y and z of all that is drawn of the part; `None` where nothing is.
    pub extents: Option<[[f64; 3]; 2]>,
    /// The part's outline seen along z, each ring a list of points; the first ring is the outer one. Empty
    /// where none is found.
    pub outline: Vec<Vec<[f64; 2]>>,
    /// What in the file looks like a hole, or belongs to one, and was not taken.
    pub refused: Vec<Refused>,
    /// Texts that speak of holes and belong to none that was found.
    pub loose: Vec<String>,
    /// What a text of the drawing says of its unit, where nothing else says it, or something says otherwise.
    pub unit_note: Option<UnitNote>,
    /// What of the whole is to be looked at.
    pub doubts: Vec<Doubt>,
}

/// What the holes of a file belong to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Grouped {
    /// The bodies of a solid.
    #[default]
    ByBody,
    /// The layers of a drawing.
    ByLayer,
}

/// A text that says which unit lengths are in.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitNote {
    /// The text.
    pub says: String,
    /// Its unit, in millimeters.
    pub mm: f64,
    /// The other unit that the file's own settings say, in millimeters; `None` where they say none.
    pub settings_mm: Option<f64>,
}

/// What of a whole drawing is to be looked at.
#[derive(Clone, Debug, PartialEq)]
pub enum Doubt {
    /// A box of this width and height was taken for the frame of a sheet, and not for the part.
    Frame([f64; 2]),
    /// What was taken for the part's outline has the width and height of a sheet of paper.
    LikePaper,
    /// Two outlines of one size hold so many holes of the same sizes each: views of one part.
    Views(usize),
    /// A text says that there is a detail, or a view from another side.
    OtherView(String),
}

/// A hole, its lengths in the unit of [`Seen`].
#[derive(Clone, Debug, PartialEq)]
pub struct SeenHole {
    /// Diameter.
    pub diameter: f64,
    /// Where its axis enters the material: on the surface that it begins in.
    pub entry: [f64; 3],
    /// Unit vector into the material; of a hole open at both ends, from the end that can be reached.
    pub axis: [f64; 3],
    /// How deep it is along its axis; `None` where the file doesn't show it.
    pub depth: Option<SeenDepth>,
    /// Where it ends; `None` where the file doesn't show it.
    pub end: Option<SeenEnd>,
    /// The surface that it begins in; `None` where the file doesn't show it.
    pub begins: Option<SeenSurface>,
    /// The surface that it ends in; `None` where the file doesn't show it, and of a blind hole.
    pub leaves: Option<SeenSurface>,
    /// Free way behind its exit along its axis, to what would be marked next; `None` where there is nothing.
    pub behind: Option<f64>,
    /// The wider step, recess or countersink that it begins in: its diameter, and how deep below the outer
    /// surface the hole begins.
    pub recess: Option<[f64; 2]>,
    /// The text beside it, where the drawing has one that speaks of it.
    pub text: Option<String>,
    /// Where its text is a line of a chart with heads: that line.
    pub line: Option<Arc<ChartLine>>,
    /// The name of what it belongs to.
    pub group: String,
    /// Where in the file: the handles or numbers of what it was read from.
    pub from: Vec<String>,
    /// What of it is guessed, in codes.
    pub guessed: Vec<Guessed>,
}

/// A line of a chart that speaks of holes by their mark.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartLine {
    /// The mark.
    pub mark: String,
    /// The chart's heads.
    pub heads: Vec<String>,
    /// The line's cells, one below each head.
    pub cells: Vec<String>,
}

/// How deep a hole is along its axis, from the entry surface to the exit surface or the bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeenDepth {
    /// Along the shortest line of its wall.
    pub least: f64,
    /// Along its axis.
    pub on_axis: f64,
    /// Along the longest line of its wall.
    pub most: f64,
}

/// Where a hole ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SeenEnd {
    /// Outside, where the far side can be reached.
    Through,
    /// In a cavity or a crossing hole.
    Into,
    /// At a bottom, flat or not.
    Blind,
}

/// The surface in which a hole begins or ends, where its axis meets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeenSurface {
    /// What kind it is.
    pub kind: SurfaceKind,
    /// Angle between the hole's axis and the surface's normal where they meet [deg], 0 to 90; `None` where
    /// they don't meet.
    pub tilt_deg: Option<f64>,
}

/// A kind of surface; offsets are the distance of the hole's axis from the surface's own axis or center.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SurfaceKind {
    /// A plane.
    Flat,
    /// A cylinder met from outside.
    Cylinder {
        /// Its radius.
        radius: f64,
        /// The offset.
        offset: f64,
    },
    /// A ball met from outside.
    Ball {
        /// Its radius.
        radius: f64,
        /// The offset.
        offset: f64,
    },
    /// The inside of a bore.
    Bore {
        /// Its radius.
        radius: f64,
        /// The offset.
        offset: f64,
    },
    /// Any other: a cone, a ring, a free form, or more than one surface.
    Other,
}

/// What of a hole was guessed.
#[derive(Clone, Debug, PartialEq)]
pub enum Guessed {
    /// Which of two concentric circles is the hole: this diameter was left.
    OfConcentric(f64),
    /// The text belongs to it by nearness alone.
    TextBeside,
    /// It was drawn as arcs that close, or as a chain of lines.
    ClosedArcs,
    /// Its wall is a free form within this of a cylinder.
    NotQuiteRound(f64),
    /// It was drawn more than once in the same place, and is taken for one.
    DrawnTwice,
    /// That it is meant at all: its layer is off or frozen, or it is marked as not to be seen.
    NotShown,
    /// From which side it is drilled: it was drawn as a hidden edge.
    Dashed,
    /// Where it begins or ends: its edge is rounded or chamfered, and the surface around that was taken.
    BrokenEdge,
    /// That it is one hole: on its way it crosses free room, this long on its axis.
    PassesAir(f64),
    /// Its wall is open to one side over so much of its depth, where another room touches it.
    OpenBeside(f64),
    /// Its text stands at another hole: the text, and those like it, name so many, and there are as many of this
    /// diameter.
    TextByCount(usize),
    /// Which holes its text means: the text names so many, and so many of this diameter were found.
    CountDiffers(usize, usize),
}

/// What looks like a hole, or belongs to one, and was not taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    /// Where in the file.
    pub from: String,
    /// Why.
    pub why: Why,
}

/// Why something was not taken.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// Stretched differently along x and y, so that its circle is none.
    Stretched,
    /// Its numbers are no lengths: missing, not finite, or not above 0.
    NotALength,
    /// A block or an instance that holds itself.
    HoldsItself,
    /// Blocks or instances nested deeper than this.
    TooDeep(usize),
    /// Something that it names is not in the file.
    Missing(String),
    /// An arc, or a piece of a bore, that doesn't close.
    Open,
    /// A conical or free-form wall.
    NotRound,
    /// Drawn with center lines: an axis, or a circle that holes stand on.
    CenterLine,
    /// This stands in it, as in a balloon, a datum target or the mark of a view.
    TextInside(String),
    /// Holes stand in it: an outline, a boss, a detail.
    HoldsHoles,
    /// Holes stand upon it: the circle that they are spaced on.
    HolesUponIt,
    /// It stands on the sheet, while the part stands in the model.
    OnPaper,
    /// Things of this kind are not read, and there are so many of them.
    NotRead(String, usize),
    /// A round room that nothing leads into.
    Closed,
    /// A ring in the wall of a bore, wider than the bore on both sides of it.
    Groove,
    /// A round wall around material: a ring groove, or a pocket with an island in it.
    AroundMaterial,
    /// A bore along an arc.
    Bent,
    /// Limits of so many sizes that stand in a solid's file.
    Limits(usize),
    /// So many faces of a body that are joined to none of the others.
    Loose(usize),
    /// Faces of a solid that isn't closed: of so many an edge belongs to no other.
    NotClosed(usize),
    /// A body of flat facets, which has no round wall.
    Faceted,
}

impl Seen {
    /// How long it is along x, y and z.
    pub(crate) fn size(&self) -> Option<[f64; 3]> {
        let [[x, y, z], [to_x, to_y, to_z]] = self.extents?;
        Some([to_x - x, to_y - y, to_z - z])
    }

    /// Makes all its lengths so many times as long.
    pub(crate) fn scale(&mut self, by: f64) {
        let points = self.extents.iter_mut().flatten().flatten();
        points.for_each(|length| *length *= by);
        self.outline
            .iter_mut()
            .flatten()
            .flatten()
            .for_each(|length| *length *= by);
        for doubt in &mut self.doubts {
            if let Doubt::Frame(sides) = doubt {
                *sides = sides.map(|side| side * by);
            }
        }
        self.holes.iter_mut().for_each(|hole| hole.scale(by));
    }
}

impl SeenHole {
    fn scale(&mut self, by: f64) {
        self.diameter *= by;
        self.entry = self.entry.map(|length| length * by);
        if let Some(depth) = &mut self.depth {
            for length in [&mut depth.least, &mut depth.on_axis, &mut depth.most] {
                *length *= by;
            }
        }
        for surface in [&mut self.begins, &mut self.leaves].into_iter().flatten() {
            match &mut surface.kind {
                SurfaceKind::Cylinder { radius, offset }
                | SurfaceKind::Ball { radius, offset }
                | SurfaceKind::Bore { radius, offset } => {
                    *radius *= by;
                    *offset *= by;
                }
                SurfaceKind::Flat | SurfaceKind::Other => {}
            }
        }
        self.behind = self.behind.map(|length| length * by);
        self.recess = self.recess.map(|lengths| lengths.map(|length| length * by));
        for guess in &mut self.guessed {
            if let Guessed::OfConcentric(length)
            | Guessed::NotQuiteRound(length)
            | Guessed::PassesAir(length)
            | Guessed::OpenBeside(length) = guess
            {
                *length *= by;
            }
        }
    }
}

impl SeenSurface {
    /// Angle of the hole's axis against the surface beside what its offset makes [deg]: along a cylinder or a
    /// bore, against a plane; none at a ball, whose offset says it all.
    ///
    /// With the axis a away from square to a cylinder of radius r, and past its axis by o, the normal where they
    /// meet is t away, `cos t = cos a sqrt(1 - (o/r)^2)`.
    pub(crate) fn along_deg(&self) -> Option<f64> {
        let tilt_deg = self.tilt_deg?;
        let (radius, offset) = match self.kind {
            SurfaceKind::Flat | SurfaceKind::Other => return Some(tilt_deg),
            SurfaceKind::Ball { .. } => return Some(0.0),
            SurfaceKind::Cylinder { radius, offset } | SurfaceKind::Bore { radius, offset } => {
                (radius, offset)
            }
        };
        let share = offset / radius;
        let across = libm::sqrt((1.0 - share * share).max(0.0));
        if across == 0.0 {
            return Some(0.0);
        }
        let cosine = libm::cos(tilt_deg.to_radians()) / across;
        Some(libm::acos(cosine.clamp(-1.0, 1.0)).to_degrees())
    }
}
