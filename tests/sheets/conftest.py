"""Write small workbooks for the tests, in each of the forms a job may have."""

import csv
import datetime as dt

import odf.opendocument
import odf.table
import odf.text
import openpyxl
import pytest

PERCENT = "percent"
FORMULA = "formula"


@pytest.fixture(params=[".xlsx", ".ods", ".csv"])
def suffix(request):
    """Return each form a workbook may have."""
    return request.param


@pytest.fixture
def write(tmp_path):
    """Return a function that writes tables, {sheet: rows of cells}, and returns the path.

    A cell is plain, ("percent", 0.18) for one shown as 18 %, or ("formula", "1+2") for one whose
    result was never saved.
    """

    def write_tables(tables, suffix=".xlsx", name="job"):
        path = tmp_path / (name if suffix == ".csv" else f"{name}{suffix}")
        {".xlsx": _xlsx, ".ods": _ods, ".csv": _csv}[suffix](tables, path)
        return path

    return write_tables


def _xlsx(tables, path):
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in tables.items():
        sheet = book.create_sheet(name)
        for r, row in enumerate(rows, start=1):
            for c, value in enumerate(row, start=1):
                cell = sheet.cell(r, c)
                match value:
                    case (kind, number) if kind == PERCENT:
                        cell.value, cell.number_format = number, "0.0%"
                    case (kind, formula) if kind == FORMULA:
                        cell.value = f"={formula}"
                    case _:
                        cell.value = value
    book.save(path)


def _csv(tables, path):
    path.mkdir()
    for name, rows in tables.items():
        with (path / f"{name}.csv").open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream).writerows([_csv_text(value) for value in row] for row in rows)


def _csv_text(value):
    match value:
        case (kind, number) if kind == PERCENT:
            return f"{100 * number:g} %"
        case None:
            return ""
        case dt.date():
            return value.isoformat()
        case _:
            return value


def _ods(tables, path):
    document = odf.opendocument.OpenDocumentSpreadsheet()
    for name, rows in tables.items():
        table = odf.table.Table(name=name)
        for row in rows:
            line = odf.table.TableRow()
            for value in row:
                line.addElement(_ods_cell(value))
            table.addElement(line)
        document.spreadsheet.addElement(table)
    document.save(path)


def _ods_cell(value):
    match value:
        case None | "":
            return odf.table.TableCell()
        case (kind, number) if kind == PERCENT:
            cell = odf.table.TableCell(valuetype="percentage", value=number)
            cell.addElement(odf.text.P(text=f"{100 * number:g} %"))
        case (kind, formula) if kind == FORMULA:
            cell = odf.table.TableCell(formula=f"of:={formula}")
        case dt.date():
            cell = odf.table.TableCell(valuetype="date", datevalue=value.isoformat())
            cell.addElement(odf.text.P(text=value.isoformat()))
        case int() | float():
            cell = odf.table.TableCell(valuetype="float", value=value)
            cell.addElement(odf.text.P(text=str(value)))
        case _:
            cell = odf.table.TableCell(valuetype="string")
            cell.addElement(odf.text.P(text=str(value)))
    return cell
