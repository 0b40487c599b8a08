//! Which tubes a size may be begun with, and whether it can be held: worked out once for all rows
//! that ask the same.

use alloc::rc::Rc;
use alloc::vec::Vec;

use super::asked::{Asked, Held};
use super::context::Context;
use super::facts::ByRecords;
use super::judgements::Choices;
use super::remembered::{MOST, remember};
use crate::chance::{Bought, Chance};
use crate::quantity::{Limits, SAME_SIZE_MM};
use crate::size::{COMFORTABLE, Holding, Sized, held};
use crate::size_choice::{Candidate, Choice, Wish, choose_by};

/// Steps in which tubes can be bought [mm], and the sizes they come in (common practice, no source).
const BOUGHT_STEP_MM: f64 = 0.05;
const BOUGHT_MM: Limits = Limits::new(0.1, 12.7);
/// What a bought tube must add to the chance to be worth telling.
const WORTH_TELLING: f64 = 0.02;

impl Context<'_> {
    /// The tubes that this machine may begin with; places in [`Context::driven`].
    pub(super) fn choice(&self, asked: &Asked) -> Rc<Choice> {
        self.remembered(&self.judgements.choices, &self.driven.candidates, asked)
    }

    /// The tubes of the shop, whatever drives them; places in [`Context::all`].
    pub(super) fn choice_of_all(&self, asked: &Asked) -> Rc<Choice> {
        self.remembered(&self.judgements.of_all, &self.all.candidates, asked)
    }

    /// Whether a size can be held with tubes like this one.
    pub(super) fn held(&self, asked: &Asked, like: &Candidate) -> Held {
        let class = Wish {
            several: like.several,
            material: Some(like.material),
        };
        let asked = Asked {
            wish: class,
            ..*asked
        };
        let mut stock: Vec<&Sized> = self.driven.class_of(like).map(|tube| &tube.sized).collect();
        // A tube of another gap than the shop's, by a figure that was overruled, says nothing of other rows.
        let is_of_stock = stock.iter().any(|sized| **sized == like.sized);
        let key = asked.key();
        if let Some(known) = self.judgements.helds.borrow().get(&key)
            && is_of_stock
        {
            return *known;
        }
        if !is_of_stock {
            stock.push(&like.sized);
        }
        let holding = Holding::of(stock, asked.limits_mm, asked.taper_mm);
        let of_stock = holding.mean();
        let bought = if of_stock < COMFORTABLE {
            self.to_buy(&asked).and_then(|tube| {
                let held = holding.mean_with(&tube);
                (held > of_stock + WORTH_TELLING).then_some(Bought {
                    outer_mm: tube.tube_mm,
                    held,
                })
            })
        } else {
            None
        };
        let found = Held {
            held: of_stock,
            bought,
        };
        if is_of_stock {
            remember(&mut self.judgements.helds.borrow_mut(), MOST, key, found);
        }
        found
    }

    /// Whether a size can be held where no tube of the shop is to be begun with.
    pub(super) fn held_by_none(&self, asked: &Asked) -> Held {
        let bought = self.to_buy(asked).map(|tube| Bought {
            outer_mm: tube.tube_mm,
            held: held([&*tube], asked.limits_mm, asked.taper_mm),
        });
        Held {
            held: 0.0,
            bought: bought.filter(|bought| bought.held > WORTH_TELLING),
        }
    }

    /// The tube in the steps that can be bought, and that this machine drives, which is most likely
    /// right at once; none where the shop has it already.
    fn to_buy(&self, asked: &Asked) -> Option<Rc<Sized>> {
        let sizes = self.machine.map_or(BOUGHT_MM, |machine| {
            let Limits { lower, upper } = machine.tube_mm;
            Limits::new(lower.max(BOUGHT_MM.lower), upper.min(BOUGHT_MM.upper))
        });
        // A gap is wider than nothing, so nothing from the upper limit on can be right; and twice the
        // widest gap below the lower one nothing can be right either.
        let most = sizes.upper.min(asked.limits_mm.upper);
        let least = sizes.lower.max(asked.limits_mm.lower - self.widest_mm);
        let first = libm::ceil((least - SAME_SIZE_MM) / BOUGHT_STEP_MM) as u32;
        let last = libm::floor((most + SAME_SIZE_MM) / BOUGHT_STEP_MM) as u32;
        let near = (first..=last)
            .filter_map(|step| self.of_step(step))
            .filter(|sized| !sized.is_far_from(asked.limits_mm, asked.taper_mm));
        let mut bounded: Vec<(f64, Rc<Sized>)> = near
            .map(|sized| (sized.most_score(asked.limits_mm, asked.taper_mm), sized))
            .collect();
        bounded.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut best: Option<(f64, Rc<Sized>)> = None;
        for (most, sized) in bounded {
            if best.as_ref().is_some_and(|(best, _)| most < *best) {
                break;
            }
            let chance = self.chance(asked, &sized);
            let score = chance.inside - chance.over;
            // Of equals the widest, so that the order of looking decides nothing.
            let beats = |(other, than): &(f64, Rc<Sized>)| {
                let by_score = score.total_cmp(other);
                by_score
                    .then(sized.tube_mm.total_cmp(&than.tube_mm))
                    .is_ge()
            };
            if best.as_ref().is_none_or(beats) {
                best = Some((score, sized));
            }
        }
        let (_, best) = best?;
        let has = self
            .driven
            .of_diameter(best.tube_mm, asked.wish)
            .and_then(|place| self.driven.candidates.get(place))
            .is_some_and(|tube| tube.meets(asked.wish) == (true, true));
        (!has).then_some(best)
    }

    /// A tube in the steps that can be bought.
    fn of_step(&self, step: u32) -> Option<Rc<Sized>> {
        if let Some(known) = self.judgements.steps.borrow().get(&step) {
            return known.clone();
        }
        let start = &self.start;
        let known = ByRecords {
            start,
            lessons: self.lessons,
            machine: self.setting.machine,
        };
        // Steps of 0.05 as decimal fractions, so that 23 of them are 1.15 to the last digit.
        let tube_mm = f64::from(step) / (1.0 / BOUGHT_STEP_MM);
        let (scatter, tolerance) = (&start.size_scatter_mm, start.tube_tolerance_mm);
        let sized = known.gap(tube_mm).map(|gap| {
            let sized = Sized::new(tube_mm, gap, scatter, tolerance, &self.quantiles);
            Rc::new(sized)
        });
        self.judgements
            .steps
            .borrow_mut()
            .insert(step, sized.clone());
        sized
    }

    /// The chance of a tube whose gap goes by its diameter alone.
    pub(super) fn chance(&self, asked: &Asked, tube: &Sized) -> Chance {
        let chances = &self.judgements.chances;
        chances.of(tube, asked.limits_mm, asked.taper_mm)
    }

    /// A choice that was worked out before, or is now.
    fn remembered(
        &self,
        known: &Choices,
        candidates: &[Rc<Candidate>],
        asked: &Asked,
    ) -> Rc<Choice> {
        let key = asked.key();
        if let Some(choice) = known.borrow().get(&key) {
            return Rc::clone(choice);
        }
        let (limits_mm, taper_mm) = (asked.limits_mm, asked.taper_mm);
        let choice = Rc::new(choose_by(
            candidates,
            limits_mm,
            taper_mm,
            asked.wish,
            |tube| self.chance(asked, tube),
        ));
        remember(&mut known.borrow_mut(), MOST, key, Rc::clone(&choice));
        choice
    }
}
