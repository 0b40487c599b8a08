//! Quillbore: the window, and the commands without a window.

use std::process::ExitCode;

fn main() -> ExitCode {
    // A word that is not Unicode names no file of ours: it is looked for in vain and told so.
    let words: Vec<String> = std::env::args_os()
        .skip(1)
        .map(|word| word.to_string_lossy().into_owned())
        .collect();
    quillbore_desk::run::run(&words)
}
