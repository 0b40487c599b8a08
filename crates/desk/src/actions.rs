//! What a user can do, in one list: the keys, where it stands, and what it wants first.

use egui::{Context, Key, KeyboardShortcut, Modifiers};

/// Something a user can do with one word or one key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// Begin a job.
    New,
    /// Open a job's file.
    Open,
    /// Save the job.
    Save,
    /// Save the job under another name.
    SaveAs,
    /// Do what comes next for the job: the first press shows it, the second does it.
    NextStep,
    /// Go to the next stop or check.
    NextNote,
    /// Show the pages of the paper that comes next.
    Preview,
    /// Write previews of the papers as PDF.
    Print,
    /// Take holes from a customer's file.
    TakeHoles,
    /// Take the last edit back.
    Undo,
    /// Do it again.
    Redo,
    /// Begin a job that does the open one again.
    Again,
    /// Copy the sentence in the foot.
    CopyFoot,
    /// Show the section of the hole one is at, where the margin is too narrow for it.
    Picture,
    /// Type to find a job on the shelf.
    Find,
    /// Lay the next open job on top.
    NextJob,
    /// Close the open job.
    CloseJob,
    /// Every command there is, with its keys.
    Commands,
    /// What can be typed where one is at, and the keys that save most.
    Help,
    /// What the desk remembers.
    Settings,
    /// What waits today, over the sheet.
    Today,
    /// The shop itself, over the sheet.
    Shop,
    /// What the shop has learned, over the sheet.
    Learned,
    /// Show and read millimeters or inches.
    OtherUnit,
    /// Dark paper or light paper.
    OtherPaper,
    /// Fold the shelf away or lay it out.
    Shelf,
    /// Close the window; what is not saved is asked about first.
    Quit,
    /// Larger.
    Larger,
    /// Smaller.
    Smaller,
    /// As large as at the start.
    UsualSize,
}

const fn plain(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn shifted(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), key)
}

impl Action {
    /// Every action, in the order of the head.
    pub const ALL: &[Self] = &[
        Self::New,
        Self::Open,
        Self::Save,
        Self::SaveAs,
        Self::NextStep,
        Self::NextNote,
        Self::Preview,
        Self::Print,
        Self::TakeHoles,
        Self::Undo,
        Self::Redo,
        Self::Again,
        Self::CopyFoot,
        Self::Picture,
        Self::Find,
        Self::NextJob,
        Self::CloseJob,
        Self::OtherUnit,
        Self::OtherPaper,
        Self::Shelf,
        Self::Commands,
        Self::Help,
        Self::Today,
        Self::Shop,
        Self::Learned,
        Self::Settings,
        Self::Quit,
        Self::Larger,
        Self::Smaller,
        Self::UsualSize,
    ];

