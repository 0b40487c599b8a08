//! The lines of one desk to a server: made when they are needed, used again, and made anew where one
//! broke. What is asked must be such that asking it twice does no harm.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use postgres::Client;
use postgres::error::SqlState;

use super::address::Address;
use super::line::{Broken, Line, Seen};
use super::password::{Kept, Password, this_user};
use super::schema;
use super::tls::Certificates;
use crate::shelf::commit::Write;
use crate::shelf::doc::{Doc, Version};
use crate::shelf::error::{ShelfError, Step};
use crate::shelf::mark::Mark;
use crate::words::server as words;

/// Lines that are kept for the next question.
const MOST_KEPT: usize = 4;

/// How long a server may take until it lets somebody in.
const TO_MAKE: Duration = Duration::from_secs(15);

/// How long a server that restarts is tried again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Patience {
    /// For an answer.
    pub(super) answer: Duration,
    /// For lines that break or can't be made.
    pub(super) lines: Duration,
}

impl Patience {
    /// For what somebody looks at.
    pub(super) const LOOK: Self = Self {
        answer: Duration::from_secs(60),
        lines: Duration::from_secs(2),
    };
    /// For what somebody typed.
    pub(super) const WRITE: Self = Self {
        answer: Duration::from_secs(90),
        lines: Duration::from_secs(10),
    };
}

/// A desk's lines.
#[derive(Debug)]
pub(super) struct Lines {
    address: Address,
    kept: Kept,
    /// Somebody gave it.
    given: Mutex<Option<Password>>,
    /// The server refused what there was of a password.
    wants_password: AtomicBool,
    idle: Mutex<Vec<Line>>,
    /// The mark that the shelf had when it was seen first.
    known: Mutex<Option<Mark>>,
    /// What was sent, and may be there or not.
    not_known: Mutex<Vec<(Doc, Version)>>,
    /// It is this desk that makes a copy there.
    copies: AtomicBool,
}

impl Lines {
    pub(super) fn new(address: Address, kept: Kept, known: Option<Mark>) -> Self {
        Self {
            address,
            kept,
            given: Mutex::default(),
            wants_password: AtomicBool::new(false),
            idle: Mutex::default(),
            known: Mutex::new(known),
            not_known: Mutex::default(),
            copies: AtomicBool::new(false),
        }
    }

    pub(super) fn place(&self) -> String {
        self.address.as_str().to_owned()
    }

    pub(super) fn not_known(&self) -> Vec<(Doc, Version)> {
        locked(&self.not_known).clone()
    }

    /// Notes whether it is known how a commit of these documents ended.
    pub(super) fn note_end(&self, documents: &[Write], is_known: bool) {
        let mut not_known = locked(&self.not_known);
        not_known.retain(|(doc, _)| documents.iter().all(|write| write.doc != *doc));
        if !is_known {
            let sent = documents.iter();
            not_known.extend(sent.map(|write| (write.doc.clone(), Version::of(&write.bytes))));
        }
    }

    /// The mark that it had when it was seen last.
    pub(super) fn known(&self) -> Option<Mark> {
        locked(&self.known).clone()
    }

    /// From now on the shelf has this mark, and this desk makes a copy there or has made it; lines that saw
    /// something else are of no use.
    pub(super) fn know(&self, mark: &Mark, copies: bool) {
        *locked(&self.known) = Some(mark.clone());
        self.copies.store(copies, Ordering::Release);
        locked(&self.idle).clear();
    }

    pub(super) fn give(&self, password: Password) {
        *locked(&self.given) = Some(password);
        self.wants_password.store(false, Ordering::Release);
    }

    pub(super) fn wants_password(&self) -> bool {
        self.wants_password.load(Ordering::Acquire)
    }

