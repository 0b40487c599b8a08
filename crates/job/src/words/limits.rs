//! What there is to say about limits that are close, and tubes that hold them.

use quillbore_calc::Limits;
use quillbore_calc::job_figures::Bought;

use super::speaker::Speaker;

impl Speaker<'_> {
    /// No tube of the shop: which one to buy, or which way would do.
    pub(super) fn no_tube(
        &self,
        limits: Limits,
        taper_mm: f64,
        buy: Option<&Bought>,
        circle: bool,
    ) -> String {
        /// What of the limits' width a taper takes before it is worth telling.
        const WORTH_TELLING: f64 = 0.3;
        let Limits { lower, upper } = limits.map(|mm| self.length(mm));
        let tapers = if taper_mm > WORTH_TELLING * limits.width() {
            format!(
                ", over a depth in which a hole tapers by {}",
                self.length(taper_mm)
            )
        } else {
            String::new()
        };
        format!(
            "No electrode of the shop drills {lower} to {upper}{tapers}. {}",
            self.way_out(buy, circle)
        )
    }

    /// Limits that no tube of the shop holds.
    pub(super) fn not_held(
        &self,
        held: f64,
        limits: Limits,
        buy: Option<&Bought>,
        circle: bool,
    ) -> String {
        let Limits { lower, upper } = limits.map(|mm| self.length(mm));
        format!(
            "Not to be held: with the shop's electrodes only {} of the holes would come out {lower} to {upper} once the first piece is measured. {}",
            self.form.percent(held),
            self.way_out(buy, circle)
        )
    }

    /// Limits that are not to be promised.
    pub(super) fn not_to_be_promised(
        &self,
        held: f64,
        outside: f64,
        limits: Limits,
        buy: Option<&Bought>,
    ) -> String {
        let Limits { lower, upper } = limits.map(|mm| self.length(mm));
        format!(
            "Not to be promised: {} of the holes come out {lower} to {upper} once the first piece is measured; {} outside.{}",
            self.form.percent(held),
            self.expected(outside),
            self.better(buy)
        )
    }

    /// Limits that are held with care.
    pub(super) fn tight(&self, held: f64, outside: f64, buy: Option<&Bought>) -> String {
        format!(
            "Tight: {} of the holes come out inside the limits, {} outside. Measure the first piece before going on.{}",
            self.form.percent(held),
            self.expected(outside),
            self.better(buy)
        )
    }

    fn better(&self, buy: Option<&Bought>) -> String {
        buy.map_or_else(String::new, |buy| {
            format!(
                " With an electrode of {} in the drawer too: {}.",
                self.length(buy.outer_mm),
                self.form.percent(buy.held)
            )
        })
    }

    fn way_out(&self, buy: Option<&Bought>, circle: bool) -> String {
        let mut ways = Vec::new();
        if let Some(buy) = buy {
            ways.push(format!(
                "buy an electrode of {} and its guide ({} inside)",
                self.length(buy.outer_mm),
                self.form.percent(buy.held)
            ));
        }
        ways.push("open up a smaller hole with a second electrode".to_owned());
        if circle {
            ways.push("plunge along a circle with a smaller electrode".to_owned());
        }
        ways.push("ask the customer for wider limits".to_owned());
        let last = ways.pop().unwrap_or_default();
        super::speaker::capital(&format!("{}, or {last}.", ways.join(", ")))
    }

    /// Holes expected in a lot.
    fn expected(&self, holes: f64) -> String {
        if holes < 1.0 {
            "less than one of this mark's holes in the lot is expected".to_owned()
        } else {
            format!(
                "about {} of this mark's holes in the lot are expected",
                self.form.number(holes, 2)
            )
        }
    }
}
