//! What holds a part against its flush.

use crate::row_id::RowId;

/// What must hold a part in one setup against the flush; one hole is drilled at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeldInSetup {
    /// The greatest push of the flush [N].
    pub push_n: f64,
    /// Force toward the support, above the part's middle, that a clamp must give [N]; 0 where the weight
    /// holds twice the push.
    pub clamp_n: f64,
    /// The greatest force along the support, which a stop must take [N]; 0 where there is none.
    pub stop_n: f64,
    /// How the part would move without a clamp, and the row that does it; `None` where the weight holds.
    pub moves: Option<(Moves, Option<RowId>)>,
}

/// How a part moves that nothing but its weight holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moves {
    /// It tips over an edge of what it rests on.
    Tips,
    /// Water under it lifts it.
    Lifts,
    /// It stays, but twice the push would move it.
    Nearly,
}
