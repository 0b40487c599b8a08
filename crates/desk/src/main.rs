//! Quillbore: the window, and the commands without a window.

use std::ffi::OsString;
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<OsString> = std::env::args_os().skip(1).collect();
    quillbore_desk::run::run(&words)
}
