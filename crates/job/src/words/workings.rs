//! The working of a figure, in the trade's terms.

use quillbore_calc::figure::{CostLine, Formula, Input, Name, Origin, Quantity, Unit, Working};
use quillbore_calc::job_figures::Chance;
use quillbore_calc::promise::WorkingDays;
use quillbore_calc::{Band, Figure};

use super::exchange::{self, AgreedHour};
use super::promise;
use super::speaker::Speaker;
use crate::shop::rows::Shop;
use crate::typed::form::{Form, one_by_one};

/// The unit that a figure comes in.
#[must_use]
pub const fn unit_of(figure: Figure) -> Unit {
    match figure {
        Figure::Electrode(_)
        | Figure::Gap(_)
        | Figure::Wear(_)
        | Figure::TargetDepth(_)
        | Figure::ReachOne(_) => Unit::Mm,
        Figure::Feed(_) => Unit::MmPerMin,
        Figure::Flush(_) => Unit::MlPerMin,
        Figure::Push(_) | Figure::Clamp(_) => Unit::Newton,
        Figure::HoleMinutes(_) => Unit::Min,
        Figure::ElectrodesPerHole(_)
        | Figure::Electrodes(_)
        | Figure::AllElectrodes
        | Figure::Setups => Unit::Count,
        Figure::MachineHours | Figure::LaborHours => Unit::Hour,
        Figure::NotYetKnown => Unit::Share,
        Figure::Machines
        | Figure::Cost(_)
        | Figure::LotCost
        | Figure::UnitPrice(_)
        | Figure::LotPrice(_) => Unit::Money,
        Figure::WorkingDays => Unit::Day,
    }
}

impl Speaker<'_> {
    /// A value with its unit.
    #[must_use]
    pub fn quantity(&self, value: f64, unit: Unit) -> String {
        match unit {
            Unit::Mm => self.length(value),
            Unit::Deg => self.form.angle_with_unit(value),
            Unit::Min => self.form.minutes_with_unit(value),
            Unit::Hour => self.form.hours_with_unit(value),
            Unit::MmPerMin => format!("{}/min", self.length(value)),
            Unit::Bar => self.form.pressure(value, self.unit),
            Unit::Celsius => format!("{} \u{b0}C", self.form.number(value, 3)),
            Unit::MlPerMin => self.form.flow(value),
            Unit::MetersPerSecond => format!("{} m/s", self.form.number(value, 2)),
            Unit::Newton => self.force(value),
            Unit::Kilogram => self.form.mass(value, self.unit),
            Unit::Number => self.form.number(value, 3),
            Unit::Count => self.form.count(value),
            Unit::Money => self.amount(value),
            Unit::MoneyPerHour => format!("{}/h", self.amount(value)),
            Unit::Share => self.form.percent(value),
            Unit::Day => promise::days(value as u32, self.form),
        }
    }

    /// A quantity of a working.
    #[must_use]
    pub fn said(&self, quantity: Quantity) -> String {
        self.quantity(quantity.value, quantity.unit)
    }

    /// What came out of a working, with its spread where it has one that was not overruled.
    #[must_use]
    pub fn result(&self, working: &Working) -> String {
        match working.overruled {
            None => self.with_spread(working.result, working),
            Some(_) => self.said(working.result),
        }
    }

    /// What stands in its place, with its spread where it has one.
    #[must_use]
    pub fn stands(&self, working: &Working) -> Option<String> {
        let value = working.overruled?;
        let unit = working.result.unit;
        Some(self.with_spread(Quantity { value, unit }, working))
    }

    fn with_spread(&self, Quantity { value, unit }: Quantity, working: &Working) -> String {
        match (unit, working.low, working.high) {
            (Unit::Hour, Some(p10), Some(p90)) => {
                let p50 = value;
                let hours = self.form.hours_band(Band { p10, p50, p90 });
                format!("{} h (low, likely, high)", one_by_one(&hours))
            }
            (Unit::Day, _, Some(late)) => {
                let (p50, p90) = (value as u32, late as u32);
                promise::working_days(WorkingDays { p50, p90 }, self.form)
            }
            _ => self.quantity(value, unit),
        }
    }

    /// What goes into a formula, by name; with its tube or hole where there can be several alike.
    #[must_use]
    pub fn input(&self, input: &Input) -> String {
        let of = name(input.name);
        match (input.name, input.opens) {
            (Name::Needed, Some(Figure::Electrodes(tube))) => {
                let tube = tube.of(&self.tables.tubes);
                tube.map_or_else(|| of.to_owned(), |tube| tube.name.clone())
            }
            (Name::Holes, Some(Figure::HoleMinutes(row))) => format!("in {}", self.hole(row)),
            (Name::Wear, Some(Figure::Wear(row))) => format!("wear of {}", self.hole(row)),
            (Name::OnMachine(machine) | Name::StopsOn(machine), _) => {
                let machine = machine.of(&self.tables.machines);
                let machine = machine.map_or("?", |machine| machine.name.as_str());
                format!("{of} {machine}")
            }
            (Name::HolesOnGuide(guide), _) => {
                let guide = guide.of(&self.tables.guides);
                let guide = guide.map_or("?", |guide| guide.name.as_str());
                format!("{of} {guide}")
            }
            _ => of.to_owned(),
        }
    }
}

