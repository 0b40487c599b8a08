//! What is said of a shelf's server.

use std::path::Path;

use postgres::error::SqlState;

use crate::failure::Failure;
use crate::shelf::server::AddressRefused;

/// Why a text is no address of a server.
pub(crate) const fn refused(why: AddressRefused) -> &'static str {
    match why {
        AddressRefused::Password => {
            "leave the password out of the address, where others can read it: it is asked, or taken from PGPASSWORD or the password file"
        }
        AddressRefused::Unread => {
            "that is no address of a server: write it as postgresql://user@host/database"
        }
        AddressRefused::NoDatabase => {
            "the address names no database: write it as postgresql://user@host/database"
        }
        AddressRefused::Plain => {
            "leave sslmode=disable out: what is said to another machine is encrypted"
        }
        AddressRefused::Several => "name one server: a shelf is kept on one",
    }
}

/// That a text is no address of a server. The text itself may hold a password, so it is not shown.
pub(crate) fn no_address(why: AddressRefused) -> Failure {
    Failure::new(
        "This is not used as the address of a shelf's server",
        refused(why),
    )
}

/// That there was no password.
pub(crate) const NO_PASSWORD: &str = "it wants a password, and none was given";

/// That the password file is not read.
pub(crate) fn open_to_others(file: &Path) -> String {
    format!(
        "{NO_PASSWORD}; {} is passed over, since others may read it (chmod 600)",
        super::shown::name(file.as_os_str())
    )
}

/// What is read is not what was written.
pub(crate) fn damaged(name: &str) -> String {
    format!("what the server has of {name} is not what was written; have its disk checked")
}

/// What a server or the network says, with what lies under it.
pub(crate) fn said(error: &postgres::Error) -> String {
    use std::error::Error as _;
    if let Some(said) = error.as_db_error() {
        let detail = said.detail().map(|detail| format!(" ({detail})"));
        return format!("{}{}", said.message(), detail.unwrap_or_default());
    }
    let mut says = error.to_string();
    let mut source = error.source();
    while let Some(error) = source {
        let more = error.to_string();
        if !says.contains(&more) {
            says += ": ";
            says += &more;
        }
        source = error.source();
    }
    says
}

/// What a server's code means for whoever reads it here, where its own words leave that open.
pub(crate) fn means(code: &SqlState) -> Option<&'static str> {
    match *code {
        SqlState::INVALID_CATALOG_NAME => Some("there is no such database"),
        SqlState::TOO_MANY_CONNECTIONS => Some(
            "it lets nobody else in now; its max_connections, or a limit of this user or database, says how many it does",
        ),
        SqlState::LOCK_NOT_AVAILABLE => {
            Some("something has its tables locked for longer than anybody waits")
        }
        SqlState::QUERY_CANCELED => Some("it took too long, or somebody stopped it there"),
        SqlState::READ_ONLY_SQL_TRANSACTION => {
            Some("it only reads here: it is a replica, or this user is set to read only")
        }
        SqlState::UNDEFINED_FUNCTION | SqlState::UNDEFINED_TABLE | SqlState::UNDEFINED_COLUMN => {
            Some(
                "its tables are not as this program makes them; somebody changed them, or restored a part",
            )
        }
        _ => None,
    }
}

/// That a user may not make a shelf.
pub(crate) fn to_make(says: &str) -> String {
    format!("{says}; who makes a shelf owns its database, and its tables where there are some")
}

/// Nothing came, or the authorities of its certificate can't be read.
pub(crate) fn silent(authorities: Option<&str>) -> String {
    authorities.map_or_else(
        || "no answer came in time".to_owned(),
        |why| format!("the authorities for its certificate can't be read: {why}"),
    )
}

/// How a password is asked for.
pub(crate) fn password_of(place: &str) -> String {
    format!("Password for {place}: ")
}

/// That nobody could be asked.
pub(crate) fn not_asked(error: &std::io::Error) -> Failure {
    Failure::new(
        format!("The password could not be asked at this terminal: {error}"),
        "put it in PGPASSWORD or the password file",
    )
}
