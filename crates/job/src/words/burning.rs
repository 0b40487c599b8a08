//! What is found about broken tools, and about holes that a thinner electrode opens.

use quillbore_calc::finding::Burning;
use quillbore_calc::job_figures::Bought;

use super::speaker::Speaker;

impl Speaker<'_> {
    /// One of these findings as a sentence or two.
    pub(super) fn burning(&self, burning: &Burning) -> String {
        let length = |mm: f64| self.length(mm);
        match *burning {
            Burning::Opened {
                tube_mm,
                plunges,
                slug_mm,
                buy,
            } => self.opened(tube_mm, plunges, slug_mm, buy.as_ref()),
            Burning::SizeUnknown => {
                "The broken tool's size can't be used: type its thread with the pitch, such as M6x0.75, or its diameter.".to_owned()
            }
            Burning::ToBuy { least_mm, most_mm } => format!(
                "No electrode of the shop burns it out: one of {} to {} would, buy one.",
                length(least_mm),
                length(most_mm)
            ),
            Burning::TooWide { hole_mm } => format!(
                "A hole of {} would have to be burnt: drilling is no way to get this out; sinking or milling may be.",
                length(hole_mm)
            ),
            Burning::AtRisk {
                short_mm,
                tube_mm: Some(tube_mm),
            } => format!(
                "No hole takes the whole core and surely spares the thread or wall: {} are missing. It may be tried with an electrode of {}; some of the tool may stay in there. Tell the customer before.",
                length(short_mm),
                length(tube_mm)
            ),
            Burning::AtRisk { short_mm, .. } => format!(
                "No hole takes the whole core and surely spares the thread or wall: {} are missing, and no electrode of the shop is thin enough.",
                length(short_mm)
            ),
            Burning::MayCut { by_mm } => format!(
                "If the tool sits off the middle, thread or wall may be cut by up to {} on one side: find its axis before, and tell the customer.",
                length(by_mm)
            ),
            Burning::LengthAssumed { left_mm } => format!(
                "Nobody measured what is left of the tool: {} are assumed. Ask, or probe it when the part comes.",
                length(left_mm)
            ),
            Burning::NotGuaranteed { core_mm, hole_mm } => format!(
                "A core of {} is burnt out by a hole of {}; how thick a core is differs from maker to maker. Neither thread nor hole is guaranteed.",
                length(core_mm),
                length(hole_mm)
            ),
            Burning::SizeNotUsed => {
                "A size is typed beside the broken tool: the burnt hole goes by the tool, the size isn't used. Clear one of them.".to_owned()
            }
            Burning::FromOneEnd => {
                "What is burnt out, or opened on a circle, comes from one end: both ends were asked for, one is used.".to_owned()
            }
        }
    }

    fn opened(
        &self,
        tube_mm: f64,
        plunges: u32,
        slug_mm: Option<f64>,
        buy: Option<&Bought>,
    ) -> String {
        let tube = self.length(tube_mm);
        let how = if plunges > 1 {
            format!(
                "an electrode of {tube} is plunged {} times, each plunge beside the last",
                self.form.count(f64::from(plunges))
            )
        } else {
            format!(
                "an electrode of {tube} is plunged once and then led round on circles, layer by layer"
            )
        };
        let middle = slug_mm.map_or_else(String::new, |slug| {
            format!(
                " A middle of {} is left standing and falls out: catch it.",
                self.length(slug)
            )
        });
        let instead = buy.map_or_else(String::new, |bought| {
            format!(
                " One of {} would make it in one plunge.",
                self.length(bought.outer_mm)
            )
        });
        format!(
            "No electrode of the shop makes this size in one plunge: {how}. Minutes and wear of that are an estimate, so try it first.{middle}{instead}"
        )
    }
}
