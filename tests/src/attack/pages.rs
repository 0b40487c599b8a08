//! Drawings in PDF.

use quillbore_intake::pdf::{self, Offered, Paged, PdfError};
use quillbore_job::{Job, RowsAt, Unit, apply};

/// Whatever the bytes: one sentence, or pages whose texts have places, twice the same; what is taken is an edit
/// that can be done, and what is shown is a picture of the size that it says.
pub(super) fn pdf(bytes: &[u8]) {
    let paged = match pdf::read(bytes, &|_| false) {
        Ok(paged) => paged,
        Err(error) => return is_sentence(&error),
    };
    are_pages(&paged);
    let again = pdf::read(bytes, &|_| false);
    assert!(again.as_ref() == Ok(&paged), "not the same twice");
    let stopped = pdf::read(bytes, &|_| true);
    assert!(stopped == Err(PdfError::Cancelled), "not to be stopped");
    is_shown(bytes);
    is_taken(paged);
}

fn is_sentence(error: &PdfError) {
    let (says, hint) = (error.to_string(), error.hint());
    assert!(says.len() < 300 && !hint.is_empty(), "{says:?}");
}

fn are_pages(paged: &Paged) {
    assert!(!paged.pages.is_empty() && paged.pages.len() <= pdf::MOST_PAGES);
    for (number, page) in paged.pages.iter().enumerate() {
        assert!(page.width >= 0.0 && page.height >= 0.0);
        assert!(page.width.is_finite() && page.height.is_finite());
        for line in &page.lines {
            is_place(line.place);
            assert!((0.0..360.0).contains(&line.turned_deg), "{line:?}");
            assert!(!line.text.trim().is_empty(), "{line:?}");
        }
        for callout in &page.callouts {
            is_place(callout.place);
            assert!(
                callout.page == number && !callout.text.is_empty(),
                "{callout:?}"
            );
        }
    }
}

fn is_place([left, top, right, bottom]: [f64; 4]) {
    assert!(left <= right && top <= bottom && right.is_finite() && bottom.is_finite());
}

fn is_shown(bytes: &[u8]) {
    match pdf::picture(bytes, 0, 10_000, &|| false) {
        Ok(shown) => {
            let pixels = shown.width as usize * shown.height as usize;
            assert!(pixels > 0 && pixels <= 10_000 && shown.rgba.len() == 4 * pixels);
        }
        Err(error) => is_sentence(&error),
    }
}

fn is_taken(paged: Paged) {
    let Ok(mut offered) = Offered::of(paged, "drawing.pdf") else {
        return;
    };
    assert!(
        offered.take(&Job::default(), RowsAt::Append).is_err(),
        "taken unasked"
    );
    let all: Vec<usize> = (0..offered.callouts().count()).collect();
    assert!(offered.take_only(&all).is_ok());
    for unit in [Unit::Mm, Unit::Inch] {
        offered.say_unit(unit);
        let taken = offered.take(&Job::default(), RowsAt::Append);
        let Ok(taken) = taken else {
            unreachable!("chosen, with a unit: {taken:?}");
        };
        assert!(
            apply(&Job::default(), &taken.edit).is_ok(),
            "an edit that can't be done"
        );
    }
}
