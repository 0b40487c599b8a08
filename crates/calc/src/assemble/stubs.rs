//! What the pieces left of used electrodes would drill of a lot.
//!
//! A piece is planned as a new electrode is, at the wear of the kit: it may start on an end of a hole
//! where its free length is as far as the end reaches and what is lost in it, and is shorter by that
//! afterwards. Its tip was used, so it is dressed before each hole that asks for it, the first as well.

use alloc::vec::Vec;

use super::tubes::LotTube;
use crate::quantity::ROUNDING_MM;
use crate::reach::usable;
use crate::tables::{Machine, Tube};

/// Places of rows in the job, the deepest reach first, each with the holes of the lot that the pieces
/// of its tube would drill: the longest piece takes the deepest holes that it reaches, then those next
/// in depth. Holes that take more than one electrode each are left to new ones.
pub(super) fn by_stubs(
    lot: &LotTube,
    parts: u32,
    tube: &Tube,
    machine: &Machine,
) -> Vec<(usize, u32)> {
    let mut pieces: Vec<(u32, f64)> = tube.stubs.clone();
    pieces.sort_by(|one, other| other.1.total_cmp(&one.1));
    // No piece is longer than what it was left of.
    let usable = |mm: f64| {
        usable(
            mm.min(tube.length_mm),
            machine.held_back_mm,
            machine.stroke_mm,
        )
    };
    let pieces: Vec<(u32, f64)> = pieces
        .into_iter()
        .map(|(count, mm)| (count, usable(mm)))
        .collect();
    let mut asked = asked(lot, parts);
    drill(&pieces, &mut asked);
    let drilled = asked.iter().map(|row| (row.place, row.holes()));
    drilled.filter(|(_, holes)| *holes > 0).collect()
}

/// What a row asks of pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Asked {
    /// Its place in the job.
    place: usize,
    /// How far an end reaches from the guide's stand-off on [mm].
    reach_mm: f64,
    /// What is lost in one end, dressing and all [mm].
    consume_mm: f64,
    /// Ends of one hole.
    ends: u64,
    /// Ends that are not drilled yet.
    left: u64,
    /// Ends that pieces drill.
    drilled: u64,
}

impl Asked {
    /// Whole holes that pieces drill.
    fn holes(&self) -> u32 {
        u32::try_from(self.drilled / self.ends).unwrap_or(u32::MAX)
    }
}

fn asked(lot: &LotTube, parts: u32) -> Vec<Asked> {
    let rows = lot.lot.rows.iter().zip(&lot.places);
    let mut asked: Vec<Asked> = rows
        .filter_map(|(row, &place)| {
            let high = lot.lot.at_high(row);
            let (mut ends, mut reach_mm, mut lost_mm) = (0, 0.0_f64, 0.0_f64);
            for stage in high.stages.iter().flatten() {
                if stage.whole > 0 {
                    return None;
                }
                ends += 1;
                reach_mm = reach_mm.max(stage.target_mm);
                lost_mm = lost_mm.max(stage.wear_mm);
            }
            (ends > 0).then(|| Asked {
                place,
                reach_mm,
                consume_mm: lost_mm + lot.lot.dressed_mm(row),
                ends,
                left: (u64::from(row.holes) * u64::from(parts)).saturating_mul(ends),
                drilled: 0,
            })
        })
        .collect();
    asked.sort_by(|one, other| other.reach_mm.total_cmp(&one.reach_mm));
    asked
}

/// Gives pieces their ends, the longest piece first; `pieces` are counts of usable lengths.
fn drill(pieces: &[(u32, f64)], asked: &mut [Asked]) {
    for &(count, usable_mm) in pieces {
        let mut left = u64::from(count);
        while left > 0 {
            let fill = fill(usable_mm, asked);
            // Pieces alike are filled alike, until a row has no more ends for another.
            let times = fill.iter().map(|&(at, ends)| asked[at].left / ends);
            let Some(times) = times.min() else { break };
            let times = times.min(left);
            for (at, ends) in fill {
                asked[at].left -= ends * times;
                asked[at].drilled += ends * times;
            }
            left -= times;
        }
    }
}

