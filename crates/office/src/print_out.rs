//! A paper's file on its way to the printer, by the print command of the system.

use std::path::Path;
use std::process::{Command, Stdio};

use crate::failure::Failure;
use crate::words::print_out as words;

/// The usual print command, where printers are CUPS's.
pub const USUAL: &str = "lp";

/// Where papers are printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Printer {
    /// The print command: `lp`, or another with `{file}` and `{printer}` where those are wanted; the file
    /// comes last where it is not named.
    pub command: String,
    /// The printer's name; empty for the system's usual one.
    pub name: String,
}

/// Prints a file; gives what the print command said.
///
/// # Errors
/// Where there is no such command, or it refuses.
pub fn print_out(printer: &Printer, file: &Path) -> Result<String, Failure> {
    let command = match printer.command.trim() {
        "" => USUAL,
        command => command,
    };
    let mut words_of = command.split_whitespace();
    let program = words_of.next().unwrap_or(USUAL);
    let mut args: Vec<std::ffi::OsString> = Vec::new();
    let mut has_file = false;
    for word in words_of {
        if word == "{file}" {
            has_file = true;
            args.push(file.into());
        } else {
            args.push(word.replace("{printer}", &printer.name).into());
        }
    }
    let names_printer = command.contains("{printer}");
    if !printer.name.is_empty() && !names_printer {
        args.extend(["-d".into(), printer.name.clone().into()]);
    }
    if !has_file {
        // A name that begins with a dash is a name all the same: the path of a shelf is whole.
        args.push(file.into());
    }
    let done = Command::new(program)
        .args(args)
        .stdin(Stdio::null())
        .output()
        .map_err(|error| words::no_command(program, &error))?;
    let said = |bytes: &[u8]| -> String {
        let text = String::from_utf8_lossy(bytes);
        let line = text.lines().map(str::trim).find(|line| !line.is_empty());
        line.unwrap_or_default().chars().take(200).collect()
    };
    if done.status.success() {
        return Ok(said(&done.stdout));
    }
    let why = match said(&done.stderr) {
        why if why.is_empty() => said(&done.stdout),
        why => why,
    };
    Err(words::refused(program, &why).at(file))
}

/// The names of the printers that the system has; none where it can't be asked.
#[must_use]
pub fn printers() -> Vec<String> {
    let mut lpstat = Command::new("lpstat");
    let asked = lpstat.arg("-e").stdin(Stdio::null()).output();
    let mut asked = asked.map(|done| done.stdout).unwrap_or_default();
    asked.truncate(10_000);
    let text = String::from_utf8_lossy(&asked).into_owned();
    let names = text.lines().map(str::trim).filter(|name| !name.is_empty());
    names.map(str::to_owned).collect()
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use std::fs;
    use std::os::unix::fs::PermissionsExt as _;

    use super::*;

    /// A print command that writes down what it was given.
    fn recorder(folder: &Path, ends: i32) -> String {
        let script = folder.join("printer.sh");
        let record = folder.join("record");
        let text = format!(
            "#!/bin/sh\nprintf '%s\\n' \"$@\" >>{}\necho told >&2\necho request id is office-1\nexit {ends}\n",
            record.display()
        );
        fs::write(&script, text).expect("a script");
        fs::set_permissions(&script, fs::Permissions::from_mode(0o755)).expect("may be run");
        script.display().to_string()
    }

    #[test]
    fn the_file_and_the_printer_reach_the_command() {
        let folder = tempfile::tempdir().expect("a folder");
        let command = recorder(folder.path(), 0);
        let file = folder.path().join("26-0107 T1.pdf");
        let printer = |command: String| Printer {
            command,
            name: "office".to_owned(),
        };
        let said = print_out(&printer(command.clone()), &file).expect("printed");
        assert_eq!(said, "request id is office-1");
        let own = format!("{command} -P {{printer}} {{file}} -x");
        print_out(&printer(own), &file).expect("printed");
        let record = fs::read_to_string(folder.path().join("record")).expect("a record");
        let file = file.display().to_string();
        let lines: Vec<&str> = record.lines().collect();
        assert_eq!(lines, ["-d", "office", &file, "-P", "office", &file, "-x"]);
    }

    #[test]
    fn no_command_and_a_refusal_are_told() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = folder.path().join("a.pdf");
        let none = Printer {
            command: "quillbore-no-such-command".to_owned(),
            name: String::new(),
        };
        let said = print_out(&none, &file).expect_err("none").to_string();
        assert!(said.contains("quillbore-no-such-command"), "{said}");
        let refusing = Printer {
            command: recorder(folder.path(), 3),
            name: String::new(),
        };
        let said = print_out(&refusing, &file)
            .expect_err("refused")
            .to_string();
        assert!(said.contains("told"), "{said}");
    }
}