/// What the money of a figure goes by beside the rate card: the exchange rate with its day, and hours
/// that were agreed with the customer. It stands in the working alone and is printed on no paper.
#[must_use]
pub fn goes_by(figure: Figure, shop: &Shop) -> Vec<String> {
    let (Unit::Money, Some(goes_by)) = (unit_of(figure), &shop.goes_by) else {
        return Vec::new();
    };
    let own = &shop.own().tables.rates;
    let agreed = &goes_by.agreed;
    let hour = |what, amount: Option<f64>| {
        amount.map(|amount| {
            let amount = shop.form.money(amount, own.minor_digits);
            exchange::agreed(what, &amount, &own.currency)
        })
    };
    let rate = agreed.exchange.as_ref().map(|quoted| {
        let [own, currency] = [own.currency.as_str(), quoted.currency.as_str()];
        exchange::rate(own, currency, quoted.rate, quoted.dated, shop.form)
    });
    let hours = [
        hour(AgreedHour::Machine, agreed.machine_hour),
        hour(AgreedHour::Labor, agreed.labor_hour),
    ];
    rate.into_iter()
        .chain(hours.into_iter().flatten())
        .collect()
}

/// A line of the lot's cost, by name.
#[must_use]
pub const fn cost_line(line: CostLine) -> &'static str {
    match line {
        CostLine::Machine => name(Name::Machine),
        CostLine::Labor => name(Name::Labor),
        CostLine::Electrodes => name(Name::ElectrodeCost),
        CostLine::Guides => name(Name::GuideCost),
        CostLine::Dielectric => name(Name::Dielectric),
        CostLine::Power => name(Name::Power),
        CostLine::Outside => name(Name::OutsideWork),
        CostLine::Redo => name(Name::Redo),
        CostLine::PartRisk => name(Name::PartRisk),
    }
}

