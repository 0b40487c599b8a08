//! What a job asks of the calculation: rows of holes, a lot, a plan.

use alloc::boxed::Box;
use alloc::string::String;
use alloc::vec::Vec;

use crate::broken::Broken;
use crate::figure::key::Figure;
pub use crate::head::{Clearance, Recess};
use crate::idx::Idx;
pub use crate::push::Rest;
use crate::quantity::Limits;
pub use crate::row_id::RowId;
use crate::standards::sampling::InspectionLevel;
pub use crate::start_hole::{Proof, StartHole};
pub use crate::surface::Surface;
use crate::tables::{Machine, Material, Tube};

/// One job as the calculation sees it; what has not been typed yet is `None`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct JobInput {
    /// The work material.
    pub material: Option<Idx<Material>>,
    /// The machine.
    pub machine: Option<Idx<Machine>>,
    /// Resistivity by meter or certificate [ohm cm], which wins over any table.
    pub measured_resistivity_ohm_cm: Option<f64>,
    /// Parts in the lot.
    pub quantity: Option<u32>,
    /// Further quantities to be priced.
    pub breaks: Vec<u32>,
    /// Size of one part [mm], along x, y, z.
    pub part_mm: Option<[f64; 3]>,
    /// Mass of one part [kg].
    pub mass_kg: Option<f64>,
    /// As much of its lower face as the part rests on; `None` for all of it.
    pub rests_on: Option<Rest>,
    /// Flush pressure for this job instead of the machine's [bar].
    pub pressure_bar: Option<f64>,
    /// Value of one part to the customer [currency of the rate card].
    pub part_value: Option<f64>,
    /// Most that the shop answers for per spoiled part [currency of the rate card].
    pub liability_cap: Option<f64>,
    /// The part's axis that the machine's index axis turns, where one is used.
    pub index_about: Option<PartAxis>,
    /// The rows of holes, in the table's order.
    pub rows: Vec<RowInput>,
    /// Costs that come once, apart from the unit price.
    pub one_off: Vec<OneOff>,
    /// Outside work, per lot [currency of the rate card].
    pub outside_work: f64,
    /// Outside work, per part [currency of the rate card].
    pub outside_per_part: f64,
    /// Masking and taking it off again, per part [min].
    pub masking_min: f64,
    /// Margin on price for this job instead of the rate card's, 0 to below 1.
    pub margin: Option<f64>,
    /// Figures that the estimator overruled.
    pub overrules: Vec<Overrule>,
    /// Something that the price rests on was typed and can't be read: there is none.
    pub price_unread: bool,
    /// Parts are inspected by a sample, at this level and acceptance quality limit [%]; otherwise every hole
    /// of every part is.
    pub sampling: Option<(InspectionLevel, f64)>,
}

/// An axis of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartAxis {
    /// Along x.
    X,
    /// Along y.
    Y,
    /// Along z.
    Z,
}

impl PartAxis {
    /// The axis as a unit vector [-].
    #[must_use]
    pub const fn unit(self) -> [f64; 3] {
        match self {
            Self::X => [1.0, 0.0, 0.0],
            Self::Y => [0.0, 1.0, 0.0],
            Self::Z => [0.0, 0.0, 1.0],
        }
    }
}

/// A one-off charge.
#[derive(Clone, Debug, PartialEq)]
pub struct OneOff {
    /// What it is for.
    pub what: String,
    /// What it costs the shop [currency of the rate card].
    pub cost: f64,
}

/// One specification of holes with its places.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RowInput {
    /// Identity.
    pub id: RowId,
    /// Holes of this row in one part; where places are given, their number.
    pub count: u32,
    /// Places, where the drawing gives them; may be empty.
    pub places: Vec<Place>,
    /// Lower and upper limit of the diameter [mm].
    pub limits_mm: Option<Limits>,
    /// True where the drawing gives no limits and the shop's usual tolerance was taken.
    pub limits_assumed: bool,
    /// The customer has agreed to bear what these limits risk.
    pub risk_agreed: bool,
    /// Depth on the hole's axis [mm].
    pub depth_mm: Option<f64>,
    /// Lower and upper limit of the depth [mm]; `None` where the drawing gives none.
    pub depth_limits_mm: Option<Limits>,
    /// Where the hole ends.
    pub end: HoleEnd,
    /// Angle between the hole's axis and the surface's normal at the entry [deg].
    pub tilt_deg: f64,
    /// The surface that the tool enters.
    pub surface: Surface,
    /// The surface that the tool leaves, where it is told: otherwise a wall is as thick everywhere and a
    /// round bar is left as it is entered.
    pub exit: Option<Exit>,
    /// The pocket or bore that the hole begins at the bottom of, where it does.
    pub recess: Option<Recess>,
    /// What is asked of it for the sake of a wire that is threaded through it.
    pub start_hole: StartHole,
    /// How it is proved open; `None` leaves it to the shop's routine, which is a pin.
    pub proved: Option<Proof>,
    /// How near the machine's guide comes to these holes, where that is known: see
    /// [`crate::head::put_clearances`].
    pub clearance: Option<Clearance>,
    /// Free distance behind the exit [mm]; `None` where nothing is behind it, or what the exit says.
    pub behind_mm: Option<f64>,
    /// Backing is planned behind the exit.
    pub backed: bool,
    /// The wall behind the exit may be marked: the customer has agreed to it.
    pub wall_waived: bool,
    /// Layers from the entry on; empty for one material.
    pub layers: Vec<Layer>,
    /// A loose core could be trapped (blind cavity, crossing hole).
    pub core_trapped: bool,
    /// Drill from both ends: `None` lets the calculation compare, where both are open.
    pub ends: Option<Ends>,
    /// The tube that the estimator chose.
    pub tube: Option<Idx<Tube>>,
    /// Dress the tip before every so many holes, 0 for never; `None` leaves it to the trade's rule:
    /// before each blind hole, never before a through hole.
    pub dress_every: Option<u32>,
    /// The broken tool that is to be burnt out, where the row is one: its layers are what it is made of, its
    /// depth is what is left of it.
    pub broken: Option<Box<Broken>>,
    /// Something that was typed can't be read: the row has no minutes, and a lot with it none.
    pub unread: bool,
}

