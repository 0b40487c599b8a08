//! Draws a grid and hears what the pointer does in it.

use egui::{
    Align2, Color32, CursorIcon, Event, EventFilter, FontId, Frame, Id, Margin, Rect, Response,
    Role, ScrollArea, Sense, Stroke, StrokeKind, TextEdit, Ui, accesskit, pos2,
    text::{CCursor, CCursorRange},
    text_edit::TextEditState,
    vec2,
};
use egui_extras::{Column, TableBuilder, TableRow};

use super::{
    keys::{Keys, ends_draft, is_for_grid},
    model::{CellState, GridAsk, GridColumn, GridModel},
    view::{Block, CellAt, GridView},
};
use crate::look::{self, Tokens};

const ROW_HEIGHT: f32 = 21.0;
const HEAD_HEIGHT: f32 = 31.0;
const PAD: f32 = 5.0;
const SCROLL_BAR: f32 = 12.0;

/// What of a grid stood where, for the side notes beside it.
#[derive(Debug, Clone)]
pub struct GridShown {
    /// The rows in sight, each with the height of its middle on the screen.
    pub rows: Vec<(usize, f32)>,
    /// The table, head and all.
    pub rect: Rect,
}

/// Draws a grid at most `max_height` high and pushes what is wanted.
pub fn grid_ui<M: GridModel + ?Sized>(
    ui: &mut Ui,
    salt: &str,
    model: &M,
    view: &mut GridView,
    max_height: f32,
    asks: &mut Vec<GridAsk>,
) -> GridShown {
    let id = ui.make_persistent_id(salt);
    let editor = id.with("editor");
    let rows = model.row_count() + usize::from(model.grows());
    view.clamp(rows, model.columns().len());

    // The keyboard is read before anything is drawn: a focused editor would eat a pasted block.
    let has_keyboard = view.active || ui.memory(|memory| memory.has_focus(id));
    let mut late = Vec::new();
    let mut handled = false;
    let mut first = Keys::new(model, view, asks);
    if has_keyboard {
        for event in take_events(ui, first.view, &mut late) {
            first.handle(&event);
            handled = true;
        }
    }
    handled |= first.press_pending();
    let mut copied = first.copied.take();
    let mut released = first.released;

    let mut pointer = Pointer::default();
    let shown = draw(ui, (id, editor), model, view, max_height, &mut pointer);
    keep_focus_keys(ui, id);

    let mut second = Keys::new(model, view, asks);
    for event in &late {
        second.handle(event);
        handled = true;
    }
    copied = second.copied.take().or(copied);
    released |= second.released;
    let clicked = second.follow_pointer(&pointer, ui);
    if let Some(text) = copied {
        ui.ctx().copy_text(text);
    }

    let wants = if released {
        ui.memory_mut(|memory| memory.surrender_focus(id));
        false
    } else {
        handled || clicked
    };
    settle_focus(ui, (id, editor), model, view, asks, wants);
    shown
}

impl<'a, M: ?Sized> Keys<'a, M> {
    fn new(model: &'a M, view: &'a mut GridView, asks: &'a mut Vec<GridAsk>) -> Self {
        Self {
            model,
            view,
            asks,
            copied: None,
            released: false,
        }
    }
}

/// Takes the grid's events out of the input. While a cell is edited, those from the first one
/// that ends the editing on are kept for after the editor has read what came before.
fn take_events(ui: &Ui, view: &GridView, late: &mut Vec<Event>) -> Vec<Event> {
    ui.input_mut(|input| match &view.draft {
        None => extract(&mut input.events, is_for_grid),
        Some(draft) if draft.new => extract(&mut input.events, is_for_grid),
        Some(draft) => {
            let ends = |event: &Event| ends_draft(event, draft.in_text);
            if let Some(end) = input.events.iter().position(ends) {
                let mut tail = input.events.split_off(end);
                *late = extract(&mut tail, is_for_grid);
                input.events.append(&mut tail);
            }
            Vec::new()
        }
    })
}

fn extract(events: &mut Vec<Event>, wanted: impl Fn(&Event) -> bool) -> Vec<Event> {
    let (taken, left) = std::mem::take(events).into_iter().partition(wanted);
    *events = left;
    taken
}

/// What the pointer did in this frame.
#[derive(Default)]
struct Pointer {
    pressed: Option<CellAt>,
    over: Option<CellAt>,
    doubled: Option<CellAt>,
    head: Option<usize>,
}

