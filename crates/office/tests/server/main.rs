//! A shelf on a real server: what only a server can come to. Without a server's programs these tests
//! fail with a sentence that says what to install.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails by panic"
)]

#[path = "../common/shelf.rs"]
mod common;

mod copies;
mod digests;
mod full;
mod holds;
mod lines;
mod passwords;
mod rights;
mod rounds;
mod sentences;
mod tables;
