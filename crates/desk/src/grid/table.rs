//! One frame's drawing of a grid: its head and its rows; the first column stays in sight.

use egui::{Id, Pos2, Rect, Role, Sense, Ui, UiBuilder, Vec2, pos2, vec2};
use egui_table::{CellInfo, Column, HeaderCellInfo, HeaderRow, Table, TableDelegate};

use super::{
    cell::{CellPainter, PAD, name_node},
    model::{GridColumn, GridModel},
    pointer::Pointer,
    view::{GridAt, GridView},
};
use crate::look;
use crate::words::grid as words;

/// The width of a scroll bar.
const BAR: f32 = 6.0;

/// Between the cells and a scroll bar.
const BESIDE_BAR: f32 = 2.0;

/// The height of a row.
pub const ROW_HEIGHT: f32 = 22.0;

/// The height of the head, its units included.
pub const HEAD_HEIGHT: f32 = 33.0;

/// What of a grid stood where, for the side notes beside it.
#[derive(Debug, Clone)]
pub struct GridShown {
    /// The rows in sight, each with the height of its middle on the screen.
    pub rows: Vec<(usize, f32)>,
    /// Where somebody asked what can be done to a row, in the frame in which it was asked.
    pub menu: Option<Pos2>,
}

/// One frame's drawing of a grid.
struct Painting<'a, M: ?Sized> {
    cells: CellPainter<'a, M>,
    pointer: &'a mut Pointer,
    view: &'a mut GridView,
    /// The rows in sight, each with the height of its middle.
    rows: Vec<(usize, f32)>,
}

/// Draws the table of a grid into a place, and notes what the pointer does in it.
pub(super) fn draw<M: GridModel + ?Sized>(
    ui: &mut Ui,
    (id, editor): (Id, Id),
    model: &M,
    view: &mut GridView,
    size: Vec2,
    pointer: &mut Pointer,
) -> GridShown {
    let place = Rect::from_min_size(ui.cursor().min, size);
    let grid = ui.interact(
        place.with_max_y(place.top() + HEAD_HEIGHT),
        id,
        Sense::focusable_noninteractive(),
    );
    if view.wanted {
        ui.scroll_to_rect(place, None);
    }
    name_node(ui, &grid, Role::Grid, &words::table(model.row_name()), None);
    let (follow, cursor) = (std::mem::take(&mut view.follow), view.cursor);
    let row_height = model.row_height();
    view.page = ((place.height() - HEAD_HEIGHT) / row_height) as usize;
    let columns = model.columns().iter().map(|column| {
        Column::new(column.width)
            .range(column.width..=column.width)
            .id(id.with(column.word.as_str()))
            .resizable(false)
    });
    let mut table = Table::new()
        .id_salt(id)
        .num_rows(model.row_count() as u64 + 1)
        .columns(columns.collect::<Vec<_>>())
        .num_sticky_cols(model.sticky_columns())
        .headers([HeaderRow::new(HEAD_HEIGHT)]);
    if follow {
        table = table.scroll_to_row(cursor.row as u64, None);
        table = table.scroll_to_column(cursor.col, None);
    }
    let mut painting = Painting {
        cells: CellPainter {
            model,
            editor,
            block: view.block(),
            cursor,
            active: view.active || view.draft.is_some(),
            tokens: look::tokens(ui),
        },
        pointer,
        view,
        rows: Vec::new(),
    };
    ui.scope_builder(UiBuilder::new().max_rect(place).id_salt(id), |ui| {
        // Where there is more to the right or below, a bar says so without being looked for.
        ui.spacing_mut().scroll = egui::style::ScrollStyle {
            bar_width: BAR,
            bar_inner_margin: BESIDE_BAR,
            foreground_color: false,
            ..egui::style::ScrollStyle::solid()
        };
        let rule = look::tokens(ui).rule;
        let states = &mut ui.visuals_mut().widgets;
        for state in [
            &mut states.inactive,
            &mut states.hovered,
            &mut states.active,
        ] {
            state.bg_fill = rule;
        }
        table.show(ui, &mut painting);
    });
    let rows = std::mem::take(&mut painting.rows);
    // A row that the keyboard went to is brought into sight on the sheet, too; where nothing of the table
    // is in sight its row is not drawn, and the table comes first.
    if follow {
        let around = match rows.iter().find(|(row, _)| *row == cursor.row) {
            Some((_, y)) => {
                Rect::from_x_y_ranges(place.x_range(), *y - row_height..=*y + row_height)
            }
            None => place,
        };
        ui.scroll_to_rect(around, None);
    }
    let menu = painting.pointer.menu;
    GridShown { rows, menu }
}

