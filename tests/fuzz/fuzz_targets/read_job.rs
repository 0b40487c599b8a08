//! Whatever the bytes: a job or one sentence, and a job that was read is written and read the same.
#![no_main]

use libfuzzer_sys::fuzz_target;
use quillbore_job::file::{read_job, write_job};

fuzz_target!(|bytes: &[u8]| {
    match read_job(bytes) {
        Ok(job) => {
            let text = write_job(&job);
            assert_eq!(read_job(text.as_bytes()).as_ref(), Ok(&job));
            assert_eq!(write_job(&job), text);
        }
        Err(error) => assert!(!error.to_string().is_empty() && !error.hint().is_empty()),
    }
});
