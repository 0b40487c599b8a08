//! Lines of figures in columns of fixed widths, so that none moves when a figure grows.

use egui::{Align, Layout, Rect, Sense, Ui, UiBuilder, pos2, vec2};

/// The height of a line.
pub(crate) const LINE: f32 = 19.0;

/// A column: how wide, and whether figures stand under each other at its right.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Column {
    width: f32,
    right: bool,
}

impl Column {
    /// A column of texts.
    pub(crate) const fn left(width: f32) -> Self {
        Self {
            width,
            right: false,
        }
    }

    /// A column of figures.
    pub(crate) const fn right(width: f32) -> Self {
        Self { width, right: true }
    }
}

/// Columns beside each other.
pub(crate) struct Columns<'a> {
    columns: &'a [Column],
}

impl<'a> Columns<'a> {
    /// These columns.
    pub(crate) const fn new(columns: &'a [Column]) -> Self {
        Self { columns }
    }

    /// One line of them; it takes its place also where nothing is drawn in it.
    pub(crate) fn row(&self, ui: &mut Ui, mut add: impl FnMut(usize, &mut Ui)) {
        let width: f32 = self.columns.iter().map(|column| column.width).sum();
        let spacing = std::mem::take(&mut ui.spacing_mut().item_spacing.y);
        let (place, _) = ui.allocate_exact_size(vec2(width, LINE), Sense::hover());
        ui.spacing_mut().item_spacing.y = spacing;
        let mut left = place.left();
        for (at, column) in self.columns.iter().enumerate() {
            let size = vec2(column.width, LINE);
            let cell = Rect::from_min_size(pos2(left, place.top()), size);
            let layout = if column.right {
                Layout::right_to_left(Align::Center)
            } else {
                Layout::left_to_right(Align::Center)
            };
            let cell = UiBuilder::new().max_rect(cell).layout(layout);
            // What is drawn in a cell never moves what stands below the line.
            let mut cell = ui.new_child(cell);
            add(at, &mut cell);
            left += column.width;
        }
    }
}
