//! One cell of a grid: its text as it came about, or the editor in it.

use egui::{
    Align2, CursorIcon, EventFilter, FontId, Frame, Id, Margin, Rect, Response, Role, Stroke,
    StrokeKind, TextEdit, Ui, accesskit, pos2,
    text::{CCursor, CCursorRange},
    text_edit::TextEditState,
    vec2,
};

use super::{
    model::{CellState, GridColumn, GridModel},
    table::ROW_HEIGHT,
    view::{CellBlock, GridAt, GridView},
};
use crate::look::{self, Tokens};
use crate::words::grid as words;

pub(super) const PAD: f32 = 3.0;

/// What the cells of one frame are drawn by.
pub(super) struct CellPainter<'a, M: ?Sized> {
    pub(super) model: &'a M,
    /// The editor's place in the window.
    pub(super) editor: Id,
    pub(super) block: CellBlock,
    pub(super) cursor: GridAt,
    pub(super) active: bool,
    pub(super) tokens: &'static Tokens,
}

impl<M: GridModel + ?Sized> CellPainter<'_, M> {
    /// Draws a cell.
    pub(super) fn cell(
        &self,
        ui: &mut Ui,
        at: GridAt,
        column: &GridColumn,
        response: &Response,
        view: &mut GridView,
    ) {
        let t = self.tokens;
        let whole = ui.max_rect();
        let rect = self.line(ui);
        let here = at == self.cursor;
        let in_block = self.block.contains(at);
        let painter = ui.painter();
        if self.active && in_block && !self.block.is_one_cell() {
            painter.rect_filled(whole, 0.0, t.wash_strong);
        }
        self.pencilled(ui, at, column, whole.with_max_y(rect.top()));
        look::hairline_at(painter, rect.x_range(), rect.bottom() - 0.5, t.hairline);

        if here && view.draft.is_some() {
            self.edit(ui, at, column, view);
            return;
        }
        self.text(ui, at, column, response);
        if here && self.active {
            let place = rect.shrink(1.0);
            let stroke = Stroke::new(2.0, t.accent);
            ui.painter()
                .rect_stroke(place, 0.0, stroke, StrokeKind::Middle);
        }
    }

    /// The line of a cell that is typed in, at its foot.
    fn line(&self, ui: &Ui) -> Rect {
        let whole = ui.max_rect();
        whole.with_min_y(whole.bottom() - ROW_HEIGHT)
    }

    /// What is pencilled above that line.
    fn pencilled(&self, ui: &Ui, at: GridAt, column: &GridColumn, place: Rect) {
        let said = self.model.pencilled(at);
        if said.is_empty() {
            return;
        }
        let (t, width) = (self.tokens, place.width() - 2.0 * PAD);
        let galley = look::elided(ui.painter(), &said, look::small(), t.pencil, width);
        let x = if column.right {
            place.right() - PAD - galley.size().x
        } else {
            place.left() + PAD
        };
        ui.painter()
            .galley(pos2(x, place.top() + 2.0), galley, t.pencil);
    }

    fn text(&self, ui: &mut Ui, at: GridAt, column: &GridColumn, response: &Response) {
        let t = self.tokens;
        let rect = self.line(ui);
        let is_row = at.row < self.model.row_count();
        let text = if is_row {
            self.model.text(at)
        } else {
            "".into()
        };
        let state = if is_row {
            self.model.state(at)
        } else {
            CellState::Plain
        };
        let name = self.cell_name(at, column);
        name_node(ui, response, Role::Cell, &name, Some(&text));
        if text.is_empty() {
            return;
        }
        let width = rect.width() - 2.0 * PAD;
        let font = cell_font();
        let ink = if state == CellState::Usual {
            t.pencil
        } else {
            t.ink
        };
        let galley = look::elided(ui.painter(), &text, font, ink, width);
        if galley.elided && response.hovered() {
            response.clone().on_hover_text(text.as_ref());
        }
        let x = if column.right {
            rect.right() - PAD - galley.size().x
        } else {
            rect.left() + PAD
        };
        let pos = pos2(x, rect.center().y - galley.size().y / 2.0);
        let under = pos.y + galley.size().y - 1.5;
        let span = egui::Rangef::new(x, x + galley.size().x);
        ui.painter().galley(pos, galley, ink);
        match state {
            CellState::Plain | CellState::Usual => {}
            CellState::Unread => {
                look::wavy_underline(ui.painter(), span, under, t.accent);
            }
            CellState::Computed => {
                if response.hovered() {
                    look::dashed_underline(ui.painter(), span, under, t.accent);
                    ui.set_cursor_icon(CursorIcon::PointingHand);
                }
            }
            CellState::Overruled => {
                look::dashed_underline(ui.painter(), span, under, t.pencil);
            }
        }
    }

    fn edit(&self, ui: &mut Ui, at: GridAt, column: &GridColumn, view: &mut GridView) {
        let Some(draft) = &mut view.draft else {
            return;
        };
        let (t, editor) = (self.tokens, self.editor);
        let rect = self.line(ui);
        if draft.new {
            draft.new = false;
            let mut state = TextEditState::load(ui.ctx(), editor).unwrap_or_default();
            let end = CCursor::new(draft.text.chars().count());
            state.cursor.set_char_range(Some(CCursorRange::one(end)));
            state.store(ui.ctx(), editor);
            ui.memory_mut(|memory| memory.request_focus(editor));
        }
        let align = if column.right {
            Align2::RIGHT_CENTER
        } else {
            Align2::LEFT_CENTER
        };
        let edit = TextEdit::singleline(&mut draft.text)
            .id(editor)
            .font(cell_font())
            .frame(Frame::NONE)
            .margin(Margin::ZERO)
            .align(align)
            .event_filter(EventFilter {
                tab: true,
                horizontal_arrows: true,
                vertical_arrows: true,
                escape: true,
            });
        let response = ui.put(rect.shrink2(vec2(PAD, 2.0)), edit);
        let name = words::editing(&self.cell_name(at, column));
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_label(name);
        });
        let stroke = Stroke::new(2.0, t.accent);
        ui.painter()
            .rect_stroke(rect.shrink(1.0), 0.0, stroke, StrokeKind::Middle);
    }

    fn cell_name(&self, at: GridAt, column: &GridColumn) -> String {
        words::cell(self.model.row_name(), at.row, &column.word)
    }
}

fn cell_font() -> FontId {
    look::body()
}

/// Names a place for screen readers and tests.
pub(super) fn name_node(ui: &Ui, response: &Response, role: Role, name: &str, value: Option<&str>) {
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(role);
        node.set_label(name);
        node.set_bounds(accesskit::Rect {
            x0: response.rect.min.x.into(),
            y0: response.rect.min.y.into(),
            x1: response.rect.max.x.into(),
            y1: response.rect.max.y.into(),
        });
        if let Some(value) = value {
            node.set_value(value);
            node.add_action(accesskit::Action::Click);
        }
    });
}
