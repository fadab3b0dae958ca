import csv
import math
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.errors import ReferenceDataError
from solver.tables import read_table


def written(folder: Path, text: str) -> Path:
    path = folder / "things.csv"
    path.write_text(text, encoding="utf-8", newline="")
    return path


def test_texts_keep_commas_and_inches(tmp_path: Path) -> None:
    table = read_table(written(tmp_path, 'id,text\na,"pat (1"" sq, 1/3"" high)"\n'))
    assert table.texts("text") == ('pat (1" sq, 1/3" high)',)


def test_an_empty_cell_is_missing_and_a_zero_is_not(tmp_path: Path) -> None:
    table = read_table(written(tmp_path, "id,x,y\na,,0\nb,.5,2.0\n"))
    np.testing.assert_array_equal(table.numbers(["y", "x"]), [[0, math.nan], [2, 0.5]])


def test_a_table_without_rows_has_no_numbers(tmp_path: Path) -> None:
    assert read_table(written(tmp_path, "id,x\n")).numbers(["x"]).shape == (0, 1)


@pytest.mark.parametrize("cell", ["3.l4", "-1", "nan", "inf", "-inf ", "1,5", " "])
def test_a_cell_that_is_no_amount_is_refused_with_file_line_and_column(tmp_path: Path, cell: str) -> None:
    table = read_table(written(tmp_path, f'id,x\na,1\nb,"{cell}"\n'))
    with pytest.raises(ReferenceDataError, match=r"things\.csv, line 3: .* in column 'x'"):
        table.numbers(["x"])


def test_a_missing_column_is_refused_by_name(tmp_path: Path) -> None:
    table = read_table(written(tmp_path, "id,x\na,1\n"))
    with pytest.raises(ReferenceDataError, match=r"things\.csv, line 1: there is no column 'y'"):
        table.numbers(["y"])


def test_a_ragged_line_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ReferenceDataError, match=r"things\.csv, line 3: 1 cells under a header of 2"):
        read_table(written(tmp_path, "id,x\na,1\nb\n"))


def test_an_empty_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ReferenceDataError, match=r"things\.csv, line 1: there is no header"):
        read_table(written(tmp_path, ""))


def test_a_missing_file_and_one_that_is_not_utf_8_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ReferenceDataError, match=r"things\.csv: cannot be read"):
        read_table(tmp_path / "things.csv")
    (tmp_path / "things.csv").write_bytes(b"id,x\na,\xe9\n")
    with pytest.raises(ReferenceDataError, match=r"things\.csv: cannot be read"):
        read_table(tmp_path / "things.csv")


@given(
    rows=st.lists(
        st.tuples(st.text("abc,\"' ", max_size=5), st.none() | st.floats(0, 1e6)),
        max_size=8,
    )
)
def test_what_is_written_is_what_is_read(
    rows: list[tuple[str, float | None]], tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.mktemp("table") / "things.csv"
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream, lineterminator="\n").writerows([("text", "x"), *rows])
    table = read_table(path)
    assert table.texts("text") == tuple(text for text, _ in rows)
    expected = [math.nan if number is None else number for _, number in rows]
    np.testing.assert_array_equal(table.numbers(["x"])[:, 0], expected)
