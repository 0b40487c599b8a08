//! Very many jobs on the desk.

use egui::{Rect, ScrollArea, Vec2};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::sheet::shelf_list::{ShelfNews, open_jobs_ui};
use quillbore_desk::view::Ask;

/// The list of open jobs, which job is on top, what was asked, and where the list ends.
struct List {
    names: Vec<String>,
    at: usize,
    asks: Vec<Ask>,
    area: Rect,
}

fn list(count: usize, at: usize) -> Harness<'static, List> {
    let state = List {
        names: (0..count).map(|n| format!("26-{n:04}")).collect(),
        at,
        asks: Vec::new(),
        area: Rect::NOTHING,
    };
    let mut harness = Harness::builder()
        .with_size(Vec2::new(176.0, 760.0))
        .with_context_setup(quillbore_desk::look::dress)
        .build_ui_state(
            |ui, list: &mut List| {
                let shown = ScrollArea::neither().show(ui, |ui| {
                    let news = ShelfNews {
                        open: None,
                        names: &list.names,
                        at: list.at,
                        recent: &[],
                        today: crate::hands::day(),
                        currency: "USD",
                        digits: 2,
                        form: quillbore_job::Form::default(),
                    };
                    open_jobs_ui(ui, news, &mut list.asks);
                });
                list.area = Rect::from_min_size(shown.inner_rect.min, shown.content_size);
            },
            state,
        );
    harness.run();
    harness
}

fn place(harness: &Harness<'_, List>, name: &str) -> Rect {
    harness.get_by_label(name).rect()
}

#[test]
fn two_hundred_open_jobs_leave_the_window_to_the_job() {
    let mut harness = list(200, 150);
    let area = harness.state().area;
    assert!(area.height() < 170.0, "{area:?} of 760");
    harness.get_by_label("200 jobs open");
    // The job on top is in view, and after going to another that one is.
    for at in [150, 3, 199, 0] {
        harness.state_mut().at = at;
        harness.run_steps(60);
        let on_top = place(&harness, &format!("26-{at:04}"));
        assert!(
            area.expand(1.0).contains_rect(on_top),
            "{at}: {on_top:?} in {area:?}"
        );
    }
    // A job in view that is clicked comes on top, and nothing moves.
    let before = place(&harness, "26-0004");
    harness.get_by_label("26-0004").click();
    harness.run();
    assert!(matches!(harness.state().asks.as_slice(), [Ask::Front(4)]));
    harness.state_mut().at = 4;
    harness.run_steps(60);
    let after = place(&harness, "26-0004");
    assert_eq!(before, after);
}

#[test]
fn a_few_open_jobs_stand_below_each_other() {
    let harness = list(3, 0);
    harness.get_by_label("3 jobs open");
    let (first, last) = (place(&harness, "26-0000"), place(&harness, "26-0002"));
    assert_eq!(first.left(), last.left());
    assert_eq!(last.top() - first.top(), 2.0 * first.height());
}
