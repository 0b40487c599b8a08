//! What a command writes, and the one place where what others wrote becomes harmless to a terminal.

use std::fmt::Display;
use std::io::{self, Write};
use std::path::Path;

use quillbore_job::Shop;
use serde::Serialize;

use crate::failure::Failure;
use crate::words::commands as words;
use crate::words::shown::{HarmlessJson, harmless};

/// Where a command writes: what was asked for to one side, what is to be known beside it to the other.
pub(super) struct Saying<'a> {
    out: &'a mut dyn Write,
    told: &'a mut dyn Write,
    failed: Option<io::Error>,
}

impl<'a> Saying<'a> {
    pub(super) fn new(out: &'a mut dyn Write, told: &'a mut dyn Write) -> Self {
        Self {
            out,
            told,
            failed: None,
        }
    }

    /// Writes a line of what was asked for. Where it can't be written the command goes on, since
    /// what it does counts more than what it says.
    pub(super) fn line(&mut self, line: impl Display) {
        self.write(&harmless(&line.to_string()));
    }

    /// Writes something as JSON, in which a sign that would steer a terminal stands as JSON's own
    /// escape.
    ///
    /// # Errors
    /// Where it can't be put into JSON.
    pub(super) fn json(&mut self, what: &impl Serialize) -> serde_json::Result<()> {
        if self.failed.is_some() {
            return Ok(());
        }
        match serde_json::to_writer_pretty(HarmlessJson(&mut self.out), what) {
            Err(error) if error.is_io() => self.failed = Some(error.into()),
            written => {
                written?;
                self.write("");
            }
        }
        Ok(())
    }

    /// Writes a sentence of what is to be known beside it; where that can't be written nobody is
    /// there to be told, and the exit code tells.
    pub(super) fn tell(&mut self, sentence: impl Display) {
        // On a terminal both are read in the order in which they were said.
        self.failed = self.failed.take().or_else(|| self.out.flush().err());
        tell(self.told, sentence);
    }

    /// Tells what of the shop's sheet can't be used, a line for each.
    pub(super) fn tell_not_used(&mut self, shop: &Shop, file: Option<&Path>) {
        for note in &shop.not_used {
            self.tell(words::not_used(note, file));
        }
    }

    /// Why what was asked for could not be written. That a reader had enough, as `head` has, is no
    /// failure.
    pub(super) fn failure(mut self) -> Option<io::Error> {
        if self.failed.is_none() {
            self.failed = self.out.flush().err();
        }
        let failed = self.failed?;
        (failed.kind() != io::ErrorKind::BrokenPipe).then_some(failed)
    }

    fn write(&mut self, text: &str) {
        if self.failed.is_none() {
            self.failed = writeln!(self.out, "{text}").err();
        }
    }
}

/// Writes why something could not be done, as one line.
pub fn tell_failure(told: &mut dyn Write, failure: &Failure) {
    tell(told, failure);
}

fn tell(told: &mut dyn Write, sentence: impl Display) {
    let _ = writeln!(told, "{}", harmless(&sentence.to_string()));
}