impl<M: GridModel + ?Sized> TableDelegate for Painting<'_, M> {
    fn header_cell_ui(&mut self, ui: &mut Ui, cell: &HeaderCellInfo) {
        let col = cell.col_range.start;
        let Some(column) = self.cells.model.columns().get(col) else {
            return;
        };
        self.head_cell(ui, column);
        let id = cell.table_id.with(("head", col));
        if ui.interact(ui.max_rect(), id, Sense::CLICK).clicked() {
            self.pointer.head = Some(col);
        }
    }

    fn row_ui(&mut self, ui: &mut Ui, row: u64) {
        let here = row as usize == self.cells.cursor.row;
        if here && self.cells.active {
            let wash = self.cells.tokens.wash;
            ui.painter().rect_filled(ui.max_rect(), 0.0, wash);
        }
    }

    fn cell_ui(&mut self, ui: &mut Ui, cell: &CellInfo) {
        let at = GridAt::new(cell.row_nr as usize, cell.col_nr);
        let Some(column) = self.cells.model.columns().get(at.col) else {
            return;
        };
        let (rect, clip) = (ui.max_rect(), ui.clip_rect());
        // Rows that are hardly in sight have no place that a note could stand beside.
        if at.col == 0 && clip.y_range().contains(rect.center().y) {
            self.rows.push((at.row, rect.center().y));
        }
        let id = cell.table_id.with((at.row, at.col));
        let response = ui.interact(rect, id, Sense::CLICK | Sense::DRAG);
        self.cells.cell(ui, at, column, &response, self.view);
        let pressed = response.is_pointer_button_down_on()
            && response.ctx.input(|i| i.pointer.primary_pressed());
        // A click whole in one frame, or a screen reader's, shows no pressed button.
        if pressed || (response.clicked() && !self.view.dragging) {
            self.pointer.pressed = Some(at);
        }
        if response.secondary_clicked() {
            self.pointer.pressed = Some(at);
            self.pointer.menu = response.interact_pointer_pos();
        }
        if response.double_clicked() {
            self.pointer.doubled = Some(at);
        }
        if response.contains_pointer() {
            self.pointer.over = Some(at);
        }
    }

    fn default_row_height(&self) -> f32 {
        self.cells.model.row_height()
    }
}

impl<M: GridModel + ?Sized> Painting<'_, M> {
    fn head_cell(&self, ui: &mut Ui, column: &GridColumn) {
        let rect = ui.max_rect();
        let t = self.cells.tokens;
        let width = rect.width() - 2.0 * PAD;
        let painter = ui.painter();
        let head = look::elided(painter, &column.head, look::small(), t.ink, width);
        let unit = look::elided(painter, &column.unit, look::small(), t.pencil, width);
        for (galley, y) in [(head, rect.top()), (unit, rect.top() + 15.0)] {
            let x = if column.right {
                rect.right() - PAD - galley.size().x
            } else {
                rect.left() + PAD
            };
            painter.galley(pos2(x, y), galley, t.ink);
        }
        look::hairline_at(painter, rect.x_range(), rect.bottom() - 0.5, t.rule);
    }
}

/// How large a grid is that shows so many rows, over a width. A bar has its place below them also where all
/// columns are in sight, so that nothing moves when there are more.
#[must_use]
pub fn size<M: GridModel + ?Sized>(model: &M, width: f32, rows: usize) -> Vec2 {
    let high = (rows as f32).mul_add(model.row_height(), HEAD_HEIGHT);
    vec2(width, high + BAR + BESIDE_BAR)
}
