//! What a finding says, in the trade's sentences.

use quillbore_calc::Limits;
use quillbore_calc::finding::Kind;
use quillbore_calc::head::Touches;
use quillbore_calc::job_figures::Moves;

use super::part;
use super::speaker::{Speaker, capital};
use crate::job::part_unknown::part_unknown;
use crate::shop::sheet::ShopNote;
use crate::shop::unknown::UnknownName;
use crate::typed::field::Field;

impl Speaker<'_> {
    /// Whether something stands in a field, whatever it is read as.
    fn is_typed(&self, field: Field) -> bool {
        !self.job.text(field).trim().is_empty()
    }

    /// One finding as a sentence or two.
    #[must_use]
    pub fn finding(&self, kind: &Kind) -> String {
        let ohm_cm = |value: &f64| self.form.number(*value, 3);
        let size = |mm: &[f64; 3]| part::size(mm, self.unit, self.form);
        match kind {
            // Beside it stands why what was typed can't be used.
            Kind::MaterialMissing if self.is_typed(Field::Material) => "No work material that can be used: until then there is no time and no wear.".to_owned(),
            Kind::MachineMissing if self.is_typed(Field::Machine) => "No machine that can be used: until then reach, rates and setups can't be worked out.".to_owned(),
            Kind::MaterialMissing => "No work material yet: choose one from the shop's list; until then there is no time and no wear.".to_owned(),
            Kind::MachineMissing => "No machine yet: choose one, so that reach, rates and setups can be worked out.".to_owned(),
            Kind::QuantityMissing => "No quantity yet: without it neither the lot nor a price can be worked out.".to_owned(),
            Kind::SizeMissing => "No readable size: type the diameter with its limits, such as 0.80 \u{b1}0.02 or .031/.033.".to_owned(),
            Kind::DepthMissing => "No readable depth: type the depth on the hole's axis, or the wall thickness of the part.".to_owned(),
            Kind::LimitsAssumed { lower_mm, upper_mm } => format!(
                "The drawing gives no limits: the shop's usual tolerance is used, {} to {}.",
                self.length(*lower_mm),
                self.length(*upper_mm)
            ),
            Kind::LayersDisagree { depth_mm, layers_mm } => format!(
                "The depth is {} but the layers add up to {}.",
                self.length(*depth_mm),
                self.length(*layers_mm)
            ),
            Kind::PartSizeUnknown => part::not_known(&part_unknown(self.job)),
            Kind::PartValueUnknown => "What is one part worth to the customer? Without it the risk is not in the price, and no cap can be agreed.".to_owned(),
            Kind::MarkTwice { other } => format!(
                "Another row has the mark {} too: on the floor nobody could tell them apart.",
                self.mark(*other)
            ),
            Kind::ConductivityCheck { ohm_cm: value } => format!(
                "The material has about {} ohm cm: it conducts poorly, ask for the grade's certificate.",
                ohm_cm(value)
            ),
            Kind::ConductivityTestPiece { ohm_cm: value } => format!(
                "The material has about {} ohm cm: only a test piece of the same grade will tell.",
                ohm_cm(value)
            ),
            Kind::DoesNotConduct { ohm_cm: value } => format!(
                "The material has about {} ohm cm and does not conduct well enough, unless a meter reading or a certificate says otherwise.",
                ohm_cm(value)
            ),
            Kind::ConductivityUnknown => "It is not known how well the material conducts: put a meter on it or ask for a certificate.".to_owned(),
            Kind::FamilyValues => "Feed and wear are those of the family, not of this grade: the spread is wide. What a test burn shows, typed over feed and wear in their workings, narrows it.".to_owned(),
            Kind::OtherTubeMaterial => "The start values of this material were taken with another electrode material: feed and wear may be well off.".to_owned(),
            Kind::FeedUnknown { tube_mm } => format!(
                "No feed is known for an electrode of {}, so there is no price: make a test burn, then type feed and wear.",
                self.length(*tube_mm)
            ),
            Kind::DepthUnknown { ratio, most } => format!(
                "{} diameters deep, and no feed is known beyond {}, so there is no price: make a test burn, then type feed and wear.",
                self.form.number(*ratio, 3),
                self.form.number(*most, 3)
            ),
            Kind::NoTube { lower_mm, upper_mm, taper_mm, buy, circle } => {
                self.no_tube(Limits::new(*lower_mm, *upper_mm), *taper_mm, buy.as_ref(), *circle)
            }
            Kind::LimitsNotHeld { held, lower_mm, upper_mm, buy, circle } => {
                self.not_held(*held, Limits::new(*lower_mm, *upper_mm), buy.as_ref(), *circle)
            }
            Kind::LimitsTooClose { width_mm, least_mm } => format!(
                "The limits are {} apart and nothing closer than {} is held by drilling: another process has to finish this hole.",
                self.length(*width_mm),
                self.length(*least_mm)
            ),
            Kind::LowerAssumed { lower_mm, upper_mm } => format!(
                "Only a maximum of {} is given: a lower limit of {} was assumed.",
                self.length(*upper_mm),
                self.length(*lower_mm)
            ),
            Kind::TubeMisses { inside, over } => format!(
                "The chosen electrode gives a size inside the limits the first time with a chance of {}, an oversize one with a chance of {}.",
                self.form.percent(*inside),
                self.form.percent(*over)
            ),
            Kind::OtherTubeDrilledIt { tube_mm, size_mm } => format!(
                "By its pins an electrode of {} has drilled {} in this material on this machine: the plan takes another, by all that pins have said of gaps.",
                self.length(*tube_mm),
                self.length(*size_mm)
            ),
            Kind::NoGuide { tube_mm } => format!(
                "There is no guide for an electrode of {}: it cannot be drilled without its guide.",
                self.length(*tube_mm)
            ),
            Kind::TubesShort { tube, kit, together, stock, by_stubs } => {
                self.tubes_short(*tube, [*kit, *together, *stock], by_stubs)
            }
            Kind::GuidesShort { guide, needed, together, stock } => {
                self.guides_short(*guide, *needed, *together, *stock)
            }
            Kind::LimitsNotToBePromised { held, outside, lower_mm, upper_mm, buy } => {
                self.not_to_be_promised(*held, *outside, Limits::new(*lower_mm, *upper_mm), buy.as_ref())
            }
            Kind::LimitsTight { held, outside, buy } => {
                self.tight(*held, *outside, buy.as_ref())
            }
            Kind::TubeOutsideMachine { tube_mm, least_mm, most_mm } => format!(
                "The machine takes electrodes from {} to {}, not one of {}.",
                self.length(*least_mm),
                self.length(*most_mm),
                self.length(*tube_mm)
            ),
            Kind::CoreLeft => "An electrode with one channel leaves a thin core: see that it falls out and is counted.".to_owned(),
            Kind::CoreTrapped => "A core could be trapped in there, and no electrode with several channels fits: plan how to get it out.".to_owned(),
            Kind::AxisMisses { offset_mm, radius_mm } => format!(
                "The axis passes {} from the center of a surface of {} radius: it misses the part.",
                self.length(*offset_mm),
                self.length(*radius_mm)
            ),
            Kind::ToolMisses { offset_mm, radius_mm } => format!(
                "At {} from the center the electrode passes a surface of {} radius without touching it.",
                self.length(*offset_mm),
                self.length(*radius_mm)
            ),
            Kind::Overhang { by_mm } => format!(
                "The hole breaks out of the side by {}: no closed wall, the flush is lost there.",
                self.length(*by_mm)
            ),
            Kind::ThinSideWall { wall_mm } => format!(
                "Beside the hole only {} of metal are left: it may burn through, and the flush is lost there. Ask what it must hold.",
                self.length(*wall_mm)
            ),
            Kind::ExitGrazes { by_mm } => format!(
                "The hole leaves into a bore that it is not wholly inside of: it runs on in the metal beside it by {}, and the opening stays smaller than the hole.",
                self.length(*by_mm)
            ),
            Kind::ExitMisses { offset_mm, radius_mm } => format!(
                "The axis passes {} from the center of an exit of {} radius: the hole misses it. Check exit, offset and locations.",
                self.length(*offset_mm),
                self.length(*radius_mm)
            ),
            Kind::AngleTwice { typed_deg, offset_deg } => format!(
                "On a ball an offset is an angle: it says {}, the angle typed says {}. The offset counts: delete one of them.",
                self.form.angle_with_unit(*offset_deg),
                self.form.angle_with_unit(*typed_deg)
            ),
            Kind::FlushWeak { from_mm, gap_m_s, least_m_s } => {
                let speed = |m_s: f64| self.form.number(m_s, 2);
                let begins = if *from_mm > 0.0 {
                    format!("From {} deep on the flush", self.length(*from_mm))
                } else {
                    "From the face on the flush".to_owned()
                };
                format!(
                    "{begins} is slower up the gap than the shop's least: {} m/s at the bottom, {} m/s at least. More pressure, a shorter electrode or one with a wider bore; draw out often.",
                    speed(*gap_m_s),
                    speed(*least_m_s)
                )
            }
            Kind::HeadTouches { needed_mm, stand_off_mm, touches } => {
                let what = match touches {
                    Touches::Nose => "the nose",
                    Touches::Cone | Touches::Body => "the head",
                };
                format!(
                    "{} touches the part before the guide is as near as usual: it stands {} off instead of {}, so the electrode is guided farther from the hole and reaches less. Another machine, a longer nose, or another side.",
                    capital(what),
                    self.length(*needed_mm),
                    self.length(*stand_off_mm)
                )
            }
            Kind::PlugPushed { push_n, cavity_mm } => format!(
                "The hole opens into a backed bore of {}: should it be closed, the flush pushes what closes it with up to {}. Leave the water a way out, or hold the plug, and nobody in front of it.",
                self.length(*cavity_mm),
                self.force(*push_n)
            ),
            Kind::PartMoved { push_n, clamp_n, how } => {
                let (push, clamp) = (self.force(*push_n), self.force(*clamp_n));
                match how {
                    Moves::Tips => format!(
                        "The flush pushes with up to {push} and tips the part, held by its weight alone: clamp it with {clamp} above its middle at least."
                    ),
                    Moves::Lifts => format!(
                        "Through to what it rests on, the flush gets under the part and lifts it with up to {push}, more where the water can't run off: leave it a way out, or clamp it with {clamp} above its middle at least."
                    ),
                    Moves::Nearly => format!(
                        "The part's weight holds less than twice the flush's push of {push}: clamp it with {clamp} above its middle."
                    ),
                }
            }
            Kind::AngleCountedTwice { typed_deg, offset_deg } => format!(
                "The offset makes an angle of {}, and beside it {} are typed, which counts along the round surface: both together. Delete one of them where they are the same.",
                self.form.angle_with_unit(*offset_deg),
                self.form.angle_with_unit(*typed_deg)
            ),
            Kind::ExitOfBlind => "A blind hole has no exit: delete what is typed for it, or say where the hole ends.".to_owned(),
            Kind::RecessTooNarrow { width_mm, hole_mm } => format!(
                "The recess leaves {} free along the hole's axis, less than the hole's {}: check its width, its depth and the angle.",
                self.length(*width_mm),
                self.length(*hole_mm)
            ),
            Kind::ExitMayBeTight { smallest_mm, needed_mm, holes, typed } => {
                let [smallest, needed] = [*smallest_mm, *needed_mm].map(|mm| self.length(mm));
                let of = match holes {
                    0 | 1 => "The exit may come out as small as".to_owned(),
                    many => format!("The smallest exit of {} holes may be", self.form.count(*many as f64)),
                };
                let why = if *typed { "the least free exit" } else { "the wire with its usual clearance" };
                format!("{of} {smallest}, less than {why}, {needed}: take a larger hole, or agree on a smaller exit.")
            }
            Kind::WireTooThick { wire_mm, largest_mm } => format!(
                "A wire of {} doesn't go through: the exit is {} at most. Check the wire's diameter, or make the hole larger.",
                self.length(*wire_mm),
                self.length(*largest_mm)
            ),
            Kind::ExitBelowWire { least_mm, wire_mm } => format!(
                "The least free exit, {}, is less than the wire, {}: the wire counts. Check both.",
                self.length(*least_mm),
                self.length(*wire_mm)
            ),
            Kind::ProfileInReach { distance_mm, reaches_mm, drift_mm } => format!(
                "The hole may cut into the finished profile: with {} of drift and its white layer it reaches {} from its center, and the profile is {} away. Move the hole into the scrap, or make it smaller.",
                self.length(*drift_mm),
                self.length(*reaches_mm),
                self.length(*distance_mm)
            ),
            Kind::ProfileCut { distance_mm, hole_mm } => format!(
                "A hole of {} cuts into the finished profile, {} from its center: move it into the scrap, or check the distance, which counts from the hole's center.",
                self.length(*hole_mm),
                self.length(*distance_mm)
            ),
            Kind::WireMissing => "The hole is to be proved by a wire, and nobody said which: type the wire's diameter.".to_owned(),
            Kind::BlindProof => "A wire, light, air or an exit is asked of a blind hole, and nothing goes through it: check where the hole ends.".to_owned(),
            Kind::PressureAbovePump { bar, pump_bar } => format!(
                "A flush pressure of {} is more than the machine's pump gives, {}: check it, or take another machine.",
                self.form.pressure(*bar, self.unit),
                self.form.pressure(*pump_bar, self.unit)
            ),
            Kind::RestsOnMore => "What the part rests on is larger than the part: check it, and the part's size.".to_owned(),
            Kind::NoFullMetal { zones_mm, depth_mm } => format!(
                "Steep and thin: the electrode is never fully in metal, entry and exit take {} of {} depth. Slow feed all the way.",
                self.length(*zones_mm),
                self.length(*depth_mm)
            ),
            Kind::BackingNeeded { behind_mm, needed_mm } if needed_mm <= behind_mm => format!(
                "A wall stands {} behind the exit: until the first hole shows the lot's wear it could be reached. Make the first try short, or back it.",
                self.length(*behind_mm)
            ),
            Kind::BackingNeeded { behind_mm, needed_mm } => format!(
                "A wall stands {} behind the exit, overtravel and scatter need {}: back it, or ask whether it may be marked.",
                self.length(*behind_mm),
                self.length(*needed_mm)
            ),
            Kind::BackingHolds { behind_mm, past_mm } => format!(
                "The tip goes {} past the exit and a wall stands {} behind it: only whole backing keeps the wall unmarked. See that it is whole before each burn, and stop at the breakthrough.",
                self.length(*past_mm),
                self.length(*behind_mm)
            ),
            Kind::WallInReach { behind_mm, by_mm, .. } => format!(
                "The wall {} behind the exit would be hit: in two steps too, depths scatter by {}. Back it, or have the customer agree that it may be marked.",
                self.length(*behind_mm),
                self.length(*by_mm)
            ),
            Kind::TiltOutOfRange { tilt_deg } => format!(
                "No axis of the machine reaches a tilt of {}: a fixture must, or another machine.",
                self.form.angle_with_unit(*tilt_deg)
            ),
            Kind::OutOfReach { depth_mm, limit_mm } => format!(
                "Out of reach: {} deep, and however many electrodes are used, none goes beyond {}.",
                self.length(*depth_mm),
                self.length(*limit_mm)
            ),
            Kind::ChainedElectrodes { electrodes } => format!(
                "One hole takes {electrodes} electrodes, one after another."
            ),
            Kind::OtherEndsCheaper { one, both } => format!(
                "From one end the holes cost {}, from both {}, turn-over included.",
                self.amount(*one),
                self.amount(*both)
            ),
            Kind::Burnt(burning) => self.burning(burning),
            Kind::FarEndClosed => "Both ends were asked for, but only a hole through to an open far side can be drilled from there: one end is used.".to_owned(),
            Kind::EndsMayMiss { by_mm } => format!(
                "From both ends the two halves may miss each other by {}: ask whether a step in the middle is allowed.",
                self.length(*by_mm)
            ),
            Kind::DeepNote { ratio } => format!(
                "Deep: {} diameters. Watch the flush.",
                self.form.number(*ratio, 2)
            ),
            Kind::DeepDone { ratio, own } => format!(
                "Deep: {} diameters; by its run records this shop has drilled {} in such material.",
                self.form.number(*ratio, 2),
                self.form.number(*own, 2)
            ),
            Kind::DeepCheck { ratio } => format!(
                "Very deep: {} diameters. Look for a job like it before promising.",
                self.form.number(*ratio, 2)
            ),
            Kind::DeepTestPiece { ratio } => format!(
                "Deeper than the shop has shown: {} diameters. Ask for a test piece.",
                self.form.number(*ratio, 2)
            ),
            Kind::DepthBySteps { by_mm, two_steps } => format!(
                "A depth is as sure as the wear: measure the first hole and set the depth by it. After that holes scatter by {}{}.",
                self.length(*by_mm),
                if *two_steps { ", each drilled in two steps" } else { "" }
            ),
            Kind::DepthNotToBePromised { by_mm, allowed_mm, is_general } => {
                let allowed = self.length(*allowed_mm);
                format!(
                    "The depth is not to be promised: in two steps too, holes scatter by {}, and {}.",
                    self.length(*by_mm),
                    if *is_general {
                        format!("without limits of its own ISO 2768-m stands: {allowed} to either side")
                    } else {
                        format!("{allowed} are allowed")
                    }
                )
            }
            Kind::DirectionsAssumed { rows } => format!(
                "{} no hole locations: one direction per row was assumed for the setups.",
                if *rows == 1 { "One row has".to_owned() } else { format!("{rows} rows have") }
            ),
            Kind::OutsidePart { together: false } => "Locations lie outside of the part's size, wherever on \
                 it zero is: check the size, x, y and z, and the locations."
                .to_owned(),
            Kind::OutsidePart { together: true } => "The locations don't lie on the part's size about one zero: \
                 check the size, x, y and z, and from where the locations are measured."
                .to_owned(),
            Kind::PlacesAlike { places } => match places {
                1 => "One location is the same as another of this row: check them.".to_owned(),
                places => format!("{places} locations are the same as others of this row: check them."),
            },
            Kind::SeveralSetups { setups } => {
                format!("The directions need {setups} setups of each part.")
            }
            Kind::PartTooLarge { part_mm, machine_mm } => format!(
                "The part is {}, the machine takes {}.",
                size(part_mm),
                size(machine_mm)
            ),
            Kind::PartTooHeavy { mass_kg, machine_kg } => format!(
                "The part weighs {} kg, the machine takes {} kg. Mind how it is lifted.",
                self.form.number(*mass_kg, 3),
                self.form.number(*machine_kg, 3)
            ),
            Kind::MinimumCharge { minimum } => format!(
                "The minimum charge of {} sets the price.",
                self.amount(*minimum)
            ),
            Kind::Overruled { figure, computed, stands } => {
                let unit = super::workings::unit_of(*figure);
                let stands = self.quantity(*stands, unit);
                match computed {
                    Some(computed) => format!(
                        "{} was overruled: {stands} is used, {} was computed.",
                        capital(&self.figure(*figure)),
                        self.quantity(*computed, unit)
                    ),
                    None => format!(
                        "{} was overruled: {stands} is used, nothing could be computed.",
                        capital(&self.figure(*figure))
                    ),
                }
            }
            Kind::PriceTooLarge => "There is no price: it has more digits than money can have. Look at the quantity, the margin, the overruled figures and the shop's rates.".to_owned(),
            Kind::MarginImpossible { margin } => format!(
                "A margin of {} on the price is not possible: it must be at least 0 and below 100 %, so there is no price.",
                self.form.percent(*margin)
            ),
        }
    }

    /// A name that the shop's tables don't have.
    #[must_use]
    pub fn unknown(&self, name: &UnknownName) -> String {
        match name {
            UnknownName::Material(name) => format!(
                "\u{201c}{name}\u{201d} is not in the shop's list of materials: choose one from the list, or add it on the shop's page (F7)."
            ),
            UnknownName::Machine(name) => format!(
                "\u{201c}{name}\u{201d} is not in the shop's list of machines: choose one from the list."
            ),
            UnknownName::Tube(_, name) => format!(
                "\u{201c}{name}\u{201d} is not in the shop's list of electrodes: choose one from the list, or leave the cell empty."
            ),
            UnknownName::LayerMaterial(_, name) => format!(
                "The layer's \u{201c}{name}\u{201d} is not in the shop's list of materials: choose one from the list, or add it on the shop's page (F7)."
            ),
            UnknownName::OverruledTube(name) => format!(
                "Electrodes of \u{201c}{name}\u{201d} were overruled, which is not in the shop's list: withdraw that, or add the electrode on the shop's page (F7)."
            ),
        }
    }
}

/// A row that stands on the shop's page and can't be used as it is typed there.
pub(crate) fn left_out(name: &str, note: &ShopNote) -> String {
    format!("\u{201c}{name}\u{201d} stands on the shop's page (F7) and can't be used: {note}")
}
