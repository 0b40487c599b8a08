//! Lists of the shop's sheet as tables of text (CSV, RFC 4180): written with a line of heads, and taken in
//! again, row by row by their names.

mod bare;
mod read;
mod write;

pub(crate) use bare::guarded;
pub use read::{Counts, TakenIn, read};
pub use write::write;

use quillbore_job::Unit;
use quillbore_job::shop::sheet::{ShopColumn, ShopKind, ShopList, ShownRow};

/// The lists that are written and taken in.
pub const LISTS: [ShopList; 3] = [
    ShopList::Electrodes,
    ShopList::Materials,
    ShopList::Customers,
];

fn typed_columns(list: ShopList) -> impl Iterator<Item = ShopColumn> {
    let columns = list.columns().iter().copied();
    columns.filter(|column| column.kind() != ShopKind::Computed)
}

/// What counts of a cell; a bare number in another unit than the head's says so.
fn cell(row: &ShownRow, column: ShopColumn, unit: Unit) -> String {
    let typed = row.typed(column);
    let of = if typed.is_empty() {
        Some(Unit::Mm)
    } else {
        typed.unit()
    };
    let text = row.text(column);
    let other = of.filter(|of| *of != unit && column.kind().is_measured());
    other.map_or_else(|| text.to_owned(), |of| with_unit(text, of))
}

