//! A pasted table on its way into the hole table: how its columns are understood is shown first.

use egui::{Context, Event, InputState};
use quillbore_intake::{Foreign, Holds, Known, Taken, holds_of, words as intake};
use quillbore_job::report::{LineOutcome, ReportLine};
use quillbore_job::{Field, FieldKind, RowsAt};

use super::App;
use crate::grid::{GridAt, read_block};
use crate::sheet::quick_line::QuickLine;
use crate::view::{Pasting, Waiting};
use crate::words::messages as words;

impl App {
    /// Takes a block that lies where it was pasted; a table whose columns are understood by heads or
    /// values, or not at all, is shown first.
    pub(super) fn paste(&mut self, mut pasting: Pasting) {
        if self.is_asked() {
            self.desk_mut().notice = words::ANSWER_BEFORE_PASTE.to_owned();
            return;
        }
        if pasting.table.lies_as_laid() && pasting.table.not_understood().0 == 0 {
            self.take(&pasting);
            return;
        }
        pasting.table.remember(&self.known());
        pasting.to_next_question();
        let view = self.view_mut();
        view.paper = None;
        view.wait_for(Waiting::Column(Box::new(pasting), String::new()));
    }

    /// A table pasted while nothing has the keyboard: it goes below the last row.
    pub(super) fn paste_anywhere(&mut self, ctx: &Context) {
        let view = self.view();
        let is_typing = ctx.text_edit_focused();
        // Several lines, or columns, are no text for a field of one line.
        let is_on_line = view
            .at_field
            .is_some_and(|spot| view.drafts.contains_key(&spot) && spot.kind() != FieldKind::Lines);
        let is_on_quick_line = view.quick.as_ref().is_some_and(QuickLine::has_keyboard);
        if (is_typing && !is_on_line && !is_on_quick_line)
            || view.waiting.is_some()
            || view.grid.is_active()
            || view.runs.is_active()
            || self.learned.open
            || self.shop.open
            || self.today.open
        {
            return;
        }
        let take = |input: &mut InputState| {
            let at = input.events.iter().position(|event| match event {
                Event::Paste(text) => !is_typing || is_table(text),
                _ => false,
            })?;
            match input.events.remove(at) {
                Event::Paste(text) => Some(text),
                _ => None,
            }
        };
        let Some(text) = ctx.input_mut(take) else {
            return;
        };
        let (row, unit) = (self.desk().job().rows.len(), self.desk().job().unit);
        match Foreign::of_rows(&read_block(&text), &[]) {
            Ok(table) => self.paste(Pasting::new(table, row, unit)),
            Err(error) => {
                self.desk_mut().notice = words::column_refused(&error, error.hint());
            }
        }
    }

    /// Pastes the table as its columns are understood, and remembers what was said of them for the
    /// customer's next one.
    pub(super) fn land_table(&mut self, ctx: &Context) {
        if matches!(
            self.view().waiting,
            Some(Waiting::Drawn(_) | Waiting::Pages(_))
        ) {
            self.land_file();
            return;
        }
        let Some(Waiting::Column(pasting, typed)) = self.view_mut().waiting.take() else {
            return;
        };
        if pasting.table.not_understood().0 > 0 {
            self.view_mut().waiting = Some(Waiting::Column(pasting, typed));
            return;
        }
        let learned = pasting.table.learned();
        if !learned.is_empty() {
            let customer = self.customer();
            let learned = learned.into_iter();
            let learned = learned.map(|(head, holds)| (head, intake::holds(holds).to_owned()));
            let learned: Vec<_> = learned.collect();
            self.change(ctx, |settings| {
                settings.heads.entry(customer).or_default().extend(learned);
            });
        }
        if pasting.file.is_some() {
            self.view_mut().waiting = Some(Waiting::Column(pasting, typed));
            if !self.land_file() {
                return;
            }
        } else {
            self.take(&pasting);
        }
        let view = self.view_mut();
        view.grid.take_keyboard();
    }

    fn take(&mut self, pasting: &Pasting) {
        let Pasting {
            table, row, unit, ..
        } = pasting;
        let taken = table.take(self.desk().job(), RowsAt::Over { row: *row }, *unit);
        let taken = match taken {
            Ok(taken) => taken,
            Err(error) => {
                self.desk_mut().notice = words::column_refused(&error, error.hint());
                return;
            }
        };
        let before = self.desk().history.state();
        self.edit(&taken.edit);
        let desk = self.desk_mut();
        if desk.history.state() != before {
            // What the edit itself told, such as the machine that came along, is said behind it.
            let said = std::mem::take(&mut desk.notice);
            desk.notice = format!("{} {said}", told(table, &taken))
                .trim_end()
                .to_owned();
        }
        if !table.lies_as_laid() {
            // Head or values decided the columns: the block lies elsewhere than it was pasted.
            let at = GridAt::new(*row, 0);
            self.view_mut().grid.go_to(at);
        }
    }

    /// What was said of the heads of the customer's earlier tables.
    pub(super) fn known(&self) -> Known {
        let heads = self
            .settings
            .heads
            .get(&self.customer())
            .into_iter()
            .flatten();
        Known::of(heads.filter_map(|(head, word)| Some((head.clone(), holds_of(word)?))))
    }

    /// The customer of the job in front, as heads are remembered by.
    fn customer(&self) -> String {
        let job = self.desk().job();
        job.text(Field::Customer).trim().to_lowercase()
    }

    /// Asks of a column what it is.
    pub(super) fn at_column(&mut self, column: usize) {
        let view = self.view_mut();
        if let Some(Waiting::Column(pasting, typed)) = &mut view.waiting {
            pasting.at = column;
            typed.clear();
            // The line to type on takes the keyboard back from the word that was pressed.
            view.waiting_shown = false;
        }
    }

    /// Hears what the column is that was asked about, and asks of the next one.
    pub(super) fn say_column(&mut self, holds: Holds) {
        let view = self.view_mut();
        let Some(Waiting::Column(pasting, typed)) = &mut view.waiting else {
            return;
        };
        view.waiting_shown = false;
        match pasting.table.say(pasting.at, holds) {
            Ok(()) => {
                typed.clear();
                pasting.to_next_question();
                pasting.changed();
            }
            Err(error) => {
                self.desk_mut().notice = words::column_refused(&error, error.hint());
            }
        }
    }
}

/// Whether a text that is pasted has columns or several lines.
fn is_table(text: &str) -> bool {
    let text = text.trim();
    text.contains('\t') || text.contains('\n')
}

/// What the foot says of a paste: how much was taken, and what of it is worth a look.
fn told(table: &Foreign, taken: &Taken) -> String {
    let mut said = vec![words::pasted(taken.report.lines.len(), taken.rows)];
    if table.is_headed() {
        said.extend(taken.report.whole.iter().skip(1).cloned());
    } else {
        said.extend(taken.report.whole.iter().cloned());
    }
    let worth = |line: &&ReportLine| line.outcome != LineOutcome::Taken;
    said.extend(
        taken
            .report
            .lines
            .iter()
            .filter(worth)
            .take(2)
            .map(|line| words::line_to_look_at(line.number, &line.says)),
    );
    said.join(" ")
}
