//! Three desks at one shelf do at random what desks do, against a plain list of what must stand
//! there, in every form of the shelf.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]

#[path = "common/shelf.rs"]
mod common;
mod shelf_model {
    pub(crate) mod desks;
    pub(crate) mod model;
}

use common::forms::FORMS;
use shelf_model::desks::Play;

/// Where the generator begins.
const SEED: u64 = 20_261_125;

/// Operations on each form in memory, and on each on the machine's own disk.
const IN_MEMORY: usize = 100_000;
const ON_DISK: usize = 1_500;

#[test]
fn three_desks_do_at_random_what_a_plain_list_does() {
    #[cfg(feature = "outside")]
    common::postgres::shared();
    std::thread::scope(|threads| {
        for make in FORMS {
            threads.spawn(move || {
                let form = make();
                let name = form.name;
                let many = if form.slow { ON_DISK } else { IN_MEMORY };
                let mut play = Play::new(form, SEED);
                for at in 0..many {
                    play.act(at);
                }
                // Whatever the dice said, everything came up.
                println!("{name}: {many}: {:?}", play.counts());
                play.has_seen_everything();
            });
        }
    });
}