/// What one piece drills: places among the rows asked, and how many ends of each.
fn fill(usable_mm: f64, asked: &[Asked]) -> Vec<(usize, u64)> {
    let mut free = usable_mm;
    let mut fill = Vec::new();
    for (at, row) in asked.iter().enumerate() {
        let room = free - row.reach_mm + ROUNDING_MM;
        if row.left == 0 || room < row.consume_mm {
            continue;
        }
        let fit = libm::floor(room / row.consume_mm.max(ROUNDING_MM)) as u64;
        let ends = fit.min(row.left);
        free -= ends as f64 * row.consume_mm;
        fill.push((at, ends));
    }
    fill
}

#[cfg(test)]
mod tests {
    use alloc::vec;

    use super::*;

    const fn row(place: usize, reach_mm: f64, consume_mm: f64, left: u64) -> Asked {
        Asked {
            place,
            reach_mm,
            consume_mm,
            ends: 1,
            left,
            drilled: 0,
        }
    }

    fn holes(pieces: &[(u32, f64)], asked: &[Asked]) -> Vec<u32> {
        let mut asked = asked.to_vec();
        drill(pieces, &mut asked);
        asked.iter().map(Asked::holes).collect()
    }

    #[test]
    fn a_piece_drills_what_its_length_beyond_the_reach_is_worn_by() {
        // 30 mm deep, 8 mm lost in each: (60 - 30) / 8 = 3.75, so three.
        let deep = row(0, 30.0, 8.0, 10);
        assert_eq!(holes(&[(1, 60.0)], &[deep]), [3]);
        // Just one: 38 mm; less by a hair: none; held back whole: none.
        assert_eq!(holes(&[(1, 38.0)], &[deep]), [1]);
        assert_eq!(holes(&[(1, 37.9)], &[deep]), [0]);
        assert_eq!(holes(&[(1, 0.0)], &[deep]), [0]);
        // Never more than the lot has.
        assert_eq!(holes(&[(9, 60.0)], &[deep]), [10]);
        assert_eq!(holes(&[(u32::MAX, 60.0)], &[row(0, 30.0, 0.0, 7)]), [7]);
    }

    #[test]
    fn the_deepest_holes_come_first_and_the_rest_goes_to_shallower_ones() {
        // 60 mm: one of 50 + 8, then (52 - 10) / 8 = 5.25 of 10 mm. 40 mm: none of 50, (40 - 10) / 8
        // = 3.75 of 10.
        let rows = [row(0, 50.0, 8.0, 4), row(1, 10.0, 8.0, 100)];
        assert_eq!(holes(&[(1, 60.0)], &rows), [1, 5]);
        assert_eq!(holes(&[(1, 40.0)], &rows), [0, 3]);
        // Two of 60, of which the first takes the last deep hole: 5 and (60 - 10) / 8 = 6.25.
        let rows = [row(0, 50.0, 8.0, 1), row(1, 10.0, 8.0, 100)];
        assert_eq!(holes(&[(2, 60.0)], &rows), [1, 11]);
    }

    #[test]
    fn a_hole_from_both_ends_takes_two_and_half_a_hole_is_none() {
        // (60 - 30) / 8 = 3 ends: one hole and a half.
        let both = Asked {
            ends: 2,
            ..row(0, 30.0, 8.0, 20)
        };
        assert_eq!(holes(&[(1, 60.0)], &[both]), [1]);
        assert_eq!(holes(&[(2, 60.0)], &[both]), [3]);
    }

    #[test]
    fn many_pieces_and_holes_take_no_time() {
        let rows = vec![row(0, 1.0, 1.0, u64::from(u32::MAX) * 1_000); 3];
        assert_eq!(holes(&[(u32::MAX, 101.0)], &rows), [u32::MAX, 0, 0]);
    }
}
