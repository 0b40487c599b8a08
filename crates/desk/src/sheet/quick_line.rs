//! The quick price, the first line of an empty sheet: five fields, answered in the foot as one types,
//! and all that is assumed in the margin. It keeps its place once the sheet is no longer empty.

use egui::{Key, Rect, Response, Ui, UiBuilder, pos2, vec2};
use quillbore_job::quick::{Call, CallField, Quick, QuickField, Told};
use quillbore_job::words::quick as job_words;
use quillbore_job::{Edit, Job, Shop};

use super::call::{CallEnd, Keyboard, call_ui};
use super::field::{label_ui, single_edit};
use super::measures::{FIELD, Measures};
use super::parts::{block_head, pencil};
use super::shared::Shared;
use crate::look;
use crate::view::{Ask, SheetView};
use crate::words::quick as words;

/// The five fields with their tracks.
const FIELDS: [(QuickField, u8); 5] = [
    (QuickField::Material, 4),
    (QuickField::Size, 2),
    (QuickField::Depth, 2),
    (QuickField::Holes, 2),
    (QuickField::Parts, 2),
];

/// A quick price that is being typed, and what was said of it last.
#[derive(Clone, Debug, Default)]
pub struct QuickLine {
    /// What is typed.
    pub quick: Quick,
    /// What a caller with a broken tool says, where that is asked instead.
    pub call: Option<Call>,
    /// Where the keyboard is among the questions of the call.
    asked: Keyboard,
    /// Its first field takes the keyboard as soon as it is drawn.
    takes_keyboard: bool,
    /// One of its fields has it.
    has_keyboard: bool,
    /// What the answer was to, and what it says.
    answer: Option<(Typed, u64, QuickTold)>,
}

/// What an answer is to.
type Typed = (Quick, Option<Call>);

/// What the foot and the margin say of a quick price.
#[derive(Clone, Debug, Default)]
pub struct QuickTold {
    /// The sentence of the foot.
    pub said: Vec<Told>,
    /// All that is assumed.
    pub assumed: Vec<Told>,
    /// What somebody ought to look at.
    pub checks: Vec<String>,
    /// What the range rests on.
    pub rests: String,
}

impl QuickLine {
    /// Whether one of its fields has the keyboard.
    #[must_use]
    pub const fn has_keyboard(&self) -> bool {
        self.has_keyboard
    }

    /// An empty one whose first field takes the keyboard.
    #[must_use]
    pub fn with_keyboard() -> Self {
        Self {
            takes_keyboard: true,
            ..Self::default()
        }
    }

    /// Whether enough is typed for an answer, and the sheet is still empty.
    #[must_use]
    pub fn answers(&self, shared: &Shared<'_>) -> bool {
        let typed = QuickField::ALL.iter();
        let typed = typed.filter(|field| !self.quick.is_blank(**field));
        let enough = match &self.call {
            Some(call) => *call != Call::default(),
            None => typed.count() >= 2,
        };
        enough && Quick::is_offered(shared.job)
    }

    /// The edit that makes what was typed the job.
    #[must_use]
    pub fn edit(&self, job: &Job, shop: &Shop) -> Option<Edit> {
        match &self.call {
            Some(call) => call.edit(job, shop),
            None => self.quick.edit(job, shop),
        }
    }

    /// What is said of what is typed now; reckoned anew only where something changed.
    pub fn told(&mut self, shared: &Shared<'_>) -> &QuickTold {
        let state = shared.state;
        let same = |((quick, call), at, _): &(Typed, u64, QuickTold)| {
            *quick == self.quick && *call == self.call && *at == state
        };
        if !self.answer.as_ref().is_some_and(same) {
            let told = self.reckoned(shared.job, shared.shop);
            self.answer = Some(((self.quick.clone(), self.call.clone()), state, told));
        }
        &self.answer.get_or_insert_default().2
    }

    fn reckoned(&self, job: &Job, shop: &Shop) -> QuickTold {
        if let Some(call) = &self.call {
            let told = call.told(job, shop);
            let said = Told {
                text: told.said,
                leads_to: None,
            };
            return QuickTold {
                said: vec![said],
                assumed: Vec::new(),
                checks: told.checks,
                rests: told.rests,
            };
        }
        let answer = self.quick.answer(job, shop);
        QuickTold {
            said: answer.told(&self.quick, job, shop),
            assumed: answer.all_assumed(job, shop),
            checks: answer.checks_told(job, shop),
            rests: answer.rests_told(&self.quick),
        }
    }
}

