//! What is written on the page of what the shop has learned.

use quillbore_calc::learn::Told;
use quillbore_job::Form;
use quillbore_job::words::{english, own, taught};
use quillbore_office::learned::{ErrorAt, GroupOf, KindOfWork, Learned, Made, Run, Teaches};

/// The head of the page.
pub const PAGE: &str = "What the shop has learned";

/// The word that closes it.
pub const CLOSE: &str = "close";

/// Its key.
pub const ESC: &str = "Esc";

/// The head of the kinds of work.
pub const KINDS: &str = "material family, electrode";

/// While the records are being read.
pub const LOOKING: &str = "Reading the run records of the shelf.";

/// That there are none.
pub const EMPTY: &str = "No runs on the shelf yet. Add a run record to a job once its holes are drilled, and save \
     the job: the next quotation starts from what they really took.";

/// The head of the materials.
pub const MATERIALS: &str = "material";

/// The head of the machines.
pub const MACHINES: &str = "machine";

/// The head of the sizes.
pub const SIZES: &str = "electrode";

/// The head of the numbers of records.
pub const RUNS: &str = "runs";

/// The head of the numbers of holes.
pub const HOLES: &str = "holes";

/// The head of the factors on minutes.
pub const MINUTES: &str = "minutes";

/// The head of the band by the start values.
pub const AT_START: &str = "before any run";

/// The head of the factors on wear.
pub const WEAR: &str = "wear";

/// The head of the factors on handling.
pub const HANDLING: &str = "handling";

/// The head of the factors on the gap.
pub const GAP: &str = "gap";

/// The head of the newest record's day.
pub const NEWEST: &str = "last run";

/// What is to be seen in the charts of runs.
pub const RUNS_PLOT_SAYS: &str = "Ring: a run; ring in a ring: far off, counts little; struck: doesn't count. Thick line: the factor in use; \
     hatched: low to high. 1: as the start values say. The oldest run stands left.";

/// The head of the chart of wear.
pub const WEAR_PLOT: &str = "Wear over the start values, the same runs";

/// The head of the charts of runs: of a kind of work or of all, and how many of them.
#[must_use]
pub fn runs_plot_head(kind: Option<&KindOfWork>, shown: usize, all: usize, form: Form) -> String {
    let of = kind.map_or_else(String::new, |kind| {
        format!(", {}", kind_of_work(kind, form))
    });
    let newest = if shown < all {
        format!("; the newest {shown} of {all}")
    } else {
        String::new()
    };
    format!("Minutes over the start values, run by run{of}{newest}")
}

/// A run that is pointed at in a chart.
#[must_use]
pub fn run_at(run: &Run, form: Form) -> String {
    let factor = |factor: f64| own::times(factor, form);
    let minutes = run.minutes.map(|minutes| {
        let counted = if minutes.by_clock {
            "by the clock"
        } else {
            "sparking"
        };
        format!(
            "minutes {counted} {}",
            factor(minutes.actual / minutes.by_start)
        )
    });
    let wear = run.wear.map(|wear| format!("wear {}", factor(wear.actual)));
    let why = why_look(run, form);
    let said = [minutes, wear, Some(why).filter(|why| !why.is_empty())];
    let said: Vec<String> = said.into_iter().flatten().collect();
    format!(
        "{}: {}. Enter or a press opens its job.",
        record(run, form),
        said.join("; ")
    )
}

/// The head of the plot of errors.
pub const ERRORS_PLOT: &str = "How far estimates were off, lot by lot";

/// What is to be seen in it.
pub const ERRORS_PLOT_SAYS: &str = "Thick line: estimated by the runs before each lot; thin line: by the start values alone. 1 is right. \
     Averaged over five lots, the oldest left.";

/// That there are too few lots for it.
pub const TOO_FEW: &str = "It takes two lots with minutes to show it.";

/// The word that opens a record's job.
pub const LOOK: &str = "look";

/// The word that opens a record's job at the reason to leave it out.
pub const LEAVE_OUT: &str = "leave out, because ...";

/// How many records there are, and how many of them count.
#[must_use]
pub fn summary(told: &Learned) -> String {
    let count = |which: &dyn Fn(&Run) -> bool| told.runs.iter().filter(|run| which(run)).count();
    let teach = count(&|run| matches!(run.teaches, Teaches::Yes { .. }));
    let flagged = count(&|run| {
        matches!(
            run.teaches,
            Teaches::Yes {
                far_off: Some(_),
                ..
            }
        )
    });
    let all = told.runs.len();
    let far_off = match flagged {
        0 => String::new(),
        flagged => format!(", {flagged} of them far off what is expected"),
    };
    format!("{teach} of {} on the shelf count{far_off}.", runs(all))
}

