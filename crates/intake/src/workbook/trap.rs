//! What makes the library that reads Office Open XML lay out more than there is: texts and formats of a workbook
//! are all taken into memory, each format with a copy of what it names, before any cell is read.

use std::io::{BufReader, Read};

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};

use super::WorkbookError;

/// Most bytes of a workbook's shared texts unpacked: so many times the file, and what small files may have
/// beyond that. They take three times as much in memory.
const MOST_TIMES: u64 = 15;
const MOST_BESIDE: u64 = 8_000_000;

/// Most bytes of its formats laid out.
const MOST_OF_FORMATS: usize = 32_000_000;

/// Bytes of a format beside the texts that it names.
const FORMAT: usize = 512;

/// The shared texts: as many as they say, within what is bearable.
pub(super) fn strings(part: impl Read, size: u64, file: usize) -> Result<(), WorkbookError> {
    let file = u64::try_from(file).unwrap_or(u64::MAX);
    if size > file.saturating_mul(MOST_TIMES).saturating_add(MOST_BESIDE) {
        return Err(WorkbookError::TooLarge);
    }
    let mut told = 0;
    each_tag(part, |tag| {
        if tag.local_name().as_ref() != "sst" {
            return true;
        }
        for attribute in tag.attributes().with_checks(false).flatten() {
            if attribute.key.as_ref() == "uniqueCount" {
                let says = attribute.value.trim().parse().unwrap_or(u64::MAX);
                told = says.max(told);
            }
        }
        false
    })?;
    // The shortest text that there is takes more than four bytes.
    if told > size / 4 {
        let says = format!("it says that it has {told} texts in {size} bytes");
        return Err(WorkbookError::damaged(&says));
    }
    Ok(())
}

/// The formats: each may name a text as long as the longest there is.
pub(super) fn styles(part: impl Read) -> Result<(), WorkbookError> {
    let (mut formats, mut longest) = (0_usize, 0_usize);
    each_tag(part, |tag| {
        formats += usize::from(tag.local_name().as_ref() == "xf");
        longest = longest.max(tag.len());
        true
    })?;
    if formats.saturating_mul(longest.saturating_add(FORMAT)) > MOST_OF_FORMATS {
        return Err(WorkbookError::TooLarge);
    }
    Ok(())
}

/// Shows each opening tag until enough were seen. What can't be read is left to the library, which says so.
fn each_tag(
    part: impl Read,
    mut goes_on: impl FnMut(&BytesStart<'_>) -> bool,
) -> Result<(), WorkbookError> {
    let mut xml = Reader::from_reader(BufReader::new(part));
    xml.config_mut().check_end_names = false;
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        match xml.read_event_into(&mut buffer) {
            Ok(Event::Start(tag) | Event::Empty(tag)) if !goes_on(&tag) => return Ok(()),
            Ok(Event::Eof) | Err(_) => return Ok(()),
            Ok(_) => {}
        }
    }
}