    /// The keys that do it; the first is the one that is told.
    #[must_use]
    pub const fn keys(self) -> &'static [KeyboardShortcut] {
        match self {
            Self::New => const { &[plain(Key::N)] },
            Self::Open => const { &[plain(Key::O)] },
            Self::Save => const { &[plain(Key::S)] },
            Self::SaveAs => const { &[shifted(Key::S)] },
            Self::NextStep => const { &[plain(Key::Enter)] },
            Self::NextNote => const { &[KeyboardShortcut::new(Modifiers::NONE, Key::F3)] },
            Self::Preview => const { &[plain(Key::P)] },
            Self::Print => const { &[shifted(Key::P)] },
            Self::TakeHoles => const { &[plain(Key::I)] },
            Self::Undo => const { &[plain(Key::Z)] },
            Self::Redo => const { &[shifted(Key::Z), plain(Key::Y)] },
            Self::Again => const { &[plain(Key::R)] },
            Self::CopyFoot => const { &[shifted(Key::C)] },
            Self::Picture => const { &[KeyboardShortcut::new(Modifiers::NONE, Key::F4)] },
            Self::Find => const { &[plain(Key::F)] },
            Self::NextJob => const { &[plain(Key::J)] },
            Self::CloseJob => const { &[plain(Key::W)] },
            Self::Commands => const { &[plain(Key::K)] },
            Self::Today => const { &[KeyboardShortcut::new(Modifiers::NONE, Key::F5)] },
            Self::Shop => const { &[KeyboardShortcut::new(Modifiers::NONE, Key::F7)] },
            Self::Learned => const { &[KeyboardShortcut::new(Modifiers::NONE, Key::F8)] },
            Self::Help => const { &[KeyboardShortcut::new(Modifiers::NONE, Key::F1)] },
            Self::Settings => const { &[plain(Key::Comma)] },
            Self::OtherUnit => const { &[plain(Key::U)] },
            Self::OtherPaper => const { &[plain(Key::L)] },
            Self::Shelf => const { &[plain(Key::B)] },
            Self::Quit => const { &[plain(Key::Q)] },
            Self::Larger => const { &[plain(Key::Plus), plain(Key::Equals)] },
            Self::Smaller => const { &[plain(Key::Minus)] },
            Self::UsualSize => const { &[plain(Key::Num0)] },
        }
    }

    /// Whether a text editor that has the keyboard takes these keys for itself.
    #[must_use]
    pub const fn is_also_of_text(self) -> bool {
        matches!(self, Self::Undo | Self::Redo)
    }

    /// Whether it is about the job on top, and not about the window.
    #[must_use]
    pub const fn is_of_job(self) -> bool {
        matches!(
            self,
            Self::New
                | Self::Open
                | Self::Save
                | Self::SaveAs
                | Self::NextStep
                | Self::NextNote
                | Self::Preview
                | Self::Print
                | Self::TakeHoles
                | Self::Undo
                | Self::Redo
                | Self::Again
                | Self::CopyFoot
                | Self::CloseJob
                | Self::OtherUnit
        )
    }

    /// Whether what is being typed has to be put in its place first.
    #[must_use]
    pub const fn wants_drafts_committed(self) -> bool {
        matches!(self, Self::NextJob) || (self.is_of_job() && !self.is_also_of_text())
    }

    /// The first of its keys, as this system writes them.
    #[must_use]
    pub fn told_keys(self, ctx: &Context) -> String {
        let first = self.keys().first();
        first.map_or_else(String::new, |keys| ctx.format_shortcut(keys))
    }
}

/// The actions whose keys were pressed, taken out of the input; while somebody is typing, the text has its
/// own first.
#[must_use]
pub fn pressed(ctx: &Context, typing: bool) -> Vec<Action> {
    let mut wanted: Vec<(Action, KeyboardShortcut)> = Action::ALL
        .iter()
        .filter(|action| !(typing && action.is_also_of_text()))
        .flat_map(|&action| action.keys().iter().map(move |&key| (action, key)))
        .collect();
    // The longer chord first, or Ctrl+Shift+S would be heard as Ctrl+S.
    wanted.sort_by_key(|(_, key)| !key.modifiers.shift);
    ctx.input_mut(|input| {
        wanted
            .into_iter()
            .filter(|(_, key)| input.consume_shortcut(key))
            .map(|(action, _)| action)
            .collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::grid;
    use std::collections::BTreeMap;

    #[test]
    fn no_two_actions_share_a_key() {
        let mut seen = BTreeMap::new();
        for &action in Action::ALL {
            for key in action.keys() {
                let name = format!("{:?} {:?}", key.modifiers, key.logical_key);
                let before = seen.insert(name.clone(), action);
                assert_eq!(before, None, "{name} does {before:?} and {action:?}");
            }
        }
    }

    #[test]
    fn no_action_takes_a_key_of_the_table_or_of_the_clipboard() {
        for &action in Action::ALL {
            for key in action.keys() {
                assert!(
                    !grid::uses_key(key.logical_key, key.modifiers),
                    "{action:?}"
                );
                let clipboard = [Key::C, Key::X, Key::V].contains(&key.logical_key);
                assert!(!clipboard || key.modifiers.shift, "{action:?}");
            }
        }
    }
}
