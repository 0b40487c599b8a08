//! The texts of a drawing, by its version and the code page that it names.

use encoding_rs::{
    BIG5, EUC_KR, Encoding, GBK, IBM866, ISO_8859_2, ISO_8859_4, ISO_8859_5, ISO_8859_7, SHIFT_JIS,
    WINDOWS_874, WINDOWS_1250, WINDOWS_1251, WINDOWS_1252, WINDOWS_1253, WINDOWS_1254,
    WINDOWS_1255, WINDOWS_1256, WINDOWS_1257, WINDOWS_1258,
};

/// How bytes are read as text.
#[derive(Clone, Copy)]
pub(super) struct CodePage {
    /// True from 2007 on.
    utf_8: bool,
    page: &'static Encoding,
}

impl Default for CodePage {
    fn default() -> Self {
        Self {
            utf_8: false,
            page: WINDOWS_1252,
        }
    }
}

impl CodePage {
    /// What a version says: AC1021 and later are UTF-8.
    pub(super) fn set_version(&mut self, version: &[u8]) {
        self.utf_8 =
            version.len() == 6 && version.starts_with(b"AC") && version >= b"AC1021".as_slice();
    }

    /// What the name of a code page says; one that is not known is read as Western European.
    pub(super) fn set_page(&mut self, name: &[u8]) {
        let name = name.to_ascii_lowercase();
        let number = name.split(|byte| *byte == b'_').next_back();
        self.page = match number.unwrap_or_default() {
            b"874" => WINDOWS_874,
            b"932" => SHIFT_JIS,
            b"936" | b"gb2312" => GBK,
            b"949" => EUC_KR,
            b"950" | b"big5" => BIG5,
            b"1250" => WINDOWS_1250,
            b"1251" => WINDOWS_1251,
            b"1253" => WINDOWS_1253,
            b"1254" => WINDOWS_1254,
            b"1255" => WINDOWS_1255,
            b"1256" => WINDOWS_1256,
            b"1257" => WINDOWS_1257,
            b"1258" => WINDOWS_1258,
            b"dos866" => IBM866,
            b"iso8859-2" => ISO_8859_2,
            b"iso8859-4" => ISO_8859_4,
            b"iso8859-5" => ISO_8859_5,
            b"iso8859-7" => ISO_8859_7,
            _ => WINDOWS_1252,
        };
    }

    /// Bytes as text.
    pub(super) fn read(self, bytes: &[u8]) -> String {
        // Many writers put UTF-8 into files of old versions; two of its bytes are hardly ever anything else
        // in a page of single bytes.
        if (self.utf_8 || self.page.is_single_byte())
            && let Ok(text) = str::from_utf8(bytes)
        {
            return text.to_owned();
        }
        self.page.decode_without_bom_handling(bytes).0.into_owned()
    }
}
