#!/usr/bin/env python3
"""Writes the workbooks beside it with three libraries, and what stands in them into truth.json.

    pip install openpyxl==3.1.5 XlsxWriter==3.3.1 odfpy==1.4.1
    tests/workbook-corpus/write.py

Truth is what the script put into each cell, as text; no reader of ours has a part in it.
"""
import datetime
import io
import json
import pathlib
import zipfile

import openpyxl
import xlsxwriter
from odf.office import Annotation
from odf.opendocument import OpenDocumentSpreadsheet
from odf.style import Style, TableProperties
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P

HERE = pathlib.Path(__file__).parent
HEAD = ["Hole", "Qty", "Dia mm", "Depth mm", "End", "Note"]
ROWS = [
    ["A", 12, 0.8, 14.5, "through", ""],
    ["B", 4, 1.02, 30, "blind", "both sides"],
    ["C", 1, 0.5, 6.25, "through", "see B-B"],
    ["D", 36, 0.1 + 0.2, 3, "blind", ""],
]
truth = {}
STAMP = datetime.datetime(2026, 1, 5, 8, 0, 0)


def row(mark, count, size, depth, end, note):
    return {"mark": mark, "count": count, "size": size, "depth": depth, "end": end, "note": note}


PLAIN = [
    row("A", "12", "0.8", "14.5", "through", ""),
    row("B", "4", "1.02", "30", "blind", "both sides"),
    row("C", "1", "0.5", "6.25", "through", "see B-B"),
    row("D", "36", "0.3", "3", "blind", ""),
]


def tell(name, sheet, rows, **more):
    truth[name] = {"sheet": sheet, "rows": rows, **more}


def steady(path):
    """The same bytes whenever it is written: parts by name, one date."""
    parts = zipfile.ZipFile(io.BytesIO(path.read_bytes()))
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name in parts.namelist():
            part = zipfile.ZipInfo(name, (2026, 1, 5, 8, 0, 0))
            part.compress_type = zipfile.ZIP_DEFLATED
            text = parts.read(name)
            if path.suffix == ".xlsm":
                # The library writes workbooks with macros only where it has read some.
                text = text.replace(
                    b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
                    b"application/vnd.ms-excel.sheet.macroEnabled.main+xml",
                )
            packed.writestr(part, text)
    path.write_bytes(out.getvalue())


def by_xlsxwriter(name, fill):
    book = xlsxwriter.Workbook(HERE / name)
    book.set_properties({"created": STAMP})
    fill(book)
    book.close()
    steady(HERE / name)


def by_openpyxl(name, fill):
    book = openpyxl.Workbook()
    fill(book)
    book.properties.created = book.properties.modified = STAMP
    book.save(HERE / name)
    steady(HERE / name)


def lay(sheet, rows, first=0):
    for at, cells in enumerate(rows, first):
        for column, value in enumerate(cells):
            if value != "":
                sheet.write(at, column, value)


def plain(book):
    lay(book.add_worksheet("Sheet1"), [HEAD, *ROWS])


def chart_and_formulas(book):
    sheet = book.add_worksheet("Holes")
    lay(sheet, [HEAD, *ROWS])
    sheet.write_formula(1, 3, "=7.25*2", None, 14.5)
    sheet.write_formula(6, 1, "=SUM(B2:B5)", None, 53)
    sheet.write(6, 0, "Total")
    chart = book.add_chart({"type": "line"})
    chart.add_series({"values": "=Holes!$C$2:$C$5"})
    book.add_chartsheet("Chart").set_chart(chart)


def units_in_formats(book):
    sheet = book.add_worksheet("Holes")
    mm = book.add_format({"num_format": '0.00" mm"'})
    inch = book.add_format({"num_format": '0.0000\\"'})
    lay(sheet, [["Hole", "Qty", "Dia", "Depth"]])
    for at, (mark, count, size, depth, form) in enumerate(
        [("A", 12, 0.8, 14.5, mm), ("B", 4, 0.0315, 0.5, inch)], 1
    ):
        sheet.write(at, 0, mark)
        sheet.write(at, 1, count)
        sheet.write(at, 2, size, form)
        sheet.write(at, 3, depth, form)


def several(book):
    cover = book.active
    cover.title = "Cover"
    cover["A1"] = "Inquiry 7"
    cover["A2"] = "Please quote the holes on the next sheet."
    holes = book.create_sheet("Hole list")
    for cells in [HEAD, *ROWS]:
        holes.append(cells)
    old = book.create_sheet("Rev A")
    for cells in [HEAD, *ROWS[:2]]:
        old.append(cells)
    old.sheet_state = "hidden"
    contacts = book.create_sheet("Contacts")
    contacts.append(["Name", "Phone"])
    contacts.append(["M. Orrin", "555 0142"])


def two_lists(book):
    first = book.active
    first.title = "Side 1"
    second = book.create_sheet("Side 2")
    for cells in [HEAD, *ROWS]:
        first.append(cells)
    for cells in [HEAD, *ROWS[:2]]:
        second.append(cells)


def merged(book):
    sheet = book.active
    sheet.title = "Holes"
    sheet["A1"] = "Cover plate 31-220, rev C"
    sheet.merge_cells("A1:F1")
    for at, cells in enumerate([HEAD, *ROWS], 3):
        for column, value in enumerate(cells, 1):
            sheet.cell(at, column, value)
    # One end for A and B.
    sheet["E5"] = None
    sheet.merge_cells("E4:E5")


