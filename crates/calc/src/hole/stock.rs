//! The shop's tubes as a hole's choice sees them: all lengths of a tube are one candidate.

use alloc::rc::Rc;
use alloc::vec::Vec;
use core::ops::Range;

use super::facts::{TubeFacts, drives};
use crate::idx::Idx;
use crate::quantity::SAME_SIZE_MM;
use crate::size::{Quantiles, Sized};
use crate::size_choice::{Candidate, Wish};
use crate::tables::{Machine, Tables, Tube};

/// Tubes to choose from.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stock {
    /// By diameter, material, channels.
    pub(super) candidates: Vec<Rc<Candidate>>,
    /// The places in `tubes` of each candidate's lengths.
    lengths: Vec<Range<usize>>,
    /// Shortest first within a candidate.
    tubes: Vec<Idx<Tube>>,
    /// Each of them with its candidate, in the table's order.
    places: Vec<(Idx<Tube>, usize)>,
}

impl Stock {
    /// All tubes of the shop of which a gap is known.
    pub(super) fn new(tables: &Tables, facts: &[TubeFacts], quantiles: &Quantiles) -> Self {
        let mut sorted: Vec<Idx<Tube>> = Idx::all(&tables.tubes)
            .filter(|tube| tube.beside(facts).is_some_and(|facts| facts.gap.is_some()))
            .collect();
        let tube = |tube: &Idx<Tube>| &tables.tubes[tube.at()];
        sorted.sort_by(|a, b| {
            let (a_tube, b_tube) = (tube(a), tube(b));
            (a_tube.outer_mm.total_cmp(&b_tube.outer_mm))
                .then(a_tube.material.cmp(&b_tube.material))
                .then((a_tube.channels > 1).cmp(&(b_tube.channels > 1)))
                .then(a_tube.length_mm.total_cmp(&b_tube.length_mm))
                .then(a.cmp(b))
        });
        let mut stock = Self::default();
        let alike = |a: &Idx<Tube>, b: &Idx<Tube>| {
            let (a, b) = (tube(a), tube(b));
            a.outer_mm == b.outer_mm
                && a.material == b.material
                && (a.channels > 1) == (b.channels > 1)
        };
        for lengths in sorted.chunk_by(alike) {
            let Some((first, gap)) = lengths
                .first()
                .and_then(|first| Some((first, first.beside(facts)?.gap?)))
            else {
                continue;
            };
            let start = &tables.start;
            let candidate = Candidate {
                tube: *first,
                sized: Sized::new(
                    tube(first).outer_mm,
                    gap,
                    &start.size_scatter_mm,
                    start.tube_tolerance_mm,
                    quantiles,
                ),
                several: tube(first).channels > 1,
                material: tube(first).material,
            };
            stock.push(Rc::new(candidate), lengths);
        }
        stock.places.sort_unstable();
        stock
    }

    fn push(&mut self, candidate: Rc<Candidate>, lengths: &[Idx<Tube>]) {
        let place = self.candidates.len();
        let from = self.tubes.len();
        self.tubes.extend(lengths);
        self.lengths.push(from..self.tubes.len());
        self.places
            .extend(lengths.iter().map(|tube| (*tube, place)));
        self.candidates.push(candidate);
    }

    /// What of it a machine drives.
    pub(super) fn driven_by(&self, machine: &Machine) -> Self {
        let mut driven = Self::default();
        for (candidate, lengths) in self.candidates.iter().zip(&self.lengths) {
            if drives(machine, candidate.sized.tube_mm) {
                let tubes = self.tubes.get(lengths.clone()).unwrap_or_default();
                driven.push(Rc::clone(candidate), tubes);
            }
        }
        driven.places.sort_unstable();
        driven
    }

    /// A candidate's tubes, shortest first.
    pub(super) fn lengths(&self, place: usize) -> &[Idx<Tube>] {
        let range = self.lengths.get(place).cloned().unwrap_or_default();
        self.tubes.get(range).unwrap_or_default()
    }

    /// The candidate that a tube is a length of.
    pub(super) fn of_tube(&self, tube: Idx<Tube>) -> Option<usize> {
        let at = self.places.binary_search_by_key(&tube, |(tube, _)| *tube);
        at.ok().map(|at| self.places[at].1)
    }

    /// The candidate of a diameter that meets the wish best.
    pub(super) fn of_diameter(&self, outer_mm: f64, wish: Wish) -> Option<usize> {
        let alike = self.candidates.iter().enumerate();
        alike
            .filter(|(_, tube)| (tube.sized.tube_mm - outer_mm).abs() < SAME_SIZE_MM)
            .max_by_key(|(_, tube)| tube.meets(wish))
            .map(|(place, _)| place)
    }

    /// The candidates with the channels and the material of one, by rising diameter.
    pub(super) fn class_of(&self, like: &Candidate) -> impl Iterator<Item = &Candidate> {
        let (several, material) = (like.several, like.material);
        self.candidates
            .iter()
            .map(Rc::as_ref)
            .filter(move |tube| tube.several == several && tube.material == material)
    }
}