fn with_unit(text: &str, unit: Unit) -> String {
    let is_bare = !text.is_empty() && !text.chars().any(char::is_alphabetic);
    if is_bare {
        format!("{text} {}", unit.symbol())
    } else {
        text.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use quillbore_job::shop::Shop;
    use quillbore_job::shop::sheet::{ShopSheet, apply_shop};

    use super::*;

    fn sheet_of(list: ShopList, csv: &str) -> (ShopSheet, String) {
        let taken = read(&ShopSheet::default(), list, csv.as_bytes()).expect("a table");
        let sheet = match &taken.edit {
            Some(edit) => apply_shop(&ShopSheet::default(), edit).expect("an edit"),
            None => ShopSheet::default(),
        };
        (sheet, taken.told)
    }

    #[test]
    fn a_list_comes_back_from_its_own_table() {
        let (sheet, _) = sheet_of(
            ShopList::Customers,
            "name,contact,address,margin\r\nAlder Finch,\"Jo, buying\",\"1 Mill Row\nExampleton\",22 %\r\nQuarry & Sons,,,\r\n",
        );
        let text = write(&sheet, ShopList::Customers);
        let again = read(&sheet, ShopList::Customers, text.as_bytes()).expect("a table");
        assert_eq!(again.edit, None, "{}", again.told);
        let (other, _) = sheet_of(ShopList::Customers, &text);
        assert_eq!(write(&other, ShopList::Customers), text);
        let shop = Shop::of_sheet(&other).expect("a shop");
        assert_eq!(shop.customers[0].address, ["1 Mill Row", "Exampleton"]);
        assert_eq!(shop.customers[0].margin, Some(0.22));
    }

    #[test]
    fn known_rows_are_changed_and_others_new() {
        let csv = "Name;Diameter (in);Price (each);Colour\nbrass 0.50 x 300;;0.9;red\n;0.025;1,2;\n;;3;\n";
        let (sheet, told) = sheet_of(ShopList::Electrodes, csv);
        let shop = Shop::of_sheet(&sheet).expect("a shop");
        assert_eq!(shop.not_used, []);
        let price = |name: &str| {
            let mut tubes = shop.tables.tubes.iter();
            tubes.find(|tube| tube.name == name).map(|tube| tube.price)
        };
        assert_eq!(price("brass 0.50 x 300"), Some(0.9));
        let inch = shop
            .tables
            .tubes
            .iter()
            .find(|tube| (tube.outer_mm - 0.635).abs() < 1e-9);
        assert_eq!(inch.map(|tube| tube.price), Some(1.2));
        for said in ["1 new", "1 changed", "Colour", "line 4"] {
            assert!(told.contains(said), "{said} in {told}");
        }
    }

    #[test]
    fn what_counts_for_nothing_of_a_table_is_told_with_its_line() {
        let csv = "name,diameter,price\nA,0.5,cheap,and more\nB,thin,2\n\nC,0.4,1,\n";
        let (_, told) = sheet_of(ShopList::Electrodes, csv);
        for said in [
            "3 new",
            "behind the last head: line 2.",
            "line 2, price; line 3, diameter",
        ] {
            assert!(told.contains(said), "{said} in {told}");
        }
        assert!(!told.contains("line 5"), "{told}");
    }

    /// A spreadsheet writes a line end within a cell into the cell's quotes.
    #[test]
    fn line_ends_within_cells_are_blanks_and_lines_are_those_of_the_file() {
        for end in ["\n", "\r\n", "\r"] {
            let csv = [
                "name,contact,\"our number",
                "there\",address,margin",
                "\"Alder",
                "",
                "Finch\",\"Jo, ",
                " buying\",7,\"1 Mill Row",
                "Exampleton\",22 %",
                "",
                "Heron,Sam,,,cheap",
                ",\"no",
                "name\",,,",
                "\"heron\",,,,5 %",
                "Knot,,,,5 %,more",
            ];
            let (sheet, told) = sheet_of(ShopList::Customers, &csv.join(end));
            let first = &sheet.own(ShopList::Customers)[0];
            let said = |column| first.cell(column).text();
            assert_eq!(said(ShopColumn::Name), "Alder Finch");
            assert_eq!(said(ShopColumn::Contact), "Jo, buying");
            assert_eq!(said(ShopColumn::TheirNumber), "7");
            let shop = Shop::of_sheet(&sheet).expect("a shop");
            assert_eq!(shop.customers[0].address, ["1 Mill Row", "Exampleton"]);
            for said in [
                "3 new",
                "without a name: line 10.",
                "stood above already: line 12.",
                "behind the last head: line 13.",
                "not used: line 9, margin.",
            ] {
                assert!(told.contains(said), "{said} in {told}");
            }
        }
        // Names of a material stand apart by line ends as well as by semicolons.
        let csv = "name,other names,family\nOurs,\"A 1\n\nB 2\",steel\n";
        let (sheet, _) = sheet_of(ShopList::Materials, csv);
        let names = sheet.own(ShopList::Materials)[0].cell(ShopColumn::OtherNames);
        assert_eq!(names.text(), "A 1; B 2");
    }

    #[test]
    fn a_table_that_is_broken_is_refused_with_where() {
        let many: String = (0..20_001).map(|at| format!("c{at}\n")).collect();
        for (csv, says) in [
            ("name,price\nA,1\n\"B,2\nC,3\n", "line 3 is never closed"),
            (
                "name,diameter,name\nA,0.5,B\n",
                "Two columns of the table are name",
            ),
            (format!("name\n{many}").as_str(), "more than 20000 lines"),
        ] {
            let refused = read(&ShopSheet::default(), ShopList::Electrodes, csv.as_bytes());
            let told = refused.expect_err("refused").to_string();
            assert!(told.contains(says), "{says} in {told}");
        }
        let most: String = (0..20_000).map(|at| format!("c{at}\n")).collect();
        let taken = read(
            &ShopSheet::default(),
            ShopList::Customers,
            format!("name\n{most}").as_bytes(),
        );
        assert!(taken.is_ok());
    }

    #[test]
    fn a_text_that_a_spreadsheet_would_work_out_is_written_as_a_text() {
        let (sheet, _) = sheet_of(ShopList::Customers, "name,phone\n=1+1,+1 555 0100\n");
        let text = write(&sheet, ShopList::Customers);
        assert!(
            text.contains("'=1+1") && text.contains(",+1 555 0100"),
            "{text}"
        );
        let again = read(&sheet, ShopList::Customers, text.as_bytes()).expect("a table");
        assert_eq!(again.edit, None, "{}", again.told);
    }

    #[test]
    fn what_is_no_table_of_the_list_is_refused() {
        for bytes in [&b"price\n3\n"[..], b"", b"\xff\xfe\x00"] {
            assert!(read(&ShopSheet::default(), ShopList::Materials, bytes).is_err());
        }
    }
}
