//! Whether a part's weight holds it against the flush in each setup.

use alloc::vec::Vec;

use super::prepare::Prepared;
use crate::finding::{About, Finding, Kind, Level};
use crate::input::{HoleEnd, RowInput};
use crate::job_figures::{HeldInSetup, HoleFigures, Moves, SetupFigures, Stop};
use crate::mount::Mount;
use crate::outline::{self, Outline};
use crate::push::{Part, Pushed, Rest, Support, held};
use crate::row_id::RowId;
use crate::tables::{Machine, Tilts};
use crate::vector::{Vector, along, opposite};

/// A part as it stands in a setup.
struct Standing {
    part: Part,
    support: Support,
    /// What points up while nothing is tilted.
    up: Vector,
}

/// A row with its number and what was reckoned of it.
type KnownRow<'a> = (RowId, &'a RowInput, &'a HoleFigures);

impl Prepared<'_> {
    /// Puts what must hold the part into each setup, and says where its weight doesn't.
    pub(super) fn hold(&self, setups: &mut [SetupFigures], findings: &mut Vec<Finding>) {
        // Whether its weight holds a part goes by its mass.
        let Some(machine) = self.machine.filter(|_| self.input.mass_kg.is_some()) else {
            return;
        };
        let lies = outline::of_job(self.input);
        let mut by_id: Vec<KnownRow<'_>> = (self.input.rows.iter())
            .zip(&self.holes)
            .map(|(row, hole)| (row.id, row, &**hole))
            .collect();
        by_id.sort_by_key(|(id, ..)| *id);
        for setup in setups {
            let standing = self.standing(setup.mount, lies.as_ref());
            let Some(held) =
                standing.and_then(|standing| held_in(setup, machine, &standing, &by_id))
            else {
                continue;
            };
            if let Some((how, row)) = held.moves {
                let (push_n, clamp_n) = (held.push_n, held.clamp_n);
                let kind = Kind::PartMoved {
                    push_n,
                    clamp_n,
                    how,
                };
                findings.push(Finding {
                    level: if how == Moves::Nearly {
                        Level::Note
                    } else {
                        Level::Check
                    },
                    about: row.map_or(About::Job, About::Row),
                    kind,
                    remedy: None,
                });
            }
            setup.held = Some(held);
        }
    }

    fn standing(&self, mount: Mount, lies: Option<&Outline>) -> Option<Standing> {
        let (Mount::Face { up, .. } | Mount::Upright(up)) = mount else {
            // In a chuck, or in a fixture at an angle.
            return None;
        };
        let corner_mm = lies.map_or([0.0; 3], |lies| lies.corners_mm[0]);
        let stands_upright = |axis: usize| up[axis].abs() > 0.5;
        let round = lies.and_then(|lies| lies.round);
        let round = round.filter(|round| stands_upright(round.axis));
        let whole = round.map_or(Rest::Face, |round| Rest::Ring(2.0 * round.radius_mm));
        Some(Standing {
            part: Part {
                corner_mm,
                size_mm: self.input.part_mm?,
                mass_kg: self.input.mass_kg?,
            },
            support: Support {
                up,
                rest: self.input.rests_on.unwrap_or(whole),
            },
            up,
        })
    }
}