/// What a group is about.
#[must_use]
pub fn group(of: &GroupOf, form: Form) -> String {
    match of {
        GroupOf::Kind(kind) => kind_of_work(kind, form),
        GroupOf::Material(name) | GroupOf::Machine(name) => name.clone(),
        GroupOf::Sizes(Some(end)) => format!("up to {} mm", form.fixed(f64::from(*end) / 100.0, 1)),
        GroupOf::Sizes(None) => "above that".to_owned(),
    }
}

/// A family of materials and an electrode.
fn kind_of_work(kind: &KindOfWork, form: Form) -> String {
    let tube = kind.electrode.map_or("", english::tube_material);
    let diameter = f64::from(kind.hundredths) / 100.0;
    let diameter = form.fixed(diameter, 2);
    format!("{}, {tube} {diameter}", english::family(kind.family))
}

/// A number of holes.
#[must_use]
pub fn holes(holes: f64, form: Form) -> String {
    form.count(holes)
}

/// A factor with its band.
#[must_use]
pub fn made(made: &Made, form: Form) -> String {
    let [low, likely, high] = made.now.map(|factor| own::times_plain(factor, form));
    format!("{likely} x ({low} to {high})")
}

/// The band by the start values.
#[must_use]
pub fn at_start(made: &Made, form: Form) -> String {
    let [low, high] = made.start.map(|factor| own::times_plain(factor, form));
    format!("{low} to {high}")
}

/// A factor at the axis: `0.5`, `1`, `1.4`.
#[must_use]
pub fn factor_mark(factor: f64, form: Form) -> String {
    form.exact(factor)
}

/// What a chart of runs is called for whoever can't see it.
#[must_use]
pub fn runs_plot(count: usize, of_wear: bool) -> String {
    let what = if of_wear { "wear" } else { "minutes" };
    format!("{what} of {} against their estimates", runs(count))
}

/// What the plot of errors is called for whoever can't see it.
#[must_use]
pub fn errors_plot(count: usize) -> String {
    format!("plot of how far the estimates of {count} lots were off")
}

/// How far the newest lot's estimate was off.
#[must_use]
pub fn newest_error(last: &ErrorAt, form: Form) -> String {
    let [start, now] =
        [last.by_start, last.by_records].map(|factor| own::times_plain(factor, form));
    format!(
        "The newest lot, of {}: off by {now} x by the runs before it, by {start} x by the start values.",
        form.day(last.date)
    )
}

/// How many records are worth a look.
#[must_use]
pub fn worth_a_look(count: usize) -> String {
    match count {
        0 => "No run is far off, and every run counts.".to_owned(),
        1 => "Worth a look: 1 run that is far off or doesn't count".to_owned(),
        count => format!("Worth a look: {count} runs that are far off or don't count"),
    }
}

/// A record by its job, mark and day.
#[must_use]
pub fn record(run: &Run, form: Form) -> String {
    let mark = if run.mark.is_empty() {
        "no mark".to_owned()
    } else {
        format!("hole {}", run.mark)
    };
    let day = run
        .date
        .map_or_else(|| "no date".to_owned(), |day| form.day(day));
    format!("{}, {mark}, {day}", run.job)
}

/// Opens a record's job, for whoever can't see the line.
#[must_use]
pub fn look_at(record: &str) -> String {
    format!("look at {record}")
}

/// Opens a record's job at the reason, for whoever can't see the line.
#[must_use]
pub fn leave_out(record: &str) -> String {
    format!("leave out {record}")
}

/// Why a record is worth a look.
#[must_use]
pub fn why_look(run: &Run, form: Form) -> String {
    match &run.teaches {
        Teaches::No(why) => taught::why(why, form),
        Teaches::Yes { far_off: None, .. } => {
            let mistakes = run.without.iter().filter(|why| why.is_mistake());
            let mistakes: Vec<String> = mistakes.map(|why| taught::why(why, form)).collect();
            mistakes.join("; ")
        }
        Teaches::Yes {
            far_off: Some((what, off)),
            ..
        } => {
            let what = match what {
                Told::Spark => "sparking",
                Told::Clock => "minutes by the clock",
                Told::Wear => "length lost",
                Told::Gap => "gap by the pins",
            };
            format!(
                "{what} {} of what the runs together make likely",
                own::times(*off, form)
            )
        }
    }
}

/// How many more there are.
#[must_use]
pub fn and_more(count: usize) -> String {
    format!("{count} more")
}

fn runs(count: usize) -> String {
    match count {
        1 => "1 run".to_owned(),
        count => format!("{count} runs"),
    }
}
