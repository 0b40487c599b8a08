//! A letter as the desktop hands it to the user's mail program: a mailto address.

use quillbore_job::issued::Issued;
use quillbore_job::same_name::same_name;
use quillbore_job::{Field, Job, Shop};

use crate::words::letter::Contents;

/// What a letter about an issued paper rests on: what that paper says, whatever the job says by now.
#[must_use]
pub fn contents<'a>(job: &'a Job, issued: &'a Issued, shop: &'a Shop) -> Contents<'a> {
    let then = issued.inputs.as_deref().unwrap_or(job);
    let named = || match then.text(Field::Currency).trim() {
        "" => shop.own().tables.rates.currency.clone(),
        currency => currency.to_uppercase(),
    };
    let currency = issued.currency.clone().unwrap_or_else(named);
    let own = issued.lines.iter().filter(|line| line.job == job.number);
    let priced = own.filter_map(|line| Some((line.quantity, line.each?)));
    let prices = priced.map(|(parts, each)| {
        let parts = shop.form.count(f64::from(parts));
        (parts, format!("{} {currency}", shop.form.amount(each)))
    });
    Contents {
        contact: name_in(job.text(Field::Contact)),
        number: &issued.number,
        reference: job.text(Field::CustomerReference),
        prices: prices.collect(),
        until: issued.valid_until.map(|day| shop.form.day(day)),
        shop: &shop.name,
    }
}

/// Where a letter to a job's customer goes: the address in its contact, else the one that the shop's
/// list of customers has.
#[must_use]
pub fn address<'a>(job: &'a Job, shop: &'a Shop) -> &'a str {
    let typed = address_in(job.text(Field::Contact));
    let mut customers = shop.customers.iter();
    let known = customers.find(|one| same_name(&one.name, job.text(Field::Customer)));
    match known {
        Some(known) if typed.is_empty() => address_in(&known.email),
        _ => typed,
    }
}

/// The name in a text that somebody typed as a contact: what stands before an address or a comma.
fn name_in(contact: &str) -> &str {
    let name = contact
        .split([',', ';', '<', '('])
        .next()
        .unwrap_or("")
        .trim();
    if name.contains('@') { "" } else { name }
}

/// The address of a letter by RFC 6068: whom it goes to, its subject and its text.
#[must_use]
pub fn mailto(to: &str, subject: &str, text: &str) -> String {
    // Lines end as RFC 6068 wants them.
    let text = text.replace('\n', "\r\n");
    format!(
        "mailto:{}?subject={}&body={}",
        escaped(to, "@"),
        escaped(subject, ""),
        escaped(&text, "")
    )
}

/// The first address in a text that somebody typed as a contact; empty where there is none.
#[must_use]
pub fn address_in(text: &str) -> &str {
    let parts = text.split(|sign: char| sign.is_whitespace() || "<>(),;".contains(sign));
    let is_address = |part: &&str| {
        let halves = part.split_once('@');
        halves.is_some_and(|(name, host)| !name.is_empty() && host.contains('.'))
    };
    parts.into_iter().find(is_address).unwrap_or("")
}

/// Every byte that is no letter, digit or unreserved mark of RFC 3986 as `%XX`.
fn escaped(text: &str, kept: &str) -> String {
    let mut out = String::new();
    for byte in text.bytes() {
        let sign = char::from(byte);
        if sign.is_ascii_alphanumeric() || "-._~".contains(sign) || kept.contains(sign) {
            out.push(sign);
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_contact_is_greeted_by_name_alone() {
        for (contact, name) in [
            ("Ida Rask", "Ida Rask"),
            ("Ms. Veil, toolroom", "Ms. Veil"),
            ("Ida Rask <i.rask@pellworth.example>", "Ida Rask"),
            ("i.rask@pellworth.example", ""),
            ("", ""),
        ] {
            assert_eq!(name_in(contact), name, "{contact}");
        }
    }

    /// The examples of RFC 6068, section 6.1 and 6.2, as far as they use what is used here.
    #[test]
    fn a_letter_is_escaped_as_the_standard_does() {
        assert_eq!(
            mailto("chris@example.com", "", "send current-issue\nsend index"),
            "mailto:chris@example.com?subject=&body=send%20current-issue%0D%0Asend%20index"
        );
        assert_eq!(
            mailto("gorby%kremvax@example.com", "caf\u{e9}", ""),
            "mailto:gorby%25kremvax@example.com?subject=caf%C3%A9&body="
        );
    }

    #[test]
    fn an_address_is_found_among_what_was_typed() {
        for (typed, address) in [
            ("Mr. Tamm, engineering", ""),
            (
                "Mr. Tamm <tamm@finch.example>, engineering",
                "tamm@finch.example",
            ),
            ("tamm@finch.example", "tamm@finch.example"),
            ("@home", ""),
            ("tamm@finch", ""),
        ] {
            assert_eq!(address_in(typed), address, "{typed}");
        }
    }
}
