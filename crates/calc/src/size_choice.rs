//! Which tube a hole is begun with, while the gap of its lot is still unknown.

use alloc::vec::Vec;
use core::borrow::Borrow;

use crate::idx::Idx;
use crate::job_figures::Chance;
use crate::quantity::Limits;
use crate::size::Sized;
use crate::tables::{Tube, TubeMaterial};

/// Best chance below which no tube is worth beginning with.
const LEAST_INSIDE: f64 = 0.05;
/// Chance of oversize above which a tube is not begun with.
const MOST_OVER: f64 = 0.5;
/// Share of the best chance that a tube must have to be looked at.
const SHARE_OF_BEST: f64 = 0.25;
/// Tubes whose chance of being right less that of oversize differ by less than this are equal.
const EQUAL: f64 = 0.02;

/// A tube as far as its choice is concerned; all lengths of a tube are one candidate.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its shortest tube.
    pub tube: Idx<Tube>,
    /// What it makes.
    pub sized: Sized,
    /// True for several channels.
    pub several: bool,
    /// What it is made of.
    pub material: TubeMaterial,
}

/// What a hole would like of its tube besides its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// Several channels, so that no core is left.
    pub several: bool,
    /// The tube material that the start values were taken with, where known.
    pub material: Option<TubeMaterial>,
}

impl Candidate {
    /// How well it meets the wish: channels before material.
    ///
    /// Formula: channels are as wished; the material is the wished one, or none is wished.
    ///
    /// - `wish`: channels and material.
    ///
    /// Result: whether channels and whether material are met.
    ///
    /// ```
    /// # use quillbore_calc::{Idx, Spread};
    /// # use quillbore_calc::size::{Quantiles, Sized};
    /// use quillbore_calc::size_choice::{Candidate, Wish};
    /// use quillbore_calc::tables::TubeMaterial::{Brass, Copper};
    /// # let gap = Spread::new(0.03, 0.06).unwrap();
    /// # let sized = Sized::new(0.7, gap, &[(1.0, 0.008)], 0.01, &Quantiles::default());
    /// let tube = Candidate { tube: Idx::new(0), sized, several: false, material: Brass };
    /// let meets = |several, material| tube.meets(Wish { several, material });
    /// assert_eq!(meets(false, None), (true, true));
    /// assert_eq!(meets(true, Some(Copper)), (false, false));
    /// ```
    ///
    /// Source: ours.
    #[must_use]
    pub fn meets(&self, wish: Wish) -> (bool, bool) {
        let material = wish.material.is_none_or(|wanted| wanted == self.material);
        (self.several == wish.several, material)
    }
}

/// The tubes that a hole may be begun with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Choice {
    /// Places of the best and of those as good, best first; money decides among them. Empty where
    /// there is no tube for the hole.
    pub best: Vec<usize>,
    /// Every tube with any chance, by place.
    pub chances: Vec<(usize, Chance)>,
}

/// The tubes that a hole may be begun with.
///
/// Formula: of the tubes with a chance of being right at least a quarter of the best, those that
/// meet the wish best; of these the one with the greatest chance of being right less that of
/// oversize, and all within 0.02 of it. Where that tube is oversize more often than not, the next
/// best wish is looked at. No tube where the best chance is under 5 %.
///
/// - `candidates`: each tube once.
/// - `limits_mm`: lower and upper limit [mm], the lower not above the upper.
/// - `taper_mm`: how much smaller the exit is than the entry [mm of diameter], 0 and up.
/// - `wish`: channels and material.
///
/// Result: places in `candidates`.
///
/// ```
/// use quillbore_calc::{Idx, Limits, Spread};
/// use quillbore_calc::size::{Quantiles, Sized};
/// use quillbore_calc::size_choice::{Candidate, Wish, choose};
/// use quillbore_calc::tables::TubeMaterial::Brass;
/// let (gap, quantiles) = (Spread::new(0.03, 0.06).unwrap(), Quantiles::default());
/// let tubes = [0.6, 0.7, 0.8].map(|outer_mm| Candidate {
///     tube: Idx::new(0),
///     sized: Sized::new(outer_mm, gap, &[(1.0, 0.008)], 0.01, &quantiles),
///     several: false,
///     material: Brass,
/// });
/// let wish = Wish { several: false, material: Some(Brass) };
/// assert_eq!(choose(&tubes, Limits::new(0.74, 0.86), 0.0, wish).best, [1]);
/// assert!(choose(&tubes, Limits::new(0.50, 0.60), 0.0, wish).best.is_empty());
/// ```
///
/// Source: ours: oversize is scrap, undersize can be opened; worked figures by an independent
/// prototype in the tests.
#[must_use]
pub fn choose(candidates: &[Candidate], limits_mm: Limits, taper_mm: f64, wish: Wish) -> Choice {
    choose_by(candidates, limits_mm, taper_mm, wish, |tube| {
        tube.chance(limits_mm, taper_mm)
    })
}

/// [`choose`] by chances that may be known already.
pub(crate) fn choose_by(
    candidates: &[impl Borrow<Candidate>],
    limits_mm: Limits,
    taper_mm: f64,
    wish: Wish,
    chance: impl Fn(&Sized) -> Chance,
) -> Choice {
    let mut chances: Vec<(usize, Chance)> = Vec::new();
    for (place, tube) in candidates.iter().enumerate() {
        let tube = tube.borrow();
        if tube.sized.is_far_from(limits_mm, taper_mm) {
            continue;
        }
        // Tubes of one diameter make the same sizes, whatever they are made of.
        let known = chances.last().copied().filter(|(before, _)| {
            let before = candidates.get(*before);
            before.is_some_and(|before| before.borrow().sized.tube_mm == tube.sized.tube_mm)
        });
        let chance = match known {
            Some((_, chance)) => chance,
            None => chance(&tube.sized),
        };
        chances.push((place, chance));
    }
    let best_inside = chances
        .iter()
        .fold(0.0_f64, |best, (_, chance)| best.max(chance.inside));
    if best_inside < LEAST_INSIDE {
        return Choice {
            best: Vec::new(),
            chances,
        };
    }
    let eligible: Vec<&(usize, Chance)> = chances
        .iter()
        .filter(|(_, chance)| chance.inside >= SHARE_OF_BEST * best_inside)
        .collect();
    let wishes = [(true, true), (true, false), (false, true), (false, false)];
    let best = wishes
        .into_iter()
        .map(|met| {
            let meets = |place: usize| candidates.get(place).map(|tube| tube.borrow().meets(wish));
            best_of(
                eligible
                    .iter()
                    .filter(|(place, _)| meets(*place) == Some(met)),
            )
        })
        .find(|best| !best.is_empty())
        .unwrap_or_default();
    Choice { best, chances }
}

/// The best of these tubes and those as good, best first; none where the best is likely oversize.
fn best_of<'a>(tubes: impl Iterator<Item = &'a &'a (usize, Chance)>) -> Vec<usize> {
    let mut scored: Vec<(usize, f64, f64)> = tubes
        .map(|(place, chance)| (*place, chance.inside - chance.over, chance.over))
        .collect();
    scored.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let Some(&(_, best, over)) = scored.first() else {
        return Vec::new();
    };
    if over > MOST_OVER {
        return Vec::new();
    }
    scored
        .into_iter()
        .take_while(|(_, score, _)| *score >= best - EQUAL)
        .filter(|(.., over)| *over <= MOST_OVER)
        .map(|(place, ..)| place)
        .collect()
}
