//! The letter with which a paper goes out.

use quillbore_job::Paper;
use quillbore_job::words::slips;

/// What the letter is about.
#[must_use]
pub fn subject(paper: Paper, number: &str, part: &str) -> String {
    let name = slips::paper(paper);
    let mut letters = name.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    let name = first.unwrap_or_default() + letters.as_str();
    match part.trim() {
        "" => format!("{name} {number}"),
        part => format!("{name} {number}: {part}"),
    }
}

/// What a letter rests on.
#[derive(Clone, Debug, Default)]
pub struct Contents<'a> {
    /// Whom it greets; empty where nobody is named.
    pub contact: &'a str,
    /// The paper's number.
    pub number: &'a str,
    /// The customer's reference.
    pub reference: &'a str,
    /// Parts and price each of a quotation, as the paper has them.
    pub prices: Vec<(String, String)>,
    /// The last day of a quotation.
    pub until: Option<String>,
    /// The shop's name.
    pub shop: &'a str,
}

/// What it says; the user goes on from here in the mail program.
#[must_use]
pub fn text(paper: Paper, of: &Contents<'_>) -> String {
    let greeting = match of.contact {
        "" => String::new(),
        contact => format!("Dear {contact},\n\n"),
    };
    let reference = match of.reference.trim() {
        "" => String::new(),
        reference => format!(" to your reference {reference}"),
    };
    let prices = of.prices.iter().map(|(parts, each)| match parts.as_str() {
        "1" => format!("1 part: {each}\n"),
        parts => format!("{parts} parts: {each} each\n"),
    });
    let prices: String = prices.collect();
    let until = of.until.as_ref();
    let until = until.map_or_else(String::new, |day| format!("It is valid until {day}.\n"));
    let more = format!("{prices}{until}");
    let more = if more.is_empty() {
        more
    } else {
        format!("{more}\n")
    };
    format!(
        "{greeting}Attached is our {} {}{reference}.\n\n{more}{}\n",
        slips::paper(paper),
        of.number,
        of.shop
    )
}

/// That the mail program has the letter, and which file is to be attached to it.
#[must_use]
pub fn attach(file: &str) -> String {
    format!("The letter is in your mail program; attach {file}")
}

/// That no mail program took the letter, and where its text and the file are.
#[must_use]
pub fn no_mail(file: &str) -> String {
    format!("No mail program took the letter: its text is on the clipboard; attach {file}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_letter_says_what_the_paper_offers_and_no_more() {
        let of = Contents {
            contact: "Ms. Arl",
            number: "26-0101-Q1",
            reference: "B-218",
            prices: vec![
                ("1".to_owned(), "712.86 USD".to_owned()),
                ("1,000".to_owned(), "61.79 USD".to_owned()),
            ],
            until: Some("28 Dec 2026".to_owned()),
            shop: "Tallow Street",
        };
        assert_eq!(
            text(Paper::Quotation, &of),
            "Dear Ms. Arl,\n\nAttached is our quotation 26-0101-Q1 to your reference B-218.\n\n\
             1 part: 712.86 USD\n1,000 parts: 61.79 USD each\nIt is valid until 28 Dec 2026.\n\n\
             Tallow Street\n"
        );
        let bare = Contents {
            number: "26-0101-P1",
            shop: "Tallow Street",
            ..Contents::default()
        };
        assert_eq!(
            text(Paper::Packing, &bare),
            "Attached is our packing list 26-0101-P1.\n\nTallow Street\n"
        );
    }
}
