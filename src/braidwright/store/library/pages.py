"""pages: the rows on the pages of a SQLite file, read without SQLite, so that no other page has to be whole.

Only leaves of tables are read, each by itself; a row that contradicts itself is passed over. Free pages hold nothing,
since the library overwrites what it deletes.

Source: the SQLite project, Database File Format, sections 1.5 (b-tree pages), 1.6 (overflow), 2.1 (records).
"""

from collections.abc import Iterator
from typing import Final

from braidwright.store.library.schema import PAGE_BYTES

HEAD_BYTES: Final = 100  # of the file, on its first page
LEAF_OF_A_TABLE: Final = 13
LEAF_HEAD_BYTES: Final = 8
MOST_LOCAL: Final = PAGE_BYTES - 35  # bytes of a row that stay on its page
LEAST_LOCAL: Final = (PAGE_BYTES - 12) * 32 // 255 - 23
ON_OVERFLOW: Final = PAGE_BYTES - 4
INTEGER_BYTES: Final = (0, 1, 2, 3, 4, 6, 8)  # by serial type

Value = int | str | bytes | None
Row = tuple[Value, ...]


def rows_on_pages(content: bytes) -> Iterator[tuple[int, Row]]:
    """Every row that can be read, with its number in its table; the table is not told.

    Args:
        content: The file.
    """
    for start in range(0, len(content), PAGE_BYTES):
        head = start + (HEAD_BYTES if start == 0 else 0)
        if content[head : head + 1] != bytes([LEAF_OF_A_TABLE]):
            continue
        cells = int.from_bytes(content[head + 3 : head + 5], "big")
        for cell in range(min(cells, PAGE_BYTES // 2)):
            place = head + LEAF_HEAD_BYTES + 2 * cell
            try:
                yield _row_at(content, start, int.from_bytes(content[place : place + 2], "big"))
            except (ValueError, IndexError):
                continue


def _row_at(content: bytes, start: int, offset: int) -> tuple[int, Row]:
    size, at = _varint(content, start + offset)
    number, at = _varint(content, at)
    return number, _record(_payload(content, at, size, start + PAGE_BYTES))


def _payload(content: bytes, at: int, size: int, end: int) -> bytes:
    """The bytes of a row, gathered from its page and from those it runs over to."""
    if size > len(content):
        raise ValueError("longer than the file")
    if size <= MOST_LOCAL:
        local, more = size, 0
    else:
        fitting = LEAST_LOCAL + (size - LEAST_LOCAL) % ON_OVERFLOW
        local = fitting if fitting <= MOST_LOCAL else LEAST_LOCAL
        more = int.from_bytes(content[at + local : at + local + 4], "big")
    if at + local > end:
        raise ValueError("runs out of its page")
    parts, left = [content[at : at + local]], size - local
    while left > 0:
        page = (more - 1) * PAGE_BYTES
        part = content[page + 4 : page + 4 + min(left, ON_OVERFLOW)] if page >= 0 else b""
        if not part:
            raise ValueError("runs over to a page that is not there")
        parts.append(part)
        left -= len(part)
        more = int.from_bytes(content[page : page + 4], "big")
    return b"".join(parts)


def _record(payload: bytes) -> Row:
    head, at = _varint(payload, 0)
    if head > len(payload):
        raise ValueError("a head longer than its row")
    values: list[Value] = []
    body = head
    while at < head:
        kind, at = _varint(payload, at)
        value, body = _value(payload, body, kind)
        values.append(value)
    if body != len(payload):
        raise ValueError("more or fewer bytes than its values have")
    return tuple(values)


def _value(payload: bytes, at: int, kind: int) -> tuple[Value, int]:
    if kind == 0:
        return None, at
    if kind in (8, 9):
        return kind - 8, at
    if kind < len(INTEGER_BYTES):
        end = at + INTEGER_BYTES[kind]
        return int.from_bytes(payload[at:end], "big", signed=True), end
    if kind < 12:
        raise ValueError("a kind of value that the library does not use")
    end = at + (kind - 12) // 2
    raw = payload[at:end]
    return (raw.decode() if kind % 2 else raw), end


def _varint(content: bytes, at: int) -> tuple[int, int]:
    """A whole number of one to nine bytes, seven bits in each but the ninth."""
    value = 0
    for count in range(8):
        byte = content[at + count]
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at + count + 1
    return value << 8 | content[at + 8], at + 9
