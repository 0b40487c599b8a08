//! Start values of the process as the shop file gives them: each with its pedigree.

use std::collections::BTreeMap;

use quillbore_calc::tables::{Deviations, StartValues};
use quillbore_calc::{Spread, broken};
use serde::Deserialize;

use super::error::ShopError;
use super::sheet::StartTyped;
use super::unfit::{Needed, RowUnfit};
use crate::ground::limits::is_of_a_shop;

/// A value and where it comes from.
#[derive(Clone, Debug, PartialEq, Deserialize)]
struct Told<T>(T, String);

type Pair = (f64, f64);

macro_rules! start_values {
    (
        values { $($name:ident: $disk:ty => $field:ident by $convert:ident;)+ }
        broken { $($tool:ident: $held:ty => $share:ident by $fit:ident;)+ }
        deviations { $($deviation:ident => $part:ident by $check:ident;)+ }
    ) => {
        /// Start values in a file; what is not given stays as it was.
        #[derive(Clone, Debug, Default, PartialEq, Deserialize)]
        #[serde(default, deny_unknown_fields)]
        pub(super) struct StartFile {
            $($name: Option<Told<$disk>>,)+
            $($tool: Option<Told<$held>>,)+
            $($deviation: Option<Told<f64>>,)+
            /// Format 1's one deviation of handling times.
            handling_scatter: Option<Told<f64>>,
        }

        impl StartFile {
            /// These values with the other's in their place, where it has any.
            pub(super) fn laid_under(self, over: Self) -> Self {
                Self {
                    $($name: over.$name.or(self.$name),)+
                    $($tool: over.$tool.or(self.$tool),)+
                    $($deviation: over.$deviation.or(self.$deviation),)+
                    handling_scatter: None,
                }
            }

            /// The values as they would be typed, each with its name and where it comes from.
            pub(super) fn typed(&self) -> Vec<(&'static str, StartTyped, &str)> {
                let mut all = Vec::new();
                $(if let Some(Told(value, source)) = &self.$name {
                    all.push((stringify!($name), value.typed(), source.as_str()));
                })+
                $(if let Some(Told(value, source)) = &self.$tool {
                    all.push((stringify!($tool), value.typed(), source.as_str()));
                })+
                $(if let Some(Told(value, source)) = &self.$deviation {
                    all.push((stringify!($deviation), value.typed(), source.as_str()));
                })+
                all
            }

            /// Puts a value in that was typed.
            ///
            /// # Errors
            /// Where there is none of that name, or it is of another form.
            pub(super) fn put(&mut self, name: &str, typed: &StartTyped, source: String) -> Checked<()> {
                match name {
                    $(stringify!($name) => self.$name = Some(Told(Typable::of(typed)?, source)),)+
                    $(stringify!($tool) => self.$tool = Some(Told(Typable::of(typed)?, source)),)+
                    $(stringify!($deviation) => self.$deviation = Some(Told(Typable::of(typed)?, source)),)+
                    _ => return Err(RowUnfit::StartForm),
                }
                Ok(())
            }

            /// Takes a value out again.
            pub(super) fn forget(&mut self, name: &str) {
                match name {
                    $(stringify!($name) => self.$name = None,)+
                    $(stringify!($tool) => self.$tool = None,)+
                    $(stringify!($deviation) => self.$deviation = None,)+
                    _ => {}
                }
            }

            /// The values for the calculation, and each one's pedigree by its name in the file.
            pub(super) fn build(&self) -> Result<(StartValues, BTreeMap<&'static str, String>), ShopError> {
                let mut pedigree = BTreeMap::new();
                let values = StartValues {
                    $($field: read(&self.$name, stringify!($name), |value| $convert(value), &mut pedigree)?,)+
                    broken: broken::Start {
                        $($share: read(&self.$tool, stringify!($tool), |value| $fit(value), &mut pedigree)?,)+
                    },
                    deviations: Deviations {
                        $($part: read(&self.$deviation, stringify!($deviation), $check, &mut pedigree)?,)+
                    },
                };
                Ok((values, pedigree))
            }
        }
    };
}

/// A value that can be typed.
trait Typable: Sized {
    fn typed(&self) -> StartTyped;
    fn of(typed: &StartTyped) -> Checked<Self>;
}

macro_rules! typable {
    ($($Type:ty, $Name:ident, $value:ident => $make:expr, $read:pat => $back:expr;)+) => { $(
        impl Typable for $Type {
            fn typed(&self) -> StartTyped {
                let $value = self;
                $make
            }

            fn of(typed: &StartTyped) -> Checked<Self> {
                match typed {
                    $read => Ok($back),
                    _ => Err(RowUnfit::StartForm),
                }
            }
        }
    )+ };
}
typable! {
    f64, Number, value => StartTyped::Number(*value), StartTyped::Number(value) => *value;
    Pair, Band, value => StartTyped::Band(value.0, value.1), StartTyped::Band(low, high) => (*low, *high);
    Vec<Pair>, Curve, value => StartTyped::Curve(value.clone()), StartTyped::Curve(points) => points.clone();
    Vec<(f64, Pair)>, Bands, value => StartTyped::Bands(value.clone()), StartTyped::Bands(points) => points.clone();
}

