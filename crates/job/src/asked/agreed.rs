//! What was agreed with a customer, taken onto the sheet of a job.

use rust_decimal::Decimal;

use crate::edits::edit::Edit;
use crate::ground::same_name::same_name;
use crate::job::Job;
use crate::shop::Customer;
use crate::shop::rows::Shop;
use crate::shop::sheet::percent;
use crate::typed::entry::Unit;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::typed::read_field::read_field;

/// Fields that say who the customer is, what they read, and what they have inspected.
const WHO_AND_HOW: [Field; 5] = [
    Field::Contact,
    Field::CustomerAddress,
    Field::OurNumber,
    Field::Language,
    Field::Inspection,
];

/// Fields that prices and terms rest on.
const PRICES_AND_TERMS: [Field; 6] = [
    Field::Margin,
    Field::AgreedMachineHour,
    Field::AgreedLaborHour,
    Field::Payment,
    Field::Delivery,
    Field::Clauses,
];

/// The customer typed on a job's sheet, with what the shop agreed with them, as one step; `None` where
/// nothing would change by it.
///
/// What was agreed fills the fields that are empty; what somebody typed stays. Fields that hold just
/// what was agreed with the customer before get the new one's, or are emptied. An exchange rate is of
/// its currency: it is taken with that alone, and goes with it.
#[must_use]
pub fn with_customer(job: &Job, shop: &Shop, customer: &str, unit: Unit) -> Option<Edit> {
    let was = known(shop, job.text(Field::Customer));
    let is = known(shop, customer);
    let form = shop.form;
    let mut taken = Taken {
        job,
        unit,
        form,
        edits: Vec::new(),
    };
    // The shop's own spelling is the one that papers show.
    let name = is.map_or(customer, |known| known.name.as_str());
    if job.text(Field::Customer).trim() != name.trim() {
        taken.set(Field::Customer, name.to_owned());
    }
    for field in WHO_AND_HOW.into_iter().chain(PRICES_AND_TERMS) {
        taken.take(field, &agreed(was, field, form), agreed(is, field, form));
    }
    taken.exchange(was, is);
    Edit::together(taken.edits)
}

/// A field whose text is another one than what the shop has agreed with the customer by now.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Otherwise {
    /// The field.
    pub(crate) field: Field,
    /// What was agreed, as it is typed.
    pub(crate) agreed: String,
    /// Takes it onto the sheet.
    pub(crate) take: Edit,
}

/// What stands on a sheet otherwise than the shop has agreed with its customer on prices and terms.
///
/// Somebody may have typed it for this job, or the agreement is another one since it was taken.
pub(crate) fn otherwise(job: &Job, shop: &Shop) -> Vec<Otherwise> {
    let Some(customer) = known(shop, job.text(Field::Customer)) else {
        return Vec::new();
    };
    let (unit, form) = (job.unit, shop.form);
    let set = |field, text: &str| Edit::SetField {
        field,
        text: text.to_owned(),
        unit,
    };
    let differs = |field: Field, agreed: &str| {
        let there = job.field(field);
        !there.is_empty() && !agreed.is_empty() && !read_same(field, there.text(), agreed, unit)
    };
    let terms = PRICES_AND_TERMS.iter().filter_map(|field| {
        let agreed = agreed(Some(customer), *field, form);
        differs(*field, &agreed).then(|| Otherwise {
            field: *field,
            take: set(*field, &agreed),
            agreed,
        })
    });
    let mut all: Vec<Otherwise> = terms.collect();
    if let Some(exchange) = &customer.exchange {
        let [currency, rate, day] = exchange_texts(Some(customer), form);
        let edits = vec![
            set(Field::Currency, &currency),
            set(Field::ExchangeRate, &rate),
            set(Field::ExchangeDay, &day),
        ];
        let is_newer = job
            .date(Field::ExchangeDay)
            .is_some_and(|day| exchange.dated.is_some_and(|dated| dated > day));
        let found = if differs(Field::Currency, &currency) {
            Some((Field::Currency, currency))
        } else {
            let differs = is_newer && differs(Field::ExchangeRate, &rate);
            differs.then_some((Field::ExchangeRate, rate))
        };
        all.extend(found.map(|(field, agreed)| Otherwise {
            field,
            agreed,
            take: Edit::Together { edits },
        }));
    }
    all
}

/// The customer of a name, where the shop has one.
fn known<'a>(shop: &'a Shop, name: &str) -> Option<&'a Customer> {
    let mut customers = shop.customers.iter();
    customers.find(|customer| same_name(&customer.name, name))
}

