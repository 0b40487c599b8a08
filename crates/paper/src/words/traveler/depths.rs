//! Words of depths that the first hole decides.

/// Name of the section of depths that the first hole decides.
pub const DEPTHS: &str = "Depths that the first hole decides";
/// What its columns mean.
pub const DEPTHS_REMARK: &str = "setting: what the machine is set to, from touch-off; tip: how far the electrode's end goes from where it touched";
/// What is done with a first try.
pub const FIRST_TRY: &str = "First try: drill the first hole at this setting. It is meant to fall short: it leaves room for \
     less wear than is planned, so that depth and electrode are measured before the depth can be passed; then correct in \
     the same hole. Write the setting that came out into the last column and use it from \
     then on; where it is above tip and wear as planned (hole table), add what it is above to the length to change at. What is \
     missing after a first step: draw out, touch off beside the hole at the same height, keep the old zero; the travel at which \
     it touches is the wear, the depth is the travel before less that; go on by what is missing to the tip of the hole table \
     and by as much wear as the first step had for each millimeter or inch of depth. The tip never goes beyond its limit, whatever the setting says.";
/// A depth that is come to in two steps.
pub const TWO_STEPS: &str = "two steps";
/// What the two steps are.
pub const IN_TWO_STEPS: &str = "Two steps: each later hole to 80\u{a0}% of the setting found, measure as above, then what is missing.";
/// A depth that is come to in one go.
pub const ONE_STEP: &str = "one go";
/// What one go is.
pub const IN_ONE_GO: &str =
    "One go: later holes at the setting found, without measuring on the way.";
/// Head of the depth as drawn.
pub const DRAWN: &str = "Drawing: depth";
/// Head of the first setting.
pub const FIRST_SETTING: &str = "First try: setting";
/// Head of the tip's limit.
pub const NEVER_BEYOND: &str = "Tip never beyond";
/// Head of the clearance behind the exit.
pub const BEHIND: &str = "Clearance behind";
/// Head of how far depths scatter.
pub const SCATTER: &str = "Holes scatter, \u{b1}";
/// Head of how far they may.
pub const ALLOWED: &str = "allowed, \u{b1}";
/// Head of how the depth is come to.
pub const HOW: &str = "Later holes";
/// Head of the setting that came out.
pub const SET_AFTER: &str = "Set after the first hole";
