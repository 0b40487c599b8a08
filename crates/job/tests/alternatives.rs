//! Tubes that a hole could be begun with, taken by an edit.

mod hands;

use hands::{cells, done, field};
use quillbore_calc::tables::Tube;
use quillbore_calc::working::working;
use quillbore_calc::{Figure, Idx};
use quillbore_job::remedy::Offers;
use quillbore_job::results::results_quick;
use quillbore_job::{Field, Job, Shop};

#[test]
fn every_tube_that_the_working_names_can_be_taken() {
    let shop = Shop::embedded().expect("the shop");
    let mut job = Job::default();
    for (name, text) in [
        (Field::Material, "Tool steel D2"),
        (Field::Machine, "Barrow"),
        (Field::Quantity, "10"),
    ] {
        job = field(&job, name, text);
    }
    job = cells(&job, 0, &["A", "4", "1.0 +-0.05", "12", "through"]);
    let found = results_quick(&job, shop);
    let figure = Figure::Electrode(job.rows[0].id);
    let opened = working(&found.asked.input, &shop.tables, &found.figures, figure);
    let opened = opened.expect("it opens");
    assert!(opened.alternatives.len() > 1, "{opened:?}");
    let likeliest = opened.alternatives[0];
    assert_eq!(found.figures.holes[0].first_choice, Some(likeliest.chance));
    let offers = Offers::new(&job, &shop.tables);
    for other in &opened.alternatives {
        let offer = offers.of(other.remedy, None).expect("an edit");
        let taken = results_quick(&done(&job, &offer.edit), shop);
        let hole = &taken.figures.holes[0];
        assert_eq!(hole.tube, Some(other.tube));
        assert_eq!(hole.first_choice, Some(other.chance));
        // The lot can be held as well as before: after the first piece any tube of a kind may be taken.
        let kind = |tube: Idx<Tube>| {
            let tube = &shop.tables.tubes[tube.at()];
            (tube.material, tube.channels > 1)
        };
        if kind(other.tube) == kind(likeliest.tube) {
            assert_eq!(hole.held, found.figures.holes[0].held);
        }
    }
}
