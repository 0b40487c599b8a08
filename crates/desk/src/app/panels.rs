//! Lays the window out: shelf, head, sheet with its margin, second column, foot, and what lies over
//! them.

use std::sync::Arc;

use chrono::NaiveDate;
use egui::{Area, CentralPanel, Frame, Margin, Order, Panel, Rect, Stroke, Ui, pos2, vec2};

use super::{App, OpenJob};
use quillbore_job::Shop;

use crate::incoming::{drawn_ui, offered_ui};
use crate::learned::learned_ui;
use crate::look;
use crate::sheet::commands::commands_ui;
use crate::sheet::foot::foot_ui;
use crate::sheet::head::{HeadNews, head_ui};
use crate::sheet::holes::commit_cells;
use crate::sheet::margin::{MarginPlace, column_of, margin_ui, working_over_ui};
use crate::sheet::measures::{BAR, Measures};
use crate::sheet::paste::paste_ui;
use crate::sheet::quick_line::{assumed_ui, quick_told};
use crate::sheet::runs::commit_runs;
use crate::sheet::settings::settings_ui;
use crate::sheet::shared::Shared;
use crate::sheet::shelf_list::{ShelfKeyboard, ShelfNews, shelf_ui};
use crate::sheet::whole::Whole;
use crate::sheet::{commit_drafts, help_ui, preview_ui, preview_words_ui, second_ui, sheet_ui};
use crate::shop::{ShopAsk, ShopPage, shop_foot_ui, shop_head_ui, shop_ui, start_ui};
use crate::today::{TodayAsk, today_foot_ui, today_head_ui, today_ui};
use crate::view::{Ask, Waiting};
use crate::words::{shop as shop_words, today as today_words};

/// Above and below what stands in head and foot.
const BAR_PAD: i8 = 3;

