//! Quillbore: the window, and the commands without a window.

use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    quillbore_desk::run::run(&words)
}
