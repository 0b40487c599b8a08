//! What there is to say about a broken tool, and about a hole that a thinner tube opens.

use super::burnt::Burnt;
use super::say::Voice;
use crate::broken::{self, Choice};
use crate::burning::Burning;
use crate::finding::{Kind, Level, Remedy};
use crate::input::Ends;
use crate::quantity::ROUNDING_MM;

impl Voice<'_> {
    /// What is burnt out, and how a size is opened that no tube makes.
    pub(super) fn burnt(&mut self) {
        let Some(burnt) = self.plan.burnt.as_deref() else {
            if self.row.broken.is_some() && self.plan.depth_mm.is_some() {
                self.burning(Level::Stop, Burning::SizeUnknown);
            }
            return;
        };
        if self.row.broken.is_some() && self.row.limits_mm.is_some() {
            self.burning(Level::Check, Burning::SizeNotUsed);
        }
        if self.row.ends == Some(Ends::Both) {
            let remedy = Remedy::DrillOneEnd(self.row.id);
            let kind = Kind::Burnt(Burning::FromOneEnd);
            self.say(Level::Check, kind, Some(remedy));
        }
        match &burnt.tool {
            Some(tool) => self.tool(tool),
            None => self.opened(burnt),
        }
    }

    fn opened(&mut self, burnt: &Burnt) {
        let (Some(opening), Some(facts)) = (burnt.opening, self.plan.facts) else {
            return;
        };
        let opened = Burning::Opened {
            tube_mm: facts.outer_mm,
            plunges: opening.plunges,
            slug_mm: opening.slug_mm,
            buy: self.plan.held.and_then(|held| held.bought),
        };
        self.burning(Level::Check, opened);
    }

    fn tool(&mut self, tool: &broken::Plan) {
        let core_mm = tool.core_mm;
        match tool.choice {
            Choice::Fits(_) => {}
            Choice::Opened(with, opening) => {
                let opened = Burning::Opened {
                    tube_mm: with.outer_mm,
                    plunges: opening.plunges,
                    slug_mm: opening.slug_mm,
                    buy: None,
                };
                self.burning(Level::Check, opened);
            }
            Choice::Bought => {
                let to_buy = Burning::ToBuy {
                    least_mm: tool.electrode_mm.lower,
                    most_mm: tool.electrode_mm.upper,
                };
                self.burning(Level::Stop, to_buy);
            }
            Choice::TooWide => {
                let hole_mm = tool.burnt_mm.lower;
                self.burning(Level::Stop, Burning::TooWide { hole_mm });
            }
            Choice::ThreadAtRisk {
                short_mm,
                electrode,
            } => {
                let tube_mm = electrode.map(|with| with.outer_mm);
                let level = tube_mm.map_or(Level::Stop, |_| Level::Check);
                self.burning(level, Burning::AtRisk { short_mm, tube_mm });
            }
        }
        if let Some(by_mm) = tool.clear_mm.filter(|clear| *clear < -ROUNDING_MM) {
            self.burning(Level::Check, Burning::MayCut { by_mm: -by_mm });
        }
        if tool.left_assumed {
            let left_mm = tool.left_mm;
            self.burning(Level::Check, Burning::LengthAssumed { left_mm });
        }
        if let Some(hole_mm) = tool.hole_mm {
            self.burning(Level::Note, Burning::NotGuaranteed { core_mm, hole_mm });
        }
    }

    fn burning(&mut self, level: Level, burning: Burning) {
        self.say(level, Kind::Burnt(burning), None);
    }
}
