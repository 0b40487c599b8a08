//! The whole window without a display: new job, paste, remedy, working, undo, guard.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

mod files;
mod fits;
mod handing;
mod hands;
mod jobs;
mod learning;
mod life;
mod many;
mod map;
mod named;
mod notes;
mod promise;
mod runs;
mod shop;
mod shop_lost;
mod shop_of_others;
mod shop_rows;
mod steps;
mod still;
mod table;
mod today;
mod trial;