/// What is said of the quick price of a sheet, where one is typed and nothing lies over it.
pub fn quick_told(view: &mut SheetView, shared: &Shared<'_>) -> Option<QuickTold> {
    let line = view.quick.as_mut()?;
    line.answers(shared).then(|| line.told(shared).clone())
}

/// The line on a sheet that began empty.
pub fn quick_ui(ui: &mut Ui, shared: &Shared<'_>, view: &mut SheetView, asks: &mut Vec<Ask>) {
    let offered = Quick::is_offered(shared.job);
    if view.quick.is_none() && offered && shared.job.number.is_empty() {
        view.quick = Some(QuickLine::default());
    }
    if view.quick.is_none() || !block_head(ui, words::HEAD, view, "") {
        return;
    }
    let Some(line) = &mut view.quick else {
        return;
    };
    if let Some(call) = &mut line.call {
        if std::mem::take(&mut line.takes_keyboard) && offered {
            line.asked.goes_to = Some(CallField::Tool);
        }
        let end = call_ui(ui, shared, call, &mut line.asked);
        line.has_keyboard = line.asked.is_here;
        match end {
            Some(CallEnd::Make) => asks.push(Ask::MakeQuick(None)),
            Some(CallEnd::Holes) => {
                line.call = None;
                line.takes_keyboard = true;
            }
            None => {}
        }
        return;
    }
    let width = ui.available_width();
    let origin = ui.cursor().min;
    let mut track = 0;
    let mut entered = false;
    let takes_keyboard = std::mem::take(&mut line.takes_keyboard) && offered;
    line.has_keyboard = false;
    for (at, (field, tracks)) in FIELDS.into_iter().enumerate() {
        let left = origin.x + Measures::track_left(width, track);
        let size = vec2(Measures::tracks(width, tracks), FIELD - 1.0);
        let place = Rect::from_min_size(pos2(left, origin.y), size);
        ui.add_enabled_ui(offered, |ui| {
            let response = field_ui(ui, place, field, shared, line.quick.text_mut(field));
            if takes_keyboard && at == 0 {
                response.request_focus();
            }
            line.has_keyboard |= response.has_focus();
            entered |= response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        });
        track += tracks;
    }
    let below = Rect::from_min_size(origin, vec2(width, FIELD + 20.0));
    let said = below.with_min_y(origin.y + FIELD);
    ui.scope_builder(UiBuilder::new().max_rect(said), |ui| {
        ui.horizontal(|ui| {
            pencil(ui, if offered { words::HOW } else { words::MADE });
            // Behind the fifth field Tab comes here, and Enter does it.
            let word = ui.add_enabled_ui(offered, |ui| look::quiet_word(ui, words::MAKE));
            entered |= word.inner.clicked();
            let broken = ui.add_enabled_ui(offered, |ui| look::quiet_word(ui, words::BROKEN));
            if broken.inner.clicked() {
                line.call = Some(Call::default());
                line.takes_keyboard = true;
            }
        });
    });
    ui.advance_cursor_after_rect(below);
    if entered && offered {
        asks.push(Ask::MakeQuick(None));
    }
}

/// A field in its place.
fn field_ui(
    ui: &mut Ui,
    place: Rect,
    field: QuickField,
    shared: &Shared<'_>,
    text: &mut String,
) -> Response {
    let name = job_words::field(field);
    let at = label_ui(ui, place, &words::label(field, shared.job.unit));
    let id = ui.make_persistent_id(("quick", name));
    let response = single_edit(ui, at, id, text);
    let named = words::named(name);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, &named));
    look::line_under(ui, &response);
    response
}

/// All that is assumed of a quick price, in the margin; each can be pressed.
pub fn assumed_ui(ui: &mut Ui, place: Rect, told: &QuickTold, asks: &mut Vec<Ask>) {
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        ui.set_width(place.width());
        if !told.assumed.is_empty() {
            pencil(ui, words::ASSUMED);
        }
        for assumed in &told.assumed {
            match assumed.leads_to {
                Some(leads_to) => {
                    if look::word(ui, &assumed.text).clicked() {
                        asks.push(Ask::MakeQuick(Some(leads_to)));
                    }
                }
                None => {
                    ui.label(&assumed.text);
                }
            }
        }
        for check in &told.checks {
            ui.add_space(8.0);
            ui.label(check);
        }
    });
}
