//! The foot, two lines that never change their height: one running sentence in the order it is said on
//! the phone, then what the shop doesn't know and what was done last.

use egui::{Align, FontId, Layout, Rect, RichText, Ui, UiBuilder};
use quillbore_job::quick::Told;
use quillbore_job::results::foot::{Leads, Piece, text};

use super::parts::{foot_figure, pencil};
use super::quick_line::QuickTold;
use super::shared::Shared;
use crate::desk::Made;
use crate::grid::GridAt;
use crate::look;
use crate::view::{Ask, SheetView, Target};
use crate::words::hand_over;

/// The height of the sentence.
const FIRST: f32 = 26.0;

/// The sentence, whose figures open their working, and below it what was done last.
pub fn foot_ui(
    ui: &mut Ui,
    shared: &Shared<'_>,
    view: &mut SheetView,
    (quick, notice): (Option<&QuickTold>, &str),
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    let foot = &shared.whole.foot;
    let all = ui.max_rect();
    let first = all.with_max_y(all.top() + FIRST);
    let second = all.with_min_y(first.bottom());
    let line = |place: Rect| {
        let layout = Layout::left_to_right(Align::Center);
        UiBuilder::new().max_rect(place).layout(layout)
    };
    ui.scope_builder(line(first), |ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        if let Some(told) = quick {
            for piece in &told.said {
                quick_piece(ui, piece, asks);
            }
            return;
        }
        let fonts = [look::foot(), look::foot_bold()];
        pieces_ui(ui, &foot.said, &fonts, view, asks);
    });
    ui.scope_builder(line(second), |ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        match quick {
            Some(told) => pencil(ui, &told.rests),
            None => {
                let fonts = [look::small(), look::small_bold()];
                pieces_ui(ui, &foot.rests, &fonts, view, asks);
            }
        }
        ui.add_space(16.0);
        let room = ui.available_rect_before_wrap();
        let left = match shared.made {
            Some(made) => made_ui(ui, room, made, asks),
            None => room.right(),
        };
        let room = room.with_max_x(left);
        look::clipped_label(ui, room, notice, look::small(), t.accent);
    });
}

/// What can be done with what the last deed made, at the right end; gives where the words begin.
fn made_ui(ui: &mut Ui, room: Rect, made: &Made, asks: &mut Vec<Ask>) -> f32 {
    let layout = Layout::right_to_left(Align::Center);
    let shown = ui.scope_builder(UiBuilder::new().max_rect(room).layout(layout), |ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        let mut words = vec![
            (hand_over::PRINT, Ask::PrintFile(made.file.clone())),
            (hand_over::OPEN_FOLDER, Ask::OpenFolder),
            (hand_over::OPEN, Ask::OpenFile(made.file.clone())),
        ];
        if let Some(number) = &made.paper {
            words.insert(0, (hand_over::MAIL, Ask::Mail(number.clone())));
        }
        for (word, ask) in words {
            if look::word(ui, word).clicked() {
                asks.push(ask);
            }
        }
        ui.min_rect().left()
    });
    shown.inner - 12.0
}

/// The pieces of a line, plain and strong in their fonts, as far as there is room; the rest is cut and
/// told whole on hover.
fn pieces_ui(
    ui: &mut Ui,
    pieces: &[Piece],
    [plain, strong]: &[FontId; 2],
    view: &mut SheetView,
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    for (at, piece) in pieces.iter().enumerate() {
        let font = if piece.strong { strong } else { plain };
        let galley = ui
            .painter()
            .layout_no_wrap(piece.text.clone(), font.clone(), t.ink);
        // Behind every piece but the last there is room for the sign that more follows.
        let is_last = at + 1 == pieces.len();
        let kept = if is_last { 0.0 } else { 24.0 };
        if galley.size().x > ui.available_width() - kept {
            let rest = text(pieces.get(at..).unwrap_or_default());
            let room = ui.available_rect_before_wrap();
            look::clipped(ui, room, &rest, plain.clone(), t.ink);
            ui.allocate_space(room.size());
            return;
        }
        piece_ui(ui, piece, font.clone(), view, asks);
    }
}

/// A piece of a line: a figure opens its working, what is missing leads to its line.
fn piece_ui(ui: &mut Ui, piece: &Piece, font: FontId, view: &mut SheetView, asks: &mut Vec<Ask>) {
    match piece.leads {
        Some(Leads::Working(figure)) => foot_figure(ui, &piece.text, figure, font, view),
        Some(Leads::Line(beside)) => {
            if look::word_in_font(ui, &piece.text, font).clicked() {
                asks.push(Ask::GoTo(Target::Beside(beside)));
            }
        }
        Some(Leads::FirstHole) => {
            if look::word_in_font(ui, &piece.text, font).clicked() {
                asks.push(Ask::GoTo(Target::Cell(GridAt::default())));
            }
        }
        None => {
            ui.label(RichText::new(&piece.text).font(font));
        }
    }
}

/// A piece of what is said of a quick price: an assumption is a word that leads where one would say
/// otherwise.
fn quick_piece(ui: &mut Ui, piece: &Told, asks: &mut Vec<Ask>) {
    match piece.leads_to {
        Some(leads_to) => {
            if look::word_in_font(ui, &piece.text, look::foot()).clicked() {
                asks.push(Ask::MakeQuick(Some(leads_to)));
            }
        }
        None => {
            ui.label(RichText::new(&piece.text).font(look::foot()));
        }
    }
}