fn held_in(
    setup: &SetupFigures,
    machine: &Machine,
    standing: &Standing,
    by_id: &[KnownRow<'_>],
) -> Option<HeldInSetup> {
    let (pushes, rows) = pushes_in(setup, standing, by_id)?;
    let push_n = pushes.iter().fold(0.0, |most, push| push.push_n.max(most));
    let mut found = HeldInSetup {
        push_n,
        clamp_n: 0.0,
        stop_n: 0.0,
        moves: None,
    };
    let down = opposite(standing.up);
    let leans = |push: &Pushed| push.toward != down;
    // Under a table that tilts gravity goes with the tool; where nobody says what tilts, it may.
    let with_head = machine.tilts != Some(Tilts::Table) || !pushes.iter().any(leans);
    if with_head {
        let all: Vec<usize> = (0..pushes.len()).collect();
        found.add(standing, down, &pushes, &all, &rows)?;
    }
    if machine.tilts != Some(Tilts::Head) {
        for at in (0..pushes.len()).filter(|at| leans(&pushes[*at]) || !with_head) {
            found.add(standing, pushes[at].toward, &pushes, &[at], &rows)?;
        }
    }
    Some(found)
}

/// The pushes of a setup, each with its row; of a row without places at the part's corners.
fn pushes_in(
    setup: &SetupFigures,
    standing: &Standing,
    by_id: &[KnownRow<'_>],
) -> Option<(Vec<Pushed>, Vec<RowId>)> {
    let (mut pushes, mut rows) = (Vec::new(), Vec::new());
    for stop in &setup.order {
        let at = by_id.binary_search_by_key(&stop.row, |(id, ..)| *id).ok()?;
        let (id, row, hole) = by_id[at];
        let push_n = hole.push_n?;
        let mut put = |pushed: Pushed| {
            pushes.push(pushed);
            rows.push(id);
        };
        match pushed_at(row, hole, *stop) {
            Some(pushed) => put(Pushed { push_n, ..pushed }),
            None => {
                for point_mm in standing.corners() {
                    put(Pushed {
                        point_mm,
                        toward: opposite(standing.up),
                        push_n,
                        exit_mm: None,
                    });
                }
            }
        }
    }
    Some((pushes, rows))
}

/// Where and whither the flush pushes at a stop that has a place.
fn pushed_at(row: &RowInput, hole: &HoleFigures, stop: Stop) -> Option<Pushed> {
    let place = row.places.get(stop.place?)?;
    let depth_mm = hole.depth_mm.unwrap_or(0.0);
    let end_mm = along(place.point_mm, place.axis, depth_mm);
    let opens = row.end != HoleEnd::Blind && !row.backed;
    Some(if stop.far {
        Pushed {
            point_mm: end_mm,
            toward: opposite(place.axis),
            push_n: 0.0,
            exit_mm: None,
        }
    } else {
        Pushed {
            point_mm: place.point_mm,
            toward: place.axis,
            push_n: 0.0,
            exit_mm: opens.then_some(end_mm),
        }
    })
}

impl Standing {
    /// The corners of the face that lies up.
    fn corners(&self) -> impl Iterator<Item = Vector> {
        let Part {
            corner_mm, size_mm, ..
        } = self.part;
        let up = self.up;
        (0..8_u8).filter_map(move |corner| {
            let high = [0, 1, 2].map(|axis: usize| corner >> axis & 1 == 1);
            let is_up = (0..3).all(|axis| up[axis].abs() < 0.5 || high[axis] == (up[axis] > 0.0));
            let at = |axis: usize| corner_mm[axis] + if high[axis] { size_mm[axis] } else { 0.0 };
            is_up.then(|| [at(0), at(1), at(2)])
        })
    }
}

impl HeldInSetup {
    /// Takes the worse of what is known and of what some pushes ask for.
    fn add(
        &mut self,
        standing: &Standing,
        gravity: Vector,
        pushes: &[Pushed],
        which: &[usize],
        rows: &[RowId],
    ) -> Option<()> {
        let some: Vec<Pushed> = which.iter().map(|at| pushes[*at]).collect();
        let holding = held(&standing.part, &standing.support, gravity, &some)?;
        self.stop_n = self
            .stop_n
            .max(holding.stop.map_or(0.0, |stop| stop.force_n));
        if holding.clamp_n <= self.clamp_n {
            return Some(());
        }
        self.clamp_n = holding.clamp_n;
        let (how, turn) = match (holding.tips, holding.lifts) {
            (Some(tips), Some(lifts)) if lifts.hold_n > tips.hold_n => (Moves::Lifts, Some(lifts)),
            (Some(tips), _) => (Moves::Tips, Some(tips)),
            (None, Some(lifts)) => (Moves::Lifts, Some(lifts)),
            (None, None) => (Moves::Nearly, None),
        };
        let row = turn.and_then(|turn| rows.get(*which.get(turn.push?)?).copied());
        self.moves = Some((how, row));
        Some(())
    }
}
