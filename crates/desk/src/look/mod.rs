//! The look: paper and ink, as data, and the few strokes everything is drawn with.

mod fonts;
mod painter;
mod tokens;

pub use fonts::{
    body, bold, definitions, foot, foot_bold, heading, paper_families, small, small_bold,
};
pub use painter::{
    clipped, clipped_label, clipped_lines, dashed_underline, elided, focus_frame, ground_under,
    hairline, hairline_at, keyed_word, leader, level_word, lies_over, line_edit, line_under,
    mark_all, mark_whole, quiet_word, spaced_caps, toggle_word, wavy_underline, word, word_in_font,
};
pub use tokens::{DARK, LIGHT, Tokens, tokens};

use egui::{self, Context, CornerRadius, Margin, Shadow, Stroke, TextStyle, Theme, vec2};

/// Dresses a context: our fonts, paper and ink for the light and the dark theme, no boxes.
pub fn dress(ctx: &Context) {
    ctx.set_fonts(definitions());
    ctx.set_visuals_of(Theme::Light, visuals(&LIGHT, egui::Visuals::light()));
    ctx.set_visuals_of(Theme::Dark, visuals(&DARK, egui::Visuals::dark()));
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Small, small()),
            (TextStyle::Body, body()),
            (TextStyle::Button, body()),
            (TextStyle::Monospace, body()),
            (TextStyle::Heading, heading()),
        ]
        .into();
        style.spacing.item_spacing = vec2(6.0, 3.0);
        style.spacing.button_padding = vec2(3.0, 1.0);
        style.spacing.interact_size = vec2(20.0, 20.0);
        style.spacing.scroll = egui::style::ScrollStyle::thin();
        style.spacing.window_margin = Margin::same(14);
        style.interaction.selectable_labels = false;
        style.animation_time = 0.0;
        style.scroll_animation = egui::style::ScrollAnimation::none();
    });
}

/// The visuals of one theme, every one of them from its tokens.
fn visuals(t: &Tokens, mut v: egui::Visuals) -> egui::Visuals {
    let hair = Stroke::new(1.0, t.hairline);
    v.override_text_color = None;
    v.panel_fill = t.desk;
    v.window_fill = t.paper;
    v.extreme_bg_color = t.paper;
    v.text_edit_bg_color = Some(t.paper);
    v.faint_bg_color = t.wash;
    v.code_bg_color = t.wash;
    v.hyperlink_color = t.accent;
    v.warn_fg_color = t.ink;
    v.error_fg_color = t.ink;
    v.weak_text_color = Some(t.pencil);
    v.window_stroke = hair;
    v.window_corner_radius = CornerRadius::ZERO;
    v.menu_corner_radius = CornerRadius::ZERO;
    v.window_shadow = Shadow::NONE;
    v.popup_shadow = Shadow::NONE;
    v.selection.bg_fill = t.wash_strong;
    v.selection.stroke = Stroke::new(1.0, t.accent);
    v.text_cursor.stroke = Stroke::new(1.5, t.accent);
    v.button_frame = false;
    v.striped = false;
    // The ink of what can't be pressed is a token of its own: it is read as well as any other.
    v.disabled_alpha = 1.0;
    for (state, ink, fill) in [
        (&mut v.widgets.noninteractive, t.ink, t.paper),
        (&mut v.widgets.inactive, t.ink, t.paper),
        (&mut v.widgets.hovered, t.accent, t.hover),
        (&mut v.widgets.active, t.pressed, t.wash_strong),
        (&mut v.widgets.open, t.accent, t.wash),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = hair;
        state.fg_stroke = Stroke::new(1.0, ink);
        state.corner_radius = CornerRadius::ZERO;
        state.expansion = 0.0;
    }
    v
}