/// One start value, checked, its pedigree noted.
fn read<T, V>(
    told: &Option<Told<T>>,
    name: &'static str,
    convert: impl Fn(&T) -> Checked<V>,
    pedigree: &mut BTreeMap<&'static str, String>,
) -> Result<V, ShopError> {
    let Some(Told(value, source)) = told else {
        return Err(ShopError::Missing {
            what: Needed::StartValue { name },
        });
    };
    let bad = |what: RowUnfit| ShopError::Row {
        list: "start",
        name: name.to_owned(),
        what,
    };
    if source.trim().is_empty() {
        return Err(bad(RowUnfit::StartPedigreeMissing));
    }
    pedigree.insert(name, source.clone());
    convert(value).map_err(bad)
}

impl StartFile {
    /// What format 1 said in one number is the shop's own deviation of handling, and no machine's.
    pub(super) fn with_format_1(mut self) -> Self {
        if let Some(Told(value, source)) = self.handling_scatter.take() {
            let machine = Told(0.0, source.clone());
            self.handling_deviation_shop
                .get_or_insert(Told(value, source));
            self.handling_deviation_machine.get_or_insert(machine);
        }
        self
    }

    /// Whether a value that only format 1 had is still there.
    pub(super) fn has_format_1(&self) -> bool {
        self.handling_scatter.is_some()
    }
}

start_values! {
    values {
        gap_mm: Vec<(f64, Pair)> => gap_mm by spread_curve;
        feed_by_diameter: Vec<Pair> => feed_by_diameter by curve;
        wear_by_diameter: Vec<Pair> => wear_by_diameter by curve;
        wear_at_100_diameters: Pair => wear_at_100_diameters by spread;
        depth_s: Pair => depth_s by spread;
        depth_m: f64 => depth_m by exponent;
        zone_feed: f64 => zone_feed by positive;
        channels_feed: f64 => channels_feed by positive;
        channels_wear: f64 => channels_wear by positive;
        channels_from_mm: f64 => channels_from_mm by positive;
        overtravel_least_mm: f64 => overtravel_least_mm by positive;
        overtravel_diameters: f64 => overtravel_diameters by positive;
        overtravel_feed: f64 => overtravel_feed by positive;
        effort_by_width: Vec<Pair> => effort_by_width by curve;
        size_scatter_mm: Vec<Pair> => size_scatter_mm by curve;
        deepest_diameters: f64 => deepest_diameters by positive;
        touch_off_s: Pair => touch_off_min by seconds;
        index_s: Pair => index_min by seconds;
        tilt_min: Pair => tilt_min by spread;
        turn_over_min: Pair => turn_over_min by spread;
        change_by_hand_min: Pair => change_by_hand_min by spread;
        change_thin_min: Pair => change_thin_min by spread;
        change_by_changer_min: Pair => change_by_changer_min by spread;
        guide_change_min: Pair => guide_change_min by spread;
        dressing_min: Pair => dressing_min by spread;
        dressing_mm: f64 => dressing_mm by positive;
        setup_min: Pair => setup_min by spread;
        first_piece_min: Pair => first_piece_min by spread;
        load_min: Pair => load_min by spread;
        receive_min: Pair => receive_min by spread;
        wash_min: Pair => wash_min by spread;
        pin_check_min: Pair => pin_check_min by spread;
        light_check_min: Pair => light_check_min by spread;
        wire_check_min: Pair => wire_check_min by spread;
        air_check_min: Pair => air_check_min by spread;
        pack_min: Pair => pack_min by spread;
        tube_tolerance_mm: f64 => tube_tolerance_mm by positive;
        breakage: Pair => breakage by chance;
        breakage_thin: Pair => breakage_thin by chance;
        breakage_thin_deep: Pair => breakage_thin_deep by chance;
        thin_deep_diameters: f64 => thin_deep_diameters by positive;
        breakage_worth_holes: f64 => breakage_worth_holes by positive;
        part_risk_hole: f64 => part_risk_hole by share;
        thin_tube_mm: f64 => thin_tube_mm by positive;
        drift_mm_per_100: Pair => drift_mm_per_100 by spread;
        wire_clearance_mm: f64 => wire_clearance_mm by not_negative;
        white_layer_mm: f64 => white_layer_mm by not_negative;
        changer_holds: f64 => changer_holds by positive;
        part_spacing_mm: f64 => part_spacing_mm by positive;
        water_c: f64 => water_c by positive;
        pump_l_min: f64 => pump_l_min by positive;
        least_gap_m_s: f64 => least_gap_m_s by positive;
        overlap_mm: f64 => overlap_mm by positive;
        taper_mm_per_100: f64 => taper_mm_per_100 by not_negative;
        hole_scatter: f64 => hole_scatter by deviation;
    }
    broken {
        web_by_flutes: Vec<Pair> => web_by_flutes by curve;
        drill_web: f64 => drill_web by share;
        drill_frees: f64 => drill_frees by share;
        screw_share: f64 => stud_share by share;
        extractor_body: f64 => extractor_body by share;
        fluted_feed: Pair => fluted_feed by spread;
        solid_feed: Pair => solid_feed by spread;
        past_tool_end_mm: f64 => past_end_mm by positive;
        tool_cusp_mm: f64 => cusp_mm by positive;
    }
    deviations {
        deviation_shop => shop by deviation;
        deviation_machine => machine by deviation;
        deviation_family => family by deviation;
        deviation_grade => grade by deviation;
        deviation_electrode => electrode by deviation;
        deviation_size_class => size_class by deviation;
        deviation_by_diameter => by_diameter by deviation;
        deviation_by_depth => by_depth by deviation;
        deviation_lot => lot by deviation;
        burn_and_wear => burn_and_wear by share;
        handling_deviation_shop => handling_shop by deviation;
        handling_deviation_machine => handling_machine by deviation;
        handling_deviation_lot => handling_lot by deviation;
        gap_deviation_shop => gap_shop by deviation;
        gap_deviation_machine => gap_machine by deviation;
        gap_deviation_size_class => gap_size_class by deviation;
        gap_deviation_lot => gap_lot by deviation;
    }
}