/// What was agreed with a customer about a field, as it is typed in a form; empty where nothing was.
fn agreed(customer: Option<&Customer>, field: Field, form: Form) -> String {
    let Some(customer) = customer else {
        return String::new();
    };
    if let Some(unread) = customer.unread.get(&field) {
        return unread.clone();
    }
    let amount = |agreed: Option<Decimal>| {
        agreed.map_or_else(String::new, |agreed| amount_typed(agreed, form))
    };
    match field {
        Field::Contact => reached(customer),
        Field::CustomerAddress => customer.address.join("\n"),
        Field::OurNumber => customer.their_number.clone(),
        Field::Language => customer
            .language
            .map_or_else(String::new, |language| language.key().to_owned()),
        Field::Inspection => customer.sampling.clone(),
        Field::Margin => customer
            .margin
            .map_or_else(String::new, |margin| form.typed(&percent(margin))),
        Field::AgreedMachineHour => amount(customer.machine_hour),
        Field::AgreedLaborHour => amount(customer.labor_hour),
        Field::Payment => customer.payment.clone(),
        Field::Delivery => customer.delivery.clone(),
        Field::Clauses => customer.clauses.join("\n"),
        _ => String::new(),
    }
}

/// Currency, rate and day as they are typed in a form; empty where there are none.
fn exchange_texts(customer: Option<&Customer>, form: Form) -> [String; 3] {
    let Some(customer) = customer else {
        return Default::default();
    };
    // What can't be read goes onto the sheet as it was typed.
    let text = |field, read: Option<String>| {
        let unread = customer.unread.get(&field).cloned();
        unread.or(read).unwrap_or_default()
    };
    let exchange = customer.exchange.as_ref();
    let rate = exchange.and_then(|exchange| exchange.rate);
    let dated = exchange.and_then(|exchange| exchange.dated);
    [
        text(
            Field::Currency,
            exchange.map(|exchange| exchange.currency.clone()),
        ),
        text(
            Field::ExchangeRate,
            rate.map(|rate| form.typed(&rate.normalize().to_string())),
        ),
        text(Field::ExchangeDay, dated.map(|day| form.day(day))),
    ]
}

/// Whom to talk to, and how to reach them.
fn reached(customer: &Customer) -> String {
    let ways = [&customer.contact, &customer.email, &customer.phone].map(|way| way.trim());
    let ways: Vec<&str> = ways.into_iter().filter(|way| !way.is_empty()).collect();
    ways.join(", ")
}

/// An amount of money as a text in a form that is read as just this amount.
pub(crate) fn amount_typed(amount: Decimal, form: Form) -> String {
    let text = form.typed(&amount.to_string());
    // Three digits behind the point could group thousands.
    if amount.scale() == 3 {
        text + "0"
    } else {
        text
    }
}

/// The edits that take an agreement onto a sheet.
struct Taken<'a> {
    job: &'a Job,
    unit: Unit,
    form: Form,
    edits: Vec<Edit>,
}

impl Taken<'_> {
    /// Puts what is agreed now into a field that is empty, or that holds just what was agreed before.
    /// Whether the field holds what is agreed now.
    fn take(&mut self, field: Field, was: &str, is: String) -> bool {
        let is_free = self.job.field(field).is_empty() || self.holds(field, was);
        if is_free && !self.holds(field, &is) {
            self.set(field, is);
            return true;
        }
        self.holds(field, &is)
    }

    /// Currency, rate and day: what one of them is depends on the one before it.
    fn exchange(&mut self, was: Option<&Customer>, is: Option<&Customer>) {
        let [was_currency, was_rate, was_day] = exchange_texts(was, self.form);
        let [currency, rate, day] = exchange_texts(is, self.form);
        let there = self.job.text(Field::Currency).trim().to_owned();
        if !self.take(Field::Currency, &was_currency, currency.clone()) {
            return;
        }
        let is_same = there.is_empty() || read_same(Field::Currency, &there, &currency, self.unit);
        if is_same {
            if self.take(Field::ExchangeRate, &was_rate, rate) {
                self.take(Field::ExchangeDay, &was_day, day);
            }
        } else {
            self.put(Field::ExchangeRate, rate);
            self.put(Field::ExchangeDay, day);
        }
    }

    fn holds(&self, field: Field, text: &str) -> bool {
        let there = self.job.text(field);
        read_same(field, there, text, self.unit)
    }

    fn put(&mut self, field: Field, text: String) {
        if !self.holds(field, &text) {
            self.set(field, text);
        }
    }

    fn set(&mut self, field: Field, text: String) {
        self.edits.push(Edit::SetField {
            field,
            text,
            unit: self.unit,
        });
    }
}

/// Whether two texts say the same in a field.
fn read_same(field: Field, one: &str, other: &str, unit: Unit) -> bool {
    let value = |text| read_field(field, text, unit).value().cloned();
    one.trim() == other.trim() || value(one).is_some_and(|one| value(other) == Some(one))
}