impl<M: GridModel + ?Sized> Keys<'_, M> {
    /// Moves cursor and selection by what the pointer did; true if it was in the grid.
    fn follow_pointer(&mut self, pointer: &Pointer, ui: &Ui) -> bool {
        let (shift, down, click) = ui.input(|i| {
            (
                i.modifiers.shift,
                i.pointer.primary_down(),
                i.pointer.any_click(),
            )
        });
        if let Some(col) = pointer.head {
            self.commit();
            self.view.cursor = CellAt::new(0, col);
            self.view.anchor = CellAt::new(self.model.row_count().saturating_sub(1), col);
            return true;
        }
        if let Some(at) = pointer.pressed {
            if self.view.draft.is_some() && at == self.view.cursor {
                return false;
            }
            self.commit();
            self.view.tab_from = None;
            self.view.cursor = at;
            if !shift {
                self.view.anchor = at;
                let computed = at.row < self.model.row_count()
                    && matches!(
                        self.model.state(at),
                        CellState::Computed | CellState::Overruled
                    );
                if computed {
                    self.asks.push(GridAsk::OpenWorking(at));
                }
            }
            self.view.dragging = down;
        }
        if !down {
            self.view.dragging = false;
        } else if self.view.dragging
            && let Some(at) = pointer.over
        {
            self.view.cursor = at;
        }
        if let Some(at) = pointer.doubled
            && self.view.draft.is_none()
        {
            self.view.go_to(at);
            self.open_draft(None);
        }
        // A click takes the keyboard from whatever it is not on, and cells lie over the grid.
        let kept = click && pointer.over.is_some() && self.view.active;
        pointer.pressed.is_some() || pointer.doubled.is_some() || kept
    }
}

/// While the grid has the keyboard, Tab, arrows and Esc are its own.
fn keep_focus_keys(ui: &Ui, id: Id) {
    let all = EventFilter {
        tab: true,
        horizontal_arrows: true,
        vertical_arrows: true,
        escape: true,
    };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(id, all));
}

/// Gives the keyboard to the editor or to the grid, and commits an editor that lost it.
fn settle_focus<M: GridModel + ?Sized>(
    ui: &Ui,
    (id, editor): (Id, Id),
    model: &M,
    view: &mut GridView,
    asks: &mut Vec<GridAsk>,
    wants: bool,
) {
    if let Some(draft) = &view.draft {
        if wants || draft.new {
            ui.memory_mut(|memory| memory.request_focus(editor));
            if draft.new {
                ui.ctx().request_repaint();
            }
        } else if !ui.memory(|memory| memory.has_focus(editor)) {
            Keys::new(model, view, asks).commit();
        }
    } else if wants {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    view.active = view.draft.is_some() || ui.memory(|memory| memory.has_focus(id));
}

/// One frame's drawing of a grid.
struct Painting<'a, M: ?Sized> {
    model: &'a M,
    block: Block,
    cursor: CellAt,
    active: bool,
    tokens: &'static Tokens,
    rows: Vec<(usize, f32)>,
}

fn draw<M: GridModel + ?Sized>(
    ui: &mut Ui,
    (id, editor): (Id, Id),
    model: &M,
    view: &mut GridView,
    max_height: f32,
    pointer: &mut Pointer,
) -> GridShown {
    let mut painting = Painting {
        model,
        block: view.block(),
        cursor: view.cursor,
        active: view.active || view.draft.is_some(),
        tokens: look::tokens(ui),
        rows: Vec::new(),
    };
    let total_rows = model.row_count() + usize::from(model.grows());
    let start = ui.cursor().min;
    let scope = ui.scope(|ui| {
        let area = Rect::from_min_size(start, vec2(ui.available_width(), HEAD_HEIGHT));
        let grid = ui.interact(area, id, Sense::focusable_noninteractive());
        name_node(
            ui,
            &grid,
            Role::Grid,
            &format!("{} table", model.row_name()),
            None,
        );

        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        ui.visuals_mut().widgets.hovered.bg_fill = Color32::TRANSPARENT;
        let least: f32 = model.columns().iter().map(|column| column.width).sum();
        let fits = least + SCROLL_BAR <= ui.available_width();
        let mut draw_table = |ui: &mut Ui, fits: bool| {
            let mut table = TableBuilder::new(ui)
                .id_salt(id)
                .sense(Sense::CLICK | Sense::DRAG)
                .max_scroll_height((max_height - HEAD_HEIGHT).max(ROW_HEIGHT * 3.0))
                .min_scrolled_height(ROW_HEIGHT * 3.0)
                .animate_scrolling(false)
                .auto_shrink([false, true]);
            for column in model.columns() {
                let column_of = if column.stretch && fits {
                    Column::remainder().at_least(column.width)
                } else {
                    Column::exact(column.width)
                };
                table = table.column(column_of.clip(true));
            }
            if view.follow {
                table = table.scroll_to_row(view.cursor.row, None);
            }
            let out = table
                .header(HEAD_HEIGHT, |mut row| painting.head(&mut row, pointer))
                .body(|body| {
                    body.rows(ROW_HEIGHT, total_rows, |mut row| {
                        painting.row(&mut row, editor, view, pointer);
                    });
                });
            view.page = (out.inner_rect.height() / ROW_HEIGHT) as usize;
            view.follow = false;
        };
        if fits {
            draw_table(ui, true);
        } else {
            ScrollArea::horizontal()
                .id_salt(id.with("across"))
                .show(ui, |ui| {
                    ui.set_max_width(least + SCROLL_BAR);
                    draw_table(ui, false);
                });
        }
    });
    GridShown {
        rows: painting.rows,
        rect: scope.response.rect,
    }
}

