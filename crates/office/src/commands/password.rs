//! The password of a shelf's server, asked at the terminal where nothing else says it.

use std::io::IsTerminal as _;

use crate::failure::Failure;
use crate::shelf::ShelfError;
use crate::shelf_at::ShelfAt;
use crate::words::server as words;

/// Asks for the password where the server wants one, and somebody sits at the terminal.
///
/// # Errors
/// Where the terminal can't be read.
pub(super) fn ask_where_needed(at: &ShelfAt) -> Result<(), Failure> {
    let shelf = &at.shelf;
    if shelf.is_on_disk() {
        return Ok(());
    }
    // Whatever else is in the way is told by what asks next.
    if !matches!(shelf.mark(), Err(ShelfError::NoEntry { .. })) || !std::io::stdin().is_terminal() {
        return Ok(());
    }
    let prompt = words::password_of(&shelf.place());
    let typed = rpassword::prompt_password(prompt).map_err(|error| words::not_asked(&error))?;
    shelf.give_password(&typed);
    Ok(())
}
