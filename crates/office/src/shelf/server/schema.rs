//! The tables of a shelf: made, brought up to what this program knows, and who may do what with them.

use postgres::Client;
use postgres::error::SqlState;

/// The steps from one number of tables to the next.
const STEPS: [&str; 2] = [include_str!("schema/1.sql"), include_str!("schema/2.sql")];

/// Names of jobs and customers have letters of all languages.
const ENCODING: &str = "DO $$ BEGIN \
    IF current_setting('server_encoding') NOT IN ('UTF8', 'SQL_ASCII') THEN \
      RAISE EXCEPTION 'this database can not keep every letter (%): make another one with ENCODING ''UTF8'' TEMPLATE template0', \
        current_setting('server_encoding'); \
    END IF; END $$";

/// Who may do what.
const ROLES: &str = include_str!("schema/roles.sql");

/// The roles, by what they may do.
pub const ROLE_NAMES: [&str; 3] = ["quillbore_reader", "quillbore_desk", "quillbore_owner"];

/// The number of tables that this program knows.
pub const NUMBER: i32 = 2;

/// What became of roles.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Roles {
    /// They are there, with what they may do.
    Granted,
    /// This user may not make roles: its own tables work for it alone.
    NotMade,
}

/// Makes the tables or brings them up, all or nothing; tables that are newer are left alone.
pub(super) fn make(client: &mut Client) -> Result<Roles, postgres::Error> {
    let mut transaction = client.transaction()?;
    // Two that make it at once make it one after the other.
    transaction.batch_execute("SELECT pg_advisory_xact_lock(hashtext('quillbore'))")?;
    transaction.batch_execute(ENCODING)?;
    let there = "SELECT to_regclass('quillbore.about') IS NOT NULL";
    let has: i32 = match transaction.query_typed_one(there, &[])?.try_get(0)? {
        true => transaction
            .query_typed_one("SELECT schema_number FROM quillbore.about", &[])?
            .try_get(0)?,
        false => 0,
    };
    let from = usize::try_from(has).unwrap_or(STEPS.len());
    for step in STEPS.get(from..).unwrap_or_default() {
        transaction.batch_execute(step)?;
    }
    let roles = roles(&mut transaction)?;
    if roles == Roles::Granted {
        transaction.batch_execute(ROLES)?;
    }
    transaction.commit()?;
    Ok(roles)
}

/// Makes the roles that aren't there; a savepoint keeps the tables where that isn't allowed.
fn roles(transaction: &mut postgres::Transaction<'_>) -> Result<Roles, postgres::Error> {
    for name in ROLE_NAMES {
        let there = "SELECT FROM pg_roles WHERE rolname = $1";
        if !transaction.query(there, &[&name])?.is_empty() {
            continue;
        }
        let mut one = transaction.transaction()?;
        match one.batch_execute(&format!("CREATE ROLE {name} NOLOGIN")) {
            Ok(()) => one.commit()?,
            // Another database of the server had the same idea at the same moment.
            Err(error) if error.code() == Some(&SqlState::DUPLICATE_OBJECT) => one.rollback()?,
            Err(error) if error.code() == Some(&SqlState::UNIQUE_VIOLATION) => one.rollback()?,
            Err(error) if error.code() == Some(&SqlState::INSUFFICIENT_PRIVILEGE) => {
                one.rollback()?;
                return Ok(Roles::NotMade);
            }
            Err(error) => return Err(error),
        }
    }
    Ok(Roles::Granted)
}
