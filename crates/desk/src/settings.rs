//! What the desk remembers from one day to the next: looks and places, nothing of any job.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

/// The desk's settings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Dark paper instead of light.
    pub dark: bool,
    /// The shelf is laid out.
    pub shelf_open: bool,
    /// Letter paper instead of A4.
    pub letter: bool,
    /// How much larger than usual everything is shown.
    pub zoom: f32,
    /// The folder of the shelf, where another than the usual one was chosen.
    pub shelf: Option<PathBuf>,
    /// What this desk calls itself, for the other desks.
    pub desk_name: String,
    /// The printer, once it was chosen; an empty name is the system's usual one.
    pub printer: Option<String>,
    /// The print command; empty for the system's usual one.
    pub print_command: String,
    /// What is set aside in the day's list, and until when.
    pub put_off: BTreeMap<String, String>,
    /// The day on which the day's list was looked at last.
    pub today_seen: String,
    /// The jobs opened last, the newest first: by name on the shelf, else by path.
    pub recent: Vec<String>,
    /// What columns of each customer's tables hold, by their heads, as somebody said.
    pub heads: BTreeMap<String, Vec<(String, String)>>,
    /// The mark of each shelf that was used here, by its folder: one without it has vanished.
    pub shelves: BTreeMap<PathBuf, String>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            dark: false,
            shelf_open: true,
            letter: false,
            zoom: 1.0,
            shelf: None,
            desk_name: String::new(),
            printer: None,
            print_command: String::new(),
            put_off: BTreeMap::new(),
            today_seen: String::new(),
            recent: Vec::new(),
            heads: BTreeMap::new(),
            shelves: BTreeMap::new(),
        }
    }
}

impl Settings {
    /// Reads the settings; where there are none, or none that can be read, the usual ones.
    #[must_use]
    pub fn read(path: &Path) -> Self {
        let text = std::fs::read_to_string(path).unwrap_or_default();
        let mut settings: Self = serde_json::from_str(&text).unwrap_or_default();
        if !(0.5..=3.0).contains(&settings.zoom) {
            settings.zoom = 1.0;
        }
        settings
    }

    /// Writes the settings.
    ///
    /// # Errors
    /// What the disk says; nothing depends on settings, so it may be passed over.
    pub fn write(&self, path: &Path) -> std::io::Result<()> {
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        let text = serde_json::to_string_pretty(self)?;
        std::fs::write(path, text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_come_back_as_written_and_nonsense_is_passed_over() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("deep/settings.json");
        assert_eq!(Settings::read(&path), Settings::default());
        let settings = Settings {
            dark: true,
            zoom: 1.2,
            ..Settings::default()
        };
        settings.write(&path).expect("written");
        assert_eq!(Settings::read(&path), settings);
        for nonsense in ["", "{", "[1]", "{\"zoom\": 900}", "\u{0}"] {
            std::fs::write(&path, nonsense).expect("written");
            assert_eq!(Settings::read(&path), Settings::default(), "{nonsense:?}");
        }
    }
}
