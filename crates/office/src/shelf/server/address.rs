//! Where a shelf's server is: the address of a database, as its own client programs write it.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::str::FromStr as _;
use std::time::Duration;

use postgres::Config;
use postgres::config::{Host, SslMode};

use crate::words::server as words;

/// How an address begins.
const BEGINNINGS: [&str; 2] = ["postgresql://", "postgres://"];

/// Longest text that is taken for an address: sentences show it whole.
const LONGEST: usize = 1_000;

/// How long a server may take to answer at all.
const TO_CONNECT: Duration = Duration::from_secs(10);

/// What is sent may be unanswered for so long, and a line that says nothing is asked so often.
const UNANSWERED: Duration = Duration::from_secs(20);

/// The address of a database that is a shelf, without a password.
#[derive(Clone, Debug)]
pub struct Address {
    text: String,
    config: Config,
    /// The file of the authorities that its certificate is held against, in place of the system's.
    authorities: Option<PathBuf>,
}

/// Why a text is no such address.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AddressRefused {
    /// It has a password in it.
    Password,
    /// It can't be read.
    Unread,
    /// It names no database.
    NoDatabase,
    /// It names several servers.
    Several,
    /// It wants no encryption to another machine.
    Plain,
}

impl Address {
    /// An address as it is typed.
    ///
    /// # Errors
    /// Where it can't be read, or names a password: whoever lists the programs that run could read it.
    pub fn read(text: &str) -> Result<Self, AddressRefused> {
        let text = text.trim();
        let is_one = BEGINNINGS.iter().any(|begins| text.starts_with(begins));
        if !is_one || text.len() > LONGEST {
            return Err(AddressRefused::Unread);
        }
        let (plain, asked) = text.split_once('?').unwrap_or((text, ""));
        let (mut kept, mut mode, mut authorities) = (Vec::new(), None, None);
        let mut given = BTreeSet::new();
        for pair in asked.split('&').filter(|pair| !pair.is_empty()) {
            let (key, value) = pair.split_once('=').ok_or(AddressRefused::Unread)?;
            // Of two that contradict each other neither is meant for sure.
            if !given.insert(key) {
                return Err(AddressRefused::Unread);
            }
            match (key, value) {
                ("sslmode", "disable") => mode = Some(SslMode::Disable),
                // A certificate is held against its authority whenever there is one.
                ("sslmode", "require" | "verify-ca" | "verify-full") => {
                    mode = Some(SslMode::Require);
                }
                ("sslmode", "prefer" | "allow") => {}
                ("sslrootcert", file) => authorities = Some(PathBuf::from(unescaped(file))),
                ("password" | "sslpassword", _) => return Err(AddressRefused::Password),
                ("host" | "port" | "user", _) => kept.push(pair),
                // Others would lead elsewhere than what stands before them, or be overruled here.
                _ => return Err(AddressRefused::Unread),
            }
        }
        let mut address = plain.to_owned();
        if !kept.is_empty() {
            address += "?";
            address += &kept.join("&");
        }
        let mut config = Config::from_str(&address).map_err(|_| AddressRefused::Unread)?;
        let user = config.get_user().unwrap_or_default();
        if config.get_password().is_some() || user.contains(':') {
            return Err(AddressRefused::Password);
        }
        if text.contains("%00") {
            return Err(AddressRefused::Unread);
        }
        if config.get_dbname().is_none_or(str::is_empty) {
            return Err(AddressRefused::NoDatabase);
        }
        if config.get_hosts().len() > 1 {
            return Err(AddressRefused::Several);
        }
        if config.get_hosts().is_empty() {
            config.host("localhost");
        }
        let is_far =
            matches!(config.get_hosts().first(), Some(Host::Tcp(host)) if !is_this_machine(host));
        if is_far && mode == Some(SslMode::Disable) {
            return Err(AddressRefused::Plain);
        }
        let is_asked = is_far || authorities.is_some();
        config.ssl_mode(mode.unwrap_or(match is_asked {
            true => SslMode::Require,
            false => SslMode::Disable,
        }));
        config
            .application_name("Quillbore")
            .connect_timeout(TO_CONNECT)
            .tcp_user_timeout(UNANSWERED)
            .keepalives_idle(UNANSWERED / 2)
            .keepalives_interval(UNANSWERED / 4)
            .keepalives_retries(2);
        Ok(Self {
            text: text.to_owned(),
            config,
            authorities,
        })
    }

    /// As it was typed.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// How it is reached, without a password.
    pub(super) const fn config(&self) -> &Config {
        &self.config
    }

