//! Where the parts of the window stand, by its width alone: wider windows add columns, not width.

/// Height of the head, and of the foot.
pub const BAR: f32 = 56.0;

/// Height of a field, its label included.
pub const FIELD: f32 = 36.0;

/// Height of the picture in the margin.
pub const PICTURE: f32 = 220.0;

/// Height of the map in the second column.
pub const MAP: f32 = 300.0;

/// Tracks across the sheet.
pub const TRACKS: u8 = 12;

/// Between two tracks.
pub const TRACK_GAP: f32 = 16.0;

/// Width of the sheet.
const SHEET: f32 = 776.0;

/// Width of the sheet where there is room for one more column of the hole table.
const WIDE_SHEET: f32 = 908.0;

/// From this width on margin and sheet stand beside each other.
const BESIDE: f32 = 1024.0;

/// From this width on the shelf stands beside the sheet.
const WITH_SHELF: f32 = 1280.0;

/// From this width on the sheet is the wide one.
const WIDE: f32 = 1512.0;

/// From this width on there is a second column.
const WITH_SECOND: f32 = 1920.0;

/// Widths of what stands beside each other, from the left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// The shelf, where it is open; it lies over the sheet where it has no place beside it.
    pub shelf: f32,
    /// The shelf lies over the sheet.
    pub shelf_lies_over: bool,
    /// Left of the sheet.
    pub pad: f32,
    /// What is seen of the sheet.
    pub seen: f32,
    /// The sheet; wider than what is seen of it in a very narrow window.
    pub sheet: f32,
    /// Between sheet and margin.
    pub gap: f32,
    /// The margin; a strip that opens over the sheet in a very narrow window.
    pub margin: f32,
    /// The margin is but a strip.
    pub margin_is_strip: bool,
    /// The second column, where there is one.
    pub second: Option<f32>,
    /// Right of the margin, or of the second column.
    pub end: f32,
}

impl Measures {
    /// Of a window so wide, with its shelf open or not.
    #[must_use]
    pub fn of(width: f32, shelf_open: bool) -> Self {
        let shelf_lies_over = width < WITH_SHELF;
        let (shelf, pad, end) = match width {
            width if width < WITH_SHELF => (232.0, 16.0, 16.0),
            width if width < WIDE => (176.0, 20.0, 16.0),
            _ => (232.0, 24.0, 24.0),
        };
        let sheet = if width < WIDE { SHEET } else { WIDE_SHEET };
        let beside = if shelf_open && !shelf_lies_over {
            shelf
        } else {
            0.0
        };
        let shelf = if shelf_open { shelf } else { 0.0 };
        let mut measures = Self {
            shelf,
            shelf_lies_over,
            pad,
            seen: sheet,
            sheet,
            gap: pad,
            margin: 0.0,
            margin_is_strip: false,
            second: None,
            end,
        };
        if width < BESIDE {
            const STRIP: f32 = 24.0;
            measures.margin = STRIP;
            measures.margin_is_strip = true;
            measures.gap = 8.0;
            measures.end = 4.0;
            measures.seen = (width - pad - 8.0 - STRIP - 4.0).clamp(120.0, sheet);
            return measures;
        }
        let left = width - beside - pad - sheet - pad - end;
        if width < WITH_SECOND {
            measures.margin = left.clamp(200.0, 340.0);
        } else {
            measures.margin = (300.0 + (width - WITH_SECOND) / 16.0).min(340.0);
            measures.second = Some(left - measures.margin - pad);
        }
        measures
    }

    /// Width of so many tracks, with the gaps between them.
    #[must_use]
    pub fn tracks(sheet: f32, count: u8) -> f32 {
        let gaps = f32::from(TRACKS - 1) * TRACK_GAP;
        let track = (sheet - gaps) / f32::from(TRACKS);
        f32::from(count) * track + f32::from(count.saturating_sub(1)) * TRACK_GAP
    }

    /// How far from the left of the sheet a track begins.
    #[must_use]
    pub fn track_left(sheet: f32, track: u8) -> f32 {
        match track {
            0 => 0.0,
            track => Self::tracks(sheet, track) + TRACK_GAP,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn widths_are_as_drawn() {
        // The drawing's own table: width, shelf, pad, sheet, gap, margin, second column, end.
        for (width, shelf, pad, sheet, margin, second, end) in [
            (1024.0, 232.0, 16.0, 776.0, 200.0, None, 16.0),
            (1280.0, 176.0, 20.0, 776.0, 272.0, None, 16.0),
            (1920.0, 232.0, 24.0, 908.0, 300.0, Some(384.0), 24.0),
            (2560.0, 232.0, 24.0, 908.0, 340.0, Some(984.0), 24.0),
        ] {
            let m = Measures::of(width, true);
            let seen = (m.shelf, m.pad, m.sheet, m.gap, m.margin, m.second, m.end);
            assert_eq!(
                seen,
                (shelf, pad, sheet, pad, margin, second, end),
                "{width}"
            );
        }
    }

    #[test]
    fn everything_fits_at_every_width() {
        for width in 400..3000_u16 {
            for open in [true, false] {
                let width = f32::from(width);
                let m = Measures::of(width, open);
                let shelf = if m.shelf_lies_over { 0.0 } else { m.shelf };
                let second = m.second.map_or(0.0, |second| second + m.gap);
                let taken = shelf + m.pad + m.seen + m.gap + m.margin + second + m.end;
                assert!(taken <= width + 0.01, "{width} {open}: {taken} {m:?}");
            }
        }
    }

    #[test]
    fn the_sheet_keeps_its_width_whatever_the_shelf_does() {
        for width in 400..3000_u16 {
            let width = f32::from(width);
            let [open, folded] = [true, false].map(|open| Measures::of(width, open));
            assert_eq!((open.sheet, open.seen), (folded.sheet, folded.seen));
        }
    }

    #[test]
    fn twelve_tracks_are_the_sheet() {
        for sheet in [SHEET, WIDE_SHEET] {
            assert_eq!(Measures::tracks(sheet, TRACKS), sheet);
        }
        assert_eq!(Measures::tracks(SHEET, 1), 50.0);
        assert_eq!(Measures::tracks(WIDE_SHEET, 1), 61.0);
        assert_eq!(Measures::track_left(SHEET, 4), 4.0 * 66.0);
    }
}