/// A formula in the trade's terms.
#[must_use]
pub const fn formula(formula: Formula) -> &'static str {
    match formula {
        Formula::ElectrodeChoice => {
            "the electrode with the greatest chance of a hole inside the limits, less its chance of one over them, for a lot whose gap is not yet known; of equal ones the cheapest for the lot"
        }
        Formula::GapByDiameter => {
            "the gap per side for this electrode diameter, between the table's rows"
        }
        Formula::FeedByDiameter => {
            "feed of the material at 1 mm, times the factors for the size, for channels, for close limits, for interrupted metal and by this shop's runs"
        }
        Formula::HoleMinutes => {
            "touch-off + entry + full metal + exit + overtravel + retract + changes inside the hole; in full metal the feed falls with depth as 1 / (1 + (z / depth halved)^exponent)"
        }
        Formula::Wear => "wear ratio by length, times the depth drilled",
        Formula::TargetDepth => "stand-off + depth + exit zone beyond the axis + overtravel",
        Formula::ReachOne => "usable length / (1 + wear ratio)",
        Formula::FlushByPressure => {
            "what bore and gap let through together at the pump's pressure (Darcy and Weisbach; smooth, water), with the tip at the bottom, and no more than the pump gives"
        }
        Formula::PressureOnHole => "pressure x area of the largest hole, as if nothing flowed off",
        Formula::HeldAgainstPush => {
            "force above the part's middle that holds it against twice the push, over every edge of what it rests on and where water gets under it; friction is not counted"
        }
        Formula::MachineByMachine => {
            "the price of one part on each machine of the shop; one that comes to a stop can't do it as it stands. As many parts as its table holds, and what it does with nobody at it"
        }
        Formula::Chain => {
            "each further electrode reaches (usable length + wear ratio x depth so far) / (1 + wear ratio)"
        }
        Formula::Packing => {
            "holes fit on one electrode if, for every depth, the wear of all holes at least as deep stays within usable length less that depth"
        }
        Formula::TubesTogether => "the sum of the electrodes of each tube",
        Formula::SetupsByDirection => {
            "directions that index or tilt reach share a setup; the opposite side is a turn-over; the rest are setups of their own"
        }
        Formula::MachineMinutes => "the sum of the machine's minutes for the lot, in hours",
        Formula::LaborMinutes => "the sum of a person's minutes for the lot, in hours",
        Formula::NotYetKnown => {
            "the expected cost less the cost at the medians: slow burns and heavy wear cost more than fast and light ones save"
        }
        Formula::CostLines => "the sum of the cost lines",
        Formula::ByTheHour => "hours x what an hour costs",
        Formula::ElectrodesUsed => {
            "electrodes needed x price of each kind, and what of those that break is left unused"
        }
        Formula::GuidesByLife => "holes / holes that a guide lasts, x its price, guide by guide",
        Formula::OutsideWork => "for the lot + for each part x quantity",
        Formula::RedoneWork => "share of work done again x (machine + labor + electrodes)",
        Formula::PartAtRisk => {
            "what is at stake in one part x parts of the lot expected to be spoiled; at stake is the part's value, not above the cap"
        }
        Formula::UnitPrice => {
            "expected cost of the lot / quantity / (1 - margin), not below the minimum charge / quantity; rounded once, to the price step (a tenth of it, and so on, where a price is under 20 steps) or the currency's smallest unit"
        }
        Formula::LotPrice => "price each x quantity",
        Formula::WorkingDays => {
            "hours of other jobs first and machine hours, over the hours that the machine runs in a day, what needs somebody over the attended ones; or labor hours over the attended ones, where they take longer; rounded up, and the days outside"
        }
        Formula::LeadTime => {
            "the lead time as typed; what the lot takes at this shop's hours stands beside it"
        }
    }
}

/// Above the electrodes that could be taken instead.
pub const ALTERNATIVES: &str = "electrodes to begin with, and their chances the first time";

/// The chance of a tube that could be taken.
#[must_use]
pub fn alternative(chance: Chance, form: Form) -> String {
    format!(
        "inside {}, over {}",
        form.percent(chance.inside),
        form.percent(chance.over)
    )
}

/// Where an input came from.
#[must_use]
pub const fn origin(origin: Origin) -> &'static str {
    match origin {
        Origin::Typed => "from the sheet",
        Origin::RateCard => "rate card",
        Origin::ShopTable => "shop's table",
        Origin::StartValue => "start value",
        Origin::Runs => "by this shop's runs",
        Origin::Computed => "computed",
        Origin::Overruled => "overruled",
    }
}

