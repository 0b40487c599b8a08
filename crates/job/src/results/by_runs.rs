//! What the shop's run records make of a job's figures, over all rows.

use quillbore_calc::JobFigures;
use quillbore_calc::job_figures::OwnFigures;
use quillbore_calc::learn::Behind;

/// What run records make of a job's figures, over all rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ByRuns {
    /// The records that stand behind the row that has the fewest; none where there are no records.
    pub behind: Option<Behind>,
    /// Factor on the sparking minutes of the lot by the start values.
    pub minutes: f64,
    /// Factor on the wear of the lot by the start values.
    pub wear: f64,
    /// Whether some run measured a length; where none did, wear goes along with the minutes.
    pub wear_measured: bool,
}

impl ByRuns {
    /// What run records make of these figures: 1 where there are none.
    #[must_use]
    pub fn of(figures: &JobFigures) -> Self {
        let [
            mut minutes,
            mut minutes_at_start,
            mut wear,
            mut wear_at_start,
        ] = [0.0; 4];
        for hole in &figures.holes {
            let own = hole.own.as_deref();
            let factor = |of: fn(&OwnFigures) -> f64| own.map_or(1.0, of);
            let holes = f64::from(hole.places);
            if let Some(parts) = &hole.minutes_in {
                minutes += holes * parts.sparking();
                minutes_at_start += holes * parts.sparking() / factor(|own| own.burn.factor);
            }
            if let Some(lost) = hole.wear_mm {
                wear += holes * lost;
                wear_at_start += holes * lost / factor(|own| own.wear.factor);
            }
        }
        let ratio = |now: f64, start: f64| if start > 0.0 { now / start } else { 1.0 };
        Self {
            behind: figures.behind(),
            minutes: ratio(minutes, minutes_at_start),
            wear: ratio(wear, wear_at_start),
            wear_measured: figures
                .holes
                .iter()
                .filter_map(|hole| hole.own.as_deref())
                .any(|own| own.wear_measured),
        }
    }
}
