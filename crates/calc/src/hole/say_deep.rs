//! Whether a hole is deep for its diameter.

use super::say::Voice;
use super::way::Way;
use crate::finding::{Kind, Level, Remedy};

/// Tubes below this go by the lower limits of depth over diameter [mm].
const THIN_DEEP_MM: f64 = 0.5;

/// Depths over diameter.
struct DeepFrom {
    note: f64,
    check: f64,
    test_piece: f64,
}

/// Depth over diameter worth telling, from 0.5 mm on (common practice, no source).
const DEEP: DeepFrom = DeepFrom {
    note: 50.0,
    check: 100.0,
    test_piece: 150.0,
};

/// The same below it (common practice, no source).
const DEEP_THIN: DeepFrom = DeepFrom {
    note: 30.0,
    check: 60.0,
    test_piece: 100.0,
};

/// Whether a tube goes by the lower limits of depth over diameter.
pub(super) fn is_thin_for_depth(outer_mm: f64) -> bool {
    outer_mm < THIN_DEEP_MM
}

impl Voice<'_> {
    /// A note, a check or a test piece by depth over diameter; what the shop has drilled before is a
    /// note alone.
    pub(super) fn deep(&mut self, way: &Way) {
        let Some(facts) = &self.plan.facts else {
            return;
        };
        let ratio = way.deepest_mm() / facts.outer_mm;
        if self.plan.too_deep {
            let most = self.context.start.deepest_diameters;
            let remedy = Some(Remedy::AskTestPiece);
            self.say(Level::Stop, Kind::DepthUnknown { ratio, most }, remedy);
            return;
        }
        let from = if is_thin_for_depth(facts.outer_mm) {
            DEEP_THIN
        } else {
            DEEP
        };
        let own = self.context.own_deepest(self.row, facts);
        if ratio > from.note && ratio <= own {
            self.say(Level::Note, Kind::DeepDone { ratio, own }, None);
        } else if ratio > from.test_piece {
            let remedy = Some(Remedy::AskTestPiece);
            self.say(Level::Check, Kind::DeepTestPiece { ratio }, remedy);
        } else if ratio > from.check {
            self.say(Level::Check, Kind::DeepCheck { ratio }, None);
        } else if ratio > from.note {
            self.say(Level::Note, Kind::DeepNote { ratio }, None);
        }
    }
}
