//! Workbooks of spreadsheet programs: Office Open XML (.xlsx, .xlsm) and OpenDocument (.ods), sheet by sheet
//! into lines of cells.

mod bounded;
mod looked;
mod merged;
mod ods;
mod room;
mod shown;
mod trap;
mod xlsx;

pub(crate) use self::looked::Seen;
use crate::lines::Lines;
use crate::watch::Watch;

/// Sheets of a workbook that have anything in them, in its order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Workbook {
    /// The sheets.
    pub(crate) sheets: Vec<Sheet>,
    /// What its cells don't tell.
    pub(crate) seen: Seen,
}

/// One sheet; its lines have the numbers that the spreadsheet shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Sheet {
    /// Its name.
    pub(crate) name: String,
    /// It is not shown to whoever opens the file.
    pub(crate) is_hidden: bool,
    /// Its lines; empty ones are left out, and empty cells at their ends.
    pub(crate) lines: Lines,
    /// Lines whose cells were filled from a cell that is merged with them.
    pub(crate) merged: Vec<usize>,
    /// Lines in which a formula has no result: the file was never calculated.
    pub(crate) uncalculated: Vec<usize>,
    /// Lines with a cell that the spreadsheet took for a date: often a fraction that was typed.
    pub(crate) dates: Vec<usize>,
    /// Lines with a number that is shown as a fraction.
    pub(crate) fractions: Vec<usize>,
    /// Lines with a cell that is struck through.
    pub(crate) struck: Vec<usize>,
}

/// Why a workbook can't be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WorkbookError {
    /// It is packed as workbooks are, and is none.
    NoWorkbook,
    /// It asks for a password.
    Locked,
    /// It is an old binary workbook.
    OldKind,
    /// It is damaged; what the reader says of it.
    Damaged(String),
    /// Whoever waited for it stopped it.
    Stopped,
    /// Unpacked it is far larger than a hole table.
    TooLarge,
    /// A sheet of this name has more cells than a hole table has.
    TooManyCells(String),
}

impl Workbook {
    /// Whether bytes are packed as workbooks are, or are an old binary one.
    pub(crate) fn is_one(bytes: &[u8]) -> bool {
        bytes.starts_with(b"PK\x03\x04") || bytes.starts_with(OLD)
    }

    /// Reads a workbook.
    ///
    /// # Errors
    /// Where the bytes are no workbook, ask for a password, are damaged, hold more than a hole
    /// table does, or `watch` stopped it.
    pub(crate) fn of(bytes: &[u8], watch: Watch<'_>) -> Result<Self, WorkbookError> {
        if bytes.starts_with(OLD) {
            // A locked workbook of today is wrapped in the same way; its two parts are named in the wrapping.
            let locked: Vec<u8> = "EncryptedPackage"
                .encode_utf16()
                .flat_map(u16::to_le_bytes)
                .collect();
            let is_locked = bytes.windows(locked.len()).any(|part| part == locked);
            return Err(if is_locked {
                WorkbookError::Locked
            } else {
                WorkbookError::OldKind
            });
        }
        let packed = bounded::Packed::of(bytes)?;
        let mut room = room::Room::for_file(bytes.len());
        let sheets = if packed.has("content.xml") {
            ods::sheets(&packed, &mut room, watch)?
        } else if packed.has("xl/workbook.xml") || packed.has("[Content_Types].xml") {
            packed.is_no_trap()?;
            xlsx::sheets(bytes, packed.seen.may_merge, &mut room, watch)?
        } else {
            return Err(WorkbookError::NoWorkbook);
        };
        let filled = sheets.into_iter().filter(|sheet| !sheet.lines.is_empty());
        Ok(Self {
            sheets: filled.collect(),
            seen: packed.seen,
        })
    }
}

/// Cells after which whoever waits hears how far it is.
const CELLS_BETWEEN_LOOKS: usize = 5_000;

/// How files of the old binary kind begin (compound file binary format).
const OLD: &[u8] = &[0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1];

/// Most letters of a text of the file in a sentence: a sheet's name, what is said of damage.
const MOST_LETTERS: usize = 200;

/// A text of a file that becomes part of a sentence, without signs that no line has.
fn in_sentence(text: &str) -> String {
    let letters = text.chars().take(MOST_LETTERS);
    letters
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect()
}

impl WorkbookError {
    /// Damage, with what the reader says of it.
    fn damaged(why: &impl ToString) -> Self {
        Self::Damaged(in_sentence(&why.to_string()))
    }
}