impl App {
    pub(super) fn panels(&mut self, ui: &mut Ui, asks: &mut Vec<Ask>) {
        let names: Vec<String> = self.jobs.iter().map(OpenJob::name).collect();
        let together = self.together();
        let together: Vec<String> = together
            .into_iter()
            .map(|at| self.jobs[at].desk.file_name())
            .collect();
        let (at, sheet) = (self.at, self.sheet());
        let Self {
            jobs,
            list,
            settings,
            find_focus,
            on_shelf,
            learned,
            shop,
            today,
            shelf_over,
            shelf_lies_over,
            office,
            ..
        } = self;
        // Lists of many jobs go by the shop's own currency, whatever the job on top is quoted in.
        let own = office.shop();
        let own_digits = own.tables.rates.minor_digits;
        let OpenJob { desk, view, id, .. } = &mut jobs[at];
        let t = look::tokens(ui);
        let job = desk.job().clone();
        let results = desk.results().clone();
        let whole = Whole::of(
            &mut view.whole,
            (&job, &results),
            &desk.shop,
            desk.promise(),
            desk.before(),
        );
        let shared = Shared {
            job: &job,
            results: &results,
            is_settled: desk.is_settled(),
            whole: &whole,
            shop: &desk.shop,
            taught: desk.taught(),
            teaching: &desk.teaching,
            day: desk.day,
            sheet,
            before: desk.before().map(Arc::as_ref),
            promise: desk.promise(),
            queue: desk.queue(),
            together: &together,
            beside: desk.beside(),
            made: desk.made(),
            by: &desk.name,
            state: desk.history.state(),
            sheet_id: *id,
        };
        let quick = quick_told(view, &shared);
        let window = ui.max_rect();
        let is_narrow = Measures::of(window.width(), true).shelf_lies_over;
        *shelf_lies_over = is_narrow;
        let shelf_open = if is_narrow {
            *shelf_over
        } else {
            settings.shelf_open
        };
        let measures = Measures::of(window.width(), shelf_open);
        let on_desk = Frame::new().fill(t.desk);
        let shelf_frame = on_desk.inner_margin(Margin::symmetric(12, 4));
        let mut shelf = |ui: &mut Ui, asks: &mut Vec<Ask>| {
            let news = ShelfNews {
                open: desk.opened.as_ref().map(|opened| &opened.key),
                names: &names,
                at,
                recent: &settings.recent,
                today: desk.day,
                currency: &own.tables.rates.currency,
                digits: own_digits,
                form: desk.shop.form,
            };
            let keyboard = ShelfKeyboard {
                find: &mut *find_focus,
                on_job: &mut *on_shelf,
            };
            shelf_ui(ui, news, list, keyboard, asks);
        };
        if shelf_open && !measures.shelf_lies_over {
            Panel::left("shelf")
                .resizable(false)
                .exact_size(measures.shelf)
                .show_separator_line(false)
                .frame(shelf_frame)
                .show(ui, |ui| shelf(ui, asks));
        } else if shelf_open {
            let area = Area::new(egui::Id::unique("shelf over")).order(Order::Foreground);
            area.fixed_pos(window.min).show(ui.ctx(), |ui| {
                let frame = shelf_frame.stroke(Stroke::new(1.0, t.rule));
                frame.show(ui, |ui| {
                    let margin = shelf_frame.inner_margin.sum();
                    ui.set_width(measures.shelf - margin.x);
                    ui.set_height(window.height() - margin.y);
                    shelf(ui, asks);
                });
            });
        }
        let bar = on_desk.inner_margin(Margin {
            left: measures.pad as i8,
            right: measures.end as i8,
            top: BAR_PAD,
            bottom: BAR_PAD,
        });
        // A question stands in the head of the job that it is about.
        let is_asked = view.waiting.as_ref().is_some_and(Waiting::is_in_head);
        let shop_bars = shop.open && !is_asked;
        let today_bars = today.open && !is_asked;
        let mut today_asks: Vec<TodayAsk> = Vec::new();
        let mut shop_asks: Vec<ShopAsk> = Vec::new();
        Panel::bottom("foot")
            .resizable(false)
            .exact_size(BAR)
            .show_separator_line(false)
            .frame(bar)
            .show(ui, |ui| {
                if shop_bars {
                    let sentence = shop_sentence(shop, &desk.shop, desk.day);
                    shop_foot_ui(ui, shop, &sentence, &mut shop_asks);
                } else if today_bars {
                    today_foot_ui(ui, today, desk.shop.form);
                } else {
                    foot_ui(ui, &shared, view, (quick.as_ref(), &desk.notice), asks);
                }
            });
        Panel::top("head")
            .resizable(false)
            .exact_size(BAR)
            .show_separator_line(false)
            .frame(bar)
            .show(ui, |ui| {
                if shop_bars {
                    shop_head_ui(ui, shop, &mut shop_asks);
                    return;
                }
                if today_bars {
                    let day = today_words::of_day(desk.day, desk.shop.form);
                    today_head_ui(ui, today, &day, &mut today_asks);
                    return;
                }
                let news = HeadNews {
                    labels: (desk.history.undo_label(), desk.history.redo_label()),
                    dirty: desk.history.is_dirty(),
                    elsewhere: desk.held_elsewhere(),
                    shelf_is_hidden: !shelf_open,
                };
                head_ui(ui, &shared, news, view, asks);
            });
        let paper = Frame::new().fill(t.paper);
        CentralPanel::default().frame(paper).show(ui, |ui| {
            if learned.open {
                learned_ui(ui, learned, desk.shop.form, asks);
                return;
            }
            let places = Places::of(ui.max_rect(), measures);
            if today.open {
                let right = places.second.map_or(places.margin, |second| second).right();
                let place = places.sheet.with_max_x(right);
                let currency = own.tables.rates.currency.as_str();
                let goes_by = (currency, own_digits, own.form);
                today_ui(ui, place, today, goes_by, &mut today_asks);
                return;
            }
            if shop.open {
                let beside = (places.sheet, places.margin, measures.sheet);
                if shop.is_start {
                    start_ui(ui, beside, shop, desk.day, &mut shop_asks);
                } else {
                    shop_ui(ui, beside, shop, desk.day, &mut shop_asks);
                }
                return;
            }
            let margin = MarginPlace {
                margin: places.margin,
                sheet: places.sheet,
                picture: measures.second.is_none()
                    && (view.picture || places.margin.width() >= WITH_PICTURE),
                is_strip: measures.margin_is_strip,
            };
            if view.paper.is_some() {
                // A strip has no room for words: they stand beside narrower pages.
                let words = column_of(margin);
                let pages = if margin.is_strip {
                    places.sheet.with_max_x(words.left() - 12.0)
                } else {
                    places.sheet
                };
                preview_ui(ui, pages, &shared, view);
                preview_words_ui(ui, words, &shared, view, asks);
            } else {
                let anchors = sheet_ui(ui, places.sheet, measures.sheet, &shared, view, asks);
                match &quick {
                    Some(told) => assumed_ui(ui, places.margin, told, asks),
                    None => margin_ui(ui, margin, &shared, view, &anchors, asks),
                }
            }
            working_over_ui(ui, margin, &shared, view, asks);
            help_ui(ui, margin, &job, view);
            if let Some(second) = places.second {
                second_ui(ui, second, &shared, view);
            }
            settings_ui(ui, places.sheet, settings, view, asks);
            commands_ui(ui, places.sheet, &shared, view, asks);
            paste_ui(ui, places.sheet, &shared, view, asks);
            drawn_ui(ui, places.sheet, &shared, view, asks);
            offered_ui(ui, places.sheet, &shared, view, asks);
        });
        asks.extend(shop_asks.into_iter().map(Ask::Shop));
        asks.extend(today_asks.into_iter().map(Ask::Today));
        if asks.iter().any(wants_drafts_committed) {
            let mut committed = Vec::new();
            commit_drafts(&shared, view, &mut committed);
            commit_cells(&shared, view, &mut committed);
            commit_runs(&shared, view, &mut committed);
            asks.splice(0..0, committed);
        }
    }
}