/// What goes into a formula, by name.
#[must_use]
pub const fn name(name: Name) -> &'static str {
    match name {
        Name::LowerLimit => "lower limit",
        Name::UpperLimit => "upper limit",
        Name::TubeDiameter => "electrode diameter",
        Name::TubeTolerance => "electrode tolerance",
        Name::TubeLength => "electrode length",
        Name::HeldBack => "held back",
        Name::Stroke => "stroke",
        Name::OnMachine(_) => "on",
        Name::StopsOn(_) => "not on",
        Name::PiecesPerLoading => "parts on its table at once",
        Name::HoursAlone => "runs with nobody at it",
        Name::PiecesAlone => "whole parts meanwhile",
        Name::Usable => "usable length",
        Name::Pressure => "flush pressure at the pump",
        Name::WaterTemperature => "temperature of the dielectric",
        Name::Channels => "channels",
        Name::Bore => "bore of the electrode",
        Name::FreeFlow => "flow in the open",
        Name::PumpFlow => "most that the pump gives",
        Name::GapSpeed => "speed up the gap at the bottom",
        Name::DebrisShare => "metal in the flow at the bottom",
        Name::Push => "push of the flush",
        Name::PartMass => "mass of the part",
        Name::StopForce => "force sideways, for a stop",
        Name::Gap => "gap per side",
        Name::GapHigh => "gap per side, high",
        Name::GapLow => "gap per side, low",
        Name::Taper => "taper",
        Name::SmallestHole => "smallest hole",
        Name::LargestHole => "largest hole",
        Name::MaterialFeed => "feed of the material at 1 mm",
        Name::SizeFactor => "factor for the size",
        Name::ChannelsFactor => "factor for channels",
        Name::Feed => "feed at the face",
        Name::Depth => "depth on the axis",
        Name::Tilt => "angle from the normal",
        Name::EntryZone => "entry zone",
        Name::ExitZone => "exit zone",
        Name::BeyondExit => "exit zone beyond the axis",
        Name::Travel => "travel in metal",
        Name::TouchOff => "touch-off",
        Name::Entry => "entry",
        Name::FullMetal => "full metal",
        Name::Exit => "exit",
        Name::Overtravel => "overtravel",
        Name::Retract => "retract",
        Name::Changes => "changes inside the hole",
        Name::WearRatio => "wear ratio",
        Name::Wear => "wear of one hole",
        Name::DepthHalved => "depth where the feed is halved",
        Name::DepthExponent => "depth exponent",
        Name::StandOff => "stand-off",
        Name::ElectrodesPerHole => "electrodes in one hole",
        Name::ReachLimit => "limit of reach",
        Name::HolesInLot => "holes in the lot",
        Name::AtLeast => "at least",
        Name::Needed => "needed",
        Name::Kit => "kit, with spares",
        Name::Directions => "directions",
        Name::SetUp => "setting up",
        Name::FirstPiece => "first piece",
        Name::Load => "loading",
        Name::Index => "index and tilt",
        Name::TurnOver => "turning over",
        Name::TableTravel => "travel",
        Name::Holes => "in the holes",
        Name::OtherHoles => "in the other holes",
        Name::ElectrodeChanges => "electrode changes",
        Name::GuideChanges => "guide changes",
        Name::Dressing => "dressing",
        Name::Handling => "handling",
        Name::StandBy => "standing by",
        Name::Receive => "receiving",
        Name::Wash => "washing",
        Name::Masking => "masking",
        Name::Inspect => "checking the holes",
        Name::Pack => "packing",
        Name::Machine => "machine",
        Name::Labor => "labor",
        Name::ElectrodeCost => "electrodes",
        Name::GuideCost => "guides",
        Name::Dielectric => "dielectric",
        Name::Power => "power",
        Name::OutsideWork => "outside work",
        Name::Redo => "redone work",
        Name::PartRisk => "customer's part at risk",
        Name::NotYetKnown => "not yet known",
        Name::MedianCost => "cost at the medians",
        Name::Inside => "inside the first time",
        Name::Over => "over the first time",
        Name::Held => "inside, first piece measured",
        Name::RunsFactor => "factor by runs",
        Name::EffortFactor => "factor for close limits",
        Name::InterruptedFactor => "factor for the interrupted metal of a broken tool",
        Name::Plunges => "plunges in one hole",
        Name::Breakages => "broken electrodes",
        Name::IfWearHigh => "if wear is high",
        Name::Spares => "spares for breakage",
        Name::MachineHours => "machine hours",
        Name::LaborHours => "labor hours",
        Name::PerHour => "an hour",
        Name::PriceOfOne => "price of one",
        Name::BrokenRest => "broken ones, what is left of them",
        Name::HolesOnGuide(_) => "holes through",
        Name::GuideLife => "holes that it lasts",
        Name::OutsidePerPart => "for each part",
        Name::RedoShare => "share of work done again",
        Name::PartValue => "value of a part",
        Name::Cap => "cap per part",
        Name::AtStake => "at stake in one part",
        Name::PartsSpoiled => "parts expected to be spoiled",
        Name::Quantity => "quantity",
        Name::LotCost => "expected cost of the lot",
        Name::UnitCost => "cost of one",
        Name::Margin => "margin on price",
        Name::Markup => "markup on cost",
        Name::MinimumCharge => "minimum charge",
        Name::PriceStep => "price step",
        Name::UnitPrice => "price each",
        Name::MachineHigh => "machine, high",
        Name::LaborHigh => "labor, high",
        Name::AttendedHours => "attended hours a day",
        Name::UnattendedHours => "further hours that machines run alone",
        Name::AttendedShare => "attended share of machine hours",
        Name::QueuedHours => "machine hours of other jobs first",
        Name::OutsideDays => "days outside",
        Name::LeadTime => "lead time",
        Name::LikelyDays => "likely, at this shop's hours",
        Name::LateDays => "one time in ten more than",
    }
}