def texts(book):
    sheet = book.active
    for cells in [
        ["Bohrung", "Anzahl", "Durchmesser", "Tiefe", "Bemerkung"],
        ["A", "12x", "0,80 ±0,02", "14,5", ""],
        ["B", "4", "⌀1,02 H7", "30,0", "beidseitig"],
    ]:
        sheet.append(cells)
    for cells in sheet.iter_rows():
        for cell in cells:
            cell.number_format = "@"


def dates(book):
    sheet = book.active
    sheet.append(["Hole", "Qty", "Dia in", "Depth in"])
    sheet.append(["A", 12, 0.0315, 0.5])
    # Somebody typed 1/32.
    sheet.append(["B", 4, datetime.date(2032, 1, 1), 0.75])


def uncalculated(book):
    sheet = book.active
    for cells in [HEAD, *ROWS]:
        sheet.append(cells)
    # This library writes formulas without results.
    sheet["D3"] = "=15*2"


def macros(book):
    plain_sheet = book.active
    for cells in [HEAD, *ROWS]:
        plain_sheet.append(cells)


def cell(value, **more):
    if isinstance(value, (int, float)):
        made = TableCell(valuetype="float", value=value, **more)
        made.addElement(P(text=f"{value:g}"))
    else:
        made = TableCell(valuetype="string", **more) if value else TableCell(**more)
        if value:
            made.addElement(P(text=value))
    return made


def by_odfpy():
    book = OpenDocumentSpreadsheet()
    hidden = Style(name="hidden", family="table")
    hidden.addElement(TableProperties(display="false"))
    book.automaticstyles.addElement(hidden)
    notes = Table(name="Old", stylename=hidden)
    for cells in [HEAD, *ROWS[:1]]:
        line = TableRow()
        for value in cells:
            line.addElement(cell(value))
        notes.addElement(line)
    book.spreadsheet.addElement(notes)
    sheet = Table(name="Holes")
    title = TableRow()
    title.addElement(cell("Cover plate 31-220", numbercolumnsspanned=6, numberrowsspanned=1))
    title.addElement(CoveredTableCell(numbercolumnsrepeated=5))
    sheet.addElement(title)
    empty = TableRow(numberrowsrepeated=2)
    empty.addElement(TableCell(numbercolumnsrepeated=1024))
    sheet.addElement(empty)
    head = TableRow()
    for value in HEAD:
        head.addElement(cell(value))
    sheet.addElement(head)
    for at, cells in enumerate(ROWS):
        line = TableRow()
        for column, value in enumerate(cells):
            made = cell(value)
            if at == 0 and column == 2:
                remark = Annotation()
                remark.addElement(P(text="0.9 on the old drawing"))
                made.addElement(remark)
            line.addElement(made)
        line.addElement(TableCell(numbercolumnsrepeated=1000))
        sheet.addElement(line)
    # Two holes as one line that stands there twice, and all the rest of the sheet.
    twice = TableRow(numberrowsrepeated=2)
    for value in ["E", 2, 0.8, 5, "through", ""]:
        twice.addElement(cell(value))
    sheet.addElement(twice)
    rest = TableRow(numberrowsrepeated=1048000)
    rest.addElement(TableCell(numbercolumnsrepeated=1024))
    sheet.addElement(rest)
    book.spreadsheet.addElement(sheet)
    book.save(HERE / "plain.ods")
    steady(HERE / "plain.ods")
    twice = row("E", "2", "0.8", "5", "through", "")
    tell("plain.ods", "Holes", [*PLAIN, twice, twice], first_line=5)


by_xlsxwriter("plain.xlsx", plain)
tell("plain.xlsx", "Sheet1", PLAIN, first_line=2)
by_xlsxwriter("formulas.xlsx", chart_and_formulas)
tell("formulas.xlsx", "Holes", PLAIN, first_line=2)
by_xlsxwriter("units.xlsx", units_in_formats)
tell(
    "units.xlsx",
    "Holes",
    [row("A", "12", "0.8 mm", "14.5 mm", "", ""), row("B", "4", "0.0315 in", "0.5 in", "", "")],
    first_line=2,
)
by_openpyxl("several.xlsx", several)
tell("several.xlsx", "Hole list", PLAIN, first_line=2, others=["Cover", "Rev A", "Contacts"])
by_openpyxl("two-lists.xlsx", two_lists)
tell("two-lists.xlsx", "Side 1", PLAIN, first_line=2, others=["Side 2"])
by_openpyxl("merged.xlsx", merged)
tell(
    "merged.xlsx",
    "Holes",
    [PLAIN[0], {**PLAIN[1], "end": "through"}, *PLAIN[2:]],
    first_line=4,
    told="merged over several lines was taken for each of them: line 5",
)
by_openpyxl("texts.xlsx", texts)
tell(
    "texts.xlsx",
    "Sheet",
    [
        row("A", "12x", "0,80 ±0,02", "14,5", "", ""),
        row("B", "4", "⌀1,02 H7", "30,0", "", "beidseitig"),
    ],
    first_line=2,
)
by_openpyxl("dates.xlsx", dates)
tell(
    "dates.xlsx",
    "Sheet",
    [row("A", "12", "0.0315", "0.5", "", ""), row("B", "4", "2032-01-01", "0.75", "", "")],
    first_line=2,
    told="There are dates: line 3",
)
by_openpyxl("uncalculated.xlsx", uncalculated)
tell(
    "uncalculated.xlsx",
    "Sheet",
    [PLAIN[0], {**PLAIN[1], "depth": ""}, *PLAIN[2:]],
    first_line=2,
    told="Formulas without a result were taken as empty: line 3",
)
by_openpyxl("macros.xlsm", macros)
tell("macros.xlsm", "Sheet", PLAIN, first_line=2)
by_odfpy()
(HERE / "truth.json").write_text(json.dumps(truth, indent=1, ensure_ascii=False) + "\n")