type Checked<T> = Result<T, RowUnfit>;

/// A band from P10 to P90.
pub(super) fn spread(pair: &Pair) -> Checked<Spread> {
    const WIDEST: f64 = 100.0;
    let spread = Spread::new(pair.0, pair.1).ok_or(RowUnfit::Band)?;
    within(&pair.0)?;
    within(&pair.1)?;
    if pair.1 > pair.0 * WIDEST {
        return Err(RowUnfit::BandTooWide);
    }
    Ok(spread)
}

fn seconds(pair: &Pair) -> Checked<Spread> {
    spread(&(pair.0 / 60.0, pair.1 / 60.0))
}

fn chance(pair: &Pair) -> Checked<Spread> {
    if pair.1 >= 1.0 {
        return Err(RowUnfit::Chance);
    }
    spread(pair)
}

fn positive(value: &f64) -> Checked<f64> {
    if *value > 0.0 && value.is_finite() {
        within(value)
    } else {
        Err(RowUnfit::StartNotAboveZero)
    }
}

fn within(value: &f64) -> Checked<f64> {
    if is_of_a_shop(*value) {
        Ok(*value)
    } else {
        Err(RowUnfit::StartBeyondAll)
    }
}

/// The power of the depth that feed falls with.
fn exponent(value: &f64) -> Checked<f64> {
    const MOST: f64 = 10.0;
    let exponent = positive(value)?;
    if exponent > MOST {
        return Err(RowUnfit::ExponentTooLarge);
    }
    Ok(exponent)
}

/// The deviation of a logarithm.
fn deviation(value: &f64) -> Checked<f64> {
    const MOST: f64 = 3.0;
    let deviation = not_negative(value)?;
    if deviation > MOST {
        return Err(RowUnfit::DeviationTooLarge);
    }
    Ok(deviation)
}

fn share(value: &f64) -> Checked<f64> {
    if (0.0..=1.0).contains(value) {
        Ok(*value)
    } else {
        Err(RowUnfit::StartNotFromZeroToOne)
    }
}

fn not_negative(value: &f64) -> Checked<f64> {
    if *value >= 0.0 && value.is_finite() {
        within(value)
    } else {
        Err(RowUnfit::StartBelowZero)
    }
}

fn curve(points: &[Pair]) -> Checked<Vec<Pair>> {
    rising(points.iter().map(|point| point.0))?;
    for point in points {
        positive(&point.1)?;
    }
    Ok(points.to_vec())
}

fn spread_curve(points: &[(f64, Pair)]) -> Checked<Vec<(f64, Spread)>> {
    rising(points.iter().map(|point| point.0))?;
    points
        .iter()
        .map(|(at, pair)| Ok((*at, spread(pair)?)))
        .collect()
}

/// A curve is looked up by a rising diameter.
fn rising(diameters: impl Iterator<Item = f64>) -> Checked<()> {
    let mut last = 0.0;
    let mut points = 0;
    for diameter in diameters {
        if !(diameter > last && diameter.is_finite()) {
            return Err(RowUnfit::CurveNotRising);
        }
        last = within(&diameter)?;
        points += 1;
    }
    if points == 0 {
        return Err(RowUnfit::CurveEmpty);
    }
    Ok(())
}