/// What the foot says while the shop's page lies over the sheet.
fn shop_sentence(page: &mut ShopPage, shop: &Shop, day: NaiveDate) -> String {
    let valid_from = shop.form.day(shop.rates_on(day).valid_from);
    let machines = shop.tables.machines.len();
    let own = !shop.has_sample_rates();
    let counts = [page.short, page.notes().len()];
    shop_words::foot(&valid_from, own, machines, counts)
}

/// A margin at least so wide has a place for the picture.
const WITH_PICTURE: f32 = 260.0;

/// Where sheet, margin and second column stand between head and foot.
struct Places {
    sheet: Rect,
    margin: Rect,
    second: Option<Rect>,
}

impl Places {
    fn of(all: Rect, measures: Measures) -> Self {
        let part = |left: f32, width: f32| {
            Rect::from_min_size(pos2(left, all.top()), vec2(width, all.height()))
        };
        let sheet = part(all.left() + measures.pad, measures.seen);
        let margin = part(sheet.right() + measures.gap, measures.margin);
        let second = measures.second;
        let second = second.map(|width| part(margin.right() + measures.gap, width));
        let below_edge = |place: Rect| place.with_min_y(place.top() + 12.0);
        Self {
            sheet,
            margin: below_edge(margin).with_max_y(margin.bottom() - 8.0),
            second,
        }
    }
}

/// Whether what is being typed has to be put in its place before something is done.
fn wants_drafts_committed(ask: &Ask) -> bool {
    match ask {
        Ask::Do(action) => action.wants_drafts_committed(),
        Ask::Issue(_)
        | Ask::IssueTogether
        | Ask::Pin(_)
        | Ask::Preview(_)
        | Ask::ReleasePart(_)
        | Ask::RunsOfMarks
        | Ask::RunsOfPlan
        | Ask::Front(_)
        | Ask::Open(_) => true,
        _ => false,
    }
}
