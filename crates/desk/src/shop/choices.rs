//! What a line of the shop's page chooses among, in a list that lies over the page.

use egui::{Id, Key, Modifiers, Rect, Ui, vec2};

use super::{At, ShopPage};
use crate::look;
use crate::sheet::suggestions::{choice_ui, list_from};

/// The choices that begin with what is typed; all of them where nothing is, or what stands there already.
pub(super) fn near(
    choices: &'static [&'static str],
    typed: &str,
    stands: &str,
) -> Vec<&'static str> {
    let typed = typed.trim().to_lowercase();
    let is_open = typed.is_empty() || typed == stands.trim().to_lowercase();
    let begun = |choice: &&str| is_open || choice.to_lowercase().starts_with(&typed);
    choices.iter().copied().filter(begun).collect()
}

/// Moves the mark through the list; Enter takes the marked choice into what is typed.
pub(super) fn keys(ui: &Ui, at: At, near: &[&'static str], page: &mut ShopPage, text: &mut String) {
    let marked = page.marked.filter(|(of, _)| *of == at);
    let mut marked = marked.map(|(_, index)| index);
    let took = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if took(Key::ArrowDown) {
        let last = near.len().checked_sub(1);
        marked = Some(marked.map_or(0, |index| index + 1)).min(last);
    }
    if took(Key::ArrowUp) {
        marked = marked.and_then(|index| index.checked_sub(1));
    }
    let choice = marked.and_then(|index| near.get(index));
    if let Some(choice) = choice
        && ui.input(|input| input.key_pressed(Key::Enter))
    {
        (*choice).clone_into(text);
        marked = None;
    }
    page.marked = marked.map(|index| (at, index));
}

/// The list of a line; whether the pointer is over it, and the choice that was pressed.
pub(super) fn list_ui(
    ui: &Ui,
    line: Rect,
    id: Id,
    near: &[&'static str],
    marked: Option<usize>,
) -> (bool, Option<&'static str>) {
    let (mut is_over, mut pressed) = (false, None);
    if near.is_empty() {
        return (is_over, pressed);
    }
    let from = list_from(ui, line, near.len());
    look::lies_over(ui, id.with("list"), from, 0, |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        for (index, choice) in near.iter().enumerate() {
            let response = choice_ui(ui, (choice, ""), marked == Some(index));
            is_over |= response.contains_pointer();
            if response.clicked() {
                pressed = Some(*choice);
            }
        }
    });
    (is_over, pressed)
}

#[cfg(test)]
mod tests {
    use quillbore_job::shop::sheet::ShopLine;

    use super::near;

    #[test]
    fn a_list_has_what_begins_so_and_all_where_somebody_chooses_anew() {
        let dates = ShopLine::Dates.kind().choices();
        assert_eq!(near(dates, "", ""), dates);
        assert_eq!(near(dates, "31.01.2026", "31.01.2026"), dates);
        assert_eq!(near(dates, "jan", ""), ["Jan 31, 2026"]);
        assert_eq!(near(dates, "31", ""), ["31 Jan 2026", "31.01.2026"]);
        assert!(near(dates, "x", "").is_empty());
    }
}
