//! Whatever the bytes: a shop or one sentence.
#![no_main]

use libfuzzer_sys::fuzz_target;
use quillbore_job::Shop;

fuzz_target!(|bytes: &[u8]| {
    if let Err(error) = Shop::with_file(bytes) {
        assert!(!error.to_string().is_empty() && !error.hint().is_empty());
    }
});