    /// Asks the server; nothing where its database has no shelf. Where a line breaks it is asked again
    /// on another one.
    pub(super) fn ask<T: Send + 'static>(
        &self,
        step: Step,
        patience: Patience,
        work: impl Fn(&mut Client, &Mark) -> Result<T, postgres::Error> + Send + Sync + 'static,
    ) -> Result<Option<T>, ShelfError> {
        let work = Arc::new(work);
        let begun = Instant::now();
        let mut pause = Duration::from_millis(20);
        loop {
            let broken = match self.line() {
                Ok(line) => {
                    let Some(mark) = self.checked(line.seen.as_ref())? else {
                        return Ok(None);
                    };
                    let work = Arc::clone(&work);
                    let asked = line.ask(patience.answer, move |client| work(client, &mark));
                    match asked {
                        Ok(answer) => {
                            self.keep(line);
                            return Ok(Some(answer));
                        }
                        Err(broken) => {
                            if !is_of_line(&broken) {
                                self.keep(line);
                            }
                            broken
                        }
                    }
                }
                Err(broken) => broken,
            };
            let left = patience.lines.saturating_sub(begun.elapsed());
            if !(may_pass(&broken) || was_stopped(&broken)) || left < pause {
                return Err(self.told(step, &broken));
            }
            if is_of_line(&broken) {
                // The others go to the same server.
                locked(&self.idle).clear();
            }
            std::thread::sleep(pause);
            pause = (pause * 2).min(Duration::from_secs(1));
        }
    }

    /// What a database is like, with a line of its own that may change its tables.
    pub(super) fn seen(&self) -> Result<(Line, Option<Seen>), ShelfError> {
        let line = self.made().map_err(|why| self.told(Step::Read, &why))?;
        let seen = line.seen.clone();
        Ok((line, seen))
    }

    /// A line that was used before, or a new one.
    fn line(&self) -> Result<Line, Broken> {
        let idle = locked(&self.idle).pop();
        idle.map_or_else(|| self.made(), Ok)
    }

    fn made(&self) -> Result<Line, Broken> {
        let (config, certificates) = self.reached();
        Line::make(&config, &certificates, TO_MAKE)
    }

    /// How the server is reached.
    pub(super) fn reached(&self) -> (postgres::Config, Certificates) {
        let mut config = self.address.config().clone();
        if config.get_user().is_none() {
            config.user(&this_user());
        }
        let given = locked(&self.given).clone();
        if let Some(password) = given.or_else(|| self.kept.of(&self.address)) {
            config.password(password.as_bytes());
        }
        let certificates = Certificates {
            is_encrypted: self.address.is_encrypted(),
            file: self.address.authorities().map(ToOwned::to_owned),
        };
        (config, certificates)
    }

    fn keep(&self, line: Line) {
        let mut idle = locked(&self.idle);
        // A line that saw no shelf would go on seeing none.
        let is_of_shelf = line.seen.as_ref().is_some_and(|seen| seen.mark.is_some());
        if idle.len() < MOST_KEPT && is_of_shelf {
            idle.push(line);
        }
    }

    /// The mark of the shelf on a line; none where nobody made one there.
    pub(super) fn checked(&self, seen: Option<&Seen>) -> Result<Option<Mark>, ShelfError> {
        let place = || self.place();
        if let Some(seen) = seen {
            if seen.least_program > schema::NUMBER {
                return Err(ShelfError::NewerTables { place: place() });
            }
            if seen.number < schema::NUMBER {
                return Err(ShelfError::OlderTables { place: place() });
            }
        }
        let is_half = seen.is_some_and(|seen| seen.is_half_copied);
        if is_half && !self.copies.load(Ordering::Acquire) {
            return Err(ShelfError::HalfCopied { place: place() });
        }
        let now = seen.and_then(|seen| seen.mark.clone());
        let mut known = locked(&self.known);
        match (&now, &*known) {
            (Some(now), Some(known)) if now != known => {
                Err(ShelfError::Vanished { place: place() })
            }
            (None, Some(_)) => Err(ShelfError::Vanished { place: place() }),
            (Some(_), None) => {
                known.clone_from(&now);
                Ok(now)
            }
            (Some(_), Some(_)) | (None, None) => Ok(now),
        }
    }

    /// Why the server gave no answer.
    pub(super) fn told(&self, step: Step, broken: &Broken) -> ShelfError {
        let place = self.place();
        let error = match broken {
            Broken::Said(error) => error,
            Broken::Silent => {
                let says = words::silent(None);
                return ShelfError::NoServer { says, place };
            }
            Broken::Authorities(why) => {
                let says = words::silent(Some(why));
                return ShelfError::NoServer { says, place };
            }
        };
        let code = error.code();
        let says = match code.and_then(words::means) {
            Some(means) => format!("{means} ({})", words::said(error)),
            None => words::said(error),
        };
        let is = |codes: &[SqlState]| code.is_some_and(|code| codes.contains(code));
        let password = code.is_none() && says.contains("password missing");
        if password
            || is(&[
                SqlState::INVALID_PASSWORD,
                SqlState::INVALID_AUTHORIZATION_SPECIFICATION,
            ])
        {
            self.wants_password.store(true, Ordering::Release);
            let says = match (password, self.kept.open_to_others()) {
                (true, Some(file)) => words::open_to_others(file),
                (true, None) => words::NO_PASSWORD.to_owned(),
                (false, _) => says,
            };
            return ShelfError::NoEntry { says, place };
        }
        if is(&[
            SqlState::INSUFFICIENT_PRIVILEGE,
            SqlState::READ_ONLY_SQL_TRANSACTION,
        ]) {
            let says = match step {
                Step::Adopt => words::to_make(&says),
                _ => says,
            };
            return ShelfError::MayNot { says, place };
        }
        if code.is_none() || may_pass(broken) || is(&[SqlState::INVALID_CATALOG_NAME]) {
            return ShelfError::NoServer { says, place };
        }
        let kind = match code {
            Some(code) if *code == SqlState::DISK_FULL => std::io::ErrorKind::StorageFull,
            _ => std::io::ErrorKind::Other,
        };
        ShelfError::Step {
            step,
            kind,
            says,
            place,
        }
    }
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Whether the line itself is of no use any more.
fn is_of_line(broken: &Broken) -> bool {
    match broken {
        Broken::Said(error) => error.code().is_none_or(is_end_of_line),
        Broken::Silent | Broken::Authorities(_) => true,
    }
}

