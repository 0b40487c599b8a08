//! The password of a server: from the environment, from the user's own password file, or as somebody
//! gives it. It is kept in memory alone and never shown.

use std::fmt;
use std::path::{Path, PathBuf};

use super::address::Address;

/// A password that is not shown.
#[derive(Clone, PartialEq, Eq)]
pub struct Password(String);

impl Password {
    /// A password as it is typed.
    #[must_use]
    pub fn new(text: &str) -> Self {
        Self(text.to_owned())
    }

    pub(super) fn as_bytes(&self) -> &[u8] {
        self.0.as_bytes()
    }
}

impl fmt::Debug for Password {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Password")
    }
}

/// What of the user's own surroundings can hold a password.
#[derive(Clone, Debug, Default)]
pub struct Kept {
    /// `PGPASSWORD`.
    pub said: Option<Password>,
    /// The password file.
    pub file: Option<PathBuf>,
}

impl Kept {
    /// What this user's environment says: `PGPASSWORD`, and the file that `PGPASSFILE` names or the
    /// usual one of the server's own client programs.
    #[must_use]
    pub fn by_environment() -> Self {
        let usual = || {
            let (variable, behind) = match cfg!(windows) {
                true => ("APPDATA", "postgresql/pgpass.conf"),
                false => ("HOME", ".pgpass"),
            };
            Some(PathBuf::from(std::env::var_os(variable)?).join(behind))
        };
        let named = std::env::var_os("PGPASSFILE").map(PathBuf::from);
        let said = std::env::var("PGPASSWORD").ok();
        Self {
            said: said.filter(|said| !said.is_empty()).map(Password),
            file: named.or_else(usual),
        }
    }

    /// The password file, where it is passed over since others may read it.
    pub(super) fn open_to_others(&self) -> Option<&Path> {
        let file = self.file.as_deref()?;
        let is_file = std::fs::metadata(file).is_ok_and(|found| found.is_file());
        (is_file && !is_private(file)).then_some(file)
    }

    /// The password for an address.
    pub(super) fn of(&self, address: &Address) -> Option<Password> {
        self.said.clone().or_else(|| {
            let text = private(self.file.as_deref()?)?;
            text.lines().find_map(|line| in_line(line, address))
        })
    }
}

/// A plain file that its user alone can read; another is passed over, as the server's own programs do.
fn private(file: &Path) -> Option<String> {
    if !std::fs::metadata(file).ok()?.is_file() {
        return None;
    }
    if !is_private(file) {
        return None;
    }
    std::fs::read_to_string(file).ok()
}

#[cfg(unix)]
fn is_private(file: &Path) -> bool {
    use std::os::unix::fs::PermissionsExt as _;
    let found = std::fs::metadata(file);
    found.is_ok_and(|found| found.permissions().mode() & 0o077 == 0)
}

#[cfg(not(unix))]
fn is_private(_: &Path) -> bool {
    true
}

/// A line is host, port, database, user and password, parted by colons; `*` stands for any, and a
/// backslash before a colon or a backslash means that sign.
fn in_line(line: &str, address: &Address) -> Option<Password> {
    if line.starts_with('#') {
        return None;
    }
    let (mut fields, mut field, mut escaped) = (Vec::new(), String::new(), false);
    for sign in line.chars() {
        match sign {
            _ if escaped => {
                field.push(sign);
                escaped = false;
            }
            '\\' => escaped = true,
            ':' if fields.len() < 4 => fields.push(std::mem::take(&mut field)),
            sign => field.push(sign),
        }
    }
    let port = address.port().to_string();
    let user = address.user().map_or_else(this_user, str::to_owned);
    let of = [
        &address.host(),
        port.as_str(),
        address.database_name(),
        user.as_str(),
    ];
    let is_of = fields.len() == of.len()
        && fields
            .iter()
            .zip(of)
            .all(|(field, of)| field == "*" || field == of);
    (is_of && !field.is_empty()).then_some(Password(field))
}

/// Who asks where an address doesn't say.
pub(super) fn this_user() -> String {
    let variable = if cfg!(windows) { "USERNAME" } else { "USER" };
    std::env::var(variable).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_line_of_the_file_that_fits_counts() {
        let address = Address::read("postgresql://jo@db:5433/shelf").unwrap();
        for (line, password) in [
            ("db:5433:shelf:jo:secret", Some("secret")),
            ("*:*:*:jo:a\\:b\\\\c:d", Some("a:b\\c:d")),
            ("db:5432:shelf:jo:secret", None),
            ("db:5433:other:jo:secret", None),
            ("db:5433:shelf:eve:secret", None),
            ("#db:5433:shelf:jo:secret", None),
            ("db:5433:shelf", None),
            ("db:5433:shelf:jo:", None),
            ("", None),
        ] {
            assert_eq!(
                in_line(line, &address),
                password.map(Password::new),
                "{line}"
            );
        }
        assert_eq!(format!("{:?}", Password::new("secret")), "Password");
    }

    #[cfg(unix)]
    #[test]
    fn a_file_that_others_can_read_is_passed_over() {
        use std::os::unix::fs::PermissionsExt as _;
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("passwords");
        std::fs::write(&file, "other:*:*:*:no\ndb:*:*:*:secret\n").unwrap();
        let address = Address::read("postgresql://jo@db/shelf").unwrap();
        for (mode, password) in [(0o600, Some("secret")), (0o640, None), (0o604, None)] {
            std::fs::set_permissions(&file, std::fs::Permissions::from_mode(mode)).unwrap();
            let kept = Kept {
                said: None,
                file: Some(file.clone()),
            };
            assert_eq!(kept.of(&address), password.map(Password::new), "{mode:o}");
        }
        let kept = Kept {
            said: Some(Password::new("said")),
            file: Some(file),
        };
        assert_eq!(kept.of(&address), Some(Password::new("said")));
    }
}
