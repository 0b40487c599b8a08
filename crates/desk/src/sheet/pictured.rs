//! Which block the picture belongs to: the one that one works in, else the one that is most in sight.

use egui::{Id, Pos2, Rangef, Rect, Ui};

/// What is pictured.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pictured {
    /// The section of the hole at the cursor.
    #[default]
    Hole,
    /// The electrodes of the lot.
    Electrodes,
    /// The spread of hours and cost.
    Spread,
}

/// What is pictured, and how that was chosen.
#[derive(Clone, Copy, Debug, Default)]
pub struct PictureAt {
    /// What is pictured.
    pub shown: Pictured,
    focus: Option<Id>,
}

/// A block with less of it in sight is out of it.
const IN_SIGHT: f32 = 60.0;

impl PictureAt {
    /// Follows where somebody presses or takes the keyboard among blocks of a sheet seen in `sight`.
    pub fn follow(&mut self, ui: &Ui, blocks: &[(Pictured, Rangef)], sight: Rect) {
        let focus = ui.memory(egui::Memory::focused);
        let has_moved = focus != self.focus;
        self.focus = focus;
        let (pressed, clicked) = ui.input(|input| {
            let pressed = input.pointer.any_pressed();
            let at = pressed.then(|| input.pointer.interact_pos()).flatten();
            (at, input.pointer.any_click())
        });
        // A response that is read while the pointer clicks beside it would take the keyboard from it.
        let focused = focus.filter(|_| has_moved && !clicked && pressed.is_none());
        let focused = focused.and_then(|id| ui.ctx().read_response(id));
        let at = pressed.or_else(|| focused.map(|response| response.rect.center()));
        self.go(blocks, sight, at);
    }

    /// Goes to the block at a place; stays at the one before, unless that went out of sight.
    fn go(&mut self, blocks: &[(Pictured, Rangef)], sight: Rect, at: Option<Pos2>) {
        let seen = |range: Rangef| {
            let (top, bottom) = (range.min.max(sight.top()), range.max.min(sight.bottom()));
            (bottom - top).max(0.0)
        };
        let at = at.filter(|at| sight.contains(*at));
        let there = at.and_then(|at| blocks.iter().find(|(_, range)| range.contains(at.y)));
        if let Some((block, _)) = there {
            self.shown = *block;
            return;
        }
        let own = blocks.iter().find(|(block, _)| *block == self.shown);
        if own.is_some_and(|(_, range)| seen(*range) >= IN_SIGHT.min(range.span())) {
            return;
        }
        let most = blocks.iter().max_by(|a, b| seen(a.1).total_cmp(&seen(b.1)));
        if let Some((block, range)) = most
            && seen(*range) > 0.0
        {
            self.shown = *block;
        }
    }
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;

    const SIGHT: Rect = Rect {
        min: pos2(0.0, 0.0),
        max: pos2(800.0, 600.0),
    };

    fn blocks(scrolled: f32) -> [(Pictured, Rangef); 3] {
        [
            (Pictured::Hole, Rangef::new(300.0, 500.0)),
            (Pictured::Electrodes, Rangef::new(500.0, 700.0)),
            (Pictured::Spread, Rangef::new(700.0, 1400.0)),
        ]
        .map(|(block, range)| {
            let range = Rangef::new(range.min - scrolled, range.max - scrolled);
            (block, range)
        })
    }

    #[test]
    fn the_picture_is_of_the_block_that_was_pressed() {
        let mut at = PictureAt::default();
        at.go(&blocks(0.0), SIGHT, None);
        assert_eq!(at.shown, Pictured::Hole);
        at.go(&blocks(0.0), SIGHT, Some(pos2(100.0, 550.0)));
        assert_eq!(at.shown, Pictured::Electrodes);
        at.go(&blocks(0.0), SIGHT, None);
        assert_eq!(at.shown, Pictured::Electrodes, "it stays");
        // Beside the sheet, or above all three: nothing else is chosen.
        for beside in [pos2(900.0, 350.0), pos2(100.0, 100.0)] {
            at.go(&blocks(0.0), SIGHT, Some(beside));
            assert_eq!(at.shown, Pictured::Electrodes);
        }
    }

    #[test]
    fn one_that_goes_out_of_sight_gives_way_to_what_is_seen_most() {
        let mut at = PictureAt::default();
        at.go(&blocks(430.0), SIGHT, None);
        assert_eq!(at.shown, Pictured::Hole, "seventy points are seen of it");
        at.go(&blocks(480.0), SIGHT, None);
        assert_eq!(at.shown, Pictured::Spread);
        at.go(&blocks(0.0), SIGHT, None);
        assert_eq!(at.shown, Pictured::Hole, "the price is out of sight again");
    }

    #[test]
    fn a_folded_block_in_sight_keeps_its_picture() {
        let folded = [
            (Pictured::Hole, Rangef::new(300.0, 340.0)),
            (Pictured::Spread, Rangef::new(340.0, 900.0)),
        ];
        let mut at = PictureAt::default();
        at.go(&folded, SIGHT, None);
        assert_eq!(at.shown, Pictured::Hole);
    }
}
