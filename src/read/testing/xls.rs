//! A small xls file from its records (MS-XLS, MS-CFB), for the tests of this stage.

/// One record.
pub(in crate::read) fn record(kind: u16, data: &[u8]) -> Vec<u8> {
    let length = u16::try_from(data.len()).expect("a short record");
    [&kind.to_le_bytes()[..], &length.to_le_bytes(), data].concat()
}

/// A number cell; row and column count from 0.
pub(in crate::read) fn number(row: u16, column: u16, value: f64) -> Vec<u8> {
    record(
        0x0203,
        &[&place(row, column)[..], &value.to_le_bytes()].concat(),
    )
}

/// A text cell.
pub(in crate::read) fn label(row: u16, column: u16, text: &str) -> Vec<u8> {
    let length = u16::try_from(text.len()).expect("a short text");
    record(
        0x0204,
        &[
            &place(row, column)[..],
            &length.to_le_bytes(),
            &[0],
            text.as_bytes(),
        ]
        .concat(),
    )
}

/// A formula that multiplies the two cells left of it, with a stored result.
pub(in crate::read) fn product(row: u16, column: u16, stored: f64) -> Vec<u8> {
    let cell = |column: u16| {
        [
            &[0x44][..],
            &row.to_le_bytes(),
            &(column | 0xC000).to_le_bytes(),
        ]
        .concat()
    };
    let steps = [cell(column - 2), cell(column - 1), vec![0x05]].concat();
    let length = u16::try_from(steps.len()).expect("a short formula");
    let head = [
        &place(row, column)[..],
        &stored.to_le_bytes(),
        &[0; 6],
        &length.to_le_bytes(),
    ]
    .concat();
    record(0x0006, &[head, steps].concat())
}

fn place(row: u16, column: u16) -> Vec<u8> {
    [row.to_le_bytes(), column.to_le_bytes(), [0, 0]].concat()
}

/// A row's settings.
pub(in crate::read) fn row(row: u16, hidden: bool) -> Vec<u8> {
    let flags = if hidden { 0x20 } else { 0u16 };
    record(
        0x0208,
        &[
            row.to_le_bytes(),
            [0; 2],
            [8, 0],
            [0xFF, 0],
            [0; 2],
            [0; 2],
            flags.to_le_bytes(),
            [15, 0],
        ]
        .concat(),
    )
}

/// Settings of columns.
pub(in crate::read) fn columns(first: u16, last: u16, hidden: bool) -> Vec<u8> {
    record(
        0x007D,
        &[
            first.to_le_bytes(),
            last.to_le_bytes(),
            [0, 9],
            [15, 0],
            u16::from(hidden).to_le_bytes(),
            [0; 2],
        ]
        .concat(),
    )
}

/// A workbook of one sheet; `before` are records of the workbook itself.
pub(in crate::read) fn workbook(before: &[Vec<u8>], cells: &[Vec<u8>]) -> Vec<u8> {
    let begin = |kind: u16| {
        record(
            0x0809,
            &[[0, 6], kind.to_le_bytes(), [0; 2], [0; 2]].concat(),
        )
    };
    let end = record(0x000A, &[]);
    let globals = [begin(5), before.concat()].concat();
    let name = b"List";
    let sheet_entry = |at: u32| {
        record(
            0x0085,
            &[&at.to_le_bytes()[..], &[0, 0, name.len() as u8, 0], name].concat(),
        )
    };
    let start = globals.len() + sheet_entry(0).len() + end.len();
    let start = u32::try_from(start).expect("a short workbook");
    let stream = [
        globals,
        sheet_entry(start),
        end.clone(),
        begin(0x10),
        cells.concat(),
        end,
    ]
    .concat();
    compound("Workbook", &stream)
}

/// A compound file of one stream, in full sectors of 512 bytes.
pub(in crate::read) fn compound(name: &str, stream: &[u8]) -> Vec<u8> {
    const END: u32 = 0xFFFF_FFFE;
    let sectors = stream.len().max(4_096).div_ceil(512) as u32;
    let tables = (sectors + 2).div_ceil(127);
    let mut head = vec![0u8; 76];
    head[..8].copy_from_slice(&crate::read::compound::SIGNATURE);
    head[24..34].copy_from_slice(&[0x3E, 0, 3, 0, 0xFE, 0xFF, 9, 0, 6, 0]);
    for (at, value) in [
        (44, tables),
        (48, tables),
        (56, 4_096),
        (60, END),
        (68, END),
    ] {
        head[at..at + 4].copy_from_slice(&value.to_le_bytes());
    }
    let listed = (0..109).map(|index| if index < tables { index } else { u32::MAX });
    head.extend(listed.flat_map(u32::to_le_bytes));
    let first = tables + 1;
    let next = (0..tables * 128).map(|sector| match sector {
        sector if sector < tables => 0xFFFF_FFFD,
        sector if sector == tables => END,
        sector if sector < first + sectors - 1 => sector + 1,
        sector if sector == first + sectors - 1 => END,
        _ => u32::MAX,
    });
    head.extend(next.flat_map(u32::to_le_bytes));
    let entry = |name: &str, kind: u8, start: u32, size: u32| {
        let mut entry = vec![0u8; 128];
        let units: Vec<u8> = name.encode_utf16().flat_map(u16::to_le_bytes).collect();
        entry[..units.len()].copy_from_slice(&units);
        entry[64] = units.len() as u8 + 2;
        entry[66] = kind;
        entry[116..120].copy_from_slice(&start.to_le_bytes());
        entry[120..124].copy_from_slice(&size.to_le_bytes());
        entry
    };
    head.extend(entry("Root Entry", 5, END, 0));
    head.extend(entry(name, 2, first, sectors * 512));
    head.extend(vec![0; 256]);
    head.extend(stream);
    head.resize(512 * (1 + first + sectors) as usize, 0);
    head
}