impl RowInput {
    /// How its holes are checked.
    ///
    /// Formula: what is proved by something else than a pin has a pin only where somebody gave it limits;
    /// everything else has one.
    ///
    /// Result: whether by pin, and by what else.
    ///
    /// ```
    /// use quillbore_calc::RowInput;
    /// use quillbore_calc::input::Proof;
    /// let light = RowInput { proved: Some(Proof::Light), limits_assumed: true, ..RowInput::default() };
    /// assert!(!light.checked().by_pin && light.checked().proof == Some(Proof::Light));
    /// assert!(RowInput { limits_assumed: false, ..light }.checked().by_pin);
    /// ```
    ///
    /// Source: common practice, no source.
    #[must_use]
    pub fn checked(&self) -> Checked {
        let proof = self.proved.filter(|proof| *proof != Proof::Pin);
        Checked {
            by_pin: proof.is_none() || !self.limits_assumed,
            proof,
        }
    }

    /// Whether the far side is open and can be drilled from.
    #[must_use]
    pub(crate) fn is_open_behind(&self) -> bool {
        let inside = self.exit.is_some_and(|exit| exit.surface.is_inside());
        self.end == HoleEnd::Through && !inside
    }

    /// Lower and upper limit of the depth as the drawing gives them, where they can be [mm].
    #[must_use]
    pub const fn given_depth_limits(&self) -> Option<Limits> {
        match self.depth_limits_mm {
            Some(given) if given.lower < given.upper && given.lower > 0.0 => Some(given),
            _ => None,
        }
    }

    /// Whether two rows ask the same, whichever they are.
    pub(crate) fn asks_as(&self, other: &Self) -> bool {
        let Self {
            id: _,
            count,
            places,
            limits_mm,
            limits_assumed,
            risk_agreed,
            depth_mm,
            depth_limits_mm,
            end,
            tilt_deg,
            surface,
            exit,
            recess,
            start_hole,
            proved,
            clearance,
            behind_mm,
            backed,
            wall_waived,
            layers,
            core_trapped,
            ends,
            tube,
            dress_every,
            broken,
            unread,
        } = self;
        *limits_mm == other.limits_mm
            && *depth_mm == other.depth_mm
            && *depth_limits_mm == other.depth_limits_mm
            && *tilt_deg == other.tilt_deg
            && *count == other.count
            && *limits_assumed == other.limits_assumed
            && *risk_agreed == other.risk_agreed
            && *end == other.end
            && *surface == other.surface
            && *exit == other.exit
            && *recess == other.recess
            && *start_hole == other.start_hole
            && *proved == other.proved
            && *clearance == other.clearance
            && *behind_mm == other.behind_mm
            && *backed == other.backed
            && *wall_waived == other.wall_waived
            && *core_trapped == other.core_trapped
            && *ends == other.ends
            && *tube == other.tube
            && *dress_every == other.dress_every
            && *broken == other.broken
            && *unread == other.unread
            && *layers == other.layers
            && *places == other.places
    }
}

/// How holes are checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Checked {
    /// Each end by pin.
    pub by_pin: bool,
    /// Each hole by something that shows it to be open; never [`Proof::Pin`].
    pub proof: Option<Proof>,
}

/// A place of a hole: where it enters and whither it runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Number on the drawing.
    pub number: u32,
    /// Entry point in the part's coordinates [mm].
    pub point_mm: [f64; 3],
    /// Unit vector into the material, in the part's coordinates.
    pub axis: [f64; 3],
}

/// Where a hole ends.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum HoleEnd {
    /// Open at the far side, which can be reached too.
    #[default]
    Through,
    /// Open into a cavity or crossing hole: the far side can't be drilled from.
    Into,
    /// Closed.
    Blind,
}

/// How many ends a hole is drilled from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// From the entry only.
    One,
    /// From the entry and from the exit.
    Both,
}

/// The surface that a hole ends in, and how it is met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exit {
    /// The surface.
    pub surface: Surface,
    /// Angle between the hole's axis and its normal, or along its cylinder [deg]; `None` where nobody told
    /// it: that of the entry.
    pub tilt_deg: Option<f64>,
}

/// One layer of a layered part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Its material.
    pub material: Idx<Material>,
    /// Thickness along the hole's axis [mm].
    pub thickness_mm: f64,
}

/// A figure that the estimator put in place of the computed one.
#[derive(Clone, Debug, PartialEq)]
pub struct Overrule {
    /// Which figure.
    pub figure: Figure,
    /// The value that stands, in the figure's own unit.
    pub value: f64,
}
