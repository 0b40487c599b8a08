//! A pasted table on its way into the hole table: what isn't understood is asked about first.

use quillbore_intake::{Foreign, Holds, Taken};
use quillbore_job::RowsAt;
use quillbore_job::report::{LineOutcome, ReportLine};

use super::App;
use crate::grid::GridAt;
use crate::view::{Pasting, Waiting};
use crate::words::messages as words;

impl App {
    /// Takes a pasted table, or asks about the first column that is not understood.
    pub(super) fn paste(&mut self, pasting: Pasting) {
        if self.is_asked() {
            self.desk_mut().notice = words::ANSWER_BEFORE_PASTE.to_owned();
            return;
        }
        let Pasting { table, row, unit } = &pasting;
        match table.take(self.desk().job(), RowsAt::Over { row: *row }, *unit) {
            Ok(taken) => {
                let before = self.desk().history.state();
                self.edit(&taken.edit);
                let desk = self.desk_mut();
                if desk.history.state() != before {
                    desk.notice = told(table, &taken);
                }
                if !table.lies_as_laid() {
                    // Head or values decided the columns: the block lies elsewhere than it was pasted.
                    let at = GridAt::new(*row, 0);
                    self.view_mut().grid.go_to(at);
                }
            }
            Err(_) => {
                let view = self.view_mut();
                view.waiting = Some(Waiting::Column(Box::new(pasting), String::new()));
                view.waiting_shown = false;
            }
        }
    }

    /// Hears what the column is that was asked about, and goes on with the paste.
    pub(super) fn say_column(&mut self, holds: Holds) {
        let Some(Waiting::Column(mut pasting, typed)) = self.view_mut().waiting.take() else {
            return;
        };
        let asked = pasting.table.questions().first().map(|asked| asked.column);
        let Some(column) = asked else {
            return self.paste(*pasting);
        };
        match pasting.table.say(column, holds) {
            Ok(()) => self.paste(*pasting),
            Err(error) => {
                self.desk_mut().notice = words::column_refused(&error, error.hint());
                self.view_mut().waiting = Some(Waiting::Column(pasting, typed));
            }
        }
    }
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
