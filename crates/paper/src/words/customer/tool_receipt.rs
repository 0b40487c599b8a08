//! Words of the receipt for a broken tool.

/// The receipt for a broken tool.
#[derive(Clone, Copy, Debug)]
pub struct ToolReceipt {
    /// The paper's name.
    pub title: &'static str,
    /// Caption of whom to talk to.
    pub contact: &'static str,
    /// Caption of when the part is needed.
    pub due: &'static str,
    /// Caption of how and when the part comes in.
    pub comes_in: &'static str,
    /// Caption of the work material.
    pub material: &'static str,
    /// Caption of the part's size.
    pub size: &'static str,
    /// Caption of its mass.
    pub mass: &'static str,
    /// Caption of what it is worth.
    pub value: &'static str,
    /// Caption of its condition as it came in.
    pub condition: &'static str,
    /// Caption of the day on which it came in, and by whom it was taken.
    pub received: &'static str,
    /// Name of the section of what broke.
    pub broken: &'static str,
    /// Caption of the mark.
    pub mark: &'static str,
    /// Caption of the tool.
    pub tool: &'static str,
    /// Caption of what the tool is made of.
    pub made_of: &'static str,
    /// Caption of how deep below the face it begins.
    pub below: &'static str,
    /// Caption of its length.
    pub left: &'static str,
    /// That nobody measured it.
    pub assumed: &'static str,
    /// Caption of where the hole ends.
    pub end: &'static str,
    /// Caption of what was tried.
    pub tried: &'static str,
    /// Name of the section of what is agreed.
    pub agreed: &'static str,
    /// The price from and to.
    pub from_to: fn(&str, &str) -> String,
    /// The price where one amount is all there is.
    pub price: fn(&str) -> String,
    /// No price is known yet.
    pub no_price: &'static str,
    /// What is asked where it can't be got out.
    pub for_the_try: fn(&str) -> String,
    /// What is not guaranteed.
    pub no_guarantee: &'static str,
    /// Whose risk it is, with a cap where one was agreed.
    pub risk: fn(Option<&str>) -> String,
    /// What the customer signs.
    pub by_customer: &'static str,
    /// What the shop signs.
    pub by_shop: &'static str,
    /// What a tool is, by word.
    pub stuff: fn(quillbore_calc::broken::Stuff) -> &'static str,
    /// Name of what the floor reads.
    pub floor: &'static str,
    /// Caption of the machine.
    pub machine: &'static str,
    /// Caption of the electrode.
    pub electrode: &'static str,
    /// Caption of the burnt hole.
    pub burnt: &'static str,
    /// Caption of the plunges.
    pub plunges: &'static str,
    /// Caption of the setting.
    pub setting: &'static str,
    /// Caption of the limit.
    pub never: &'static str,
    /// Caption of the minutes.
    pub minutes: &'static str,
    /// What is done first.
    pub before: &'static str,
    /// Blanks that the floor fills in.
    pub record: [&'static str; 5],
    /// Plunges beside each other.
    pub on_circle: fn(&str) -> String,
    /// One plunge, then circles.
    pub layered: &'static str,
    /// What stands in the foot.
    pub foot: &'static str,
}