/// Whether the same question may be answered a moment later: the line broke, the server starts or
/// stops, or another desk was in the way.
fn may_pass(broken: &Broken) -> bool {
    let Broken::Said(error) = broken else {
        return matches!(broken, Broken::Silent);
    };
    let Some(code) = error.code() else {
        // No word of the server: the network, unless the address or the password is the reason.
        return error.is_closed() || of_network(error);
    };
    const PASS: [SqlState; 3] = [
        SqlState::T_R_SERIALIZATION_FAILURE,
        SqlState::T_R_DEADLOCK_DETECTED,
        SqlState::TOO_MANY_CONNECTIONS,
    ];
    PASS.contains(code) || is_end_of_line(code)
}

/// Whether the server ended the line.
fn is_end_of_line(code: &SqlState) -> bool {
    *code == SqlState::IDLE_IN_TRANSACTION_SESSION_TIMEOUT
        || code.code().starts_with("08")
        || code.code().starts_with("57P")
}

/// Whether the server stopped what it was asked, which is not done then. That can come at once: by
/// somebody's hand, or by a time-out that a clock which is set ahead has passed.
fn was_stopped(broken: &Broken) -> bool {
    const STOPS: [SqlState; 2] = [SqlState::QUERY_CANCELED, SqlState::LOCK_NOT_AVAILABLE];
    let Broken::Said(error) = broken else {
        return false;
    };
    error.code().is_some_and(|code| STOPS.contains(code))
}

/// Whether an error was one of the network.
fn of_network(error: &postgres::Error) -> bool {
    let mut source = std::error::Error::source(error);
    while let Some(error) = source {
        if error.is::<std::io::Error>() {
            return true;
        }
        source = error.source();
    }
    false
}