impl<M: GridModel + ?Sized> Painting<'_, M> {
    fn head(&self, row: &mut TableRow<'_, '_>, pointer: &mut Pointer) {
        for (col, column) in self.model.columns().iter().enumerate() {
            let (_, response) = row.col(|ui| self.head_cell(ui, column));
            if response.clicked() {
                pointer.head = Some(col);
            }
        }
    }

    fn head_cell(&self, ui: &mut Ui, column: &GridColumn) {
        let rect = ui.max_rect();
        let t = self.tokens;
        let width = rect.width() - 2.0 * PAD;
        let painter = ui.painter();
        let head = look::elided(painter, &column.head, look::small(), t.ink, width);
        let unit = look::elided(painter, &column.unit, look::tiny(), t.pencil, width);
        for (galley, y) in [(head, rect.top() + 1.0), (unit, rect.top() + 15.5)] {
            let x = if column.right {
                rect.right() - PAD - galley.size().x
            } else {
                rect.left() + PAD
            };
            painter.galley(pos2(x, y), galley, t.ink);
        }
        look::hairline_at(painter, rect.x_range(), rect.bottom() - 0.5, t.rule);
    }

    fn row(
        &mut self,
        row: &mut TableRow<'_, '_>,
        editor: Id,
        view: &mut GridView,
        pointer: &mut Pointer,
    ) {
        let index = row.index();
        for (col, column) in self.model.columns().iter().enumerate() {
            let at = CellAt::new(index, col);
            let (_, response) = row.col(|ui| {
                if col == 0 && ui.is_rect_visible(ui.max_rect()) {
                    self.rows.push((index, ui.max_rect().center().y));
                }
                self.cell(ui, at, column, editor, view);
            });
            let pressed = response.is_pointer_button_down_on()
                && response.ctx.input(|i| i.pointer.primary_pressed());
            // A click whole in one frame, or a screen reader's, shows no pressed button.
            if pressed || (response.clicked() && !view.dragging) {
                pointer.pressed = Some(at);
            }
            if response.double_clicked() {
                pointer.doubled = Some(at);
            }
            if response.contains_pointer() {
                pointer.over = Some(at);
            }
        }
    }

    fn cell(&self, ui: &mut Ui, at: CellAt, column: &GridColumn, editor: Id, view: &mut GridView) {
        let t = self.tokens;
        let rect = ui.max_rect();
        let here = at == self.cursor;
        let in_block = self.block.contains(at);
        let painter = ui.painter();
        if self.active && in_block && !self.block.is_one_cell() {
            painter.rect_filled(rect, 0.0, t.wash_strong);
        }
        look::hairline_at(painter, rect.x_range(), rect.bottom() - 0.5, t.hairline);

        if here && view.draft.is_some() {
            self.editor(ui, at, column, editor, view);
            return;
        }
        self.text(ui, at, column);
        if here && self.active {
            let place = rect.shrink(0.75);
            let stroke = Stroke::new(1.5, t.accent);
            ui.painter()
                .rect_stroke(place, 0.0, stroke, StrokeKind::Middle);
        }
    }

    fn text(&self, ui: &mut Ui, at: CellAt, column: &GridColumn) {
        let t = self.tokens;
        let rect = ui.max_rect();
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
        let response = ui.response();
        let name = self.cell_name(at, column);
        name_node(ui, &response, Role::Cell, &name, Some(&text));
        if text.is_empty() {
            return;
        }
        let width = rect.width() - 2.0 * PAD;
        let font = cell_font();
        let galley = look::elided(ui.painter(), &text, font, t.ink, width);
        let x = if column.right {
            rect.right() - PAD - galley.size().x
        } else {
            rect.left() + PAD
        };
        let pos = pos2(x, rect.center().y - galley.size().y / 2.0);
        let under = pos.y + galley.size().y - 1.5;
        let span = egui::Rangef::new(x, x + galley.size().x);
        ui.painter().galley(pos, galley, t.ink);
        match state {
            CellState::Plain => {}
            CellState::Unread | CellState::Spoken => {
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

    fn editor(
        &self,
        ui: &mut Ui,
        at: CellAt,
        column: &GridColumn,
        editor: Id,
        view: &mut GridView,
    ) {
        let Some(draft) = &mut view.draft else {
            return;
        };
        let t = self.tokens;
        let rect = ui.max_rect();
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
        let name = format!("editing {}", self.cell_name(at, column));
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_label(name);
        });
        let stroke = Stroke::new(1.5, t.accent);
        ui.painter()
            .rect_stroke(rect.shrink(0.75), 0.0, stroke, StrokeKind::Middle);
    }

    fn cell_name(&self, at: CellAt, column: &GridColumn) -> String {
        format!("{} {} {}", self.model.row_name(), at.row + 1, column.word)
    }
}

fn cell_font() -> FontId {
    look::body()
}

/// Names a place for screen readers and tests.
fn name_node(ui: &Ui, response: &Response, role: Role, name: &str, value: Option<&str>) {
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
