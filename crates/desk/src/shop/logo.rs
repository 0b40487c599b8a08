//! The logo on the page of the shop: which file it came from is typed, dropped or chosen.

use egui::{Key, Role, Ui, WidgetInfo};
use quillbore_job::shop::sheet::ShopEdit;
use quillbore_office::places;

use super::{ShopAsk, ShopPage};
use crate::look;
use crate::sheet::parts::pencil;
use crate::words::shop as said;

/// The line of the logo.
pub(super) fn logo_ui(ui: &mut Ui, page: &mut ShopPage, asks: &mut Vec<ShopAsk>) {
    let logo = page.history.now().logo.clone();
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        pencil(ui, said::LOGO);
        let response = look::line_edit(ui, &mut page.logo_path, 320.0);
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, said::LOGO_PATH));
        let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        if entered && !page.logo_path.trim().is_empty() {
            asks.push(ShopAsk::TakeLogo(places::typed(&page.logo_path)));
        }
        response.on_hover_text(said::LOGO_PATH);
        if look::quiet_word(ui, said::CHOOSE_LOGO).clicked() {
            asks.push(ShopAsk::ChooseLogo);
        }
        match &logo {
            Some(logo) => {
                pencil(ui, &said::logo(logo));
                if look::quiet_word(ui, said::DELETE_LOGO).clicked() {
                    asks.push(ShopAsk::Edit(ShopEdit::SetLogo(None)));
                }
            }
            None => pencil(ui, said::NO_LOGO),
        }
    });
}
