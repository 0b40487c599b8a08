//! Burning out what broke in a customer's part: tap, drill, stud, reamer, screw extractor.
//!
//! What holds the tool together is burnt away, and the rest falls out. The burnt hole must take that
//! core even where the tool stands off the axis, and must stay clear of the thread or wall around it.

mod choice;
mod size;
mod start;

pub use choice::{Choice, Plan, Stock, plan};
pub use start::Start;

use size::Size;

use crate::quantity::{Limits, Spread};
use crate::standards::threads::Thread;
use crate::tables::Family;

/// Length of a stub that nobody measured, in diameters (assumption).
const LEFT_DIAMETERS: f64 = 1.5;

/// What broke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A tap: its web is burnt, the lands fall in.
    Tap,
    /// A twist drill: its web is burnt so wide that the lands come free.
    Drill,
    /// A screw or stud: nearly all inside the thread is burnt, its coil is picked out.
    Stud,
    /// A reamer: its web is burnt, the lands fall in.
    Reamer,
    /// A screw extractor: its body is burnt.
    Extractor,
}

/// What the broken tool is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// High-speed steel.
    Hss,
    /// Cemented carbide.
    Carbide,
    /// Steel that is no tool steel: screws and studs.
    Steel,
}

impl Stuff {
    /// The family of work materials whose feed and wear it has.
    ///
    /// Formula: looked up.
    ///
    /// Result: family.
    ///
    /// ```
    /// use quillbore_calc::broken::Stuff;
    /// use quillbore_calc::tables::Family;
    /// assert_eq!(Stuff::Hss.family(), Family::ToolSteel);
    /// assert_eq!(Stuff::Carbide.family(), Family::Carbide);
    /// ```
    ///
    /// Source: definition of the families.
    #[must_use]
    pub const fn family(self) -> Family {
        match self {
            Self::Hss => Family::ToolSteel,
            Self::Carbide => Family::Carbide,
            Self::Steel => Family::Steel,
        }
    }
}

/// A broken tool and how it sits in the part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Broken {
    /// What broke.
    pub kind: Kind,
    /// What it is made of.
    pub stuff: Stuff,
    /// Major diameter of the thread, or diameter of the tool [mm].
    pub nominal_mm: f64,
    /// Pitch of the thread [mm]; the coarse one of the diameter where `None`.
    pub pitch_mm: Option<f64>,
    /// Number of flutes; the usual one where `None`.
    pub flutes: Option<u32>,
    /// Depth of the stub's top below the part's face [mm].
    pub below_face_mm: f64,
    /// Length of the stub, a drill's point included [mm]; where `None`, one and a half diameters.
    pub left_mm: Option<f64>,
    /// True where the hole is open at its far end.
    pub through: bool,
    /// Diameter that must stay whole [mm], where it is not the tool's own thread or hole: for an
    /// extractor the minor diameter of the thread that its screw sits in.
    pub bound_mm: Option<f64>,
    /// Gap per side [mm].
    pub gap_mm: f64,
    /// What is kept clear of the thread or wall, per side [mm].
    pub margin_mm: f64,
    /// Run-out of the electrode, from its axis [mm].
    pub run_out_mm: f64,
    /// How far the tool's axis may lie off the electrode's [mm].
    pub off_center_mm: f64,
}

impl Broken {
    /// A tool at the part's face in a blind hole, of which only the size is known.
    ///
    /// Formula: margin 0.1, run-out 0.1, off center 0.15 mm, gap 0.05 mm, all else not known.
    ///
    /// - `kind`, `stuff`: what broke and what it is made of.
    /// - `nominal_mm`: diameter of the tool, or major diameter of its thread [mm], above 0.
    ///
    /// Result: the broken tool.
    ///
    /// ```
    /// use quillbore_calc::broken::{Broken, Kind, Stuff};
    /// let drill = Broken::new(Kind::Drill, Stuff::Hss, 3.0);
    /// assert_eq!((drill.nominal_mm, drill.left_mm, drill.margin_mm), (3.0, None, 0.1));
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub const fn new(kind: Kind, stuff: Stuff, nominal_mm: f64) -> Self {
        Self {
            kind,
            stuff,
            nominal_mm,
            pitch_mm: None,
            flutes: None,
            below_face_mm: 0.0,
            left_mm: None,
            through: false,
            bound_mm: None,
            gap_mm: 0.05,
            margin_mm: 0.1,
            run_out_mm: 0.1,
            off_center_mm: 0.15,
        }
    }

    /// Least and greatest electrode for one plunge [mm]; `None` where a figure makes no sense.
    pub(crate) fn electrode_mm(&self, start: &Start) -> Option<Limits> {
        let size = Size::of(self, start)?;
        Some(size.hole.map(|hole| hole - 2.0 * self.gap_mm))
    }

    /// Feed in it relative to full metal.
    pub(crate) const fn feed_share(&self, start: &Start) -> Spread {
        match self.kind {
            Kind::Tap | Kind::Drill | Kind::Reamer => start.fluted_feed,
            Kind::Stud | Kind::Extractor => start.solid_feed,
        }
    }

    /// Length of the stub [mm]: as measured, else what usually is left.
    ///
    /// Formula: one and a half diameters where nobody measured it.
    ///
    /// Result: length [mm].
    ///
    /// ```
    /// use quillbore_calc::broken::{Broken, Kind, Stuff};
    /// let drill = Broken::new(Kind::Drill, Stuff::Hss, 3.0);
    /// assert_eq!(drill.left_or_usual_mm(), 4.5);
    /// assert_eq!(Broken { left_mm: Some(8.0), ..drill }.left_or_usual_mm(), 8.0);
    /// ```
    ///
    /// Source: ours, an assumption.
    #[must_use]
    pub fn left_or_usual_mm(&self) -> f64 {
        self.left_mm.unwrap_or(LEFT_DIAMETERS * self.nominal_mm)
    }

    /// A tap or screw of a thread.
    ///
    /// Formula: as [`Broken::new`], with the thread's major diameter and pitch.
    ///
    /// - `kind`, `stuff`: what broke and what it is made of.
    /// - `thread`: its thread.
    ///
    /// Result: the broken tool.
    ///
    /// ```
    /// use quillbore_calc::broken::{Broken, Kind, Stuff};
    /// use quillbore_calc::standards::threads::named;
    /// let tap = Broken::of_thread(Kind::Tap, Stuff::Hss, named("1/4-20").unwrap());
    /// assert_eq!((tap.nominal_mm, tap.pitch_mm), (6.35, Some(1.27)));
    /// ```
    ///
    /// Source: definition.
    #[must_use]
    pub const fn of_thread(kind: Kind, stuff: Stuff, thread: Thread) -> Self {
        Self {
            pitch_mm: Some(thread.pitch_mm),
            ..Self::new(kind, stuff, thread.major_mm)
        }
    }
}
