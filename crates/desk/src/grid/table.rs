//! One frame's drawing of a grid: its head and its rows.

use egui::{Align, Color32, Id, Rect, Role, ScrollArea, Sense, Ui, pos2, vec2};
use egui_extras::{Column, TableBuilder, TableRow};

use super::{
    cell::{CellPainter, PAD, name_node},
    model::{GridColumn, GridModel},
    pointer::Pointer,
    view::{GridAt, GridView},
};
use crate::look;
use crate::words::grid as words;

const ROW_HEIGHT: f32 = 21.0;
const HEAD_HEIGHT: f32 = 31.0;
const SCROLL_BAR: f32 = 12.0;

/// What of a grid stood where, for the side notes beside it.
#[derive(Debug, Clone)]
pub struct GridShown {
    /// The rows in sight, each with the height of its middle on the screen.
    pub rows: Vec<(usize, f32)>,
}

/// One frame's drawing of a grid.
struct Painting<'a, M: ?Sized> {
    cells: CellPainter<'a, M>,
    pointer: &'a mut Pointer,
    /// The rows in sight, each with the height of its middle.
    rows: Vec<(usize, f32)>,
}

/// Draws the table of a grid, and notes what the pointer does in it.
pub(super) fn draw<M: GridModel + ?Sized>(
    ui: &mut Ui,
    (id, editor): (Id, Id),
    model: &M,
    view: &mut GridView,
    max_height: f32,
    pointer: &mut Pointer,
) -> GridShown {
    let mut painting = Painting {
        cells: CellPainter {
            model,
            editor,
            block: view.block(),
            cursor: view.cursor,
            active: view.active || view.draft.is_some(),
            tokens: look::tokens(ui),
        },
        pointer,
        rows: Vec::new(),
    };
    let start = ui.cursor().min;
    ui.scope(|ui| {
        let area = Rect::from_min_size(start, vec2(ui.available_width(), HEAD_HEIGHT));
        let grid = ui.interact(area, id, Sense::focusable_noninteractive());
        if view.wanted {
            grid.scroll_to_me(Some(Align::Center));
        }
        name_node(ui, &grid, Role::Grid, &words::table(model.row_name()), None);

        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        ui.visuals_mut().widgets.hovered.bg_fill = Color32::TRANSPARENT;
        let least: f32 = model.columns().iter().map(|column| column.width).sum();
        if least + SCROLL_BAR <= ui.available_width() {
            painting.table(ui, id, view, max_height, true);
        } else {
            let mut area = ScrollArea::horizontal().id_salt(id.with("across"));
            if let Some(offset) = view.follow.then(|| across(model, view)).flatten() {
                area = area.horizontal_scroll_offset(offset);
            }
            let out = area.show(ui, |ui| {
                ui.set_max_width(least + SCROLL_BAR);
                painting.table(ui, id, view, max_height, false);
            });
            view.across = (out.state.clamped_offset().x, out.inner_rect.width());
        }
    });
    GridShown {
        rows: painting.rows,
    }
}

/// How far the table has to be scrolled across for the cursor's column to be seen; none where it is.
fn across<M: GridModel + ?Sized>(model: &M, view: &GridView) -> Option<f32> {
    let (offset, width) = view.across;
    let mut widths = model.columns().iter().map(|column| column.width);
    let left: f32 = widths.by_ref().take(view.cursor.col).sum();
    let right = left + widths.next()?;
    if left < offset {
        Some(left)
    } else if width > 0.0 && right > offset + width {
        Some(right - width)
    } else {
        None
    }
}

impl<M: GridModel + ?Sized> Painting<'_, M> {
    /// Head and body; where the columns fit, those that may stretch take what is left.
    fn table(&mut self, ui: &mut Ui, id: Id, view: &mut GridView, max_height: f32, fits: bool) {
        let model = self.cells.model;
        let total_rows = model.row_count() + 1;
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
            .header(HEAD_HEIGHT, |mut row| self.head(&mut row))
            .body(|body| {
                body.rows(ROW_HEIGHT, total_rows, |mut row| self.row(&mut row, view));
            });
        view.page = (out.inner_rect.height() / ROW_HEIGHT) as usize;
        view.follow = false;
    }

    fn head(&mut self, row: &mut TableRow<'_, '_>) {
        for (col, column) in self.cells.model.columns().iter().enumerate() {
            let (_, response) = row.col(|ui| self.head_cell(ui, column));
            if response.clicked() {
                self.pointer.head = Some(col);
            }
        }
    }

    fn head_cell(&self, ui: &mut Ui, column: &GridColumn) {
        let rect = ui.max_rect();
        let t = self.cells.tokens;
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

    fn row(&mut self, row: &mut TableRow<'_, '_>, view: &mut GridView) {
        let index = row.index();
        for (col, column) in self.cells.model.columns().iter().enumerate() {
            let at = GridAt::new(index, col);
            let (_, response) = row.col(|ui| {
                // The first column may be scrolled away across: its row is in sight all the same.
                let (rect, clip) = (ui.max_rect(), ui.clip_rect());
                if col == 0 && rect.top() < clip.bottom() && clip.top() < rect.bottom() {
                    self.rows.push((index, rect.center().y));
                }
                self.cells.cell(ui, at, column, view);
            });
            let pressed = response.is_pointer_button_down_on()
                && response.ctx.input(|i| i.pointer.primary_pressed());
            // A click whole in one frame, or a screen reader's, shows no pressed button.
            if pressed || (response.clicked() && !view.dragging) {
                self.pointer.pressed = Some(at);
            }
            if response.double_clicked() {
                self.pointer.doubled = Some(at);
            }
            if response.contains_pointer() {
                self.pointer.over = Some(at);
            }
        }
    }
}