    pub(super) fn authorities(&self) -> Option<&Path> {
        self.authorities.as_deref()
    }

    /// Whether what is said on the line is encrypted.
    pub(super) fn is_encrypted(&self) -> bool {
        self.config.get_ssl_mode() != SslMode::Disable
    }

    /// The host as a password file names it: of a socket in the file system, this machine.
    pub(super) fn host(&self) -> String {
        match self.config.get_hosts().first() {
            Some(Host::Tcp(host)) => host.clone(),
            #[cfg(unix)]
            Some(Host::Unix(_)) => "localhost".to_owned(),
            None => String::new(),
        }
    }

    pub(super) fn port(&self) -> u16 {
        self.config.get_ports().first().copied().unwrap_or(5432)
    }

    /// The database.
    #[must_use]
    pub fn database_name(&self) -> &str {
        self.config.get_dbname().unwrap_or_default()
    }

    /// Who asks; nobody in particular where the address doesn't say.
    pub(super) fn user(&self) -> Option<&str> {
        self.config.get_user()
    }
}

impl std::fmt::Display for AddressRefused {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(words::refused(*self))
    }
}

impl std::error::Error for AddressRefused {}

fn is_this_machine(host: &str) -> bool {
    let address = host.parse::<std::net::IpAddr>();
    host.eq_ignore_ascii_case("localhost") || address.is_ok_and(|address| address.is_loopback())
}

/// A value of an address, whose odd signs are written as `%2F`.
fn unescaped(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((first, behind)) = rest.split_first() {
        let hex = behind.get(..2).filter(|_| *first == b'%');
        let hex = hex.and_then(|hex| std::str::from_utf8(hex).ok());
        match hex.and_then(|hex| u8::from_str_radix(hex, 16).ok()) {
            Some(byte) => {
                bytes.push(byte);
                rest = behind.get(2..).unwrap_or_default();
            }
            None => {
                bytes.push(*first);
                rest = behind;
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_read_and_a_password_in_one_is_refused() {
        let read = Address::read("postgresql://jo@db.pell-drilling.example:5433/shelf").unwrap();
        assert_eq!(
            (
                read.host().as_str(),
                read.port(),
                read.database_name(),
                read.user()
            ),
            ("db.pell-drilling.example", 5433, "shelf", Some("jo"))
        );
        assert!(read.is_encrypted());
        for (text, encrypted) in [
            ("postgres://localhost/shelf", false),
            ("postgresql://jo@127.0.0.1/shelf", false),
            ("postgresql://jo@[::1]/shelf", false),
            ("postgresql://localhost/shelf?sslmode=verify-full", true),
            ("postgresql://db.example/shelf?sslmode=prefer", true),
            ("postgresql://localhost/shelf?sslmode=disable", false),
            (
                "postgresql://localhost/shelf?sslrootcert=/etc/own.crt",
                true,
            ),
            ("postgresql:///shelf?host=/run/postgresql", false),
        ] {
            assert_eq!(
                Address::read(text).unwrap().is_encrypted(),
                encrypted,
                "{text}"
            );
        }
        for (text, why) in [
            ("postgresql://jo:secret@db/shelf", AddressRefused::Password),
            (
                "postgresql://jo@db/shelf?password=x",
                AddressRefused::Password,
            ),
            (
                "postgresql://jo%3Asecret@db/shelf",
                AddressRefused::Password,
            ),
            (
                "postgresql://db.example/shelf?sslmode=disable",
                AddressRefused::Plain,
            ),
            (
                "postgresql://localhost/shelf?hostaddr=192.0.2.2",
                AddressRefused::Unread,
            ),
            (
                "postgresql://db/shelf?sslmode=require&sslmode=disable",
                AddressRefused::Unread,
            ),
            ("POSTGRESQL://db/shelf", AddressRefused::Unread),
            ("postgresql://db/shelf%00", AddressRefused::Unread),
            ("postgresql://db", AddressRefused::NoDatabase),
            ("postgresql://one,two/shelf", AddressRefused::Several),
            ("postgresql://db:port/shelf", AddressRefused::Unread),
            (
                "postgresql://db/shelf?sslmode=maybe",
                AddressRefused::Unread,
            ),
            ("postgresql://db/shelf?colour=red", AddressRefused::Unread),
        ] {
            assert_eq!(Address::read(text).unwrap_err(), why, "{text}");
        }
        let own = Address::read("postgresql://db/shelf?sslrootcert=%2Fetc%2Fown.crt").unwrap();
        assert_eq!(own.authorities(), Some(Path::new("/etc/own.crt")));
    }
}
